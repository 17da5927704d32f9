"""C. R. Martin, Penn State Altoona, ion experiments 4 and 6 (2019-21): open data of machine cuts with methane (seen).

Flows were measured in ft³/h (standard); the cutting-oxygen flow was not. A laboratory's settings, so the chart's
bands must overlap the measured spans, not hold them.
"""

import pytest

from estimator.reference import table
from tests.published.rows import chart_at, number, published_rows

ROWS = [row for row in published_rows("measured_machine_cuts") if row["thickness_mm"]]
# Measured in the steady runs; two early points with more fuel than oxygen are left out.
STEADY_OXYGEN_PER_FUEL = (1.24, 1.30)


def band(name: str, low: str, high: str, thickness_mm: float, **curve: str) -> tuple[float, float]:
    return chart_at(name, low, thickness_mm, **curve), chart_at(name, high, thickness_mm, **curve)


def test_measured_preheat_oxygen_lies_in_the_range_of_natural_gas() -> None:
    row = table("work_rates").where(name="preheat_natural_gas")
    low, high = row.column("low")[0], row.column("high")[0]
    assert low <= STEADY_OXYGEN_PER_FUEL[0] < STEADY_OXYGEN_PER_FUEL[1] <= high


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['thickness_mm']} mm")
def test_measured_speeds_overlap_the_machine_band(row: dict[str, str]) -> None:
    low, high = band("chart_speed", "low_mm_min", "high_mm_min", number(row, "thickness_mm"), mode="machine")
    assert number(row, "speed_mm_min_low") <= high
    assert number(row, "speed_mm_min_high") >= low


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['thickness_mm']} mm")
def test_measured_fuel_flows_overlap_the_band(row: dict[str, str]) -> None:
    low, high = band(
        "chart_fuel",
        "low_m3_h_70f_1atm",
        "high_m3_h_70f_1atm",
        number(row, "thickness_mm"),
        fuel="natural gas",
    )
    assert number(row, "natural_gas_ft3_h_low") * 0.3048**3 <= high
    assert number(row, "natural_gas_ft3_h_high") * 0.3048**3 >= low
