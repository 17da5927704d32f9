"""The binary and the older formats, OpenDocument and texts give the same cells as an .xlsx."""

from __future__ import annotations

import datetime as dt
import struct
import subprocess
import zipfile
from pathlib import Path

import openpyxl
import pytest
from python_calamine import CalamineWorkbook

from estimator.problems import WorkbookProblemsError
from estimator.read.cells import NOT_CALCULATED, CellError
from estimator.read.load import load_book
from tests.raw_xlsb import cell, record, row, wide, write_xlsb
from tests.raw_xlsx import write_parts

RK, ERROR, BOOL, REAL, TEXT, SHARED, F_TEXT, F_NUMBER, F_BOOL, F_ERROR, RICH = 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 62
NO_FORMULA = struct.pack("<HI", 0, 0) + struct.pack("<I", 0)


def every_kind_of_xlsb_cell() -> bytes:
    return (
        row(0)
        + cell(SHARED, 0, struct.pack("<I", 1))
        + cell(RK, 1, struct.pack("<i", (12 << 2) | 2))
        + cell(RK, 2, struct.pack("<i", (1250 << 2) | 3))
        + cell(RK, 3, struct.pack("<I", 0x3FF80000))
        + cell(REAL, 4, struct.pack("<d", 0.1))
        + cell(REAL, 5, struct.pack("<d", 46085.0), style=1)
        + cell(BOOL, 6, b"\1")
        + cell(ERROR, 7, b"\x17")
        + cell(TEXT, 9, wide("½ in"))
        + row(1, hidden=True)
        + cell(1, 0, style=1)
        + row(3)
        + cell(F_NUMBER, 0, struct.pack("<d", 7.0) + NO_FORMULA)
        + cell(F_TEXT, 1, wide("a") + NO_FORMULA)
        + cell(F_BOOL, 2, b"\0" + NO_FORMULA)
        + cell(F_ERROR, 3, b"\x2a" + NO_FORMULA)
        + cell(RICH, 4, b"\0" + wide("rich"))
        + cell(RK, 5, struct.pack("<i", (12 << 2) | 3), style=2)
    )


@pytest.fixture
def xlsb(tmp_path: Path) -> Path:
    behind = record(60, struct.pack("<IIIIH", 2, 3, 2000, 0, 1)) + record(176, struct.pack("<IIII", 5, 6, 0, 2))
    return write_xlsb(tmp_path / "list.xlsb", every_kind_of_xlsb_cell(), strings=("x", "Mark"), behind=behind)


def test_an_xlsb_gives_every_kind_of_cell(xlsb):
    (sheet,) = load_book(xlsb).sheets
    assert sheet.rows == [
        ["Mark", 12.0, 12.5, 1.5, 0.1, dt.datetime(2026, 3, 4), True, "#REF!", None, "½ in"],
        [],
        [],
        [7.0, "a", False, "#N/A", "rich", 0.12],
    ]
    assert isinstance(sheet.value(0, 7), CellError)
    assert isinstance(sheet.value(3, 3), CellError)
    assert dict(sheet.number_formats) == {(0, 5): "d-mmm", (3, 5): "0.0 %"}
    assert (sheet.hidden_rows, sheet.hidden_columns, sheet.merged) == ({1}, {2, 3}, [(5, 0, 6, 2)])


def test_a_second_reader_sees_the_same_values_in_an_xlsb(xlsb):
    # python-calamine is independent of ours; it gives blanks for error values and rich text, and days as dates.
    theirs = CalamineWorkbook.from_path(xlsb).get_sheet_by_name("Parts").to_python(skip_empty_area=False)
    ours = load_book(xlsb).sheets[0].rows
    compared = 0
    for our_row, their_row in zip(ours, theirs, strict=True):
        for our, their in zip(our_row, their_row, strict=False):
            if our is None or isinstance(our, CellError) or our == "rich":
                assert their == ""
            elif isinstance(our, dt.datetime):
                assert their == our.date()
            else:
                assert their == our
            compared += 1
    assert compared == 16


