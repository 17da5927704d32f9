"""The job card as a workbook: the card on one page of the shop's paper, and its rows as the work log has them."""

from __future__ import annotations

from collections.abc import Callable
from typing import BinaryIO

from estimator.pricing.job_card import CardLine, JobCard
from estimator.sheets.work_log import WORK_LOG
from estimator.write.book import BookSheet, OutputBook, Paper, write_book
from estimator.write.job_card.words import (
    boxes,
    cut_words,
    facts,
    group_words,
    keep_words,
    log_records,
    log_row_words,
    log_title,
    mass_shown,
    mass_unit,
    note_words,
    piece_words,
    title_words,
)
from estimator.write.own_cells import OwnUnits
from estimator.write.own_sheets import write_own_sheet
from estimator.write.styles import Look

__all__ = ["job_card_workbook"]

_HEADINGS = ("Mark", "Drawing", "Piece", "Centre of the cut", "Quantity", "Done", "{mass} each", "And")
_WIDTHS = (10.0, 11.0, 30.0, 24.0, 12.0, 24.0, 14.0, 32.0)
_LAST = len(_WIDTHS) - 1
_LOG = (
    ("Row of the log", 0, 2),
    ("Date, who", 3, 3),
    ("Hours on / off", 4, 4),
    ("Oxygen cylinder on / off", 5, 5),
    ("Fuel cylinder on / off", 6, 6),
    ("What went wrong", 7, 7),
)
"""Headings of the foot, with the columns of the page that each takes."""
_SPARE_ROWS = 2
_ONE_PAGE_ROWS = 60


def job_card_workbook(card: JobCard) -> Callable[[BinaryIO], None]:
    """Return what writes the card into an open file.

    Parameters
    ----------
    card : JobCard
        The card.

    Returns
    -------
    function of a binary file
    """

    def build(book: OutputBook) -> None:
        sheet = book.sheet("Job card")
        for column, width in enumerate(_WIDTHS):
            sheet.set_column(column, column, width)
        row = _write_head(sheet, card)
        heading = row
        row = _write_groups(sheet, row, card)
        row = _across(sheet, row, f"{card.offcut_word.capitalize()}s to keep: {keep_words(card) or 'none named'}")
        for caution in card.cautions:
            row = _across(sheet, row, f"{caution.text} [{caution.source}]")
        row = _write_log(sheet, row + 1, card)
        sheet.set_up_page(last_row=row, last_column=_LAST, headings=(heading, heading))
        if row < _ONE_PAGE_ROWS:
            sheet.fit_to_pages(1, 1)
        sheet.hide_gridlines(2)
        write_own_sheet(book, WORK_LOG, log_records(card), units=OwnUnits("in" if card.inch else "mm"))

    return write_book(build, title=title_words(card), paper=Paper(card.paper))


def _write_head(sheet: BookSheet, card: JobCard) -> int:
    sheet.set_row(0, 26)
    sheet.text(0, 0, title_words(card), Look.TITLE)
    row = 0
    for what, text in facts(card):
        row += 1
        sheet.text(row, 0, what, Look.LABEL)
        sheet.text(row, 2, text, Look.TEXT)
    return row + 2


def _write_groups(sheet: BookSheet, row: int, card: JobCard) -> int:
    for column, heading in enumerate(_HEADINGS):
        sheet.text(row, column, heading.format(mass=mass_unit(card)), Look.HEADING)
    for group in card.groups:
        row += 1
        name, set_to = group_words(group, card)
        for column in range(_LAST + 1):
            sheet.text(row, column, "", Look.SUBTITLE)
        sheet.text(row, 0, f"{name}   {set_to}".strip(), Look.SUBTITLE)
        for line in group.lines:
            row += 1
            _write_line(sheet, row, line, card)
    return row + 2


def _write_line(sheet: BookSheet, row: int, line: CardLine, card: JobCard) -> None:
    ticks = " ".join(f"☐{done}" for done in boxes(line.quantity))
    texts = (line.mark, line.drawing, piece_words(line, card), cut_words(line, card), "", ticks, "")
    for column, text in enumerate((*texts, note_words(line, card))):
        strong = column == 0 or (column == _LAST and line.heavy)
        sheet.text(row, column, text, Look.LABEL if strong else Look.TEXT, wrap=True)
    sheet.number(row, 4, line.quantity, Look.TEXT, "0")
    if line.mass_each_kg:
        sheet.number(row, 6, mass_shown(line, card), Look.TEXT, "0.0")
    sheet.fit_row(row, zip((*texts, note_words(line, card)), _WIDTHS, strict=True))


def _across(sheet: BookSheet, row: int, text: str) -> int:
    """Write a sentence across the page; return the row below it."""
    style = sheet.styles.get(Look.TEXT, wrap=True)
    sheet.merge_range(row, 0, row, _LAST, "", style)
    sheet.text(row, 0, text, style)
    sheet.fit_row(row, [(text, sum(_WIDTHS))])
    return row + 1


def _write_log(sheet: BookSheet, row: int, card: JobCard) -> int:
    """Write the rows of the log that are known, and blank ones; return the last of them."""
    sheet.text(row, 0, log_title(card), Look.LABEL)
    known = [log_row_words(one, card) for one in card.log_rows]
    for place, said in enumerate([None, *known, *[""] * _SPARE_ROWS]):
        row += 1
        sheet.set_row(row, 30)
        for heading, first, last in _LOG:
            text = heading if said is None else said if first == 0 else ""
            look = Look.HEADING if said is None else Look.TEXT if said and first == 0 else Look.TYPED
            if last > first:
                sheet.merge_range(row, first, row, last, "", sheet.styles.get(look, wrap=True))
            if text:
                sheet.text(row, first, text, look, wrap=True)
            else:
                sheet.blank(row, first, look)
        if place == 0:
            sheet.fit_row(row, [(heading, sum(_WIDTHS[first : last + 1])) for heading, first, last in _LOG])
    return row
