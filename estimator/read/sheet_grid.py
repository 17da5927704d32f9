"""Collects the cells of one sheet as a reader meets them, holding them to the limits; blank cells take no room.

Formats are kept as one style number a cell and looked up only when asked for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from estimator.problems import files as said
from estimator.read.cells import CellValue, SheetCells, column_letters
from estimator.read.preflight import (
    LIMITS,
    FileRefusedError,
    Limits,
    hold_to_cell_budget,
    hold_to_far_cell,
    hold_to_merge,
)

__all__ = ["CellBudget", "SheetGrid", "StyleFormats"]

LAST_ROW = 1_048_576
"""Rows of the largest sheet that spreadsheet programs know."""


@dataclass(slots=True)
class CellBudget:
    """Counts the cells of a whole file against the limit."""

    limits: Limits = LIMITS
    cells: int = 0

    def spend(self, cells: int) -> None:
        """Count more cells; beyond the limit the file is refused."""
        self.cells += cells
        if self.cells > self.limits.cells:
            hold_to_cell_budget(self.cells, self.limits)


class StyleFormats(Mapping[tuple[int, int], str]):
    """Number formats by row and column, from the style of each cell; blanks and cells in General are not in it."""

    def __init__(self, rows: list[list[CellValue]], styles: list[list[str]], formats: Mapping[str, str]) -> None:
        self._rows, self._styles, self._formats = rows, styles, formats

    def __getitem__(self, place: tuple[int, int]) -> str:
        row, column = place
        if not (0 <= row < len(self._rows) and 0 <= column < len(self._rows[row])) or self._rows[row][column] is None:
            raise KeyError(place)
        return self._formats[self._styles[row][column]]

    def __iter__(self) -> Iterator[tuple[int, int]]:
        formats = self._formats
        for row, (values, styles) in enumerate(zip(self._rows, self._styles, strict=True)):
            for column, (value, style) in enumerate(zip(values, styles, strict=False)):
                if value is not None and style in formats:
                    yield row, column

    def __len__(self) -> int:
        return sum(1 for _ in self)

    def distinct(self) -> set[str]:
        """Return the formats that cells may have, without a look at each cell."""
        return set(self._formats.values())


@dataclass(slots=True)
class SheetGrid:
    """The sheet that is being read."""

    name: str
    budget: CellBudget
    state: str = "visible"
    rows: list[list[CellValue]] = field(default_factory=list)
    styles: list[list[str]] = field(default_factory=list)
    formulas: dict[tuple[int, int], str] = field(default_factory=dict)
    merged: list[tuple[int, int, int, int]] = field(default_factory=list)
    hidden_rows: set[int] = field(default_factory=set)
    hidden_columns: set[int] = field(default_factory=set)
    filtered: bool = False

    def add_row(self, row: int, values: list[CellValue], styles: list[str]) -> None:
        """Add the values of one row, counted from 0, with a style each or more; rows come in order, empty ones not."""
        if not values:
            return
        last, limits = len(self.rows) - 1, self.budget.limits
        if not last < row < LAST_ROW:
            raise self.damaged("its rows are out of order, stand twice or lie beyond the end", row)
        if row - last > limits.row_gap or len(values) > limits.columns:
            from_column = limits.columns if len(values) > limits.columns else 0
            column = next(c for c in range(from_column, len(values)) if values[c] is not None)
            hold_to_far_cell(self.name, row, column, last, limits)
        self.budget.spend(len(values) + (row - last - 1))
        for _ in range(row - last - 1):
            self.rows.append([])
            self.styles.append([])
        self.rows.append(values)
        self.styles.append(styles)

    def damaged(self, reason: str, row: int, column: int = -1) -> FileRefusedError:
        """Return the problem of a sheet whose parts contradict each other, at a row or a cell counted from 0."""
        letters = column_letters(column) if column >= 0 else ""
        return FileRefusedError(said.FILE_DAMAGED, sheet=self.name, row=row + 1, column=letters, reason=reason)

    def merge(self, first_row: int, first_column: int, last_row: int, last_column: int) -> None:
        """Note a merged range, held to the limit."""
        merged = (first_row, first_column, last_row, last_column)
        hold_to_merge(self.name, merged, self.budget.limits)
        self.merged.append(merged)

    def hide_columns(self, first: int, last: int) -> None:
        """Note hidden columns, counted from 0, both ends included; those beyond the limit hold nothing."""
        self.hidden_columns.update(range(first, min(last, self.budget.limits.columns - 1) + 1))

    def done(self, formats: Mapping[str, str]) -> SheetCells:
        """Return the sheet as the rest of the program sees it."""
        return SheetCells(
            self.name,
            self.rows,
            self.state,
            StyleFormats(self.rows, self.styles, formats),
            self.formulas,
            self.merged,
            frozenset(self.hidden_rows),
            frozenset(self.hidden_columns),
            self.filtered,
        )
