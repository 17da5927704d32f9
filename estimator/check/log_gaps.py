"""Holes in the work log: days on which nothing was written though cylinders were emptied, rows of other months."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from itertools import pairwise

from estimator.check.bills import BillsBook
from estimator.check.work_log import WorkLog
from estimator.problems import work_log as said
from estimator.problems.code import Place, Problem

__all__ = ["LONGEST_SILENCE", "log_gaps"]

LONGEST_SILENCE = 9
"""Days without a row, weekends among them, that are not asked about. Source: judgement."""
_ONE_DAY = dt.timedelta(days=1)


def log_gaps(log: WorkLog, book: BillsBook, spans: Sequence[tuple[dt.date, dt.date]]) -> list[Problem]:
    """Return silent stretches of the log in which empty cylinders went back, and how many rows lie in no span.

    Parameters
    ----------
    log : WorkLog
        The log.
    book : BillsBook
        Delivery notes.
    spans : sequence of (date, date)
        Days of the opening and the closing count of each month.

    Returns
    -------
    list of Problem

    Notes
    -----
    Source: definition.
    """
    if not log.entries or not spans:
        return []
    first = log.entries[0].place
    sheet = Place(first.file, first.sheet)
    problems = []
    for after, until in spans:
        days = sorted({entry.date for entry in log.entries if after < entry.date <= until})
        for before, then in pairwise([after, *days, until + _ONE_DAY]):
            silent = (then - before).days - 1
            emptied = any(d.empty_out and before < d.date < then for d in book.deliveries)
            if silent > LONGEST_SILENCE and emptied:
                fields = {"days": silent, "first": before + _ONE_DAY, "last": then - _ONE_DAY}
                problems.append(said.LOG_GAP.at(sheet, **fields))
    outside = sum(not any(after < entry.date <= until for after, until in spans) for entry in log.entries)
    if outside:
        problems.append(said.LOG_OUTSIDE.at(sheet, count=outside))
    return problems
