"""What to order so that a job finishes, and by when: whole cylinders of the size that the shop buys."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass

import numpy as np

from estimator.pricing.rack.contents import CylinderContent, HowRead
from estimator.pricing.rack.draws import acetylene_floors
from estimator.pricing.rack.gas_plan import GasPlan
from estimator.pricing.rack.sets import CylinderSet
from estimator.pricing.rack.steps import Steps
from estimator.quantities.rack import plan_rack
from estimator.quantities.rack_order import cylinders_to_order, days_left_to_order, work_before_short_min

__all__ = ["Order", "order_gas"]

_TRIED_BEYOND = 3
"""Cylinders tried beyond the gas that is short: what a heating tip may not draw stays in each."""


@dataclass(frozen=True, slots=True)
class Order:
    """An order of one gas."""

    gas: str
    size: str
    supplier: str
    """Who sells that size; empty where the shop book does not say."""
    short_m3: float
    cylinders: int
    """Full cylinders that the likely use needs beside the rack."""
    cylinders_sure: int
    """Full cylinders that nine cases in ten need."""
    helps: bool
    """False where no single full cylinder may feed a step: a smaller tip or an approved manifold comes first."""
    work_before_min: float
    """Paid minutes of work until gas is short; infinite when it is not."""
    needed_on: dt.date | None
    order_by: dt.date | None
    lead_days: int
    empties: tuple[str, ...]
    """Cylinders that the job runs to their heel, to send back."""


def order_gas(plan: GasPlan, steps: Steps, *, lead_days: int, work_day_h: float) -> Order:
    """Return what to order of one gas.

    Parameters
    ----------
    plan : GasPlan
        The plan on the rack as it is.
    steps : Steps
        The job.
    lead_days : int
        Working days from order to delivery.
    work_day_h : float
        Paid hours of a working day, above zero [h].

    Returns
    -------
    Order
        None to order where the rack is enough; dates only where the jobs have one.

    Notes
    -----
    Ordered cylinders stand last on the rack, full. A day holds its hours of this work from the job's date on, Saturdays
    and Sundays left out. Source: definition.
    """
    lasts, counts = True, [0, 0]
    high = plan.use_range.high / plan.use_range.likely if plan.use_range.likely > 0 else 1.0
    if not plan.piped:
        for place, times in enumerate((1.0, high)):
            counts[place], enough = _cylinders(plan, steps, times)
            lasts = lasts and enough
    work = math.inf if plan.piped else work_before_short_min(plan.plan, steps.paid_min)
    needed, order_by = _dates(plan, steps, work, lead_days, work_day_h * 60.0)
    return Order(
        gas=plan.gas,
        size=plan.in_use.cylinder,
        supplier=plan.in_use.row.supplier,
        short_m3=plan.short_m3,
        cylinders=counts[0],
        cylinders_sure=max(counts),
        helps=lasts,
        work_before_min=work,
        needed_on=needed,
        order_by=order_by,
        lead_days=lead_days,
        empties=tuple(c.content.cylinder_id for c in plan.cylinders if c.dry_step is not None),
    )


def _cylinders(plan: GasPlan, steps: Steps, times: float) -> tuple[int, bool]:
    """Return the fewest full cylinders that make the job finish, and whether any number does."""
    full = _full(plan)
    short = _with_full(plan, steps, full, 0, times)
    if short <= 0:
        return 0, True
    usable = full.now_m3 - full.heel_m3
    least = cylinders_to_order(short, usable)
    limit = least * _TRIED_BEYOND + _TRIED_BEYOND
    before = short
    for count in range(least, limit + 1):
        short = _with_full(plan, steps, full, count, times)
        if short <= 0:
            return count, True
        if count > least and short >= before - 1e-9:
            break  # one more full cylinder changes nothing: its draw limit stands in the way
        before = short
    return least, False


def _with_full(plan: GasPlan, steps: Steps, full: CylinderContent, count: int, times: float) -> float:
    added = [CylinderSet(f"new {i + 1}", (full,)) for i in range(count)]
    sets = [*plan.sets, *added]
    floors = None if plan.floors_m3 is None else acetylene_floors(steps, sets)
    tried = plan_rack(
        plan.use_m3 * times, [one.now_m3 for one in sets], [one.heel_m3 for one in sets], floors_m3=floors
    )
    return float(tried.short_m3.sum())


def _full(plan: GasPlan) -> CylinderContent:
    gas = plan.in_use
    draw = min((one.supplier_draw_per_h for one in plan.sets if one.supplier_draw_per_h is not None), default=None)
    return CylinderContent(
        cylinder_id="new",
        gas=gas.gas,
        size=gas.cylinder,
        rated_m3=gas.content_m3,
        now_m3=gas.content_m3,
        plus_minus_m3=0.0,
        heel_m3=gas.heel_share * gas.content_m3,
        how=HowRead.NOT_READ,
        read_as="ordered: taken as full",
        supplier_draw_per_h=draw,
    )


def _dates(
    plan: GasPlan, steps: Steps, work_min: float, lead_days: int, day_min: float
) -> tuple[dt.date | None, dt.date | None]:
    step = plan.first_short_step
    start = steps.each[step].date if step is not None else None
    if step is None or start is None:
        return None, None
    # Work of earlier lists is done before this list's own date.
    before = sum(s.paid_min for s in steps.each if s.list_number < steps.each[step].list_number)
    here = max(work_min - before, 0.0)
    left = days_left_to_order(here, work_min_per_day=day_min, lead_time_days=float(lead_days))
    return _workday(start, math.floor(here / day_min)), _workday(start, math.floor(left))


def _workday(date: dt.date, days: int) -> dt.date:
    """Return the working day so many working days later, or earlier where below zero."""
    if days == 0:
        return date
    return dt.date.fromisoformat(
        str(np.busday_offset(date.isoformat(), days, roll="backward" if days < 0 else "forward"))
    )
