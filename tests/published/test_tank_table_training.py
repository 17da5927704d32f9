"""Wisconsin tank training, page 18669 (public training page), seen as an excerpt: a dip of a quarter between two rows.

The row reads 337, the next is 8 more; the dip is a quarter above: 337 + 8 / 4 = 339. Tolerance: none.
"""

import pytest

from estimator.quantities.pressure_decay import stock_from_level


def test_a_quarter_between_two_rows_adds_a_quarter_of_their_difference():
    assert stock_from_level(50.25, [49, 50, 51], [329, 337, 345]) == pytest.approx(339, abs=0)


@pytest.mark.parametrize("level", [48.9, 51.1])
def test_beyond_the_table_is_refused(level):
    with pytest.raises(ValueError, match="must lie from 49 to 51"):
        stock_from_level(level, [49, 50, 51], [329, 337, 345])
