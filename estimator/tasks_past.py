"""The proof of the first hour: finished jobs in, what the engine would have said of them out."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from estimator.check.past_jobs import PastJob, metres_list, read_past_jobs
from estimator.check.shop_book import ShopBook
from estimator.pricing.job import Estimate, JobOrder
from estimator.pricing.past_jobs import PastReport, past_answer
from estimator.problems import Problem, WorkbookProblemsError, raise_on_errors, sort_problems
from estimator.problems import past_jobs as say
from estimator.read.load import load_book
from estimator.tasks import ReadOptions, estimate_list, find_shop_book, read_list, read_shop

__all__ = ["check_past"]


def check_past(path: Path, shop: Path | None, order: JobOrder) -> PastReport:
    """Set finished jobs beside what would have been said of them.

    Parameters
    ----------
    path : Path
        The workbook of finished jobs.
    shop : Path, optional
        Shop book; one beside it is found, else the invented example stands in.
    order : JobOrder
        Date and fuel; without a date the newest rates are taken.

    Returns
    -------
    PastReport

    Raises
    ------
    WorkbookProblemsError
        When a row or a list cannot be used.
    """
    shop_book, problems = read_shop(shop or find_shop_book(path))
    jobs, found = read_past_jobs(load_book(path))
    problems += found
    raise_on_errors(problems)
    order = JobOrder(date=order.date or _newest(shop_book), fuel=order.fuel, partial=order.partial)
    answers = []
    for job in jobs:
        estimates = [*_of_lists(path, job, shop_book, order, problems), *_of_metres(job, shop_book, order)]
        answers.append(past_answer(job, estimates))
    return PastReport(tuple(answers), shop_book, order.date, tuple(sort_problems(problems)))


def _of_lists(path: Path, job: PastJob, shop: ShopBook, order: JobOrder, problems: list[Problem]) -> list[Estimate]:
    done = []
    for name in job.lists:
        file = path.with_name(name)
        if not file.is_file():
            place = next(row.place for row in job.rows if row.cut_list == name)
            raise WorkbookProblemsError([*problems, say.PAST_LIST_MISSING.at(place, found=name)])
        listed = read_list(file, ReadOptions(), shop)
        done.append(estimate_list(listed.cuts, shop, order, listed.problems))
    return done


def _of_metres(job: PastJob, shop: ShopBook, order: JobOrder) -> list[Estimate]:
    return [estimate_list(metres_list(job), shop, order)] if job.metres else []


def _newest(shop: ShopBook) -> dt.date | None:
    """Return the first day on which the newest rate of every kind is in force."""
    days = [row.from_date for rows in (shop.labour, shop.gas_prices, shop.steel) for row in rows]
    return max(days, default=None)
