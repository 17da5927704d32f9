import numpy as np
import pytest

from estimator.learning.spread import EXACT, Spread, draws, from_log_sd, split_lognormal, stratified_points

BANDS = [(0.85, 1.0, 1.40), (0.5, 1.0, 3.0), (320, 410, 508), (1.0, 1.0, 1.4), (0.8, 1.0, 1.0), (2, 2.0001, 9)]


@pytest.mark.parametrize("band", BANDS)
def test_a_tenth_of_outcomes_lies_under_low_and_over_high(band):
    spread = split_lognormal(*band)
    assert (spread.low, spread.likely, spread.high) == pytest.approx(band, rel=1e-9)


@pytest.mark.parametrize("band", BANDS)
def test_quantiles_rise_and_pass_through_the_likely_figure(band):
    spread = split_lognormal(*band)
    shares = np.linspace(0.001, 0.999, 500)
    assert np.all(np.diff(spread.quantile(shares)) > 0)
    assert float(spread.quantile(spread.share_below)) == pytest.approx(spread.likely, rel=1e-9)


def test_equal_figures_leave_no_doubt():
    spread = split_lognormal(3.0, 3.0, 3.0)
    assert spread == Spread(3.0, 0.0, 0.0)
    assert spread.quantile([0.01, 0.5, 0.99]).tolist() == [3.0, 3.0, 3.0]
    assert (EXACT.mean, EXACT.log_sd, EXACT.low, EXACT.high) == (1.0, 0.0, 1.0, 1.0)


def test_a_plain_lognormal_has_its_textbook_mean():
    spread = from_log_sd(2.0, 0.3)
    assert spread.mean == pytest.approx(2.0 * np.exp(0.3**2 / 2))
    assert spread.log_sd == pytest.approx(0.3)
    assert spread.high / 2.0 == pytest.approx(np.exp(0.3 * 1.2815515655446004))


@pytest.mark.parametrize(
    "band", [(0, 1, 2), (-1, 1, 2), (2, 1, 3), (1, 3, 2), (1, 2, float("inf")), (1, 2, float("nan"))]
)
def test_figures_that_do_not_rise_above_zero_are_refused(band):
    with pytest.raises(ValueError, match="above zero and rise"):
        split_lognormal(*band)


def test_points_fill_every_layer_once_and_repeat_with_their_seed():
    points = stratified_points(100, inputs=3, seed=7)
    layers = np.sort(np.floor(points * 100), axis=0)
    assert np.array_equal(layers, np.tile(np.arange(100.0)[:, np.newaxis], (1, 3)))
    assert np.array_equal(points, stratified_points(100, inputs=3, seed=7))
    assert not np.array_equal(points, stratified_points(100, inputs=3, seed=8))


def test_draws_have_the_mean_and_the_tails_of_their_spreads():
    spreads = [split_lognormal(*band) for band in BANDS]
    drawn = draws(spreads, count=4000, seed=1)
    for column, spread in zip(drawn.T, spreads, strict=True):
        assert column.mean() == pytest.approx(spread.mean, rel=0.002)
        assert np.mean(column < spread.low) == pytest.approx(0.10, abs=0.0005)
        assert np.mean(column > spread.high) == pytest.approx(0.10, abs=0.0005)


def test_draws_are_the_quantiles_of_their_layers():
    spread = split_lognormal(0.85, 1.0, 1.40)
    drawn = np.sort(draws([spread], count=500, seed=2)[:, 0])
    assert drawn == pytest.approx(spread.quantile((np.arange(500) + 0.5) / 500), rel=2e-6)


def test_draws_of_different_inputs_are_not_tied_together():
    drawn = np.log(draws([from_log_sd(1.0, 0.2)] * 6, count=4000, seed=3))
    off_diagonal = np.corrcoef(drawn.T)[~np.eye(6, dtype=bool)]
    assert np.abs(off_diagonal).max() < 0.005  # chance alone would give about 0.016 each


def test_no_inputs_give_no_columns():
    assert draws([], count=10, seed=1).shape == (10, 0)
