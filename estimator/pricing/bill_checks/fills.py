"""Cylinders that came part full, where what was in them was read on receipt."""

from __future__ import annotations

from collections import defaultdict

import numpy as np

from estimator.check.bills import Bill, BillLine, Delivery
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.bill_checks.finding import Finding, FindingKind
from estimator.pricing.cylinder_content import CylinderSize, ReadingDoubts, gas_in_cylinder

__all__ = ["short_fills"]

_COVERAGE = 2.0


def short_fills(checking: Checking, doubts: ReadingDoubts | None = None) -> list[Finding]:
    """Find sizes whose cylinders came with less gas than agreed, beyond what the readings leave in doubt.

    Parameters
    ----------
    checking : Checking
        The workbook under check, duplicates set aside.
    doubts : ReadingDoubts, optional
        Standard uncertainties of readings; those of the shop book when left out.

    Returns
    -------
    list of Finding
        One for each bill, gas and size; the money is for the cylinders that were read.

    Notes
    -----
    The mean of the read cylinders of a bill's days is set beside a full one; gauge or scale is shared by all of them,
    so that reading more cylinders does not make it better. The shortfall must be twice its standard uncertainty.
    Source: definition.
    """
    doubts = doubts or checking.doubts
    findings = []
    for bill, lines in checking.bills():
        read: dict[tuple[str, str], list[tuple[Delivery, float, float]]] = defaultdict(list)
        gas_lines = [n for n in lines if n.kind == "gas" and n.amount > 0]
        for note in _notes(checking, gas_lines):
            size = checking.size_of(note.gas, note.size, note.supplier)
            if size is not None:
                read[note.gas, note.size] += [(note, *values) for values in _read(note, size, doubts)]
        for (gas, size_name), readings in read.items():
            known = checking.size_of(gas, size_name, bill.supplier)
            if known is not None and readings:
                findings += _short(checking, bill, gas_lines, known, readings)
    return findings


def _notes(checking: Checking, lines: list[BillLine]) -> list[Delivery]:
    named = {(n.supplier, n.delivery_note, n.gas, n.size) for n in lines if n.delivery_note}
    return [d for d in checking.book.deliveries if (d.supplier, d.note_number, d.gas, d.size) in named]


def _read(note: Delivery, size: CylinderSize, doubts: ReadingDoubts) -> list[tuple[float, float]]:
    """Return amount and standard uncertainty of each cylinder that was read, where the size lets it be read."""
    found = []
    for reading in note.readings_in:
        try:
            gas = gas_in_cylinder(reading, size, doubts)
        except ValueError:
            continue
        found.append((gas.amount_m3, gas.doubt_m3))
    return found


def _short(
    checking: Checking,
    bill: Bill,
    lines: list[BillLine],
    size: CylinderSize,
    readings: list[tuple[Delivery, float, float]],
) -> list[Finding]:
    amounts = np.array([amount for _, amount, _ in readings])
    doubt = float(np.mean([each for _, _, each in readings]))  # shared: one gauge reads them all
    short_m3 = size.content_m3 - float(amounts.mean())
    if short_m3 <= _COVERAGE * doubt:
        return []
    mine = [n for n in lines if (n.gas, n.size) == (size.gas, size.size)]
    cylinders = sum(d.full_in for d in {id(d): d for d, _, _ in readings}.values())
    paid = sum(n.amount for n in mine if any(d.note_number == n.delivery_note for d, _, _ in readings))
    money = checking.minor(paid / cylinders * len(readings) * short_m3 / size.content_m3) if cylinders else 0
    share = short_m3 / size.content_m3
    notes = ", ".join(dict.fromkeys(d.note_number for d, _, _ in readings))
    return [
        checking.found(
            FindingKind.SHORT_FILL,
            bill,
            money,
            f"{len(readings)} {size.gas} {size.size} came {share:.0%} short on average (note {notes}; readings leave "
            f"{_COVERAGE * doubt / size.content_m3:.0%} in doubt)",
            expected=f"{size.content_m3:.3g} m³ each",
            found=f"{float(amounts.mean()):.3g} m³ each",
            evidence=tuple(d.at("readings_in") for d, _, _ in readings),
            gas=size.gas,
            size=size.size,
        )
    ]
