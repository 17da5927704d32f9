"""The page to send to a supplier: what does not agree, what should be credited, by when an answer is asked."""

from __future__ import annotations

import datetime as dt

from estimator.check.bills import Bill
from estimator.pricing.bill_checks.finding import Finding, FindingKind
from estimator.pricing.month_report import MonthReport
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.month_end.sheets import across, headings, money_with_room, supplier_sheet
from estimator.write.styles import Look

__all__ = ["write_letters", "write_supplier_page"]

_WIDTHS = (5, 13, 58, 14)
_WITH_TAX = {FindingKind.DUPLICATE_BILL, FindingKind.TAX}
_NAMES = ("No.", "Bill", "What does not agree", "Please credit")


def write_letters(book: OutputBook, report: MonthReport) -> None:
    """Write one page for each supplier with findings."""
    suppliers = [s for s in report.checked.checking.book.suppliers if report.of_supplier(s)]
    for number, supplier in enumerate(suppliers, 1):
        write_supplier_page(book, report, supplier, supplier_sheet(number, len(suppliers)))


def write_supplier_page(book: OutputBook, report: MonthReport, supplier: str, name: str) -> None:
    """Write the page for one supplier on a sheet of that name."""
    sheet = book.sheet(name)
    for column, width in enumerate(_WIDTHS):
        sheet.set_column(column, column, width)
    row = _head(sheet, report, supplier)
    findings = report.of_supplier(supplier)
    claims = [f for f in findings if f.money_minor > 0]
    row = _claims(sheet, report, supplier, claims, row)
    row = _others(sheet, report, [f for f in findings if f.money_minor <= 0], row)
    row = _close(sheet, report, supplier, row)
    sheet.hide_gridlines(2)
    sheet.set_up_page(last_row=row, last_column=len(_WIDTHS) - 1)
    sheet.set_footer("&C&8&P / &N")


def _head(sheet: BookSheet, report: MonthReport, supplier: str) -> int:
    own = not report.example_shop and report.shop_name
    sheet.set_row(0, 24)
    across(sheet, 0, report.shop_name if own else "(your shop)", Look.TITLE if own else Look.TYPED, 3)
    across(
        sheet, 1, report.shop_contact if own else "(your address and telephone)", Look.GUIDE if own else Look.TYPED, 3
    )
    sheet.text(3, 0, f"To {supplier}", Look.LABEL)
    sheet.text(4, 0, f"{_said(report.as_of)}", Look.TEXT)
    bills = ", ".join(dict.fromkeys(f.bill_number for f in report.of_supplier(supplier)))
    sheet.set_row(6, 22)
    across(sheet, 6, f"Your bill {bills}: what does not agree", Look.SUBTITLE, len(_WIDTHS))
    sheet.text(8, 0, "We have checked your bill against our delivery notes, our cylinder counts and the agreed prices.")
    sheet.text(9, 0, "These points do not agree. Please credit them, or tell us what we have missed.")
    return 11


def _claims(sheet: BookSheet, report: MonthReport, supplier: str, claims: list[Finding], row: int) -> int:
    headings(sheet, row, _NAMES, lines=1)
    number, major = money_with_room(report.decimals), 10**report.decimals
    first = row + 1
    for count, finding in enumerate(claims, 1):
        row += 1
        sheet.text(row, 0, str(count), Look.LABEL)
        sheet.text(row, 1, finding.bill_number)
        with_tax = " (tax included)" if finding.kind in _WITH_TAX else ""
        said = _capital(_for_supplier(finding)) + with_tax
        sheet.text(row, 2, said, wrap=True)
        sheet.number(row, 3, finding.money_minor / major, Look.WORKED, number)
        sheet.fit_row(row, ((said, _WIDTHS[2]),))
    net = sum(f.money_minor for f in claims if f.kind not in _WITH_TAX)
    gross = sum(f.money_minor for f in claims if f.kind in _WITH_TAX)
    rate = report.checked.checking.book.terms_of(supplier).tax_rate
    if not claims:
        sheet.text(row + 1, 2, "Nothing is to be credited.")
        return row + 2
    row = _total(sheet, row + 1, "together", net + gross, f"=SUM({a1(first, 3)}:{a1(row, 3)})", report)
    if rate:
        tax = report.checked.checking.minor(net / major * rate)
        with_tax_cells = [a1(first + i, 3) for i, f in enumerate(claims) if f.kind in _WITH_TAX]
        base = f"({a1(row - 1, 3)}{''.join(f'-{cell}' for cell in with_tax_cells)})"
        formula = f"=ROUND({base}*{rate!r},{report.decimals})"
        sheet.text(row, 2, f"tax on it at {rate * 100:.4g} %")
        sheet.worked(row, 3, formula, tax / major, number=number)
        total = f"={a1(row - 1, 3)}+{a1(row, 3)}"
        row = _total(sheet, row + 1, "to be credited", net + gross + tax, total, report)
    return row + 1


def _total(sheet: BookSheet, row: int, said: str, minor: int, formula: str, report: MonthReport) -> int:
    for column in (0, 1):
        sheet.blank(row, column, Look.TOTAL)
    currency = f" {report.currency}" if report.currency else ""
    sheet.text(row, 2, f"{said}{currency}", Look.TOTAL)
    number = money_with_room(report.decimals)
    sheet.worked(row, 3, formula, minor / 10**report.decimals, Look.TOTAL, number)
    return row + 1


def _others(sheet: BookSheet, report: MonthReport, others: list[Finding], row: int) -> int:
    """Write what is to be cleared up without a claim: cylinders, gaps, and what was asked too little."""
    if not others:
        return row
    sheet.text(row, 0, "Please look into these as well:", Look.LABEL)
    for finding in others:
        row += 1
        little = f" ({report.money(-finding.money_minor)} asked too little)" if finding.money_minor < 0 else ""
        said = _capital(_for_supplier(finding)) + little
        sheet.text(row, 1, finding.bill_number)
        sheet.text(row, 2, said, wrap=True)
        sheet.fit_row(row, ((said, _WIDTHS[2]),))
    return row + 2


def _close(sheet: BookSheet, report: MonthReport, supplier: str, row: int) -> int:
    until = _answer_by(report, supplier)
    if until is not None:
        sheet.text(row, 0, f"Please answer by {_said(until)}; until then we take these amounts as disputed.")
        row += 1
    sheet.text(row, 0, "Amounts are before tax unless said otherwise.", Look.GUIDE)
    row += 3
    sheet.text(row, 0, "Name, signature", Look.GUIDE)
    return row


def _answer_by(report: MonthReport, supplier: str) -> dt.date | None:
    """Return the earliest last day to object among the bills with findings; None when the terms do not say."""
    checking = report.checked.checking
    allowed = checking.book.terms_of(supplier).objection_days
    allowed = checking.objection_days if allowed is None else allowed
    numbers = {f.bill_number for f in report.of_supplier(supplier)}
    bills: list[Bill] = [b for b in checking.book.bills if b.supplier == supplier and b.bill_number in numbers]
    if allowed is None or not bills:
        return None
    return min(bill.bill_date for bill in bills) + dt.timedelta(days=allowed)


def _for_supplier(finding: Finding) -> str:
    """Return a finding's words as said to the supplier."""
    return finding.said.replace("you had", "we had").replace("your count", "our count").replace("your own", "our own")


def _said(day: dt.date) -> str:
    return f"{day.day} {day:%B %Y}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
