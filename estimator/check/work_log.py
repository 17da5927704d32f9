"""Checked records of the work log and of the cylinder tags. Blank numbers stay None: a thin row is a normal row."""

from __future__ import annotations

import datetime as dt
from typing import Any

from pydantic import BaseModel, ConfigDict, field_validator

from estimator.check.record import SheetRecord
from estimator.problems import work_log as said
from estimator.problems.code import Problem
from estimator.read.cells import Book
from estimator.read.cylinder_reading import CylinderReading, Means, read_cylinder
from estimator.read.own_cells import nearest
from estimator.read.own_sheets import read_records
from estimator.sheets.cylinder_tags import CYLINDER_TAGS
from estimator.sheets.work_log import SHOP_JOB, WORK_LOG

__all__ = ["CylinderTag", "LogEntry", "WorkLog", "check_work_log", "read_work_log"]


class LogEntry(SheetRecord):
    """One row of the work log."""

    date: dt.date
    job: str
    quote_number: str = ""
    who: str = ""
    operation: str = "cut"
    method: str = ""
    fuel: str = ""
    tip: str = ""
    mark: str = ""
    pieces: int | None = None
    thickness_mm: float | None = None
    cut_length_m: float | None = None
    """All pieces together."""
    pierces: int | None = None
    edge_starts: int | None = None
    flame_time_min: float | None = None
    paid_time_min: float | None = None
    oxygen_before: CylinderReading | None = None
    oxygen_after: CylinderReading | None = None
    oxygen_size: str = ""
    fuel_before: CylinderReading | None = None
    fuel_after: CylinderReading | None = None
    cylinder_changes: int | None = None
    note: str = ""

    @field_validator("oxygen_before", "oxygen_after", mode="before")
    @classmethod
    def _oxygen(cls, value: Any) -> Any:
        return read_cylinder(value, "bar") if isinstance(value, str) else value

    @field_validator("fuel_before", "fuel_after", mode="before")
    @classmethod
    def _fuel(cls, value: Any) -> Any:
        return read_cylinder(value, "kg") if isinstance(value, str) else value

    @field_validator("job")
    @classmethod
    def _shop(cls, value: str) -> str:
        return SHOP_JOB if value.casefold() == SHOP_JOB.casefold() else value

    @property
    def is_modelled(self) -> bool:
        """Whether the model can work out its gas: torch-lit minutes, or thickness and length."""
        return self.flame_time_min is not None or (self.thickness_mm is not None and self.cut_length_m is not None)


class CylinderTag(SheetRecord):
    """One cylinder's span on a torch: the log's first-class measurement of gas."""

    cylinder: str = ""
    gas: str
    size: str
    date_on: dt.date
    date_off: dt.date | None = None
    reading_on: CylinderReading = CylinderReading(Means.SHARE, 1.0, said="full")
    reading_off: CylinderReading | None = None
    """None when it was run down to what is left in the bottle."""
    jobs: tuple[str, ...] = ()
    """Empty for every job logged in its days."""
    note: str = ""

    @field_validator("reading_on", "reading_off", mode="before")
    @classmethod
    def _reading(cls, value: Any) -> Any:
        return read_cylinder(value) if isinstance(value, str) else value

    @field_validator("jobs", mode="before")
    @classmethod
    def _jobs(cls, value: Any) -> Any:
        if not isinstance(value, str):
            return value
        jobs = (job.strip() for job in value.replace(";", ",").split(","))
        return tuple(SHOP_JOB if job.casefold() == SHOP_JOB.casefold() else job for job in jobs if job)

    def covers(self, entry: LogEntry) -> bool:
        """Return whether an entry was worked from this cylinder: in its days, and of its jobs where it names them."""
        last = self.date_off or dt.date.max
        return self.date_on <= entry.date <= last and (not self.jobs or entry.job in self.jobs)


