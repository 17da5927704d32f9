"""Work rates in the units of an inch shop's book, and back: each row says its own unit."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from estimator import reference
from estimator.check.shop_book import WorkRate
from estimator.rate_units import RateUnit, inch_rate_unit, inch_words

__all__ = ["rates_for_inches", "rates_in_house"]

_FIGURES = ("likely", "low", "high")
_DIGITS = ".6g"
"""Digits of a figure that was turned: more than anybody measures, and no tail of binary dust."""


def rates_for_inches(rows: Iterable[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Return rows of the sheet of work rates as an inch shop types and reads them.

    Parameters
    ----------
    rows : iterable of mapping
        In house units, by the names of the sheet's columns.

    Returns
    -------
    list of dict
    """
    units = _house_units()
    return [_turned(row, inch_rate_unit(units.get(row["name"], row.get("unit", "")))) for row in rows]


def rates_in_house(rates: Iterable[WorkRate]) -> list[WorkRate]:
    """Return work rates in house units, whichever of the two units stands beside each.

    Parameters
    ----------
    rates : iterable of WorkRate
        As read.

    Returns
    -------
    list of WorkRate
        A built-in figure that was turned and rounded is the built-in figure again.
    """
    units = _house_units()
    return [_in_house(rate, units.get(rate.name, "")) for rate in rates]


def _turned(row: Mapping[str, Any], unit: RateUnit) -> dict[str, Any]:
    figures = {name: _shown(row[name], unit) for name in _FIGURES if row.get(name) is not None}
    words = {name: inch_words(row[name]) for name in ("heading", "why") if row.get(name)}
    return {**row, **figures, **words, **({"unit": unit.unit} if unit.unit else {})}


def _in_house(rate: WorkRate, house: str) -> WorkRate:
    unit = inch_rate_unit(house)
    if rate.unit.strip() != unit.unit or unit.unit == house:
        return rate
    built_in = reference.table("work_rates").where(name=rate.name)

    def turned(name: str) -> float | None:
        value, own = getattr(rate, name), float(built_in.column(name)[0])
        if value is None:
            return None
        return own if value == _shown(own, unit) else unit.house(value)

    return rate.model_copy(update={**{name: turned(name) for name in _FIGURES}, "unit": house})


def _shown(value: float, unit: RateUnit) -> float:
    return float(f"{unit.shown(value):{_DIGITS}}") if unit.powers else value


def _house_units() -> dict[str, str]:
    """Return the house unit of each work rate."""
    rows = reference.table("work_rates")
    return {str(name): str(unit) for name, unit in zip(rows.column("name"), rows.column("unit"), strict=True)}
