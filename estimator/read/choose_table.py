"""Chooses which sheet and which of its tables are the cut list; names what was passed over, asks where two tie."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import PurePath

import numpy as np

from estimator.problems import table as said
from estimator.problems.code import Place, Problem
from estimator.read.cells import Book, SheetCells, column_letters
from estimator.read.column_evidence import are_thicknesses
from estimator.read.heading_rows import HEADING_LIMIT, cell_text, is_blank
from estimator.read.headings import heading_key, nearest_headings
from estimator.read.no_headings import say_columns
from estimator.read.quantity_columns import are_counts
from estimator.read.row_kinds import RowKind
from estimator.read.table import Table
from estimator.read.tables import examples, tables_by_content, tables_on

__all__ = ["Choice", "choose_tables"]


@dataclass(slots=True)
class Choice:
    """The tables that are read, and all that were found."""

    tables: list[Table] = field(default_factory=list)
    found: list[Table] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def tables_of(self, sheet: SheetCells) -> list[Table]:
        """Return all tables of a sheet, read or not."""
        return [table for table in self.found if table.sheet is sheet]


MOST_RUNS = 200
"""Tables and repeated headings of one sheet that are compared with each other."""
_AT_CELL = re.compile(r"(.+)!\$?([A-Za-z]{1,3})\$?([0-9]+)")


def choose_tables(book: Book, sheet: str | None, columns: dict[str, str]) -> Choice:
    """Return the tables of a book that are its cut list.

    Parameters
    ----------
    book : Book
        The file.
    sheet : str, optional
        The sheet that the user names, with or without the cell of the headings.
    columns : dict of str to str
        Columns that the user names.

    Returns
    -------
    Choice
        All complete tables of one sheet; problems where there is none, or where two sheets tie.
    """
    choice = Choice()
    file = PurePath(book.path).name
    sheets, cell = _sheets(file, book, sheet, choice)
    if not sheets:
        return choice
    by_sheet = [(one, tables_on(book, one, columns)) for one in sheets]
    choice.found = [table for _, tables in by_sheet for table in tables]
    if cell is not None:
        _only_at(choice, cell)
        by_sheet = [(one, [t for t in choice.found if t.sheet is one]) for one in sheets]
    if not choice.found and not columns:
        by_sheet = [(one, tables_by_content(book, one)) for one in sheets]
        choice.found = [table for _, tables in by_sheet for table in tables]
    good = [(one, kept) for one, tables in by_sheet if (kept := _worth_reading(file, tables, choice))]
    if not good:
        _say_none(file, sheets, choice)
        return choice
    good.sort(key=lambda pair: -_score(pair[1]))
    if _tie(good) and sheet is None:
        names = [one.name for one, tables in good if _score(tables) * 2 >= _score(good[0][1])]
        names = [one.name for one in book.sheets if one.name in names]
        choice.problems.append(
            said.SHEETS_TIE.at(Place(file), sheets=", ".join(f"'{name}'" for name in names), first=names[0])
        )
        return choice
    chosen, choice.tables = good[0]
    _say_passed_over(file, book, chosen, good[1:], choice)
    for table in choice.tables:
        choice.problems += table.problems
        if not len(table.rows.pieces):
            choice.problems.append(said.TABLE_EMPTY.at(table.place(file)))
    _refuse_repeats(file, chosen, choice)
    return choice


def _sheets(
    file: str, book: Book, sheet: str | None, choice: Choice
) -> tuple[list[SheetCells], tuple[int, int] | None]:
    """Return the sheets to look at, and the cell of the headings when the user names one."""
    if sheet is None:
        return book.sheets, None
    named = _by_name(book, sheet)
    cell = None
    if named is None and (found := _AT_CELL.fullmatch(sheet.strip())):
        named = _by_name(book, found[1].strip("'\""))
        cell = (int(found[3]) - 1, _letters(found[2]))
    if named is not None:
        return [named], cell
    names = [one.name for one in book.sheets]
    near = difflib.get_close_matches(sheet, names, 1, 0.5)
    hint = f"the nearest name is '{near[0]}'" if near else "name one of them"
    listed = ", ".join(f"'{name}'" for name in names)
    choice.problems.append(said.SHEET_UNKNOWN.at(Place(file), name=sheet, sheets=listed, hint=hint))
    return [], None


def _by_name(book: Book, name: str) -> SheetCells | None:
    exact = [one for one in book.sheets if one.name == name]
    loose = [one for one in book.sheets if one.name.strip().casefold() == name.strip().casefold()]
    return next(iter(exact or loose), None)


def _letters(text: str) -> int:
    number = 0
    for letter in text.upper():
        number = number * 26 + ord(letter) - 64
    return number - 1


def _only_at(choice: Choice, cell: tuple[int, int]) -> None:
    """Keep the table whose headings stand at a cell, or straight around it."""
    at = [t for t in choice.found if t.heading.row <= cell[0] < t.heading.row + t.heading.rows]
    beside = [t for t in at if min(t.heading.texts) <= cell[1] <= max(t.heading.texts)]
    for table in choice.found:
        if table not in (beside or at):
            table.set_aside = True


def _worth_reading(file: str, tables: list[Table], choice: Choice) -> list[Table]:
    """Return the tables of a sheet that can be priced, examples and empty ones left out."""
    shown = examples(tables)
    for table in shown:
        choice.problems.append(said.EXAMPLE_LEFT_OUT.at(table.place(file), title=table.title))
    kept = [t for t in tables if not any(t is one for one in shown) and not t.set_aside]
    complete = [t for t in kept if t.has_measures]
    return [t for t in complete if len(t.rows.pieces)] or complete[:1]


def _score(tables: Iterable[Table]) -> float:
    return sum(table.score for table in tables)


def _tie(good: list[tuple[SheetCells, list[Table]]]) -> bool:
    """Return whether a second sheet comes near the best; an empty table never ties with a filled one."""
    return len(good) > 1 and _score(good[1][1]) * 2 >= _score(good[0][1])


def _say_none(file: str, sheets: list[SheetCells], choice: Choice) -> None:
    """Report that no table can be priced: no headings at all, or a column that is missing."""
    best = max((t for t in choice.found if not t.set_aside), key=lambda t: t.score, default=None)
    if best is None:
        texts = [cell_text(v) for one in sheets for row in one.rows[:HEADING_LIMIT] for v in row if not is_blank(v)]
        words = list(dict.fromkeys(text.strip() for text in texts if 2 < len(heading_key(text)) < 25))[:40]
        close = [f"'{word}' is near '{near[0]}'" for word in words if (near := nearest_headings(word, 1))][:3]
        held = next(filter(None, map(say_columns, sheets)), "") if not close else ""
        asked = 'name the columns, as --columns "quantity=B,thickness=C,length=D"'
        hint = "; ".join([asked + (f": {held}" if held else ""), *close])
        place = Place(file, sheets[0].name) if len(sheets) == 1 else Place(file)
        choice.problems.append(said.TABLE_NOT_FOUND.at(place, limit=HEADING_LIMIT, hint=hint))
        return
    choice.problems += best.problems
    if {said.COLUMNS_TIE.code, said.COLUMN_OPTION_CONTENT.code} & {problem.code for problem in best.problems}:
        return
    missing = []
    if "quantity" not in best.columns:
        missing.append(("quantity", "Qty, Quantity, No. off, Pcs", "time, gas and price are per piece times this"))
    if not {"thickness_mm", "size", "material", "work"} & set(best.columns):
        missing.append(("thickness", "Thickness, Thk, Size", "tip, speed and gas depend on it"))
    for what, wordings, why in missing:
        heads = [f"{' '.join(t.split())} ({column_letters(c)})" for c, t in sorted(best.carried.items())]
        fits = are_thicknesses if what == "thickness" else are_counts
        likely = [c for c in sorted(best.carried) if fits(best.sample(c))]
        option = f'as --columns "{what}={column_letters(likely[0]) if likely else "D"}"'
        hint = (
            f"name it, {option}"
            if likely or heads
            else f"add a column headed {wordings.split(',')[0]}, or name one, {option}"
        )
        hint += f"; headings not known: {', '.join(heads[:8])}" if heads else ""
        choice.problems.append(
            said.COLUMN_MISSING.at(best.place(file), what=what, wordings=wordings, why=why, hint=hint)
        )


def _say_passed_over(
    file: str, book: Book, chosen: SheetCells, others: list[tuple[SheetCells, list[Table]]], choice: Choice
) -> None:
    """Name the sheet that is read among several, and each other sheet that holds a table."""
    if len(book.sheets) > 1:
        choice.problems.append(said.SHEET_CHOSEN.at(Place(file, chosen.name), many=len(book.sheets)))
    for one, tables in others:
        rows = sum(len(table.rows.pieces) for table in tables)
        if rows:
            place = Place(file, one.name)
            choice.problems.append(said.SHEET_NOT_READ.at(place, rows=rows, chosen=chosen.name, sheet=one.name))


def _refuse_repeats(file: str, sheet: SheetCells, choice: Choice) -> None:
    """Refuse two tables on a sheet, or two runs of rows under repeated headings, that list the same pieces."""
    runs = [(table, first_row, rows) for table in choice.tables for first_row, rows in _runs(table)]
    if not 1 < len(runs) <= MOST_RUNS:
        return
    seen: list[tuple[frozenset[object], str]] = []
    for table, first_row, rows in runs:
        pieces = _pieces(table, rows)
        at = f"{column_letters(min(table.heading.texts))}{first_row + 1}"
        for other, before in seen:
            if len(pieces) >= 2 and len(pieces & other) * 10 >= 8 * min(len(pieces), len(other)):
                place = Place(file, sheet.name, first_row + 1)
                choice.problems.append(said.TABLES_REPEAT.at(place, first=before, second=at, sheet=sheet.name))
                return
        seen.append((pieces, at))


def _runs(table: Table) -> list[tuple[int, list[int]]]:
    """Return the rows of pieces under each repetition of a table's headings."""
    headings = {row for row, kind in table.rows.others.items() if kind is RowKind.HEADING}
    heads = [table.heading.row, *sorted(row for row in headings if row - 1 not in headings)]
    pieces = table.rows.pieces
    starts = np.searchsorted(pieces, [*heads, table.rows.end]).tolist()
    return [
        (head, pieces[a : min(b, a + 2000)].tolist()) for head, a, b in zip(heads, starts, starts[1:], strict=False)
    ]


def _pieces(table: Table, rows: list[int]) -> frozenset[object]:
    """Return mark, quantity and first measures of rows of a table."""
    names = [name for name in ("mark", "quantity", "thickness_mm", "size", "length") if name in table.columns]
    columns = [table.columns[name] for name in names]
    return frozenset(tuple(str(table.sheet.value(row, c)).strip() for c in columns) for row in rows)
