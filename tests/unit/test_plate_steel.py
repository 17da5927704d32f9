"""Steel charged by plates: whole plates or the area used, shared over lines by area; worked by hand."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.pricing.plates_bought import plates_bought
from estimator.words import MadeFrom, Shape, Steel

ORDER = JobOrder(date=dt.date(2026, 11, 2))


def priced(charged: str, *, plate: bool = True, made_from: MadeFrom = MadeFrom.PLATE) -> Estimate:
    """40 squares of 300 and 20 rectangles of 200 x 400, 20 mm, from plates of 2500 x 1250 at 1.50 a kg, scrap 0.20."""
    shop = example_shop()
    steel = [
        row.model_copy(
            update={
                "price_per_kg": 1.5, "scrap_per_kg": 0.2,
                "plate_length_mm": 2500.0 if plate else None, "plate_width_mm": 1250.0 if plate else None,
            }
        )
        for row in shop.steel
    ]  # fmt: skip
    shop = shop.model_copy(
        update={"steel": tuple(steel), "shop": shop.shop.model_copy(update={"steel_charged": charged})}
    )
    cuts = CutList(
        mark=["A", "B"],
        quantity=np.array([40.0, 20.0]),
        thickness_mm=np.array([20.0, 20.0]),
        shape=np.array([Shape.RECTANGLE] * 2, dtype=np.int8),
        size_a_mm=np.array([300.0, 400.0]),
        size_b_mm=np.array([300.0, 200.0]),
        made_from=np.array([made_from] * 2, dtype=np.int8),
        steel=np.array([Steel.OURS] * 2, dtype=np.int8),
    )
    return estimate_job(cuts, shop, ORDER)


def test_whole_plates_are_charged_less_the_scrap_of_what_is_left():
    job = priced("whole plates")
    (buy,) = plates_bought(job).buys
    plate_kg = 2.5 * 1.25 * 0.020 * 7850
    assert buy.option.plates == 3  # 40 x 1/32 and 20 x 0.0309 of a plate
    assert job.costs.steel.sum() == pytest.approx(3 * plate_kg * 1.5 - buy.option.drop_mass_kg * 0.2)


def test_the_area_used_is_charged_with_its_spacing_and_the_rest_stays_the_shops():
    job = priced("area used")
    taken_m2 = 40 * 0.305 * 0.305 + 20 * 0.405 * 0.205
    assert job.costs.steel.sum() == pytest.approx(taken_m2 * 0.020 * 7850 * 1.5)
    assert job.costs.steel.sum() < priced("whole plates").costs.steel.sum()


@pytest.mark.parametrize("charged", ["whole plates", "area used"])
def test_lines_share_the_plates_by_their_area_with_spacing(charged):
    steel = priced(charged).costs.steel
    assert steel[0] / steel[1] == pytest.approx(40 * 0.305 * 0.305 / (20 * 0.405 * 0.205))


@pytest.mark.parametrize(("plate", "made_from"), [(False, MadeFrom.PLATE), (True, MadeFrom.FLAT)])
def test_lines_that_no_plate_serves_go_by_weight(plate, made_from):
    one, other = (priced(how, plate=plate, made_from=made_from) for how in ("whole plates", "by weight"))
    assert one.costs.steel.tolist() == other.costs.steel.tolist()
    assert np.isnan(one.plates.bought_kg_each).all()


def test_plates_stay_as_counted_when_a_job_is_opened_again_from_its_record():
    from estimator.pricing.job import Reopened

    job = priced("whole plates")
    more = replace(job.cuts, quantity=np.array([80.0, 20.0]))
    again = estimate_job(more, job.shop, ORDER, reopened=Reopened(plates=job.plates))
    assert again.costs.steel[0] == pytest.approx(2 * job.costs.steel[0])


def test_each_plate_that_is_bought_is_fetched_and_without_sizes_one_for_each_thickness():
    def fetched(*, plate: bool) -> float:
        return next(row.count for row in priced("by weight", plate=plate).job.rows if row.key == "plates")

    assert (fetched(plate=True), fetched(plate=False)) == (3, 1)
