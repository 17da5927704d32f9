"""Two independent readers agree with ours on every value cell of any workbook, however it was written.

openpyxl gives values, error cells and number formats; python-calamine gives values. What differs is named.
"""

from __future__ import annotations

import datetime as dt
import string
import tempfile
from pathlib import Path

import openpyxl
import pytest
import xlsxwriter
from hypothesis import given, settings
from hypothesis import strategies as st
from python_calamine import CalamineWorkbook

from estimator.read import xlsx_sheet
from estimator.read.cells import NOT_CALCULATED, CellError, SheetCells
from estimator.read.load import load_book

LETTERS = string.ascii_letters + string.digits + " .,-/'\"&<>½Øмм厚_\n\t=x"
TEXTS = st.text(LETTERS, max_size=12)
NUMBERS = st.one_of(
    st.integers(-(10**12), 10**12).map(float),
    st.floats(allow_nan=False, allow_infinity=False, min_value=-1e300, max_value=1e300),
)
DATES = st.datetimes(dt.datetime(1900, 3, 1), dt.datetime(2200, 1, 1)).map(lambda d: d.replace(microsecond=0))
ERRORS = st.sampled_from(["#REF!", "#N/A", "#DIV/0!", "#VALUE!", "#NAME?", "#NUM!", "#NULL!"]).map(CellError)
VALUES = st.one_of(st.none(), TEXTS, NUMBERS, st.booleans(), DATES, ERRORS)
ROWS = st.lists(st.lists(VALUES, max_size=7), min_size=1, max_size=8)
FORMATS = ("General", "0.00", "# ??/??", "d-mmm", "yyyy-mm-dd hh:mm:ss", '0.0 "mm"', "0%")


def write(path: Path, rows: list[list[object]], number_format: str, *, epoch_1904: bool, in_order: bool) -> None:
    """Write rows with XlsxWriter; numbers in one format, errors as results of formulas."""
    options = {"date_1904": epoch_1904, "constant_memory": in_order, "strings_to_numbers": False}
    with xlsxwriter.Workbook(path, options) as book:
        sheet = book.add_worksheet("Parts")
        day = book.add_format({"num_format": "yyyy-mm-dd hh:mm:ss"})
        style = book.add_format({"num_format": number_format}) if number_format != "General" else None
        sheet.write_string(0, 8, "corner")
        for r, row in enumerate(rows, start=1):
            for c, value in enumerate(row):
                if isinstance(value, CellError):
                    sheet.write_formula(r, c, "=A1", None, str(value))
                elif isinstance(value, bool):
                    sheet.write_boolean(r, c, value)
                elif isinstance(value, str):
                    sheet.write_string(r, c, value)
                elif isinstance(value, dt.datetime):
                    sheet.write_datetime(r, c, value, day)
                elif value is not None:
                    sheet.write_number(r, c, value, style)


def same_value(ours: object, theirs: object) -> bool:
    """Return whether two readers' values are one: numbers as numbers, dates within a millisecond, blanks as blanks."""
    if isinstance(ours, dt.datetime) and isinstance(theirs, dt.date):
        moment = theirs if isinstance(theirs, dt.datetime) else dt.datetime.combine(theirs, dt.time())
        return abs(ours - moment) <= dt.timedelta(milliseconds=1)
    if isinstance(ours, bool) or isinstance(theirs, bool):
        return ours is theirs
    if isinstance(ours, float):
        return isinstance(theirs, int | float) and float(theirs) == ours
    return (ours or None) == (theirs or None)


def agree_with_openpyxl(path: Path, ours: SheetCells) -> int:
    """Compare every cell of the sheet's rectangle, value and number format; return how many held a value."""
    theirs = openpyxl.load_workbook(path, data_only=True)["Parts"]
    count = 0
    for row in range(theirs.max_row):
        for column in range(theirs.max_column):
            cell = theirs.cell(row + 1, column + 1)
            mine = ours.value(row, column)
            if isinstance(mine, dt.time) or (isinstance(mine, CellError) and mine == "#####"):
                continue  # a number in a date format that is no date: openpyxl gives warnings or texts of its own
            text = "\n".join(mine.splitlines()) if isinstance(mine, str) else mine
            their_text = "\n".join(cell.value.splitlines()) if isinstance(cell.value, str) else cell.value
            assert same_value(text, their_text), (cell.coordinate, mine, cell.value)
            if isinstance(mine, CellError):
                assert cell.data_type == "e"
            if mine is not None:
                assert ours.number_formats.get((row, column), "General") == cell.number_format, cell.coordinate
                count += 1
    return count


