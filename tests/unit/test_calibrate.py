import math
from datetime import date, timedelta

import numpy as np
import pytest

from estimator.learning.calibrate import calibrate_factors
from estimator.learning.calibration_result import HandbookFactor
from estimator.learning.fit import Method
from estimator.learning.observation import Kind, Observation, PartTerm
from estimator.learning.observation_table import observation_table
from estimator.learning.prior import draw_towards
from estimator.learning.ranges import Term
from estimator.learning.spread import EXACT, split_lognormal

TODAY = date(2025, 6, 30)
HOURS = HandbookFactor("hours", split_lognormal(0.85, 1.0, 1.40))
SPEED = HandbookFactor("speed 1.2", split_lognormal(0.78, 1.0, 1.24))
OTHER_SPEED = HandbookFactor("speed 1.6", split_lognormal(0.78, 1.0, 1.24))
FLOW = HandbookFactor("oxygen flow 1.2", split_lognormal(0.85, 1.0, 1.20))
SIZES = (30.0, 45, 60, 90, 120, 150, 200, 260, 300, 400)


def hours_of(job, modelled, logged, *, when=TODAY, **more):
    term = Term("paid_time_min", modelled, {"hours": 1.0})
    return Observation(Kind.PAID_TIME, f"hours of {job}", logged, (term,), (job,), when, **more)


def hours_log(ratios, sizes=SIZES):
    return [hours_of(f"J-{i}", size, size * ratio) for i, (ratio, size) in enumerate(zip(ratios, sizes, strict=False))]


def hours_factor_from(ratios, sizes=SIZES, **more):
    return calibrate_factors(hours_log(ratios, sizes), [HOURS], today=TODAY, **more).factor("hours")


def test_an_empty_log_keeps_the_handbook_and_says_why():
    found = calibrate_factors([], [HOURS, SPEED], today=TODAY)
    for factor in found.factors:
        assert (factor.value, factor.jobs, factor.weight, factor.changed) == (1.0, 0, 0.0, False)
        assert factor.reason == "nothing in the log speaks of it"
    hours = found.factor("hours")
    assert (hours.low, hours.high) == pytest.approx((0.85, 1.40))
    assert found.observations == found.errors == ()


@pytest.mark.parametrize("ratios", [[1.5], [1.5, 1.6]])
def test_one_or_two_jobs_keep_the_handbook_and_say_how_many_are_needed(ratios):
    factor = hours_factor_from(ratios)
    assert (factor.value, factor.method) == (1.0, Method.HANDBOOK)
    assert factor.reason == f"{len(ratios)} logged, 3 are needed"


def test_jobs_of_one_size_keep_the_handbook():
    factor = hours_factor_from([1.3] * 8, sizes=[100.0, 101, 102, 103, 110, 120, 130, 140])
    assert not factor.changed
    assert factor.reason == "all of one size: the largest is 1.4 times the smallest, 1.5 is needed"


def test_three_jobs_move_the_factor_part_of_the_way():
    factor = hours_factor_from([1.25, 1.20, 1.30])
    assert factor.method is Method.ROBUST
    assert 1.10 < factor.value < 1.25
    assert factor.low < factor.value < factor.high
    assert factor.high < 1.40 * 1.15


def test_ten_jobs_bring_the_shops_own_figure_and_a_narrow_interval():
    factor = hours_factor_from([1.22, 1.28, 1.25, 1.20, 1.30, 1.26, 1.24, 1.19, 1.31, 1.25])
    assert factor.method is Method.ROBUST
    assert factor.value == pytest.approx(1.25, abs=0.02)
    assert factor.high / factor.low < 1.15
    assert factor.weight > 0.9
    assert (factor.jobs, factor.latest) == (10, TODAY)


