"""What must always hold for pieces that share cuts, and for every line when its quantity doubles."""

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.job import JobOrder, estimate_job
from estimator.words import Method, Shape, Site, Steel

SIDE = st.floats(60, 1500)
QUANTITY = st.integers(1, 40)
MILL = st.integers(0, 2)
ONE_END = st.integers(0, 1)
HAND = st.sampled_from([Method.FREE_HAND, Method.STRAIGHTEDGE, Method.TEMPLATE, Method.TRACK])


def lines_of(shape, a_mm, b_mm, quantity, *, shared, sides=0, ends=0, method=Method.STRAIGHTEDGE):
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
        steel=np.array([Steel.EXCLUDED], dtype=np.int8),
    )
    return estimate_job(cuts, example_shop(), JobOrder(date=dt.date(2026, 11, 2))).job.lines


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


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([Shape.RECTANGLE, Shape.STRIP, Shape.RIGHT_TRIANGLE]), SIDE, SIDE, QUANTITY, MILL, ONE_END, HAND)
def test_sharing_never_costs_more(shape, a_mm, b_mm, n, sides, ends, method):
    """One mill side of triangles is left out: singly each has its own, in a row only the row. Two mill ends mean
    pieces as long as the bar when cut singly, and one bar when they share cuts: other steel, so not compared."""
    sides = sides if shape != Shape.RIGHT_TRIANGLE else 2 * (sides // 2)
    apart = lines_of(shape, a_mm, b_mm, n, shared=False, sides=sides, ends=ends, method=method)
    shared = lines_of(shape, a_mm, b_mm, n, shared=True, sides=sides, ends=ends, method=method)
    # With a mill end the shared row cleans both edges of every cut, a piece by itself only its own: not compared.
    paid = ["paid_time_min"] if ends == 0 else []
    for figure in ("cut_m", "cut_time_min", "flame_time_min", "cutting_oxygen_m3", "fuel_m3", *paid):
        assert getattr(shared, figure)[0] <= getattr(apart, figure)[0] * (1 + 1e-9), figure


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
@given(st.sampled_from([Shape.RECTANGLE, Shape.DISC, Shape.RING, Shape.ANGLE]), st.floats(100, 900), QUANTITY, HAND)
def test_a_line_doubles_when_its_quantity_doubles(shape, a_mm, n, method):
    once = lines_of(shape, a_mm, a_mm / 2, n, shared=False, method=method)
    twice = lines_of(shape, a_mm, a_mm / 2, 2 * n, shared=False, method=method)
    for figure in ("cut_m", "flame_time_min", "paid_time_min", "cutting_oxygen_m3", "fuel_m3", "kerf_mass_kg"):
        assert getattr(twice, figure)[0] == pytest.approx(2 * getattr(once, figure)[0]), figure


@settings(max_examples=30, deadline=None)
@given(SIDE, SIDE, QUANTITY, MILL, MILL)
def test_cleaning_follows_the_edges_of_every_piece_and_not_the_metres_burnt(a_mm, b_mm, n, sides, ends):
    lines = lines_of(Shape.RECTANGLE, a_mm, b_mm, n, shared=True, sides=sides, ends=ends)
    edges_m = n * ((2 - sides) * a_mm + 2 * b_mm) / 1000
    assert n * lines.metres.edge_m_each[0] == pytest.approx(edges_m)
    assert lines.cleaning_min[0] == pytest.approx(edges_m * 1.32)  # ENiR E40-2-4 A, plate to 12 mm
