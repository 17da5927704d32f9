"""How a run ends that wrote nothing: its errors in full, the rest by number, and the command to type next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from estimator.commands.as_typed import command_line
from estimator.commands.group import TYPED
from estimator.problems import Level, Problem, WorkbookProblemsError
from estimator.problems import lines as of_lines
from estimator.problems import list_words as of_words
from estimator.problems.table import COLUMN_ASKS_FOR_WORK, COLUMN_MAY_MATTER, COLUMNS_NOT_READ
from estimator.problems.writing import FILE_EXISTS, TYPED_IN_ESTIMATE
from estimator.write.target import newest_name

__all__ = ["after_refusal", "shown_of_refusal"]

_ASK_FOR_A_COLUMN = frozenset(
    code.code
    for code in (
        *(of_lines.NO_LENGTH, of_lines.NO_THICKNESS, of_lines.NO_MINUTES, of_lines.NO_HEATING_TIP),
        *(of_lines.UNKNOWN_OTHER_WORK, of_words.ROW_MAY_BE_WORK, of_words.SHAPE_HAS_NO_MODEL),
    )
)
"""Errors that a column with an unknown heading may answer."""
_UNREAD = frozenset(code.code for code in (COLUMNS_NOT_READ, COLUMN_MAY_MATTER, COLUMN_ASKS_FOR_WORK))

_ROW_OF_WORK, _OPEN_WORK = of_words.ROW_MAY_BE_WORK.code, of_words.WORK_NOT_PRICED.code
"""A row of work is mended in the column that work asked for in other rows takes too: both are said at once."""


def shown_of_refusal(problems: Sequence[Problem], options: Mapping[str, Any]) -> tuple[list[Problem], str]:
    """Return the problems that a refused run prints, and a line on those that it does not.

    Parameters
    ----------
    problems : sequence of Problem
        All that were found.
    options : mapping
        What the command was called with, by name.

    Returns
    -------
    tuple of list of Problem, str
        The errors, and of their sheets what one mend settles with them: columns that are not read where an error asks
        for what may stand there, and work that no cell prices where a row of work is asked about. All of them where
        ``--all`` was typed or there is no error, and no line then.

    Notes
    -----
    What stopped the run is what has to be read; a priced run tells the rest. Source: definition.
    """
    errors = [p for p in problems if p.level is Level.ERROR]
    if options.get("show_all") or not errors or len(errors) == len(problems):
        return list(problems), ""
    asked = {p.place.sheet for p in errors if p.code in _ASK_FOR_A_COLUMN}
    answering = _UNREAD | ({_OPEN_WORK} if any(p.code == _ROW_OF_WORK for p in errors) else set())
    told = [p for p in problems if p.level is Level.ERROR or (p.code in answering and p.place.sheet in asked)]
    left = [p for p in problems if p not in told]
    if not left:
        return told, ""
    counts = [(sum(p.level is level for p in left), str(level)) for level in (Level.WARNING, Level.NOTE)]
    said = " and ".join(f"{count} {what}{'s' * (count > 1)}" for count, what in counts if count)
    one = len(left) == 1
    come = "it comes" if one else "they come"
    mended = "the error is" if len(errors) == 1 else "the errors are"
    return told, f"{said} too: {come} when {mended} mended{', or with --all' if 'show_all' in options else ''}."


def after_refusal(error: WorkbookProblemsError, options: Mapping[str, Any]) -> str:
    """Return what to do after a run that wrote nothing, with each command as it is typed.

    Parameters
    ----------
    error : WorkbookProblemsError
        What stopped it.
    options : mapping
        What the command was called with, by name.

    Returns
    -------
    str
    """
    typed = TYPED.get()
    errors = [p for p in error.problems if p.level is Level.ERROR]
    codes = {p.code for p in errors}
    if typed and codes == {TYPED_IN_ESTIMATE.code}:
        return _typed_in(typed, Path(errors[0].place.file), options)
    if typed and "force" in options and codes == {FILE_EXISTS.code}:
        return f"Nothing was written. To replace what is there, type\n$ {command_line([*typed, '--force'])}"
    what, them = ("error", "it") if len(errors) == 1 else ("errors", "them")
    said = f"Nothing was written: {len(errors)} {what} above. Correct {them} and run the same command again."
    if not (typed and error.good_rows and options.get("partial") is False):
        return said
    rows = "the row that can be read" if error.good_rows == 1 else f"the {error.good_rows} rows that can be read"
    return (
        f"{said}\nNext: correct {them}, or price {rows} now; what is left out is named, and each total says INCOMPLETE"
        f"\n$ {command_line([*typed, '--partial'])}"
    )


def _typed_in(typed: Sequence[str], estimate: Path, options: Mapping[str, Any]) -> str:
    """Give the command that keeps what was typed into an estimate, and the one that drops it."""
    kept = list(typed)
    if options.get("out") is None:
        estimate = newest_name(estimate)
    elif "--out" in kept:  # else it would be read and written under one name
        del kept[(at := kept.index("--out")) : at + 2]
    return (
        "Nothing was written. To keep what you typed, and price in a new estimate beside it, type\n"
        f"$ {command_line([*kept, '--from', str(estimate)])}\n"
        f"To replace it, and lose what you typed\n$ {command_line([*typed, '--force'])}"
    )
