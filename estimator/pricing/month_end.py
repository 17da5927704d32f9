"""The month end, put together: are the bills right, does the work explain the gas, where did the money go, by job.

Works on bills and counts alone; a log adds the second and the last answer.
"""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

from estimator.check.bills import Bill
from estimator.pricing.bill_checks.finding import Finding
from estimator.pricing.bill_checks.run import CheckedBills
from estimator.pricing.bridge import Bridge, GasOfMonth, bridge
from estimator.pricing.cylinder_content import ReadingDoubts
from estimator.pricing.expected_gas import ExpectedGas
from estimator.pricing.gas_balance import Explanation, GasVerdict, balance, explain
from estimator.pricing.gas_used import GasUsed, count_dates, gas_used
from estimator.pricing.money import share_out
from estimator.pricing.month_money import gas_of_month, rest_of_bills
from estimator.pricing.own_ratio import OwnRatio, PastMonth, own_ratio, past_month
from estimator.pricing.true_up import JobCost, true_up
from estimator.problems import bills as said
from estimator.problems.code import Place, Problem

__all__ = ["Expect", "Month", "MonthEnd", "month_end", "months_of"]

Expect = Callable[[dt.date, dt.date], ExpectedGas]
"""Gives the modelled gas of the work logged after the end of one day until the end of another."""


@dataclass(frozen=True, slots=True)
class Month:
    """The days between two counts of the rack, with the bills that belong to them."""

    after: dt.date
    until: dt.date
    bills: tuple[Bill, ...]
    used: tuple[GasUsed, ...]
    verdicts: tuple[GasVerdict, ...]
    """Empty without a log."""
    explanation: Explanation | None
    bridge: Bridge
    jobs: tuple[JobCost, ...]
    expected: ExpectedGas | None = None
    learned: Mapping[str, OwnRatio] = field(default_factory=dict)
    """The shop's own use against the model, from the months before, by gas."""

    def lost_share(self, gas: str) -> float | None:
        """Return the gas lost, as a share of the gas of the work, that this month measures; None without a log."""
        used = next((u.used_m3 for u in self.used if u.gas == gas), None)
        work = self.expected.work_m3(gas) if self.expected else 0.0
        return used / work - 1.0 if used is not None and work > 0 else None


@dataclass(frozen=True, slots=True)
class MonthEnd:
    """All answers of the month end."""

    findings: tuple[Finding, ...]
    months: tuple[Month, ...]
    problems: tuple[Problem, ...]

    @property
    def money_minor(self) -> int:
        """What the suppliers ask too much on balance, in minor units."""
        return sum(finding.money_minor for finding in self.findings)

    @property
    def reconciles(self) -> bool:
        """Whether no bill has a fault and the work explains the gas of every month."""
        explained = all(month.explanation in (None, Explanation.EXPLAINED) for month in self.months)
        return not self.findings and explained


def month_end(checked: CheckedBills, expect: Expect | None = None, doubts: ReadingDoubts | None = None) -> MonthEnd:
    """Balance the gas and split the money of every month that two counts enclose.

    Parameters
    ----------
    checked : CheckedBills
        The bills after every check.
    expect : callable, optional
        Modelled gas of the logged work between two days; without it nothing is said about the work.
    doubts : ReadingDoubts, optional
        Standard uncertainties of readings.

    Returns
    -------
    MonthEnd

    Notes
    -----
    A bill belongs to the month that holds the middle of its days; bills of no month are left to the checks alone.
    Source: definition.
    """
    doubts = doubts or ReadingDoubts()
    problems = list(checked.problems)
    months = []
    spans, of_counts = months_of(checked)
    problems += of_counts
    before: ExpectedGas | None = None
    past: dict[str, list[PastMonth]] = defaultdict(list)
    for after, until in spans:
        expected = expect(after, until) if expect else None
        month, of_month = _month(checked, after, until, expected, before, past, doubts)
        before = expected
        _remember(past, month)
        months.append(month)
        problems += of_month
    return MonthEnd(checked.findings, tuple(months), tuple(dict.fromkeys(problems)))


def months_of(checked: CheckedBills) -> tuple[list[tuple[dt.date, dt.date]], list[Problem]]:
    """Return the spans between counts that all counted gases share, with what is missing.

    Parameters
    ----------
    checked : CheckedBills
        The bills after every check.

    Returns
    -------
    tuple of (list of (date, date), list of Problem)
        A gas that was counted on other days than the others, or once, is said and left out of the spans it lacks.

    Notes
    -----
    Source: definition.
    """
    gases = _billed_gases(checked)
    dates = {gas: set(count_dates(checked.checking, gas)) for gas in gases}
    counted = [days for days in dates.values() if len(days) > 1]
    problems = [
        said.COUNT_ONLY_ONE.at(_count_place(checked, gas), gas=gas) for gas, days in dates.items() if len(days) < 2
    ]
    if not counted:
        return [], problems
    shared = sorted(set.intersection(*counted))
    return list(pairwise(shared)), problems


