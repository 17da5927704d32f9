"""How sure an estimate is: its sums and the bands of what it rests on, as the ranges of price, hours and gas.

Works on sums by tip and mode, so the cost does not grow with the lines. Errors that lines share stay shared.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from estimator.check.shop_book import FactorRow, ShopBook
from estimator.check.torch_kit import built_in_work_rates
from estimator.learning.ranges import Factor, Output, Range, Term, first_order_log_sd, job_bars, job_ranges
from estimator.learning.spread import Spread, split_lognormal
from estimator.pricing.job import Estimate
from estimator.words import OwnFactor

__all__ = ["EstimateRanges", "estimate_ranges"]

Floats = NDArray[np.float64]

_WORK = {
    "start_time_min": ("start time", "pierce_time_hand"),
    "move_time_min": ("moves", "move_min"),
    "setting_time_min": ("settings", "straightedge_min"),
    "layout_min": ("layout", "layout_min_per_m"),
    "handling_min": ("handling", "handling_min_per_piece"),
    "helper_min": ("helper", "helper_min_per_lift"),
    "cleaning_min": ("cleaning", "clean_above_30_per_mm"),
    "grinding_min": ("grinding", "touch_up_min_per_m"),
    "drilling_min": ("drilling", "drill_min_per_hole"),
    "clamp_min": ("clamping", "stack_clamp_min"),
    "norm_min": ("norm of short cuts", "rail_cm2_min"),
}
"""Minutes of a line: the factor they follow, and the work rate whose band it has."""
_LIT = ("start_time_min", "move_time_min")
_UNRESTED = ("drilling_min",)
_PAID = ("paid_min", "labour")
_RATES = "work rates"
_HOURS, _ONE_JOB = "hours, scope and surprises", "hours of one job"
_ENOUGH_JOBS = 10
"""Logged jobs from which the shop's own scatter takes the place of the band of hours. Source: definition."""


@dataclass(frozen=True, slots=True)
class EstimateRanges:
    """Four times in five the outcome lies between low and high. Money in the major unit, time in minutes, gas in m³."""

    price: Range
    paid_time_min: Range
    oxygen_m3: Range
    fuel_m3: Range


def estimate_ranges(estimate: Estimate) -> EstimateRanges:
    """Return the ranges of an estimate.

    Parameters
    ----------
    estimate : Estimate
        A priced job.

    Returns
    -------
    EstimateRanges
        The likely price is the printed total.

    Notes
    -----
    Until ten jobs are logged the hours carry the shop book's skewed band besides the chart's. It holds the doubt about
    the work rates; the bars show each rate's part of it, and what is left as scope and surprises. From ten jobs on the
    hours carry the shop's own scatter from job to job. Source: definition; ``docs/method.md``, "How sure".
    """
    factors = {f.name: f for f in _factors(estimate)}
    terms = [*_torch_terms(estimate), *_work_terms(estimate), *_row_terms(estimate)]
    own = _hours_of_one_job(estimate.shop)
    hours = own or factors[_HOURS]
    drawn = [_by_hours(term, hours.name, factors, alone=own is not None) for term in terms]
    rates, form = estimate.rates, estimate.shop.shop
    on = {name: 1.0 + form.overhead_share + rates.add_on.get(name, 0.0) for name in ("gas", "labour", "rent")}
    money = {
        "oxygen_m3": rates.oxygen.cost_per_m3 * on["gas"],
        "fuel_m3": rates.fuel.cost_per_m3 * on["gas"],
        "labour": on["labour"],
        "flame_min": rates.rent_per_flame_hour / 60.0 * on["rent"],
        "paid_min": form.overhead_per_hour / 60.0,
    }
    outputs = [
        _price(estimate, terms, money),
        Output("paid_min", {"paid_min": 1.0}),
        Output("oxygen_m3", {"oxygen_m3": 1.0}),
        Output("fuel_m3", {"fuel_m3": 1.0}),
    ]
    ranges = job_ranges([*factors.values(), *([own] if own else [])], drawn, outputs)
    if own is None:
        # Drawn as one, shown rate by rate: what logging would narrow most.
        shown = {**factors, _HOURS: _hours_left(hours, list(factors.values()), terms)}
        ranges = {o.name: replace(ranges[o.name], bars=job_bars(list(shown.values()), terms, o)) for o in outputs}
    return EstimateRanges(ranges["price"], ranges["paid_min"], ranges["oxygen_m3"], ranges["fuel_m3"])


