"""Words of a list that ask for care: parts for lifting or under pressure, cast iron, unknown, hard or coated steel.

A flag is a caution, never a proof: a part that no word gives away is not flagged. Also the tolerance words of a cut.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

import numpy as np

from estimator.check.cut_list import CutList
from estimator.problems import cautions as said
from estimator.problems.code import Place, Problem, ProblemCode
from estimator.reference import table
from estimator.words import Steel

__all__ = [
    "HAND_TOLERANCE",
    "Flag",
    "flag_lines",
    "flag_problems",
    "tolerance_in",
]

HAND_TOLERANCE = "± 3 mm, edges as flame cut, slag removed"
"""Tolerance of hand work: common practice, no source."""

_CODES: dict[str, ProblemCode] = {
    "lifting": said.LIFTING,
    "pressure": said.PRESSURE,
    "cast iron": said.CAST_IRON,
    "unknown": said.UNKNOWN_STEEL,
    "hardens": said.HARDENS,
    "coated": said.COATED,
    "closed": said.CLOSED,
    "theirs": said.THEIRS,
}
_ROUGH_ONLY = frozenset({"lifting", "pressure"})
# A grade says what the steel is; the other columns say what the part is.
_GRADE_ONLY = frozenset({"unknown"})


@dataclass(frozen=True, slots=True)
class Flag:
    """One caution on one line."""

    line: int
    kind: str
    word: str
    """The words of the list that gave it away."""
    column: str
    """House name of the column they stand in."""

    @property
    def rough_only(self) -> bool:
        """Whether the line is priced as a rough blank only."""
        return self.kind in _ROUGH_ONLY


def flag_lines(cuts: CutList) -> list[Flag]:
    """Find the words that ask for care in marks, descriptions, notes and grades.

    Parameters
    ----------
    cuts : CutList
        n checked lines.

    Returns
    -------
    list of Flag
        In list order, each kind once a line.

    Notes
    -----
    Whole words are matched, capitals aside; ``caution_words.csv`` holds them. Source: common practice, no source.

    Examples
    --------
    >>> cuts = CutList(mark=["P1", "P2"], quantity=np.ones(2), thickness_mm=np.full(2, 40.0),
    ...                description=["Lifting lug", "Plug plate"])
    >>> [(flag.line, flag.kind, flag.word) for flag in flag_lines(cuts)]
    [(0, 'lifting', 'Lifting')]
    """
    found: dict[tuple[int, str], Flag] = {}
    for column in ("mark", "description", "note", "grade"):
        texts: list[str] = getattr(cuts, column)
        for kind, pattern in _patterns_in(texts, column):
            for line, text in enumerate(texts):
                if hit := pattern.search(text):
                    found.setdefault((line, kind), Flag(line, kind, hit.group(), column))
    ungraded = [line for line in np.flatnonzero(cuts.steel == Steel.THEIRS).tolist() if not cuts.grade[line].strip()]
    if ungraded:
        # One note for a list: its steel is one delivery.
        more = f", and {len(ungraded) - 1} more lines" if len(ungraded) > 1 else ""
        found[ungraded[0], "theirs"] = Flag(ungraded[0], "theirs", Steel.THEIRS.word + more, "steel")
    return sorted(found.values(), key=lambda flag: flag.line)


def flag_problems(cuts: CutList, flags: list[Flag]) -> list[Problem]:
    """Return the flags as warnings and notes at the rows of the list."""
    return [
        _CODES[flag.kind].at(
            Place(cuts.file, cuts.sheet[flag.line], int(cuts.row[flag.line])),
            found=flag.word,
            mark=cuts.mark[flag.line] or cuts.description[flag.line] or f"line {flag.line + 1}",
            word=flag.word,
        )
        for flag in flags
    ]


def tolerance_in(words: str, *, units: str, list_in_inches: bool = False) -> str:
    """Return the tolerance of hand work in the units that the customer reads.

    Parameters
    ----------
    words : str
        The shop book's words; the shop's own stay as they are.
    units : str
        The shop's units, ``mm`` or ``in``.
    list_in_inches : bool
        Whether the customer's list names inches.

    Returns
    -------
    str

    Notes
    -----
    3 mm and 1/8 in (3.2 mm) are what hand work holds in either system: common practice, no source.

    Examples
    --------
    >>> tolerance_in(HAND_TOLERANCE, units="in")
    '± 1/8 in, edges as flame cut, slag removed'
    >>> tolerance_in(HAND_TOLERANCE, units="mm", list_in_inches=True)
    '± 3 mm (1/8 in), edges as flame cut, slag removed'
    """
    if words != HAND_TOLERANCE or (units != "in" and not list_in_inches):
        return words
    return words.replace("3 mm", "1/8 in" if units == "in" else "3 mm (1/8 in)")


def _patterns_in(texts: list[str], column: str) -> list[tuple[str, re.Pattern[str]]]:
    """One pattern for each kind that may stand in a column; a look at the whole column mostly finds none."""
    whole = "\n".join(texts).casefold()
    patterns = []
    for kind, words in _words().items():
        if kind in _GRADE_ONLY and column != "grade":
            continue
        here = [word for word in words if all(part in whole for part in word.removesuffix("*").split())]
        if here:
            patterns.append((kind, re.compile("|".join(map(_pattern, here)), re.IGNORECASE)))
    return patterns


@cache
def _words() -> dict[str, list[str]]:
    rows = table("caution_words")
    words: dict[str, list[str]] = {}
    for kind, word in zip(rows.column("kind"), rows.column("word"), strict=True):
        words.setdefault(str(kind), []).append(str(word).casefold())
    return words


def _pattern(word: str) -> str:
    """A whole word, or the start of one where a star ends it; blanks, dashes and underlines are the same."""
    stem, star = word.removesuffix("*"), word.endswith("*")
    body = re.escape(stem).replace(r"\ ", r"[\s_-]+")
    return rf"(?<![^\W_]){body}" + (r"[^\W_]*" if star else r"(?![^\W_])")
