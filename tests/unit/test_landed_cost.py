"""One market worked by hand, and the counts of cylinders it rests on."""

from __future__ import annotations

import datetime as dt

import pytest

from estimator.pricing.landed import Component, Money, cheapest_plan
from estimator.pricing.ledger import Ledger, Movement, Period
from estimator.pricing.offers import GasUse, Offer, Supplier, Terms, cylinders_in_set, kept_back, month_rent
from estimator.pricing.rent import RentCount, RentRule, rent_due
from estimator.pricing.suppliers import cheapest_mixes

MONTHLY = RentRule(RentCount.MONTH_END, rate=6.00)


def test_every_component_of_a_landed_cost_is_what_a_hand_calculation_gives():
    # 20 m³ a month from cylinders of 10 m³ with 0.5 m³ going back unpaid: 20 / 9.5 = 2.1053 fills a month.
    offer = Offer(
        "oxygen",
        "50 L",
        content_m3=10,
        price=40.00,
        rent=MONTHLY,
        uncredited_m3=0.5,
        cylinder_fees=2.00,
        surcharge_share=0.05,
        deposit=120.00,
    )
    terms = Terms("Supplier A", delivery_fee=15.00, invoice_fee=4.00, month_fee=1.00, lead_time_days=2)
    plan = cheapest_plan(terms, [(offer, GasUse("oxygen", 20.0))], Money(interest_share=0.06))
    assert plan is not None
    # One more cylinder held costs 6.00 + 0.60 interest a month; deliveries cost 15 x 2.1053 / swapped:
    # 1: 31.58 + 13.20; 2: 15.79 + 19.80; 3: 10.53 + 26.40; so 2 swapped (35.59), 1 kept back, 3 held.
    choice = plan.choices[0]
    assert (choice.swapped, choice.kept_back, choice.held) == (2, 1, 3)
    assert plan.deliveries_per_month == pytest.approx(1.0526, abs=1e-4)
    expected = {
        Component.GAS: 8000,  # 20 x 4.00
        Component.GAS_LEFT: 421,  # 2.1053 x 0.5 x 4.00
        Component.CYLINDER_FEES: 421,  # 2.1053 x 2.00
        Component.SURCHARGES: 421,  # 5 % of 2.1053 x 40.00
        Component.RENT: 1800,  # 3 x 6.00
        Component.DEPOSIT: 180,  # 3 x 120 x 6 % / 12
        Component.BOUGHT: 0,
        Component.DELIVERIES: 1579,
        Component.INVOICES: 400,
        Component.MONTH_FEES: 100,
        Component.MINIMUM_ORDER: 0,
    }
    assert {c: plan.component_minor(c) for c in Component} == expected
    assert plan.total_minor == sum(expected.values()) == 13322


def test_a_cheap_small_cylinder_that_needs_three_coupled_pays_three_rents():
    # Draw 1.0 m³/h, one tenth an hour: 10 m³ must stand together; 4 m³ cylinders need 3, an 11 m³ cylinder 1.
    use = GasUse("acetylene", 3.0, highest_draw_m3_h=1.0, draw_share_per_h=1 / 10)
    small = Offer("acetylene", "small", 4.0, price=40.00, rent=MONTHLY)
    large = Offer("acetylene", "large", 11.0, price=126.50, rent=MONTHLY)
    assert (cylinders_in_set(small, use), cylinders_in_set(large, use)) == (3, 1)
    mixes = cheapest_mixes([Supplier(Terms("Supplier A"), (small, large))], [use], Money())
    # by hand: small 3 x 10.00 + (3 + 1) x 6 = 54.00; large 3 x 11.50 + (1 + 1) x 6 = 46.50
    assert mixes[0].plans[0].choices[0].offer.cylinder == "large"
    assert mixes[0].total_minor == 4650


def test_what_is_kept_back_lasts_until_the_van_comes_in_a_busy_month():
    offer = Offer("oxygen", "50 L", 10.0, price=40)
    use = GasUse("oxygen", 40.0, high_month_m3=73.0)
    # by hand: 73 x 12 / 365 = 2.4 m³ a day
    assert [kept_back(offer, use, days) for days in (0, 4, 5, 9)] == [1, 1, 2, 3]


