"""From checked price lists to offers that can be priced: before tax, fees gathered, blanks filled and said."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from estimator.check.price_list import FeeRow, OfferRow, PriceLists, Stated, TermsRow, UseRow
from estimator.pricing.gas_price import cylinder_price, gas_left_uncredited_m3
from estimator.pricing.offers import GasUse, Offer, Supplier, Terms
from estimator.pricing.rent import RentCount, RentRule
from estimator.reference import table

__all__ = ["Assumed", "Market", "acetylene_draw_share", "gas_uses", "heel_share", "make_market"]

USUAL_DELIVERIES_PER_MONTH = 4.0
"""How often the van comes at most where the terms are silent: once a week; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Assumed:
    """A figure that no list states, and was taken so that the offer could be compared."""

    supplier: str
    what: str
    taken: str
    status: str
    """memory, judgement or common practice."""


@dataclass(frozen=True, slots=True)
class Market:
    """What can be bought: suppliers with their offers, the rows they come from, and what was assumed."""

    suppliers: tuple[Supplier, ...]
    rows: Mapping[tuple[str, str, str], OfferRow]
    """By supplier, gas and cylinder."""
    assumed: tuple[Assumed, ...] = ()

    def row_of(self, supplier: str, offer: Offer) -> OfferRow:
        """Return the price-list row of an offer."""
        return self.rows[(supplier, offer.gas, offer.cylinder)]


def make_market(lists: PriceLists, *, naive: bool = False) -> Market:
    """Offers, terms and fees in force, as they are priced.

    Parameters
    ----------
    lists : PriceLists
        Price lists with only what is in force, volumes stated.
    naive : bool
        Whether reference states are overlooked, to show what that costs; never for a real comparison.

    Returns
    -------
    Market
        Suppliers in the order of their names; every figure that was assumed stands beside them.

    Raises
    ------
    ValueError
        When a row's content was not stated; such rows are problems and must be left out before.

    Notes
    -----
    Prices and fees that include tax are divided by 1 + its rate. Source: definition.
    """
    assumed: list[Assumed] = []
    suppliers = []
    for name in sorted(lists.suppliers, key=str.casefold):
        terms = lists.terms_of(name)
        fees = [fee for fee in lists.fees if fee.supplier == name]
        rows = [row for row in lists.offers if row.supplier == name]
        offers = tuple(_offer(row, terms, fees, assumed, naive=naive) for row in rows)
        suppliers.append(Supplier(_terms(terms, fees, assumed), offers))
    return Market(
        tuple(suppliers),
        {(row.supplier, row.gas, row.cylinder): row for row in lists.offers},
        tuple(dict.fromkeys(assumed)),
    )


def gas_uses(rows: Sequence[UseRow]) -> list[GasUse]:
    """What the shop uses, in house volumes and with the draw limit of each gas.

    Parameters
    ----------
    rows : sequence of UseRow
        Monthly use, amounts stated.

    Returns
    -------
    list of GasUse
        In the order of the rows.

    Raises
    ------
    ValueError
        When a row's amount was not stated.

    Notes
    -----
    Acetylene has the recalled limits of 1/10 (or 1/15 for long burns) of a full cylinder an hour; other gases have the
    one that a supplier writes. Source: ``acetylene_draw_rules.csv``.
    """
    return [
        GasUse(
            row.gas,
            month_m3=row.m3(row.amount),
            low_month_m3=row.m3(row.low_amount),
            high_month_m3=row.m3(row.high_amount),
            highest_draw_m3_h=row.m3(row.highest_draw),
            draw_share_per_h=acetylene_draw_share(long_burns=row.long_burns) if row.gas == "acetylene" else 0.0,
            places=row.sets,
            most_held=row.most_held,
        )
        for row in rows
    ]


def acetylene_draw_share(*, long_burns: bool) -> float:
    """Share of a full acetylene cylinder that may be drawn in an hour.

    Parameters
    ----------
    long_burns : bool
        Whether a torch burns more than 10 minutes without a break of 5.

    Returns
    -------
    float
        1/15 or 1/10.

    Notes
    -----
    Source: ``acetylene_draw_rules.csv``, recalled from compressed-gas practice (memory); the supplier's written figure
    stands before it.

    Examples
    --------
    >>> round(1 / acetylene_draw_share(long_burns=True), 3)
    15.0
    """
    rules = table("acetylene_draw_rules").where(rule="continuous" if long_burns else "intermittent")
    numerator, denominator = str(rules.column("as_printed")[0]).split("/")
    return int(numerator) / int(denominator)


