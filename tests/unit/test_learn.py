import datetime as dt

import numpy as np
import pytest

from estimator.check.example_shop import example_shop
from estimator.check.shop_book import FactorRow
from estimator.check.work_log import CylinderTag, LogEntry, WorkLog
from estimator.learning.observation import Kind
from estimator.pricing.learn import learn_from_log
from estimator.pricing.modelled_log import modelled_log
from estimator.pricing.own_factors import FactorKey, faded
from estimator.read.cylinder_reading import CylinderReading, Means
from estimator.words import OwnFactor
from tests.simulate_log import FIRST_DAY, logged_by, true_shop, work_of

TODAY = dt.date(2025, 6, 1)
TRUTH = {"travel_speed": 0.85, "cutting_oxygen": 1.15, "fuel": 1.2, "man-hours": 1.25}


def learned_from(log, shop=None):
    return learn_from_log(log, shop or example_shop(), today=TODAY)


def value(learned, what, tip="", by=""):
    return learned.result.factor(FactorKey(what, tip, by).name)


@pytest.fixture(scope="module")
def whole():
    return learned_from(logged_by(true_shop(**TRUTH), work_of(16, seed=5), seed=6))


def test_the_true_factors_of_a_shop_are_found_again(whole):
    assert value(whole, "travel speed", "1.2", "hand").value == pytest.approx(0.85, abs=0.03)
    assert value(whole, "cutting oxygen", "1.2").value == pytest.approx(1.15, abs=0.06)
    assert value(whole, "fuel").value == pytest.approx(1.20, abs=0.06)
    assert value(whole, "man-hours").value == pytest.approx(1.25, abs=0.07)


def test_most_true_factors_lie_in_their_interval(whole):
    truth = {"travel speed": 0.85, "cutting oxygen": 1.15, "fuel": 1.2, "man-hours": 1.25, "start time": 1.0}
    changed = [f for f in whole.changed if whole.keys[f.name].what in truth]
    inside = [f.low <= truth[whole.keys[f.name].what] <= f.high for f in changed]
    assert len(inside) >= 5
    assert np.mean(inside) >= 0.6  # four in five of independent factors; these are few and share their jobs


def test_the_new_shop_book_holds_what_was_learned_and_the_old_one_is_untouched(whole):
    assert whole.before.factors == ()
    rows = {FactorKey.of(row): row for row in whole.shop.factors}
    for factor in whole.changed:
        row = rows[whole.keys[factor.name]]
        assert row.value == pytest.approx(factor.value, abs=5e-5)
        assert (row.jobs, row.measured) == (factor.jobs, factor.latest)
    assert rows[FactorKey(OwnFactor.ONE_JOB)].jobs == 16
    assert whole.shop.model_copy(update={"factors": ()}) == whole.before


def test_a_factor_that_the_log_does_not_speak_of_keeps_the_books_own_row():
    old = FactorRow(what="travel speed", tip="2.0", by="machine", value=0.9, low=0.85, high=0.95, jobs=7)
    shop = example_shop().model_copy(update={"factors": (old,)})
    learned = learned_from(logged_by(true_shop(**TRUTH), work_of(6, seed=5), seed=6), shop)
    assert old in learned.shop.factors


def test_learning_again_from_the_same_log_gives_the_same_book(whole):
    again = learn_from_log(logged_by(true_shop(**TRUTH), work_of(16, seed=5), seed=6), whole.shop, today=TODAY)
    assert again.shop.factors == whole.shop.factors


def test_a_mixed_job_is_shared_out_over_its_tips():
    rows = work_of(16, seed=5)
    two_speeds = example_shop().model_copy(
        update={
            "factors": (
                FactorRow(what="travel speed", tip="1.2", value=0.8),
                FactorRow(what="travel speed", tip="1.6", value=1.15),
            )
        }
    )
    learned = learned_from(logged_by(two_speeds, rows, seed=6, flame=0.03))
    assert value(learned, "travel speed", "1.2", "hand").value == pytest.approx(0.80, abs=0.03)
    assert value(learned, "travel speed", "1.6", "hand").value == pytest.approx(1.15, abs=0.05)


def entry(job="J-1", day=FIRST_DAY, **more):
    return LogEntry(**{"date": day, "job": job, "thickness_mm": 12.0, "cut_length_m": 10.0} | more)


def tag(**more):
    return CylinderTag(
        **{"gas": "oxygen", "size": "O-10", "date_on": FIRST_DAY, "date_off": FIRST_DAY, "cylinder": "O-1"} | more
    )


def observations(*entries, tags=(), kind=Kind.CYLINDER_SPAN):
    found = learned_from(WorkLog(entries=entries, tags=tuple(tags)))
    return [each.seen for each in found.result.observations if each.seen.kind is kind], found.not_used


