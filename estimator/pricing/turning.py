"""Where the ranking turns: the cost of every mix against demand, and how far a price or a rent may move."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise

import numpy as np

from estimator.pricing.landed import Money
from estimator.pricing.offers import GasUse, Supplier
from estimator.pricing.suppliers import Mix, cheapest_mixes, scale_uses

__all__ = ["Change", "CostCurve", "Span", "dearer", "follow_demand", "rise_that_turns", "what_if"]

LEAST_FACTOR, MOST_FACTOR = 0.1, 10.0
"""Demand is followed from a tenth of the present to ten times."""
NARROW = 1.05
"""A lead over less than 5 % of demand is rounding to whole cylinders, not a turn; it goes to its neighbour."""
_CLOSE = 1.001


@dataclass(frozen=True, slots=True)
class Span:
    """A range of demand over which one mix is cheapest; factors of the present demand."""

    mix: str
    from_factor: float
    to_factor: float
    from_minor: int
    """Landed cost of the mix at the start of the range [minor units]."""


@dataclass(frozen=True, slots=True)
class CostCurve:
    """Landed cost of a month against demand, mix by mix."""

    factors: tuple[float, ...]
    by_mix_minor: dict[str, tuple[int | None, ...]]
    """None where the mix cannot serve that demand."""


@dataclass(frozen=True, slots=True)
class Change:
    """The ranking after one thing has changed."""

    what: str
    leader: str
    leader_minor: int
    same_leader: bool
    first_was_minor: int | None
    """What the mix that led before costs now; None when it can no longer serve."""


def follow_demand(
    suppliers: Sequence[Supplier], uses: Sequence[GasUse], money: Money, points: int = 25
) -> tuple[CostCurve, list[Span]]:
    """Landed cost of every mix against demand, and which mix is cheapest over which range of it.

    Parameters
    ----------
    suppliers, uses, money
        As for ``cheapest_mixes``.
    points : int
        Demands tried between a tenth and ten times the present, evenly in proportion.

    Returns
    -------
    tuple of (CostCurve, list of Span)
        Mixes in the order of their cost now. Spans from the least demand to the most; empty where nobody can serve.

    Raises
    ------
    ValueError
        When there are fewer than two points.

    Notes
    -----
    Between two demands with different leaders the turn is closed in to one part in 1,000. A lead over less than 5 % of
    demand comes from rounding to whole cylinders and goes to its neighbour. All gases grow together; the draw stays.

    Source: definition.
    """
    if points < 2:
        raise ValueError(f"points must be two or more, got {points}")

    @cache
    def costs(factor: float) -> dict[str, int]:
        return {mix.name: mix.total_minor for mix in cheapest_mixes(suppliers, scale_uses(uses, factor), money)}

    def leader(factor: float) -> str:
        return next(iter(costs(factor)), "")

    grid = [float(f) for f in np.geomspace(LEAST_FACTOR, MOST_FACTOR, points)]
    names = dict.fromkeys([*costs(1.0), *(name for factor in grid for name in costs(factor))])
    curve = CostCurve(tuple(grid), {name: tuple(costs(factor).get(name) for factor in grid) for name in names})
    turns: list[tuple[float, str]] = [(grid[0], leader(grid[0]))]
    for low, high in pairwise(grid):
        turns += _turns(leader, low, high, leader(low), leader(high))
    ends = [factor for factor, _ in turns[1:]] + [grid[-1]]
    spans = [Span(name, start, end, costs(start)[name]) for (start, name), end in zip(turns, ends, strict=True) if name]
    return curve, _without_narrow(spans)


def what_if(
    what: str, suppliers: Sequence[Supplier], uses: Sequence[GasUse], money: Money, *, before: Mix
) -> Change | None:
    """The ranking after a change, beside the mix that led before it.

    Parameters
    ----------
    what : str
        The change in words.
    suppliers, uses, money
        After the change.
    before : Mix
        The mix that led before.

    Returns
    -------
    Change or None
        None where nobody can serve after the change.

    Raises
    ------
    ValueError
        As for ``cheapest_mixes``.

    Notes
    -----
    Source: definition.
    """
    mixes = cheapest_mixes(suppliers, uses, money)
    if not mixes:
        return None
    same = next((m.total_minor for m in mixes if m.supplier_of == before.supplier_of), None)
    return Change(what, mixes[0].name, mixes[0].total_minor, mixes[0].supplier_of == before.supplier_of, same)


def dearer(
    suppliers: Sequence[Supplier], *, price: float = 1.0, rent: float = 1.0, only: Sequence[str] = ()
) -> list[Supplier]:
    """The same suppliers with gas prices or rents multiplied.

    Parameters
    ----------
    suppliers : sequence of Supplier
        As they are.
    price, rent : float
        Factors, zero or above.
    only : sequence of str
        Names of the suppliers that change; empty for all.

    Returns
    -------
    list of Supplier

    Raises
    ------
    ValueError
        When a factor is below zero.

    Notes
    -----
    Source: definition.
    """
    if price < 0 or rent < 0:
        raise ValueError(f"price and rent must be zero or above, got {price}, {rent}")
    return [_scaled(s, price, rent) if not only or s.name in only else s for s in suppliers]


def rise_that_turns(
    suppliers: Sequence[Supplier], uses: Sequence[GasUse], money: Money, *, leader: Mix, of: str, most: float = 3.0
) -> float | None:
    """How far the leader's gas prices or rents may rise before another mix is cheaper.

    Parameters
    ----------
    suppliers, uses, money
        As for ``cheapest_mixes``.
    leader : Mix
        The mix that is cheapest now.
    of : str
        ``price`` or ``rent``.
    most : float
        The largest factor tried.

    Returns
    -------
    float or None
        The factor at which the lead is lost; None when it is kept up to ``most``.

    Raises
    ------
    ValueError
        When ``of`` is neither.

    Notes
    -----
    The leader's cost grows with the factor and the others' stays or grows less, so halving finds the turn, to one part
    in 1,000. Source: definition.
    """
    if of not in ("price", "rent"):
        raise ValueError(f"of must be price or rent, got {of!r}")
    names = [plan.supplier for plan in leader.plans]

    def leads(factor: float) -> bool:
        changed = dearer(suppliers, only=names, **{of: factor})
        return cheapest_mixes(changed, uses, money)[0].supplier_of == leader.supplier_of

    if leads(most):
        return None
    low, high = 1.0, most
    while high / low > _CLOSE:
        middle = (low + high) / 2
        low, high = (middle, high) if leads(middle) else (low, middle)
    return high


def _scaled(supplier: Supplier, price: float, rent: float) -> Supplier:
    offers = tuple(
        replace(offer, price=offer.price * price, rent=replace(offer.rent, rate=offer.rent.rate * rent))
        for offer in supplier.offers
    )
    return replace(supplier, offers=offers)


def _turns(leader: Callable[[float], str], low: float, high: float, first: str, last: str) -> list[tuple[float, str]]:
    """Close in on the demands between two points at which another mix takes the lead."""
    if first == last:
        return []
    if high / low < _CLOSE:
        return [(high, last)]
    middle = float(np.sqrt(low * high))
    led = leader(middle)
    return [*_turns(leader, low, middle, first, led), *_turns(leader, middle, high, led, last)]


def _without_narrow(spans: list[Span]) -> list[Span]:
    kept: list[Span] = []
    for span in spans:
        narrow = span.to_factor / span.from_factor < NARROW
        if kept and (narrow or kept[-1].mix == span.mix):
            kept[-1] = replace(kept[-1], to_factor=span.to_factor)
        else:
            kept.append(span)
    return kept
