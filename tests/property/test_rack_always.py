"""Gas used + left + heel = gas at the start, for every cylinder; what must hold of every plan."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.quantities.rack import floor_m3, plan_rack, used_by_cylinder_m3

gas = st.floats(0, 20)
uses = st.lists(gas, max_size=12)
sets = st.lists(st.tuples(gas, st.floats(0, 2)), min_size=1, max_size=6)


def laid_out(rack):
    return np.array([content for content, _ in rack]), np.array([heel for _, heel in rack])


@settings(max_examples=150)
@given(uses, sets, st.floats(0, 3), st.data())
def test_gas_used_plus_left_plus_heel_is_gas_at_the_start_for_every_cylinder(use, rack, draw, data):
    content, heel = laid_out(rack)
    hot = data.draw(st.lists(st.booleans(), min_size=len(use), max_size=len(use)))
    floors = floor_m3(heel, [draw if lit else 0.0 for lit in hot], fraction_per_h=0.1)
    plan = plan_rack(use, content, heel, floors_m3=floors)
    assert plan.used_m3 + plan.left_m3 + plan.heel_m3 == pytest.approx(content, abs=1e-9)
    assert np.all(plan.taken_m3 >= 0)
    assert plan.taken_m3.sum() + plan.short_m3.sum() == pytest.approx(sum(use), abs=1e-9)


@given(uses, sets, st.data())
def test_the_same_holds_for_each_cylinder_of_a_manifold(use, rack, data):
    content, heel = laid_out(rack)
    heel = np.minimum(heel, content)
    member = np.array(data.draw(st.lists(st.integers(0, 1), min_size=len(rack), max_size=len(rack))))
    plan = plan_rack(
        use, np.bincount(member, weights=content, minlength=2), np.bincount(member, weights=heel, minlength=2)
    )
    used = used_by_cylinder_m3(plan.used_m3, content - heel, member)
    assert np.all(used <= content - heel + 1e-9)
    assert np.bincount(member, weights=used, minlength=2) == pytest.approx(plan.used_m3, abs=1e-9)


@given(uses, sets)
def test_a_job_that_the_rack_covers_in_all_is_never_short_and_one_that_it_does_not_is(use, rack):
    content, heel = laid_out(rack)
    plan = plan_rack(use, content, heel)
    over = float(np.maximum(content - heel, 0).sum()) - sum(use)
    if over > 1e-6:
        assert plan.first_short_line is None
    if over < -1e-6:
        assert plan.short_m3.sum() == pytest.approx(-over, abs=1e-6)


@given(uses, sets, st.integers(2, 5))
def test_splitting_a_line_changes_no_total(use, rack, parts):
    content, heel = laid_out(rack)
    whole = plan_rack(use, content, heel)
    split = plan_rack([amount / parts for amount in use for _ in range(parts)], content, heel)
    assert split.used_m3 == pytest.approx(whole.used_m3, abs=1e-8)


@given(uses, sets)
def test_the_gas_on_the_rack_only_falls(use, rack):
    left = plan_rack(use, *laid_out(rack)).left_after_line_m3
    assert np.all(np.diff(left) <= 1e-12)
