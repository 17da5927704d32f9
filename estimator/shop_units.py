"""Units that a person types and is shown, metric or inch, beside the house unit that each figure is kept in.

A column states its house unit as people see it (``bar``, ``m³/h``); a cell, heading or row of units may name another.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

from estimator.units import FACTORS, ReferenceState, celsius, fahrenheit

__all__ = ["assumed_state", "from_house_unit", "inch_unit", "split_unit", "to_house_unit", "unit_named"]

_NAMES: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "mm": {"mm": (), "in": ("inch", "inches", '"'), "cm": (), "ft": ("feet",)},
    "m": {"m": (), "ft": ("feet", "foot"), "in": ("inch", "inches"), "mm": ()},
    "bar": {
        "bar": ("barg", "bar gauge"),
        "psi": ("psig", "psi gauge", "lb/in2", "lbs/in2"),
        "kPa": (),
        "MPa": (),
        "kgf/cm2": ("kg/cm2",),
    },
    "kg": {"kg": ("kgs", "kilos"), "lb": ("lbs", "lb.", "lbs.", "pound", "pounds"), "t": ("tonnes",)},
    "°C": {"°C": ("c", "deg c", "celsius"), "°F": ("f", "deg f", "fahrenheit")},
    "m³/h": {
        "m³/h": ("m3/hr", "cbm/h"),
        "ft³/h": ("ft3/hr", "cfh", "scfh", "cu ft/h", "cu ft/hr", "cuft/h"),
        "L/min": ("l/min", "lpm"),
        "ft³/min": ("cfm", "scfm"),
    },
    "mm/min": {"mm/min": (), "in/min": ("ipm", '"/min'), "m/min": (), "ft/min": ()},
    "per kg": {"per kg": ("/kg", "a kg", "kg"), "per lb": ("/lb", "a lb", "lb", "per pound"), "per t": ("/t",)},
    "m³": {"m³": ("cbm", "cu m"), "ft³": ("cu ft", "cuft", "cf", "scf"), "L": ("l",)},
}
"""House unit as shown → unit that may stand instead → other ways to write it."""

_INCH: Mapping[str, str] = MappingProxyType(
    {
        "mm": "in",
        "m": "ft",
        "bar": "psi",
        "kg": "lb",
        "°C": "°F",
        "m³/h": "ft³/h",
        "mm/min": "in/min",
        "per kg": "per lb",
        "m³": "ft³",
    }
)
_QUANTITY = {
    "mm": "length_mm",
    "m": "length_mm",
    "bar": "pressure_bar",
    "kg": "mass_kg",
    "m³/h": "flow_m3_h",
    "mm/min": "speed_mm_min",
    "per kg": "mass_kg",
    "m³": "volume_m3",
}
_WITH_UNIT = re.compile(r"\s*(-?[\d.,' ]*\d)\s*([^\d\s].*?)\s*")


def inch_unit(house: str) -> str:
    """Return the unit that an inch shop is shown instead of a house unit; itself where there is no other.

    Parameters
    ----------
    house : str
        House unit as a column states it.

    Returns
    -------
    str

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    >>> inch_unit("bar"), inch_unit("min")
    ('psi', 'min')
    """
    return _INCH.get(house, house)


def unit_named(text: str, house: str) -> str:
    """Return the unit that a text names, if it can stand instead of a house unit; empty when it cannot.

    Parameters
    ----------
    text : str
        As typed in a heading, a row of units or behind a number.
    house : str
        House unit as the column states it.

    Returns
    -------
    str

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> unit_named("PSI", "bar"), unit_named("cu ft/hr", "m³/h"), unit_named("psi", "kg")
    ('psi', 'ft³/h', '')
    """
    key = _key(text)
    for unit, others in _NAMES.get(house, {}).items():
        if key in {_key(unit), *(_key(other) for other in others)}:
            return unit
    return ""


def split_unit(text: str, house: str) -> tuple[str, str]:
    """Return the number of a text and the unit behind it, where it is one for this house unit; else the text whole.

    Parameters
    ----------
    text : str
        Such as ``2200 psi``.
    house : str
        House unit as the column states it.

    Returns
    -------
    tuple of (str, str)
        The unit is empty where none stands there.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> split_unit("2200 psi", "bar"), split_unit("2200 lb", "bar")
    (('2200', 'psi'), ('2200 lb', ''))
    """
    found = _WITH_UNIT.fullmatch(text)
    unit = unit_named(found[2], house) if found else ""
    return (found[1], unit) if found and unit else (text, "")


def to_house_unit(value: float, unit: str, house: str) -> float:
    """Return a value in the house unit.

    Parameters
    ----------
    value : float
        Value in ``unit``.
    unit : str
        A unit that ``unit_named`` gave.
    house : str
        House unit as the column states it.

    Returns
    -------
    float

    Raises
    ------
    ValueError
        When the unit does not stand instead of the house unit.

    Notes
    -----
    A price per pound is larger per kilogram by the pounds in one. Gas volumes keep their reference state.
    Source: ``units.FACTORS``; definition.

    Examples
    --------
    >>> round(to_house_unit(2200, "psi", "bar"), 2), to_house_unit(59, "°F", "°C"), round(
    ...     to_house_unit(0.5, "per lb", "per kg"), 4
    ... )
    (151.68, 15.0, 1.1023)
    """
    if unit in ("", house):
        return value
    if unit == "°F" and house == "°C":
        return celsius(value)
    factor = _factor(unit, house)
    return value / factor if house == "per kg" else value * factor


def from_house_unit(value: float, unit: str, house: str) -> float:
    """Return a value of the house unit in another unit; the way back of ``to_house_unit``.

    Parameters
    ----------
    value, unit, house
        As for ``to_house_unit``, the value in the house unit.

    Returns
    -------
    float

    Raises
    ------
    ValueError
        As for ``to_house_unit``.

    Notes
    -----
    Source: ``units.FACTORS``; definition.

    Examples
    --------
    >>> from_house_unit(12.7, "in", "mm"), round(from_house_unit(1.0, "psi", "bar"), 2)
    (0.5, 14.5)
    """
    if unit in ("", house):
        return value
    if unit == "°F" and house == "°C":
        return fahrenheit(value)
    factor = _factor(unit, house)
    return value * factor if house == "per kg" else value / factor


def assumed_state(gas_unit: str) -> ReferenceState | None:
    """Return the reference state that a volume of gas is taken at where nothing says it; None for a mass or Nm3.

    Parameters
    ----------
    gas_unit : str
        A unit of ``units.GAS_UNITS``.

    Returns
    -------
    ReferenceState or None

    Notes
    -----
    Taken only where a warning says so. Cubic feet are sold at 70 °F and 1 atm, cubic metres and litres mostly at 15 °C
    and 1 atm or 1 bar; between these two is 1.3 %. Source: common practice, no source.

    Examples
    --------
    >>> assumed_state("ft3").label, assumed_state("m3").label, assumed_state("kg")
    ('70 °F, 1 atm', '15 °C, 101.325 kPa', None)
    """
    if "ft3" in gas_unit:
        return ReferenceState.F70_ATM
    return ReferenceState.C15_ATM if gas_unit in ("m3", "L") else None


def _factor(unit: str, house: str) -> float:
    """Return what one of a unit is in the house unit, for prices the masses behind them."""
    if house not in _QUANTITY or unit not in _NAMES[house]:
        raise ValueError(f"{unit!r} does not stand instead of {house!r}")
    factors = FACTORS[_QUANTITY[house]]
    plain, base = (name.removeprefix("per ").replace("³", "3") for name in (unit, house))
    return factors[plain] / factors[base]


def _key(text: str) -> str:
    plain = text.casefold().replace("³", "3").replace("²", "2").replace("º", "°").replace("cubic feet", "cu ft")
    return re.sub(r"\s+", " ", plain).strip(" .")
