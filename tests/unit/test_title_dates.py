"""The list's own date among the cells above its table; readings of dates are common practice, no source."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from estimator.read.cells import Book, SheetCells
from estimator.read.cut_list import ListDefaults, read_cut_list

MM = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
INCHES = ["Mark", "Qty", "Thk (in)", "L (in)", "W (in)"]
GERMAN = ["Pos", "Anzahl", "Dicke (mm)", "Länge (mm)", "Breite (mm)"]
SPANISH = ["Pieza", "Cantidad", "Espesor (mm)", "Largo (mm)", "Ancho (mm)"]
ROW = ["A", 2, 12, 300, 200]


def date_of(*titles: list[object], head: list[str] = MM, money: str = "") -> tuple[str, list[str]]:
    """Return the list's date, and the codes of what is said of it."""
    row = ["A", 2, 0.5, 12, 8] if head is INCHES else ROW
    held = [[float(v) if isinstance(v, int) else v for v in cells] for cells in (*titles, head, row)]
    book = Book(Path("list.xlsx"), "0" * 64, "xlsx", [SheetCells("Parts", held)])  # type: ignore[arg-type]
    cuts, problems = read_cut_list(book, shop_defaults=ListDefaults(currency=money))
    return cuts.title.job_date, [p.code for p in problems]


@pytest.mark.parametrize(
    "title",
    [
        ["Hopper plates", None, None, None, None, None, None, "11/19/26"],
        ["Invented Farm Ltd", "19 Nov 2026"],
        ["19.11.2026"],
        ["19.11.26"],
        ["Cut list", None, dt.datetime(2026, 11, 19)],
        ["Thu 19th Nov 2026"],
        ["November 19, 2026"],
        ["19. November 2026"],
        ["19 de noviembre de 2026"],
        ["19 listopada 2026"],
        ["Barn cut list 11/19/26"],
    ],
)
def test_one_date_above_the_table_is_the_lists_and_is_said(title: list[object]) -> None:
    assert date_of(title) == ("2026-11-19", ["N133"])


@pytest.mark.parametrize(
    "titles",
    [
        [["Date:", "11/19/26"]],
        [["Date: 19.11.2026"]],
        [["Date 19.11.2026"]],
        [["Fecha", "19/11/2026"]],
        [["Date", "Customer"], ["19.11.2026", "Invented Silos"]],
        [["Date:", "19.11.2026"], ["Required by", "30.11.2026"]],
        [["Date:", "19.11.2026"], ["30.11.2026"]],
    ],
)
def test_a_date_beside_or_below_its_label_is_taken_without_a_word(titles: list[list[object]]) -> None:
    assert date_of(*titles) == ("2026-11-19", [])


def test_a_date_beside_the_headings_is_taken() -> None:
    assert date_of(head=[*MM, "", "11/19/26"])[0] == "2026-11-19"


@pytest.mark.parametrize(
    ("titles", "head", "date"),
    [
        ([["Datum:", "11/5/26"]], GERMAN, "2026-05-11"),
        ([["Fecha", "5/11/2026"]], SPANISH, "2026-11-05"),
        ([["Date:", "11/5/26"], ["Needed", "11/19/26"]], MM, "2026-11-05"),
        ([["Date:", "11/5/26"], ["Needed", "19/11/26"]], MM, "2026-05-11"),
        ([["5/11/2026"]], GERMAN, "2026-11-05"),
    ],
)
def test_the_list_tells_day_and_month_apart_and_it_is_said(
    titles: list[list[object]], head: list[str], date: str
) -> None:
    assert date_of(*titles, head=head) == (date, ["N133"])


@pytest.mark.parametrize(
    ("head", "money", "date", "code"),
    [
        (INCHES, "USD", "2026-11-05", "N133"),
        (MM, "USD", "2026-11-05", "N133"),
        (INCHES, "GBP", "2026-05-11", "N133"),
        (MM, "EUR", "2026-05-11", "N133"),
        (GERMAN, "USD", "2026-05-11", "N133"),
        (INCHES, "CAD", "", "W117"),
        (INCHES, "", "", "W117"),
    ],
)
def test_the_shops_money_tells_day_and_month_apart_where_the_list_does_not(
    head: list[str], money: str, date: str, code: str
) -> None:
    assert date_of(["Date:", "11/5/26"], head=head, money=money) == (date, [code])


@pytest.mark.parametrize(
    ("titles", "code"),
    [
        ([["Date:", "11/5/26"]], "W117"),
        ([["5/11/2026"]], "W117"),
        ([["Date:", "next week"]], "W117"),
        ([["Cut list", "19.11.2026"], ["30.11.2026"]], "W132"),
        ([["Date:", "19.11.2026"], ["Date:", "20.11.2026"]], "W132"),
    ],
)
def test_what_could_be_two_days_is_asked(titles: list[list[object]], code: str) -> None:
    assert date_of(*titles) == ("", [code])


@pytest.mark.parametrize(
    "title",
    [
        ["Required by", "30.11.2026"],
        ["Delivery: 30.11.2026"],
        ["Liefertermin", "30.11.2026"],
        ["Rev B 12.11.2026"],
        ["Drawn by", "12.11.2026"],
        ["Frame 12-10-8"],
        ["Section 1.2.345"],
        [12.5],
    ],
)
def test_another_date_or_none_is_not_the_lists(title: list[object]) -> None:
    assert date_of(title)[0] == ""


def test_the_same_day_twice_is_one_date() -> None:
    assert date_of(["19.11.2026", None, "19 Nov 2026"]) == ("2026-11-19", ["N133"])
