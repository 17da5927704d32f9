"""The exact text of every problem of our own workbooks' sheets, as it stands in ``own_sheets.txt``.

The texts stand there as the terminal prints them: read them aloud when one changes.
"""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path

import pydantic
import pytest

from estimator.problems import all_codes, sort_problems
from estimator.read.cells import NOT_CALCULATED, Book, CellError, CellValue, SheetCells
from estimator.read.own_sheets import read_records
from estimator.sheets.statement import Column, Kind, Layout, Sheet

TEXTS = Path(__file__).with_name("own_sheets.txt")
COLUMNS = (
    Column("day", "Date", Kind.DATE, "a day, as 2026-11-05", "prices are dated", "2026-11-05", required=True),
    Column("pieces", "Pieces", Kind.WHOLE, "a whole number above zero", "they are counted", "4", low=1),
    Column("pressure_bar", "Pressure", Kind.NUMBER, "a pressure", "it sets the flow", "3", unit="bar", low=0, high=30),
    Column("bore_mm", "Bore", Kind.LENGTH, "a length, as 1.2 mm", "it sets the flow", "1.2 mm", unit="mm"),
    Column("price", "Price", Kind.MONEY, "an amount of money", "it is charged", "12.50"),
    Column("lost", "Gas lost", Kind.SHARE, "a share, as 12 %", "it is added", "12 %", low=0, high=10),
    Column("fuel", "Fuel", Kind.CHOICE, "the fuel", "flows depend on it", "propane", choices=("acetylene", "propane")),
    Column("lit", "Lit", Kind.FLAG, "yes or no", "it counts", "yes"),
    Column("content", "Content", Kind.GAS, "an amount with its unit", "it is used", "10 m³ (15 °C, 1 bar)"),
    Column("each", "Full one", Kind.GAS_PRICE, "its price, or by amount", "gas is charged", "45.00"),
)
TABLE = Sheet("Work log", "It holds what was cut.", COLUMNS)
FORM = Sheet("Rates", "It holds the shop's rates.", COLUMNS, Layout.FORM)
HEADINGS: list[CellValue] = [column.heading for column in COLUMNS]
DAY = dt.datetime(2026, 11, 5)


class Row(pydantic.BaseModel):
    """Refuses a price of thirteen."""

    price: float | None = None

    @pydantic.field_validator("price")
    @classmethod
    def _price(cls, price: float | None) -> float | None:
        if price == 13:
            raise ValueError("thirteen is never a price")
        return price


def row(**typed: CellValue) -> list[CellValue]:
    """Return a row with some cells typed; the day always is, unless said otherwise."""
    return [({"day": DAY} | typed).get(column.name) for column in COLUMNS]