def heel_share(gas: str) -> float:
    """Share of a full cylinder that is left at change-over where nobody says it.

    Parameters
    ----------
    gas : str
        Oxygen or a fuel.

    Returns
    -------
    float
        For acetylene and oxygen the recalled heel; 0 for the others, which are drawn empty.

    Notes
    -----
    Oxygen's heel is a gauge pressure; as a share it is set against a full gauge of 200 bar. Source: ``heels.csv``
    (memory).

    Examples
    --------
    >>> heel_share("oxygen"), heel_share("acetylene"), heel_share("propane")
    (0.01, 0.08, 0.0)
    """
    heels = table("heels")
    if gas not in set(heels.column("gas")):
        return 0.0
    row = heels.where(gas=gas)
    likely = float(row.column("likely")[0])
    return likely / FULL_GAUGE_BAR if row.column("kind")[0] == "pressure_bar_gauge" else likely


FULL_GAUGE_BAR = 200.0
"""Gauge of a full oxygen cylinder that a heel pressure is set against; common practice."""


def _offer(row: OfferRow, terms: TermsRow, fees: Sequence[FeeRow], assumed: list[Assumed], *, naive: bool) -> Offer:
    if row.stated_content is None:
        raise ValueError(f"the content of {row.supplier} {row.cylinder} was not stated")
    content_m3 = _volume_m3(row.stated_content, row.gas, naive=naive)
    tax = _tax_factor(terms)
    price = row.price / tax
    if row.stated_basis is not None and not row.piped:
        price = float(cylinder_price(price, content_m3, _volume_m3(row.stated_basis, row.gas, naive=naive)))
    left_m3 = 0.0 if row.piped else content_m3 * _heel(row, assumed)
    per_cylinder = sum(f.amount or 0.0 for f in _fees(fees, "each cylinder", row.gas)) / tax
    return Offer(
        row.gas,
        row.cylinder,
        content_m3,
        price,
        rent=_rent(row, tax),
        uncredited_m3=float(gas_left_uncredited_m3(left_m3, row.credited_share or 0.0)),
        cylinder_fees=0.0 if row.piped else per_cylinder,
        surcharge_share=sum(f.share or 0.0 for f in _fees(fees, "percent of gas", row.gas)),
        deposit=row.deposit or 0.0,
        deposit_kept_share=row.deposit_kept_share,
        bought_for=row.bought_for / tax,
        spread_years=float(row.spread_years or 0),
        draw_share_per_h=row.supplier_draw_fraction,
        piped=row.piped,
    )


def _volume_m3(stated: Stated, gas: str, *, naive: bool) -> float:
    return stated.naive_m3(gas) if naive else stated.volume_m3(gas)


def _heel(row: OfferRow, assumed: list[Assumed]) -> float:
    if row.heel_share is not None:
        return row.heel_share
    share = heel_share(row.gas)
    if share:
        assumed.append(Assumed(row.supplier, f"{row.gas} left at change-over", f"{share:.1%} of the content", "memory"))
    return share


def _rent(row: OfferRow, tax: float) -> RentRule:
    if row.rent_rule is None:
        return RentRule(RentCount.NONE)
    renewal = row.renewal or dt.date(2000, 1, 1)
    count = RentCount(row.rent_rule)
    return RentRule(
        count,
        rate=(row.rent or 0.0) / tax,
        month_starts_on=row.month_starts_on,
        free_days=row.free_days,
        renewal=(renewal.month, min(renewal.day, 28)),
        term_years=row.spread_years or 1 if count is RentCount.LEASE else 1,
    )


def _terms(terms: TermsRow, fees: Sequence[FeeRow], assumed: list[Assumed]) -> Terms:
    tax = _tax_factor(terms)
    if terms.most_deliveries is None:
        said = f"{USUAL_DELIVERIES_PER_MONTH:g} at most"
        assumed.append(Assumed(terms.supplier, "deliveries a month", said, "common practice"))
    if terms.lead_time_days is None:
        assumed.append(Assumed(terms.supplier, "days until gas arrives", "0", "judgement"))

    def fee_of(way: str) -> float:
        return sum(fee.amount or 0.0 for fee in fees if fee.charged == way) / tax

    return Terms(
        terms.supplier,
        delivery_fee=fee_of("each delivery"),
        invoice_fee=fee_of("each invoice"),
        month_fee=fee_of("each month"),
        minimum_order=(terms.minimum_order or 0.0) / tax,
        invoice_each_delivery=terms.invoices == "each delivery",
        most_deliveries_per_month=terms.most_deliveries or USUAL_DELIVERIES_PER_MONTH,
        lead_time_days=float(terms.lead_time_days or 0),
        all_gases_or_none=terms.all_gases_or_none,
    )


def _fees(fees: Sequence[FeeRow], way: str, gas: str) -> list[FeeRow]:
    return [fee for fee in fees if fee.charged == way and fee.gas in (None, gas)]


def _tax_factor(terms: TermsRow) -> float:
    return 1.0 + (terms.tax or 0.0) if terms.prices_include_tax else 1.0
