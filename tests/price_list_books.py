"""Price-list workbooks made in memory for the tests: an invented pair of suppliers, one sheet changed at a time."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from estimator.read.cells import Book, CellValue, SheetCells
from estimator.sheets.gas_demand import COMPARISON, DEMAND
from estimator.sheets.price_list import OFFERS
from estimator.sheets.price_terms import FEES, TERMS
from estimator.sheets.statement import Layout, Sheet

__all__ = ["DAY", "FEE", "FORM", "OFFER", "TERM", "USE", "price_list_book"]

DAY = dt.datetime(2026, 1, 1)
OFFER: dict[str, CellValue] = {
    "supplier": "Ash (invented)",
    "gas": "oxygen",
    "cylinder": "L50",
    "content": 10.6,
    "content_unit": "m3",
    "content_state": "15 °C, 1 bar",
    "price": 34.0,
    "priced_per": "cylinder",
    "rent_rule": "month-end balance",
    "rent": 6.5,
    "valid_from": DAY,
}
TERM: dict[str, CellValue] = {"supplier": "Ash (invented)", "lead_time_days": 2.0}
FEE: dict[str, CellValue] = {
    "supplier": "Ash (invented)",
    "fee": "delivery",
    "charged": "each delivery",
    "amount": 12.0,
    "valid_from": DAY,
}
USE: dict[str, CellValue] = {"gas": "oxygen", "amount": 40.0, "unit": "m3", "state": "15 °C, 1 bar"}
FORM: dict[str, CellValue] = {"on_date": dt.datetime(2026, 3, 2), "currency": "XTS"}

Rows = list[dict[str, CellValue]]


def price_list_book(
    offers: Rows | None = None,
    terms: Rows | None = None,
    fees: Rows | None = None,
    uses: Rows | None = None,
    form: dict[str, CellValue] | None = None,
) -> Book:
    """Return a workbook with the usual rows where none are given."""
    sheets = [
        _table(OFFERS, [OFFER] if offers is None else offers),
        _table(TERMS, [TERM] if terms is None else terms),
        _table(FEES, [FEE] if fees is None else fees),
        _table(DEMAND, [USE] if uses is None else uses),
        _form(COMPARISON, FORM if form is None else form),
    ]
    return Book(Path("price_lists.xlsx"), "0" * 64, "xlsx", sheets)


def _table(sheet: Sheet, rows: Rows) -> SheetCells:
    assert sheet.layout is Layout.TABLE
    names = [column.name for column in sheet.columns]
    assert all(set(row) <= set(names) for row in rows)
    headings: list[CellValue] = [column.heading for column in sheet.columns]
    return SheetCells(sheet.name, [headings, *([row.get(name) for name in names] for row in rows)])


def _form(sheet: Sheet, values: dict[str, CellValue]) -> SheetCells:
    assert sheet.layout is Layout.FORM
    return SheetCells(sheet.name, [[column.heading, values.get(column.name)] for column in sheet.columns])
