"""OpenStax, Principles of Accounting, Volume 2: Managerial Accounting (CC BY-NC-SA), m68004, m68071, m68079, m68111.

Printed answers, seen. Tolerance: none, or half of the last printed digit.
"""

import datetime as dt

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.other_work import OtherWork
from estimator.learning.fit import fit_line
from estimator.pricing.estimate import PricedLines
from estimator.pricing.job import JobOrder, estimate_job
from estimator.pricing.variances import price_variance, usage_variance
from estimator.words import Work

BOATS = [6, 4, 3, 8, 2, 7, 5]
BOAT_COST = [11_650, 9_100, 7_825, 14_200, 6_550, 12_925, 10_375]


def one_job(*, material: float, labour: float, overhead_per_labour: float, markup: float) -> PricedLines:
    """One line of other work through the whole engine: an hour of labour, its material as a consumable used up."""
    work = OtherWork(name="sign", per="piece", minutes=60, rest_allowed=False, consumable_price=material)
    work = work.model_copy(update={"consumable_life": 1.0, "labour_rate": ""})
    shop = example_shop()
    form = shop.shop.model_copy(
        update={"overhead_per_hour": overhead_per_labour * labour, "markup": markup, "minimum_line": 0.0}
    )
    pay = tuple(row.model_copy(update={"per_hour": labour}) for row in shop.labour if row.name == "normal")
    shop = shop.model_copy(update={"shop": form, "labour": pay, "other_work": (work,)})
    line = CutList(
        mark=["job"],
        quantity=np.ones(1),
        thickness_mm=np.full(1, np.nan),
        work=np.array([Work.OTHER], dtype=np.int8),
        other_work=["sign"],
    )
    return estimate_job(line, shop, JobOrder(date=dt.date(2026, 11, 2))).lines


def test_a_job_of_700_material_and_66_labour_costs_931_with_overhead_at_2_50_on_labour():
    # m68004: 700 + 66 + 2.5 x 66 = 931
    done = one_job(material=700, labour=66, overhead_per_labour=2.5, markup=0.0)
    assert int(done.cost[0]) == 931_00
    assert int(done.parts["overhead"][0]) == 165_00


def test_a_cost_of_12_at_30_percent_markup_sells_at_15_60():
    done = one_job(material=2, labour=10, overhead_per_labour=0, markup=0.30)  # m68079
    assert int(done.price_each[0]) == 15_60


def test_price_variance_of_the_shampoo_is_890_favourable():
    assert price_variance(74_760, 89_000, 0.85) == pytest.approx(-890)  # m68071


def test_quantity_variance_of_the_shampoo_is_850_unfavourable():
    assert usage_variance(89_000, 8 * 11_000, 0.85) == pytest.approx(850)  # m68071


def test_the_boats_cost_4000_and_1275_each():
    fixed, variable = fit_line(BOATS, BOAT_COST).coefficients  # m68111
    assert (fixed, variable) == (pytest.approx(4000, abs=1e-6), pytest.approx(1275, abs=1e-6))


def test_a_printed_line_that_its_own_data_do_not_give_is_not_reproduced():
    """m68111 prints 78.57 for these figures; least squares gives 92.64 x + 1,579.93, as NumPy's own solver does."""
    tonnes, cost = [6, 4, 3, 8, 2, 7, 5], [1_700, 2_000, 2_100, 2_700, 1_602, 1_900, 2_300]
    fixed, variable = fit_line(tonnes, cost).coefficients
    slope, start = np.polyfit(tonnes, cost, 1)
    assert variable == pytest.approx(slope, rel=1e-9)
    assert variable == pytest.approx(92.642857, abs=1e-6)
    assert fixed == pytest.approx(start, rel=1e-9)
    assert abs(variable - 78.57) > 10
