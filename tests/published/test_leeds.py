"""F. H. Leeds and W. J. A. Butterfield, Acetylene, 2nd edition, ch. VI and X, Project Gutenberg no. 8144 (seen)."""

import pytest

from estimator.quantities.gas_use import gas_m3
from estimator.units import ReferenceState, gas_mass_kg, to_house


def test_a_thousand_cubic_feet_of_dry_acetylene_weigh_69_18_lb() -> None:
    """At 60 °F and 30 inches of mercury, that is 14.46 ft³/lb."""
    kg = gas_mass_kg(1000, unit="ft3", gas="acetylene", state=ReferenceState.F60_PIPED)
    assert kg == pytest.approx(to_house("mass_kg", 69.18, "lb"), rel=0.003)  # 0.3 %: second virial against weighing


@pytest.mark.parametrize(("thickness_mm", "m_per_h", "l_per_m"), [(1.0, 6.0, 12.5), (10.0, 1.5, 500.0)])
def test_welding_at_75_litres_an_hour_per_millimetre_takes_the_printed_gas(
    thickness_mm: float, m_per_h: float, l_per_m: float
) -> None:
    acetylene = gas_m3(60.0 / m_per_h, 0.075 * thickness_mm)  # minutes for one metre
    assert acetylene * 1000 == pytest.approx(l_per_m, rel=0.01)
