"""What must hold for every count of plates."""

import math

from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.quantities.plates import plate_need

SIDE = st.floats(20, 1500)


def count(lines, fill, spacing):
    need = plate_need(
        thickness_mm=[10.0] * len(lines),
        length_mm=[a for a, _, _ in lines],
        width_mm=[b for _, b, _ in lines],
        net_area_mm2=[a * b for a, b, _ in lines],
        rectangle_share=[1.0] * len(lines),
        kerf_area_mm2=[0.0] * len(lines),
        quantity=[q for _, _, q in lines],
        offer_thickness_mm=[10.0],
        offer_length_mm=[3000.0],
        offer_width_mm=[1500.0],
        spacing_mm=spacing,
        fill_factor=fill,
        steel_kg_m3=7850.0,
    )
    return need.options[0]


LINES = st.lists(st.tuples(SIDE, SIDE, st.integers(1, 60)), min_size=1, max_size=6)


@settings(max_examples=60)
@given(LINES, st.floats(0.3, 1.0), st.floats(0.0, 20.0))
def test_plates_are_never_fewer_than_the_net_area_and_nothing_is_left_over_below_zero(lines, fill, spacing):
    option = count(lines, fill, spacing)
    net_mm2 = sum(a * b * q for a, b, q in lines)
    assert option.plates >= math.ceil(net_mm2 / (3000 * 1500) - 1e-9)
    assert option.drop_mass_kg >= -1e-6
    assert 0 < option.used_share <= 1 + 1e-9


@settings(max_examples=40)
@given(LINES, st.floats(0.3, 0.99), st.floats(0.0, 20.0))
def test_a_wider_gap_or_a_poorer_fill_never_saves_a_plate(lines, fill, spacing):
    base = count(lines, fill, spacing).plates
    assert count(lines, fill * 0.8, spacing).plates >= base
    assert count(lines, fill, spacing + 3).plates >= base


@settings(max_examples=40)
@given(LINES, st.randoms(use_true_random=False))
def test_the_order_of_the_lines_does_not_change_the_count(lines, shuffler):
    mixed = lines[:]
    shuffler.shuffle(mixed)
    assert count(lines, 0.85, 5.0).plates == count(mixed, 0.85, 5.0).plates
