"""A worksheet that writes one long block of rows fast: one template for a row, filled row after row.

XlsxWriter rewrites every formula with a chain of searches, which takes most of its time on a long sheet. The formulas
of a block come from our own templates and need none of it. Everything else stays ordinary XlsxWriter.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from math import isfinite
from typing import Any
from xml.sax.saxutils import escape

from xlsxwriter.format import Format
from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.worksheet import Worksheet

from estimator.write.plain_text import plain_text

__all__ = ["BlockColumn", "BlockSheet"]

_ROWS_AT_ONCE = 1000


@dataclass(frozen=True, slots=True)
class BlockColumn:
    """One column of a block."""

    values: Sequence[str | float | None]
    """Texts, or finite numbers; None leaves a cell empty, its formula too."""
    style: Format
    formula: str = ""
    """Formula of every row with ``{r}`` for the row's number; the values are stored beside it."""


@dataclass(slots=True)
class _Block:
    first_row: int
    template: str
    columns: list[list[Any]]

    @property
    def last_row(self) -> int:
        return self.first_row + len(self.columns[0]) - 1

    def pieces(self) -> Iterator[str]:
        """Give the rows' markup, a thousand rows at a time."""
        fill = self.template.format
        rows = enumerate(zip(*self.columns, strict=True), self.first_row + 1)
        while piece := "".join([fill(*cells, r=row) for row, cells in islice(rows, _ROWS_AT_ONCE)]):
            yield piece


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
        slots: list[str] = []
        filled: list[list[Any]] = []
        for index, column in enumerate(columns, first_column):
            slot, cells = self._column(xl_col_to_name(index), column, first_row)
            slots.append(slot)
            filled.append(cells)
        opening = '<row r="{r}"{}>' if heights else '<row r="{r}">'
        if heights:
            filled.insert(0, ["" if h is None else f' ht="{h:g}" customHeight="1"' for h in heights])
        self._block = _Block(first_row, opening + "".join(slots) + "</row>", filled)

    def _column(self, letters: str, column: BlockColumn, first_row: int) -> tuple[str, list[Any]]:
        """Return the template of a column's cells and what fills it, row by row."""
        values = _checked(column.values)
        style = f' s="{column.style._get_xf_index()}"'
        is_text = any(isinstance(value, str) for value in values)
        formula = f"<f>{escape(column.formula.removeprefix('='))}</f>" if column.formula else ""
        kind = (' t="str"' if formula else ' t="s"') if is_text else ""
        cell = f'<c r="{letters}{{r}}"{style}{kind}>{formula}<v>{{}}</v></c>'
        stored = [self._stored(value, formula=bool(formula)) for value in values] if is_text else values
        if None not in values:
            return cell, list(stored)
        empty = f'<c r="{letters}{{r}}"{style}/>'
        return "{}", [
            empty.format(r=row) if value is None else cell.format(shown, r=row)
            for row, (value, shown) in enumerate(zip(values, stored, strict=True), first_row + 1)
        ]

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


def _checked(values: Sequence[str | float | None]) -> Sequence[str | float | None]:
    plain: Sequence[str | float | None] = values.tolist() if hasattr(values, "tolist") else values
    for value in plain:
        if not isinstance(value, str) and value is not None and not isfinite(value):
            raise ValueError(f"a block's number must be finite, got {value}")
    return plain
