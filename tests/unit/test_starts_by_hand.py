"""Starts and goes by hand: one per straight side, one more for each 0.6 m of reach; a go under half a metre is short.

Common practice, no source; the counts are worked by hand from the rule's words.
"""

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.torch_kit import work_rates
from estimator.quantities.lines import BurntMetres, burnt_metres
from estimator.words import Method, Shape

RATES = work_rates(example_shop())
NAN = float("nan")


def burnt(
    shape: int = -1,
    a: float = NAN,
    b: float = NAN,
    *,
    quantity: float = 1.0,
    length: float = NAN,
    method: Method = Method.STRAIGHTEDGE,
    shared: bool = False,
    pierces: float = NAN,
    edge_starts: float = NAN,
    bevel_length: float = NAN,
) -> BurntMetres:
    cuts = CutList(
        mark=["P1"],
        quantity=np.array([quantity]),
        thickness_mm=np.array([12.0]),
        shape=np.array([shape], dtype=np.int8),
        size_a_mm=np.array([a]),
        size_b_mm=np.array([b]),
        cut_length_mm=np.array([length]),
        method=np.array([method], dtype=np.int8),
        shared_cuts=np.array([shared]),
        pierces=np.array([pierces]),
        edge_starts=np.array([edge_starts]),
        bevel_length_mm=np.array([bevel_length]),
        bevel_deg=np.array([NAN if np.isnan(bevel_length) else 30.0]),
    )
    return burnt_metres(cuts, RATES, outlines_pierced=False)


def starts(m: BurntMetres) -> float:
    return float((m.passes * (m.edge_starts_each + m.restarts_each) + m.once_starts)[0])


@pytest.mark.parametrize(
    ("length", "count", "short"),
    [
        (300, 1, True),
        (499, 1, True),
        (500, 1, False),
        (550, 1, False),
        (600, 2, True),
        (1000, 2, False),
        (1200, 3, True),
    ],
)
def test_a_bare_cut_by_hand_has_one_start_and_one_more_for_each_reach(length, count, short):
    m = burnt(length=length)
    assert starts(m) == count
    assert (m.short_m_each[0] > 0, m.long_m_each[0] > 0) == (short, not short)


def test_a_rectangle_by_hand_starts_at_each_side_and_at_each_reach_of_it():
    m = burnt(Shape.RECTANGLE, 600, 250)  # two sides of two goes, two of one, all short
    assert starts(m) == 6
    assert m.set_starts_each[0] == 6
    assert m.short_m_each[0] == pytest.approx(1.7)


def test_sides_of_one_piece_are_short_or_long_each_by_its_own_goes():
    m = burnt(Shape.RECTANGLE, 1000, 250)  # sides in goes of 500 mm, ends of 250 mm
    assert (m.long_m_each[0], m.short_m_each[0]) == (pytest.approx(2.0), pytest.approx(0.5))


@pytest.mark.parametrize("method", [Method.TEMPLATE, Method.TRACK])
def test_a_guided_outline_has_one_start_however_long_it_is(method):
    m = burnt(Shape.RECTANGLE, 3000, 600, method=method)
    assert starts(m) == 1
    assert m.short_m_each[0] == 0  # the guide runs a side of 600 mm in one go


def test_a_bare_cut_on_the_circle_guide_is_one_start_at_the_speed_of_a_circle():
    m = burnt(length=1200, method=Method.CIRCLE_GUIDE)
    assert (starts(m), m.circle_m_each[0], m.circle_sizes[0]) == (1, pytest.approx(1.2), 1)


def test_starts_that_the_list_gives_are_all_and_part_a_bare_cut_evenly():
    m = burnt(length=1200, edge_starts=2)
    assert (starts(m), m.long_m_each[0]) == (2, pytest.approx(1.2))  # goes of 600 mm
    m = burnt(length=1200, edge_starts=3)
    assert (starts(m), m.short_m_each[0]) == (3, pytest.approx(1.2))  # goes of 400 mm
    m = burnt(Shape.RECTANGLE, 1200, 600, edge_starts=1)
    assert (starts(m), m.long_m_each[0]) == (1, pytest.approx(3.6))


def test_the_cut_that_a_row_adds_is_started_and_short_as_its_own_length_says():
    m = burnt(Shape.RECTANGLE, 300, 600, quantity=4, shared=True)
    assert m.once_starts[0] == 2
    assert (m.once_short_m[0], m.once_long_m[0]) == (pytest.approx(0.6), 0)


def test_an_odd_triangle_at_the_end_of_a_row_has_a_diagonal_with_starts_of_its_own():

    m = burnt(Shape.RIGHT_TRIANGLE, 550, 550, quantity=3, shared=True)
    assert starts(m) == 3 + 2 + 2 * 2
    assert float((m.passes * m.short_m_each + m.once_short_m)[0]) == pytest.approx(2 * 0.55 * 2**0.5)  # goes of 389 mm


def test_a_bevel_pass_by_hand_is_made_in_goes_too():
    m = burnt(Shape.RECTANGLE, 200, 600, bevel_length=600)
    assert (m.bevel_starts_each[0], bool(m.bevel_is_short[0])) == (2, True)
    m = burnt(Shape.RECTANGLE, 200, 600, bevel_length=550)
    assert (m.bevel_starts_each[0], bool(m.bevel_is_short[0])) == (1, False)
    m = burnt(Shape.RECTANGLE, 200, 600, bevel_length=600, method=Method.TRACK)
    assert (m.bevel_starts_each[0], bool(m.bevel_is_short[0])) == (1, False)
