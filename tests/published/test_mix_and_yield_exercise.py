"""A materials mix and yield exercise with its printed answer (opentuition.com, paper F5), seen as an excerpt.

Standard for 100 kg of output: A 50 kg at 10, B 40 kg at 5, C 20 kg at 9. Output 23,180 kg; used 13,200, 7,600 and
5,600 kg. Printed: yield 7,216 adverse, mix 9,200 adverse. Tolerance: half of the last printed digit.
"""

import numpy as np
import pytest

from estimator.pricing.variances import mix_variance, usage_variance, yield_variance

STANDARD = 23_180 * np.array([50, 40, 20]) / 100
USED = [13_200, 7_600, 5_600]
PRICE = [10, 5, 9]


def test_mix_is_9200_adverse():
    assert mix_variance(USED, STANDARD, PRICE).sum() == pytest.approx(9_200, abs=0.5)


def test_yield_is_7216_adverse():
    assert yield_variance(USED, STANDARD, PRICE).sum() == pytest.approx(7_216, abs=0.5)


def test_mix_and_yield_are_the_whole_usage_variance():
    both = mix_variance(USED, STANDARD, PRICE) + yield_variance(USED, STANDARD, PRICE)
    assert both == pytest.approx(usage_variance(USED, STANDARD, PRICE))
