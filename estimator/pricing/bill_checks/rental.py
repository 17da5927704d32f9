"""Rental: what the supplier's own rule gives on the shop's ledger of cylinders, against what is billed."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from math import ceil

from estimator.check.bills import AgreedPrice, Bill, BillLine, SupplierTerms
from estimator.pricing.bill_checks.checking import Checking
from estimator.pricing.bill_checks.cylinder_ledger import CylinderKind, LedgerOfKind, ledger_of
from estimator.pricing.bill_checks.finding import Finding, FindingKind
from estimator.pricing.ledger import Period, billing_months
from estimator.pricing.rent import MONTHLY, RentCharge, RentCount, RentRule, rent_due
from estimator.problems import bills as said

__all__ = ["expected_rent", "rental"]


@dataclass(frozen=True, slots=True)
class _RentLines:
    """The rent lines of one bill for one size."""

    bill: Bill
    gas: str
    size: str
    lines: tuple[BillLine, ...]

    @property
    def amount(self) -> float:
        return sum(line.amount for line in self.lines)

    @property
    def probe(self) -> BillLine:
        return self.lines[0].model_copy(update={"gas": self.gas, "size": self.size})


def rental(checking: Checking) -> list[Finding]:
    """Find rent on cylinders that were not there, on the shop's own, or at another rate than agreed.

    Parameters
    ----------
    checking : Checking
        The workbook under check, duplicates set aside.

    Returns
    -------
    list of Finding

    Notes
    -----
    Rent is counted by the supplier's named rule on the ledger of counts and notes; a swap changes no balance. A rate
    above the agreed one is a finding of price. Source: definition.
    """
    findings: list[Finding] = []
    if not checking.book.deliveries:
        return findings  # without notes nobody knows what came and went; another check says so
    for bill, lines in checking.bills():
        by_size: dict[tuple[str, str], list[BillLine]] = defaultdict(list)
        for line in lines:
            if line.kind == "rent":
                by_size[line.gas, line.size].append(line)
        for (gas, size), of_size in by_size.items():
            findings += _check(checking, _RentLines(bill, gas, size, tuple(of_size)))
    return findings


def expected_rent(
    terms: SupplierTerms, rate: AgreedPrice, ledger: LedgerOfKind, bill: Bill
) -> tuple[RentCharge, Period] | None:
    """Rent that a bill may ask for one size, and the days it covers.

    Parameters
    ----------
    terms : SupplierTerms
        The supplier's rent rule, by name.
    rate : AgreedPrice
        Rent of one cylinder for the rule's unit of time.
    ledger : LedgerOfKind
        The shop's ledger of that size.
    bill : Bill
        The bill, for its days.

    Returns
    -------
    tuple of (RentCharge, Period) or None
        None when the rule is not one of the named ones.

    Notes
    -----
    Where the rent month ends on another day than the bill's, the rent months that end in the bill's days are charged.
    Source: definition.
    """
    counts = {str(count): count for count in RentCount}
    count = counts.get(terms.rent_rule)
    if count is None:
        return None
    starts_on = (terms.rent_period_ends or 0) + 1
    free = terms.free_days if count is RentCount.DAILY else 0
    rule = RentRule(count, rate.price, month_starts_on=starts_on if count in MONTHLY else 1, free_days=free)
    period = Period(bill.first_day, bill.last_day)
    if terms.rent_period_ends and count is RentCount.DAILY:
        months = billing_months(period, starts_on)
        if months:
            period = Period(months[0].first, months[-1].last)
    return rent_due(rule, ledger.ledger, period), period


def _check(checking: Checking, rent: _RentLines) -> list[Finding]:
    bill = rent.bill
    terms = checking.book.terms_of(bill.supplier)
    rate = checking.agreed("rent", rent.probe, bill.last_day)
    rented = ledger_of(checking.book, CylinderKind(bill.supplier, rent.gas, rent.size, "rented"))
    owned = _owned(checking, rent)
    if rented is None and owned and checking.book.counts:
        return [_on_owned(checking, rent, owned, rent.amount)]
    if not terms.rent_rule or rate is None:
        fields = {"supplier": bill.supplier, "gas": rent.gas, "size": rent.size}
        checking.problems.append(said.NO_RENT_RULE.at(rent.lines[0].place, **fields))
        return []
    if rented is None or not _reaches(rented, bill):
        checking.problems.append(said.COUNT_MISSING.at(rent.lines[0].place, gas=rent.gas, size=rent.size))
        return []
    due = expected_rent(terms, rate, rented, bill)
    if due is None:
        fields = {"supplier": bill.supplier, "gas": rent.gas, "size": rent.size}
        checking.problems.append(said.NO_RENT_RULE.at(rent.lines[0].place, found=terms.rent_rule, **fields))
        return []
    return _compare(checking, rent, rate, *due, rented, owned)


def _reaches(ledger: LedgerOfKind, bill: Bill) -> bool:
    """Return whether the ledger says anything of a bill's days: a count by then, or notes before the first count."""
    first_count = ledger.counts[0][0]
    return bill.last_day >= first_count or any(note.date <= bill.last_day for note in ledger.notes)


