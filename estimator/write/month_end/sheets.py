"""What the month end's sheets share: names, money format, headings."""

from __future__ import annotations

from collections.abc import Sequence

from estimator.write.book import BookSheet
from estimator.write.styles import Look, money_format

__all__ = [
    "ANSWER",
    "BRIDGE",
    "CYLINDERS",
    "FINDINGS",
    "GAS",
    "JOBS",
    "METHOD",
    "MONTHS",
    "UNCHECKED",
    "across",
    "headings",
    "money_with_room",
    "open_sheet",
    "supplier_sheet",
]

ANSWER = "Month end"
FINDINGS = "Findings"
BRIDGE = "Where the money went"
GAS = "Gas"
CYLINDERS = "Cylinder ledger"
JOBS = "Jobs"
MONTHS = "Over the months"
METHOD = "How worked out"
UNCHECKED = "Not checked"
_TITLE_HEIGHT = 26.0
_LINE = 15.0


def money_with_room(decimals: int) -> str:
    """Return the number format of money, with a little room to its right."""
    return money_format(decimals) + "_)"


def supplier_sheet(number: int, of: int) -> str:
    """Return the name of the page for one supplier."""
    return "To the supplier" if of == 1 else f"To supplier {number}"


def open_sheet(sheet: BookSheet, title: str, guide: str, widths: Sequence[float]) -> None:
    """Give a sheet its column widths, its title in row 1 and what it shows in row 2."""
    for column, width in enumerate(widths):
        sheet.set_column(column, column, width)
    sheet.set_row(0, _TITLE_HEIGHT)
    sheet.text(0, 0, title, Look.TITLE)
    sheet.text(1, 0, guide, Look.GUIDE)


def across(sheet: BookSheet, row: int, text: str, look: Look, columns: int) -> None:
    """Write a text in the first column and give the columns it runs over the same look."""
    sheet.text(row, 0, text, look)
    for column in range(1, columns):
        sheet.blank(row, column, look)


def headings(sheet: BookSheet, row: int, names: Sequence[str], lines: int = 2) -> None:
    """Write column headings in a row high enough for them."""
    sheet.set_row(row, _LINE * lines)
    for column, name in enumerate(names):
        sheet.text(row, column, name, Look.HEADING)
