"""The sheet that sets quoted hours beside what they came to, class by class and job by job."""

from __future__ import annotations

import math

from estimator.learning.quoted import QuotedClass
from estimator.pricing.quoted_work import QuotedWork
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.styles import Look

__all__ = ["QUOTED", "trend_words", "write_quoted"]

QUOTED = "Quoted and actual"
_CLASS_HEADINGS = (
    ("Class of work", 22.0),
    ("Jobs", 12.0),
    ("Actual ÷ quoted", 12.0),
    ("Four in five: low", 12.0),
    ("high", 12.0),
    ("Multiply the next quote by", 14.0),
    ("Trend", 44.0),
    ("Rests on", 26.0),
)
_JOB_HEADINGS = ("Quote", "Last day", "Quoted min", "Actual min", "Actual ÷ quoted", "", "Class of work")


def write_quoted(book: OutputBook, quoted: QuotedWork) -> None:
    """Write what was quoted against what it took."""
    sheet = book.sheet(QUOTED)
    sheet.set_row(0, 26.0)
    sheet.text(0, 0, "What was quoted and what it took", Look.TITLE)
    sheet.text(
        1, 0, "Man-minutes of jobs whose log rows name their quote; the correction is drawn towards 1.", Look.GUIDE
    )
    sheet.set_row(3, 45.0)
    for column, (heading, width) in enumerate(_CLASS_HEADINGS):
        sheet.set_column(column, column, width)
        sheet.text(3, column, heading, Look.HEADING)
    row = 4
    for each in quoted.classes:
        _class_row(sheet, row, each)
        row += 1
    row = _jobs(sheet, row + 1, quoted)
    for number, why in quoted.left_out:
        sheet.text(row, 0, number, Look.LABEL)
        sheet.text(row, 2, f"left out: {why}")
        row += 1
    sheet.set_up_page(last_row=row, last_column=len(_CLASS_HEADINGS) - 1, headings=(3, 3), landscape=True)


def trend_words(each: QuotedClass) -> str:
    """Return how the ratio moves with time, in words; a trend that may be chance is not called one."""
    trend = each.trend
    if trend is None:
        return "too few jobs for a trend"
    between = f"x {trend.low:.2f} to {trend.high:.2f} a year"
    if not trend.is_clear:
        return f"no clear trend ({between})"
    return f"{'rising' if trend.a_year > 1 else 'falling'}, x {trend.a_year:.2f} a year ({between})"


def _class_row(sheet: BookSheet, row: int, each: QuotedClass) -> None:
    sheet.text(row, 0, each.work_class, Look.LABEL)
    sheet.number(row, 1, each.jobs, Look.WORKED, "0")
    sheet.number(row, 2, each.ratio, Look.WORKED, "0.00")
    if math.isfinite(each.high):
        sheet.number(row, 3, each.low, Look.WORKED, "0.00")
        sheet.number(row, 4, each.high, Look.WORKED, "0.00")
    sheet.number(row, 5, each.correction, Look.TOTAL, "0.00")
    sheet.text(row, 6, trend_words(each), wrap=True)
    sheet.text(row, 7, each.reason, wrap=True)


def _jobs(sheet: BookSheet, row: int, quoted: QuotedWork) -> int:
    """Write one row for each job; return the row below them."""
    for column, heading in enumerate(_JOB_HEADINGS):
        sheet.text(row, column, heading, Look.HEADING)
    for job in sorted(quoted.jobs, key=lambda j: (j.when, j.number)):
        row += 1
        sheet.text(row, 0, job.number, Look.LABEL)
        sheet.date(row, 1, job.when)
        sheet.number(row, 2, job.quoted, Look.WORKED, "0")
        sheet.number(row, 3, job.actual, Look.TYPED, "0")
        sheet.worked(row, 4, f"={a1(row, 3)}/{a1(row, 2)}", job.actual / job.quoted, number="0.00")
        sheet.text(row, 6, job.work_class)
    return row + 1
