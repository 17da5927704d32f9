"""Names of the factors that a shop can learn, and what the handbook says of each before it has logged anything."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from estimator.check.shop_book import FactorRow, ShopBook
from estimator.check.torch_kit import built_in_work_rates
from estimator.learning.bands import shared_band
from estimator.learning.prior import fade
from estimator.learning.spread import Spread, split_lognormal
from estimator.words import OwnFactor

if TYPE_CHECKING:
    from estimator.learning.calibration_result import HandbookFactor
    from estimator.quantities.logged_work import LoggedJob

__all__ = [
    "FactorKey",
    "faded",
    "handbook_factors",
    "neutral",
]

_RATE_OF = {
    OwnFactor.START_TIME: "edge_start_share",
    OwnFactor.LAYOUT: "layout_min_per_m",
    OwnFactor.HANDLING: "handling_min_per_piece",
    OwnFactor.CLEANING: "clean_above_30_per_mm",
}
_USUAL_SD: dict[str, float] = {
    OwnFactor.SPEED: 0.18,
    OwnFactor.CUTTING_OXYGEN: 0.14,
    OwnFactor.PREHEAT_OXYGEN: 0.09,
    OwnFactor.FUEL: 0.27,
    OwnFactor.START_TIME: 0.33,
    OwnFactor.LAYOUT: 0.54,
    OwnFactor.HANDLING: 0.72,
    OwnFactor.CLEANING: 0.36,
    OwnFactor.MAN_HOURS: 0.21,
}
"""Spread of the handbook's usual band of each factor on the log scale: what an old factor fades back to."""


@dataclass(frozen=True, slots=True)
class FactorKey:
    """What a factor multiplies: a quantity, of one tip or all, by hand or machine or both."""

    what: str
    tip: str = ""
    by: str = ""

    @property
    def name(self) -> str:
        """As shown to people and as the terms of the model name it."""
        parts = [self.what, f"tip {self.tip}" if self.tip else "", f"by {self.by}" if self.by else ""]
        return ", ".join(part for part in parts if part)

    @classmethod
    def of(cls, row: FactorRow) -> FactorKey:
        """Return the key of a row of the shop book."""
        return cls(row.what, row.tip, row.by)


def neutral(shop: ShopBook) -> ShopBook:
    """Return the shop book as if nothing had been learned: what the log is set beside."""
    return shop.model_copy(update={"factors": ()})


def faded(shop: ShopBook, on: dt.date | None) -> ShopBook:
    """Return the shop book with its own factors as they stand on a day: the older, the nearer to the handbook.

    Parameters
    ----------
    shop : ShopBook
        The shop book.
    on : datetime.date or None
        Day of the job; without one nothing fades.

    Returns
    -------
    ShopBook
        The same book where no factor has a date and an interval.
    """
    if on is None or not any(row.measured for row in shop.factors):
        return shop
    return shop.model_copy(update={"factors": tuple(_fade_row(row, on, shop.shop.fade_days) for row in shop.factors)})


def _fade_row(row: FactorRow, on: dt.date, fade_days: int) -> FactorRow:
    """Fade one factor; the scatter of one job's hours is no belief about the shop and stays."""
    if row.measured is None or row.low is None or row.high is None or row.what == OwnFactor.ONE_JOB:
        return row
    own = split_lognormal(min(row.low, row.value), row.value, max(row.high, row.value))
    age = (on - row.measured).days
    now = fade(row.value, own.log_sd, _USUAL_SD[row.what], age_days=age, half_life_days=fade_days)
    wider = now.log_u / own.log_sd if own.log_sd > 0 else 1.0
    then = own.narrowed(wider)
    low, high = (round(now.factor * end / own.likely, 4) for end in (then.low, then.high))
    return row.model_copy(update={"value": round(now.factor, 4), "low": low, "high": high})


