"""What our own sheets are written with, their reader gives back; a blank reads as no records and no complaint."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from pathlib import Path

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.problems import Level
from estimator.read.cells import Book, SheetCells
from estimator.read.own_sheets import read_sheet
from estimator.sheets.statement import Column, Kind, Layout, Sheet
from estimator.write.book import OutputBook, write_book
from estimator.write.own_cells import OwnUnits
from estimator.write.own_sheets import write_own_sheet
from estimator.write.save import save
from estimator.write.styles import Look

COLUMNS = (
    Column("mark", "Mark", Kind.TEXT, "a name", "names the row", "P1", required=True),
    Column("pieces", "Pieces", Kind.WHOLE, "a whole number", "counts", "8", low=0, high=1000),
    Column("bore_mm", "Bore", Kind.LENGTH, "a length", "sets the flow", "1.2 mm", unit="mm"),
    Column("reach_m", "Reach", Kind.LENGTH_M, "a length", "sets the hose", "15 m", unit="m"),
    Column("flow", "Flow", Kind.NUMBER, "a number", "is the flow", "3.4", unit="m³/h"),
    Column("price", "Price", Kind.MONEY, "an amount", "is charged", "12.50", unit="each"),
    Column("lost", "Lost", Kind.SHARE, "a share", "is lost", "15 %", low=0, high=1),
    Column("start", "From", Kind.DATE, "a day", "holds from it", "2025-03-04"),
    Column("fuel", "Fuel", Kind.CHOICE, "a fuel", "is burnt", "propane", choices=("acetylene", "propane")),
    Column("ours", "Ours", Kind.FLAG, "yes or no", "who owns it", "yes"),
    Column("content", "Content", Kind.GAS, "an amount with its unit", "is in it", "10 m³"),
    Column("idle_min", "Idle", Kind.NUMBER, "minutes", "is lost", "3", unit="min", default=3.0, status="judgement"),
)
TABLE = Sheet("Tips", "One row for each tip.", COLUMNS)
FORM = Sheet("Rates", "The shop's rates.", COLUMNS, layout=Layout.FORM)
RECORD = {
    "mark": "=P1",
    "pieces": 8,
    "bore_mm": 19.05,
    "reach_m": 12.5,
    "flow": 3.375,
    "price": 12.5,
    "lost": 0.155,
    "start": dt.date(2025, 3, 4),
    "fuel": "propane",
    "ours": False,
    "content": "10.6 m³ (15 °C, 1 bar)",
    "idle_min": 4.0,
}


def load(path: Path) -> Book:
    """Read a workbook as the project's loader hands it on, by a second library."""
    sheets = []
    for sheet in openpyxl.load_workbook(path, data_only=True):
        rows = [
            [float(v) if isinstance(v, int) and not isinstance(v, bool) else v for v in row]
            for row in sheet.iter_rows(values_only=True)
        ]
        formats = {
            (cell.row - 1, cell.column - 1): cell.number_format
            for row in sheet.iter_rows()
            for cell in row
            if cell.number_format != "General"
        }
        sheets.append(SheetCells(sheet.title, rows, number_formats=formats))
    return Book(path, "", "xlsx", sheets)


def written(folder: Path, sheet: Sheet, records: Sequence[Mapping[str, object]], units: OwnUnits | None = None) -> Book:
    def build(book: OutputBook) -> None:
        write_own_sheet(book, sheet, records, units=units)

    path = folder / "own.xlsx"
    save(path, write_book(build, title="Own"), force=True)
    return load(path)


def assert_same(values: Mapping[str, object], record: Mapping[str, object]) -> None:
    """Numbers may differ in the ninth digit, where an inch was written; everything else is equal."""
    for name, value in record.items():
        near = isinstance(value, float)
        assert values[name] == (pytest.approx(value, rel=1e-9, abs=1e-7) if near else value), name


