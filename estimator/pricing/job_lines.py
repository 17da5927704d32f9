"""From a checked list to lines that can be priced: what a line leaves open is filled in, what stops it is said."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from difflib import get_close_matches

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.shop_book import ShopBook
from estimator.check.torch_kit import TorchKit, torch_kit, work_rates
from estimator.check.work_rates import WorkRates
from estimator.pricing.fuel_chart import fuel_problems
from estimator.pricing.job_rates import labour_rate_names, rates_of_job
from estimator.pricing.other_lines import OtherLines, other_lines
from estimator.pricing.own_factors import faded
from estimator.pricing.priced_job import JobOrder, Reopened
from estimator.pricing.rates import Rates, steel_row
from estimator.problems import Level, Place, Problem, WorkbookProblemsError, has_error
from estimator.problems import lines as say
from estimator.quantities.flame_minutes import with_minutes_by_speed
from estimator.quantities.job import choose_settings
from estimator.quantities.line_checks import line_place, setting_problems, shape_problems
from estimator.quantities.lines import mass_each_kg
from estimator.quantities.section_lines import with_section_cuts
from estimator.quantities.sorted_values import distinct
from estimator.words import BLANK, Steel, Work

__all__ = ["Bench", "ReadyLines", "bench_of", "ready_lines", "row_of", "stop_on_errors"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Bench:
    """What all lines are worked by."""

    shop: ShopBook
    kit: TorchKit
    work: WorkRates
    date: dt.date | None


@dataclass(slots=True)
class ReadyLines:
    """Lines that have all that a price needs, and every problem found on the way."""

    cuts: CutList
    my_minutes: Floats
    my_price_each: Floats
    found: list[Problem]
    labour: list[str]
    """Labour rate of each line."""

    def leave_out(self, bad: NDArray[np.bool_], said: list[Problem]) -> None:
        """Take out the lines that a problem stops, and keep what was said."""
        self.found = [*self.found, *said]
        if not bad.any():
            return
        good = np.flatnonzero(~bad)
        self.cuts = self.cuts.take(good)
        self.my_minutes, self.my_price_each = self.my_minutes[good], self.my_price_each[good]
        self.labour = [self.labour[int(i)] for i in good] if self.labour else []


def bench_of(cuts: CutList, shop: ShopBook, order: JobOrder, reopened: Reopened | None) -> Bench:
    """Return the torch kit, the work rates and the date of a job; old factors fade, those of a record do not.

    Parameters
    ----------
    cuts : CutList
        The list, whose title block may give the date.
    shop : ShopBook
        The shop book.
    order : JobOrder
        What is decided for the run.
    reopened : Reopened or None
        A job from its own record.

    Returns
    -------
    Bench
        What all lines are worked by.
    """
    date = order.date or (dt.date.fromisoformat(cuts.title.job_date) if cuts.title.job_date else None)
    shop = shop if reopened else faded(shop, date)
    work = work_rates(shop)
    if reopened:
        work = replace(work, **reopened.work_rates)
    return Bench(shop, torch_kit(shop, order.fuel or shop.shop.fuel), work, date)


def ready_lines(
    cuts: CutList,
    bench: Bench,
    order: JobOrder,
    found: list[Problem],
    *,
    my_minutes: Floats | None,
    my_price_each: Floats | None,
    reopened: Reopened | None,
) -> tuple[ReadyLines, Rates]:
    """Return the lines that can be priced, and the rates in force.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    bench : Bench
        Shop, kit, work rates, date.
    order : JobOrder
        What is decided for the run.
    found : list of Problem
        What reading found.
    my_minutes, my_price_each : ndarray of float, shape (n,), or None
        What the owner typed.
    reopened : Reopened or None
        A job from its own record, whose sections are worked out already.

    Returns
    -------
    tuple of ReadyLines, Rates
        Lines that a problem stops are left out.

    Raises
    ------
    WorkbookProblemsError
        When a problem stops the job, or no line is left.
    """
    if reopened is None or reopened.new_lines:
        cuts = with_section_cuts(cuts, shank_of_head=bench.work.bolt_shank_share)
    cuts, of_steel = _with_steel(cuts, bench.shop, bench.work)
    cuts, of_flames = _with_flame_minutes(cuts, bench.shop, bench.kit.fuel)
    mine = _blank_if_none(my_minutes, len(cuts)), _blank_if_none(my_price_each, len(cuts))
    lines = ReadyLines(cuts, *mine, [*found, *of_steel, *of_flames], [])
    if np.isin(cuts.work, (Work.CUT, BLANK)).any():
        lines.found += (said := fuel_problems(bench.kit, bench.shop))
        if has_error(said):
            raise WorkbookProblemsError(lines.found)

    lines.leave_out(*_line_problems(cuts, bench.shop, bench.kit, bench.work))
    rates, said = rates_of_job(bench.shop, bench.kit.fuel, bench.date)
    lines.found += said
    stop_on_errors(lines.found, order, good_rows=len(lines.cuts))
    if rates is None:
        raise WorkbookProblemsError([*lines.found, *_nothing_left(lines)])
    _refuse_none(lines)
    lines.labour, bad_labour, of_labour = labour_rate_names(lines.cuts, rates, order.labour_rate)
    bad_steel, no_price = _steel_without_price(lines.cuts, rates)
    lines.leave_out(bad_labour | bad_steel, [*of_labour, *no_price])
    stop_on_errors(lines.found, order, good_rows=len(lines.cuts))
    _refuse_none(lines)
    return lines, rates


def stop_on_errors(problems: list[Problem], order: JobOrder, *, good_rows: int = 0) -> None:
    """Raise when a problem stops the job; with ``partial`` a problem of a row does not."""
    errors = [p for p in problems if p.level is Level.ERROR]
    of_rows = all(p.place.row for p in errors)
    if errors and not (order.partial and of_rows):
        raise WorkbookProblemsError(problems, good_rows=good_rows if of_rows else 0)


def row_of(place: Place) -> Place:
    """Return the place of a whole row."""
    return Place(place.file, place.sheet, place.row)


def _refuse_none(lines: ReadyLines) -> None:
    if nothing := _nothing_left(lines):
        raise WorkbookProblemsError([*lines.found, *nothing])


def _nothing_left(lines: ReadyLines) -> list[Problem]:
    return [] if len(lines.cuts) else [say.NOTHING_TO_PRICE.at(Place(lines.cuts.file))]


def _line_problems(
    cuts: CutList, shop: ShopBook, kit: TorchKit, work: WorkRates
) -> tuple[NDArray[np.bool_], list[Problem]]:
    shape = shape_problems(cuts)
    chosen = choose_settings(cuts, kit, work, keep_tip_in=shop.shop.keep_tip_in)
    setting = setting_problems(cuts, chosen, kit, shop.shown)
    none_drilled = np.zeros(len(cuts))
    named = other_lines(
        cuts, shop.other_work, work, drilled_each=none_drilled, fuel_density_kg_m3=kit.fuel_density_kg_m3
    )
    other, unknown = _unknown_other_work(cuts, named)
    steel = (cuts.steel == BLANK) & np.isin(cuts.work, (Work.CUT, BLANK))
    how = _how_to_say_steel(cuts)
    asked = [say.STEEL_ASKED.at(line_place(cuts, int(i), "steel"), how=how) for i in np.flatnonzero(steel)]
    # A line without a thickness has no setting either, one without a heating tip needs no minutes of it: one is enough.
    no_heating = {row_of(p.place) for p in setting.problems if p.code == say.NO_HEATING_TIP.code}
    shaped = [p for p in shape.problems if row_of(p.place) not in no_heating]
    quiet = [p for p in setting.problems if row_of(p.place) not in {row_of(q.place) for q in shaped}]
    problems = [*shaped, *quiet, *other, *asked]
    if work.oxygen_purity_percent < work.oxygen_purity_least_percent:
        found, least = (f"{v:g} %" for v in (work.oxygen_purity_percent, work.oxygen_purity_least_percent))
        problems.append(say.PURITY_TOO_LOW.at(Place(shop.file), found=found, least=least))
    return shape.bad | setting.bad | unknown | steel, problems


def _how_to_say_steel(cuts: CutList) -> str:
    """Return what to type above the list, and where, so that it says whose the steel is."""
    first = min((row for counts in cuts.counts for row in counts.heading_rows), default=0)
    if first == 1:
        return "put a row above the headings and type Steel: ours (or theirs, or excluded) in its cell A1"
    return "type Steel: ours (or theirs, or excluded) in an empty cell above the headings" + (
        f" in row {first}" if first else ""
    )


def _unknown_other_work(cuts: CutList, found: OtherLines) -> tuple[list[Problem], NDArray[np.bool_]]:
    problems = [
        say.UNKNOWN_OTHER_WORK.at(
            line_place(cuts, int(i), "other_work"),
            found=cuts.other_work[i],
            nearest=next(iter(get_close_matches(cuts.other_work[i], found.known, n=1)), "not clear"),
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
            problems.append(say.STEEL_ASSUMED.at(place, taken=taken, how=_how_to_say_steel(cuts)))
    cut = np.isin(cuts.work, (Work.CUT, BLANK))
    unweighed = cut & (cuts.steel == Steel.OURS) & np.isnan(mass_each_kg(cuts, work.steel_density_kg_m3))
    if unweighed.any():
        cuts = replace(cuts, steel=np.where(unweighed, np.int8(Steel.EXCLUDED), cuts.steel).astype(np.int8))
        told = np.flatnonzero(unweighed & ~_are_holes_alone(cuts))
        problems += [say.NO_MASS.at(line_place(cuts, int(i), "steel")) for i in told]
    return cuts, problems


def _are_holes_alone(cuts: CutList) -> NDArray[np.bool_]:
    """Say which rows hold more holes of a piece that another row cuts, and with it its steel."""
    unsized = (cuts.shape == BLANK) & np.isnan(cuts.cut_length_mm) & np.isnan(cuts.total_cut_length_mm)
    return np.asarray(unsized & (np.nan_to_num(cuts.holes) > 0), dtype=np.bool_)


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
            line_place(cuts, int(i), "thickness_mm"),
            thickness=f"{cuts.thickness_mm[i]:.4g} mm",
            date=rates.date or "any date",
        )
        for i in np.flatnonzero(bad)
    ]


def _blank_if_none(values: Floats | None, n: int) -> Floats:
    return np.full(n, np.nan) if values is None else values
