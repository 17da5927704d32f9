"""Cylinder balance: what was counted, plus what came, less what went, against the next count, size by size."""

from __future__ import annotations

from itertools import pairwise

from estimator.check.bills import Bill
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.bill_checks.cylinder_ledger import LedgerOfKind, ledgers
from estimator.pricing.bill_checks.finding import Finding, FindingKind

__all__ = ["cylinder_balance"]


def cylinder_balance(checking: Checking) -> list[Finding]:
    """Find counts that the delivery notes do not explain.

    Parameters
    ----------
    checking : Checking
        The workbook under check.

    Returns
    -------
    list of Finding
        Without money: a missing cylinder costs what the supplier asks for it, which is not known here.

    Notes
    -----
    opening + in - out = closing, from each count to the next. Source: definition.
    """
    findings = []
    for ledger in ledgers(checking.book):
        for (day, counted), (next_day, next_counted) in pairwise(ledger.counts):
            moved = sum(d.full_in - d.empty_out for d in ledger.notes if day < d.date <= next_day)
            over = next_counted - counted - moved
            if over:
                findings.append(_off(checking, ledger, f"{day} to {next_day}", counted + moved, next_counted))
    return findings


def _off(checking: Checking, ledger: LedgerOfKind, days: str, expected: int, counted: int) -> Finding:
    kind = ledger.kind
    off = counted - expected
    what = f"{abs(off)} {kind.gas} {kind.size} ({kind.owner})"
    words = (
        f"{what} are missing: nothing says that they went back"
        if off < 0
        else f"{what} stand on the rack that no note brought"
    )
    last = ledger.counts[-1][0]
    bill = next((b for b, _ in checking.bills() if b.supplier == kind.supplier), None)
    if bill is None:
        bill = Bill(supplier=kind.supplier, bill_number="", bill_date=last, total=0.0)
    return checking.found(
        FindingKind.CYLINDERS_MISSING if off < 0 else FindingKind.CYLINDERS_EXTRA,
        bill,
        0,
        f"{words} ({days}: {expected} expected, {counted} counted)",
        expected=f"{expected} cylinders",
        found=f"{counted} cylinders",
        evidence=(*(row.at("full") for row in ledger.count_rows), *(d.at("full_in") for d in ledger.notes)),
        gas=kind.gas,
        size=kind.size,
    )
