"""Cylinders on site, day by day: deliveries in, returns out, and the balance that rent is counted on."""

from __future__ import annotations

import datetime as dt
from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["Ledger", "Movement", "Period", "billing_months"]

ONE_DAY = dt.timedelta(days=1)


@dataclass(frozen=True, slots=True, order=True)
class Movement:
    """Cylinders of one size that came in and went out with one delivery note."""

    on: dt.date
    cylinders_in: int = 0
    cylinders_out: int = 0

    def __post_init__(self) -> None:
        if self.cylinders_in < 0 or self.cylinders_out < 0:
            raise ValueError(f"cylinders in and out must be zero or above, got {self}")


@dataclass(frozen=True, slots=True, order=True)
class Period:
    """Whole days from ``first`` to ``last``, both counted."""

    first: dt.date
    last: dt.date

    def __post_init__(self) -> None:
        if self.last < self.first:
            raise ValueError(f"a period must end on or after its first day, got {self.first} to {self.last}")

    @property
    def days(self) -> int:
        """Days in the period, both ends counted."""
        return (self.last - self.first).days + 1

    def __contains__(self, day: dt.date) -> bool:
        return self.first <= day <= self.last

    def each_day(self) -> Iterator[dt.date]:
        """Yield each day in order."""
        return (self.first + dt.timedelta(days=n) for n in range(self.days))


@dataclass(frozen=True, slots=True)
class Ledger:
    """Movements of one cylinder size at one supplier, after an opening balance.

    The balance of a day is its closing balance: the day a cylinder comes counts, the day it goes does not.
    """

    opened_on: dt.date
    opening: int
    """Cylinders on site when ``opened_on`` begins."""
    movements: tuple[Movement, ...] = ()

    def __post_init__(self) -> None:
        early = [m for m in self.movements if m.on < self.opened_on]
        if early:
            raise ValueError(f"a movement lies before the ledger opens on {self.opened_on}: {early[0]}")

    def net_by_day(self) -> dict[dt.date, int]:
        """Cylinders in less cylinders out of each day that has a movement, in order of date."""
        net: dict[dt.date, int] = {}
        for movement in sorted(self.movements):
            net[movement.on] = net.get(movement.on, 0) + movement.cylinders_in - movement.cylinders_out
        return net

    def balance_on(self, day: dt.date) -> int:
        """Closing balance of a day; the day before the ledger opens gives the opening balance."""
        if day < self.opened_on - ONE_DAY:
            raise ValueError(f"the ledger opens on {self.opened_on}; the balance on {day} is not known")
        return self.opening + sum(m.cylinders_in - m.cylinders_out for m in self.movements if m.on <= day)

    def daily_balances(self, period: Period) -> NDArray[np.int64]:
        """Closing balance of each day of a period."""
        change = np.zeros(period.days, dtype=np.int64)
        for day, net in self.net_by_day().items():
            if period.first < day <= period.last:
                change[(day - period.first).days] += net
        return self.balance_on(period.first) + np.cumsum(change)

    def balances_past_free_days(self, period: Period, free_days: int) -> NDArray[np.int64]:
        """Of each day's balance, the cylinders that are past their free days.

        The oldest cylinder is taken to go back first; those of the opening balance have used up their free days.
        """
        arrivals = deque([dt.date.min] * max(self.opening, 0))
        waiting = deque(sorted(self.movements))
        counts = np.zeros(period.days, dtype=np.int64)
        for index, day in enumerate(period.each_day()):
            while waiting and waiting[0].on <= day:
                movement = waiting.popleft()
                arrivals.extend([movement.on] * movement.cylinders_in)
                for _ in range(min(movement.cylinders_out, len(arrivals))):
                    arrivals.popleft()
            counts[index] = sum(came == dt.date.min or (day - came).days >= free_days for came in arrivals)
        return counts


def billing_months(period: Period, starts_on: int = 1) -> list[Period]:
    """Whole billing months whose last day lies in a period, such as 25 April to 24 May for ``starts_on`` 25.

    Parameters
    ----------
    period : Period
        Days in which the month must end.
    starts_on : int
        Day of the month on which a billing month starts, 1 to 28.

    Returns
    -------
    list of Period
        Whole months in order; the first may begin before the period does.

    Raises
    ------
    ValueError
        When ``starts_on`` is not from 1 to 28.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> [str(m.first) for m in billing_months(Period(dt.date(2026, 5, 1), dt.date(2026, 5, 31)), starts_on=25)]
    ['2026-04-25']
    """
    if not 1 <= starts_on <= 28:
        raise ValueError(f"a billing month must start on a day from 1 to 28, got {starts_on}")
    months: list[Period] = []
    year, month = (period.first.year, period.first.month - 1) if period.first.month > 1 else (period.first.year - 1, 12)
    while dt.date(year, month, starts_on) <= period.last:
        first = dt.date(year, month, starts_on)
        year, month = (year, month + 1) if month < 12 else (year + 1, 1)
        last = dt.date(year, month, starts_on) - ONE_DAY
        if last in period:
            months.append(Period(first, last))
    return months
