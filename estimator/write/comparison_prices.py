"""The typed sheet of a comparison: use, offers and terms, each in one cell that the other sheets refer to."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from estimator.pricing.comparison import Comparison
from estimator.pricing.offers import DAYS_PER_MONTH, Offer, Supplier
from estimator.pricing.rent import RentCount
from estimator.shown_units import METRIC, ShownUnits
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.styles import Look

__all__ = ["PRICES", "PriceCells", "state_words", "write_headings", "write_prices"]

PRICES = "Prices"
_VOLUME, _PERCENT = "0.000", "0.0##%"
_OFFER_HEADINGS = (
    "Supplier",
    "Gas",
    "Cylinder",
    "List says",
    "Content m³",
    "Goes back unpaid m³",
    "Usable m³",
    "Price of a cylinder",
    "when compared",
    "Fees per cylinder",
    "Surcharge",
    "Rent rule",
    "Rent",
    "when compared",
    "Days counted",
    "Divided by",
    "Free days",
    "Deposit",
    "Of that kept",
    "Cylinder bought for",
    "Years",
    "Deposit a month",
    "Own cylinder a month",
    "Cost per m³",
)
_USE_HEADINGS = ("Gas", "Month m³", "when compared", "Busy month m³", "Hardest draw m³/h")
_TERMS_HEADINGS = (
    "Supplier",
    "Each delivery",
    "Each invoice",
    "Each month",
    "Minimum order",
    "Invoices per delivery",
    "Most deliveries a month",
    "Gas arrives after days",
)
_WIDTHS = (28, 12, 16, 24, 9, 10, 9, 11, 11, 10, 10, 24, 9, 11, 9, 9, 8, 9, 9, 10, 8, 10, 10, 9)


@dataclass(slots=True)
class PriceCells:
    """Where the typed figures stand; addresses name the sheet."""

    month_m3: dict[str, str] = field(default_factory=dict)
    offers: dict[tuple[str, str, str], dict[str, str]] = field(default_factory=dict)
    """By supplier, gas and cylinder: address of each figure by name."""
    terms: dict[str, dict[str, str]] = field(default_factory=dict)
    stale: str = ""


def write_headings(
    sheet: BookSheet,
    row: int,
    headings: Sequence[str],
    lines: int = 3,
    units: ShownUnits = METRIC,
    gases: Iterable[str] = (),
) -> None:
    """Write column headings, their cubic metres in the units of the gases below, in a row high enough for them."""
    sheet.set_row(row, 15.0 * lines)
    amount, flow = units.gas_units(gases), units.unit("m³/h")
    for column, heading in enumerate(headings):
        said = heading.replace("m³/h", flow) if "m³/h" in heading else heading.replace("m³", amount)
        sheet.text(row, column, said, Look.HEADING)


def state_words(units: ShownUnits) -> str:
    """Return the temperature and pressure of the volumes that the shop is shown."""
    return "70 °F and 1 atm" if units.inch else "15 °C and 101.325 kPa"


def write_prices(book: OutputBook, comparison: Comparison) -> PriceCells:
    """Write the typed sheet and return where its figures stand."""
    sheet = book.sheet(PRICES)
    for column, width in enumerate(_WIDTHS):
        sheet.set_column(column, column, width)
    cells = PriceCells()
    sheet.set_row(0, 26)
    sheet.text(0, 0, "Prices, terms and use", Look.TITLE)
    sheet.text(
        1,
        0,
        "Type in a tinted cell and every cost follows. Sizes, cylinders held and vans stay as they were chosen; run "
        f"the comparison again to choose anew. Money before tax; volumes at {state_words(comparison.units)}.",
        Look.GUIDE,
    )
    row, use_rows = _use(sheet, comparison, cells, 4)
    row, offer_rows = _offers(sheet, comparison, cells, row + 2)
    row = _terms(sheet, comparison, cells, row + 2)
    row = _factors(book, sheet, comparison, row + 2)
    cells.stale = _stale(sheet, use_rows, offer_rows)
    sheet.freeze_panes(4, 1)
    sheet.set_up_page(last_row=row, last_column=len(_OFFER_HEADINGS) - 1, landscape=True)
    sheet.fit_to_pages(2, 0)
    sheet.repeat_columns(0, 2)
    return cells


def _use(sheet: BookSheet, comparison: Comparison, cells: PriceCells, row: int) -> tuple[int, tuple[int, int]]:
    sheet.text(row, 0, "What the shop uses", Look.SUBTITLE)
    units = comparison.units
    write_headings(sheet, row + 1, _USE_HEADINGS, units=units, gases=(use.gas for use in comparison.uses))
    first = row + 2
    for at, use in enumerate(comparison.uses, first):
        sheet.text(at, 0, units.gas_named(use.gas), Look.LABEL)
        sheet.number(at, 1, units.gas(use.month_m3, use.gas), Look.TYPED, _VOLUME)
        sheet.number(at, 2, units.gas(use.month_m3, use.gas), Look.TEXT, _VOLUME)
        sheet.number(at, 3, units.gas(use.reserve_month_m3, use.gas), Look.TEXT, _VOLUME)
        sheet.number(at, 4, units.number(use.highest_draw_m3_h, "m³/h"), Look.TEXT, _VOLUME)
        cells.month_m3[use.gas] = _there(at, 1)
    return first + len(comparison.uses), (first, first + len(comparison.uses) - 1)


def _offers(sheet: BookSheet, comparison: Comparison, cells: PriceCells, row: int) -> tuple[int, tuple[int, int]]:
    sheet.text(row, 0, "What the suppliers offer", Look.SUBTITLE)
    gases = [use.gas for use in comparison.uses]
    write_headings(sheet, row + 1, _OFFER_HEADINGS, units=comparison.units, gases=gases)
    first = at = row + 2
    for supplier in comparison.market.suppliers:
        for offer in supplier.offers:
            if offer.gas in gases:
                cells.offers[(supplier.name, offer.gas, offer.cylinder)] = _offer(
                    sheet, comparison, supplier, offer, at
                )
                at += 1
    return at, (first, at - 1)


def _offer(sheet: BookSheet, comparison: Comparison, supplier: Supplier, offer: Offer, at: int) -> dict[str, str]:
    money = "#,##0.00##"
    row = comparison.market.row_of(supplier.name, offer)
    stated = row.stated_content.label if row.stated_content else ""
    for column, text in enumerate((supplier.name, comparison.units.gas_named(offer.gas), offer.cylinder, stated)):
        sheet.text(at, column, text, Look.LABEL if column == 0 else Look.TEXT)
    each = comparison.units.gas(1.0, offer.gas)
    sheet.number(at, 4, offer.content_m3 * each, Look.WORKED, _VOLUME)
    heel_taken = row.heel_share is None and offer.uncredited_m3 > 0
    sheet.number(at, 5, offer.uncredited_m3 * each, Look.ASSUMED if heel_taken else Look.TYPED, _VOLUME)
    sheet.worked(at, 6, f"={a1(at, 4)}-{a1(at, 5)}", offer.usable_m3 * each, number=_VOLUME)
    sheet.number(at, 7, offer.price, Look.TYPED, money)
    sheet.number(at, 8, offer.price, Look.TEXT, money)
    sheet.number(at, 9, offer.cylinder_fees, Look.TYPED, money)
    sheet.number(at, 10, offer.surcharge_share, Look.TYPED, _PERCENT)
    _rent(sheet, offer, at, money)
    sheet.number(at, 17, offer.deposit, Look.TYPED, money)
    sheet.number(at, 18, offer.deposit_kept_share, Look.TYPED, _PERCENT)
    sheet.number(at, 19, offer.bought_for, Look.TYPED, money)
    sheet.number(at, 20, offer.spread_years, Look.TYPED, "0")
    _standing(sheet, comparison, offer, at, money)
    paid = f"{a1(at, 7)}*(1+{a1(at, 10)})+{a1(at, 9)}"
    sheet.worked(at, 23, f"=({paid})/{a1(at, 6)}", offer.cost_per_m3 / each, number=money)
    columns = {
        "content": 4, "left": 5, "usable": 6, "price": 7, "fees": 9, "surcharge": 10, "rent": 12, "days": 14,
        "divisor": 15, "free": 16, "deposit": 21, "bought": 22,
    }  # fmt: skip
    return {name: _there(at, column) for name, column in columns.items()}


def _rent(sheet: BookSheet, offer: Offer, at: int, money: str) -> None:
    """Rent of a month is rate x (held x days - free days used) / divisor, whatever the rule."""
    rule = offer.rent
    daily = rule.count is RentCount.DAILY
    yearly = rule.count in (RentCount.ANNUAL_ADVANCE, RentCount.OWNED, RentCount.LEASE)
    sheet.text(at, 11, rule.count.value)
    sheet.number(at, 12, rule.rate, Look.TYPED, money)
    sheet.number(at, 13, rule.rate, Look.TEXT, money)
    if daily:
        sheet.worked(at, 14, "=days_per_year/months_per_year", DAYS_PER_MONTH, number="0.00")
    else:
        sheet.number(at, 14, 1, Look.TEXT, "0.00")
    if yearly:
        years = rule.term_years if rule.count is RentCount.LEASE else 1
        formula = f"=months_per_year*{a1(at, 20)}" if rule.count is RentCount.LEASE else "=months_per_year"
        sheet.worked(at, 15, formula, 12 * years, number="0")
    else:
        sheet.number(at, 15, 1, Look.TEXT, "0")
    sheet.number(at, 16, rule.free_days, Look.TYPED, "0")


def _standing(sheet: BookSheet, comparison: Comparison, offer: Offer, at: int, money: str) -> None:
    deposit, kept, bought, years = (a1(at, column) for column in (17, 18, 19, 20))
    value = offer.deposit * comparison.money.interest_share / 12
    if offer.deposit_kept_share:
        value += offer.deposit * offer.deposit_kept_share / (12 * offer.spread_years)
    spread = f"IF({kept}>0,{deposit}*{kept}/(months_per_year*{years}),0)"
    sheet.worked(at, 21, f"={deposit}*interest_share/months_per_year+{spread}", value, number=money)
    own = offer.bought_for / (12 * offer.spread_years) if offer.bought_for else 0.0
    sheet.worked(at, 22, f"=IF({bought}>0,{bought}/(months_per_year*{years}),0)", own, number=money)


def _terms(sheet: BookSheet, comparison: Comparison, cells: PriceCells, row: int) -> int:
    sheet.text(row, 0, "What they charge besides", Look.SUBTITLE)
    write_headings(sheet, row + 1, _TERMS_HEADINGS)
    at = row + 2
    for supplier in comparison.market.suppliers:
        terms = supplier.terms
        sheet.text(at, 0, terms.supplier, Look.LABEL)
        for column, amount in enumerate(
            (terms.delivery_fee, terms.invoice_fee, terms.month_fee, terms.minimum_order), 1
        ):
            sheet.number(at, column, amount, Look.TYPED, "#,##0.00##")
        sheet.number(at, 5, int(terms.invoice_each_delivery), Look.TYPED, "0")
        sheet.number(at, 6, terms.most_deliveries_per_month, Look.TEXT, "0.##")
        sheet.number(at, 7, terms.lead_time_days, Look.TEXT, "0")
        names = ("delivery", "invoice", "month", "minimum", "per_delivery")
        cells.terms[terms.supplier] = {name: _there(at, column) for column, name in enumerate(names, 1)}
        at += 1
    return at


def _factors(book: OutputBook, sheet: BookSheet, comparison: Comparison, row: int) -> int:
    named = (
        ("Yearly interest on deposits", "interest_share", comparison.money.interest_share, _PERCENT, Look.TYPED),
        ("Months in a year", "months_per_year", 12, "0", Look.TEXT),
        ("Days in a year", "days_per_year", 365, "0", Look.TEXT),
        ("Decimals of money", "money_decimals", comparison.money.decimals, "0", Look.TEXT),
    )
    for at, (label, name, value, number, look) in enumerate(named, row):
        sheet.text(at, 0, label, Look.LABEL)
        sheet.number(at, 1, value, look, number)
        book.name_cell(name, PRICES, at, 1)
    return row + len(named)


def _stale(sheet: BookSheet, use_rows: tuple[int, int], offer_rows: tuple[int, int]) -> str:
    """Say when a typed figure differs from the one that the sizes, cylinders and vans were chosen for."""
    pairs = [(use_rows, 1, 2), (offer_rows, 7, 8), (offer_rows, 12, 13)]
    sums = "+".join(
        f"SUMPRODUCT(ABS({a1(first, typed)}:{a1(last, typed)}-{a1(first, was)}:{a1(last, was)}))"
        for (first, last), typed, was in pairs
    )
    said = "STALE: a price, rent or use differs from the one compared. Costs follow; choices and chart do not."
    sheet.worked(2, 0, f'=IF({sums}>0,"{said}","")', "", Look.TEXT)
    sheet.conditional_format(
        2,
        0,
        2,
        6,
        {"type": "formula", "criteria": f'={a1(2, 0, absolute=True)}<>""', "format": sheet.styles.get(Look.STOP)},
    )
    return _there(2, 0)


def _there(row: int, column: int) -> str:
    return f"{PRICES}!{a1(row, column, absolute=True)}"
