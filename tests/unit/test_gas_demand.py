"""Monthly use from a cut list and from a work log: the model's gas, by the month."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.work_log import LogEntry, WorkLog
from estimator.pricing.demand import uses_of_list, uses_of_log
from estimator.pricing.fuel_work import FuelLeftOut, work_on_fuel, work_on_fuels
from estimator.words import Method, Work


def cuts(thickness_mm: float = 12.0, quantity: float = 10.0) -> CutList:
    return CutList(
        mark=["A"],
        quantity=np.array([quantity]),
        thickness_mm=np.array([thickness_mm]),
        cut_length_mm=np.array([1500.0]),
        work=np.array([Work.CUT], dtype=np.int8),
        method=np.array([Method.FREE_HAND], dtype=np.int8),
    )


def entry(month: int, metres: float) -> LogEntry:
    return LogEntry(date=dt.date(2026, month, 10), job=f"J-{month}", thickness_mm=12.0, cut_length_m=metres)


def test_a_list_that_fills_two_months_is_half_of_it_a_month():
    one = {use.gas: use.month_m3 for use in uses_of_list(cuts(), example_shop(), months=1)}
    two = {use.gas: use.month_m3 for use in uses_of_list(cuts(), example_shop(), months=2)}
    assert set(one) == {"oxygen", "acetylene"}
    assert two == {gas: pytest.approx(volume / 2) for gas, volume in one.items()}


def test_a_log_gives_the_mean_month_and_its_least_and_most():
    used = uses_of_log(WorkLog(entries=(entry(1, 10.0), entry(2, 30.0), entry(4, 20.0))), example_shop())
    assert (used.months, used.rows_left_out) == (4, 0)  # March is a month without work
    oxygen = next(use for use in used.uses if use.gas == "oxygen")
    single = [
        uses_of_log(WorkLog(entries=(entry(m, metres),)), example_shop()).uses[0].month_m3
        for m, metres in ((1, 10.0), (2, 30.0), (4, 20.0))
    ]
    assert oxygen.month_m3 == pytest.approx(sum(single) / 4)
    assert (oxygen.low_month_m3, oxygen.high_month_m3) == (0.0, pytest.approx(max(single)))


def test_two_months_of_log_are_too_few_for_a_range():
    used = uses_of_log(WorkLog(entries=(entry(1, 10.0), entry(2, 30.0))), example_shop())
    assert [(use.low_month_m3, use.high_month_m3) for use in used.uses] == [(0.0, 0.0)] * 2


def test_rows_that_the_model_cannot_follow_are_counted():
    thin = LogEntry(date=dt.date(2026, 1, 11), job="J-1", thickness_mm=12.0)
    assert uses_of_log(WorkLog(entries=(entry(1, 10.0), thin)), example_shop()).rows_left_out == 1


def test_an_empty_log_and_a_list_of_no_months_are_refused():
    with pytest.raises(ValueError, match="without an entry"):
        uses_of_log(WorkLog(), example_shop())
    with pytest.raises(ValueError, match="months"):
        uses_of_list(cuts(), example_shop(), months=0)


def test_a_fuel_without_a_chart_is_left_out_with_the_reason():
    done, left_out = work_on_fuels(cuts(), example_shop(), ["propane", "propylene"])
    assert [one.work.fuel for one in done] == ["propane"]
    assert "no chart" in left_out[0].why


def test_a_thickness_that_no_tip_covers_leaves_the_fuel_out():
    found = work_on_fuel(cuts(thickness_mm=400.0), example_shop(), "acetylene")
    assert isinstance(found, FuelLeftOut)
    assert "1 of 1 lines" in found.why


def test_a_shop_without_tips_for_a_fuel_gets_its_own_bores_and_is_told():
    shop = example_shop()
    acetylene_only = shop.model_copy(update={"tips": tuple(t for t in shop.tips if t.fuel == "acetylene")})
    with_tips, stand_in = (work_on_fuel(cuts(), s, "propane") for s in (shop, acetylene_only))
    assert not isinstance(with_tips, FuelLeftOut)
    assert not isinstance(stand_in, FuelLeftOut)
    assert (with_tips.stand_in_tips, stand_in.stand_in_tips) == (False, True)
    # the example shop's propane tips have the bores of its acetylene tips, so the work is the same
    assert stand_in.work.uses[0].month_m3 == pytest.approx(with_tips.work.uses[0].month_m3)
