"""The strict grammar of gas amounts and units as lists, bills and tags print them: ``10.6 m³ (15 °C, 1 bar)``.

A volume whose reference state is not said is returned without one; whether that may stand is decided by the caller.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from estimator.read.number_text import plain_text, read_number_text
from estimator.units import GAS_UNITS, ReferenceState

__all__ = ["GasUnitText", "read_gas_amount", "read_gas_unit"]

_UNITS = {
    "m3": ("m3", "m^3", "cbm", "cum", "cubic metre", "cubic metres", "cubic meter", "cubic meters"),
    "Nm3": ("nm3", "nm^3", "normal m3"),
    "L": ("l", "litre", "litres", "liter", "liters"),
    "ft3": ("ft3", "ft^3", "cf", "cuft", "cu ft", "cu. ft.", "cubic foot", "cubic feet"),
    "100 ft3": ("ccf",),
    "1000 ft3": ("mcf",),
    "kg": ("kg", "kilogram", "kilograms", "kilo", "kilos"),
    "g": ("g", "gram", "grams"),
    "lb": ("lb", "lbs", "pound", "pounds"),
}
_BY_WORD = {word: unit for unit, words in _UNITS.items() for word in words}
_AMOUNT = re.compile(r"(?P<amount>[+-]?\d[\d.,' ]*?) ?(?P<unit>[^\d\s.,'].*)")
_MULTIPLE = re.compile(r"(?P<many>1,?000|100) (?P<unit>[^\d].*)")
_STATE = re.compile(r"(?P<unit>.*?) ?(?:\((?P<inside>[^()]*)\)|(?:at|@) (?P<after>.*))")
_TEMPERATURES = {"0c": "0C", "15c": "15C", "20c": "20C", "60f": "60F", "70f": "70F"}
_PRESSURES = {
    "1bar": "1bar",
    "1.000bar": "1bar",
    "100kpa": "1bar",
    "1atm": "1atm",
    "101.325kpa": "1atm",
    "1013mbar": "1atm",
    "1013.25mbar": "1atm",
    "1.013bar": "1atm",
    "1.01325bar": "1atm",
    "14.7psia": "1atm",
    "14.696psia": "1atm",
    "14.73psia": "14.73psi",
}


@dataclass(frozen=True, slots=True)
class GasUnitText:
    """A unit that gas is sold in, as it was printed."""

    unit: str
    """A key of ``units.GAS_UNITS``."""
    state: ReferenceState | None
    """What the text says; None for a mass, or where a volume is printed without its state."""

    @property
    def lacks_state(self) -> bool:
        """Whether it is a volume without a reference state."""
        known = GAS_UNITS[self.unit]
        return not known.is_mass and known.state is None and self.state is None


def read_gas_unit(text: str) -> GasUnitText:
    """Return the unit and reference state that a text names.

    Parameters
    ----------
    text : str
        Such as ``100 ft³ (70 °F, 1 atm)``, ``Nm³``, ``kg``, ``m3 at 15 C and 1 bar``.

    Returns
    -------
    GasUnitText

    Raises
    ------
    ValueError
        When the unit or the state is not one of the known ones.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> read_gas_unit("100 ft³ (70 °F, 1 atm)").state.value
    '70F_1atm'
    >>> read_gas_unit("m³").lacks_state, read_gas_unit("Nm³").lacks_state
    (True, False)
    """
    said = _plain(text)
    match = _STATE.fullmatch(said)
    state = _state(match["inside"] or match["after"] or "", text) if match else None
    word = match["unit"].strip() if match else said
    many = _MULTIPLE.fullmatch(word)
    unit = _BY_WORD.get(many["unit"] if many else word)
    if many and unit is not None:
        unit = f"{many['many'].replace(',', '')} {unit}"
    if unit is None or unit not in GAS_UNITS:
        raise ValueError(f"{text!r} is not a unit of gas")
    known = GAS_UNITS[unit]
    if state is not None and (known.is_mass or known.state not in (None, state)):
        raise ValueError(f"{text!r} states a temperature and pressure that its unit does not take")
    return GasUnitText(unit, state)


def read_gas_amount(text: str, decimal: str = "") -> tuple[float, GasUnitText]:
    """Return the number and the unit that a text such as ``10.6 m³ (15 °C, 1 bar)`` states.

    Parameters
    ----------
    text : str
        A number, then a unit.
    decimal : str
        The decimal mark, where the file itself shows it.

    Returns
    -------
    tuple of (float, GasUnitText)

    Raises
    ------
    ValueError
        When the text is not a number and a unit.

    Notes
    -----
    ``2 100 ft3`` is not taken apart: the number before ``100 ft3`` is read with its groups, so it is 2100 ft³.
    Source: definition.

    Examples
    --------
    >>> amount, unit = read_gas_amount("10,6 Nm³")
    >>> amount, unit.unit
    (10.6, 'Nm3')
    """
    match = _AMOUNT.fullmatch(_plain(text))
    if match is None:
        raise ValueError(f"{text!r} is not an amount of gas")
    return read_number_text(match["amount"], decimal), read_gas_unit(match["unit"])


def _plain(text: str) -> str:
    return plain_text(text).replace("³", "3").replace("°", "").casefold()


def _state(said: str, text: str) -> ReferenceState:
    parts = [re.sub(r"\s", "", part) for part in re.split(r",(?!\d)|;| and |/|\+", said) if part.strip()]
    temperature = next((_TEMPERATURES[part] for part in parts if part in _TEMPERATURES), "")
    pressure = next((_PRESSURES[part] for part in parts if part in _PRESSURES), "")
    found = {state.value: state for state in ReferenceState}.get(f"{temperature}_{pressure}")
    if found is None or len(parts) != 2:
        known = "; ".join(state.label for state in ReferenceState)
        raise ValueError(f"{text!r}: the reference state must be one of {known}")
    return found
