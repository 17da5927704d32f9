"""May an output be written there? Looks before anything is computed, so that no long run ends at a taken name."""

from __future__ import annotations

import errno
import os
import stat
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, count, takewhile
from pathlib import Path

from estimator.problems import Place, Problem, ProblemCode, WorkbookProblemsError
from estimator.problems import writing as codes
from estimator.write.plain_text import plain_text

__all__ = [
    "check_lines",
    "check_targets",
    "free_name",
    "make_folder",
    "newest_name",
    "problem_from",
    "real_target",
]

_CODE_BY_ERRNO = {
    "ENOSPC": codes.DISK_FULL,
    "EDQUOT": codes.DISK_FULL,
    "EFBIG": codes.DISK_FULL,
    "EROFS": codes.READ_ONLY_DISK,
    "EACCES": codes.NO_PERMISSION,
    "EPERM": codes.NO_PERMISSION,
    "ENOENT": codes.FOLDER_MISSING,
    "ENOTDIR": codes.FOLDER_MISSING,
    "EISDIR": codes.NOT_A_FILE,
    "ENAMETOOLONG": codes.NAME_NOT_USABLE,
    "EINVAL": codes.NAME_NOT_USABLE,
    "ELOOP": codes.NAME_NOT_USABLE,
    "EILSEQ": codes.NAME_NOT_USABLE,
    "EEXIST": codes.FILE_EXISTS,
}
_MOST_LINES = 1_048_000
"""Lines that one sheet takes: its 1,048,576 rows less room for headings and sums."""
_SHARING_VIOLATIONS = (32, 33)  # Windows: another program holds the file, or a part of it


def check_targets(
    paths: Sequence[Path], *, inputs: Iterable[Path] = (), force: bool = False, anew: Sequence[Path] = ()
) -> None:
    """Raise every reason why these outputs may not be written, all at once.

    Parameters
    ----------
    paths : sequence of Path
        The outputs of one run.
    inputs : iterable of Path
        Files that the run reads; no output may be one of them under any name.
    force : bool
        Whether an existing file may be replaced.
    anew : sequence of Path
        Outputs that may be replaced without that, for they hold nothing but what is written again.

    Raises
    ------
    WorkbookProblemsError
        With one problem for each output that may not be written.
    """
    read = list(inputs)
    problems: list[Problem] = []
    for index, path in enumerate(paths):
        try:
            problem = _refusal(path, inputs=read, earlier=paths[:index], force=force or path in anew)
        except (OSError, ValueError) as error:
            problem = problem_from(error, path)
        if problem is not None:
            problems.append(problem)
    if problems:
        raise WorkbookProblemsError(problems)


def make_folder(folder: Path) -> None:
    """Make a folder and those above it, if they are not there; what the disk refuses is a coded problem."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        raise WorkbookProblemsError([codes.NOT_A_FOLDER.at(Place(file=str(folder)))]) from None
    except (OSError, ValueError) as error:
        raise WorkbookProblemsError([problem_from(error, folder)]) from error


def check_lines(path: Path, lines: int) -> None:
    """Raise when a workbook could not hold a list: its sheet's rows are lines, headings and sums.

    Parameters
    ----------
    path : Path
        The workbook to be written.
    lines : int
        Lines of the list.

    Raises
    ------
    WorkbookProblemsError
        When rows would be lost beyond the last one.
    """
    if lines > _MOST_LINES:
        place = Place(file=plain_text(path))
        raise WorkbookProblemsError([codes.TOO_MANY_LINES.at(place, found=f"{lines:,}", limit=f"{_MOST_LINES:,}")])


def real_target(path: Path) -> Path:
    """Return the file that would be replaced: the one a symbolic link points to, else the path itself."""
    return Path(os.path.realpath(path))


def free_name(path: Path) -> Path:
    """Return the first of a row of names that is not taken: ``parts_estimate_2.xlsx`` and on."""
    return next(name for name in _numbered(path) if not name.exists())


def newest_name(path: Path) -> Path:
    """Return the last of a row of names that is taken: what was typed was carried on to it."""
    *_, last = takewhile(Path.exists, chain([path], _numbered(path)))
    return last


def problem_from(error: OSError | ValueError, path: Path) -> Problem:
    """Return the coded problem that says what the disk answered."""
    place = Place(file=plain_text(path))
    if isinstance(error, ValueError):  # a name with a null character, or one that the disk's encoding cannot hold
        return codes.NAME_NOT_USABLE.at(place)
    if getattr(error, "winerror", None) in _SHARING_VIOLATIONS:
        return codes.FILE_IN_USE.at(place, lock="the system")
    code = _code_for(error)
    reason = error.strerror or str(error)
    return code.at(place, reason=reason)


def _code_for(error: OSError) -> ProblemCode:
    name = errno.errorcode.get(error.errno or 0, "")
    return _CODE_BY_ERRNO.get(name, codes.CANNOT_WRITE)


def _refusal(path: Path, *, inputs: Sequence[Path], earlier: Sequence[Path], force: bool) -> Problem | None:
    place = Place(file=plain_text(path))
    target = real_target(path)
    if any(_same_file(target, real_target(other)) for other in inputs):
        return codes.FILE_IS_INPUT.at(place)
    if any(_same_file(target, real_target(other)) for other in earlier):
        return codes.SAME_OUTPUT_TWICE.at(place)
    if not target.parent.is_dir():
        return codes.FOLDER_MISSING.at(place, found=str(target.parent))
    try:
        mode = target.stat().st_mode
    except FileNotFoundError:
        return _folder_refusal(target, place)
    if not stat.S_ISREG(mode):
        return codes.NOT_A_FILE.at(place)
    if not force:
        return codes.FILE_EXISTS.at(place)
    if not mode & 0o222 or not os.access(target, os.W_OK):
        return codes.FILE_READ_ONLY.at(place)
    lock = _lock_file(target)
    if lock is not None:
        return codes.FILE_IN_USE.at(place, lock=lock.name)
    return _folder_refusal(target, place)


def _folder_refusal(target: Path, place: Place) -> Problem | None:
    return None if os.access(target.parent, os.W_OK | os.X_OK) else codes.NO_PERMISSION.at(place)


def _lock_file(target: Path) -> Path | None:
    """Return the lock that a spreadsheet program keeps beside a file it has open."""
    for name in (f"~${target.name}", f".~lock.{target.name}#"):
        lock = target.with_name(name)
        if lock.exists():
            return lock
    return None


def _same_file(one: Path, other: Path) -> bool:
    """Say whether two names are one file: one place on disk, or one name but for capitals or form of accents."""
    try:
        if one.samefile(other):
            return True
    except FileNotFoundError:
        pass
    return _plain(one) == _plain(other)


def _plain(path: Path) -> str:
    return unicodedata.normalize("NFC", str(path)).casefold()


def _numbered(path: Path) -> Iterator[Path]:
    return (path.with_name(f"{path.stem}_{number}{path.suffix}") for number in count(2))
