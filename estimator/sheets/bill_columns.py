"""Columns that several sheets of the bills workbook share."""

from __future__ import annotations

from estimator.sheets.choices import GASES
from estimator.sheets.statement import Column, Kind

__all__ = ["NOTE", "READINGS", "UNITS", "gas_column", "size_column", "supplier_column"]

UNITS = "cylinder, m³ (15 °C, 1 bar), Nm³, 100 ft³ (70 °F, 1 atm), kg, cylinder-month, cylinder-day, delivery, bill"
READINGS = "one reading for each cylinder, semicolons between, as 110 bar; 3/4; about 1/2; 31.5 kg"


def supplier_column(*, required: bool) -> Column:
    """Return the column of the supplier."""
    return Column(
        "supplier",
        "Supplier",
        Kind.TEXT,
        "the supplier's name, spelt the same on every sheet" + ("" if required else "; blank when there is only one"),
        "two suppliers' bills, prices and cylinders are kept apart",
        "Supplier A",
        required=required,
        wordings=("vendor", "gas supplier"),
    )


def gas_column(*, required: bool) -> Column:
    """Return the column of the gas."""
    return Column(
        "gas",
        "Gas",
        Kind.CHOICE,
        "one of: " + ", ".join(GASES) + ("" if required else "; blank where no gas is meant"),
        "each gas is counted and balanced by itself",
        "oxygen",
        required=required,
        choices=GASES,
    )


def size_column(*, required: bool) -> Column:
    """Return the column of the cylinder size."""
    return Column(
        "size",
        "Size",
        Kind.TEXT,
        "the cylinder's size, spelt the same on every sheet" + ("" if required else "; blank where none is meant"),
        "cylinders are counted by size, and a size is an amount of gas",
        "50 L",
        required=required,
        wordings=("cylinder", "cylinder size", "bottle"),
    )


NOTE = Column("note", "Note", Kind.TEXT, "anything worth keeping", "it is shown beside what was found here", "")
