"""Fees and deliveries: agreed or not, risen or not, charged as often as agreed."""

from __future__ import annotations

from estimator.check.bills import AgreedPrice, Bill, BillLine
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.bill_checks.finding import Finding, FindingKind
from estimator.problems import bills as said
from estimator.read.billed_unit import Per

__all__ = ["fees"]


def fees(checking: Checking) -> list[Finding]:
    """Find fees that were not agreed, have risen, or are charged too often.

    Parameters
    ----------
    checking : Checking
        The workbook under check, duplicates set aside.

    Returns
    -------
    list of Finding

    Notes
    -----
    A fee is matched by its words to the agreed prices. Where a supplier has no agreed fees at all, the last bill that
    carried the same words is taken for the agreement. Source: definition.
    """
    findings: list[Finding] = []
    for bill, lines in checking.bills():
        for line in lines:
            if line.kind in {"fee", "delivery"} and line.amount > 0:
                findings += _check(checking, bill, line)
    return findings


def _check(checking: Checking, bill: Bill, line: BillLine) -> list[Finding]:
    day = checking.day_of(line, bill)
    agreed = _agreed(checking, line, bill)
    if agreed is not None:
        return _against_agreed(checking, bill, line, agreed)
    if any(p.supplier == line.supplier and p.kind in {"fee", "delivery"} for p in checking.book.prices):
        money = checking.minor(line.amount)
        words = line.description or line.kind
        return [
            checking.found(
                FindingKind.FEE_NOT_AGREED,
                bill,
                money,
                f"'{words}' stands in no agreed price",
                expected="no such fee",
                found=checking.money(money),
                evidence=(line.at("description"), line.at("amount")),
            )
        ]
    before = _on_an_earlier_bill(checking, bill, line)
    if before is None:
        what = line.description or line.kind
        checking.problems.append(said.NO_PRICES.at(line.at("amount"), what=f"'{what}'", date=day))
        return []
    return _risen(checking, bill, line, _each(before), before)


def _agreed(checking: Checking, line: BillLine, bill: Bill) -> AgreedPrice | None:
    day = checking.day_of(line, bill)
    rows = [p for p in checking.book.prices if p.supplier == line.supplier and p.kind == line.kind and p.holds_on(day)]
    words = line.description.casefold().strip()
    same = [p for p in rows if p.description.casefold().strip() == words]
    if not same and line.kind == "delivery" and len({p.description for p in rows}) == 1:
        same = rows  # one delivery charge was agreed: whatever words the bill uses for it
    if not same and words:
        same = [p for p in rows if p.description and p.description.casefold() in words]
    return max(same, key=lambda p: (p.valid_from is not None, p.valid_from), default=None)


def _against_agreed(checking: Checking, bill: Bill, line: BillLine, agreed: AgreedPrice) -> list[Finding]:
    if agreed.unit.per is Per.GAS_PERCENT:
        gas = sum(n.amount for n in checking.lines_of(bill) if n.kind == "gas")
        money = checking.minor(line.amount) - checking.minor(gas * agreed.price / 100.0)
        return _fee(checking, bill, line, agreed, money) if money > 1 else []
    findings = []
    money = checking.minor((_each(line) - agreed.price) * _times(line))
    if money > 1:
        findings += _fee(checking, bill, line, agreed, money)
    allowed = _allowed_times(checking, bill, line, agreed.unit.per)
    over = _times(line) - allowed if allowed is not None else 0.0
    if over > 0:
        too_often = checking.minor(over * agreed.price)
        findings.append(
            checking.found(
                FindingKind.FEE_COUNT,
                bill,
                too_often,
                f"'{line.description or line.kind}' is charged {_times(line):g} times, {allowed:g} would be right",
                expected=f"{allowed:g}",
                found=f"{_times(line):g}",
                evidence=(line.at("quantity"), agreed.at("unit")),
            )
        )
    return findings


def _fee(checking: Checking, bill: Bill, line: BillLine, agreed: AgreedPrice, money: int) -> list[Finding]:
    return [
        checking.found(
            FindingKind.FEE_RISEN,
            bill,
            money,
            f"'{line.description or line.kind}' is charged at {checking.price(_each(line))}; "
            f"agreed was {checking.price(agreed.price)}",
            expected=checking.price(agreed.price),
            found=checking.price(_each(line)),
            evidence=(line.at("amount"), agreed.at("price")),
        )
    ]


def _risen(checking: Checking, bill: Bill, line: BillLine, before: float, earlier: BillLine) -> list[Finding]:
    money = checking.minor((_each(line) - before) * _times(line))
    if money <= 1:
        return []
    return [
        checking.found(
            FindingKind.FEE_RISEN,
            bill,
            money,
            f"'{line.description or line.kind}' was {checking.price(before)} on bill {earlier.bill_number} "
            f"and is {checking.price(_each(line))}",
            expected=checking.price(before),
            found=checking.price(_each(line)),
            evidence=(line.at("amount"), earlier.at("amount")),
        )
    ]


def _on_an_earlier_bill(checking: Checking, bill: Bill, line: BillLine) -> BillLine | None:
    """Return the line with the same words on the latest earlier bill of the same supplier."""
    earlier = [(b, n) for b, lines in checking.bills() for n in lines if b.supplier == bill.supplier]
    words = line.description.casefold()
    fitting = [
        (b.bill_date, n)
        for b, n in earlier
        if b.bill_date < bill.bill_date and n.kind == line.kind and n.description.casefold() == words
    ]
    return max(fitting, key=lambda pair: pair[0], default=(None, None))[1]


def _allowed_times(checking: Checking, bill: Bill, line: BillLine, per: Per) -> float | None:
    """Return how often the agreed unit comes up in the bill's days; None when that is not known."""
    if per is Per.BILL:
        return 1.0
    named = {n.delivery_note for n in checking.lines_of(bill) if n.delivery_note}
    notes = [
        d
        for d in checking.book.deliveries
        if d.supplier == bill.supplier and (bill.first_day <= d.date <= bill.last_day or d.note_number in named)
    ]
    if line.delivery_note:
        notes = [d for d in checking.book.deliveries if d.note_number == line.delivery_note]
    if not checking.book.deliveries:
        return None
    if per is Per.DELIVERY:
        return float(len({d.note_number for d in notes}))
    if per is Per.CYLINDER:
        fitting = [d for d in notes if line.gas in ("", d.gas) and line.size in ("", d.size)]
        return float(sum(d.full_in for d in fitting))
    return None


def _each(line: BillLine) -> float:
    return line.unit_price if line.unit_price is not None else line.amount / _times(line)


def _times(line: BillLine) -> float:
    return line.quantity or 1.0
