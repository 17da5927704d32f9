"""The trial list: eight lines by one person's judgement. Common practice, no source; never a published check.

Held within a quarter of paid minutes and of each gas, line by line, with the built-in work rates and nothing typed.
The rates are rules of the project's method; none is there for one line.
"""

import pytest

from scripts.make_trial_page import PAGE, estimate, ours_by_mark, page, trial_by_mark, trial_cuts, whole_job_paid_min

WITHIN = 0.25
MARKS = [f"T{number}" for number in range(1, 9)]


@pytest.fixture(scope="module")
def ours():
    return ours_by_mark()


@pytest.fixture(scope="module")
def trial():
    return trial_by_mark()


@pytest.mark.parametrize("mark", MARKS)
def test_paid_minutes_of_each_line_lie_within_a_quarter_of_the_trials(ours, trial, mark):
    assert ours[mark].paid_time_min == pytest.approx(float(trial[mark]["paid_time_min"]), rel=WITHIN)


@pytest.mark.parametrize("mark", MARKS)
def test_cutting_and_flame_minutes_of_each_line_lie_within_a_quarter_of_the_trials(ours, trial, mark):
    assert ours[mark].cut_time_min == pytest.approx(float(trial[mark]["cut_time_min"]), rel=WITHIN)
    assert ours[mark].flame_time_min == pytest.approx(float(trial[mark]["flame_time_min"]), rel=WITHIN)


@pytest.mark.parametrize("mark", MARKS)
def test_oxygen_of_each_line_lies_within_a_quarter_of_the_trials(ours, trial, mark):
    assert ours[mark].oxygen_m3 == pytest.approx(float(trial[mark]["oxygen_m3"]), rel=WITHIN)


@pytest.mark.parametrize("mark", MARKS)
def test_acetylene_of_each_line_lies_within_a_quarter_of_the_trials(ours, trial, mark):
    assert ours[mark].acetylene_m3 == pytest.approx(float(trial[mark]["acetylene_m3"]), rel=WITHIN)


@pytest.mark.parametrize("mark", MARKS)
def test_the_metres_burnt_are_the_trials(ours, trial, mark):
    """Geometry, not judgement: the trial rounds to a tenth of a metre."""
    assert ours[mark].cut_m == pytest.approx(float(trial[mark]["cut_m"]), abs=0.1)


def test_the_whole_job_lies_within_a_quarter_of_the_trials_hours(trial):
    assert whole_job_paid_min() == pytest.approx(sum(float(row["paid_time_min"]) for row in trial.values()), rel=WITHIN)


def test_the_torch_is_on_for_the_share_of_paid_time_that_hand_one_offs_have():
    job = estimate(trial_cuts()).job
    cutting = float((job.lines.cut_time_min + job.lines.bevel_time_min).sum())
    assert 0.10 <= cutting / whole_job_paid_min() <= 0.25


def test_the_page_of_the_trial_is_what_the_engine_says_now():
    assert PAGE.read_text(encoding="utf-8") == page()
