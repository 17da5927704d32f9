"""Each rent rule, its days and months counted by hand on one small ledger.

The ledger: 2 cylinders when June 2026 opens; 2 more on the 6th; a swap (1 in, 1 out) on the 10th; 1 goes on the 21st.
Closing balances: 2 on the 1st to the 5th (5 days), 4 on the 6th to the 20th (15), 3 on the 21st to the 30th (10).
The rules are common practice, no source, except the annual one, which has its published check in tests/published.
"""

from __future__ import annotations

import datetime as dt

import pytest

from estimator.pricing.ledger import Ledger, Movement, Period, billing_months
from estimator.pricing.rent import RentCount, RentRule, deposit_due, months_to_renewal, rent_due

JUNE = Period(dt.date(2026, 6, 1), dt.date(2026, 6, 30))
LEDGER = Ledger(
    dt.date(2026, 6, 1),
    opening=2,
    movements=(
        Movement(dt.date(2026, 6, 6), cylinders_in=2),
        Movement(dt.date(2026, 6, 10), cylinders_in=1, cylinders_out=1),
        Movement(dt.date(2026, 6, 21), cylinders_out=1),
    ),
)


def june(day: int) -> dt.date:
    return dt.date(2026, 6, day)


def test_daily_rent_counts_the_day_of_delivery_and_not_the_day_of_return():
    charge = rent_due(RentRule(RentCount.DAILY, rate=0.25), LEDGER, JUNE)
    # by hand: 5 x 2 + 15 x 4 + 10 x 3 = 10 + 60 + 30 = 100 cylinder-days
    assert [step.units for step in charge.steps] == [10, 60, 30]
    assert [(s.first.day, s.last.day) for s in charge.steps] == [(1, 5), (6, 20), (21, 30)]
    assert charge.amount == pytest.approx(25.00)


def test_month_end_rent_counts_what_stands_there_on_the_last_day():
    charge = rent_due(RentRule(RentCount.MONTH_END, rate=6.00), LEDGER, JUNE)
    assert (charge.units, charge.amount) == (3, 18.00)


def test_average_rent_divides_the_cylinder_days_by_the_days_of_the_month():
    charge = rent_due(RentRule(RentCount.MONTH_AVERAGE, rate=6.00), LEDGER, JUNE)
    # by hand: 100 cylinder-days / 30 days = 3.3333 cylinders
    assert charge.amount == pytest.approx(20.00)


def test_highest_rent_counts_the_most_that_stood_there_at_once():
    charge = rent_due(RentRule(RentCount.MONTH_HIGHEST, rate=6.00), LEDGER, JUNE)
    assert (charge.units, charge.amount) == (4, 24.00)


def test_highest_rent_counts_the_opening_balance_even_when_all_go_on_the_first_day():
    gone = Ledger(june(1), opening=3, movements=(Movement(june(1), cylinders_out=3),))
    assert rent_due(RentRule(RentCount.MONTH_HIGHEST, rate=6.00), gone, JUNE).units == 3


def test_full_month_for_each_added_counts_a_cylinder_that_came_and_went():
    came_and_went = Ledger(
        june(1),
        opening=2,
        movements=(
            Movement(june(5), cylinders_in=1),
            Movement(june(10), cylinders_out=1),
            Movement(june(15), cylinders_in=1),
        ),
    )
    rule = RentRule(RentCount.MONTH_ADDED, rate=6.00)
    # by hand: 2 at opening, 1 added on the 5th, 1 added on the 15th: 4 months, where the highest balance is 3
    assert rent_due(rule, came_and_went, JUNE).amount == 24.00
    # by hand on the shared ledger: 2 + 2; the swap of the 10th adds none
    assert rent_due(rule, LEDGER, JUNE).amount == 24.00


@pytest.mark.parametrize(
    ("count", "units"),
    [
        (RentCount.MONTH_END, 3),  # on 24 June
        (RentCount.MONTH_AVERAGE, 96 / 31),
        (RentCount.MONTH_HIGHEST, 4),
        (RentCount.MONTH_ADDED, 4),
    ],
)
def test_a_billing_month_from_the_25th_counts_to_the_24th(count, units):
    # The ledger opened on 25 May with the same 2. By hand, 25 May to 24 June is 31 days:
    # 25 May to 5 June 12 days x 2 = 24; 6 to 20 June 15 x 4 = 60; 21 to 24 June 4 x 3 = 12; together 96.
    ledger = Ledger(dt.date(2026, 5, 25), 2, LEDGER.movements)
    charge = rent_due(RentRule(count, rate=1.0, month_starts_on=25), ledger, JUNE)
    assert [(s.first, s.last) for s in charge.steps] == [(dt.date(2026, 5, 25), june(24))]
    assert charge.units == pytest.approx(units)


def test_free_days_run_from_each_delivery_and_the_oldest_goes_back_first():
    rule = RentRule(RentCount.DAILY, rate=1.0, free_days=10)
    charge = rent_due(rule, LEDGER, JUNE)
    # by hand: the 2 of the opening are past their free days: 9 days x 2 = 18 (1st to 9th).
    # On the 10th one of them is swapped for a fresh one: 1 left. The 2 of the 6th start to pay on the 16th, the one of
    # the 10th on the 20th. 10th to 15th: 6 x 1 = 6. 16th to 19th: 4 x 3 = 12. 20th: 4. On the 21st the last old one
    # goes: 10 x 3 = 30. Together 18 + 6 + 12 + 4 + 30 = 70.
    assert charge.units == 70
    assert charge.amount == 70.0


