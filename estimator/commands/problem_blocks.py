"""Problems as the terminal shows them: what holds for several cells is said once, with the cells behind it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from estimator.problems import Level, Place, Problem

__all__ = ["problem_blocks"]

_SHOWN_OF_ONE_CODE = 20
_PAIR = 2
_ORDER = (Level.ERROR, Level.WARNING, Level.NOTE)


def problem_blocks(problems: Iterable[Problem], *, brief: bool = False) -> list[str]:
    """Return problems as blocks of text, what stops the work first.

    Parameters
    ----------
    problems : iterable of Problem
        Sorted by place.
    brief : bool
        Whether warnings and notes keep to the fact and what to do; an error is always said in full.

    Returns
    -------
    list of str
        One block for each thing that is wrong; warnings or notes of one code and one advice are one block.

    Notes
    -----
    A list of a hundred rows can hold a hundred equal warnings. JSON and the workbooks keep each by itself. Source:
    definition.
    """
    blocks: list[str] = []
    counts: dict[str, int] = {}
    for alike in _alike(problems):
        first = alike[0]
        counts[first.code] = counts.get(first.code, 0) + 1
        if counts[first.code] <= _SHOWN_OF_ONE_CODE:
            blocks.append(_block(alike, brief=brief and first.level is not Level.ERROR))
    left = {code: count - _SHOWN_OF_ONE_CODE for code, count in counts.items() if count > _SHOWN_OF_ONE_CODE}
    return blocks + [f"... and {count} more of {code}." for code, count in left.items()]


def _alike(problems: Iterable[Problem]) -> list[list[Problem]]:
    """Put together what one block can say: an error's same words at several places, else one code and its advice."""
    groups: dict[tuple[str, ...], list[Problem]] = {}
    for problem in problems:
        same: tuple[str, ...] = (problem.do.replace(problem.place.cell or "?", ""),)
        if problem.level is Level.ERROR:
            same = (problem.fact, problem.found, problem.needs)
        groups.setdefault((problem.level, problem.code, *same), []).append(problem)
    return sorted(groups.values(), key=lambda alike: _ORDER.index(alike[0].level))


def _block(alike: Sequence[Problem], *, brief: bool) -> str:
    first = alike[0]
    headline, *rest = first.text().split("\n")
    if brief:
        rest = [line for line in rest if line.startswith("  do:")] or [
            line for line in rest if line.startswith("  why:")
        ]
    return "\n".join([headline, *rest, *_also(first, alike[1:])])


def _also(first: Problem, others: Sequence[Problem]) -> list[str]:
    same = [other for other in others if other.fact == first.fact]
    lines = [f"  also at {_places(first, same)}"] if same else []
    shown = [other for other in others if other.fact != first.fact]
    lines += [f"  also at {other.place}: {other.fact}" for other in shown[:_SHOWN_OF_ONE_CODE]]
    left = len(shown) - _SHOWN_OF_ONE_CODE
    return lines + [f"  ... and {left} more of {first.code}."] * (left > 0)


def _places(first: Problem, others: Sequence[Problem]) -> str:
    """Name places; the sheet is named again only where it changes, and rows in a row by their ends."""
    said, sheet = [], first.place.sheet
    for run in _runs(others):
        start, end = run[0].place, run[-1].place
        name = start.cell if start.sheet == sheet and start.cell else str(start)
        sheet = start.sheet
        if len(run) > 1:
            name += f"{', ' if len(run) == _PAIR else ' to '}{end.cell}"
        said.append(name if run[0].found == first.found else f"{name} ({run[0].found})")
    left = len(said) - _SHOWN_OF_ONE_CODE
    return ", ".join(said[:_SHOWN_OF_ONE_CODE]) + (f" and {left} more" if left > 0 else "")


def _runs(problems: Sequence[Problem]) -> list[list[Problem]]:
    """Put together what was found the same in rows that follow each other in one column."""
    runs: list[list[Problem]] = []
    for problem in problems:
        before = runs[-1][-1] if runs else None
        if before and problem.found == before.found and _is_next(problem.place, before.place):
            runs[-1].append(problem)
        else:
            runs.append([problem])
    return runs


def _is_next(place: Place, before: Place) -> bool:
    return place.row > 0 and place == replace(before, row=before.row + 1)
