"""A new shop's folder: a shop book that leads to its first cells, the blanks, a page to read first, a launcher."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Callable
from pathlib import Path
from typing import BinaryIO

from estimator.problems import Problem
from estimator.sheets.first_cells import FIRST_CELLS, FIRST_ROWS, START_SHEET
from estimator.sheets.workbooks import SHOP_BOOK_SHEETS, WORKBOOKS
from estimator.write.blanks import blank_workbook, built_in_rows
from estimator.write.book import BookSheet, OutputBook, a1, write_book
from estimator.write.launcher import Launcher, launcher_for
from estimator.write.own_sheets import cell_of, write_own_sheet
from estimator.write.save import Content, save
from estimator.write.shop_guide import GUIDE_NAME, guide_page
from estimator.write.styles import Look
from estimator.write.target import check_targets, make_folder

__all__ = ["LISTS_FOLDER", "first_shop_book", "write_launcher", "write_shop_folder"]

LISTS_FOLDER = "to_price"
"""Folder beside the shop book whose lists the launcher prices."""

_SHOP_BOOK = "shop_book.xlsx"
_WIDTHS = (5.0, 62.0, 30.0, 12.0)


def write_shop_folder(
    folder: Path, prices_from: dt.date, *, force: bool = False
) -> tuple[list[tuple[Path, str]], list[Problem]]:
    """Write a shop folder.

    Parameters
    ----------
    folder : Path
        Made if it is not there.
    prices_from : date
        First day of the prices and rates, to be typed over.
    force : bool
        Whether existing files may be replaced, the shop book among them.

    Returns
    -------
    tuple of (list of (Path, str), list of Problem)
        Each file with what it is for, and what the disk warned of.
    """
    launcher = launcher_for(folder.resolve(), sys.platform, sys.executable)
    contents = _contents(folder, launcher, first_shop_book(prices_from))
    scripts = _scripts(folder, launcher)
    make_folder(folder)
    check_targets([path for path, *_ in contents] + [path for path, _ in scripts], force=force)
    make_folder(folder / LISTS_FOLDER)
    warnings: list[Problem] = []
    for path, _, content in contents:
        warnings += save(path, content, force=force)
    warnings += _save_launcher(folder, launcher)
    return [(path, what) for path, what, _ in contents] + scripts, warnings


def write_launcher(folder: Path) -> tuple[list[tuple[Path, str]], list[Problem]]:
    """Write the launcher alone into a shop folder that is there, over an older one; return as ``write_shop_folder``."""
    launcher = launcher_for(folder.resolve(), sys.platform, sys.executable)
    warnings = _save_launcher(folder, launcher)
    return _scripts(folder, launcher), warnings


def first_shop_book(prices_from: dt.date) -> Callable[[BinaryIO], None]:
    """Return what writes a new shop's book: blank, its first rows begun, and a sheet that leads to the first cells."""

    def build(book: OutputBook) -> None:
        _start_sheet(book.sheet(START_SHEET))
        for sheet in SHOP_BOOK_SHEETS:
            records = [{**row, "from_date": prices_from} for row in FIRST_ROWS.get(sheet.name, ())] or built_in_rows(
                sheet
            )
            write_own_sheet(book, sheet, records, look_of=lambda _row, _name: Look.ASSUMED)

    return write_book(build, title="Shop book")


def _contents(folder: Path, launcher: Launcher, shop_book: Content) -> list[tuple[Path, str, Content]]:
    made: list[tuple[Path, str, Content]] = [
        (folder / GUIDE_NAME, "one page to read first", guide_page(launcher).encode("utf-8")),
        (folder / _SHOP_BOOK, "your prices and rates; begin at its first sheet", shop_book),
    ]
    others = {
        "cut_list.xlsx": "a blank cut list, for jobs that come by telephone",
        "past_jobs.xlsx": "your last finished jobs, to see what would have been said of them",
        "price_lists.xlsx": "suppliers' prices, to compare them",
        "work_log.xlsx": "who cut what, and how long it took",
        "bills.xlsx": "the month's gas bills, to check them",
    }
    for stated in WORKBOOKS:
        if stated.file != _SHOP_BOOK:
            made.append((folder / stated.file, others[stated.file], blank_workbook(stated)))
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


def _start_sheet(made: BookSheet) -> None:
    for column, width in enumerate(_WIDTHS):
        made.set_column(column, column, width)
    made.text(0, 0, "Start here: what to type before the first list is priced", Look.TITLE)
    made.set_row(0, 26)
    made.text(
        1, 0, "Click a cell's name to go to it. Everything else has a value to begin with; change it when you can.",
        Look.GUIDE,
    )  # fmt: skip
    for column, heading in enumerate(("", "What to type", "Where", "Done?")):
        made.text(3, column, heading, Look.HEADING)
    for number, first in enumerate(FIRST_CELLS, 1):
        row = 3 + number
        place = a1(*cell_of(first.sheet, first.name, first.record))
        made.number(row, 0, number, Look.TEXT, "0")
        made.text(row, 1, first.ask)
        made.jump(row, 2, first.sheet.name, place, f"{first.sheet.name}, cell {place}")
        made.worked(row, 3, f'=IF(ISBLANK(\'{first.sheet.name}\'!{place}),"to type","typed")', "to type")
    last = 3 + len(FIRST_CELLS)
    hints = (
        "Then look through the sheet Tips: delete the rows of bores that you do not have.",
        "Prices hold from the first day in their column From: type the day from which they are right.",
        "A torch's own manual comes first: type its chart into the sheet Own chart when you have it.",
    )
    for number, hint in enumerate(hints, last + 2):
        made.text(number, 1, hint)
    made.freeze_panes(4, 0)
    made.set_up_page(last_row=last + 1 + len(hints), last_column=len(_WIDTHS) - 1)
