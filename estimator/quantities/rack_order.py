"""What to order for a rack that runs short, by when, and how likely it is to be enough."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from estimator.quantities.rack import RackPlan
from estimator.quantities.ranges import above_zero, zero_or_above

__all__ = ["chance_enough", "cylinders_to_order", "days_left_to_order", "work_before_short_min"]


def cylinders_to_order(short_m3: float, usable_of_full_m3: float) -> int:
    """Return how many full cylinders cover what is short.

    Parameters
    ----------
    short_m3 : float
        Gas that the rack lacks, zero or above [m³].
    usable_of_full_m3 : float
        What one full cylinder gives before its change-over, above zero [m³].

    Returns
    -------
    int
        Cylinders; none when nothing is short.

    Raises
    ------
    ValueError
        When the shortage is below zero or a full cylinder gives nothing.

    Notes
    -----
    One part in 10⁹ over a whole number counts as that number. Source: definition.

    Examples
    --------
    >>> cylinders_to_order(9.9, 4.95), cylinders_to_order(10.0, 4.95), cylinders_to_order(0.0, 4.95)
    (2, 3, 0)
    """
    short = float(zero_or_above(short_m3=short_m3))
    return math.ceil(round(short / float(above_zero(usable_of_full_m3=usable_of_full_m3)), 9))


def work_before_short_min(plan: RackPlan, line_time_min: ArrayLike) -> float:
    """Return the minutes of work until gas is short.

    Parameters
    ----------
    plan : RackPlan
        The plan of one gas.
    line_time_min : array_like of float, shape (n,)
        Paid time of each line, zero or above [min].

    Returns
    -------
    float
        Minutes until the first line stops; infinite when the rack finishes the job [min].

    Raises
    ------
    ValueError
        When a time is below zero.

    Notes
    -----
    A line stops in proportion to the gas it got. Source: definition.

    Examples
    --------
    >>> from estimator.quantities.rack import plan_rack
    >>> work_before_short_min(plan_rack([1.0, 2.0], [2.0], [0.0]), [30.0, 60.0])
    60.0
    """
    times, line = zero_or_above(line_time_min=line_time_min), plan.first_short_line
    if line is None:
        return math.inf
    got = 1.0 - float(plan.short_m3[line] / plan.use_m3[line])
    return float(times[:line].sum() + times[line] * got)


def days_left_to_order(work_before_short_min: float, *, work_min_per_day: float, lead_time_days: float) -> float:
    """Return the working days left in which to order; below zero it is too late for no wait.

    Parameters
    ----------
    work_before_short_min : float
        Minutes of work until gas is short, zero or above; may be infinite [min].
    work_min_per_day : float
        Minutes of this work in a day, above zero [min].
    lead_time_days : float
        Working days from order to delivery, zero or above.

    Returns
    -------
    float
        Working days.

    Raises
    ------
    ValueError
        When a time is out of range.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> days_left_to_order(1440.0, work_min_per_day=480.0, lead_time_days=2.0)
    1.0
    """
    if math.isinf(work_before_short_min) and work_before_short_min > 0:
        return math.inf
    minutes = float(zero_or_above(work_before_short_min=work_before_short_min))
    days = minutes / float(above_zero(work_min_per_day=work_min_per_day))
    return days - float(zero_or_above(lead_time_days=lead_time_days))


def chance_enough(use_draws_m3: ArrayLike, usable_m3: float) -> float:
    """Return the chance that the rack holds enough, given the estimate's range.

    Parameters
    ----------
    use_draws_m3 : array_like of float, shape (k,)
        Gas of the whole job in k equally likely cases, zero or above [m³].
    usable_m3 : float
        Gas on the rack over its heels, zero or above [m³].

    Returns
    -------
    float
        Share of cases that the rack covers, 0 to 1.

    Raises
    ------
    ValueError
        When there is no case or a volume is below zero.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> chance_enough([4.0, 5.0, 6.0, 9.0], 6.0)
    0.75
    """
    draws = zero_or_above(use_draws_m3=use_draws_m3)
    if draws.size == 0:
        raise ValueError("use_draws_m3 must hold at least one case")
    return float(np.mean(draws <= float(zero_or_above(usable_m3=usable_m3))))
