"""Columns that nobody reads go to the estimate as they stand, and on to the copy that a quote keeps."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from estimator.write.save import save
from estimator.write.shop_book import shop_book_workbook
from tests.cli.test_estimate import run
from tests.samples.jobs import changed_shop

HEADINGS = ("Mark", "Qty", "Thickness mm", "Shape", "Size A mm", "Size B mm", "Steel", "Zxqv", "Bay no")
ROWS = [
    ("P1", 2, 10, "rectangle", 200, 300, "ours", "@SUM(1)", 7),
    ("P2", 3, 12, "rectangle", 150, 150, "ours", None, 8.5),
]
AS_THEY_STAND = [("Row", "Mark", "Zxqv", "Bay no"), (2, "P1", "@SUM(1)", 7), (3, "P2", None, 8.5)]


def from_the_list(path: Path) -> list[tuple[object, ...]]:
    sheet = openpyxl.load_workbook(path)["From the list"]
    rows = [row for row in sheet.iter_rows(values_only=True) if any(cell is not None for cell in row[1:])]
    at = next(i for i, row in enumerate(rows) if row[0] == "Row")
    return rows[at:]


@pytest.fixture
def estimate(tmp_path: Path) -> Path:
    shop, cut_list = tmp_path / "shop.xlsx", tmp_path / "list.xlsx"
    save(shop, shop_book_workbook(changed_shop(prices_are_examples=False), title="Shop book"))
    book = openpyxl.Workbook()
    for row in (HEADINGS, *ROWS):
        book.active.append(row)
    book.save(cut_list)
    result = run("estimate", cut_list, "--shop", shop, "--date", "2026-11-02")
    assert result.exit_code == 0, result.output
    assert "N128" in result.output
    return tmp_path / "list_estimate.xlsx"


def test_cells_stand_line_by_line_as_texts_and_numbers_and_never_as_formulas(estimate: Path) -> None:
    assert from_the_list(estimate) == AS_THEY_STAND
    sheet = openpyxl.load_workbook(estimate)["From the list"]
    assert all(cell.data_type != "f" for row in sheet.iter_rows() for cell in row)


def test_the_estimate_that_a_quote_keeps_holds_them_still(estimate: Path, tmp_path: Path) -> None:
    result = run("quote", estimate, "--number", "Q-0044", "--out", tmp_path / "quote.xlsx")
    assert result.exit_code == 0, result.output
    assert from_the_list(tmp_path / "Q-0044_A_estimate.xlsx") == AS_THEY_STAND
    texts = {
        str(c.value) for ws in openpyxl.load_workbook(tmp_path / "quote.xlsx") for row in ws.iter_rows() for c in row
    }
    assert not texts & {"@SUM(1)", "Zxqv"}


def test_a_list_whose_columns_are_all_read_has_no_such_sheet(tmp_path: Path) -> None:
    cut_list = tmp_path / "list.csv"
    cut_list.write_text("Mark,Qty,Thickness mm,Cut length mm,Steel\nP1,2,10,900,theirs\n", encoding="utf-8")
    assert run("estimate", cut_list, "--date", "2026-11-02").exit_code == 0
    assert "From the list" not in openpyxl.load_workbook(tmp_path / "list_estimate.xlsx").sheetnames
