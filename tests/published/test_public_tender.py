"""A year's oxygen at a price per hundred cubic feet, from a public tender.

Source: Ann Arbor ITB 4769 (read as an excerpt): 200,000 hundred-ft³ of liquid oxygen at 0.40 are 80,000 a year. The
printed answer is exact, so is the tolerance.
"""

from __future__ import annotations

from estimator.pricing.landed import Component, Money, cheapest_plan
from estimator.pricing.offers import GasUse, Offer, Terms
from estimator.units import ReferenceState, gas_volume_m3


def test_two_hundred_thousand_hundreds_of_cubic_feet_at_0_40_cost_80_000():
    hundred_m3 = gas_volume_m3(1.0, unit="100 ft3", gas="oxygen", state=ReferenceState.F70_ATM)
    bulk = Offer("oxygen", "tank", content_m3=hundred_m3, price=0.40, piped=True)
    plan = cheapest_plan(Terms("Supplier A"), [(bulk, GasUse("oxygen", 200_000 * hundred_m3))], Money())
    assert plan is not None
    assert plan.component_minor(Component.GAS) == plan.total_minor == 80_000_00
