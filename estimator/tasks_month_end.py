"""The month end from files to answer: are the bills right, did the work use the gas. Each step is named in order."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from estimator.check.agreed_from_lists import with_price_lists
from estimator.check.bills import Bill, BillsBook
from estimator.check.bills_book import read_bills
from estimator.check.example_shop import example_shop
from estimator.check.log_gaps import log_gaps
from estimator.check.price_lists_book import read_price_lists
from estimator.check.shop_book import ShopBook
from estimator.check.shop_book_reading import read_shop_book
from estimator.check.torch_kit import work_rates
from estimator.check.work_log import WorkLog, read_work_log
from estimator.pricing.bill_checks.run import check_the_bills
from estimator.pricing.cylinder_content import ReadingDoubts, sizes_of_shop
from estimator.pricing.expected_gas import ExpectedGas
from estimator.pricing.logged_gas import GasOfLog, gas_of_log
from estimator.pricing.month_end import month_end
from estimator.pricing.month_report import InputFile, MonthReport, QuotedJob
from estimator.pricing.month_trend import month_trends
from estimator.pricing.span_balance import cylinder_spans
from estimator.problems import work_log as said
from estimator.problems.code import Place, Problem, WorkbookProblemsError, raise_on_errors, sort_problems
from estimator.read.cells import Book
from estimator.read.load import load_book
from estimator.read.remarks import book_remarks

__all__ = ["close_books", "close_month"]


def close_month(
    bills: Path,
    log: Path | None = None,
    shop: Path | None = None,
    *,
    prices: Sequence[Path] = (),
    as_of: dt.date | None = None,
    strictly: bool = False,
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
    prices : sequence of Path
        Price lists, for what the sheet 'Agreed prices' does not hold.
    as_of : date, optional
        The day from which the days left to object are counted; the last bill date when it is left out.
    strictly : bool
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
    books = [load_book(bills), load_book(log) if log else None, load_book(shop) if shop else None]
    lists = [load_book(path) for path in prices]
    return close_books(*books, prices=lists, as_of=as_of, strictly=strictly, quotes=quotes)


def close_books(
    bills: Book | None,
    log: Book | None = None,
    shop: Book | None = None,
    *,
    prices: Sequence[Book] = (),
    as_of: dt.date | None = None,
    strictly: bool = False,
    quotes: Mapping[str, QuotedJob] | None = None,
) -> MonthReport:
    """Close the month from loaded workbooks; see ``close_month``."""
    if bills is None:
        raise ValueError("the bills workbook must be given")
    shop_book, of_shop = _shop(shop)
    book, of_bills = _bills(bills, prices, shop_book.shop.currency if shop else "")
    work, of_log = _log(log)
    problems = [*of_shop, *of_bills, *of_log]
    problems += [remark for read in (bills, log, shop) if read is not None for remark in book_remarks(read)]
    raise_on_errors(problems, strictly=strictly)

    day = as_of or max(bill.bill_date for bill in book.bills)
    doubts = ReadingDoubts.of(work_rates(shop_book))
    checked = check_the_bills(
        book,
        as_of=day,
        decimals=shop_book.shop.decimals,
        sizes=sizes_of_shop(shop_book),
        objection_days=shop_book.shop.objection_days if shop else None,
        doubts=doubts,
    )
    gas = _GasByPeriod(work, shop_book)
    done = month_end(checked, gas.expected if log is not None else None, doubts)
    spans = cylinder_spans(work, gas.of_part, checked.checking.size_of, done.months, doubts)
    problems += [*done.problems, *gas.problems(), *log_gaps(work, book, list(gas.modelled))]
    problems = sort_problems(dict.fromkeys(problems))
    raise_on_errors(problems, strictly=strictly)
    return MonthReport(
        done=done,
        checked=checked,
        trends=tuple(month_trends(done.months)),
        spans=tuple(spans),
        problems=tuple(problems),
        as_of=day,
        doubts=doubts,
        currency=_currency(shop_book, own=shop is not None, bills=book.bills),
        decimals=shop_book.shop.decimals,
        files=tuple(InputFile(b.path.name, b.sha256) for b in (bills, log, shop, *prices) if b is not None),
        shop_name=shop_book.shop.shop_name,
        shop_contact=", ".join(filter(None, (shop_book.shop.address, shop_book.shop.contact))),
        example_shop=shop is None,
        paper=shop_book.shop.paper,
        units=shop_book.shown,
        has_log=log is not None,
        paid_time_min=gas.paid_by_job(),
        quote_of_job=_quote_of_job(work, quotes or {}),
        quotes=quotes or {},
    )


@dataclass(frozen=True, slots=True)
class _GasByPeriod:
    """The gas that logged work needs, worked out for each period that is asked for, and kept."""

    work: WorkLog
    shop: ShopBook
    modelled: dict[tuple[dt.date, dt.date], GasOfLog] = field(default_factory=dict)

    def expected(self, after: dt.date, until: dt.date) -> ExpectedGas:
        """Return what the work between two counts needs."""
        self.modelled[after, until] = gas_of_log(self.work.between(after, until), self.shop)
        return self.modelled[after, until].expected

    def of_part(self, part: WorkLog) -> ExpectedGas:
        """Return what a part of the log needs; it is no period, so it is not kept."""
        return gas_of_log(part, self.shop).expected

    def problems(self) -> list[Problem]:
        """Return what the log's rows left in doubt."""
        return [problem for gas in self.modelled.values() for problem in gas.problems]

    def paid_by_job(self) -> dict[str, float]:
        """Return the minutes paid for each job, over all periods."""
        paid: dict[str, float] = {}
        for gas in self.modelled.values():
            for job, minutes in zip(gas.expected.jobs, gas.paid_time_min, strict=True):
                paid[job] = paid.get(job, 0.0) + float(minutes)
        return paid


def _bills(bills: Book, prices: Sequence[Book], currency: str) -> tuple[BillsBook, list[Problem]]:
    book, problems = read_bills(bills, currency)
    if prices:
        lists, of_lists = read_price_lists(prices, currency=currency)
        return with_price_lists(book, lists), [*problems, *of_lists]
    return book, problems


def _quote_of_job(work: WorkLog, quotes: Mapping[str, QuotedJob]) -> dict[str, str]:
    """Return the quote of each job: as the log says, in the quotes' own spelling, else by the quote's job number."""
    spelt = {number.casefold(): number for number in quotes}
    by_job = {quote.job_number: number for number, quote in quotes.items() if quote.job_number}
    said = {entry.job: entry.quote_number for entry in work.entries if entry.quote_number}
    return by_job | {job: spelt.get(number.casefold(), number) for job, number in said.items()}


def _shop(book: Book | None) -> tuple[ShopBook, list[Problem]]:
    if book is None:
        return example_shop(), []
    shop, problems = read_shop_book(book)
    if shop is None:
        raise WorkbookProblemsError(problems)
    return shop, problems


def _log(book: Book | None) -> tuple[WorkLog, list[Problem]]:
    if book is None:
        return WorkLog(), []
    work, problems = read_work_log(book)
    if not work.entries and not problems:
        problems.append(said.LOG_EMPTY.at(Place(book.path.name)))
    return work, problems


def _currency(shop: ShopBook, *, own: bool, bills: tuple[Bill, ...]) -> str:
    return shop.shop.currency if own else next((bill.currency for bill in bills if bill.currency), "")