class WorkLog(BaseModel):
    """The log of some time: entries and tags in the sheets' order."""

    model_config = ConfigDict(frozen=True)

    entries: tuple[LogEntry, ...] = ()
    tags: tuple[CylinderTag, ...] = ()

    def between(self, after: dt.date, until: dt.date) -> WorkLog:
        """Return the entries after the end of one day until the end of another; the tags stay whole."""
        return WorkLog(entries=tuple(e for e in self.entries if after < e.date <= until), tags=self.tags)


def read_work_log(book: Book) -> tuple[WorkLog, list[Problem]]:
    """Return the work log of a loaded workbook, with every problem found in it.

    Parameters
    ----------
    book : Book
        The loaded workbook.

    Returns
    -------
    tuple of (WorkLog, list of Problem)
        Rows with an error are left out of the log and stand among the problems.

    Notes
    -----
    Source: definition.
    """
    entries, problems = read_records(book, WORK_LOG, LogEntry)
    tags, tag_problems = read_records(book, CYLINDER_TAGS, CylinderTag)
    log = WorkLog(entries=tuple(entries), tags=tuple(tags))
    return log, [*problems, *tag_problems, *check_work_log(log)]


def check_work_log(log: WorkLog) -> list[Problem]:
    """Return what is wrong between the values of a log's own rows.

    Parameters
    ----------
    log : WorkLog
        Entries and tags.

    Returns
    -------
    list of Problem
        Rows that cannot be modelled, readings that rose, tags that run backward, overlap or name unknown jobs.

    Notes
    -----
    Source: definition.
    """
    problems = [problem for entry in log.entries for problem in _entry_problems(entry)]
    jobs = sorted({entry.job for entry in log.entries})
    for tag in log.tags:
        problems += _tag_problems(tag, jobs)
    return problems + _overlaps(log.tags)


def _entry_problems(entry: LogEntry) -> list[Problem]:
    problems = []
    flame = entry.operation != "other"
    if flame and not entry.is_modelled:
        problems.append(said.ROW_NOT_MODELLED.at(entry.place))
    for before, after, name in (
        (entry.oxygen_before, entry.oxygen_after, "oxygen_after"),
        (entry.fuel_before, entry.fuel_after, "fuel_after"),
    ):
        rose = before and after and before.means is after.means and after.value > before.value
        if rose and not entry.cylinder_changes:
            problems.append(said.READING_ROSE.at(entry.at(name), found=after.said if after else ""))
    fuel_by_gauge = Means.PRESSURE in {r.means for r in (entry.fuel_before, entry.fuel_after) if r}
    if fuel_by_gauge and entry.fuel in {"", "acetylene"}:
        problems.append(said.ACETYLENE_BY_GAUGE.at(entry.at("fuel_before")))
    return problems


def _tag_problems(tag: CylinderTag, jobs: list[str]) -> list[Problem]:
    problems = []
    if tag.date_off is not None and tag.date_off < tag.date_on:
        problems.append(said.TAG_BACKWARD.at(tag.at("date_off"), found=tag.date_off, date_on=tag.date_on))
    for job in tag.jobs:
        if job not in jobs:
            near = nearest(job, jobs)
            hint = f" (perhaps '{near[0]}')" if near else ""
            problems.append(said.TAG_JOB_UNKNOWN.at(tag.at("jobs"), found=job, near=hint))
    if tag.gas == "acetylene" and Means.PRESSURE in {r.means for r in (tag.reading_on, tag.reading_off) if r}:
        problems.append(said.ACETYLENE_BY_GAUGE.at(tag.at("reading_on")))
    return problems


def _overlaps(tags: tuple[CylinderTag, ...]) -> list[Problem]:
    problems = []
    last: dict[tuple[str, str], dt.date] = {}
    for tag in sorted((t for t in tags if t.cylinder), key=lambda t: t.date_on):
        key = (tag.gas, tag.cylinder)
        if key in last and tag.date_on < last[key]:
            problems.append(said.TAG_OVERLAP.at(tag.at("date_on"), found=tag.cylinder))
        last[key] = max(last.get(key, dt.date.min), tag.date_off or dt.date.max)
    return problems
