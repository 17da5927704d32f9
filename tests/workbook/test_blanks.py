"""The blank workbooks are what the statements say, in the repository and in a shop's folder alike."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

import openpyxl
import pytest

from estimator.problems import Level, WorkbookProblemsError
from estimator.read.cells import Book
from estimator.read.own_sheets import read_sheet
from estimator.sheets.shop_rules import WORK_RATES
from estimator.sheets.statement import Layout
from estimator.sheets.torch import TIPS
from estimator.sheets.workbooks import WORKBOOKS, StatedWorkbook
from estimator.write.blanks import blank_workbook, write_blanks
from estimator.write.own_cells import OwnUnits
from tests.workbook.test_own_sheets_round_trip import load

TEMPLATES = Path(__file__).parents[2] / "templates"


def made(stated: StatedWorkbook) -> bytes:
    file = io.BytesIO()
    blank_workbook(stated)(file)
    return file.getvalue()


@pytest.mark.parametrize("stated", WORKBOOKS, ids=lambda w: w.file)
def test_the_committed_blank_is_what_the_statements_give_now(stated: StatedWorkbook) -> None:
    committed, fresh = zipfile.ZipFile(TEMPLATES / stated.file), zipfile.ZipFile(io.BytesIO(made(stated)))
    parts = {n: committed.read(n) for n in committed.namelist()}
    assert parts == {n: fresh.read(n) for n in fresh.namelist()}, "run scripts/make_templates.py"


def test_blanks_are_written_into_a_folder_once_and_not_over_filled_ones(tmp_path: Path) -> None:
    files, warnings = write_blanks(tmp_path)
    assert (
        sorted(p.name for p in tmp_path.iterdir()) == sorted(f.name for f in files) == sorted(w.file for w in WORKBOOKS)
    )
    assert warnings == []
    with pytest.raises(WorkbookProblemsError) as caught:
        write_blanks(tmp_path)
    assert {p.code for p in caught.value.problems} == {"E801"}


def blank_book(tmp_path: Path, stated: StatedWorkbook) -> Book:
    path = tmp_path / stated.file
    path.write_bytes(made(stated))
    return load(path)


@pytest.mark.parametrize("stated", [w for w in WORKBOOKS if not w.above], ids=lambda w: w.file)
def test_a_blank_workbook_reads_without_a_misread_heading_or_example(tmp_path: Path, stated: StatedWorkbook) -> None:
    book = blank_book(tmp_path, stated)
    for sheet in stated.sheets:
        read = read_sheet(book, sheet)
        if sheet.layout is Layout.TABLE and sheet not in (WORK_RATES, TIPS):
            assert (read.rows, read.problems) == ([], []), sheet.name
        assert {p.code for p in read.problems if p.level is not Level.ERROR} == set(), sheet.name


def test_no_sheet_has_two_columns_of_one_heading() -> None:
    for sheet in [sheet for stated in WORKBOOKS for sheet in stated.sheets]:
        headings = [column.heading for column in sheet.columns]
        assert sorted(headings) == sorted(set(headings)), sheet.name


def test_built_in_figures_stand_in_the_blank_shop_book_and_look_assumed(tmp_path: Path) -> None:
    stated = next(w for w in WORKBOOKS if w.file == "shop_book.xlsx")
    book = blank_book(tmp_path, stated)
    rates, tips = read_sheet(book, WORK_RATES), read_sheet(book, TIPS)
    assert (rates.problems, tips.problems) == ([], [])
    assert len(rates.rows) > 60
    assert {row.values["bore_mm"] for row in tips.rows} >= {0.8, 1.2, 1.6}
    sheet = openpyxl.load_workbook(tmp_path / stated.file)["Work rates"]
    assert sheet["C4"].style == "Assumed"


def test_a_blank_for_an_inch_shop_says_inches(tmp_path: Path) -> None:
    file = io.BytesIO()
    blank_workbook(WORKBOOKS[0], units=OwnUnits("in"))(file)
    sheet = openpyxl.load_workbook(file)["Cut list"]
    units = {cell.value for row in sheet.iter_rows(min_row=12, max_row=16) for cell in row}
    assert "in" in units
    assert "mm" not in units
