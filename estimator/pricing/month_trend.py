"""What several months say together: the leak behind the work, and a lasting loss that no single month shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from estimator.learning.fit import NotEnoughDataError
from estimator.pricing.fixed_variable import FixedVariable, RunningSum, robust_line, running_sum
from estimator.pricing.month_end import Month

__all__ = ["MonthTrend", "month_trends"]


@dataclass(frozen=True, slots=True)
class MonthTrend:
    """One gas over the months, in order; m³ and hours."""

    gas: str
    hours: tuple[float, ...]
    used_m3: tuple[float, ...]
    expected_m3: tuple[float, ...]
    line: FixedVariable | None
    """Fixed and variable use; None where the months do not carry it."""
    refused: str
    """Why there is no line; empty when there is one."""
    summed: RunningSum


def month_trends(months: Sequence[Month]) -> list[MonthTrend]:
    """Return the trend of every gas that has a verdict in at least two months.

    Parameters
    ----------
    months : sequence of Month
        In order.

    Returns
    -------
    list of MonthTrend

    Notes
    -----
    A fixed part above zero is gas that went without work: leak, purge, flame left burning. Source: definition.
    """
    gases = dict.fromkeys(verdict.gas for month in months for verdict in month.verdicts)
    trends = []
    for gas in gases:
        rows = [
            (month.expected, verdict)
            for month in months
            for verdict in month.verdicts
            if verdict.gas == gas and month.expected
        ]
        if len(rows) < 2:
            continue
        hours = [float(expected.flame_time_min.sum()) / 60.0 for expected, _ in rows]
        used = [verdict.used_m3 for _, verdict in rows]
        off = [verdict.difference_m3 for _, verdict in rows]
        doubt = [max(float(np.hypot(v.used_doubt_m3, v.expected_doubt_m3)), 1e-9) for _, v in rows]
        line, refused = _line(hours, used)
        wanted = tuple(verdict.expected_m3 for _, verdict in rows)
        trends.append(MonthTrend(gas, tuple(hours), tuple(used), wanted, line, refused, running_sum(off, doubt)))
    return trends


def _line(hours: list[float], used: list[float]) -> tuple[FixedVariable | None, str]:
    if min(hours) <= 0:
        return None, "a month has no torch-lit hours"
    try:
        return robust_line(hours, used), ""
    except NotEnoughDataError as why:
        return None, str(why)
