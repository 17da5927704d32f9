"""The grammar of a gas amount as a shop types it: ``330 ft3 at 70 F, 1 atm``, ``11.3 m³ (15 °C, 1 bar)``, ``9.4 kg``.

Strict: what is not plainly an amount, a unit and a state is refused with the reason. A missing state stays missing; it
is never guessed, for the same number in another state is other gas.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from estimator.units import GAS_UNITS, ReferenceState, celsius, gas_volume_m3, to_house

__all__ = ["GasText", "NoGasUnitError", "gas_unit_of", "read_gas_text", "read_reference_state"]


class NoGasUnitError(ValueError):
    """An amount of gas whose unit is missing, or is none that gas is sold in."""


@dataclass(frozen=True, slots=True)
class GasText:
    """An amount of gas as it was stated."""

    amount: float
    unit: str
    """A key of ``units.GAS_UNITS``."""
    state: ReferenceState | None
    """None for a mass, and for a volume whose text does not say its state."""

    @property
    def lacks_state(self) -> bool:
        """Whether this is a volume without a state."""
        return self.state is None and not GAS_UNITS[self.unit].is_mass

    def volume_m3(self, gas: str, default_state: ReferenceState | None = None) -> float:
        """Return the house volume; ``default_state`` holds where the text says none, and is the caller's to show."""
        return gas_volume_m3(self.amount, unit=self.unit, gas=gas, state=self.state or default_state)


_CUBIC_FOOT = r"ft3|ft\^3|cu\.? ?ft\.?|cubic f(?:ee|oo)t|cf|scf"
_UNITS = {
    r"m3|m\^3|cbm|cu\.? ?m\.?|cubic met(?:er|re)s?": "m3",
    r"nm3|nm\^3|m3n|m3\(n\)": "Nm3",
    r"l|ltrs?\.?|lit(?:er|re)s?": "L",
    rf"100 ?(?:{_CUBIC_FOOT})|ccf|hcf": "100 ft3",
    rf"1,?000 ?(?:{_CUBIC_FOOT})|mcf": "1000 ft3",
    _CUBIC_FOOT: "ft3",
    r"kgs?\.?|kilos?|kilograms?": "kg",
    r"g|grams?": "g",
    r"lbs?\.?|pounds?": "lb",
}
_UNIT_PATTERNS = tuple((re.compile(rf"(?:{pattern})(?![\w^])"), unit) for pattern, unit in _UNITS.items())
_NO_ONE_STATE = re.compile(r"\b(?:n\.?t\.?p\.?|s\.?t\.?p\.?|s\.?a\.?t\.?p\.?|standard|sm3|std)\b")
_AMOUNT = re.compile(r"(\d+(?:[.,]\d+)?|[.,]\d+)(?![\d.,])\s*(?:x\s+)?(\S.*)")
_NUMBER = r"\d+(?:[.,]\d+)?"
_BARE = re.compile(rf"{_NUMBER}|[.,]\d+")
_TEMPERATURE = re.compile(rf"({_NUMBER})\s*°?\s*(?:deg(?:rees)?\.?\s*)?([cf])\b")
_PRESSURE = re.compile(rf"({_NUMBER})\s*(bara?|mbar|hpa|kpa|pa|psia?|atma?|mmhg|inhg|in hg|torr)\b")
_BETWEEN = re.compile(r"^(?:at|and|abs(?:olute)?|dry|reference|[\s,;/&@()\[\]])*$")
_HPA = {"mbar": 1.0, "hpa": 1.0, "kpa": 10.0, "pa": 0.01, "mmhg": 1.333224, "torr": 1.333224, "inhg": 33.86389}
_STATES_C_HPA = {
    ReferenceState.C0_ATM: (0.0, 1013.25),
    ReferenceState.C15_BAR: (15.0, 1000.0),
    ReferenceState.C15_ATM: (15.0, 1013.25),
    ReferenceState.C20_ATM: (20.0, 1013.25),
    ReferenceState.F60_ATM: (celsius(60.0), 1013.25),
    ReferenceState.F60_PIPED: (celsius(60.0), 1015.598),
    ReferenceState.F70_ATM: (celsius(70.0), 1013.25),
}
_NEAR_C, _NEAR_HPA = 0.12, 1.0
_NAMED = {
    re.compile(r"iso 13443"): ReferenceState.C15_ATM,
    re.compile(r"din 1343"): ReferenceState.C0_ATM,
}


