"""One house value becomes one cell of our own sheets: format, offered words, bounds, and what it does."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from estimator.sheets.statement import Column, Kind
from estimator.shop_units import from_house_unit, inch_unit
from estimator.write.book import BookSheet
from estimator.write.styles import Look

__all__ = [
    "OwnUnits",
    "capital",
    "example_shown",
    "guide_text",
    "number_format",
    "offer",
    "unit_shown",
    "width_for",
    "write_value",
]

_LONG_TEXT = 36
_AS_THEY_ARE = frozenset({Kind.TEXT, Kind.WHOLE, Kind.DATE, Kind.CHOICE, Kind.FLAG, Kind.GAS, Kind.SHARE})
"""Kinds whose values no unit turns."""
_NUMBER_FORMATS = {Kind.WHOLE: "0", Kind.MONEY: "#,##0.00##", Kind.SHARE: "0.0##%", Kind.DATE: "yyyy-mm-dd"}
_YES_NO = ("yes", "no")


@dataclass(frozen=True, slots=True)
class OwnUnits:
    """The units in which a shop's own sheets are written."""

    length: str = "mm"
    """``mm``, or ``in`` for an inch shop: inches, feet, pounds, psi, °F, cubic feet."""
    currency: str = ""
    """Code of the currency, shown before the unit of money in forms."""


def write_value(
    sheet: BookSheet, row: int, column: int, value: object, stated: Column, *, units: OwnUnits, look: Look = Look.TYPED
) -> None:
    """Write one house value so that the reader of our own sheets gives it back; None leaves the cell empty."""
    number = number_format(stated) or _turned_format(stated, units)
    if value is None:
        sheet.blank(row, column, look, number)
    elif isinstance(value, bool):
        sheet.text(row, column, _YES_NO[not value], look)
    elif isinstance(value, dt.date):
        sheet.date(row, column, value, look)
    elif isinstance(value, int | float):
        sheet.number(row, column, _in_unit(float(value), stated, units), look, number)
    else:
        sheet.text(row, column, value, look, wrap=len(str(value)) > _LONG_TEXT)


def offer(sheet: BookSheet, row: int, column: int, last_row: int, stated: Column, units: OwnUnits) -> None:
    """Offer the words of a choice, and show what a cell does while it is selected."""
    message = f"{capital(stated.needs)}. {capital(stated.why)}."
    choices = _YES_NO if stated.kind is Kind.FLAG else stated.choices
    numeric = stated.kind in (Kind.WHOLE, Kind.NUMBER, Kind.MONEY, Kind.SHARE)
    if choices:
        sheet.choice(row, column, last_row, choices, title=stated.heading, message=message)
    elif numeric and stated.low is not None and stated.high is not None:
        bounds = (_in_unit(stated.low, stated, units), _in_unit(stated.high, stated, units))
        sheet.between(row, column, last_row, bounds, title=stated.heading, message=message)
    else:
        sheet.prompt(row, column, last_row, title=stated.heading, message=message)


def guide_text(stated: Column, units: OwnUnits) -> str:
    """Return what a person must know to fill in a column: whether it is needed, an example, and what a blank means."""
    parts = ["Needed." if stated.required and stated.default is None else ""]
    if stated.example:
        parts.append(f"For example {example_shown(stated, units)}.")
    if stated.default is not None and stated.default != "":
        parts.append(f"Blank means {_default_shown(stated, units)}.")
    return " ".join(part for part in parts if part)


def example_shown(stated: Column, units: OwnUnits) -> str:
    """Return an example in the shop's units; one that is not a bare number stays as it is stated."""
    try:
        value = float(stated.example)
    except ValueError:
        return stated.example
    if unit_shown(stated, units) == stated.unit:
        return stated.example
    return f"{float(f'{_in_unit(value, stated, units):.2g}'):g}"


def unit_shown(stated: Column, units: OwnUnits) -> str:
    """Return a column's unit as its cells are written, in the shop's own system."""
    if units.length != "in" or stated.kind in _AS_THEY_ARE:
        return stated.unit
    return inch_unit(stated.unit)


def number_format(stated: Column) -> str:
    """Return the number format of a column's cells; empty for the spreadsheet's own."""
    return _NUMBER_FORMATS.get(stated.kind, "")


def width_for(stated: Column) -> float:
    """Return a column's width in characters, from its heading, its words and its example."""
    longest_word = max((len(word) for word in (*stated.heading.split(), *stated.choices)), default=0)
    wide_text = 24 if stated.kind is Kind.TEXT and stated.name in ("description", "note", "purpose") else 0
    return float(min(34, max(10, longest_word + 2, len(stated.example) + 1, len(stated.heading) * 0.7, wide_text)))


def _in_unit(value: float, stated: Column, units: OwnUnits) -> float:
    unit = unit_shown(stated, units)
    return value if unit == stated.unit else round(from_house_unit(value, unit, stated.unit), 12)


def _turned_format(stated: Column, units: OwnUnits) -> str:
    """Return the format of figures that were turned into another unit and have more places than anybody reads."""
    if unit_shown(stated, units) == stated.unit:
        return ""
    return "0.0##" if stated.kind in (Kind.LENGTH, Kind.LENGTH_M) else "#,##0.0#"


def _default_shown(stated: Column, units: OwnUnits) -> str:
    default = stated.default
    if isinstance(default, bool):
        return _YES_NO[not default]
    if stated.kind is Kind.SHARE and isinstance(default, int | float):
        return f"{default * 100:g} %"
    shown = f"{_in_unit(default, stated, units):g}" if isinstance(default, float) else str(default)
    return f"{shown} {unit_shown(stated, units)}".strip() if isinstance(default, int | float) else f"'{shown}'"


def capital(text: str) -> str:
    """Return a text as a sentence begins and without its full stop."""
    return text[:1].upper() + text[1:].rstrip(".")