CASES: dict[str, tuple[str, list[list[CellValue]], Sheet]] = {
    "sheet missing": ("Worklog", [HEADINGS], TABLE),
    "sheet missing and none like it": ("Summary", [HEADINGS], TABLE),
    "no headings": ("Work log", [["hello", "there"], [1.0]], TABLE),
    "heading missing": ("Work log", [["Fuel"], ["propane"]], TABLE),
    "heading misspelt": ("Work log", [["Dte", "Fuel"], [DAY, "propane"]], TABLE),
    "heading twice": ("Work log", [["Date", "Fuel", "fuel"], [DAY, "propane"]], TABLE),
    "heading of the shop's own": ("Work log", [["Date", "Weather"], [DAY, "rain"]], TABLE),
    "name missing in a form": ("Rates", [["Price", 1.0]], FORM),
    "name misspelt in a form": ("Rates", [["Date", DAY], ["Presure", 3.0]], FORM),
    "name twice in a form": ("Rates", [["Date", DAY], ["Price", 1.0], ["Price", 2.0]], FORM),
    "another unit in a form": ("Rates", [["Date", DAY], ["Pressure", 3.0, "kg"]], FORM),
    "a unit where there is none": ("Rates", [["Date", DAY], ["Pieces", 3.0, "kg"]], FORM),
    "blank": ("Work log", [HEADINGS, row(day=None, price=1.0)], TABLE),
    "error value": ("Work log", [HEADINGS, row(price=CellError("#REF!"))], TABLE),
    "not calculated": ("Work log", [HEADINGS, row(price=NOT_CALCULATED)], TABLE),
    "not a number": ("Work log", [HEADINGS, row(pressure_bar="high")], TABLE),
    "not a whole number": ("Work log", [HEADINGS, row(pieces=2.5)], TABLE),
    "not a length": ("Work log", [HEADINGS, row(bore_mm="1.2-1.6")], TABLE),
    "fraction without its unit": ("Work log", [HEADINGS, row(bore_mm="1/16")], TABLE),
    "not an amount": ("Work log", [HEADINGS, row(price="12.50 each")], TABLE),
    "not a date": ("Work log", [HEADINGS, row(day="soon")], TABLE),
    "a number where a date should be": ("Work log", [HEADINGS, row(day=46331.0)], TABLE),
    "not yes or no": ("Work log", [HEADINGS, row(lit="perhaps")], TABLE),
    "not a gas amount": ("Work log", [HEADINGS, row(content="full")], TABLE),
    "a gas amount without its unit": ("Work log", [HEADINGS, row(content=33.0)], TABLE),
    "a gas amount without its unit in a form": ("Rates", [["Date", DAY], ["Content", 33.0]], FORM),
    "no unit that gas is sold in": ("Rates", [["Date", DAY], ["Content", 33.0, "gal"]], FORM),
    "two units of a gas amount": ("Rates", [["Date", DAY], ["Content", "33 kg", "ft3"]], FORM),
    "a price of gas for another unit": ("Rates", [["Date", DAY], ["Full one", 3.1, "per gal"]], FORM),
    "below its bounds": ("Work log", [HEADINGS, row(pieces=0.0)], TABLE),
    "above its bounds": ("Work log", [HEADINGS, row(pressure_bar=3000.0)], TABLE),
    "likely in the inch unit": ("Work log", [HEADINGS, row(pressure_bar=300.0)], TABLE),
    "a whole number of percent": ("Work log", [HEADINGS, row(lost=30.0)], TABLE),
    "not one of the words": ("Work log", [HEADINGS, row(fuel="propan")], TABLE),
    "not like any of the words": ("Work log", [HEADINGS, row(fuel="wood")], TABLE),
    "another word for a fuel": ("Work log", [HEADINGS, row(fuel="LPG")], TABLE),
    "two readings of a number": ("Work log", [HEADINGS, row(price="1,234")], TABLE),
    "two readings of a share": ("Work log", [HEADINGS, row(lost=12.0)], TABLE),
    "two readings of a date": ("Work log", [HEADINGS, row(day="05/11/2026")], TABLE),
    "refused by the record": ("Work log", [HEADINGS, row(price=13.0)], TABLE),
}


def said(name: str) -> str:
    """Return the problems of a case as text."""
    tab, rows, sheet = CASES[name]
    percent_cells = {(1, 5): "0.0##%"} if "percent" in name else {}
    book = Book(Path("book.xlsx"), "0" * 64, "xlsx", [SheetCells(tab, rows, number_formats=percent_cells)])
    _, problems = read_records(book, sheet, Row)
    return "\n".join(problem.text() for problem in sort_problems(problems))


def expected() -> dict[str, str]:
    parts = re.split(r"^== (.+) ==\n", TEXTS.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]
    return {name: text.strip() for name, text in zip(parts[::2], parts[1::2], strict=True)}


@pytest.mark.parametrize("name", CASES)
def test_the_problem_has_this_text(name):
    assert said(name) == expected()[name]


def test_every_text_belongs_to_a_case():
    assert list(expected()) == list(CASES)


def test_every_code_of_our_own_sheets_has_a_text():
    stated = {code for code in all_codes() if re.fullmatch(r"[EWN]1[567]\d", code)}
    shown = set(re.findall(r"^(?:error|warning|note) ([EWN]\d{3})", TEXTS.read_text(encoding="utf-8"), re.MULTILINE))
    assert stated == shown
