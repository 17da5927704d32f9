"""The week's gas: what the won work of the register, and any lists besides, asks of the rack as it stands now."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from estimator.check.register import QuoteRow, Register
from estimator.check.shop_book import ShopBook
from estimator.pricing.job import Estimate, JobOrder
from estimator.pricing.job_rates import rates_of_job
from estimator.pricing.rack.report import RackReport, plan_the_rack
from estimator.problems import Place, Problem, WorkbookProblemsError
from estimator.problems import quotes as say
from estimator.sheets.register import QUOTES
from estimator.tasks import ReadOptions, estimate_list, find_shop_book, read_list, read_shop
from estimator.tasks_register import open_register
from estimator.tasks_won import open_won

__all__ = ["rack_of_won"]


def rack_of_won(
    register_path: Path,
    cut_lists: Sequence[Path],
    shop: Path | None,
    order: JobOrder,
    reading: ReadOptions,
    *,
    until: dt.date | None = None,
    torches: int = 1,
    by_tip: bool = False,
) -> RackReport:
    """Plan the cylinders for all work that is won and not done, by the days on which it begins.

    Parameters
    ----------
    register_path : Path
        The register.
    cut_lists : sequence of Path
        Lists of other work, as the shop's own.
    shop : Path, optional
        Shop book, whose rack is the one that stands now; that beside the register when left out.
    order : JobOrder
        Date of the lists, fuel, partial, strict.
    reading : ReadOptions
        How the lists are to be read.
    until : datetime.date, optional
        Last day on which work that counts begins; work without a day then waits.
    torches, by_tip
        As for ``tasks.rack``.

    Returns
    -------
    RackReport

    Raises
    ------
    WorkbookProblemsError
        When nothing is won, or an estimate cannot be opened.
    """
    shop_book, problems = read_shop(shop or find_shop_book(register_path))
    register, found = open_register(register_path, named=True)
    problems += found
    fuel = order.fuel or shop_book.shop.fuel
    rows, left_out = _rows(register, fuel, until)
    problems += left_out
    if not rows and not cut_lists:
        raise WorkbookProblemsError([*problems, say.NOTHING_WON.at(Place(register.file, QUOTES.name))])
    jobs = [_of_now(open_won(register_path, register, row).reopened.estimate, row, shop_book) for row in rows]
    for path in cut_lists:
        listed = read_list(path, reading, shop_book)
        jobs.append(estimate_list(listed.cuts, shop_book, order, listed.problems))
    jobs[0] = replace(jobs[0], problems=[*problems, *jobs[0].problems])
    return plan_the_rack(jobs, torches=torches, by_tip=by_tip, partial=order.partial, strictly=order.strict)


def _rows(register: Register, fuel: str, until: dt.date | None) -> tuple[list[QuoteRow], list[Problem]]:
    """Return the won rows that count, and a warning for each that is left out."""
    kept, problems = [], []
    for row in register.won():
        place = Place(register.file, QUOTES.name, row.row)
        if row.fuel and row.fuel != fuel:
            problems.append(say.WON_ON_OTHER_FUEL.at(place, key=row.key, fuel=row.fuel, planned=fuel))
        elif until is not None and row.work_from is None:
            problems.append(say.WON_WITHOUT_DAY.at(place, key=row.key))
        elif until is None or row.work_from is None or row.work_from <= until:
            kept.append(row)
    return kept, problems


def _of_now(estimate: Estimate, row: QuoteRow, shop: ShopBook) -> Estimate:
    """Return a won job on the rack as it is now: named by its quote, dated by its work, at the cylinders bought now."""
    date = row.work_from or row.date
    rates, problems = rates_of_job(shop, estimate.kit.fuel, date)
    if rates is None:
        raise WorkbookProblemsError(problems)
    return replace(
        estimate,
        cuts=replace(estimate.cuts, file=str(row.key)),
        shop=shop,
        date=date,
        rates=replace(estimate.rates, oxygen=rates.oxygen, fuel=rates.fuel),
        problems=[],
    )
