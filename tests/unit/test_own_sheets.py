"""Our own workbooks' sheets become house values that know their cells."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pydantic
import pytest

from estimator.problems.code import Level, Place
from estimator.read.cells import NOT_CALCULATED, Book, CellError, CellValue, SheetCells
from estimator.read.own_sheets import read_records, read_sheet
from estimator.sheets.statement import Column, Kind, Layout, Sheet

COLUMNS = (
    Column("day", "Date", Kind.DATE, "a day", "prices are dated", "2026-11-05", required=True, wordings=("day",)),
    Column("mark", "Mark", Kind.TEXT, "a mark", "names the piece", "A1"),
    Column("quantity", "Quantity", Kind.WHOLE, "a whole number above zero", "it multiplies", "4", low=1, default=1),
    Column("pressure_kpa", "Pressure", Kind.NUMBER, "a pressure", "it sets flow", "300", unit="kPa", low=0, high=1000),
    Column("thickness_mm", "Thickness", Kind.LENGTH, "a length, as 12 mm", "speed depends on it", "12 mm", unit="mm"),
    Column("cut_length_m", "Cut length", Kind.LENGTH_M, "a length in metres", "gas depends on it", "3.2", unit="m"),
    Column("price", "Price", Kind.MONEY, "an amount", "it is the price", "12.50", low=0),
    Column("loss", "Gas lost", Kind.SHARE, "a share, as 12 %", "it is added", "12 %"),
    Column("fuel", "Fuel", Kind.CHOICE, "a fuel", "flows depend on it", "propane", choices=("acetylene", "propane")),
    Column("lit", "Lit", Kind.FLAG, "yes or no", "it counts", "yes"),
)  # fmt: skip
TABLE = Sheet("Work log", "What was cut.", COLUMNS)
FORM = Sheet("Rates", "What an hour costs.", COLUMNS, Layout.FORM)
HEADINGS: list[CellValue] = [c.heading for c in COLUMNS]
DAY = dt.datetime(2026, 11, 5)
GOOD: list[CellValue] = [DAY, "A1", 4.0, 300.0, "12", "3 m", 12.5, "12 %", "Propane", "yes"]


def book(*rows: list[CellValue], name: str = "Work log", formats: dict[tuple[int, int], str] | None = None) -> Book:
    sheet = SheetCells(name, list(rows), number_formats=formats or {})
    return Book(Path("log.xlsx"), "0" * 64, "xlsx", [sheet])


def row_with(**changes: CellValue) -> list[CellValue]:
    names = [c.name for c in COLUMNS]
    return [changes.get(name, value) for name, value in zip(names, GOOD, strict=True)]


def read_one(formats: dict[tuple[int, int], str] | None = None, **changes: CellValue):
    read = read_sheet(book(HEADINGS, row_with(**changes), formats=formats), TABLE)
    assert len(read.rows) == 1
    return read.rows[0], read.problems


def test_a_row_becomes_house_values_of_every_kind():
    row, problems = read_one()
    assert problems == []
    assert row.values == {
        "day": dt.date(2026, 11, 5),
        "mark": "A1",
        "quantity": 4,
        "pressure_kpa": 300.0,
        "thickness_mm": 12.0,
        "cut_length_m": 3.0,
        "price": 12.5,
        "loss": 0.12,
        "fuel": "propane",
        "lit": True,
    }


def test_each_value_knows_its_cell():
    row, _ = read_one()
    assert row.at == Place("log.xlsx", "Work log", 2)
    assert row.place("thickness_mm") == Place("log.xlsx", "Work log", 2, "E")


def test_headings_stand_below_a_title_in_any_order_case_and_wording():
    rows: list[list[CellValue]] = [["Work of November"], [], ["FUEL", None, " day "], ["acetylene", None, DAY]]
    read = read_sheet(book(*rows), TABLE)
    assert read.problems == []
    assert read.rows[0].values["fuel"] == "acetylene"
    assert read.rows[0].values["day"] == dt.date(2026, 11, 5)
    assert read.rows[0].place("day").cell == "C4"


def test_blank_rows_are_passed_over_and_later_rows_keep_their_numbers():
    read = read_sheet(book(HEADINGS, GOOD, [None, "  "], [], GOOD), TABLE)
    assert [row.at.row for row in read.rows] == [2, 5]


def test_a_blank_takes_the_default_and_says_so():
    row, problems = read_one(quantity=None)
    assert problems == []
    assert row.values["quantity"] == 1
    assert "quantity" in row.defaulted


@pytest.mark.parametrize(
    ("heading", "typed", "mm"),
    [
        ("Thickness (in)", 0.5, 12.7),
        ("Thickness, in", "1/2", 12.7),
        ("Thickness [mm]", 0.5, 0.5),
        ("Thickness", "1-1/2 in", 38.1),
        ("Thickness", '1 1/2"', 38.1),
        ("thickness_mm", 12.0, 12.0),
    ],
)
def test_the_unit_of_a_length_comes_from_the_cell_else_the_heading(heading, typed, mm):
    read = read_sheet(book(["Date", heading], [DAY, typed]), TABLE)
    assert read.problems == []
    assert read.rows[0].values["thickness_mm"] == pytest.approx(mm, abs=1e-12)


def test_a_row_of_units_below_the_headings_is_not_a_record():
    read = read_sheet(book(["Date", "Thickness", "Pressure"], [None, "in", "kPa"], [DAY, 0.5, 300.0]), TABLE)
    assert read.problems == []
    assert [row.values["thickness_mm"] for row in read.rows] == [12.7]


def test_a_units_cell_above_the_headings_rules_bare_lengths():
    read = read_sheet(book(["Units", "inch"], ["Date", "Thickness"], [DAY, 0.5]), TABLE)
    assert read.rows[0].values["thickness_mm"] == 12.7


def test_the_callers_length_unit_rules_where_the_sheet_is_silent():
    read = read_sheet(book(["Date", "Thickness"], [DAY, 0.5]), TABLE, length_unit="in")
    assert read.rows[0].values["thickness_mm"] == 12.7


@pytest.mark.parametrize(
    ("typed", "number_format", "share"),
    [("12 %", "", 0.12), ("12,5%", "", 0.125), (0.12, "", 0.12), (1.5, "0%", 1.5), (1.0, "", 1.0), ("0.12", "", 0.12)],
)
def test_a_share_is_read_from_percent_signs_fractions_and_formats(typed, number_format, share):
    row, problems = read_one({(1, 7): number_format}, loss=typed)
    assert problems == []
    assert row.values["loss"] == pytest.approx(share, abs=1e-15)


@pytest.mark.parametrize(
    ("name", "typed", "code", "fact"),
    [
        ("day", None, "E160", "Date is blank"),
        ("price", CellError("#REF!"), "E161", "Price is an error value"),
        ("price", NOT_CALCULATED, "E162", "Price is a formula without a stored value"),
        ("price", "dear", "E163", "Price is not an amount of money"),
        ("price", True, "E163", "Price is not an amount of money"),
        ("price", DAY, "E163", "Price is not an amount of money"),
        ("quantity", 2.5, "E163", "Quantity is not a whole number"),
        ("mark", DAY, "E163", "Mark is not a text"),
        ("lit", "perhaps", "E163", "Lit is not yes or no"),
        ("day", 46331.0, "E163", "Date is not a date"),
        ("day", "32.11.2026", "E163", "Date is not a date"),
        ("thickness_mm", "see drawing", "E163", "Thickness is not a length: it holds no figure"),
        ("thickness_mm", "3/4", "E163", "Thickness is not a length: it is a fraction without a unit where mm is meant"),
        ("quantity", 0.0, "E164", "Quantity is below 1"),
        ("pressure_kpa", 1000.5, "E164", "Pressure is above 1000 kPa"),
        ("fuel", "propan", "E165", "Fuel is not one of the words it may be"),
        ("price", "1,234", "E166", "Price can be read as 1.234 or as 1234"),
        ("loss", 12.0, "E167", "Gas lost can be read as 12 % or as 1200 %"),
        ("day", "05/11/2026", "E168", "Date can be read as 2026-11-05 or as 2026-05-11"),
    ],
)  # fmt: skip
def test_what_is_not_plainly_of_the_kind_is_a_problem_at_its_cell(name, typed, code, fact):
    row, problems = read_one(**{name: typed})
    assert [(p.code, p.fact, p.level) for p in problems] == [(code, fact, Level.ERROR)]
    assert problems[0].place == row.place(name)
    assert row.refused
    assert row.values[name] is None


def test_the_files_own_decimal_mark_settles_an_ambiguous_number():
    read = read_sheet(book(["Date", "Price"], [DAY, "1,234"], [DAY, "17,5"]), TABLE)
    assert [row.values["price"] for row in read.rows] == [1.234, 17.5]


def test_a_misspelt_choice_is_answered_with_the_nearest():
    _, problems = read_one(fuel="propan")
    assert "did you mean 'propane'?" in problems[0].do


def test_a_misspelt_heading_is_answered_with_the_nearest_and_stops_the_rows():
    read = read_sheet(book(["Dte", "Fuel"], [DAY, "propane"]), TABLE)
    assert [(p.code, p.place.cell) for p in read.problems] == [("E153", "A1")]
    assert "did you mean 'Date'?" in read.problems[0].do
    assert all(row.refused for row in read.rows)


def test_a_note_column_of_the_shops_own_is_noted_and_left_alone():
    read = read_sheet(book(["Date", "Weather"], [DAY, "rain"]), TABLE)
    assert [(p.code, p.level) for p in read.problems] == [("N155", Level.NOTE)]
    assert not read.rows[0].refused


def test_missing_and_double_headings_are_problems():
    read = read_sheet(book(["Fuel", "fuel"], ["propane", "propane"]), TABLE)
    assert [(p.code, p.place.cell) for p in read.problems] == [("E154", "B1"), ("E152", "row 1")]


def test_a_sheet_without_headings_is_one_problem():
    read = read_sheet(book(["hello"], [1.0]), TABLE)
    assert [p.code for p in read.problems] == ["E151"]
    assert read.rows == []


def test_a_missing_sheet_is_a_problem_only_when_it_is_required():
    missing = read_sheet(book(HEADINGS, name="Worklog"), TABLE)
    assert [p.code for p in missing.problems] == ["E150"]
    assert missing.problems[0].do == "rename the sheet 'Worklog' to 'Work log'"
    optional = read_sheet(book(HEADINGS, name="Other"), Sheet("Work log", "", COLUMNS, required=False))
    assert (optional.found, optional.problems, optional.rows) == (False, [], [])


def test_the_only_sheet_of_a_csv_needs_no_name():
    sheet = SheetCells("november", [["Date", "Fuel"], ["2026-11-05", "propane"]])
    file = Book(Path("november.csv"), "", "csv", [sheet])
    assert read_sheet(file, TABLE).rows[0].values["day"] == dt.date(2026, 11, 5)


def test_a_form_gives_one_row_from_names_values_and_units():
    rows: list[list[CellValue]] = [
        ["What an hour costs"],
        ["Date", DAY],
        ["Pressure", 300.0, "kPa", "flow depends on it"],
        ["Thickness", 0.5, "in"],
        ["Price", 12.5, "EUR per hour"],
    ]
    read = read_sheet(book(*rows, name="Rates"), FORM)
    assert read.problems == []
    (row,) = read.rows
    assert (row.values["pressure_kpa"], row.values["thickness_mm"], row.values["quantity"]) == (300.0, 12.7, 1)
    assert row.place("thickness_mm").cell == "B4"


def test_a_form_with_another_unit_a_double_name_and_a_stranger_says_all_three():
    rows: list[list[CellValue]] = [["Date", DAY], ["Pressure", 3.0, "bar"], ["Date", DAY], ["Colour", "red"]]
    read = read_sheet(book(*rows, name="Rates"), FORM)
    assert sorted((p.code, p.place.cell) for p in read.problems) == [("E154", "A3"), ("E170", "C2"), ("N155", "A4")]


class Log(pydantic.BaseModel):
    """What the tests check a row into."""

    row: int
    place: Place
    places: dict[str, Place]
    day: dt.date
    quantity: int = 1
    price: float | None = None

    @pydantic.field_validator("price")
    @classmethod
    def _not_thirteen(cls, price: float | None) -> float | None:
        if price == 13:
            raise ValueError("Thirteen is never a price")
        return price

    @pydantic.model_validator(mode="after")
    def _not_many_and_dear(self) -> Log:
        if self.quantity > 9 and (self.price or 0) > 100:
            raise ValueError("many and dear")
        return self


def test_records_carry_their_row_and_cells():
    records, problems = read_records(book(HEADINGS, GOOD), TABLE, Log)
    assert problems == []
    assert (records[0].row, records[0].place.cell, records[0].places["price"].cell) == (2, "row 2", "G2")


def test_what_a_record_refuses_is_a_problem_at_its_cell_or_row():
    rows = [row_with(price=13.0), row_with(price=101.0, quantity=10.0), row_with(price="x"), GOOD]
    records, problems = read_records(book(HEADINGS, *rows), TABLE, Log)
    assert [record.row for record in records] == [5]
    assert [(p.code, p.place.cell) for p in problems] == [("E163", "G4"), ("E169", "G2"), ("E169", "row 3")]
    assert problems[1].fact == "Price does not fit: thirteen is never a price"
    assert problems[2].fact == "the row does not fit: many and dear"


def test_a_csv_with_commas_between_its_columns_has_the_point_for_its_decimals():
    sheet = SheetCells("november", [["Date", "Price"], ["2026-11-05", "1,234"]])
    file = Book(Path("november.csv"), "", "csv", [sheet], decimal=".")
    assert read_sheet(file, TABLE).rows[0].values["price"] == 1234.0


@pytest.mark.parametrize("typed", ["1,234.5", "1 234.5", " +1234.5 ", "1234.50"])
def test_numbers_typed_as_text_are_read(typed):
    row, problems = read_one(price=typed)
    assert problems == []
    assert row.values["price"] == 1234.5


def test_a_negative_number_typed_as_text_keeps_its_sign_and_meets_its_bound():
    _, problems = read_one(price="-3")
    assert [p.fact for p in problems] == ["Price is below 0"]


@pytest.mark.parametrize(
    ("typed", "lit"),
    [("YES", True), ("n", False), (True, True), (False, False), (1.0, True), (0.0, False), ("x", True)],
)
def test_yes_and_no_are_read_in_the_usual_ways(typed, lit):
    row, problems = read_one(lit=typed)
    assert problems == []
    assert row.values["lit"] is lit


def test_a_gas_amount_is_held_to_the_gas_grammar():
    column = Column("content", "Content", Kind.GAS, "an amount with its unit", "it is used", "10 m³", unit="m³")
    sheet = Sheet("Work log", "", (column,))
    read = read_sheet(book(["Content"], ["10 m³ (15 °C, 1 bar)"], ["full"], [10.0]), sheet)
    assert read.rows[0].values["content"] == "10 m³ (15 °C, 1 bar)"
    assert [(p.code, p.place.cell) for p in read.problems] == [("E163", "A3"), ("E171", "A4")]


@pytest.mark.parametrize("typed", [True, dt.time(6)])
def test_a_truth_or_a_time_is_not_a_length(typed):
    _, problems = read_one(thickness_mm=typed)
    assert [p.code for p in problems] == ["E163"]


def test_an_interpreted_length_is_asked_rather_than_taken():
    _, problems = read_one(thickness_mm="1.1/2 in")
    assert problems[0].fact.startswith("Thickness is not a length: ")


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("2026-11-05", (2026, 11, 5)), ("2026/11/05", (2026, 11, 5)), ("5.11.2026", (2026, 11, 5)),
        ("5 Nov 2026", (2026, 11, 5)), ("5-November-2026", (2026, 11, 5)), ("Sept. 5, 2026", (2026, 9, 5)),
        ("13/11/2026", (2026, 11, 13)), ("11/13/2026", (2026, 11, 13)), ("5/5/2026", (2026, 5, 5)),
        ("2026-11-05 00:00:00", (2026, 11, 5)), (dt.date(2026, 11, 5), (2026, 11, 5)),
    ],
)  # fmt: skip
def test_a_date_is_read_in_every_form_that_has_one_meaning(typed, day):
    row, problems = read_one(day=typed)
    assert problems == []
    assert row.values["day"] == dt.date(*day)


@pytest.mark.parametrize("typed", ["5 Foo 2026", "5.11.26", "30.2.2026", "2026-13-01", "13/13/2026", "Nov 2026", True])
def test_what_is_no_date_is_refused(typed):
    _, problems = read_one(day=typed)
    assert [p.code for p in problems] == ["E163"]
