"""What a loader hands on: a book of sheets whose cells keep their place, with what the values alone do not tell."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

__all__ = ["NOT_CALCULATED", "Book", "CellError", "CellValue", "NotCalculated", "SheetCells", "column_letters"]


class CellError(str):
    """An error value such as ``#REF!``; never a text and never a blank."""

    __slots__ = ()


class NotCalculated:
    """A formula without a stored value; there is one, ``NOT_CALCULATED``."""

    __slots__ = ()

    def __repr__(self) -> str:
        return "a formula without a stored value"


NOT_CALCULATED = NotCalculated()

CellValue = str | float | bool | dt.datetime | dt.date | dt.time | CellError | NotCalculated | None
"""Numbers are floats; a blank is None."""


@dataclass(slots=True)
class SheetCells:
    """One sheet. Rows and columns are counted from 0 here; row 0 is the spreadsheet's row 1, column 0 its column A."""

    name: str
    rows: list[list[CellValue]]
    """Ragged: a short row has blanks to its right."""
    state: str = "visible"
    """visible, hidden or very hidden."""
    number_formats: Mapping[tuple[int, int], str] = field(default_factory=dict)
    """Number format of each cell whose format is not General, where the file has formats."""
    formulas: Mapping[tuple[int, int], str] = field(default_factory=dict)
    """Formula text of cells whose formula looks outside the file; others are left out."""
    merged: list[tuple[int, int, int, int]] = field(default_factory=list)
    """Merged ranges: first row, first column, last row, last column."""
    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    filtered: bool = False
    """Whether a filter is set, so that hidden rows are rows that it leaves out."""

    def value(self, row: int, column: int) -> CellValue:
        """Return the value at a place; None outside the stored rows."""
        if 0 <= row < len(self.rows) and 0 <= column < len(self.rows[row]):
            return self.rows[row][column]
        return None


@dataclass(slots=True)
class Book:
    """A file that was read, whole."""

    path: Path
    sha256: str
    kind: str
    """xlsx, xlsm, xls, xlsb, ods, csv or tsv."""
    sheets: list[SheetCells]
    decimal: str = ""
    """Decimal mark of numbers typed as text, where a text file shows it; empty elsewhere."""
    macros: bool = False
    """Whether the file carries macros; they are never run."""


def column_letters(column: int) -> str:
    """Return the letters of a column counted from 0 (0 is A, 27 is AB)."""
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters
