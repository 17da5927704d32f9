"""Columns that no reader takes: named once with their filled cells, and told apart where they may change a price."""

from __future__ import annotations

from estimator.problems import table as said
from estimator.problems.code import Problem
from estimator.read.cells import CellValue, column_letters
from estimator.read.column_evidence import are_thicknesses
from estimator.read.heading_rows import is_blank
from estimator.read.headings import likely_column, match_heading, readable_as
from estimator.read.list_columns import ColumnReader
from estimator.read.table import Table
from estimator.read.text import BLANK_MARKS
from estimator.read.what_to_type import MINUTES_COLUMN
from estimator.read.work_words import asked_work

__all__ = ["say_unread_columns"]


def say_unread_columns(reader: ColumnReader, table: Table) -> None:
    """Name the filled columns of a table that are not read, and what those may be that could change shape or work.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    table : Table
        Its headings and settled columns.
    """
    filled = {c: cells for c in _unread(table) if (cells := _filled(reader, table, c))}
    plain: list[int] = []
    for column, cells in filled.items():
        if (problem := _that_may_matter(reader, table, column, cells)) is not None:
            reader.problems.append(problem)
        else:
            plain.append(column)
    if plain:
        reader.problems.append(_not_read(reader, table, {column: len(filled[column]) for column in plain}))


def _unread(table: Table) -> list[int]:
    """Return the columns of which nothing is read; a second quantity has been named with the one that is taken."""
    known = {c: heading.column for c, heading in table.heading.found.items()}
    return [
        c
        for c in sorted(table.carried)
        if c not in table.columns.values() and not known.get(c, "").startswith("quantity")
    ]


def _that_may_matter(reader: ColumnReader, table: Table, column: int, cells: list[CellValue]) -> Problem | None:
    """Return what is said of a column that may change shape or work; None where nothing speaks for it."""
    text, place = table.carried[column], table.place(reader.file, column)
    fields = {"heading": text, "count": _cells(len(cells))}
    if (likely := _likely(table, column, cells)) is not None:
        what, why = likely
        return said.COLUMN_MAY_MATTER.at(place, why=why, what=what, letters=column_letters(column), **fields)
    if asked := asked_work([text], in_notes=True).get(text):
        work = " and ".join(one.work for one in asked)
        return said.COLUMN_ASKS_FOR_WORK.at(place, work=work, do=asked[0].do_in(MINUTES_COLUMN), **fields)
    return None


def _not_read(reader: ColumnReader, table: Table, counts: dict[int, int]) -> Problem:
    """Return the one note that names all other columns, with their filled cells."""
    named = ", ".join(f"{table.place(reader.file, c).cell} '{table.carried[c]}'" for c in counts)
    *firsts, last = map(str, counts.values())
    numbers = f"{', '.join(firsts)} and {last}" if firsts else last
    return said.COLUMNS_NOT_READ.at(
        table.place(reader.file),
        columns=named,
        verb="are" if firsts else "is",
        counts=f"{numbers} filled cell{'s' if sum(counts.values()) > 1 else ''}",
        **_likeliest(table, counts),
    )


def _likeliest(table: Table, counts: dict[int, int]) -> dict[str, str]:
    """Return which column of the cut list one of the unread may be, and its letters; a note where none is likelier."""
    may_be = ((c, likely_column(table.carried[c])) for c in sorted(counts))
    column, name = next(((c, name) for c, name in may_be if name and name not in table.columns), (min(counts), "note"))
    return {"name": name, "letters": column_letters(column)}


def _filled(reader: ColumnReader, table: Table, column: int) -> list[CellValue]:
    """Return the cells of a column that say something, among the pieces."""
    rows = table.sheet.rows
    cells = [rows[row][column] for row in reader.rows.tolist() if column < len(rows[row])]
    return [v for v in cells if not is_blank(v) and not (isinstance(v, str) and v.strip().lower() in BLANK_MARKS)]


def _cells(many: int) -> str:
    return f"{many} filled cell{'s' if many > 1 else ''}"


def _likely(table: Table, column: int, cells: list[CellValue]) -> tuple[str, str] | None:
    """Return which column of the cut list an unread one may be, and what speaks for it."""
    text = table.carried[column]
    known = match_heading(text)
    if known is not None and known.column in table.columns:
        return None
    figures = sum(1 for v in cells if isinstance(v, float) or any(map(str.isdigit, str(v))))
    if (name := readable_as(text, figures=figures * 2 > len(cells))) is not None and name not in table.columns:
        return name.removesuffix("_mm").removesuffix("_deg"), "by its heading"
    if not {"thickness_mm", "size"} & set(table.columns) and are_thicknesses(cells):
        return "thickness", "by its cells"
    return None
