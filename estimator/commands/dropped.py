"""``dropped``: what the launcher of a shop folder calls with the lists that were dropped on it."""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.as_typed import run_as_typed
from estimator.commands.boundary import Exit, at_the_boundary, say, say_wrote, today

__all__ = ["dropped"]

_LISTS = (".xlsx", ".xlsm", ".xls", ".xlsb", ".ods", ".csv", ".tsv")
_MADE = ("_estimate", "_not_priced")


@at_the_boundary
def dropped(
    context: typer.Context,
    lists: Annotated[
        list[Path] | None,
        typer.Argument(metavar="CUT_LIST...", help="Lists that were dropped; without any, those in to_price."),
    ] = None,
    folder: Annotated[
        Path, typer.Option("--folder", metavar="FOLDER", help="The shop folder whose shop book prices them.")
    ] = Path(),
    date: Annotated[
        str, typer.Option("--date", metavar="YYYY-MM-DD", help="Date of lists that give none; today if left out.")
    ] = "",
    no_open: Annotated[bool, typer.Option("--no-open", help="Write the results and open none.")] = False,
    quiet: opt.Quiet = False,
) -> None:
    """Price dropped lists and open each result; launchers call it.

    A list that cannot be priced gets a page beside it that says why. A result of an earlier day is kept: the new one
    takes the next free name. Where nothing may be written beside a list, results go to to_price.

    Example: kerfledger dropped parts.xlsx --folder my_shop
    """
    from estimator.write.launcher import LINE_VARIABLE, dropped_on_windows
    from estimator.write.shop_folder import LISTS_FOLDER

    named = [Path(name) for name in dropped_on_windows(os.environ.get(LINE_VARIABLE, ""))] or lists
    wanted = list(named or _waiting(folder / LISTS_FOLDER))
    if not wanted:
        say(f"No list waits in {folder / LISTS_FOLDER}: put one there, or drop one on the launcher.", quiet=quiet)
        return
    failed = False
    for cut_list in wanted:
        beside = cut_list if _may_write(cut_list.parent) else folder / LISTS_FOLDER / cut_list.name
        result, priced = _price(context, cut_list, beside, folder, date)
        failed = failed or not priced
        say_wrote(result, "the priced estimate" if priced else "why it could not be priced", quiet=quiet)
        if not no_open:
            _open(result)
    if failed:
        raise typer.Exit(Exit.PROBLEMS)


def _price(context: typer.Context, cut_list: Path, beside: Path, folder: Path, date: str) -> tuple[Path, bool]:
    """Price one list; return the workbook, or the page that says why there is none, and which of the two it is."""
    from estimator.write.save import save

    target = _free_name(beside, "_estimate", ".xlsx")
    typed = ["estimate", str(cut_list), "--shop", str(folder / "shop_book.xlsx"), "--out", str(target)]
    said = run_as_typed(context, [*typed, "--date", date or today().isoformat()])
    if not said.code and target.is_file():
        return target, True
    page = _free_name(beside, "_not_priced", ".txt")
    why = f"{cut_list.name} was not priced. Correct these, save, and drop it again.\n\n{said.problems}"
    save(page, why.replace("\n", os.linesep).encode("utf-8"))
    return page, False


def _waiting(folder: Path) -> Iterator[Path]:
    """Give the lists of a folder that have no result newer than themselves."""
    for path in sorted(folder.glob("*")):
        ours = path.name.startswith((".", "~$")) or any(word in path.stem for word in _MADE)
        if ours or path.suffix.lower() not in _LISTS:
            continue
        results = folder.glob(f"{_glob_safe(path.stem)}_estimate*.xlsx")
        if all(result.stat().st_mtime < path.stat().st_mtime for result in results):
            yield path


def _glob_safe(stem: str) -> str:
    import glob

    return glob.escape(stem)


def _may_write(folder: Path) -> bool:
    """Try it: permissions, read-only disks and shares each say no in their own way."""
    import tempfile

    try:
        with tempfile.TemporaryFile(dir=folder):
            return True
    except OSError:
        return False


def _free_name(beside: Path, ending: str, suffix: str) -> Path:
    path, number = beside.with_name(f"{beside.stem}{ending}{suffix}"), 1
    while path.exists():
        number += 1
        path = beside.with_name(f"{beside.stem}{ending}_{number}{suffix}")
    return path


def _open(path: Path) -> None:
    """Open a file with the program that the system has for it; a system that has none is no fault of the price."""
    with contextlib.suppress(OSError):
        if sys.platform == "win32":
            os.startfile(path)
        else:
            subprocess.run(_opener(path), check=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def _opener(path: Path) -> Sequence[str]:
    return ("open" if sys.platform == "darwin" else "xdg-open", str(path.resolve()))