def test_the_suppliers_written_draw_limit_stands_before_the_shops_rule():
    use = GasUse("acetylene", 5.0, highest_draw_m3_h=2.4, draw_share_per_h=1 / 15)
    assert cylinders_in_set(Offer("acetylene", "L", 6.0, 90.0, draw_share_per_h=0.2), use) == 2  # 2.4 / 1.2
    assert cylinders_in_set(Offer("acetylene", "L", 6.0, 90.0), use) == 6  # 2.4 / 0.4
    assert cylinders_in_set(Offer("propane", "L", 25.0, 90.0), GasUse("propane", 5.0, highest_draw_m3_h=2.4)) == 1


def test_each_place_has_a_set_of_its_own():
    use = GasUse("acetylene", 5.0, highest_draw_m3_h=1.0, draw_share_per_h=1 / 10, places=2)
    assert cylinders_in_set(Offer("acetylene", "M", 6.0, 60.0), use) == 4


def test_piped_gas_holds_no_cylinders_and_pays_its_standing_charge():
    # priced per m³ with a meter charge of 12.00 a month
    piped = Offer("natural gas", "meter", 1.0, price=1.20, rent=RentRule(RentCount.MONTH_END, 12.00), piped=True)
    plan = cheapest_plan(
        Terms("Gas works (invented)", invoice_fee=3.0), [(piped, GasUse("natural gas", 50.0))], Money()
    )
    assert plan is not None
    assert plan.held == 0
    assert plan.deliveries_per_month == 0
    assert plan.total_minor == 50 * 120 + 1200 + 300


def test_no_room_for_the_cylinders_needed_means_no_plan():
    use = GasUse("acetylene", 3.0, highest_draw_m3_h=1.0, draw_share_per_h=1 / 10, most_held=3)
    small = Offer("acetylene", "small", 4.0, price=40.00)
    assert cheapest_plan(Terms("Supplier A"), [(small, use)], Money()) is None


def test_a_supplier_of_all_or_nothing_never_stands_in_a_mix():
    both = Supplier(
        Terms("Bundle", all_gases_or_none=True),
        (Offer("oxygen", "L", 10, 10), Offer("acetylene", "L", 10, 200)),
    )
    other = Supplier(Terms("Single"), (Offer("oxygen", "L", 10, 20), Offer("acetylene", "L", 10, 100)))
    mixes = cheapest_mixes([both, other], [GasUse("oxygen", 10), GasUse("acetylene", 10)], Money())
    assert [mix.name for mix in mixes] == ["Single", "Bundle"]


@pytest.mark.parametrize("count", [c for c in RentCount if c is not RentCount.LEASE])
def test_a_steady_months_rent_agrees_with_a_year_counted_on_the_ledger(count):
    rule = RentRule(count, rate=7.3, free_days=9 if count is RentCount.DAILY else 0)
    # 4 held through 2026, one swapped on the 10th of every month and one on the 20th: 24 fills a year
    swaps = tuple(Movement(dt.date(2026, m, d), 1, 1) for m in range(1, 13) for d in (10, 20))
    year = Period(dt.date(2026, 1, 1), dt.date(2026, 12, 31))
    counted = rent_due(rule, Ledger(dt.date(2025, 12, 1), 4, swaps), year).amount
    steady = 12 * float(month_rent(rule, held=4, fills_per_month=2))
    # the free days of the last swap of the year (20 December, 9 days) end before the year does: no tolerance is needed
    assert steady == pytest.approx(counted, rel=1e-12)


def test_a_leases_payments_are_spread_over_its_term():
    rule = RentRule(RentCount.LEASE, rate=360.0, term_years=3)
    ledger = Ledger(dt.date(2026, 1, 1), 0, (Movement(dt.date(2026, 1, 1), cylinders_in=2),))
    three_years = rent_due(rule, ledger, Period(dt.date(2026, 1, 1), dt.date(2028, 12, 31))).amount
    assert 36 * month_rent(rule, held=2, fills_per_month=1) == pytest.approx(three_years)
