"""What a shop uses in a month, from its work log or from a cut list, for comparing suppliers."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from estimator.check.cut_list import CutList
from estimator.check.shop_book import ShopBook
from estimator.check.work_log import WorkLog
from estimator.pricing.fuel_work import FuelLeftOut, hardest_draw_m3_h, work_on_fuel
from estimator.pricing.market import acetylene_draw_share
from estimator.pricing.modelled_log import modelled_log
from estimator.pricing.offers import GasUse
from estimator.quantities.job import JobQuantities

__all__ = ["LoggedUse", "uses_of_list", "uses_of_log"]

_FEWEST_MONTHS = 3
"""Months of log from which a slow and a busy month are taken."""


@dataclass(frozen=True, slots=True)
class LoggedUse:
    """Monthly use as a log gives it."""

    uses: tuple[GasUse, ...]
    months: int
    """Calendar months from the first entry to the last, both counted."""
    rows_left_out: int
    """Rows that the model could not follow; their gas is missing."""


def uses_of_list(cuts: CutList, shop: ShopBook, *, months: float, long_burns: bool = False) -> list[GasUse]:
    """Monthly use when a cut list is a stated number of months' work.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    shop : ShopBook
        Tips, chart, rates, fuel.
    months : float
        Months that the list fills, above zero.
    long_burns : bool
        Whether a torch is lit more than 10 minutes without a break of 5.

    Returns
    -------
    list of GasUse
        Oxygen and the shop's fuel, with the stated losses.

    Raises
    ------
    ValueError
        When months are not above zero, or a line has no tip or chart.

    Notes
    -----
    Source: the model of a cut.
    """
    if months <= 0:
        raise ValueError(f"months must be above zero, got {months}")
    found = work_on_fuel(cuts, shop, shop.shop.fuel, months=months, long_burns=long_burns)
    if isinstance(found, FuelLeftOut):
        raise ValueError(f"the list cannot be worked on {found.fuel}: {found.why}")
    return list(found.work.uses)


def uses_of_log(log: WorkLog, shop: ShopBook, *, long_burns: bool = False) -> LoggedUse:
    """Monthly use as the model reads it off a work log.

    Parameters
    ----------
    log : WorkLog
        Checked log, at least one entry.
    shop : ShopBook
        Tips, chart, rates, fuel.
    long_burns : bool
        Whether a torch is lit more than 10 minutes without a break of 5.

    Returns
    -------
    LoggedUse
        The mean month; the least and the most where three months or more are logged.

    Raises
    ------
    ValueError
        When the log is empty.

    Notes
    -----
    Months without an entry between the first and the last count as months without work. Source: the model of a cut.
    """
    if not log.entries:
        raise ValueError("a log without an entry says nothing of a month's use")
    by_month: dict[int, WorkLog] = {}
    for entry in log.entries:
        month = _month_number(entry.date)
        before = by_month.get(month, WorkLog())
        by_month[month] = WorkLog(entries=(*before.entries, entry))
    months = max(by_month) - min(by_month) + 1
    used: dict[str, list[float]] = defaultdict(list)
    draw: dict[str, float] = defaultdict(float)
    left_out = 0
    for logged in by_month.values():
        modelled = modelled_log(logged, shop)
        left_out += len(modelled.left_out)
        for gas, volume_m3 in _month_m3([(job.fuel, job.work) for job in modelled.jobs], draw).items():
            used[gas].append(volume_m3)
    uses = [_use(gas, volumes, months, draw[gas], long_burns=long_burns) for gas, volumes in used.items()]
    return LoggedUse(tuple(uses), months, left_out)


def _month_m3(jobs: Sequence[tuple[str, JobQuantities]], draw: dict[str, float]) -> Mapping[str, float]:
    """Return the gas of a month's jobs, and keep the hardest draw of each gas."""
    used: dict[str, float] = defaultdict(float)
    for fuel, work in jobs:
        used["oxygen"] += work.drawn_oxygen_m3
        used[fuel] += work.drawn_fuel_m3
        draw["oxygen"] = max(draw["oxygen"], hardest_draw_m3_h(work.chosen, "oxygen"))
        draw[fuel] = max(draw[fuel], hardest_draw_m3_h(work.chosen, "fuel"))
    return {gas: volume_m3 for gas, volume_m3 in used.items() if volume_m3 > 0}


def _use(gas: str, volumes_m3: list[float], months: int, draw_m3_h: float, *, long_burns: bool) -> GasUse:
    enough = months >= _FEWEST_MONTHS
    idle = [0.0] * (months - len(volumes_m3))
    return GasUse(
        gas,
        sum(volumes_m3) / months,
        low_month_m3=min([*volumes_m3, *idle]) if enough else 0.0,
        high_month_m3=max(volumes_m3) if enough else 0.0,
        highest_draw_m3_h=draw_m3_h,
        draw_share_per_h=acetylene_draw_share(long_burns=long_burns) if gas == "acetylene" else 0.0,
    )


def _month_number(day: dt.date) -> int:
    return day.year * 12 + day.month
