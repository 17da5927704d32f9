"""Does the bill add up: each line, its foot, its tax, to the supplier's own rounding."""

from __future__ import annotations

import numpy as np

from estimator.check.bills import Bill, BillLine, SupplierTerms
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.bill_checks.finding import Finding, FindingKind

__all__ = ["footing", "line_arithmetic", "tax"]


def line_arithmetic(checking: Checking) -> list[Finding]:
    """Find lines whose quantity times unit price is not their amount.

    Parameters
    ----------
    checking : Checking
        The workbook under check.

    Returns
    -------
    list of Finding

    Notes
    -----
    A line may be off by the step its supplier rounds to, whichever way that supplier rounds. Source: definition.
    """
    findings = []
    for bill, lines in checking.bills():
        step = checking.book.terms_of(bill.supplier).line_rounding
        for line in lines:
            if line.quantity is None or line.unit_price is None:
                continue
            product = line.quantity * line.unit_price
            if abs(line.amount) == abs(product) or _within(line.amount, product, step):
                continue
            money = checking.minor(line.amount) - checking.minor(product)
            findings.append(
                checking.found(
                    FindingKind.LINE_ARITHMETIC,
                    bill,
                    money,
                    f"{line.quantity:g} x {line.unit_price:g} is {checking.money(checking.minor(product))}, "
                    f"not {checking.money(checking.minor(line.amount))}",
                    expected=checking.money(checking.minor(product)),
                    found=checking.money(checking.minor(line.amount)),
                    evidence=(line.at("quantity"), line.at("unit_price"), line.at("amount")),
                    gas=line.gas,
                    size=line.size,
                )
            )
    return findings


def footing(checking: Checking) -> list[Finding]:
    """Find bills whose lines do not add up to the printed totals.

    Parameters
    ----------
    checking : Checking
        The workbook under check.

    Returns
    -------
    list of Finding

    Notes
    -----
    A supplier may add its lines before rounding them, so the sum may be off by half a step for each line. Lines of kind
    tax are the bill's tax where no tax total is printed. Source: definition.
    """
    findings = []
    for bill, lines in checking.bills():
        if not lines:
            continue
        step = checking.book.terms_of(bill.supplier).line_rounding
        slack = max(step, step * len(lines) / 2)
        net = sum(n.amount for n in lines if n.kind != "tax")
        printed_tax = bill.tax_total if bill.tax_total is not None else sum(n.amount for n in lines if n.kind == "tax")
        printed_net = bill.net_total if bill.net_total is not None else bill.total - printed_tax
        if not _within(printed_net, net, slack):
            findings.append(_foot(checking, bill, net, printed_net, "the lines add up to", "net_total"))
        whole = printed_net + printed_tax
        if bill.net_total is not None and not _within(bill.total, whole, step):
            findings.append(_foot(checking, bill, whole, bill.total, "the total and its tax add up to", "total"))
    return findings


def tax(checking: Checking) -> list[Finding]:
    """Find bills whose tax is not the rate on what is taxed.

    Parameters
    ----------
    checking : Checking
        The workbook under check.

    Returns
    -------
    list of Finding

    Notes
    -----
    Worked out on the total or line by line, as the supplier's terms say; deposits may be taxed or not. The printed
    total is taken, so that a wrong foot is not found twice. Source: definition.
    """
    findings = []
    for bill, lines in checking.bills():
        terms = checking.book.terms_of(bill.supplier)
        of_lines = [n.amount for n in lines if n.kind == "tax"]
        printed = bill.tax_total if bill.tax_total is not None else sum(of_lines) if of_lines else None
        if terms.tax_rate is None or printed is None:
            continue
        taxed = [n for n in lines if n.kind != "tax"]
        net = bill.net_total if bill.net_total is not None else sum(n.amount for n in taxed)
        expected = _expected_taxes(checking, terms, net, taxed)
        slack = 1 if terms.tax_way == "on the total" else max(1, len(taxed))
        differences = [checking.minor(printed) - each for each in expected]
        if min(abs(d) for d in differences) <= slack:
            continue
        findings.append(
            checking.found(
                FindingKind.TAX,
                bill,
                differences[0],
                f"{terms.tax_rate:.4g} on {checking.money(checking.minor(net))} is {checking.money(expected[0])}, "
                f"not {checking.money(checking.minor(printed))}",
                expected=checking.money(expected[0]),
                found=checking.money(checking.minor(printed)),
                evidence=(bill.at("tax_total"), bill.at("net_total")),
            )
        )
    return findings


def _expected_taxes(checking: Checking, terms: SupplierTerms, net: float, taxed: list[BillLine]) -> list[int]:
    rate = terms.tax_rate or 0.0
    deposits = sum(n.amount for n in taxed if n.kind == "deposit")
    if terms.tax_way == "on the total":
        return [checking.minor(net * rate), checking.minor((net - deposits) * rate)]
    with_deposits = sum(checking.minor(n.amount * rate) for n in taxed)
    return [with_deposits, sum(checking.minor(n.amount * rate) for n in taxed if n.kind != "deposit")]


def _foot(checking: Checking, bill: Bill, sum_: float, printed: float, words: str, cell: str) -> Finding:
    expected, found = checking.minor(sum_), checking.minor(printed)
    return checking.found(
        FindingKind.FOOTING,
        bill,
        found - expected,
        f"{words} {checking.money(expected)}, but {checking.money(found)} is printed",
        expected=checking.money(expected),
        found=checking.money(found),
        evidence=(bill.at(cell), bill.at("bill_number")),
    )


def _within(value: float, other: float, slack: float) -> bool:
    return bool(np.round(abs(value - other), 9) <= slack)
