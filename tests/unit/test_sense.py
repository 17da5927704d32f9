"""Sense checks beside a result, and where burning is not the cheapest way."""

import numpy as np
import pytest

from estimator.pricing.burn_or_not import OtherWay, burn_or_not
from estimator.pricing.sense import Band, Verdict, gas_share_check, own_past_check, torch_on_check
from estimator.reference import table

ROWS = table("sense_bands")
BANDS = {
    key: Band(
        float(ROWS.where(name=name).column("low")[0]),
        float(ROWS.where(name=name).column("high")[0]),
        str(ROWS.where(name=name).column("who")[0]),
    )
    for key, name in (("hand", "torch_on_hand"), ("track", "torch_on_track"), ("gas", "gas_share_hand"))
}


def torch_on(cut, paid, track=0.0):
    return torch_on_check(cut_time_min=cut, track_cut_time_min=track, paid_time_min=paid, bands=BANDS)


@pytest.mark.parametrize(
    ("cut", "paid", "verdict"), [(113, 981, Verdict.USUAL), (172, 602, Verdict.HIGH), (5, 100, Verdict.LOW)]
)
def test_hand_work_is_set_beside_ten_to_twenty_five_per_cent(cut, paid, verdict):
    assert torch_on(cut, paid).verdict is verdict


def test_track_work_has_a_band_of_its_own():
    assert torch_on(40, 100, track=40).verdict is Verdict.USUAL
    assert torch_on(40, 100, track=0).verdict is Verdict.HIGH
    assert torch_on(15, 100, track=15).doubtful


def test_a_job_without_cutting_has_no_torch_on_share():
    assert torch_on(0, 60).verdict is Verdict.NOT_KNOWN
    assert not torch_on(0, 60).doubtful


def test_gas_over_eight_per_cent_says_that_minutes_are_missing_and_a_low_share_is_no_doubt():
    over = gas_share_check(gas_cost=8.1, price=100, band=BANDS["gas"])
    assert over.doubtful
    assert "minutes are missing" in over.words
    assert not gas_share_check(gas_cost=0.5, price=100, band=BANDS["gas"]).doubtful


def test_a_price_outside_the_shops_own_past_stands_out():
    past = [1.8, 2.0, 2.2, 2.4, 2.1, 1.9]
    assert own_past_check(name="price per kg", found=4.1, past=past).verdict is Verdict.HIGH
    assert own_past_check(name="price per kg", found=2.1, past=past).verdict is Verdict.USUAL
    assert own_past_check(name="price per kg", found=1.0, past=past).verdict is Verdict.LOW


def test_four_jobs_are_too_few_and_only_the_last_ten_count():
    assert own_past_check(name="price per kg", found=4.1, past=[2.0] * 4).verdict is Verdict.NOT_KNOWN
    old_then_new = [100.0] * 20 + [2.0] * 10
    assert own_past_check(name="price per kg", found=2.0, past=old_then_new).band == Band(2.0, 2.0, "your last 10 jobs")


def way(name, minutes, possible, rate=30.0):
    n = len(minutes)
    return OtherWay(name, np.array(minutes, float), rate, np.zeros(n), np.array(possible))


def test_the_cheapest_way_that_is_possible_is_named_with_the_money():
    found = burn_or_not(
        units=[32, 20, 1],
        torch_min_each=[5.0, 3.0, 3.0],
        torch_cost_each=[3.0, 1.6, 1.0],
        ways=[way("drill", [3.0, 9.0, 9.0], [True, False, False]), way("saw", [1.0, 1.1, 1.1], [False, True, False])],
    )
    assert [(one.line, one.way, round(one.saving, 2)) for one in found] == [(0, "drill", 48.0), (1, "saw", 21.0)]


def test_a_tie_or_an_unknown_torch_cost_stays_with_the_torch():
    ways = [way("saw", [2.0, 2.0], [True, True])]
    assert burn_or_not(units=[1, 1], torch_min_each=[2, 2], torch_cost_each=[1.0, np.nan], ways=ways) == []


def test_without_another_way_nothing_is_said():
    assert burn_or_not(units=[1], torch_min_each=[2], torch_cost_each=[1.0], ways=[]) == []
