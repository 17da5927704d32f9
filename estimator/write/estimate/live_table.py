"""Columns with one row a line, spread over several sheets, whose formulas name each other by house name.

A formula is a sum of terms; ``[name]`` in a term is the cell of that column in the same row, in its house unit
whatever unit the cell shows. A reading that is neutral
on every line (no bevels, one torch) gets no column: its terms fall away, so a simple job has a simple sheet. With a
question mark, ``[name?]``, the term stays and the cell counts as zero.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray
from xlsxwriter.utility import xl_col_to_name

from estimator.write.block_sheet import BlockColumn
from estimator.write.book import LINE_HEIGHT, BookSheet, OutputBook, word_width, wrapped_lines
from estimator.write.estimate.shop_cells import CellUnit, ShopCells
from estimator.write.styles import Look

__all__ = ["LiveColumn", "LiveTables"]

_REFERENCE = re.compile(r"\[(\w+)(\??)\]")

_FITTED_ROWS = 5_000
"""Longer lists keep the usual row height."""

Values = NDArray[np.float64] | Sequence[float | None] | Sequence[str]


@dataclass(frozen=True, slots=True)
class LiveColumn:
    """One column: its values as the engine worked them out and, for a worked column, its formula."""

    name: str
    heading: str
    values: Values
    unit: str = ""
    """House unit."""
    number: str = ""
    """Number format."""
    terms: tuple[str, ...] = ()
    """The formula as a sum of terms; none for a reading or a typed value."""
    neutral: float | None = None
    """A reading that has this value on every line gets no column, nor does a worked column whose readings all fell
    away; None for a column that always stands."""
    look: Look = Look.WORKED
    width: float = 9.0
    wrap: bool = False
    prompt: str = ""
    """What is shown while a typed cell is selected."""
    elsewhere: Mapping[int, str] = field(default_factory=dict)
    """Texts in rows of the block that are no lines."""
    gas: str = ""
    """``oxygen`` or ``fuel`` for an amount of it."""


@dataclass(slots=True)
class _Placed:
    column: LiveColumn
    """As it is shown."""
    sheet: str
    index: int
    cell: CellUnit


@dataclass(slots=True)
class LiveTables:
    """The columns of all lines. Every sheet's block starts in the same row, so a line has one row number."""

    first_row: int
    """First row of the lines, counted from 0."""
    lines: int
    prefix: str = "line_"
    """Begins the names of the columns."""
    live: bool = True
    """Whether formulas are written; else their values alone."""
    positions: Sequence[int] = ()
    """Row of the block for each line, where some rows stay in place without values; none where all rows are lines."""
    rows: int = 0
    """Rows of the block; 0 for one a line."""
    cells: ShopCells = field(default_factory=ShopCells)
    """The units in which cells are shown."""
    _placed: dict[str, _Placed] = field(default_factory=dict)
    _dropped: dict[str, float] = field(default_factory=dict)
    _named: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.rows = self.rows or self.lines
        self.positions = self.positions or range(self.lines)

    def place(self, sheet: str, columns: Iterable[LiveColumn]) -> None:
        """Give columns their place on a sheet, left to right, behind those it has.

        Parameters
        ----------
        sheet : str
            One of our own sheet names.
        columns : iterable of LiveColumn
            Columns of one length. Those that hold nothing but their neutral value are dropped.

        Raises
        ------
        ValueError
            When a name is placed twice, a length differs, or a worked column holds no number on some line.
        """
        index = sum(1 for placed in self._placed.values() if placed.sheet == sheet)
        for column in columns:
            if column.name in self._placed or column.name in self._dropped:
                raise ValueError(f"column {column.name} is placed twice")
            if len(column.values) != self.lines:
                raise ValueError(f"column {column.name} has {len(column.values)} values for {self.lines} lines")
            if column.terms and isinstance(column.values, np.ndarray) and not np.isfinite(column.values).all():
                raise ValueError(f"column {column.name} is worked out but holds a value that is not a number")
            if self._is_dropped(column):
                self._dropped[column.name] = 0.0 if column.neutral is None else column.neutral
                continue
            cell = self.cells.of(column.unit, column.gas)
            self._placed[column.name] = _Placed(_as_shown(column, cell), sheet, index, cell)
            index += 1

    def has(self, name: str) -> bool:
        """Say whether a column stands; KeyError for one that was never placed."""
        if name not in self._placed and name not in self._dropped:
            raise KeyError(f"no column {name}")
        return name in self._placed

    def range(self, name: str) -> str:
        """Return the name that formulas use for a whole column, as shown; ``0`` for a column that was dropped."""
        if not self.has(name):
            return "0"
        self._named.add(name)
        return self.prefix + self._placed[name].cell.name(name)

    def sum(self, name: str) -> str:
        """Return the formula text that sums a column, as shown; ``0`` for a column that was dropped."""
        return f"SUM({self.range(name)})" if self.has(name) else "0"

    def unit(self, name: str, house: str) -> str:
        """Return the unit in which a placed column is shown; the house unit as it is called where that is the one."""
        placed = self._placed[name]
        return placed.cell.unit if placed.cell.is_turned else house

    def address(self, name: str, line: int) -> tuple[str, int, int]:
        """Return sheet, row and column, from 0, of a line's cell."""
        placed = self._placed[name]
        return placed.sheet, self.first_row + self.positions[line], placed.index

    def value(self, name: str, line: int) -> str | float | None:
        """Return the value of a line in a placed column, as shown; None for a blank."""
        return _cells(self._placed[name].column.values[line : line + 1])[0]

    def columns_on(self, sheet: str) -> list[LiveColumn]:
        """Return the columns of a sheet, left to right."""
        return [placed.column for placed in self._placed.values() if placed.sheet == sheet]

    def formula(self, name: str) -> str:
        """Return a column's formula with ``{r}`` for the row's number; empty for a column without one.

        Parameters
        ----------
        name : str
            A placed column.

        Returns
        -------
        str
            Terms that rest on a dropped reading of 0 are left out.

        Raises
        ------
        KeyError
            When a term names a column that was never placed.
        """
        placed = self._placed[name]
        if not placed.column.terms:
            return ""
        kept = [term for term in placed.column.terms if self._stands(term)]
        if (shown := self._shown_elsewhere(kept, placed.cell)) is not None:
            return "=" + self._address(shown, placed.sheet)
        return "=" + placed.cell.in_shown("+".join(self._resolved(term, placed.sheet) for term in kept))

    def write(self, book: OutputBook, sheet: BookSheet, name: str) -> None:
        """Write a sheet's block of lines, its headings and units above it, and set its widths."""
        columns = self.columns_on(name)
        units = any(column.unit for column in columns)
        head = self.first_row - (2 if units else 1)
        blocks = []
        for index, column in enumerate(columns):
            sheet.set_column(index, index, max(column.width, word_width(column.heading)))
            align = "right" if column.number else "left"
            sheet.text(head, index, column.heading, book.styles.get(Look.HEADING, align=align))
            if units:
                sheet.text(head + 1, index, column.unit, book.styles.get(Look.UNIT, align=align))
            style = book.styles.get(column.look, column.number, wrap=column.wrap, align="" if column.number else "left")
            if column.prompt:
                last = self.first_row + self.rows - 1
                typed = sheet.not_negative if column.number else sheet.prompt
                typed(self.first_row, index, last, title=column.heading, message=column.prompt)
            cells = self._in_place(column)
            if isinstance(cells, np.ndarray) and np.isfinite(cells).any():
                for value in (np.nanmin(cells), np.nanmax(cells)):
                    sheet.make_room(index, float(value), style)
            blocks.append(BlockColumn(cells, style, self.formula(column.name) if self.live else ""))
        sheet.fit_row(head, ((column.heading, sheet.width(index)) for index, column in enumerate(columns)))
        sheet.write_block(self.first_row, 0, blocks, self._heights(columns, blocks))

    def define_names(self, book: OutputBook) -> None:
        """Give a name to every column that a formula elsewhere asked for."""
        for name in sorted(self._named):
            placed = self._placed[name]
            letters = xl_col_to_name(placed.index, True)
            first, last = self.first_row + 1, self.first_row + self.rows
            book.define_name(self.range(name), f"='{placed.sheet}'!{letters}${first}:{letters}${last}")

    def _heights(self, columns: Sequence[LiveColumn], blocks: Sequence[BlockColumn]) -> list[float | None]:
        """Return the height of each row whose wrapped texts take more lines than one; none for a very long list."""
        wrapped = [(column.width, block.values) for column, block in zip(columns, blocks, strict=True) if column.wrap]
        if not wrapped or self.rows > _FITTED_ROWS:
            return []
        lines = [
            max(wrapped_lines(str(values[row] or ""), width) for width, values in wrapped) for row in range(self.rows)
        ]
        return [LINE_HEIGHT * count if count > 1 else None for count in lines]

    def _in_place(self, column: LiveColumn) -> NDArray[np.float64] | list[str | float | None]:
        """Return a column's cells in the block's rows, blank in the rows without a line."""
        if isinstance(column.values, np.ndarray):
            if self.rows == self.lines:
                return column.values
            numbers = np.full(self.rows, np.nan)
            numbers[np.asarray(self.positions, dtype=np.int64)] = column.values
            return numbers
        cells = _cells(column.values)
        if self.rows == self.lines:
            return cells
        placed: list[str | float | None] = [None] * self.rows
        for position, cell in zip(self.positions, cells, strict=True):
            placed[position] = cell
        for position, text in column.elsewhere.items():
            placed[position] = text
        return placed

    def _is_dropped(self, column: LiveColumn) -> bool:
        if column.terms:
            stand = [term for term in column.terms if self._stands(term)]
            rest_on_readings = any(self._reads(term) for term in stand)
            return not stand or (column.neutral is not None and not rest_on_readings)
        if column.neutral is None or self.lines == 0:
            return False
        return bool(np.all(np.asarray(column.values) == column.neutral))

    def _stands(self, term: str) -> bool:
        return all(optional or self._dropped.get(name) != 0.0 for name, optional in _REFERENCE.findall(term))

    def _reads(self, term: str) -> bool:
        return any(name in self._placed for name, _ in _REFERENCE.findall(term))

    def _resolved(self, term: str, sheet: str) -> str:
        def cell(match: re.Match[str]) -> str:
            name = match[1]
            if name in self._dropped:
                return f"{self._dropped[name]:g}"
            unit, address = self._placed[name].cell, self._address(name, sheet)
            return f"({unit.in_house(address)})" if unit.is_turned else address

        return _REFERENCE.sub(cell, term)

    def _address(self, name: str, sheet: str) -> str:
        """Return the cell of a column in the row of a formula on a sheet."""
        placed = self._placed[name]
        local = f"{xl_col_to_name(placed.index)}{{r}}"
        return local if placed.sheet == sheet else f"'{placed.sheet}'!{local}"

    def _shown_elsewhere(self, terms: Sequence[str], cell: CellUnit) -> str | None:
        """Return the column of which a column is no more than the same figures in the same unit."""
        alone = _REFERENCE.fullmatch(terms[0]) if cell.is_turned and len(terms) == 1 else None
        placed = self._placed.get(alone[1]) if alone else None
        return alone[1] if alone and placed is not None and placed.cell == cell else None


def _as_shown(column: LiveColumn, cell: CellUnit) -> LiveColumn:
    if not cell.is_turned:
        return column
    if not isinstance(column.values, np.ndarray):
        raise TypeError(f"column {column.name} has a unit that is turned, so its values must be an array")
    number = cell.number(column.number)
    return replace(column, values=cell.shown(column.values), unit=cell.unit, number=number)


def _cells(values: Values) -> list[str | float | None]:
    """Return values with a blank for every NaN and every empty text."""
    plain = values.tolist() if isinstance(values, np.ndarray) else list(values)
    return [None if value == "" or value != value else value for value in plain]
