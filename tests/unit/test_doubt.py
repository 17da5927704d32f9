import datetime as dt

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.shop_book import FactorRow
from estimator.learning.ranges import job_ranges
from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.job import JobOrder, estimate_job
from estimator.words import Steel


def ranges_with(*rows):
    """An estimate of four lines, steel left out, on a shop book with these factors."""
    cuts = CutList(
        mark=["P1", "P2", "P3", "P4"],
        quantity=np.array([8.0, 24.0, 6.0, 2.0]),
        thickness_mm=np.array([20.0, 10.0, 12.0, 25.0]),
        cut_length_mm=np.array([1200.0, 512.0, 2200.0, 2042.0]),
        steel=np.full(4, Steel.EXCLUDED, dtype=np.int8),
    )
    shop = example_shop().model_copy(update={"factors": rows})
    estimate = estimate_job(cuts, shop, JobOrder(date=dt.date(2026, 5, 1)))
    return estimate_ranges(estimate), estimate


def one_job(jobs, low=0.93, high=1.08):
    return FactorRow(what="one job's hours", value=1.0, low=low, high=high, jobs=jobs)


def test_the_likely_price_is_the_printed_total():
    found, estimate = ranges_with()
    assert found.price.likely == pytest.approx(estimate.totals.total / 100, abs=0.005)
    assert found.price.low < found.price.likely < found.price.high


@pytest.mark.parametrize("rows", [(), (one_job(9),)])
def test_hours_are_minus_15_plus_40_percent_until_ten_jobs_are_logged(rows):
    found, _ = ranges_with(*rows)
    hours = found.paid_time_min
    assert hours.low / hours.likely == pytest.approx(0.85, abs=0.01)  # the chart's band adds next to nothing
    assert hours.high / hours.likely == pytest.approx(1.40, abs=0.02)


def test_from_ten_jobs_on_the_hours_stray_as_the_shops_own_jobs_did():
    found, _ = ranges_with(one_job(10))
    hours = found.paid_time_min
    assert (hours.low / hours.likely, hours.high / hours.likely) == pytest.approx((0.93, 1.08), abs=0.003)
    assert found.price.bars[0].factor.name == "hours of one job"
    assert found.price.bars[0].factor.source == "10 jobs logged"


def test_before_that_the_bars_show_each_work_rate_and_what_to_log():
    found, _ = ranges_with()
    names = [bar.factor.name for bar in found.price.bars]
    assert names[0] == "hours, scope and surprises"
    assert {"layout", "handling", "cleaning", "speed, tip 1.2, by hand"} < set(names)
    assert sum(bar.share for bar in found.price.bars) == pytest.approx(1.0)
    assert found.price.bars[0].factor.logging == "man-hours of each job"


def test_a_learned_speed_narrows_the_gas_of_its_tip():
    wide, _ = ranges_with()
    narrow, _ = ranges_with(
        *(
            FactorRow(what=what, tip=tip, by=by, value=1.0, low=0.97, high=1.03, jobs=8)
            for tip in ("1.2", "1.6")
            for what, by in (("travel speed", "hand"), ("cutting oxygen", ""), ("fuel", ""))
        )
    )
    for gas in ("oxygen_m3", "fuel_m3"):
        before, after = getattr(wide, gas), getattr(narrow, gas)
        assert after.high / after.low < 0.9 * before.high / before.low


def test_the_range_of_ten_thousand_lines_is_worked_out_from_as_many_sums_as_that_of_forty(monkeypatch):
    counted = []

    def count(factors, terms, outputs):
        counted.append((len(factors), len(terms)))
        return job_ranges(factors, terms, outputs)

    monkeypatch.setattr("estimator.pricing.doubt.job_ranges", count)
    for lines in (40, 10_000):
        cuts = CutList(
            mark=[f"P{i}" for i in range(lines)],
            quantity=np.full(lines, 3.0),
            thickness_mm=np.resize([6.0, 12.0, 20.0, 40.0], lines),
            cut_length_mm=np.full(lines, 900.0),
            steel=np.full(lines, Steel.EXCLUDED, dtype=np.int8),
        )
        estimate_ranges(estimate_job(cuts, example_shop(), JobOrder(date=dt.date(2026, 5, 1))))
    assert counted[0] == counted[1]
    assert counted[0][1] < 100
