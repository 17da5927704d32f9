"""Figures as a shop is shown them: metric, or inches, feet, pounds, psi and cubic feet, as its shop book says.

A gas whose bottle is stated by weight is shown by weight.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from estimator.shop_units import from_house_unit, inch_unit
from estimator.units import ReferenceState, gas_amount

__all__ = ["INCH", "METRIC", "ShownUnits", "shown_units"]

_MASSES = ("kg", "lb")


@dataclass(frozen=True, slots=True)
class ShownUnits:
    """One system of units for all that is printed."""

    inch: bool = False
    by_mass: frozenset[tuple[str, str]] = frozenset()
    """Gas, and ``kg`` or ``lb``, of each whose bottle the shop states by weight."""

    def unit(self, house: str) -> str:
        """Return the unit that is shown for a house unit such as ``mm``, ``m``, ``kg``, ``bar``, ``m³`` or ``m³/h``."""
        return inch_unit(house) if self.inch else house

    def number(self, value: float, house: str) -> float:
        """Return a figure of a house unit in the unit that is shown."""
        return from_house_unit(value, self.unit(house), house)

    def words(self, value: float, house: str, places: str = ".4g") -> str:
        """Return a figure with its unit.

        Parameters
        ----------
        value : float
            In the house unit.
        house : str
            That unit, as for ``unit``.
        places : str
            Format of the number.

        Returns
        -------
        str

        Notes
        -----
        Source: definition.

        Examples
        --------
        >>> INCH.words(19.05, "mm"), METRIC.words(19.05, "mm"), INCH.words(10, "bar", ".0f")
        ('0.75 in', '19.05 mm', '145 psi')
        """
        return f"{self.number(value, house):{places}} {self.unit(house)}"

    def gas_unit(self, gas: str) -> str:
        """Return the unit that a gas is shown in: its bottle's ``kg`` or ``lb``, else ``m³`` or ``ft³``."""
        return dict(self.by_mass).get(gas) or self.unit("m³")

    def gas_units(self, gases: Iterable[str]) -> str:
        """Return the units of several gases of one table, as its headings say them: ``m³``, or ``m³ or kg``."""
        return " or ".join(dict.fromkeys(self.gas_unit(gas) for gas in gases)) or self.unit("m³")

    def gas_places(self, gas: str) -> str:
        """Return the format of an amount of gas in a column of a table."""
        return {"ft³": ".0f", "lb": ".1f"}.get(self.gas_unit(gas), ".2f")

    def gas_named(self, gas: str) -> str:
        """Return a gas as a row of a table of several names it: with its unit where they differ."""
        return f"{gas}, {self.gas_unit(gas)}" if self.by_mass else gas

    def gas(self, volume_m3: float, gas: str) -> float:
        """Return an amount of gas as the shop counts it: by its bottle's weight, else in cubic feet or cubic metres.

        Parameters
        ----------
        volume_m3 : float
            Volume at 15 °C and 101.325 kPa [m³].
        gas : str
            Oxygen or a fuel.

        Returns
        -------
        float
            Amount [kg or lb, ft³ at 70 °F, 1 atm, or m³ at 15 °C, 101.325 kPa].

        Notes
        -----
        The state of cubic feet is common practice, no source.

        Examples
        --------
        >>> round(INCH.gas(1.0, "oxygen"), 2), METRIC.gas(1.0, "oxygen")
        (36.07, 1.0)
        >>> round(shown_units("mm", {"propane": "kg"}).gas(1.0, "propane"), 2)
        1.9
        """
        unit = self.gas_unit(gas)
        if unit in _MASSES:
            return gas_amount(volume_m3, unit=unit, gas=gas, state=None)
        if not self.inch:
            return volume_m3
        return gas_amount(volume_m3, unit="ft3", gas=gas, state=ReferenceState.F70_ATM)

    def gas_words(self, volume_m3: float, gas: str) -> str:
        """Return an amount of gas with its unit."""
        unit = self.gas_unit(gas)
        places = ".1f" if unit in ("ft³", "lb") else ".2f"
        return f"{self.gas(volume_m3, gas):{places}} {unit}"

    def gas_price(self, cost_per_m3: float, gas: str) -> str:
        """Return what one unit of a gas costs, with its name."""
        return f"{gas} {cost_per_m3 / self.gas(1.0, gas):.3f} per {self.gas_unit(gas)}"


METRIC, INCH = ShownUnits(), ShownUnits(inch=True)
_NO_BOTTLES: Mapping[str, str] = MappingProxyType({})


def shown_units(setting: str, bottles: Mapping[str, str] = _NO_BOTTLES) -> ShownUnits:
    """Return the units of a shop.

    Parameters
    ----------
    setting : str
        Its shop book's, ``mm`` or ``in``.
    bottles : mapping of str to str
        Gas → unit of ``units.GAS_UNITS`` that its bottle is stated in.

    Returns
    -------
    ShownUnits

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> shown_units("in", {"propane": "lb", "oxygen": "ft3"}).gas_units(("oxygen", "propane"))
    'ft³ or lb'
    """
    by_mass = frozenset((gas, unit) for gas, unit in bottles.items() if unit in _MASSES)
    return ShownUnits(setting == "in", by_mass)
