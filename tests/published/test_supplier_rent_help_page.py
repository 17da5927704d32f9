"""Annual cylinder rent, months counted to the renewal.

Source: a gas supplier's help page, help.boconline.ie, "rental period options" (read as an excerpt): renewal on
1 January, a cylinder added in June is charged 7 months. A count, so there is no tolerance.
"""

from __future__ import annotations

import datetime as dt

from estimator.pricing.ledger import Ledger, Movement, Period
from estimator.pricing.rent import RentCount, RentRule, rent_due


def test_a_cylinder_added_in_june_pays_seven_months_to_a_renewal_in_january():
    ledger = Ledger(dt.date(2026, 1, 1), 0, (Movement(dt.date(2026, 6, 15), cylinders_in=1),))
    rule = RentRule(RentCount.ANNUAL_ADVANCE, rate=12.0, renewal=(1, 1))
    charge = rent_due(rule, ledger, Period(dt.date(2026, 6, 1), dt.date(2026, 6, 30)))
    assert charge.amount == 7.0
