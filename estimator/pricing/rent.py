"""Cylinder rent by each day-count rule that suppliers use, on a ledger of movements, with its working shown.

One ledger holds one cylinder size at one supplier. Amounts are in the major unit and not rounded: a bill line is
rounded where it is printed. Worked examples of every rule stand in docs/rent_rules.md.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass

from estimator.pricing.ledger import ONE_DAY, Ledger, Period, billing_months
from estimator.words import RentCount

__all__ = ["RentCharge", "RentCount", "RentRule", "RentStep", "deposit_due", "months_to_renewal", "rent_due"]


@dataclass(frozen=True, slots=True)
class RentRule:
    """One rent rule and its rate per cylinder: a day, a month, a year or a whole lease, as the count says."""

    count: RentCount
    rate: float = 0.0
    """Rent of one cylinder [money] for a day, month, year or lease term."""
    month_starts_on: int = 1
    """Day on which a billing month starts; 25 means the 25th to the 24th. Monthly counts only."""
    free_days: int = 0
    """Days from its delivery in which a cylinder is free. Daily count only."""
    renewal: tuple[int, int] = (1, 1)
    """Month and day on which a year's rent falls due. Annual and owned only."""
    term_years: int = 1
    """Years that one lease payment covers. Lease only."""

    def __post_init__(self) -> None:
        if self.rate < 0 or self.free_days < 0 or self.term_years < 1:
            raise ValueError(f"rate and free days must be zero or above and the term a year or more, got {self}")
        if not 1 <= self.month_starts_on <= 28 or not 1 <= self.renewal[1] <= 28 or not 1 <= self.renewal[0] <= 12:
            raise ValueError(f"a month starts, and a year is renewed, on a day from 1 to 28, got {self}")
        if self.free_days and self.count is not RentCount.DAILY:
            raise ValueError(f"free days go with the daily count only, got {self.count}")


@dataclass(frozen=True, slots=True)
class RentStep:
    """One line of the working: how many cylinder-days, -months or -years, and what they cost."""

    first: dt.date
    last: dt.date
    said: str
    """In words, such as ``highest balance 4``."""
    units: float
    """Cylinder-days, cylinder-months, cylinder-years or leases."""
    amount: float
    """Rent of this step [money], not rounded."""


@dataclass(frozen=True, slots=True)
class RentCharge:
    """The rent that falls due in a period, with its working."""

    rule: RentRule
    steps: tuple[RentStep, ...] = ()

    @property
    def units(self) -> float:
        """Cylinder-days, -months, -years or leases charged."""
        return sum(step.units for step in self.steps)

    @property
    def amount(self) -> float:
        """Rent due [money], not rounded."""
        return sum(step.amount for step in self.steps)


def rent_due(rule: RentRule, ledger: Ledger, period: Period) -> RentCharge:
    """Rent of one cylinder size that falls due in a period.

    Parameters
    ----------
    rule : RentRule
        The supplier's rule and rate.
    ledger : Ledger
        Opening balance and movements of the size, from before the period or its first billing month.
    period : Period
        Days the bill covers. A monthly rule charges each billing month that ends in it; a yearly rule charges the
        renewals and additions that fall in it.

    Returns
    -------
    RentCharge
        Steps, units and amount, not rounded.

    Raises
    ------
    ValueError
        When the ledger opens after the first day that the rule has to count.

    Notes
    -----
    A swap (one in, one out on one day) changes no balance and adds no cylinder. A balance below zero counts as none.

    Source: common practice of gas suppliers; the annual count of months to the renewal follows a supplier's published
    help page (help.boconline.ie, rental period options).

    Examples
    --------
    >>> from estimator.pricing.ledger import Movement
    >>> ledger = Ledger(dt.date(2026, 6, 1), 2, (Movement(dt.date(2026, 6, 11), cylinders_in=1),))
    >>> june = Period(dt.date(2026, 6, 1), dt.date(2026, 6, 30))
    >>> round(rent_due(RentRule(RentCount.DAILY, rate=0.25), ledger, june).amount, 2)  # 10 x 2 + 20 x 3 = 80 days
    20.0
    """
    if rule.count is RentCount.NONE:
        return RentCharge(rule)
    if rule.count in MONTHLY:
        months = billing_months(period, rule.month_starts_on)
        return RentCharge(rule, tuple(_month_step(rule, ledger, month) for month in months))
    return RentCharge(rule, tuple(_STEPS[rule.count](rule, ledger, period)))


