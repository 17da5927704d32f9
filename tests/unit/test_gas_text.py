"""The table of accepted and refused spellings of a gas amount."""

import pytest

from estimator.read.gas_text import read_gas_text, read_reference_state
from estimator.units import ReferenceState as State

ACCEPTED = [
    ("330 ft3 at 70 F, 1 atm", 330.0, "ft3", State.F70_ATM),
    ("330 ft³ at 70 °F, 1 atm", 330.0, "ft3", State.F70_ATM),
    ("330ft3@70F,1atm", 330.0, "ft3", State.F70_ATM),
    ("330 cu ft (70 F and 14.7 psia)", 330.0, "ft3", State.F70_ATM),
    ("330 cu.ft. at 70 degrees F, 14.7 psi", 330.0, "ft3", State.F70_ATM),
    ("330 cubic feet, 21 °C, 101.325 kPa", 330.0, "ft3", State.F70_ATM),
    ("330 CF", 330.0, "ft3", None),
    ("330 scf", 330.0, "ft3", None),
    ("2.5 CCF at 70 F, 1 atm", 2.5, "100 ft3", State.F70_ATM),
    ("2.5 x 100 ft3 at 70 F, 1 atm", 2.5, "100 ft3", State.F70_ATM),
    ("1.2 Mcf 60 F 14.73 psia dry", 1.2, "1000 ft3", State.F60_PIPED),
    ("1.2 Mcf 60 F 30 inHg dry", 1.2, "1000 ft3", State.F60_PIPED),
    ("1.2 x 1,000 ft3 at 60 F, 1 atm", 1.2, "1000 ft3", State.F60_ATM),
    ("11.3 m3 (15 C, 1 bar)", 11.3, "m3", State.C15_BAR),
    ("11,3 m³ (15 °C, 1 bar)", 11.3, "m3", State.C15_BAR),
    ("11.3 m^3 at 1 bar, 15 C", 11.3, "m3", State.C15_BAR),
    ("11.3 m3 at 15 C, 100 kPa", 11.3, "m3", State.C15_BAR),
    ("11.3 m3 at 15 C, 1013 mbar", 11.3, "m3", State.C15_ATM),
    ("11.3 m3 at 15 C, 1.013 bar abs", 11.3, "m3", State.C15_ATM),
    ("11.3 m3 ISO 13443", 11.3, "m3", State.C15_ATM),
    ("11.3 m3 at 20 C, 760 mmHg", 11.3, "m3", State.C20_ATM),
    ("11.3 m3", 11.3, "m3", None),
    ("10 Nm3", 10.0, "Nm3", State.C0_ATM),
    ("10 Nm³ (0 °C, 1.01325 bar)", 10.0, "Nm3", State.C0_ATM),
    ("10 m3 DIN 1343", 10.0, "m3", State.C0_ATM),
    ("6000 L at 15 °C, 1 bar", 6000.0, "L", State.C15_BAR),
    ("6000 litres", 6000.0, "L", None),
    ("9.4 kg", 9.4, "kg", None),
    ("9,4kg", 9.4, "kg", None),
    ("20 lbs", 20.0, "lb", None),
    ("20 lb.", 20.0, "lb", None),
    ("900 g", 900.0, "g", None),
    (".5 kg", 0.5, "kg", None),
    ("9.4 kg (15 C, 1 bar)", 9.4, "kg", None),
]

REFUSED = [
    ("330", "no unit in"),
    ("", "no amount with a unit"),
    ("ft3", "no amount with a unit"),
    ("-3 kg", "no amount with a unit"),
    ("1 1/2 m3", "the unit in"),
    ("about 9 kg", "no amount with a unit"),
    ("3 bottles", "the unit in"),
    ("50 kWh", "the unit in"),
    ("25 kgf", "the unit in"),
    ("1,234 ft3", "can be read two ways"),
    ("1.234 m3", "can be read two ways"),
    ("330 ft3 at 70 F", "needs a temperature and a pressure"),
    ("330 ft3 at 1 atm", "needs a temperature and a pressure"),
    ("330 ft3 STP", "names no one temperature and pressure"),
    ("330 ft3 NTP", "names no one temperature and pressure"),
    ("330 ft3 (standard)", "names no one temperature and pressure"),
    ("10 Sm3", "names no one temperature and pressure"),
    ("330 ft3 at 75 F, 1 atm", "is not one that gas is sold at"),
    ("330 ft3 at 70 F, 1 bar", "is not one that gas is sold at"),
    ("10 m3 at 15 C, 200 bar", "is not one that gas is sold at"),
    ("10 m3 at 15 C, 1 barg", "not part of a reference state"),
    ("10 m3 at 15 C, 15 psig", "not part of a reference state"),
    ("10 m3 normal", "not part of a reference state"),
    ("10 Nm3 (15 C, 1 bar)", "is stated at 0 °C, 101.325 kPa"),
    ("10 m3 DIN 1343 at 15 C, 1 bar", "two reference states"),
    ("10 m3 at 15 C, 1 bar or so", "not part of a reference state"),
    ("10 m3 oxygen", "not part of a reference state"),
]


@pytest.mark.parametrize(("text", "amount", "unit", "state"), ACCEPTED)
def test_a_gas_amount_is_read_as_the_shop_means_it(text: str, amount: float, unit: str, state: State | None) -> None:
    found = read_gas_text(text)
    assert (found.amount, found.unit, found.state) == (amount, unit, state)


@pytest.mark.parametrize(("text", "reason"), REFUSED)
def test_a_gas_amount_without_one_meaning_is_refused_with_the_reason(text: str, reason: str) -> None:
    with pytest.raises(ValueError, match=reason):
        read_gas_text(text)


def test_a_volume_without_a_state_says_so_and_a_mass_does_not_need_one() -> None:
    assert read_gas_text("250 cf").lacks_state
    assert not read_gas_text("10 Nm3").lacks_state
    assert not read_gas_text("9.4 kg").lacks_state


def test_a_default_state_is_used_only_where_the_text_says_none() -> None:
    assert read_gas_text("100 ft3").volume_m3("oxygen", State.F70_ATM) == pytest.approx(2.7727, abs=5e-4)
    stated = read_gas_text("100 ft3 at 60 F, 1 atm")
    assert stated.volume_m3("oxygen", State.F70_ATM) == stated.volume_m3("oxygen")
    with pytest.raises(ValueError, match="needs its reference state"):
        read_gas_text("100 ft3").volume_m3("oxygen")


def test_each_state_is_read_back_from_its_own_label() -> None:
    for state in State:
        assert read_reference_state(state.label) is state
