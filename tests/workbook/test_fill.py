"""A filled list is the customer's own file with two columns more, and nothing else changed."""

from __future__ import annotations

import io
import re
import zipfile

import openpyxl
import pytest
import xlsxwriter

from estimator.problems import WorkbookProblemsError
from estimator.write.fill import FillColumn, Filling, FillKind, fill_problems, filled_workbook
from estimator.write.patch_sheet import NewCell, find_places, spliced

MONEY = (FillColumn("Price each", FillKind.MONEY), FillColumn("Amount", FillKind.MONEY))
PRICES = Filling("Parts", (3,), MONEY, {4: (12.5, 100.0), 5: ("=ask", None), 7: (0.1, 1234567.89)})


def rich_list() -> bytes:
    """A list with what other libraries lose: pictures, charts, rich text, notes, bars in cells, and a second sheet."""
    file = io.BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True})
    sheet = book.add_worksheet("Parts")
    bold, boxed = book.add_format({"bold": True}), book.add_format({"border": 1, "num_format": "0.0"})
    sheet.write_rich_string("A1", "Parts ", bold, "for us")
    sheet.merge_range("A2:D2", "merged", bold)
    for column, heading in enumerate(["Mark", "Qty", "Thk", "Sum"]):
        sheet.write(2, column, heading, bold)
    for row in range(3, 8):
        sheet.write(row, 0, f"P{row}", boxed)
        sheet.write(row, 1, row, boxed)
        sheet.write(row, 2, 12.7, boxed)
        sheet.write_formula(row, 3, f"=B{row + 1}*2", boxed, row * 2)
    sheet.write_blank(3, 4, None, boxed)  # formatted and empty, where the first price goes
    sheet.set_row(5, 33)
    sheet.write_comment("A4", "a note")
    sheet.add_sparkline("D10", {"range": "Parts!B4:B8"})
    sheet.conditional_format("B4:B8", {"type": "data_bar", "data_bar_2010": True})
    chart = book.add_chart({"type": "bar"})
    chart.add_series({"values": "=Parts!$B$4:$B$8"})
    sheet.insert_chart("A12", chart)
    sheet.set_column(0, 0, 22)
    book.add_worksheet("Other").write("A1", "kept")
    book.close()
    return file.getvalue()


def test_only_the_filled_sheet_and_the_styles_change_and_all_other_parts_stay_byte_for_byte() -> None:
    before = zipfile.ZipFile(io.BytesIO(rich_list()))
    after = zipfile.ZipFile(io.BytesIO(filled_workbook(rich_list(), [PRICES])))
    assert after.namelist() == before.namelist()
    changed = {name for name in before.namelist() if before.read(name) != after.read(name)}
    assert changed == {"xl/worksheets/sheet1.xml", "xl/styles.xml"}
    assert [i.date_time for i in after.infolist()] == [i.date_time for i in before.infolist()]


def test_every_other_cell_value_format_width_and_height_stays() -> None:
    before = openpyxl.load_workbook(io.BytesIO(rich_list()))["Parts"]
    after = openpyxl.load_workbook(io.BytesIO(filled_workbook(rich_list(), [PRICES])))["Parts"]
    for row in before.iter_rows(max_col=4):
        for cell in row:
            other = after[cell.coordinate]
            assert (other.value, other.number_format, other.font.b) == (cell.value, cell.number_format, cell.font.b)
    assert after.column_dimensions["A"].width == before.column_dimensions["A"].width
    assert after.row_dimensions[6].height == 33
    assert str(after.merged_cells) == str(before.merged_cells)


def test_prices_stand_right_of_the_table_in_the_look_of_their_row() -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(filled_workbook(rich_list(), [PRICES])))["Parts"]
    assert [sheet["E3"].value, sheet["F3"].value, sheet["E4"].value, sheet["F7"].value] == [
        "Price each",
        "Amount",
        12.5,
        1234567.89,
    ]
    assert sheet["E3"].font.b
    assert sheet["E4"].number_format == "#,##0.00"
    assert sheet["E4"].border.left.style == "thin"
    assert sheet.column_dimensions["E"].width == 14


def test_a_text_that_looks_like_a_formula_stays_a_text() -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(filled_workbook(rich_list(), [PRICES])))["Parts"]
    assert (sheet["E5"].value, sheet["E5"].data_type) == ("=ask", "s")


def test_a_sheet_that_is_not_there_or_has_no_room_is_said() -> None:
    with pytest.raises(WorkbookProblemsError, match="E816"):
        filled_workbook(rich_list(), [Filling("Nowhere", (1,), MONEY, {})])
    with pytest.raises(WorkbookProblemsError, match="E816"):
        filled_workbook(rich_list(), [Filling("Parts", (3,), MONEY, {99: (1.0,)})])


def test_lists_of_other_kinds_and_signed_lists_are_refused() -> None:
    assert [p.code for p in fill_problems("list.ods", b"", force=False)] == ["E814"]
    assert fill_problems("list.xlsx", rich_list(), force=False) == []
    signed = io.BytesIO(rich_list())
    with zipfile.ZipFile(signed, "a") as parts:
        parts.writestr("_xmlsignatures/sig1.xml", b"<s/>")
    assert [p.code for p in fill_problems("list.xlsx", signed.getvalue(), force=False)] == ["E815"]
    assert fill_problems("list.xlsx", signed.getvalue(), force=True) == []


PREFIXED = (
    b'<?xml version="1.0"?><x:worksheet xmlns:x="urn:x"><x:dimension ref="A1:B3"/><x:sheetData>'
    b'<x:row r="1" spans="1:2"><x:c r="A1"><x:v>1</x:v></x:c><x:c r="D1" s="3"/></x:row><x:row r="2"/>'
    b"<x:row><x:c><x:v>5</x:v></x:c><x:c><x:v>6</x:v></x:c></x:row></x:sheetData></x:worksheet>"
)


def test_markup_with_a_prefix_empty_rows_and_cells_without_addresses_is_patched() -> None:
    places = find_places(PREFIXED)
    assert (sorted(places.rows), places.last_column, places.prefix) == ([1, 2, 3], 1, "x:")
    new = {(1, 2): NewCell(7.5), (1, 3): NewCell("ä"), (2, 2): NewCell(8), (3, 2): NewCell("<")}
    made = spliced(PREFIXED, places, new).decode()
    assert re.findall(r'r="(\w+)"', made) == ["1", "A1", "C1", "D1", "2", "C2", "C3"]
    assert 'r="D1" s="3" t="inlineStr"' in made
    assert "&#228;" in made
    assert "&lt;" in made
    assert "spans" not in made
    assert "dimension" not in made
    assert find_places(made.encode()).last_column == 3


def test_a_filled_cell_is_never_written_over_and_broken_markup_is_refused() -> None:
    with pytest.raises(ValueError, match="A1 is filled"):
        spliced(PREFIXED, find_places(PREFIXED), {(1, 0): NewCell(1.0)})
    for bad in (b"<worksheet>", b"<!DOCTYPE a><worksheet/>", "<worksheet/>".encode("utf-16")):
        with pytest.raises(ValueError):
            find_places(bad)
