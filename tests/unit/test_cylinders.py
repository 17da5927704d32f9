"""Content by gauge and by weight, what a reading is worth, draw limits, manifolds, propane's own limit."""

import numpy as np
import pytest

from estimator.quantities.cylinders import (
    DensityGrid,
    content_from_weight_m3,
    gauge_reading_error_m3,
    oxygen_content_m3,
    water_volume_l,
    weight_reading_error_m3,
)
from estimator.quantities.draw import (
    cylinders_to_manifold,
    draw_limit_m3_h,
    draw_over_limit,
    is_continuous,
    propane_vaporisation_kg_h,
)
from estimator.reference import gas_density_kg_m3, oxygen_density_grid, table
from estimator.units import ReferenceState, gas_volume_m3

GRID = DensityGrid(*oxygen_density_grid())
HOUSE = gas_density_kg_m3("oxygen", "15C_1atm")
RULES = {
    rule: table("acetylene_draw_rules").where(rule=rule).column("fraction_per_h")[0]
    for rule in ("continuous", "intermittent", "older books")
}


def ft3(amount: float) -> float:
    return gas_volume_m3(amount, unit="ft3", gas="acetylene", state=ReferenceState.F70_ATM)


def test_the_grid_gives_its_own_points_back() -> None:
    rows = table("oxygen_density")
    found = GRID.at(rows.column("pressure_bar_gauge"), rows.column("temperature_c"))
    assert found == pytest.approx(rows.column("density_kg_m3"), rel=1e-12)


@pytest.mark.parametrize(
    ("bar", "degrees", "said"),
    [(321.0, 15.0, "pressure_bar"), (-1.0, 15.0, "pressure_bar"), (150.0, 51.0, "temperature_c")],
)
def test_a_reading_outside_the_table_is_refused_with_its_range(bar: float, degrees: float, said: str) -> None:
    with pytest.raises(ValueError, match=f"{said} must be from"):
        oxygen_content_m3(bar, degrees, water_volume_l=50.0, grid=GRID, density_kg_m3=HOUSE)


def test_a_cold_cylinder_at_the_same_gauge_holds_more() -> None:
    cold, warm = oxygen_content_m3(120.0, [-10.0, 35.0], water_volume_l=50.0, grid=GRID, density_kg_m3=HOUSE)
    assert cold > warm * 1.15


def test_content_and_water_volume_are_each_other_s_way_back() -> None:
    volume = water_volume_l(10.6, 200.0, 15.0, grid=GRID, density_kg_m3=HOUSE)
    assert oxygen_content_m3(200.0, 15.0, water_volume_l=volume, grid=GRID, density_kg_m3=HOUSE) == pytest.approx(10.6)


def test_a_cylinder_at_its_tare_or_under_it_is_empty() -> None:
    assert content_from_weight_m3([68.2, 61.0, 60.2], 61.0, density_kg_m3=1.1092) == pytest.approx(
        [6.491, 0.0, 0.0], abs=1e-3
    )


def test_a_five_bar_slip_on_a_50_litre_cylinder_is_a_quarter_of_a_cubic_metre() -> None:
    error = gauge_reading_error_m3(
        100.0,
        15.0,
        pressure_error_bar=5.0,
        temperature_error_c=0.0,
        water_volume_l=50.0,
        grid=GRID,
        density_kg_m3=HOUSE,
    )
    assert error == pytest.approx(0.26, abs=0.02)  # 0.26 by Z = 1 at 50 L; oxygen at 100 bar is 6 % denser


def test_gauge_and_temperature_errors_add_in_square() -> None:
    by_bar, by_heat, both = (
        gauge_reading_error_m3(
            150.0,
            15.0,
            pressure_error_bar=bar,
            temperature_error_c=degrees,
            water_volume_l=50.0,
            grid=GRID,
            density_kg_m3=HOUSE,
        )
        for bar, degrees in ((5.0, 0.0), (0.0, 8.0), (5.0, 8.0))
    )
    assert both == pytest.approx(np.hypot(by_bar, by_heat))
    assert both > max(by_bar, by_heat) > 0


