"""The rates and prices in force for a job: dated facts of the shop book, narrowed to one date and one fuel."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol, TypeVar

import numpy as np
from numpy.typing import NDArray

from estimator.check.shop_book import GasPrice, ShopBook, SteelPrice
from estimator.pricing.gas_price import gas_cost_per_m3, gas_left_uncredited_m3
from estimator.quantities.chart import distinct_values

__all__ = ["GasInUse", "Rates", "in_force", "rates_in_force", "steel_row"]


class _Dated(Protocol):
    @property
    def from_date(self) -> dt.date: ...


Row = TypeVar("Row", bound=_Dated)


@dataclass(frozen=True, slots=True)
class GasInUse:
    """One gas as jobs are costed with it; volumes at 15 °C and 101.325 kPa, money in the major unit."""

    gas: str
    cylinder: str
    price: float
    fees: float
    content_m3: float
    heel_share: float
    credited_share: float
    rent_per_month: float
    held: float
    from_date: dt.date
    row: GasPrice
    density_kg_m3: float

    @property
    def cost_per_m3(self) -> float:
        """Cost of a cubic metre that reaches the torch."""
        left = gas_left_uncredited_m3(self.heel_share * self.content_m3, self.credited_share)
        return float(gas_cost_per_m3(self.price, self.fees, self.content_m3, left))

    @property
    def usable_m3(self) -> float:
        """Content less what stays in at change-over; infinite for piped gas."""
        return float("inf") if self.cylinder == "piped" else self.content_m3 * (1.0 - self.heel_share)


@dataclass(frozen=True, slots=True)
class Rates:
    """Everything that turns a job's quantities into money."""

    date: dt.date | None
    oxygen: GasInUse
    fuel: GasInUse
    labour: dict[str, float]
    """Per hour, by rate name in lower case; the first is the shop's normal rate."""
    labour_minimum_h: dict[str, float]
    steel: tuple[SteelPrice, ...]
    tip_price: dict[str, float]
    add_on: dict[str, float]
    """Share on each class of direct cost: the sum of its add-ons, all on one base."""
    rent_per_flame_hour: float

    @property
    def normal_rate(self) -> str:
        """Name of the labour rate that holds when nothing is said."""
        return "normal" if "normal" in self.labour else next(iter(self.labour), "")


def in_force(rows: Sequence[Row], date: dt.date | None) -> Row | None:
    """Return the row in force on a date: the latest that has begun; with no date, the only row there is.

    Parameters
    ----------
    rows : sequence of records with ``from_date``
        Rows of one thing.
    date : datetime.date or None
        Date of the job.

    Returns
    -------
    record or None
        None when no row has begun, or when there is no date and the rows differ in date.
    """
    if date is None:
        return rows[0] if len({r.from_date for r in rows}) == 1 else None
    begun = [r for r in rows if r.from_date <= date]
    return max(begun, key=lambda r: r.from_date) if begun else None


def steel_row(steel: Sequence[SteelPrice], thickness_mm: float) -> SteelPrice | None:
    """Return the steel price for a thickness: its own row, else the row for any thickness."""
    own = [s for s in steel if s.thickness_mm is not None and abs(s.thickness_mm - thickness_mm) < 0.05]
    rest = [s for s in steel if s.thickness_mm is None]
    return next(iter(own or rest), None)


def rates_in_force(shop: ShopBook, *, date: dt.date | None, oxygen: GasInUse, fuel: GasInUse) -> Rates:
    """Return the rates of a shop on a date.

    Parameters
    ----------
    shop : ShopBook
        The shop book.
    date : datetime.date or None
        Date of the job.
    oxygen, fuel : GasInUse
        The gases that the job is costed with.

    Returns
    -------
    Rates
        Labour rates that have not begun are left out.
    """
    names = list(dict.fromkeys(r.name.lower() for r in shop.labour))
    current = {n: in_force([r for r in shop.labour if r.name.lower() == n], date) for n in names}
    by_thickness = {s.thickness_mm for s in shop.steel}
    steel = [in_force([s for s in shop.steel if s.thickness_mm == t], date) for t in by_thickness]
    month_rent = sum(g.rent_per_month * g.held for g in (oxygen, fuel))
    return Rates(
        date=date,
        oxygen=oxygen,
        fuel=fuel,
        labour={n: r.per_hour for n, r in current.items() if r is not None},
        labour_minimum_h={n: r.minimum_hours for n, r in current.items() if r is not None},
        steel=tuple(s for s in steel if s is not None),
        tip_price={t.name: t.price for t in shop.tips} | {t.name: t.price for t in shop.flame_tips},
        add_on=_add_ons(shop),
        rent_per_flame_hour=month_rent / shop.shop.planned_flame_hours,
    )


def steel_per_piece_kg(rates: Rates, thickness_mm: NDArray[np.float64]) -> tuple[NDArray[np.float64], ...]:
    """Return price, scrap value and left-over share for each line's thickness.

    Parameters
    ----------
    rates : Rates
        Rates in force.
    thickness_mm : ndarray of float, shape (n,)
        Plate thickness [mm].

    Returns
    -------
    tuple of three ndarray of float, shape (n,)
        Price per kg and scrap per kg [money/kg], share of the plate bought that is left over; NaN without a price.
    """
    distinct, where = distinct_values(np.nan_to_num(thickness_mm))
    rows = [steel_row(rates.steel, float(t)) for t in distinct]
    out = []
    for name in ("price_per_kg", "scrap_per_kg", "left_over_share"):
        values = np.array([np.nan if r is None else getattr(r, name) for r in rows], dtype=np.float64)
        out.append(values[where] if len(values) else np.empty(0))
    return tuple(out)


def _add_ons(shop: ShopBook) -> dict[str, float]:
    shares: dict[str, float] = {}
    for row in shop.add_ons:
        shares[row.cost_class] = shares.get(row.cost_class, 0.0) + row.share
    return shares
