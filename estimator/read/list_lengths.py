"""Reads a column of lengths into millimetres: plain numbers at once, odd cells one by one."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from estimator.problems import cut_list as said
from estimator.problems.code import ProblemCode
from estimator.read.cells import CellError, CellValue
from estimator.read.dates import fraction_in_date, fraction_in_serial
from estimator.read.length_words import MM_PER, UNIT_NAMES
from estimator.read.lengths import Length, read_length, say_length
from estimator.read.list_columns import ColumnReader, shown
from estimator.read.list_units import BareUnit, format_unit
from estimator.read.numbers import Refused
from estimator.read.size import Size
from estimator.read.text import BLANK_MARKS, plain_text
from estimator.sheets.statement import Column
from estimator.words import Shape

__all__ = ["LengthColumn", "in_mm", "read_lengths"]

Floats = NDArray[np.float64]


@dataclass(slots=True)
class LengthColumn:
    """A column of lengths that was read."""

    mm: Floats
    sizes: dict[int, Size]
    """Lines whose cell holds a whole size, not one length."""
    bare_lines: int = 0
    """How many cells took the unit of bare numbers."""


_LABELS = {"thickness_mm": "thickness", "length": "length", "width": "width", "diameter": "diameter"}


def in_mm(length: Length, bare: BareUnit) -> float:
    """Return a length in millimetres; a fraction without a unit is in inches unless the unit is feet."""
    return float(length.in_mm(_unit_for(length, bare)))


def read_lengths(
    reader: ColumnReader,
    column: Column,
    name: str,
    bare: BareUnit,
    *,
    formats: Mapping[tuple[int, int], str] | None = None,
    bounds: bool = True,
) -> LengthColumn:
    """Return a column of lengths in millimetres, NaN where it is blank or refused.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    column : Column
        Statement of the house column, for bounds and words.
    name : str
        Name of the table's column.
    bare : BareUnit
        Unit of bare numbers.
    formats : mapping, optional
        Number formats by row and column, where some of them name units.
    bounds : bool
        Whether values outside the column's bounds are refused here.

    Returns
    -------
    LengthColumn
        With the whole sizes that stood among the lengths.
    """
    values = reader.values(name)
    if values is None:
        return LengthColumn(np.full(len(reader), np.nan), {})
    factor = float(MM_PER[bare.unit]) if bare.unit in MM_PER else np.nan
    if reader.kinds(name) <= {float, type(None)} and bare.unit in MM_PER and not formats:
        plain = np.array(values, dtype=np.float64)
        out = LengthColumn(plain * factor, {}, int(np.count_nonzero(~np.isnan(plain))))
    else:
        out = _Odd(reader, column, name, bare, formats or {}).read(values)
    _refuse_serials(reader, column, name, values, out.mm, factor)
    if bounds:
        out.mm = reader.bounded(column, name, out.mm, values)
    return out


_Text = tuple[float, Size | None, str, str, str, ProblemCode | None]
"""A text that was read: mm, a whole size, how it was read, a remark, the reason of a refusal, the code to say."""


@dataclass(slots=True)
class _Odd:
    """Reads the cells of a column that holds more than plain numbers."""

    reader: ColumnReader
    column: Column
    name: str
    bare: BareUnit
    formats: Mapping[tuple[int, int], str]

    def read(self, values: list[CellValue]) -> LengthColumn:
        out, plain = self._plain(values)
        known: dict[str, _Text] = {}
        for line, value in enumerate(values):
            kind = type(value)
            if kind is float:
                if not plain:
                    out.mm[line] = self._number(line, value)  # type: ignore[arg-type]
            elif kind is str:
                if value not in known:
                    known[value] = self._text(value)  # type: ignore[arg-type, index]
                mm, size, read_as, remark, reason, code = known[value]  # type: ignore[index]
                out.mm[line] = mm
                out.bare_lines += not (np.isnan(mm) or read_as or reason)
                if size is not None:
                    out.sizes[line] = size
                elif read_as or reason:
                    self._say(line, value, read_as, remark, reason, code)
            elif value is not None:
                out.mm[line] = self._other(line, value)
        return out

    def _plain(self, values: list[CellValue]) -> tuple[LengthColumn, bool]:
        """Return the bare numbers of the column at once where each has the column's unit, and whether that is so."""
        plain = not self.formats and self.bare.unit in MM_PER
        numbers = np.array([value if type(value) is float else np.nan for value in values], dtype=np.float64)
        many = int(np.count_nonzero(~np.isnan(numbers)))
        mm = numbers * float(MM_PER[self.bare.unit]) if plain and self.bare.unit else np.full(len(values), np.nan)
        return LengthColumn(mm, {}, many), plain

    def _number(self, line: int, value: float) -> float:
        unit = self.bare.unit
        if self.formats:
            place = (int(self.reader.rows[line]), self.reader.columns[self.name])
            unit = format_unit(self.formats.get(place, "")) or unit
        if unit == "ga":
            return self._gauge(line, value)
        if unit is None:
            reason = self.bare.source
            self.reader.say(
                said.UNIT_NOT_SAID, line, self.name, value, what=self._what, reason=reason, needs=self.column.needs
            )
            return np.nan
        return value * float(MM_PER[unit])

    def _gauge(self, line: int, value: float) -> float:
        """Read a bare number under a heading of gauges."""
        mm, _, read_as, remark, reason, code = self._as_gauge(Fraction(value).limit_denominator(1000))
        self._say(line, value, read_as, remark, reason, code)
        return mm

    def _whole_size(self, text: str) -> Size | None:
        """Read a whole size that stands in a column of thicknesses, or two sides in a column of lengths."""
        if self.name not in {"thickness_mm", "length"}:
            return None
        size = self.reader.size_of(text)
        if isinstance(size, Refused):
            return None
        two_sides = size.thickness is None and size.a is not None and size.b is not None
        return size if self.name == "thickness_mm" or two_sides else None

    def _as_gauge(self, number: Fraction) -> _Text:
        read = read_length(f"{number} ga", None, self.reader.gauges_in)
        if isinstance(read, Refused):
            reason = "it is no gauge of the sheet-gauge table"
            return np.nan, None, "", "", reason, said.LENGTH_REFUSED
        return float(read.in_mm()), None, str(read), read.remark, "", said.LENGTH_READ_AS

    @property
    def _what(self) -> str:
        return self.column.heading.lower()

    def _text(self, text: str) -> _Text:
        """Read a text into mm, a whole size, how it was read, a remark, the reason of a refusal and its code."""
        reader = self.reader
        if plain_text(text).lower() in BLANK_MARKS:
            return np.nan, None, "", "", "", None
        read = read_length(text, reader.decimal, reader.gauges_in)
        if isinstance(read, Refused):
            size = self._whole_size(text)
            if isinstance(size, Size) and size.thickness is not None and size.a is None and size.b is None:
                if _unit_for(size.thickness, self.bare) not in MM_PER:
                    return np.nan, None, "", "", self.bare.source, said.UNIT_NOT_SAID
                mm = in_mm(size.thickness, self.bare)
                return (
                    mm,
                    None,
                    _said(size.thickness, self.bare),
                    "the other words are left out",
                    "",
                    said.LENGTH_READ_AS,
                )
            if isinstance(size, Size):
                return np.nan, size, "", "", "", None
            return np.nan, None, "", "", read.reason, said.LENGTH_REFUSED
        if self.name == "length" and read.label == "diameter":
            return np.nan, Size(Shape.DISC, None, read, plain=False), "", "", "", None
        wanted = _LABELS.get(self.name, "length")
        if read.label and read.label != wanted and not (wanted == "length" and read.label == "width"):
            return np.nan, None, "", "", f"its own words call it a {read.label}", said.LENGTH_REFUSED
        unit = _unit_for(read, self.bare)
        if unit == "ga":
            return self._as_gauge(read.value)
        if unit is None:
            return np.nan, None, "", "", self.bare.source, said.UNIT_NOT_SAID
        if read.unit is None and read.is_fraction and self.bare.unit not in {"in", "ft"}:
            if not read.reduced:
                return (
                    np.nan,
                    None,
                    "",
                    "",
                    "a fraction that is not in lowest terms, in a metric list",
                    said.LENGTH_REFUSED,
                )
            if self.bare.unit and self.bare.sure:
                return in_mm(read, self.bare), None, _said(read, self.bare), "", "", said.FRACTION_UNDER_METRIC
        code = None if read.plain else said.LENGTH_READ_AS
        if read.plain and not (read.unit or read.label or read.is_fraction):
            return in_mm(read, self.bare), None, "", "", "", None
        return in_mm(read, self.bare), None, _said(read, self.bare), read.remark, "", code

    def _say(
        self, line: int, value: CellValue, read_as: str, remark: str, reason: str, code: ProblemCode | None
    ) -> None:
        if reason and code is not None:
            fields = {"what": self._what, "reason": reason, "needs": self.column.needs, "why": self.column.why}
            self.reader.say(code, line, self.name, value, **fields)
            return
        self.reader.note(line, self.name, value, read_as, self.column.name)
        if code is not None:
            fields = {
                "what": self._what,
                "read_as": read_as,
                "remark": remark,
                "unit": UNIT_NAMES.get(self.bare.unit or "", ""),
            }
            self.reader.say(code, line, self.name, value, **fields)

    def _other(self, line: int, value: CellValue) -> float:
        """Recover a fraction that became a date in the column of thicknesses; report anything else."""
        if isinstance(value, dt.date) and not isinstance(value, CellError) and self.name == "thickness_mm":
            place = (int(self.reader.rows[line]), self.reader.columns[self.name])
            number_format = self.reader.sheet.number_formats.get(place, "")
            found = fraction_in_date(value, number_format)
            if found is not None:
                read_as = f"{found.said} in"
                self.reader.note(line, self.name, value, read_as)
                as_shown = number_format or shown(value)
                self.reader.say(
                    *(said.FRACTION_FROM_DATE, line, self.name, value),
                    read_as=read_as,
                    fraction=found.said,
                    shown=as_shown,
                )
                return float(found.value * MM_PER["in"])
        if not self.reader.odd_cell(self.column, line, self.name, value):
            self._say(line, value, "", "", "it is not a number", said.LENGTH_REFUSED)
        return np.nan


