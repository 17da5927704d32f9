"""Sheet and Plate Metal Work, Cutting Metal with Oxygen (an old textbook, reproduced on line, seen): hand speeds.

About 12 in/min in half-inch plate and half of that in one and a half inch. 10 %: "about", and a torch of its day.
"""

import pytest

from estimator.reference import look_up, table
from tests.published.rows import number, published_rows


@pytest.mark.parametrize("row", published_rows("sheet_plate_speeds"), ids=lambda row: f"{row['thickness_in']} in")
def test_each_hand_speed_lies_in_the_hand_band(row: dict[str, str]) -> None:
    hand = table("chart_speed").where(mode="hand")
    low, high = (
        look_up(hand, along="thickness_mm", at=number(row, "thickness_mm"), wanted=column, log=True).value
        for column in ("low_mm_min", "high_mm_min")
    )
    assert 0.9 * low <= number(row, "speed_mm_min_low") <= 1.1 * high
