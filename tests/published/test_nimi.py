"""NIMI (Government of India), CITS Welder, table Data for cutting and two worked settings (seen, four pages).

The built-in tips rest on this table: the tests hold the tips to the print, and to the settings of the exercises, which
were not used to make them. Printed in kgf/cm²; the built-in tips take the figures as bar, 2 % apart.
"""

import numpy as np
import pytest

from estimator.reference import table
from estimator.units import to_house
from tests.published.rows import number, published_rows

ROWS = published_rows("nimi_cutting")


def pressure_at(bore_mm: float, thickness_mm: float) -> float:
    """Interpolated in log thickness inside the tip's range."""
    tip = table("tips").where(tip_bore_mm=bore_mm)
    ends = np.log([tip.column("thickness_from_mm")[0], tip.column("thickness_to_mm")[0]])
    assert ends[0] <= np.log(thickness_mm) <= ends[1]
    bars = [tip.column(f"cutting_oxygen_pressure_bar_at_{end}")[0] for end in ("from", "to")]
    return float(np.interp(np.log(thickness_mm), ends, bars))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['thickness_mm']} mm")
def test_a_tip_of_each_printed_bore_is_built_in_and_covers_the_middle_of_its_range(row: dict[str, str]) -> None:
    low, high = (float(end) for end in row["thickness_mm"].split("-"))
    middle = np.sqrt(low * high)
    bar = pressure_at(number(row, "bore_mm_low"), middle)
    printed = [number(row, f"cutting_oxygen_pressure_bar_{end}") for end in ("low", "high")]
    # 3 %: kgf/cm² taken as bar, and one decimal in the print
    assert printed[0] * 0.97 <= bar <= printed[1] * 1.03


@pytest.mark.parametrize(("thickness_mm", "bore_mm", "kgf_cm2"), [(10.0, 1.2, 1.6), (6.0, 0.8, 1.4)])
def test_the_settings_of_the_exercises_are_met(thickness_mm: float, bore_mm: float, kgf_cm2: float) -> None:
    printed = to_house("pressure_bar", kgf_cm2, "kgf/cm2")
    # 10 %: a regulator is set to a mark, not to a figure
    assert pressure_at(bore_mm, thickness_mm) == pytest.approx(printed, rel=0.10)


def test_the_printed_acetylene_pressure_lies_in_the_built_in_range() -> None:
    printed = to_house("pressure_bar", 0.15, "kgf/cm2")
    fuel = table("tip_fuel_pressure")
    assert np.all((fuel.column("low_bar") <= printed) & (printed <= fuel.column("high_bar")))
