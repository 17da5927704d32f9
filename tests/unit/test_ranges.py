import numpy as np
import pytest

from estimator.learning.ranges import Factor, Output, Term, first_order_log_sd, job_ranges
from estimator.learning.spread import EXACT, from_log_sd, split_lognormal

SPEED = Factor("speed", split_lognormal(0.8, 1.0, 1.2), "handbook", "flame minutes")
HOURS = Factor("hours", split_lognormal(0.85, 1.0, 1.40), "common practice", "paid minutes")
FLOW = Factor("flow", from_log_sd(1.0, 0.1), "handbook", "cylinder tags")
TERMS = [
    Term("paid_time_min", 60.0, {"speed": -1, "hours": 1}),
    Term("paid_time_min", 240.0, {"hours": 1}),
    Term("oxygen_m3", 5.0, {"speed": -1, "flow": 1}),
]
HOURS_OUT = Output("hours", {"paid_time_min": 1 / 60})
OXYGEN_OUT = Output("oxygen", {"oxygen_m3": 1.0})
PRICE = Output("price", {"paid_time_min": 1.0, "oxygen_m3": 4.0}, fixed=80.0)


def test_likely_is_the_estimate_as_printed():
    found = job_ranges([SPEED, HOURS, FLOW], TERMS, [HOURS_OUT, OXYGEN_OUT, PRICE])
    assert found["hours"].likely == pytest.approx(5.0)
    assert found["oxygen"].likely == pytest.approx(5.0)
    assert found["price"].likely == pytest.approx(300.0 + 20.0 + 80.0)
    for each in found.values():
        assert each.low < each.likely < each.high


def test_one_input_alone_gives_its_own_ends():
    terms = [Term("paid_time_min", 100.0, {"hours": 1})]
    found = job_ranges([HOURS], terms, [Output("time", {"paid_time_min": 1.0})])["time"]
    assert found.low == pytest.approx(85.0, rel=0.002)
    assert found.high == pytest.approx(140.0, rel=0.002)


def test_a_job_without_doubt_has_a_range_of_no_width():
    exact = Factor("hours", EXACT, "measured")
    found = job_ranges([exact], [Term("paid_time_min", 50.0, {"hours": 1})], [Output("t", {"paid_time_min": 2.0})])["t"]
    assert (found.low, found.likely, found.high, found.bars) == (100.0, 100.0, 100.0, ())


def test_an_error_that_lines_share_does_not_average_away():
    shared = [Term("paid_time_min", 1.0, {"speed": -1}) for _ in range(100)]
    apart_factors = [Factor(f"speed {i}", SPEED.spread, "handbook") for i in range(100)]
    apart = [Term("paid_time_min", 1.0, {f.name: -1}) for f in apart_factors]
    total = Output("time", {"paid_time_min": 1.0})
    together = job_ranges([SPEED], shared, [total])["time"]
    averaged = job_ranges(apart_factors, apart, [total])["time"]
    assert together.low == pytest.approx(100 / 1.2, rel=0.003)
    assert together.high == pytest.approx(100 / 0.8, rel=0.003)
    assert averaged.high - averaged.low < 0.2 * (together.high - together.low)


def test_the_bars_name_the_input_that_moves_the_price_most():
    bars = job_ranges([SPEED, HOURS, FLOW], TERMS, [PRICE])["price"].bars
    assert [bar.factor.name for bar in bars] == ["hours", "speed", "flow"]
    assert sum(bar.share for bar in bars) == pytest.approx(1.0)
    assert bars[0].low == pytest.approx(0.85 * 300 + 20 + 80)  # by hand: hours alone
    assert bars[0].high == pytest.approx(1.40 * 300 + 20 + 80)
    speed = bars[1]
    assert speed.low == pytest.approx(60 / 0.8 + 240 + 20 / 0.8 + 80)  # slow: dear
    assert speed.high == pytest.approx(60 / 1.2 + 240 + 20 / 1.2 + 80)


def test_a_minimum_charge_holds_the_low_end_up():
    floor = Output("price", PRICE.weights, PRICE.fixed, curve=lambda total: np.maximum(total, 390.0))
    found = job_ranges([SPEED, HOURS, FLOW], TERMS, [floor])["price"]
    assert found.low == 390.0
    assert found.likely == pytest.approx(400.0)
    assert found.bars[0].low == 390.0


def test_the_same_job_has_the_same_range_every_time_and_in_any_order_of_terms():
    factors = [SPEED, HOURS, FLOW]
    first = job_ranges(factors, TERMS, [PRICE])["price"]
    again = job_ranges(factors, TERMS[::-1], [PRICE])["price"]
    assert (first.low, first.high) == pytest.approx((again.low, again.high), rel=1e-12)


def test_two_thousand_draws_are_near_to_very_many():
    factors = [SPEED, HOURS, FLOW]
    few = job_ranges(factors, TERMS, [PRICE])["price"]
    many = job_ranges(factors, TERMS, [PRICE], count=200_000, seed=5)["price"]
    half = (many.high - many.low) / 2
    assert few.low == pytest.approx(many.low, abs=half / 20)
    assert few.high == pytest.approx(many.high, abs=half / 20)


def test_draws_and_first_order_agree_within_five_percent_where_spreads_are_small():
    factors = [
        Factor("speed", from_log_sd(1.0, 0.06), "calibrated"),
        Factor("hours", from_log_sd(1.0, 0.08), "calibrated"),
        Factor("flow", from_log_sd(1.0, 0.05), "calibrated"),
    ]
    for output in (HOURS_OUT, OXYGEN_OUT, PRICE):
        by_draws = job_ranges(factors, TERMS, [output])[output.name]
        log_sd = first_order_log_sd(factors, TERMS, output)
        assert np.log(by_draws.high / by_draws.low) == pytest.approx(2 * 1.28155 * log_sd, rel=0.05)


def test_first_order_by_hand():
    log_sd = first_order_log_sd([SPEED, HOURS, FLOW], TERMS, OXYGEN_OUT)
    assert log_sd == pytest.approx(np.hypot(SPEED.spread.log_sd, 0.1))
    assert first_order_log_sd([SPEED], [], OXYGEN_OUT) == 0.0


def test_a_term_that_names_an_unknown_factor_is_our_fault_and_says_which():
    with pytest.raises(ValueError, match="'flow', which is not given"):
        job_ranges([SPEED, HOURS], TERMS, [PRICE])
    with pytest.raises(ValueError, match="one name"):
        job_ranges([SPEED, SPEED], [], [PRICE])


def test_a_printed_range_always_holds_the_printed_price():
    skewed = [Factor(f"rate {i}", split_lognormal(0.99, 1.0, 3.0), "judgement") for i in range(8)]
    terms = [Term("paid_time_min", 10.0, {f.name: 1}) for f in skewed]
    found = job_ranges(skewed, terms, [Output("t", {"paid_time_min": 1.0})])["t"]
    assert found.low == found.likely == pytest.approx(80.0)
    assert found.high > 100
