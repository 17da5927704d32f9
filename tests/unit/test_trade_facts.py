"""Trade facts of the built-in figures: common practice, no source, and a recalled table; against gross error only."""

import numpy as np
import pytest

from estimator.reference import table
from estimator.tasks import settings_for
from estimator.units import to_house
from tests.published.rows import chart_at, number, published_rows

BANDS = published_rows("recalled_bands")


def test_at_19_mm_the_tip_runs_30_to_35_psi_oxygen_and_overlaps_3_to_5_psi_acetylene() -> None:
    """Common practice, no source: a tip rated to 19 mm (3/4 in). 10 % either side of the oxygen range."""
    tips = table("tips")
    row = int(np.argmax(tips.column("thickness_to_mm") >= 19))
    ends = np.log([tips.column(f"thickness_{end}_mm")[row] for end in ("from", "to")])
    bars = [tips.column(f"cutting_oxygen_pressure_bar_at_{end}")[row] for end in ("from", "to")]
    oxygen = float(np.interp(np.log(19), ends, bars))
    assert to_house("pressure_bar", 30 * 0.9, "psi") <= oxygen <= to_house("pressure_bar", 35 * 1.1, "psi")
    fuel = table("tip_fuel_pressure")
    assert fuel.column("low_bar")[row] <= to_house("pressure_bar", 5, "psi")
    assert fuel.column("high_bar")[row] >= to_house("pressure_bar", 3, "psi")
    # the seen sources print 2 to 3 psi: inside the range too
    assert fuel.column("low_bar")[row] <= to_house("pressure_bar", 2.2, "psi")


def test_the_settings_of_19_mm_lie_within_a_tenth_of_30_to_35_psi_and_show_fuel_from_2_to_3_psi_and_over() -> None:
    """Common practice, no source, for the range; the seen sources print 2.0 to 3.0 psi of fuel: both are in it."""
    by_hand, on_track = settings_for("19 mm", None, "acetylene")
    for one in (by_hand, on_track):
        assert to_house("pressure_bar", 30 * 0.9, "psi") <= one.oxygen_pressure_bar
        assert one.oxygen_pressure_bar <= to_house("pressure_bar", 35 * 1.1, "psi")
        assert one.fuel_pressure_low_bar <= to_house("pressure_bar", 2.2, "psi")
        assert one.fuel_pressure_high_bar >= to_house("pressure_bar", 3.0, "psi")


@pytest.mark.parametrize("mode", ["hand", "machine"])
@pytest.mark.parametrize("row", BANDS, ids=lambda row: f"{row['thickness_in']} in")
def test_likely_speeds_lie_in_the_recalled_band(row: dict[str, str], mode: str) -> None:
    """The band (16 to 32 in/min at 1/8 in and so on) is recalled from memory, for hand and machine together."""
    mm = number(row, "thickness_in") * 25.4
    likely = chart_at("chart_speed", "likely_mm_min", mm, mode=mode)
    # 1 %: the chart's rows stand at whole millimetres between the band's inches
    assert 0.99 * number(row, "speed_in_min_low") * 25.4 <= likely <= 1.01 * number(row, "speed_in_min_high") * 25.4


@pytest.mark.parametrize(
    ("fuel", "column"), [("acetylene", "acetylene"), ("propane", "propane"), ("natural gas", "natural_gas")]
)
@pytest.mark.parametrize("row", BANDS, ids=lambda row: f"{row['thickness_in']} in")
def test_likely_fuel_flows_lie_in_the_recalled_band(row: dict[str, str], fuel: str, column: str) -> None:
    """Recalled from memory. Propane stands at the low end: its likely flow comes from two seen norms."""
    mm = number(row, "thickness_in") * 25.4
    likely = chart_at("chart_fuel", "likely_m3_h_70f_1atm", mm, fuel=fuel)
    low, high = (number(row, f"{column}_ft3_h_{end}") * 0.3048**3 for end in ("low", "high"))
    # 5 %: recalled to the foot, charted to 0.01 m³/h
    assert 0.95 * low <= likely <= 1.05 * high
