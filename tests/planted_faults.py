"""The faults that are planted in simulated months, each of a stated size, and what each must be found as."""

from __future__ import annotations

from enum import StrEnum

from estimator.pricing.bill_checks.finding import FindingKind
from estimator.pricing.gas_balance import Explanation

__all__ = ["NAMED", "Fault"]


class Fault(StrEnum):
    """What is planted, at the size that must be found."""

    LEAK = "leak of 10 % of the month's gas"
    UNLOGGED = "unlogged job of 10 %"
    SHORT_FILL = "short fill of 10 %"
    PRICE = "price 3 % above the agreed one"
    PHANTOM_RENT = "rent on one cylinder that was not there"
    DUPLICATE_BILL = "bill sent twice"
    DUPLICATE_LINE = "line billed twice"
    WRONG_UNIT = "wrong unit"
    WRONG_STATE = "wrong reference state"
    CREDIT = "credit for a return missing"
    FEE_STEP = "fee 5 units of money higher"


NAMED: dict[Fault, FindingKind | Explanation] = {
    Fault.LEAK: Explanation.ONE_GAS,
    Fault.UNLOGGED: Explanation.ALL_GASES,
    Fault.SHORT_FILL: FindingKind.SHORT_FILL,
    Fault.PRICE: FindingKind.PRICE,
    Fault.PHANTOM_RENT: FindingKind.RENT,
    Fault.DUPLICATE_BILL: FindingKind.DUPLICATE_BILL,
    Fault.DUPLICATE_LINE: FindingKind.DUPLICATE_LINE,
    Fault.WRONG_UNIT: FindingKind.UNIT,
    Fault.WRONG_STATE: FindingKind.STATE,
    Fault.CREDIT: FindingKind.CREDIT_MISSING,
    Fault.FEE_STEP: FindingKind.FEE_RISEN,
}
"""The name under which each fault must be found."""
