"""Draws in cubic feet for reading's sake: the rules are shares, so the unit does not matter."""

import pytest

from estimator.quantities.draw import cylinders_to_manifold
from estimator.quantities.draw_verdict import DrawLevel, DrawRules, draw_verdict

RULES = DrawRules(1 / 15, 1 / 10, 1 / 7, 1 / 10)


def level(draw: float, rated: float, now: float, *, heating: bool, continuous: bool, cylinders: int = 1) -> DrawLevel:
    return draw_verdict(
        draw,
        rated_m3=rated,
        now_m3=now,
        cylinders=cylinders,
        is_heating=heating,
        is_continuous=continuous,
        rules=RULES,
    ).level


def test_one_small_cylinder_may_not_feed_a_large_heating_tip_and_8_6_or_4_may() -> None:
    """150 ft³ and a draw of 80 ft³/h: common practice, no source."""
    said = draw_verdict(80, rated_m3=150, now_m3=150, is_heating=True, is_continuous=True, rules=RULES)
    assert said.level is DrawLevel.STOP
    assert list(cylinders_to_manifold(80, 150, [1 / 15, 1 / 10, 1 / 7])) == [8, 6, 4]
    assert level(80, 150, 150, heating=True, continuous=True, cylinders=8) is DrawLevel.WITHIN
    assert level(80, 150, 150, heating=True, continuous=True, cylinders=7) is DrawLevel.WARNING
    assert level(80, 150, 150, heating=True, continuous=True, cylinders=5) is DrawLevel.STOP


def test_after_part_use_the_heating_tip_needs_twice_the_cylinders() -> None:
    half = draw_verdict(80, rated_m3=150, now_m3=75, is_heating=True, is_continuous=True, rules=RULES)
    assert half.cylinders_as_they_are == 16


def test_a_cutting_tip_is_held_against_the_rated_content_and_what_is_left_is_a_caution() -> None:
    """10.6 ft³/h on a 150: allowed at 1/10 of rated; under 106 ft³ left it is a caution, never a warning."""
    assert level(10.6, 150, 150, heating=False, continuous=False) is DrawLevel.WITHIN
    assert level(10.6, 150, 100, heating=False, continuous=False) is DrawLevel.CAUTION
    assert level(10.6, 150, 20, heating=False, continuous=False) is DrawLevel.CAUTION
    assert level(10.6, 150, 150, heating=False, continuous=True) is DrawLevel.WARNING


def test_the_same_draw_by_a_heating_tip_stops_when_a_tenth_of_what_is_left_is_passed() -> None:
    assert level(9.0, 150, 100, heating=True, continuous=False) is DrawLevel.WITHIN
    assert level(9.0, 150, 100, heating=True, continuous=True) is DrawLevel.WARNING
    assert level(10.6, 150, 100, heating=True, continuous=False) is DrawLevel.STOP


def test_over_a_seventh_of_a_full_cylinder_everything_stops() -> None:
    assert level(21.4, 150, 150, heating=False, continuous=False) is DrawLevel.WARNING
    assert level(21.5, 150, 150, heating=False, continuous=False) is DrawLevel.STOP


def test_a_supplier_s_written_figure_moves_the_heating_stop() -> None:
    written = DrawRules(1 / 15, 1 / 10, 1 / 7, 1 / 8)
    said = draw_verdict(17, rated_m3=150, now_m3=150, is_heating=True, is_continuous=False, rules=written)
    assert said.level is DrawLevel.WARNING
    assert level(17, 150, 150, heating=True, continuous=False) is DrawLevel.STOP


def test_a_draw_exactly_at_the_limit_is_within_it() -> None:
    assert level(15, 150, 150, heating=False, continuous=False) is DrawLevel.WITHIN
    assert level(15.001, 150, 150, heating=False, continuous=False) is DrawLevel.WARNING


def test_an_empty_cylinder_feeds_no_heating_tip_and_has_no_count_of_its_own() -> None:
    said = draw_verdict(5, rated_m3=150, now_m3=0, is_heating=True, is_continuous=False, rules=RULES)
    assert said.level is DrawLevel.STOP
    assert said.cylinders_as_they_are is None


def test_no_draw_is_within_every_limit() -> None:
    assert level(0, 150, 0, heating=True, continuous=True) is DrawLevel.WITHIN


def test_more_in_the_cylinder_than_it_is_rated_for_is_refused() -> None:
    with pytest.raises(ValueError, match="now_m3 must be from 0 to 150, got 160"):
        level(5, 150, 160, heating=False, continuous=False)
