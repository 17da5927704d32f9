"""Find the columns of a table and the names of a form in our own sheets; a misspelt one is answered with the nearest.

Other columns are the shop's own notes: said, and left alone.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from estimator.problems import own_sheets as said
from estimator.problems.code import Place, Problem
from estimator.read.cells import CellValue, SheetCells, column_letters
from estimator.read.gas_text import gas_unit_of, read_gas_text
from estimator.read.length_words import unit_of
from estimator.read.number_text import plain_text
from estimator.read.own_cells import is_blank, nearest, shown
from estimator.sheets.choices import WHOLE_BOTTLE_WORDS
from estimator.sheets.statement import Column, Kind, Sheet
from estimator.shop_units import unit_named

__all__ = ["HEADING_ROWS", "Found", "Stands", "find_columns", "find_names"]

_LENGTHS = frozenset({Kind.LENGTH, Kind.LENGTH_M})
_PER = re.compile(r"^(?:(?:per|an?)\b|/) *", re.IGNORECASE)
_CURRENCY = re.compile(r"[A-Z]{3}")
HEADING_ROWS = 15
"""The heading row stands in one of the first rows, this many."""


@dataclass(frozen=True, slots=True)
class Stands:
    """Where one column's values stand, counted from 0, and the unit stated with its heading."""

    column: int
    row: int | None = None
    """The one row of a form's value; None in a table."""
    unit: str = ""


@dataclass(slots=True)
class Found:
    """The columns found in a sheet, by house name, and what was wrong with the headings."""

    columns: dict[str, Stands] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    unknown: list[tuple[str, Place]] = field(default_factory=list)
    """Headings that are none of the sheet's, with their cells."""
    heading_row: int | None = None
    first_row: int = 0
    """First row of values."""


def find_columns(cells: SheetCells, sheet: Sheet, where: Place) -> Found:
    """Return the columns of a table from its heading row, which is the row that names most of them.

    Parameters
    ----------
    cells : SheetCells
        The sheet.
    sheet : Sheet
        Its statement.
    where : Place
        File and sheet, for the problems.

    Returns
    -------
    Found
        ``heading_row`` is None, with a problem, when no row names a column.

    Notes
    -----
    A heading may carry its unit behind a comma or in brackets (``Thickness, in``, ``Gauge (psi)``); a row of units
    below it is understood too. Source: definition.
    """
    known = _names(sheet.columns)
    row = _heading_row(cells, known)
    if row is None:
        headings = ", ".join(f"'{c.heading}'" for c in sheet.columns[:4])
        missing = said.HEADING_ROW_MISSING.at(where, found=_first_texts(cells), limit=HEADING_ROWS, headings=headings)
        return Found(problems=[missing])
    found = Found(heading_row=row, first_row=row + 1)
    sheet_unit = _units_cell(cells, row)
    for column, heading in enumerate(cells.rows[row]):
        if is_blank(heading):
            continue
        place = Place(where.file, where.sheet, row + 1, column_letters(column))
        name, stated = _split_heading(heading, known)
        unit = (_column_unit(stated, sheet.column(name)) if name else "") or sheet_unit
        _take(found, name, shown(heading), Stands(column, unit=unit), place, "column")
    _read_units_row(cells, sheet, found)
    _tell_missing(found, sheet, Place(where.file, where.sheet, row + 1), "column")
    return found


def find_names(cells: SheetCells, sheet: Sheet, where: Place) -> Found:
    """Return the rows of a form: names in column A, values in B, units in C.

    Parameters
    ----------
    cells : SheetCells
        The sheet.
    sheet : Sheet
        Its statement.
    where : Place
        File and sheet, for the problems.

    Returns
    -------
    Found
        Texts in column A without a value beside them are titles and are passed over.

    Notes
    -----
    A unit that can stand instead of the statement's is the value's own; any other is a problem. The unit of an amount
    of gas is read with its number. Source: definition.
    """
    known = _names(sheet.columns)
    found = Found(heading_row=0)
    for row in range(len(cells.rows)):
        heading = cells.value(row, 0)
        if is_blank(heading):
            continue
        name, behind = _split_heading(heading, known)
        if not name and is_blank(cells.value(row, 1)):
            continue
        stated = "" if is_blank(cells.value(row, 2)) else plain_text(shown(cells.value(row, 2)))
        unit = ""
        if name:
            unit = _form_unit(stated, sheet.column(name)) or _column_unit(behind, sheet.column(name))
        place = Place(where.file, where.sheet, row + 1, "A")
        _take(found, name, shown(heading), Stands(1, row, unit), place, "name")
        if name and not _unit_fits(stated, sheet.column(name)):
            unit_place = Place(where.file, where.sheet, row + 1, "C")
            found.problems.append(_unit_differs(sheet.column(name), stated, unit_place))
        if name and sheet.column(name).kind is Kind.GAS:
            found.problems += _unit_beside(sheet.column(name), cells.value(row, 1), stated, place)
    _tell_missing(found, sheet, where, "name")
    return found


