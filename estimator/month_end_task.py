"""The month end from files to answer: one short function that names each step, and what it needs to be told."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from pathlib import Path

from estimator.check.bills import Bill
from estimator.check.bills_book import read_bills
from estimator.check.example_shop import example_shop
from estimator.check.shop_book import ShopBook
from estimator.check.shop_book_reading import read_shop_book
from estimator.check.work_log import WorkLog, read_work_log
from estimator.pricing.bill_checks.run import check_the_bills
from estimator.pricing.cylinder_content import sizes_of_shop
from estimator.pricing.expected_gas import ExpectedGas
from estimator.pricing.logged_gas import GasOfLog, gas_of_log
from estimator.pricing.month_end import month_end
from estimator.pricing.month_report import InputFile, MonthReport, QuotedJob
from estimator.pricing.month_trend import month_trends
from estimator.problems import work_log as said
from estimator.problems.code import Level, Place, Problem, WorkbookProblemsError, sort_problems, strict
from estimator.read.load import load_book

__all__ = ["close_month"]


def close_month(
    bills: Path,
    log: Path | None = None,
    shop: Path | None = None,
    *,
    as_of: dt.date | None = None,
    be_strict: bool = False,
    quotes: Mapping[str, QuotedJob] | None = None,
) -> MonthReport:
    """Check the bills, balance the gas and split the money of every month that the workbooks hold.

    Parameters
    ----------
    bills : Path
        The bills workbook.
    log : Path, optional
        The work log; without it the bills are checked on counts alone.
    shop : Path, optional
        The shop book; the invented example stands in for it, and the report says so.
    as_of : date, optional
        The day from which the days left to object are counted; the last bill date when it is left out.
    be_strict : bool
        Whether a warning stops the run like an error.
    quotes : mapping of quote number to QuotedJob, optional
        What the jobs were quoted at.

    Returns
    -------
    MonthReport

    Raises
    ------
    WorkbookProblemsError
        When a workbook has an error; every problem of all of them is in it.

    Notes
    -----
    Source: definition.
    """
    shop_book, problems, files = _shop(shop)
    bills_file = load_book(bills)
    files.insert(0, InputFile(bills.name, bills_file.sha256))
    book, of_bills = read_bills(bills_file, shop_book.shop.currency if shop else "")
    problems += of_bills
    work = WorkLog()
    if log is not None:
        log_file = load_book(log)
        files.insert(1, InputFile(log.name, log_file.sha256))
        work, of_log = read_work_log(log_file)
        problems += of_log
        if not work.entries and not of_log:
            problems.append(said.LOG_EMPTY.at(Place(log.name)))
    _stop(problems, be_strict=be_strict)

    day = as_of or max(bill.bill_date for bill in book.bills)
    checked = check_the_bills(
        book,
        as_of=day,
        decimals=shop_book.shop.decimals,
        sizes=sizes_of_shop(shop_book),
        objection_days=shop_book.shop.objection_days if shop else None,
    )
    modelled: dict[tuple[dt.date, dt.date], GasOfLog] = {}

    def expect(after: dt.date, until: dt.date) -> ExpectedGas:
        modelled[after, until] = gas_of_log(work.between(after, until), shop_book)
        return modelled[after, until].expected

    done = month_end(checked, expect if log is not None else None)
    problems += [*done.problems, *(p for gas in modelled.values() for p in gas.problems)]
    problems += _outside(work, list(modelled))
    problems = sort_problems(dict.fromkeys(problems))
    _stop(problems, be_strict=be_strict)
    return MonthReport(
        done=done,
        checked=checked,
        trends=tuple(month_trends(done.months)),
        problems=tuple(problems),
        as_of=day,
        currency=_currency(shop_book, own=shop is not None, bills=book.bills),
        decimals=shop_book.shop.decimals,
        files=tuple(files),
        shop_name=shop_book.shop.shop_name,
        shop_contact=", ".join(filter(None, (shop_book.shop.address, shop_book.shop.contact))),
        example_shop=shop is None,
        has_log=log is not None,
        paid_time_min=_paid_by_job(modelled),
        quote_of_job={entry.job: entry.quote_number for entry in work.entries if entry.quote_number},
        quotes=quotes or {},
    )


def _shop(path: Path | None) -> tuple[ShopBook, list[Problem], list[InputFile]]:
    if path is None:
        return example_shop(), [], []
    book = load_book(path)
    shop, problems = read_shop_book(book)
    if shop is None:
        raise WorkbookProblemsError(problems)
    return shop, problems, [InputFile(path.name, book.sha256)]


def _stop(problems: list[Problem], *, be_strict: bool) -> None:
    judged = strict(problems) if be_strict else problems
    if any(problem.level is Level.ERROR for problem in judged):
        raise WorkbookProblemsError(judged)


def _outside(log: WorkLog, spans: list[tuple[dt.date, dt.date]]) -> list[Problem]:
    """Say how many rows of the log lie outside every pair of counts."""
    outside = [e for e in log.entries if not any(after < e.date <= until for after, until in spans)]
    if not outside or not spans:
        return []
    first = outside[0].place
    return [said.LOG_OUTSIDE.at(Place(first.file, first.sheet), count=len(outside))]


def _paid_by_job(modelled: Mapping[tuple[dt.date, dt.date], GasOfLog]) -> dict[str, float]:
    paid: dict[str, float] = {}
    for gas in modelled.values():
        for job, minutes in zip(gas.expected.jobs, gas.paid_time_min, strict=True):
            paid[job] = paid.get(job, 0.0) + float(minutes)
    return paid


def _currency(shop: ShopBook, *, own: bool, bills: tuple[Bill, ...]) -> str:
    return shop.shop.currency if own else next((bill.currency for bill in bills if bill.currency), "")
