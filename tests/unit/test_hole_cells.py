"""Count and size of holes in one cell; notations are common practice, no source."""

from __future__ import annotations

import pytest

from estimator.check.cut_list import CutList
from estimator.problems import Problem
from estimator.read.cut_list import ListDefaults, read_cut_list
from estimator.read.hole_cells import read_hole_cell, read_hole_groups
from tests.workbook.corpus.case import Case, Rows, book_of


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("4 @ 13/16", "4 holes of 13/16"),
        ("6 x 1-1/16", "6 holes of 1-1/16"),
        ("4 Ø22", "4 holes of 22"),
        ("4 x 22 mm", "4 holes of 22 mm"),
        ("2 off 18", "2 holes of 18"),
        ('4 x 13/16"', "4 holes of 13/16 in"),
        ("4 no. 22 dia", "4 holes of 22"),
        ("4 holes 22", "4 holes of 22"),
        ("4x22", "4 holes of 22"),
        ("(4) @ 1 1/16", "4 holes of 1-1/16"),
        ("1 @ .75", "1 hole of 0.75"),
        ("4 Stk. à 22 mm", "4 holes of 22 mm"),
    ],
)
def test_a_cell_with_count_and_size_is_read_as_both(text: str, read: str) -> None:
    assert str(read_hole_cell(text)) == read


@pytest.mark.parametrize("text", ["4", "4 off", "2x3", "4-13/16", "see dwg", "4/22", "0 x 22", "4 x 22 x 30", "ALL"])
def test_a_cell_without_a_size_or_with_two_readings_is_left_to_others(text: str) -> None:
    assert read_hole_cell(text) is None


def _holes(cell: object, *, size: str = "Size (in)", diameter: object = None) -> tuple[CutList, list[Problem]]:
    sides = "12 x 12" if "in" in size else "300 x 300"
    rows = [["Mark", "Qty", size, "Thk", "Holes", "Hole dia"], ["P1", 2, sides, '3/4"', cell, diameter]]
    return read_cut_list(book_of(Case("holes", rows, [])), shop_defaults=ListDefaults(unit="mm"))


def test_a_fraction_is_in_inches_and_a_bare_number_in_the_unit_of_the_list() -> None:
    cuts, problems = _holes("4 @ 13/16")
    assert (cuts.holes[0], cuts.hole_diameter_mm[0]) == (4, 20.6375)
    assert not [p for p in problems if p.code in {"E202", "W231"}]
    cuts, problems = _holes("4 @ 22", size="Size (mm)")
    assert (cuts.holes[0], cuts.hole_diameter_mm[0]) == (4, 22)
    assert [p.code for p in problems if p.code == "W231"] == ["W231"]
    assert _holes("4 @ 2", size="Size (in)")[0].hole_diameter_mm[0] == 50.8


def test_a_product_stays_a_product_where_the_size_has_a_column() -> None:
    cuts, problems = _holes("2 x 8", diameter="22 mm")
    assert (cuts.holes[0], cuts.hole_diameter_mm[0]) == (16, 22)
    assert "W212" in {p.code for p in problems}


def test_a_size_that_differs_from_its_own_column_is_asked() -> None:
    assert "E220" in {p.code for p in _holes("4 @ 13/16", diameter="22 mm")[1]}
    assert "E220" not in {p.code for p in _holes("4 x 22 mm", diameter="22 mm")[1]}


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ('4" in the middle', "1 hole of 4 in"),
        ('1 hole 4" in the middle', "1 hole of 4 in"),
        ('1 x 4" centre', "1 hole of 4 in"),
        ('4 x 13/16" corners', "4 holes of 13/16 in"),
        ("4 x 22 mm in the corners", "4 holes of 22 mm"),
        ("4 x 22 corners", "4 holes of 22"),
    ],
)
def test_words_for_the_place_behind_a_size_are_passed_over(text: str, read: str) -> None:
    assert str(read_hole_cell(text)) == read


@pytest.mark.parametrize(
    "text",
    ["4 in the middle", "4 x 22 each end", "4 x 8 ends", "10 ends", "middle", '4 x 13/16" corners, 1 x 4" centre'],
)
def test_a_place_that_leaves_count_or_size_open_is_not_read(text: str) -> None:
    assert read_hole_cell(text) is None


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("4x Ø22 + 2x Ø14", ["4 holes of 22", "2 holes of 14"]),
        ("2 holes 18, 1 hole 40", ["2 holes of 18", "1 hole of 40"]),
        ("1 x 40 centre, 4 x 18 corners", ["1 hole of 40", "4 holes of 18"]),
        ("4 @ 13/16 & 2 @ 9/16", ["4 holes of 13/16", "2 holes of 9/16"]),
        ("4 x 22 mm und 2 x 14 mm", ["4 holes of 22 mm", "2 holes of 14 mm"]),
        ("2 x 18; 2 x 18", ["4 holes of 18"]),
        ("3 + 2", []),
        ("4 x 22", []),
        ("4 x 22, countersunk", []),
        ("4,5", []),
    ],
)
def test_several_counts_and_sizes_are_told_apart(text: str, read: list[str]) -> None:
    assert [str(holes) for holes in read_hole_groups(text)] == read


def test_the_rows_that_are_asked_for_are_read_and_hold_every_hole() -> None:
    head = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Holes"]
    asked = _read([head, ["A", 2, 12, 300, 200, "4x Ø22 + 2x Ø14"]])[1]
    assert [p.code for p in asked] == ["E246"]
    assert "type '4 x 22 mm' in F2 under 'Holes'" in asked[0].do
    assert "'2 x 14 mm' in its holes" in asked[0].do
    cuts, problems = _read([head, ["A", 2, 12, 300, 200, "4 x 22 mm"], ["A", 2, 12, None, None, "2 x 14 mm"]])
    assert problems == []
    assert (cuts.holes.tolist(), cuts.hole_diameter_mm.tolist()) == ([4, 2], [22, 14])


def _read(rows: Rows) -> tuple[CutList, list[Problem]]:
    return read_cut_list(book_of(Case("holes", rows, [])), shop_defaults=ListDefaults())
