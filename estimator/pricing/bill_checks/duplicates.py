"""Bills sent twice and lines billed twice. What they find is set aside, so that no other check counts it again."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from estimator.check.bills import Bill, BillLine
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.bill_checks.finding import Finding, FindingKind

__all__ = ["duplicate_bills", "duplicate_lines"]


def duplicate_bills(checking: Checking) -> tuple[list[Finding], Checking]:
    """Find bills that were sent twice, under the same number or another.

    Parameters
    ----------
    checking : Checking
        The workbook under check.

    Returns
    -------
    tuple of (list of Finding, Checking)
        The findings, and the same checking with the second of each pair and its lines set aside.

    Notes
    -----
    A second bill has the first one's supplier and number; or its supplier and total, and lines that name a delivery
    note and are all the same. Source: definition.
    """
    book = checking.book
    findings: list[Finding] = []
    bills: set[int] = set()
    lines: set[int] = set()
    for index, second in enumerate(book.bills):
        for first in book.bills[:index]:
            if first.supplier != second.supplier or second.kind != "bill" or first.kind != "bill":
                continue
            twin_lines = _lines_of_second(checking, first, second)
            if twin_lines is None:
                continue
            bills.add(index)
            lines |= twin_lines
            money = checking.minor(second.total)
            findings.append(
                checking.found(
                    FindingKind.DUPLICATE_BILL,
                    second,
                    money,
                    f"bill {second.bill_number} asks again for what bill {first.bill_number} asked",
                    expected=f"bill {first.bill_number} once",
                    found=f"also bill {second.bill_number}",
                    evidence=(first.at("bill_number"), second.at("bill_number"), second.at("total")),
                )
            )
            break
    aside = replace(checking, set_aside=checking.set_aside | lines, set_aside_bills=checking.set_aside_bills | bills)
    return findings, aside


def duplicate_lines(checking: Checking) -> tuple[list[Finding], Checking]:
    """Find gas, rent and credit lines that stand on the bills twice.

    Parameters
    ----------
    checking : Checking
        The workbook under check, duplicate bills set aside.

    Returns
    -------
    tuple of (list of Finding, Checking)
        The findings, and the same checking with the second of each pair set aside.

    Notes
    -----
    Two gas lines are one when note, date, gas, size, quantity, unit and amount agree, and the note did not bring enough
    for both. Two rent lines are one when they stand on one bill and agree in everything. Fees are counted elsewhere.
    Source: definition.
    """
    seen: dict[tuple[object, ...], list[tuple[Bill, BillLine]]] = defaultdict(list)
    findings: list[Finding] = []
    aside: set[int] = set()
    place_in_book = {id(line): index for index, line in enumerate(checking.book.lines)}
    for bill, lines in checking.bills():
        for line in lines:
            key = _line_key(line)
            if key is None:
                continue
            before = seen[key]
            before.append((bill, line))
            if len(before) == 1 or _came(checking, line) >= len(before) * (line.quantity or 0.0) > 0:
                continue
            aside.add(place_in_book[id(line)])
            findings.append(_twice(checking, before[0], (bill, line)))
    return findings, replace(checking, set_aside=checking.set_aside | aside)


def _lines_of_second(checking: Checking, first: Bill, second: Bill) -> set[int] | None:
    """Return the places of the second bill's lines when it is the first one over again, else None."""
    book = checking.book
    if first.bill_number == second.bill_number:
        mine = [i for i, n in enumerate(book.lines) if _belongs(n, second)]
        kept: list[tuple[object, ...]] = []
        twice: set[int] = set()
        for index in mine:
            key = _whole_key(book.lines[index])
            if key in kept:
                twice.add(index)
            else:
                kept.append(key)
        return twice
    if checking.minor(first.total) != checking.minor(second.total):
        return None
    of_first = sorted(str(_whole_key(n)) for n in book.lines if _belongs(n, first))
    of_second = sorted(str(_whole_key(n)) for n in book.lines if _belongs(n, second))
    noted = any(n.delivery_note for n in book.lines if _belongs(n, second))
    if of_first != of_second or not noted:
        return None
    return {i for i, n in enumerate(book.lines) if _belongs(n, second)}


def _twice(checking: Checking, first: tuple[Bill, BillLine], second: tuple[Bill, BillLine]) -> Finding:
    bill, line = second
    money = checking.minor(line.amount)
    what = f"{line.gas} {line.size}".strip() if line.kind == "gas" else line.description or line.kind
    note = f" of note {line.delivery_note}" if line.delivery_note else ""
    on = "this bill" if first[0] is bill else f"bill {first[0].bill_number}"
    return checking.found(
        FindingKind.DUPLICATE_LINE,
        bill,
        money,
        f"{what}{note} stands on {on} already",
        expected="once",
        found="twice",
        evidence=(first[1].at("amount"), line.at("amount")),
        gas=line.gas,
        size=line.size,
    )


def _came(checking: Checking, line: BillLine) -> float:
    """Return the cylinders that came with a line's note; none when nothing is known of it."""
    return float(sum(d.full_in for d in checking.deliveries_of(line)))


def _belongs(line: BillLine, bill: Bill) -> bool:
    return (line.supplier, line.bill_number) == (bill.supplier, bill.bill_number)


def _whole_key(line: BillLine) -> tuple[object, ...]:
    unit = line.unit.said if line.unit else ""
    return (
        line.kind,
        line.description,
        line.gas,
        line.size,
        line.quantity,
        unit,
        line.unit_price,
        line.amount,
        line.delivery_note,
        line.date,
    )


def _line_key(line: BillLine) -> tuple[object, ...] | None:
    unit = line.unit.said if line.unit else ""
    same = (line.supplier, line.kind, line.gas, line.size, line.quantity, unit, line.amount)
    if line.kind in {"gas", "credit"} and (line.delivery_note or line.date):
        return (*same, line.delivery_note, line.date)
    if line.kind == "rent":
        return (*same, line.description, line.date, line.bill_number)
    return None
