"""Holes that a note names: read where count and diameter are certain, never where others make them."""

from pathlib import Path

import pytest

from estimator.read.cells import Book, SheetCells
from estimator.read.cut_list import ListDefaults, read_cut_list
from estimator.words import Shape

MM = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Remarks"]
INCHES = ["Mark", "Qty", "Thk (in)", "Length (in)", "Width (in)", "Remarks"]


def holes_of(note: str, *, head: list[str] = MM) -> tuple[float, float, list[str]]:
    """Return count and diameter of the holes of a plate with a note, and the codes of what is said of them."""
    row: list[object] = ["A", 2.0, 0.5, 12.0, 8.0, note] if head is INCHES else ["A", 2.0, 12.0, 300.0, 200.0, note]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", [head, row])])  # type: ignore[list-item]
    cuts, problems = read_cut_list(book, shop_defaults=ListDefaults())
    return float(cuts.holes[0]), float(cuts.hole_diameter_mm[0]), [p.code for p in problems]


@pytest.mark.parametrize(
    ("note", "count", "diameter_mm"),
    [
        ('4 holes 7/8"', 4, 22.225),
        ('4 holes 7/8" in corners', 4, 22.225),
        ("4 holes 22 mm in the four corners", 4, 22),
        ('4 x 7/8" holes', 4, 22.225),
        ("4 no. 22 holes", 4, 22),
        ("4-22 dia", 4, 22),
        ("holes 22 (4 off)", 4, 22),
        ("4x Ø18", 4, 18),
        ("drill 4 holes 18mm", 4, 18),
        ("4 x 18mm dia holes 25 from edge", 4, 18),
        ("4 holes 18mm @ 150 crs", 4, 18),
        ("4 Bohrungen Ø18", 4, 18),
        ("4 holes 18 thru, as drawing", 4, 18),
        ("4 otwory fi 18", 4, 18),
    ],
)
def test_holes_whose_count_and_diameter_are_certain_are_read_and_said(
    note: str, count: int, diameter_mm: float
) -> None:
    assert holes_of(note) == (count, pytest.approx(diameter_mm), ["W231"])


@pytest.mark.parametrize("note", ["4 holes 7/8", "4 x 7/8 holes", "holes 7/8 (4 off)", '(4) 7/8" dia. holes'])
def test_bare_fractions_of_an_inch_list_are_diameters(note: str) -> None:
    assert holes_of(note, head=INCHES) == (4, pytest.approx(22.225), ["W231"])


@pytest.mark.parametrize(
    "note", ["4-7/8 dia", "(4) 7/8", "4 holes 7/8 each end", "4 holes 7/8 by others", "7/8 holes to match base"]
)
def test_what_leaves_a_doubt_is_told_of_and_not_counted(note: str) -> None:
    count, _, codes = holes_of(note, head=INCHES)
    assert not count > 0
    assert codes == ["W232"]


def test_a_hole_wider_than_its_piece_is_told_of_and_not_counted() -> None:
    assert holes_of("2 holes 250 dia")[2] == ["W232"]


@pytest.mark.parametrize("note", ["12 x 50 dia", "20 x 50 dia"])
def test_a_thickness_and_a_diameter_are_no_holes(note: str) -> None:
    count, _, codes = holes_of(note)
    assert not count > 0
    assert codes == ["W232"]


def test_a_disc_by_its_thickness_and_diameter_has_no_holes() -> None:
    head, row = ["Mark", "Qty", "Size (mm)"], ["A", 1.0, "20 x 250 dia"]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", [head, row])])  # type: ignore[list-item]
    cuts, problems = read_cut_list(book)
    assert (cuts.shape[0], cuts.thickness_mm[0], cuts.size_a_mm[0], problems) == (Shape.DISC, 20, 250, [])
    assert not cuts.holes[0] > 0
