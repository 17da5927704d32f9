"""The money of one month's bills, sorted for the bridge: each line counted once, under one heading."""

from __future__ import annotations

import datetime as dt

from estimator.check.bills import Bill, BillLine, Delivery
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.bill_checks.cylinder_ledger import CylinderKind, ledger_of
from estimator.pricing.bill_checks.finding import FindingKind
from estimator.pricing.bill_checks.rental import expected_rent
from estimator.pricing.bill_checks.run import CheckedBills
from estimator.pricing.bridge import BridgeTerms, GasOfMonth
from estimator.pricing.expected_gas import ExpectedGas
from estimator.pricing.gas_balance import GasVerdict
from estimator.pricing.gas_used import GasUsed

__all__ = ["gas_of_month", "rest_of_bills", "standard_price"]

_UNITS = {FindingKind.UNIT, FindingKind.STATE}
_QUANTITY = {FindingKind.BILLED_NOT_RECEIVED, FindingKind.RECEIVED_NOT_BILLED}


def gas_of_month(
    checked: CheckedBills,
    bills: tuple[Bill, ...],
    used: GasUsed,
    verdict: GasVerdict | None,
    expected: ExpectedGas | None,
    day: dt.date,
    before: ExpectedGas | None = None,
) -> GasOfMonth:
    """Quantities and money of one gas for the bridge.

    Parameters
    ----------
    checked : CheckedBills
        The bills after every check.
    bills : tuple of Bill
        Bills of the month.
    used : GasUsed
        Gas between the two counts.
    verdict : GasVerdict or None
        What readings and model can explain; None without a log, and then all used gas is.
    expected : ExpectedGas or None
        Gas of the logged work.
    day : date
        The day whose agreed price is the standard.
    before : ExpectedGas or None
        Gas of the work of the month before; without it the bridge starts from this month's work.

    Returns
    -------
    GasOfMonth

    Notes
    -----
    Without a log the work is taken to have used what left the cylinders. Source: definition.
    """
    checking, gas = checked.checking, used.gas
    price = standard_price(checking, gas, day)
    lines = [n for n in _lines(checking, bills) if n.kind == "gas" and n.gas == gas and n.amount >= 0]
    found = _found(checked, bills, gas)
    short_m3 = _short_filled_m3(checking, used)
    work = expected.work_m3(gas) if expected else used.used_m3
    return GasOfMonth(
        gas=gas,
        standard_price=price,
        planned_m3=before.work_m3(gas) if before and expected else work,
        expected_m3=work,
        stated_loss_m3=expected.loss_m3(gas) if expected else 0.0,
        used_explained_m3=verdict.expected_m3 + verdict.explained_m3 if verdict else used.used_m3,
        used_m3=used.used_m3,
        opening_m3=used.opening.amount_m3,
        closing_m3=used.closing.amount_m3,
        sent_back_m3=used.sent_back.amount_m3,
        received_m3=used.delivered.amount_m3,
        billed_received_m3=_came_with(checking, bills, gas) - short_m3,
        billed=sum(n.amount for n in lines),
        wrong_unit=sum(found[kind] for kind in _UNITS),
        not_received=sum(found[kind] for kind in _QUANTITY) + short_m3 * price,
    )


def rest_of_bills(checked: CheckedBills, bills: tuple[Bill, ...], gases: set[str]) -> BridgeTerms:
    """Everything on the bills that is not gas of the balanced kinds, under one heading each.

    Parameters
    ----------
    checked : CheckedBills
        The bills after every check.
    bills : tuple of Bill
        Bills of the month.
    gases : set of str
        Gases that are in the balance; gas lines of others stand by themselves.

    Returns
    -------
    BridgeTerms

    Notes
    -----
    Source: definition.
    """
    checking = checked.checking
    lines = _lines(checking, bills)
    every = [n for bill in _once(bills) for n in checking.book.lines_of(bill)]
    twice = sum(n.amount for n in every if n.kind != "tax") - sum(n.amount for n in lines if n.kind != "tax")
    net = sum(_net(bill, checking) for bill in bills)
    total = sum(bill.total for bill in bills)
    rent = sum(n.amount for n in lines if n.kind == "rent")
    fees = sum(n.amount for n in lines if n.kind in {"fee", "delivery"} and n.amount >= 0)
    uncounted = sum(n.amount for n in lines if n.kind == "gas" and n.gas not in gases and n.amount >= 0)
    others = [n for n in lines if n.kind in {"credit", "deposit"}]
    others += [n for n in lines if n.kind in {"gas", "fee", "delivery"} and n.amount < 0]
    return BridgeTerms(
        rent_standard=_rent_standard(checking, bills, rent),
        rent_billed=rent,
        delivery_and_fees=fees,
        gas_not_counted=uncounted,
        credits_and_deposits=sum(n.amount for n in others),
        billed_twice=twice,
        footing=net - sum(n.amount for n in every if n.kind != "tax"),
        tax=total - net,
        bill_total=total,
    )


