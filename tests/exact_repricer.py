"""A second way to the price of a job, in exact fractions, written from ``docs/method.md``, section Money.

It shares with the engine the quantities, the shop book's records and the size of a cylinder in m³, and nothing of its
pricing: no float is added or rounded here.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from estimator.check.cut_list import CutList
from estimator.check.shop_book import ShopBook
from estimator.check.work_rates import WorkRates
from estimator.quantities.job import JobQuantities
from estimator.units import ReferenceState, gas_volume_m3
from estimator.words import MadeFrom, Shape, Steel

__all__ = ["Repriced", "reprice", "rounded"]

BAR_LEFT_OVER = Fraction(5, 100)
DENSITY = 7850
BARS = (Shape.BAR_END, *(shape for shape in Shape if shape >= Shape.ANGLE))
CLASSES = ("gas", "labour", "consumables", "rent", "steel")


@dataclass(frozen=True, slots=True)
class Repriced:
    """Printed amounts in minor units: each line's, then the job's steps in the order of the page."""

    parts: list[dict[str, int]]
    price_each: list[int]
    price: list[int]
    row_price: list[int]
    steps: dict[str, int]


@dataclass(frozen=True, slots=True)
class _Rates:
    oxygen: Fraction
    fuel: Fraction
    hour: Fraction
    flame_hour: Fraction


def rounded(amount: Fraction, decimals: int) -> int:
    """Round to minor units, half away from zero, seen at nine decimals as a spreadsheet sees it."""
    scaled = abs(round(amount, 9)) * 10**decimals
    whole = int(scaled + Fraction(1, 2))
    return whole if amount >= 0 else -whole


def reprice(
    cuts: CutList,
    job: JobQuantities,
    work: WorkRates,
    shop: ShopBook,
    *,
    fuel: str,
    date: dt.date,
    rush: float = 0.0,
    discount: float = 0.0,
) -> Repriced:
    """Return the printed amounts of a job whose work is cutting without drilled holes."""
    form, digits, lines = shop.shop, shop.shop.decimals, job.lines
    rates = _rates(shop, fuel, date)
    tips = {tip.name: _exact(tip.price) for tip in shop.tips}
    costs = []
    for i in range(len(cuts)):
        flame_h = _exact(lines.flame_time_min[i]) / 60
        thick = cuts.thickness_mm[i] > work.thick_pierce_mm
        pierces = _exact(lines.metres.passes[i]) * _exact(lines.metres.pierces_each[i]) if thick else Fraction(0)
        worn_h = flame_h + pierces * _exact(work.thick_pierce_wear_h)
        tip = tips[job.settings.tip[int(lines.setting[i])]]
        oxygen = _sum(lines.cutting_oxygen_m3[i], lines.preheat_oxygen_m3[i], lines.lost_oxygen_m3[i])
        costs.append(
            _cost(
                rates,
                shop,
                oxygen_m3=oxygen,
                fuel_m3=_sum(lines.fuel_m3[i], lines.lost_fuel_m3[i]),
                paid_h=_exact(lines.paid_time_min[i]) / 60,
                flame_h=flame_h,
                consumables=tip * worn_h / _exact(work.tip_life_h),
                steel=_steel(shop, cuts, job, i),
            )
        )
    row_costs = [
        _cost(
            rates,
            shop,
            oxygen_m3=_sum(row.preheat_oxygen_m3, row.lost_oxygen_m3),
            fuel_m3=_sum(row.fuel_m3, row.lost_fuel_m3),
            paid_h=_exact(row.paid_time_min) / 60,
            flame_h=_exact(row.flame_time_min) / 60,
        )
        for row in job.rows
    ]
    over = 1 / (1 - _exact(form.margin)) if form.margin is not None else 1 + _exact(form.markup or 0.0)
    spread = sum((sum(c.values()) for c in row_costs), Fraction(0)) if form.spread_job_rows else Fraction(0)
    paid = [_exact(minutes) for minutes in lines.paid_time_min]
    each, price = [], []
    for i, cost in enumerate(costs):
        quantity = int(cuts.quantity[i])
        whole = sum(cost.values()) + spread * paid[i] / sum(paid)
        one = _up_to_step(rounded(whole * over / quantity, digits), form.price_step, digits)
        each.append(one)
        amount = one * quantity
        price.append(max(amount, rounded(_exact(form.minimum_line), digits)) if amount > 0 else amount)
    row_price = [0 if form.spread_job_rows else rounded(sum(c.values()) * over, digits) for c in row_costs]
    off = sum(_share(p, _break(shop, cuts, i), digits) for i, p in enumerate(price))
    return Repriced(
        parts=[{name: rounded(part, digits) for name, part in cost.items()} for cost in costs],
        price_each=each,
        price=price,
        row_price=row_price,
        steps=_steps(shop, sum(price), sum(row_price), off, rush=rush, discount=discount),
    )


def _steps(shop: ShopBook, lines: int, rows: int, off: int, *, rush: float, discount: float) -> dict[str, int]:
    form, digits = shop.shop, shop.shop.decimals
    rushed = _share(lines + rows - off, rush, digits)
    less = _share(lines + rows - off + rushed, discount, digits)
    before = lines + rows - off + rushed - less
    top_up = max(rounded(_exact(form.minimum_job), digits) - before, 0)
    delivery = rounded(_exact(form.delivery), digits)
    taxable = before + top_up + delivery
    tax = _share(taxable, form.tax, digits)
    return {
        "lines": lines,
        "job_rows": rows,
        "quantity_break": off,
        "rush": rushed,
        "discount": less,
        "minimum_top_up": top_up,
        "delivery": delivery,
        "taxable": taxable,
        "tax": tax,
        "total": taxable + tax,
    }


def _cost(
    rates: _Rates,
    shop: ShopBook,
    *,
    oxygen_m3: Fraction,
    fuel_m3: Fraction,
    paid_h: Fraction,
    flame_h: Fraction,
    consumables: Fraction = Fraction(0),
    steel: Fraction = Fraction(0),
) -> dict[str, Fraction]:
    five = dict(
        zip(
            CLASSES,
            (
                oxygen_m3 * rates.oxygen + fuel_m3 * rates.fuel,
                paid_h * rates.hour,
                consumables,
                rates.flame_hour * flame_h,
                steel,
            ),
            strict=True,
        )
    )
    added = sum((_exact(row.share) * five[row.cost_class] for row in shop.add_ons), Fraction(0))
    overhead = _exact(shop.shop.overhead_per_hour) * paid_h + _exact(shop.shop.overhead_share) * sum(five.values())
    return {**five, "add_on": added, "overhead": overhead}


def _rates(shop: ShopBook, fuel: str, date: dt.date) -> _Rates:
    gases = [_latest([g for g in shop.gas_prices if g.gas == gas and g.in_use], date) for gas in ("oxygen", fuel)]
    costs = []
    for gas in gases:
        state = next((s for s in ReferenceState if s.label == gas.content_state), None)
        content = _exact(gas_volume_m3(gas.content, unit=gas.content_unit, gas=gas.gas, state=state))
        lost = content * _exact(gas.heel_share) * (1 - _exact(gas.credited_share))
        costs.append((_exact(gas.price) + _exact(gas.cylinder_fees)) / (content - lost))
    rent = sum((_exact(gas.rent_per_month) * _exact(gas.held) for gas in gases), Fraction(0))
    hour = _latest([row for row in shop.labour if row.name.lower() == "normal"], date).per_hour
    return _Rates(costs[0], costs[1], _exact(hour), rent / _exact(shop.shop.planned_flame_hours))


def _steel(shop: ShopBook, cuts: CutList, job: JobQuantities, line: int) -> Fraction:
    if cuts.steel[line] != Steel.OURS:
        return Fraction(0)
    own = [r for r in shop.steel if r.thickness_mm is not None and abs(r.thickness_mm - cuts.thickness_mm[line]) < 0.05]
    row = (own or [r for r in shop.steel if r.thickness_mm is None])[0]
    mass = _exact(cuts.quantity[line]) * _exact(job.lines.mass_each_kg[line])
    bar = cuts.made_from[line] in (MadeFrom.FLAT, MadeFrom.BLANK) or cuts.shape[line] in BARS
    corners = Fraction(0)
    if cuts.shape[line] in (Shape.DISC, Shape.RING) and not bar:
        square_kg = _exact(cuts.size_a_mm[line]) ** 2 * _exact(cuts.thickness_mm[line]) * DENSITY / 10**9
        corners = _exact(cuts.quantity[line]) * square_kg - mass
    bought = (mass + corners) / (1 - (BAR_LEFT_OVER if bar else _exact(row.left_over_share)))
    return bought * _exact(row.price_per_kg) - (bought - mass) * _exact(row.scrap_per_kg)


def _break(shop: ShopBook, cuts: CutList, line: int) -> float:
    mark = cuts.mark[line]
    ordered = sum(q for m, q in zip(cuts.mark, cuts.quantity, strict=True) if m == mark)
    reached = [row for row in shop.breaks if ordered >= row.from_quantity]
    return max(reached, key=lambda row: row.from_quantity).off_share if reached else 0.0


def _up_to_step(minor: int, step: float, digits: int) -> int:
    units = rounded(_exact(step), digits)
    return minor if units == 0 else -(-minor // units) * units


def _share(minor: int, share: float, digits: int) -> int:
    return rounded(Fraction(minor, 10**digits) * _exact(share), digits)


def _latest(rows: Sequence[Any], date: dt.date) -> Any:
    return max((row for row in rows if row.from_date <= date), key=lambda row: row.from_date)


def _sum(*values: float) -> Fraction:
    return sum(map(_exact, values), Fraction(0))


def _exact(value: float) -> Fraction:
    """Take a number as it is written: a price of 0.1 is a tenth."""
    return Fraction(str(float(value)))
