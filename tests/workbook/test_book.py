"""An output workbook keeps our rules whatever is put into it."""

from __future__ import annotations

import base64
import datetime as dt
import io
import re
import zipfile
from typing import BinaryIO

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.write.block_sheet import BlockColumn, BlockSheet
from estimator.write.book import OutputBook, Paper, write_book
from estimator.write.plain_text import csv_text, plain_text
from estimator.write.styles import Look, NamedStylesPackager

HOSTILE = [
    "=1+1",
    "+1",
    "-1",
    "@SUM(A1)",
    "{=1+1}",
    "http://a.example",
    "file:///etc/passwd",
    "mailto:a@b.example",
    "internal:A1",
    "<r><t>x</t></r>",
    "<r><rPr><b/></rPr><t>x</t></r><si><t>y</t></r>",
    "a\x00b\x1b[31mc\x7f",
    "\u202ereversed",
    "\ud800half",
    "\ufffe",
    "_x000D_",
    "x" * 40_000,
    "]]>",
    "&amp;",
]


def build(book: OutputBook) -> None:
    sheet = book.sheet("Answer")
    sheet.text(0, 0, "A title", Look.TITLE)
    for row, text in enumerate(HOSTILE, 1):
        sheet.text(row, 0, text, Look.TYPED)
    sheet.number(1, 1, 2.5, Look.TYPED, '0.00" m³"')
    sheet.worked(2, 1, "=B2*2", 5.0, Look.WORKED, "0.00")
    sheet.worked(3, 1, '=IF(B2>1,"over","under")', "over")
    sheet.date(4, 1, dt.date(2025, 3, 4), Look.ASSUMED)
    sheet.jump(5, 1, "Answer", "A1", "=up")
    sheet.choice(6, 1, 6, ["yes", "no"], title="t" * 40, message="m" * 400)
    sheet.between(7, 1, 7, (0, 10), title="Share", message="between")
    sheet.set_up_page(last_row=30, last_column=1, headings=(0, 0))
    book.name_cell("gas_price", "Answer", 1, 1)


def made(paper: str = "A4") -> bytes:
    file = io.BytesIO()
    write_book(build, title="=Title", paper=Paper(paper))(file)
    return file.getvalue()


def test_two_runs_give_the_same_bytes() -> None:
    assert made() == made()


def test_untrusted_text_stays_text_and_makes_no_link_or_formula() -> None:
    data = made()
    sheet = openpyxl.load_workbook(io.BytesIO(data))["Answer"]
    for row, text in enumerate(HOSTILE, 2):
        cell = sheet.cell(row, 1)
        assert cell.data_type == ("s" if plain_text(text) else "n"), text
        assert cell.hyperlink is None
        assert (cell.value or "").rstrip() == plain_text(text).rstrip()
    parts = zipfile.ZipFile(io.BytesIO(data))
    formulas = re.findall(r"<f>(.*?)</f>", parts.read("xl/worksheets/sheet1.xml").decode())
    assert formulas == ["B2*2", 'IF(B2&gt;1,"over","under")']
    assert not [name for name in parts.namelist() if "external" in name.lower()]
    assert b"http://a.example" not in parts.read("xl/worksheets/sheet1.xml")


def test_stored_values_are_read_by_a_viewer_that_cannot_calculate() -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(made()), data_only=True)["Answer"]
    assert [sheet.cell(row, 2).value for row in (2, 3, 4)] == [2.5, 5, "over"]


def test_looks_have_names_in_the_spreadsheet_program() -> None:
    book = openpyxl.load_workbook(io.BytesIO(made()))
    assert book["Answer"]["B2"].style == "Typed"
    assert book["Answer"]["B3"].style == "Worked out"
    assert book["Answer"]["B5"].style == "Assumed"
    assert book["Answer"]["A1"].style == "Sheet title"


@pytest.mark.parametrize(("paper", "code"), [("A4", 9), ("Letter", 1)])
def test_sheets_print_one_page_wide_on_the_shops_paper(paper: str, code: int) -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(made(paper)))["Answer"]
    assert sheet.page_setup.paperSize == code
    assert (sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight) == (None, 0) or sheet.page_setup.fitToWidth == 1
    assert sheet.print_title_rows == "$1:$1"
    assert "&P" in sheet.oddFooter.right.text


def test_numbers_that_are_not_numbers_are_refused() -> None:
    book = OutputBook(io.BytesIO(), title="t")
    sheet = book.sheet("Answer")
    with pytest.raises(ValueError, match="B3"):
        sheet.number(2, 1, float("nan"))
    with pytest.raises(ValueError, match="B3"):
        sheet.worked(2, 1, "=1", float("inf"))


class PackedByTheLibrary(OutputBook):
    """Our workbook, its parts packed as XlsxWriter packs them."""

    def __init__(self, file: BinaryIO, *, title: str) -> None:
        super().__init__(file, title=title)
        self.filename = file

    def _get_packager(self) -> NamedStylesPackager:
        return NamedStylesPackager()


def build_long(book: OutputBook) -> None:
    build(book)
    sheet = book.sheet("Long")
    for row in range(3_000):
        sheet.text(row, 0, f"ä {row}")
    style = book.styles.get(Look.TEXT)
    sheet.write_block(3_000, 0, [BlockColumn([float(row) for row in range(5_000)], style)])
    for row in range(8_000, 8_100):
        sheet.text(row, 0, "x" * (row * 97 % 3_000))


def test_parts_packed_while_they_are_written_are_those_that_the_library_packs() -> None:
    ours, stock = io.BytesIO(), io.BytesIO()
    write_book(build_long, title="=Title")(ours)
    book = PackedByTheLibrary(stock, title="=Title")
    build_long(book)
    book.close()
    parts, other = zipfile.ZipFile(ours), zipfile.ZipFile(stock)
    assert parts.namelist() == other.namelist()
    assert [name for name in parts.namelist() if parts.read(name) != other.read(name)] == []
    assert len(parts.read("xl/worksheets/sheet2.xml")) > 300_000
    assert {part.date_time for part in parts.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_a_run_that_is_interrupted_while_it_writes_a_part_ends_as_interrupted(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(self: BlockSheet) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(BlockSheet, "_write_rows", interrupted)
    file = io.BytesIO()
    with pytest.raises(KeyboardInterrupt):
        write_book(build, title="t")(file)
    assert file.getvalue() == b""


def test_a_picture_which_would_not_be_packed_is_refused() -> None:
    picture = base64.b64decode("R0lGODlhAQABAIAAAAAAAP///yH5BAEAAAAALAAAAAABAAEAAAIBRAA7") + bytes(20)

    def with_picture(book: OutputBook) -> None:
        book.sheet("Answer").insert_image(0, 0, "dot.gif", {"image_data": io.BytesIO(picture)})

    with pytest.raises(NotImplementedError, match="pictures"):
        write_book(with_picture, title="t")(io.BytesIO())


@settings(max_examples=100, deadline=None)
@given(st.text(alphabet=st.characters(codec=None), max_size=40))
def test_any_text_comes_back_as_it_was_shown(text: str) -> None:
    file = io.BytesIO()
    write_book(lambda book: book.sheet("Answer").text(0, 0, "x" + text), title="t")(file)
    value = openpyxl.load_workbook(file)["Answer"]["A1"].value
    assert value == plain_text("x" + text)


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=20))
def test_no_csv_text_begins_as_a_formula_may(text: str) -> None:
    assert not csv_text(text).startswith(("=", "+", "-", "@", "\t", "\r", "\n="))
    assert "\x1b" not in csv_text(text)