def _by_hours(term: Term, hours: str, factors: Mapping[str, Factor], *, alone: bool) -> Term:
    """Return a paid term moved by the hours in place of the work rates; alone, in place of the speed as well."""
    if term.quantity not in _PAID:
        return term
    kept = {n: p for n, p in term.powers.items() if factors[n].source != _RATES and n != _HOURS and not alone}
    return replace(term, powers=kept | {hours: 1.0})


def _factors(estimate: Estimate) -> Iterator[Factor]:
    settings, shop = estimate.job.settings, estimate.shop
    weight = np.bincount(
        np.maximum(estimate.job.lines.setting, 0),
        weights=np.where(estimate.job.lines.setting >= 0, estimate.job.lines.flame_time_min, 0.0),
        minlength=len(settings),
    )
    for (tip, by), here in _groups(estimate).items():
        share = (
            weight[here] / weight[here].sum() if weight[here].sum() > 0 else np.full(int(here.sum()), 1 / here.sum())
        )

        def band(low: Floats, high: Floats, share: Floats = share, here: NDArray[np.bool_] = here) -> Spread:
            return _spread(float(share @ low[here]), float(share @ high[here]))

        speed = band(settings.speed_low, settings.speed_high)
        yield _factor(f"speed, tip {tip}, by {by}", speed, shop, OwnFactor.SPEED, tip, by, "times of this tip's cuts")
        flow = band(settings.oxygen_low, settings.oxygen_high)
        yield _factor(
            f"cutting oxygen, tip {tip}", flow, shop, OwnFactor.CUTTING_OXYGEN, tip, "", "gauge before and after"
        )
        fuel = band(settings.fuel_low, settings.fuel_high)
        yield _factor(f"fuel, tip {tip}", fuel, shop, OwnFactor.FUEL, tip, "", "weight before and after")
    rates = built_in_work_rates()
    for name, rate in _WORK.values():
        row = next((r for r in shop.work_rates if r.name == rate and r.low and r.high), None)
        likely, low, high = (
            (row.likely, row.low, row.high) if row else (float(rates[rate][k]) for k in ("likely", "low", "high"))
        )
        yield Factor(name, _spread(float(low or likely) / likely, float(high or likely) / likely), _RATES, name)
    yield Factor("gas lost", _spread(*_lost_band(shop)), "common practice, no source", "the month's bills")
    work = estimate.work
    hours = _spread(1.0 - work.hours_range_low, 1.0 + work.hours_range_high)
    yield Factor(_HOURS, hours, "common practice, no source", "man-hours of each job")


def _lost_band(shop: ShopBook) -> tuple[float, float]:
    """Return low and high of the oxygen lost over its likely share: the shop book's, else the built-in row's."""
    built_in = built_in_work_rates()["gas_lost_oxygen"]
    own = next((r for r in shop.work_rates if r.name == "gas_lost_oxygen" and r.low and r.high), None)
    likely, low, high = (
        (own.likely, own.low, own.high) if own else (float(built_in[k]) for k in ("likely", "low", "high"))
    )
    return float(low or likely) / likely, float(high or likely) / likely


