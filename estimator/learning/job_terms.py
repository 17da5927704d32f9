"""A job as sums for its range: lines are added up once by tip, and each sum is tied to the factors that move it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.learning.ranges import Factor, Term
from estimator.learning.spread import EXACT, Spread, split_lognormal

__all__ = [
    "ENOUGH_JOBS",
    "HOURS_BAND",
    "TipFactors",
    "TipSums",
    "hours_factor",
    "job_terms",
    "shared_band",
    "sum_by_group",
]

HOURS_BAND = (0.85, 1.0, 1.40)
"""Hours of a shop that has logged fewer than ten jobs, as a factor. Source: common practice, no source."""
ENOUGH_JOBS = 10
"""Logged jobs from which the shop's own scatter replaces ``HOURS_BAND``. Source: definition."""


@dataclass(frozen=True, slots=True)
class TipSums:
    """What one tip does in a job, summed over its lines with every factor likely."""

    tip: str
    """As shown to people, with method and fuel where they differ: ``1.2 by hand``."""
    cut_time_min: float
    """Travelling on the cut."""
    start_time_min: float
    """Pierces and edge starts."""
    other_flame_time_min: float
    """Lit between cuts: moves, lighting, setting."""
    paid_cut_min: float
    """Paid for the travelling: crew and rest allowance in."""
    paid_start_min: float
    """Paid for the starts."""
    cutting_oxygen_cut_m3: float
    """Cutting oxygen of the travelling."""
    cutting_oxygen_start_m3: float
    """Cutting oxygen of the blow-through."""
    fuel_cut_m3: float
    fuel_start_m3: float
    fuel_other_m3: float
    preheat_oxygen_per_fuel: float
    """Preheat oxygen to each cubic metre of fuel."""


@dataclass(frozen=True, slots=True)
class TipFactors:
    """The spreads of one tip as factors about 1; independent of each other, shared by every line of the tip."""

    speed: Spread
    oxygen_flow: Spread
    fuel_flow: Spread
    source: str
    """Where they come from, for the range's bars."""


def sum_by_group(group: ArrayLike, groups: int, amount: ArrayLike) -> NDArray[np.float64]:
    """Return the sum of a column for each group: one pass over the lines.

    Parameters
    ----------
    group : array_like of int, shape (n,)
        Group of each line, from 0; a line below 0 belongs to none.
    groups : int
        Number of groups.
    amount : array_like of float, shape (n,)
        What is summed, in any unit.

    Returns
    -------
    ndarray of float, shape (groups,)
        Sums.

    Examples
    --------
    >>> sum_by_group([0, 1, 0, -1], 2, [1.0, 2.0, 3.0, 9.0])
    array([4., 2.])
    """
    index = np.asarray(group, dtype=np.int64)
    taken = index >= 0
    weights = np.asarray(amount, dtype=np.float64)[taken]
    return np.bincount(index[taken], weights=weights, minlength=groups).astype(np.float64)


def shared_band(
    low: ArrayLike, likely: ArrayLike, high: ArrayLike, weight: ArrayLike, group: ArrayLike, groups: int
) -> list[Spread]:
    """Return one spread for each group from the bands of its lines.

    Parameters
    ----------
    low, likely, high : array_like of float, shape (n,)
        Bands of the lines, above zero and rising, in any unit.
    weight : array_like of float, shape (n,)
        How much each line counts: its cut time or gas.
    group : array_like of int, shape (n,)
        Group of each line, from 0; a line below 0 belongs to none.
    groups : int
        Number of groups.

    Returns
    -------
    list of Spread, length groups
        About 1. A group without weight is exact.

    Notes
    -----
    Weighted mean of the log steps: the lines of a tip are wrong together, so their steps average and do not cancel.
    Source: definition.

    Examples
    --------
    >>> band, none = shared_band([80, 80], [100, 100], [110, 130], [1, 1], [0, 0], 2)
    >>> round(band.low, 3), round(band.high, 3), none.high
    (0.8, 1.196, 1.0)
    """
    total = sum_by_group(group, groups, weight)
    centre = np.log(np.asarray(likely, dtype=np.float64))
    steps = [
        sum_by_group(group, groups, np.asarray(weight) * (np.log(np.asarray(end, dtype=np.float64)) - centre))
        for end in (low, high)
    ]
    return [
        split_lognormal(float(np.exp(below / w)), 1.0, float(np.exp(above / w))) if w > 0 else EXACT
        for below, above, w in zip(steps[0], steps[1], total, strict=True)
    ]


