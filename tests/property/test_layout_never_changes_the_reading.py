"""However a list is laid out, it reads the same: columns in any order, titles above, blank columns, other sheets.

And whatever stands in its cells, reading ends with lines and problems, never with an exception.
"""

import datetime as dt
import math
import random
from pathlib import Path
from typing import Any

import pytest

from estimator.check.cut_list import CutList
from estimator.read.cells import NOT_CALCULATED, Book, CellError, SheetCells
from estimator.read.cut_list import read_cut_list
from estimator.read.row_kinds import RowKind
from tests.workbook.corpus.case import Case, book_of, rows_read
from tests.workbook.corpus.cases import CASES

TITLES: list[list[Any]] = [
    ["CUTTING LIST FOR THE INVENTED BRIDGE"],
    ["Customer", None, "Invented Silos"],
    [],
    ["Date", dt.datetime(2026, 11, 5), "Rev", "A"],
    [],
]
# A list that is told by its place (a sheet and cell, columns by letter, merges, formats, side by side) keeps its place.
MOVABLE = [case for case in CASES if not (case.sheet or case.columns or case.merged or case.formats or case.before)]
APART = ("two", "example", "same", "numbers the columns", "above", "in the title", "four", "group title", "over three")
SHUFFLED = [case for case in MOVABLE if not any(word in case.name for word in APART)]


def reading(book: Book) -> tuple[list[tuple[Any, ...]], list[str]]:
    cuts, problems = read_cut_list(book)
    return [row[1:] for row in rows_read(cuts)], sorted(p.code for p in problems)


@pytest.mark.parametrize("case", MOVABLE, ids=lambda case: case.name)
def test_a_title_block_above_changes_nothing(case: Case) -> None:
    book = book_of(case)
    before = reading(book)
    book.sheets[0].rows[:0] = [list(row) for row in TITLES]
    assert reading(book) == before


@pytest.mark.parametrize("case", MOVABLE, ids=lambda case: case.name)
def test_columns_moved_to_the_right_change_nothing(case: Case) -> None:
    book = book_of(case)
    before = reading(book)
    for row in book.sheets[0].rows:
        row[:0] = [None, None]
    assert reading(book) == before


@pytest.mark.parametrize("case", SHUFFLED, ids=lambda case: case.name)
def test_columns_in_any_order_read_the_same(case: Case) -> None:
    rng = random.Random(case.name)
    before = reading(book_of(case))
    for _ in range(4):
        book = book_of(case)
        (sheet, *_) = book.sheets
        width = max(map(len, sheet.rows))
        order = rng.sample(range(width), width)
        sheet.rows[:] = [_in_order(row, order) for row in sheet.rows]
        assert reading(book) == before, order


def _in_order(row: list[Any], order: list[int]) -> list[Any]:
    """Return a row of the table in another order of columns; a row with one text is a title and stays."""
    if [type(value) for value in row if value is not None] in ([], [str]):
        return list(row)
    return [row[column] if column < len(row) else None for column in order]


NASTY: list[Any] = [
    *(
        None,
        "",
        " ",
        "-",
        '"',
        "?",
        "ALL",
        "3/8",
        '1-1/2"',
        "5'-3\"",
        "12 mm",
        "12-18",
        "1,234",
        "1.234,5",
        "½",
        "9 ga",
    ),
    *(
        "PL10x150x300",
        "L50x50x5",
        "3*50*50*800",
        "UB 203x133x25",
        "bolt",
        "Total",
        "Qty",
        "Thickness (mm)",
        "mm",
        "9 ga",
    ),
    *("=1+1", "\x00", "\u202e12", "１２", "l0", "9" * 400, "(" * 60, "1/" * 60, "x" * 5000, "12 " * 200, "'" * 50),
    *(0.0, -1.0, 12.0, 0.375, 1e308, -1e308, math.inf, math.nan, 46085.0, 1e-300),
    *(True, False, dt.datetime(2026, 3, 4), dt.date(1932, 3, 1), dt.time(0, 5), CellError("#REF!"), NOT_CALCULATED),
]
HEADINGS = [
    *("Mark", "Qty", "Thickness (mm)", "Length", "Width (in)", "Size", "Material", "Grade", "Shape", "Holes", "Bevel"),
    *("Hole dia", "Weight (kg)", "Total length", "Unit", "Steel", "OD", "ID dia", "Total qty", "Note", "Share cuts"),
    "Colour",
]


@pytest.mark.parametrize("seed", range(150))
def test_whatever_stands_in_the_cells_reading_ends_in_lines_and_problems(seed: int) -> None:
    rng = random.Random(seed)
    heads = rng.sample(HEADINGS, rng.randrange(2, 14))
    rows: list[list[Any]] = [[rng.choice(NASTY) for _ in range(rng.randrange(3))] for _ in range(rng.randrange(3))]
    rows.append(list(heads))
    rows += [[rng.choice(NASTY) for _ in range(rng.randrange(len(heads) + 2))] for _ in range(rng.randrange(25))]
    sheet = SheetCells("Parts", rows, merged=[(2, 1, 4, 1)] if seed % 3 == 0 else [])
    cuts, problems = read_cut_list(Book(Path("list.xlsx"), "0" * 64, "xlsx", [sheet]))
    assert len(cuts) or problems
    _accounts_for_every_row(cuts)


def _accounts_for_every_row(cuts: CutList) -> None:
    for counts in cuts.counts:
        assert sum(counts.by_kind.values()) == counts.rows
        assert set(counts.by_kind) <= {str(kind) for kind in RowKind}
