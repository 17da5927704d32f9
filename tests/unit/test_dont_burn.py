"""Which lines of a priced list are cheaper sawn, sheared or drilled. Prices are those of the invented example shop."""

import datetime as dt

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.other_work import OtherWork
from estimator.pricing.dont_burn import dont_burn
from estimator.pricing.job import JobOrder, estimate_job
from estimator.words import MadeFrom, Shape, Steel
from scripts.make_trial_page import estimate, trial_cuts

NAN = np.nan


def priced(shape, a, b, t, *, quantity=20, made_from=MadeFrom.PLATE, holes=NAN, hole_mm=NAN, burn=False, minutes=NAN):
    cuts = CutList(
        mark=["P1"],
        quantity=np.array([float(quantity)]),
        thickness_mm=np.array([float(t)]),
        shape=np.array([shape], dtype=np.int8),
        size_a_mm=np.array([float(a)]),
        size_b_mm=np.array([float(b)]),
        made_from=np.array([made_from], dtype=np.int8),
        shared_cuts=np.array([made_from == MadeFrom.FLAT]),
        holes=np.array([holes]),
        hole_diameter_mm=np.array([hole_mm]),
        burn_holes=np.array([burn]),
        minutes_each=np.array([float(minutes)]),
        steel=np.array([Steel.EXCLUDED], dtype=np.int8),
    )
    return estimate_job(cuts, example_shop(), JobOrder(date=dt.date(2026, 11, 2)))


def test_the_small_caps_of_the_trial_are_no_torch_job():
    """Common practice, no source: 20 caps of 120 x 120 x 6 are sheared or sawn in 20 to 25 minutes."""
    job = estimate(trial_cuts())
    caps = next(one for one in dont_burn(job) if job.cuts.mark[one.line] == "T5")
    handling = job.job.lines.handling_min[caps.line] * 1.12 / 20
    assert caps.way in ("saw", "shear")
    assert 20 <= 20 * (caps.way_min_each - handling) <= 25
    assert caps.saving > 0


def test_minutes_of_a_bend_are_worked_whichever_way_the_piece_is_cut():
    (plain,) = dont_burn(priced(Shape.RECTANGLE, 200, 100, 6))
    (bent,) = dont_burn(priced(Shape.RECTANGLE, 200, 100, 6, minutes=8))
    assert bent.saving == pytest.approx(plain.saving)
    assert bent.way_min_each == pytest.approx(plain.way_min_each + 8 * 1.12)


def test_a_bar_of_angle_is_sawn_for_less():
    (found,) = dont_burn(priced(Shape.ANGLE, 60, 60, 6))
    assert found.way == "saw"


@pytest.mark.parametrize("shape", [Shape.DISC, Shape.RING])
def test_round_pieces_are_left_to_the_torch(shape):
    assert dont_burn(priced(shape, 200, 100, 6)) == []


def test_thick_or_large_plate_is_left_to_the_torch():
    assert dont_burn(priced(Shape.RECTANGLE, 300, 300, 12)) == []  # over the shear's thickness
    assert dont_burn(priced(Shape.RECTANGLE, 900, 300, 6)) == []  # over the shear's length


def test_small_holes_that_the_list_wants_burnt_are_shown_beside_the_drill():
    (found,) = dont_burn(priced(Shape.RECTANGLE, 300, 300, 12, holes=4.0, hole_mm=18.0, burn=True))
    assert (found.way, found.units) == ("drill hole", 80)
    assert found.way_min_each == pytest.approx(1.5 + 0.2 * np.pi * 1.8**2 / 4 * 1.2)
    assert found.burn_cost_each > found.way_cost_each


def test_holes_that_are_drilled_already_are_not_named():
    assert dont_burn(priced(Shape.RECTANGLE, 300, 300, 12, holes=4.0, hole_mm=18.0)) == []


def test_the_torch_stays_where_an_hour_costs_nothing_but_the_blade_does():
    shop = example_shop()
    free = tuple(rate.model_copy(update={"per_hour": 0.0}) for rate in shop.labour)
    form = shop.shop.model_copy(update={"overhead_per_hour": 0.0})
    dear_saw = [{"name": name, "per": "piece", "minutes": 1.0} for name in ("saw", "shear")]
    works = tuple(OtherWork(consumable="blade", consumable_life=1.0, consumable_price=50.0, **row) for row in dear_saw)
    job = priced(Shape.RECTANGLE, 120, 120, 6, made_from=MadeFrom.FLAT)
    shop = shop.model_copy(update={"labour": free, "shop": form, "other_work": works})
    assert dont_burn(estimate_job(job.cuts, shop, job.order)) == []
