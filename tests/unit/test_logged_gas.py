"""The gas of a work log by the model that makes quotes: thin rows, timed rows, heating, tags, earlier months."""

import datetime as dt

import numpy as np
import pytest

from estimator.check.example_shop import example_shop
from estimator.check.work_log import CylinderTag, LogEntry, WorkLog
from estimator.pricing.cylinder_content import CylinderSize
from estimator.pricing.logged_gas import gas_of_log
from estimator.pricing.own_ratio import PastMonth, own_ratio
from estimator.pricing.span_balance import cylinder_spans

DAY = dt.date(2026, 3, 5)
SHOP = example_shop()
SIZES = {("oxygen", "O-10"): CylinderSize("oxygen", "O-10", 9.87, full_pressure_bar=200.0, heel_m3=0.2)}


def entry(job="J-1", **given):
    return LogEntry(**({"date": DAY, "job": job, "thickness_mm": 25.0, "cut_length_m": 10.0} | given))


def gas(*entries):
    return gas_of_log(WorkLog(entries=entries), SHOP).expected


def test_twice_the_length_takes_twice_the_gas_of_the_cut():
    once, twice = gas(entry(edge_starts=10)), gas(entry(cut_length_m=20.0, edge_starts=20))
    assert twice.work_m3("oxygen") == pytest.approx(2 * once.work_m3("oxygen"), rel=0.02)  # lighting is not doubled


def test_gas_follows_the_minutes_that_were_timed():
    assert gas(entry(flame_time_min=120.0)).work_m3("oxygen") == pytest.approx(
        2 * gas(entry(flame_time_min=60.0)).work_m3("oxygen"), rel=0.02
    )


def test_a_timed_row_is_in_less_doubt_than_one_that_was_not():
    timed, untimed = gas(entry(flame_time_min=60.0)), gas(entry())
    assert timed.shared_doubt["oxygen"] < untimed.shared_doubt["oxygen"]


def test_a_timed_cut_without_a_thickness_takes_the_logs_middle_one():
    thin = entry(thickness_mm=None, cut_length_m=None, flame_time_min=30.0)
    full = entry(cut_length_m=None, flame_time_min=30.0)
    assert gas(thin, entry()).work_m3("oxygen") == pytest.approx(gas(full, entry()).work_m3("oxygen"))


def test_heating_without_a_tip_takes_the_first_that_heats():
    tip = next(t.name for t in SHOP.flame_tips if t.is_heating and t.fuel == "acetylene")
    by_default = gas(entry(operation="heat", flame_time_min=30.0, thickness_mm=None, cut_length_m=None))
    named = gas(entry(operation="heat", flame_time_min=30.0, thickness_mm=None, cut_length_m=None, tip=tip))
    assert by_default.work_m3("acetylene") == pytest.approx(named.work_m3("acetylene"))
    assert by_default.work_m3("acetylene") > 0.3  # half an hour of a heating tip, not of a cutting tip


def test_jobs_are_kept_apart_and_add_up():
    both = gas(entry("A"), entry("B", cut_length_m=30.0))
    assert both.jobs == ("A", "B")
    assert both.by_gas["oxygen"].sum() == pytest.approx(both.work_m3("oxygen"))
    assert both.by_gas["oxygen"][1] > 2 * both.by_gas["oxygen"][0]


def test_the_gas_lost_is_the_share_that_quotes_are_made_with():
    assert gas(entry()).loss_share == {"oxygen": pytest.approx(0.15), "acetylene": pytest.approx(0.20)}


def test_another_fuel_is_balanced_by_itself():
    assert set(gas(entry(), entry(fuel="propane")).by_gas) == {"oxygen", "acetylene", "propane"}


def test_work_without_a_flame_takes_no_gas_and_keeps_its_hours():
    found = gas_of_log(WorkLog(entries=(entry(operation="other", paid_time_min=45.0),)), SHOP)
    assert found.expected.work_m3("oxygen") == 0.0
    assert found.paid_time_min.tolist() == [45.0]
    assert found.problems == ()


# --- earlier months ---


def test_without_earlier_months_the_model_stands_with_its_own_doubt():
    learned = own_ratio([], 0.12)
    assert (learned.ratio, learned.doubt, learned.months) == (1.0, 0.12, 0)


def test_earlier_months_outweigh_a_wide_band_and_narrow_it():
    learned = own_ratio([PastMonth(1.10, 0.02)] * 4, 0.10)
    # weights 100 for the model, 4 x 2500 for the months: (100 + 11000) / 10100, 1 / sqrt(10100)
    assert learned.ratio == pytest.approx(11_100 / 10_100)
    assert learned.doubt == pytest.approx(10_100**-0.5)


def test_the_stated_doubt_of_the_learned_ratio_is_the_real_one():
    rng = np.random.default_rng(2)
    errors = []
    for _ in range(2000):
        truth = 1 + rng.normal(0, 0.10)
        months = [PastMonth(truth + rng.normal(0, 0.03), 0.03) for _ in range(3)]
        learned = own_ratio(months, 0.10)
        errors.append((learned.ratio - truth) / learned.doubt)
    assert np.std(errors) == pytest.approx(1.0, abs=0.05)


# --- tags ---


def spans(*entries, tags):
    log = WorkLog(entries=entries, tags=tags)
    return cylinder_spans(log, lambda part: gas_of_log(part, SHOP).expected, lambda g, s: SIZES.get((g, s)))


def tag(**given):
    base = {"gas": "oxygen", "size": "O-10", "date_on": DAY, "date_off": DAY + dt.timedelta(days=2)}
    return CylinderTag(**(base | given))


def test_a_tagged_cylinder_gave_what_is_gone_from_it():
    (span,) = spans(entry(cut_length_m=37.0), tags=(tag(),))
    assert span.verdict.used_m3 == pytest.approx(9.67)  # 9.87 full, 0.2 left in it
    assert span.verdict.explained
    assert span.jobs == ("J-1",)


def test_a_cylinder_that_gave_far_more_than_its_jobs_need_is_pointed_at():
    (span,) = spans(entry(cut_length_m=3.0), tags=(tag(),))
    assert not span.verdict.explained
    assert span.verdict.difference_m3 > 5


def test_rows_under_two_cylinders_are_shared_between_them():
    alone = spans(entry(cut_length_m=37.0), tags=(tag(),))[0].verdict
    shared = spans(entry(cut_length_m=37.0), tags=(tag(), tag()))
    assert [s.verdict.expected_m3 for s in shared] == pytest.approx([alone.expected_m3 / 2] * 2)
    assert shared[0].verdict.expected_doubt_m3 / shared[0].verdict.expected_m3 > (
        alone.expected_doubt_m3 / alone.expected_m3
    )


def test_a_tag_without_an_end_or_of_an_unknown_size_says_nothing():
    assert spans(entry(), tags=(tag(date_off=None), tag(size="X"))) == []
