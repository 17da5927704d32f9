"""The second program really calculates: a wrong stored value comes back right."""

from __future__ import annotations

from pathlib import Path

import pytest

from estimator.write.book import OutputBook, write_book
from estimator.write.save import save
from tests.cross_check.recalculate import recalculated, stored, with_cells

pytestmark = pytest.mark.recalculate


def build(book: OutputBook) -> None:
    sheet = book.sheet("Sums")
    sheet.number(0, 0, 2.0)
    sheet.worked(1, 0, "=A1*3", 999.0)
    sheet.worked(2, 0, "=1/0", 1.0)
    sheet.worked(3, 0, "=ROUND(1.005,2)", 1.01)


def test_a_wrong_stored_value_is_put_right_and_an_error_shows(tmp_path: Path) -> None:
    path = tmp_path / "sums.xlsx"
    save(path, write_book(build, title="Sums"))
    assert stored(path)["Sums", "A2"] == 999
    values = recalculated(path)
    assert values["Sums", "A2"] == 6
    assert values["Sums", "A3"] == "#DIV/0!"
    assert values["Sums", "A4"] == 1.01


def test_a_changed_cell_reaches_the_formulas_that_use_it(tmp_path: Path) -> None:
    path = tmp_path / "sums.xlsx"
    save(path, write_book(build, title="Sums"))
    changed = with_cells(path, tmp_path / "changed.xlsx", {("Sums", "A1"): 5})
    assert recalculated(changed)["Sums", "A2"] == 15