def test_a_reading_at_the_end_of_the_table_is_worth_what_one_beside_it_is() -> None:
    at_end, beside = (
        gauge_reading_error_m3(
            bar,
            15.0,
            pressure_error_bar=5.0,
            temperature_error_c=0.0,
            water_volume_l=50.0,
            grid=GRID,
            density_kg_m3=HOUSE,
        )
        for bar in (0.0, 5.0)
    )
    assert at_end == pytest.approx(beside, rel=0.02)


def test_a_half_kilo_on_the_scale_is_nearly_half_a_cubic_metre_of_acetylene() -> None:
    density = gas_density_kg_m3("acetylene", "15C_1atm")
    error = weight_reading_error_m3(scale_error_kg=0.5, tare_error_kg=0.0, density_kg_m3=density)
    assert error == pytest.approx(0.45, abs=0.005)


def test_a_head_of_80_cubic_feet_an_hour_needs_8_6_or_4_cylinders_of_150() -> None:
    """Common practice, no source, for the draw and the sizes; the counts follow from the three rules."""
    counts = [int(cylinders_to_manifold(ft3(80), ft3(150), fraction)) for fraction in RULES.values()]
    assert counts == [8, 6, 4]
    assert draw_over_limit(ft3(80), ft3(150), RULES["older books"]) > 3.7  # one such cylinder may not feed it


def test_the_army_s_fixed_50_cubic_feet_an_hour_is_looser_than_every_fraction() -> None:
    fixed = table("acetylene_draw_fixed")
    draw, content = fixed.column("draw_ft3_h")[0], fixed.column("cylinder_ft3")[0]
    assert all(draw_over_limit(draw, content, fraction) > 1.5 for fraction in RULES.values())


def test_a_draw_exactly_at_the_limit_needs_one_cylinder() -> None:
    assert cylinders_to_manifold(0.1 * 7, 7.0, 0.1) == 1
    assert cylinders_to_manifold(0.1 * 7 * 1.0001, 7.0, 0.1) == 2
    assert cylinders_to_manifold(0.0, 7.0, 0.1) == 1


def test_a_half_empty_cylinder_allows_half() -> None:
    assert draw_limit_m3_h(3.5, 0.1) == pytest.approx(draw_limit_m3_h(7.0, 0.1) / 2)


def test_work_is_continuous_beyond_ten_minutes_unless_a_break_of_five_parts_it() -> None:
    assert list(is_continuous([10.0, 10.1, 6.0, 6.0, 2.0], [0.0, 0.0, 5.0, 4.9, 1.0], [1, 1, 9, 2, 6])) == [
        False,
        True,
        False,
        True,
        True,
    ]


def test_propane_gives_less_when_it_is_low_or_cold_and_none_when_the_air_is_as_cold_as_the_liquid() -> None:
    rows = table("propane_saturation")
    latent = float(np.interp(-20, rows.column("temperature_c"), rows.column("latent_heat_kj_kg")))

    def rate(fill: float, air: float) -> float:
        return float(
            propane_vaporisation_kg_h(
                fill,
                air,
                diameter_mm=370,
                liquid_height_full_mm=900,
                coldest_liquid_c=-20,
                heat_transfer_w_m2_k=8,
                latent_heat_kj_kg=latent,
            )
        )

    assert rate(1.0, 15.0) > rate(0.2, 15.0) > 0
    assert rate(1.0, 15.0) > rate(1.0, -5.0) > 0
    assert rate(1.0, -20.0) == rate(1.0, -30.0) == rate(0.0, 15.0) == 0
    assert 1.0 < rate(0.5, 15.0) < 4.0  # suppliers speak of 1 to 3 kg/h for this size: from memory
