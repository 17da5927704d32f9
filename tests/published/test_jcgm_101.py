"""Joint Committee for Guides in Metrology, JCGM 101:2008 (Supplement 1 to the GUM), 9.2: the additive model.

Seen through an open implementation. Tolerance 1 %: the sampling error of the ends at 400,000 draws is about 0.2 %.
"""

import numpy as np
import pytest

from estimator.learning.spread import stratified_points
from tests.gum_propagation import covariance_of, propagate_first_order

HALF_WIDTH = np.sqrt(3)  # a rectangle of standard deviation 1


def drawn_sum(count):
    return ((2 * stratified_points(count, inputs=4, seed=101) - 1) * HALF_WIDTH).sum(axis=1)


def test_four_rectangles_by_draws():  # 9.2.3
    total = drawn_sum(400_000)
    assert total.mean() == pytest.approx(0.0, abs=1e-9)
    assert total.std() == pytest.approx(2.0, rel=0.01)
    low, high = np.quantile(total, [0.025, 0.975])
    assert low == pytest.approx(-3.88, rel=0.01)
    assert high == pytest.approx(3.88, rel=0.01)


def test_four_rectangles_to_first_order():  # 9.2.3, GUM row of the table: u 2.0
    found = propagate_first_order(np.sum, np.zeros(4), covariance_of(np.ones(4)))
    assert found.standard_uncertainties[0] == pytest.approx(2.0)
