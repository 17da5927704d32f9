"""A worksheet that writes one long block of rows fast: one template for a row, filled row after row.

XlsxWriter rewrites every formula with a chain of searches, which takes most of its time on a long sheet. The formulas
of a block come from our own templates and need none of it. Everything else stays ordinary XlsxWriter.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Any
from xml.sax.saxutils import escape

import numpy as np
from numpy.typing import NDArray
from xlsxwriter.format import Format
from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.worksheet import Worksheet

from estimator.write.plain_text import plain_text

__all__ = ["BlockColumn", "BlockSheet"]

_ROWS_AT_ONCE = 1000


@dataclass(frozen=True, slots=True)
class BlockColumn:
    """One column of a block."""

    values: Sequence[str | float | None] | NDArray[np.float64]
    """Texts, or finite numbers; None, or NaN in an array, leaves a cell empty, its formula too."""
    style: Format
    formula: str = ""
    """Formula of every row with ``{r}`` for the row's number; the values are stored beside it."""


@dataclass(frozen=True, slots=True)
class _Slot:
    """A part of the row's template and what fills it from one row to another, both counted from 0."""

    template: str
    fill: Callable[[int, int], Sequence[Any]] | None = None
    """None for a part without a place to fill."""


@dataclass(slots=True)
class _Block:
    first_row: int
    rows: int
    slots: list[_Slot]

    @property
    def last_row(self) -> int:
        return self.first_row + self.rows - 1

    def pieces(self) -> Iterator[str]:
        """Give the rows' markup, a thousand rows at a time."""
        fill = "".join(slot.template for slot in self.slots).format
        for start in range(0, self.rows, _ROWS_AT_ONCE):
            stop = min(start + _ROWS_AT_ONCE, self.rows)
            columns = [slot.fill(start, stop) for slot in self.slots if slot.fill is not None]
            rows = enumerate(zip(*columns, strict=True), self.first_row + start + 1)
            yield "".join([fill(*cells, r=row) for row, cells in rows])


class BlockSheet(Worksheet):  # type: ignore[misc]
    """A worksheet with at most one block. No ordinary cell may stand in the block's rows."""

    _block: _Block | None = None

    def write_block(
        self, first_row: int, first_column: int, columns: Sequence[BlockColumn], heights: Sequence[float | None] = ()
    ) -> None:
        """Write equally long columns side by side from a cell down.

        Parameters
        ----------
        first_row, first_column : int
            The block's first cell, counted from 0.
        columns : sequence of BlockColumn
            Left to right; all of one length, at least one row.
        heights : sequence of float or None
            Height of each row in points where it is not the usual one; none for usual rows throughout.

        Raises
        ------
        ValueError
            When lengths differ, there is no row, a number is not finite, or the sheet has a block already.
        """
        lengths = {len(column.values) for column in columns}
        if len(lengths) != 1 or lengths == {0}:
            raise ValueError(f"columns of a block must have one length above zero, got {sorted(lengths)}")
        if self._block is not None:
            raise ValueError(f"sheet {self.name!r} has a block already")
        rows = lengths.pop()
        if self._check_dimensions(first_row + rows - 1, first_column + len(columns) - 1):
            raise ValueError(f"a block of {rows} rows and {len(columns)} columns does not fit a sheet")
        self._check_dimensions(first_row, first_column)
        opening = _Slot('<row r="{r}">')
        if heights:
            set_heights = ["" if h is None else f' ht="{h:g}" customHeight="1"' for h in heights]
            opening = _Slot('<row r="{r}"{}>', lambda start, stop: set_heights[start:stop])
        slots = [self._slot(xl_col_to_name(i), column, first_row) for i, column in enumerate(columns, first_column)]
        self._block = _Block(first_row, rows, [opening, *slots, _Slot("</row>")])

    def _slot(self, letters: str, column: BlockColumn, first_row: int) -> _Slot:
        """Return one column's part of the template and its filling."""
        style = f' s="{column.style._get_xf_index()}"'
        formula = f"<f>{escape(column.formula.removeprefix('='))}</f>" if column.formula else ""
        values, kind, has_blanks = self._stored_values(column)
        cell = f'<c r="{letters}{{r}}"{style}{kind}>{formula}<v>{{}}</v></c>'
        empty = f'<c r="{letters}{{r}}"{style}/>'

        def fill(start: int, stop: int) -> Sequence[Any]:
            part = values[start:stop]
            return part.tolist() if isinstance(part, np.ndarray) else part

        def fill_or_leave_empty(start: int, stop: int) -> Sequence[Any]:
            return [
                empty.format(r=row) if value is None or value != value else cell.format(value, r=row)
                for row, value in enumerate(fill(start, stop), first_row + start + 1)
            ]

        return _Slot("{}", fill_or_leave_empty) if has_blanks else _Slot(cell, fill)

    def _stored_values(self, column: BlockColumn) -> tuple[Sequence[Any] | NDArray[Any], str, bool]:
        """Return a column's values as they are stored, the type of its cells, and whether some are blank."""
        values = column.values
        if isinstance(values, np.ndarray):
            if np.isinf(values).any():
                raise ValueError("a block's number must be finite, got inf")
            return values, "", bool(np.isnan(values).any())
        blanks = None in values
        if not any(isinstance(value, str) for value in values):
            for value in values:
                if value is not None and not isfinite(float(value)):
                    raise ValueError(f"a block's number must be finite, got {value}")
            return values, "", blanks
        formula = bool(column.formula)
        return [self._stored(value, formula=formula) for value in values], ' t="str"' if formula else ' t="s"', blanks

    def _stored(self, value: str | float | None, *, formula: bool) -> str | int | None:
        if value is None:
            return None
        text = plain_text(value)
        if formula:
            return escape(self._escape_control_characters(text))
        index: int = self.str_table._get_shared_string_index(text)
        return index

    def _write_rows(self) -> None:
        """Write the rows above the block, the block, and the rows below it."""
        block = self._block
        if block is None:
            super()._write_rows()
            return
        lowest, highest = self.dim_rowmin, self.dim_rowmax  # type: ignore[has-type]
        self._write_rows_between(lowest, block.first_row - 1)
        for piece in block.pieces():
            self.fh.write(piece)
        self._write_rows_between(block.last_row + 1, highest)
        self.dim_rowmin, self.dim_rowmax = lowest, highest

    def _write_rows_between(self, lowest: int, highest: int) -> None:
        if lowest <= highest:
            self.dim_rowmin, self.dim_rowmax = lowest, highest
            super()._write_rows()
