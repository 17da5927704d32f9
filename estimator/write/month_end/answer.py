"""The first sheet: the verdict in large letters, the findings with their money, the gas, where it all came from."""

from __future__ import annotations

from estimator import __version__
from estimator.pricing.month_report import MonthReport
from estimator.write.book import BookSheet, OutputBook
from estimator.write.month_end.sheets import ANSWER, FINDINGS, across, headings, money_with_room, open_sheet
from estimator.write.month_end.words import days_left, gas_line, month_name, month_verdict, verdict
from estimator.write.styles import Look

__all__ = ["place_answer", "write_answer"]

_WIDTHS = (6, 14, 34, 64, 22)


def place_answer(book: OutputBook) -> BookSheet:
    """Make the sheet, so that it stands first; it is filled when the others are known."""
    return book.sheet(ANSWER)


def write_answer(sheet: BookSheet, report: MonthReport) -> None:
    """Write the answer."""
    open_sheet(sheet, "Month end", _guide(report), _WIDTHS)
    sheet.set_row(3, 30)
    sheet.text(3, 0, verdict(report), Look.ANSWER)
    row = _findings(sheet, report, 5)
    for month in report.done.months:
        row += 1
        across(sheet, row, f"{month_name(month)}: {month_verdict(month)}", Look.SUBTITLE, len(_WIDTHS))
        row += 1
        for one in month.verdicts:
            look = Look.TEXT if one.explained else Look.CAUTION
            said = gas_line(month, one, report.units)
            across(sheet, row, said[:1].upper() + said[1:], look, len(_WIDTHS))
            row += 1
    row = _provenance(sheet, report, row + 1)
    sheet.set_up_page(last_row=row, last_column=len(_WIDTHS) - 1, landscape=True)


def _guide(report: MonthReport) -> str:
    currency = f" Money in {report.currency}." if report.currency else ""
    return f"Are the bills right, did the work use the gas, what did each job cost.{currency}"


def _findings(sheet: BookSheet, report: MonthReport, row: int) -> int:
    """Write each finding with its money; return the row below."""
    findings = report.done.findings
    if not findings:
        sheet.text(row, 0, "Nothing was found.", Look.TEXT)
        return row + 1
    headings(sheet, row, ("No.", "Money", "What", "In words", "Bill, days left"), lines=1)
    number, major = money_with_room(report.decimals), 10**report.decimals
    for count, finding in enumerate(findings, 1):
        row += 1
        sheet.jump(row, 0, FINDINGS, f"A{count + 4}", str(count))
        sheet.worked(row, 1, f"='{FINDINGS}'!D{count + 4}", finding.money_minor / major, Look.LABEL, number)
        sheet.text(row, 2, finding.kind, wrap=True)
        sheet.text(row, 3, finding.said, wrap=True)
        left = f"{finding.bill_number}; {days_left(finding)}"
        sheet.text(row, 4, left, Look.CAUTION if (finding.days_left or 0) < 0 else Look.TEXT, wrap=True)
        sheet.fit_row(row, ((finding.said, _WIDTHS[3]), (str(finding.kind), _WIDTHS[2]), (left, _WIDTHS[4])))
    row += 1
    total = report.done.money_minor / major
    sheet.text(row, 0, "", Look.TOTAL)
    sheet.worked(row, 1, f"=SUM(B7:B{row})", total, Look.TOTAL, number)
    sheet.text(row, 2, "asked too much, before tax unless the words say otherwise", Look.TOTAL)
    for column in (3, 4):
        sheet.blank(row, column, Look.TOTAL)
    return row + 1


def _provenance(sheet: BookSheet, report: MonthReport, row: int) -> int:
    """Say what the answer rests on."""
    if report.example_shop and report.has_log:
        said = "The work was modelled with the invented example shop: name your own shop book."
        across(sheet, row, said, Look.CAUTION, len(_WIDTHS))
        row += 1
    if not report.has_log:
        across(sheet, row, "No work log was given: only the bills were checked.", Look.CAUTION, len(_WIDTHS))
        row += 1
    files = ", ".join(f"{file.name} ({file.sha256[:12]})" for file in report.files)
    days = f"Days left are counted from {report.as_of}."
    sheet.text(row, 0, f"kerfledger {__version__}. From {files}. {days}", Look.GUIDE)
    return row
