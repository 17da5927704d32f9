"""The form of a sheet statement: what a sheet and its columns are, said once.

The reader, the blank templates, the problem texts and the reference pages are all made from these.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Column", "Kind", "Layout", "Sheet"]


class Kind(StrEnum):
    """What a cell of a column holds, and so which grammar reads it."""

    TEXT = "text"
    WHOLE = "whole number"
    NUMBER = "number"
    LENGTH = "length"
    """Read by the length grammar into millimetres; the house name ends in ``_mm``."""
    LENGTH_M = "length in metres"
    """Read by the length grammar into metres; the house name ends in ``_m``."""
    MONEY = "money"
    SHARE = "share"
    """Typed as 12 % or 0.12, held as 0.12."""
    DATE = "date"
    CHOICE = "choice"
    FLAG = "yes or no"
    GAS = "gas amount"
    """A number with a unit and a reference state, read by the gas grammar."""
    GAS_PRICE = "price of gas"
    """Of a full cylinder, or by amount, as 0.32 per ft3."""


class Layout(StrEnum):
    """How a sheet is laid out."""

    TABLE = "table"
    """One heading row, one record a row."""
    FORM = "form"
    """One value a row: name in column A, value in B, unit in C, what it does in D."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table, or one row of a form."""

    name: str
    """House name, its unit in the name: ``thickness_mm``."""
    heading: str
    """As printed in blanks and outputs."""
    kind: Kind
    needs: str
    """What a value must be, in words, for messages: ``a thickness above zero, as 12 mm, 1/2, 1-1/2"``."""
    why: str
    """What depends on it."""
    example: str
    required: bool = False
    unit: str = ""
    """Unit as shown to people (``mm``, ``per hour``); empty when there is none."""
    choices: tuple[str, ...] = ()
    default: str | float | bool | None = None
    """Used when the cell is blank; None when a blank stays a blank."""
    low: float | None = None
    high: float | None = None
    """Plausible bounds of what a person types, in the house unit."""
    status: str = ""
    """Provenance of the default: seen, calculated, memory, judgement, common practice."""
    source: str = ""
    wordings: tuple[str, ...] = ()
    """Other headings that mean this column."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of a workbook."""

    name: str
    """Sheet tab as printed."""
    purpose: str
    """One sentence shown at the top of the blank."""
    columns: tuple[Column, ...]
    layout: Layout = Layout.TABLE
    required: bool = True

    def column(self, name: str) -> Column:
        """Return the column with this house name; KeyError names it when there is none."""
        for column in self.columns:
            if column.name == name:
                return column
        raise KeyError(f"sheet {self.name!r} has no column {name!r}")
