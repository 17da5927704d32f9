"""What bills and tags print of cylinders and units is read strictly, or refused."""

import pytest

from estimator.read.billed_unit import Per, read_billed_unit
from estimator.read.cylinder_reading import Means, read_cylinder, read_cylinders
from estimator.units import ReferenceState


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


def test_a_billed_gas_unit_keeps_its_multiple_and_state():
    unit = read_billed_unit("100 ft³ (70 °F, 1 atm)")
    assert unit.gas is not None
    assert (unit.gas.amount, unit.gas.unit, unit.gas.state) == (1.0, "100 ft3", ReferenceState.F70_ATM)
    assert read_billed_unit("m³").lacks_state
    assert not read_billed_unit("kg").lacks_state


@pytest.mark.parametrize("text", ["furlong", "m2", "", "3"])
def test_a_unit_that_counts_nothing_known_is_refused(text):
    with pytest.raises(ValueError, match=r"\S"):
        read_billed_unit(text)
