import math

import pytest

from estimator.learning.prior import age_weight, credibility, draw_towards, fade


def test_no_data_leaves_the_handbook():
    drawn = draw_towards(factor=1.7, log_u=math.inf, prior_factor=1.0, prior_log_sd=0.2)
    assert (drawn.factor, drawn.log_u, drawn.weight) == (1.0, 0.2, 0.0)


def test_exact_data_leave_the_handbook_behind():
    drawn = draw_towards(factor=1.7, log_u=0.0, prior_factor=1.0, prior_log_sd=0.2)
    assert drawn.factor == pytest.approx(1.7)
    assert (drawn.log_u, drawn.weight) == (0.0, 1.0)


def test_a_handbook_without_a_band_cannot_be_moved():
    assert draw_towards(factor=1.7, log_u=0.1, prior_factor=1.0, prior_log_sd=0.0).factor == 1.0


def test_no_observations_have_no_credibility():
    assert credibility(0, process_variance=1.0, variance_of_means=1.0) == 0.0
    assert credibility(3, process_variance=0.0, variance_of_means=1.0) == 1.0


def test_negative_variances_are_refused():
    with pytest.raises(ValueError, match="zero or above"):
        credibility(1, process_variance=-1, variance_of_means=1)
    with pytest.raises(ValueError, match="above zero"):
        draw_towards(factor=0.0, log_u=0.1, prior_factor=1.0, prior_log_sd=0.1)


def test_weight_halves_with_each_half_life_and_never_without_one():
    assert age_weight(0, half_life_days=100) == 1.0
    assert age_weight(300, half_life_days=100) == pytest.approx(0.125)
    assert age_weight(9999, half_life_days=math.inf) == 1.0
    assert age_weight(-5, half_life_days=100) == 1.0  # a log dated ahead is no fresher than fresh
    with pytest.raises(ValueError, match="half_life_days"):
        age_weight(1, half_life_days=0)


def test_an_old_factor_drifts_back_to_the_handbook_and_grows_less_sure():
    faded = [fade(1.3, 0.05, 0.2, age_days=age, half_life_days=365) for age in (0, 365, 1460, 36500)]
    factors, doubts = [f.factor for f in faded], [f.log_u for f in faded]
    assert factors[0] == pytest.approx(1.3)
    assert doubts[0] == pytest.approx(0.05)
    assert factors == sorted(factors, reverse=True)
    assert doubts == sorted(doubts)
    assert factors[-1] == pytest.approx(1.0, abs=1e-6)
    assert doubts[-1] == pytest.approx(0.2, abs=1e-6)


def test_half_of_what_the_shop_knew_is_left_after_one_half_life():
    # By hand: precision 400 against the handbook's 25, so 375 is the shop's; after a half-life 187.5 + 25.
    once = fade(1.3, 0.05, 0.2, age_days=365, half_life_days=365)
    assert once.log_u == pytest.approx(1 / math.sqrt(212.5))
    assert math.log(once.factor) == pytest.approx(math.log(1.3) * (187.5 / 212.5) / (375 / 400))


def test_nothing_fades_without_a_half_life():
    kept = fade(1.3, 0.05, 0.2, age_days=5000, half_life_days=math.inf)
    assert (kept.factor, kept.log_u) == (pytest.approx(1.3), pytest.approx(0.05))
