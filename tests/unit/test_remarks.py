"""What a file hides is said: hidden sheets, rows and columns, filters, values from other files, macros."""

from __future__ import annotations

from pathlib import Path

from estimator.problems import Level
from estimator.read.cells import Book, SheetCells
from estimator.read.remarks import book_remarks


def book(*sheets: SheetCells, macros: bool = False) -> Book:
    return Book(Path("list.xlsm"), "0" * 64, "xlsm", list(sheets), macros=macros)


def test_a_plain_book_gives_no_remarks():
    assert book_remarks(book(SheetCells("A", [["x"]]))) == []


def test_everything_hidden_is_said_once_with_its_extent():
    rows = [["a", "b", "c"] for _ in range(9)]
    sheet = SheetCells(
        "A", rows, "hidden", hidden_rows=frozenset({1, 3, 4, 5, 40}), hidden_columns=frozenset({1, 2, 9})
    )
    said = [(p.code, p.fact, p.found) for p in book_remarks(book(sheet))]
    assert said == [
        ("N030", "this sheet is hidden", ""),
        ("N031", "hidden rows are read like others: 4", "'2, 4-6'"),
        ("N033", "hidden columns are read like others: 2", "'B-C'"),
    ]


def test_rows_that_a_filter_hides_are_a_warning():
    sheet = SheetCells("A", [["a"], ["b"]], hidden_rows=frozenset({1}), filtered=True)
    (remark,) = book_remarks(book(sheet))
    assert (remark.code, remark.level) == ("W032", Level.WARNING)


def test_many_stretches_are_cut_short():
    sheet = SheetCells("A", [["a"] for _ in range(40)], hidden_rows=frozenset(range(0, 40, 2)))
    (remark,) = book_remarks(book(sheet))
    assert remark.found == "'1, 3, 5, 7, 9, 11, 13, 15, 17, 19 and more'"


def test_hidden_but_empty_rows_and_columns_are_not_worth_a_word():
    sheet = SheetCells("A", [["a"], [], ["b"]], hidden_rows=frozenset({1, 99}), hidden_columns=frozenset({4}))
    assert book_remarks(book(sheet)) == []


def test_a_value_from_another_file_is_a_warning_at_its_cell():
    sheet = SheetCells("A", [["a", 5.0]], formulas={(0, 1): "[1]Prices!A1"})
    (remark,) = book_remarks(book(sheet))
    assert (remark.code, str(remark.place), remark.found) == ("W034", "'A'!B1", "'=[1]Prices!A1'")


def test_only_the_sheets_that_were_used_are_spoken_of():
    used, other = SheetCells("A", [["a"]]), SheetCells("B", [["b"]], "hidden")
    assert book_remarks(book(used, other), sheets={"A"}) == []
    assert [p.place.sheet for p in book_remarks(book(used, other))] == ["B"]


def test_macros_are_said_to_be_ignored():
    (remark,) = book_remarks(book(SheetCells("A", [["a"]]), macros=True))
    assert (remark.code, str(remark.place)) == ("N035", "list.xlsm")
