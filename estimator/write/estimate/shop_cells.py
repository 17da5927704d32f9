"""Cells in the shop's own units over formulas that work in the house's.

A name of a cell or of a column always holds what it says (``tip_kerf_mm`` is in mm). Where a shop is shown another
unit, as an inch shop is and as each shop is of a gas whose bottle is stated by weight, a formula that takes the shown
cell multiplies by the cell that holds the factor, one that gives it divides by it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.job import Estimate
from estimator.rate_units import UNIT_FACTORS, RateUnit, UnitFactor, inch_rate_unit, inch_words
from estimator.units import HOUSE_STATE, ReferenceState, gas_volume_m3

__all__ = ["AS_HOUSE", "CellUnit", "ShopCells"]

Figure = TypeVar("Figure", float, NDArray[np.float64])

_TOKENS = {"mm": "in", "m": "ft", "m3": "ft3", "kg": "lb", "cm3": "in3", "l": "in3"}
"""Part of a column's name that says its house unit → part of the name in the shop's."""
_NUMBERS = {"in/min": "#,##0.0"}
"""Number formats of units in which a figure has other places than in the house unit."""
_MASSES = {"kg": "kilogram", "lb": "pound"}
_BY_VOLUME = ("kg", "kg/m³")
"""Units of a gas that are no amount of its volume, and no price for one."""
_SOLD_AT = ReferenceState.F70_ATM
"""The state of cubic feet as they are sold: common practice, no source."""


@dataclass(frozen=True, slots=True)
class CellUnit:
    """The unit in which a cell shows a figure of the house."""

    unit: str = ""
    factors: tuple[tuple[str, float, int], ...] = ()
    """Name, value and power, 1 or -1, of each factor from the shown unit to the house unit."""

    @property
    def is_turned(self) -> bool:
        """Say whether the shown figure differs from the one of the house."""
        return bool(self.factors)

    def shown(self, value: Figure) -> Figure:
        """Return a figure of the house as the cell shows it."""
        for _, factor, power in self.factors:
            value = value / factor if power > 0 else value * factor
        return value

    def house(self, value: Figure) -> Figure:
        """Return a shown figure in the house unit."""
        for _, factor, power in self.factors:
            value = value * factor if power > 0 else value / factor
        return value

    def in_house(self, shown: str) -> str:
        """Return the text of a product or cell in the shown unit, turned into the house unit."""
        return shown + "".join(f"{'*' if power > 0 else '/'}{name}" for name, _, power in self.factors)

    def in_shown(self, house: str) -> str:
        """Return the text of a formula in the house unit, turned into the shown unit."""
        if not self.factors:
            return house
        product = house if house.replace("_", "").isalnum() else f"({house})"
        return product + "".join(f"{'/' if power > 0 else '*'}{name}" for name, _, power in self.factors)

    def name(self, house_name: str) -> str:
        """Return the name of a cell or column that shows this unit: ``cut_m`` is ``cut_ft`` where it holds feet."""
        if not self.factors:
            return house_name
        tokens = {**_TOKENS, "m3": self.unit} if self.unit in _MASSES else _TOKENS
        return "_".join(tokens.get(part, part) for part in house_name.split("_"))

    def number(self, number: str) -> str:
        """Return the number format of the shown figure from that of the figure of the house."""
        if not self.factors:
            return number
        return _NUMBERS.get(self.unit, "0.0###" if number == "General" else number)


AS_HOUSE = CellUnit()
"""A cell that shows the figure of the house."""


@dataclass(frozen=True, slots=True)
class ShopCells:
    """The units of an estimate's cells: the house's own or those of an inch shop, and a gas by its bottle's weight."""

    is_inch: bool = False
    factors: Mapping[str, UnitFactor] = field(default_factory=dict)
    """Factors by name to the house's units, where others are shown."""
    by_mass: Mapping[str, str] = field(default_factory=dict)
    """``oxygen`` or ``fuel`` → ``kg`` or ``lb``, where its bottle is stated by weight."""

    @classmethod
    def of_job(cls, estimate: Estimate) -> ShopCells:
        """Return the units of a job, as its shop book says."""
        shown = estimate.shop.shown
        gases = {"oxygen": estimate.rates.oxygen.gas, "fuel": estimate.rates.fuel.gas}
        masses = {key: unit for key, gas in gases.items() if (unit := shown.gas_unit(gas)) in _MASSES}
        factors = [*UNIT_FACTORS.values(), *(_sold(key, gas) for key, gas in gases.items())] if shown.inch else []
        factors += [_weighed(key, gases[key], mass) for key, mass in masses.items()]
        return cls(shown.inch, {factor.name: factor for factor in factors}, masses)

    def of(self, house: str, gas: str = "", *, by_volume: bool = False) -> CellUnit:
        """Return the unit of a cell.

        Parameters
        ----------
        house : str
            House unit as the sheet states it.
        gas : str
            ``oxygen`` or ``fuel`` for an amount of gas, which is shown as the shop counts it: by its bottle's weight,
            else in an inch shop in cubic feet at 70 °F and 1 atm. A flow keeps its own state and names no gas.
        by_volume : bool
            Whether it is shown by volume all the same.

        Returns
        -------
        CellUnit
        """
        unit = RateUnit(house)
        if gas in self.by_mass and house not in _BY_VOLUME and not by_volume:
            unit = _by_mass(house, gas, self.by_mass[gas])
        elif self.is_inch:
            unit = _by_feet(house, gas) if gas else inch_rate_unit(house)
        return CellUnit(unit.unit, tuple((name, self.factors[name].value, power) for name, power in unit.powers))

    def words(self, text: str) -> str:
        """Return a sentence of our own in the shop's units, rounded for reading."""
        return inch_words(text) if self.is_inch else text

    def named_factors(self) -> tuple[UnitFactor, ...]:
        """Return the factors that have a cell: all that formulas take, and the two that a metric shop reads."""
        read = {name: UNIT_FACTORS[name] for name in ("mm_per_inch", "bar_per_psi")}
        return tuple({**read, **self.factors}.values())


