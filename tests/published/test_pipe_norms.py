"""State norms for gas cutting of thin pipe: ch. IV table 036, 3 mm row, and VPNRM 476-89, three diameters (both seen).

They give the same cut on acetylene and on propane-butane, and so what the fuel changes. Only ratios are used: the norms
hold site losses, short cuts and relighting.
"""

import pytest

from estimator.quantities.orifice import orifice_oxygen_flow_m3_h
from estimator.reference import gas_density_kg_m3, table
from tests.published.rows import chart_at, number, published_rows

ACETYLENE, PROPANE = (
    next(row for row in published_rows("pipe_cutting_norm") if row["fuel"] == fuel)
    for fuel in ("acetylene", "propane-butane")
)
PIPES = published_rows("pipe_fuel_ratio_norm")


def preheat_ratio(fuel: str, column: str) -> float:
    return float(table("work_rates").where(name=f"preheat_{fuel}").column(column)[0])


def test_the_low_preheat_ratio_of_propane_follows_from_the_norm() -> None:
    """Cutting oxygen = total less 1.1 x acetylene; what propane takes beyond it is its preheat oxygen."""
    cutting = number(ACETYLENE, "oxygen_l_per_m") - 1.1 * number(ACETYLENE, "fuel_l_per_m")
    worked_back = (number(PROPANE, "oxygen_l_per_m") - cutting) / number(PROPANE, "fuel_l_per_m")
    assert preheat_ratio("propane", "low") == pytest.approx(worked_back, abs=0.01)


@pytest.mark.parametrize("thickness_mm", [3.0, 6.0, 10.0, 25.0, 50.0])
def test_propane_takes_about_three_tenths_more_fuel_by_weight(thickness_mm: float) -> None:
    """1.29 to 1.31 kg/kg in the norm of 1989; 10 %: the chart rounds its flows to 0.01 m³/h."""
    flows = {
        fuel: chart_at("chart_fuel", "likely_m3_h_70f_1atm", thickness_mm, fuel=fuel)
        for fuel in ("acetylene", "propane")
    }
    by_mass = {fuel: flow * gas_density_kg_m3(fuel, "70F_1atm") for fuel, flow in flows.items()}
    printed = [number(row, "propane_butane_kg") / number(row, "acetylene_kg") for row in PIPES]
    assert by_mass["propane"] / by_mass["acetylene"] == pytest.approx(sum(printed) / len(printed), rel=0.10)


def test_propane_takes_more_oxygen_in_all_on_3_mm_near_the_norms_1_25_to_1_29() -> None:
    """The built-in flows give 1.33: a likely preheat ratio of 3.5 stands against the norm's own 3.25, and the norm
    counts losses that are the same for both fuels. The band allowed is 1.15 to 1.50.
    """
    printed = [number(row, "oxygen_m3_with_propane") / number(row, "oxygen_m3_with_acetylene") for row in PIPES]
    printed.append(number(PROPANE, "oxygen_l_per_m") / number(ACETYLENE, "oxygen_l_per_m"))
    assert (min(printed), max(printed)) == (pytest.approx(1.25, abs=0.005), pytest.approx(1.29, abs=0.005))
    cutting = orifice_oxygen_flow_m3_h(0.8, 1.0, density_kg_m3=gas_density_kg_m3("oxygen", "70F_1atm"))
    total = {
        fuel: cutting + chart_at("chart_fuel", "likely_m3_h_70f_1atm", 3.0, fuel=fuel) * preheat_ratio(fuel, "likely")
        for fuel in ("acetylene", "propane")
    }
    ratio = total["propane"] / total["acetylene"]
    assert ratio == pytest.approx(1.33, abs=0.01)  # regression only
    assert 1.15 <= ratio <= 1.50
