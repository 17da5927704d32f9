"""Reads one column of a cut list at a time: all plain numbers at once, only odd cells one by one."""

from __future__ import annotations

import datetime as dt
import difflib
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from operator import itemgetter

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import ReadAs
from estimator.problems import cut_list as said
from estimator.problems import table
from estimator.problems.code import Place, Problem, ProblemCode
from estimator.read.cells import CellError, CellValue, NotCalculated, SheetCells, column_letters
from estimator.read.counts import read_count
from estimator.read.numbers import Refused, read_number
from estimator.read.size import Size
from estimator.read.sizes import read_size
from estimator.read.text import BLANK_MARKS, is_ditto, plain_text
from estimator.sheets.statement import Column
from estimator.words import BLANK, Shape, WordCode

__all__ = ["ColumnReader", "shown"]

Floats = NDArray[np.float64]


@dataclass(slots=True)
class ColumnReader:
    """What reading the columns of one table needs, and what it gathers."""

    file: str
    sheet: SheetCells
    rows: NDArray[np.int64]
    """Rows of the pieces, from 0."""
    columns: Mapping[str, int]
    decimal: str | None = None
    gauges_in: Mapping[int, Fraction] = field(default_factory=dict)
    first_line: int = 0
    problems: list[Problem] = field(default_factory=list)
    read_as: list[ReadAs] = field(default_factory=list)
    headings: Mapping[int, str] = field(default_factory=dict)
    """Text of the heading above each column of the sheet."""
    forms: dict[int, str | Shape] = field(default_factory=dict)
    """What a title or a heading of walls says that the sizes of a line are, where no word of its row does."""
    _cells: dict[int, list[CellValue]] = field(default_factory=dict)
    _kinds: dict[int, set[type]] = field(default_factory=dict)
    _block: list[list[CellValue]] | None = None
    _width: int = 0
    _letters: dict[str, str] = field(default_factory=dict)
    _sizes: dict[tuple[str, str | Shape | None], Size | Refused] = field(default_factory=dict)

    def __len__(self) -> int:
        return len(self.rows)

    def values(self, name: str) -> list[CellValue] | None:
        """Return the cells of a column, one a piece; None when the table has no such column."""
        column = self.columns.get(name)
        if column is None:
            return None
        if column not in self._cells:
            if self._block is None:
                self._block = [self.sheet.rows[row] for row in self.rows.tolist()]
                self._width = min(map(len, self._block), default=0)
            if column < self._width:
                cells = list(map(itemgetter(column), self._block))
            else:
                cells = [row[column] if column < len(row) else None for row in self._block]
            if name == "size" and "size part 2" in self.columns:
                cells = self._over_cells(cells)
            self._cells[column] = self._ditto(name, self._merged(name, column, cells))
        return self._cells[column]

    def alike(self, name: str) -> list[str]:
        """Return a column and those of the same meaning beside it, as ``description 2``."""
        return [one for one in self.columns if one == name or one.startswith(f"{name} ")]

    def kinds(self, name: str) -> set[type]:
        """Return the types of the cells of a column; looked at once."""
        column = self.columns.get(name)
        if column is None:
            return set()
        if column not in self._kinds:
            self._kinds[column] = set(map(type, self.values(name) or []))
        return self._kinds[column]

    def size_of(self, text: str, form: str | Shape | None = None) -> Size | Refused:
        """Return a size string as it reads; each text is read once."""
        if (text, form) not in self._sizes:
            self._sizes[text, form] = read_size(text, self.decimal, self.gauges_in, form)
        return self._sizes[text, form]

    def place(self, line: int, name: str) -> Place:
        """Return the place of a cell."""
        if name not in self._letters:
            column = self.columns.get(name)
            self._letters[name] = column_letters(column) if column is not None else ""
        return Place(self.file, self.sheet.name, int(self.rows[line]) + 1, self._letters[name])

    def say(self, code: ProblemCode, line: int, name: str, value: CellValue = None, **fields: object) -> None:
        """Gather a problem of one cell."""
        found = value if isinstance(value, str) else shown(value)
        self.problems.append(code.at(self.place(line, name), found=found, **fields))

    def note(self, line: int, name: str, value: CellValue, read_as: str, column: str | None = None) -> None:
        """Gather how one cell was read."""
        cell = self.place(line, name).cell
        self.read_as.append(ReadAs(self.first_line + line, column or name, cell, shown(value), read_as))

    def whole_numbers(
        self, column: Column, name: str | None = None, known: Mapping[str, float] | None = None
    ) -> Floats:
        """Return a column of whole numbers, NaN where it is blank or refused; ``known`` texts have been read."""
        name = name or column.name
        values = self.values(name)
        if values is None:
            return np.full(len(self), np.nan)

        def read(text: str) -> tuple[float, str, str]:
            if known and text in known:
                return known[text], "", ""
            count = read_count(text, self.decimal)
            if isinstance(count, Refused):
                return np.nan, "", count.reason
            return float(count.value), count.remark, ""

        out = self._numbers(column, name, values, read, said.QUANTITY_REFUSED, said.QUANTITY_READ_AS)
        for line in np.flatnonzero(out != np.floor(out)).tolist():
            if not np.isnan(out[line]):
                self._refuse(column, line, name, values[line], "it has a decimal part", said.QUANTITY_REFUSED)
                out[line] = np.nan
        return self.bounded(column, name, out, values)

    def numbers(self, column: Column) -> Floats:
        """Return a column of numbers, NaN where it is blank or refused."""
        values = self.values(column.name)
        if values is None:
            return np.full(len(self), np.nan)

        def read(text: str) -> tuple[float, str, str]:
            bare = _NUMBER_UNIT.sub("", plain_text(text).lower())
            number = read_number(bare, self.decimal)
            if isinstance(number, Refused):
                return np.nan, "", "it holds words" if number.reason == "it is not a number" else number.reason
            return float(number.value), "", ""

        out = self._numbers(column, column.name, values, read, said.CELL_NOT_NUMBER, said.QUANTITY_READ_AS)
        return self.bounded(column, column.name, out, values)

    def words(
        self,
        column: Column,
        codes: type[WordCode],
        alike: Callable[[str], tuple[WordCode | None, str] | None] = lambda word: None,
    ) -> NDArray[np.int8]:
        """Return a column of words from a closed list as codes; ``alike`` tells what a word outside it is taken as."""
        values = self.values(column.name)
        out = np.full(len(self), BLANK, dtype=np.int8)
        known = {member.word: int(member) for member in codes}
        read: dict[CellValue, int] = {}
        for line, value in enumerate(values or []):
            if value is None or value == "":
                continue
            if value not in read:
                word = (
                    " ".join(plain_text(value).lower().replace("-", " ").replace("_", " ").split())
                    if isinstance(value, str)
                    else ""
                )
                read[value] = known.get(word, BLANK if word in BLANK_MARKS and isinstance(value, str) else -2)
            if read[value] == -2:
                out[line] = self._word_outside(column, line, value, codes, alike)
                continue
            out[line] = read[value]
        return out

    def _word_outside(
        self,
        column: Column,
        line: int,
        value: CellValue,
        codes: type[WordCode],
        alike: Callable[[str], tuple[WordCode | None, str] | None],
    ) -> int:
        """Return the code that a word outside the list is taken as, and say so; refuse one that is taken as none."""
        what, place = column.heading.lower(), self.place(line, column.name)
        text = plain_text(value).lower() if isinstance(value, str) else shown(value)
        if self.columns.get("grade") == self.columns[column.name] and any(map(str.isdigit, text)):
            return BLANK  # the column holds grades too
        taken, says = alike(text) or (None, "")
        if taken is not None:
            self.say(
                said.SIZE_READ_AS, line, column.name, value, what=what, read_as=taken.word, remark=f"it says {says}"
            )
            return int(taken)
        near = difflib.get_close_matches(text, codes.words(), 1)
        hint = f"type {near[0]} in {place}" if near else f"type one of these in {place}"
        hint = f"type the cut length of {says} in its row, and leave {place} blank" if says else hint
        needs = f"{', '.join(codes.words())}, or blank"
        self.say(said.CELL_NOT_CHOICE, line, column.name, value, what=what, needs=needs, why=column.why, hint=hint)
        return BLANK

    def flags(self, column: Column) -> NDArray[np.bool_]:
        """Return a column of yes and no; blank is no."""
        values = self.values(column.name)
        out = np.zeros(len(self), dtype=np.bool_)
        for line, value in enumerate(values or []):
            word = plain_text(value).lower() if isinstance(value, str) else shown(value).lower()
            if word in _YES:
                out[line] = True
            elif word not in _NO and word not in BLANK_MARKS:
                hint = f"type yes or no in {self.place(line, column.name)}"
                what = column.heading.lower()
                self.say(
                    said.CELL_NOT_CHOICE,
                    line,
                    column.name,
                    value,
                    what=what,
                    needs=column.needs,
                    why=column.why,
                    hint=hint,
                )
        return out

    def texts(self, name: str) -> list[str]:
        """Return a column of texts; numbers as people see them."""
        values = self.values(name)
        if values is None:
            return [""] * len(self)
        if self.kinds(name) == {str}:
            return list(map(str.strip, values))  # type: ignore[arg-type]
        return [v.strip() if type(v) is str else "" if v is None else shown(v) for v in values]

    def _over_cells(self, first: list[CellValue]) -> list[CellValue]:
        """Return sizes that stand over several cells as one text each."""
        parts = [self.values(name) or [] for name in sorted(self.columns) if name.startswith("size part ")]
        joined: list[CellValue] = []
        for cells in zip(first, *parts, strict=True):
            said_ = [shown(cell) for cell in cells if cell is not None and cell != ""]
            joined.append(" x ".join(said_) if len(said_) > 1 else cells[0])
        return joined

    def _merged(self, name: str, column: int, cells: list[CellValue]) -> list[CellValue]:
        """Give the value of a cell merged down a column to each of its rows; a quantity is never repeated."""
        if name.startswith("quantity"):
            return cells
        for top, left, bottom, right in self.sheet.merged:
            if left != column or right != column or bottom == top:
                continue
            value = self.sheet.value(top, left)
            lines = range(*np.searchsorted(self.rows, [top + 1, bottom + 1]).tolist())
            for line in lines:
                cells[line] = value
            if lines and value is not None:
                what, last = name.removesuffix("_mm"), int(self.rows[lines[-1]]) + 1
                place = Place(self.file, self.sheet.name, top + 1, column_letters(column))
                found = value if isinstance(value, str) else shown(value)
                self.problems.append(table.MERGED_FILLED.at(place, found=found, what=what, first=top + 1, last=last))
        return cells

    def _ditto(self, name: str, cells: list[CellValue]) -> list[CellValue]:
        """Put the value above in place of each mark for 'the same'."""
        if name in {"mark", "item"} or str not in set(map(type, cells)):
            return cells
        short = {c for c in set(cells) if type(c) is str and len(c) <= 7 and c[:1] not in _NO_DITTO}
        marks = {text for text in short if is_ditto(text)}
        if not marks:
            return cells
        for line, value in enumerate(cells):
            if type(value) is str and value in marks and line:
                cells[line] = cells[line - 1]
                above, what = shown(cells[line]), name.removesuffix("_mm").replace("_", " ")
                row = int(self.rows[line - 1]) + 1
                self.problems.append(
                    table.DITTO_READ.at(self.place(line, name), found=value, what=what, value=above, row=row)
                )
                self.note(line, name, value, above)
        return cells

    def odd_cell(self, column: Column, line: int, name: str, value: CellValue) -> bool:
        """Report an error value, a formula without value, a date or a yes/no; return whether the cell was one."""
        what = column.heading.lower()
        if isinstance(value, CellError):
            self.say(said.CELL_IS_ERROR, line, name, value, what=what, needs=column.needs)
        elif isinstance(value, NotCalculated):
            self.say(said.CELL_NOT_CALCULATED, line, name, value, what=what, needs=column.needs)
        elif isinstance(value, dt.datetime | dt.date | dt.time):
            self.say(said.CELL_IS_DATE, line, name, value, what=what, needs=column.needs, hint=_typed(value))
        elif isinstance(value, bool):
            self._refuse(column, line, name, value, "it is yes or no", said.CELL_NOT_NUMBER)
        else:
            return False
        return True

    def bounded(self, column: Column, name: str, out: Floats, values: list[CellValue]) -> Floats:
        """Refuse what lies outside the bounds that the column states."""
        low = column.low if column.low is not None else -np.inf
        high = column.high if column.high is not None else np.inf
        with np.errstate(invalid="ignore"):
            outside = (out < low) | (out > high) | np.isinf(out)
        for line in np.flatnonzero(outside).tolist():
            side = "zero or below" if out[line] <= 0 else f"below {low:g}" if out[line] < low else f"above {high:g}"
            side += f" {column.unit}" if column.unit and out[line] > 0 else ""
            self.say(
                *(said.CELL_OUT_OF_BOUNDS, line, name, values[line]),
                what=column.heading.lower(),
                side=side,
                needs=column.needs,
                why=column.why,
            )
            out[line] = np.nan
        return out

    def _numbers(
        self,
        column: Column,
        name: str,
        values: list[CellValue],
        read: Callable[[str], tuple[float, str, str]],
        refused: ProblemCode,
        interpreted: ProblemCode,
    ) -> Floats:
        """Return numbers; texts are read once each by ``read`` into value, remark and reason for refusal."""
        if self.kinds(name) <= {float, type(None)}:
            return np.array(values, dtype=np.float64)
        out = np.full(len(values), np.nan)
        known: dict[str, tuple[float, str, str]] = {}
        what = column.heading.lower()
        for line, value in enumerate(values):
            if type(value) is float:
                out[line] = value
            elif type(value) is str:
                if value not in known:
                    blank = plain_text(value).lower() in BLANK_MARKS
                    known[value] = (np.nan, "", "") if blank else read(value)
                out[line], remark, reason = known[value]
                if reason:
                    self._refuse(column, line, name, value, reason, refused)
                elif remark:
                    self.note(line, name, value, f"{out[line]:.12g}")
                    self.say(interpreted, line, name, value, what=what, read_as=f"{out[line]:.12g}", remark=remark)
            elif value is not None:
                self.odd_cell(column, line, name, value)
        return out

    def _refuse(self, column: Column, line: int, name: str, value: CellValue, reason: str, code: ProblemCode) -> None:
        what = column.heading.lower()
        self.say(code, line, name, value, what=what, reason=reason, needs=column.needs, why=column.why)


