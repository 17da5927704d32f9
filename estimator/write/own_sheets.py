"""Write any stated sheet, blank or filled, so that its reader gives the same records back.

A table: its purpose in row 1, what each column takes in row 2, headings in row 3, units below where there are any, then
the records. A form: name, value, unit, what it does, what a blank means, and where that comes from.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import ceil

from estimator.sheets.statement import Column, Layout, Sheet
from estimator.write.book import BookSheet, OutputBook
from estimator.write.own_cells import (
    OwnUnits,
    capital,
    example_shown,
    guide_text,
    offer,
    unit_shown,
    width_for,
    write_value,
)
from estimator.write.styles import Look

__all__ = ["BLANK_ROWS", "LookOf", "cell_of", "write_own_sheet"]

BLANK_ROWS = 200
"""Rows of a table that offer their words and prompts below the last record."""

Record = Mapping[str, object]
LookOf = Callable[[int, str], Look]
"""Look of a cell from the record's number and the column's house name."""

_TITLE_HEIGHT = 26.0
_INDENT = 2.0
"""What guiding words lose of their column's width to the space before them."""
_FIRST_WIDTH, _WIDEST, _USUAL_WIDTH = 15.0, 44.0, 8.43
_SHOWN_ROWS = 20
"""Empty rows of a blank that are boxed and printed."""
_FORM_WIDTHS = (32.0, 26.0, 12.0, 60.0, 26.0, 22.0)
_FORM_TOP = 2
"""First row of a form's values, from 0."""
_WIDE = 16
"""A table with more columns than this prints on several pages side by side; smaller print could not be read."""


def write_own_sheet(
    book: OutputBook,
    sheet: Sheet,
    records: Sequence[Record] = (),
    *,
    units: OwnUnits | None = None,
    look_of: LookOf | None = None,
    above: tuple[Sheet, Record] | None = None,
) -> BookSheet:
    """Write one stated sheet.

    Parameters
    ----------
    book : OutputBook
        The workbook that is being written.
    sheet : Sheet
        The statement.
    records : sequence of mappings
        House values by house name, a record a row; a form takes one. None and missing names are blank cells.
    units : OwnUnits
        Units of the shop; millimetres when left out.
    look_of : function of record number and house name
        Look of each filled cell; typed when left out.
    above : tuple of Sheet and mapping
        A form and its values, written above the table on the same sheet.

    Returns
    -------
    BookSheet
        The sheet, for more on it.

    Notes
    -----
    Examples stand in the guiding row or the prompts, never as a record. Source: definition.
    """
    made = book.sheet(sheet.name)
    units = units or OwnUnits()
    look_of = look_of or (lambda _record, _name: Look.TYPED)
    if sheet.layout is Layout.FORM:
        record = records[0] if records else {}
        _write_form(made, sheet, record, units, look_of)
    else:
        _write_table(made, sheet, records, units, look_of, above)
    return made


def cell_of(sheet: Sheet, name: str, record: int = 0) -> tuple[int, int]:
    """Return row and column, from 0, of a value on a stated sheet that has no form above it.

    Parameters
    ----------
    sheet : Sheet
        The statement.
    name : str
        House name.
    record : int
        Which record of a table, from 0.

    Returns
    -------
    tuple of (int, int)

    Notes
    -----
    Source: definition.
    """
    index = [column.name for column in sheet.columns].index(name)
    if sheet.layout is Layout.FORM:
        return _FORM_TOP + index, 1
    return 1 + _head_rows(sheet) + record, index


def _write_form(made: BookSheet, sheet: Sheet, record: Record, units: OwnUnits, look_of: LookOf) -> None:
    for column, width in enumerate(_FORM_WIDTHS):
        made.set_column(column, column, width)
    made.set_row(0, _TITLE_HEIGHT)
    made.text(0, 0, sheet.purpose, Look.TITLE)
    for column, heading in enumerate(("Value", "Unit", "What it does", "If left blank", "Where that is from"), 1):
        made.text(1, column, heading, Look.HEADING)
    made.blank(1, 0, Look.HEADING)
    row = _form_rows(made, sheet, record, _FORM_TOP, units, look_of)
    made.freeze_panes(2, 1)
    made.set_up_page(last_row=row - 1, last_column=5, headings=(1, 1), landscape=True)


def _form_rows(made: BookSheet, sheet: Sheet, record: Record, row: int, units: OwnUnits, look_of: LookOf) -> int:
    """Write a form's rows from a row down; return the row below them."""
    for stated in sheet.columns:
        value = record.get(stated.name)
        made.text(row, 0, stated.heading, Look.LABEL)
        look = Look.TYPED if value is None else look_of(0, stated.name)
        write_value(made, row, 1, value, stated, units=units, look=look)
        offer(made, row, 1, row, stated, units)
        made.text(row, 2, _form_unit(stated, units), Look.UNIT)
        guides = (
            _what_it_does(stated, units),
            _if_blank(stated, units),
            ", ".join(filter(None, (stated.status, stated.source))),
        )
        for column, (guide, look) in enumerate(zip(guides, (Look.TEXT, Look.GUIDE, Look.GUIDE), strict=True), 3):
            made.text(row, column, guide, look, wrap=True)
        made.fit_row(row, zip((stated.heading, *guides), (_FORM_WIDTHS[0], *_FORM_WIDTHS[3:]), strict=True))
        row += 1
    return row