@pytest.fixture(scope="module")
def converted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One workbook, written anew in three formats by LibreOffice."""
    folder = tmp_path_factory.mktemp("converted")
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Parts & more"
    sheet.append(["Mark", "Thickness", "Qty", "Date", "Share"])
    sheet.append(["A1 <&>", 12.5, 4, dt.date(2026, 3, 4), 0.12])
    sheet["B2"].number_format, sheet["D2"].number_format, sheet["E2"].number_format = "# ??/??", "d-mmm", "0.0%"
    sheet["A4"], sheet["C4"], sheet["D4"], sheet["E4"] = "=1/0", "=B2*2", '=""', dt.time(6, 30)
    sheet["F6"] = " spaced\nover lines "
    sheet["A8"] = "merged"
    sheet.merge_cells("A8:C9")
    sheet.row_dimensions[5].hidden = True
    sheet.column_dimensions["C"].hidden = True
    hidden = book.create_sheet("Hidden")
    hidden.sheet_state = "hidden"
    hidden["A1"] = True
    book.save(folder / "list.xlsx")
    for kind in ("ods", "xls", "csv"):
        command = ["soffice", "--headless", f"-env:UserInstallation=file://{folder}/profile", "--convert-to", kind]
        subprocess.run([*command, "--outdir", str(folder), str(folder / "list.xlsx")], check=True, capture_output=True)
    return folder


@pytest.mark.recalculate
@pytest.mark.parametrize("kind", ["ods", "xls"])
def test_a_converted_workbook_has_the_cells_and_surroundings_of_the_original(converted, kind):
    first, second = load_book(converted / f"list.{kind}").sheets
    assert (first.name, first.state, second.name, second.state) == ("Parts & more", "visible", "Hidden", "hidden")
    assert first.rows == [
        ["Mark", "Thickness", "Qty", "Date", "Share"],
        ["A1 <&>", 12.5, 4.0, dt.datetime(2026, 3, 4), 0.12],
        [],
        ["#DIV/0!", None, 25.0, None, dt.time(6, 30)],
        [],
        [None, None, None, None, None, " spaced\nover lines "],
        [],
        ["merged"],
    ]
    assert isinstance(first.value(3, 0), CellError)
    assert second.rows == [[True]]
    assert (first.merged, first.hidden_rows, first.hidden_columns) == ([(7, 0, 8, 2)], {4}, {2})
    formats = {place: code.replace("\\", "") for place, code in first.number_formats.items()}
    assert formats == {(1, 1): "# ??/??", (1, 3): "d-mmm", (1, 4): "0.0%", (3, 4): "h:mm:ss"}


@pytest.mark.recalculate
def test_a_csv_that_a_spreadsheet_program_wrote_keeps_every_cell_as_text(converted):
    (sheet,) = load_book(converted / "list.csv").sheets
    assert sheet.rows[1] == ["A1 <&>", "12.5", "4", "03/04/2026", "12%"]
    assert sheet.value(5, 5) == " spaced\nover lines "


ODS_NAMES = " ".join(
    f'xmlns:{prefix}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
    for prefix, name in (("office", "office"), ("table", "table"), ("text", "text"), ("style", "style"))
)


def write_ods(path: Path, tables: str) -> Path:
    content = (
        f"<office:document-content {ODS_NAMES}><office:body><office:spreadsheet>{tables}"
        "</office:spreadsheet></office:body></office:document-content>"
    )
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    return write_parts(path, {"mimetype": kind, "content.xml": content})


def table(name: str, rows: str) -> str:
    return f'<table:table table:name="{name}">{rows}</table:table>'


def ods_cell(kind: str = "", value: str = "", text: str = "", more: str = "") -> str:
    stated = f' office:value-type="{kind}"' if kind else ""
    attribute = {"float": "value", "date": "date-value", "time": "time-value", "boolean": "boolean-value"}.get(kind)
    stated += f' office:{attribute}="{value}"' if attribute else ""
    return f"<table:table-cell{stated} {more}>{text and f'<text:p>{text}</text:p>'}</table:table-cell>"


# One row of cells each, with the values it means.
ODS_CELLS = {
    "repeated value": (ods_cell("float", "2", more='table:number-columns-repeated="3"'), [2.0, 2.0, 2.0]),
    "blanks to the end of the sheet": (
        ods_cell("float", "2") + ods_cell(more='table:number-columns-repeated="16383"'),
        [2.0],
    ),
    "truth": (ods_cell("boolean", "true") + ods_cell("boolean", "false"), [True, False]),
    "time of day": (ods_cell("time", "PT06H30M00S"), [dt.time(6, 30)]),
    "more than a day": (ods_cell("time", "PT36H00M00S"), [dt.datetime(1900, 1, 1, 12)]),
    "date and time": (ods_cell("date", "2026-03-04T06:00:00"), [dt.datetime(2026, 3, 4, 6)]),
    "counted spaces": (ods_cell("string", text='a<text:s text:c="3"/>b<text:tab/>c'), ["a   b\tc"]),
    "formula without a value": (ods_cell(more='table:formula="of:=1+1"'), [NOT_CALCULATED]),
    "formula with an error": (ods_cell("string", text="#REF!", more='table:formula="of:=[.A9]"'), [CellError("#REF!")]),
    "text that looks like an error": (ods_cell("string", text="#REF!"), ["#REF!"]),
    "comment beside the text": (
        '<table:table-cell office:value-type="string"><office:annotation><text:p>no</text:p></office:annotation>'
        "<text:p>yes</text:p></table:table-cell>",
        ["yes"],
    ),
}


@pytest.mark.parametrize("form", ODS_CELLS)
def test_every_form_of_an_ods_cell_is_read(tmp_path, form):
    cells, meant = ODS_CELLS[form]
    path = write_ods(
        tmp_path / "f.ods", f'<table:table table:name="A"><table:table-row>{cells}</table:table-row></table:table>'
    )
    (read,) = load_book(path).sheets[0].rows
    assert read == meant
    assert [type(value) for value in read] == [type(value) for value in meant]


def test_repeated_rows_groups_headers_and_several_tables_keep_their_row_numbers(tmp_path):
    one = f"<table:table-row>{ods_cell('float', '1')}</table:table-row>"
    two = f'<table:table-row table:number-rows-repeated="2">{ods_cell("float", "2")}</table:table-row>'
    gap = '<table:table-row table:number-rows-repeated="3"><table:table-cell/></table:table-row>'
    hidden = '<table:table-row table:visibility="filter"><table:table-cell/></table:table-row>'
    header, group = f"<table:table-header-rows>{one}</table:table-header-rows>", f"{two}{gap}"
    first = f"{header}<table:table-row-group>{group}</table:table-row-group>{hidden}{one}"
    tables = table("A", first) + table("B", gap + one)
    a, b = load_book(write_ods(tmp_path / "f.ods", tables)).sheets
    assert a.rows == [[1.0], [2.0], [2.0], [], [], [], [], [1.0]]
    assert (a.hidden_rows, a.filtered) == ({6}, True)
    assert b.rows == [[], [], [], [1.0]]


def test_a_value_from_another_file_is_kept_with_its_cell_in_an_ods(tmp_path):
    formula = "table:formula=\"of:='file:///home/x/prices.ods'#$Sheet1.A1\""
    row_xml = f"<table:table-row>{ods_cell('float', '1')}{ods_cell('float', '5', more=formula)}</table:table-row>"
    path = write_ods(tmp_path / "f.ods", table("A", row_xml))
    assert list(load_book(path).sheets[0].formulas) == [(0, 1)]


SHEET = "xl/worksheets/sheet1.bin"
ONE = struct.pack("<d", 1)
CONTRADICTIONS = {
    "sheet without its name": ("xl/workbook.bin", b"\x9c\x01\x08\0\0\0\0\0"),
    "record longer than the part": (SHEET, b"\x91\x01\0\0\x08\0\0\0"),
    "number of a record cut off": (SHEET, b"\x84"),
    "cell that stands twice": (SHEET, row(0) + cell(REAL, 3, ONE) + cell(REAL, 3, ONE)),
    "cell beyond the last column": (SHEET, row(0) + cell(REAL, 16_384, ONE)),
    "cell beyond the last row": (SHEET, row(1 << 20) + cell(REAL, 0, ONE)),
}


@pytest.mark.parametrize(("part", "wound"), CONTRADICTIONS.values(), ids=CONTRADICTIONS)
def test_an_xlsb_that_contradicts_itself_is_refused(xlsb, part, wound):
    with zipfile.ZipFile(xlsb) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    with pytest.raises(WorkbookProblemsError) as caught:
        load_book(write_parts(xlsb, parts | {part: wound}))
    assert [problem.code for problem in caught.value.problems] == ["E009"]


def test_an_xlsb_without_texts_and_styles_is_read(xlsb):
    with zipfile.ZipFile(xlsb) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    links = "xl/_rels/workbook.bin.rels"
    parts[links] = parts[links].replace(b'/styles"', b'/none"').replace(b'/sharedStrings"', b'/none"')
    parts["xl/worksheets/sheet1.bin"] = (
        row(0) + cell(REAL, 0, struct.pack("<d", 46085.0), style=1) + cell(REAL, 1, struct.pack("<d", float("inf")))
        + cell(TEXT, 2, wide("")) + record(161) + record(163)
    )  # fmt: skip
    (sheet,) = load_book(write_parts(xlsb, parts)).sheets
    assert sheet.rows == [[46085.0, "inf"]]
    assert isinstance(sheet.value(0, 1), CellError)
    assert sheet.filtered


def test_the_1904_epoch_of_an_xlsb_gives_the_same_dates(tmp_path):
    path = write_xlsb(tmp_path / "l.xlsb", row(0) + cell(REAL, 0, struct.pack("<d", 44623.0), style=1), epoch_1904=True)
    assert load_book(path).sheets[0].rows == [[dt.datetime(2026, 3, 4)]]
