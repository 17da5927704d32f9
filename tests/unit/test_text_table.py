"""A csv or tsv is read by its own evidence: encoding, the sign between columns, decimal mark; every cell stays text."""

from __future__ import annotations

from pathlib import Path

import pytest

from estimator.problems import WorkbookProblemsError
from estimator.read.load import load_book


def load(tmp_path: Path, data: bytes | str, name: str = "list.csv", encoding: str | None = None):
    path = tmp_path / name
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return load_book(path, encoding=encoding)


TABLE = [["Mark", "Thickness"], ["Ø½", "12"]]


@pytest.mark.parametrize(
    ("codec", "named"),
    [
        ("utf-8", None), ("utf-8-sig", None), ("utf-16", None), ("utf-8", "utf-8"), ("utf-8", "UTF8"),
        ("utf-8-sig", "utf-8"),
        ("utf-16", "utf-16"), ("utf-16-le", "utf-16-le"), ("cp1252", "cp1252"), ("cp1252", "windows-1252"),
        ("latin-1", "iso-8859-1"), ("utf-32", None),
    ],
)  # fmt: skip
def test_the_encoding_is_the_files_own_or_the_one_named(tmp_path, codec, named):
    book = load(tmp_path, "Mark;Thickness\r\nØ½;12\r\n".encode(codec), encoding=named)
    assert book.sheets[0].rows == TABLE


@pytest.mark.parametrize(
    ("text", "rows", "decimal"),
    [
        ("Mark,Thk\nA1,12.5\n", [["Mark", "Thk"], ["A1", "12.5"]], "."),
        ("Mark;Thk\nA1;12,5\n", [["Mark", "Thk"], ["A1", "12,5"]], ","),
        ("Mark\tThk\nA1\t12,5\n", [["Mark", "Thk"], ["A1", "12,5"]], ","),
        ("Mark|Thk\nA1|12\n", [["Mark", "Thk"], ["A1", "12"]], ""),
        ("Mark;Thk\nA1;12\n", [["Mark", "Thk"], ["A1", "12"]], ""),
        ("Mark,Thk\nA1,12\n", [["Mark", "Thk"], ["A1", "12"]], "."),
        ('Mark,Thk\nA1,"12,5"\n', [["Mark", "Thk"], ["A1", "12,5"]], ","),
        ("12,5;3,2\n1,5;2,2\n", [["12,5", "3,2"], ["1,5", "2,2"]], ","),
        ("Job 7\n\nMark;Thk;Qty\nA1;12;1\n", [["Job 7"], [], ["Mark", "Thk", "Qty"], ["A1", "12", "1"]], ""),
        ("one\ntwo\n", [["one"], ["two"]], "."),
        ("sep=;\nMark;Note\nA1;a, b, c\n", [["Mark", "Note"], ["A1", "a, b, c"]], ""),
        ("sep=,\r\nMark,a;b\r\nA1,c;d\r\n", [["Mark", "a;b"], ["A1", "c;d"]], "."),
        ('Mark,S,Qty\nA1,1-1/2",4\nA2,"""",5\n', [["Mark", "S", "Qty"], ["A1", '1-1/2"', "4"], ["A2", '"', "5"]], "."),
        ('Mark,Note\nA1,"two\nlines"\nA2,x\n', [["Mark", "Note"], ["A1", "two\nlines"], ["A2", "x"]], "."),
        ("007,=1+1,+5\n", [["007", "=1+1", "+5"]], "."),
        ("a,,\n,,b\n", [["a"], [None, None, "b"]], "."),
    ],
)  # fmt: skip
def test_columns_and_decimal_mark_come_from_the_evidence(tmp_path, text, rows, decimal):
    book = load(tmp_path, text)
    assert book.sheets[0].rows == rows
    assert book.decimal == decimal


def test_the_sheet_has_the_files_name_and_the_book_its_kind(tmp_path):
    book = load(tmp_path, "a\tb\n", "november.tsv")
    assert (book.kind, [sheet.name for sheet in book.sheets]) == ("tsv", ["november"])


def test_a_tsv_without_tabs_and_a_txt_are_read_by_their_evidence(tmp_path):
    assert load(tmp_path, "a;b\n1;2\n", "x.tsv").sheets[0].rows == [["a", "b"], ["1", "2"]]
    book = load(tmp_path, "a;b\n1;2\n", "x.txt")
    assert (book.kind, book.sheets[0].rows) == ("csv", [["a", "b"], ["1", "2"]])


def test_commas_in_every_cell_of_a_semicolon_file_are_asked_when_they_are_no_numbers(tmp_path):
    with pytest.raises(WorkbookProblemsError, match="set off by commas or by semicolons"):
        load(tmp_path, "Mark, first;Qty, all\nA, one;4, five\n")


def test_a_long_file_is_judged_by_its_first_lines_and_read_whole(tmp_path):
    book = load(tmp_path, "Mark;Thk\n" + "A1;12,5\n" * 2000)
    assert len(book.sheets[0].rows) == 2001
