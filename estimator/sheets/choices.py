"""What sheets let a person choose from, each list stated once: gases, units and states of gas, classes of cost."""

from __future__ import annotations

from estimator.words import Fuel

__all__ = [
    "COST_CLASSES",
    "FUELS",
    "FUEL_MEANT",
    "GASES",
    "GAS_STATES",
    "GAS_UNIT_WORDS",
    "PERCENT",
    "WHOLE_BOTTLE_WORDS",
]

FUELS = tuple(str(fuel) for fuel in Fuel)
FUEL_MEANT = {"lpg": "propane", "lp": "propane", "lp gas": "propane", "glp": "propane", "methane": "natural gas"}
"""Other words for a fuel, in small letters; asked about, since what a supplier fills under them may be a mixture."""
GASES = ("oxygen", *FUELS)
GAS_UNIT_WORDS = ("m3", "ft3", "kg", "lb", "Nm3", "L")
GAS_STATES = (
    "15 °C, 101.325 kPa",
    "15 °C, 1 bar",
    "0 °C, 101.325 kPa",
    "20 °C, 101.325 kPa",
    "60 °F, 1 atm",
    "70 °F, 1 atm",
)
WHOLE_BOTTLE_WORDS = frozenset({"each", "ea", "bottle", "cylinder", "tank", "full one", "full bottle", "full cylinder"})
"""Words behind a price of gas that leave it the price of a full one."""
COST_CLASSES = ("gas", "labour", "consumables", "rent", "steel")
PERCENT = "a percentage with its sign, as 12 %"
"""What a cell that holds a share needs."""