def standard_price(checking: Checking, gas: str, day: dt.date) -> float:
    """Return the agreed price of a cubic metre on a day: of the sizes that came, the mean by what they hold.

    Parameters
    ----------
    checking : Checking
        The bills workbook.
    gas : str
        The gas.
    day : date
        The day.

    Returns
    -------
    float
        Money per m³; what was billed where no price was agreed.

    Notes
    -----
    Source: definition.
    """
    money = content = 0.0
    for note in _notes(checking, gas):
        known = checking.size_of(gas, note.size, note.supplier)
        probe = BillLine(
            supplier=note.supplier, bill_number="", kind="gas", gas=gas, size=note.size, amount=0.0, date=note.date
        )
        agreed = checking.agreed("gas", probe, day)
        unit_m3 = checking.unit_m3(agreed.unit, gas, note.size, note.supplier) if agreed else None
        if known and agreed and unit_m3 and note.full_in:
            money += note.full_in * known.content_m3 / unit_m3 * agreed.price
            content += note.full_in * known.content_m3
    if content:
        return money / content
    lines = [n for n in checking.book.lines if n.kind == "gas" and n.gas == gas and n.amount > 0 and n.quantity]
    gas_m3 = sum((n.quantity or 0.0) * (checking.unit_m3(n.unit, gas, n.size, n.supplier) or 0.0) for n in lines)
    return sum(n.amount for n in lines) / gas_m3 if gas_m3 else 0.0


def _lines(checking: Checking, bills: tuple[Bill, ...]) -> list[BillLine]:
    """Return the lines of some bills that count, each once."""
    return [n for bill in _once(bills) for n in checking.lines_of(bill)]


def _once(bills: tuple[Bill, ...]) -> list[Bill]:
    return list({(bill.supplier, bill.bill_number): bill for bill in bills}.values())


def _net(bill: Bill, checking: Checking) -> float:
    if bill.net_total is not None:
        return bill.net_total
    if bill.tax_total is not None:
        return bill.total - bill.tax_total
    return bill.total - sum(n.amount for n in checking.book.lines_of(bill) if n.kind == "tax")


def _notes(checking: Checking, gas: str) -> list[Delivery]:
    return [d for d in checking.book.deliveries if d.gas == gas]


def _rated(checking: Checking, notes: list[Delivery]) -> float:
    """Return what the cylinders of some notes hold when full."""
    sizes = [(d, checking.size_of(d.gas, d.size, d.supplier)) for d in notes]
    return sum(d.full_in * size.content_m3 for d, size in sizes if size)


def _found(checked: CheckedBills, bills: tuple[Bill, ...], gas: str) -> dict[FindingKind, float]:
    """Return the money of the findings on a gas of these bills, by kind."""
    numbers = {(bill.supplier, bill.bill_number) for bill in bills}
    money = dict.fromkeys(FindingKind, 0.0)
    for finding in checked.findings:
        if finding.gas == gas and (finding.supplier, finding.bill_number) in numbers:
            money[finding.kind] += finding.money_minor / 10.0**checked.checking.decimals
    return money


def _short_filled_m3(checking: Checking, used: GasUsed) -> float:
    """Return the gas that readings on receipt showed to be missing from cylinders that came as full."""
    came = [note for note in _notes(checking, used.gas) if used.after < note.date <= used.until]
    return _rated(checking, came) - used.delivered.amount_m3


def _came_with(checking: Checking, bills: tuple[Bill, ...], gas: str) -> float:
    """Return the rated gas of the notes that these bills are for."""
    return _rated(checking, [note for note in _notes(checking, gas) if _bill_of(checking, note) in bills])


def _bill_of(checking: Checking, note: Delivery) -> Bill | None:
    """Return the bill that names a note, else the one whose days hold it."""
    of_supplier = [(b, lines) for b, lines in checking.bills() if b.supplier == note.supplier and b.kind == "bill"]
    for bill, lines in of_supplier:
        if any(n.kind == "gas" and n.delivery_note == note.note_number for n in lines):
            return bill
    for bill, lines in of_supplier:
        if bill.first_day <= note.date <= bill.last_day and any(n.kind == "gas" for n in lines):
            return bill
    return None


def _rent_standard(checking: Checking, bills: tuple[Bill, ...], billed: float) -> float:
    """Return the rent the rule gives for every rent line that can be checked, and what is billed for the others."""
    standard = 0.0
    for bill in _once(bills):
        terms = checking.book.terms_of(bill.supplier)
        for gas, size in dict.fromkeys((n.gas, n.size) for n in checking.lines_of(bill) if n.kind == "rent"):
            lines = [n for n in checking.lines_of(bill) if n.kind == "rent" and (n.gas, n.size) == (gas, size)]
            rate = checking.agreed("rent", lines[0], bill.last_day)
            ledger = ledger_of(checking.book, CylinderKind(bill.supplier, gas, size, "rented"))
            due = expected_rent(terms, rate, ledger, bill) if rate and ledger else None
            standard += due[0].amount if due else sum(n.amount for n in lines)
    return standard if billed else 0.0
