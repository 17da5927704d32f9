"""Every finding ranked by money, with its evidence and room to note what the supplier agreed to."""

from __future__ import annotations

from estimator.pricing.bill_checks.finding import Finding
from estimator.pricing.month_report import MonthReport
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.month_end.sheets import FINDINGS, across, headings, money_with_room, open_sheet
from estimator.write.styles import Look

__all__ = ["write_findings"]

_NAMES = (
    "No.",
    "What",
    "Supplier, bill, gas",
    "Asked too much",
    "Agreed by the supplier",
    "Still open",
    "Days left to object",
    "In words",
    "By your papers",
    "On the bill",
    "Where to look",
)
_WIDTHS = (5, 21, 20, 10, 11, 10, 9, 44, 22, 18, 26)
_MONEY, _AGREED, _OPEN, _DAYS, _WORDS = 3, 4, 5, 6, 7
_FIRST = 4


def write_findings(book: OutputBook, report: MonthReport) -> None:
    """Write the findings."""
    sheet = book.sheet(FINDINGS)
    guide = "Most money first. Type what the supplier agrees to; what is still open follows."
    open_sheet(sheet, "What is not right", guide, _WIDTHS)
    headings(sheet, _FIRST - 1, _NAMES)
    for count, finding in enumerate(report.done.findings):
        _finding(sheet, report, finding, _FIRST + count, count + 1)
    last = _FIRST + len(report.done.findings) - 1
    if report.done.findings:
        sheet.prompt(_FIRST, _AGREED, last, title="Agreed by the supplier", message="Money the supplier credits, or 0.")
        _totals(sheet, report, last)
    else:
        sheet.text(_FIRST, 1, "Nothing was found.")
    sheet.freeze_panes(_FIRST, 2)
    sheet.set_up_page(last_row=last + 1, last_column=len(_NAMES) - 1, headings=(_FIRST - 1, _FIRST - 1), landscape=True)


def _finding(sheet: BookSheet, report: MonthReport, finding: Finding, row: int, count: int) -> None:
    number, major = money_with_room(report.decimals), 10**report.decimals
    whose = ", ".join(filter(None, (finding.supplier, finding.bill_number, f"{finding.gas} {finding.size}".strip())))
    sheet.text(row, 0, str(count), Look.LABEL)
    sheet.text(row, 1, finding.kind, wrap=True)
    sheet.text(row, 2, whose, wrap=True)
    money = finding.money_minor / major
    sheet.number(row, _MONEY, money, Look.WORKED, number)
    sheet.blank(row, _AGREED, Look.TYPED, number)
    sheet.worked(row, _OPEN, f"={a1(row, _MONEY)}-{a1(row, _AGREED)}", money, number=number)
    if finding.days_left is not None:
        sheet.number(row, _DAYS, finding.days_left, Look.CAUTION if finding.days_left < 0 else Look.WORKED, "0_)")
    where = ", ".join(str(place) for place in finding.evidence)
    texts = (finding.said, finding.expected, finding.found, where)
    for column, text in enumerate(texts, _WORDS):
        sheet.text(row, column, text, wrap=True)
    sheet.fit_row(
        row, ((str(finding.kind), _WIDTHS[1]), (whose, _WIDTHS[2]), *zip(texts, _WIDTHS[_WORDS:], strict=True))
    )


def _totals(sheet: BookSheet, report: MonthReport, last: int) -> None:
    across(sheet, last + 1, "all", Look.TOTAL, len(_NAMES))
    total = report.done.money_minor / 10**report.decimals
    number = money_with_room(report.decimals)
    for column, value in ((_MONEY, total), (_AGREED, 0.0), (_OPEN, total)):
        span = f"{a1(_FIRST, column)}:{a1(last, column)}"
        sheet.worked(last + 1, column, f"=SUM({span})", value, Look.TOTAL, number)