def _column_unit(text: str, column: Column) -> str:
    """Return the unit that a word names for the values of a column; empty when it names none."""
    if column.kind in _LENGTHS:
        return _unit_word(text)
    if column.kind is Kind.GAS:
        return gas_unit_of(text)
    if column.kind is Kind.GAS_PRICE:
        return _amount_priced(text)
    return unit_named(text, column.unit)


def _form_unit(text: str, column: Column) -> str:
    """Return what the cell for the unit says of a form's value; of gas all of it, a state too, to be read with it."""
    return text if column.kind is Kind.GAS else _column_unit(text, column)


def _amount_priced(text: str) -> str:
    """Return the unit of gas that a price is for (``per kg``, ``/lb``, ``m3``); empty where the words name none."""
    unit = _PER.sub("", text)
    return unit if gas_unit_of(unit) else ""


def _unit_word(text: str) -> str:
    """Return the length unit that a word names; empty when it names none."""
    return {"metric": "mm"}.get(text.casefold()) or unit_of(text) or ""


def _key(text: str) -> str:
    return re.sub(r"[\s_]+", " ", plain_text(text)).casefold().rstrip(":*. ")


def _names(columns: Iterable[Column]) -> dict[str, str]:
    """Return every spelling that means a column, as a key, with its house name."""
    names: dict[str, str] = {}
    for column in columns:
        for spelling in (*_spellings(column), column.name):
            names.setdefault(_key(spelling), column.name)
    return names


def _split_heading(heading: CellValue, known: dict[str, str]) -> tuple[str, str]:
    """Return the house name of a heading and what may be its unit; empty where there is none."""
    key = _key(shown(heading))
    if key in known:
        return known[key], ""
    if match := re.fullmatch(r"(.+?)\s*(?:,\s*|[(\[])([^()\[\],]+)[)\]]?", key):
        return known.get(_key(match[1]), ""), match[2]
    return "", ""


def _heading_row(cells: SheetCells, known: dict[str, str]) -> int | None:
    best, best_score = None, 0
    for row, values in enumerate(cells.rows[:HEADING_ROWS]):
        texts = [v for v in values if type(v) is str and not is_blank(v)]
        named = {name for name, _ in (_split_heading(v, known) for v in texts) if name}
        near = sum(1 for v in texts if nearest(_key(v), list(known)))
        score = 100 * len(named) + near
        if score > best_score:
            best, best_score = row, score
    return best


def _take(found: Found, name: str, heading: str, stands: Stands, place: Place, what: str) -> None:
    """Note one heading: taken, standing twice, or unknown."""
    if not name:
        found.unknown.append((heading, place))
    elif name in found.columns:
        first = found.columns[name]
        row, column = (place.row, first.column) if first.row is None else (first.row + 1, 0)
        at = Place(place.file, place.sheet, row, column_letters(column))
        found.problems.append(said.HEADING_TWICE.at(place, found=heading, what=what, heading=heading, first=at))
    else:
        found.columns[name] = stands


