"""The quote as a workbook of one sheet: values and words, no formula, nothing hidden."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, BinaryIO

from estimator.write.book import LINE_HEIGHT, BookSheet, OutputBook, Paper, wrapped_lines, write_book
from estimator.write.quote.page import PRICES, QuotePage
from estimator.write.styles import Look, money_format

__all__ = ["quote_workbook"]

_WIDTHS = (11.0, 10.0, 42.0, 12.5, 9.5, 12.0, 13.0)
_LAST = len(_WIDTHS) - 1
_DRAWING = 1
_SMALLEST = 0.7
"""Smallest print on that page, as a share of the usual size."""


def quote_workbook(page: QuotePage) -> Callable[[BinaryIO], None]:
    """Return what writes the quote into an open file.

    Parameters
    ----------
    page : QuotePage
        What the customer is told.

    Returns
    -------
    function of a binary file
    """

    def build(book: OutputBook) -> None:
        sheet = book.sheet("Quotation")
        for column, width in enumerate(_WIDTHS):
            sheet.set_column(column, column, width)
        row = _write_head(sheet, page)
        first = row
        row = _write_lines(sheet, row, page)
        row = _write_sums(sheet, row, page)
        row = _write_changes(sheet, row + 1, page)
        row = _write_terms(sheet, row + 1, page)
        row = _write_acceptance(sheet, row + 1, page)
        sheet.set_up_page(last_row=row, last_column=_LAST, headings=(first, first))
        if page.is_short and sheet.height(row) * _SMALLEST <= sheet.paper.height:
            sheet.fit_to_pages(1, 1)
        sheet.hide_gridlines(2)

    author = page.shop[0] if page.shop else ""
    return write_book(build, title=page.title, author=author, subject=page.job, paper=Paper(page.paper))


def _write_head(sheet: BookSheet, page: QuotePage) -> int:
    """Write who quotes what to whom; return the row below."""
    for row, text in enumerate(page.shop):
        _write_across(sheet, row, text, Look.TITLE if row == 0 else Look.TEXT)
    row = len(page.shop) + 1
    _write_across(sheet, row, page.title, Look.TITLE)
    for what, text in page.facts:
        row += 1
        _write_said(sheet, row, what, text)
    return row + 2


def _write_across(sheet: BookSheet, row: int, text: str, look: Look) -> None:
    """Write a text that breaks at the page's edge."""
    style = sheet.styles.get(look, wrap=True)
    sheet.merge_range(row, 0, row, _LAST, "", style)
    sheet.text(row, 0, text, style)
    broad = sum(_WIDTHS) / (1.5 if look is Look.TITLE else 1.0)
    sheet.set_row(row, wrapped_lines(text, broad) * (24.0 if look is Look.TITLE else LINE_HEIGHT))


def _write_lines(sheet: BookSheet, row: int, page: QuotePage) -> int:
    for column, heading in enumerate(page.headings):
        shown = "" if page.lump_sum and column in PRICES else heading
        style = sheet.styles.get(Look.HEADING, align="right" if column > 3 else "left")
        _write_word(sheet, row, column, shown, style, page)
    sheet.fit_row(row, zip(page.headings, _WIDTHS, strict=True))
    number = money_format(page.decimals)
    for line in page.lines:
        row += 1
        words = (line.mark, line.drawing, line.words, line.steel)
        for column, text in enumerate(words):
            _write_word(sheet, row, column, text, sheet.styles.get(Look.TEXT, wrap=True), page)
        broad = _WIDTHS if page.has_drawings else (*_WIDTHS[:2], sum(_WIDTHS[1:3]), *_WIDTHS[3:])
        sheet.fit_row(row, zip(words, broad, strict=False))
        if line.quantity:
            sheet.number(row, 4, line.quantity, Look.TEXT, "#,##0.###")
        for column, minor in zip(PRICES, (line.price_each, line.amount), strict=True):
            if minor is not None:
                sheet.number(row, column, page.money(minor), Look.TEXT, number)
    return row + 1


def _write_word(sheet: BookSheet, row: int, column: int, text: str, style: Any, page: QuotePage) -> None:
    """Write a word of a line; without drawings the description takes their room."""
    if page.has_drawings or column not in {_DRAWING, _DRAWING + 1}:
        sheet.text(row, column, text, style)
    elif column > _DRAWING:
        sheet.merge_range(row, _DRAWING, row, column, "", style)
        sheet.text(row, _DRAWING, text, style)


def _write_sums(sheet: BookSheet, row: int, page: QuotePage) -> int:
    number = money_format(page.decimals)
    for one in page.sums:
        look = Look.TOTAL if one.strong else Look.TEXT
        for column in range(2, _LAST):
            sheet.text(row, column, f"{one.what}, {page.currency}" if column == 2 else "", look)
        sheet.number(row, _LAST, page.money(one.minor), look, number)
        row += 1
    return row


def _write_changes(sheet: BookSheet, row: int, page: QuotePage) -> int:
    """Write what changed since the revision that the customer has; return the row below."""
    if page.changes is None:
        return row - 1
    money = money_format(page.decimals)
    number = f"+{money};-{money};0{money.removeprefix('#,##0')}"
    sheet.text(row, 0, page.changes.title, Look.LABEL)
    style = sheet.styles.get(Look.TEXT, wrap=True)
    for what, how, minor in page.changes.rows:
        row += 1
        sheet.merge_range(row, 0, row, 1, "", style)
        sheet.text(row, 0, what, style)
        sheet.merge_range(row, 2, row, _LAST - 1, "", style)
        sheet.text(row, 2, how, style)
        sheet.fit_row(row, [(what, sum(_WIDTHS[:2])), (how, sum(_WIDTHS[2:_LAST]))])
        if minor is not None:
            sheet.number(row, _LAST, page.money(minor), Look.TEXT, number)
    return row + 1


def _write_terms(sheet: BookSheet, row: int, page: QuotePage) -> int:
    for what, text in page.terms:
        _write_said(sheet, row, what, text)
        row += 1
    return row


def _write_said(sheet: BookSheet, row: int, what: str, text: str) -> None:
    """Write a word and what is said to it, which breaks inside the page."""
    style = sheet.styles.get(Look.TEXT, wrap=True)
    sheet.text(row, 0, what, Look.LABEL)
    sheet.merge_range(row, 2, row, _LAST, "", style)
    sheet.text(row, 2, text, style)
    sheet.fit_row(row, [(text, sum(_WIDTHS[2:]))])


def _write_acceptance(sheet: BookSheet, row: int, page: QuotePage) -> int:
    """Write the line on which the customer accepts; return the last row."""
    _write_across(sheet, row, f"Accepted as quoted in {page.title}:", Look.LABEL)
    row += 2
    for column in range(_LAST + 1):
        sheet.text(row, column, "", Look.UNIT)
    row += 1
    for column, text in ((0, "Date"), (2, "Name and firm"), (5, "Signature")):
        sheet.text(row, column, text, Look.GUIDE)
    return row
