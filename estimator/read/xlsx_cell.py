"""What one cell of an .xlsx holds, from its type, style and stored text, however the XML was taken apart."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass

from estimator.problems import files as said
from estimator.read.cells import NOT_CALCULATED, CellError, CellValue
from estimator.read.number_formats import date_value
from estimator.read.preflight import FileRefusedError
from estimator.read.sheet_grid import SheetGrid
from estimator.read.xml_parts import Element, children, local_name

__all__ = [
    "BookFacts",
    "CellMaker",
    "ColumnNumbers",
    "cell_place",
    "looks_outside",
    "row_number",
    "text_of",
    "unescaped",
]

_LAST_ROW, _LAST_COLUMN = 1_048_576, 16_384
_PLACE = re.compile(r"\$?([A-Z]{1,3})\$?(\d{1,7})")
_ESCAPED = re.compile("_x([0-9A-Fa-f]{4})_")
_OUTSIDE = re.compile(
    r"\[\d+\][^\[\]]*!|'[^']*\[[^\]]+\][^']*'!|[\w.]+\|[^!]*!|\b(?:WEBSERVICE|RTD|DDE)\s*\(|\bfile:", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class BookFacts:
    """What the cells of every sheet refer to."""

    strings: list[str]
    date_styles: frozenset[str]
    """Style numbers, as text, whose numbers are dates or times."""
    epoch_1904: bool


class ColumnNumbers(dict[str, int]):
    """Column numbers, counted from 0, by letters."""

    def __missing__(self, letters: str) -> int:
        column = 0
        for letter in letters:
            column = column * 26 + ord(letter) - 64
        if not 0 < column <= _LAST_COLUMN:
            raise FileRefusedError(said.FILE_DAMAGED, reason=f"there is no column '{letters}'")
        self[letters] = column - 1
        return column - 1


_COLUMNS = ColumnNumbers()


def row_number(text: str) -> int:
    """Return a row number, counted from 0, from the number that a file states."""
    if not text.isascii() or not text.isdigit() or not 0 < int(text[:9]) <= _LAST_ROW:
        raise FileRefusedError(said.FILE_DAMAGED, reason=f"there is no row '{text[:20]}'")
    return int(text[:9]) - 1


def cell_place(reference: str) -> tuple[int, int]:
    """Return row and column, counted from 0, of a reference such as ``C14``."""
    match = _PLACE.fullmatch(reference)
    if not match:
        raise FileRefusedError(said.FILE_DAMAGED, reason=f"'{reference[:20]}' is not a cell")
    return row_number(match[2]), _COLUMNS[match[1]]


def unescaped(text: str) -> str:
    """Return text with the characters that XML cannot hold, written as ``_x000A_``, put back."""
    if "_x" not in text:
        return text
    put_back = _ESCAPED.sub(lambda match: chr(int(match[1], 16)), text)
    return put_back.encode("utf-16", "surrogatepass").decode("utf-16", "replace")


def text_of(element: Element) -> str:
    """Return the text of a string item: its own text or its runs, without the reading aids of East Asian text."""
    texts: list[str] = []
    for part in element:
        name = local_name(part.tag)
        if name == "t":
            texts.append(part.text or "")
        elif name == "r":
            texts.extend(run.text or "" for run in children(part, "t"))
    return unescaped("".join(texts))


def looks_outside(formula: str) -> bool:
    """Return whether a formula takes its value from outside the file: another workbook, a feed, an address."""
    return _OUTSIDE.search(formula) is not None


class CellMaker:
    """Makes the values of one sheet's cells and notes formulas that look outside."""

    def __init__(self, grid: SheetGrid, facts: BookFacts) -> None:
        self.grid, self.facts = grid, facts
        self.shares_outside = False
        """Whether a formula that looks outside is shared by cells that state only its number."""
        self._shared: dict[str, str] = {}

    def note_formula(self, row: int, column: int, text: str, shared_index: str) -> None:
        """Keep a formula that looks outside; the cells that share it have its number only."""
        if shared_index and text:
            self._shared[shared_index] = text
        text = text or self._shared.get(shared_index, "")
        if looks_outside(text):
            self.grid.formulas[row, column] = text
            self.shares_outside = self.shares_outside or bool(shared_index)

    def value(
        self, row: int, column: int, *, kind: str, style: str, stored: str | None, has_formula: bool
    ) -> CellValue:
        """Return the value of a cell.

        Parameters
        ----------
        row, column : int
            Place, counted from 0.
        kind : str
            Cell type as the file states it; empty for a number.
        style : str
            Style number, as text.
        stored : str or None
            Stored text; None when there is none.
        has_formula : bool
            Whether the cell holds a formula.

        Returns
        -------
        CellValue
            None for a blank, ``NOT_CALCULATED`` for a formula whose result the file lacks.

        Notes
        -----
        Source: ECMA-376 part 1, 18.18.11 (cell types).
        """
        if stored is None or (stored == "" and kind in {"", "n"}):
            return NOT_CALCULATED if has_formula else None
        if kind in {"", "n"}:
            return self._number(row, column, stored, style)
        if kind == "s":
            return self._string(row, column, stored)
        if kind in {"str", "inlineStr"}:
            return unescaped(stored) or None
        if kind == "b" and stored in {"0", "1", "true", "false"}:
            return stored in {"1", "true"}
        if kind == "e":
            return CellError(stored)
        if kind == "d":
            return self._iso_date(row, column, stored)
        raise self.grid.damaged(f"a cell of type '{kind}' holds '{stored[:20]}'", row, column)

    def _number(self, row: int, column: int, stored: str, style: str) -> CellValue:
        try:
            number = float(stored)
        except ValueError:
            raise self.grid.damaged(f"a number is written '{stored[:20]}'", row, column) from None
        if "_" in stored:
            raise self.grid.damaged(f"a number is written '{stored[:20]}'", row, column)
        if number - number != 0.0:
            return CellError(stored)
        if style in self.facts.date_styles:
            return date_value(number, epoch_1904=self.facts.epoch_1904)
        return number

    def _string(self, row: int, column: int, stored: str) -> CellValue:
        if not (stored.isascii() and stored.isdigit()) or int(stored[:9]) >= len(self.facts.strings):
            raise self.grid.damaged(f"it has no shared text '{stored[:20]}'", row, column)
        return self.facts.strings[int(stored)] or None

    def _iso_date(self, row: int, column: int, stored: str) -> CellValue:
        for kind in (dt.datetime, dt.time):
            try:
                return kind.fromisoformat(stored).replace(tzinfo=None)
            except ValueError:
                continue
        raise self.grid.damaged(f"a date is written '{stored[:20]}'", row, column)
