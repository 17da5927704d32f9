"""Flame minutes from a length and the tip's speed, through the estimate."""

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.pricing.job import JobOrder, estimate_job
from estimator.problems import WorkbookProblemsError
from estimator.words import Work
from tests.rack_shop import heating_tip, shop_with


def weld(**columns):
    columns = {"cut_length_mm": np.array([3000.0])} | columns
    return CutList(
        mark=["W"],
        quantity=np.array([2.0]),
        thickness_mm=np.array([1.0]),
        work=np.array([Work.WELD], dtype=np.int8),
        tip=["W"],
        row=np.array([5]),
        **columns,
    )


def tip(speed):
    return heating_tip(0.075, name="W").model_copy(update={"speed_mm_min": speed, "is_heating": False})


def test_a_seam_takes_its_length_over_the_speed_of_its_tip():
    """Leeds and Butterfield, ch. X: 1 mm sheet at 6 m an hour and 75 L an hour takes 12.5 L of acetylene a metre."""
    done = estimate_job(weld(), shop_with([], flame_tips=(tip(100.0),)), JobOrder())
    assert done.job.lines.flame_work_min == pytest.approx([60.0])
    assert done.job.lines.fuel_m3 == pytest.approx([6 * 0.0125])
    assert [p.code for p in done.problems if p.code == "N292"] == ["N292"]


def test_typed_minutes_stand_before_length_and_speed():
    done = estimate_job(weld(flame_min_each=np.array([7.0])), shop_with([], flame_tips=(tip(100.0),)), JobOrder())
    assert done.job.lines.flame_work_min == pytest.approx([14.0])
    assert "N292" not in {p.code for p in done.problems}


def test_a_length_without_a_speed_is_asked_for_minutes():
    with pytest.raises(WorkbookProblemsError) as caught:
        estimate_job(weld(), shop_with([], flame_tips=(tip(None),)), JobOrder())
    assert "E275" in {p.code for p in caught.value.problems}


def test_a_length_of_all_pieces_together_is_shared_over_them():
    whole = {"cut_length_mm": np.array([np.nan]), "total_cut_length_mm": np.array([6000.0])}
    done = estimate_job(weld(**whole), shop_with([], flame_tips=(tip(100.0),)), JobOrder())
    assert done.job.lines.flame_work_min == pytest.approx([60.0])
