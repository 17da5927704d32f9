"""Don't burn this: where a drill, a saw or a shear does the same for less, at the shop's own rates."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["Cheaper", "OtherWay", "burn_or_not"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class OtherWay:
    """Another way to do each line; arrays of shape (n,)."""

    name: str
    minutes_each: Floats
    """Paid minutes of one unit."""
    rate_per_h: float | Floats
    """What a paid hour costs, in the major unit; one for all lines or one each."""
    extras_each: Floats
    """Cutter, blade or disc for one unit, in the major unit."""
    possible: NDArray[np.bool_]
    """Where it can be done at all: thickness in reach, straight cut, round hole."""

    def cost_each(self) -> Floats:
        """Return the cost of one unit, infinite where it cannot be done, in the major unit."""
        cost = self.minutes_each / 60.0 * self.rate_per_h + self.extras_each
        return np.where(self.possible & np.isfinite(cost), cost, np.inf)


@dataclass(frozen=True, slots=True)
class Cheaper:
    """One line that is cheaper done another way."""

    line: int
    way: str
    units: float
    burn_cost_each: float
    way_cost_each: float
    burn_min_each: float
    way_min_each: float

    @property
    def saving(self) -> float:
        """What the whole line saves, in the major unit, unrounded."""
        return (self.burn_cost_each - self.way_cost_each) * self.units

    def words(self, name: str, money: Callable[[float], str]) -> str:
        """Say it with the money; ``name`` is the line's mark or description."""
        return (
            f"{name}: {self.way} costs {money(self.way_cost_each)} each, the torch {money(self.burn_cost_each)}; "
            f"{money(self.saving)} less for {self.units:g}"
        )


def burn_or_not(
    *, units: ArrayLike, torch_min_each: ArrayLike, torch_cost_each: ArrayLike, ways: Sequence[OtherWay]
) -> list[Cheaper]:
    """Find the lines that another way does for less.

    Parameters
    ----------
    units : array_like of float, shape (n,)
        Pieces or holes of each line.
    torch_min_each : array_like of float, shape (n,)
        Paid minutes of one unit by torch: layout, start, cut, cleaning and grinding with it. [min]
    torch_cost_each : array_like of float, shape (n,)
        Cost of one unit by torch with its gas, in the major unit; NaN where there is none.
    ways : sequence of OtherWay
        The other ways, over the same lines.

    Returns
    -------
    list of Cheaper
        For each line the cheapest other way, where it is cheaper than the torch; largest saving first.

    Notes
    -----
    A comparison of direct costs only: a hole that is burnt is also tapered and hard, which no figure here counts.
    A tie stays with the torch. Source: definition.

    Examples
    --------
    >>> saw = OtherWay("saw", np.array([1.1]), 30.0, np.array([0.05]), np.array([True]))
    >>> found = burn_or_not(units=[20], torch_min_each=[3.0], torch_cost_each=[1.60], ways=[saw])
    >>> found[0].words("cap plate", lambda amount: f"{amount:.2f}")
    'cap plate: saw costs 0.60 each, the torch 1.60; 20.00 less for 20'
    """
    q, burn_min, burn = (np.asarray(v, dtype=np.float64) for v in (units, torch_min_each, torch_cost_each))
    if not ways or not q.size:
        return []
    costs = np.stack([way.cost_each() for way in ways])
    best = np.argmin(costs, axis=0)
    lines = np.flatnonzero(costs[best, np.arange(q.size)] < burn)
    found = [
        Cheaper(
            line=int(i),
            way=ways[best[i]].name,
            units=float(q[i]),
            burn_cost_each=float(burn[i]),
            way_cost_each=float(costs[best[i], i]),
            burn_min_each=float(burn_min[i]),
            way_min_each=float(ways[best[i]].minutes_each[i]),
        )
        for i in lines
    ]
    return sorted(found, key=lambda one: -one.saving)
