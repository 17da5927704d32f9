"""The shop book's first sheet as it is written: a dozen cells in one run, then links to what can wait."""

from __future__ import annotations

from collections.abc import Mapping

from estimator.sheets.choices import GAS_UNIT_WORDS
from estimator.sheets.first_cells import LATER, NEEDED_FIRST, START
from estimator.sheets.statement import Column, Kind
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.own_cells import OwnUnits, capital, offer, unit_shown, write_value
from estimator.write.own_sheets import cell_of
from estimator.write.styles import Look

__all__ = ["start_cell", "write_start_sheet"]

_WIDTHS = (38.0, 20.0, 10.0, 72.0, 12.0)
_TOP = 6
"""First row of the cells, from 0."""
_BY_AMOUNT = {True: "0.32 per ft3, 2.10 per lb", False: "11.30 per m3, 4.60 per kg"}
"""Prices by amount as an inch shop, and any other, would type them."""
_LEGEND = (
    (Look.TYPED, "yellow: for you to type"),
    (Look.ASSUMED, "pink: a figure to begin with; type over it"),
)


def write_start_sheet(book: OutputBook, record: Mapping[str, object], units: OwnUnits) -> BookSheet:
    """Write the first sheet.

    Parameters
    ----------
    book : OutputBook
        The workbook that is being written.
    record : mapping
        Values that stand there to begin with, by house name.
    units : OwnUnits
        Units of the shop.

    Returns
    -------
    BookSheet
    """
    made = book.sheet(START.name)
    for column, width in enumerate(_WIDTHS):
        made.set_column(column, column, width)
    made.text(0, 0, START.purpose, Look.TITLE)
    made.set_row(0, 26)
    made.text(1, 0, "Type the yellow cells from top to bottom, save, close the file, and price a list.", Look.GUIDE)
    for row, (look, words) in enumerate(_LEGEND, 2):
        made.text(row, 0, words, look)
    for column, heading in enumerate(("", "Type here", "Unit", "What it is", "Done?")):
        made.text(_TOP - 1, column, heading, Look.HEADING)
    for number, stated in enumerate(START.columns):
        _write_cell(made, _TOP + number, stated, record.get(stated.name), units)
    last = _write_later(made, _TOP + len(START.columns) + 1)
    made.freeze_panes(_TOP, 1)
    made.set_up_page(last_row=last, last_column=len(_WIDTHS) - 1, landscape=True)
    return made


def start_cell(name: str) -> tuple[int, int]:
    """Return row and column, from 0, of a value on the first sheet."""
    return _TOP + [column.name for column in START.columns].index(name), 1


def _write_cell(made: BookSheet, row: int, stated: Column, value: object, units: OwnUnits) -> None:
    made.text(row, 0, stated.heading, Look.LABEL)
    look = Look.TYPED if value is None else Look.ASSUMED
    write_value(made, row, 1, value, stated, units=units, look=look)
    offer(made, row, 1, row, stated, units)
    if stated.kind is Kind.GAS:
        inch = units.length == "in"
        made.text(row, 2, "ft3" if inch else "", Look.ASSUMED if inch else Look.TYPED)
        made.choice(row, 2, row, GAS_UNIT_WORDS, title="Unit", message="What the content is measured in.")
    else:
        made.text(row, 2, unit_shown(stated, units), Look.UNIT)
    by_amount = f", as {_BY_AMOUNT[units.length == 'in']}" if stated.kind is Kind.GAS_PRICE else ""
    said = f"{capital(stated.needs)}{by_amount}."
    made.text(row, 3, said, Look.TEXT, wrap=True)
    made.fit_row(row, [(stated.heading, _WIDTHS[0]), (said, _WIDTHS[3])])
    place = a1(row, 1)
    blank = "to type" if stated.name in NEEDED_FIRST else "may wait"
    typed = '"typed"'
    if stated.kind is Kind.GAS:
        typed = f'IF(AND(ISNUMBER({place}),ISBLANK({a1(row, 2)})),"unit?","typed")'
    made.worked(row, 4, f'=IF(ISBLANK({place}),"{blank}",{typed})', blank if value is None else "typed")


def _write_later(made: BookSheet, row: int) -> int:
    """Write what can wait, each with a link to its sheet; return the last row."""
    for column in range(len(_WIDTHS)):
        made.text(row, column, "Later, when you have time" if column == 0 else "", Look.SUBTITLE)
    for number, later in enumerate(LATER, row + 1):
        place = a1(*cell_of(later.sheet, later.name))
        made.jump(number, 0, later.sheet.name, place, f"{later.sheet.name}, cell {place}")
        made.text(number, 3, later.what, wrap=True)
        made.fit_row(number, [(later.what, _WIDTHS[3])])
    return row + len(LATER)