def _sold(key: str, gas: str) -> UnitFactor:
    """Return the factor from cubic feet of a gas as they are sold to cubic metres of the house."""
    foot = gas_volume_m3(1.0, unit="ft3", gas=gas, state=_SOLD_AT)
    return UnitFactor(f"{key}_m3_per_ft3", f"{_m3_of(gas)} in a cubic foot at {_SOLD_AT.label}", foot, "m³/ft³")


def _weighed(key: str, gas: str, mass: str) -> UnitFactor:
    """Return the factor from a weight of a gas to cubic metres of the house, by the table of densities."""
    volume = gas_volume_m3(1.0, unit=mass, gas=gas, state=None)
    return UnitFactor(f"{key}_m3_per_{mass}", f"{_m3_of(gas)} in a {_MASSES[mass]}", volume, f"m³/{mass}")


def _m3_of(gas: str) -> str:
    return f"{gas[:1].upper()}{gas[1:]}: m³ at {HOUSE_STATE.label}"


def _by_mass(house: str, gas: str, mass: str) -> RateUnit:
    """Return the unit of an amount of gas whose bottle is stated by weight, or of a price for it."""
    start = "per " if house.startswith("per ") else ""
    return RateUnit(f"{start}{mass}", ((f"{gas}_m3_per_{mass}", -1 if start else 1),))


def _by_feet(house: str, gas: str) -> RateUnit:
    """Return the unit of an amount of gas in an inch shop, of a price for it, or of its density."""
    foot = f"{gas}_m3_per_ft3"
    if house == "kg/m³":
        return RateUnit("lb/ft³", (("kg_per_lb", 1), (foot, -1)))
    if house == "kg":
        return inch_rate_unit(house)
    start = "per " if house.startswith("per ") else ""
    stated = " (70 °F, 1 atm)" if "(" in house else ""
    return RateUnit(f"{start}ft³{stated}", ((foot, -1 if start else 1),))
