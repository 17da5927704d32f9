"""The landed cost of one way to buy: every component of a month's bill, for many numbers of deliveries at once.

Each component of each gas is rounded to the minor unit, so that the printed lines add to the total.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.pricing.money import to_minor
from estimator.pricing.offers import GasUse, Offer, Terms, cylinders_in_set, kept_back, month_rent

__all__ = ["Choice", "Component", "Money", "Plan", "cheapest_plan", "plan_as_held"]

_HAIR = 1e-9
LEAST_DELIVERIES_PER_MONTH = 1 / 12
"""The van comes once a year at least, unless no cylinder is swapped so often."""


class Component(StrEnum):
    """What a landed cost is made of, in the order it is printed."""

    GAS = "gas used"
    GAS_LEFT = "gas left in returned cylinders"
    CYLINDER_FEES = "fees per cylinder"
    SURCHARGES = "surcharges on gas"
    RENT = "rent"
    DEPOSIT = "deposits: interest and part kept"
    BOUGHT = "own cylinders, spread"
    DELIVERIES = "deliveries"
    INVOICES = "invoices"
    MONTH_FEES = "fees per month"
    MINIMUM_ORDER = "short of the minimum order"


@dataclass(frozen=True, slots=True)
class Money:
    """How money is counted in a comparison."""

    decimals: int = 2
    interest_share: float = 0.0
    """Yearly interest on deposits, as a share."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One gas bought in one size."""

    offer: Offer
    use: GasUse
    fills_per_month: float
    in_set: int
    """Cylinders that feed the torch together, at all places."""
    kept_back: int
    swapped: int
    """Cylinders swapped at one delivery, at most."""

    @property
    def held(self) -> int:
        """Cylinders on site, and so on rent."""
        return self.kept_back + self.swapped


@dataclass(frozen=True, slots=True)
class Plan:
    """The cheapest way to buy some gases from one supplier."""

    supplier: str
    choices: tuple[Choice, ...]
    deliveries_per_month: float
    by_gas_minor: Mapping[str, Mapping[Component, int]]
    """Components that belong to a gas; minor units a month."""
    shared_minor: Mapping[Component, int]
    """Components of the supplier as a whole; minor units a month."""

    @property
    def total_minor(self) -> int:
        """Landed cost of a month [minor units]."""
        return sum(sum(lines.values()) for lines in self.by_gas_minor.values()) + sum(self.shared_minor.values())

    @property
    def held(self) -> int:
        """Cylinders on site."""
        return sum(choice.held for choice in self.choices)

    def component_minor(self, component: Component) -> int:
        """One component over all gases [minor units]."""
        gases = sum(lines.get(component, 0) for lines in self.by_gas_minor.values())
        return gases + self.shared_minor.get(component, 0)


def cheapest_plan(terms: Terms, sized: Sequence[tuple[Offer, GasUse]], money: Money) -> Plan | None:
    """Cheapest number of deliveries and cylinders held, once each gas has its size.

    Parameters
    ----------
    terms : Terms
        The supplier's fees and terms.
    sized : sequence of (Offer, GasUse)
        One size for each gas bought from this supplier, at least one.
    money : Money
        Decimals and interest.

    Returns
    -------
    Plan or None
        None when there is no room for the cylinders that the draw limit, the lead time and the van ask for.

    Raises
    ------
    ValueError
        When no gas is given.

    Notes
    -----
    For each gas a delivery swaps ``ceil(fills / deliveries)`` cylinders, and what is kept back stays. No cost falls
    when deliveries grow while the numbers swapped stay, so only deliveries at which one gas swaps a whole number, or
    the fewest allowed, can be the cheapest: all of those are tried. Ties go to fewer cylinders, then fewer deliveries.

    Source: definition.

    Examples
    --------
    >>> offer, use = Offer("oxygen", "50 L", content_m3=10, price=40), GasUse("oxygen", 20.0)
    >>> cheapest_plan(Terms("Supplier A", delivery_fee=10), [(offer, use)], Money()).total_minor  # one a year, no rent
    8083
    """
    if not sized:
        raise ValueError("sized must hold at least one gas")
    deliveries = _deliveries_to_try(terms, sized)
    swapped = [_swapped(offer, use, deliveries) for offer, use in sized]
    kept = [kept_back(offer, use, terms.lead_time_days) for offer, use in sized]
    room = np.ones(deliveries.size, dtype=bool)
    for (_, use), keep, swap in zip(sized, kept, swapped, strict=True):
        room &= keep + swap <= (use.most_held if use.most_held is not None else np.iinfo(np.int64).max)
    if not room.any():
        return None
    lines = _lines(terms, sized, kept, swapped, deliveries, money)
    total = np.sum([amounts for of_gas in lines for amounts in of_gas.values()], axis=0)
    best = int(np.lexsort((deliveries, np.sum(swapped, axis=0), total, ~room))[0])
    return _plan(terms, sized, kept, swapped, deliveries, lines, best)


