"""Sheet and Plate Metal Work, Cutting Metal with Oxygen (an old textbook, reproduced on line, seen): hand speeds.

About 12 in/min in half-inch plate and half of that in one and a half inch. 10 %: "about", and a torch of its day.
"""

import pytest

from tests.published.rows import chart_at, number, published_rows


@pytest.mark.parametrize("row", published_rows("sheet_plate_speeds"), ids=lambda row: f"{row['thickness_in']} in")
def test_each_hand_speed_lies_in_the_hand_band(row: dict[str, str]) -> None:
    low, high = (
        chart_at("chart_speed", column, number(row, "thickness_mm"), mode="hand")
        for column in ("low_mm_min", "high_mm_min")
    )
    assert 0.9 * low <= number(row, "speed_mm_min_low") <= 1.1 * high
