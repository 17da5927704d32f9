"""The one boundary between the engine and the shell: problems to standard error, an exit code, never a traceback."""

from __future__ import annotations

import datetime as dt
import functools
import json
import os
import sys
from collections.abc import Callable, Iterable, Sequence
from enum import IntEnum
from pathlib import Path
from typing import Any, ParamSpec

import typer

from estimator import __version__
from estimator.commands.problem_blocks import problem_blocks
from estimator.commands.refused import after_refusal, shown_of_refusal
from estimator.commands.terminal import is_harmless, print_line, wrote_line
from estimator.problems import Place, Problem, ProblemCode, WorkbookProblemsError
from estimator.problems.asked import NOT_A_DATE, UNKNOWN_FUEL
from estimator.read.date_text import AmbiguousDateError, read_date_text
from estimator.write.plain_text import whole_characters

__all__ = [
    "Exit",
    "at_the_boundary",
    "parse_date",
    "parse_fuel",
    "parse_word",
    "print_json",
    "print_problems",
    "say",
    "say_wrote",
    "tell",
    "today",
]

P = ParamSpec("P")


class Exit(IntEnum):
    """Exit codes."""

    DONE = 0
    OUR_FAULT = 1
    USAGE = 2
    PROBLEMS = 3
    DOES_NOT_RECONCILE = 4


def at_the_boundary(command: Callable[P, Any]) -> Callable[P, Any]:
    """Turn problems into text and exit code 3; with ``--json`` the problems are JSON on standard output."""

    @functools.wraps(command)
    def run(*args: P.args, **kwargs: P.kwargs) -> Any:
        try:
            return command(*args, **kwargs)
        except WorkbookProblemsError as error:
            if kwargs.get("json_out"):
                print_json({"schema": "kerfledger/1", "problems": [p.as_json() for p in error.problems]})
            else:
                shown, unsaid = shown_of_refusal(error.problems, kwargs)
                print_problems(shown)
                print_line("\n".join(line for line in (unsaid, after_refusal(error, kwargs)) if line), err=True)
            raise typer.Exit(Exit.PROBLEMS) from None
        except Exception as fault:
            # A reader that has closed, as head does, is no fault.
            known = isinstance(fault, typer.Exit | typer.Abort | typer.BadParameter | BrokenPipeError)
            if known or os.environ.get("KERFLEDGER_TRACE"):
                raise
            print_line(_our_fault(fault), err=True)
            raise typer.Exit(Exit.OUR_FAULT) from None

    return run


def print_problems(problems: Iterable[Problem], *, brief: bool = False, rest_in: str = "") -> None:
    """Print problems to standard error, equal ones together; brief ones keep to a screen and say where the rest is."""
    for block in problem_blocks(problems, brief=brief, rest_in=rest_in):
        print_line(block, err=True)


def print_json(data: Any) -> None:
    """Print data as JSON to standard output; in ASCII where the terminal could not show it, or would obey it."""
    text = whole_characters(json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False))
    if not is_harmless(text):
        text = json.dumps(json.loads(text), ensure_ascii=True, indent=1, allow_nan=False)
    sys.stdout.write(text + "\n")


def say(text: str, *, quiet: bool = False) -> None:
    """Print text for people, unless it is quiet."""
    if not quiet:
        print_line(text)


def say_wrote(path: Path, what: str, *, quiet: bool = False) -> None:
    """Say which file was written and what it is, unless it is quiet."""
    say(wrote_line(path, what), quiet=quiet)


def tell(
    answer: str,
    problems: Iterable[Problem] = (),
    written: Iterable[tuple[Path, str]] = (),
    *,
    do_next: str = "",
    brief: bool = False,
    rest_in: str = "",
    quiet: bool = False,
) -> None:
    """Tell what a command has done: its answer, what it could not do, what it wrote, what to do next."""
    if answer:
        say(answer.rstrip("\n"), quiet=quiet)
    print_problems(problems, brief=brief, rest_in=rest_in)
    for path, what in written:
        say_wrote(path, what, quiet=quiet)
    if do_next:
        say(f"Next: {do_next}", quiet=quiet)


def parse_date(text: str) -> dt.date | None:
    """Return a date in any form of a list's title; None for an empty text. One of two readings is asked about."""
    if not text:
        return None
    try:
        return read_date_text(text)
    except AmbiguousDateError as error:
        said = f"is {' or '.join(error.readings)}"
    except ValueError:
        said = "is not a date"
    raise WorkbookProblemsError([NOT_A_DATE.at(Place(), found=text, said=said)])


def today() -> dt.date:
    """Return the day on which a command runs."""
    return dt.date.today()


def parse_fuel(text: str) -> str:
    """Return a fuel the engine knows, or an empty text; a misspelt one is answered with the nearest."""
    from estimator.words import Fuel

    return parse_word(text, [fuel.value for fuel in Fuel], UNKNOWN_FUEL) if text.strip() else ""


def parse_word(text: str, known: Sequence[str], unknown: ProblemCode) -> str:
    """Return a word of a closed set, capitals and hyphens aside; a misspelt one is answered with the nearest."""
    from difflib import get_close_matches

    said = text.strip().lower().replace("_", " ").replace("-", " ")
    if said in known:
        return said
    nearest = next(iter(get_close_matches(said, known, n=1, cutoff=0.4)), "not clear")
    raise WorkbookProblemsError([unknown.at(Place(), found=text, known=", ".join(known), nearest=nearest)])


def _our_fault(fault: Exception) -> str:
    return (
        f"error: kerfledger {__version__} failed, and the fault is ours, not your file's.\n"
        f"  found: {type(fault).__name__}: {fault}\n"
        "  do:    report it with the file; set KERFLEDGER_TRACE=1 to see where it happened\n"
        "Files that were there before are as they were."
    )
