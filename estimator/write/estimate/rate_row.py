"""The form of a row of the rates sheet."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from estimator.write.estimate.shop_cells import AS_HOUSE, CellUnit
from estimator.write.styles import Look

__all__ = ["RateRow", "RateSection"]


@dataclass(frozen=True, slots=True)
class RateRow:
    """One row of the rates sheet; its figures are in the house unit, ``cell`` says how they are shown."""

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
    cell: CellUnit = AS_HOUSE

    @property
    def shown_unit(self) -> str:
        """The unit of the cell."""
        return self.cell.unit or self.unit

    @property
    def shown_number(self) -> str:
        """The number format of the cell."""
        return self.cell.number(self.number)


@dataclass(frozen=True, slots=True)
class RateSection:
    """A group of rows under a title."""

    title: str
    rows: tuple[RateRow, ...]
