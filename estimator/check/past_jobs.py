"""Finished jobs as records: what was cut in each, and what it took."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from estimator.check.cut_list import CutList
from estimator.check.record import SheetRecord
from estimator.problems import Place, Problem, has_error
from estimator.problems import past_jobs as say
from estimator.read.cells import Book
from estimator.read.own_sheets import read_records
from estimator.sheets.past_jobs import PAST_JOBS
from estimator.words import Method, Steel, Work

__all__ = ["PastJob", "PastRow", "metres_list", "read_past_jobs"]


class PastRow(SheetRecord):
    """One row: a list, or metres of one thickness, and what the job took where it is typed."""

    job: str
    cut_list: str = ""
    thickness_mm: float | None = None
    cut_length_m: float | None = None
    pieces: int = 1
    pierces: int | None = None
    method: str = ""
    hours: float | None = None
    oxygen_cylinders: float | None = None
    fuel_cylinders: float | None = None
    price: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class PastJob:
    """One finished job; None for what was not typed."""

    name: str
    rows: tuple[PastRow, ...]

    def total(self, name: str) -> float | None:
        """Return the sum of what was typed in a column; None where nothing was."""
        typed = [value for row in self.rows if (value := getattr(row, name)) is not None]
        return float(sum(typed)) if typed else None

    @property
    def lists(self) -> list[str]:
        """Files of its cut lists."""
        return list(dict.fromkeys(row.cut_list for row in self.rows if row.cut_list))

    @property
    def metres(self) -> list[PastRow]:
        """Rows that give metres."""
        return [row for row in self.rows if not row.cut_list]


def read_past_jobs(book: Book) -> tuple[list[PastJob], list[Problem]]:
    """Return the finished jobs of a workbook, and every problem.

    Parameters
    ----------
    book : Book
        The loaded file.

    Returns
    -------
    tuple of (list of PastJob, list of Problem)
        Rows that cannot be used are left out, each with its problem.
    """
    rows, problems = read_records(book, PAST_JOBS, PastRow)
    kept = []
    for row in rows:
        if not row.cut_list and (row.thickness_mm is None or row.cut_length_m is None):
            problems.append(say.PAST_ROW_EMPTY.at(row.place, found=row.job))
        else:
            kept.append(row)
    jobs = [PastJob(name, tuple(r for r in kept if r.job == name)) for name in dict.fromkeys(r.job for r in kept)]
    for job in jobs:
        if job.total("hours") is None:
            problems.append(say.PAST_HOURS_MISSING.at(job.rows[0].place, found=job.name))
    if not jobs and not has_error(problems):
        problems.append(say.NO_PAST_JOBS.at(Place(book.path.name, PAST_JOBS.name)))
    return jobs, problems


def metres_list(job: PastJob) -> CutList:
    """Return metres as lines of a cut list: bare lengths, each piece started once from an edge, without steel.

    Parameters
    ----------
    job : PastJob
        A job with metres.

    Returns
    -------
    CutList
        A line a row.
    """
    rows = job.metres
    methods = dict(zip(Method.words(), Method, strict=True))
    pieces = np.array([row.pieces for row in rows], dtype=np.float64)
    lengths = np.array([row.cut_length_m or np.nan for row in rows], dtype=np.float64)
    pierces = np.array([np.nan if row.pierces is None else row.pierces for row in rows], dtype=np.float64)
    return CutList(
        mark=[f"{job.name} {place}" for place in range(1, len(rows) + 1)],
        quantity=pieces,
        thickness_mm=np.array([row.thickness_mm or np.nan for row in rows], dtype=np.float64),
        sheet=[row.place.sheet for row in rows],
        row=np.array([row.place.row for row in rows], dtype=np.int64),
        work=np.full(len(rows), Work.CUT, dtype=np.int8),
        cut_length_mm=lengths * 1000.0 / pieces,
        pierces=pierces / pieces,
        steel=np.full(len(rows), Steel.EXCLUDED, dtype=np.int8),
        method=np.array([methods.get(row.method, Method.FREE_HAND) for row in rows], dtype=np.int8),
        file=rows[0].place.file,
    )
