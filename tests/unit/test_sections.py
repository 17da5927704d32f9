"""Cross cuts of bars and rolled sections, against geometry and against section tables."""

import numpy as np
import pytest

from estimator.quantities.sections import ends_cleaned, is_section, section_cut, section_time_min
from estimator.words import Shape

NAN = float("nan")


def one(shape, a=NAN, b=NAN, t=NAN, area=NAN):
    return section_cut(
        [shape],
        size_a_mm=[a],
        size_b_mm=[b],
        thickness_mm=[t],
        section_area_cm2=[area],
        shank_of_head=0.6,
    )


# Areas printed in section tables, from memory (equal angle 100 x 10 and IPE 200 of EN tables, 88.9 x 5 tube); the
# tables count the rolling radii, which the engine leaves out, so 2 % is asked.
@pytest.mark.parametrize(
    ("shape", "a", "b", "t", "table_cm2"),
    [
        (Shape.ANGLE, 100, NAN, 10, 19.2),
        (Shape.ANGLE, 150, 100, 12, 28.7),
        (Shape.PIPE, 88.9, NAN, 5, 13.2),
        (Shape.PIPE, 219.1, NAN, 8, 53.1),
        (Shape.ROUND_BAR, 50, NAN, NAN, 19.63),
        (Shape.SQUARE_BAR, 40, NAN, NAN, 16.0),
    ],
)
def test_the_area_that_is_cut_is_the_area_of_the_section_table(shape, a, b, t, table_cm2):
    assert one(shape, a, b, t).section_area_cm2[0] == pytest.approx(table_cm2, rel=0.02)


def test_an_area_that_is_given_sets_the_mean_thickness_of_a_beam():
    cut = one(Shape.BEAM, a=200, b=100, t=5.6, area=28.5)  # 200 x 100 x 5.6 web x 8.5 flange, from memory
    assert cut.cut_length_mm[0] == pytest.approx(200 + 200 - 11.2)
    assert 5.6 < cut.thickness_mm[0] < 8.5
    assert cut.cut_length_mm[0] * cut.thickness_mm[0] == pytest.approx(2850)


@pytest.mark.parametrize("shape", [Shape.ANGLE, Shape.CHANNEL, Shape.BEAM, Shape.SQUARE_TUBE, Shape.PIPE])
def test_the_wall_found_from_the_area_is_the_wall_that_made_the_area(shape):
    known = one(shape, a=120, b=80, t=7)
    found = one(shape, a=120, b=80, area=known.section_area_cm2[0])
    assert found.thickness_mm[0] == pytest.approx(7)
    assert found.cut_length_mm[0] == pytest.approx(known.cut_length_mm[0])


def test_a_round_bar_needs_the_tip_for_its_whole_diameter_and_the_time_of_its_mean_chord():
    cut = one(Shape.ROUND_BAR, a=80)
    assert cut.thickest_mm[0] == 80
    assert cut.thickness_mm[0] == pytest.approx(0.785 * 80, rel=1e-3)


def test_a_tube_and_a_pipe_start_by_a_pierce_and_open_sections_from_edges():
    assert one(Shape.SQUARE_TUBE, a=60, t=4).pierces[0] == 1
    assert one(Shape.PIPE, a=60, t=4).pierces[0] == 1
    assert one(Shape.ANGLE, a=60, t=6).pierces[0] == 0
    assert one(Shape.ANGLE, a=60, t=6).edge_starts[0] == 2


def test_a_rail_is_cut_by_its_area_over_its_depth():
    cut = one(Shape.RAIL, a=152, area=65.99)
    assert (cut.cut_length_mm[0], cut.section_area_cm2[0]) == (152, 65.99)
    assert cut.thickness_mm[0] == pytest.approx(43.4, abs=0.05)
    by_thickness = one(Shape.SHEET_PILE, t=14.8, area=94.3)
    assert by_thickness.cut_length_mm[0] == pytest.approx(637, abs=0.5)


def test_a_bolt_head_is_cut_at_its_shank():
    assert one(Shape.BOLT_HEAD, a=30).cut_length_mm[0] == pytest.approx(18)
    assert one(Shape.BOLT_HEAD, a=30, b=20).cut_length_mm[0] == pytest.approx(20)


@pytest.mark.parametrize(
    ("shape", "sizes"),
    [
        (Shape.PIPE, {"a": 60, "t": 30}),
        (Shape.SQUARE_TUBE, {"a": 60, "b": 40, "t": 20}),
        (Shape.ANGLE, {"a": 60, "b": 40, "t": 40}),
        (Shape.BEAM, {"a": 60, "b": 40, "area": 400}),
        (Shape.RAIL, {"a": 152}),
        (Shape.ANGLE, {"a": 60}),
    ],
)
def test_a_section_that_cannot_be_or_lacks_a_size_has_no_path_rather_than_a_guess(shape, sizes):
    cut = one(shape, **sizes)
    assert np.isnan(cut.cut_length_mm[0]) or np.isnan(cut.section_area_cm2[0])


def test_plate_shapes_are_left_to_the_plate_rules():
    assert not is_section([Shape.RECTANGLE, Shape.RING, -1]).any()
    assert np.isnan(one(Shape.RECTANGLE, a=100, b=100, t=10).cut_length_mm[0])


def test_a_piece_out_of_a_bar_has_two_ends_less_the_mills():
    assert ends_cleaned([Shape.BEAM, Shape.BEAM, Shape.DISC], mill_ends=[NAN, 2, NAN]).tolist() == [2, 0, 0]


@pytest.mark.parametrize("bad", [0.0, -3.0])
def test_an_area_or_rate_that_is_not_above_zero_is_refused(bad):
    with pytest.raises(ValueError, match="section_area_cm2"):
        section_time_min(bad, area_rate_cm2_min=13.35)
    with pytest.raises(ValueError, match="area_rate_cm2_min"):
        section_time_min(10.0, area_rate_cm2_min=bad)
    with pytest.raises(ValueError, match="size_a_mm"):
        one(Shape.ANGLE, a=bad, t=5)
