"""What bills and tags print about gas and cylinders is read strictly, or refused."""

import pytest

from estimator.read.billed_unit import Per, read_billed_unit
from estimator.read.cylinder_reading import Means, read_cylinder, read_cylinders
from estimator.read.gas_text import read_gas_amount, read_gas_unit
from estimator.units import ReferenceState


@pytest.mark.parametrize(
    ("text", "amount", "unit", "state"),
    [
        ("10.6 m³ (15 °C, 1 bar)", 10.6, "m3", ReferenceState.C15_BAR),
        ("10,6 m3 (15 C, 1 bar)", 10.6, "m3", ReferenceState.C15_BAR),
        ("10.6 m3 at 15 °C and 1 bar", 10.6, "m3", ReferenceState.C15_BAR),
        ("10.6 m3 (15°C, 101,325 kPa)".replace("101,325", "101.325"), 10.6, "m3", ReferenceState.C15_ATM),
        ("9 Nm³", 9.0, "Nm3", None),
        ("9 Nm3 (0 °C, 1 atm)", 9.0, "Nm3", ReferenceState.C0_ATM),
        ("244 ft³ (70 °F, 1 atm)", 244.0, "ft3", ReferenceState.F70_ATM),
        ("244 cu ft @ 60 F, 14.7 psia", 244.0, "ft3", ReferenceState.F60_ATM),
        ("2.44 ccf (70F, 1 atm)", 2.44, "100 ft3", ReferenceState.F70_ATM),
        ("11 kg", 11.0, "kg", None),
        ("24 lbs", 24.0, "lb", None),
        ("4 100 ft3", 4100.0, "ft3", None),
    ],
)
def test_a_gas_amount_is_read_with_its_unit_and_state(text, amount, unit, state):
    number, said = read_gas_amount(text)
    assert (number, said.unit, said.state) == (amount, unit, state)


@pytest.mark.parametrize(
    "text",
    [
        "10.6",
        "m3",
        "10.6 m2",
        "10 m3 (15 °C)",
        "10 m3 (17 °C, 1 bar)",
        "11 kg (15 °C, 1 bar)",
        "9 Nm3 (15 °C, 1 bar)",
        "10 m3 (15 °C, 1 bar, dry)",
        "1,234 m3",
        "ten m3",
    ],
)
def test_what_is_not_plainly_a_gas_amount_is_refused(text):
    with pytest.raises(ValueError, match=r"\S"):
        read_gas_amount(text)


def test_a_volume_without_its_state_is_known_to_lack_it_and_a_mass_never_lacks_one():
    assert read_gas_unit("m3").lacks_state
    assert read_gas_unit("100 ft3").lacks_state
    assert not read_gas_unit("kg").lacks_state
    assert not read_gas_unit("Nm3").lacks_state


@pytest.mark.parametrize(
    ("text", "means", "value", "rough"),
    [
        ("150 bar", Means.PRESSURE, 150.0, False),
        ("15 MPa", Means.PRESSURE, 150.0, False),
        ("2000 psi", Means.PRESSURE, 137.895, False),
        ("31,5 kg", Means.MASS, 31.5, False),
        ("70 lb", Means.MASS, 31.751, False),
        ("3/4", Means.SHARE, 0.75, True),
        ("about ½", Means.SHARE, 0.5, True),
        ("¾ full", Means.SHARE, 0.75, True),
        ("25 %", Means.SHARE, 0.25, True),
        ("full", Means.SHARE, 1.0, False),
        ("Empty", Means.SHARE, 0.0, False),
        ("about 120 bar", Means.PRESSURE, 120.0, True),
    ],
)
def test_a_cylinder_reading_is_read_by_gauge_scale_or_eye(text, means, value, rough):
    reading = read_cylinder(text)
    assert (reading.means, reading.rough) == (means, rough)
    assert reading.value == pytest.approx(value, abs=5e-4)


@pytest.mark.parametrize("text", ["150", "5/4", "150 foo", "lots", "-3 bar", ""])
def test_a_cylinder_reading_without_a_unit_or_sense_is_refused(text):
    with pytest.raises(ValueError, match=r"\S"):
        read_cylinder(text)


def test_a_bare_number_takes_the_unit_of_its_heading():
    assert read_cylinder("150", "bar").value == 150.0
    assert read_cylinder("31.5", "kg").means is Means.MASS


def test_several_cylinders_stand_in_one_cell_with_semicolons():
    assert [r.value for r in read_cylinders("2 x 200 bar; 1/2; 31 kg")] == [200.0, 200.0, 0.5, 31.0]


@pytest.mark.parametrize(
    ("text", "per"),
    [
        ("cylinder", Per.CYLINDER),
        ("Bottles", Per.CYLINDER),
        ("cylinder-day", Per.CYLINDER_DAY),
        ("month", Per.CYLINDER_MONTH),
        ("delivery", Per.DELIVERY),
        ("invoice", Per.BILL),
        ("Nm³", Per.GAS),
        ("% of gas", Per.GAS_PERCENT),
    ],
)
def test_a_billed_unit_says_what_is_counted(text, per):
    assert read_billed_unit(text).per is per
