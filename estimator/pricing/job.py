"""A job from checked lines to a priced estimate. Names each step; holds what every output is written from."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from difflib import get_close_matches

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.shop_book import ShopBook
from estimator.check.torch_kit import TorchKit, torch_kit, work_rates
from estimator.check.work_rates import WorkRates
from estimator.pricing.break_drops import break_drops
from estimator.pricing.build_up import ExactCosts, job_row_costs, line_costs
from estimator.pricing.estimate import PricedLines, PricedRows, Totals, price_job_rows, price_lines, total_up
from estimator.pricing.fuel_chart import fuel_chart_problems
from estimator.pricing.job_rates import (
    call_out_minimum,
    cylinders_used,
    gas_in_use,
    labour_rate_names,
    net_heating_value,
    rates_of_job,
)
from estimator.pricing.other_lines import OtherLines, other_lines
from estimator.pricing.own_factors import faded
from estimator.pricing.plate_steel import PlateSteel, plate_steel
from estimator.pricing.plates_bought import plates_needed
from estimator.pricing.rates import Rates, steel_row
from estimator.problems import Level, Place, Problem, WorkbookProblemsError, strict
from estimator.problems import lines as say
from estimator.quantities.flame_speed import with_minutes_by_speed
from estimator.quantities.job import JobQuantities, choose_settings, job_quantities
from estimator.quantities.job_rows import cylinder_change_row, light_at
from estimator.quantities.line_checks import line_place, physical_warnings, setting_problems, shape_problems
from estimator.quantities.lines import burnt_metres, mass_each_kg
from estimator.quantities.section_lines import with_section_cuts
from estimator.quantities.sorted_values import distinct
from estimator.quantities.typed_settings import SettingKey, setting_indices, typed_over
from estimator.shown_units import shown_units
from estimator.words import BLANK, Steel, SteelCharged, Work

__all__ = ["Estimate", "JobOrder", "Reopened", "estimate_job", "gas_in_use", "net_heating_value"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class JobOrder:
    """What is decided for one run, beside list and shop book."""

    date: dt.date | None = None
    fuel: str = ""
    """Empty for the shop's fuel."""
    partial: bool = False
    strict: bool = False
    labour_rate: str = ""
    discount: float | None = None
    rush: float = 0.0
    quote_number: str = ""
    revision: str = ""


@dataclass(frozen=True, slots=True)
class Reopened:
    """A job that is priced again from its own record: factors and sections are as they were worked out then."""

    new_lines: bool = False
    """Whether the lines are new ones, at the record's rates."""
    work_rates: Mapping[str, float] = field(default_factory=dict)
    """Work rates that were typed over, by name."""
    settings: Mapping[SettingKey, Mapping[str, float]] = field(default_factory=dict)
    """Figures of torch settings that were typed over, by setting and house name."""
    plates: PlateSteel | None = None
    """What each piece paid of the plates as they were counted then; none to count them."""
    lit_at: Mapping[str, SettingKey] = field(default_factory=dict)
    """Setting of each row of the job that burns, as it was worked out then, by the row's key."""