def _hours_of_one_job(shop: ShopBook) -> Factor | None:
    """Return the scatter of a job's hours that the log gave; None until ten jobs are logged."""
    row = next(
        (f for f in shop.factors if f.what == OwnFactor.ONE_JOB and f.jobs >= _ENOUGH_JOBS and f.low and f.high), None
    )
    if row is None or row.low is None or row.high is None:
        return None
    return Factor(_ONE_JOB, _spread(row.low / row.value, row.high / row.value), f"{row.jobs} jobs logged")


def _hours_left(hours: Factor, factors: list[Factor], terms: list[Term]) -> Factor:
    """Return what is left of the band of hours when the work rates have taken their part of it."""
    rates = [factor for factor in factors if factor.source == _RATES]
    known = {factor.name for factor in rates}
    paid = [
        replace(term, powers={n: p for n, p in term.powers.items() if n in known})
        for term in terms
        if term.quantity == "paid_min"
    ]
    taken = first_order_log_sd(rates, paid, Output("paid_min", {"paid_min": 1.0}))
    left = max(1.0 - (taken / hours.spread.log_sd) ** 2, 0.0) ** 0.5
    return replace(hours, spread=hours.spread.narrowed(left))


def _factor(name: str, band: Spread, shop: ShopBook, what: str, tip: str, by: str, logging: str) -> Factor:
    """Return a factor with the chart's band, or with the interval that the shop's log gave it."""
    own: list[FactorRow] = [
        f for f in shop.factors if f.what == what and f.tip in (tip, "") and f.by in (by, "") and f.low and f.high
    ]
    if not own:
        return Factor(name, band, "chart band", logging)
    row = own[0]
    return Factor(name, _spread(row.low / row.value, row.high / row.value), f"{row.jobs} jobs logged", logging)  # type: ignore[operator]


def _torch_terms(estimate: Estimate) -> Iterator[Term]:
    """Cut time, jet and flame by tip and mode."""
    lines, settings, cuts = estimate.job.lines, estimate.job.settings, estimate.cuts
    rest = 1.0 + estimate.work.rest_allowance
    lost = 1.0 + estimate.work.gas_lost_oxygen, 1.0 + estimate.work.gas_lost_fuel
    per_min = estimate.costs.labour_per_hour / 60.0
    torches = np.nan_to_num(cuts.torches, nan=1.0)
    index = np.maximum(lines.setting, 0)
    moving = lines.cut_time_min + lines.bevel_time_min
    lit = lines.start_time_min + lines.move_time_min + lines.flame_work_min
    jet_flow = np.where(lines.setting >= 0, settings.cutting_flow_m3_h[index], 0.0) * torches / 60.0
    fuel_flow = np.where(lines.setting >= 0, settings.fuel_flow_m3_h[index], 0.0) * torches / 60.0
    preheat = np.where(lines.setting >= 0, settings.preheat_flow_m3_h[index], 0.0) * torches / 60.0
    for (tip, by), here in _groups(estimate).items():
        on = (lines.setting >= 0) & here[index]
        speed, flow, fuel = f"speed, tip {tip}, by {by}", f"cutting oxygen, tip {tip}", f"fuel, tip {tip}"
        slower, start = {speed: -1.0}, {"start time": 1.0}
        yield Term("oxygen_m3", _sum(jet_flow * moving, on) * lost[0], slower | {flow: 1.0})
        jet_starts = np.maximum(lines.jet_time_min - lines.cut_time_min, 0.0)
        yield Term("oxygen_m3", _sum(jet_flow * jet_starts, on) * lost[0], start | {flow: 1.0})
        for quantity, rate, waste in (("fuel_m3", fuel_flow, lost[1]), ("oxygen_m3", preheat, lost[0])):
            yield Term(quantity, _sum(rate * moving, on) * waste, slower | {fuel: 1.0})
            yield Term(quantity, _sum(rate * lit, on) * waste, start | {fuel: 1.0})
        hours = {_HOURS: 1.0}
        yield Term("paid_min", _sum(moving, on) * rest, slower | hours)
        yield Term("labour", _sum(moving * per_min, on) * rest, slower | hours)
        yield Term("flame_min", _sum(moving, on), slower)


