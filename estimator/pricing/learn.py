"""Learn from jobs: a log and a shop book in, the shop's own factors out, each with interval, count, date and reason."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from estimator.check.shop_book import FactorRow, ShopBook
from estimator.check.torch_kit import work_rates
from estimator.check.work_log import WorkLog
from estimator.learning.calibrate import calibrate_factors
from estimator.learning.calibration_result import CalibratedFactor, CalibrationResult
from estimator.learning.fit import FEWEST_JOBS
from estimator.learning.observation import Kind
from estimator.pricing.cylinder_content import CylinderSize, ReadingDoubts
from estimator.pricing.job_rates import content_m3
from estimator.pricing.log_observations import NotUsed, observe, shared_errors
from estimator.pricing.modelled_log import modelled_log
from estimator.pricing.own_factors import FactorKey, handbook_factors, neutral
from estimator.pricing.quoted_work import QuotedWork, quoted_against_logged
from estimator.problems import Problem
from estimator.words import OwnFactor

__all__ = ["Calibration", "Learned", "cylinder_sizes", "learn_from_log"]


@dataclass(frozen=True, slots=True)
class Learned:
    """What a log taught."""

    result: CalibrationResult
    keys: Mapping[str, FactorKey]
    """Key of each factor, by its name."""
    not_used: tuple[NotUsed, ...]
    shop: ShopBook
    """The shop book with the new factors; the old one is untouched."""
    before: ShopBook
    today: dt.date
    quoted: QuotedWork | None = None
    """What quotes came to, where they are known."""

    @property
    def changed(self) -> list[CalibratedFactor]:
        """The factors that the log supports."""
        return [factor for factor in self.result.factors if factor.changed]


@dataclass(frozen=True, slots=True)
class Calibration:
    """What was learned from a file, and every problem on the way."""

    learned: Learned
    problems: tuple[Problem, ...]
    log_file: str
    log_sha256: str


def learn_from_log(
    log: WorkLog,
    shop: ShopBook,
    *,
    today: dt.date,
    half_life_days: float = math.inf,
    quoted_min: Mapping[str, float] | None = None,
) -> Learned:
    """Return what the log says of the shop's own factors, and a shop book that holds them.

    Parameters
    ----------
    log : WorkLog
        Checked log; the whole of it, since every calibration starts from the handbook.
    shop : ShopBook
        The shop book.
    today : datetime.date
        Day from which ages count, and the date of the new factors.
    half_life_days : float
        Age at which a logged figure keeps half of its weight; infinite where nothing fades [days].
    quoted_min : mapping of str to float, optional
        Paid minutes quoted, by quote number [min].

    Returns
    -------
    Learned
        A factor that the log says too little of keeps the row that the shop book had, if it had one.
    """
    rates = work_rates(neutral(shop))
    work = modelled_log(log, neutral(shop))
    seen = observe(log, work, rates, cylinder_sizes(shop), ReadingDoubts.of(rates))
    handbook = handbook_factors(work.jobs, shop)
    result = calibrate_factors(
        seen.observations,
        list(handbook.values()),
        today=today,
        shared_errors=shared_errors(rates),
        half_life_days=half_life_days,
    )
    keys = {factor.name: key for key, factor in handbook.items()}
    rows = _new_rows(result, keys, shop.factors, today)
    hours = handbook[FactorKey(OwnFactor.MAN_HOURS)].spread
    quoted = quoted_against_logged(log, quoted_min, hours) if quoted_min else None
    return Learned(result, keys, seen.not_used, shop.model_copy(update={"factors": rows}), shop, today, quoted)


def cylinder_sizes(shop: ShopBook) -> dict[tuple[str, str], CylinderSize]:
    """Return the shop's cylinder sizes by gas and name, as they are filled.

    Parameters
    ----------
    shop : ShopBook
        The shop book: contents from its prices, full pressure and tare from its rack.

    Returns
    -------
    dict of (str, str) to CylinderSize
        Names in small letters.
    """
    sizes = {}
    for row in sorted(shop.gas_prices, key=lambda r: r.from_date):
        racked = [c for c in shop.rack if c.gas == row.gas and c.cylinder.casefold() == row.cylinder.casefold()]
        full = next((c.full_pressure_bar for c in racked if c.full_pressure_bar), None)
        tare = next((c.tare_kg for c in racked if c.tare_kg), None)
        content = content_m3(row, row.gas)
        size = CylinderSize(row.gas, row.cylinder, content, full, tare, content * row.heel_share)
        sizes[row.gas, row.cylinder.casefold()] = size
    return sizes


def _new_rows(
    result: CalibrationResult, keys: Mapping[str, FactorKey], old: Sequence[FactorRow], today: dt.date
) -> tuple[FactorRow, ...]:
    """Return the rows of the new shop book: what was learned, and old rows of which the log says too little."""
    rows = [_row(keys[factor.name], factor, today) for factor in result.factors if factor.changed]
    for error in result.errors:
        if error.kind is Kind.PAID_TIME and error.count >= FEWEST_JOBS:
            spread = error.new_job
            rows.append(
                FactorRow(
                    what=OwnFactor.ONE_JOB,
                    value=1.0,
                    low=_4(spread.low),
                    high=_4(spread.high),
                    jobs=error.count,
                    measured=today,
                )
            )
    learned = {FactorKey.of(row) for row in rows}
    return (*rows, *(row for row in old if FactorKey.of(row) not in learned))


def _row(key: FactorKey, factor: CalibratedFactor, today: dt.date) -> FactorRow:
    return FactorRow(
        what=key.what,
        tip=key.tip,
        by=key.by,
        value=_4(factor.value),
        low=_4(factor.low),
        high=_4(factor.high),
        jobs=factor.jobs,
        measured=factor.latest or today,
    )


def _4(value: float) -> float:
    """Round a factor as the sheet shows it, so that the book says what is used."""
    return round(value, 4)