def handbook_factors(jobs: Sequence[LoggedJob], shop: ShopBook) -> dict[FactorKey, HandbookFactor]:
    """Return every factor that the logged jobs could teach, with the handbook's band.

    Parameters
    ----------
    jobs : sequence of LoggedJob
        Modelled jobs.
    shop : ShopBook
        The shop book, whose work rates may carry bands of their own.

    Returns
    -------
    dict of FactorKey to HandbookFactor
        Speed by tip and mode, cutting oxygen by tip; the rest for all tips.

    Notes
    -----
    A tip's band is that of its chart at the thicknesses that were logged, by the time spent on each.
    """
    from estimator.learning.calibration_result import HandbookFactor

    found = dict(_tip_bands(jobs))
    rates = built_in_work_rates()
    if jobs:
        preheat = f"preheat_{jobs[0].fuel.replace(' ', '_')}"
        found[FactorKey(OwnFactor.PREHEAT_OXYGEN)] = _rate_band(preheat, shop, rates)
    for what, rate in _RATE_OF.items():
        found[FactorKey(what)] = _rate_band(rate, shop, rates)
    low, high = (_likely(f"hours_range_{end}", shop, rates) for end in ("low", "high"))
    found[FactorKey(OwnFactor.MAN_HOURS)] = split_lognormal(1.0 - low, 1.0, 1.0 + high)
    return {key: HandbookFactor(key.name, spread) for key, spread in found.items()}


def _tip_bands(jobs: Sequence[LoggedJob]) -> Iterable[tuple[FactorKey, Spread]]:
    """Bands of speed and cutting oxygen by tip, and of fuel over all tips."""
    rows: dict[str, list[tuple[FactorKey, float, float, float]]] = {
        OwnFactor.SPEED: [],
        OwnFactor.CUTTING_OXYGEN: [],
        OwnFactor.FUEL: [],
    }
    for job in jobs:
        settings, lines = job.work.settings, job.work.lines
        for line, setting in enumerate(lines.setting):
            tip = settings.tip[setting]
            by = "machine" if settings.machine[setting] else "hand"
            lit = float(lines.flame_time_min[line])
            rows[OwnFactor.FUEL].append(
                (FactorKey(OwnFactor.FUEL), float(settings.fuel_low[setting]), float(settings.fuel_high[setting]), lit)
            )
            if settings.is_flame[setting]:
                continue
            cut = float(lines.cut_time_min[line])
            speed = float(settings.speed_low[setting]), float(settings.speed_high[setting])
            flow = float(settings.oxygen_low[setting]), float(settings.oxygen_high[setting])
            rows[OwnFactor.SPEED].append((FactorKey(OwnFactor.SPEED, tip, by), *speed, cut))
            rows[OwnFactor.CUTTING_OXYGEN].append((FactorKey(OwnFactor.CUTTING_OXYGEN, tip), *flow, cut))
    for of_what in rows.values():
        keys = list(dict.fromkeys(row[0] for row in of_what))
        group = [keys.index(row[0]) for row in of_what]
        low, high, weight = (np.array([row[i] for row in of_what]) for i in (1, 2, 3))
        yield from zip(keys, shared_band(low, np.ones_like(low), high, weight, group, len(keys)), strict=True)


def _rate_band(name: str, shop: ShopBook, rates: dict[str, dict[str, str | float]]) -> Spread:
    """Band of a work rate about its likely figure: the shop book's own where it states one."""
    own = next((row for row in shop.work_rates if row.name == name and row.low and row.high), None)
    likely, low, high = (
        (own.likely, own.low, own.high) if own else (float(rates[name][end]) for end in ("likely", "low", "high"))
    )
    return split_lognormal(min(low or likely, likely) / likely, 1.0, max(high or likely, likely) / likely)


def _likely(name: str, shop: ShopBook, rates: dict[str, dict[str, str | float]]) -> float:
    return next((row.likely for row in shop.work_rates if row.name == name), float(rates[name]["likely"]))
