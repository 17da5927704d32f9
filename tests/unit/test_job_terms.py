import numpy as np
import pytest

from estimator.learning.job_terms import TipFactors, TipSums, hours_factor, job_terms, shared_band, sum_by_group
from estimator.learning.ranges import Factor, Output, job_ranges
from estimator.learning.spread import EXACT, from_log_sd, split_lognormal

TIP = TipSums(
    tip="1.2",
    cut_time_min=60.0,
    start_time_min=6.0,
    other_flame_time_min=4.0,
    paid_cut_min=66.0,
    paid_start_min=7.0,
    cutting_oxygen_cut_m3=2.0,
    cutting_oxygen_start_m3=0.1,
    fuel_cut_m3=0.25,
    fuel_start_m3=0.03,
    fuel_other_m3=0.02,
    preheat_oxygen_per_fuel=1.1,
)
DOUBT = TipFactors(split_lognormal(0.8, 1, 1.25), from_log_sd(1, 0.1), from_log_sd(1, 0.2), "handbook")
QUANTITIES = ("flame_time_min", "paid_time_min", "cutting_oxygen_m3", "preheat_oxygen_m3", "acetylene_m3")
OUTPUTS = [Output(name, {name: 1.0}) for name in QUANTITIES]


def ranges_of(sums, doubts, hours, starts=EXACT):
    factors, terms = job_terms(sums, doubts, hours, starts, other_paid_min=200.0, fuel="acetylene")
    return job_ranges(factors, terms, OUTPUTS)


def test_likely_quantities_are_the_sums():
    found = ranges_of([TIP], [DOUBT], hours_factor(0))
    likely = {name: found[name].likely for name in QUANTITIES}
    assert likely["flame_time_min"] == pytest.approx(70.0)
    assert likely["paid_time_min"] == pytest.approx(273.0)
    assert likely["cutting_oxygen_m3"] == pytest.approx(2.1)
    assert likely["acetylene_m3"] == pytest.approx(0.30)
    assert likely["preheat_oxygen_m3"] == pytest.approx(0.33)


def test_a_slow_torch_burns_longer_and_uses_more_of_every_gas():
    exact_hours = Factor("hours", EXACT, "measured")
    slow = TipFactors(split_lognormal(0.5, 1, 1), EXACT, EXACT, "handbook")
    found = ranges_of([TIP], [slow], exact_hours)
    assert found["flame_time_min"].high == pytest.approx(60 / 0.5 + 10, rel=0.002)
    assert found["cutting_oxygen_m3"].high == pytest.approx(2 / 0.5 + 0.1, rel=0.002)
    assert found["acetylene_m3"].high == pytest.approx(0.25 / 0.5 + 0.05, rel=0.002)


def test_oxygen_flow_moves_cutting_oxygen_alone():
    exact_hours = Factor("hours", EXACT, "measured")
    found = ranges_of([TIP], [TipFactors(EXACT, split_lognormal(0.8, 1, 1.3), EXACT, "handbook")], exact_hours)
    assert found["cutting_oxygen_m3"].low == pytest.approx(0.8 * 2.1, rel=0.002)
    for still in ("flame_time_min", "paid_time_min", "preheat_oxygen_m3", "acetylene_m3"):
        assert found[still].low == found[still].high


def test_tips_are_in_doubt_apart_from_each_other():
    exact_hours = Factor("hours", EXACT, "measured")
    doubt = TipFactors(EXACT, from_log_sd(1, 0.1), EXACT, "handbook")
    one = ranges_of([TIP], [doubt], exact_hours)["cutting_oxygen_m3"]
    other = TipSums(**{**{f: getattr(TIP, f) for f in TIP.__slots__}, "tip": "1.6"})
    two = ranges_of([TIP, other], [doubt, doubt], exact_hours)["cutting_oxygen_m3"]
    assert np.log(two.high / two.low) == pytest.approx(np.log(one.high / one.low) / np.sqrt(2), rel=0.03)


def test_hours_are_minus_15_plus_40_percent_until_ten_jobs_are_logged():
    scatter = from_log_sd(1.0, 0.1)
    for jobs in (0, 9):
        factor = hours_factor(jobs, scatter)
        assert (factor.spread.low, factor.spread.high) == pytest.approx((0.85, 1.40))
        assert factor.logging == f"paid minutes of {10 - jobs} more jobs"
    assert hours_factor(10, scatter).spread == scatter
    assert hours_factor(10, None).spread.high == pytest.approx(1.40)


def test_lines_of_a_tip_share_the_mean_of_their_bands():
    bands = shared_band(
        low=[80, 40, 5], likely=[100, 50, 10], high=[120, 60, 20], weight=[3, 1, 2], group=[0, 0, 1], groups=3
    )
    assert (bands[0].low, bands[0].high) == pytest.approx((0.8, 1.2))
    assert (bands[1].low, bands[1].high) == pytest.approx((0.5, 2.0))
    assert bands[2] == EXACT


def test_lines_without_a_tip_are_left_out_of_the_sums():
    assert sum_by_group([2, -1, 2], 4, [1.0, 100.0, 2.0]).tolist() == [0.0, 0.0, 3.0, 0.0]