def plan_as_held(terms: Terms, sized: Sequence[tuple[Offer, GasUse]], swapped: Sequence[int], money: Money) -> Plan:
    """One way to buy with its sizes and cylinders as they are, whatever would be cheaper.

    Parameters
    ----------
    terms : Terms
        The supplier's fees and terms.
    sized : sequence of (Offer, GasUse)
        One size for each gas bought from this supplier, at least one.
    swapped : sequence of int
        Cylinders of each gas that a van swaps; 0 for piped gas.
    money : Money
        Decimals and interest.

    Returns
    -------
    Plan
        With as many vans as the gas needs that is swapped most often.

    Raises
    ------
    ValueError
        When no gas is given.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> offer, use = Offer("oxygen", "50 L", content_m3=10, price=40), GasUse("oxygen", 20.0)
    >>> plan_as_held(Terms("Supplier A", delivery_fee=10), [(offer, use)], [2], Money()).total_minor
    9000
    """
    if not sized:
        raise ValueError("sized must hold at least one gas")
    kept = [kept_back(offer, use, terms.lead_time_days) for offer, use in sized]
    fills = [use.month_m3 / offer.usable_m3 for offer, use in sized if not offer.piped]
    vans = [use.month_m3 / offer.usable_m3 / n for (offer, use), n in zip(sized, swapped, strict=True) if n]
    deliveries = np.array([max(*vans, min(LEAST_DELIVERIES_PER_MONTH, max(fills)))] if vans else [0.0])
    counts = [np.array([n], dtype=np.int64) for n in swapped]
    return _plan(terms, sized, kept, counts, deliveries, _lines(terms, sized, kept, counts, deliveries, money), 0)


def _lines(
    terms: Terms,
    sized: Sequence[tuple[Offer, GasUse]],
    kept: Sequence[int],
    swapped: Sequence[NDArray[np.int64]],
    deliveries: NDArray[np.float64],
    money: Money,
) -> list[dict[Component, NDArray[np.int64]]]:
    """Return the lines of each gas and, last, those of the supplier as a whole."""
    by_gas = [
        _gas_lines(offer, use, keep + swap, money)
        for (offer, use), keep, swap in zip(sized, kept, swapped, strict=True)
    ]
    return [*by_gas, _shared_lines(terms, sized, deliveries, money)]


def _plan(
    terms: Terms,
    sized: Sequence[tuple[Offer, GasUse]],
    kept: Sequence[int],
    swapped: Sequence[NDArray[np.int64]],
    deliveries: NDArray[np.float64],
    lines: Sequence[Mapping[Component, NDArray[np.int64]]],
    at: int,
) -> Plan:
    choices = tuple(
        Choice(offer, use, use.month_m3 / offer.usable_m3, cylinders_in_set(offer, use), keep, int(swap[at]))
        for (offer, use), keep, swap in zip(sized, kept, swapped, strict=True)
    )
    by_gas = {offer.gas: _at(of_gas, at) for (offer, _), of_gas in zip(sized, lines, strict=False)}
    return Plan(terms.supplier, choices, float(deliveries[at]), by_gas, _at(lines[-1], at))


def _deliveries_to_try(terms: Terms, sized: Sequence[tuple[Offer, GasUse]]) -> NDArray[np.float64]:
    fills = [use.month_m3 / offer.usable_m3 for offer, use in sized if not offer.piped]
    if not fills:
        return np.zeros(1)
    least = min(LEAST_DELIVERIES_PER_MONTH, max(fills))
    most = terms.most_deliveries_per_month
    tries = np.concatenate([f / np.arange(max(1, np.floor(f / most)), np.ceil(f / least) + 1) for f in fills])
    return np.unique(np.append(tries[(tries >= least) & (tries <= most * (1 + _HAIR))], least))


def _swapped(offer: Offer, use: GasUse, deliveries: NDArray[np.float64]) -> NDArray[np.int64]:
    if offer.piped:
        return np.zeros(deliveries.size, dtype=np.int64)
    fills = use.month_m3 / offer.usable_m3
    return np.maximum(np.ceil(fills / deliveries - _HAIR), 1).astype(np.int64)


def _gas_lines(offer: Offer, use: GasUse, held: NDArray[np.int64], money: Money) -> dict[Component, NDArray[np.int64]]:
    fills = use.month_m3 / offer.usable_m3
    standing = 1 if offer.piped else held
    deposit = offer.deposit * money.interest_share / 12
    if offer.deposit_kept_share:
        deposit += offer.deposit * offer.deposit_kept_share / (12 * offer.spread_years)
    bought = offer.bought_for / (12 * offer.spread_years) if offer.bought_for else 0.0
    amounts: dict[Component, ArrayLike] = {
        Component.GAS: use.month_m3 * offer.price / offer.content_m3,
        Component.GAS_LEFT: fills * offer.uncredited_m3 * offer.price / offer.content_m3,
        Component.CYLINDER_FEES: fills * offer.cylinder_fees,
        Component.SURCHARGES: fills * offer.price * offer.surcharge_share,
        Component.RENT: month_rent(offer.rent, standing, fills),
        Component.DEPOSIT: standing * deposit,
        Component.BOUGHT: standing * bought,
    }
    return {component: np.zeros(held.size, np.int64) + to_minor(a, money.decimals) for component, a in amounts.items()}


def _shared_lines(
    terms: Terms, sized: Sequence[tuple[Offer, GasUse]], deliveries: NDArray[np.float64], money: Money
) -> dict[Component, NDArray[np.int64]]:
    goods = sum(use.month_m3 / offer.usable_m3 * offer.price for offer, use in sized if not offer.piped)
    invoices = deliveries if terms.invoice_each_delivery else np.ones_like(deliveries)
    amounts = {
        Component.DELIVERIES: deliveries * terms.delivery_fee,
        Component.INVOICES: invoices * terms.invoice_fee,
        Component.MONTH_FEES: np.full_like(deliveries, terms.month_fee),
        Component.MINIMUM_ORDER: np.maximum(deliveries * terms.minimum_order - goods, 0.0),
    }
    return {component: to_minor(amount, money.decimals) for component, amount in amounts.items()}


def _at(lines: Mapping[Component, NDArray[np.int64]], index: int) -> dict[Component, int]:
    return {component: int(amounts[index]) for component, amounts in lines.items()}
