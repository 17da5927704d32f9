"""What calibration is worth on invented shops whose spreads are not the engine's own.

The full table is made by ``scripts/measure_calibration.py``; this holds its conclusion on fewer shops.
"""

from datetime import date

import numpy as np
import pytest

from estimator.learning.calibrate import calibrate_factors
from estimator.learning.observation import Kind
from tests.simulate_shop import HANDBOOK, PRICES, WORLDS, Shop, price_of

TODAY = date(2025, 6, 1)


def likely_price(job, values):
    return sum(
        PRICES[t.quantity] * t.amount * np.prod([values[n] ** p for n, p in t.powers.items()])
        for t in job.terms
        if t.quantity in PRICES
    )


@pytest.mark.parametrize("world", WORLDS, ids=lambda w: w.name)
def test_ten_logged_jobs_halve_the_error_of_the_likely_price(world):
    before, after = [], []
    for seed in range(25):
        shop = Shop(world, seed=90_000 + seed)
        found = calibrate_factors(shop.log([shop.job() for _ in range(10)]), HANDBOOK, today=TODAY)
        for _ in range(4):
            job = shop.job()
            true = price_of(job.actual)
            before.append(abs(likely_price(job, {f.name: 1.0 for f in HANDBOOK}) / true - 1))
            after.append(abs(likely_price(job, {f.name: f.value for f in found.factors}) / true - 1))
    assert np.median(after) <= 0.5 * np.median(before) + 0.01  # 0.01: what 100 jobs leave to chance


def test_no_log_and_a_log_of_two_jobs_change_no_factor():
    shop = Shop(WORLDS[1], seed=3)
    for jobs in (0, 1, 2):
        found = calibrate_factors(shop.log([shop.job() for _ in range(jobs)]), HANDBOOK, today=TODAY)
        assert [f.value for f in found.factors] == [1.0] * len(HANDBOOK)
        assert all(f.reason for f in found.factors)


def test_one_log_is_one_result_whatever_the_order_of_its_rows():
    shop = Shop(WORLDS[0], seed=4)
    log = shop.log([shop.job() for _ in range(10)])
    forward = calibrate_factors(log, HANDBOOK, today=TODAY)
    backward = calibrate_factors(log[::-1], HANDBOOK, today=TODAY)
    for one, other in zip(forward.factors, backward.factors, strict=True):
        assert one.value == pytest.approx(other.value, rel=1e-4)


def test_every_observation_is_shown_even_when_it_weighs_nothing():
    shop = Shop(WORLDS[1], seed=12)
    log = shop.log([shop.job() for _ in range(12)])
    found = calibrate_factors(log, HANDBOOK, today=TODAY)
    assert [each.seen for each in found.observations] == log
    for each in found.observations:
        assert each.weight > 0
        assert bool(each.reason) == each.odd
    assert any(each.odd for each in found.observations if each.seen.kind is Kind.PAID_TIME)
