"""A quantity break that makes the larger order cheaper is said once for each mark."""

from __future__ import annotations

import numpy as np
import pytest

from estimator.check.shop_book import QuantityBreak
from estimator.pricing.break_drops import break_drops
from tests.samples.jobs import changed_shop, estimated, plates

BREAKS = (QuantityBreak(from_quantity=10, off_share=0.1), QuantityBreak(from_quantity=50, off_share=0.2))


def notes(quantities: list[float], marks: list[str]) -> list[tuple[str, int]]:
    cuts = plates(len(quantities))
    cuts.quantity, cuts.mark = np.array(quantities), marks
    return [(p.code, p.place.row) for p in break_drops(cuts, BREAKS)]


@pytest.mark.parametrize(
    ("quantity", "said"),
    [
        (9, False),  # 10 x 0.9 = 9: the same, not less
        (10, False),
        (44, False),  # 44 x 0.9 = 39.6 against 50 x 0.8 = 40
        (45, True),  # 45 x 0.9 = 40.5
        (49, True),
        (50, False),
        (400, False),
    ],
)
def test_the_next_break_is_compared_with_what_these_pieces_cost(quantity: float, said: bool) -> None:
    assert bool(notes([quantity], ["A"])) is said


def test_lines_of_one_mark_count_together_and_unmarked_lines_alone() -> None:
    assert notes([20, 25, 3], ["A", "A", "B"]) == [("N293", 2)]
    assert notes([20, 25], ["", ""]) == []
    assert notes([20, 46], ["", ""]) == [("N293", 3)]


def test_the_note_stands_on_the_estimate_and_is_true_of_its_prices() -> None:
    cuts = plates(1)
    shop = changed_shop(spread_job_rows=False).model_copy(update={"breaks": BREAKS})
    cuts.quantity = np.array([49.0])
    less = estimated(cuts, shop)
    assert "N293" in {p.code for p in less.problems}
    cuts.quantity = np.array([50.0])
    more = estimated(cuts, shop)
    assert "N293" not in {p.code for p in more.problems}
    assert (more.lines.price - more.lines.break_off).sum() < (less.lines.price - less.lines.break_off).sum()