def _what_it_does(stated: Column, units: OwnUnits) -> str:
    example = example_shown(stated, units)
    told = f"; for example {example}" if example and " as " not in stated.needs and example not in stated.needs else ""
    return f"{capital(stated.why)}. {capital(stated.needs)}{told}."


def _if_blank(stated: Column, units: OwnUnits) -> str:
    blank = guide_text(stated, units).partition("Blank means ")[2].rstrip(".")
    return blank or ("needed" if stated.required else "")


def _form_unit(stated: Column, units: OwnUnits) -> str:
    unit = unit_shown(stated, units)
    return f"{units.currency} {unit}".strip() if stated.kind.name == "MONEY" else unit


def _write_table(
    made: BookSheet,
    sheet: Sheet,
    records: Sequence[Record],
    units: OwnUnits,
    look_of: LookOf,
    above: tuple[Sheet, Record] | None,
) -> None:
    widths = [_width(stated, column, records) for column, stated in enumerate(sheet.columns)]
    for column, width in enumerate(widths):
        made.set_column(column, column, width)
    made.set_row(0, _TITLE_HEIGHT)
    made.text(0, 0, sheet.purpose, Look.TITLE)
    top = 1
    if above is not None:
        form, values = above
        top = _title_block(made, form, values, units) + 1
    first = _write_head(made, sheet, top, units, widths)
    for column, stated in enumerate(sheet.columns):
        offer(made, first, column, first + len(records) + BLANK_ROWS - 1, stated, units)
    _write_records(made, sheet, records, first, units, look_of, widths)
    shown = first + max(len(records), _SHOWN_ROWS) - 1
    for row in range(first + len(records), shown + 1):
        for column in range(len(sheet.columns)):
            made.blank(row, column, Look.TYPED)
    made.freeze_panes(first, 1)
    columns = len(sheet.columns)
    reach = max(columns, _columns_for_title(sheet.purpose, widths))
    made.set_up_page(last_row=shown, last_column=reach - 1, headings=(top + 1, first - 1), landscape=columns > 6)
    if columns > _WIDE:
        made.fit_to_pages(ceil(columns / _WIDE), 0)
        made.repeat_columns(0, 0)


def _write_records(
    made: BookSheet,
    sheet: Sheet,
    records: Sequence[Record],
    first: int,
    units: OwnUnits,
    look_of: LookOf,
    widths: Sequence[float],
) -> None:
    for number, record in enumerate(records):
        long_texts = []
        for column, stated in enumerate(sheet.columns):
            value = record.get(stated.name)
            look = look_of(number, stated.name)
            write_value(made, first + number, column, value, stated, units=units, look=look)
            if isinstance(value, str):
                long_texts.append((value, widths[column]))
        made.fit_row(first + number, long_texts)


def _width(stated: Column, column: int, records: Sequence[Record]) -> float:
    longest = max((len(str(record.get(stated.name) or "")) for record in records), default=0)
    return max(width_for(stated), min(longest * 0.95 + 2, _WIDEST), _FIRST_WIDTH if column == 0 else 0)


def _columns_for_title(title: str, widths: Sequence[float]) -> int:
    """Return how many columns must print for the title to be seen whole, the table's and then usual ones."""
    needed, columns = len(title) * 1.7, 0
    while needed > 0:
        needed -= widths[columns] if columns < len(widths) else _USUAL_WIDTH
        columns += 1
    return columns


def _title_block(made: BookSheet, form: Sheet, values: Record, units: OwnUnits) -> int:
    """Write a form's names and values above a table; return the row below it."""
    for row, stated in enumerate(form.columns, 1):
        made.text(row, 0, stated.heading, Look.LABEL)
        write_value(made, row, 1, values.get(stated.name), stated, units=units)
        offer(made, row, 1, row, stated, units)
    return 1 + len(form.columns)


def _write_head(made: BookSheet, sheet: Sheet, top: int, units: OwnUnits, widths: Sequence[float]) -> int:
    """Write the guiding row, the headings and the units; return the first row of records."""
    shown_units = [unit_shown(stated, units) for stated in sheet.columns]
    guides = [guide_text(stated, units) for stated in sheet.columns]
    for column, stated in enumerate(sheet.columns):
        made.text(top, column, guides[column], Look.GUIDE, wrap=True)
        made.text(top + 1, column, stated.heading, Look.HEADING)
        if any(shown_units):
            made.text(top + 2, column, shown_units[column], Look.UNIT)
    made.fit_row(top, ((guide, width - _INDENT) for guide, width in zip(guides, widths, strict=True)))
    made.fit_row(top + 1, ((stated.heading, width) for stated, width in zip(sheet.columns, widths, strict=True)))
    return top + _head_rows(sheet)


def _head_rows(sheet: Sheet) -> int:
    """Return the rows between a table's title and its records: guide, headings, and units where there are any."""
    return 3 if any(column.unit for column in sheet.columns) else 2
