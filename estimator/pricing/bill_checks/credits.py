"""What the supplier owes back: promised credits for returns, and deposits of cylinders that went."""

from __future__ import annotations

from collections import defaultdict

from estimator.check.bills import Bill, BillLine, Delivery
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.bill_checks.cylinder_ledger import CylinderKind, ledger_of
from estimator.pricing.bill_checks.finding import Finding, FindingKind
from estimator.pricing.ledger import Ledger, Movement, Period
from estimator.pricing.rent import deposit_due

__all__ = ["deposits", "returns"]


def returns(checking: Checking) -> list[Finding]:
    """Find credits promised on a return note that no bill or credit note carries.

    Parameters
    ----------
    checking : Checking
        The workbook under check, duplicates set aside.

    Returns
    -------
    list of Finding

    Notes
    -----
    A credit is found by its note number, else by gas, size and amount. It is due once a bill covers the day of the
    return. One credit serves one note. Source: definition.
    """
    credited = [n for _, lines in checking.bills() for n in lines if n.kind == "credit" or n.amount < 0]
    findings = []
    used: set[int] = set()
    for note in checking.book.deliveries:
        bill = _bill_after(checking, note)
        if not note.credit_due or bill is None:
            continue
        mine = [n for n in credited if id(n) not in used and _is_for(n, note)]
        used |= {id(n) for n in mine}
        money = checking.minor(note.credit_due) + sum(checking.minor(n.amount) for n in mine)
        if abs(money) > 1:
            findings.append(_missing(checking, bill, note, mine, money))
    return findings


def deposits(checking: Checking) -> list[Finding]:
    """Find deposits that do not follow the cylinders that came and went.

    Parameters
    ----------
    checking : Checking
        The workbook under check, duplicates set aside.

    Returns
    -------
    list of Finding

    Notes
    -----
    Each cylinder more on the rack costs its deposit, each one less brings it back; a swap costs nothing. Only where a
    deposit was agreed, and the bill or the notes move cylinders of that size. Source: common practice, no source.
    """
    findings = []
    for bill, lines in checking.bills():
        billed: dict[tuple[str, str], list[BillLine]] = defaultdict(list)
        for line in lines:
            if line.kind == "deposit":
                billed[line.gas, line.size].append(line)
        for price in checking.book.prices:
            if price.supplier != bill.supplier or price.kind != "deposit" or not price.holds_on(bill.last_day):
                continue
            if not any(n.kind == "gas" for n in lines) and not billed[price.gas, price.size]:
                continue
            findings += _deposit(checking, bill, price.gas, price.size, price.price, billed[price.gas, price.size])
    return findings


def _bill_after(checking: Checking, note: Delivery) -> Bill | None:
    """Return the first bill that covers the day of a note."""
    fitting = [b for b, _ in checking.bills() if b.supplier == note.supplier and b.last_day >= note.date]
    fitting = [b for b in fitting if b.kind == "bill"]
    return min(fitting, key=lambda b: b.last_day, default=None)


def _is_for(line: BillLine, note: Delivery) -> bool:
    if line.supplier != note.supplier or line.gas not in ("", note.gas) or line.size not in ("", note.size):
        return False
    if line.delivery_note:
        return line.delivery_note == note.note_number
    return bool(line.gas) and abs(line.amount + (note.credit_due or 0.0)) < 0.005


def _missing(checking: Checking, bill: Bill, note: Delivery, mine: list[BillLine], money: int) -> Finding:
    due = checking.minor(note.credit_due or 0.0)
    got = due - money
    return checking.found(
        FindingKind.CREDIT_MISSING,
        bill,
        money,
        f"{checking.money(due)} was promised for what went back with note {note.note_number} on {note.date}; "
        f"{checking.money(got)} is credited",
        expected=checking.money(due),
        found=checking.money(got),
        evidence=(note.at("credit_due"), *(n.at("amount") for n in mine)),
        gas=note.gas,
        size=note.size,
    )


def _deposit(
    checking: Checking, bill: Bill, gas: str, size: str, deposit: float, lines: list[BillLine]
) -> list[Finding]:
    notes = [
        d
        for d in checking.book.deliveries
        if (d.supplier, d.gas, d.size, d.owner) == (bill.supplier, gas, size, "rented")
        and bill.first_day <= d.date <= bill.last_day
    ]
    known = ledger_of(checking.book, CylinderKind(bill.supplier, gas, size, "rented"))
    moved = (
        known.ledger
        if known
        else Ledger(bill.first_day, 0, tuple(Movement(d.date, d.full_in, d.empty_out) for d in notes))
    )
    due = checking.minor(deposit_due(deposit, moved, Period(bill.first_day, bill.last_day)))
    asked = sum(checking.minor(n.amount) for n in lines)
    if abs(asked - due) <= 1:
        return []
    return [
        checking.found(
            FindingKind.DEPOSIT,
            bill,
            asked - due,
            f"the deposits on {gas} {size} should come to {checking.money(due)} by the cylinders that came and went; "
            f"{checking.money(asked)} is billed",
            expected=checking.money(due),
            found=checking.money(asked),
            evidence=(*(n.at("amount") for n in lines), *(d.at("full_in") for d in notes)),
            gas=gas,
            size=size,
        )
    ]
