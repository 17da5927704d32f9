"""One cell of our own workbooks becomes one value of the house, by the kind that its column states.

Strict on purpose: the columns of our blanks are ours, so what is not plainly of the kind is asked. Customers' lists
have a reader of their own.
"""

from __future__ import annotations

import datetime as dt
import difflib
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from estimator.problems import own_sheets as said
from estimator.problems.code import Place, Problem, ProblemCode
from estimator.read.cells import CellError, CellValue, NotCalculated
from estimator.read.date_text import AmbiguousDateError, read_date_text
from estimator.read.gas_text import NoGasUnitError, gas_unit_of, read_gas_text, read_reference_state
from estimator.read.length_words import MM_PER
from estimator.read.lengths import Length, read_length
from estimator.read.number_text import AmbiguousNumberError, plain_text, read_number_text, without_currency_sign
from estimator.read.numbers import Refused
from estimator.read.own_bounds import hint_for, outside_bounds
from estimator.sheets.choices import FUEL_MEANT, GAS_UNIT_WORDS
from estimator.sheets.statement import Column, Kind
from estimator.shop_units import split_unit, to_house_unit, unit_named

__all__ = ["OwnCell", "found_value", "is_bare_number", "is_blank", "nearest", "read_cell", "shown"]

_YES = {"yes", "y", "true", "x", "1"}
_KIND_WORDS = {Kind.MONEY: "an amount of money", Kind.FLAG: "yes or no"}
_NO = {"no", "n", "false", "0"}


@dataclass(frozen=True, slots=True)
class OwnCell:
    """A cell with what is needed to read it."""

    value: CellValue
    place: Place
    number_format: str = ""
    decimal: str = ""
    """Decimal mark of texts by the file's evidence; empty when there is none."""
    unit: str = ""
    """Unit that the heading, the row of units or the unit cell states, as ``in`` or ``psi``."""
    unit_place: Place | None = None
    """The cell for the unit, where the layout has one."""


class _RefusedError(Exception):
    """A value that its kind does not take."""

    def __init__(self, code: ProblemCode = said.CELL_NOT_KIND, **fields: object) -> None:
        self.code, self.fields = code, fields
        self.place: Place | None = None
        """Where it is mended, if that is not the cell itself."""


def is_blank(value: CellValue) -> bool:
    """Return whether a cell holds nothing: no value, or a text of blanks only; an error value is not blank."""
    return value is None or (isinstance(value, str) and not isinstance(value, CellError) and not plain_text(value))


def is_bare_number(text: str) -> bool:
    """Return whether a text is digits and their marks alone, with no word or sign behind them."""
    return bool(text) and not text.strip("0123456789., '")


def shown(value: CellValue) -> str:
    """Return a cell's value as a person sees it: 12 rather than 12.0, a date as 2026-11-05."""
    if isinstance(value, float):
        return f"{value:.15g}"
    if isinstance(value, dt.datetime) and value.time() == dt.time():
        return value.date().isoformat()
    return str(value)


def nearest(word: str, known: list[str]) -> list[str]:
    """Return up to three known words that are spelt most like one, nearest first, in the known spelling."""
    by_key = {plain_text(k).casefold(): k for k in known}
    return [by_key[k] for k in difflib.get_close_matches(plain_text(word).casefold(), by_key, n=3, cutoff=0.6)]


def read_cell(cell: OwnCell, column: Column) -> tuple[Any, Problem | None]:
    """Return the house value of one cell, or None with its problem.

    Parameters
    ----------
    cell : OwnCell
        The value, where it stands and what is known of it.
    column : Column
        The statement of its column.

    Returns
    -------
    tuple of (value or None, Problem or None)
        A blank gives the column's default; a required blank without a default is a problem.

    Notes
    -----
    Kinds become: text str, whole number int, number, money and share float, lengths float in mm or m by the kind,
    date datetime.date, choice the stated word, flag bool, gas the text that the gas grammar takes. A number may name a
    unit that stands for the column's (``2200 psi`` where bar is kept). Bounds hold in the house unit and include their
    ends.
    Source: definition.
    """
    try:
        value = _value(cell, column)
    except _RefusedError as refused:
        fields: dict[str, object] = {
            "heading": column.heading,
            "kind": _KIND_WORDS.get(column.kind, f"a {column.kind}"),
            "needs": column.needs,
            "why": column.why,
            "reason": "",
        }
        fields = {"found": found_value(cell.value), **fields, **refused.fields}
        return None, refused.code.at(refused.place or cell.place, **fields)
    return value, None