def months_to_renewal(start: dt.date, renewal: tuple[int, int]) -> int:
    """Rental months from a day to the next yearly renewal, the month of that day counted whole.

    Parameters
    ----------
    start : date
        Day on which the cylinder came.
    renewal : tuple of int
        Month and day of the renewal; months start on that day.

    Returns
    -------
    int
        From 1 to 12; a cylinder that comes on the renewal day itself pays 12.

    Raises
    ------
    ValueError
        When the renewal is not a month from 1 to 12 and a day from 1 to 28.

    Notes
    -----
    Source: a gas supplier's help page, help.boconline.ie, rental period options (excerpt): renewal on 1 January,
    cylinder added in June, 7 months.

    Examples
    --------
    >>> months_to_renewal(dt.date(2026, 6, 17), renewal=(1, 1))
    7
    """
    month, day = renewal
    if not 1 <= month <= 12 or not 1 <= day <= 28:
        raise ValueError(f"renewal must be a month from 1 to 12 and a day from 1 to 28, got {renewal}")
    months = (month - start.month) % 12 + (1 if start.day < day else 0)
    return months or 12


def deposit_due(deposit: float, ledger: Ledger, period: Period, refund_share: float = 1.0) -> float:
    """Deposits paid less deposits refunded in a period.

    Parameters
    ----------
    deposit : float
        Deposit on one cylinder [money], zero or above.
    ledger : Ledger
        Opening balance and movements of the size.
    period : Period
        Days counted.
    refund_share : float
        Share of the deposit that is paid back, 0 to 1.

    Returns
    -------
    float
        Paid in less paid back [money]; below zero when more goes back.

    Raises
    ------
    ValueError
        When the deposit is below zero or the share lies outside 0 to 1.

    Notes
    -----
    Counted on each day's net movement, so a swap moves no deposit. Source: common practice, no source.

    Examples
    --------
    >>> from estimator.pricing.ledger import Movement
    >>> ledger = Ledger(dt.date(2026, 6, 1), 0, (Movement(dt.date(2026, 6, 2), cylinders_in=3),))
    >>> deposit_due(50.0, ledger, Period(dt.date(2026, 6, 1), dt.date(2026, 6, 30)))
    150.0
    """
    if deposit < 0 or not 0 <= refund_share <= 1:
        raise ValueError(f"deposit must be zero or above and refund_share from 0 to 1, got {deposit}, {refund_share}")
    nets = [net for day, net in ledger.net_by_day().items() if day in period]
    return sum(deposit * net if net > 0 else deposit * refund_share * net for net in nets)


def _month_step(rule: RentRule, ledger: Ledger, month: Period) -> RentStep:
    units, said = _MONTH_COUNTS[rule.count](ledger, month)
    return RentStep(month.first, month.last, said, units, units * rule.rate)


def _month_end(ledger: Ledger, month: Period) -> tuple[float, str]:
    balance = max(ledger.balance_on(month.last), 0)
    return float(balance), f"balance {balance} at the month's end"


def _month_average(ledger: Ledger, month: Period) -> tuple[float, str]:
    total = int(ledger.daily_balances(month).clip(min=0).sum())
    return total / month.days, f"{total} cylinder-days in {month.days} days"


def _month_highest(ledger: Ledger, month: Period) -> tuple[float, str]:
    highest = max(_opening(ledger, month), int(ledger.daily_balances(month).clip(min=0).max()))
    return float(highest), f"highest balance {highest}"


def _month_added(ledger: Ledger, month: Period) -> tuple[float, str]:
    opening = _opening(ledger, month)
    added = sum(max(net, 0) for day, net in ledger.net_by_day().items() if day in month)
    return float(opening + added), f"opening balance {opening} and {added} added"


