"""The rack running down: order, change-overs, sets, floors for heating tips, orders, chance."""

import math

import numpy as np
import pytest

from estimator.quantities.rack import floor_m3, plan_rack, used_by_cylinder_m3
from estimator.quantities.rack_order import (
    chance_enough,
    cylinders_to_order,
    days_left_to_order,
    work_before_short_min,
)


def test_a_rack_that_is_enough_names_no_short_line() -> None:
    plan = plan_rack([1.0, 1.0], [3.0, 3.0], [0.2, 0.2])
    assert plan.first_short_line is None
    assert plan.dry_line == [None, None]
    assert plan.changes == 0
    assert plan.left_m3 == pytest.approx([0.8, 2.8])


def test_a_rack_that_is_short_names_the_line_and_the_gas() -> None:
    plan = plan_rack([2.0, 2.0, 2.0], [2.5, 1.5], [0.5, 0.5])
    assert plan.first_short_line == 1
    assert plan.short_m3 == pytest.approx([0.0, 1.0, 2.0])
    assert plan.dry_line == [0, 1]
    assert list(plan.left_after_line_m3) == pytest.approx([1.0, 0.0, 0.0])


def test_one_line_can_empty_several_cylinders() -> None:
    plan = plan_rack([5.0], [2.0, 2.0, 2.0], [0.0, 0.0, 0.0])
    assert plan.taken_m3[0] == pytest.approx([2.0, 2.0, 1.0])
    assert plan.dry_line == [0, 0, None]
    assert plan.changes == 2


def test_a_cylinder_that_is_already_at_its_heel_gives_nothing() -> None:
    plan = plan_rack([1.0], [0.3, 5.0], [0.5, 0.5])
    assert plan.taken_m3[0] == pytest.approx([0.0, 1.0])
    assert plan.heel_m3 == pytest.approx([0.3, 0.5])
    assert plan.dry_line == [None, None]  # it never ran dry in this job: it was


def test_a_part_used_cylinder_is_left_to_the_cutting_when_a_heating_tip_may_not_draw_on_it() -> None:
    draws = [0.0, 0.4, 0.0]  # the second line heats
    floors = floor_m3([0.5, 0.5], draws, fraction_per_h=0.1)
    plan = plan_rack([1.0, 1.0, 1.0], [4.0, 7.0], [0.5, 0.5], floors_m3=floors)
    assert plan.taken_m3.argmax(axis=1).tolist() == [0, 1, 0]
    assert plan.changes == 2


def test_a_heating_line_that_no_set_may_feed_is_short_though_gas_is_left() -> None:
    floors = floor_m3([0.5], [0.9], fraction_per_h=0.1)
    plan = plan_rack([1.0], [7.0], [0.5], floors_m3=floors)
    assert plan.first_short_line == 0
    assert plan.left_m3 == pytest.approx([6.5])


def test_cylinders_on_one_manifold_empty_together() -> None:
    assert used_by_cylinder_m3([6.0], [8.0, 4.0], [0, 0]) == pytest.approx([4.0, 2.0])
    assert used_by_cylinder_m3([0.0, 0.0], [0.0, 3.0], [0, 1]) == pytest.approx([0.0, 0.0])


def test_no_lines_or_no_cylinders_are_a_plan_too() -> None:
    assert plan_rack([], [2.0], [0.1]).left_m3 == pytest.approx([1.9])
    assert plan_rack([], [2.0], [0.1]).dry_line == [None]
    none = plan_rack([1.0], [], [])
    assert none.first_short_line == 0
    assert none.dry_line == []
    assert none.changes == 0


def test_a_line_without_this_gas_changes_nothing() -> None:
    with_blank = plan_rack([1.0, 0.0, 1.5], [2.0, 2.0], [0.0, 0.0])
    assert with_blank.used_m3 == pytest.approx(plan_rack([1.0, 1.5], [2.0, 2.0], [0.0, 0.0]).used_m3)
    assert with_blank.dry_line == [2, None]


@pytest.mark.parametrize(
    ("use", "content", "heel", "said"),
    [
        ([-1.0], [1.0], [0.0], "use_m3 must be zero or above"),
        ([1.0], [-1.0], [0.0], "content_m3 must be zero or above"),
        ([1.0], [1.0, 2.0], [0.0], "must be rows"),
        ([[1.0]], [1.0], [0.0], "must be rows"),
    ],
)
def test_what_cannot_be_is_refused(use: list, content: list, heel: list, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        plan_rack(use, content, heel)


def test_floors_of_another_shape_are_refused() -> None:
    with pytest.raises(ValueError, match=r"floors_m3 must have shape \(1, 1\)"):
        plan_rack([1.0], [1.0], [0.0], floors_m3=np.zeros((2, 1)))


def test_what_to_order_and_by_when() -> None:
    plan = plan_rack([2.0, 2.0, 2.0], [3.0], [0.0])
    assert cylinders_to_order(float(plan.short_m3.sum()), 5.0) == 1
    assert work_before_short_min(plan, [60.0, 120.0, 60.0]) == pytest.approx(120.0)
    assert days_left_to_order(120.0, work_min_per_day=60.0, lead_time_days=3.0) == pytest.approx(-1.0)


def test_a_rack_that_finishes_needs_no_order() -> None:
    plan = plan_rack([1.0], [3.0], [0.0])
    assert work_before_short_min(plan, [60.0]) == math.inf
    assert days_left_to_order(math.inf, work_min_per_day=60.0, lead_time_days=3.0) == math.inf
    assert cylinders_to_order(0.0, 5.0) == 0


def test_the_chance_is_the_share_of_cases_covered() -> None:
    assert chance_enough(np.linspace(0, 10, 101), 10.0) == 1.0
    assert chance_enough([11.0, 12.0], 10.0) == 0.0
    with pytest.raises(ValueError, match="at least one case"):
        chance_enough([], 10.0)
