"""An .xlsx becomes cells that keep their place, with what the values alone do not tell."""

from __future__ import annotations

import datetime as dt
import zipfile
from pathlib import Path

import openpyxl
import pytest
import xlsxwriter

from estimator.problems import WorkbookProblemsError
from estimator.read import xlsx_plain, xlsx_sheet, xml_parts
from estimator.read.cells import NOT_CALCULATED, CellError
from estimator.read.load import load_book
from estimator.read.xlsx_cell import looks_outside
from tests.raw_xlsx import CONTENT_TYPES, NS, STRICT_NS, sheet_xml, write_xlsx


@pytest.fixture
def rich(tmp_path: Path) -> Path:
    """A workbook with one of everything that the loader reports."""
    path = tmp_path / "rich.xlsx"
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Parts & more"
    sheet.append(["Mark", "Thickness", "Qty", "Date", "Lit"])
    sheet.append(["A1 <&>", 12.5, 4, dt.date(2026, 3, 4), True])
    sheet["B2"].number_format = "# ??/??"
    sheet["D2"].number_format = "d-mmm"
    sheet["A4"] = "=1/0"
    sheet["B4"] = "#REF!"
    sheet["C4"] = "=[1]Other!A1"
    sheet["F6"] = " spaced\nover lines "
    sheet.merge_cells("A8:C9")
    sheet.row_dimensions[5].hidden = True
    sheet.column_dimensions["C"].hidden = True
    hidden = book.create_sheet("Hidden")
    hidden.sheet_state = "veryHidden"
    hidden["A1"] = 1
    book.save(path)
    return path


def test_values_stand_where_the_spreadsheet_shows_them(rich):
    sheet = load_book(rich).sheets[0]
    assert sheet.name == "Parts & more"
    assert sheet.rows[1] == ["A1 <&>", 12.5, 4.0, dt.datetime(2026, 3, 4), True]
    assert sheet.rows[2] == []
    assert sheet.value(5, 5) == " spaced\nover lines "
    assert sheet.value(5, 0) is None
    assert sheet.value(99, 99) is None


def test_errors_and_formulas_without_values_are_neither_blank_nor_text(rich):
    sheet = load_book(rich).sheets[0]
    assert sheet.value(3, 0) is NOT_CALCULATED
    assert sheet.value(3, 1) == "#REF!"
    assert isinstance(sheet.value(3, 1), CellError)


def test_a_formula_that_looks_into_another_file_is_kept_with_its_cell(rich):
    assert load_book(rich).sheets[0].formulas == {(3, 2): "[1]Other!A1"}


def test_number_formats_are_known_for_cells_that_have_one(rich):
    formats = load_book(rich).sheets[0].number_formats
    assert dict(formats) == {(1, 1): "# ??/??", (1, 3): "d-mmm"}
    assert len(formats) == 2
    assert formats.get((1, 0)) is None
    assert formats.get((500, 500)) is None


def test_merged_hidden_and_states_are_reported(rich):
    first, second = load_book(rich).sheets
    assert first.merged == [(7, 0, 8, 2)]
    assert first.hidden_rows == {4}
    assert first.hidden_columns == {2}
    assert (first.state, second.state) == ("visible", "very hidden")
    assert not first.filtered


def test_a_workbook_of_the_1904_epoch_gives_the_same_dates(tmp_path):
    path = tmp_path / "old.xlsx"
    book = xlsxwriter.Workbook(path, {"date_1904": True, "default_date_format": "yyyy-mm-dd"})
    book.add_worksheet().write_datetime(0, 0, dt.datetime(2026, 11, 5, 6, 30))
    book.close()
    assert load_book(path).sheets[0].rows == [[dt.datetime(2026, 11, 5, 6, 30)]]


def test_a_filter_that_hides_rows_is_seen(tmp_path):
    path = tmp_path / "filtered.xlsx"
    book = xlsxwriter.Workbook(path)
    sheet = book.add_worksheet()
    sheet.write_column(0, 0, ["Mark", "A", "B"])
    sheet.autofilter(0, 0, 2, 0)
    sheet.filter_column(0, "x == A")
    sheet.set_row(2, options={"hidden": True})
    book.close()
    loaded = load_book(path).sheets[0]
    assert loaded.filtered
    assert loaded.hidden_rows == {2}


