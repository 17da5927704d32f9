"""Orifice, oxidation, gas use, heating: scalar and array alike, ends of the ranges, what is refused."""

import numpy as np
import pytest

from estimator.quantities.flame_minutes import heating_time_min
from estimator.quantities.gas_use import gas_m3
from estimator.quantities.orifice import (
    ATMOSPHERE_BAR,
    CHOKED_PRESSURE_BAR,
    orifice_oxygen_flow_m3_h,
)
from estimator.quantities.oxidation import kerf_iron_kg, oxygen_need_m3_per_kg, supplied_over_needed
from estimator.reference import gas_density_kg_m3, net_heating_value_mj_m3, table
from estimator.units import to_house

HOUSE = gas_density_kg_m3("oxygen", "15C_1atm")


def test_an_array_of_bores_gives_the_flow_of_each() -> None:
    bores, bars = np.array([0.8, 1.2, 1.6]), np.array([1.0, 1.8, 2.5])
    together = orifice_oxygen_flow_m3_h(bores, bars, density_kg_m3=HOUSE)
    alone = [orifice_oxygen_flow_m3_h(bore, bar, density_kg_m3=HOUSE) for bore, bar in zip(bores, bars, strict=True)]
    assert together == pytest.approx(alone, rel=1e-12)


def test_choked_flow_is_in_proportion_to_absolute_pressure() -> None:
    at = [orifice_oxygen_flow_m3_h(1.6, bar, density_kg_m3=HOUSE) / (bar + ATMOSPHERE_BAR) for bar in (0.91, 2.0, 6.0)]
    assert at == pytest.approx([at[0]] * 3, rel=1e-12)


def test_below_the_choked_pressure_the_flow_is_less_and_none_without_pressure() -> None:
    assert pytest.approx(0.905, abs=0.002) == CHOKED_PRESSURE_BAR
    choked = orifice_oxygen_flow_m3_h(1.6, CHOKED_PRESSURE_BAR, density_kg_m3=HOUSE)
    under = orifice_oxygen_flow_m3_h(1.6, 0.4, density_kg_m3=HOUSE)
    assert under < choked * (0.4 + ATMOSPHERE_BAR) / (CHOKED_PRESSURE_BAR + ATMOSPHERE_BAR)
    assert orifice_oxygen_flow_m3_h(1.6, 0.0, density_kg_m3=HOUSE) == 0.0
    just = orifice_oxygen_flow_m3_h(1.6, CHOKED_PRESSURE_BAR - 1e-6, density_kg_m3=HOUSE)
    assert just == pytest.approx(choked, rel=1e-5)


@pytest.mark.parametrize(
    ("bore", "bar", "said"), [(0.0, 2.0, "bore_mm"), (1.6, -0.1, "pressure_bar"), (np.nan, 2.0, "bore_mm")]
)
def test_a_bore_or_pressure_that_cannot_be_is_refused_by_name(bore: float, bar: float, said: str) -> None:
    with pytest.raises(ValueError, match=f"{said} must be"):
        orifice_oxygen_flow_m3_h(bore, bar, density_kg_m3=HOUSE)


def test_a_discharge_coefficient_over_one_is_refused() -> None:
    with pytest.raises(ValueError, match=r"discharge_coefficient must be from 0 to 1, got 1\.2"):
        orifice_oxygen_flow_m3_h(1.6, 2.0, density_kg_m3=HOUSE, discharge_coefficient=1.2)


def test_a_kerf_of_one_cubic_centimetre_is_7_85_grams() -> None:
    assert kerf_iron_kg(2.0, 10.0, 50.0) == pytest.approx(0.00785)


def test_an_unknown_oxide_is_refused_with_the_known_ones() -> None:
    with pytest.raises(ValueError, match="oxide must be one of FeO, Fe3O4, Fe2O3, got 'rust'"):
        oxygen_need_m3_per_kg("rust", density_kg_m3=HOUSE)


def test_exactly_the_oxygen_that_burns_the_share_is_a_ratio_of_one() -> None:
    need = oxygen_need_m3_per_kg("FeO", density_kg_m3=HOUSE)
    assert supplied_over_needed(0.7 * 2.0 * need, 2.0, share_oxidised=0.7, oxygen_m3_per_kg=need) == pytest.approx(1.0)


def test_no_kerf_has_no_ratio() -> None:
    with pytest.raises(ValueError, match="iron_kg must be above zero, got 0"):
        supplied_over_needed(0.1, 0.0, share_oxidised=0.7, oxygen_m3_per_kg=0.21)


def test_gas_follows_flow_and_time() -> None:
    assert gas_m3(30.0, 4.0) == 2.0
    assert gas_m3(np.array([60.0, 0.0]), 0.3) == pytest.approx([0.3, 0.0])


def test_an_unknown_flow_leaves_the_gas_unknown_and_the_other_lines_alone() -> None:
    assert gas_m3([30.0, 30.0], [np.nan, 4.0]) == pytest.approx([np.nan, 2.0], nan_ok=True)


def test_heating_a_bar_by_the_rule_takes_the_worked_minutes() -> None:
    """100 x 20 mm flat, 120 mm heated = 1.9 kg, at 80 ft³/h of acetylene: 2.3 min (a worked example, judgement)."""
    kg = kerf_iron_kg(100.0, 20.0, 120.0)
    assert kg == pytest.approx(1.88, abs=0.01)
    flow = to_house("flow_m3_h", 80, "ft3/h")
    minutes = heating_time_min(
        kg, flow, heat_mj_kg=0.62, net_mj_m3=net_heating_value_mj_m3("acetylene"), efficiency=0.25
    )
    assert minutes == pytest.approx(2.3, abs=0.05)


def test_the_smallest_tip_gives_more_oxygen_than_the_kerf_burns_at_every_thickness() -> None:
    """Supplied ÷ needed to FeO at 0.7 of the kerf, hand speed, likely kerf: inside the warning limits 1 to 4."""
    tips, speed, kerf = table("tips"), table("chart_speed").where(mode="hand"), table("chart_kerf")
    need = oxygen_need_m3_per_kg("FeO", density_kg_m3=HOUSE)
    for thickness in np.geomspace(3, 306, 60):
        row, log = int(np.argmax(thickness <= tips.column("thickness_to_mm"))), np.log(thickness)
        ends = np.log([tips.column(f"thickness_{end}_mm")[row] for end in ("from", "to")])
        bars = [tips.column(f"cutting_oxygen_pressure_bar_at_{end}")[row] for end in ("from", "to")]
        flow = orifice_oxygen_flow_m3_h(
            tips.column("tip_bore_mm")[row], np.interp(log, ends, bars), density_kg_m3=HOUSE
        )
        mm_min = np.interp(log, np.log(speed.column("thickness_mm")), speed.column("likely_mm_min"))
        width = np.interp(log, np.log(kerf.column("thickness_mm")), kerf.column("likely_mm"))
        oxygen, iron = gas_m3(1000.0 / mm_min, flow), kerf_iron_kg(width, thickness, 1000.0)
        ratio = supplied_over_needed(oxygen, iron, share_oxidised=0.7, oxygen_m3_per_kg=need)
        assert 1.0 < ratio < 4.0, f"{thickness:.1f} mm"
