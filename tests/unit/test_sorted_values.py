"""What sorting tells: numpy's own functions are the reference."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from estimator.quantities.sorted_values import distinct, quantiles

NUMBERS = st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=60)


@given(NUMBERS | st.just([]))
def test_distinct_values_are_those_of_the_reference_library(values: list[float]) -> None:
    assert distinct(np.array(values)).tolist() == np.unique(np.array(values)).tolist()


@given(st.lists(st.integers(-5, 5), max_size=60))
def test_distinct_codes_are_those_of_the_reference_library(codes: list[int]) -> None:
    assert distinct(np.array(codes, dtype=np.int8)).tolist() == np.unique(np.array(codes, dtype=np.int8)).tolist()


@given(NUMBERS, st.lists(st.floats(0, 1), min_size=1, max_size=5))
def test_quantiles_are_those_of_the_reference_library(values: list[float], shares: list[float]) -> None:
    assert np.allclose(quantiles(values, shares), np.quantile(values, shares), rtol=1e-9, atol=1e-9)