@dataclass(slots=True)
class Estimate:
    """A priced job: what every output is written from."""

    cuts: CutList
    """The priced lines."""
    shop: ShopBook
    order: JobOrder
    date: dt.date | None
    kit: TorchKit
    work: WorkRates
    job: JobQuantities
    rates: Rates
    labour_rate: list[str]
    costs: ExactCosts
    row_costs: ExactCosts
    lines: PricedLines
    rows: PricedRows
    totals: Totals
    problems: list[Problem] = field(default_factory=list)
    unpriced: list[Place] = field(default_factory=list)
    """Rows that a problem keeps out of the price; not empty only with ``--partial``."""
    plates: PlateSteel = field(default_factory=lambda: PlateSteel(np.empty(0), np.empty(0)))
    """What each piece pays of the plates bought; NaN where its steel goes by weight."""
    job_labour: str = ""
    """Labour rate of the job's own rows."""
    other_consumables: Floats = field(default_factory=lambda: np.empty(0))
    """Consumables of other work and of drilled holes, of each whole line [money]."""
    rush: float = 0.0
    discount: float = 0.0
    my_minutes: Floats = field(default_factory=lambda: np.empty(0))
    my_price_each: Floats = field(default_factory=lambda: np.empty(0))
    reopened: Reopened | None = None
    """What was typed over, where the job comes from an estimate's own record."""
    last_price_each: Floats = field(default_factory=lambda: np.empty(0))
    """What each line's mark was last quoted at to this customer; NaN where it was not, empty where none was [money]."""
    last_time: list[str] = field(default_factory=list)
    """Quantity, day, quote and outcome of that price, in words; empty where there was none."""
    why: list[str] = field(default_factory=list)
    """The owner's reason for minutes or a price of his own, line by line; empty for none at all."""

    @property
    def incomplete(self) -> bool:
        """Whether some rows of the list have no price."""
        return bool(self.unpriced)

    @property
    def paid_time_min(self) -> Floats:
        """Paid minutes of each line: the owner's where typed, else worked out [min]."""
        mine = self.my_minutes
        return np.where(np.isnan(mine), self.job.lines.paid_time_min, mine)


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
    found = list(problems or [])
    date = order.date or _title_date(cuts)
    shop = shop if reopened else faded(shop, date)
    kit = torch_kit(shop, order.fuel or shop.shop.fuel)
    work = work_rates(shop)
    if reopened:
        work = replace(work, **reopened.work_rates)
    if reopened is None or reopened.new_lines:
        cuts = with_section_cuts(cuts, shank_of_head=work.bolt_shank_share)
    cuts, said = _with_steel(cuts, shop, work)
    found += said
    cuts, said = _with_flame_minutes(cuts, shop, kit.fuel)
    found += said
    mine = _blank_if_none(my_minutes, len(cuts)), _blank_if_none(my_price_each, len(cuts))
    if np.isin(cuts.work, (Work.CUT, BLANK)).any() and (said := fuel_chart_problems(kit, shop.file)):
        raise WorkbookProblemsError([*found, *said])

    cuts, mine, found = _keep(cuts, mine, *_line_problems(cuts, shop, kit, work), found)
    rates, said = rates_of_job(shop, kit.fuel, date)
    found += said
    _stop_on_errors(found, order)
    if rates is None or not len(cuts):
        raise WorkbookProblemsError([*found, *([] if len(cuts) else [say.NOTHING_TO_PRICE.at(Place(cuts.file))])])
    labour, bad_labour, said = labour_rate_names(cuts, rates, order.labour_rate)
    bad_steel, more = _steel_without_price(cuts, rates)
    cuts, mine, found = _keep(cuts, mine, bad_labour | bad_steel, [*said, *more], found)
    labour = [name for name, bad in zip(labour, bad_labour | bad_steel, strict=True) if not bad]
    _stop_on_errors(found, order)
    if not len(cuts):
        raise WorkbookProblemsError([*found, say.NOTHING_TO_PRICE.at(Place(cuts.file))])

    chosen = choose_settings(cuts, kit, work, keep_tip_in=shop.shop.keep_tip_in)
    if reopened and reopened.settings:
        chosen = replace(chosen, settings=typed_over(chosen.settings, reopened.settings, kit, work))
    metres = burnt_metres(cuts, work, outlines_pierced=shop.shop.outlines_pierced)
    other = _other_lines(cuts, shop, kit, work, metres.drilled_holes_each)
    job = job_quantities(
        cuts,
        kit,
        work,
        chosen=chosen,
        metres=metres,
        other=other.minutes,
        net_heating_value_mj_m3=net_heating_value(kit.fuel),
    )
    if reopened:
        light_at(job.rows, setting_indices(job.settings, reopened.lit_at), job.settings, work)
    found += [*physical_warnings(cuts, job, kit, work, shown_units(shop.shop.units)), *break_drops(cuts, shop.breaks)]
    job_labour = order.labour_rate.lower() or cuts.title.labour_rate.lower() or rates.normal_rate
    job.rows.append(cylinder_change_row(cylinders_used(job, rates), job.settings, work))
    job.rows += call_out_minimum(job, rates, job_labour)
    paid = np.where(np.isnan(mine[0]), job.lines.paid_time_min, mine[0])
    other_consumables = other.consumables_each * cuts.quantity
    plates = _plates(cuts, job, rates, work, shop, reopened)
    costs = line_costs(
        cuts,
        job.lines,
        job.settings,
        rates=rates,
        shop=shop.shop,
        work=work,
        paid_time_min=paid,
        other_consumables=other_consumables,
        labour_rate=labour,
        plates=plates,
    )
    row_costs = job_row_costs(job.rows, rates=rates, shop=shop.shop, labour_rate=job_labour)
    spread = shop.shop.spread_job_rows
    lines = price_lines(
        cuts,
        costs,
        shop=shop.shop,
        breaks=shop.breaks,
        spread_cost=float(row_costs.cost.sum()) if spread else 0.0,
        spread_by=paid,
        my_price_each=mine[1],
    )
    rows = price_job_rows(job.rows, row_costs, shop.shop)
    rush, discount = order.rush or cuts.title.rush, _discount(shop, cuts, order)
    totals = total_up(lines, rows, shop.shop, rush=rush, discount=discount)
    estimate = Estimate(
        cuts=cuts,
        shop=shop,
        order=order,
        date=date,
        kit=kit,
        work=work,
        job=job,
        rates=rates,
        labour_rate=labour,
        costs=costs,
        row_costs=row_costs,
        lines=lines,
        rows=rows,
        totals=totals,
        problems=found,
        unpriced=sorted({_row_of(p.place) for p in found if p.level is Level.ERROR}),
        plates=plates,
        job_labour=job_labour,
        other_consumables=other_consumables,
        rush=rush,
        discount=discount,
        my_minutes=mine[0],
        my_price_each=mine[1],
        reopened=reopened,
    )
    estimate.problems = sorted(found, key=lambda p: (p.place.file, p.place.sheet, p.place.row, p.place.column))
    if order.strict:
        _stop_on_errors(strict(found), order)
    return estimate


