"""Bars, strips, angles and rings as the words and cells of a row tell of them, and whose steel a note says it is."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.job import JobOrder, estimate_job
from estimator.problems import Problem
from estimator.read.cut_list import ListDefaults, read_cut_list
from estimator.words import BLANK, MadeFrom, Shape, Steel
from tests.workbook.corpus.case import Case, book_of

HEAD = ["Item", "How many", "Thick", "Size", "Notes"]


def read(*rows: list[object], unit: str = "in") -> tuple[CutList, list[Problem]]:
    return read_cut_list(book_of(Case("bars", [HEAD, *rows], [])), shop_defaults=ListDefaults(unit=unit))


def told(problems: list[Problem]) -> set[str]:
    return {problem.code for problem in problems}


@pytest.mark.parametrize(
    ("name", "size", "note"),
    [
        ("Side strap", "3 x 54", "flat bar, cut to length"),
        ("Side strap", "54 x 3", "cut from flat bar"),
        ("Flat bar side straps", "3 x 4'-6\"", None),
    ],
)
def test_a_flat_bar_in_a_note_or_a_name_is_cut_across_and_said(name: str, size: str, note: str | None) -> None:
    cuts, problems = read([name, 12, "3/8", size, note])
    assert cuts.made_from.tolist() == [MadeFrom.FLAT]
    assert (cuts.size_a_mm[0], cuts.size_b_mm[0]) == pytest.approx((54 * 25.4, 3 * 25.4))
    assert "W238" in told(problems)


@pytest.mark.parametrize("note", ["bolts to flat bar", "near the flat bar edge", None])
def test_words_about_another_flat_bar_leave_a_plate_a_plate(note: str | None) -> None:
    cuts, problems = read(["Side plate", 2, "3/8", "10 x 12", note])
    assert cuts.made_from.tolist() != [MadeFrom.FLAT]
    assert "W238" not in told(problems)


@pytest.mark.parametrize("note", ["from plate", "cut out of 12 mm plate", "ripped"])
def test_a_flat_that_its_note_takes_out_of_plate_is_cut_all_round(note: str) -> None:
    rows = [["Mark", "What", "Qty", "Thk", "Length", "Width", "Remark"], ["A", "Flat", 10, 12, 1200, 80, note]]
    cuts, problems = read_cut_list(book_of(Case("strip", rows, [])), shop_defaults=ListDefaults(unit="mm"))
    assert cuts.made_from.tolist() == [MadeFrom.PLATE]
    assert "W238" not in told(problems)


@pytest.mark.parametrize(
    ("thick", "size"),
    [("1/4", "L 3 x 3 x 7' 2 1/2\""), (None, "L 3 x 3 x 1/4 x 7' 2 1/2\""), ("1/4", "L 3 x 3 x 86.5")],
)
def test_the_length_of_an_angle_in_its_size_weighs_it(thick: str | None, size: str) -> None:
    cuts, _ = read(["Post", 4, thick, size, None])
    assert cuts.shape.tolist() == [Shape.ANGLE]
    assert cuts.thickness_mm[0] == pytest.approx(6.35)
    assert cuts.section_length_mm[0] == pytest.approx(86.5 * 25.4)
    assert (cuts.size_a_mm[0], cuts.size_b_mm[0]) == pytest.approx((76.2, 76.2))


def test_a_row_of_more_holes_is_not_said_to_lack_steel() -> None:
    rows = [
        ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Holes", "Hole diameter (mm)", "Steel"],
        ["T1", 1, 12, 400, 250, 1, 50, "ours"],
        ["T1", 1, 12, None, None, 2, 27, "ours"],
    ]
    cuts, problems = read_cut_list(book_of(Case("holes", rows, [])), shop_defaults=ListDefaults(unit="mm"))
    done = estimate_job(cuts, example_shop(), JobOrder(date=dt.date(2026, 11, 2)), problems=problems)
    assert "W280" not in told(done.problems)
    assert done.lines.price.min() > 0
    assert np.isfinite(done.totals.total)


@pytest.mark.parametrize(("outside", "inside"), [("300 OD", "180 ID"), ("OD 300", "ID 180"), ("Ø300 OD", "180 bore")])
def test_a_ring_whose_diameters_stand_in_two_cells_is_a_ring(outside: str, inside: str) -> None:
    rows = [["Mark", "What", "Qty", "Thk", "Length", "Width"], ["A", "Ring", 2, 12, outside, inside]]
    cuts, problems = read_cut_list(book_of(Case("ring", rows, [])), shop_defaults=ListDefaults(unit="mm"))
    assert cuts.shape.tolist() == [Shape.RING]
    assert (cuts.size_a_mm[0], cuts.size_b_mm[0]) == (300, 180)
    assert not [problem for problem in problems if problem.code.startswith("E")]


def test_holes_under_a_heading_of_holes_and_notes_are_read() -> None:
    rows = [["Mark", "Qty", "Thk", "Length", "Width", "Holes / notes"], ["A", 2, 12, 300, 200, "4 holes 18"]]
    cuts, _ = read_cut_list(book_of(Case("notes", rows, [])), shop_defaults=ListDefaults(unit="mm"))
    assert (cuts.holes[0], cuts.hole_diameter_mm[0]) == (4, 18)


@pytest.mark.parametrize("note", ["I bring the plate, just cut", "customer's own plate"])
def test_a_note_that_brings_the_plate_is_told_of(note: str) -> None:
    rows = [["Mark", "Qty", "Thk", "Length", "Width", "Notes"], ["A", 2, 12, 300, 200, note]]
    _, problems = read_cut_list(book_of(Case("steel", rows, [])), shop_defaults=ListDefaults(unit="mm"))
    assert "W243" in told(problems)


def test_a_column_of_grades_may_say_theirs_in_one_row() -> None:
    head = ["Mark", "Qty", "Thk", "Length", "Width", "Steel"]
    rows = [head, ["A", 2, 12, 300, 200, "S355"], ["B", 2, 12, 300, 200, "theirs"], ["C", 2, 12, 300, 200, "400 HB"]]
    cuts, problems = read_cut_list(book_of(Case("steel", rows, [])), shop_defaults=ListDefaults(unit="mm"))
    assert cuts.steel.tolist() == [BLANK, Steel.THEIRS, BLANK]
    assert list(cuts.grade) == ["S355", "", "400 HB"]
    assert not [problem for problem in problems if problem.code.startswith("E")]


def test_a_misspelt_word_for_whose_steel_it_is_is_still_asked() -> None:
    head = ["Mark", "Qty", "Thk", "Length", "Width", "Steel"]
    rows = [head, ["A", 2, 12, 300, 200, "ours"], ["B", 2, 12, 300, 200, "theirz"]]
    _, problems = read_cut_list(book_of(Case("steel", rows, [])), shop_defaults=ListDefaults(unit="mm"))
    assert "E209" in told(problems)
