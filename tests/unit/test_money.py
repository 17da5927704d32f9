"""Rounding and sharing: ties away from zero, nothing lost in a share, and no number that is none."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.pricing.money import format_minor, round_up_to_step, share_out, to_minor


@pytest.mark.parametrize(
    ("amount", "minor"),
    [
        (1.005, 101),
        (-1.005, -101),
        (0.0049999, 0),
        (2.675, 268),
        (0.0, 0),
        (-0.004, 0),
        (1e9 + 0.005, 100000000001),
        (1234567.015, 123456702),
    ],
)
def test_a_tie_goes_away_from_zero_even_where_binary_fractions_hide_it(amount: float, minor: int) -> None:
    assert int(to_minor(amount)) == minor


@given(st.integers(-(10**12), 10**12), st.sampled_from([0, 2, 3]))
def test_rounding_is_that_of_decimal_arithmetic_on_what_is_written(thousandths: int, decimals: int) -> None:
    typed = Decimal(thousandths).scaleb(-4)
    expected = typed.quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP).scaleb(decimals)
    assert int(to_minor(float(typed), decimals)) == expected


def test_the_shape_of_the_amounts_is_kept() -> None:
    assert to_minor(np.full((2, 3), 1.25), 1).tolist() == [[13] * 3] * 2
    assert to_minor([]).shape == (0,)


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -float("inf")])
def test_an_amount_that_is_no_number_is_refused_and_named(bad: float) -> None:
    with pytest.raises(ValueError, match=f"not finite: \\[ *{bad}"):
        to_minor([1.0, bad])


@pytest.mark.parametrize(
    ("amount", "step", "expected"),
    [(20.82, 0.5, 21.0), (21.0, 0.5, 21.0), (21.01, 5, 25.0), (0.0, 1, 0.0), (20.82, 0, 20.82), (0.3, 0.1, 0.3)],
)
def test_a_price_is_raised_to_the_next_step_and_never_past_it(amount: float, step: float, expected: float) -> None:
    assert float(round_up_to_step(amount, step)) == pytest.approx(expected, abs=1e-12)


def test_a_step_below_zero_is_refused() -> None:
    with pytest.raises(ValueError, match=r"step must be zero or above, got -0\.5"):
        round_up_to_step(1.0, -0.5)


@given(st.integers(-(10**9), 10**9), st.lists(st.floats(0, 1e6), min_size=1, max_size=30).filter(any))
def test_shares_add_back_and_none_is_a_unit_off_its_exact_part(total: int, weights: list[float]) -> None:
    parts = share_out(total, weights)
    assert sum(parts) == total
    exact = np.array(weights) / sum(weights) * total
    assert np.all(np.abs(np.array(parts) - exact) < 1 + 1e-6)


def test_a_unit_that_is_left_goes_to_the_largest_remainder_and_ties_to_the_earlier_row() -> None:
    assert share_out(100, [1, 1, 1]) == [34, 33, 33]
    assert share_out(-100, [1, 1, 1]) == [-34, -33, -33]
    assert share_out(10, [1, 4, 2]) == [1, 6, 3]  # 1.43, 5.71, 2.86
    assert share_out(4, [5, 1]) == [3, 1]  # 3.33, 0.67: the small weight has the larger remainder
    assert share_out(7, [0, 3]) == [0, 7]


@pytest.mark.parametrize("weights", [[], [0, 0], [1, -1], [1, float("nan")], [float("inf")]])
def test_weights_that_share_nothing_are_refused(weights: list[float]) -> None:
    with pytest.raises(ValueError, match="weights must be zero or above with one above zero"):
        share_out(100, weights)


def test_minor_units_are_written_with_the_decimals_of_their_currency() -> None:
    assert [format_minor(m) for m in (-1205, 7, 0, -7)] == ["-12.05", "0.07", "0.00", "-0.07"]
    assert format_minor(-500, 0) == "-500"
    assert format_minor(1234, 3) == "1.234"
