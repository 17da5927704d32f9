"""Work that the words of a row ask for and no cell of it prices: said at the row, with what to type."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from estimator.problems import list_words as said
from estimator.problems.code import Place
from estimator.read.cells import column_letters
from estimator.read.heading_rows import cell_text
from estimator.read.list_columns import ColumnReader
from estimator.read.row_kinds import RowKind
from estimator.read.table import Table
from estimator.read.what_to_type import MINUTES_COLUMN, cell_of_row
from estimator.read.work_words import AskedWork, asked_work
from estimator.words import EdgeFinish, Shape, Work

__all__ = ["say_unpriced_work"]

_OF_HOLES = frozenset({"drill", "tap", "slot"})
"""Work that is not said again where the holes of a text are told of."""


def say_unpriced_work(reader: ColumnReader, table: Table, columns: Mapping[str, Any]) -> None:
    """Warn of each row whose note, description or unread cells ask for work that it does not price.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    table : Table
        Its other rows and its columns that are not read.
    columns : mapping of str to array or list
        Every column of the cut list as read, shapes and sizes included.

    Notes
    -----
    A mark prices a work when any of its rows does; minutes that are typed in the row, or in a row of other work of its
    mark, price all work by hand that its words ask for. A word is believed, never counted: how long the edge is or how
    many the holes are, the list has to say. Source: definition.
    """
    priced = _Priced(columns)
    told = {(p.place.row, p.place.column) for p in reader.problems if p.code == said.HOLES_NOT_COUNTED.code}
    rows_asked = {p.place.row for p in reader.problems if p.code == said.ROW_MAY_BE_WORK.code}
    named = {c: name for name, c in table.columns.items() if name.startswith(("description", "note"))}
    for column, name in sorted((named | table.carried).items()):
        what = name.partition(" ")[0] if column in named else f"cell under '{name}'"
        texts = _texts(reader, column)
        asked = asked_work(texts.values(), in_notes=not name.startswith("description"))
        for line, text in texts.items() if asked else ():
            row = int(reader.rows[line])
            if row + 1 in rows_asked:
                continue
            known = _OF_HOLES if (row + 1, column_letters(column)) in told else frozenset()
            asked_here = [one for one in asked.get(text, ()) if one.work not in known]
            open_work = [one for one in asked_here if not priced.by_row(one, line)]
            _say(reader, row, column, text, what, open_work, cell_of_row(reader, line, "minutes_each"))
    _say_of_other_rows(reader, table, priced)


class _Priced:
    """What the rows of a list price already."""

    def __init__(self, columns: Mapping[str, Any]) -> None:
        holes, edges = np.nan_to_num(columns["holes"]) > 0, columns["edge_finish"]
        self.marks: list[str] = columns["mark"]
        self.rows: dict[str, NDArray[np.bool_]] = {
            "bevel_deg": np.nan_to_num(columns["bevel_deg"]) > 0,
            "edge_finish": np.isin(edges, (EdgeFinish.TOUCH_UP, EdgeFinish.BRIGHT)),
            "holes": holes,
            "burn_holes": holes & columns["burn_holes"],
            "cut_length": ~np.isnan(columns["cut_length_mm"]) | ~np.isnan(columns["total_cut_length_mm"]),
            "triangle": columns["shape"] == Shape.RIGHT_TRIANGLE,
        }
        self.rows |= {f"work {work.word}": columns["work"] == work for work in Work}
        other = asked_work(columns["other_work"], in_notes=True)
        self.by_mark: set[tuple[str, str]] = set()
        self.by_line: set[tuple[int, str]] = set()
        named = np.array([bool(text) for text in columns["other_work"]], dtype=np.bool_)
        self.timed = np.nan_to_num(columns["minutes_each"]) > 0
        is_other = columns["work"] == Work.OTHER
        self.itself = is_other & (named | ~np.isnan(columns["minutes_each"]))
        """Rows that are the work their words speak of."""
        self.timed_marks = {self.marks[line] for line in np.flatnonzero(is_other & self.timed).tolist()} - {""}
        for line, text in enumerate(columns["other_work"]):
            self.by_mark |= {(self.marks[line], one.work) for one in other.get(text, ())}
            self.by_line |= {(line, one.work) for one in other.get(text, ())}
        for work in Work:
            key = f"work {work.word}"
            self.by_mark |= {(self.marks[line], key) for line in np.flatnonzero(self.rows[key]).tolist()}

    def by_row(self, asked: AskedWork, line: int) -> bool:
        """Return whether the row, or another row of its mark, prices a work."""
        own, mark = self.rows.get(asked.priced_by), self.marks[line]
        elsewhere = {(mark, asked.work), (mark, asked.priced_by)} & self.by_mark
        by_hand = asked.by_minutes and (self.timed[line] or mark in self.timed_marks)
        itself = self.itself[line] or (line, asked.work) in self.by_line or by_hand
        return bool((own is not None and own[line]) or (mark and elsewhere) or itself)

    def by_any(self, asked: AskedWork) -> bool:
        """Return whether any row of the list prices a work."""
        return any(self.by_row(asked, line) for line in range(len(self.marks)))


def _texts(reader: ColumnReader, column: int) -> dict[int, str]:
    rows = reader.sheet.rows
    cells = ((line, rows[row][column]) for line, row in enumerate(reader.rows.tolist()) if column < len(rows[row]))
    return {line: text for line, value in cells if (text := cell_text(value))}


def _say(
    reader: ColumnReader,
    row: int,
    column: int,
    text: str,
    what: str,
    asked: Iterable[AskedWork],
    minutes: str = MINUTES_COLUMN,
) -> None:
    place = Place(reader.file, reader.sheet.name, row + 1, column_letters(column))
    for one in asked:
        plain = one.work.split()[0] in one.said
        work = one.work if plain or not one.said else f"'{one.said}' ({one.work})"
        do = one.do_in(minutes)
        reader.problems.append(said.WORK_NOT_PRICED.at(place, found=text, what=what, work=work, do=do))


def _say_of_other_rows(reader: ColumnReader, table: Table, priced: _Priced) -> None:
    """Warn of work that a note or title among the rows asks for, where no row prices it."""
    kinds = {RowKind.NOTE: True, RowKind.TITLE: False}
    for row, kind in sorted(table.rows.others.items()):
        for column, value in enumerate(table.sheet.rows[row]) if kind in kinds else ():
            text = cell_text(value)
            asked = asked_work([text], in_notes=kinds[kind]).get(text, ())
            _say(reader, row, column, text, str(kind), [one for one in asked if not priced.by_any(one)])
