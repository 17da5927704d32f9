"""Checked records of the bills workbook. Amounts stay as typed, in the major unit; ``pricing`` makes money of them."""

from __future__ import annotations

import datetime as dt
from typing import Any

from pydantic import BaseModel, ConfigDict, field_validator

from estimator.check.record import SheetRecord
from estimator.read.billed_unit import BilledUnit, read_billed_unit
from estimator.read.cylinder_reading import CylinderReading, read_cylinders
from estimator.read.gas_text import GasText, read_gas_text

__all__ = ["AgreedPrice", "Bill", "BillLine", "BillsBook", "Delivery", "RackCount", "SupplierTerms"]


class Bill(SheetRecord):
    """One bill or credit note, as printed at its head and foot."""

    supplier: str
    bill_number: str
    bill_date: dt.date
    kind: str = "bill"
    period_from: dt.date | None = None
    period_to: dt.date | None = None
    due_date: dt.date | None = None
    net_total: float | None = None
    tax_total: float | None = None
    total: float
    currency: str = ""
    note: str = ""

    @property
    def first_day(self) -> dt.date:
        """First day the bill covers: as typed, or the first of the month it ends in."""
        return self.period_from or self.last_day.replace(day=1)

    @property
    def last_day(self) -> dt.date:
        """Last day the bill covers: as typed, or the bill date."""
        return self.period_to or self.bill_date


class BillLine(SheetRecord):
    """One printed line."""

    supplier: str = ""
    bill_number: str
    kind: str
    description: str = ""
    gas: str = ""
    size: str = ""
    quantity: float | None = None
    unit: BilledUnit | None = None
    unit_price: float | None = None
    amount: float
    delivery_note: str = ""
    date: dt.date | None = None
    note: str = ""

    @field_validator("unit", mode="before")
    @classmethod
    def _unit(cls, value: Any) -> Any:
        return read_billed_unit(value) if isinstance(value, str) else value


class Delivery(SheetRecord):
    """One kind of cylinder on one delivery or return note."""

    supplier: str = ""
    note_number: str
    date: dt.date
    gas: str
    size: str
    full_in: int = 0
    empty_out: int = 0
    ordered: int | None = None
    owner: str = "rented"
    readings_in: tuple[CylinderReading, ...] = ()
    readings_out: tuple[CylinderReading, ...] = ()
    credit_due: float | None = None
    note: str = ""

    @field_validator("readings_in", "readings_out", mode="before")
    @classmethod
    def _readings(cls, value: Any) -> Any:
        return read_cylinders(value) if isinstance(value, str) else value


class RackCount(SheetRecord):
    """One kind of cylinder on the rack at the end of a day."""

    date: dt.date
    supplier: str = ""
    gas: str
    size: str
    owner: str = "rented"
    full: int
    part_readings: tuple[CylinderReading, ...] = ()
    empty: int = 0
    note: str = ""

    @field_validator("part_readings", mode="before")
    @classmethod
    def _readings(cls, value: Any) -> Any:
        return read_cylinders(value) if isinstance(value, str) else value

    @property
    def cylinders(self) -> int:
        """All cylinders, full, part used and empty."""
        return self.full + len(self.part_readings) + self.empty


class AgreedPrice(SheetRecord):
    """One agreed price with the days it holds."""

    supplier: str = ""
    kind: str
    description: str = ""
    gas: str = ""
    size: str = ""
    content: GasText | None = None
    full_pressure_bar: float | None = None
    tare_kg: float | None = None
    price: float
    unit: BilledUnit
    valid_from: dt.date | None = None
    valid_to: dt.date | None = None
    document: str = ""

    @field_validator("content", mode="before")
    @classmethod
    def _content(cls, value: Any) -> Any:
        return read_gas_text(value) if isinstance(value, str) else value

    @field_validator("unit", mode="before")
    @classmethod
    def _unit(cls, value: Any) -> Any:
        return read_billed_unit(value) if isinstance(value, str) else value

    def holds_on(self, day: dt.date) -> bool:
        """Return whether the price is in force on a day."""
        return (self.valid_from or dt.date.min) <= day <= (self.valid_to or dt.date.max)


class SupplierTerms(SheetRecord):
    """How one supplier rounds, taxes, counts rent, and how long it may be disputed."""

    supplier: str
    objection_days: int | None = None
    tax_rate: float | None = None
    tax_way: str = "on the total"
    line_rounding: float = 0.01
    rent_rule: str = ""
    rent_period_ends: int | None = None
    free_days: int = 0


class BillsBook(BaseModel):
    """All sheets of a bills workbook, rows in the sheets' order, suppliers filled in."""

    model_config = ConfigDict(frozen=True)

    bills: tuple[Bill, ...] = ()
    lines: tuple[BillLine, ...] = ()
    deliveries: tuple[Delivery, ...] = ()
    counts: tuple[RackCount, ...] = ()
    prices: tuple[AgreedPrice, ...] = ()
    terms: tuple[SupplierTerms, ...] = ()

    @property
    def suppliers(self) -> tuple[str, ...]:
        """Suppliers that sent a bill, in the order of the bills."""
        return tuple(dict.fromkeys(bill.supplier for bill in self.bills))

    def lines_of(self, bill: Bill) -> tuple[BillLine, ...]:
        """Return the lines of one bill."""
        key = (bill.supplier, bill.bill_number)
        return tuple(line for line in self.lines if (line.supplier, line.bill_number) == key)

    def terms_of(self, supplier: str) -> SupplierTerms:
        """Return a supplier's terms; the bare defaults when none are typed."""
        return next((t for t in self.terms if t.supplier == supplier), SupplierTerms(supplier=supplier))
