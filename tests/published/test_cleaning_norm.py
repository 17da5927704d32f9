"""ENiR E40-2-4 (seen as an excerpt): chiselling cut edges after gas cutting; hours for 10 m of plate edge."""

import pytest

from estimator.reference import table

# Printed rate in kopecks for 10 m, beside the hours; the norm's own price of an hour is 64 kopecks.
KOPECKS = {6: 9.6, 8: 10.9, 10: 12.8, 12: 14.1, 15: 16.6, 20: 19.8, 25: 23.7, 30: 28.8}


def hours_per_10_m(thickness_to_mm: float) -> float:
    return float(table("norm_plate_cleaning").where(thickness_to_mm=thickness_to_mm).column("hours_per_10_m")[0])


@pytest.mark.parametrize("thickness_mm", KOPECKS)
def test_the_carried_hours_give_the_printed_rate_in_kopecks(thickness_mm: int) -> None:
    """A second printed column, so a slip in carrying the hours shows."""
    assert hours_per_10_m(thickness_mm) * 64 == pytest.approx(KOPECKS[thickness_mm], abs=0.06)


def test_25_metres_of_12_mm_edge_take_0_55_hours() -> None:
    assert 25 / 10 * hours_per_10_m(12) == pytest.approx(0.55, abs=1e-9)
