"""Units of rates and quantities, simple and made of several, as an inch shop has them; each factor has a name.

A workbook writes each factor once, in a cell of that name, and its formulas take it from there.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from estimator.shop_units import inch_unit
from estimator.units import FACTORS

__all__ = ["UNIT_FACTORS", "RateUnit", "UnitFactor", "inch_rate_unit", "inch_words"]


@dataclass(frozen=True, slots=True)
class UnitFactor:
    """How many of a house unit are in one of the other."""

    name: str
    what: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class RateUnit:
    """A unit that stands instead of a house unit."""

    unit: str
    powers: tuple[tuple[str, int], ...] = ()
    """Factors by name, each with 1 or -1: a figure of this unit times them is in the house unit. None where only the
    word differs."""

    def shown(self, value: float) -> float:
        """Return a figure of the house unit in this unit."""
        for name, power in self.powers:
            value = value / UNIT_FACTORS[name].value if power > 0 else value * UNIT_FACTORS[name].value
        return value

    def house(self, value: float) -> float:
        """Return a figure of this unit in the house unit."""
        for name, power in self.powers:
            value = value * UNIT_FACTORS[name].value if power > 0 else value / UNIT_FACTORS[name].value
        return value


_FACTORS = (
    UnitFactor("mm_per_inch", "Millimetres in an inch", FACTORS["length_mm"]["in"], "mm/in"),
    UnitFactor("bar_per_psi", "Bar in a pound per square inch", FACTORS["pressure_bar"]["psi"], "bar/psi"),
    UnitFactor("m_per_ft", "Metres in a foot", FACTORS["length_mm"]["ft"] / 1000.0, "m/ft"),
    UnitFactor("kg_per_lb", "Kilograms in a pound", FACTORS["mass_kg"]["lb"], "kg/lb"),
    UnitFactor("cm2_per_in2", "Square centimetres in a square inch", 6.4516, "cm²/in²"),
    UnitFactor("cm3_per_in3", "Cubic centimetres in a cubic inch", 16.387064, "cm³/in³"),
    UnitFactor("litres_per_in3", "Litres in a cubic inch", 0.016387064, "l/in³"),
    UnitFactor("m3_per_ft3", "Cubic metres in a cubic foot", FACTORS["volume_m3"]["ft3"], "m³/ft³"),
    UnitFactor("kelvin_per_degree_f", "Kelvins in a degree Fahrenheit", 5.0 / 9.0, "K/°F"),
    # A Btu of the International Table for a pound is 2326 J/kg exactly (NIST SP 811:2008, appendix B; from memory).
    UnitFactor("mj_kg_per_btu_lb", "Megajoules a kilogram in a Btu a pound", 0.002326, "MJ lb/(kg Btu)"),
)
UNIT_FACTORS: Mapping[str, UnitFactor] = MappingProxyType({factor.name: factor for factor in _FACTORS})

_MM, _M, _KG = ("mm_per_inch", 1), ("m_per_ft", 1), ("kg_per_lb", 1)
_A_MM, _A_M, _A_KG = ("mm_per_inch", -1), ("m_per_ft", -1), ("kg_per_lb", -1)
_SIMPLE: Mapping[str, tuple[str, int]] = MappingProxyType(
    {
        "mm": _MM,
        "m": _M,
        "kg": _KG,
        "bar": ("bar_per_psi", 1),
        "mm/min": _MM,
        "m³/h": ("m3_per_ft3", 1),
        "per kg": _A_KG,
    }
)
"""Factor of the units that a person types too; ``shop_units`` says which unit stands instead."""
_INCH: Mapping[str, RateUnit] = MappingProxyType(
    {
        **{house: RateUnit(inch_unit(house), (factor,)) for house, factor in _SIMPLE.items()},
        "cm³": RateUnit("in³", (("cm3_per_in3", 1),)),
        "litres": RateUnit("in³", (("litres_per_in3", 1),)),
        "min/m": RateUnit("min/ft", (_A_M,)),
        "m³/h, 15 °C, 1 atm": RateUnit("ft³/h, 59 °F", (("m3_per_ft3", 1),)),
        "min per m": RateUnit("min per ft", (_A_M,)),
        "min per m of cut": RateUnit("min per ft of cut", (_A_M,)),
        "min per m of edge": RateUnit("min per ft of edge", (_A_M,)),
        "min per m per mm": RateUnit("min per ft per in", (_A_M, _A_MM)),
        "min per mm of head": RateUnit("min per in of head", (_A_MM,)),
        "min per kg": RateUnit("min per lb", (_A_KG,)),
        "min per cm3": RateUnit("min per in3", (("cm3_per_in3", -1),)),
        "cm2 per min": RateUnit("in2 per min", (("cm2_per_in2", 1),)),
        "kg per m3": RateUnit("lb per ft3", (_KG, ("m3_per_ft3", -1))),
        "bar gauge": RateUnit("psi gauge", (("bar_per_psi", 1),)),
        "degrees C": RateUnit("degrees F", (("kelvin_per_degree_f", 1),)),
        "MJ per kg": RateUnit("Btu per lb", (("mj_kg_per_btu_lb", 1),)),
        "m3 per m3 fuel": RateUnit("ft3 per ft3 fuel"),
        "share per metre": RateUnit("share per foot"),
    }
)
"""House unit as a sheet states it → unit of an inch shop. A flow keeps its own reference state; degrees are those by
which a temperature may be out."""
_WITH_UNIT = re.compile(r"(\d+(?:\.\d+)?) (mm|kg)\b")
_PLACES = {"mm": ".3g", "kg": ".2g"}
_WORDS = (("cubic metre", "cubic foot"), ("cubic foots", "cubic feet"), ("kilograms", "pounds"))


def inch_rate_unit(house: str) -> RateUnit:
    """Return the unit of an inch shop instead of a house unit; itself where there is no other.

    Parameters
    ----------
    house : str
        House unit as a sheet states it.

    Returns
    -------
    RateUnit

    Notes
    -----
    Source: ``units.FACTORS``; NIST SP 811:2008, appendix B (from memory) for in², in³ and Btu/lb.

    Examples
    --------
    >>> inch_rate_unit("min per m of cut").unit, inch_rate_unit("min").unit
    ('min per ft of cut', 'min')
    """
    return _INCH.get(house, RateUnit(house))


def inch_words(text: str) -> str:
    """Return a sentence of our own with its figures and words as an inch shop reads them, rounded for reading.

    Parameters
    ----------
    text : str
        Such as ``Edge start at 100 mm``.

    Returns
    -------
    str

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> inch_words("Slag and edge cleaning above 30 mm"), inch_words("every piece over 25 kg")
    ('Slag and edge cleaning above 1.18 in', 'every piece over 55 lb')
    """

    def turned(found: re.Match[str]) -> str:
        unit = inch_rate_unit(found[2])
        return f"{unit.shown(float(found[1])):{_PLACES[found[2]]}} {unit.unit}"

    for metric, inch in _WORDS:
        text = text.replace(metric, inch)
    return _WITH_UNIT.sub(turned, text)
