"""Figures as a shop is shown them: metric, or inches, feet, pounds, psi and cubic feet, as its shop book says."""

from __future__ import annotations

from dataclasses import dataclass

from estimator.shop_units import from_house_unit, inch_unit
from estimator.units import ReferenceState, gas_amount

__all__ = ["INCH", "METRIC", "ShownUnits", "shown_units"]


@dataclass(frozen=True, slots=True)
class ShownUnits:
    """One system of units for all that is printed."""

    inch: bool = False

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

    def gas(self, volume_m3: float, gas: str) -> float:
        """Return a volume of gas as the trade counts it: cubic feet at 70 °F and 1 atm, by mass, or cubic metres.

        Parameters
        ----------
        volume_m3 : float
            Volume at 15 °C and 101.325 kPa [m³].
        gas : str
            Oxygen or a fuel.

        Returns
        -------
        float
            Volume [ft³ at 70 °F, 1 atm, or m³ at 15 °C, 101.325 kPa].

        Notes
        -----
        The state of cubic feet is common practice, no source.

        Examples
        --------
        >>> round(INCH.gas(1.0, "oxygen"), 2), METRIC.gas(1.0, "oxygen")
        (36.07, 1.0)
        """
        if not self.inch:
            return volume_m3
        return gas_amount(volume_m3, unit="ft3", gas=gas, state=ReferenceState.F70_ATM)

    def gas_words(self, volume_m3: float, gas: str) -> str:
        """Return a volume of gas with its unit."""
        places = ".1f" if self.inch else ".2f"
        return f"{self.gas(volume_m3, gas):{places}} {self.unit('m³')}"


METRIC, INCH = ShownUnits(), ShownUnits(inch=True)


def shown_units(setting: str) -> ShownUnits:
    """Return the system of a shop book's setting, ``mm`` or ``in``."""
    return INCH if setting == "in" else METRIC