def _plates(
    cuts: CutList, job: JobQuantities, rates: Rates, work: WorkRates, shop: ShopBook, reopened: Reopened | None
) -> PlateSteel:
    """Return what each piece pays of the plates: as counted once, else counted now where the shop charges by plates."""
    if reopened and reopened.plates is not None and not reopened.new_lines:
        return reopened.plates
    charged = dict(zip(SteelCharged.words(), SteelCharged, strict=True))[shop.shop.steel_charged]
    by_weight = charged is SteelCharged.BY_WEIGHT
    return plate_steel(cuts, None if by_weight else plates_needed(cuts, job.lines, rates, work), charged)


def _line_problems(
    cuts: CutList, shop: ShopBook, kit: TorchKit, work: WorkRates
) -> tuple[NDArray[np.bool_], list[Problem]]:
    shape = shape_problems(cuts)
    chosen = choose_settings(cuts, kit, work, keep_tip_in=shop.shop.keep_tip_in)
    setting = setting_problems(cuts, chosen, kit, shown_units(shop.shop.units))
    other, unknown = _unknown_other_work(cuts, _other_lines(cuts, shop, kit, work, np.zeros(len(cuts))))
    steel = (cuts.steel == BLANK) & np.isin(cuts.work, (Work.CUT, BLANK))
    asked = [say.STEEL_ASKED.at(line_place(cuts, int(i), "steel")) for i in np.flatnonzero(steel)]
    # A line without a thickness has no setting either; one problem is enough.
    quiet = [p for p in setting.problems if _row_of(p.place) not in {_row_of(q.place) for q in shape.problems}]
    problems = [*shape.problems, *quiet, *other, *asked]
    if work.oxygen_purity_percent < work.oxygen_purity_least_percent:
        found, least = (f"{v:g} %" for v in (work.oxygen_purity_percent, work.oxygen_purity_least_percent))
        problems.append(say.PURITY_TOO_LOW.at(Place(shop.file), found=found, least=least))
    return shape.bad | setting.bad | unknown | steel, problems


def _other_lines(cuts: CutList, shop: ShopBook, kit: TorchKit, work: WorkRates, drilled_each: Floats) -> OtherLines:
    return other_lines(
        cuts, list(shop.other_work), work, drilled_each=drilled_each, fuel_density_kg_m3=kit.fuel_density_kg_m3
    )


def _unknown_other_work(cuts: CutList, found: OtherLines) -> tuple[list[Problem], NDArray[np.bool_]]:
    problems = [
        say.UNKNOWN_OTHER_WORK.at(
            line_place(cuts, int(i), "other_work"),
            found=cuts.other_work[i],
            nearest=next(iter(get_close_matches(cuts.other_work[i], found.known, n=1, cutoff=0.3)), "not clear"),
        )
        for i in np.flatnonzero(found.unknown)
    ]
    return problems, found.unknown


