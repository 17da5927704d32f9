"""Every way to buy with its components: formulas on the typed sheet's cells, the engine's values beside them."""

from __future__ import annotations

from dataclasses import dataclass, field

from estimator.pricing.comparison import Comparison
from estimator.pricing.landed import Choice, Component, Plan
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.comparison_prices import PriceCells, write_headings
from estimator.write.styles import Look, money_format

__all__ = ["WAYS", "WayCells", "write_ways"]

WAYS = "Ways to buy"
GAS_COMPONENTS = (
    Component.GAS,
    Component.GAS_LEFT,
    Component.CYLINDER_FEES,
    Component.SURCHARGES,
    Component.RENT,
    Component.DEPOSIT,
    Component.BOUGHT,
)
SHARED_COMPONENTS = (Component.DELIVERIES, Component.INVOICES, Component.MONTH_FEES, Component.MINIMUM_ORDER)
_CHOICE_HEADINGS = (
    "Way",
    "Supplier",
    "Gas",
    "Cylinder",
    "Month m³",
    "Fills a month",
    "In use together",
    "Kept back",
    "Swapped at a time",
    "Held",
    "Vans needed",
)
_PLAN_HEADINGS = ("Way", "Supplier", "Gases", "", "Vans a month", "Gas value")
_WIDTHS = (7, 20, 20, 16, 10, 9, 9, 9, 9, 8, 9) + (11,) * 8


@dataclass(slots=True)
class WayCells:
    """Where the components of each way to buy stand; addresses name the sheet."""

    components: dict[int, dict[Component, list[str]]] = field(default_factory=dict)
    """By the way's number."""
    numbers: dict[tuple[str, tuple[str, ...]], int] = field(default_factory=dict)
    """The way's number by supplier and gases."""

    def number_of(self, plan: Plan) -> int:
        """Return the number of a plan's way."""
        return self.numbers[_key(plan)]


def write_ways(book: OutputBook, comparison: Comparison, prices: PriceCells) -> WayCells:
    """Write every way to buy once and return where its components stand."""
    sheet = book.sheet(WAYS)
    for column, width in enumerate(_WIDTHS):
        sheet.set_column(column, column, width)
    sheet.set_row(0, 26)
    sheet.text(0, 0, "Every way to buy, and what a month of it costs", Look.TITLE)
    sheet.text(
        1,
        0,
        "A way is one supplier and the gases bought from it, in the cheapest sizes. Mixes are made of ways.",
        Look.GUIDE,
    )
    plans = {_key(plan): plan for mix in comparison.mixes for plan in mix.plans}
    cells = WayCells(numbers={key: number for number, key in enumerate(plans, 1)})
    row, rows_of = _choices(sheet, comparison, prices, cells, list(plans.values()))
    last = _plans(sheet, comparison, prices, cells, list(plans.values()), rows_of, row + 2)
    sheet.freeze_panes(4, 3)
    sheet.set_up_page(last_row=last, last_column=len(_WIDTHS) - 1, landscape=True)
    return cells


def _choices(
    sheet: BookSheet, comparison: Comparison, prices: PriceCells, cells: WayCells, plans: list[Plan]
) -> tuple[int, dict[int, tuple[int, int]]]:
    sheet.text(2, 0, "Gas by gas", Look.SUBTITLE)
    headings = (*_CHOICE_HEADINGS, *(c.value for c in GAS_COMPONENTS), "Together")
    write_headings(sheet, 3, headings, units=comparison.units, gases=(use.gas for use in comparison.uses))
    row, rows_of = 4, {}
    for plan in plans:
        number = cells.number_of(plan)
        first = row
        for choice in plan.choices:
            _choice(sheet, comparison, prices, cells, plan, choice, row)
            row += 1
        rows_of[number] = (first, row - 1)
    return row, rows_of


def _choice(
    sheet: BookSheet, comparison: Comparison, prices: PriceCells, cells: WayCells, plan: Plan, choice: Choice, row: int
) -> None:
    number, offer, use = cells.number_of(plan), choice.offer, choice.use
    at = prices.offers[(plan.supplier, offer.gas, offer.cylinder)]
    sheet.number(row, 0, number, Look.LABEL, "0")
    for column, text in enumerate((plan.supplier, comparison.units.gas_named(offer.gas), offer.cylinder), 1):
        sheet.text(row, column, text)
    month, fills, kept, swapped, held = (a1(row, column) for column in (4, 5, 7, 8, 9))
    sheet.worked(row, 4, f"={prices.month_m3[use.gas]}", comparison.units.gas(use.month_m3, use.gas), number="0.000")
    stored_fills = 0.0 if offer.piped else choice.fills_per_month
    sheet.worked(row, 5, f"=IF({swapped}=0,0,{month}/{at['usable']})", stored_fills, number="0.00")
    for column, count in ((6, choice.in_set), (7, choice.kept_back), (8, choice.swapped)):
        sheet.number(row, column, count, Look.TEXT, "0")
    sheet.worked(row, 9, f"={kept}+{swapped}", choice.held, number="0")
    needed = 0.0 if offer.piped else choice.fills_per_month / choice.swapped
    sheet.worked(row, 10, f"=IF({swapped}=0,0,{fills}/{swapped})", needed, number="0.00")
    standing = f"IF({swapped}=0,1,{held})"
    days = f"{standing}*{at['days']}"
    formulas = {
        Component.GAS: f"{month}*{at['price']}/{at['content']}",
        Component.GAS_LEFT: f"{fills}*{at['left']}*{at['price']}/{at['content']}",
        Component.CYLINDER_FEES: f"{fills}*{at['fees']}",
        Component.SURCHARGES: f"{month}/{at['usable']}*{at['price']}*{at['surcharge']}",
        Component.RENT: f"{at['rent']}*({days}-MIN({fills}*{at['free']},{days}))/{at['divisor']}",
        Component.DEPOSIT: f"{standing}*{at['deposit']}",
        Component.BOUGHT: f"{standing}*{at['bought']}",
    }
    mine = cells.components.setdefault(number, {})
    for column, component in enumerate(GAS_COMPONENTS, len(_CHOICE_HEADINGS)):
        minor = plan.by_gas_minor[use.gas][component]
        _money(sheet, comparison, row, column, formulas[component], minor)
        mine.setdefault(component, []).append(_there(row, column))
    first, last = len(_CHOICE_HEADINGS), len(_CHOICE_HEADINGS) + len(GAS_COMPONENTS) - 1
    total = sum(plan.by_gas_minor[use.gas].values())
    _sum(sheet, comparison, row, last + 1, f"SUM({a1(row, first)}:{a1(row, last)})", total)


