"""A job from checked lines to a priced estimate. Names each step."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.shop_book import ShopBook
from estimator.pricing.break_drops import break_drops
from estimator.pricing.build_up import job_row_costs, line_costs
from estimator.pricing.estimate import price_job_rows, price_lines, total_up
from estimator.pricing.job_lines import (
    Bench,
    ReadyLines,
    bench_of,
    ready_lines,
    row_of,
    stop_on_errors,
)
from estimator.pricing.job_rates import call_out_minimum, cylinders_used
from estimator.pricing.line_physics import line_physics
from estimator.pricing.plate_steel import PlateSteel, plate_steel
from estimator.pricing.plates_bought import plates_needed
from estimator.pricing.priced_job import Estimate, JobOrder, Reopened
from estimator.pricing.rates import Rates
from estimator.problems import Level, Problem, strict
from estimator.quantities.job import JobQuantities, choose_settings
from estimator.quantities.job_rows import cylinder_change_row, fetch_plates, light_at
from estimator.quantities.line_checks import physical_warnings
from estimator.quantities.typed_settings import setting_indices, typed_over
from estimator.words import Site, SteelCharged

__all__ = ["Estimate", "JobOrder", "Reopened", "estimate_job"]

Floats = NDArray[np.float64]


def estimate_job(
    cuts: CutList,
    shop: ShopBook,
    order: JobOrder,
    *,
    problems: list[Problem] | None = None,
    my_minutes: Floats | None = None,
    my_price_each: Floats | None = None,
    reopened: Reopened | None = None,
) -> Estimate:
    """Return the priced estimate of a checked list.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    shop : ShopBook
        The shop book.
    order : JobOrder
        Date, fuel, partial, strict and the like.
    problems : list of Problem, optional
        What reading found; errors among them stop the job unless it is partial.
    my_minutes, my_price_each : ndarray of float, shape (n,), optional
        Paid minutes of the line and price each that the owner typed; NaN where none.
    reopened : Reopened, optional
        What was typed over where the job comes from its own record, and not from a list.

    Returns
    -------
    Estimate
        With every warning, sorted.

    Raises
    ------
    WorkbookProblemsError
        When a problem stops the job: any error, or with ``partial`` an error that is not a line's.
    """
    bench = bench_of(cuts, shop, order, reopened)
    lines, rates = ready_lines(
        cuts,
        bench,
        order,
        list(problems or []),
        my_minutes=my_minutes,
        my_price_each=my_price_each,
        reopened=reopened,
    )
    job, consumables_each = _physics(lines.cuts, bench, reopened)
    shown = bench.shop.shown
    lines.found += physical_warnings(lines.cuts, job, bench.kit, bench.work, shown)
    lines.found += break_drops(lines.cuts, bench.shop.breaks)
    plates = _plates(lines.cuts, job, rates, bench, reopened)
    job_labour = order.labour_rate.lower() or lines.cuts.title.labour_rate.lower() or rates.normal_rate
    job.rows.append(cylinder_change_row(cylinders_used(job, rates), job.settings, bench.work))
    job.rows += call_out_minimum(job, rates, job_labour)
    estimate = _priced(
        lines, bench, rates, job, plates, order, consumables_each=consumables_each, job_labour=job_labour
    )
    estimate.reopened = reopened
    estimate.unpriced = sorted({row_of(p.place) for p in lines.found if p.level is Level.ERROR})
    estimate.problems = sorted(lines.found, key=lambda p: (p.place.file, p.place.sheet, p.place.row, p.place.column))
    if order.strict:
        stop_on_errors(strict(lines.found), order)
    return estimate


def _physics(cuts: CutList, bench: Bench, reopened: Reopened | None) -> tuple[JobQuantities, Floats]:
    """Return metres, minutes and gas of the job, and what one piece of each line uses up in other work."""
    kit, work = bench.kit, bench.work
    chosen = choose_settings(cuts, kit, work, keep_tip_in=bench.shop.shop.keep_tip_in)
    if reopened and reopened.settings:
        chosen = replace(chosen, settings=typed_over(chosen.settings, reopened.settings, kit, work))
    job, other = line_physics(cuts, bench.shop, kit, work, chosen)
    if reopened:
        light_at(job.rows, setting_indices(job.settings, reopened.lit_at), job.settings, work)
    return job, other.consumables_each


def _plates(cuts: CutList, job: JobQuantities, rates: Rates, bench: Bench, reopened: Reopened | None) -> PlateSteel:
    """Count the plates, or take them as counted once: how many are fetched, and what each piece pays of them."""
    if reopened and reopened.plates is not None and not reopened.new_lines:
        fetch_plates(job.rows, reopened.fetched or 0.0, job.settings, bench.work)
        return reopened.plates
    needed = plates_needed(cuts, job.lines, rates, bench.work)
    thicknesses = next((row.count for row in job.rows if row.key == "plates"), 0.0)
    more = sum(max(buy.option.plates - 1, 0) for buy in needed.buys if np.any(cuts.site[buy.lines] != Site.SITE))
    fetch_plates(job.rows, thicknesses + more, job.settings, bench.work)
    return plate_steel(
        cuts, needed, dict(zip(SteelCharged.words(), SteelCharged, strict=True))[bench.shop.shop.steel_charged]
    )


def _priced(
    ready: ReadyLines,
    bench: Bench,
    rates: Rates,
    job: JobQuantities,
    plates: PlateSteel,
    order: JobOrder,
    *,
    consumables_each: Floats,
    job_labour: str,
) -> Estimate:
    """Return the job with its costs, prices and totals."""
    cuts, form = ready.cuts, bench.shop.shop
    paid = np.where(np.isnan(ready.my_minutes), job.lines.paid_time_min, ready.my_minutes)
    consumables = consumables_each * cuts.quantity
    costs = line_costs(
        cuts,
        job.lines,
        job.settings,
        rates=rates,
        shop=form,
        work=bench.work,
        paid_time_min=paid,
        other_consumables=consumables,
        labour_rate=ready.labour,
        plates=plates,
    )
    row_costs = job_row_costs(job.rows, rates=rates, shop=form, labour_rate=job_labour)
    lines = price_lines(
        cuts,
        costs,
        shop=form,
        breaks=bench.shop.breaks,
        spread_cost=float(row_costs.cost.sum()) if form.spread_job_rows else 0.0,
        spread_by=paid,
        my_price_each=ready.my_price_each,
    )
    rows = price_job_rows(job.rows, row_costs, form)
    rush, discount = order.rush or cuts.title.rush, _discount(bench.shop, cuts, order)
    return Estimate(
        cuts=cuts,
        shop=bench.shop,
        order=order,
        date=bench.date,
        kit=bench.kit,
        work=bench.work,
        job=job,
        rates=rates,
        labour_rate=ready.labour,
        costs=costs,
        row_costs=row_costs,
        lines=lines,
        rows=rows,
        totals=total_up(lines, rows, form, rush=rush, discount=discount),
        plates=plates,
        job_labour=job_labour,
        other_consumables=consumables,
        rush=rush,
        discount=discount,
        my_minutes=ready.my_minutes,
        my_price_each=ready.my_price_each,
    )


def _discount(shop: ShopBook, cuts: CutList, order: JobOrder) -> float:
    if order.discount is not None:
        return order.discount
    agreed = [c.discount for c in shop.customers if c.customer.lower() == cuts.title.customer.lower()]
    return next((d for d in agreed if d is not None), shop.shop.discount)