def hours_factor(jobs_logged: int, scatter: Spread | None = None) -> Factor:
    """Return the doubt about the paid hours that the chart does not explain.

    Parameters
    ----------
    jobs_logged : int
        Jobs with paid hours in the log behind the shop book.
    scatter : Spread, optional
        Logged over modelled hours of one job, from the calibration; used from ten jobs on.

    Returns
    -------
    Factor
        −15 / +40 % until ten jobs are logged, then the shop's own.

    Notes
    -----
    Source: definition (common practice, no source).
    """
    if jobs_logged >= ENOUGH_JOBS and scatter is not None:
        return Factor("hours", scatter, f"{jobs_logged} logged jobs", "")
    needed = ENOUGH_JOBS - jobs_logged if jobs_logged < ENOUGH_JOBS else 0
    return Factor(
        "hours",
        split_lognormal(*HOURS_BAND),
        "common practice until ten jobs are logged",
        f"paid minutes of {needed} more jobs" if needed else "paid minutes, then learn from jobs",
    )


def job_terms(
    sums: Sequence[TipSums],
    factors: Sequence[TipFactors],
    hours: Factor,
    starts: Spread,
    *,
    other_paid_min: float,
    fuel: str,
) -> tuple[list[Factor], list[Term]]:
    """Return a job's factors and terms, ready for ``job_ranges``.

    Parameters
    ----------
    sums : sequence of TipSums
        One entry for each tip of the job.
    factors : sequence of TipFactors, same length
        Their spreads.
    hours : Factor
        From ``hours_factor``.
    starts : Spread
        Spread of pierce and edge-start times about 1, shared by the job.
    other_paid_min : float
        Paid for all that is not travelling or starting: layout, handling, cleaning, other work, job rows [min].
    fuel : str
        Fuel, as it names its quantity: ``acetylene``.

    Returns
    -------
    tuple of list of Factor, list of Term
        Quantities are ``flame_time_min``, ``paid_time_min``, ``cutting_oxygen_m3``, ``preheat_oxygen_m3`` and
        ``<fuel>_m3``.

    Notes
    -----
    Time on the cut follows the speed to the power −1; cutting oxygen follows that and the tip's flow; fuel and preheat
    oxygen follow the flame's time and the tip's fuel flow. The hours factor moves paid minutes and the minutes lit
    between cuts. Source: definition.
    """
    start = Factor("starts", starts, "handbook", "flame minutes of jobs with many pierces")
    named, terms = [hours, start], [Term("paid_time_min", other_paid_min, {hours.name: 1})]
    for tip, doubt in zip(sums, factors, strict=True):
        speed = Factor(f"speed, tip {tip.tip}", doubt.speed, doubt.source, f"flame minutes and metres on tip {tip.tip}")
        flow = Factor(f"oxygen flow, tip {tip.tip}", doubt.oxygen_flow, doubt.source, "cylinder tags of oxygen")
        flame = Factor(f"fuel flow, tip {tip.tip}", doubt.fuel_flow, doubt.source, f"cylinder tags of {fuel}")
        named += [speed, flow, flame]
        for time_min, paid_min, jet_m3, fuel_m3, moved_by in (
            (tip.cut_time_min, tip.paid_cut_min, tip.cutting_oxygen_cut_m3, tip.fuel_cut_m3, {speed.name: -1.0}),
            (tip.start_time_min, tip.paid_start_min, tip.cutting_oxygen_start_m3, tip.fuel_start_m3, {start.name: 1.0}),
            (tip.other_flame_time_min, 0.0, 0.0, tip.fuel_other_m3, {hours.name: 1.0}),
        ):
            lit = {**moved_by, flame.name: 1.0}
            terms += [
                Term("flame_time_min", time_min, moved_by),
                Term("paid_time_min", paid_min, {**moved_by, hours.name: 1.0}),
                Term("cutting_oxygen_m3", jet_m3, {**moved_by, flow.name: 1.0}),
                Term("preheat_oxygen_m3", fuel_m3 * tip.preheat_oxygen_per_fuel, lit),
                Term(f"{fuel}_m3", fuel_m3, lit),
            ]
    return named, [term for term in terms if term.amount != 0]