def test_with_even_jobs_and_few_of_them_the_joint_fit_is_the_mean_drawn_to_the_handbook():
    ratios = np.array([1.10, 1.20, 1.15, 1.25])
    found = calibrate_factors(hours_log(ratios), [HOURS], today=TODAY)
    scatter_u = math.sqrt((2 * 0.12**2 + _freedom_squares(ratios)[0]) / (2 + _freedom_squares(ratios)[1])) / 2
    by_hand = draw_towards(math.exp(np.log(ratios).mean()), scatter_u, 1.0, HOURS.spread.log_sd_about_likely)
    assert found.factor("hours").value == pytest.approx(by_hand.factor, rel=0.01)
    assert found.factor("hours").weight == pytest.approx(by_hand.weight, abs=0.05)


def _freedom_squares(ratios):
    logs = np.log(ratios)
    return float(((logs - logs.mean()) ** 2).sum()), len(logs) - 1


@pytest.mark.parametrize(
    ("wrong", "reason"),
    [
        (1 / 60, "hours may stand where minutes belong"),
        (25.4, "the length may be logged in inches and read as millimetres"),
        (2.0, "two people's time may be logged, or the row stands twice"),
        (10.0, "a decimal point may have slipped"),
    ],
)
def test_a_wrong_line_in_ten_is_shown_with_its_likely_reason_and_moves_little(wrong, reason):
    right = [1.22, 1.28, 1.25, 1.20, 1.30, 1.26, 1.24, 1.19, 1.31]
    found = calibrate_factors(hours_log([*right, 1.25 * wrong]), [HOURS], today=TODAY)
    assert found.factor("hours").value == pytest.approx(1.25, abs=0.04)
    assert found.factor("hours").reason == "from 10 logged, 1 of them odd and weighing little"
    assert len(found.observations) == 10
    *others, last = found.observations
    assert last.odd
    assert last.weight < 0.3
    assert last.reason == reason
    assert not any(each.odd for each in others)


def test_contradictory_logs_change_nothing():
    halves = hours_factor_from([0.5, 2.0, 0.45, 2.2, 0.5, 1.9, 0.55, 2.1, 0.5, 2.0])
    assert not halves.changed
    assert halves.reason == "the logged figures contradict each other"
    lopsided = hours_factor_from([1.2, 1.2, 1.21, 1.19, 1.2, 1.22, 4.0, 4.1, 3.9, 4.2])
    assert not lopsided.changed
    assert lopsided.reason == "the logged figures contradict each other"


def test_a_factor_that_hardly_shows_in_what_was_logged_is_kept():
    terms = (Term("paid_time_min", 92.0, {"hours": 1.0}), Term("paid_time_min", 8.0, {"speed 1.2": -1.0}))
    seen = [
        Observation(
            Kind.PAID_TIME,
            f"hours of J-{i}",
            size * 1.2,
            tuple(Term(t.quantity, t.amount * size / 100, t.powers) for t in terms),
            (f"J-{i}",),
            TODAY,
        )
        for i, size in enumerate(SIZES)
    ]
    found = calibrate_factors(seen, [HOURS, SPEED], today=TODAY)
    assert found.factor("hours").changed
    assert not found.factor("speed 1.2").changed
    assert found.factor("speed 1.2").reason == "the log says too little of it"


def test_a_factor_that_is_a_few_hundredths_of_every_job_is_kept_and_says_so():
    seen = [
        Observation(
            Kind.PAID_TIME,
            f"hours of J-{i}",
            size * 1.2,
            (
                Term("paid_time_min", 0.97 * size, {"hours": 1.0}),
                Term("paid_time_min", 0.03 * size, {"speed 1.2": -1.0}),
            ),
            (f"J-{i}",),
            TODAY,
        )
        for i, size in enumerate(SIZES)
    ]
    found = calibrate_factors(seen, [HOURS, SPEED, FLOW], today=TODAY)
    assert found.factor("speed 1.2").reason == "too small a part of what was logged"
    assert found.factor("oxygen flow 1.2").reason == "nothing in the log speaks of it"