def test_stored_results_of_formulas_are_read(tmp_path):
    path = tmp_path / "formulas.xlsx"
    book = xlsxwriter.Workbook(path)
    sheet = book.add_worksheet()
    sheet.write_formula(0, 0, "=1+1", None, 2)
    sheet.write_formula(0, 1, '=""&"a<b"', None, "a<b")
    sheet.write_formula(0, 2, "=NA()", None, "#N/A")
    sheet.write_formula(0, 3, "=TRUE()", None, True)
    book.close()
    assert load_book(path).sheets[0].rows == [[2.0, "a<b", "#N/A", True]]
    assert isinstance(load_book(path).sheets[0].value(0, 2), CellError)


# Each row of XML with the cells it means; every one is read by the plain way and by the XML way.
FORMS = {
    "number": ('<c r="A1"><v>12.5</v></c>', [12.5]),
    "number with its type": ('<c r="A1" t="n"><v>-1e-3</v></c>', [-0.001]),
    "blank with a style": ('<c r="A1" s="1"/><c r="B1"><v>1</v></c>', [None, 1.0]),
    "gap": ('<c r="C1"><v>1</v></c>', [None, None, 1.0]),
    "shared text": ('<c r="A1" t="s"><v>1</v></c>', ["b & c"]),
    "empty shared text": ('<c r="A1" t="s"><v>2</v></c><c r="B1"><v>1</v></c>', [None, 1.0]),
    "rich shared text without its reading aid": ('<c r="A1" t="s"><v>3</v></c>', ["12 mm"]),
    "escaped line break": ('<c r="A1" t="s"><v>4</v></c>', ["a\nb"]),
    "inline text": ('<c r="A1" t="inlineStr"><is><t xml:space="preserve"> a &lt; b </t></is></c>', [" a < b "]),
    "inline text in runs": ('<c r="A1" t="inlineStr"><is><r><t>a</t></r><r><t>b</t></r></is></c>', ["ab"]),
    "truth": ('<c r="A1" t="b"><v>1</v></c><c r="B1" t="b"><v>0</v></c>', [True, False]),
    "error": ('<c r="A1" t="e"><v>#N/A</v></c>', [CellError("#N/A")]),
    "not a number": ('<c r="A1"><v>NaN</v></c>', [CellError("NaN")]),
    "date by style": ('<c r="A1" s="1"><v>46085</v></c>', [dt.datetime(2026, 3, 4)]),
    "time by style": ('<c r="A1" s="1"><v>0.25</v></c>', [dt.time(6)]),
    "date in ISO form": ('<c r="A1" t="d"><v>2026-03-04T06:00:00</v></c>', [dt.datetime(2026, 3, 4, 6)]),
    "no such date": ('<c r="A1" s="1"><v>-3</v></c>', [CellError("#####")]),
    "formula with a number": ('<c r="A1"><f>1+1</f><v>2</v></c>', [2.0]),
    "formula with a text": ('<c r="A1" t="str"><f>"a"&amp;"b"</f><v>a_b</v></c>', ["a_b"]),
    "formula with an empty text": ('<c r="A1" t="str"><f>""</f><v></v></c><c r="B1"><v>1</v></c>', [None, 1.0]),
    "formula without a value": ('<c r="A1"><f>1+1</f></c>', [NOT_CALCULATED]),
    "formula with an empty value": ('<c r="A1"><f>1+1</f><v></v></c>', [NOT_CALCULATED]),
    "formula with a closed value": ('<c r="A1"><f>1+1</f><v/></c>', [NOT_CALCULATED]),
    "shared formula": ('<c r="A1"><f t="shared" ref="A1:B1" si="0">1+1</f><v>2</v></c>'
                       '<c r="B1"><f t="shared" si="0"/><v>3</v></c>', [2.0, 3.0]),
    "text typed as a result": ('<c r="A1" t="str"><v>12 mm</v></c>', ["12 mm"]),
    "attributes in another order": ('<c r="A1" t="s" s="1"><v>0</v></c>', ["a"]),
}  # fmt: skip
STRINGS = (
    f'<sst xmlns="{NS}"><si><t>a</t></si><si><t>b &amp; c</t></si><si><t/></si>'
    "<si><r><t>12</t></r><r><t> mm</t></r><rPh><t>x</t></rPh></si><si><t>a_x000A_b</t></si></sst>"
)


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("plain", [True, False])
def test_every_form_of_a_cell_is_read_the_same_by_both_ways(tmp_path, monkeypatch, form, plain):
    row, cells = FORMS[form]
    if not plain:
        monkeypatch.setattr(xlsx_sheet, "read_sheet_plain", _never_plain)
    path = write_xlsx(tmp_path / "form.xlsx", sheet_xml(f'<row r="1">{row}</row>'), strings=STRINGS)
    (read,) = load_book(path).sheets[0].rows
    assert read == cells
    assert [type(value) for value in read] == [type(value) for value in cells]


