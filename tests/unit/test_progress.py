"""A long run says what it is doing, where someone is watching, and nowhere else."""

from __future__ import annotations

import io
import sys

import pytest

from estimator.commands.progress import LONG_RUN_LINES, progress


class Terminal(io.StringIO):
    """Standard error with someone before it."""

    def isatty(self) -> bool:
        return True


def shown(monkeypatch: pytest.MonkeyPatch, stream: io.StringIO, lines: int, **options: bool) -> str:
    monkeypatch.setattr(sys, "stderr", stream)
    progress("writing the workbook", lines, **options)
    progress("", lines, **options)
    return stream.getvalue()


def test_a_long_run_shows_one_line_and_clears_it(monkeypatch: pytest.MonkeyPatch) -> None:
    text = shown(monkeypatch, Terminal(), LONG_RUN_LINES + 1)
    assert text == "\r\x1b[K20,001 lines: writing the workbook ...\r\x1b[K"


def test_a_short_run_a_quiet_run_and_a_pipe_show_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    assert shown(monkeypatch, Terminal(), LONG_RUN_LINES) == ""
    assert shown(monkeypatch, Terminal(), LONG_RUN_LINES + 1, quiet=True) == ""
    assert shown(monkeypatch, io.StringIO(), LONG_RUN_LINES + 1) == ""
