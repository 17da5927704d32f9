"""J. Carvill, Mechanical Engineer's Data Handbook, 5.11.5 Flame cutting, p. 210 (seen): bore, pressure, speed.

The handbook prints no oxygen flow. Its bores and pressures go through the orifice function; the flows to meet are
worked out from compressible-flow theory (gamma 1.4, R 259.8 J/kg K, 294.26 K, Cd 0.9), as ``0.605 A (p + 1.013)``.
"""

import math

import pytest

from estimator.quantities.orifice import orifice_oxygen_flow_m3_h
from estimator.reference import gas_density_kg_m3
from tests.published.rows import chart_at, number, published_rows

ROWS = published_rows("carvill_cutting")
AT_70_F = gas_density_kg_m3("oxygen", "70F_1atm")


@pytest.mark.parametrize(
    ("bore_mm", "bar", "m3_h"), [(0.8, 1.8, 0.86), (1.6, 2.8, 4.64), (1.6, 3.2, 5.12), (1.6, 3.5, 5.49)]
)
def test_the_handbook_bores_pass_their_choked_flow(bore_mm: float, bar: float, m3_h: float) -> None:
    # 1 %: the printed answers have three figures, gamma and R vary by less
    assert orifice_oxygen_flow_m3_h(bore_mm, bar, density_kg_m3=AT_70_F) == pytest.approx(m3_h, rel=0.01)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['thickness_mm']} mm")
def test_each_bore_and_pressure_agrees_with_the_short_formula(row: dict[str, str]) -> None:
    bore, bar = number(row, "bore_mm_low"), number(row, "cutting_oxygen_pressure_bar_low")
    short = 0.605 * math.pi / 4 * bore**2 * (bar + 1.013)
    # 0.2 %: the factor is printed with three figures
    assert orifice_oxygen_flow_m3_h(bore, bar, density_kg_m3=AT_70_F) == pytest.approx(short, rel=0.002)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['thickness_mm']} mm")
def test_each_printed_speed_lies_in_the_hand_band_of_the_chart(row: dict[str, str]) -> None:
    """The band is recalled and was placed with these rows among others: a check for gross error, not a proof."""
    low, high = (
        chart_at("chart_speed", column, number(row, "thickness_mm"), mode="hand")
        for column in ("low_mm_min", "high_mm_min")
    )
    assert low <= number(row, "speed_mm_min_low") <= high
