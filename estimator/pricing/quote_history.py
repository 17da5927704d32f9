"""What the register tells: how many quotes are won, and what a piece was offered at last time."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from estimator.check.register import QuoteKey, QuoteRow, Register
from estimator.pricing.money import to_minor
from estimator.pricing.month_report import QuotedJob
from estimator.sheets.register import AGREED, LOST, OPEN, REPLACED, WON

__all__ = ["HitRate", "LastPrice", "LastPrices", "hit_rates", "last_price", "last_prices", "quoted_jobs"]

_SAME_THICKNESS_MM = 0.05


@dataclass(frozen=True, slots=True)
class HitRate:
    """Quotes by what became of them; a quote counts once, however often it was revised."""

    customer: str
    """Empty for all customers together."""
    won: int
    lost: int
    open: int
    won_price: float
    """Before tax, variations included [money]."""
    lost_price: float
    open_price: float

    @property
    def of_decided(self) -> float | None:
        """Share won of those decided; None while none is."""
        decided = self.won + self.lost
        return self.won / decided if decided else None


@dataclass(frozen=True, slots=True)
class LastPrice:
    """What a mark was offered at before."""

    mark: str
    price_each: float
    quantity: float
    date: dt.date
    state: str
    quote: QuoteKey


LastPrices = dict[str, list[tuple[float | None, LastPrice]]]
"""By mark in capitals, oldest first: the thickness [mm], None where it was not kept, and the price."""


def quoted_jobs(register: Register, decimals: int) -> dict[str, QuotedJob]:
    """Return what agreed work was quoted at, by number, variations that were agreed among it.

    Parameters
    ----------
    register : Register
        The register.
    decimals : int
        Decimals of the minor unit.

    Returns
    -------
    dict of str to QuotedJob
        Money in minor units; a row that somebody typed without hours or gas counts as none of it.
    """
    agreed: dict[str, list[QuoteRow]] = {}
    for row in register.quotes:
        if row.state in AGREED:
            agreed.setdefault(row.number, []).append(row)
    return {
        number: QuotedJob(
            number=number,
            price_minor=int(to_minor(sum(row.price for row in rows), decimals)),
            paid_time_min=60.0 * sum(row.hours or 0.0 for row in rows),
            gas_minor=int(to_minor(sum(row.gas_cost or 0.0 for row in rows), decimals)),
            job_number=next((row.job_number for row in rows if row.job_number), ""),
        )
        for number, rows in agreed.items()
    }


def hit_rates(register: Register) -> list[HitRate]:
    """Return the hit rate of all customers together, then of each, the largest first.

    Parameters
    ----------
    register : Register
        The register.

    Returns
    -------
    list of HitRate
        The state of a number is won where a revision of it was won, else that of its last revision.
    """
    by_number: dict[str, list[tuple[str, str, float]]] = {}
    for row in register.quotes:
        by_number.setdefault(row.key.number, []).append((row.customer, row.state, row.price))
    stood = [_stands(rows) for rows in by_number.values()]
    names = dict.fromkeys(name for name, _, _ in stood)
    each = [_rate(name, [one for one in stood if one[0] == name]) for name in names]
    each.sort(key=lambda rate: -(rate.won_price + rate.lost_price + rate.open_price))
    return [_rate("", stood), *each]


def last_price(prices: LastPrices, *, mark: str, thickness_mm: float) -> LastPrice | None:
    """Return what a mark was last offered at; None when it was not.

    Parameters
    ----------
    prices : LastPrices
        What ``last_prices`` gave.
    mark : str
        The mark, capitals aside.
    thickness_mm : float
        Thickness; NaN for any [mm].

    Returns
    -------
    LastPrice or None
        The latest by date; of one day, the one that stands last.
    """
    same = [
        one
        for thickness, one in prices.get(_plain(mark), [])
        if thickness is None or thickness_mm != thickness_mm or abs(thickness - thickness_mm) < _SAME_THICKNESS_MM
    ]
    return same[-1] if same else None


def last_prices(register: Register, customer: str, *, apart_from: str = "") -> LastPrices:
    """Return all that a customer was offered.

    Parameters
    ----------
    register : Register
        The register.
    customer : str
        The customer, capitals aside.
    apart_from : str
        A quote number that does not count: the one that is being quoted.

    Returns
    -------
    LastPrices
    """
    rows = {row.key: row for row in register.quotes if _plain(row.customer) == _plain(customer)}
    found: LastPrices = {}
    for line in register.lines:
        row = rows.get(line.key)
        if row is None or not line.mark or line.key.number == _plain(apart_from):
            continue
        price = LastPrice(line.mark, line.price_each, line.quantity, row.date, row.state, row.key)
        found.setdefault(_plain(line.mark), []).append((line.thickness_mm, price))
    for prices in found.values():
        prices.sort(key=lambda one: one[1].date)
    return found


def _stands(rows: list[tuple[str, str, float]]) -> tuple[str, str, float]:
    """Return customer, state and price of one number."""
    won = [row for row in rows if row[1] in AGREED]
    if won:
        return won[-1][0], WON, sum(price for _, _, price in won)
    standing = [row for row in rows if row[1] != REPLACED] or rows
    return standing[-1]


def _rate(customer: str, stood: Iterable[tuple[str, str, float]]) -> HitRate:
    count = {WON: 0, LOST: 0, OPEN: 0}
    money = dict.fromkeys(count, 0.0)
    for _, state, price in stood:
        key = state if state in count else OPEN
        count[key] += 1
        money[key] += price
    return HitRate(customer, count[WON], count[LOST], count[OPEN], money[WON], money[LOST], money[OPEN])


def _plain(text: str) -> str:
    return " ".join(text.upper().split())
