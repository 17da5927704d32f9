"""The same work on two fuels, worked by hand."""

from __future__ import annotations

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.torch_kit import torch_kit
from estimator.pricing.fuel_work import WorkOnFuel, work_on_fuel
from estimator.pricing.fuels import FuelWork, MetreWork, compare_fuels, fuel_turns
from estimator.pricing.landed import Money
from estimator.pricing.offers import GasUse, Offer, Supplier, Terms
from estimator.words import Work

SHOP = Supplier(
    Terms("Supplier A"),
    (
        Offer("oxygen", "L", 10, 40.0),  # 4.00 a m³
        Offer("acetylene", "L", 5, 75.0),  # 15.00 a m³
        Offer("propane", "L", 5, 20.0),  # 4.00 a m³
    ),
)


def work(fuel: str, oxygen_m3: float, fuel_m3: float, hours: float, change_cost: float = 0.0) -> FuelWork:
    metres = (MetreWork(12.0, cut_length_m=100.0, oxygen_m3=oxygen_m3, fuel_m3=fuel_m3, paid_time_min=hours * 60),)
    uses = (GasUse("oxygen", oxygen_m3), GasUse(fuel, fuel_m3))
    return FuelWork(fuel, uses, hours * 60, metres, change_cost=change_cost)


def test_propane_pays_for_its_oxygen_and_its_slower_starts():
    acetylene = work("acetylene", oxygen_m3=20, fuel_m3=4, hours=10)
    propane = work("propane", oxygen_m3=26, fuel_m3=4, hours=11, change_cost=240.0)
    first, second = compare_fuels([acetylene, propane], [SHOP], Money(), labour_per_hour=30.0)
    # by hand: acetylene 20 x 4 + 4 x 15 + 10 x 30 = 440.00
    #          propane   26 x 4 + 4 x 4 + 11 x 30 + 240 / 12 = 104 + 16 + 330 + 20 = 470.00
    assert (first.fuel, first.total_minor) == ("acetylene", 44000)
    assert (second.fuel, second.total_minor) == ("propane", 47000)
    assert (second.oxygen_minor, second.fuel_minor, second.labour_minor, second.change_minor) == (
        10400,
        1600,
        33000,
        2000,
    )
    # by hand, a metre of 100: 440.00 / 100; propane without its change-over 450.00 / 100
    assert first.per_metre_minor == ((12.0, 440),)
    assert second.per_metre_minor == ((12.0, 450),)


def test_the_price_at_which_the_choice_turns_makes_both_months_cost_the_same():
    acetylene = work("acetylene", oxygen_m3=20, fuel_m3=8, hours=10)
    propane = work("propane", oxygen_m3=26, fuel_m3=8, hours=11)
    costs = compare_fuels([acetylene, propane], [SHOP], Money(), labour_per_hour=30.0)
    turn = fuel_turns(costs)[0]
    # by hand: propane 104 + 32 + 330 = 466.00, acetylene 80 + 120 + 300 = 500.00: acetylene would have to cost
    # (466 - 380) / 8 = 10.75 a m³, 2.6875 times propane's 4.00
    assert (turn.cheaper, turn.other) == ("propane", "acetylene")
    assert turn.other_turns_at_per_m3 == pytest.approx(10.75)
    assert turn.ratio_at_turn == pytest.approx(2.6875)
    assert turn.ratio_now == pytest.approx(3.75)


def test_a_fuel_that_nobody_offers_is_left_out():
    costs = compare_fuels(
        [work("acetylene", 20, 4, 10), work("propylene", 20, 4, 10)], [SHOP], Money(), labour_per_hour=30.0
    )
    assert [cost.fuel for cost in costs] == ["acetylene"]


def test_the_gas_of_other_work_is_counted_once():
    """Two tonnes of scrap on its own line: 9 m³ of oxygen and 1.5 kg of propane a tonne, and 15 and 20 % lost."""
    shop, kit = example_shop(), torch_kit(example_shop(), "propane")
    scrap = CutList(
        mark=["S"],
        quantity=np.array([2.0]),
        thickness_mm=np.array([np.nan]),
        work=np.array([Work.OTHER], dtype=np.int8),
        other_work=["scrap"],
    )
    found = work_on_fuel(scrap, shop, "propane")
    assert isinstance(found, WorkOnFuel)
    used = {use.gas: use.month_m3 for use in found.work.uses}
    assert used["oxygen"] == pytest.approx(2 * 9.0 * 1.15)
    assert used["propane"] == pytest.approx(2 * 1.5 / kit.fuel_density_kg_m3 * 1.20)