def _plans(
    sheet: BookSheet,
    comparison: Comparison,
    prices: PriceCells,
    cells: WayCells,
    plans: list[Plan],
    rows_of: dict[int, tuple[int, int]],
    row: int,
) -> int:
    sheet.text(row, 0, "Van, invoices and minimum order", Look.SUBTITLE)
    write_headings(sheet, row + 1, (*_PLAN_HEADINGS, *(c.value for c in SHARED_COMPONENTS), "Way in all"))
    for at, plan in enumerate(plans, row + 2):
        _plan(sheet, comparison, prices, cells, plan, rows_of[cells.number_of(plan)], at)
    return row + 2 + len(plans)


def _plan(
    sheet: BookSheet,
    comparison: Comparison,
    prices: PriceCells,
    cells: WayCells,
    plan: Plan,
    rows: tuple[int, int],
    row: int,
) -> None:
    number, at = cells.number_of(plan), prices.terms[plan.supplier]
    first, last = rows
    sheet.number(row, 0, number, Look.LABEL, "0")
    sheet.text(row, 1, plan.supplier)
    sheet.text(row, 2, ", ".join(choice.use.gas for choice in plan.choices))
    needed, fills = f"{a1(first, 10)}:{a1(last, 10)}", f"{a1(first, 5)}:{a1(last, 5)}"
    vans, goods = a1(row, 4), a1(row, 5)
    yearly = f"MIN(1/months_per_year,MAX({fills}))"
    sheet.worked(row, 4, f"=MAX({needed},{yearly})", plan.deliveries_per_month, number="0.00")
    bought = [
        (f"{a1(r, 5)}*{prices.offers[(plan.supplier, c.offer.gas, c.offer.cylinder)]['price']}", c)
        for r, c in enumerate(plan.choices, first)
    ]
    value = sum(0.0 if c.offer.piped else c.fills_per_month * c.offer.price for _, c in bought)
    sheet.worked(row, 5, "=" + "+".join(part for part, _ in bought), value, number="#,##0.00")
    invoices = f"IF({at['per_delivery']}=0,1,{vans})"
    formulas = {
        Component.DELIVERIES: f"{vans}*{at['delivery']}",
        Component.INVOICES: f"{invoices}*{at['invoice']}",
        Component.MONTH_FEES: at["month"],
        Component.MINIMUM_ORDER: f"MAX({vans}*{at['minimum']}-{goods},0)",
    }
    mine = cells.components[number]
    for column, component in enumerate(SHARED_COMPONENTS, len(_PLAN_HEADINGS)):
        _money(sheet, comparison, row, column, formulas[component], plan.shared_minor[component])
        mine.setdefault(component, []).append(_there(row, column))
    start, end = len(_PLAN_HEADINGS), len(_PLAN_HEADINGS) + len(SHARED_COMPONENTS) - 1
    together = len(_CHOICE_HEADINGS) + len(GAS_COMPONENTS)
    total = f"SUM({a1(first, together)}:{a1(last, together)})+SUM({a1(row, start)}:{a1(row, end)})"
    _sum(sheet, comparison, row, end + 1, total, plan.total_minor)


def _money(sheet: BookSheet, comparison: Comparison, row: int, column: int, formula: str, minor: int) -> None:
    decimals = comparison.money.decimals
    rounded = f"=ROUND({formula},money_decimals)"
    sheet.worked(row, column, rounded, minor / 10**decimals, number=money_format(decimals))


def _sum(sheet: BookSheet, comparison: Comparison, row: int, column: int, formula: str, minor: int) -> None:
    decimals = comparison.money.decimals
    sheet.worked(row, column, f"={formula}", minor / 10**decimals, Look.LABEL, money_format(decimals))


def _key(plan: Plan) -> tuple[str, tuple[str, ...]]:
    return plan.supplier, tuple(choice.use.gas for choice in plan.choices)


def _there(row: int, column: int) -> str:
    return f"'{WAYS}'!{a1(row, column, absolute=True)}"
