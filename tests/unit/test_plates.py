"""Plates to buy, by hand calculation."""

import pytest

from estimator.quantities.plates import pieces_per_plate, plate_need

ONE_OFFER = {"offer_thickness_mm": [20], "offer_length_mm": [2500], "offer_width_mm": [1250]}


def need(sizes, quantity, offers=ONE_OFFER, thickness=20, share=1, **settings):
    n = len(sizes)
    return plate_need(
        thickness_mm=[thickness] * n,
        length_mm=[a for a, _ in sizes],
        width_mm=[b for _, b in sizes],
        net_area_mm2=[a * b * share for a, b in sizes],
        rectangle_share=[share] * n,
        kerf_area_mm2=[0.0] * n,
        quantity=quantity,
        **offers,
        **{"spacing_mm": 5.0, "fill_factor": 0.85, "steel_kg_m3": 7850.0, **settings},
    )


def test_three_pieces_just_over_half_a_plate_take_three_plates_whatever_the_area_says():
    option = need([(1300, 1200)], [3]).options[0]  # 1.5 plates by area, but no two lie on one plate
    assert option.plates == 3


def test_pieces_that_fill_a_plate_exactly_take_one_plate():
    option = need([(1250, 625)], [4], spacing_mm=0.0, fill_factor=1.0).options[0]
    assert (option.plates, option.used_share, option.drop_mass_kg) == (1, 1.0, 0.0)


def test_two_triangles_share_a_rectangle():
    assert pieces_per_plate(
        [100], [100], plate_length_mm=200, plate_width_mm=100, spacing_mm=0.0, rectangle_share=0.5
    ).tolist() == [4]


def test_a_long_piece_may_lie_the_other_way_round():
    assert need([(1200, 2400)], [1]).options[0].plates == 1


def test_the_mass_of_plates_is_pieces_and_kerf_and_drop():
    option = need([(300, 300)], [40]).options[0]
    assert option.plate_mass_kg == pytest.approx(2 * 2.5 * 1.25 * 0.020 * 7850)
    assert option.piece_mass_kg == pytest.approx(40 * 0.09 * 0.020 * 7850)
    assert option.piece_mass_kg + option.kerf_mass_kg + option.drop_mass_kg == pytest.approx(option.plate_mass_kg)


def test_a_piece_larger_than_every_plate_is_flagged_and_not_counted():
    found = need([(3000, 1000), (300, 300)], [1, 4])
    assert found.larger_than_any_plate.tolist() == [0]
    assert found.options[0].lines.tolist() == [1]
    assert found.options[0].too_large.tolist() == [0]


def test_a_piece_that_fits_only_the_larger_plate_is_counted_there():
    offers = {"offer_thickness_mm": [20, 20], "offer_length_mm": [2500, 6000], "offer_width_mm": [1250, 2000]}
    found = need([(3000, 1000)], [1], offers=offers)
    assert found.larger_than_any_plate.size == 0
    assert [(o.plates, o.too_large.tolist()) for o in found.options] == [(0, [0]), (1, [])]


def test_a_thickness_that_nobody_offers_is_flagged():
    assert need([(300, 300)], [1], thickness=25).thickness_not_on_offer.tolist() == [0]


def test_lines_share_the_plates_by_area():
    shares = need([(295, 295), (595, 295)], [2, 2]).options[0].line_shares
    assert shares == pytest.approx([1 / 3, 2 / 3])


def test_the_count_says_that_it_is_a_count_by_area():
    assert "no nesting was drawn" in need([(300, 300)], [1]).how_counted()


@pytest.mark.parametrize("fill", [0.0, 1.2])
def test_a_fill_factor_outside_nothing_to_whole_is_refused(fill):
    with pytest.raises(ValueError, match="fill_factor"):
        need([(300, 300)], [1], fill_factor=fill)


def test_a_quantity_that_is_not_above_zero_is_refused():
    with pytest.raises(ValueError, match="above zero"):
        need([(300, 300)], [0])
