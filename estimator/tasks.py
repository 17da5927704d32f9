"""The page to read first: one short function per task, naming each step from file to answer.

A task reads files, checks them, works out quantities, prices them and hands the result back; commands write it out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.flags import flag_lines, flag_problems
from estimator.check.other_work import with_built_in
from estimator.check.shop_book import ShopBook
from estimator.check.shop_book_reading import read_shop_book
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.pricing.settings_card import TipSetting, setting_for_thickness
from estimator.pricing.sharing import sharing_note
from estimator.problems import Place, Problem, WorkbookProblemsError, has_error
from estimator.problems.asked import NO_SUCH_LINE, NOT_A_THICKNESS
from estimator.read.cells import Book
from estimator.read.cut_list import ListDefaults, bad_lines, read_cut_list
from estimator.read.length_words import UNIT_WORDS
from estimator.read.lengths import read_length
from estimator.read.load import load_book
from estimator.read.numbers import Refused
from estimator.read.own_cells import nearest
from estimator.read.remarks import book_remarks
from estimator.sheets.register import REGISTER_FILE

if TYPE_CHECKING:
    from estimator.pricing.rack.report import RackReport

__all__ = [
    "ListReading",
    "ReadOptions",
    "estimate",
    "estimate_list",
    "find_line",
    "find_register",
    "find_shop_book",
    "rack",
    "read_list",
    "read_only",
    "read_shop",
    "settings_for",
]

Floats = NDArray[np.float64]

_FOLDERS_UP = 3
_MARKS_NAMED = 8
SHOP_BOOK_NAMES = ("shop_book.xlsx", "shop book.xlsx", "shop_book.ods")
"""A shop book by one of these names in the list's folder is found without being named."""


@dataclass(frozen=True, slots=True)
class ReadOptions:
    """How a list is to be read where it does not say itself."""

    sheet: str = ""
    columns: str = ""
    encoding: str = ""


@dataclass(slots=True)
class ListReading:
    """A cut list as it was read: lines, and every problem."""

    cuts: CutList
    book: Book
    problems: list[Problem] = field(default_factory=list)


def estimate(cut_list: Path, shop: Path | None, order: JobOrder, reading: ReadOptions) -> Estimate:
    """Price a cut list: read it, read the shop book, work out quantities and money."""
    shop_book, shop_problems = read_shop(shop or find_shop_book(cut_list))
    listed = read_list(cut_list, reading, shop_book)
    return estimate_list(listed.cuts, shop_book, order, [*shop_problems, *listed.problems])


def estimate_list(
    cuts: CutList,
    shop: ShopBook,
    order: JobOrder,
    problems: Sequence[Problem] = (),
    *,
    my_minutes: Floats | None = None,
    my_price_each: Floats | None = None,
) -> Estimate:
    """Price checked lines, with a caution at every line whose words ask for one, and what sharing cuts would save.

    The owner's own minutes and prices win.
    """
    found = [*problems, *flag_problems(cuts, flag_lines(cuts))]
    done = estimate_job(cuts, shop, order, problems=found, my_minutes=my_minutes, my_price_each=my_price_each)
    done.problems += sharing_note(done)
    return done


def rack(
    cut_lists: Sequence[Path],
    shop: Path | None,
    order: JobOrder,
    reading: ReadOptions,
    *,
    torches: int = 1,
    by_tip: bool = False,
) -> RackReport:
    """Plan the cylinders: read and price every list on one shop book, then lay their gas on its rack."""
    from estimator.pricing.rack.report import plan_the_rack

    shop_book, shop_problems = read_shop(shop or find_shop_book(cut_lists[0]))
    listed = [read_list(path, reading, shop_book) for path in cut_lists]
    jobs = [estimate_list(one.cuts, shop_book, order, [*shop_problems, *one.problems]) for one in listed]
    return plan_the_rack(jobs, torches=torches, by_tip=by_tip, partial=order.partial, strictly=order.strict)


