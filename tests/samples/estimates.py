"""Estimates on disk as an owner would have them, typed in as an owner would."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import openpyxl

from estimator.check.shop_book import ShopBook
from estimator.pricing.job import Estimate
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.save import save
from tests.samples.jobs import changed_shop

__all__ = ["heading_cell", "named_cell", "own_shop", "rate_cell", "saved_again", "typed_in", "written"]


def own_shop(**changed: object) -> ShopBook:
    """A shop with prices of its own, so that it may quote; the figures are invented."""
    return changed_shop(**{"prices_are_examples": False, **changed})


def written(estimate: Estimate, path: Path) -> Path:
    """Write an estimate and return where."""
    save(path, estimate_workbook(estimate), force=True)
    return path


def typed_in(book: Path, copy: Path, changes: Mapping[tuple[str, str], object]) -> Path:
    """Write a copy with cells typed over by a program that does not calculate."""
    changed = openpyxl.load_workbook(book)
    for (sheet, cell), value in changes.items():
        changed[sheet][cell].value = value
    changed.save(copy)
    return copy


def saved_again(book: Path) -> None:
    """Open a workbook in another program and save it, with nothing typed."""
    openpyxl.load_workbook(book).save(book)


def rate_cell(book: Path, what: str, unit: str | None = None) -> tuple[str, str]:
    """Return the cell of a figure on the sheet of rates, by its name and, where two have it, its unit."""
    sheet = openpyxl.load_workbook(book)["Rates"]
    rows = [row for row in sheet.iter_rows() if row[0].value == what and unit in (None, row[2].value)]
    assert len(rows) == 1, f"{what}: {len(rows)} rows"
    return "Rates", rows[0][1].coordinate


def heading_cell(book: Path, heading: str, line: int) -> tuple[str, str]:
    """Return the cell of a line under a heading of the sheet of lines; lines count from 0."""
    sheet = openpyxl.load_workbook(book)["Lines"]
    head = next(row for row in sheet.iter_rows() if row[0].value == "Row")
    column = next(cell.column_letter for cell in head if cell.value == heading)
    return "Lines", f"{column}{head[0].row + 2 + line}"


def setting_cell(book: Path, heading: str) -> tuple[str, str]:
    """Return the cell of the first torch setting under a heading of the sheet of settings."""
    sheet = openpyxl.load_workbook(book)["Tip settings"]
    head = next(row for row in sheet.iter_rows() if row[0].value == "Tip")
    column = next(cell.column_letter for cell in head if cell.value == heading)
    return "Tip settings", f"{column}{head[0].row + 3}"


def named_cell(book: Path, name: str) -> tuple[str, str]:
    """Return the cell of a name."""
    sheet, cell = openpyxl.load_workbook(book).defined_names[name].attr_text.split("!")
    return sheet.strip("'"), cell.replace("$", "")
