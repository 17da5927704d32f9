import datetime as dt

import numpy as np
import pytest

from estimator.check.example_shop import example_shop
from estimator.check.torch_kit import torch_kit, work_rates
from estimator.check.work_log import LogEntry, WorkLog
from estimator.quantities.logged_work import LogRules, model_log

DAY = dt.date(2025, 3, 3)


def modelled(*entries):
    shop = example_shop()
    rules = LogRules("acetylene", keep_tip_in=True, outlines_pierced=False, net_heating_value_mj_m3={"acetylene": 53.9})
    return model_log(WorkLog(entries=entries), {"acetylene": torch_kit(shop, "acetylene")}, work_rates(shop), rules)


def cut(job="J-1", **more):
    return LogEntry(**{"date": DAY, "job": job, "thickness_mm": 12.0, "cut_length_m": 6.0} | more)


def test_a_thin_row_is_filled_in_by_the_model():
    (job,) = modelled(cut()).jobs
    lines = job.work.lines
    assert (job.job, job.fuel, len(job.entries)) == ("J-1", "acetylene", 1)
    assert lines.cut_m.tolist() == [6.0]
    # By hand: 6 m at the chart's 410 mm/min for 12 mm, one edge start and one more for each 0.6 m of reach.
    assert lines.cut_time_min[0] == pytest.approx(6000 / 410)
    assert lines.metres.edge_starts_each[0] + lines.metres.restarts_each[0] == 11
    assert lines.cutting_oxygen_m3[0] > 0


def test_rows_of_one_job_share_one_set_up_and_jobs_do_not():
    one = modelled(cut(), cut(thickness_mm=25.0), cut(cut_length_m=2.0)).jobs
    two = modelled(cut(), cut("J-2")).jobs
    assert [len(job.entries) for job in one] == [3]
    assert [job.job for job in two] == ["J-1", "J-2"]
    for job in (*one, *two):
        assert [row.count for row in job.work.rows if row.key == "setup_job"] == [1.0]


def test_logged_starts_are_all_the_starts_there_are():
    (job,) = modelled(cut(pieces=4, pierces=8, edge_starts=4)).jobs
    metres = job.work.lines.metres
    assert (metres.passes[0] * metres.pierces_each[0], metres.passes[0] * metres.edge_starts_each[0]) == (8.0, 4.0)
    assert job.work.lines.cut_m[0] == pytest.approx(6.0)


def test_the_tip_that_was_logged_is_taken():
    (job,) = modelled(cut(thickness_mm=19.2, tip="1.6")).jobs
    assert [job.work.settings.tip[i] for i in job.work.lines.setting] == ["1.6"]


def test_what_cannot_be_modelled_is_left_out_and_says_why():
    found = modelled(
        cut(),
        cut(thickness_mm=900.0),
        cut(cut_length_m=None, flame_time_min=20.0),
        LogEntry(date=DAY, job="J-1", operation="other", paid_time_min=30.0),
        LogEntry(date=DAY, job="J-1", operation="heat"),
        cut(fuel="propane"),
    )
    assert [each.why for each in found.left_out] == [
        "no thickness or no length",
        "work without a torch",
        "no torch-lit minutes",
        "no tip on hand burns propane",
        "no tip on hand covers it",
    ]
    assert len(found.jobs) == 1


def test_a_job_of_which_nothing_can_be_modelled_is_no_job():
    found = modelled(cut(thickness_mm=900.0))
    assert found.jobs == ()
    assert len(found.left_out) == 1


def test_twice_the_metres_take_twice_the_cut_and_its_oxygen():
    (one,), (two,) = modelled(cut()).jobs, modelled(cut(cut_length_m=12.0)).jobs
    assert two.work.lines.cut_time_min == pytest.approx(2 * one.work.lines.cut_time_min)
    assert np.all(two.work.lines.cutting_oxygen_m3 > 1.9 * one.work.lines.cutting_oxygen_m3)
