"""Where the money went, by hand; parts that add up; jobs that share it."""

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.pricing.bridge import BridgeTerms, GasOfMonth, bridge, round_parts
from estimator.pricing.true_up import true_up

OXYGEN = GasOfMonth(
    gas="oxygen",
    standard_price=3.0,
    planned_m3=80.0,
    expected_m3=90.0,
    stated_loss_m3=10.0,
    used_explained_m3=104.0,
    used_m3=110.0,
    opening_m3=40.0,
    closing_m3=45.0,
    sent_back_m3=2.0,
    received_m3=117.0,
    billed_received_m3=117.0,
    billed=400.0,
    wrong_unit=12.0,
    not_received=21.0,
)
TERMS = BridgeTerms(
    rent_standard=50.0,
    rent_billed=57.0,
    delivery_and_fees=30.0,
    gas_not_counted=0.0,
    credits_and_deposits=-5.0,
    billed_twice=63.0,
    footing=0.0,
    tax=109.0,
    bill_total=400.0 + 57.0 + 30.0 - 5.0 + 63.0 + 109.0,
)


def steps(done):
    return {part.key: part.minor for part in done.steps()}


def test_one_gas_by_hand():
    done = bridge([OXYGEN], TERMS)
    found = steps(done)
    assert done.start_minor == 24_000  # 80 m³ at 3.00
    assert found["activity"] == 3_000  # 10 m³ more work
    assert found["stated_losses"] == 3_000
    assert found["yield"] == 1_200  # 104 against 100
    assert found["mix"] == 0
    assert found["cannot_say"] == 1_800  # 6 m³ beyond
    assert found["stock"] == 1_500  # 5 m³ more on the rack
    assert found["sent_back"] == 600
    assert found["price"] == 40_000 - 1_200 - 2_100 - 35_100  # 367 paid for 117 m³ at 3.00
    assert (found["wrong_unit"], found["not_received"]) == (1_200, 2_100)
    assert (found["rent"], found["rent_over"], found["fees"]) == (5_000, 700, 3_000)
    assert done.total_minor == 65_400
    assert done.start_minor + sum(found.values()) == done.total_minor


def test_a_line_left_out_is_our_fault_and_not_hidden_in_the_rest():
    with pytest.raises(ValueError, match="the parts add to"):
        bridge([OXYGEN], dataclasses.replace(TERMS, delivery_and_fees=29.0))


def test_a_second_fuel_splits_usage_into_yield_and_mix():
    fuel = dataclasses.replace(
        OXYGEN, gas="acetylene", standard_price=16.0, planned_m3=20.0, expected_m3=20.0, stated_loss_m3=0.0,
        used_explained_m3=18.0, used_m3=18.0, opening_m3=10.0, closing_m3=10.0, sent_back_m3=0.0, received_m3=18.0,
        billed_received_m3=18.0, billed=288.0, wrong_unit=0.0, not_received=0.0,
    )  # fmt: skip
    done = bridge([OXYGEN, fuel], dataclasses.replace(TERMS, bill_total=TERMS.bill_total + 288.0))
    by_gas = {(part.key, part.gas): part.minor for part in done.steps()}
    usage = by_gas["yield", "acetylene"] + by_gas["mix", "acetylene"]
    assert usage == pytest.approx(-3_200, abs=1)  # 2 m³ less at 16.00
    assert by_gas["mix", "acetylene"] < 0 < by_gas["mix", "oxygen"]


@settings(max_examples=60)
@given(st.lists(st.floats(-9999, 9999), min_size=1, max_size=20))
def test_rounded_parts_add_to_the_rounded_total_each_within_a_coin(amounts):
    total = round(sum(amounts) * 100)
    parts = round_parts(amounts, total)
    assert sum(parts) == total
    assert all(abs(part - amount * 100) <= 1 + 1e-6 for part, amount in zip(parts, amounts, strict=True))


def test_amounts_that_do_not_add_to_the_total_are_refused():
    with pytest.raises(ValueError, match="add to"):
        round_parts([1.0, 2.0], 305)


@settings(max_examples=40)
@given(
    st.lists(st.floats(0, 500), min_size=1, max_size=9),
    st.integers(0, 10_000_000),
    st.integers(-10_000, 10_000_000),
)
def test_the_jobs_add_back_to_the_bill(use, gas_money, other):
    jobs = [f"J-{n}" for n in range(len(use))]
    costs = true_up(jobs, {"oxygen": use}, {"oxygen": 3.0}, {"oxygen": gas_money}, other, use)
    assert sum(cost.gas_minor for cost in costs) == gas_money
    assert sum(cost.other_minor for cost in costs) == other


def test_no_job_is_refused():
    with pytest.raises(ValueError, match="no job"):
        true_up([], {}, {}, {}, 100, [])
