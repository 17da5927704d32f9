"""The customer's own list, filled in: prices beside their rows, the reading where asked for, all else as it was."""

from __future__ import annotations

import io
import re
import zipfile
from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest
from openpyxl.formatting.rule import CellIsRule
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.worksheet.datavalidation import DataValidation

from estimator.pricing.job import Estimate, JobOrder
from estimator.problems import WorkbookProblemsError
from estimator.tasks import ReadOptions, estimate_list, read_list
from estimator.write.fill import fill_problems, filled_workbook
from estimator.write.fill_columns import price_fillings
from tests.samples.estimates import own_shop
from tests.samples.jobs import DATE
from tests.workbook.test_quote import secrets

HEADINGS = ["Mark", "Qty", "Thickness", "Length mm", "Width mm", "Steel", "Double"]
ROWS = [
    ["P1", 4, '1/2"', 300, 200, "ours", "=B5*2"],
    ["P2", 2, "20 mm", 250, 120, "theirs", "=B6*2"],
    ["P3", 7, "12", 400, 90, "ours", "=B7*2"],
]


def customers_list(path: Path) -> Path:
    """Write a list with what a copy loses most easily."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Parts"
    sheet.merge_cells("A1:G1")
    sheet["A1"] = "Frames (invented)"
    sheet["A1"].font = Font(bold=True, size=14)
    for column, heading in enumerate(HEADINGS, 1):
        sheet.cell(4, column, heading).fill = PatternFill("solid", fgColor="DDDDDD")
    for row, values in enumerate(ROWS, 5):
        for column, value in enumerate(values, 1):
            sheet.cell(row, column, value).alignment = Alignment(horizontal="center")
    sheet["B5"].number_format = "0.0"
    sheet.column_dimensions["C"].width = 21.5
    sheet.column_dimensions.group("J", "M", hidden=True)
    sheet.row_dimensions[6].height = 31
    sheet["A5"].comment = openpyxl.comments.Comment("see drawing", "them")
    choice = DataValidation(type="list", formula1='"ours,theirs"')
    choice.add("F5:F7")
    sheet.add_data_validation(choice)
    sheet.conditional_formatting.add("B5:B7", CellIsRule(operator="greaterThan", formula=["5"], font=Font(bold=True)))
    sheet.print_area = "A1:G7"
    book.save(path)
    return path


def priced(path: Path, **order: bool) -> Estimate:
    shop = own_shop()
    listed = read_list(path, ReadOptions(), shop)
    return estimate_list(listed.cuts, shop, JobOrder(date=DATE, **order), listed.problems)


def filled(path: Path, estimate: Estimate, *, read_as: bool = False) -> openpyxl.Workbook:
    data = filled_workbook(path.read_bytes(), price_fillings(estimate, read_as=read_as), name=path.name)
    return openpyxl.load_workbook(io.BytesIO(data))


@pytest.mark.parametrize("ending", [".xlsx", ".xlsm"])
@pytest.mark.parametrize("read_as", [False, True])
def test_all_that_was_in_the_list_is_as_it_was(tmp_path: Path, ending: str, read_as: bool) -> None:
    path = customers_list(tmp_path / f"list{ending}")
    before = openpyxl.load_workbook(path)["Parts"]
    after = filled(path, priced(path), read_as=read_as)["Parts"]
    for row in before.iter_rows(max_col=7):
        for cell in row:
            other = after[cell.coordinate]
            assert (other.value, other.data_type) == (cell.value, cell.data_type)
            assert other.number_format == cell.number_format
            for part in ("font", "fill", "alignment", "border", "protection"):
                assert repr(getattr(other, part)) == repr(getattr(cell, part))
    assert after["A5"].comment.text == "see drawing"
    for letter in "ABCDEFG":
        assert after.column_dimensions[letter].width == before.column_dimensions[letter].width
    assert after.row_dimensions[6].height == 31
    assert str(after.merged_cells) == str(before.merged_cells)
    assert [str(v.sqref) for v in after.data_validations.dataValidation] == ["F5:F7"]
    assert [str(r.sqref) for r in after.conditional_formatting] == ["B5:B7"]
    assert after.print_area == before.print_area


def test_prices_stand_under_their_headings_beside_their_rows(tmp_path: Path) -> None:
    path = customers_list(tmp_path / "list.xlsx")
    estimate = priced(path)
    sheet = filled(path, estimate)["Parts"]
    assert [cell.value for cell in sheet[4]][7:] == ["Price each XTS", "Amount XTS"]
    for line, row in enumerate((5, 6, 7)):
        assert sheet.cell(row, 8).value == estimate.lines.price_each[line] / 100
        assert sheet.cell(row, 9).value == estimate.lines.price[line] / 100
        assert sheet.cell(row, 8).number_format == "#,##0.00"
    assert sheet.max_column == 9


def test_how_each_row_was_read_stands_beside_the_prices_when_asked_for(tmp_path: Path) -> None:
    path = customers_list(tmp_path / "list.xlsx")
    sheet = filled(path, priced(path), read_as=True)["Parts"]
    assert [cell.value for cell in sheet[4]][9:] == [
        "Quantity read",
        "Thickness read, mm",
        "Piece read, mm",
        "Steel read",
        "Notes on reading",
    ]
    read = [[sheet.cell(row, column).value for column in range(10, 15)] for row in (5, 6, 7)]
    assert read[0][:4] == [4, 12.7, "rectangle 300 x 200", "ours"]
    assert '“1/2"” read as 1/2 in' in read[0][4]
    assert read[1] == [2, 20, "rectangle 250 x 120", "theirs", None]
    assert read[2][:4] == [7, 12, "rectangle 400 x 90", "ours"]
    assert sheet["K5"].number_format == "General"


def test_hidden_columns_that_the_new_ones_reach_into_are_shown_and_the_rest_stays_hidden(tmp_path: Path) -> None:
    path = customers_list(tmp_path / "list.xlsx")
    data = filled_workbook(path.read_bytes(), price_fillings(priced(path), read_as=True))
    markup = zipfile.ZipFile(io.BytesIO(data)).read("xl/worksheets/sheet1.xml").decode()
    columns = markup.split("<col ")[1:]
    seen = {part.split('min="')[1].split('"')[0]: "hidden" in part.split("/>")[0] for part in columns}
    assert not any(seen[str(at)] for at in range(8, 15))
    assert "hidden" not in "".join(part for part in columns if 'min="10"' in part)


def test_tables_side_by_side_each_get_their_own_prices(tmp_path: Path) -> None:
    path = tmp_path / "list.xlsx"
    book = openpyxl.Workbook()
    heads = ["Mark", "Qty", "Thickness mm", "Length mm", "Width mm"]
    book.active.append([*heads, None, *heads])
    book.active.append(["A1", 3, 10, 200, 100, None, "B1", 2, 12, 300, 100])
    book.active.append(["A2", 2, 10, 300, 100, None, "B2", 4, 12, 100, 100])
    book.save(path)
    estimate = priced(path)
    assert estimate.cuts.mark == ["A1", "A2", "B1", "B2"]
    sheet = filled(path, estimate).active
    assert [cell.value for cell in sheet[1]][11:] == [
        "Price each XTS, table 1",
        "Amount XTS, table 1",
        "Price each XTS, table 2",
        "Amount XTS, table 2",
    ]
    amounts = [sheet.cell(row, column).value for column in (13, 15) for row in (2, 3)]
    assert amounts == [price / 100 for price in estimate.lines.price]
    assert sheet["O2"].number_format == sheet["M2"].number_format == "#,##0.00"


def test_headings_stand_in_the_row_of_headings_though_a_row_of_units_is_below_it(tmp_path: Path) -> None:
    path = tmp_path / "list.xlsx"
    book = openpyxl.Workbook()
    book.active.append(["Mark", "Qty", "Thickness", "Length", "Width"])
    book.active.append([None, "pcs", "mm", "mm", "mm"])
    book.active.append(["A1", 3, 10, 200, 100])
    book.save(path)
    sheet = filled(path, priced(path)).active
    assert (sheet["F1"].value, sheet["F2"].value) == ("Price each XTS", None)


def test_a_row_without_a_price_says_so(tmp_path: Path) -> None:
    path = customers_list(tmp_path / "list.xlsx")
    book = openpyxl.load_workbook(path)
    book["Parts"]["B6"] = "about ten"
    book.save(path)
    estimate = priced(path, partial=True)
    sheet = filled(path, estimate, read_as=True)["Parts"]
    assert [sheet.cell(6, column).value for column in (8, 9, 10)] == ["not priced", None, None]
    assert sheet["H5"].value == estimate.lines.price_each[0] / 100


def test_invented_prices_are_never_filled_in(tmp_path: Path) -> None:
    path = customers_list(tmp_path / "list.xlsx")
    estimate = priced(path)
    example = replace(estimate, shop=own_shop(prices_are_examples=True))
    with pytest.raises(WorkbookProblemsError, match="E817"):
        price_fillings(example)


def test_force_does_not_fill_a_list_of_another_kind() -> None:
    assert [p.code for p in fill_problems("list.csv", b"Mark,Qty", force=True)] == ["E814"]


def test_the_filled_list_tells_prices_and_the_reading_and_no_figure_of_the_shop(tmp_path: Path) -> None:
    path = customers_list(tmp_path / "list.xlsx")
    estimate = priced(path)
    sheet = filled(path, estimate, read_as=True)["Parts"]
    added = [cell.value for row in sheet.iter_rows(min_col=8) for cell in row if cell.value is not None]
    told = {price / 100 for price in (*estimate.lines.price_each, *estimate.lines.price)}
    told |= set(estimate.cuts.quantity) | set(estimate.cuts.thickness_mm)
    assert {value for value in added if not isinstance(value, str)} <= told
    words = " ".join(value for value in added if isinstance(value, str))
    hidden = {name: value for name, value in secrets(estimate).items() if value not in told}
    assert len(hidden) > 20
    for name, value in hidden.items():
        assert not re.search(rf"(?<![\d.]){re.escape(f'{value:.2f}')}(?!\d)", words), name
