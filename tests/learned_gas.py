"""How far off the gas of the next month is when it was learned from tags, from readings, or not at all: paired."""

from __future__ import annotations

import datetime as dt
from unittest import mock

import numpy as np
from scipy import stats

from estimator.check.example_shop import example_shop
from estimator.check.shop_book import ShopBook
from estimator.check.work_log import WorkLog
from estimator.learning import calibrate
from estimator.pricing.learn import learn_from_log
from estimator.pricing.modelled_log import modelled_log
from tests.simulate_shop import World
from tests.simulate_spans import GASES, gas_of_rows, simulate_months_of_gas

MARGIN = 0.01
"""Spans may be worse by less than this share of the gas and still count as at least as good: set beforehand."""
MEASURED = [f"{gas}, {of}" for gas in GASES for of in ("the month", "a metre")]
TODAY = dt.date(2025, 6, 30)


def gas_errors(world: World, seed: int, *, for_gauges: bool) -> list[list[float]]:
    """Errors of handbook, spans and gauges (rows) in each figure of ``MEASURED``, one shop."""
    months = simulate_months_of_gas(world, seed, for_gauges=for_gauges)
    rows = []
    for log in (None, months.with_tags, months.with_readings):
        shop = _learned(log) if log else example_shop()
        foretold = [gas_of_rows(job) for job in modelled_log(WorkLog(entries=months.next_month.entries), shop).jobs]
        row = []
        for gas in GASES:
            total = sum(float(job[gas].sum()) for job in foretold)
            by_row = np.concatenate([job[gas][:-1] for job in foretold])
            row.append(abs(float(np.log(total / months.next_gas_m3[gas]))))
            row.append(float(np.mean(np.abs(np.log(by_row / months.next_rows_m3[gas])))))
        rows.append(row)
    return rows


def _learned(log: WorkLog) -> ShopBook:
    """The shop book as calibrated. How each job is foretold by the others is not asked here, and takes longest."""
    with mock.patch.object(calibrate, "_left_out", lambda inputs, *rest: np.zeros(len(inputs.observations))):
        return learn_from_log(log, example_shop(), today=TODAY).shop


def paired_interval(spans: np.ndarray, gauges: np.ndarray) -> tuple[float, float]:
    """The 95 % interval (Student's t) of the mean of spans less gauges, shop by shop."""
    difference = spans - gauges
    half = stats.t.ppf(0.975, len(difference) - 1) * difference.std(ddof=1) / np.sqrt(len(difference))
    return float(difference.mean() - half), float(difference.mean() + half)