def _compare(
    checking: Checking,
    rent: _RentLines,
    rate: AgreedPrice,
    due: RentCharge,
    period: Period,
    ledger: LedgerOfKind,
    owned: LedgerOfKind | None,
) -> list[Finding]:
    findings = []
    units = 0.0
    by_units = all(line.quantity is not None and line.unit_price is not None for line in rent.lines)
    for line in rent.lines:
        if line.quantity is not None and line.unit_price is not None:
            units += line.quantity
            findings += _rate(checking, rent, line, rate)
    over = units - due.units if by_units else (rent.amount - due.amount) / rate.price if rate.price else 0.0
    money = checking.minor(over * rate.price)
    slack = checking.minor(checking.book.terms_of(rent.bill.supplier).line_rounding) * len(rent.lines)
    if abs(money) <= max(slack, 1):
        return findings
    per_cylinder = period.days if due.rule.count is RentCount.DAILY else max(1, len(due.steps))
    cylinders = over / per_cylinder
    if owned and cylinders > 0 and abs(cylinders - owned.ledger.balance_on(period.last)) < 0.05:
        return [*findings, _on_owned(checking, rent, owned, over * rate.price)]
    return [*findings, _over(checking, rent, ledger, money, cylinders, over, due)]


def _over(
    checking: Checking,
    rent: _RentLines,
    ledger: LedgerOfKind,
    money: int,
    cylinders: float,
    over: float,
    due: RentCharge,
) -> Finding:
    had = "; ".join(f"{step.first} to {step.last}: {step.said}" for step in due.steps)
    more = "more" if over > 0 else "fewer"
    daily = due.rule.count is RentCount.DAILY
    unit = "cylinder-days" if daily else "cylinder-months"
    what = f"{rent.gas} {rent.size}"
    how_many = _in_whole_days(abs(over), abs(cylinders), what) if daily else f"{abs(cylinders):.3g} {what}"
    return checking.found(
        FindingKind.RENT if over > 0 else FindingKind.RENT_SHORT,
        rent.bill,
        money,
        f"rental is billed for {how_many} {more} than you had "
        f"({due.units + over:.4g} {unit}, your count gives {due.units:.4g})",
        expected=had,
        found=f"{due.units + over:.4g} {unit}",
        evidence=(
            *(line.at("quantity") for line in rent.lines),
            *(row.at("full") for row in ledger.count_rows),
            *(d.at("empty_out") for d in ledger.notes),
        ),
        gas=rent.gas,
        size=rent.size,
    )


def _in_whole_days(cylinder_days: float, cylinders: float, what: str) -> str:
    """Return cylinder-days as cylinders for days where they come out whole: ``2 oxygen 50 L for 30 days``."""
    whole = ceil(cylinders - 1e-9)
    days = cylinder_days / whole if whole else 0.0
    return f"{whole} {what} for {days:.0f} days" if whole and days == round(days) else f"{cylinders:.3g} {what}"


def _rate(checking: Checking, rent: _RentLines, line: BillLine, rate: AgreedPrice) -> list[Finding]:
    charged, quantity = line.unit_price or 0.0, line.quantity or 0.0
    money = checking.minor((charged - rate.price) * quantity)
    if abs(money) <= checking.minor(checking.book.terms_of(line.supplier).line_rounding):
        return []
    return [
        checking.found(
            FindingKind.PRICE,
            rent.bill,
            money,
            f"rental of {rent.gas} {rent.size} is charged at {checking.price(charged)}; "
            f"agreed was {checking.price(rate.price)}",
            expected=checking.price(rate.price),
            found=checking.price(charged),
            evidence=(line.at("unit_price"), rate.at("price")),
            gas=rent.gas,
            size=rent.size,
        )
    ]


def _owned(checking: Checking, rent: _RentLines) -> LedgerOfKind | None:
    kinds = (CylinderKind(s, rent.gas, rent.size, "owned") for s in (rent.bill.supplier, ""))
    return next((found for kind in kinds if (found := ledger_of(checking.book, kind))), None)


def _on_owned(checking: Checking, rent: _RentLines, owned: LedgerOfKind, amount: float) -> Finding:
    money = checking.minor(amount)
    count = owned.ledger.balance_on(rent.bill.last_day)
    return checking.found(
        FindingKind.RENT_OWNED,
        rent.bill,
        money,
        f"rental is billed on {count} {rent.gas} {rent.size} that are your own",
        expected="no rental",
        found=checking.money(money),
        evidence=(*(line.at("amount") for line in rent.lines), *(row.at("owner") for row in owned.count_rows)),
        gas=rent.gas,
        size=rent.size,
    )
