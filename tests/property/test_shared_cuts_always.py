"""What must always hold for pieces that share cuts, and for every line when its quantity doubles."""

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.job import JobOrder, estimate_job
from estimator.words import EdgeFinish, MadeFrom, Method, Shape, Site, Steel

SIDE = st.floats(60, 1500)
QUANTITY = st.integers(1, 40)
MILL = st.integers(0, 2)
METHOD = st.sampled_from(list(Method))


def lines_of(*of, **more):
    return job_of(*of, **more).job.lines


def job_of(
    shape,
    a_mm,
    b_mm,
    quantity,
    *,
    shared,
    sides=0,
    ends=0,
    method=Method.STRAIGHTEDGE,
    finish=EdgeFinish.AS_CUT,
    made_from=MadeFrom.PLATE,
    length_mm=None,
    starts=None,
    stack=1,
    pierced=False,
):
    cuts = CutList(
        mark=["P1"],
        quantity=np.array([float(quantity)]),
        thickness_mm=np.array([12.0]),
        shape=np.array([shape], dtype=np.int8),
        size_a_mm=np.array([a_mm]),
        size_b_mm=np.array([b_mm]),
        shared_cuts=np.array([shared]),
        mill_sides=np.array([float(sides)]),
        mill_ends=np.array([float(ends)]),
        method=np.array([method], dtype=np.int8),
        steel=np.array([Steel.OURS], dtype=np.int8),
        edge_finish=np.array([finish], dtype=np.int8),
        made_from=np.array([made_from], dtype=np.int8),
        cut_length_mm=np.array([np.nan if length_mm is None else length_mm]),
        edge_starts=np.array([np.nan if starts is None else float(starts)]),
        stack=np.array([float(stack)]),
    )
    shop = example_shop()
    shop = shop.model_copy(update={"shop": shop.shop.model_copy(update={"outlines_pierced": pierced})})
    return estimate_job(cuts, shop, JobOrder(date=dt.date(2026, 11, 2)))


@settings(max_examples=40, deadline=None)
@given(SIDE, SIDE, QUANTITY)
def test_n_equal_pieces_in_a_strip_cost_n_plus_one_cross_cuts_and_the_long_sides_once(a_mm, b_mm, n):
    lines = lines_of(Shape.RECTANGLE, a_mm, b_mm, n, shared=True)
    assert lines.cut_m[0] * 1000 == pytest.approx((n + 1) * b_mm + 2 * n * a_mm)


@settings(max_examples=40, deadline=None)
@given(SIDE, SIDE, QUANTITY)
def test_triangles_in_pairs_cost_a_cross_cut_and_a_diagonal_for_two(a_mm, b_mm, pairs):
    lines = lines_of(Shape.RIGHT_TRIANGLE, a_mm, b_mm, 2 * pairs, shared=True)
    by_hand = (pairs + 1) * b_mm + 2 * pairs * a_mm + pairs * np.hypot(a_mm, b_mm)
    assert lines.cut_m[0] * 1000 == pytest.approx(by_hand)


@settings(max_examples=150, deadline=None)
@given(
    shape=st.sampled_from([Shape.RECTANGLE, Shape.STRIP, Shape.RIGHT_TRIANGLE]),
    a_mm=SIDE,
    b_mm=SIDE,
    n=QUANTITY,
    sides=MILL,
    ends=MILL,
    method=METHOD,
    finish=st.sampled_from(list(EdgeFinish)),
    made_from=st.sampled_from([MadeFrom.PLATE, MadeFrom.FLAT]),
    length_mm=st.one_of(st.none(), st.floats(200, 4000)),
    starts=st.one_of(st.none(), st.integers(1, 6)),
    stack=st.integers(1, 3),
    pierced=st.booleans(),
)
def test_sharing_never_costs_more(shape, a_mm, b_mm, n, sides, ends, method, pierced, **more):
    """Metres, minutes, gas, price, whatever the shape, the mill's edges, the guide, the finish, and what is given."""
    apart, shared = (
        job_of(shape, a_mm, b_mm, n, shared=flag, sides=sides, ends=ends, method=method, pierced=pierced, **more)
        for flag in (False, True)
    )
    for figure in (
        "cut_m", "cut_time_min", "flame_time_min", "cleaning_min", "grinding_min", "paid_time_min",
        "cutting_oxygen_m3", "preheat_oxygen_m3", "fuel_m3", "kerf_mass_kg",
    ):  # fmt: skip
        one, other = getattr(shared.job.lines, figure)[0], getattr(apart.job.lines, figure)[0]
        assert -1e-9 <= one <= other * (1 + 1e-9) + 1e-9, figure
    assert shared.lines.price[0] <= apart.lines.price[0]
    assert shared.totals.total <= apart.totals.total