def mixed_jobs(speed_12, speed_16):
    """Torch-lit minutes of jobs that mix two tips in changing shares."""
    seen = []
    for index in range(10):
        first, second = 10.0 + 9 * index, 95.0 - 8.5 * index
        terms = (
            Term("flame_time_min", first, {"speed 1.2": -1.0}),
            Term("flame_time_min", second, {"speed 1.6": -1.0}),
        )
        logged = first / speed_12 + second / speed_16
        seen.append(Observation(Kind.FLAME_TIME, f"J-{index}", logged, terms, (f"J-{index}",), TODAY))
    return seen


def test_jobs_that_mix_tips_are_shared_out_by_regression_and_not_by_the_total():
    found = calibrate_factors(mixed_jobs(0.8, 1.2), [SPEED, OTHER_SPEED], today=TODAY)
    assert found.factor("speed 1.2").value == pytest.approx(0.8, abs=0.03)
    assert found.factor("speed 1.6").value == pytest.approx(1.2, abs=0.03)


def test_a_shared_gauge_error_widens_the_factor_however_many_readings_there_are():
    sizes = np.linspace(1, 5, 40)
    seen = [
        Observation(
            Kind.GAUGE,
            f"oxygen of J-{i}",
            size * 1.1,
            (Term("oxygen_m3", size, {"oxygen flow 1.2": 1.0}),),
            (f"J-{i}",),
            TODAY,
            shared=("oxygen gauge",),
        )
        for i, size in enumerate(sizes)
    ]
    shared = calibrate_factors(seen, [FLOW], today=TODAY, shared_errors={"oxygen gauge": 0.05})
    free = calibrate_factors(seen, [FLOW], today=TODAY, shared_errors={"oxygen gauge": 1e-6})
    wide, narrow = shared.factor("oxygen flow 1.2"), free.factor("oxygen flow 1.2")
    assert narrow.high / narrow.low < 1.06
    # By hand: what cannot be told from the gauge's error keeps at least u = 1/√(1/0.05² + 1/prior²).
    prior = FLOW.spread.log_sd_about_likely
    least_u = 1 / math.sqrt(1 / 0.05**2 + 1 / prior**2)
    assert math.log(wide.high / wide.value) >= 1.28 * least_u
    assert [each.name for each in shared.factors] == ["oxygen flow 1.2"]


def test_old_jobs_fade_towards_the_handbook():
    old = [
        hours_of(each.jobs[0], each.modelled, each.logged, when=TODAY - timedelta(days=2000))
        for each in hours_log([1.25] * 9 + [1.2])
    ]
    kept = calibrate_factors(old, [HOURS], today=TODAY).factor("hours")
    faded = calibrate_factors(old, [HOURS], today=TODAY, half_life_days=1000)
    assert kept.value == pytest.approx(1.24, abs=0.02)
    assert 1.0 < faded.factor("hours").value < kept.value
    assert faded.factor("hours").weight < kept.weight
    assert faded.observations[0].reason == "age leaves it 25%"
    assert not faded.observations[0].odd


def test_a_factor_without_a_band_is_left_alone():
    fixed = HandbookFactor("hours", EXACT)
    found = calibrate_factors(hours_log([1.2] * 8), [fixed], today=TODAY)
    assert found.factor("hours").reason == "the handbook gives no band"
    assert found.factor("hours").value == 1.0


def test_each_job_is_foretold_from_the_others_and_the_error_falls():
    rng = np.random.default_rng(8)
    found = calibrate_factors(hours_log(1.3 * np.exp(rng.normal(0, 0.05, 10))), [HOURS], today=TODAY)
    (error,) = found.errors
    assert (error.kind, error.count) == (Kind.PAID_TIME, 10)
    assert error.before == pytest.approx(1 - 1 / 1.3, abs=0.03)
    assert error.left_out < error.before / 3
    assert 0.03 < math.log(error.new_job.high) / 1.2816 < 0.11


def test_the_order_of_the_log_is_irrelevant():
    seen = hours_log([1.22, 1.28, 1.25, 1.20, 2.60, 1.26, 1.24, 1.19])
    forward, backward = (calibrate_factors(s, [HOURS], today=TODAY).factor("hours") for s in (seen, seen[::-1]))
    assert forward.value == pytest.approx(backward.value, rel=1e-6)
    assert (forward.low, forward.high) == pytest.approx((backward.low, backward.high), rel=1e-5)


