"""Quoted against actual, by class of work: how far off, getting better or worse, and the correction to make."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from estimator.learning.fit import FEWEST_JOBS, Method, fit_line, method_for, robust_slope_through_origin, student_t
from estimator.learning.prior import draw_towards

__all__ = ["QuotedClass", "QuotedJob", "Trend", "learn_from_quotes"]

_LEVEL = 0.80
_TREND_LEVEL = 0.95
_TREND_JOBS = 6
"""Fewer jobs carry no trend. Source: judgement."""
_DAYS_A_YEAR = 365.25


@dataclass(frozen=True, slots=True)
class QuotedJob:
    """One quoted job that was worked and logged."""

    number: str
    work_class: str
    """As the shop sorts its work: ``cut by hand``, ``heat``."""
    quoted: float
    """Above zero, in the unit of ``actual``: hours, m³."""
    actual: float
    when: date


@dataclass(frozen=True, slots=True)
class Trend:
    """How actual over quoted moves with time."""

    a_year: float
    """Factor by which it changes in a year."""
    low: float
    high: float
    """95 % interval by Student's t."""

    @property
    def is_clear(self) -> bool:
        """Whether the interval leaves out no change at all."""
        return not self.low <= 1.0 <= self.high


@dataclass(frozen=True, slots=True)
class QuotedClass:
    """What the quotes of one class of work say."""

    work_class: str
    jobs: int
    ratio: float
    """Actual over quoted, the middle of the jobs."""
    low: float
    high: float
    """80 % interval of ``ratio``; ends are nought and infinite where there are too few jobs."""
    correction: float
    """Factor suggested for the next quote: the ratio, drawn towards 1."""
    correction_low: float
    correction_high: float
    trend: Trend | None
    reason: str


def learn_from_quotes(jobs: Sequence[QuotedJob], prior_log_sd: float) -> list[QuotedClass]:
    """Return what was quoted against what it took, class by class.

    Parameters
    ----------
    jobs : sequence of QuotedJob
        Quoted jobs that were logged.
    prior_log_sd : float
        How far off a shop's quotes are expected to be as a whole, on the log scale; the handbook's band of hours.

    Returns
    -------
    list of QuotedClass
        In order of class.

    Raises
    ------
    ValueError
        When a figure is not above zero.

    Notes
    -----
    Mean of the log ratios from 3 to 5 jobs, their median from 6 on. Intervals by Student's t. The correction is drawn
    towards 1 as a calibrated factor is. A trend needs 6 jobs on at least two days. Source: definition.
    """
    classes = sorted({job.work_class for job in jobs})
    return [_learn_class(name, [job for job in jobs if job.work_class == name], prior_log_sd) for name in classes]


def _learn_class(name: str, jobs: list[QuotedJob], prior_log_sd: float) -> QuotedClass:
    """Judge one class of work."""
    quoted = np.array([job.quoted for job in jobs], dtype=np.float64)
    actual = np.array([job.actual for job in jobs], dtype=np.float64)
    if min(quoted.min(), actual.min()) <= 0:
        raise ValueError(f"quoted and actual of {name!r} must be above zero")
    method = method_for(len(jobs))
    logs = np.log(actual / quoted)
    if method is Method.HANDBOOK:
        said = f"{len(jobs)} jobs, {FEWEST_JOBS} are needed"
        return QuotedClass(name, len(jobs), math.exp(logs.mean()), 0.0, math.inf, 1.0, 0.0, math.inf, None, said)
    if method is Method.ROBUST:
        ratio, log_u = robust_slope_through_origin(quoted, actual)
    else:
        ratio, log_u = math.exp(logs.mean()), float(logs.std(ddof=1)) / math.sqrt(len(jobs))
    t = student_t(_LEVEL, len(jobs) - 1)
    drawn = draw_towards(ratio, log_u * t / student_t(_LEVEL, math.inf), 1.0, prior_log_sd)
    half = drawn.log_u * student_t(_LEVEL, math.inf)
    return QuotedClass(
        name,
        len(jobs),
        ratio,
        ratio * math.exp(-t * log_u),
        ratio * math.exp(t * log_u),
        drawn.factor,
        drawn.factor * math.exp(-half),
        drawn.factor * math.exp(half),
        _trend(jobs, logs),
        f"from {len(jobs)} jobs",
    )


def _trend(jobs: list[QuotedJob], logs: np.ndarray[tuple[int], np.dtype[np.float64]]) -> Trend | None:
    """Fit the log ratio against the date, where there are enough jobs on different days."""
    if len(jobs) < _TREND_JOBS or len({job.when for job in jobs}) < 2:
        return None
    first = min(job.when for job in jobs)
    years = [(job.when - first).days / _DAYS_A_YEAR for job in jobs]
    fit = fit_line(years, logs)
    low, high = fit.interval(1, level=_TREND_LEVEL)
    return Trend(*(math.exp(step) for step in (float(fit.coefficients[1]), low, high)))
