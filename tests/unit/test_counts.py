"""Quantities as shops type them (common practice, no source)."""

import pytest

from estimator.read.counts import Count, read_count
from estimator.read.numbers import Refused

ACCEPTED = """
4 | 4
4.0 | 4
12 | 12
4 ea | 4
4ea. | 4
4 pcs | 4
1pcs | 1
4 pc(s) | 4
4 off | 4
4 No. | 4
4 nos | 4
4 req'd | 4
x6 | 6
6x | 6
× 6 | 6
(4) | 4
qty: 4 | 4
Nr. 4 | 4
n° 4 | 4
5 szt. | 5
5 шт | 5
5 Stk. | 5
5 Stück | 5
5 pç | 5
5 pz | 5
5 uds | 5
5 件 | 5
5 cái | 5
4 U.N | 4
"""
INTERPRETED = """
2x3 | 6 | 2 x 3 is read as 6
2 x 3 ea | 6 | 2 x 3 is read as 6
2 sets of 4 | 8 | 2 x 4 is read as 8
2+2 | 4 | 2+2 is read as 4
2 sets | 2 | 2 sets is read as 2 of this piece
1 set | 1 | 1 set is read as 1 of this piece
1 200 | 1200 | the space groups the thousands
"""
REFUSED = """
ALL | it holds no figure
as req'd | it holds no figure
several | it holds no figure
0,3m | it is an amount, not a number of pieces
5 kg | it is an amount, not a number of pieces
10 @ 1200 | it holds a length as well
2 at 27.89" | it holds a length as well
1-2 | it is a range
2.5 | it is not a whole number
-3 | it is below zero
4? | it is marked as doubtful
~4 | it is approximate
4/side | it is a share or a rate
1,200 | a mark before exactly three digits can be a decimal or a thousands mark
2 pairs | pairs and dozens leave open how many pieces are meant
4 left | the word after the figure is not known
size 4 | the word before the figure is not known
"""


def rows(table: str) -> list[list[str]]:
    return [[part.strip() for part in line.split("|")] for line in table.strip().splitlines()]


@pytest.mark.parametrize(("text", "value"), rows(ACCEPTED))
def test_a_plain_quantity_is_read(text: str, value: str) -> None:
    assert read_count(text) == Count(int(value))


@pytest.mark.parametrize(("text", "value", "remark"), rows(INTERPRETED))
def test_an_interpreted_quantity_says_how_it_was_read(text: str, value: str, remark: str) -> None:
    assert read_count(text) == Count(int(value), False, remark)


@pytest.mark.parametrize(("text", "reason"), rows(REFUSED))
def test_a_quantity_that_is_no_number_of_pieces_is_refused(text: str, reason: str) -> None:
    assert read_count(text) == Refused(reason)