def test_a_logged_figure_of_nought_is_refused_by_name():
    with pytest.raises(ValueError, match="hours of J-1: logged and modelled must be above zero"):
        observation_table([hours_of("J-1", 10.0, 0.0)], ["hours"])
    with pytest.raises(ValueError, match="names the factor 'hours', which is not given"):
        observation_table([hours_of("J-1", 10.0, 5.0)], ["speed"])


def test_slopes_of_the_table_equal_differences():
    table = observation_table(mixed_jobs(0.9, 1.1), ["speed 1.2", "speed 1.6"])
    at = np.array([0.1, -0.2])
    slopes = table.model(at)[1]
    for column in (0, 1):
        step = np.zeros(2)
        step[column] = 1e-6
        difference = (table.model(at + step)[0] - table.model(at - step)[0]) / 2e-6
        assert slopes[:, column] == pytest.approx(difference, abs=1e-8)


def bottle(name, logged, days, *, whole_m3, shared):
    """A bottle over days of its own and days that it shares with a neighbour, 4 m³ each by the handbook."""
    terms = [Term("oxygen_m3", 4.0, {FLOW.name: 1.0})] * days
    terms += [PartTerm("oxygen_m3", whole_m3 / 2, {FLOW.name: 1.0}, day, name, 2) for day in shared]
    return Observation(
        Kind.CYLINDER_SPAN, name, logged, tuple(terms), tuple(f"{name}{d}" for d in range(3)), TODAY, 0.01
    )


def test_the_parts_of_a_shared_day_always_add_to_the_day():
    """Whatever the columns of the parts hold, the two bottles together hold the whole day."""
    seen = [
        bottle("O-1", 9.0, 1, whole_m3=4.0, shared=["Monday"]),
        bottle("O-2", 9.0, 1, whole_m3=4.0, shared=["Monday"]),
    ]
    table = observation_table(seen, [FLOW.name])
    for first, second in ((0.0, 0.0), (1.3, -0.4), (-3.0, 2.0)):
        held = np.exp(table.model(np.array([0.0, first, second]))[0]) - 4.0
        assert held.sum() == pytest.approx(4.0)
        assert held[0] / held[1] == pytest.approx(np.exp(first - second))


def test_the_slopes_of_parts_are_those_of_small_steps():
    seen = [
        bottle("O-1", 9.0, 1, whole_m3=4.0, shared=["Monday"]),
        bottle("O-2", 9.0, 2, whole_m3=4.0, shared=["Monday"]),
    ]
    table = observation_table(seen, [FLOW.name])
    at = np.array([0.2, 0.7, -0.3])
    slopes = table.model(at)[1]
    for column in range(3):
        step = 1e-6 * np.eye(3)[column]
        by_step = (table.model(at + step)[0] - table.model(at - step)[0]) / 2e-6
        assert slopes[:, column] == pytest.approx(by_step, abs=1e-8)


def test_bottles_that_share_days_teach_what_they_hold_together():
    """Worked by hand, with the shop at 1.25 of the handbook, so that a day of 4 m³ takes 5.

    O-1: a day and 0.8 of Monday, 5 + 4 = 9. O-2: the rest of Monday, a day, 0.8 of Friday, 1 + 5 + 4 = 10. O-3: the
    rest of Friday and two days, 1 + 10 = 11. Halved days would say 1.50, 1.25 and 1.10.
    """
    seen = [
        bottle("O-1", 9.0, 1, whole_m3=4.0, shared=["Monday"]),
        bottle("O-2", 10.0, 1, whole_m3=4.0, shared=["Monday", "Friday"]),
        bottle("O-3", 11.0, 2, whole_m3=4.0, shared=["Friday"]),
    ]
    found = calibrate_factors(seen, [FLOW], today=TODAY).factor(FLOW.name)
    assert found.value == pytest.approx(1.25, rel=0.03)
