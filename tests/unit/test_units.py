"""The shipped factors are held to Pint; gas amounts refuse what is not stated."""

import subprocess
import sys

import pint
import pytest

from estimator import units
from estimator.units import FACTORS, GAS_UNITS, ReferenceState

PINT_NAMES = {
    "in": "inch",
    "ft": "foot",
    "yd": "yard",
    "in2": "inch**2",
    "in3": "inch**3",
    "ft2": "foot**2",
    "t": "metric_ton",
    "oz": "ounce",
    "short ton": "US_ton",
    "lb": "pound",
    "kgf/cm2": "kilogram_force/centimeter**2",
    "mm2": "millimeter**2",
    "cm2": "centimeter**2",
    "m2": "meter**2",
    "m3": "meter**3",
    "L": "liter",
    "ft3": "foot**3",
    "gal": "US_liquid_gallon",
    "m3/h": "meter**3/hour",
    "m3/min": "meter**3/minute",
    "L/h": "liter/hour",
    "L/min": "liter/minute",
    "ft3/h": "foot**3/hour",
    "ft3/min": "foot**3/minute",
    "h": "hour",
    "min": "minute",
    "m/h": "meter/hour",
    "in/min": "inch/minute",
    "ft/min": "foot/minute",
    "Btu": "Btu_it",
    "psi": "psi",
}
HOUSE = {
    "length_mm": "millimeter",
    "mass_kg": "kilogram",
    "pressure_bar": "bar",
    "volume_m3": "meter**3",
    "flow_m3_h": "meter**3/hour",
    "speed_mm_min": "millimeter/minute",
    "time_min": "minute",
    "energy_mj": "megajoule",
    "area_m2": "meter**2",
}
ALL = [(quantity, unit) for quantity, by_unit in FACTORS.items() for unit in by_unit]


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize(("quantity", "unit"), ALL)
def test_each_factor_equals_the_one_of_pint(registry: pint.UnitRegistry, quantity: str, unit: str) -> None:
    by_pint = registry.Quantity(1.0, PINT_NAMES.get(unit, unit)).to(HOUSE[quantity]).magnitude
    assert FACTORS[quantity][unit] == pytest.approx(by_pint, rel=1e-9)


def test_each_gas_unit_equals_the_one_of_pint(registry: pint.UnitRegistry) -> None:
    for unit, known in GAS_UNITS.items():
        times, _, name = unit.rpartition(" ")
        name = PINT_NAMES.get(name.removeprefix("N"), name)
        house = "kilogram" if known.is_mass else "meter**3"
        by_pint = registry.Quantity(float(times or 1), name).to(house).magnitude
        assert known.factor == pytest.approx(by_pint, rel=1e-12), unit


def test_temperatures_equal_those_of_pint(registry: pint.UnitRegistry) -> None:
    for degrees in (-40.0, 32.0, 60.0, 70.0, 212.0):
        assert units.celsius(degrees) == pytest.approx(registry.Quantity(degrees, "degF").to("degC").magnitude)
        assert units.fahrenheit(units.celsius(degrees)) == pytest.approx(degrees)


def test_an_unknown_unit_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match=r"unit of pressure_bar must be one of bar, .* got 'ksi'"):
        units.to_house("pressure_bar", 1.0, "ksi")
    with pytest.raises(ValueError, match="quantity must be one of"):
        units.to_house("colour", 1.0, "mm")


def test_fifteen_psi_is_103_42_kpa() -> None:
    bar = units.to_house("pressure_bar", 15.0, "psi")
    assert bar * 100 == pytest.approx(103.42, abs=0.005)


def test_a_volume_without_its_state_is_refused() -> None:
    with pytest.raises(ValueError, match="needs its reference state"):
        units.gas_volume_m3(1.0, unit="ft3", gas="oxygen", state=None)


def test_a_normal_cubic_metre_takes_no_other_state() -> None:
    at_zero = units.gas_volume_m3(1.0, unit="Nm3", gas="oxygen", state=None)
    assert at_zero == units.gas_volume_m3(1.0, unit="m3", gas="oxygen", state=ReferenceState.C0_ATM)
    with pytest.raises(ValueError, match="Nm3 is stated at 0 °C"):
        units.gas_volume_m3(1.0, unit="Nm3", gas="oxygen", state=ReferenceState.C15_BAR)


def test_an_unknown_gas_is_refused_with_the_gases_there_are() -> None:
    with pytest.raises(ValueError, match=r"no density of 'argon'.*oxygen"):
        units.gas_volume_m3(1.0, unit="kg", gas="argon", state=None)


def test_converting_units_loads_no_unit_library() -> None:
    code = "import sys, estimator.units as u; u.to_house('length_mm', 1.0, 'in'); print('pint' in sys.modules)"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "False"
