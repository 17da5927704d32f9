"""Bills and work logs made in memory for the tests: a small right month, one sheet or row changed each time."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from estimator.read.cells import Book, CellValue, SheetCells
from estimator.sheets.agreed_prices import AGREED_PRICES, SUPPLIER_TERMS
from estimator.sheets.bills import BILL_LINES, BILLS
from estimator.sheets.cylinder_counts import DELIVERIES, RACK_COUNTS
from estimator.sheets.cylinder_tags import CYLINDER_TAGS
from estimator.sheets.statement import Sheet
from estimator.sheets.work_log import WORK_LOG

__all__ = ["AGREED", "BILL", "COUNTS", "ENTRY", "LINES", "NOTE", "TAG", "TERM", "Row", "bills_file", "day", "log_file"]

Row = dict[str, CellValue]


def day(number: int, month: int = 3) -> dt.datetime:
    """A day of 2026 as a spreadsheet holds it."""
    return dt.datetime(2026, month, number)


GAS: Row = {"gas": "oxygen", "size": "O-10"}
BILL: Row = {
    "supplier": "Supplier A",
    "bill_number": "1",
    "bill_date": day(31),
    "period_from": day(1),
    "period_to": day(31),
    "net_total": 188.50,
    "tax_total": 18.85,
    "total": 207.35,
}
LINES: list[Row] = [
    {
        "bill_number": "1",
        "kind": "gas",
        **GAS,
        "quantity": 3.0,
        "unit": "cylinder",
        "unit_price": 42.0,
        "amount": 126.0,
        "delivery_note": "4471",
    },
    {
        "bill_number": "1",
        "kind": "rent",
        **GAS,
        "quantity": 248.0,
        "unit": "cylinder-day",
        "unit_price": 0.252,
        "amount": 62.50,
    },
]
NOTE: Row = {"note_number": "4471", "date": day(5), **GAS, "full_in": 3.0, "empty_out": 3.0, "ordered": 3.0}
COUNTS: list[Row] = [
    {"date": day(28, 2), **GAS, "full": 2.0, "part_readings": "120 bar", "empty": 5.0},
    {"date": day(31), **GAS, "full": 2.0, "part_readings": "85 bar", "empty": 5.0},
]
AGREED: list[Row] = [
    {
        "kind": "gas",
        **GAS,
        "content": "10 m³ (15 °C, 1 bar)",
        "full_pressure_bar": 200.0,
        "price": 42.0,
        "unit": "cylinder",
    },
    {"kind": "rent", **GAS, "price": 0.252, "unit": "cylinder-day"},
]
TERM: Row = {"supplier": "Supplier A", "objection_days": 30.0, "tax_rate": 0.1, "rent_rule": "daily on balance"}
ENTRY: Row = {"date": day(6), "job": "J-1", "thickness_mm": 25.0, "cut_length_m": 60.0, "flame_time_min": 300.0}
TAG: Row = {"cylinder": "O-17", **GAS, "date_on": day(3), "date_off": day(9), "jobs": "J-1"}


def bills_file(
    bills: list[Row] | None = None,
    lines: list[Row] | None = None,
    notes: list[Row] | None = None,
    counts: list[Row] | None = None,
    agreed: list[Row] | None = None,
    terms: list[Row] | None = None,
) -> Book:
    """Return a bills workbook with the usual rows where none are given."""
    sheets = [
        _table(BILLS, [BILL] if bills is None else bills),
        _table(BILL_LINES, LINES if lines is None else lines),
        _table(DELIVERIES, [NOTE] if notes is None else notes),
        _table(RACK_COUNTS, COUNTS if counts is None else counts),
        _table(AGREED_PRICES, AGREED if agreed is None else agreed),
        _table(SUPPLIER_TERMS, [TERM] if terms is None else terms),
    ]
    return Book(Path("bills.xlsx"), "0" * 64, "xlsx", sheets)


def log_file(entries: list[Row] | None = None, tags: list[Row] | None = None) -> Book:
    """Return a work log with the usual rows where none are given."""
    sheets = [_table(WORK_LOG, [ENTRY] if entries is None else entries)]
    sheets.append(_table(CYLINDER_TAGS, [] if tags is None else tags))
    return Book(Path("work_log.xlsx"), "0" * 64, "xlsx", sheets)


def _table(sheet: Sheet, rows: list[Row]) -> SheetCells:
    names = [column.name for column in sheet.columns]
    unknown = {name for row in rows for name in row} - set(names)
    if unknown:
        raise ValueError(f"sheet {sheet.name!r} has no columns {sorted(unknown)}")
    headings: list[CellValue] = [column.heading for column in sheet.columns]
    return SheetCells(sheet.name, [headings, *([row.get(name) for name in names] for row in rows)])
