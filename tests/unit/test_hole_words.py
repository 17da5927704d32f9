"""Holes in words: common practice of drawings and lists, no source; each expected reading was written by hand."""

from itertools import product

import numpy as np
import pytest

from estimator.read.cut_list import ListDefaults, read_cut_list
from estimator.read.hole_words import Holes, speaks_of_holes, take_holes
from estimator.read.list_holes import _PLAIN_MARK
from estimator.read.numbers import Refused
from tests.workbook.corpus.case import Case, book_of

READ = """
pl10x150x300 4xØ22 | pl10x150x300 | 4 holes of 22
pl 10x150x300 w/ 4 holes Ø22 | pl 10x150x300 | 4 holes of 22
10x150x300, 2-Ø18 holes | 10x150x300 | 2 holes of 18
150x150x12 with 4 x 18mm holes | 150x150x12 | 4 holes of 18 mm
10x150x300 4 no. 22 dia holes | 10x150x300 | 4 holes of 22
plate 12x200x200, 4 off 18mm dia | plate 12x200x200 | 4 holes of 18 mm
Ø300x20 disc with 8-Ø22 on pcd 250 | Ø300x20 disc | 8 holes of 22
pl1/2x6x12 w/ 4 - 13/16" dia. holes | pl1/2x6x12 | 4 holes of 13/16 in
base plate 300x300x20 hole Ø50 | base plate 300x300x20 | 1 hole of 50
300x200x10 mit 4 löchern Ø18 | 300x200x10 | 4 holes of 18
300x200x10 4 otw. Ø18 | 300x200x10 | 4 holes of 18
лист 10х200х300 4отв. Ø18 | лист 10х200х300 | 4 holes of 18
300x200x10 2xØ22 + 2xØ22 | 300x200x10 | 4 holes of 22
"""
NONE = ["disc 10xØ300", "pl10x150xØ20", "4xØ22", "10x150x300", "manhole cover 500x500x10", "Ø300x20"]
REFUSED = ["300x200x10 4xm16", "300x200x10 2 slots 18x30", "300x200x10 4xØ22 2xØ18", "300x300x20 4xØ22 2xm12"]


@pytest.mark.parametrize("row", READ.strip().splitlines())
def test_holes_are_taken_out_of_a_size(row: str) -> None:
    text, rest, said = (part.strip() for part in row.split("|"))
    left, holes = take_holes(text)
    assert isinstance(holes, Holes), holes
    assert (left, str(holes)) == (rest, said)


@pytest.mark.parametrize("text", NONE)
def test_other_figures_are_no_holes(text: str) -> None:
    assert take_holes(text) == (text, None)


@pytest.mark.parametrize("text", REFUSED)
def test_holes_that_one_pair_of_columns_cannot_hold_are_refused(text: str) -> None:
    assert isinstance(take_holes(text)[1], Refused)


def read(rows: list[list[object]]) -> tuple[list[float], list[float], list[str]]:
    cuts, problems = read_cut_list(book_of(Case("holes", rows, [])), shop_defaults=ListDefaults())
    return cuts.holes.tolist(), cuts.hole_diameter_mm.tolist(), [p.code for p in problems]


def test_holes_of_a_size_fill_the_hole_columns() -> None:
    rows = [["Mark", "Qty", "Size (mm)"], ["A", 2, "PL10x150x300 4xØ22"], ["B", 1, 'PL10x150x300 2-7/8" holes']]
    holes, diameters, codes = read(rows)
    assert holes == [4, 2]
    assert diameters == pytest.approx([22, 22.225])
    assert codes == ["W213", "W213"]


