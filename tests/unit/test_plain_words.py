"""What people are told: durations, bottles, and one line's minutes."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.plain_words import bottles_words, duration_words, line_words


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (0, "0 min"),
        (59.6, "1 h"),
        (60, "1 h"),
        (61, "1 h 1 min"),
        (479.9, "1 day"),
        (480, "1 day"),
        (16.3 * 60, "2 days"),
        (10 * 60, "1 day 2 h"),
    ],
)
def test_a_duration_is_said_in_minutes_hours_and_days(minutes, said):
    assert duration_words(minutes) == said


def test_a_shorter_day_is_counted_in_its_own_hours():
    assert duration_words(8 * 60, hours_per_day=7.5) == "1 day 0.5 h"


@settings(max_examples=60)
@given(st.floats(1, 20_000))
def test_days_said_are_within_half_an_hour_of_the_minutes(minutes):
    words = duration_words(minutes).split()
    total = sum(
        float(n) * {"min": 1, "h": 60, "day": 480, "days": 480}[u] for n, u in zip(*[iter(words)] * 2, strict=True)
    )
    assert total == pytest.approx(minutes, abs=30)


@pytest.mark.parametrize(("used", "said"), [(0.04, "under 0.1"), (0.96, "1 bottle"), (9.96, "10 bottles")])
def test_bottles_are_said_to_a_tenth(used, said):
    assert bottles_words(used * 8.9, 8.9).startswith(said)


def test_the_minutes_each_hold_the_parts_that_are_too_short_to_tell():
    assert line_words(2, "ring", [("cut", 8.0), ("set", 0.04)]) == "2 x ring, 8.0 min each: cut 8.0"
    assert line_words(2, "ring", [("cut", 8.0), ("set", 0.04)] * 3).startswith("2 x ring, 24.1 min each")


@pytest.mark.parametrize("bad", [-1.0, float("nan")])
def test_an_amount_below_zero_or_unknown_is_refused(bad):
    for say in (duration_words, lambda v: bottles_words(v, 1.0)):
        with pytest.raises(ValueError, match="zero or above"):
            say(bad)