def _work_terms(estimate: Estimate) -> Iterator[Term]:
    """Minutes around the flame, and those that the owner typed, which are in no doubt but the job's own."""
    lines = estimate.job.lines
    rest = 1.0 + estimate.work.rest_allowance
    per_min = estimate.costs.labour_per_hour / 60.0
    hours = {_HOURS: 1.0}
    for name, (factor, _) in _WORK.items():
        minutes = getattr(lines, name) * (1.0 if name in _UNRESTED else rest)
        yield Term("paid_min", float(minutes.sum()), {factor: 1.0} | hours)
        yield Term("labour", float((minutes * per_min).sum()), {factor: 1.0} | hours)
        if name in _LIT:
            yield Term("flame_min", float(getattr(lines, name).sum()), {factor: 1.0})
    worked = lines.cut_time_min + lines.bevel_time_min + sum(getattr(lines, n) for n in _WORK if n not in _UNRESTED)
    covered = worked * rest + sum(getattr(lines, n) for n in _UNRESTED)
    other = estimate.paid_time_min - covered
    yield Term("paid_min", float(other.sum()), hours)
    yield Term("labour", float((other * per_min).sum()), hours)
    yield Term("flame_min", float(lines.flame_work_min.sum()), {})


def _row_terms(estimate: Estimate) -> Iterator[Term]:
    """The job's own rows."""
    hours = {_HOURS: 1.0}
    paid = sum(r.paid_time_min for r in estimate.job.rows)
    yield Term("paid_min", paid, hours)
    yield Term("labour", float(estimate.row_costs.labour.sum()), hours)
    yield Term("flame_min", sum(r.flame_time_min for r in estimate.job.rows), {})
    yield Term("oxygen_m3", sum(r.drawn_oxygen_m3 for r in estimate.job.rows), {"gas lost": 1.0})
    yield Term("fuel_m3", sum(r.drawn_fuel_m3 for r in estimate.job.rows), {"gas lost": 1.0})


def _price(estimate: Estimate, terms: list[Term], money: dict[str, float]) -> Output:
    """The printed total as a curve over the cost in doubt: markup, minimum, delivery and tax as the job has them."""
    form, totals = estimate.shop.shop, estimate.totals
    minor = 10.0**form.decimals
    likely = sum(money.get(t.quantity, 0.0) * t.amount for t in terms)
    printed = (totals.lines + totals.job_rows - totals.quantity_break) / minor
    before = totals.lines + totals.job_rows - totals.quantity_break
    rush = totals.rush / before if before else 0.0
    discount = totals.discount / (before + totals.rush) if before + totals.rush else 0.0

    def total(cost: Floats) -> Floats:
        amount = np.maximum(printed + (cost - likely) * form.price_over_cost, 0.0) * (1.0 + rush) * (1.0 - discount)
        return (np.maximum(amount, form.minimum_job) + totals.delivery / minor) * (1.0 + form.tax)

    return Output("price", money, curve=total)


def _groups(estimate: Estimate) -> dict[tuple[str, str], NDArray[np.bool_]]:
    """Settings by tip and mode."""
    settings = estimate.job.settings
    keys = [
        (tip, "machine" if machine else "hand") for tip, machine in zip(settings.tip, settings.machine, strict=True)
    ]
    return {key: np.array([k == key for k in keys], dtype=np.bool_) for key in dict.fromkeys(keys)}


def _spread(low: float, high: float) -> Spread:
    """Return a band about 1; a side that is not in doubt is given a hair's breadth."""
    return split_lognormal(min(low, 1.0 - 1e-6), 1.0, max(high, 1.0 + 1e-6))


def _sum(values: Floats, where: NDArray[np.bool_]) -> float:
    return float(values[where].sum())
