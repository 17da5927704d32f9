"""Oxygen that burns iron, from IUPAC standard atomic weights 2021 (Fe 55.845, O 15.999): 2 Fe + O₂ → 2 FeO and so on.

The answers 0.2145 and 0.286 m³/kg at 15 °C and 1 bar were calculated for an ideal gas.
"""

import pytest

from estimator.quantities.oxidation import oxygen_need_m3_per_kg
from estimator.reference import gas_density_kg_m3

IDEAL_M3_MOL = 8.314462618 * 288.15 / 1e5  # 15 °C, 1 bar
CASES = [("FeO", 0.5, 0.2145), ("Fe3O4", 2 / 3, 0.286), ("Fe2O3", 0.75, 0.3218)]


@pytest.mark.parametrize(("oxide", "oxygen_per_iron", "m3_kg"), CASES)
def test_iron_takes_up_the_oxygen_of_its_oxide(oxide: str, oxygen_per_iron: float, m3_kg: float) -> None:
    found = oxygen_need_m3_per_kg(oxide, density_kg_m3=gas_density_kg_m3("oxygen", "15C_1bar"))
    assert found == pytest.approx(m3_kg, rel=0.002)  # ideal against real gas
    assert found == pytest.approx(oxygen_per_iron / 0.055845 * IDEAL_M3_MOL, rel=0.002)


def test_a_pound_of_iron_takes_the_trade_s_4_6_cubic_feet_to_burn_to_magnetic_oxide() -> None:
    """4.6 ft³/lb at 70 °F: from memory of a welding handbook, as a guard."""
    found = oxygen_need_m3_per_kg("Fe3O4", density_kg_m3=gas_density_kg_m3("oxygen", "70F_1atm"))
    assert found * 0.45359237 / 0.3048**3 == pytest.approx(4.6, rel=0.01)