def _never_plain(*_: object) -> None:
    raise xlsx_sheet.NotPlainError


def test_the_book_knows_its_file_and_its_fingerprint(rich):
    import hashlib

    book = load_book(rich)
    assert (book.path, book.kind, book.macros) == (rich, "xlsx", False)
    assert book.sha256 == hashlib.sha256(rich.read_bytes()).hexdigest()


def read_rows(tmp_path: Path, sheet: str | bytes, **parts: str | bytes) -> list[list[object]]:
    return load_book(write_xlsx(tmp_path / "list.xlsx", sheet, **parts)).sheets[0].rows


CELLS = '<row r="1"><c r="A1"><v>12</v></c></row>'


@pytest.mark.parametrize(
    "sheet",
    {
        "strict": sheet_xml(CELLS, root=f'worksheet xmlns="{STRICT_NS}"'),
        "prefixes": f'<x:worksheet xmlns:x="{NS}"><x:sheetData><x:row r="1"><x:c r="A1"><x:v>12</x:v></x:c></x:row>'
        "</x:sheetData></x:worksheet>",
        "utf-16": ('<?xml version="1.0" encoding="utf-16"?>' + sheet_xml(CELLS)).encode("utf-16"),
        "utf-8 mark": sheet_xml(CELLS).encode("utf-8-sig"),
        "latin letters": f'<?xml version="1.0" encoding="iso-8859-1"?>{sheet_xml(CELLS)}'.encode("latin-1"),
        "line breaks between cells": sheet_xml(CELLS.replace("><", ">\n  <")),
        "comment between rows": sheet_xml(f"<!-- </row> -->{CELLS}"),
        "marked text section": sheet_xml(CELLS.replace("12<", "<![CDATA[12]]><")),
        "single quotes": sheet_xml(CELLS.replace('"', "'")),
        "row without its number": sheet_xml('<row><c r="A1"><v>12</v></c></row>'),
        "cell without its address": sheet_xml("<row><c><v>12</v></c></row>"),
        "number written with blanks": sheet_xml('<row r="1"><c r="A1"><v> 12 </v></c></row>'),
        "extensions inside a cell": sheet_xml('<row r="1"><c r="A1"><v>12</v><extLst><ext/></extLst></c></row>'),
        "attributes of newer programs": sheet_xml(
            '<row r="1" spans="1:1" x14ac:dyDescent="0.25"><c r="A1" cm="1" vm="1"><v>12</v></c></row>',
            root=f'worksheet xmlns="{NS}" xmlns:x14ac="http://schemas.microsoft.com/office/spreadsheetml/2009/9/ac"',
        ),
        "claimed dimension of a whole sheet": sheet_xml(CELLS, before='<dimension ref="A1:XFD1048576"/>'),
        "claimed dimension too small": sheet_xml(CELLS, before='<dimension ref="C3"/>'),
        "formatted cells to the end of the sheet": sheet_xml(
            CELLS + '<row r="1048576" s="1"><c r="XFD1048576" s="1"/></row>', after='<cols/>'
        ),
        "empty rows": sheet_xml(CELLS + '<row r="2"/><row r="3" hidden="1"/>'),
    }.items(),
    ids=lambda pair: pair[0],
)  # fmt: skip
def test_other_forms_of_the_same_sheet_read_the_same(tmp_path, sheet):
    assert read_rows(tmp_path, sheet[1]) == [[12.0]]


