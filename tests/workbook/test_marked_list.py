"""The list with its problems marked: a copy of a workbook, a table for lists of other kinds, whatever came of it."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from tests.cli.test_estimate import run

ROWS = [["Mark", "Qty", "Thickness mm", "Length mm", "Width mm"], ["P1", "?", 10, 300, 200], ["P2", 4, 12, 250, 100]]


def as_csv(folder: Path) -> Path:
    path = folder / "list.csv"
    path.write_text("\n".join(",".join(map(str, row)) for row in ROWS), encoding="utf-8")
    return path


def as_workbook(folder: Path) -> Path:
    book = openpyxl.Workbook()
    for row in ROWS:
        book.active.append(row)
    book.save(folder / "list.xlsx")
    return folder / "list.xlsx"


@pytest.mark.parametrize("options", [(), ("--partial",)])
def test_a_workbook_comes_back_as_a_copy_with_each_problem_beside_its_row(
    tmp_path: Path, options: tuple[str, ...]
) -> None:
    marked = tmp_path / "marked.xlsx"
    result = run("estimate", as_workbook(tmp_path), "--date", "2026-11-02", "--problems", marked, *options)
    assert result.exit_code == 3
    sheet = openpyxl.load_workbook(marked).active
    assert [cell.value for cell in sheet[2]][:5] == ROWS[1]
    assert str(sheet["F2"].value).startswith("E2")
    assert sheet["F2"].alignment.wrap_text
    assert sheet.column_dimensions["F"].width == 64
    assert sheet.row_dimensions[2].height >= 30
    assert sheet.row_dimensions[3].height in (None, 15)
    assert "E2" not in str(sheet["F3"].value)
    assert (tmp_path / "list_estimate.xlsx").exists() == bool(options)


def test_a_csv_list_gets_a_table_of_its_problems_in_the_kind_of_file_that_was_named(tmp_path: Path) -> None:
    path = as_csv(tmp_path)
    for name in ("marked.xlsx", "marked.csv"):
        assert run("estimate", path, "--date", "2026-11-02", "--problems", tmp_path / name).exit_code == 3
    sheet = openpyxl.load_workbook(tmp_path / "marked.xlsx")["Problems"]
    table = [[cell.value or "" for cell in row] for row in sheet.iter_rows(min_row=2)]
    assert [row[3] for row in table if row[0].startswith("E")] == ["B2"]
    lines = (tmp_path / "marked.csv").read_text(encoding="utf-8-sig").splitlines()
    assert len(lines) == 1 + len(table)


def test_a_list_that_is_priced_whole_tells_the_customer_nothing_of_the_shop(tmp_path: Path) -> None:
    path = as_workbook(tmp_path)
    book = openpyxl.load_workbook(path)
    book.active["B2"] = 3
    book.active["C2"] = '1/2"'
    book.save(path)
    marked = tmp_path / "marked.xlsx"
    assert run("estimate", path, "--date", "2026-11-02", "--problems", marked).exit_code == 0
    texts = [str(c.value) for row in openpyxl.load_workbook(marked).active.iter_rows(min_col=6) for c in row if c.value]
    assert not [text for text in texts if "XTS" in text or int(text[1:4]) >= 270]
