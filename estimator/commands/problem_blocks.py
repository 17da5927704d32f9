"""Problems as the terminal shows them: alike ones once, with their cells, and first what touches money or safety."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from estimator.commands.terminal import fold
from estimator.problems import Concern, Level, Place, Problem, concern_of

__all__ = ["problem_blocks"]

_SHOWN_OF_ONE_CODE = 20
_BRIEF_ALSO = 3
"""Other facts of one code that are said where little can be."""
_BRIEF_LINES, _MOST_LINES = 12, 18
"""Lines of a screen of some 30 that warnings and notes may take, and those that touch safety or are missing money."""
_PAIR = 2
_ORDER = (Level.ERROR, Level.WARNING, Level.NOTE)


def problem_blocks(problems: Iterable[Problem], *, brief: bool = False, rest_in: str = "") -> list[str]:
    """Return problems as blocks of text: what stops the work, what touches safety and money, the rest.

    Parameters
    ----------
    problems : iterable of Problem
        Sorted by place.
    brief : bool
        Whether warnings and notes keep to the fact and what to do, and to a screen; an error is always said in full.
    rest_in : str
        Where all of them are found, for those that the screen does not take.

    Returns
    -------
    list of str
        One block for each thing that is wrong; warnings or notes of one code and one advice are one block.

    Notes
    -----
    A list of a hundred rows can hold a hundred equal warnings. JSON and the workbooks keep each by itself. Source:
    definition.
    """
    if not brief:
        return _blocks_of_each_code(_alike(problems))
    listed = list(problems)
    errors = _blocks_of_each_code(_alike(p for p in listed if p.level is Level.ERROR))
    return errors + _brief_blocks([p for p in listed if p.level is not Level.ERROR], rest_in)


def _brief_blocks(problems: Sequence[Problem], rest_in: str) -> list[str]:
    """Say warnings and notes with what to do where that fits a screen, else their facts, and count the rest.

    What to do is always said of money that is missing.
    """
    blocks = [_block(alike, brief=True) for alike in _alike(problems)]
    if sum(map(_lines, blocks)) <= _BRIEF_LINES:
        return blocks
    groups = _alike(problems, by_code=True)
    said: list[str] = []
    lines = 0
    for place, alike in enumerate(groups):
        block = _facts(alike, with_advice=concern_of(alike[0]) == Concern.MISSING)
        lines += _lines(block)
        if lines > (_BRIEF_LINES if concern_of(alike[0]) > Concern.MISSING else _MOST_LINES):
            return [*said, _rest(groups[place:], rest_in)]
        said.append(block)
    return [*said, _rest([], rest_in)]


def _blocks_of_each_code(groups: Sequence[Sequence[Problem]]) -> list[str]:
    blocks: list[str] = []
    counts: dict[str, int] = {}
    for alike in groups:
        code = alike[0].code
        counts[code] = counts.get(code, 0) + 1
        if counts[code] <= _SHOWN_OF_ONE_CODE:
            blocks.append(_block(alike))
    left = {code: count - _SHOWN_OF_ONE_CODE for code, count in counts.items() if count > _SHOWN_OF_ONE_CODE}
    return blocks + [f"... and {count} more of {code}." for code, count in left.items()]


def _facts(alike: Sequence[Problem], *, with_advice: bool = False) -> str:
    """Say the facts of one code with their cells."""
    first = alike[0]
    same = [other for other in alike[1:] if other.fact == first.fact]
    cells = f", {_places(first, same, found=False)}" if same else ""
    at = f" at {first.place}{cells}" if str(first.place) else ""
    others = [other for other in alike if other.fact != first.fact]
    advice = [f"  do:    {first.do}"] if with_advice and first.do else []
    return "\n".join([f"{first.level} {first.code}{at}: {first.fact}", *advice, *_also(first, others, _BRIEF_ALSO)])


def _lines(block: str) -> int:
    return fold(block).count("\n") + 1


def _rest(groups: Sequence[Sequence[Problem]], rest_in: str) -> str:
    """Count what was not said, and tell where that and what to do about each is."""
    counts = [(sum(len(g) for g in groups if g[0].level is level), level) for level in (Level.WARNING, Level.NOTE)]
    more = " and ".join(f"{count} more {level}{'s' * (count > 1)}" for count, level in counts if count)
    said = f"{more}, and what to do about each" if more else "What to do about each"
    return f"{said}: {rest_in}." if rest_in else f"{said}: --all."


def _alike(problems: Iterable[Problem], *, by_code: bool = False) -> list[list[Problem]]:
    """Put together what one block can say: an error's same words at several places, else one code and its advice."""
    groups: dict[tuple[str, ...], list[Problem]] = {}
    for problem in problems:
        advice = _without_row(problem)
        same: tuple[str, ...] = () if by_code else (advice,)
        if problem.level is Level.ERROR:
            same = (problem.fact, problem.found, problem.needs) if problem.found else (advice, problem.needs)
        groups.setdefault((problem.level, problem.code, *same), []).append(problem)
    return sorted(groups.values(), key=lambda alike: _weight(alike[0]))


def _without_row(problem: Problem) -> str:
    """Return the advice without the cells and the number of the problem's own row."""
    row = problem.place.row
    return re.sub(rf"\b(?:[A-Z]{{1,3}}|row ){row}\b", "", problem.do) if row else problem.do


def _weight(problem: Problem) -> tuple[bool, int, int]:
    return problem.level is not Level.ERROR, concern_of(problem), _ORDER.index(problem.level)


def _block(alike: Sequence[Problem], *, brief: bool = False) -> str:
    first = alike[0]
    headline, *rest = first.text().split("\n")
    if brief:
        rest = [line for line in rest if line.startswith("  do:")] or [
            line for line in rest if line.startswith("  why:")
        ]
    most = _BRIEF_ALSO if brief else _SHOWN_OF_ONE_CODE
    return "\n".join([headline, *rest, *_also(first, alike[1:], most)])


def _also(first: Problem, others: Sequence[Problem], most: int) -> list[str]:
    facts: dict[str, list[Problem]] = {first.fact: []}
    for other in others:
        facts.setdefault(other.fact, []).append(other)
    same = facts.pop(first.fact)
    lines = [f"  also at {_places(first, same)}"] if same else []
    for fact, alike in list(facts.items())[:most]:
        at = f"{alike[0].place}" + (f", {_places(alike[0], alike[1:])}" if alike[1:] else "")
        lines.append(f"  also at {at}: {fact}")
    left = sum(len(alike) for alike in list(facts.values())[most:])
    return lines + [f"  ... and {left} more of {first.code}."] * (left > 0)


def _places(first: Problem, others: Sequence[Problem], *, found: bool = True) -> str:
    """Name places; the sheet is named again only where it changes, and rows in a row by their ends."""
    said, sheet = [], first.place.sheet
    for run in _runs(others):
        start, end = run[0].place, run[-1].place
        name = start.cell if start.sheet == sheet and start.cell else str(start)
        sheet = start.sheet
        if len(run) > 1:
            name += f"{', ' if len(run) == _PAIR else ' to '}{end.cell}"
        said.append(name if not found or run[0].found == first.found else f"{name} ({run[0].found})")
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
