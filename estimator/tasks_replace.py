"""May an estimate that is there be written anew? Not where its owner typed into it, nor where a quote rests on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from estimator.problems import Place, WorkbookProblemsError
from estimator.problems.writing import TYPED_IN_ESTIMATE
from estimator.read.cells import Book, CellValue, column_letters
from estimator.read.load import load_book
from estimator.read.own_cells import is_blank, shown
from estimator.tasks import find_register
from estimator.write.estimate.look_of_numbers import SHEETS
from estimator.write.save import Content, save

__all__ = ["may_replace_estimate", "same_estimate", "same_page", "typed_into"]

_MOST_NAMED = 6


def may_replace_estimate(estimate: Path, cut_list: Path) -> bool:
    """Say whether a file is an estimate of a list that nobody typed into, so that it can be made again as it was.

    Parameters
    ----------
    estimate : Path
        Where the new estimate is to go.
    cut_list : Path
        The list.

    Returns
    -------
    bool
        False where nothing is there, or something else: a taken name is then asked about as any other.

    Raises
    ------
    WorkbookProblemsError
        When its owner typed into it; the problem names what and where.

    Notes
    -----
    A spreadsheet program that saved it again, with nothing typed, does not count. Looks, comments and pictures are not
    seen. Source: definition.
    """
    from estimator.write.estimate.record_sheet import read_job_record

    if not estimate.is_file() or _stands_behind_a_quote(estimate):
        return False
    try:
        book = load_book(estimate)
        if read_job_record(book).cuts.file != cut_list.name:
            return False
    except WorkbookProblemsError:
        return False
    typed = typed_into(book)
    if typed:
        more = f" and {len(typed) - _MOST_NAMED} more" if len(typed) > _MOST_NAMED else ""
        said = "; ".join(typed[:_MOST_NAMED]) + more
        raise WorkbookProblemsError([TYPED_IN_ESTIMATE.at(Place(str(estimate)), typed=said)])
    return True


def same_estimate(one: Path, other: Path) -> bool:
    """Say whether two files are one estimate with the same typed in it, whatever program saved either last."""
    try:
        books = [load_book(path) for path in (one, other)]
        records, typed = [_sealed(book) for book in books], [_told(book) for book in books]
    except WorkbookProblemsError:
        return False
    return records[0] == records[1] and typed[0] == typed[1]


def same_page(page: Path, content: Content) -> bool:
    """Say whether a workbook that is there shows what would be written, though another program saved it since."""
    if page.suffix.lower() != ".xlsx" or not page.is_file():
        return False
    with TemporaryDirectory() as folder:
        anew = Path(folder) / page.name
        save(anew, content)
        try:
            return _cells(load_book(anew)) == _cells(load_book(page))
        except WorkbookProblemsError:
            return False


def _cells(book: Book) -> list[tuple[str, list[list[str]]]]:
    """Return what the cells of each sheet show, blank rows and cells left out."""
    return [(sheet.name, [shown_row for row in sheet.rows if (shown_row := _filled(row))]) for sheet in book.sheets]


def _filled(row: Sequence[CellValue]) -> list[str]:
    return [shown(value) for value in row if not is_blank(value)]


def _sealed(book: Book) -> list[str]:
    """Return the record of an estimate as it is packed."""
    record = next((sheet for sheet in book.sheets if sheet.name == SHEETS.record), None)
    return [] if record is None else [shown(row[0]) for row in record.rows if row]


def typed_into(book: Book) -> list[str]:
    """Return what an owner typed into an estimate, each with its cell; none where it is as it was written.

    Parameters
    ----------
    book : Book
        An estimate of ours, loaded.

    Returns
    -------
    list of str
    """
    return [f"{place}: {words}" if words else str(place) for place, words in _told(book).items()]


def _told(book: Book) -> dict[Place, str]:
    """Return what was typed, by its place; the file has no name in it, so that copies can be compared."""
    from estimator.write.estimate.as_written import filled_since
    from estimator.write.estimate.kept_figures import changed_rates, kept_lines
    from estimator.write.estimate.record_sheet import read_shape
    from estimator.write.left_alone import saved_since

    lines, problems = kept_lines(book)
    told = {problem.place: problem.fact for problem in problems}
    told |= {line.place: f"{line.name}, {', '.join(line.own_words())}" for line in lines}
    told |= {rate.place: f"{rate.what} {rate.now} instead of {rate.was}" for rate in changed_rates(book)}
    shape = read_shape(book)
    saved = saved_since(book.path)
    if shape is not None:
        rows = {(place.sheet, place.row) for place in told}
        since = filled_since(book, shape, apart_from=SHEETS.record)
        told |= {place: _content(book, place) for place in since if (place.sheet, place.row) not in rows}
    elif saved:
        told.setdefault(
            Place(book.path.name), "saved since it was written, by an older kerfledger that cannot tell more"
        )
    for place, words in _typed_over(book) if saved else ():
        told.setdefault(place, words)
    return {replace(place, file="") if place.sheet else place: words for place, words in told.items()}


def _typed_over(book: Book) -> Iterator[tuple[Place, str]]:
    """Give the figures that were typed over: quantities, tip settings, and what the workbook worked out."""
    from estimator.tasks_quote import reopen_estimate
    from estimator.write.estimate.typed_cells import find_lines

    try:
        opened = reopen_estimate(book.path)
    except WorkbookProblemsError as error:
        yield from ((problem.place, problem.fact) for problem in error.problems)
        return
    typed, before = opened.typed, opened.before
    found, _ = find_lines(book, before)
    changed = np.flatnonzero(typed.quantity != before.cuts.quantity).tolist()
    if found is not None:
        for line in changed:
            name = before.cuts.mark[line] or f"row {int(before.cuts.row[line])}"
            yield found.place(book.path.name, "Quantity", line), f"{name}, quantity {typed.quantity[line]:g}"
    tips = list(dict.fromkeys([*(key.tip for key in typed.settings), *typed.tip_prices]))
    if tips:
        yield Place(book.path.name, SHEETS.settings), f"tip {', '.join(tips)}"


def _content(book: Book, place: Place) -> str:
    """Return what stands at a place, shortened; a whole sheet that is another than it was has no more to say."""
    sheet = next(sheet for sheet in book.sheets if sheet.name == place.sheet)
    if not place.row:
        return "a text was changed, or the sheet was added"
    row = sheet.rows[place.row - 1]
    value = next((v for c, v in enumerate(row) if column_letters(c) == place.column), None)
    return "" if is_blank(value) else shown(value)[:40]


def _stands_behind_a_quote(estimate: Path) -> bool:
    """Say whether the register names a file as the estimate of a quote; one that cannot be read may."""
    from estimator.tasks_register import open_register

    register = find_register(estimate)
    try:
        quotes, _ = open_register(register)
    except WorkbookProblemsError:
        return True
    here = estimate.resolve()
    return any(row.estimate and (register.parent / row.estimate).resolve() == here for row in quotes.quotes)
