"""Delivery notes that no bill names, lines that name no note, and more than was ordered."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from estimator.check.bills import Bill, BillLine, Delivery
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.bill_checks.finding import Finding, FindingKind
from estimator.problems import bills as said

__all__ = ["deliveries"]


def deliveries(checking: Checking) -> list[Finding]:
    """Set delivery notes beside the bills: ordered, received, billed.

    Parameters
    ----------
    checking : Checking
        The workbook under check, duplicates set aside.

    Returns
    -------
    list of Finding

    Notes
    -----
    Notes that a line names are compared with that line elsewhere. Here: notes of a bill's days that no line names,
    against the lines of that bill that name no note; and cylinders that came beyond what was ordered and were billed.
    Source: definition.
    """
    if not checking.book.deliveries:
        for bill, _ in checking.bills():
            checking.problems.append(said.NO_DELIVERIES.at(bill.place))
            break
        return []
    findings: list[Finding] = []
    named = {(n.supplier, n.delivery_note) for _, lines in checking.bills() for n in lines if n.kind == "gas"}
    for bill, lines in checking.bills():
        gas_lines = [n for n in lines if n.kind == "gas" and n.amount >= 0]
        if not gas_lines or bill.kind != "bill":
            continue
        unnamed = [d for d in _of_days(checking, bill) if (d.supplier, d.note_number) not in named and d.full_in]
        findings += _unnamed(checking, bill, [n for n in gas_lines if not n.delivery_note], unnamed)
        findings += _not_ordered(checking, bill, gas_lines)
    return findings


def _of_days(checking: Checking, bill: Bill) -> Iterator[Delivery]:
    """Yield the notes of a bill's days; of two bills of the same days the first one counts."""
    for delivery in checking.book.deliveries:
        if delivery.supplier != bill.supplier or not bill.first_day <= delivery.date <= bill.last_day:
            continue
        first = next(
            b
            for b, n in checking.bills()
            if b.supplier == bill.supplier
            and b.kind == "bill"
            and b.first_day <= delivery.date <= b.last_day
            and any(line.kind == "gas" for line in n)
        )
        if first is bill:
            yield delivery


def _unnamed(checking: Checking, bill: Bill, lines: list[BillLine], notes: list[Delivery]) -> Iterator[Finding]:
    billed: dict[tuple[str, str], float] = defaultdict(float)
    came: dict[tuple[str, str], int] = defaultdict(int)
    for line in lines:
        cylinders = _cylinders(checking, line)
        if cylinders is not None:
            billed[line.gas, line.size] += cylinders
    for note in notes:
        came[note.gas, note.size] += note.full_in
    for gas, size in dict.fromkeys([*billed, *came]):
        over = billed[gas, size] - came[gas, size]
        if abs(over) < 0.01 * max(1, came[gas, size]):
            continue
        mine = [n for n in lines if (n.gas, n.size) == (gas, size)]
        yield _difference(checking, bill, gas, size, over, mine, [d for d in notes if (d.gas, d.size) == (gas, size)])


def _difference(
    checking: Checking, bill: Bill, gas: str, size: str, over: float, lines: list[BillLine], notes: list[Delivery]
) -> Finding:
    money = checking.minor(over * _price(checking, bill, gas, size, lines))
    came = sum(d.full_in for d in notes)
    numbers = ", ".join(dict.fromkeys(d.note_number for d in notes))
    if over > 0:
        kind = FindingKind.BILLED_NOT_RECEIVED
        words = f"{came + over:g} {gas} {size} are billed, {came} came in the bill's days"
    else:
        kind = FindingKind.RECEIVED_NOT_BILLED
        words = f"{-over:g} {gas} {size} came (note {numbers}) and no bill asks for them"
    return checking.found(
        kind,
        bill,
        money,
        f"{words}",
        expected=f"{came} cylinders",
        found=f"{came + over:g} cylinders",
        evidence=(*(n.at("quantity") for n in lines), *(d.at("full_in") for d in notes)),
        gas=gas,
        size=size,
    )


def _not_ordered(checking: Checking, bill: Bill, lines: list[BillLine]) -> Iterator[Finding]:
    for line in lines:
        came = checking.deliveries_of(line)
        ordered = sum(d.ordered or 0 for d in came)
        received = sum(d.full_in for d in came)
        if any(d.ordered is None for d in came) or received <= ordered or _cylinders(checking, line) != received:
            continue
        money = checking.minor(line.amount * (received - ordered) / received)
        yield checking.found(
            FindingKind.NOT_ORDERED,
            bill,
            money,
            f"{ordered} {line.gas} {line.size} were ordered, {received} came and are billed",
            expected=f"{ordered} cylinders",
            found=f"{received} cylinders",
            evidence=(line.at("quantity"), *(d.at("ordered") for d in came)),
            gas=line.gas,
            size=line.size,
        )


def _cylinders(checking: Checking, line: BillLine) -> float | None:
    """Return the cylinders that a line bills."""
    if line.quantity is None or line.unit is None:
        return None
    if line.unit.gas is None:
        return line.quantity
    unit_m3 = checking.unit_m3(line.unit, line.gas, line.size, line.supplier)
    size = checking.size_of(line.gas, line.size, line.supplier)
    return round(line.quantity * unit_m3 / size.content_m3, 3) if unit_m3 and size else None


def _price(checking: Checking, bill: Bill, gas: str, size: str, lines: list[BillLine]) -> float:
    """Return the price of one cylinder: as billed, else as agreed, else nothing."""
    cylinders = sum(_cylinders(checking, n) or 0.0 for n in lines)
    if cylinders:
        return sum(n.amount for n in lines) / cylinders
    probe = BillLine(supplier=bill.supplier, bill_number="", kind="gas", gas=gas, size=size, amount=0.0)
    agreed = checking.agreed("gas", probe, bill.last_day)
    unit_m3 = checking.unit_m3(agreed.unit, gas, size, bill.supplier) if agreed else None
    known = checking.size_of(gas, size, bill.supplier)
    return agreed.price * known.content_m3 / unit_m3 if agreed and unit_m3 and known else 0.0