@settings(max_examples=20, deadline=None)
@given(SIDE, SIDE, QUANTITY)
def test_a_flat_takes_one_cross_cut_a_piece_whether_cuts_are_shared_or_not(a_mm, b_mm, n):
    for shared in (False, True):
        lines = lines_of(Shape.RECTANGLE, a_mm, b_mm, n, shared=shared, sides=2, ends=1)
        assert lines.cut_m[0] * 1000 == pytest.approx(n * b_mm)


def test_a_job_wholly_on_site_fetches_no_plates_and_a_mixed_one_only_those_of_the_shop():
    def fetched(sites: list[Site]) -> float:
        cuts = CutList(
            mark=[f"P{i}" for i in range(len(sites))],
            quantity=np.ones(len(sites)),
            thickness_mm=np.array([10.0 + 2 * i for i in range(len(sites))]),
            shape=np.full(len(sites), Shape.RECTANGLE, dtype=np.int8),
            size_a_mm=np.full(len(sites), 300.0),
            size_b_mm=np.full(len(sites), 200.0),
            steel=np.full(len(sites), Steel.EXCLUDED, dtype=np.int8),
            site=np.array(sites, dtype=np.int8),
        )
        rows = estimate_job(cuts, example_shop(), JobOrder(date=dt.date(2026, 11, 2))).job.rows
        return next((row.count for row in rows if row.key == "plates"), 0.0)

    assert fetched([Site.SITE, Site.SITE]) == 0
    assert fetched([Site.SITE, Site.SHOP]) == 1
    assert fetched([Site.SHOP, Site.SHOP]) == 2


@settings(max_examples=40, deadline=None)
@given(st.sampled_from([Shape.RECTANGLE, Shape.DISC, Shape.RING, Shape.ANGLE]), st.floats(100, 900), QUANTITY, METHOD)
def test_a_line_doubles_when_its_quantity_doubles(shape, a_mm, n, method):
    once = lines_of(shape, a_mm, a_mm / 2, n, shared=False, method=method)
    twice = lines_of(shape, a_mm, a_mm / 2, 2 * n, shared=False, method=method)
    for figure in ("cut_m", "flame_time_min", "paid_time_min", "cutting_oxygen_m3", "fuel_m3", "kerf_mass_kg"):
        assert getattr(twice, figure)[0] == pytest.approx(2 * getattr(once, figure)[0]), figure


@settings(max_examples=30, deadline=None)
@given(SIDE, SIDE, QUANTITY, MILL, MILL, st.booleans())
def test_cleaning_follows_the_edges_of_every_piece_and_not_the_metres_burnt(a_mm, b_mm, n, sides, ends, shared):
    lines = lines_of(Shape.RECTANGLE, a_mm, b_mm, n, shared=shared, sides=sides, ends=ends)
    # A row's mill ends are no burnt edge; a piece cut singly has two of its own, unless it is the whole bar.
    ends_mm = ends * b_mm if (shared and n > 1) or (n == 1 and ends == 2) else 0.0
    edges_m = (n * ((2 - sides) * a_mm + 2 * b_mm) - ends_mm) / 1000
    assert lines.cleaning_min[0] == pytest.approx(edges_m * 1.32, abs=1e-9)  # ENiR E40-2-4 A, plate to 12 mm


@settings(max_examples=30, deadline=None)
@given(SIDE, SIDE, st.integers(2, 40), MILL)
def test_triangles_back_to_back_on_a_mill_side_share_the_leg_across(a_mm, b_mm, n, ends):
    lines = lines_of(Shape.RIGHT_TRIANGLE, a_mm, b_mm, n, shared=True, sides=1, ends=ends)
    legs = max(0, -(-(n - ends) // 2))
    assert lines.cut_m[0] * 1000 == pytest.approx(legs * b_mm + n * np.hypot(a_mm, b_mm))


def test_two_mill_ends_leave_one_cut_less_than_pieces_in_a_row_and_one_a_piece_cut_singly():
    def cuts(n: int, *, shared: bool) -> float:
        return lines_of(Shape.RECTANGLE, 300.0, 200.0, n, shared=shared, sides=2, ends=2).cut_m[0] / 0.2

    assert [cuts(n, shared=True) for n in (1, 2, 6)] == pytest.approx([0, 1, 5])
    assert [cuts(n, shared=False) for n in (1, 2, 6)] == pytest.approx([0, 2, 6])


def test_each_cut_that_a_row_adds_on_the_track_is_a_run_of_its_own():
    lines = lines_of(Shape.RECTANGLE, 300.0, 200.0, 4, shared=True, sides=2, method=Method.TRACK)
    assert float((lines.metres.passes * lines.metres.runs_each + lines.metres.once_runs)[0]) == 5