def _month(
    checked: CheckedBills,
    after: dt.date,
    until: dt.date,
    expected: ExpectedGas | None,
    before: ExpectedGas | None,
    past: Mapping[str, list[PastMonth]],
    doubts: ReadingDoubts,
) -> tuple[Month, list[Problem]]:
    used, problems = _used_between(checked, after, until, doubts)
    learned = {u.gas: own_ratio(past.get(u.gas, ()), expected.common_doubt(u.gas)) for u in used} if expected else {}
    verdicts = _verdicts(used, expected, learned) if expected else []
    bills = tuple(bill for bill in checked.checking.book.bills if after < _middle(bill) <= until)
    by_gas = {verdict.gas: verdict for verdict in verdicts}
    gases = [gas_of_month(checked, bills, one, by_gas.get(one.gas), expected, until, before) for one in used]
    done = bridge(gases, rest_of_bills(checked, bills, {one.gas for one in used}), checked.checking.decimals)
    month = Month(
        after,
        until,
        bills,
        tuple(used),
        tuple(verdicts),
        explain(verdicts) if verdicts else None,
        done,
        tuple(_jobs(checked, done, expected, gases)) if expected else (),
        expected,
        learned,
    )
    return month, problems


def _used_between(
    checked: CheckedBills, after: dt.date, until: dt.date, doubts: ReadingDoubts
) -> tuple[list[GasUsed], list[Problem]]:
    """Return what was used of each gas that was counted on both days, with the sizes that are not known."""
    used: list[GasUsed] = []
    problems: list[Problem] = []
    for gas in _billed_gases(checked):
        if {after, until} <= set(count_dates(checked.checking, gas)):
            of_gas, of_sizes = gas_used(checked.checking, gas, after, until, doubts)
            used.append(of_gas)
            problems += of_sizes
    return used, problems


def _verdicts(used: list[GasUsed], expected: ExpectedGas, learned: Mapping[str, OwnRatio]) -> list[GasVerdict]:
    wanted = [expected.total_m3(u.gas) * learned[u.gas].ratio for u in used]
    own = [expected.own_doubt_m3.get(u.gas, 0.0) * learned[u.gas].ratio for u in used]
    shared = [total * learned[u.gas].doubt for u, total in zip(used, wanted, strict=True)]
    used_m3, doubt_m3 = [u.used_m3 for u in used], [u.doubt_m3 for u in used]
    return balance([u.gas for u in used], used_m3, doubt_m3, wanted, np.hypot(own, shared))


def _remember(past: dict[str, list[PastMonth]], month: Month) -> None:
    """Keep what a month says of the shop's own use; a month with a loss that was not explained teaches nothing."""
    if month.expected is None:
        return
    for verdict in month.verdicts:
        modelled = month.expected.total_m3(verdict.gas)
        if verdict.explained and modelled > 0:
            shared = month.expected.common_doubt(verdict.gas)
            past[verdict.gas].append(past_month(verdict, modelled, shared, month.expected.doubt_m3(verdict.gas)))


def _jobs(checked: CheckedBills, done: Bridge, expected: ExpectedGas, gases: list[GasOfMonth]) -> list[JobCost]:
    """Share what the month's use cost: every step of a gas but its stock, and all rental and fees before tax."""
    if not expected.jobs:
        return []
    prices = {g.gas: g.standard_price for g in gases}
    outside = {"stock", "timing", "wrong_unit", "not_received", "twice", "footing", "tax"}
    start = _split(done.start_minor, [g.planned_m3 * g.standard_price for g in gases])
    money = {g.gas: minor for g, minor in zip(gases, start, strict=True)}
    other = 0
    for part in done.steps():
        if part.key in outside:
            continue
        if part.gas:
            money[part.gas] += part.minor
        else:
            other += part.minor
    by_gas = {gas: list(use) for gas, use in expected.by_gas.items()}
    decimals = checked.checking.decimals
    return true_up(expected.jobs, by_gas, prices, money, other, list(expected.flame_time_min), decimals)


def _split(minor: int, weights: list[float]) -> list[int]:
    if not weights or sum(weights) == 0:
        return [minor] + [0] * (len(weights) - 1) if weights else []
    return share_out(minor, weights)


def _billed_gases(checked: CheckedBills) -> list[str]:
    book = checked.checking.book
    rows = [*(n.gas for n in book.lines if n.kind == "gas"), *(c.gas for c in book.counts)]
    return [gas for gas in dict.fromkeys(rows) if gas]


def _count_place(checked: CheckedBills, gas: str) -> Place:
    book = checked.checking.book
    rows = [*(c.place for c in book.counts if c.gas == gas), *(n.place for n in book.lines if n.gas == gas)]
    return rows[0]


def _middle(bill: Bill) -> dt.date:
    return bill.first_day + (bill.last_day - bill.first_day) / 2
