"""How a run ends that wrote nothing: its errors in full, the rest by number, and the command to type next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from estimator.commands.as_typed import command_line
from estimator.commands.group import TYPED
from estimator.problems import Level, Problem, WorkbookProblemsError
from estimator.problems.writing import FILE_EXISTS

__all__ = ["after_refusal", "shown_of_refusal"]


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
        The errors; all of them where ``--all`` was typed or there is no error, and no line then.

    Notes
    -----
    What stopped the run is what has to be read; a priced run tells the rest. Source: definition.
    """
    errors = [p for p in problems if p.level is Level.ERROR]
    if options.get("show_all") or not errors or len(errors) == len(problems):
        return list(problems), ""
    counts = [(sum(p.level is level for p in problems), str(level)) for level in (Level.WARNING, Level.NOTE)]
    said = " and ".join(f"{count} {what}{'s' * (count > 1)}" for count, what in counts if count)
    one = len(problems) - len(errors) == 1
    come = "it comes" if one else "they come"
    mended = "the error is" if len(errors) == 1 else "the errors are"
    return errors, f"{said} too: {come} when {mended} mended{', or with --all' if 'show_all' in options else ''}."


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
    if typed and "force" in options and {p.code for p in errors} == {FILE_EXISTS.code}:
        return _name_taken(typed, errors, options)
    what, them = ("error", "it") if len(errors) == 1 else ("errors", "them")
    said = f"Nothing was written: {len(errors)} {what} above. Correct {them} and run the same command again."
    if not (typed and error.good_rows and options.get("partial") is False):
        return said
    rows = "the row that can be read" if error.good_rows == 1 else f"the {error.good_rows} rows that can be read"
    return (
        f"{said}\nNext: correct {them}, or price {rows} now; what is left out is named, and each total says INCOMPLETE"
        f"\n$ {command_line([*typed, '--partial'])}"
    )


def _name_taken(typed: Sequence[str], errors: Sequence[Problem], options: Mapping[str, Any]) -> str:
    """Offer the taken name to be replaced; an estimate first to be carried on, with all that was typed into it."""
    replaced = f"To replace what is there, and all that was typed into it, type\n$ {command_line([*typed, '--force'])}"
    cut_list = options.get("cut_list")
    if cut_list is None or options.get("old", "") is not None or options.get("out") is not None:
        return f"Nothing was written. {replaced}"
    old = Path(cut_list).with_name(f"{Path(cut_list).stem}_estimate.xlsx")
    if [Path(p.place.file).name for p in errors] != [old.name]:
        return f"Nothing was written. {replaced}"
    return (
        "Nothing was written. To keep what you typed into the old estimate, and price in a new one beside it, type\n"
        f"$ {command_line([*typed, '--from', str(old)])}\n{replaced}"
    )