def found_value(value: CellValue) -> object:
    """Return a value in the form in which a problem shows it: texts quoted, numbers and dates bare."""
    if isinstance(value, float) and value.is_integer():
        return int(value)
    if isinstance(value, dt.datetime) and value.time() == dt.time():
        return value.date()
    return "" if value is None else value


def _value(cell: OwnCell, column: Column) -> Any:
    if isinstance(cell.value, CellError):
        raise _RefusedError(said.CELL_IS_ERROR)
    if isinstance(cell.value, NotCalculated):
        raise _RefusedError(said.CELL_NOT_CALCULATED)
    if is_blank(cell.value):
        if column.default is None and column.required:
            raise _RefusedError(said.CELL_BLANK)
        return column.default
    value = _READERS[column.kind](cell, column)
    _hold_to_bounds(value, column, cell)
    return value


def _hold_to_bounds(value: Any, column: Column, cell: OwnCell) -> None:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return
    if outside := outside_bounds(value, column):
        number = cell.value if isinstance(cell.value, float) else None
        hint = hint_for(number, column, stated_unit=cell.unit, place=cell.place)
        raise _RefusedError(said.CELL_OUT_OF_BOUNDS, **outside, hint=hint)


def _text(cell: OwnCell, column: Column) -> str:
    if isinstance(cell.value, dt.date | dt.time):
        raise _RefusedError
    return plain_text(shown(cell.value))


def _number(cell: OwnCell, column: Column) -> float:
    """Return a number in the house unit, from the unit behind it, else from that of its column."""
    unit = unit_named(cell.unit, column.unit)
    if isinstance(cell.value, str):
        typed = without_currency_sign(cell.value) if column.kind is Kind.MONEY else cell.value
        text, own = split_unit(typed, column.unit)
        return to_house_unit(_number_text(text, cell.decimal), own or unit, column.unit)
    if not isinstance(cell.value, float):
        raise _RefusedError
    return to_house_unit(cell.value, unit, column.unit)


def _number_text(text: str, decimal: str) -> float:
    try:
        return read_number_text(text, decimal)
    except AmbiguousNumberError as two:
        first, second = two.readings
        raise _RefusedError(said.CELL_AMBIGUOUS_NUMBER, first=f"{first:g}", second=f"{second:g}") from None
    except ValueError:
        raise _RefusedError from None


def _whole(cell: OwnCell, column: Column) -> int:
    value = _number(cell, column)
    if value != int(value):
        raise _RefusedError
    return int(value)


def _share(cell: OwnCell, column: Column) -> float:
    text = plain_text(cell.value) if isinstance(cell.value, str) else ""
    if text.endswith("%"):
        return _number(OwnCell(text[:-1], cell.place, decimal=cell.decimal), column) / 100.0
    value = _number(cell, column)
    if abs(value) > 1 and "%" not in cell.number_format:
        raise _RefusedError(said.CELL_AMBIGUOUS_SHARE, first=f"{value:g} %", second=f"{value * 100:g} %")
    return value


def _length(cell: OwnCell, column: Column) -> float:
    house = "m" if column.kind is Kind.LENGTH_M else "mm"
    unit = cell.unit if cell.unit in MM_PER else house
    if isinstance(cell.value, float):
        length_mm = cell.value * float(MM_PER[unit])
    elif isinstance(cell.value, str):
        length_mm = float(_length_text(cell.value, unit, cell.decimal).in_mm(unit))
    else:
        raise _RefusedError
    return length_mm / 1000.0 if house == "m" else length_mm


