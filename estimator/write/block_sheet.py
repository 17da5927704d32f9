"""A worksheet that writes one long block of rows fast: one template for a row, filled row after row.

XlsxWriter rewrites every formula with a chain of searches, which takes most of its time on a long sheet. The formulas
of a block come from our own templates and need none of it. Everything else stays ordinary XlsxWriter.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Any

import numpy as np
from numpy.typing import NDArray
from pydantic_core import to_json
from xlsxwriter.format import Format
from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.worksheet import Worksheet

from estimator.write.plain_text import plain_text

__all__ = ["BlockColumn", "BlockSheet"]

_ROWS_AT_ONCE = 1000
_WORKED_TEXT = ' t="str"'
_ROW = "\0"
"""Stands for the row's number in a template; no text of a workbook holds it."""


@dataclass(frozen=True, slots=True)
class BlockColumn:
    """One column of a block."""

    values: Sequence[str | float | None] | NDArray[np.float64]
    """Texts, or finite numbers; None, or NaN in an array, leaves a cell empty, its formula too."""
    style: Format
    formula: str = ""
    """Formula of every row with ``{r}`` for the row's number; the values are stored beside it."""

    @property
    def is_blank(self) -> bool:
        """Whether every cell is empty."""
        if isinstance(self.values, np.ndarray):
            return bool(np.isnan(self.values).all())
        return all(value is None for value in self.values)

    @property
    def holds_texts(self) -> bool:
        """Whether its cells are texts; one text makes all of them texts."""
        return not isinstance(self.values, np.ndarray) and any(isinstance(value, str) for value in self.values)


@dataclass(frozen=True, slots=True)
class _Slot:
    """A part of the row's template and what fills it from one row to another, both counted from 0."""

    template: str
    """With ``%s`` for what fills it."""
    fill: Callable[[int, int], Sequence[str]] | None = None
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
        template = "".join(slot.template for slot in self.slots)
        fills = [slot.fill for slot in self.slots if slot.fill is not None]
        for start in range(0, self.rows, _ROWS_AT_ONCE):
            stop = min(start + _ROWS_AT_ONCE, self.rows)
            columns = [fill(start, stop) for fill in fills]
            rows = zip(*columns, strict=True) if columns else [()] * (stop - start)
            numbered = enumerate(rows, self.first_row + start + 1)
            yield "".join([(template % cells).replace(_ROW, str(row)) for row, cells in numbered])


class BlockSheet(Worksheet):  # type: ignore[misc]
    """A worksheet with at most one block. No ordinary cell may stand in the block's rows."""

    _block: _Block | None = None
    block: tuple[int, int, Sequence[BlockColumn]] | None = None
    """The block's first cell and its columns, once it is written."""

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
        opening = _Slot(f'<row r="{_ROW}">')
        if heights:
            set_heights = ["" if h is None else f' ht="{h:g}" customHeight="1"' for h in heights]
            opening = _Slot(f'<row r="{_ROW}"%s>', lambda start, stop: set_heights[start:stop])
        slots = [self._slot(xl_col_to_name(i), column) for i, column in enumerate(columns, first_column)]
        self._block = _Block(first_row, rows, [opening, *slots, _Slot("</row>")])
        self.block = (first_row, first_column, columns)

    def _slot(self, letters: str, column: BlockColumn) -> _Slot:
        """Return one column's part of the template and its filling."""
        style = f' s="{column.style._get_xf_index()}"'
        formula = column.formula.removeprefix("=").replace("{r}", _ROW)
        worked = f"<f>{self._escape_data(formula)}</f>" if formula else ""
        values, kind, is_blank = self._stored_values(column)
        before, behind = f'<c r="{letters}{_ROW}"{style}{kind}>{worked}<v>', "</v></c>"
        empty = f'<c r="{letters}{_ROW}"{style}/>'

        def fill(start: int, stop: int) -> Sequence[str]:
            part = values[start:stop]
            numbers = part.tolist() if isinstance(part, np.ndarray) else part
            return numbers if kind == _WORKED_TEXT else to_json(numbers).decode().strip("[]").split(",")

        def fill_or_leave_empty(start: int, stop: int) -> Sequence[str]:
            shown = zip(fill(start, stop), is_blank[start:stop].tolist(), strict=True)
            return [empty if blank else f"{before}{text}{behind}" for text, blank in shown]

        if is_blank.all():
            return _Slot(_literal(empty))
        return _Slot("%s", fill_or_leave_empty) if is_blank.any() else _Slot(_literal(before) + "%s" + behind, fill)

    def _stored_values(self, column: BlockColumn) -> tuple[Sequence[Any] | NDArray[np.float64], str, NDArray[np.bool_]]:
        """Return a column's values as they are stored, the type of its cells, and which of them are blank."""
        values = column.values
        if isinstance(values, np.ndarray):
            if np.isinf(values).any():
                raise ValueError("a block's number must be finite, got inf")
            return values, "", np.isnan(values)
        blanks = np.array([value is None for value in values])
        if not column.holds_texts:
            for value in values:
                if value is not None and not isfinite(float(value)):
                    raise ValueError(f"a block's number must be finite, got {value}")
            return values, "", blanks
        if column.formula:
            return _each(values, self._escaped), _WORKED_TEXT, blanks
        before = self.str_table.count
        indices = _each(values, self.str_table._get_shared_string_index)
        self.str_table.count = before + int(np.count_nonzero(~blanks))
        return indices, ' t="s"', blanks

    def _escaped(self, text: str) -> str:
        return str(self._escape_data(self._escape_control_characters(text)))

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


def _each(values: Sequence[str | float | None], store: Callable[[str], str | int]) -> list[Any]:
    """Return what is stored for each text, worked out once for those that are alike."""
    stored: dict[Any, str | int] = {v: store(plain_text(v)) for v in dict.fromkeys(values) if v is not None}
    return [stored.get(value) for value in values]


def _literal(markup: str) -> str:
    return markup.replace("%", "%%")
