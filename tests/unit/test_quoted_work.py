import datetime as dt

import pytest

from estimator.check.work_log import LogEntry, WorkLog
from estimator.learning.spread import split_lognormal
from estimator.pricing.quoted_work import quoted_against_logged

HOURS = split_lognormal(0.85, 1.0, 1.40)


def entry(quote, paid, day=1, **more):
    return LogEntry(date=dt.date(2025, 3, day), job=f"J-{quote}", quote_number=quote, paid_time_min=paid, **more)


def test_the_rows_of_a_quote_add_up_and_stand_beside_what_was_quoted():
    log = WorkLog(entries=(entry("Q-1", 60.0), entry("Q-1", 40.0, day=2), entry("Q-2", 90.0), entry("", 500.0)))
    found = quoted_against_logged(log, {"Q-1": 80.0, "Q-2": 90.0}, HOURS)
    assert [(j.number, j.quoted, j.actual, j.when.day) for j in found.jobs] == [
        ("Q-1", 80.0, 100.0, 2),
        ("Q-2", 90.0, 90.0, 1),
    ]


def test_each_class_of_work_has_its_own_correction():
    cuts = [entry(f"C-{i}", 130.0 + i, day=i + 1) for i in range(8)]
    heats = [entry(f"H-{i}", 90.0 + i, day=i + 1, operation="heat") for i in range(8)]
    quoted = {e.quote_number: 100.0 for e in (*cuts, *heats)}
    found = quoted_against_logged(WorkLog(entries=(*cuts, *heats)), quoted, HOURS)
    cut, heat = found.classes
    assert (cut.work_class, heat.work_class) == ("cut by hand", "heat")
    assert cut.correction == pytest.approx(1.33, abs=0.03)
    assert heat.correction == pytest.approx(0.94, abs=0.03)


def test_a_job_belongs_to_the_class_that_took_most_of_its_minutes():
    rows = (entry("Q-1", 20.0), entry("Q-1", 70.0, operation="heat"), entry("Q-1", 30.0, method="track"))
    (job,) = quoted_against_logged(WorkLog(entries=rows), {"Q-1": 100.0}, HOURS).jobs
    assert job.work_class == "heat"


def test_quotes_that_say_nothing_are_named_with_the_reason():
    log = WorkLog(entries=(entry("Q-1", 60.0), entry("Q-2", None), entry("Q-3", 30.0)))
    found = quoted_against_logged(log, {"Q-2": 50.0, "Q-3": 0.0}, HOURS)
    assert found.left_out == (
        ("Q-1", "no quote of this number is known"),
        ("Q-2", "no minutes were logged"),
        ("Q-3", "no minutes were quoted"),
    )
    assert found.classes == ()
