"""A block of rows is what stock XlsxWriter would have written, only faster."""

from __future__ import annotations

import io
import re
import zipfile
from typing import Any

import numpy as np
import openpyxl
import pytest
import xlsxwriter
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.write.block_sheet import BlockColumn, BlockSheet

TEXTS = ["P1", "=1+1", "<b>&\"'", "ä — ✓", "_x0041_", " lead", "P1"]
NUMBERS = [0.1, 1e-9, 1 / 3, 123456789.25, -2.5, 0.0, 1e15]


def written(sheet_class: type, with_block: bool) -> bytes:
    """Write one sheet either as a block or cell by cell."""
    file = io.BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True, "strings_to_formulas": False})
    sheet = book.add_worksheet("Lines", sheet_class)
    money = book.add_format({"num_format": "0.00"})
    plain = book.add_format({"italic": True})
    sheet.write_string(0, 0, "Title")
    sheet.write_string(12, 1, "Below")
    doubled = [2 * n for n in NUMBERS]
    words = ["over" if n > 1 else "under" for n in NUMBERS]
    if with_block:
        sheet.write_block(
            2,
            0,
            [
                BlockColumn(TEXTS, plain),
                BlockColumn(NUMBERS, money),
                BlockColumn(doubled, money, "=B{r}*2"),
                BlockColumn(words, plain, '=IF(B{r}>1,"over","under")'),
                BlockColumn([None, 1.0, None, 2.0, 3.0, 4.0, 5.0], money, 'B{r}&"<"'),
            ],
        )
    else:
        for index in range(7):
            row = index + 3
            sheet.write_string(index + 2, 0, TEXTS[index], plain)
            sheet.write_number(index + 2, 1, NUMBERS[index], money)
            sheet.write_formula(index + 2, 2, f"=B{row}*2", money, doubled[index])
            sheet.write_formula(index + 2, 3, f'=IF(B{row}>1,"over","under")', plain, words[index])
            value = [None, 1.0, None, 2.0, 3.0, 4.0, 5.0][index]
            if value is None:
                sheet.write_blank(index + 2, 4, None, money)
            else:
                sheet.write_formula(index + 2, 4, f'=B{row}&"<"', money, value)
    book.close()
    return file.getvalue()


def cells(data: bytes, *, values: bool) -> dict[str, tuple[Any, str]]:
    sheet = openpyxl.load_workbook(io.BytesIO(data), data_only=values)["Lines"]
    return {cell.coordinate: (cell.value, cell.number_format) for row in sheet.iter_rows() for cell in row}


@pytest.mark.parametrize("values", [True, False])
def test_a_block_equals_the_stock_writers_cells(values: bool) -> None:
    block = cells(written(BlockSheet, with_block=True), values=values)
    stock = cells(written(xlsxwriter.worksheet.Worksheet, with_block=False), values=values)
    assert block == stock
    assert len(block) > 40


def test_a_block_equals_the_stock_writers_markup_but_for_span_hints_and_digits() -> None:
    def rows(data: bytes) -> str:
        markup = zipfile.ZipFile(io.BytesIO(data)).read("xl/worksheets/sheet1.xml").decode()
        markup = re.sub(r' spans="[^"]*"', "", markup)
        return re.sub(r"<v>([^<]*)</v>", lambda v: f"<v>{number(v[1])}</v>", markup)

    def number(text: str) -> str:
        try:
            return repr(float(text))
        except ValueError:
            return text

    assert rows(written(BlockSheet, with_block=True)) == rows(written(xlsxwriter.worksheet.Worksheet, with_block=False))


def test_a_long_block_crosses_its_pieces_without_losing_a_row() -> None:
    file = io.BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True})
    sheet = book.add_worksheet("Lines", BlockSheet)
    sheet.write_block(1, 0, [BlockColumn([float(n) for n in range(2501)], book.add_format())])
    book.close()
    read = openpyxl.load_workbook(file)["Lines"]
    assert [row[0] for row in read.iter_rows(min_row=2, values_only=True)] == list(range(2501))


