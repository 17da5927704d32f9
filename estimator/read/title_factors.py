"""Titles and numbered assemblies that multiply the quantities below them: done where it is certain, else asked."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from estimator.problems import list_words as said
from estimator.problems import table as said_table
from estimator.problems.code import Place
from estimator.read.cells import CellValue, column_letters
from estimator.read.counts import read_count
from estimator.read.list_columns import ColumnReader, shown
from estimator.read.numbers import Refused
from estimator.read.parents import is_parent, item_number
from estimator.read.row_kinds import RowKind
from estimator.read.row_words import multiplier
from estimator.read.table import Table

__all__ = ["multiply_by_titles"]

Floats = NDArray[np.float64]


def multiply_by_titles(reader: ColumnReader, table: Table, quantity: Floats) -> Floats:
    """Multiply the quantities under titles such as *FRAME A (x3)*, where they cannot be those of all sets already.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    table : Table
        The table, its rows sorted.
    quantity : ndarray of float
        Quantity of each row as it stands.

    Returns
    -------
    ndarray of float
        Quantities of the whole job.

    Notes
    -----
    What is cut for three like sets is three times something: a quantity that three does not divide is one set's. Where
    all divide, or where it is not plain which rows a title speaks of, it is asked. Source: arithmetic.
    """
    heading = table.heading.found.get(table.columns.get("quantity", -1))
    if heading is not None and heading.column == "quantity_total":
        return quantity
    out = quantity.copy()
    for row, column in sorted(table.rows.multiplying.items()):
        value = table.sheet.rows[row][column]
        text, factor = shown(value), _factor(value)
        place = Place(reader.file, reader.sheet.name, row + 1, column_letters(column))
        lines, plain = _rows_of_title(reader, table, row)
        own = quantity[lines.start : lines.stop]
        if not lines:
            reader.problems.append(said_table.TITLE_MULTIPLIES.at(place, found=text))
        elif plain and factor and np.any(own % factor > 0):
            out[lines.start : lines.stop] *= factor
            many = "quantity" if len(lines) == 1 else "quantities"
            fields = {"factor": factor, "many": many, "last": int(reader.rows[lines.stop - 1]) + 1}
            reader.problems.append(said_table.TITLE_MULTIPLIED.at(place, found=text, **fields))
            for line in lines:
                count = own[line - lines.start]
                reader.note(line, "quantity", count, f"{out[line]:g}, {factor} times the quantity of one")
        else:
            for line in lines:
                value = (reader.values("quantity") or [])[line]
                reader.say(said.TITLE_MAY_MULTIPLY, line, "quantity", value, title=text, at=str(place))
    return out


def _factor(value: CellValue) -> int:
    """Return by how much a title's words or an assembly's own quantity multiplies; 0 when that is not plain."""
    if isinstance(value, str):
        count = read_count(value)
        return (multiplier(value) or 0) if isinstance(count, Refused) else count.value
    return int(value) if isinstance(value, float) and value.is_integer() and value > 0 else 0


def _rows_of_title(reader: ColumnReader, table: Table, title: int) -> tuple[range, bool]:
    """Return the lines below a title, up to the next one, and whether it is plain that they end there."""
    first = int(np.searchsorted(reader.rows, title))
    if (numbered := _number_of(reader, table, title)) is not None:
        name, number = numbered
        below = [item_number(value) for value in (reader.values(name) or [])[first:]]
        parts = next((n for n, one in enumerate(below) if not is_parent(number, one)), len(below))
        return range(first, first + parts), True
    heads = [row for row, kind in table.rows.others.items() if kind in {RowKind.TITLE, RowKind.HEADING} and row > title]
    stop = int(np.searchsorted(reader.rows, min(heads))) if heads else len(reader)
    rows = [title, *reader.rows[first:stop].tolist()]
    between = {row for a, b in pairwise(rows) for row in range(a + 1, b)}
    return range(first, stop), all(table.rows.others.get(row) is RowKind.NOTE for row in between)


def _number_of(reader: ColumnReader, table: Table, row: int) -> tuple[str, str] | None:
    """Return the column and the number that makes a row an assembly; None for a title in words."""
    for name in ("item", "mark"):
        column = reader.columns.get(name)
        if column is not None and (number := item_number(table.sheet.value(row, column))):
            return name, number
    return None
