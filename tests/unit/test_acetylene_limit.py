"""Acetylene over 15 psi gauge is refused: 29 CFR 1910.253(a)(2), seen in the table of pressures."""

from __future__ import annotations

import pytest

from estimator.check.acetylene_limit import is_over_acetylene_limit
from estimator.units import to_house


@pytest.mark.parametrize(
    ("amount", "unit", "over"),
    [
        (15, "psi", False),
        (103.42, "kPa", False),
        (1.0342, "bar", False),
        (15.1, "psi", True),
        (16, "psi", True),
        (1.05, "bar", True),
    ],
)
def test_acetylene_over_15_psi_is_refused_and_15_psi_itself_passes(amount: float, unit: str, over: bool) -> None:
    assert is_over_acetylene_limit(to_house("pressure_bar", amount, unit)) is over
