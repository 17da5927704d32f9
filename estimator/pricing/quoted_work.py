"""Quoted jobs as they were worked: paid minutes quoted beside those logged, by class of work."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from estimator.check.work_log import LogEntry, WorkLog
from estimator.learning.quoted import QuotedClass, QuotedJob, learn_from_quotes
from estimator.learning.spread import Spread
from estimator.words import Method, Work

__all__ = ["QuotedWork", "quoted_against_logged", "work_class"]


@dataclass(frozen=True, slots=True)
class QuotedWork:
    """What the quotes of the log came to."""

    classes: tuple[QuotedClass, ...]
    jobs: tuple[QuotedJob, ...]
    left_out: tuple[tuple[str, str], ...]
    """Quotes that say nothing, each with the reason."""


def quoted_against_logged(log: WorkLog, quoted_min: Mapping[str, float], hours: Spread) -> QuotedWork:
    """Return how the quotes that the log names came out.

    Parameters
    ----------
    log : WorkLog
        Checked log, some of whose rows name a quote.
    quoted_min : mapping of str to float
        Paid minutes quoted, by quote number [min].
    hours : Spread
        How far off hours are expected to be as a whole: the handbook's band.

    Returns
    -------
    QuotedWork
        By class of work, in order; quotes without minutes on either side are left out and said.

    Notes
    -----
    A job belongs to the class that took most of its logged minutes. Source: definition.
    """
    rows: dict[str, list[LogEntry]] = {}
    for entry in log.entries:
        if entry.quote_number:
            rows.setdefault(entry.quote_number, []).append(entry)
    jobs, left_out = [], []
    for number, entries in rows.items():
        actual = float(sum(entry.paid_time_min or 0.0 for entry in entries))
        quoted = quoted_min.get(number, 0.0)
        if number not in quoted_min:
            left_out.append((number, "no quote of this number is known"))
        elif quoted <= 0 or actual <= 0:
            left_out.append((number, "no minutes were quoted" if quoted <= 0 else "no minutes were logged"))
        else:
            when = max(entry.date for entry in entries)
            jobs.append(QuotedJob(number, _main_class(entries), quoted, actual, when))
    return QuotedWork(tuple(learn_from_quotes(jobs, hours.log_sd_about_likely)), tuple(jobs), tuple(left_out))


def work_class(entry: LogEntry) -> str:
    """Return the class of work of a row: ``cut by hand``, ``cut on a track``, ``heat``."""
    if entry.operation != Work.CUT.word:
        return entry.operation
    return "cut on a track" if entry.method == Method.TRACK.word else "cut by hand"


def _main_class(entries: list[LogEntry]) -> str:
    minutes: Counter[str] = Counter()
    for entry in entries:
        minutes[work_class(entry)] += int(entry.paid_time_min or 0.0)
    return minutes.most_common(1)[0][0]
