"""All checks of a bill in their order: what is billed twice is set aside first, so that nothing is found twice."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from estimator.check.bills import BillsBook
from estimator.pricing.bill_checks.arithmetic import footing, line_arithmetic, tax
from estimator.pricing.bill_checks.checking import Check, Checking
from estimator.pricing.bill_checks.credits import deposits, returns
from estimator.pricing.bill_checks.cylinders import cylinder_balance
from estimator.pricing.bill_checks.deliveries import deliveries
from estimator.pricing.bill_checks.duplicates import duplicate_bills, duplicate_lines
from estimator.pricing.bill_checks.fees import fees
from estimator.pricing.bill_checks.fills import short_fills
from estimator.pricing.bill_checks.finding import Finding, rank
from estimator.pricing.bill_checks.gas_lines import gas_lines
from estimator.pricing.bill_checks.periods import periods
from estimator.pricing.bill_checks.rental import rental
from estimator.pricing.cylinder_content import CylinderSize, ReadingDoubts
from estimator.problems.code import Problem

__all__ = ["AS_PRINTED", "CHECKS", "CheckedBills", "check_the_bills"]

AS_PRINTED: tuple[Check, ...] = (line_arithmetic, footing, tax)
"""Checks of a bill as it was printed, a line that stands on it twice among its lines."""

CHECKS: tuple[Check, ...] = (
    gas_lines,
    deliveries,
    cylinder_balance,
    rental,
    fees,
    returns,
    deposits,
    short_fills,
    periods,
)
"""Checks of what may be asked, each line once."""


@dataclass(frozen=True, slots=True)
class CheckedBills:
    """Bills after every check."""

    findings: tuple[Finding, ...]
    """The most money first."""
    problems: tuple[Problem, ...]
    """What could not be checked, and why."""
    checking: Checking
    """The workbook with what is billed twice set aside."""

    @property
    def money_minor(self) -> int:
        """What the supplier asks too much on balance, in minor units."""
        return sum(finding.money_minor for finding in self.findings)


def check_the_bills(
    book: BillsBook,
    *,
    as_of: dt.date,
    decimals: int = 2,
    sizes: tuple[CylinderSize, ...] = (),
    objection_days: int | None = None,
    doubts: ReadingDoubts | None = None,
) -> CheckedBills:
    """Check every bill of a workbook. Needs no work log.

    Parameters
    ----------
    book : BillsBook
        Bills, lines, deliveries, counts, agreed prices and terms.
    as_of : date
        The day from which the days left to object are counted.
    decimals : int
        Decimals of the currency's minor unit.
    sizes : tuple of CylinderSize
        Cylinder sizes of the shop book, for readings on receipt.
    objection_days : int, optional
        Days to object where a supplier's own terms do not say.
    doubts : ReadingDoubts, optional
        Standard uncertainties of readings on receipt; the built-in ones when left out.

    Returns
    -------
    CheckedBills

    Notes
    -----
    Source: definition.
    """
    checking = Checking(book, as_of, decimals, sizes, objection_days, doubts or ReadingDoubts())
    findings, checking = duplicate_bills(checking)
    for check in AS_PRINTED:
        findings += check(checking)
    lines_twice, checking = duplicate_lines(checking)
    findings += lines_twice
    for check in CHECKS:
        findings += check(checking)
    problems = tuple(dict.fromkeys(checking.problems))
    return CheckedBills(tuple(rank(findings)), problems, checking)
