"""International Fire Code 2018, table G101.2 (seen as an excerpt): weight and volume equivalents of oxygen."""

import pytest

from estimator.units import ReferenceState, gas_mass_kg


def test_a_hundred_cubic_feet_of_oxygen_weigh_the_printed_3_756_kg() -> None:
    found = gas_mass_kg(100, unit="ft3", gas="oxygen", state=ReferenceState.F70_ATM)
    assert found == pytest.approx(3.756, rel=0.002)  # 0.2 %: the table is an ideal gas's or rounds its factor
