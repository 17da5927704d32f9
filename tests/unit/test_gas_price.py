"""The cost of a cubic metre: price, fees, content, and what goes back in the cylinder."""

from __future__ import annotations

import numpy as np
import pytest

from estimator.pricing.gas_price import cylinder_price, gas_cost_per_m3, gas_left_uncredited_m3


def test_fees_and_the_gas_left_both_raise_the_cost_of_a_cubic_metre():
    # by hand: (38 + 2) / (8 - 0) = 5; (38 + 2) / (8 - 0.5) = 5.3333
    assert gas_cost_per_m3(38, cylinder_fees=2, content_m3=8, uncredited_m3=0) == pytest.approx(5.0)
    assert gas_cost_per_m3(38, cylinder_fees=2, content_m3=8, uncredited_m3=0.5) == pytest.approx(16 / 3)


def test_arrays_and_single_numbers_give_the_same_cost():
    prices = np.array([10.0, 20.0, 30.0])
    whole = gas_cost_per_m3(prices, cylinder_fees=1.0, content_m3=[2, 4, 8], uncredited_m3=0.1)
    single = [float(gas_cost_per_m3(p, 1.0, c, 0.1)) for p, c in zip(prices, (2, 4, 8), strict=True)]
    assert whole.tolist() == pytest.approx(single)


def test_a_full_credit_for_the_gas_left_loses_nothing():
    assert float(gas_left_uncredited_m3(0.4, credited_share=1)) == 0
    assert float(gas_left_uncredited_m3(0.4, credited_share=0.25)) == pytest.approx(0.3)


def test_a_price_per_hundred_cubic_feet_scales_with_the_content():
    assert float(cylinder_price(8.0, content_m3=330, priced_amount_m3=100)) == pytest.approx(26.4)


@pytest.mark.parametrize(
    ("content_m3", "uncredited_m3"),
    [(5, 5), (5, 6), (0, 0), (float("nan"), 0)],
)
def test_a_cylinder_with_no_usable_gas_is_refused(content_m3, uncredited_m3):
    with pytest.raises(ValueError, match="content_m3"):
        gas_cost_per_m3(10, 0, content_m3, uncredited_m3)


def test_money_below_zero_and_shares_outside_zero_to_one_are_refused():
    with pytest.raises(ValueError, match="price"):
        gas_cost_per_m3(-1, 0, 5, 0)
    with pytest.raises(ValueError, match="credited_share"):
        gas_left_uncredited_m3(0.1, credited_share=1.2)