def test_an_array_leaves_cells_empty_where_it_holds_no_number() -> None:
    file = io.BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True})
    sheet = book.add_worksheet("Lines", BlockSheet)
    style = book.add_format()
    sheet.write_block(
        0, 0, [BlockColumn(np.array([1.5, np.nan, 2.5]), style, "=B{r}"), BlockColumn(["a", None, "c"], style)]
    )
    book.close()
    read = openpyxl.load_workbook(file, data_only=True)["Lines"]
    assert list(read.iter_rows(values_only=True)) == [(1.5, "a"), (None, None), (2.5, "c")]
    formulas = openpyxl.load_workbook(file)["Lines"]
    assert [formulas.cell(row, 1).value for row in (1, 2, 3)] == ["=B1", None, "=B3"]


def test_a_column_of_texts_counts_each_use_of_a_shared_text_and_stores_it_once() -> None:
    def strings(data: bytes) -> bytes:
        return zipfile.ZipFile(io.BytesIO(data)).read("xl/sharedStrings.xml")

    stock = strings(written(xlsxwriter.worksheet.Worksheet, with_block=False))
    assert strings(written(BlockSheet, with_block=True)) == stock
    assert b'count="9" uniqueCount="8"' in stock


def test_a_percent_sign_in_a_formula_or_a_text_and_a_column_left_empty_stay_what_they_are() -> None:
    file = io.BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True, "strings_to_formulas": False})
    sheet = book.add_worksheet("Lines", BlockSheet)
    style = book.add_format()
    sheet.write_block(
        0,
        0,
        [
            BlockColumn(["5 %s", "%d"], style),
            BlockColumn(["7 %", "%s"], style, '=A{r}&" %s"'),
            BlockColumn([None, None], style),
            BlockColumn([None, 0.5], style, "=50%*B{r}"),
        ],
    )
    book.close()
    values = openpyxl.load_workbook(file, data_only=True)["Lines"]
    assert list(values.iter_rows(values_only=True)) == [("5 %s", "7 %", None, None), ("%d", "%s", None, 0.5)]
    formulas = openpyxl.load_workbook(file)["Lines"]
    assert [formulas["B2"].value, formulas["D1"].value, formulas["D2"].value] == ['=A2&" %s"', None, "=50%*B2"]


@settings(max_examples=200, deadline=None)
@given(st.lists(st.floats(allow_nan=False, allow_infinity=False), min_size=1, max_size=50))
def test_every_number_of_a_block_comes_back_to_the_last_bit(numbers: list[float]) -> None:
    file = io.BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True})
    sheet = book.add_worksheet("Lines", BlockSheet)
    sheet.write_block(0, 0, [BlockColumn(np.array(numbers), book.add_format())])
    book.close()
    markup = zipfile.ZipFile(file).read("xl/worksheets/sheet1.xml").decode()
    assert [float(text).hex() for text in re.findall(r"<v>([^<]*)</v>", markup)] == [n.hex() for n in numbers]


def test_what_a_block_cannot_hold_is_refused() -> None:
    book = xlsxwriter.Workbook(io.BytesIO(), {"in_memory": True})
    sheet = book.add_worksheet("Lines", BlockSheet)
    style = book.add_format()
    with pytest.raises(ValueError, match="finite"):
        sheet.write_block(0, 0, [BlockColumn([1.0, float("nan")], style)])
    with pytest.raises(ValueError, match="finite"):
        sheet.write_block(0, 0, [BlockColumn(np.array([1.0, np.inf]), style)])
    with pytest.raises(ValueError, match="one length"):
        sheet.write_block(0, 0, [BlockColumn([1.0], style), BlockColumn([1.0, 2.0], style)])
    with pytest.raises(ValueError, match="one length"):
        sheet.write_block(0, 0, [BlockColumn([], style)])
    with pytest.raises(ValueError, match="does not fit"):
        sheet.write_block(1_048_575, 0, [BlockColumn([1.0, 2.0], style)])
    sheet.write_block(0, 0, [BlockColumn([1.0], style)])
    with pytest.raises(ValueError, match="already"):
        sheet.write_block(5, 0, [BlockColumn([1.0], style)])
