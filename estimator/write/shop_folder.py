"""A new shop's folder: a shop book that leads to its first cells, the blanks, a page to read first, a launcher."""

from __future__ import annotations

import sys
from pathlib import Path

from estimator.problems import Problem
from estimator.sheets.shop_form import SHOP
from estimator.sheets.workbooks import WORKBOOKS
from estimator.write.blanks import blank_workbook
from estimator.write.book import Paper
from estimator.write.launcher import Launcher, launcher_for
from estimator.write.own_cells import OwnUnits
from estimator.write.save import Content, save
from estimator.write.shop_guide import GUIDE_NAME, guide_page
from estimator.write.target import check_targets, make_folder

__all__ = ["LISTS_FOLDER", "drop_here", "write_launcher", "write_shop_folder"]

LISTS_FOLDER = "to_price"
"""Folder beside the shop book whose lists the launcher prices."""

_SHOP_BOOK = "shop_book.xlsx"


def write_shop_folder(
    folder: Path, *, inches: bool = False, force: bool = False
) -> tuple[list[tuple[Path, str]], list[Problem]]:
    """Write a shop folder; in one that is there, what it lacks.

    Parameters
    ----------
    folder : Path
        Made if it is not there.
    inches : bool
        Whether its workbooks ask for inches, feet, pounds, psi and cubic feet, and print on Letter.
    force : bool
        Whether existing files may be replaced, the shop book among them.

    Returns
    -------
    tuple of (list of (Path, str), list of Problem)
        Each file that was written with what it is for, and what the disk warned of.
    """
    launcher = launcher_for(folder.resolve(), sys.platform, sys.executable)
    make_folder(folder)
    contents = [one for one in _contents(folder, launcher, inches=inches) if force or not one[0].exists()]
    scripts = _scripts(folder, launcher)
    if not force and all(path.exists() for path, _ in scripts):
        scripts = []
    check_targets([path for path, *_ in contents], force=force)
    make_folder(folder / LISTS_FOLDER)
    warnings: list[Problem] = []
    for path, _, content in contents:
        warnings += save(path, content, force=force)
    warnings += _save_launcher(folder, launcher) if scripts else []
    return [(path, what) for path, what, _ in contents] + scripts, warnings


def write_launcher(folder: Path) -> tuple[list[tuple[Path, str]], list[Problem]]:
    """Write the launcher alone into a shop folder that is there, over an older one; return as ``write_shop_folder``."""
    launcher = launcher_for(folder.resolve(), sys.platform, sys.executable)
    warnings = _save_launcher(folder, launcher)
    return _scripts(folder, launcher), warnings


def drop_here(folder: Path) -> Path:
    """Return the launcher of a shop folder, to drop a list on."""
    *_, (path, _) = _scripts(folder, launcher_for(folder.resolve(), sys.platform, sys.executable))
    return path


def _contents(folder: Path, launcher: Launcher, *, inches: bool) -> list[tuple[Path, str, Content]]:
    made: list[tuple[Path, str, Content]] = [
        (folder / GUIDE_NAME, "one page to read first", guide_page(launcher).encode("utf-8")),
    ]
    what = {
        _SHOP_BOOK: "your prices and rates; begin at its first sheet",
        "cut_list.xlsx": "a blank cut list, for jobs that come by telephone",
        "past_jobs.xlsx": "your last finished jobs, to see what would have been said of them",
        "price_lists.xlsx": "suppliers' prices, to compare them",
        "work_log.xlsx": "who cut what, and how long it took",
        "bills.xlsx": "the month's gas bills, to check them",
    }
    units, paper = (OwnUnits(length="in"), Paper("Letter")) if inches else (OwnUnits(), Paper())
    own: dict[str, object] = {"units": units.length, "paper": paper.name}
    begun = {SHOP.name: own | ({"offcut_word": "drop"} if inches else {})}
    for stated in sorted(WORKBOOKS, key=lambda stated: stated.file != _SHOP_BOOK):
        content = blank_workbook(stated, units=units, paper=paper, begun=begun)
        made.append((folder / stated.file, what[stated.file], content))
    return made


def _scripts(folder: Path, launcher: Launcher) -> list[tuple[Path, str]]:
    """Return the launcher's files, the one to drop a list on last."""
    *helpers, dropped_on = launcher.files
    said = [(folder / name, "what the next one runs; leave it beside it") for name in helpers]
    return [*said, (folder / dropped_on, "drop a cut list on it, and it is priced")]


def _save_launcher(folder: Path, launcher: Launcher) -> list[Problem]:
    warnings: list[Problem] = []
    for name, text in launcher.files.items():
        warnings += save(folder / name, text, force=True)
        (folder / name).chmod(0o755)
    return warnings
