import math

import numpy as np
import pytest

from estimator.learning.fit import (
    Method,
    NotEnoughDataError,
    activity_spread,
    fit_linear,
    method_for,
    robust_centre,
    robust_slope_through_origin,
    student_t,
)


def test_the_number_of_jobs_chooses_the_fit():
    chosen = [method_for(n) for n in (0, 2, 3, 5, 6, 40)]
    assert chosen == [Method.HANDBOOK] * 2 + [Method.MEAN] * 2 + [Method.ROBUST] * 2


@pytest.mark.parametrize("quantity", [[], [0.0, 1.0], [-1.0, 2.0], [math.nan, 1.0]])
def test_spread_of_nothing_or_of_no_work_is_refused(quantity):
    with pytest.raises(ValueError, match="above zero"):
        activity_spread(quantity)


def test_one_figure_carries_no_slope_with_an_uncertainty():
    with pytest.raises(NotEnoughDataError, match="1 figures cannot carry 1 coefficients"):
        fit_linear([[2.0]], [3.0])


def test_columns_that_repeat_each_other_are_refused():
    with pytest.raises(NotEnoughDataError, match="not independent"):
        fit_linear([[1, 2], [2, 4], [3, 6.0]], [1, 2, 3])


def test_an_empty_column_is_refused():
    with pytest.raises(NotEnoughDataError, match="all zero"):
        fit_linear([[1, 0], [2, 0], [3, 0.0]], [1, 2, 3])


def test_interval_uses_student_and_not_the_normal():
    fit = fit_linear([[1], [2], [3], [4.0]], [1.1, 1.9, 3.2, 3.9])
    low, high = fit.interval(level=0.95)
    half = 3.182446305 * fit.standard_errors[0]  # Student's t, 3 degrees of freedom, 95 %: any statistics table
    assert (low, high) == pytest.approx((fit.coefficients[0] - half, fit.coefficients[0] + half))


@pytest.mark.parametrize(("level", "freedom", "table"), [(0.80, 1, 3.078), (0.80, 5, 1.476), (0.95, 10, 2.228)])
def test_student_points_are_the_tables(level, freedom, table):  # any statistics table, three decimals
    assert student_t(level, freedom) == pytest.approx(table, abs=0.0005)


def test_student_refuses_no_freedom():
    with pytest.raises(ValueError, match="freedom above 0"):
        student_t(0.8, 0)


def test_a_wrong_reading_in_six_hardly_moves_the_robust_slope():
    x = np.array([2.0, 3, 4, 5, 6, 7])
    y = 1.1 * x * np.array([1.01, 0.99, 1.02, 0.98, 1.0, 25.4])  # the last was logged in inches
    slope, _ = robust_slope_through_origin(x, y)
    assert slope == pytest.approx(1.1, rel=0.01)
    assert fit_linear(x[:, np.newaxis], y).coefficients[0] > 5  # the plain fit is carried off


def test_robust_slope_is_the_median_ratio_by_hand():
    slope, log_u = robust_slope_through_origin([1.0, 2.0, 4.0], [1.1, 2.0, 5.2])  # ratios 1.1, 1.0, 1.3
    assert slope == pytest.approx(1.1)
    deviation = sorted(abs(math.log(r / 1.1)) for r in (1.1, 1.0, 1.3))[1]
    assert log_u == pytest.approx(1.4826022 * deviation * math.sqrt(math.pi / 6), rel=1e-6)


def test_robust_slope_refuses_a_figure_that_is_not_above_zero():
    with pytest.raises(ValueError, match="above zero"):
        robust_slope_through_origin([1.0, 2.0], [1.0, 0.0])


def test_robust_sd_of_a_normal_sample_is_its_sd():
    sample = np.random.default_rng(5).normal(3.0, 2.0, 20_000)
    centre, sd = robust_centre(sample)
    assert centre == pytest.approx(3.0, abs=0.05)
    assert sd == pytest.approx(2.0, rel=0.02)
