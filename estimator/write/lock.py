"""One run at a time: a lock that the system frees when its holder ends, however it ends."""

from __future__ import annotations

import contextlib
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import IO

__all__ = ["LockBusyError", "locked"]

_PAUSE_S = 0.05


class LockBusyError(Exception):
    """Another run holds the lock and has not let go in time."""


@contextlib.contextmanager
def locked(path: Path, *, patience_s: float = 20.0) -> Iterator[None]:
    """Hold the lock that a file stands for; the file itself is empty and stays.

    Parameters
    ----------
    path : Path
        The lock's file, made when it is not there. It is never deleted: a run that waits on a deleted file would hold
        a lock that nobody else sees.
    patience_s : float
        How long to wait for another run [s].

    Raises
    ------
    LockBusyError
        When the other run has not let go in time.
    """
    with path.open("a+b") as file:
        _wait_for(lambda: _taken(file), patience_s)
        try:
            yield
        finally:
            _free(file)


def _wait_for(taken: Callable[[], bool], patience_s: float) -> None:
    end = time.monotonic() + patience_s
    while not taken():
        if time.monotonic() >= end:
            raise LockBusyError
        time.sleep(_PAUSE_S)


def _taken(file: IO[bytes]) -> bool:
    """Take the lock if it is free."""
    try:
        if sys.platform == "win32":
            import msvcrt

            file.seek(0)
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def _free(file: IO[bytes]) -> None:
    if sys.platform == "win32":
        import msvcrt

        file.seek(0)
        with contextlib.suppress(OSError):
            msvcrt.locking(file.fileno(), msvcrt.LK_UNLCK, 1)
    # Elsewhere closing the file frees it.