def _with_steel(cuts: CutList, shop: ShopBook, work: WorkRates) -> tuple[CutList, list[Problem]]:
    """Fill silent lines from the title block or the shop's rule; leave out steel whose mass nothing tells."""
    silent = (cuts.steel == BLANK) & np.isin(cuts.work, (Work.CUT, BLANK))
    words = dict(zip(Steel.words(), Steel, strict=True))
    said, rule = cuts.title.steel.lower(), shop.shop.steel_when_silent
    problems: list[Problem] = []
    if silent.any() and (said in words or rule in words):
        taken = said if said in words else rule
        cuts = replace(cuts, steel=np.where(silent, np.int8(words[taken]), cuts.steel).astype(np.int8))
        if said not in words:
            place = Place(cuts.file, cuts.sheet[0] if cuts.sheet else "")
            problems.append(say.STEEL_ASSUMED.at(place, taken=taken))
    cut = np.isin(cuts.work, (Work.CUT, BLANK))
    unweighed = cut & (cuts.steel == Steel.OURS) & np.isnan(mass_each_kg(cuts, work.steel_density_kg_m3))
    if unweighed.any():
        cuts = replace(cuts, steel=np.where(unweighed, np.int8(Steel.EXCLUDED), cuts.steel).astype(np.int8))
        problems += [say.NO_MASS.at(line_place(cuts, int(i), "steel")) for i in np.flatnonzero(unweighed)]
    return cuts, problems


def _with_flame_minutes(cuts: CutList, shop: ShopBook, fuel: str) -> tuple[CutList, list[Problem]]:
    """Fill the flame minutes of welds that give a length, by the speed of their tip."""
    speeds = {t.name: t.speed_mm_min for t in shop.flame_tips if t.fuel == fuel and t.speed_mm_min}
    cuts, filled = with_minutes_by_speed(cuts, speeds)
    return cuts, [
        say.FLAME_BY_SPEED.at(
            line_place(cuts, int(i), "cut_length_mm"), found=f"{cuts.flame_min_each[i]:.3g} min each, by length"
        )
        for i in np.flatnonzero(filled)
    ]


def _steel_without_price(cuts: CutList, rates: Rates) -> tuple[NDArray[np.bool_], list[Problem]]:
    ours = cuts.steel == Steel.OURS
    without = [t for t in distinct(cuts.thickness_mm[ours]) if steel_row(rates.steel, float(t)) is None]
    bad = ours & np.isin(cuts.thickness_mm, without)
    return bad, [
        say.NO_STEEL_PRICE.at(
            line_place(cuts, int(i), "thickness_mm"), thickness=f"{cuts.thickness_mm[i]:.4g} mm", date=str(rates.date)
        )
        for i in np.flatnonzero(bad)
    ]


def _discount(shop: ShopBook, cuts: CutList, order: JobOrder) -> float:
    if order.discount is not None:
        return order.discount
    agreed = [c.discount for c in shop.customers if c.customer.lower() == cuts.title.customer.lower()]
    return next((d for d in agreed if d is not None), shop.shop.discount)


def _title_date(cuts: CutList) -> dt.date | None:
    return dt.date.fromisoformat(cuts.title.job_date) if cuts.title.job_date else None


def _keep(
    cuts: CutList,
    mine: tuple[Floats, Floats],
    bad: NDArray[np.bool_],
    said: list[Problem],
    found: list[Problem],
) -> tuple[CutList, tuple[Floats, Floats], list[Problem]]:
    """Leave out the lines that a problem stops."""
    if not bad.any():
        return cuts, mine, [*found, *said]
    good = np.flatnonzero(~bad)
    return cuts.take(good), (mine[0][good], mine[1][good]), [*found, *said]


def _stop_on_errors(problems: list[Problem], order: JobOrder) -> None:
    """Raise when a problem stops the job; with ``partial`` a problem of a row does not."""
    errors = [p for p in problems if p.level is Level.ERROR]
    if errors and not (order.partial and all(p.place.row for p in errors)):
        raise WorkbookProblemsError(problems)


def _row_of(place: Place) -> Place:
    return Place(place.file, place.sheet, place.row)


def _blank_if_none(values: Floats | None, n: int) -> Floats:
    return np.full(n, np.nan) if values is None else values
