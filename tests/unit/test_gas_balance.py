"""Used against expected: the family of a month, what a difference looks like, months in a row."""

import numpy as np
import pytest

from estimator.learning.fit import NotEnoughDataError
from estimator.pricing.fixed_variable import robust_line, running_sum
from estimator.pricing.gas_balance import Explanation, balance, coverage_factor, explain, smallest_seen

GASES = ["oxygen", "acetylene"]


def picture(used, expected=(100.0, 20.0), doubt=(2.0, 0.4)):
    return explain(balance(GASES, used, (0.0, 0.0), expected, doubt))


def test_a_family_of_two_is_tested_at_a_wider_limit_than_one():
    # Two-sided normal points at 95 % and 97.5 %, any table of the normal distribution.
    assert coverage_factor(1) == pytest.approx(1.95996, abs=1e-5)
    assert coverage_factor(2) == pytest.approx(2.24140, abs=1e-5)


def test_no_gas_is_called_unexplained_in_95_of_100_months_without_a_fault():
    rng = np.random.default_rng(7)
    noise = rng.normal(0, [2.0, 0.4], (4000, 2))
    clean = [explain(balance(GASES, [100 + a, 20 + b], [0, 0], [100, 20], [2, 0.4])) for a, b in noise]
    share = np.mean([one is Explanation.EXPLAINED for one in clean])
    assert 0.945 <= share <= 0.962  # 0.951 for independent gases; 4,000 months leave 0.0035 in doubt


def test_the_pictures_of_a_month():
    assert picture((103, 20.5)) is Explanation.EXPLAINED
    assert picture((112, 20.1)) is Explanation.ONE_GAS
    assert picture((100.5, 23)) is Explanation.ONE_GAS
    assert picture((110, 22.2)) is Explanation.ALL_GASES
    assert picture((90, 18)) is Explanation.TOO_LITTLE
    assert picture((88, 20)) is Explanation.TOO_LITTLE
    assert picture((115, 17)) is Explanation.MIXED


def test_a_difference_is_split_into_what_can_and_cannot_be_explained():
    (verdict,) = balance(["oxygen"], [110.0], [0.0], [100.0], [2.0])
    assert not verdict.explained
    assert verdict.explained_m3 == pytest.approx(3.91993, abs=1e-5)
    assert verdict.explained_m3 + verdict.unexplained_m3 == pytest.approx(verdict.difference_m3)


def test_a_loss_of_the_smallest_seen_size_is_found_95_times_in_100():
    rng = np.random.default_rng(11)
    (quiet,) = balance(["oxygen"], [100.0], [1.0], [100.0], [2.0])
    loss = smallest_seen(quiet) * 100
    noise = rng.normal(0, np.hypot(1, 2), 4000)
    found = [not balance(["oxygen"], [100 + loss + e], [1.0], [100.0], [2.0])[0].explained for e in noise]
    assert np.mean(found) == pytest.approx(0.95, abs=0.012)


def test_months_give_the_leak_and_the_use_of_an_hour():
    hours = np.array([40, 55, 62, 80, 95, 70, 48, 88])
    line = robust_line(hours, 6.0 + 1.4 * hours)
    assert (line.fixed, line.variable) == (pytest.approx(6.0), pytest.approx(1.4))


def test_one_bad_month_does_not_pull_the_robust_line():
    hours = np.array([40, 55, 62, 80, 95, 70, 48, 88])
    use = 6.0 + 1.4 * hours
    use[3] += 60
    assert robust_line(hours, use).variable == pytest.approx(1.4, abs=0.02)


def test_the_interval_of_the_leak_holds_it_about_95_times_in_100():
    rng = np.random.default_rng(3)
    held = []
    for _ in range(600):
        hours = np.concatenate([[40, 100], rng.uniform(40, 100, 10)])
        line = robust_line(hours, 8.0 + 1.4 * hours + rng.normal(0, 4, 12))
        held.append(line.fixed_low <= 8.0 <= line.fixed_high)
    assert 0.90 <= np.mean(held) <= 0.99  # a robust spread of twelve months is itself rough


def test_a_leak_is_never_below_zero_and_says_so():
    hours = np.array([40, 55, 62, 80, 95, 70])
    line = robust_line(hours, -9.0 + 1.4 * hours)
    assert line.fixed == 0.0
    assert line.fixed_low >= 0.0
    assert "no negative leak" in line.warnings[0]


@pytest.mark.parametrize(
    ("hours", "use", "why"),
    [
        ([40, 60, 80, 90, 70], [1, 2, 3, 4, 5], "5 months; 6 are needed"),
        ([70, 72, 74, 76, 78, 80], [1, 2, 3, 4, 5, 6], "1.14 times the quietest"),
        ([40, 50, 60, 70, 80, 90], [9, 8, 7, 6, 5, 4], "use falls with the hours"),
    ],
)
def test_thin_or_unspread_or_falling_months_are_refused(hours, use, why):
    with pytest.raises(NotEnoughDataError, match=why):
        robust_line(hours, use)


def test_a_small_lasting_loss_raises_the_alarm_before_any_single_month_does():
    months = [0.2, -0.4] + [1.5] * 6
    summed = running_sum(months, np.ones(8))
    assert summed.alarm_month == 6  # 0.0, then 1.0 a month: the fifth such month passes 4
    assert max(months) < coverage_factor(1)


def test_a_price_step_down_is_seen_on_the_other_side():
    summed = running_sum([0, -2, -2, -2, -2], np.ones(5))
    assert summed.alarm_month == 3
    assert summed.up.max() == 0.0


def test_false_alarms_of_the_running_sum_are_rare():
    rng = np.random.default_rng(5)
    first = [running_sum(rng.normal(0, 1, 400), np.ones(400)).alarm_month for _ in range(200)]
    length = np.mean([400 if month is None else month + 1 for month in first])
    assert 120 <= length <= 200  # about 168 by the usual tables, from memory; runs are cut at 400
