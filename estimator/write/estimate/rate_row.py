"""The form of a row of the rates sheet."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from estimator.write.styles import Look

__all__ = ["RateRow", "RateSection"]


@dataclass(frozen=True, slots=True)
class RateRow:
    """One row of the rates sheet."""

    name: str
    """Name of the cell in formulas; rows of one table share it, one below the other."""
    what: str
    value: float | None
    unit: str = ""
    number: str = "General"
    look: Look = Look.TYPED
    formula: str = ""
    low: float | None = None
    high: float | None = None
    date: dt.date | None = None
    status: str = ""
    source: str = ""
    does: str = ""


@dataclass(frozen=True, slots=True)
class RateSection:
    """A group of rows under a title."""

    title: str
    rows: tuple[RateRow, ...]
