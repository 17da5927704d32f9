"""What a problem is: plain data, said once per code, raised in batches and never as a traceback."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import IntEnum, StrEnum

__all__ = [
    "Concern",
    "Level",
    "Place",
    "Problem",
    "ProblemCode",
    "WorkbookProblemsError",
    "has_error",
    "raise_on_errors",
    "sort_problems",
    "strict",
]


class Level(StrEnum):
    """How far a problem stops the work."""

    ERROR = "error"
    """Nothing that rests on this cell is priced."""
    WARNING = "warning"
    """A value was interpreted or looks doubtful; ``--strict`` turns it into an error."""
    NOTE = "note"
    """Said so that nothing is hidden; asks for nothing."""


class Concern(IntEnum):
    """What a problem touches; where few can be said, the first come first."""

    SAFETY = 0
    MISSING = 1
    """Work or money is missing from the answer."""
    TAKEN = 2
    """The answer rests on something that was taken for granted."""
    CHECK = 3
    """What was read is said, so that it can be checked."""
    FORM = 4
    """A formality: it moves nothing."""


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where a problem stands: a file, and inside it a sheet and a cell where they apply."""

    file: str = ""
    sheet: str = ""
    row: int = 0
    """Row as the spreadsheet numbers it, from 1; 0 when the place is not a row."""
    column: str = ""
    """Column letters; empty when the whole row is meant."""

    @property
    def cell(self) -> str:
        """Cell address such as ``C14``; a row alone reads ``row 14``."""
        if self.column and self.row:
            return f"{self.column}{self.row}"
        return f"row {self.row}" if self.row else self.column

    def __str__(self) -> str:
        if not self.sheet:
            return self.file
        return f"'{self.sheet}'!{self.cell}" if self.cell else f"'{self.sheet}'"


@dataclass(frozen=True, slots=True)
class Problem:
    """One problem, ready to print, to write to a sheet or to give as JSON."""

    code: str
    level: Level
    place: Place
    fact: str
    found: str
    needs: str
    why: str
    do: str

    def text(self) -> str:
        """Return the problem as the terminal prints it (design, section 8)."""
        at = f" at {self.place}" if str(self.place) else ""
        lines = [f"{self.level} {self.code}{at}: {self.fact}"]
        for label, said in (("found", self.found), ("needs", self.needs), ("why", self.why), ("do", self.do)):
            if said:
                lines.append(f"  {label + ':':<7}{said}")
        return "\n".join(lines)

    def as_json(self) -> dict[str, str]:
        """Return the keys that ``--json`` promises."""
        return {
            "code": self.code,
            "level": str(self.level),
            "file": self.place.file,
            "sheet": self.place.sheet,
            "cell": self.place.cell,
            "fact": self.fact,
            "found": self.found,
            "needs": self.needs,
            "why": self.why,
            "do": self.do,
        }


@dataclass(frozen=True, slots=True)
class ProblemCode:
    """The one statement of a problem code; ``fact``, ``needs``, ``why`` and ``do`` may hold ``{fields}``.

    ``{place}`` is always known: the cell as ``'Sheet'!C14``.
    """

    code: str
    level: Level
    fact: str
    needs: str = ""
    why: str = ""
    do: str = ""
    concern: Concern = Concern.CHECK

    def at(self, place: Place, *, found: object = "", **fields: object) -> Problem:
        """Return this code's problem at one place, its fields filled in."""
        known = {"place": str(place), "found": str(found), **{k: str(v) for k, v in fields.items()}}

        def fill(said: str) -> str:
            return said.format(**known)

        shown = repr(found) if isinstance(found, str) and found else str(found)
        return Problem(
            self.code, self.level, place, fill(self.fact), shown, fill(self.needs), fill(self.why), fill(self.do)
        )


class WorkbookProblemsError(Exception):
    """Raised when a task cannot go on; holds every problem gathered so far.

    ``good_rows`` counts the rows that could be priced where only other rows stop the job.
    """

    def __init__(self, problems: Iterable[Problem], *, good_rows: int = 0) -> None:
        self.problems = sort_problems(problems)
        self.good_rows = good_rows
        super().__init__("\n".join(p.text() for p in self.problems))


def sort_problems(problems: Iterable[Problem]) -> list[Problem]:
    """Return problems sorted by file, sheet, row and column, errors first on one cell."""
    order = {Level.ERROR: 0, Level.WARNING: 1, Level.NOTE: 2}
    return sorted(
        problems,
        key=lambda p: (p.place.file, p.place.sheet, p.place.row, len(p.place.column), p.place.column, order[p.level]),
    )


def has_error(problems: Iterable[Problem]) -> bool:
    """Return whether one of the problems is an error."""
    return any(problem.level is Level.ERROR for problem in problems)


def raise_on_errors(problems: Sequence[Problem], *, strictly: bool = False) -> None:
    """Raise every problem when one of them is an error; ``strictly`` makes errors of warnings that interpret."""
    told = strict(problems) if strictly else problems
    if has_error(told):
        raise WorkbookProblemsError(told)


def strict(problems: Iterable[Problem]) -> list[Problem]:
    """Return problems with every warning raised to an error, as ``--strict`` asks."""
    return [replace(p, level=Level.ERROR) if p.level is Level.WARNING else p for p in problems]
