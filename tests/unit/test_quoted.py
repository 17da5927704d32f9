import math
from datetime import date, timedelta

import numpy as np
import pytest
from scipy import stats

from estimator.learning.quoted import QuotedJob, learn_from_quotes

START = date(2025, 1, 6)


def jobs_of(ratios, work_class="cut by hand", days=14):
    return [
        QuotedJob(f"Q-{i}", work_class, 4.0 + i, (4.0 + i) * ratio, START + timedelta(days=days * i))
        for i, ratio in enumerate(ratios)
    ]


def test_each_class_of_work_is_judged_by_itself():
    found = learn_from_quotes(jobs_of([1.3] * 4) + jobs_of([0.9] * 4, "heat"), prior_log_sd=0.2)
    assert [(each.work_class, each.jobs) for each in found] == [("cut by hand", 4), ("heat", 4)]
    assert found[0].ratio == pytest.approx(1.3)
    assert found[1].ratio == pytest.approx(0.9)


def test_two_jobs_suggest_nothing():
    (found,) = learn_from_quotes(jobs_of([1.5, 1.6]), prior_log_sd=0.2)
    assert (found.correction, found.correction_low, found.correction_high) == (1.0, 0.0, math.inf)
    assert found.reason == "2 jobs, 3 are needed"


def test_the_interval_of_four_jobs_is_students():
    ratios = [1.1, 1.3, 1.2, 1.4]
    (found,) = learn_from_quotes(jobs_of(ratios), prior_log_sd=0.2)
    low, high = stats.t.interval(0.8, 3, loc=np.mean(np.log(ratios)), scale=stats.sem(np.log(ratios)))
    assert (found.low, found.high) == pytest.approx((math.exp(low), math.exp(high)))


def test_the_correction_lies_between_one_and_the_ratio_and_inside_its_interval():
    (found,) = learn_from_quotes(jobs_of([1.1, 1.5, 1.2, 1.4]), prior_log_sd=0.1)
    assert 1.0 < found.correction < found.ratio
    assert found.correction_low < found.correction < found.correction_high


def test_one_job_that_went_wrong_does_not_set_the_correction():
    (found,) = learn_from_quotes(jobs_of([1.2, 1.21, 1.19, 1.2, 1.22, 1.18, 6.0]), prior_log_sd=0.2)
    assert found.correction == pytest.approx(1.2, abs=0.02)


def test_quotes_that_drift_have_a_trend_and_steady_ones_have_none_that_is_clear():
    drifting = [1.0 * 1.02**i * (1 + 0.005 * (-1) ** i) for i in range(10)]
    (found,) = learn_from_quotes(jobs_of(drifting), prior_log_sd=0.2)
    assert found.trend.is_clear
    assert found.trend.a_year == pytest.approx(1.02 ** (365.25 / 14), rel=0.05)
    (steady,) = learn_from_quotes(jobs_of([1.2, 1.25, 1.15, 1.22, 1.18, 1.2, 1.24, 1.16]), prior_log_sd=0.2)
    assert not steady.trend.is_clear


def test_jobs_of_one_day_have_no_trend():
    (found,) = learn_from_quotes(jobs_of([1.2] * 8, days=0), prior_log_sd=0.2)
    assert found.trend is None


def test_no_quotes_say_nothing_and_a_job_of_no_hours_is_refused():
    assert learn_from_quotes([], prior_log_sd=0.2) == []
    with pytest.raises(ValueError, match="'cut by hand' must be above zero"):
        learn_from_quotes(jobs_of([1.0, 0.0, 1.0]), prior_log_sd=0.2)
