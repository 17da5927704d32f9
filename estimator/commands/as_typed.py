"""Run another command as its user would type it, and keep what it says: for commands that are made of commands."""

from __future__ import annotations

import contextlib
import gc
import io
import os
import shlex
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import typer

from estimator.commands.group import TYPED

__all__ = ["Said", "command_line", "run_as_typed", "words_as_typed"]


@dataclass(frozen=True, slots=True)
class Said:
    """What a command printed, and how it ended."""

    code: int
    out: str
    problems: str
    """What it printed on standard error."""


def run_as_typed(context: typer.Context, arguments: Sequence[str]) -> Said:
    """Run a command of the same command line.

    Parameters
    ----------
    context : typer.Context
        Of the command that runs it.
    arguments : sequence of str
        Name of the command and what follows it.

    Returns
    -------
    Said

    Notes
    -----
    Source: definition.
    """
    out, err, typed = io.StringIO(), io.StringIO(), TYPED.get()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = context.find_root().command.main(list(arguments), prog_name="kerfledger", standalone_mode=False)
    gc.collect()  # which rests while a command runs
    TYPED.set(typed)
    return Said(int(code or 0), out.getvalue(), err.getvalue())


def command_line(arguments: Sequence[str]) -> str:
    """Return a command as its user types it, names with blanks in quotes, the program as it was called."""
    return words_as_typed([_program(), *arguments])


def words_as_typed(words: Sequence[str]) -> str:
    """Return a line for the terminal of this system, words with blanks in quotes."""
    return subprocess.list2cmdline(words) if sys.platform == "win32" else shlex.join(words)


def _program() -> str:
    """Return the program's name, with its folder where it was called by one, as before its environment is active."""
    called = Path(sys.argv[0])
    by_folder = called.stem == "kerfledger" and called.parent.name and not called.is_absolute()
    return f"{called.parent}{os.sep}{called.stem}" if by_folder else "kerfledger"
