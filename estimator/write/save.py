"""The one way an output file reaches the disk: whole and new, or not at all.

The bytes go to a temporary file in the target's own folder, are forced to the disk, and then take the target's name
in one step. A crash at any moment leaves the old file or the new one. Temporary files that a crash left are removed
by the next run in that folder.
"""

from __future__ import annotations

import contextlib
import errno
import io
import os
import secrets
import stat
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import IO, BinaryIO, cast

from estimator.problems import Place, Problem, WorkbookProblemsError
from estimator.problems import writing as codes
from estimator.write.plain_text import plain_text
from estimator.write.target import check_targets, problem_from, real_target

__all__ = ["Content", "clean_stale", "holds", "save"]

_PREFIX = ".kerfledger-"
_SUFFIX = ".tmp"
_OLD_ENOUGH_S = 3600.0
"""Where a lock cannot tell whether a run is alive, its temporary file is left alone this long."""

Content = bytes | Callable[[BinaryIO], None]


def save(path: Path, content: Content, *, inputs: Iterable[Path] = (), force: bool = False) -> list[Problem]:
    """Write one output file whole, or leave what was there.

    Parameters
    ----------
    path : Path
        The output. A symbolic link is followed; the link stays.
    content : bytes, or a function that writes to an open binary file
        What the file shall hold. The file can seek, as a zip writer needs.
    inputs : iterable of Path
        Files that the run reads; the output is never one of them.
    force : bool
        Whether an existing file may be replaced.

    Returns
    -------
    list of Problem
        Warnings: empty, or that the disk did not confirm the write.

    Raises
    ------
    WorkbookProblemsError
        When the file may not or could not be written.
    """
    check_targets([path], inputs=inputs, force=force)
    target = real_target(path)
    clean_stale(target.parent)
    try:
        with _temporary(target) as (temporary, file):
            _fill(file, content)
            _take_name(file, temporary, target, force=force)
    except OSError as error:
        raise WorkbookProblemsError([problem_from(error, path)]) from error
    return _confirm(target.parent, path)


def holds(path: Path, content: Content) -> bool:
    """Say whether a file is there and holds a content already, to the last byte."""
    if not path.is_file():
        return False
    if isinstance(content, bytes):
        return path.read_bytes() == content
    whole = io.BytesIO()
    content(whole)
    return path.read_bytes() == whole.getvalue()


def clean_stale(folder: Path) -> None:
    """Remove the temporary files of runs that died in this folder; those of living runs stay."""
    for left in folder.glob(f"{_PREFIX}*{_SUFFIX}"):
        with contextlib.suppress(OSError), left.open("rb") as file:
            if _lock(file) or _seconds_old(left) > _OLD_ENOUGH_S:
                left.unlink()


@contextlib.contextmanager
def _temporary(target: Path) -> Iterator[tuple[Path, IO[bytes]]]:
    """Open a temporary file beside the target, locked while we live; it is gone afterwards, whatever happens."""
    temporary, file = _open_locked(target.parent)
    try:
        yield temporary, file
    finally:
        with contextlib.suppress(OSError):
            file.close()
        with contextlib.suppress(OSError):
            temporary.unlink(missing_ok=True)


def _open_locked(folder: Path) -> tuple[Path, IO[bytes]]:
    while True:
        temporary = folder / f"{_PREFIX}{secrets.token_hex(6)}{_SUFFIX}"
        descriptor = os.open(temporary, os.O_RDWR | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
        file = os.fdopen(descriptor, "w+b")
        _lock(file)
        if _still_named(file, temporary):
            return temporary, file
        file.close()  # another run took it for stale in the moment before it was locked


def _still_named(file: IO[bytes], temporary: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(file.fileno()), temporary.stat())
    except FileNotFoundError:
        return False


def _fill(file: IO[bytes], content: Content) -> None:
    if isinstance(content, bytes):
        file.write(content)
    else:
        content(cast(BinaryIO, file))
    file.flush()
    os.fsync(file.fileno())


def _take_name(file: IO[bytes], temporary: Path, target: Path, *, force: bool) -> None:
    if force:
        with contextlib.suppress(FileNotFoundError):
            temporary.chmod(stat.S_IMODE(target.stat().st_mode))
    if sys.platform == "win32":
        file.close()  # an open file cannot be renamed there
    if force:
        temporary.replace(target)
    else:
        _name_if_free(temporary, target)


def _name_if_free(temporary: Path, target: Path) -> None:
    """Give the file its name unless another run took that name meanwhile."""
    try:
        os.link(temporary, target)
    except FileExistsError:
        raise
    except OSError:  # a disk without hard links
        if target.exists():
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(target)) from None
        temporary.replace(target)


def _confirm(folder: Path, path: Path) -> list[Problem]:
    """Force the folder's new entry to the disk, where folders can be forced."""
    if sys.platform == "win32":
        return []
    try:
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
    except OSError as error:
        if error.errno in (errno.EINVAL, errno.ENOTSUP):
            return []  # a disk whose folders cannot be forced
        return [codes.NOT_CONFIRMED.at(Place(file=plain_text(path)), reason=error.strerror or str(error))]
    return []


def _lock(file: IO[bytes]) -> bool:
    """Take the lock that says a run is alive; False when another has it or the disk keeps no locks."""
    if sys.platform == "win32":
        return False
    import fcntl

    try:
        fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def _seconds_old(path: Path) -> float:
    return time.time() - path.stat().st_mtime
