"""Where the ranking turns, on a market whose turn can be worked out by hand."""

from __future__ import annotations

import itertools

import pytest

from estimator.pricing.landed import Money
from estimator.pricing.offers import GasUse, Offer, Supplier, Terms
from estimator.pricing.rent import RentCount, RentRule
from estimator.pricing.suppliers import cheapest_mixes
from estimator.pricing.turning import dearer, follow_demand, rise_that_turns, what_if

# Rent-free gas at 6.00 a m³ against gas at 4.00 a m³ with a standing charge of 30.00: equal at 15 m³ a month.
FREE = Supplier(Terms("Free (invented)"), (Offer("natural gas", "pipe", 1.0, 6.0, piped=True),))
RENTED = Supplier(
    Terms("Rented (invented)"),
    (Offer("natural gas", "pipe", 1.0, 4.0, rent=RentRule(RentCount.MONTH_END, 30.0), piped=True),),
)
BOTH = [FREE, RENTED]
USES = [GasUse("natural gas", 10.0, low_month_m3=5.0, high_month_m3=20.0)]


def test_the_ranking_turns_where_a_hand_calculation_says():
    _, spans = follow_demand(BOTH, USES, Money())
    assert [span.mix for span in spans] == ["Free (invented)", "Rented (invented)"]
    assert spans[1].from_factor * 10.0 == pytest.approx(15.0, rel=1e-3)  # 6 x = 4 x + 30
    assert spans[1].from_minor == pytest.approx(9000, rel=1e-3)
    assert (spans[0].from_factor, spans[1].to_factor) == (pytest.approx(0.1), pytest.approx(10.0))


def test_the_curve_holds_each_mix_at_each_demand():
    curve, _ = follow_demand(BOTH, USES, Money(), points=3)
    assert curve.factors == pytest.approx((0.1, 1.0, 10.0))
    assert curve.by_mix_minor == {
        "Free (invented)": (600, 6000, 60000),
        "Rented (invented)": (3400, 7000, 43000),
    }
    with pytest.raises(ValueError, match="two or more"):
        follow_demand(BOTH, USES, Money(), points=1)


def test_the_rise_that_loses_the_lead_is_found():
    leader = cheapest_mixes(BOTH, USES, Money())[0]
    # by hand: 10 x 6 x f = 10 x 4 + 30: f = 7 / 6
    assert rise_that_turns(BOTH, USES, Money(), leader=leader, of="price") == pytest.approx(7 / 6, rel=1e-3)
    assert rise_that_turns(BOTH, USES, Money(), leader=leader, of="rent") is None  # it has no rent to raise
    with pytest.raises(ValueError, match="price or rent"):
        rise_that_turns(BOTH, USES, Money(), leader=leader, of="tax")


def test_a_change_shows_the_new_leader_and_what_the_old_one_costs():
    before = cheapest_mixes(BOTH, USES, Money())[0]
    busy = [GasUse("natural gas", 20.0)]
    change = what_if("busy", BOTH, busy, Money(), before=before)
    assert change is not None
    assert (change.leader, change.leader_minor, change.same_leader) == ("Rented (invented)", 11000, False)
    assert change.first_was_minor == 12000


def test_only_the_named_suppliers_get_dearer():
    changed = dearer(BOTH, price=2.0, rent=3.0, only=["Rented (invented)"])
    assert [s.offers[0].price for s in changed] == [6.0, 8.0]
    assert changed[1].offers[0].rent.rate == 90.0
    with pytest.raises(ValueError, match="zero or above"):
        dearer(BOTH, price=-1)


def test_a_lead_over_a_hair_of_demand_is_no_turn():
    # steps of whole cylinders make the two cross back and forth; only broad leads are told
    rent = RentRule(RentCount.MONTH_END, 5.0)
    one = Supplier(Terms("One", delivery_fee=3.0), (Offer("oxygen", "L", 10.0, 40.0, rent=rent),))
    two = Supplier(Terms("Two", delivery_fee=3.2), (Offer("oxygen", "L", 10.4, 41.6, rent=rent),))
    _, spans = follow_demand([one, two], [GasUse("oxygen", 30.0)], Money())
    assert all(span.to_factor / span.from_factor >= 1.05 for span in spans)
    assert spans[0].from_factor == pytest.approx(0.1)
    assert spans[-1].to_factor == pytest.approx(10.0)
    for before, after in itertools.pairwise(spans):
        assert before.to_factor == after.from_factor
