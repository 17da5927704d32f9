"""Steel charged by plates: whole plates or the area used, shared over lines by area; worked by hand."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.shop_book import WorkRate
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.pricing.plates_bought import plates_bought
from estimator.words import MadeFrom, Shape, Steel, Work
from tests.samples.jobs import changed_shop

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


def test_a_round_piece_pays_the_square_it_comes_from_unless_the_shop_says_its_own_weight():
    cuts = CutList(
        mark=["D", "R", "T"],
        quantity=np.array([1.0, 2.0, 1.0]),
        thickness_mm=np.full(3, 25.0),
        shape=np.array([Shape.DISC, Shape.RING, Shape.RIGHT_TRIANGLE], dtype=np.int8),
        size_a_mm=np.array([400.0, 450.0, 300.0]),
        size_b_mm=np.array([np.nan, 300.0, 200.0]),
        steel=np.full(3, Steel.OURS, dtype=np.int8),
    )
    disc_kg, ring_kg = (np.pi / 4 * face * 0.025 * 7850 for face in (0.4**2, 0.45**2 - 0.3**2))
    triangle_kg = 0.3 * 0.2 / 2 * 0.025 * 7850  # two make a rectangle
    squares_kg = [0.4**2 * 0.025 * 7850, 2 * 0.45**2 * 0.025 * 7850, triangle_kg]
    pieces_kg = [disc_kg, 2 * ring_kg, triangle_kg]

    def steel(*rates: WorkRate) -> list[float]:
        shop = changed_shop()
        rows = tuple(row.model_copy(update={"price_per_kg": 1.5, "scrap_per_kg": 0.2}) for row in shop.steel)
        shop = shop.model_copy(update={"steel": rows, "work_rates": rates})
        return list(estimate_job(cuts, shop, ORDER).costs.steel)

    bought = [kg / 0.85 for kg in squares_kg]
    assert steel() == pytest.approx([b * 1.5 - (b - p) * 0.2 for b, p in zip(bought, pieces_kg, strict=True)])
    own = [kg / 0.85 for kg in pieces_kg]
    by_weight = steel(WorkRate(name="round_waste_charged", likely=0.0))
    assert by_weight == pytest.approx([b * 1.5 - (b - p) * 0.2 for b, p in zip(own, pieces_kg, strict=True)])


def test_bars_and_sections_bear_the_left_over_of_a_bar_and_plates_that_of_a_plate():
    cuts = CutList(
        mark=["P", "F", "B", "A"],
        quantity=np.ones(4),
        thickness_mm=np.array([10.0, 10.0, 10.0, 6.0]),
        shape=np.array([Shape.RECTANGLE, Shape.RECTANGLE, Shape.RECTANGLE, Shape.ANGLE], dtype=np.int8),
        size_a_mm=np.array([300.0, 300.0, 300.0, 50.0]),
        size_b_mm=np.array([100.0, 100.0, 100.0, 50.0]),
        section_area_cm2=np.array([np.nan, np.nan, np.nan, 5.69]),
        section_length_mm=np.array([np.nan, np.nan, np.nan, 1000.0]),
        made_from=np.array([MadeFrom.PLATE, MadeFrom.FLAT, MadeFrom.BLANK, -1], dtype=np.int8),
        steel=np.full(4, Steel.OURS, dtype=np.int8),
    )
    shop = changed_shop()
    rows = tuple(row.model_copy(update={"price_per_kg": 2.0, "scrap_per_kg": 0.0}) for row in shop.steel)
    shop = shop.model_copy(update={"steel": rows})
    flat_kg, angle_kg = 0.3 * 0.1 * 0.010 * 7850, 5.69e-4 * 7850
    job = estimate_job(cuts, shop, ORDER)
    charged = [flat_kg / 0.85, flat_kg / 0.95, flat_kg / 0.95, angle_kg / 0.95]
    assert list(job.costs.steel) == pytest.approx([2.0 * kg for kg in charged])
    typed = shop.model_copy(update={"work_rates": (WorkRate(name="bar_left_over", likely=0.2),)})
    assert estimate_job(cuts, typed, ORDER).costs.steel[3] == pytest.approx(2.0 * angle_kg / 0.8)
    fetched = {row.key: row.count for row in job.rows.rows}
    assert fetched["plates"] == 1.0  # the one of plate; bars are lifted by their weight


def test_odd_work_on_a_piece_has_no_drawing_to_read():
    cuts = CutList(
        mark=["A", "A", "", "A", "S"],
        quantity=np.ones(5),
        thickness_mm=np.array([10.0, 10.0, 10.0, np.nan, np.nan]),
        shape=np.array([Shape.RECTANGLE, Shape.RECTANGLE, Shape.BAR_END, -1, -1], dtype=np.int8),
        size_a_mm=np.array([300.0, 200.0, 100.0, np.nan, np.nan]),
        size_b_mm=np.array([100.0, 100.0, np.nan, np.nan, np.nan]),
        work=np.array([Work.CUT, Work.CUT, Work.CUT, Work.OTHER, Work.OTHER], dtype=np.int8),
        minutes_each=np.array([np.nan, np.nan, np.nan, 5.0, 45.0]),
        steel=np.full(5, Steel.EXCLUDED, dtype=np.int8),
    )
    rows = {row.key: row.count for row in estimate_job(cuts, changed_shop(), ORDER).rows.rows}
    assert rows["setup_mark"] == 2.0  # mark A, and the bar without one
    assert rows["setup_thickness"] == 1.0
