"""Whole work on propane against acetylene, through the model of a cut, beside three state norms.

Sources: state construction material norms ch. IV, table 036, and VPNRM 476-89 (3 mm pipe; oxygen x 1.25 to 1.29, fuel
by weight x 1.29 to 1.31); ENiR E22-1-41 and E22-1-43 (rails, rivet and bolt heads by hand; time x 1.05 to 1.20, mean
1.11). The norms hold losses and short cuts that are the same on both fuels, so the engine is held to a band, not to a
figure: oxygen 1.15 to 1.50, fuel by weight within 10 %, time 1.0 to 1.25.
"""

from __future__ import annotations

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.fuel_work import WorkOnFuel, work_on_fuels
from estimator.units import HOUSE_STATE, gas_mass_kg
from estimator.words import Method, Shape, Work


def on_both_fuels(**columns) -> dict[str, WorkOnFuel]:
    n = len(columns["mark"])
    columns.setdefault("work", np.full(n, Work.CUT, dtype=np.int8))
    columns.setdefault("method", np.full(n, Method.FREE_HAND, dtype=np.int8))
    done, left_out = work_on_fuels(CutList(**columns), example_shop(), ["acetylene", "propane"])
    assert left_out == []
    return {one.work.fuel: one for one in done}


@pytest.fixture(scope="module")
def thin():
    """Forty short cuts of 0.3 m in 3 mm, as around pipe."""
    return on_both_fuels(
        mark=["P"], quantity=np.array([40.0]), thickness_mm=np.array([3.0]), cut_length_mm=np.array([300.0])
    )


def kg(one: WorkOnFuel) -> float:
    fuel = one.work.fuel
    return gas_mass_kg(one.work.by_thickness[0].fuel_m3, unit="m3", gas=fuel, state=HOUSE_STATE)


def test_propane_takes_more_oxygen_on_3_mm_within_the_band_around_the_norms(thin):
    """Above the norms' 1.25 to 1.29 here: the likely preheat ratio of 3.5 stands against the norm's own 3.25, and
    starts, which burn preheat oxygen alone, take 1.7 times as long."""
    ratio = thin["propane"].work.by_thickness[0].oxygen_m3 / thin["acetylene"].work.by_thickness[0].oxygen_m3
    assert 1.15 <= ratio <= 1.50


def test_propane_takes_about_three_tenths_more_fuel_by_weight_on_3_mm(thin):
    """Printed 1.29 to 1.31; 10 %: the chart rounds its flows, and slower starts add fuel."""
    assert kg(thin["propane"]) / kg(thin["acetylene"]) == pytest.approx(1.30, rel=0.10)


def test_paid_time_on_propane_is_not_less_and_at_most_a_quarter_more(thin):
    """Below the norms' 1.11 for whole cuts: paid time also holds layout, handling and cleaning, the same on both."""
    ratio = thin["propane"].work.paid_time_min / thin["acetylene"].work.paid_time_min
    assert 1.0 < ratio <= 1.25


def test_rivet_heads_take_the_norms_own_ratio_of_times():
    """E22-1-43: x 1.05 to 1.20 on whole heads; set-up and handling, the same on both, pull a whole list below it."""
    both = on_both_fuels(
        mark=["B"],
        quantity=np.array([1000.0]),
        thickness_mm=np.array([np.nan]),
        shape=np.array([Shape.BOLT_HEAD], dtype=np.int8),
        size_a_mm=np.array([30.0]),
    )
    ratio = both["propane"].work.paid_time_min / both["acetylene"].work.paid_time_min
    assert 1.02 < ratio <= 1.20


def test_heating_on_propane_takes_the_volume_that_gives_the_same_heat():
    """Menon, Piping Calculations Manual, fuel gas table: net 1447 and 2365 Btu/ft³ at about 60 °F; 1 %: real gases."""
    both = on_both_fuels(
        mark=["H"],
        quantity=np.array([10.0]),
        thickness_mm=np.array([20.0]),
        work=np.array([Work.HEAT], dtype=np.int8),
        flame_min_each=np.array([4.0]),
        tip=["H-60"],
    )
    flows = {fuel: one.work.use_of(fuel).highest_draw_m3_h for fuel, one in both.items()}
    assert flows["acetylene"] / flows["propane"] == pytest.approx(2365 / 1447, rel=0.01)
    assert both["propane"].heating_share > 0.9