def agree_with_calamine(path: Path, ours: SheetCells) -> None:
    """Compare every value; calamine gives a blank for an error value."""
    for row, values in enumerate(
        CalamineWorkbook.from_path(path).get_sheet_by_index(0).to_python(skip_empty_area=False)
    ):
        for column, value in enumerate(values):
            mine = ours.value(row, column)
            if isinstance(mine, CellError | dt.time):
                continue
            assert same_value(mine, value), (row, column, mine, value)


@settings(max_examples=60, deadline=None)
@given(
    rows=ROWS,
    number_format=st.sampled_from(FORMATS[:3] + FORMATS[5:]),
    epoch_1904=st.booleans(),
    in_order=st.booleans(),
)
def test_openpyxl_and_calamine_see_the_same_cells(rows, number_format, epoch_1904, in_order):
    if epoch_1904:
        rows = [[v for v in row if not (isinstance(v, dt.datetime) and v.year < 1905)] for row in rows]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "list.xlsx"
        write(path, rows, number_format, epoch_1904=epoch_1904, in_order=in_order)
        (ours,) = load_book(path).sheets
        held = agree_with_openpyxl(path, ours)
        agree_with_calamine(path, ours)
    assert held >= 1 + sum(
        1 for row in rows for value in row if value not in (None, "") and not isinstance(value, dt.datetime)
    )


@settings(max_examples=60, deadline=None)
@given(rows=ROWS)
def test_both_ways_through_the_xml_see_the_same_cells(rows):
    with tempfile.TemporaryDirectory() as folder, pytest.MonkeyPatch.context() as patch:
        path = Path(folder) / "list.xlsx"
        write(path, rows, "# ??/??", epoch_1904=False, in_order=False)
        (plain,) = load_book(path).sheets
        patch.setattr(xlsx_sheet, "read_sheet_plain", _never_plain)
        (by_element,) = load_book(path).sheets
    assert repr(plain.rows) == repr(by_element.rows)
    assert dict(plain.number_formats) == dict(by_element.number_formats)


LIST_ROW = st.tuples(
    st.sampled_from([None, "P1", "P2", "a & b", "under_score"]),
    st.sampled_from([None, 1.0, 12.5, -0.25, 1e250]),
    st.sampled_from([None, dt.datetime(2026, 3, 4), dt.datetime(2026, 3, 4, 6, 30)]),
    st.sampled_from([None, True, CellError("#N/A"), 7.0]),
)


@settings(max_examples=60, deadline=None)
@given(rows=st.lists(LIST_ROW, min_size=3, max_size=40), in_order=st.booleans())
def test_rows_that_are_alike_are_read_the_same_at_once_and_cell_by_cell(rows, in_order):
    with tempfile.TemporaryDirectory() as folder, pytest.MonkeyPatch.context() as patch:
        path = Path(folder) / "list.xlsx"
        write(path, [list(row) for row in rows], "0.00", epoch_1904=False, in_order=in_order)
        (at_once,) = load_book(path).sheets
        patch.setattr(xlsx_sheet, "read_sheet_plain", _never_plain)
        (by_element,) = load_book(path).sheets
    assert repr(at_once.rows) == repr(by_element.rows)
    assert dict(at_once.number_formats) == dict(by_element.number_formats)


def _never_plain(*_: object) -> None:
    raise xlsx_sheet.NotPlainError


def test_what_openpyxl_writes_reads_back_with_formulas_not_calculated():
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "list.xlsx"
        book = openpyxl.Workbook()
        book.active.title = "Parts"
        book.active.append(["Mark", 1.5, dt.datetime(2026, 3, 4), "=B1*2", True, "#N/A"])
        book.save(path)
        (ours,) = load_book(path).sheets
        assert ours.rows == [["Mark", 1.5, dt.datetime(2026, 3, 4), NOT_CALCULATED, True, "#N/A"]]
        assert isinstance(ours.value(0, 5), CellError)
