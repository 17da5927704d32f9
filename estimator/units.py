"""Factors from the units a shop writes to the house units, and gas amounts between reference states, by mass.

The factors are plain numbers so that no unit library is loaded on the way to a price; a test holds each to Pint.
Reading text is left to ``read``; a unit arrives here by one of the names in ``FACTORS``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from estimator.reference import gas_density_kg_m3

__all__ = [
    "FACTORS",
    "GAS_UNITS",
    "HOUSE_STATE",
    "GasUnit",
    "ReferenceState",
    "celsius",
    "fahrenheit",
    "gas_amount",
    "gas_mass_kg",
    "gas_volume_m3",
    "to_house",
]

_FT3_M3 = 0.3048**3
_LB_KG = 0.45359237
_PSI_BAR = 0.06894757293168361


class ReferenceState(StrEnum):
    """A temperature and pressure at which a gas volume is stated; the value is the key in ``gas_densities.csv``."""

    label: str

    C0_ATM = "0C_1atm", "0 °C, 101.325 kPa"
    C15_BAR = "15C_1bar", "15 °C, 1 bar"
    C15_ATM = "15C_1atm", "15 °C, 101.325 kPa"
    C20_ATM = "20C_1atm", "20 °C, 101.325 kPa"
    F60_ATM = "60F_1atm", "60 °F, 1 atm"
    F60_PIPED = "60F_14.73psi", "60 °F, 14.73 psia"
    F70_ATM = "70F_1atm", "70 °F, 1 atm"

    def __new__(cls, value: str, label: str) -> ReferenceState:
        """Keep the words that people read beside the key."""
        member = str.__new__(cls, value)
        member._value_ = value
        member.label = label
        return member


HOUSE_STATE = ReferenceState.C15_ATM
"""Every gas volume inside the engine (ISO 13443 reference conditions)."""

FACTORS: Mapping[str, Mapping[str, float]] = MappingProxyType(
    {
        "length_mm": {
            "mm": 1.0,
            "cm": 10.0,
            "m": 1000.0,
            "in": 25.4,
            "ft": 304.8,
            "yd": 914.4,
        },
        "mass_kg": {"kg": 1.0, "g": 0.001, "t": 1000.0, "lb": _LB_KG, "oz": _LB_KG / 16, "short ton": 2000 * _LB_KG},
        "pressure_bar": {
            "bar": 1.0,
            "mbar": 0.001,
            "Pa": 1e-5,
            "kPa": 0.01,
            "MPa": 10.0,
            "psi": _PSI_BAR,
            "atm": 1.01325,
            "kgf/cm2": 0.980665,
        },
        "volume_m3": {"m3": 1.0, "L": 0.001, "ft3": _FT3_M3, "in3": 0.0254**3, "gal": 231 * 0.0254**3},
        "flow_m3_h": {
            "m3/h": 1.0,
            "m3/min": 60.0,
            "L/h": 0.001,
            "L/min": 0.06,
            "ft3/h": _FT3_M3,
            "ft3/min": 60 * _FT3_M3,
        },
        "speed_mm_min": {
            "mm/min": 1.0,
            "mm/s": 60.0,
            "m/min": 1000.0,
            "m/h": 1000.0 / 60.0,
            "in/min": 25.4,
            "ft/min": 304.8,
        },
        "time_min": {"min": 1.0, "s": 1.0 / 60.0, "h": 60.0},
        "energy_mj": {"MJ": 1.0, "kJ": 0.001, "kWh": 3.6, "Btu": 1055.05585262e-6},
        "area_m2": {"m2": 1.0, "mm2": 1e-6, "cm2": 1e-4, "in2": 0.0254**2, "ft2": 0.3048**2},
    }
)
"""House quantity (its unit in its name) → unit → factor. A flow stays at its own state; none is changed here."""


@dataclass(frozen=True, slots=True)
class GasUnit:
    """A unit in which an amount of gas is sold: a volume, which needs a reference state, or a mass, which does not."""

    factor: float
    """m³ for a volume, kg for a mass."""
    is_mass: bool = False
    state: ReferenceState | None = None
    """Set where the unit itself says its state."""


GAS_UNITS: Mapping[str, GasUnit] = MappingProxyType(
    {
        "m3": GasUnit(1.0),
        "Nm3": GasUnit(1.0, state=ReferenceState.C0_ATM),  # normal cubic metre, DIN 1343: 0 °C, 101.325 kPa
        "L": GasUnit(0.001),
        "ft3": GasUnit(_FT3_M3),
        "100 ft3": GasUnit(100 * _FT3_M3),
        "1000 ft3": GasUnit(1000 * _FT3_M3),
        "kg": GasUnit(1.0, is_mass=True),
        "g": GasUnit(0.001, is_mass=True),
        "lb": GasUnit(_LB_KG, is_mass=True),
    }
)


def to_house(quantity: str, amount: float, unit: str) -> float:
    """Return an amount in the house unit of its quantity.

    Parameters
    ----------
    quantity : str
        House quantity with its unit, such as ``pressure_bar``.
    amount : float
        Amount in ``unit``.
    unit : str
        A unit of that quantity.

    Returns
    -------
    float
        Amount in the house unit.

    Raises
    ------
    ValueError
        When the quantity or the unit is not known.

    Notes
    -----
    Source: SI definitions; international yard and pound (1959).

    Examples
    --------
    >>> to_house("length_mm", 0.5, "in")
    12.7
    """
    return amount * _factor(quantity, unit)


def celsius(fahrenheit: float) -> float:
    """Return degrees Celsius for degrees Fahrenheit."""
    return (fahrenheit - 32.0) / 1.8


def fahrenheit(celsius: float) -> float:
    """Return degrees Fahrenheit for degrees Celsius."""
    return celsius * 1.8 + 32.0


def gas_mass_kg(amount: float, *, unit: str, gas: str, state: ReferenceState | None) -> float:
    """Return the mass of an amount of gas.

    Parameters
    ----------
    amount : float
        Amount in ``unit``.
    unit : str
        A key of ``GAS_UNITS``.
    gas : str
        A gas of ``gas_densities.csv``.
    state : ReferenceState or None
        State of a volume; None for a mass, or where the unit says it (Nm3).

    Returns
    -------
    float
        Mass [kg].

    Raises
    ------
    ValueError
        When the unit or gas is unknown, a volume has no state, or the state contradicts the unit.

    Notes
    -----
    A state is never guessed: the same number in another state is 0.4 to 7 % of other gas.
    Source: definition; densities from ``gas_densities.csv``.

    Examples
    --------
    >>> round(gas_mass_kg(100, unit="ft3", gas="oxygen", state=ReferenceState.F70_ATM), 3)
    3.755
    """
    known = _gas_unit(unit)
    if known.is_mass:
        return amount * known.factor
    return amount * known.factor * gas_density_kg_m3(gas, _state(unit, known, state))


def gas_volume_m3(amount: float, *, unit: str, gas: str, state: ReferenceState | None) -> float:
    """Return an amount of gas as the house volume, cubic metres at 15 °C and 101.325 kPa, converted by mass.

    Parameters
    ----------
    amount, unit, gas, state
        As for ``gas_mass_kg``.

    Returns
    -------
    float
        Volume at 15 °C and 101.325 kPa [m³].

    Raises
    ------
    ValueError
        As for ``gas_mass_kg``.

    Notes
    -----
    Source: definition; densities from ``gas_densities.csv``.

    Examples
    --------
    >>> round(gas_volume_m3(100, unit="ft3", gas="oxygen", state=ReferenceState.F70_ATM), 4)
    2.7727
    """
    mass_kg = gas_mass_kg(amount, unit=unit, gas=gas, state=state)
    return mass_kg / gas_density_kg_m3(gas, HOUSE_STATE)


def gas_amount(volume_m3: float, *, unit: str, gas: str, state: ReferenceState | None) -> float:
    """Return a house volume of gas in another unit and reference state; the way back of ``gas_volume_m3``.

    Parameters
    ----------
    volume_m3 : float
        Volume at 15 °C and 101.325 kPa [m³].
    unit, gas, state
        As for ``gas_mass_kg``.

    Returns
    -------
    float
        Amount in ``unit``.

    Raises
    ------
    ValueError
        As for ``gas_mass_kg``.

    Notes
    -----
    Source: definition; densities from ``gas_densities.csv``.

    Examples
    --------
    >>> round(gas_amount(1.0, unit="kg", gas="propane", state=None), 4)
    1.8992
    """
    return volume_m3 / gas_volume_m3(1.0, unit=unit, gas=gas, state=state)


def _factor(quantity: str, unit: str) -> float:
    if quantity not in FACTORS:
        raise ValueError(f"quantity must be one of {', '.join(FACTORS)}, got {quantity!r}")
    if unit not in FACTORS[quantity]:
        raise ValueError(f"unit of {quantity} must be one of {', '.join(FACTORS[quantity])}, got {unit!r}")
    return FACTORS[quantity][unit]


def _gas_unit(unit: str) -> GasUnit:
    if unit not in GAS_UNITS:
        raise ValueError(f"unit of a gas must be one of {', '.join(GAS_UNITS)}, got {unit!r}")
    return GAS_UNITS[unit]


def _state(unit: str, known: GasUnit, state: ReferenceState | None) -> ReferenceState:
    if known.state is not None and state not in (None, known.state):
        raise ValueError(f"{unit} is stated at {known.state.label}, not at {state.label if state else state}")
    found = known.state or state
    if found is None:
        raise ValueError(f"an amount of gas in {unit} needs its reference state (temperature and pressure)")
    return found