def _opening(ledger: Ledger, month: Period) -> int:
    return max(ledger.balance_on(month.first - ONE_DAY), 0)


_MONTH_COUNTS: dict[RentCount, Callable[[Ledger, Period], tuple[float, str]]] = {
    RentCount.MONTH_END: _month_end,
    RentCount.MONTH_AVERAGE: _month_average,
    RentCount.MONTH_HIGHEST: _month_highest,
    RentCount.MONTH_ADDED: _month_added,
}
MONTHLY = frozenset(_MONTH_COUNTS)
"""Counts that charge each billing month by itself."""


def _daily_steps(rule: RentRule, ledger: Ledger, period: Period) -> list[RentStep]:
    if rule.free_days:
        counts = ledger.balances_past_free_days(period, rule.free_days)
        said = f"past {rule.free_days} free days"
    else:
        counts, said = ledger.daily_balances(period).clip(min=0), "on site"
    steps: list[RentStep] = []
    start = 0
    for index in range(1, period.days + 1):
        if index == period.days or counts[index] != counts[start]:
            first, last = period.first + start * ONE_DAY, period.first + (index - 1) * ONE_DAY
            units = float(counts[start] * (index - start))
            steps.append(
                RentStep(first, last, f"{counts[start]} {said} for {index - start} days", units, units * rule.rate)
            )
            start = index
    return steps


def _annual_steps(rule: RentRule, ledger: Ledger, period: Period) -> list[RentStep]:
    """Rent of a place is paid to the next renewal; a cylinder swapped into a paid place pays nothing more."""
    steps: list[RentStep] = []
    paid = max(ledger.opening, 0)
    net = ledger.net_by_day()
    for day in Period(ledger.opened_on, max(period.last, ledger.opened_on)).each_day():
        if (day.month, day.day) == rule.renewal:
            paid = max(ledger.balance_on(day - ONE_DAY), 0)
            steps.append(RentStep(day, day, f"renewal of {paid}", float(paid), paid * rule.rate))
        added = ledger.balance_on(day) - paid if net.get(day, 0) > 0 else 0
        if added > 0:
            paid += added
            months = months_to_renewal(day, rule.renewal)
            units = added * months / 12
            steps.append(RentStep(day, day, f"{added} added, {months} months to renewal", units, units * rule.rate))
    return [step for step in steps if step.first in period]


def _lease_steps(rule: RentRule, ledger: Ledger, period: Period) -> list[RentStep]:
    """A lease starts when the balance outgrows the leases held, and again at its end if it is still needed.

    Leases of the opening balance are taken as running through the period: their dates are not in the ledger.
    """
    steps: list[RentStep] = []
    ends: list[dt.date] = []
    for day in Period(ledger.opened_on, max(period.last, ledger.opened_on)).each_day():
        ends = [end for end in ends if end > day]
        started = ledger.balance_on(day) - max(ledger.opening, 0) - len(ends)
        if started > 0:
            ends += [_years_later(day, rule.term_years)] * started
            steps.append(RentStep(day, day, f"{started} leases start", float(started), started * rule.rate))
    return [step for step in steps if step.first in period]


def _owned_steps(rule: RentRule, ledger: Ledger, period: Period) -> list[RentStep]:
    steps: list[RentStep] = []
    for day in period.each_day():
        if (day.month, day.day) == rule.renewal:
            owned = max(ledger.balance_on(day - ONE_DAY), 0)
            steps.append(RentStep(day, day, f"yearly fee on {owned} owned", float(owned), owned * rule.rate))
    return steps


def _years_later(day: dt.date, years: int) -> dt.date:
    if (day.month, day.day) == (2, 29):
        day = dt.date(day.year, 2, 28)
    return day.replace(year=day.year + years)


_STEPS: dict[RentCount, Callable[[RentRule, Ledger, Period], list[RentStep]]] = {
    RentCount.DAILY: _daily_steps,
    RentCount.ANNUAL_ADVANCE: _annual_steps,
    RentCount.LEASE: _lease_steps,
    RentCount.OWNED: _owned_steps,
}
