"""What a check of a bill returns: findings as data, each with its evidence and the money at stake."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from estimator.problems.code import Place

__all__ = ["Finding", "FindingKind", "rank"]


class FindingKind(StrEnum):
    """What is wrong, in the words the owner reads."""

    DUPLICATE_BILL = "bill sent twice"
    DUPLICATE_LINE = "line billed twice"
    LINE_ARITHMETIC = "quantity times price is not the amount"
    FOOTING = "the lines do not add up to the total"
    TAX = "tax is not the rate on the total"
    PRICE = "not the price agreed"
    UNIT = "wrong unit"
    STATE = "wrong reference state"
    BILLED_NOT_RECEIVED = "billed, not received"
    RECEIVED_NOT_BILLED = "received, not billed"
    NOT_ORDERED = "more than was ordered"
    RENT = "rental on cylinders you do not have"
    RENT_SHORT = "rental on fewer cylinders than you have"
    RENT_OWNED = "rental on your own cylinders"
    CYLINDERS_MISSING = "cylinders missing from the rack"
    CYLINDERS_EXTRA = "more cylinders on the rack than came"
    FEE_NOT_AGREED = "fee that was not agreed"
    FEE_RISEN = "fee has gone up"
    FEE_COUNT = "fee charged too often"
    CREDIT_MISSING = "return not credited"
    DEPOSIT = "deposit does not follow the cylinders"
    SHORT_FILL = "cylinders came short"
    PERIOD_OVERLAP = "the same days billed twice"
    PERIOD_GAP = "days that no bill covers"


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault of a bill, or of what came and went."""

    kind: FindingKind
    supplier: str
    bill_number: str
    money_minor: int
    """What the supplier asks too much, in minor units; below zero when it asks too little."""
    said: str
    """One sentence with the figures, for the owner and for the supplier."""
    expected: str
    found: str
    evidence: tuple[Place, ...]
    gas: str = ""
    size: str = ""
    days_left: int | None = None
    """Days left to object; below zero when the time has run out; None when the terms do not say."""


def rank(findings: list[Finding]) -> list[Finding]:
    """Return findings with the most money first; those without money after, in the order they were found.

    Parameters
    ----------
    findings : list of Finding
        In any order.

    Returns
    -------
    list of Finding

    Notes
    -----
    Money that is asked too little counts like money asked too much. Source: definition.
    """
    return sorted(findings, key=lambda finding: -abs(finding.money_minor))
