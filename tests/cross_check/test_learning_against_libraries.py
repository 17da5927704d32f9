"""The learning numerics against scipy and statsmodels, two independent implementations."""

import numpy as np
import pytest
from scipy import integrate, optimize, stats

from estimator.learning.fit import (
    fit_line,
    fit_linear,
    robust_slope_through_origin,
    student_t,
)
from estimator.learning.spread import draws, from_log_sd, split_lognormal
from tests.gum_propagation import covariance_of, propagate_first_order

BANDS = [(0.85, 1.0, 1.40), (0.5, 1.0, 3.0), (0.8, 1.0, 1.02), (0.9, 1.0, 1.12)]


def log_density(spread, step):
    """Density of the log at a distance from the likely figure: two half normals that meet."""
    sd = spread.sd_below if step < 0 else spread.sd_above
    return 2 * sd / (spread.sd_below + spread.sd_above) * stats.norm.pdf(step, scale=sd)


@pytest.mark.parametrize("band", BANDS)
def test_moments_of_the_split_lognormal_equal_numerical_integration(band):
    spread = split_lognormal(*band)

    def moment(of):
        parts = [integrate.quad(lambda s: of(s) * log_density(spread, s), a, b) for a, b in ((-12, 0), (0, 12))]
        return sum(part[0] for part in parts)

    assert moment(lambda s: 1.0) == pytest.approx(1.0, abs=1e-7)
    assert moment(np.exp) == pytest.approx(spread.mean, rel=1e-7)
    mean = moment(lambda s: s)
    assert mean == pytest.approx(spread.log_mean, abs=1e-7)
    assert np.sqrt(moment(lambda s: (s - mean) ** 2)) == pytest.approx(spread.log_sd, rel=1e-6)
    assert np.sqrt(moment(lambda s: s**2)) == pytest.approx(spread.log_sd_about_likely, rel=1e-6)
    assert integrate.quad(lambda s: log_density(spread, s), -12, np.log(band[0]))[0] == pytest.approx(0.1, abs=1e-7)


@pytest.mark.parametrize("band", BANDS)
def test_spreads_found_by_halving_equal_a_root_finder(band):
    steps = np.log(band)

    def misses(log_sds):
        sd_below, sd_above = np.exp(log_sds)
        below = sd_below / (sd_below + sd_above)
        return [
            2 * below * stats.norm.cdf((steps[0] - steps[1]) / sd_below) - 0.1,
            2 * (1 - below) * stats.norm.sf((steps[2] - steps[1]) / sd_above) - 0.1,
        ]

    spread = split_lognormal(*band)
    start = np.log([(steps[1] - steps[0]) / 1.28, (steps[2] - steps[1]) / 1.28])
    root = np.exp(optimize.root(misses, start, tol=1e-12).x)
    assert [spread.sd_below, spread.sd_above] == pytest.approx(root, rel=1e-6)


def test_least_squares_equals_statsmodels():
    api = pytest.importorskip("statsmodels.api")
    rng = np.random.default_rng(11)
    design = np.column_stack([np.ones(30), rng.uniform(1, 9, 30), rng.uniform(0, 4, 30)])
    observed = design @ [0.4, 1.3, -0.7] + rng.normal(0, 0.3, 30)
    ours, theirs = fit_linear(design, observed), api.OLS(observed, design).fit()
    assert ours.coefficients == pytest.approx(theirs.params, rel=1e-10)
    assert ours.covariance == pytest.approx(theirs.cov_params(), rel=1e-9)
    assert ours.interval(1, level=0.9) == pytest.approx(tuple(theirs.conf_int(alpha=0.1)[1]), rel=1e-9)


def test_line_equals_scipy():
    x, y = np.array([1.0, 2, 4, 7, 8]), np.array([2.2, 3.9, 8.4, 13.1, 17.0])
    ours, theirs = fit_line(x, y), stats.linregress(x, y)
    assert ours.coefficients == pytest.approx([theirs.intercept, theirs.slope])
    assert ours.standard_errors == pytest.approx([theirs.intercept_stderr, theirs.stderr])


def test_robust_slope_equals_a_median_regression_of_the_ratios():
    api = pytest.importorskip("statsmodels.api")
    rng = np.random.default_rng(2)
    x = rng.uniform(1, 9, 41)
    y = 1.2 * x * np.exp(rng.normal(0, 0.1, 41))
    fitted = api.QuantReg(y / x, np.ones(41)).fit(q=0.5)
    assert robust_slope_through_origin(x, y)[0] == pytest.approx(fitted.params[0], rel=1e-4)


def test_robust_slope_is_scipys_theil_sen_with_every_pair_anchored_at_the_origin():
    x, y = np.array([2.0, 3, 5, 6, 9]), np.array([2.6, 3.1, 5.6, 9.0, 9.7])
    by_pairs = [stats.theilslopes([0.0, b], [0.0, a]).slope for a, b in zip(x, y, strict=True)]
    assert robust_slope_through_origin(x, y)[0] == pytest.approx(np.median(by_pairs))


@pytest.mark.parametrize("freedom", [1, 2, 4, 9.5, 30])
def test_student_equals_scipy(freedom):
    assert student_t(0.8, freedom) == pytest.approx(stats.t.ppf(0.9, freedom))


def test_least_squares_interval_covers_as_often_as_it_says():
    rng = np.random.default_rng(4)
    x = np.array([1.0, 2.0, 3.0, 5.0, 8.0])
    inside = 0
    for _ in range(4000):
        low, high = fit_linear(x[:, np.newaxis], 1.3 * x + rng.normal(0, 0.5, 5)).interval(level=0.80)
        inside += low <= 1.3 <= high
    assert inside / 4000 == pytest.approx(0.80, abs=0.02)  # three standard errors of the count


def test_first_order_and_draws_agree_where_the_formula_is_nearly_straight():
    spreads = [from_log_sd(2.0, 0.03), from_log_sd(5.0, 0.02), from_log_sd(0.4, 0.04)]

    def formula(v):
        return v[0] * v[1] + v[1] / v[2]

    drawn = draws(spreads, count=20_000, seed=9).T
    by_draws = np.std(formula(drawn))
    u = [s.likely * s.log_sd for s in spreads]
    to_first_order = propagate_first_order(formula, [s.likely for s in spreads], covariance_of(u))
    assert to_first_order.standard_uncertainties[0] == pytest.approx(by_draws, rel=0.02)