def test_annual_rent_is_paid_at_the_renewal_and_for_each_added_cylinder_to_the_renewal():
    ledger = Ledger(dt.date(2025, 12, 1), 3, (Movement(june(17), cylinders_in=1),))
    rule = RentRule(RentCount.ANNUAL_ADVANCE, rate=96.00, renewal=(1, 1))
    year = rent_due(rule, ledger, Period(dt.date(2026, 1, 1), dt.date(2026, 12, 31)))
    # by hand: 3 x 96 at the renewal; 1 x 96 x 7 / 12 = 56 in June
    assert [step.amount for step in year.steps] == pytest.approx([288.00, 56.00])
    assert rent_due(rule, ledger, JUNE).amount == pytest.approx(56.00)
    assert rent_due(rule, ledger, Period(dt.date(2026, 7, 1), dt.date(2026, 7, 31))).amount == 0


def test_a_cylinder_that_fills_a_place_already_paid_for_pays_no_second_annual_rent():
    movements = (Movement(june(3), cylinders_out=1), Movement(june(9), cylinders_in=2))
    rule = RentRule(RentCount.ANNUAL_ADVANCE, rate=96.00, renewal=(1, 1))
    charge = rent_due(rule, Ledger(june(1), 3, movements), JUNE)
    assert charge.units == pytest.approx(7 / 12)  # one place beyond the three that are paid


def test_a_lease_is_paid_when_it_starts_and_again_when_its_term_ends():
    ledger = Ledger(dt.date(2026, 1, 1), 0, (Movement(june(10), cylinders_in=2),))
    rule = RentRule(RentCount.LEASE, rate=250.00, term_years=3)
    assert rent_due(rule, ledger, JUNE).amount == 500.00
    assert rent_due(rule, ledger, Period(dt.date(2026, 7, 1), dt.date(2029, 6, 9))).amount == 0
    assert rent_due(rule, ledger, Period(dt.date(2029, 6, 10), dt.date(2029, 6, 10))).amount == 500.00


def test_a_lease_whose_cylinder_went_back_is_not_renewed():
    movements = (Movement(june(10), cylinders_in=2), Movement(dt.date(2028, 1, 5), cylinders_out=1))
    charge = rent_due(
        RentRule(RentCount.LEASE, rate=250.00, term_years=3),
        Ledger(dt.date(2026, 1, 1), 0, movements),
        Period(dt.date(2029, 1, 1), dt.date(2029, 12, 31)),
    )
    assert charge.amount == 250.00


def test_owned_cylinders_pay_only_the_yearly_fee():
    rule = RentRule(RentCount.OWNED, rate=18.00, renewal=(6, 15))
    # by hand: 4 stood there on 14 June
    assert rent_due(rule, LEDGER, JUNE).amount == 72.00
    assert rent_due(rule, LEDGER, Period(dt.date(2026, 7, 1), dt.date(2026, 7, 31))).amount == 0


def test_no_rent_is_no_rent():
    assert rent_due(RentRule(RentCount.NONE), LEDGER, JUNE).amount == 0


def test_deposits_follow_the_net_movement_of_each_day():
    # by hand: + 2 on the 6th, nothing for the swap, - 1 on the 21st
    assert deposit_due(40.0, LEDGER, JUNE) == 40.0
    assert deposit_due(40.0, LEDGER, JUNE, refund_share=0.5) == 60.0


@pytest.mark.parametrize(
    ("start", "renewal", "months"),
    [
        (dt.date(2026, 6, 1), (1, 1), 7),
        (dt.date(2026, 12, 31), (1, 1), 1),
        (dt.date(2026, 1, 1), (1, 1), 12),
        (dt.date(2026, 1, 10), (1, 15), 1),
        (dt.date(2026, 1, 15), (1, 15), 12),
        (dt.date(2026, 6, 10), (1, 15), 8),  # 15 May to 14 June is the first of 8
        (dt.date(2026, 6, 20), (1, 15), 7),
    ],
)
def test_months_to_the_renewal_count_the_month_a_cylinder_comes_in(start, renewal, months):
    assert months_to_renewal(start, renewal) == months


def test_a_period_of_two_months_charges_each_month_that_ends_in_it():
    period = Period(dt.date(2026, 6, 1), dt.date(2026, 7, 31))
    charge = rent_due(RentRule(RentCount.MONTH_END, rate=6.00), LEDGER, period)
    assert [step.units for step in charge.steps] == [3, 3]
    assert [m.days for m in billing_months(period)] == [30, 31]


def test_a_balance_below_zero_earns_no_rent_back():
    wrong = Ledger(june(1), 0, (Movement(june(2), cylinders_out=1),))
    for count in RentCount:
        assert rent_due(RentRule(count, rate=5.0), wrong, JUNE).amount == 0, count


def test_a_day_before_the_ledger_opens_is_refused_rather_than_guessed():
    with pytest.raises(ValueError, match="not known"):
        rent_due(RentRule(RentCount.MONTH_AVERAGE, 1.0, month_starts_on=25), LEDGER, JUNE)
    with pytest.raises(ValueError, match="before the ledger opens"):
        Ledger(june(2), 0, (Movement(june(1), cylinders_in=1),))


def test_rules_that_make_no_sense_are_refused():
    with pytest.raises(ValueError, match="free days"):
        RentRule(RentCount.MONTH_END, 1.0, free_days=5)
    with pytest.raises(ValueError, match="from 1 to 28"):
        RentRule(RentCount.MONTH_END, 1.0, month_starts_on=31)
