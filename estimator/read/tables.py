"""Tables on a sheet: found by their headings, their columns settled, their rows sorted."""

from __future__ import annotations

from pathlib import PurePath

import numpy as np

from estimator.problems import table as said
from estimator.read.cells import Book, SheetCells, column_letters
from estimator.read.heading_rows import (
    HEADING_LIMIT,
    HeadingRow,
    cell_text,
    heading_at,
    split_side_by_side,
)
from estimator.read.headings import Heading
from estimator.read.no_headings import heading_by_content
from estimator.read.numbers import plain_number
from estimator.read.row_kinds import TableRows, sort_rows
from estimator.read.row_words import is_example
from estimator.read.settle_columns import column_of_letters, settle_columns
from estimator.read.table import Table

__all__ = ["examples", "tables_by_content", "tables_on"]


def tables_on(book: Book, sheet: SheetCells, chosen: dict[str, str] | None = None) -> list[Table]:
    """Return the tables of a sheet that can be cut lists, from top to bottom and left to right.

    Parameters
    ----------
    book : Book
        The file.
    sheet : SheetCells
        One of its sheets.
    chosen : dict of str to str, optional
        Column letters or heading text that the user names for a meaning; they win over any heading.

    Returns
    -------
    list of Table
        Empty when no heading row is found.
    """
    heading = _first_heading(sheet)
    if heading is None and chosen:
        heading = _heading_of_letters(sheet, chosen)
    tables: list[Table] = []
    file = PurePath(book.path).name
    width = max(map(len, sheet.rows), default=0)
    while heading is not None:
        parts = split_side_by_side(heading)
        made = [_table(file, sheet, part, parts, width, chosen or {}) for part in parts]
        tables += made
        heading = next((t.rows.next_heading for t in made if t.rows.next_heading is not None), None)
        end = min(t.rows.end for t in made)
        for table in made:
            _cut_off(table.rows, end)
    return tables


def tables_by_content(book: Book, sheet: SheetCells) -> list[Table]:
    """Return the table of a sheet without headings, where its cells leave no doubt which column is which.

    Parameters
    ----------
    book : Book
        The file.
    sheet : SheetCells
        One of its sheets.

    Returns
    -------
    list of Table
        One with a warning that names the columns, or none.
    """
    heading = heading_by_content(sheet)
    if heading is None:
        return []
    file, width = PurePath(book.path).name, max(map(len, sheet.rows), default=0)
    table = _table(file, sheet, heading, [heading], width, {})
    named = {name: c for name, c in table.columns.items() if heading.found.get(c) == Heading(name)}
    in_order = [(name.removesuffix("_mm"), column_letters(c)) for name, c in sorted(named.items(), key=_by_column)]
    read_as = ", ".join(f"{letters} as {name}" for name, letters in in_order)
    option = ",".join(f"{name}={letters}" for name, letters in in_order)
    table.problems.append(said.NO_HEADINGS.at(table.place(file), read_as=read_as, option=option))
    return [table]


def _by_column(named: tuple[str, int]) -> int:
    return named[1]


def _first_heading(sheet: SheetCells) -> HeadingRow | None:
    """Return the first heading row whose score comes near the best of the rows looked at."""
    rows = range(min(HEADING_LIMIT, len(sheet.rows)))
    found = [h for row in rows if (h := heading_at(sheet, row)) is not None]
    if not found:
        texts = ((row, sum(1 for v in sheet.rows[row] if cell_text(v).strip())) for row in rows)
        full = [row for row, many in texts if 3 <= many <= 40][:20]
        found = [h for row in full if (h := heading_at(sheet, row, slips=True)) is not None and len(h.found) >= 3]
    best = max((h.score for h in found), default=0.0)
    return next((h for h in found if h.score >= 0.6 * best), None)


def _heading_of_letters(sheet: SheetCells, chosen: dict[str, str]) -> HeadingRow | None:
    """Return a heading for a list without headings: the user's letters over the first row with a number under one."""
    columns = {name: c for name, text in chosen.items() if (c := column_of_letters(text)) is not None}
    for row, cells in enumerate(sheet.rows):
        if any(c < len(cells) and plain_number(cells[c]) is not None for c in columns.values()):
            width = range(len(cells))
            texts = {c: f"column {column_letters(c)}" for c in width}
            return HeadingRow(row, 0, texts, {c: Heading(name) for name, c in columns.items()})
    return None


def _span(part: HeadingRow, parts: list[HeadingRow], width: int) -> range:
    """Return the columns that belong to a table: all when it stands alone, else those of its headings."""
    return range(width) if len(parts) == 1 else range(min(part.texts), max(part.texts) + 1)


def _table(
    file: str, sheet: SheetCells, heading: HeadingRow, parts: list[HeadingRow], width: int, chosen: dict[str, str]
) -> Table:
    span = _span(heading, parts, width)
    table = Table(
        sheet,
        heading,
        {},
        TableRows(np.empty(0, dtype=np.int64), {}, len(sheet.rows)),
        _title_above(sheet, heading, span),
    )
    table.columns = settle_columns(file, table, chosen)
    table.rows = sort_rows(
        *(file, sheet, heading, table.columns, span),
        side_by_side=len(parts) > 1,
        example=is_example(table.title),
    )
    table.problems += table.rows.problems
    return table


def _cut_off(rows: TableRows, end: int) -> None:
    rows.pieces = rows.pieces[rows.pieces < end]
    rows.others = {row: kind for row, kind in rows.others.items() if row < end}
    rows.end = end
    rows.problems = [p for p in rows.problems if p.place.row <= end]


def _title_above(sheet: SheetCells, heading: HeadingRow, span: range) -> str:
    """Return the text in the two rows above the headings."""
    for row in (heading.row - 1, heading.row - 2):
        texts = [text for c in span if (text := cell_text(sheet.value(row, c)).strip())]
        if texts:
            return " ".join(texts)
    return ""


def examples(tables: list[Table]) -> list[Table]:
    """Return the tables that are examples by their title, where another table is none."""
    shown = [table for table in tables if is_example(table.title)]
    return shown if len(shown) < len(tables) else []
