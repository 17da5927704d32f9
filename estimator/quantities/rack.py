"""The rack running down line by line: which cylinder each line is cut on, where each runs to its heel, what is short.

One gas at a time. A *set* is one cylinder, or several on one manifold that empty together. Gas used + gas left + heel =
gas at the start, for every set and every cylinder.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.quantities.ranges import above_zero, zero_or_above

__all__ = [
    "RackPlan",
    "floor_m3",
    "plan_rack",
    "used_by_cylinder_m3",
]

_DRY_SHARE = 1e-9


@dataclass(frozen=True, slots=True)
class RackPlan:
    """What happens to the sets of one gas over the lines of a job, both in the order of use."""

    use_m3: NDArray[np.float64]
    """Gas each line needs, shape (n,) [m³]."""
    content_m3: NDArray[np.float64]
    """Gas at the start, shape (s,) [m³]."""
    heel_m3: NDArray[np.float64]
    """Gas that stays in at change-over, shape (s,); never more than the content [m³]."""
    taken_m3: NDArray[np.float64]
    """Gas each line takes from each set, shape (n, s) [m³]."""

    @property
    def used_m3(self) -> NDArray[np.float64]:
        """Gas used from each set, shape (s,) [m³]."""
        return np.asarray(self.taken_m3.sum(axis=0))

    @property
    def left_m3(self) -> NDArray[np.float64]:
        """Gas left over the heel at the end, shape (s,) [m³]."""
        return np.maximum(self.content_m3 - self.heel_m3 - self.used_m3, 0.0)

    @property
    def left_after_line_m3(self) -> NDArray[np.float64]:
        """Gas over the heels on the whole rack after each line, shape (n,) [m³]: what a chart shows falling."""
        start = float((self.content_m3 - self.heel_m3).sum())
        return np.maximum(start - np.cumsum(self.taken_m3.sum(axis=1)), 0.0)

    @property
    def short_m3(self) -> NDArray[np.float64]:
        """Gas each line lacks, shape (n,) [m³]."""
        lacking = self.use_m3 - self.taken_m3.sum(axis=1)
        return np.where(lacking > _DRY_SHARE * np.maximum(self.use_m3, 1e-12), lacking, 0.0)

    @property
    def first_short_line(self) -> int | None:
        """The first line that lacks gas; None when the rack finishes the job."""
        lacking = np.flatnonzero(self.short_m3 > 0)
        return int(lacking[0]) if lacking.size else None

    @property
    def dry_line(self) -> list[int | None]:
        """The line at which each set runs to its heel; None for a set that does not."""
        dry = (self.left_m3 <= _DRY_SHARE * self.content_m3) & (self.used_m3 > 0)
        drawn = self.taken_m3 > 0
        last = drawn.shape[0] - 1 - np.argmax(drawn[::-1], axis=0) if drawn.size else np.zeros(len(dry), dtype=int)
        return [int(line) if is_dry else None for line, is_dry in zip(last, dry, strict=True)]

    @property
    def changes(self) -> int:
        """Change-overs: how often the set in use is another than the one before, the first excepted."""
        order = self.taken_m3.nonzero()[1] if self.taken_m3.size else np.zeros(0, dtype=int)
        return int(np.count_nonzero(np.diff(order)))


def floor_m3(heel_m3: ArrayLike, draw_m3_h: ArrayLike, *, fraction_per_h: float) -> NDArray[np.float64]:
    """Return how far each line may draw each set down, where the limit follows what is left.

    Parameters
    ----------
    heel_m3 : array_like of float, shape (s,)
        Heel of each set, zero or above [m³].
    draw_m3_h : array_like of float, shape (n,)
        Draw of each line on one set; zero for tips whose limit does not follow what is left (not for heating) [m³/h].
    fraction_per_h : float
        Share of what is left that may be drawn in an hour, above zero [1/h].

    Returns
    -------
    ndarray of float, shape (n, s)
        Lowest content at which the line may still draw [m³].

    Raises
    ------
    ValueError
        When a heel or a draw is below zero, or the fraction is not above zero.

    Notes
    -----
    ``max(heel, draw ÷ fraction)``. Source: definition.

    Examples
    --------
    >>> floor_m3([0.5, 0.3], [0.0, 0.2], fraction_per_h=0.1)
    array([[0.5, 0.3],
           [2. , 2. ]])
    """
    held = zero_or_above(draw_m3_h=draw_m3_h) / above_zero(fraction_per_h=fraction_per_h)
    return np.maximum(zero_or_above(heel_m3=heel_m3)[None, :], held[:, None])


def plan_rack(
    use_m3: ArrayLike, content_m3: ArrayLike, heel_m3: ArrayLike, *, floors_m3: ArrayLike | None = None
) -> RackPlan:
    """Plan which set each line draws on, and where each runs to its heel.

    Parameters
    ----------
    use_m3 : array_like of float, shape (n,)
        Gas each line or job row needs, in the order of work, zero or above [m³].
    content_m3 : array_like of float, shape (s,)
        Gas in each set now, in the order in which they are to be used, zero or above [m³].
    heel_m3 : array_like of float, shape (s,)
        Gas left in each at change-over, zero or above [m³].
    floors_m3 : array_like of float, shape (n, s), optional
        Lowest content at which a line may draw a set, where that is above the heel (``floor_m3``) [m³].

    Returns
    -------
    RackPlan
        With gas used + left + heel = content for every set.

    Raises
    ------
    ValueError
        When a volume is below zero, or shapes do not belong together.

    Notes
    -----
    Each line takes from the first set that may still give, then the next. A set that is too low for a heating tip is
    left for the lines that it can still feed. Source: definition.

    Examples
    --------
    >>> plan = plan_rack([1.0, 2.0, 3.0], [2.5, 5.0], [0.5, 0.5])
    >>> plan.taken_m3, plan.dry_line, plan.left_m3
    (array([[1., 0.],
           [1., 1.],
           [0., 3.]]), [1, None], array([0. , 0.5]))
    """
    use, content = zero_or_above(use_m3=use_m3), zero_or_above(content_m3=content_m3)
    heel = zero_or_above(heel_m3=heel_m3)
    if use.ndim != 1 or content.shape != heel.shape or content.ndim != 1:
        raise ValueError(f"use, content and heel must be rows, got shapes {use.shape}, {content.shape}, {heel.shape}")
    heel = np.minimum(heel, content)
    floors = np.broadcast_to(heel, (use.size, content.size)) if floors_m3 is None else _floors(floors_m3, use, heel)
    return RackPlan(use, content, heel, _take(use, content, floors))


def used_by_cylinder_m3(used_m3: ArrayLike, usable_m3: ArrayLike, set_of_cylinder: ArrayLike) -> NDArray[np.float64]:
    """Share what each set gave over its cylinders, which empty together.

    Parameters
    ----------
    used_m3 : array_like of float, shape (s,)
        Gas used from each set, zero or above [m³].
    usable_m3 : array_like of float, shape (c,)
        Content less heel of each cylinder, zero or above [m³].
    set_of_cylinder : array_like of int, shape (c,)
        The set each cylinder belongs to, counted from 0.

    Returns
    -------
    ndarray of float, shape (c,)
        Gas used from each cylinder [m³].

    Raises
    ------
    ValueError
        When a volume is below zero.

    Notes
    -----
    In proportion to what each could give. Source: definition.

    Examples
    --------
    >>> used_by_cylinder_m3([3.0, 1.0], [4.0, 2.0, 5.0], [0, 0, 1])
    array([2., 1., 1.])
    """
    usable, used = zero_or_above(usable_m3=usable_m3), zero_or_above(used_m3=used_m3)
    member = np.asarray(set_of_cylinder, dtype=np.int64)
    of_set = np.bincount(member, weights=usable, minlength=used.size)
    share = np.divide(used, of_set, out=np.zeros(used.shape), where=of_set > 0)
    return usable * share[member]


def _floors(floors_m3: ArrayLike, use: NDArray[np.float64], heel: NDArray[np.float64]) -> NDArray[np.float64]:
    floors = zero_or_above(floors_m3=floors_m3)
    if floors.shape != (use.size, heel.size):
        raise ValueError(f"floors_m3 must have shape {(use.size, heel.size)}, got {floors.shape}")
    return np.maximum(floors, heel[None, :])


def _take(use: NDArray[np.float64], content: NDArray[np.float64], floors: NDArray[np.float64]) -> NDArray[np.float64]:
    """Walk the lines in order; inside a line the sets in order."""
    taken, now = np.zeros((use.size, content.size)), content.copy()
    lowest = floors.min(axis=0, initial=np.inf)
    first = 0
    for line, wanted in enumerate(use.tolist()):
        while first < content.size and now[first] <= lowest[first]:
            first += 1
        for place in range(first, content.size):
            if wanted <= 0:
                break
            given = min(wanted, max(float(now[place] - floors[line, place]), 0.0))
            taken[line, place] = given
            now[place] -= given
            wanted -= given
    return taken
