"""What reaches the terminal: harmless characters, 80 columns at most, colour only beside a word that says the same."""

from __future__ import annotations

import os
import re
import sys
import textwrap
from pathlib import Path

import typer

from estimator.write.plain_text import whole_characters

__all__ = ["WIDTH", "fold", "is_harmless", "print_line", "wrote_line"]

WIDTH = 80
"""Columns of the narrowest terminal in use."""

_COLOURS = {"error": "red", "warning": "yellow", "note": "cyan"}
_STEERING = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]")
"""Characters that move the cursor, speak to the terminal or turn the direction of writing; a line's end is none."""
_DEEPEST_HANG = 24
_LAST_COLUMN = re.compile(r".* {2,}(?=\S)")
"""All before the last of a line's columns, which two blanks or more set apart."""
_NEVER_FOLDED = ("Wrote ", "$ ")
"""Lines that hold a file's name or a command to copy."""


def fold(text: str) -> str:
    """Return text with its long lines broken at blanks, further lines under the first word of their own.

    Parameters
    ----------
    text : str
        Lines of any length.

    Returns
    -------
    str
        Lines of 80 columns at most, but for a word that is longer.

    Notes
    -----
    A line of columns, two blanks or more between them as in ``found:  12``, hangs under the last that begins at its
    left. Source: definition.

    Examples
    --------
    >>> print(fold("- " + "word " * 20))
    - word word word word word word word word word word word word word word word
      word word word word word
    """
    return "\n".join(_folded(line) for line in text.split("\n"))


def print_line(text: str, *, err: bool = False) -> None:
    """Print text; a first word that names a level is coloured where the terminal shows colour.

    Problems that go into a file or a pipe keep one line a field, so that they can be searched.
    """
    shown = _printable(text if err and not sys.stderr.isatty() else fold(text))
    typer.echo(_coloured(shown) if _colour_wanted() else shown, err=err)


def is_harmless(text: str) -> bool:
    """Say whether standard output can show a text as it is, and no character of it would steer a terminal."""
    try:
        text.encode(sys.stdout.encoding or "utf-8")
    except UnicodeEncodeError:
        return False
    return _STEERING.search(text) is None


def wrote_line(path: Path, what: str) -> str:
    """Say that a file was written, its name never broken over two lines, and short where it lies below this folder."""
    here = Path.cwd()
    shown = path.relative_to(here) if path.is_relative_to(here) else path
    line = f"Wrote {shown}: {what}."
    return line if len(line) <= WIDTH else f"Wrote {shown}\n  {what}."


def _folded(line: str) -> str:
    if len(line) <= WIDTH or line.startswith(_NEVER_FOLDED):
        return line
    return textwrap.fill(
        line,
        WIDTH,
        subsequent_indent=" " * _hang(line),
        break_long_words=False,
        break_on_hyphens=False,
        drop_whitespace=True,
        replace_whitespace=False,
    )


def _hang(line: str) -> int:
    indent = len(line) - len(line.lstrip())
    body = line[indent:]
    if body.startswith("- "):
        return indent + 2
    columns = _LAST_COLUMN.match(line[:_DEEPEST_HANG])
    if columns and columns.end() > indent:
        return columns.end()
    label, colon, after = body.partition(":")
    under = indent + len(label) + 1 + len(after) - len(after.lstrip())
    return under if colon and indent and under <= _DEEPEST_HANG and " " not in label else indent


def _colour_wanted() -> bool:
    return not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def _coloured(text: str) -> str:
    first, blank, rest = text.partition(" ")
    colour = _COLOURS.get(first)
    return typer.style(first, fg=colour, bold=True) + blank + rest if colour else text


def _printable(text: str) -> str:
    clean = "".join(c if c.isprintable() or c == "\n" else "�" for c in whole_characters(text))
    encoding = sys.stdout.encoding or "utf-8"
    return clean.encode(encoding, "replace").decode(encoding)