def read_gas_text(text: str) -> GasText:
    """Return the amount, unit and reference state that a text states.

    Parameters
    ----------
    text : str
        Such as ``330 ft3 at 70 F, 1 atm`` or ``9.4 kg``.

    Returns
    -------
    GasText
        With ``state`` None where a volume's text does not say it.

    Raises
    ------
    NoGasUnitError
        When a number stands alone, or the word behind it is no unit of gas.
    ValueError
        When the amount or the state cannot be read; the message says which and why.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> read_gas_text("330 ft³ at 70 °F, 1 atm")
    GasText(amount=330.0, unit='ft3', state=<ReferenceState.F70_ATM: '70F_1atm'>)
    >>> read_gas_text("50 kg").state is None, read_gas_text("250 cf").lacks_state
    (True, True)
    """
    said = _plain(text)
    amount = _AMOUNT.fullmatch(said)
    if amount is None and _BARE.fullmatch(said):
        raise NoGasUnitError(f"no unit in {text!r}")
    if amount is None:
        raise ValueError(f"no amount with a unit in {text!r}")
    unit, rest = _unit(amount[2], text)
    own = GAS_UNITS[unit].state
    state = read_reference_state(rest) or own
    if own is not None and state is not own:
        raise ValueError(f"{unit} is stated at {own.label}, but {text!r} says {state.label if state else ''}")
    return GasText(_number(amount[1], text), unit, None if GAS_UNITS[unit].is_mass else state)


def read_reference_state(text: str) -> ReferenceState | None:
    """Return the reference state that a text states; None where it states none.

    Parameters
    ----------
    text : str
        Such as ``15 °C, 1 bar``, ``70F 14.7 psia``, ``(0 C, 101.325 kPa)``, ``DIN 1343``; a temperature and a pressure.

    Returns
    -------
    ReferenceState or None

    Raises
    ------
    ValueError
        When only one of temperature and pressure stands there, the pair is not one that the density table holds, or the
        words name no one state (NTP, STP).

    Notes
    -----
    A pressure counts as a state's own within 1 hPa (14.7 psi is one atmosphere, one bar is not). Source: definition.

    Examples
    --------
    >>> read_reference_state("15 °C and 1 bar").label, read_reference_state("")
    ('15 °C, 1 bar', None)
    """
    said = _plain(text)
    for named, state in _NAMED.items():
        if named.search(said):
            said, found = named.sub(" ", said), state
            break
    else:
        found = None
    if vague := _NO_ONE_STATE.search(said):
        raise ValueError(f"{vague[0]!r} names no one temperature and pressure")
    temperature, pressure = _TEMPERATURE.search(said), _PRESSURE.search(said)
    rest = _PRESSURE.sub(" ", _TEMPERATURE.sub(" ", said, count=1), count=1)
    if not _BETWEEN.match(rest):
        raise ValueError(f"{rest.strip(' ,;()')!r} is not part of a reference state")
    if temperature is None and pressure is None:
        return found
    if temperature is None or pressure is None:
        raise ValueError(f"a reference state needs a temperature and a pressure, got {text.strip()!r}")
    stated = _nearest(_degrees(temperature), _hectopascal(pressure), text)
    if found not in (None, stated):
        raise ValueError(f"{text.strip()!r} names two reference states")
    return stated


def gas_unit_of(text: str) -> str:
    """Return the key of ``units.GAS_UNITS`` that a text names and nothing else; empty when it names none.

    Parameters
    ----------
    text : str
        A unit as typed.

    Returns
    -------
    str

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> [gas_unit_of(word) for word in ("cu ft", "CF", "cu m", "pounds", "bottles")]
    ['ft3', 'ft3', 'm3', 'lb', '']
    """
    try:
        unit, rest = _unit(_plain(text), text)
    except ValueError:
        return ""
    return "" if rest.strip() else unit


def _plain(text: str) -> str:
    """Return text in lower case with plain spaces, powers and signs."""
    said = text.casefold().replace("³", "3").replace("℃", "°c").replace("℉", "°f").replace("º", "°")
    return re.sub(r"\s+", " ", said).strip()


def _unit(said: str, text: str) -> tuple[str, str]:
    for pattern, unit in _UNIT_PATTERNS:
        if found := pattern.match(said):
            return unit, said[found.end() :]
    if vague := _NO_ONE_STATE.match(said):
        raise ValueError(f"{vague[0]!r} names no one temperature and pressure")
    raise NoGasUnitError(f"the unit in {text!r} is none of {', '.join(GAS_UNITS)}")


def _number(said: str, text: str) -> float:
    if re.fullmatch(r"[1-9]\d{0,2}[.,]\d{3}", said):
        raise ValueError(f"{said!r} in {text!r} can be read two ways: a mark before three digits")
    return float(said.replace(",", "."))


def _degrees(found: re.Match[str]) -> float:
    degrees = float(found[1].replace(",", "."))
    return celsius(degrees) if found[2] == "f" else degrees


def _hectopascal(found: re.Match[str]) -> float:
    value, unit = float(found[1].replace(",", ".")), found[2].replace(" ", "")
    if unit in _HPA:
        return value * _HPA[unit]
    return to_house("pressure_bar", value, unit.removesuffix("a") if unit != "pa" else unit) * 1000.0


def _nearest(degrees: float, hectopascal: float, text: str) -> ReferenceState:
    for state, (at_c, at_hpa) in _STATES_C_HPA.items():
        if abs(degrees - at_c) <= _NEAR_C and abs(hectopascal - at_hpa) <= _NEAR_HPA:
            return state
    known = "; ".join(state.label for state in ReferenceState)
    raise ValueError(f"the state in {text.strip()!r} is not one that gas is sold at here: {known}")
