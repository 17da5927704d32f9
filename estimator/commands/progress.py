"""One line on standard error that says what a long run is doing, only where someone is watching."""

from __future__ import annotations

import sys

__all__ = ["LONG_RUN_LINES", "progress"]

LONG_RUN_LINES = 20_000
"""Lines of a list from which a run takes long enough to be watched."""
_CLEAR_LINE = "\r\x1b[K"


def progress(doing: str, lines: int, *, quiet: bool = False) -> None:
    """Show what a long run is doing, in the place of what was shown before; an empty text clears the line.

    Parameters
    ----------
    doing : str
        What is being done, as ``writing the workbook``.
    lines : int
        Lines of the list; short lists show nothing.
    quiet : bool
        Whether only problems are wanted.

    Notes
    -----
    Nothing is shown where standard error is a file or a pipe. Source: definition.
    """
    if quiet or lines <= LONG_RUN_LINES or not sys.stderr.isatty():
        return
    sys.stderr.write(f"{_CLEAR_LINE}{lines:,} lines: {doing} ..." if doing else _CLEAR_LINE)
    sys.stderr.flush()
