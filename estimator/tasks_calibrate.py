"""The task ``calibrate``: what the shop's own log says of the handbook. Each step is named in the order it is done."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from pathlib import Path

from estimator.check.work_log import WorkLog, read_work_log
from estimator.pricing.learn import Calibration, Learned, learn_from_log
from estimator.problems import Place, Problem, WorkbookProblemsError, raise_on_errors
from estimator.problems.learning import LOG_TEACHES_NOTHING, LOG_UNUSED
from estimator.problems.work_log import LOG_EMPTY
from estimator.read.load import load_book
from estimator.read.remarks import book_remarks
from estimator.tasks import find_shop_book, read_shop

__all__ = ["calibrate"]


def calibrate(
    log: Path,
    shop: Path | None = None,
    *,
    on: dt.date | None = None,
    strictly: bool = False,
    quoted_min: Mapping[str, float] | None = None,
) -> Calibration:
    """Learn the shop's own factors from its work log.

    Parameters
    ----------
    log : Path
        Workbook with the work log and, better still, the cylinder tags.
    shop : Path, optional
        Shop book; one beside the log is found, else the invented example stands in.
    on : datetime.date, optional
        Day from which ages count; the log's last day when left out.
    strictly : bool
        Whether what had to be interpreted is refused.
    quoted_min : mapping of str to float, optional
        Paid minutes quoted, by quote number; sets quoted beside actual [min].

    Returns
    -------
    Calibration
        Its problems are warnings and notes.

    Raises
    ------
    WorkbookProblemsError
        With every problem, when one is an error.
    """
    shop_book, problems = read_shop(shop or find_shop_book(log))
    book = load_book(log)
    work_log, said = read_work_log(book)
    problems = [*problems, *said, *book_remarks(book)]
    if not work_log.entries:
        problems.append(LOG_EMPTY.at(Place(book.path.name)))
    raise_on_errors(problems)
    learned = learn_from_log(
        work_log,
        shop_book,
        today=on or _last_day(work_log),
        half_life_days=float(shop_book.shop.fade_days),
        quoted_min=quoted_min,
    )
    problems += _what_it_teaches(learned, book.path.name)
    raise_on_errors(problems, strictly=strictly)
    return Calibration(learned, tuple(WorkbookProblemsError(problems).problems), book.path.name, book.sha256)


def _last_day(log: WorkLog) -> dt.date:
    return max(entry.date for entry in log.entries)


def _what_it_teaches(learned: Learned, file: str) -> list[Problem]:
    """Say when the log teaches nothing, and how much of it was not used."""
    problems = []
    if not learned.changed:
        reasons = [factor.reason for factor in learned.result.factors if factor.jobs]
        why = max(set(reasons), key=reasons.count) if reasons else "nothing in it was measured"
        problems.append(LOG_TEACHES_NOTHING.at(Place(file), why=why))
    if learned.not_used:
        problems.append(LOG_UNUSED.at(Place(file), count=len(learned.not_used)))
    return problems
