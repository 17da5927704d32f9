"""The work log's rows become records; thin rows are normal; what contradicts itself is said."""

import datetime as dt

import pytest
from pydantic import ValidationError

from estimator.check.work_log import CylinderTag, LogEntry, WorkLog, check_work_log
from estimator.read.cells import Book, SheetCells

DAY = dt.date(2025, 3, 3)


def codes(log):
    return [problem.code for problem in check_work_log(log)]


def test_a_row_with_only_job_thickness_and_length_can_be_modelled():
    assert LogEntry(date=DAY, job="J-1", thickness_mm=12, cut_length_m=6.4).is_modelled


def test_a_row_with_neither_length_nor_minutes_is_a_warning():
    assert codes(WorkLog(entries=(LogEntry(date=DAY, job="J-1", thickness_mm=12),))) == ["W702"]


def test_work_without_a_flame_needs_neither():
    assert codes(WorkLog(entries=(LogEntry(date=DAY, job="J-1", operation="other", paid_time_min=30),))) == []


def test_the_shop_job_is_one_job_however_it_is_spelt():
    assert LogEntry(date=DAY, job="shop").job == "SHOP"


def test_a_reading_that_rose_without_a_change_of_cylinder_is_a_warning():
    row = {"date": DAY, "job": "J", "flame_time_min": 10, "oxygen_before": "100 bar", "oxygen_after": "180"}
    assert codes(WorkLog(entries=(LogEntry(**row),))) == ["W704"]
    assert codes(WorkLog(entries=(LogEntry(**row, cylinder_changes=1),))) == []


def test_acetylene_by_gauge_is_said_to_be_rough_and_propane_by_gauge_is_not():
    row = {"date": DAY, "job": "J", "flame_time_min": 10, "fuel_before": "10 bar"}
    assert codes(WorkLog(entries=(LogEntry(**row),))) == ["W710"]
    assert codes(WorkLog(entries=(LogEntry(**row, fuel="propane"),))) == []


def test_a_tag_runs_from_full_to_run_down_when_nothing_was_read():
    tag = CylinderTag(gas="oxygen", size="50 L", date_on=DAY, jobs="J-1; shop")
    assert tag.reading_on.value == 1.0
    assert tag.reading_off is None
    assert tag.jobs == ("J-1", "SHOP")


def test_a_tag_covers_the_entries_of_its_days_and_jobs():
    tag = CylinderTag(gas="oxygen", size="50 L", date_on=DAY, date_off=DAY + dt.timedelta(days=3), jobs="J-1")
    assert tag.covers(LogEntry(date=DAY, job="J-1"))
    assert not tag.covers(LogEntry(date=DAY, job="J-2"))
    assert not tag.covers(LogEntry(date=DAY + dt.timedelta(days=4), job="J-1"))


def test_tags_that_run_backward_overlap_or_name_unknown_jobs_are_problems():
    entry = LogEntry(date=DAY, job="J-1", flame_time_min=5)
    later = DAY + dt.timedelta(days=2)
    tags = (
        CylinderTag(gas="oxygen", size="50 L", cylinder="O-1", date_on=later, date_off=DAY),
        CylinderTag(gas="oxygen", size="50 L", cylinder="O-2", date_on=DAY, date_off=later),
        CylinderTag(gas="oxygen", size="50 L", cylinder="O-2", date_on=DAY, jobs="J-9"),
    )
    assert sorted(codes(WorkLog(entries=(entry,), tags=tags))) == ["E705", "W706", "W707"]


def test_a_reading_that_cannot_be_read_is_refused():
    with pytest.raises(ValidationError, match="not a reading of a cylinder"):
        LogEntry(date=DAY, job="J", oxygen_before="quite a lot")


def test_a_log_is_read_from_a_workbook_and_a_bad_reading_is_a_problem_at_its_cell(tmp_path):
    from estimator.check.work_log import read_work_log

    rows = [
        ["Date", "Job", "Thickness", "Length cut", "Oxygen before"],
        [dt.datetime(2025, 3, 3), "J-1", 12.0, 6.4, "150 bar"],
        [dt.datetime(2025, 3, 4), "shop", 20.0, 1.0, "lots"],
    ]
    book = Book(tmp_path / "log.xlsx", "", "xlsx", [SheetCells("Work log", rows)])
    log, problems = read_work_log(book)
    assert [(e.job, e.thickness_mm, e.cut_length_m) for e in log.entries] == [("J-1", 12.0, 6.4)]
    assert [str(p.place) for p in problems] == ["'Work log'!E3"]
