import pytest

from estimator.learning.bands import shared_band, sum_by_group
from estimator.learning.spread import EXACT


def test_lines_of_a_tip_share_the_mean_of_their_bands():
    bands = shared_band(
        low=[80, 40, 5], likely=[100, 50, 10], high=[120, 60, 20], weight=[3, 1, 2], group=[0, 0, 1], groups=3
    )
    assert (bands[0].low, bands[0].high) == pytest.approx((0.8, 1.2))
    assert (bands[1].low, bands[1].high) == pytest.approx((0.5, 2.0))
    assert bands[2] == EXACT


def test_lines_without_a_tip_are_left_out_of_the_sums():
    assert sum_by_group([2, -1, 2], 4, [1.0, 100.0, 2.0]).tolist() == [0.0, 0.0, 3.0, 0.0]