def test_files_of_three_writers_take_the_plain_way(tmp_path, monkeypatch):
    monkeypatch.setattr(xlsx_sheet, "read_sheet_elements", _never_elements)
    book = openpyxl.Workbook()
    book.active.append(["Mark", 1.5, None, dt.date(2026, 3, 4), True, "a & b", "=1+1"])
    book.save(tmp_path / "a.xlsx")
    assert load_book(tmp_path / "a.xlsx").sheets[0].rows[0][5] == "a & b"
    for constant_memory in (False, True):
        path = tmp_path / f"b{constant_memory}.xlsx"
        with xlsxwriter.Workbook(path, {"constant_memory": constant_memory}) as written:
            sheet = written.add_worksheet()
            sheet.write_row(0, 0, ["Mark", 1.5, " a & b "])
            sheet.write_formula(0, 3, '="x"&B1', None, "x1.5")
        assert load_book(path).sheets[0].rows == [["Mark", 1.5, " a & b ", "x1.5"]]


def _never_elements(*_: object) -> None:
    raise AssertionError("the sheet did not have the plain form")


def test_a_sheet_of_formatted_blank_rows_is_read_without_them(tmp_path):
    rows = "".join(f'<row r="{n}" s="1"><c r="A{n}" s="1"/></row>' for n in range(2, 200_001))
    assert read_rows(tmp_path, sheet_xml(CELLS + rows)) == [[12.0]]


def test_a_formula_shared_by_several_cells_is_outside_in_all_of_them(tmp_path):
    shared = (
        '<c r="A1"><f t="shared" ref="A1:B1" si="0">[1]Prices!A1</f><v>1</v></c>'
        '<c r="B1"><f t="shared" si="0"/><v>2</v></c><c r="C1"><f>Table1[Price]+A1</f><v>3</v></c>'
    )
    path = write_xlsx(tmp_path / "list.xlsx", sheet_xml(f'<row r="1">{shared}</row>'))
    assert load_book(path).sheets[0].formulas == {(0, 0): "[1]Prices!A1", (0, 1): "[1]Prices!A1"}


@pytest.mark.parametrize(
    ("formula", "outside"),
    [
        ("[1]Sheet1!$A$1", True), ("'[prices.xlsx]Sheet 1'!A1", True), ("'C:\\shop\\[p.xlsx]S'!A1", True),
        ("'file:///home/p.ods'#$S.A1", True), ("WEBSERVICE(A1)", True), ("cmd|'/c calc'!A1", True),
        ("SUM([2]A!A1:A3)", True),
        ("SUM(A1:A3)", False), ("Table1[Price]*2", False), ("Table1[[#This Row],[Price]]", False),
        ("'Sheet 2'!A1", False),
        ('IF(A1="[1]x!",1,2)', True),
    ],
)  # fmt: skip
def test_formulas_that_look_outside_the_file_are_told_from_others(formula, outside):
    # The last is a text that only looks like a link: it is shown too many rather than one too few.
    assert looks_outside(formula) == outside


def test_macros_are_noticed_and_left_alone(tmp_path):
    types = CONTENT_TYPES.replace(
        "openxmlformats-officedocument.spreadsheetml.sheet.main", "ms-excel.sheet.macroEnabled.main"
    )
    path = write_xlsx(tmp_path / "list.xlsm", sheet_xml(CELLS), types=types)
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr("xl/vbaProject.bin", b"\0" * 10)
    book = load_book(path)
    assert (book.kind, book.macros, book.sheets[0].rows) == ("xlsm", True, [[12.0]])


ALIKE = [f'<row r="{n}"><c r="A{n}" t="s"><v>1</v></c><c r="C{n}" s="1"><v>46085</v></c></row>' for n in (1, 2, 3)]
MEANT = ["b & c", None, dt.datetime(2026, 3, 4)]


