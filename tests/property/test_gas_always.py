"""What must always hold of gas amounts, flows, contents and manifolds."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.quantities.cylinders import DensityGrid, oxygen_content_m3, water_volume_l
from estimator.quantities.draw import cylinders_to_manifold, draw_over_limit
from estimator.quantities.gas_use import gas_m3
from estimator.quantities.orifice import orifice_oxygen_flow_m3_h
from estimator.quantities.rack import floor_m3
from estimator.read.gas_text import read_gas_text
from estimator.reference import gas_density_kg_m3, oxygen_density_grid, table
from estimator.units import GAS_UNITS, ReferenceState, gas_amount, gas_mass_kg, gas_volume_m3

GRID = DensityGrid(*oxygen_density_grid())
HOUSE = gas_density_kg_m3("oxygen", "15C_1atm")
GASES = sorted(set(table("gas_densities").column("gas")))
amounts = st.floats(1e-3, 1e5)
volumes = [unit for unit, known in GAS_UNITS.items() if not known.is_mass and known.state is None]
stated = st.one_of(
    st.tuples(st.sampled_from(volumes), st.sampled_from(list(ReferenceState))),
    st.tuples(st.sampled_from([unit for unit in GAS_UNITS if unit not in volumes]), st.none()),
)


@given(amounts, st.sampled_from(GASES), stated, stated)
def test_a_gas_amount_goes_there_and_back_and_keeps_its_mass(amount, gas, first, second):
    (unit, state), (other, other_state) = first, second
    house = gas_volume_m3(amount, unit=unit, gas=gas, state=state)
    there = gas_amount(house, unit=other, gas=gas, state=other_state)
    assert gas_volume_m3(there, unit=other, gas=gas, state=other_state) == pytest.approx(house, rel=1e-12)
    assert gas_mass_kg(there, unit=other, gas=gas, state=other_state) == pytest.approx(
        gas_mass_kg(amount, unit=unit, gas=gas, state=state), rel=1e-12
    )


@given(
    st.integers(1, 10**6),
    st.sampled_from([unit for unit in GAS_UNITS if unit != "Nm3"]),
    st.sampled_from(list(ReferenceState)),
)
def test_what_is_written_plainly_is_read_back(amount, unit, state):
    between = " x " if unit[0].isdigit() else " "
    found = read_gas_text(f"{amount}{between}{unit} at {state.label}")
    assert (found.amount, found.unit) == (amount, unit)
    assert found.state is (None if GAS_UNITS[unit].is_mass else state)


@given(st.sampled_from(GASES), st.sampled_from(volumes))
def test_a_volume_at_a_colder_or_denser_state_is_more_gas(gas, unit):
    order = [ReferenceState.F70_ATM, ReferenceState.C20_ATM, ReferenceState.C15_ATM, ReferenceState.C0_ATM]
    found = [gas_volume_m3(1.0, unit=unit, gas=gas, state=state) for state in order]
    assert found == sorted(found)
    assert len(set(found)) == len(order)


@given(st.floats(0.3, 5), st.floats(0, 8), st.floats(1.01, 3))
def test_more_pressure_or_bore_is_more_oxygen_and_twice_the_bore_is_four_times(bore, bar, more):
    flow = orifice_oxygen_flow_m3_h(bore, bar, density_kg_m3=HOUSE)
    assert orifice_oxygen_flow_m3_h(bore, bar * more + 0.01, density_kg_m3=HOUSE) > flow
    assert orifice_oxygen_flow_m3_h(2 * bore, bar, density_kg_m3=HOUSE) == pytest.approx(4 * flow)


@given(st.floats(0, 1e4), st.floats(0, 50), st.integers(1, 100))
def test_gas_doubles_with_time(minutes, flow, times):
    assert gas_m3(times * minutes, flow) == pytest.approx(times * gas_m3(minutes, flow))


@settings(max_examples=50)
@given(st.floats(0, 319), st.floats(-20, 49), st.floats(0.1, 1), st.floats(1, 80))
def test_more_pressure_is_more_content_and_more_heat_is_less(bar, degrees, step, litres):
    def content(p, t):
        return oxygen_content_m3(p, t, water_volume_l=litres, grid=GRID, density_kg_m3=HOUSE)

    assert content(bar + step, degrees) > content(bar, degrees) > content(bar, degrees + step)


@settings(max_examples=50)
@given(st.floats(0.1, 20), st.floats(20, 320), st.floats(-20, 50))
def test_a_rated_cylinder_at_its_rated_pressure_holds_its_rated_content(content, bar, degrees):
    volume = water_volume_l(content, bar, degrees, grid=GRID, density_kg_m3=HOUSE)
    assert oxygen_content_m3(bar, degrees, water_volume_l=volume, grid=GRID, density_kg_m3=HOUSE) == pytest.approx(
        content
    )


@given(st.floats(0.001, 20), st.floats(0.5, 20), st.sampled_from([1 / 15, 1 / 10, 1 / 7]))
def test_the_manifold_carries_the_draw_and_one_less_would_not(draw, content, fraction):
    count = int(cylinders_to_manifold(draw, content, fraction))
    assert draw_over_limit(draw, content * count, fraction) <= 1 + 1e-8
    if count > 1:
        assert draw_over_limit(draw, content * (count - 1), fraction) > 1


@given(st.lists(st.floats(0, 2), min_size=1, max_size=5), st.floats(0, 3), st.floats(0.05, 0.2))
def test_what_stays_in_a_cylinder_is_never_under_its_heel_and_bears_the_draw(heels, draw, fraction):
    floors = floor_m3(heels, [draw], fraction_per_h=fraction)[0]
    assert np.all(floors >= heels)
    assert np.all(floors * fraction >= draw - 1e-9)