def read_list(cut_list: Path, reading: ReadOptions, shop: ShopBook) -> ListReading:
    """Read a cut list; its problems are carried, not raised, and the lines they stop are left out."""
    book = load_book(cut_list, encoding=reading.encoding or None)
    timed = {work.name: work.time_in_words for work in with_built_in(list(shop.other_work))}
    defaults = ListDefaults(unit=shop.shop.units, other_work=timed, currency=shop.shop.currency)
    cuts, problems = read_cut_list(
        book, sheet=reading.sheet or None, columns=reading.columns or None, shop_defaults=defaults
    )
    agreed = next((c for c in shop.customers if c.customer.casefold() == cuts.title.customer.casefold()), None)
    if agreed is not None and (agreed.units or (agreed.columns and not reading.columns)):
        cuts, problems = read_cut_list(
            book,
            sheet=reading.sheet or None,
            columns=reading.columns or agreed.columns or None,
            shop_defaults=replace(defaults, unit=agreed.units or shop.shop.units),
        )
    return ListReading(cuts.take(np.flatnonzero(~bad_lines(cuts, problems))), book, problems)


def read_shop(path: Path | None) -> tuple[ShopBook, list[Problem]]:
    """Read a shop book, or return the invented example; a book with an error prices nothing."""
    if path is None:
        return example_shop(), []
    book = load_book(path)
    shop, problems = read_shop_book(book)
    if shop is None or has_error(problems):
        raise WorkbookProblemsError(problems)
    return shop, [*problems, *book_remarks(book)]


def find_shop_book(beside: Path) -> Path | None:
    """Return the shop book in a folder, or in the list's own folder, if there is one."""
    folder = beside if beside.is_dir() else beside.parent
    candidates = [folder / name for name in SHOP_BOOK_NAMES]
    return next((path for path in candidates if path.is_file() and path.resolve() != beside.resolve()), None)


def find_register(beside: Path) -> Path:
    """Return the register of the shop that a file belongs to: in its folder, or in one of those above it.

    Parameters
    ----------
    beside : Path
        An estimate, a list, or the folder itself.

    Returns
    -------
    Path
        The register, or where it will stand: beside the shop book, else beside the file.
    """
    start = beside if beside.is_dir() else beside.resolve().parent
    folders = [start, *list(start.resolve().parents)[: _FOLDERS_UP - 1]]
    for names in ((REGISTER_FILE,), SHOP_BOOK_NAMES):
        for folder in folders:
            if any((folder / name).is_file() for name in names):
                return folder / REGISTER_FILE
    return start / REGISTER_FILE


def read_only(cut_list: Path, shop: Path | None, reading: ReadOptions) -> ListReading:
    """Read a cut list and price nothing."""
    shop_book, _ = read_shop(shop or find_shop_book(cut_list))
    return read_list(cut_list, reading, shop_book)


def find_line(done: Estimate, row: str) -> int:
    """Return the line of a row number or a mark; a row that is not priced is a problem that names those that are."""
    cuts = done.cuts
    marks = [i for i, mark in enumerate(cuts.mark) if mark and mark.casefold() == row.casefold()]
    rows = [i for i in range(len(cuts)) if str(int(cuts.row[i])) == row]
    for found in (rows, marks):
        if found:
            return found[0]
    first, last = int(cuts.row.min()), int(cuts.row.max())
    named = list(dict.fromkeys(mark for mark in cuts.mark if mark))
    known = f"rows {first} to {last}, marks {', '.join(named[:_MARKS_NAMED])}"
    near = ", ".join(nearest(row, named)) or "not clear"
    raise WorkbookProblemsError([NO_SUCH_LINE.at(Place(cuts.file), found=row, known=known, nearest=near)])


def settings_for(thickness: str, shop: Path | None, fuel: str) -> list[TipSetting]:
    """Return what to set for one thickness, by hand and on a track."""
    shop_book, _ = read_shop(shop or find_shop_book(Path.cwd()))
    read = read_length(thickness)
    if isinstance(read, Refused) or read.value <= 0:
        unit = nearest(thickness.strip(" 0123456789.,/-"), [word for words in UNIT_WORDS.values() for word in words])
        said = f"; the nearest unit is {unit[0]}" if unit else ""
        raise WorkbookProblemsError([NOT_A_THICKNESS.at(Place(), found=thickness, unit=said)])
    return setting_for_thickness(shop_book, float(read.in_mm(shop_book.shop.units)), fuel)
