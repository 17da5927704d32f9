"""A problem names the cell that holds the trouble: one cell of a good row is spoilt, and no other is blamed."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import pytest

from estimator.problems import Level, Problem
from estimator.read.cells import NOT_CALCULATED, Book, CellError, SheetCells, column_letters
from estimator.read.cut_list import ListDefaults, read_cut_list
from estimator.words import MadeFrom

LISTS: dict[str, tuple[list[str], list[Any]]] = {
    "sides in columns": (["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"], ["PL2", 2.0, 12.0, 250.0, 150.0]),
    "sizes beside thicknesses": (["Item", "Qty", "What", "Thick (mm)", "Size (mm)"], ["P2", 2.0, "", 12.0, "250x150"]),
    "flats by name": (["Item", "Qty", "What", "Thick (mm)", "Size (mm)"], ["FB2", 2.0, "Flat bar", 12.0, "250x50"]),
    "whole sizes": (["Mark", "Description", "Qty", "Size (mm)"], ["FB1", "Plate", 2.0, "12x250x150"]),
    "discs": (["Pc", "Description", "Qty", "Thk (mm)", "Dia (mm)"], ["P2", "Blank", 2.0, 12.0, 300.0]),
    "rings": (["Mark", "Qty", "Thk (mm)", "OD (mm)", "ID (mm)"], ["P2", 2.0, 12.0, 300.0, 200.0]),
    "cut lengths": (["Mark", "Qty", "Thk (mm)", "Cut length (mm)"], ["PL1", 2.0, 12.0, 900.0]),
    "holes": (
        ["Mark", "Qty", "Thk (mm)", "Cut length (mm)", "Holes", "Hole dia (mm)"],
        ["P2", 2.0, 12.0, 900.0, 4.0, 30.0],
    ),
}
SPOILT: list[Any] = [
    "see drawing",
    "10 to 12",
    "12 ?",
    -4.0,
    CellError("#REF!"),
    NOT_CALCULATED,
    dt.datetime(2026, 5, 4),
    True,
]
NOT_FIGURES = {"Mark", "Item", "Pc", "What", "Description"}


def problems_of(head: list[str], good: list[Any], row: list[Any]) -> list[Problem]:
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", [[*head], ["A1", *good[1:]], row])])
    return read_cut_list(book, shop_defaults=ListDefaults(unit="mm"))[1]


CASES = [
    pytest.param(name, column, value, id=f"{name}: {head[column]} {value!r}")
    for name, (head, _) in LISTS.items()
    for column in range(len(head))
    if head[column] not in NOT_FIGURES
    for value in SPOILT
]


@pytest.mark.parametrize("name", LISTS)
def test_the_rows_are_good_before_a_cell_is_spoilt(name: str) -> None:
    assert [p.text() for p in problems_of(*LISTS[name], LISTS[name][1]) if p.level is Level.ERROR] == []


@pytest.mark.parametrize(("name", "column", "value"), CASES)
def test_errors_name_the_spoilt_cell_and_no_other(name: str, column: int, value: Any) -> None:
    head, row = LISTS[name]
    problems = problems_of(head, row, [*row[:column], value, *row[column + 1 :]])
    errors = [p for p in problems if p.level is Level.ERROR]
    assert errors, [p.text() for p in problems]
    assert {p.place.cell for p in errors} == {f"{column_letters(column)}3"}, [p.text() for p in errors]


@pytest.mark.parametrize(
    ("name", "heading"),
    [
        *(("sides in columns", heading) for heading in ("Qty", "Thk (mm)", "Length (mm)")),
        *(("sizes beside thicknesses", heading) for heading in ("Qty", "Thick (mm)", "Size (mm)")),
        *(("flats by name", heading) for heading in ("Qty", "Size (mm)")),
        *(("whole sizes", heading) for heading in ("Qty", "Size (mm)")),
        *(("discs", heading) for heading in ("Qty", "Thk (mm)", "Dia (mm)")),
        *(("rings", heading) for heading in ("Qty", "Thk (mm)", "OD (mm)")),
        *(("cut lengths", heading) for heading in ("Qty", "Thk (mm)", "Cut length (mm)")),
    ],
)
def test_a_blank_cell_is_asked_for_where_it_stands(name: str, heading: str) -> None:
    head, row = LISTS[name]
    column = head.index(heading)
    errors = [p for p in problems_of(head, row, [*row[:column], None, *row[column + 1 :]]) if p.level is Level.ERROR]
    assert [p.place.cell for p in errors] == [f"{column_letters(column)}3"], [p.text() for p in errors]


def test_a_flat_whose_thickness_is_blank_is_said_at_its_size() -> None:
    head, row = LISTS["flats by name"]
    problems = problems_of(head, row, [*row[:3], None, row[4]])
    assert [(p.code, p.place.cell) for p in problems] == [("W213", "E3")]
    assert "flat 250 mm, 50 mm thick: no thickness stands in a cell of its own" in problems[0].fact


@pytest.mark.parametrize(
    ("thick", "size", "what", "said"),
    [
        ("1/2 x 4", "3'-6\"", "Flat bar", "flat 42 in x 4 in, 1/2 in thick"),
        ("1/2 x 4", "42", "Strap", "flat 42 in x 4 in, 1/2 in thick"),
        ("4 x 1/2", "3'-6\"", "Plate", "42 in x 4 in, 1/2 in thick"),
    ],
)
def test_a_thickness_and_a_width_under_thick_beside_one_length(thick: str, size: str, what: str, said: str) -> None:
    rows: list[list[Any]] = [
        ["Item", "Qty", "What", "Thick (in)", "Size (in)"],
        ["FB1", 3.0, what, thick, size],
        ["BP1", 2.0, "Plate", "3/4", "12 x 12"],
    ]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", rows)])
    cuts, problems = read_cut_list(book, shop_defaults=ListDefaults(unit="in"))
    assert [(p.code, p.place.cell) for p in problems] == [("W213", "D2")]
    assert f"the thickness is read as {said}: the two figures" in problems[0].fact
    assert (cuts.thickness_mm[0], cuts.size_a_mm[0], cuts.size_b_mm[0]) == (12.7, 1066.8, 101.6)
    assert (cuts.made_from[0] == MadeFrom.FLAT) == (what != "Plate")


@pytest.mark.parametrize(
    ("thick", "size", "reason"),
    [
        ("1/2 x 4", "12 x 12", "it gives sides, and the size of the row gives others"),
        ("FB 1/2 x 4", "12 x 12", "it gives sides, and the size of the row gives others"),
        ("1/2 x 4", None, "two figures are no thickness, and no other cell of the row is the length of a flat"),
        (None, "3'-6\"", "the row is a flat bar, and its width is missing too"),
    ],
)
def test_a_thickness_that_is_not_one_is_asked_at_its_own_cell(thick: str | None, size: str | None, reason: str) -> None:
    rows: list[list[Any]] = [
        ["Item", "Qty", "What", "Thick (in)", "Size (in)"],
        ["FB1", 3.0, "Flat bar", thick, size],
        ["BP1", 2.0, "Plate", "3/4", "12 x 12"],
    ]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", rows)])
    errors = [p for p in read_cut_list(book, shop_defaults=ListDefaults(unit="in"))[1] if p.level is Level.ERROR]
    assert [(p.code, p.place.cell) for p in errors] == [("E204", "D2")]
    assert reason in errors[0].fact


def test_a_size_against_the_thickness_of_an_inch_list_is_said_in_inches() -> None:
    rows: list[list[Any]] = [["Mark", "Qty", "Thick (in)", "Size (in)"], ["P1", 2.0, 0.5, "3/8 x 12 x 10"]]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", rows)])
    (problem,) = read_cut_list(book, shop_defaults=ListDefaults(unit="in"))[1]
    assert problem.fact == "a thickness of 0.5 in and the size '3/8 x 12 x 10' do not agree"
