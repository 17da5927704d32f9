"""Finished jobs beside what would have been said of them: hours, gas and price, job by job and on the whole."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from estimator.check.past_jobs import PastJob
from estimator.check.shop_book import ShopBook
from estimator.learning.ranges import Range
from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.job import Estimate
from estimator.problems import Problem

__all__ = ["PastAnswer", "PastFigure", "PastReport", "PastSummary", "past_answer", "past_summary"]


@dataclass(frozen=True, slots=True)
class PastFigure:
    """One figure of a job: what would have been said, and what it was; None where it was not typed."""

    said: float
    low: float
    high: float
    """Four times in five between these; NaN where no range is worked out."""
    was: float | None

    @property
    def ratio(self) -> float | None:
        """What it was over what would have been said."""
        return self.was / self.said if self.was is not None and self.said > 0 else None

    @property
    def inside(self) -> bool | None:
        """Whether it lies in the range; None where there is nothing to say."""
        if self.was is None or np.isnan(self.low):
            return None
        return bool(self.low <= self.was <= self.high)


@dataclass(frozen=True, slots=True)
class PastAnswer:
    """One finished job."""

    job: str
    hours: PastFigure
    oxygen: PastFigure
    """Full cylinders."""
    fuel: PastFigure
    price: PastFigure
    """Before tax, at today's rates [money]."""
    fuel_name: str
    note: str


@dataclass(frozen=True, slots=True)
class PastSummary:
    """All jobs together."""

    jobs: int
    ratio: float | None
    """Middle of hours over hours said; None where no job has hours."""
    least: float
    most: float
    inside: int
    """Jobs whose hours lie in their range."""
    told: int
    """Jobs with hours."""


@dataclass(frozen=True, slots=True)
class PastReport:
    """What was found of finished jobs."""

    answers: tuple[PastAnswer, ...]
    shop: ShopBook
    date: dt.date | None
    """Day whose rates were taken."""
    problems: tuple[Problem, ...]


def past_answer(job: PastJob, estimates: Sequence[Estimate]) -> PastAnswer:
    """Return a finished job beside what would have been said of it.

    Parameters
    ----------
    job : PastJob
        The job.
    estimates : sequence of Estimate
        Its cut lists and its metres, priced at today's rates.

    Returns
    -------
    PastAnswer
        Ranges of several lists are added end to end, since what is uncertain about one is uncertain about all.
    """
    ranges = [estimate_ranges(one) for one in estimates]
    first, minor = estimates[0], 10.0 ** estimates[0].shop.shop.decimals
    oxygen = sum(one.job.drawn_oxygen_m3 for one in estimates)
    fuel = sum(one.job.drawn_fuel_m3 for one in estimates)
    taxable = sum(one.totals.taxable for one in estimates) / minor
    return PastAnswer(
        job=job.name,
        hours=_figure(
            sum(one.whole_paid_time_min / 60.0 for one in estimates),
            [r.paid_time_min for r in ranges],
            60.0,
            job.total("hours"),
        ),
        oxygen=_figure(
            oxygen / first.rates.oxygen.usable_m3,
            [r.oxygen_m3 for r in ranges],
            first.rates.oxygen.usable_m3,
            job.total("oxygen_cylinders"),
        ),
        fuel=_figure(
            fuel / first.rates.fuel.usable_m3,
            [r.fuel_m3 for r in ranges],
            first.rates.fuel.usable_m3,
            job.total("fuel_cylinders"),
        ),
        price=PastFigure(taxable, np.nan, np.nan, job.total("price")),
        fuel_name=first.kit.fuel,
        note="; ".join(row.note for row in job.rows if row.note),
    )


def past_summary(answers: Sequence[PastAnswer]) -> PastSummary:
    """Return what all finished jobs say together of the hours.

    Parameters
    ----------
    answers : sequence of PastAnswer
        The jobs.

    Returns
    -------
    PastSummary
    """
    ratios = [ratio for answer in answers if (ratio := answer.hours.ratio) is not None]
    inside = sum(bool(answer.hours.inside) for answer in answers)
    if not ratios:
        return PastSummary(len(answers), None, np.nan, np.nan, 0, 0)
    return PastSummary(len(answers), float(np.median(ratios)), min(ratios), max(ratios), inside, len(ratios))


def _figure(said: float, ranges: Sequence[Range], unit: float, was: float | None) -> PastFigure:
    low, high = sum(one.low for one in ranges) / unit, sum(one.high for one in ranges) / unit
    return PastFigure(said, low, high, was)
