"""Use over the months: a fixed part (leak and idle flame) and a part that follows the torch-lit hours.

The fit is one that a bad month does not pull. Money and gas alike.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.learning.fit import LEAST_SPREAD, NotEnoughDataError, activity_spread, student_t

__all__ = ["FEWEST_MONTHS", "FixedVariable", "RunningSum", "robust_line", "running_sum"]

FEWEST_MONTHS = 6
"""Fewer months than this carry no fixed part. Source: definition."""
_MAD_TO_SD = 1.482602218505602


@dataclass(frozen=True, slots=True)
class FixedVariable:
    """Use = fixed + variable x hours."""

    fixed: float
    """Use of a month without an hour of work; never below zero where it stands for a leak."""
    variable: float
    """Use of one hour more."""
    fixed_low: float = float("nan")
    fixed_high: float = float("nan")
    """Interval of the fixed part at 95 %."""
    warnings: tuple[str, ...] = ()


def robust_line(hours: ArrayLike, use: ArrayLike) -> FixedVariable:
    """Return the fixed and the variable part by a fit that a bad month does not pull.

    Parameters
    ----------
    hours, use : array_like of float, shape (n,)
        Torch-lit hours and use of each month; hours above zero.

    Returns
    -------
    FixedVariable
        A fixed part below zero is given as zero, and said.

    Raises
    ------
    NotEnoughDataError
        With fewer than six months, or when the busiest is under 1.5 times the quietest.

    Notes
    -----
    Slope: median of the slopes of all pairs (Theil-Sen). Fixed part: median of what is left. Its interval: Student's t
    on the robust residual spread, with the efficiency of a median (π / 2). Source: P. K. Sen (1968), Journal of the
    American Statistical Association 63, 1379-1389, from memory; limits: definition.
    """
    activity, used = _pair(hours, use)
    months = activity.size
    if months < FEWEST_MONTHS:
        raise NotEnoughDataError(f"{months} months; {FEWEST_MONTHS} are needed to tell a leak from work")
    spread = activity_spread(activity)
    if spread < LEAST_SPREAD:
        raise NotEnoughDataError(f"the busiest month is {spread:.2f} times the quietest; {LEAST_SPREAD} is needed")
    first, second = np.triu_indices(months, k=1)
    apart = activity[second] != activity[first]
    slopes = (used[second] - used[first])[apart] / (activity[second] - activity[first])[apart]
    slope = float(np.median(slopes))
    rest = used - slope * activity
    fixed = float(np.median(rest))
    half = student_t(0.95, months - 2) * _doubt_of_fixed(activity, rest - fixed)
    warnings = []
    if slope < 0:
        raise NotEnoughDataError("use falls with the hours: something else than work drives it")
    if fixed < 0:
        warnings.append(
            f"the fixed part came out below zero ({fixed:.3g}) and is given as none: there is no negative leak"
        )
    low, high = max(fixed - half, 0.0), max(fixed + half, 0.0)
    return FixedVariable(max(fixed, 0.0), slope, low, high, tuple(warnings))


@dataclass(frozen=True, slots=True)
class RunningSum:
    """A running sum of what was not expected, in standard uncertainties."""

    up: NDArray[np.float64]
    """Sum of use above what was expected; a leak lifts it month by month."""
    down: NDArray[np.float64]
    """Sum of use below what was expected."""
    alarm_month: int | None
    """First month (from 0) in which a sum passes the limit; None when none does."""


def running_sum(difference: ArrayLike, doubt: ArrayLike, slack: float = 0.5, limit: float = 4.0) -> RunningSum:
    """Return the two-sided running sum that shows a small lasting loss early.

    Parameters
    ----------
    difference : array_like of float, shape (n,)
        Used less expected of each month, in order (or price paid less agreed).
    doubt : array_like of float, shape (n,)
        Standard uncertainty of each difference, above zero.
    slack : float
        Standard uncertainties a month may be off without adding up; half of the step that is looked for.
    limit : float
        Standard uncertainties at which it is an alarm.

    Returns
    -------
    RunningSum

    Raises
    ------
    ValueError
        When a doubt is not above zero.

    Notes
    -----
    ``S = max(0, S + z - slack)``, both ways; with 0.5 and 4 a false alarm comes about once in 168 months (two-sided)
    and a step of one standard uncertainty is seen after 8. Source: E. S. Page (1954), Biometrika 41, 100-115, and the
    usual run-length tables, from memory.

    Examples
    --------
    >>> running_sum([0, 2, 2, 2, 2], [1, 1, 1, 1, 1]).alarm_month
    3
    """
    values, doubts = _pair(difference, doubt)
    if np.any(doubts <= 0):
        raise ValueError("doubt must be above zero")
    scores = values / doubts
    up, down = np.zeros(scores.size), np.zeros(scores.size)
    above = below = 0.0
    for month, score in enumerate(scores):
        above, below = max(0.0, above + score - slack), max(0.0, below - score - slack)
        up[month], down[month] = above, below
    alarms = np.flatnonzero(np.maximum(up, down) > limit)
    return RunningSum(up, down, int(alarms[0]) if alarms.size else None)


def _doubt_of_fixed(activity: NDArray[np.float64], residuals: NDArray[np.float64]) -> float:
    months = activity.size
    spread = _MAD_TO_SD * float(np.median(np.abs(residuals))) * np.sqrt(months / (months - 2))
    mean = float(activity.mean())
    around = float(np.sum((activity - mean) ** 2))
    return float(np.sqrt(np.pi / 2) * spread * np.sqrt(1 / months + mean**2 / around))


def _pair(first: ArrayLike, second: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    one, two = np.asarray(first, dtype=np.float64), np.asarray(second, dtype=np.float64)
    if one.shape != two.shape or one.ndim != 1 or not (np.all(np.isfinite(one)) and np.all(np.isfinite(two))):
        raise ValueError(f"two rows of finite figures of one length are needed, got {one.shape} and {two.shape}")
    return one, two