def test_a_description_gives_the_diameter_that_a_column_of_holes_lacks() -> None:
    head = ["Mark", "Description", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Holes"]
    holes, diameters, codes = read([head, ["A", "Base 4xØ22", 1, 20, 300, 300, 4], ["B", "Base", 1, 20, 300, 300, 4]])
    assert holes == [4, 4]
    assert diameters[0] == 22
    assert np.isnan(diameters[1])
    assert codes == ["W231"]


def test_a_column_of_holes_against_the_description_is_asked() -> None:
    head = ["Mark", "Description", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Holes"]
    assert read([head, ["A", "Base 4xØ22", 1, 20, 300, 300, 6]])[2] == ["E220"]


def test_a_hole_as_wide_as_its_plate_is_asked() -> None:
    assert "E220" in read([["Mark", "Qty", "Size (mm)"], ["A", 2, "PL12x100x100 4xØ120"]])[2]


def test_a_disc_is_not_a_hole_in_itself() -> None:
    head = ["Mark", "Description", "Qty", "Thk (mm)", "Diameter (mm)"]
    holes, _, codes = read([head, ["A", "disc 10xØ300", 4, 10, 300]])
    assert np.isnan(holes[0])
    assert codes == []


def test_the_area_of_a_section_follows_from_its_mass_or_its_web_and_flanges() -> None:
    """203 x 133 x 25: 25 kg/m at 7850 kg/m³. H 300 x 150 x 6.5 x 9: two flanges and the web between, by hand."""
    rows = [["Mark", "Qty", "Size (mm)"], ["A", 1, "UB 203x133x25"], ["B", 1, "H300x150x6.5x9"]]
    cuts, _ = read_cut_list(book_of(Case("sections", rows, [])), shop_defaults=ListDefaults())
    assert cuts.section_area_cm2.tolist() == pytest.approx([25 / 0.785, (2 * 150 * 9 + 282 * 6.5) / 100])


def test_a_mark_that_is_passed_over_quickly_names_no_hole() -> None:
    letters = "abcdefghijklmnopqrstuvwxyz"
    begins = ["", *letters, *map("".join, product(letters, repeat=2))]
    marks = [
        f"{begin}{dash}{figures}" for begin in begins for dash in ("", "-") for figures in ("2", "20", "412", "0815")
    ]
    passed_over = list(filter(_PLAIN_MARK.fullmatch, marks))
    assert len(passed_over) == len(marks) - 8, "all but those that begin with the short word for holes"
    assert [mark for mark in passed_over if take_holes(mark, sized=True)[1] is not None or speaks_of_holes(mark)] == []
    assert not any(map(_PLAIN_MARK.fullmatch, ("4xØ22", "hole20", "2 dia 20", "ø20", "2d20")))


NOTED_HEAD = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Remarks"]


@pytest.mark.parametrize("note", ["4 holes 26 dia", "4 holes dia 26", "4 dia 26 holes"])
def test_a_diameter_of_holes_in_a_note_is_not_taken_for_a_disc(note: str) -> None:
    assert read([NOTED_HEAD, ["A", 2, 10, 400, 300, note]]) == ([4], [26], ["W231"])


@pytest.mark.parametrize("note", ["holes 26 dia 4 off each end", "corner holes 26 dia"])
def test_holes_of_a_note_whose_count_is_not_sure_are_told_of(note: str) -> None:
    assert read([NOTED_HEAD, ["A", 2, 10, 400, 300, note]])[2] == ["W232"]


def test_a_description_with_holes_by_diameter_is_a_plate_with_holes() -> None:
    head = ["Mark", "What", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
    holes, diameters, codes = read([head, ["A", "Base plate, 4 holes 26 dia", 2, 10, 400, 300]])
    assert (holes, diameters, codes) == ([4], [26], ["W231"])


@pytest.mark.parametrize(
    ("note", "codes"),
    [
        ("ring, outside 320, inside 200", ["W213"]),
        ("ring, OD 320 ID 200", ["W213"]),
        ("300 dia disc", ["E220"]),
        ("ring", ["W237"]),
        ("goes to the ring", []),
    ],
)
def test_a_note_that_begins_with_a_ring_or_disc_is_taken_or_told_of(note: str, codes: list[str]) -> None:
    head = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Remarks"]
    assert read([head, ["A", 2, 10, 320, 200, note]])[2] == codes
