"""What a gauge, a scale or a look says is in a cylinder of the rack, and what each is worth."""

import pytest

from estimator.pricing.rack.contents import HowRead, rack_contents
from estimator.reference import gas_density_kg_m3
from estimator.units import HOUSE_STATE, ReferenceState, gas_volume_m3
from tests.rack_shop import shop_with

OXYGEN = {"cylinder_id": "1", "gas": "oxygen", "cylinder": "O-10", "full_pressure_bar": 200}
ACETYLENE = {"cylinder_id": "1", "gas": "acetylene", "cylinder": "A-7"}


def one(**row):
    contents, problems = rack_contents(shop_with([row]), None)
    return contents[0] if contents else None, [problem.code for problem in problems]


def test_a_full_gauge_gives_the_rated_content_and_a_half_gauge_a_little_less_than_half():
    full, _ = one(**OXYGEN, gauge_bar=200)
    half, codes = one(**OXYGEN, gauge_bar=100)
    assert full.now_m3 == pytest.approx(full.rated_m3)
    assert 0.49 * full.rated_m3 < half.now_m3 < 0.51 * full.rated_m3
    assert half.how is HowRead.GAUGE
    assert codes == []


def test_244_cubic_feet_at_2200_psi_and_70_f_are_120_4_at_1100():
    """US trade size, 244 ft³ at 2200 psig and 70 °F; 120.4 ft³ at half the gauge by CoolProp."""
    rated = {"content": 244, "content_unit": "ft3", "content_state": "70 °F, 1 atm", "full_pressure_bar": 151.685}
    half, _ = one(cylinder_id="1", gas="oxygen", gauge_bar=75.842, temperature_c=21.111, **rated)
    expected = gas_volume_m3(120.4, unit="ft3", gas="oxygen", state=ReferenceState.F70_ATM)
    assert half.now_m3 == pytest.approx(expected, rel=0.002)
    assert "43.0 L" in half.read_as


def test_a_cold_cylinder_holds_more_than_its_gauge_shows():
    warm, _ = one(**OXYGEN, gauge_bar=120, temperature_c=30)
    cold, _ = one(**OXYGEN, gauge_bar=120, temperature_c=-10)
    assert cold.now_m3 > warm.now_m3 * 1.1


def test_acetylene_is_weight_over_tare_at_the_house_density():
    content, codes = one(**ACETYLENE, gross_kg=63.9, tare_kg=58.2)
    assert content.now_m3 == pytest.approx(5.7 / gas_density_kg_m3("acetylene", HOUSE_STATE))
    assert content.how is HowRead.WEIGHT
    assert codes == []


def test_a_pound_of_acetylene_is_what_published_specific_volumes_say():
    """14.4 ft³/lb at about 60 °F (E. S. Menon), 14.46 dry at 60 °F (Leeds and Butterfield): within 0.5 %."""
    content, _ = one(**ACETYLENE, gross_kg=58.2 + 0.45359237, tare_kg=58.2)
    at_60f = content.now_m3 * gas_density_kg_m3("acetylene", HOUSE_STATE) / gas_density_kg_m3("acetylene", "60F_1atm")
    assert at_60f / 0.3048**3 == pytest.approx(14.46, rel=0.005)


def test_acetylene_by_its_gauge_alone_is_refused_and_weighed_its_gauge_is_only_noted():
    """17.24 bar is 250 psi: a cylinder's own pressure, not a working pressure."""
    refused, codes = one(**ACETYLENE, gauge_bar=17.24)
    assert (refused, codes) == (None, ["E402"])
    weighed, codes = one(**ACETYLENE, gauge_bar=17.24, gross_kg=63.9, tare_kg=58.2)
    assert weighed.how is HowRead.WEIGHT
    assert codes == ["N410"]


def test_about_three_quarters_is_taken_with_a_wide_spread_and_said_to_be_rough():
    rough, codes = one(**ACETYLENE, left_share=0.75)
    weighed, _ = one(**ACETYLENE, gross_kg=63.7, tare_kg=58.2)
    assert rough.now_m3 == pytest.approx(0.75 * rough.rated_m3)
    assert rough.plus_minus_m3 > 3 * weighed.plus_minus_m3
    assert "rough" in rough.read_as
    assert codes == ["N407"]


def test_no_reading_is_taken_as_full_with_a_warning():
    content, codes = one(**OXYGEN)
    assert content.now_m3 == content.rated_m3
    assert codes == ["W406"]


@pytest.mark.parametrize(
    ("row", "code"),
    [
        ({"cylinder_id": "1", "gas": "oxygen", "gauge_bar": 100, "full_pressure_bar": 200}, "E403"),
        ({"cylinder_id": "1", "gas": "oxygen", "cylinder": "nothing like it"}, "E403"),
        ({"cylinder_id": "1", "gas": "oxygen", "cylinder": "O-10", "gauge_bar": 100}, "E404"),
        (ACETYLENE | {"gross_kg": 60.0}, "E405"),
        (OXYGEN | {"gauge_bar": 390.0}, "E411"),
    ],
)
def test_what_cannot_be_known_is_a_problem_and_never_a_guess(row, code):
    content, codes = one(**row)
    assert content is None
    assert codes == [code]


def test_a_weight_over_full_is_taken_as_full_with_a_warning():
    content, codes = one(**ACETYLENE, gross_kg=70.0, tare_kg=58.2)
    assert content.now_m3 == content.rated_m3
    assert codes == ["W408"]


def test_two_cylinders_of_one_number_are_refused():
    contents, problems = rack_contents(shop_with([OXYGEN | {"gauge_bar": 90}, OXYGEN | {"gauge_bar": 80}]), None)
    assert len(contents) == 1
    assert [p.code for p in problems] == ["E305"]


def test_the_heel_is_the_cylinder_s_own_then_its_size_s_then_that_of_practice():
    own, _ = one(**OXYGEN, gauge_bar=100, heel_share=0.1)
    of_size, _ = one(**OXYGEN, gauge_bar=100)
    bare = {"content": 10, "content_unit": "m3", "content_state": "15 °C, 1 bar", "full_pressure_bar": 200}
    practice, _ = one(cylinder_id="1", gas="oxygen", gauge_bar=100, **bare)
    assert own.heel_m3 == pytest.approx(0.1 * own.rated_m3)
    assert of_size.heel_m3 == pytest.approx(0.02 * of_size.rated_m3)
    ideal = (2.0 + 1.01325) / (200 + 1.01325) * practice.rated_m3  # 2 bar by the gauge, the last atmosphere counted
    assert 0.9 * ideal < practice.heel_m3 < ideal  # oxygen at 200 bar is denser than an ideal gas


def test_a_heel_is_never_more_than_what_is_in_the_cylinder():
    content, _ = one(**ACETYLENE, gross_kg=58.3, tare_kg=58.2)
    assert content.heel_m3 == content.now_m3


@pytest.mark.parametrize("fuel", ["propane", "propylene", "mps"])
def test_every_fuel_that_comes_in_cylinders_can_be_weighed(fuel):
    rated = {"content": 18, "content_unit": "kg"}
    content, codes = one(cylinder_id="1", gas=fuel, gross_kg=25, tare_kg=16, **rated)
    assert content.now_m3 == pytest.approx(content.rated_m3 / 2)
    assert codes == []
