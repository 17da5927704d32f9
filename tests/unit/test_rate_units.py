"""Each unit that an inch shop is shown is the house unit by factors that Pint has too."""

from __future__ import annotations

import pint
import pytest

from estimator import rate_units
from estimator.rate_units import UNIT_FACTORS, RateUnit, inch_rate_unit

PINT = {
    "mm": ("millimeter", "inch"),
    "m": ("meter", "foot"),
    "kg": ("kilogram", "pound"),
    "bar": ("bar", "psi"),
    "cm³": ("centimeter**3", "inch**3"),
    "litres": ("liter", "inch**3"),
    "mm/min": ("millimeter/minute", "inch/minute"),
    "min/m": ("minute/meter", "minute/foot"),
    "m³/h": ("meter**3/hour", "foot**3/hour"),
    "m³/h, 15 °C, 1 atm": ("meter**3/hour", "foot**3/hour"),
    "per kg": ("1/kilogram", "1/pound"),
    "min per m": ("minute/meter", "minute/foot"),
    "min per m of cut": ("minute/meter", "minute/foot"),
    "min per m of edge": ("minute/meter", "minute/foot"),
    "min per m per mm": ("minute/meter/millimeter", "minute/foot/inch"),
    "min per mm of head": ("minute/millimeter", "minute/inch"),
    "min per kg": ("minute/kilogram", "minute/pound"),
    "min per cm3": ("minute/centimeter**3", "minute/inch**3"),
    "cm2 per min": ("centimeter**2/minute", "inch**2/minute"),
    "kg per m3": ("kilogram/meter**3", "pound/foot**3"),
    "bar gauge": ("bar", "psi"),
    "degrees C": ("delta_degC", "delta_degF"),
    "MJ per kg": ("megajoule/kilogram", "Btu_it/pound"),
}
"""House unit → it and the shop's in the words of Pint."""
DIFFERS_IN_WORDS = {"m3 per m3 fuel", "share per metre"}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize("house", PINT)
def test_one_of_the_shops_unit_is_in_the_house_unit_what_pint_makes_of_it(
    registry: pint.UnitRegistry, house: str
) -> None:
    ours, shops = PINT[house]
    value = 1.0
    for name, power in inch_rate_unit(house).powers:
        value *= UNIT_FACTORS[name].value ** power
    assert value == pytest.approx(registry.Quantity(1.0, shops).to(ours).magnitude, rel=1e-12)
    assert value != pytest.approx(1.0)


def test_every_unit_is_compared() -> None:
    assert set(rate_units._INCH) == {*PINT, *DIFFERS_IN_WORDS}


@pytest.mark.parametrize("house", sorted(DIFFERS_IN_WORDS))
def test_a_ratio_keeps_its_figure(house: str) -> None:
    assert inch_rate_unit(house).powers == ()
    assert inch_rate_unit(house).unit != house


def test_a_unit_that_both_use_is_itself() -> None:
    assert inch_rate_unit("min") == RateUnit("min")
