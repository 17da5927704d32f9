"""Cells in the shop's own units over formulas that work in the house's.

A name of a cell or of a column always holds what it says (``tip_kerf_mm`` is in mm). Where an inch shop is shown
another unit, a formula that takes the shown cell multiplies by the cell that holds the factor, one that gives it
divides by it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.job import Estimate
from estimator.rate_units import UNIT_FACTORS, RateUnit, UnitFactor, inch_rate_unit, inch_words
from estimator.units import GAS_UNITS, HOUSE_STATE, ReferenceState, gas_volume_m3

__all__ = ["AS_HOUSE", "CellUnit", "ShopCells"]

Figure = TypeVar("Figure", float, NDArray[np.float64])

_TOKENS = {"mm": "in", "m": "ft", "m3": "ft3", "kg": "lb", "cm3": "in3", "l": "in3"}
"""Part of a column's name that says its house unit → part of the name in the shop's."""
_NUMBERS = {"in/min": "#,##0.0"}
"""Number formats of units in which a figure has other places than in the house unit."""
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
        return "_".join(_TOKENS.get(part, part) for part in house_name.split("_"))

    def number(self, number: str) -> str:
        """Return the number format of the shown figure from that of the figure of the house."""
        if not self.factors:
            return number
        return _NUMBERS.get(self.unit, "0.0###" if number == "General" else number)


AS_HOUSE = CellUnit()
"""A cell that shows the figure of the house."""


@dataclass(frozen=True, slots=True)
class ShopCells:
    """The units of an estimate's cells: the house's own, or those of an inch shop."""

    factors: Mapping[str, UnitFactor] | None = None
    """Factors of an inch shop by name; None for a metric one."""
    by_mass: frozenset[str] = frozenset()
    """Which of ``oxygen`` and ``fuel`` is bought by mass."""

    @classmethod
    def of_job(cls, estimate: Estimate) -> ShopCells:
        """Return the units of a job, as its shop book says."""
        if estimate.shop.shop.units != "in":
            return cls()
        gases = {"oxygen": estimate.rates.oxygen, "fuel": estimate.rates.fuel}
        sold = [_sold(key, gas.gas, gas.density_kg_m3) for key, gas in gases.items()]
        masses = frozenset(key for key, gas in gases.items() if GAS_UNITS[gas.row.content_unit].is_mass)
        return cls({**UNIT_FACTORS, **{factor.name: factor for pair in sold for factor in pair}}, masses)

    @property
    def is_inch(self) -> bool:
        """Say whether the shop works in inches."""
        return self.factors is not None

    def of(self, house: str, gas: str = "", *, as_bought: bool = False) -> CellUnit:
        """Return the unit of a cell.

        Parameters
        ----------
        house : str
            House unit as the sheet states it.
        gas : str
            ``oxygen`` or ``fuel`` for an amount of gas, which is shown as the trade counts it: cubic feet at 70 °F and
            1 atm. A flow keeps its own state and names no gas.
        as_bought : bool
            Whether an amount of gas is shown in pounds where the shop buys it by mass.

        Returns
        -------
        CellUnit
        """
        if self.factors is None:
            return CellUnit(house)
        unit = _gas_unit(house, gas, by_mass=as_bought and gas in self.by_mass) if gas else inch_rate_unit(house)
        return CellUnit(unit.unit, tuple((name, self.factors[name].value, power) for name, power in unit.powers))

    def words(self, text: str) -> str:
        """Return a sentence of our own in the shop's units, rounded for reading."""
        return text if self.factors is None else inch_words(text)

    def named_factors(self) -> tuple[UnitFactor, ...]:
        """Return the factors that have a cell: all that formulas take, or the two that a metric shop reads."""
        if self.factors is None:
            return (UNIT_FACTORS["mm_per_inch"], UNIT_FACTORS["bar_per_psi"])
        return tuple(self.factors.values())


def _sold(key: str, gas: str, density_kg_m3: float) -> tuple[UnitFactor, UnitFactor]:
    """Return the factors of a gas: from cubic feet and from pounds as they are sold to cubic metres of the house."""
    foot = gas_volume_m3(1.0, unit="ft3", gas=gas, state=_SOLD_AT)
    pound = UNIT_FACTORS["kg_per_lb"].value / density_kg_m3
    said = f"{gas[:1].upper()}{gas[1:]}: m³ at {HOUSE_STATE.label} in a"
    return (
        UnitFactor(f"{key}_m3_per_ft3", f"{said} cubic foot at {_SOLD_AT.label}", foot, "m³/ft³"),
        UnitFactor(f"{key}_m3_per_lb", f"{said} pound", pound, "m³/lb"),
    )


def _gas_unit(house: str, gas: str, *, by_mass: bool) -> RateUnit:
    """Return the unit of an amount of gas, of a price for it, or of its density."""
    foot, pound = f"{gas}_m3_per_ft3", f"{gas}_m3_per_lb"
    if house == "kg/m³":
        return RateUnit("lb/ft³", (("kg_per_lb", 1), (foot, -1)))
    if house == "kg":
        return inch_rate_unit(house)
    start = "per " if house.startswith("per ") else ""
    if by_mass:
        return RateUnit(f"{start}lb", ((pound, -1 if start else 1),))
    stated = " (70 °F, 1 atm)" if "(" in house else ""
    return RateUnit(f"{start}ft³{stated}", ((foot, -1 if start else 1),))