_NO_DITTO = frozenset("0123456789ABCFGHJKLMNOPQRSUVWXYZ")
"""First characters that no mark for 'the same' has."""
_NUMBER_UNIT = re.compile(r" ?(?:°|deg|degrees|kg|min|mins|minutes|cm2|cm\^|%)\.?$")
_YES = frozenset({"yes", "y", "true", "x", "1", "ja", "oui", "sí", "si", "sim", "tak", "да", "✓", "✔"})
_NO = frozenset({"no", "n", "false", "0", "nein", "non", "não", "nie", "нет"})


def shown(value: CellValue) -> str:
    """Return a cell's value as a person sees it.

    Examples
    --------
    >>> shown(12.0), shown(0.375), shown(None)
    ('12', '0.375', '')
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, float):
        return f"{value:.15g}"
    if isinstance(value, dt.datetime):
        return value.date().isoformat() if value.time() == dt.time() else value.isoformat(" ")
    if isinstance(value, dt.date | dt.time):
        return value.isoformat()
    return str(value)


def _typed(value: dt.date | dt.time) -> str:
    """Return what may have been typed, as a hint."""
    if isinstance(value, dt.time):
        return f", if it was {value.minute}m or {value.minute} m" if value.minute and not value.hour else ""
    return f", if it was {value.day}.{value.month} or {value.month}/{value.day}"
