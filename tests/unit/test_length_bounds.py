"""The bounds of reading a length: each was found by a change to the code that no test noticed. Source: definition."""

from __future__ import annotations

from fractions import Fraction

import pytest

from estimator.read.lengths import Length, read_length, say_length
from estimator.read.numbers import Refused
from estimator.read.text import LONGEST

GAUGES_IN = {16: Fraction("0.0598")}


def test_a_text_of_just_the_longest_length_is_read_and_one_letter_more_is_not() -> None:
    text = " " * (LONGEST - 2) + "12"
    assert isinstance(read_length(text), Length)
    assert read_length(" " + text).reason == "it is too long for a length"  # type: ignore[union-attr]


@pytest.mark.parametrize(("value", "said"), [(Fraction(1, 32), "1/32 in"), (Fraction(1, 64), "1/64 in")])
def test_the_finest_fractions_of_a_rule_are_said_as_fractions(value: Fraction, said: str) -> None:
    assert say_length(value, "in") == said


@pytest.mark.parametrize("text", ["12, thk", "12,thk", "12. thk", "12.thk", "12 mm, plate thk"])
def test_a_sign_between_figure_and_label_goes_with_the_label(text: str) -> None:
    read = read_length(text)
    assert isinstance(read, Length)
    assert (read.value, read.plain, read.remark) == (12, True, "")


def test_two_labels_behind_are_taken_off_and_not_a_third() -> None:
    assert isinstance(read_length("12 thk thk"), Length)
    assert isinstance(read_length("12 thk thk thk"), Refused)


@pytest.mark.parametrize(
    "text",
    [
        "10 cm (102 mm)",  # 2 % apart, and within half a centimetre
        "25 mm (0.990 in)",  # 0.146 mm apart: within the rounding of the first alone
        "16 ga / 0.05984 in",  # within half of a ten-thousandth of an inch
    ],
)
def test_two_notations_within_the_rounding_of_the_coarser_are_one_length(text: str) -> None:
    assert isinstance(read_length(text, None, GAUGES_IN), Length)


@pytest.mark.parametrize(
    "text",
    [
        "10 cm (103 mm)",  # 3 % apart
        "250 mm (9.87 in)",  # 0.7 mm apart: beyond half a millimetre
        "16 ga / 0.05986 in",  # beyond half of a ten-thousandth of an inch
    ],
)
def test_two_notations_further_apart_are_refused(text: str) -> None:
    assert "are not the same length" in read_length(text, None, GAUGES_IN).reason  # type: ignore[union-attr]


@pytest.mark.parametrize("text", ['@12.7 mm = 1/2"', "*12.7 mm (1/2 in)", '1/2" (12.7 mm) x', "12.7 mm (1/2 in) junk"])
def test_a_sign_or_word_beside_two_notations_is_not_passed_over(text: str) -> None:
    assert isinstance(read_length(text), Refused)