@pytest.mark.parametrize(
    ("row", "cells"),
    {
        "alike": ('<row r="4"><c r="A4" t="s"><v>0</v></c><c r="C4" s="1"><v>46086</v></c></row>',
                  ["a", None, dt.datetime(2026, 3, 5)]),
        "blank at its end": ('<row r="4"><c r="A4" t="s"><v>0</v></c><c r="C4" s="1"/></row>', ["a"]),
        "cell missing": ('<row r="4"><c r="C4" s="1"><v>46086</v></c></row>', [None, None, dt.datetime(2026, 3, 5)]),
        "empty shared text": ('<row r="4"><c r="A4" t="s"><v>2</v></c></row>', []),
        "one cell more": ('<row r="4"><c r="A4" t="s"><v>0</v></c><c r="D4"><v>5</v></c></row>',
                          ["a", None, None, 5.0]),
        "another type": ('<row r="4"><c r="A4"><v>5</v></c></row>', [5.0]),
        "another style": ('<row r="4"><c r="C4" s="2"><v>0.75</v></c></row>', [None, None, 0.75]),
        "no such date": ('<row r="4"><c r="C4" s="1"><v>-1</v></c></row>', [None, None, CellError("#####")]),
        "formula": ('<row r="4"><c r="C4" s="1"><f>A1</f><v>46086</v></c></row>',
                    [None, None, dt.datetime(2026, 3, 5)]),
        "formula without a value": ('<row r="4"><c r="C4" s="1"><f>A1</f><v></v></c></row>',
                                    [None, None, NOT_CALCULATED]),
        "hidden": ('<row r="4" hidden="1"><c r="A4" t="s"><v>0</v></c></row>', ["a"]),
        "without its number": ('<row><c r="A4" t="s"><v>0</v></c></row>', ["a"]),
    }.values(),
)  # fmt: skip
def test_a_row_behind_rows_that_are_alike_is_read_as_it_stands(tmp_path, monkeypatch, row, cells):
    monkeypatch.setattr(xlsx_sheet, "read_sheet_elements", _never_elements)
    rows = read_rows(tmp_path, sheet_xml("".join(ALIKE) + row), strings=STRINGS)
    assert rows == [MEANT] * 3 + ([cells] if cells else [])
    assert [type(v) for v in rows[-1]] == [type(v) for v in (cells or MEANT)]


@pytest.mark.parametrize(
    ("row", "fact"),
    [
        ('<row r="4"><c r="A4" t="s"><v>99</v></c></row>', "the file is damaged: it has no shared text '99'"),
        ('<row r="4"><c r="A5" t="s"><v>0</v></c></row>', "the file is damaged: it holds a cell called 'A5'"),
        ('<row r="4"><c r="C4" s="1"><v>4.6.0</v></c></row>', "the file is damaged: a number is written '4.6.0'"),
        ('<row r="3"><c r="A3" t="s"><v>0</v></c></row>',
         "the file is damaged: its rows are out of order, stand twice or lie beyond the end"),
    ],
)  # fmt: skip
def test_damage_behind_rows_that_are_alike_is_found(tmp_path, row, fact):
    with pytest.raises(WorkbookProblemsError) as caught:
        read_rows(tmp_path, sheet_xml("".join(ALIKE) + row), strings=STRINGS)
    assert [problem.fact for problem in caught.value.problems] == [fact]


def test_formulas_like_the_ones_before_are_still_watched_for_links(tmp_path):
    rows = "".join(
        f'<row r="{n}"><c r="A{n}"><f>B{n}*2</f><v>{n}</v></c></row>' for n in range(1, 6)
    ) + '<row r="6"><c r="A6"><f>[1]Prices!A1</f><v>6</v></c></row>'  # fmt: skip
    path = write_xlsx(tmp_path / "list.xlsx", sheet_xml(rows))
    sheet = load_book(path).sheets[0]
    assert sheet.rows == [[1.0], [2.0], [3.0], [4.0], [5.0], [6.0]]
    assert sheet.formulas == {(5, 0): "[1]Prices!A1"}


@pytest.mark.parametrize("most", [1 << 18, 1 << 30])
def test_one_endless_row_is_refused_before_it_fills_the_memory(tmp_path, monkeypatch, most):
    monkeypatch.setattr(xml_parts, "_MOST_PENDING", 1 << 18)
    monkeypatch.setattr(xlsx_plain, "_MOST_PENDING", most)
    cells = "".join(f'<c r="A1" s="{n}"/>' for n in range(60_000))
    with pytest.raises(WorkbookProblemsError) as caught:
        read_rows(tmp_path, f'<worksheet xmlns="{NS}"><sheetData><row r="1">{cells}')
    assert caught.value.problems[0].code == "E014"