def _length_text(text: str, unit: str, decimal: str) -> Length:
    """Return a length that is plain, or whose only oddity is one that cannot be misread."""
    length = read_length(text, decimal or None)
    if isinstance(length, Refused):
        raise _RefusedError(reason=f": {length.reason}")
    if length.unit is None and length.is_fraction and unit not in {"in", "ft"}:
        raise _RefusedError(reason=f": it is a fraction without a unit where {unit} is meant")
    if not length.plain:
        raise _RefusedError(reason=f": {length.remark}")
    return length


def _date(cell: OwnCell, column: Column) -> dt.date:
    value = cell.value
    if isinstance(value, dt.datetime):
        return value.date()
    if isinstance(value, dt.date):
        return value
    if not isinstance(value, str):
        raise _RefusedError
    try:
        return read_date_text(value)
    except AmbiguousDateError as two:
        first, second = two.readings
        raise _RefusedError(said.CELL_AMBIGUOUS_DATE, first=first, second=second) from None
    except ValueError:
        raise _RefusedError from None


def _choice(cell: OwnCell, column: Column) -> str:
    word = _text(cell, column)
    for choice in column.choices:
        if choice.casefold() == word.casefold():
            return choice
    if (meant := _gas_word(word)) in column.choices:
        return meant
    other = FUEL_MEANT.get(word.casefold(), "")
    near = [other] if other in column.choices else nearest(word, list(column.choices))
    hint = f"did you mean {' or '.join(map(repr, near))}? type it in {cell.place}"
    if not near:
        hint = f"type one of these in {cell.place}"
    raise _RefusedError(said.CELL_NOT_CHOICE, choices=", ".join(column.choices), hint=hint)


def _gas_word(word: str) -> str:
    """Return the unit or the reference state of gas that a word writes in another way; empty when it is neither."""
    if unit := gas_unit_of(word):
        return unit
    try:
        state = read_reference_state(word)
    except ValueError:
        return ""
    return state.label if state else ""


def _flag(cell: OwnCell, column: Column) -> bool:
    if isinstance(cell.value, bool):
        return cell.value
    word = _text(cell, column).casefold()
    if word in _YES | _NO:
        return word in _YES
    raise _RefusedError


def _gas(cell: OwnCell, column: Column) -> str:
    """Return an amount with its unit, from the cell itself or from the cell for the unit."""
    text = _text(cell, column)
    if cell.unit and cell.unit not in MM_PER and is_bare_number(text):
        text = f"{text} {cell.unit}"
    try:
        read_gas_text(text)
    except NoGasUnitError:
        place, hint = cell.place, f"in {cell.place}, type the number with one of these units behind it"
        if cell.unit_place and is_bare_number(_text(cell, column)):
            place, hint = cell.unit_place, f"choose the unit in {cell.unit_place}"
        fields = {"found": text, "known": ", ".join(GAS_UNIT_WORDS), "hint": hint}
        refused = _RefusedError(said.CELL_WITHOUT_GAS_UNIT, **fields)
        refused.place = place
        raise refused from None
    except ValueError as error:
        raise _RefusedError(reason=f": {error}") from None
    return text


def _gas_price(cell: OwnCell, column: Column) -> str:
    """Return a price with the amount it is for, which may stand in the cell for the unit; alone it is of a full one."""
    text = _text(cell, column)
    if cell.unit and cell.unit not in MM_PER and is_bare_number(text):
        text = f"{text} per {cell.unit}"
    return text


_READERS: dict[Kind, Callable[[OwnCell, Column], Any]] = {
    Kind.TEXT: _text,
    Kind.WHOLE: _whole,
    Kind.NUMBER: _number,
    Kind.LENGTH: _length,
    Kind.LENGTH_M: _length,
    Kind.MONEY: _number,
    Kind.SHARE: _share,
    Kind.DATE: _date,
    Kind.CHOICE: _choice,
    Kind.FLAG: _flag,
    Kind.GAS: _gas,
    Kind.GAS_PRICE: _gas_price,
}
