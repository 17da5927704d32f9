"""The plausible bounds of a typed number in words, and what one outside them may have meant; never taken for it."""

from __future__ import annotations

from estimator.problems.code import Place
from estimator.sheets.statement import Column, Kind
from estimator.shop_units import inch_unit, to_house_unit

__all__ = ["hint_for", "outside_bounds"]


def outside_bounds(value: float, column: Column) -> dict[str, str]:
    """Return in words on which side of which bound a value lies; empty within the bounds, ends included."""
    low, high = column.low, column.high
    if low is not None and value < low:
        side, limit = "below", _shown(low, column)
    elif high is not None and value > high:
        side, limit = "above", _shown(high, column)
    else:
        return {}
    bounds = f"not {side} {limit}"
    if low is not None and high is not None:
        unit = "" if column.kind is Kind.SHARE else f" {column.unit}" * bool(column.unit)
        bounds = f"from {_shown(low, column).removesuffix(unit)} to {_shown(high, column)}"
    return {"side": side, "limit": limit, "bounds": bounds}


def hint_for(number: float | None, column: Column, *, stated_unit: str, place: Place) -> str:
    """Return what to do about a value outside its bounds.

    Parameters
    ----------
    number : float or None
        The number as typed, where it was typed bare.
    column : Column
        Its statement.
    stated_unit : str
        Unit that the heading or the row of units states.
    place : Place
        Its cell.

    Returns
    -------
    str

    Notes
    -----
    A percentage typed as a whole number, and a figure that would be plausible in the inch unit, are named as such.
    Source: definition.
    """
    plain = f"correct {place}; look at the unit first"
    if number is None:
        return plain
    if column.kind is Kind.SHARE:
        if number <= 1:
            return plain
        return f"{number:g} is {number * 100:g} %; if {number:g} % is meant, type {number:g} % in {place}"
    unit = inch_unit(column.unit)
    if unit in (column.unit, stated_unit):
        return plain
    instead = to_house_unit(number, unit, column.unit)
    if outside_bounds(instead, column):
        return plain
    typed = f"{number:g} {unit}"
    return f"if it is {unit} ({typed} is {instead:.3g} {column.unit}), type {typed} in {place}"


def _shown(limit: float, column: Column) -> str:
    return f"{limit * 100:g} %" if column.kind is Kind.SHARE else f"{limit:g} {column.unit}".strip()
