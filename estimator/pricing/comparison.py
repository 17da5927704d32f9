"""The whole comparison of suppliers: ranking, look at sight, turning points, sensitivity, restated volumes, asks."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from estimator.check.price_list import OfferRow, PriceLists
from estimator.pricing.fuel_work import FuelComparison
from estimator.pricing.landed import Money
from estimator.pricing.market import Market, make_market
from estimator.pricing.money import to_minor
from estimator.pricing.offers import GasUse, kept_back
from estimator.pricing.questions import Question, questions_to_ask
from estimator.pricing.suppliers import Mix, cheapest_mixes
from estimator.pricing.turning import (
    Change,
    CostCurve,
    Span,
    dearer,
    follow_demand,
    rise_that_turns,
    what_if,
)
from estimator.problems import price_list as said
from estimator.problems.code import Place, Problem
from estimator.shown_units import METRIC, ShownUnits

__all__ = ["Comparison", "Restated", "Sight", "compare_suppliers"]

OUT_OF_LINE = 5.0
"""An offer so many times dearer than the cheapest is more often a wrong unit than a price; judgement."""
_RENT_STEP, _PRICE_STEP = 0.2, 0.1


@dataclass(frozen=True, slots=True)
class Sight:
    """What a supplier's gas would cost by its printed prices alone, fees, rent and states overlooked."""

    supplier: str
    month_minor: int


@dataclass(frozen=True, slots=True)
class Restated:
    """One offer's volume taken as printed, and converted by mass; and what the difference is worth in a month."""

    supplier: str
    gas: str
    cylinder: str
    stated: str
    naive_m3: float
    content_m3: float
    naive_month_minor: int
    month_minor: int

    @property
    def difference_minor(self) -> int:
        """What overlooking the state hides (above zero) or invents, in a month's gas of this offer."""
        return self.month_minor - self.naive_month_minor


@dataclass(frozen=True, slots=True)
class Comparison:
    """Whose gas is cheapest for this shop, and what would change that."""

    on: dt.date
    currency: str
    money: Money
    uses: tuple[GasUse, ...]
    market: Market
    lists: PriceLists
    mixes: tuple[Mix, ...]
    """The cheapest first."""
    at_sight: tuple[Sight, ...]
    """Suppliers that sell every gas, by printed gas price; the cheapest first."""
    curve: CostCurve
    spans: tuple[Span, ...]
    changes: tuple[Change, ...]
    price_rise: float | None
    """Factor on the leader's gas prices at which it loses the lead; None up to three times."""
    rent_rise: float | None
    restated: tuple[Restated, ...]
    questions: tuple[Question, ...]
    problems: tuple[Problem, ...] = field(default=())
    inputs: tuple[tuple[str, str], ...] = ()
    """Name and SHA-256 of each file that was read."""
    use_from: str = ""
    """Where the use of a month comes from, in a sentence; empty for the typed sheet."""
    fuels: FuelComparison | None = None
    """The same work on other fuels, where a cut list says what the work is."""
    units: ShownUnits = METRIC
    """The units in which the shop is shown its gas."""

    @property
    def best(self) -> Mix:
        """The cheapest mix."""
        return self.mixes[0]

    @property
    def singles(self) -> list[Mix]:
        """The mixes of one supplier, the cheapest first."""
        return [mix for mix in self.mixes if len(mix.plans) == 1]


def compare_suppliers(
    lists: PriceLists, uses: Sequence[GasUse], money: Money, on: dt.date, currency: str = ""
) -> tuple[Comparison | None, list[Problem]]:
    """Compare every supplier and every allowed mix on what the shop uses.

    Parameters
    ----------
    lists : PriceLists
        Price lists in force on the day, volumes stated.
    uses : sequence of GasUse
        What the shop uses in a month, each gas once.
    money : Money
        Decimals and interest.
    on : date
        The day whose prices are compared.
    currency : str
        The shop's currency, three letters.

    Returns
    -------
    tuple of (Comparison or None, list of Problem)
        None when a gas is not offered or no choice fits; the problems say why.

    Raises
    ------
    ValueError
        When no gas is given.

    Notes
    -----
    Source: definition.
    """
    market = make_market(lists)
    problems = [*_not_offered(market, uses, on, lists), *_out_of_line(market, uses)]
    mixes = cheapest_mixes(market.suppliers, uses, money)
    if not mixes:
        return None, problems + _no_room(market, uses, lists)
    curve, spans = follow_demand(market.suppliers, uses, money)
    best = mixes[0]
    rises = {
        of: rise_that_turns(market.suppliers, uses, money, leader=best, of=of) if len(mixes) > 1 else None
        for of in ("price", "rent")
    }
    comparison = Comparison(
        on,
        currency or lists.form.currency,
        money,
        tuple(uses),
        market,
        lists,
        tuple(mixes),
        tuple(_at_sight(lists, uses, money)),
        curve,
        tuple(spans),
        tuple(_changes(market, uses, money, best)),
        rises["price"],
        rises["rent"],
        tuple(_restated(market, lists, uses, money)),
        tuple(questions_to_ask(lists)),
        tuple(problems),
    )
    return comparison, problems


