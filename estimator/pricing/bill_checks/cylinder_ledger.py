"""The shop's own ledger of cylinders: a count rolled to any day by the notes. Counts need not fall on a bill's days."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass

from estimator.check.bills import BillsBook, Delivery, RackCount
from estimator.pricing.ledger import ONE_DAY, Ledger, Movement

__all__ = ["CylinderKind", "LedgerOfKind", "ledger_of", "ledgers"]


@dataclass(frozen=True, slots=True, order=True)
class CylinderKind:
    """Cylinders that are counted together."""

    supplier: str
    gas: str
    size: str
    owner: str


@dataclass(frozen=True, slots=True)
class LedgerOfKind:
    """One kind's ledger, with the rows it was made of."""

    kind: CylinderKind
    ledger: Ledger
    counts: tuple[tuple[dt.date, int], ...]
    """Counted cylinders at the end of each day of a count, in order."""
    count_rows: tuple[RackCount, ...]
    notes: tuple[Delivery, ...]


def ledgers(book: BillsBook) -> list[LedgerOfKind]:
    """Ledgers of every kind of cylinder that was counted at least once.

    Parameters
    ----------
    book : BillsBook
        Counts and delivery notes.

    Returns
    -------
    list of LedgerOfKind
        In the order of the counts.

    Notes
    -----
    The first count is rolled back to the first day that a bill or a note names, and forward by the notes. A count holds
    for the end of its day. Source: definition.
    """
    kinds = dict.fromkeys(CylinderKind(c.supplier, c.gas, c.size, c.owner) for c in book.counts)
    return [_ledger(book, kind) for kind in kinds]


def ledger_of(book: BillsBook, kind: CylinderKind) -> LedgerOfKind | None:
    """Return the ledger of one kind; None when it was never counted."""
    return next((ledger for ledger in ledgers(book) if ledger.kind == kind), None)


def _ledger(book: BillsBook, kind: CylinderKind) -> LedgerOfKind:
    rows = [c for c in book.counts if CylinderKind(c.supplier, c.gas, c.size, c.owner) == kind]
    notes = [d for d in book.deliveries if CylinderKind(d.supplier, d.gas, d.size, d.owner) == kind]
    by_day: dict[dt.date, int] = defaultdict(int)
    for row in rows:
        by_day[row.date] += row.cylinders
    first_count = min(by_day)
    starts = [first_count + ONE_DAY, *(d.date for d in notes)]
    starts += [bill.first_day - 62 * ONE_DAY for bill in book.bills]
    before = sum(d.full_in - d.empty_out for d in notes if d.date <= first_count)
    movements = tuple(Movement(d.date, d.full_in, d.empty_out) for d in notes)
    ledger = Ledger(min(starts), by_day[first_count] - before, movements)
    return LedgerOfKind(kind, ledger, tuple(sorted(by_day.items())), tuple(rows), tuple(notes))
