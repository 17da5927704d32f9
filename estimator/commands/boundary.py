"""The one boundary between the engine and the shell: problems to standard error, an exit code, never a traceback."""

from __future__ import annotations

import datetime as dt
import functools
import json
import sys
from collections import Counter
from collections.abc import Callable, Iterable
from enum import IntEnum
from typing import Any, ParamSpec

import typer

from estimator.problems import Level, Place, Problem, WorkbookProblemsError
from estimator.problems.asked import NOT_A_DATE, UNKNOWN_FUEL

__all__ = ["Exit", "at_the_boundary", "parse_date", "parse_fuel", "print_json", "print_problems", "say"]

P = ParamSpec("P")
_SHOWN_OF_ONE_CODE = 20


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
                print_problems(error.problems)
                errors = sum(p.level is Level.ERROR for p in error.problems)
                typer.echo(f"Nothing was written: {errors} error{'s' if errors != 1 else ''} above.", err=True)
            raise typer.Exit(Exit.PROBLEMS) from None

    return run


def print_problems(problems: Iterable[Problem]) -> None:
    """Print problems to standard error, each as a block; past a handful of one code the rest are counted."""
    shown: Counter[str] = Counter()
    for problem in problems:
        shown[problem.code] += 1
        if shown[problem.code] <= _SHOWN_OF_ONE_CODE:
            typer.echo(_printable(problem.text()), err=True)
    for code, count in shown.items():
        if count > _SHOWN_OF_ONE_CODE:
            typer.echo(f"... and {count - _SHOWN_OF_ONE_CODE} more of {code}.", err=True)


def print_json(data: Any) -> None:
    """Print data as JSON to standard output."""
    sys.stdout.write(json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False) + "\n")


def say(text: str, *, quiet: bool = False) -> None:
    """Print text for people, unless it is quiet; characters the terminal cannot show are replaced."""
    if not quiet:
        typer.echo(_printable(text))


def parse_date(text: str) -> dt.date | None:
    """Return a date typed as YYYY-MM-DD; None for an empty text."""
    if not text:
        return None
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise WorkbookProblemsError([NOT_A_DATE.at(Place(), found=text)]) from None


def parse_fuel(text: str) -> str:
    """Return a fuel the engine knows, or an empty text; a misspelt one is answered with the nearest."""
    from estimator.words import Fuel

    known = [fuel.value for fuel in Fuel]
    said = text.strip().lower().replace("_", " ").replace("-", " ")
    if not said or said in known:
        return said
    from difflib import get_close_matches

    nearest = next(iter(get_close_matches(said, known, n=1, cutoff=0.4)), "not clear")
    raise WorkbookProblemsError([UNKNOWN_FUEL.at(Place(), found=text, known=", ".join(known), nearest=nearest)])


def _printable(text: str) -> str:
    clean = "".join(c if c.isprintable() or c == "\n" else "�" for c in text)
    encoding = sys.stdout.encoding or "utf-8"
    return clean.encode(encoding, "replace").decode(encoding)
