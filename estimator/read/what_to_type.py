"""Where and what to type in the customer's own list, so that a row that cannot be priced can be."""

from __future__ import annotations

from estimator.read.list_columns import ColumnReader
from estimator.read.list_units import BareUnit
from estimator.sheets.cut_list import CUT_LIST

__all__ = [
    "MINUTES_COLUMN",
    "bought_part_instead",
    "cell_of_row",
    "cell_under",
    "cell_with_words",
    "cut_length_instead",
    "sizes_to_type",
]

MINUTES_COLUMN = f"a column headed {CUT_LIST.column('minutes_each').heading}"
"""Where minutes are typed when no one row is spoken of."""

_HEADINGS = {"length": "Length", "width": "Width", "size": "Size", "description": "Description"}


def cell_under(reader: ColumnReader, line: int, name: str) -> str:
    """Return a cell of the row by its letters and the list's own heading, or a column that the list has to be given."""
    column = reader.columns.get(name)
    if column is None:
        return f"a new column headed {_HEADINGS.get(name) or CUT_LIST.column(name).heading}"
    heading = reader.headings.get(column, "")
    return f"{reader.place(line, name).cell}" + (f" under '{heading}'" if heading else "")


def cell_of_row(reader: ColumnReader, line: int, name: str) -> str:
    """Return a cell of the row as ``cell_under``, and the row of a column that is not there yet."""
    cell = cell_under(reader, line, name)
    return cell if name in reader.columns else f"row {int(reader.rows[line]) + 1} of {cell}"


def cut_length_instead(reader: ColumnReader, line: int, length: str = "the length of the cut in one piece") -> str:
    """Return how to give the length of the cut of a row."""
    return f"type {length} in {cell_under(reader, line, 'cut_length_mm')}"


def bought_part_instead(reader: ColumnReader, line: int) -> str:
    """Return how a row of a bought part stays in the list, with or without a price."""
    minutes = cell_under(reader, line, "minutes_each")
    return (
        f"type 0 in {minutes} to leave it in the list at no price, or the minutes of fitting one to price that; "
        "or clear the row"
    )


def cell_with_words(reader: ColumnReader, line: int) -> str:
    """Return the cell of a row whose words can name a disc or a ring."""
    name = next((one for one in ("size", "description", "note") if one in reader.columns), "size")
    return cell_under(reader, line, name)


def sizes_to_type(reader: ColumnReader, line: int, bare: BareUnit) -> str:
    """Return what to type where nothing of a row says how much is cut."""
    inches = bare.unit == "in"
    disc, ring, sides = ("disc 12", "OD 12 ID 8", "12x8") if inches else ("disc 320", "OD 320 ID 200", "300x200")
    other = f"for any other shape {cut_length_instead(reader, line)}"
    both = [cell_under(reader, line, name) for name in ("length", "width") if name in reader.columns]
    if len(both) < 2:
        return f"type its size in {cell_under(reader, line, 'size')}, as '{sides}', '{disc}' or '{ring}'; {other}"
    words = f"'{disc}' or '{ring}' in {cell_with_words(reader, line)}"
    return f"type its two sides in {' and '.join(both)}, or {words}; {other}"
