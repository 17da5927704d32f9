"""Do the bills' days follow each other: none twice, none left out."""

from __future__ import annotations

from itertools import pairwise

from estimator.check.bills import Bill, BillLine
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.bill_checks.finding import Finding, FindingKind
from estimator.pricing.ledger import ONE_DAY

__all__ = ["periods"]


def periods(checking: Checking) -> list[Finding]:
    """Find days for which rent is billed twice, and days that no rent bill covers.

    Parameters
    ----------
    checking : Checking
        The workbook under check, duplicates set aside.

    Returns
    -------
    list of Finding
        An overlap carries the second bill's rent for those days; a gap carries no money.

    Notes
    -----
    Only bills that carry rent and state their days are compared, those of one supplier in order. Source: definition.
    """
    findings = []
    for supplier in checking.book.suppliers:
        dated = [
            (bill, [n for n in lines if n.kind == "rent"])
            for bill, lines in checking.bills()
            if bill.supplier == supplier and bill.kind == "bill" and bill.period_from and bill.period_to
        ]
        dated = sorted(((b, rent) for b, rent in dated if rent), key=lambda pair: pair[0].first_day)
        for (first, _), (second, rent) in pairwise(dated):
            days = (first.last_day - second.first_day).days + 1
            if days > 0:
                findings.append(_overlap(checking, first, second, rent, days))
            elif days < 0:
                findings.append(_gap(checking, first, second, -days))
    return findings


def _overlap(checking: Checking, first: Bill, second: Bill, rent: list[BillLine], days: int) -> Finding:
    whole = (second.last_day - second.first_day).days + 1
    money = checking.minor(sum(n.amount for n in rent) * min(days, whole) / whole)
    last = min(first.last_day, second.last_day)
    return checking.found(
        FindingKind.PERIOD_OVERLAP,
        second,
        money,
        f"bills {first.bill_number} and {second.bill_number} both cover {second.first_day} to {last}: "
        f"{checking.money(money)} of rental",
        expected=f"from {first.last_day + ONE_DAY}",
        found=f"from {second.first_day}",
        evidence=(first.at("period_to"), second.at("period_from")),
    )


def _gap(checking: Checking, first: Bill, second: Bill, days: int) -> Finding:
    return checking.found(
        FindingKind.PERIOD_GAP,
        second,
        0,
        f"no bill covers the {days} days from {first.last_day + ONE_DAY} to {second.first_day - ONE_DAY}",
        expected=f"from {first.last_day + ONE_DAY}",
        found=f"from {second.first_day}",
        evidence=(first.at("period_to"), second.at("period_from")),
    )
