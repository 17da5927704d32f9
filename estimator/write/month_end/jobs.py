"""What each job really cost in gas, rental and fees; with a cell for its price, or the quote's where it is known."""

from __future__ import annotations

from estimator.pricing.month_end import Month
from estimator.pricing.month_report import MonthReport
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.month_end.sheets import JOBS, across, headings, money_with_room, open_sheet
from estimator.write.month_end.words import month_name
from estimator.write.styles import Look

__all__ = ["write_jobs"]

_NAMES = (
    "Job",
    "Quote",
    "Torch-lit min",
    "Man-minutes",
    "Gas by the model",
    "Gas as paid",
    "Rental and fees",
    "Gas, rental, fees",
    "Quoted man-minutes",
    "Quoted gas",
    "Minutes over quote",
    "Gas over quote",
    "Price charged",
    "Gas and rental in the price",
)
_WIDTHS = (16, 12, 10, 10, 11, 11, 11, 12, 11, 11, 11, 11, 12, 11)


def write_jobs(book: OutputBook, report: MonthReport) -> None:
    """Write the jobs of every month."""
    sheet = book.sheet(JOBS)
    guide = "The month's gas money shared by what each job used, rental and fees by torch-lit time; the parts add back."
    open_sheet(sheet, "What each job cost", guide, _WIDTHS)
    row = 3
    for month in report.done.months:
        row = _month(sheet, report, month, row) + 2
    if not report.has_log:
        sheet.text(row, 0, "Without a work log nothing can be shared over jobs.", Look.CAUTION)
    sheet.set_up_page(last_row=row, last_column=len(_NAMES) - 1, landscape=True)


def _month(sheet: BookSheet, report: MonthReport, month: Month, row: int) -> int:
    across(sheet, row, month_name(month), Look.SUBTITLE, len(_NAMES))
    if not month.jobs or month.expected is None:
        return row
    headings(sheet, row + 1, _NAMES, lines=3)
    first = row + 2
    for index in range(len(month.jobs)):
        _job(sheet, report, month, first + index, index)
    last = first + len(month.jobs) - 1
    _totals(sheet, report, month, first, last)
    return last + 1


def _job(sheet: BookSheet, report: MonthReport, month: Month, row: int, index: int) -> None:
    number, major = money_with_room(report.decimals), 10**report.decimals
    job = month.jobs[index]
    quote = report.quote_of_job.get(job.job, "")
    sheet.text(row, 0, job.job, Look.LABEL)
    sheet.text(row, 1, quote)
    if month.expected is not None:
        sheet.number(row, 2, float(month.expected.flame_time_min[index]), number="0")
    sheet.number(row, 3, report.paid_time_min.get(job.job, 0.0), number="0")
    for column, minor in enumerate((job.modelled_minor, job.gas_minor, job.other_minor), 4):
        sheet.number(row, column, minor / major, Look.WORKED, number)
    sheet.worked(row, 7, f"={a1(row, 5)}+{a1(row, 6)}", job.cost_minor / major, Look.LABEL, number)
    quoted = report.quotes.get(quote)
    if quoted is not None:
        sheet.number(row, 8, quoted.paid_time_min, number="0")
        sheet.number(row, 9, quoted.gas_minor / major, number=number)
        over = report.paid_time_min.get(job.job, 0.0) - quoted.paid_time_min
        sheet.worked(row, 10, f"={a1(row, 3)}-{a1(row, 8)}", over, number="0")
        gas_over = (job.gas_minor - quoted.gas_minor) / major
        sheet.worked(row, 11, f"={a1(row, 5)}-{a1(row, 9)}", gas_over, number=number)
        sheet.number(row, 12, quoted.price_minor / major, Look.TYPED, number)
    else:
        sheet.blank(row, 12, Look.TYPED, number)
    price = quoted.price_minor / major if quoted else 0.0
    share = job.cost_minor / major / price if price else ""
    formula = f'=IF(N({a1(row, 12)})>0,{a1(row, 7)}/{a1(row, 12)},"")'
    sheet.worked(row, 13, formula, share, number="0.0%")


def _totals(sheet: BookSheet, report: MonthReport, month: Month, first: int, last: int) -> None:
    number, major = money_with_room(report.decimals), 10**report.decimals
    row = last + 1
    sheet.text(row, 0, "all jobs", Look.TOTAL)
    for column in range(1, len(_NAMES)):
        sheet.blank(row, column, Look.TOTAL)
    values = {
        4: sum(job.modelled_minor for job in month.jobs),
        5: sum(job.gas_minor for job in month.jobs),
        6: sum(job.other_minor for job in month.jobs),
        7: sum(job.cost_minor for job in month.jobs),
    }
    for column, minor in values.items():
        span = f"{a1(first, column)}:{a1(last, column)}"
        sheet.worked(row, column, f"=SUM({span})", minor / major, Look.TOTAL, number)