def _tell_unknown(found: Found, sheet: Sheet, what: str) -> set[str]:
    """Note each unknown heading, misspelt when nearly one that the sheet lacks; return the names it may have meant."""
    lacking = {spelling: c.name for c in sheet.columns if c.name not in found.columns for spelling in _spellings(c)}
    meant: set[str] = set()
    for heading, place in found.unknown:
        near = nearest(_bare(heading), list(lacking))
        if not near:
            found.problems.append(said.HEADING_NOT_READ.at(place, found=heading, what=what, heading=heading))
            continue
        meant.update(lacking[spelling] for spelling in near)
        hint = f"did you mean {' or '.join(map(repr, near))}? correct it in {place}"
        found.problems.append(said.HEADING_MISSPELT.at(place, found=heading, what=what, heading=heading, hint=hint))
    return meant


def _tell_missing(found: Found, sheet: Sheet, where: Place, what: str) -> None:
    """Note each required column that stands nowhere, unless a misspelt heading may be it."""
    meant = _tell_unknown(found, sheet, what)
    for column in sheet.columns:
        if column.required and column.default is None and column.name not in found.columns.keys() | meant:
            fields = {"heading": column.heading, "needs": column.needs, "why": column.why}
            found.problems.append(said.HEADING_MISSING.at(where, what=what, **fields))


def _spellings(column: Column) -> tuple[str, ...]:
    return (column.heading, *column.wordings)


def _bare(heading: str) -> str:
    """Return a heading without the unit behind its comma or in its brackets."""
    return re.split(r"[,(\[]", heading)[0]


def _units_cell(cells: SheetCells, heading_row: int) -> str:
    """Return the length unit from a ``Units`` cell above the headings (``Units`` in one cell, ``inch`` in the next)."""
    for values in cells.rows[:heading_row]:
        for label, value in itertools.pairwise(values):
            if type(label) is str and _key(label) in {"unit", "units", "length unit"} and type(value) is str:
                return _unit_word(value)
    return ""


def _read_units_row(cells: SheetCells, sheet: Sheet, found: Found) -> None:
    """Pass over a row of units below the headings, taking from it those that are not the statement's."""
    stated = {name: cells.value(found.first_row, stands.column) for name, stands in found.columns.items()}
    units = {name: plain_text(v) for name, v in stated.items() if type(v) is str and not is_blank(v)}
    filled = [name for name, v in stated.items() if not is_blank(v)]
    if not filled or len(units) < len(filled):
        return
    if not all(_is_unit_of(sheet.column(name), unit) for name, unit in units.items()):
        return
    found.first_row += 1
    for name, unit in units.items():
        if stated_unit := _column_unit(unit, sheet.column(name)):
            stands = found.columns[name]
            found.columns[name] = Stands(stands.column, stands.row, stated_unit)


def _is_unit_of(column: Column, text: str) -> bool:
    return bool(_column_unit(text, column)) or (bool(column.unit) and text.casefold() == column.unit.casefold())


def _unit_fits(stated: str, column: Column) -> bool:
    if not stated or stated.casefold() == column.unit.casefold() or _form_unit(stated, column):
        return True
    if column.kind is Kind.GAS_PRICE:
        return bool(_CURRENCY.fullmatch(stated)) or _PER.sub("", stated).casefold() in WHOLE_BOTTLE_WORDS
    return column.kind is Kind.MONEY and stated.casefold().endswith(column.unit.casefold())


def _unit_beside(column: Column, value: CellValue, stated: str, place: Place) -> list[Problem]:
    """Note an amount that names its unit beside a cell for the unit that names another."""
    if type(value) is not str or not (beside := gas_unit_of(stated)):
        return []
    try:
        taken = read_gas_text(value).unit
    except ValueError:
        return []
    fields = {"heading": column.heading, "taken": taken, "unit": beside}
    at = Place(place.file, place.sheet, place.row, "C")
    return [] if taken == beside else [said.CELL_UNIT_BESIDE.at(at, found=value, **fields)]


def _unit_differs(column: Column, stated: str, place: Place) -> Problem:
    known = f"'{column.unit}'" if column.unit else "no unit"
    if column.kind is Kind.GAS_PRICE:
        known = "a full bottle, per kg, per lb, per m3 or per ft3"
    return said.CELL_UNIT_DIFFERS.at(place, found=stated, heading=column.heading, unit=stated, known=known)


def _first_texts(cells: SheetCells) -> str:
    texts = [plain_text(shown(v)) for values in cells.rows[:HEADING_ROWS] for v in values if not is_blank(v)]
    return ", ".join(texts[:6])