def _unit_for(length: Length, bare: BareUnit) -> str | None:
    """Return the unit of a length: its own, inches for a bare fraction, else that of bare numbers."""
    if length.unit:
        return length.unit
    if length.is_fraction:
        return "ft" if bare.unit == "ft" else "in"
    return bare.unit


def _said(length: Length, bare: BareUnit) -> str:
    return say_length(length.value, _unit_for(length, bare), as_fraction=length.is_fraction)


def _refuse_serials(
    reader: ColumnReader, column: Column, name: str, values: list[CellValue], mm: Floats, factor: float
) -> None:
    """Refuse a thickness that is the number of a date: the fraction in it is named, not taken."""
    if name != "thickness_mm" or np.isnan(factor):
        return
    with np.errstate(invalid="ignore"):
        suspects = np.flatnonzero(mm / factor > 10_000)
    for line in suspects.tolist():
        value = values[line]
        found = fraction_in_serial(value) if isinstance(value, float) else None
        if found is None:
            continue
        date = (dt.date(1899, 12, 30) + dt.timedelta(days=int(value))).isoformat()  # type: ignore[arg-type]
        fields = {"what": column.heading.lower(), "date": date, "needs": column.needs, "fraction": found.said}
        reader.say(said.SERIAL_NOT_LENGTH, line, name, value, **fields)
        mm[line] = np.nan