def test_a_cylinder_run_down_is_its_content_less_what_is_left_over_the_jobs_between():
    seen, unused = observations(entry(), entry("J-2", thickness_mm=25.0), tags=[tag()])
    (span,) = seen
    assert unused == ()
    assert span.jobs == ("J-1", "J-2")
    (gas,) = [g for g in example_shop().gas_prices if g.cylinder == "O-10"]
    # By hand: 10 m³ at 15 °C and 1 bar are 10 / 1.01325 at 1 atm, less the share that is left in at change-over.
    assert span.logged == pytest.approx(10 / 1.01325 * (1 - gas.heel_share), rel=0.001)
    work = modelled_log(WorkLog(entries=(entry(), entry("J-2", thickness_mm=25.0))), example_shop())
    lines = [job.work.lines for job in work.jobs]
    rows = sum(row.preheat_oxygen_m3 + row.lost_oxygen_m3 for job in work.jobs for row in job.work.rows)
    modelled = sum(float((ln.cutting_oxygen_m3 + ln.preheat_oxygen_m3 + ln.lost_oxygen_m3).sum()) for ln in lines)
    assert span.modelled == pytest.approx(modelled + rows)


def test_a_tag_that_names_its_jobs_takes_those_alone():
    seen, _ = observations(entry(), entry("J-2"), tags=[tag(jobs=("J-2",))])
    assert [span.jobs for span in seen] == [("J-2",)]


def test_a_day_of_two_cylinders_is_shared_between_them_and_is_less_certain():
    one, _ = observations(entry(), tags=[tag()])
    two, _ = observations(entry(), tags=[tag(), tag(cylinder="O-2")])
    assert [s.modelled for s in two] == pytest.approx([one[0].modelled / 2] * 2)
    assert two[0].reading_u > one[0].reading_u


@pytest.mark.parametrize(
    ("tags", "why"),
    [
        ([tag(date_off=None)], "still on the torch"),
        ([tag(date_on=dt.date(2024, 1, 1), date_off=dt.date(2024, 1, 5))], "no work was logged in its days"),
        ([tag(size="O-99")], "the shop book knows no oxygen cylinder 'O-99'"),
    ],
)
def test_a_span_that_teaches_nothing_says_why(tags, why):
    seen, unused = observations(entry(), tags=tags)
    assert seen == []
    assert [each.why for each in unused] == [why]


def test_a_span_over_work_that_cannot_be_modelled_is_not_used():
    seen, unused = observations(entry(), entry("J-2", thickness_mm=900.0), tags=[tag()])
    assert seen == []
    assert unused[-1].why == "part of the work in its days could not be modelled"


def read(bar):
    return CylinderReading(Means.PRESSURE, bar, said=f"{bar} bar")


def test_two_gauge_readings_are_an_amount_when_the_size_is_known():
    with_size = entry(oxygen_before=read(150), oxygen_after=read(130), oxygen_size="O-10")
    (gauge,), unused = observations(with_size, kind=Kind.GAUGE)
    # By hand: a tenth of the pressure of a full cylinder is near to a tenth of its gas (real oxygen is a little more).
    assert gauge.logged == pytest.approx(10 / 1.01325 * 20 / 200, rel=0.04)
    assert gauge.shared == ("oxygen gauge",)
    assert unused == ()
    seen, unused = observations(entry(oxygen_before=read(150), oxygen_after=read(130)), kind=Kind.GAUGE)
    assert (seen, [each.why for each in unused]) == ([], ["no size given"])


def test_a_cylinder_changed_between_two_readings_breaks_them():
    changed = entry(oxygen_before=read(20), oxygen_after=read(130), oxygen_size="O-10", cylinder_changes=1)
    seen, unused = observations(changed, kind=Kind.GAUGE)
    assert (seen, unused[0].why) == ([], "a cylinder was changed between the readings")


def test_hours_are_those_of_the_whole_job_with_its_set_up():
    seen, unused = observations(entry(paid_time_min=90.0), entry(paid_time_min=60.0), kind=Kind.PAID_TIME)
    (hours,) = seen
    assert (hours.logged, unused) == (150.0, ())
    work = modelled_log(WorkLog(entries=(entry(), entry())), example_shop()).jobs[0].work
    assert hours.modelled == pytest.approx(work.lines.paid_time_min.sum() + sum(r.paid_time_min for r in work.rows))


def test_a_job_with_some_minutes_missing_teaches_no_hours():
    seen, unused = observations(entry(paid_time_min=90.0), entry(), kind=Kind.PAID_TIME)
    assert (seen, [each.why for each in unused]) == ([], ["some of its rows have no man-minutes"])


def test_a_row_of_a_persons_day_without_a_cut_adds_its_minutes_to_the_job():
    day = LogEntry(date=FIRST_DAY, job="J-1", paid_time_min=240.0)
    seen, _ = observations(entry(), day, kind=Kind.PAID_TIME)
    assert [each.logged for each in seen] == [240.0]


def test_an_old_factor_fades_with_the_job_s_date_and_the_book_is_untouched():
    row = FactorRow(what="man-hours", value=1.3, low=1.25, high=1.35, jobs=12, measured=dt.date(2024, 1, 1))
    shop = example_shop().model_copy(update={"factors": (row,)})
    (fresh,) = faded(shop, dt.date(2024, 1, 1)).factors
    (old,) = faded(shop, dt.date(2030, 1, 1)).factors
    assert (fresh.value, fresh.low, fresh.high) == pytest.approx((1.3, 1.25, 1.35), abs=0.002)
    assert 1.0 < old.value < 1.3
    assert old.high / old.low > fresh.high / fresh.low
    assert shop.factors == (row,)
    assert faded(shop, None) is shop
