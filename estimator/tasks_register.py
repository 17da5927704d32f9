"""The tasks of the register: find it, read it, say what became of a quote. Each step is named in its order."""

from __future__ import annotations

import datetime as dt
import re
from difflib import get_close_matches
from pathlib import Path

from estimator.check.register import QuoteKey, QuoteRow, Register, read_register
from estimator.pricing.month_report import QuotedJob
from estimator.pricing.quote_history import quoted_jobs
from estimator.problems import Level, Place, Problem, WorkbookProblemsError
from estimator.problems import quotes as say
from estimator.read.load import load_book
from estimator.sheets.register import DONE, OPEN, QUOTES, REPLACED, WON
from estimator.tasks import find_register
from estimator.write.plain_text import plain_text
from estimator.write.register import changing_register

__all__ = [
    "decide",
    "file_stem",
    "find_register",
    "kept_file",
    "open_register",
    "plain_name",
    "quote_row",
    "quoted_work",
    "relative_name",
]


def open_register(path: Path, *, named: bool = False) -> tuple[Register, list[Problem]]:
    """Read a register; one that cannot be read as one is a problem, one that is not there is empty unless named."""
    if not named and not path.exists():
        return Register(file=path.name), []
    register, problems = read_register(load_book(path))
    if any(p.level is Level.ERROR and not p.place.row for p in problems):
        raise WorkbookProblemsError(problems)
    return register, problems


def quoted_work(register: Path | None, beside: Path, decimals: int) -> dict[str, QuotedJob]:
    """Return what agreed work was quoted at: by the register that is named, else the one found beside a file."""
    found, _ = open_register(register or find_register(beside), named=register is not None)
    return quoted_jobs(found, decimals)


def quote_row(register: Register, number: str, revision: str = "", variation: int = 0) -> QuoteRow:
    """Return a row of the register: a revision that is named, else the one that stands now; else a problem."""
    rows = [row for row in register.of_number(number) if (row.variation or 0) == variation]
    named = [row for row in rows if not revision or row.key.revision == QuoteKey(number, revision.upper()).revision]
    standing = [row for row in named if row.state != REPLACED] or named
    if standing:
        return standing[-1]
    asked = number + (f" revision {revision}" if revision else "") + (f" variation {variation}" if variation else "")
    known = list(dict.fromkeys(row.number for row in register.quotes))
    near = ", ".join(str(row.key) for row in rows) or ", ".join(get_close_matches(number, known, n=3, cutoff=0.3))
    place = Place(register.file, QUOTES.name)
    raise WorkbookProblemsError([say.NO_SUCH_QUOTE.at(place, found=asked, nearest=near or "none is there yet")])


def file_stem(number: str, revision: str, variation: int = 0) -> str:
    """Return how the files of a quote are named, whatever stands in its number.

    Examples
    --------
    >>> file_stem("2026/117 ", "B", 2)
    '2026-117_B_V2'
    """
    stem = f"{number.strip()}_{revision.strip()}" + (f"_V{variation}" if variation else "")
    return plain_name(stem)


def plain_name(text: str) -> str:
    """Return a text as a part of a file's name, which a cell of the register can hold as it is."""
    return re.sub(r'[\\/:*?"<>|\s]+', "-", plain_text(text).strip())


def relative_name(file: Path, folder: Path) -> str:
    """Return a file as the register names it: seen from its folder where it lies below, else whole."""
    try:
        return file.resolve().relative_to(folder.resolve()).as_posix()
    except ValueError:
        return str(file.resolve())


def kept_file(register: Path, row: QuoteRow) -> Path:
    """Return the estimate that was kept of a quote; one that is gone is a problem."""
    kept = register.parent / row.estimate
    if row.estimate and kept.is_file():
        return kept
    place = Place(register.name, QUOTES.name, row.row)
    raise WorkbookProblemsError([say.KEPT_ESTIMATE_GONE.at(place, found=row.estimate, key=row.key)])


def _row_to_decide(register: Register, number: str, state: str, revision: str, variation: int) -> QuoteRow:
    """Return the row that is meant: what is done was won before, whatever was quoted since."""
    won = [row for row in register.revisions(number) if row.state == WON]
    if state == DONE and won and not revision and not variation:
        return won[-1]
    return quote_row(register, number, revision, variation)


def _won_variations(register: Register, row: QuoteRow) -> list[QuoteRow]:
    if row.variation:
        return []
    same = [one for one in register.of_number(row.number) if one.key.revision == row.key.revision]
    return [one for one in same if one.variation and one.state == WON]


def decide(
    register: Path,
    number: str,
    state: str,
    *,
    revision: str = "",
    variation: int = 0,
    why: str = "",
    job_number: str = "",
    work_from: dt.date | None = None,
    on: dt.date | None = None,
) -> tuple[QuoteRow, list[Problem]]:
    """Type into the register what became of a quote.

    Parameters
    ----------
    register : Path
        The register.
    number : str
        The quote.
    state : str
        open, won, done or lost; what is done takes its won variations with it.
    revision : str
        Its revision; the one that stands when left out.
    variation : int
        A variation of it; 0 for the quote itself.
    why, job_number : str
        Typed in where given.
    work_from : datetime.date, optional
        Day the work begins.
    on : datetime.date, optional
        Day of the decision; left blank when not given.

    Returns
    -------
    tuple of (QuoteRow, list of Problem)
        The row as it now stands, and warnings.
    """
    with changing_register(register) as change:
        row = _row_to_decide(change.register, number, state, revision, variation)
        typed = {"state": state, "why": why, "job_number": job_number, "work_from": work_from, "decided_on": on}
        if state == OPEN:
            typed = {"state": OPEN, "decided_on": None}
        elif state == DONE:
            typed |= {"decided_on": row.decided_on or on}
            for extra in _won_variations(change.register, row):
                change.change(extra.key, state=DONE)
        change.change(row.key, **{name: value for name, value in typed.items() if value or state == OPEN})
        problems = [*change.problems, *change.write()]
    now, _ = open_register(register)
    return quote_row(now, row.number, row.revision, row.variation or 0), problems
