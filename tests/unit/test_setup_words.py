"""What set-up and the rest is said to be made of, and what is said of the steel that is charged."""

from dataclasses import replace

import numpy as np

from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.setup_words import setup_parts, setup_words
from estimator.pricing.steel_words import steel_charged_words
from estimator.quantities.job_rows import JobRow
from estimator.words import MadeFrom, Shape, Steel
from estimator.write.estimate_text import estimate_text
from tests.samples.jobs import estimated, plates


def row(key: str, count: float, minutes_each: float) -> JobRow:
    return JobRow(key, key, count, minutes_each, "")


def test_parts_come_longest_first_with_the_lighting_of_all_tips_together():
    rows = [
        row("setup_job", 1, 20.0),
        row("setup_mark", 11, 5.0),
        row("lighting 1.2", 4, 1.0),
        row("lighting 1.6", 2, 1.0),
        row("cylinder_changes", 0.05, 8.0),
    ]
    assert setup_words(rows, 0.12) == "drawings 55 min, set-up 20, lighting 6; + 12 % rest"
    assert [part.rows for part in setup_parts(rows)] == [(1,), (0,), (2, 3)]
    assert setup_words(rows, 0.12, most=1) == "drawings 55 min, 2 smaller 26; + 12 % rest"
    assert setup_words([], 0.12) == ""


def test_the_terminal_says_what_set_up_is_made_of_and_whose_steel_weighs_what():
    cuts = plates(4)
    steel = np.array([Steel.OURS, Steel.OURS, Steel.THEIRS, Steel.THEIRS], dtype=np.int8)
    estimate = estimated(replace(cuts, steel=steel))
    said = " ".join(estimate_text(estimate, estimate_ranges(estimate)).split())
    kg = estimate.job.lines.mass_each_kg * cuts.quantity
    ours, theirs = kg[:2].sum(), kg[2:].sum()
    assert f"ours, in the price, {ours:,.0f} kg in the pieces, {ours / 0.85:,.0f} kg charged (+ 15 % left over)" in said
    assert f"the customer's own, not in the price, {theirs:,.0f} kg in the pieces" in said
    assert "Set-up and the rest: " in said


def test_the_words_of_steel_name_bars_and_squares_where_there_are_any():
    cuts = replace(
        plates(3),
        shape=np.array([Shape.DISC, Shape.RECTANGLE, Shape.RECTANGLE], dtype=np.int8),
        made_from=np.array([-1, MadeFrom.FLAT, -1], dtype=np.int8),
    )
    said = steel_charged_words(estimated(cuts))
    assert said.endswith("kg charged (+ 15 % left over, + 5 % bars, rounds by their squares)")