def _changes(market: Market, uses: Sequence[GasUse], money: Money, best: Mix) -> list[Change]:
    suppliers = market.suppliers
    slow = [replace(use, month_m3=use.low_month_m3 or use.month_m3) for use in uses]
    busy = [replace(use, month_m3=use.reserve_month_m3) for use in uses]
    asked = [
        ("every month like a slow one", suppliers, slow),
        ("every month like a busy one", suppliers, busy),
        (f"all rents {_RENT_STEP:.0%} dearer", dearer(suppliers, rent=1 + _RENT_STEP), uses),
        (f"all rents {_RENT_STEP:.0%} cheaper", dearer(suppliers, rent=1 - _RENT_STEP), uses),
        (f"all gas {_PRICE_STEP:.0%} dearer", dearer(suppliers, price=1 + _PRICE_STEP), uses),
        (f"all gas {_PRICE_STEP:.0%} cheaper", dearer(suppliers, price=1 - _PRICE_STEP), uses),
        ("one more cylinder of each gas held", suppliers, [replace(use, spare=use.spare + 1) for use in uses]),
        ("two more cylinders of each gas held", suppliers, [replace(use, spare=use.spare + 2) for use in uses]),
    ]
    changes = [what_if(what, sellers, after, money, before=best) for what, sellers, after in asked]
    return [change for change in changes if change is not None]


def _at_sight(lists: PriceLists, uses: Sequence[GasUse], money: Money) -> list[Sight]:
    sights = []
    for supplier in lists.suppliers:
        costs = []
        for use in uses:
            rows = [row for row in lists.offers if row.supplier == supplier and row.gas == use.gas]
            costs.append(min((_printed_per_m3(row) * use.month_m3 for row in rows), default=None))
        if None not in costs:
            month = sum(int(to_minor(cost, money.decimals)) for cost in costs if cost is not None)
            sights.append(Sight(supplier, month))
    return sorted(sights, key=lambda sight: (sight.month_minor, sight.supplier))


def _printed_per_m3(row: OfferRow) -> float:
    basis = row.stated_basis or row.stated_content
    if basis is None:
        raise ValueError(f"the content of {row.supplier} {row.cylinder} was not stated")
    return row.price / basis.naive_m3(row.gas)


def _restated(market: Market, lists: PriceLists, uses: Sequence[GasUse], money: Money) -> list[Restated]:
    naive = make_market(lists, naive=True)
    wrong = {(s.name, o.gas, o.cylinder): o for s in naive.suppliers for o in s.offers}
    wanted = {use.gas: use.month_m3 for use in uses}
    found = []
    for supplier in market.suppliers:
        for offer in supplier.offers:
            stated = market.row_of(supplier.name, offer).stated_content
            if offer.gas in wanted and stated is not None:
                other = wrong[(supplier.name, offer.gas, offer.cylinder)]
                found.append(
                    Restated(
                        supplier.name,
                        offer.gas,
                        offer.cylinder,
                        stated.label,
                        other.content_m3,
                        offer.content_m3,
                        int(to_minor(other.cost_per_m3 * wanted[offer.gas], money.decimals)),
                        int(to_minor(offer.cost_per_m3 * wanted[offer.gas], money.decimals)),
                    )
                )
    return found


def _not_offered(market: Market, uses: Sequence[GasUse], on: dt.date, lists: PriceLists) -> list[Problem]:
    offered = {offer.gas for supplier in market.suppliers for offer in supplier.offers}
    place = Place(min((row.place.file for row in lists.offers), default=""))
    return [said.GAS_NOT_OFFERED.at(place, gas=u.gas, date=on.isoformat()) for u in uses if u.gas not in offered]


def _no_room(market: Market, uses: Sequence[GasUse], lists: PriceLists) -> list[Problem]:
    problems = []
    for use in uses:
        fewest = [
            kept_back(offer, use, supplier.terms.lead_time_days) + 1
            for supplier in market.suppliers
            for offer in supplier.offers_of(use.gas)
        ]
        if fewest and use.most_held is not None and min(fewest) > use.most_held:
            row = next((row for row in lists.uses if row.gas == use.gas), None)
            place = row.at("most_held") if row else Place()
            problems.append(
                said.NO_ROOM.at(place, found=use.most_held, least=min(fewest), gas=use.gas, room=use.most_held)
            )
    return problems


def _out_of_line(market: Market, uses: Sequence[GasUse]) -> list[Problem]:
    problems = []
    for use in uses:
        priced = [(o.cost_per_m3, market.row_of(s.name, o)) for s in market.suppliers for o in s.offers_of(use.gas)]
        least, other = min(priced, key=lambda one: one[0], default=(0.0, None))
        for cost, row in priced:
            if other is not None and least > 0 and cost > OUT_OF_LINE * least:
                problems.append(
                    said.PRICE_OUT_OF_LINE.at(
                        row.at("price"),
                        found=row.price,
                        times=f"{cost / least:.1f}",
                        gas=use.gas,
                        other=str(other.place),
                    )
                )
    return problems
