"""Credibility of a shop's own data, against worked examples.

The dice are the multi-sided dice of the chapter on credibility in Casualty Actuarial Society, Foundations of Casualty
Actuarial Science (H. C. Mahler and C. G. Dean), from memory; every step is worked here by hand from the shares alone,
so that the printed figures (2.15, 0.45, 4.778, 0.173) are a second look and not the only one.
"""

import pytest

from estimator.learning.prior import credibility, draw_towards

SIDES = (4, 6, 8)
SHARES = (0.6, 0.3, 0.1)


def test_three_kinds_of_dice():
    means = [(n + 1) / 2 for n in SIDES]
    variances = [(n**2 - 1) / 12 for n in SIDES]
    process = sum(share * v for share, v in zip(SHARES, variances, strict=True))
    mean = sum(share * m for share, m in zip(SHARES, means, strict=True))
    between = sum(share * (m - mean) ** 2 for share, m in zip(SHARES, means, strict=True))
    assert (mean, process, between) == pytest.approx((3.0, 2.15, 0.45))
    assert process / between == pytest.approx(4.778, abs=0.0005)
    one, five = (credibility(n, process_variance=process, variance_of_means=between) for n in (1, 5))
    assert one == pytest.approx(0.173, abs=0.0005)
    assert five == pytest.approx(5 / 9.7778, rel=1e-4)
    assert one * 8 + (1 - one) * mean == pytest.approx(3.865, abs=0.0005)  # an eight is rolled: 0.173 x 8 + 0.827 x 3


def test_weight_of_a_mean_is_the_credibility_of_its_observations():
    # By hand: 4 jobs that vary by 0.2 each have a mean of u 0.1; against a handbook of 0.05 the weight is
    # 0.0025 / (0.0025 + 0.01) = 1/5, and so is 4 / (4 + 0.04 / 0.0025).
    drawn = draw_towards(factor=1.5, log_u=0.1, prior_factor=1.0, prior_log_sd=0.05)
    assert drawn.weight == pytest.approx(0.2)
    assert drawn.weight == pytest.approx(credibility(4, process_variance=0.04, variance_of_means=0.0025))
    assert drawn.factor == pytest.approx(1.5**0.2)