@pytest.mark.parametrize("sheet", [TABLE, FORM], ids=["table", "form"])
@pytest.mark.parametrize("length", ["mm", "in"])
def test_a_filled_sheet_is_read_back_as_it_was(tmp_path: Path, sheet: Sheet, length: str) -> None:
    read = read_sheet(written(tmp_path, sheet, [RECORD], OwnUnits(length, "EUR")), sheet)
    assert [p.text() for p in read.problems] == []
    assert len(read.rows) == 1
    assert_same(read.rows[0].values, RECORD)


def test_a_blank_table_reads_as_no_rows_and_its_examples_as_nothing(tmp_path: Path) -> None:
    read = read_sheet(written(tmp_path, TABLE, []), TABLE)
    assert (read.rows, read.problems) == ([], [])


def test_a_blank_form_asks_for_what_is_needed_and_gives_the_rest_its_defaults(tmp_path: Path) -> None:
    read = read_sheet(written(tmp_path, FORM, []), FORM)
    assert [p.place.cell for p in read.problems if p.level is Level.ERROR] == ["B3"]
    assert read.rows[0].values["idle_min"] == 3.0
    assert read.rows[0].values["price"] is None


def test_a_table_without_units_has_no_row_for_them(tmp_path: Path) -> None:
    plain = Sheet("Plain", "No units here.", (COLUMNS[0], COLUMNS[1]))
    book = written(tmp_path, plain, [{"mark": "A", "pieces": 2}, {"mark": "B"}])
    assert [row[:2] for row in book.sheets[0].rows[2:5]] == [["Mark", "Pieces"], ["A", 2.0], ["B", None]]
    assert [row.values for row in read_sheet(book, plain).rows] == [
        {"mark": "A", "pieces": 2},
        {"mark": "B", "pieces": None},
    ]


def test_typed_cells_offer_their_words_and_say_what_they_do(tmp_path: Path) -> None:
    written(tmp_path, TABLE, [RECORD])
    sheet = openpyxl.load_workbook(tmp_path / "own.xlsx")["Tips"]
    offered = {str(v.sqref).split(":")[0]: v for v in sheet.data_validations.dataValidation}
    assert offered["I5"].formula1 == '"acetylene,propane"'
    assert offered["J5"].formula1 == '"yes,no"'
    assert offered["C5"].prompt == "A length. Sets the flow."
    assert offered["B5"].errorStyle == "warning"
    assert sheet["C5"].style == "Typed"
    assert sheet["A2"].value == "Needed. For example P1."
    assert sheet["L2"].value == "For example 3. Blank means 3 min."


def test_looks_of_cells_follow_where_they_come_from(tmp_path: Path) -> None:
    def build(book: OutputBook) -> None:
        write_own_sheet(book, TABLE, [RECORD], look_of=lambda _, name: Look.ASSUMED if name == "flow" else Look.TYPED)

    save(tmp_path / "own.xlsx", write_book(build, title="Own"))
    sheet = openpyxl.load_workbook(tmp_path / "own.xlsx")["Tips"]
    assert (sheet["E5"].style, sheet["F5"].style) == ("Assumed", "Typed")


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.fixed_dictionaries(
            {
                "mark": st.text("abcäπ ,;'\"<&=+-@", min_size=1).filter(lambda t: " ".join(t.split()) == t),
                "pieces": st.none() | st.integers(0, 1000),
                "bore_mm": st.none() | st.floats(0.01, 1e5),
                "flow": st.none() | st.floats(-1e9, 1e9),
                "lost": st.none() | st.floats(0, 1),
                "start": st.none() | st.dates(dt.date(1990, 1, 1), dt.date(2100, 1, 1)),
                "ours": st.none() | st.booleans(),
            }
        ),
        min_size=1,
        max_size=5,
    ),
    st.sampled_from(["mm", "in"]),
)
def test_any_records_survive_writing_and_reading(
    tmp_path_factory: pytest.TempPathFactory, records: list[dict[str, object]], length: str
) -> None:
    folder = tmp_path_factory.mktemp("trip")
    read = read_sheet(written(folder, TABLE, records, OwnUnits(length)), TABLE)
    assert [p.text() for p in read.problems] == []
    for row, record in zip(read.rows, records, strict=True):
        assert_same(row.values, record)
