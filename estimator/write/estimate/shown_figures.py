"""Hold what an estimate shows against what its typed cells give: a figure that somebody typed over must not pass."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from estimator.pricing.job import Estimate
from estimator.problems import Place, Problem
from estimator.problems import quotes as say
from estimator.read.cells import Book, CellError, CellValue, NotCalculated, column_letters
from estimator.read.own_cells import found_value
from estimator.write.estimate.look_of_numbers import SHEETS
from estimator.write.estimate.typed_cells import LineCells

__all__ = ["shown_problems"]

_MOST_SAID = 10
_SAME = 1e-6
"""Far below a minor unit and a second of work; far above the dust of a spreadsheet program's sums."""


@dataclass(frozen=True, slots=True)
class _Figure:
    place: Place
    what: str
    shown: CellValue
    before: float
    after: float

    def is_(self, value: float) -> bool:
        return isinstance(self.shown, int | float) and abs(self.shown - value) <= _SAME * max(abs(value), 1.0)


def shown_problems(book: Book, lines: LineCells, before: Estimate, after: Estimate) -> list[Problem]:
    """Return where the workbook shows another figure than its typed cells give.

    Parameters
    ----------
    book : Book
        The estimate, loaded.
    lines : LineCells
        Where its lines stand.
    before, after : Estimate
        The job as it was written, and with what was typed.

    Returns
    -------
    list of Problem
        None where they agree; a note where the workbook was never calculated after the typing.
    """
    figures = [*_line_figures(book, lines, before, after), *_sum_figures(book, before, after)]
    kept = [figure for figure in figures if not isinstance(figure.shown, NotCalculated)]
    wrong = [figure for figure in kept if not figure.is_(figure.after)]
    place = Place(book.path.name)
    if not wrong:
        return [] if len(kept) == len(figures) else [say.NOT_RECALCULATED.at(place)]
    if all(figure.is_(figure.before) for figure in kept):
        return [say.NOT_RECALCULATED.at(place)]
    return [
        say.SHEET_SAYS_OTHERWISE.at(f.place, found=_found(f.shown), needs=f"{f.what} {f.after:,.10g}")
        for f in wrong[:_MOST_SAID]
    ]


def _line_figures(book: Book, lines: LineCells, before: Estimate, after: Estimate) -> Iterable[_Figure]:
    minor = 10.0**after.shop.shop.decimals
    was = 10.0**before.shop.shop.decimals
    columns = (
        ("Man-minutes", before.paid_time_min, after.paid_time_min),
        ("Price each", before.lines.price_each / was, after.lines.price_each / minor),
        ("Price", before.lines.price / was, after.lines.price / minor),
    )
    for heading, old, new in columns:
        for line in range(len(after.cuts)):
            place = lines.place(book.path.name, heading, line)
            yield _Figure(place, heading, lines.value(heading, line), float(old[line]), float(new[line]))


def _sum_figures(book: Book, before: Estimate, after: Estimate) -> Iterable[_Figure]:
    minor = 10.0**after.shop.shop.decimals
    was = 10.0**before.shop.shop.decimals
    sums = {
        "Net price": (before.totals.taxable / was, after.totals.taxable / minor),
        "Total": (before.totals.total / was, after.totals.total / minor),
    }
    cells = next((sheet for sheet in book.sheets if sheet.name == SHEETS.build_up), None)
    for row in range(len(cells.rows) if cells else 0):
        what = str(cells.value(row, 0)) if cells else ""
        if cells and what in sums:
            place = Place(book.path.name, cells.name, row + 1, column_letters(1))
            yield _Figure(place, what, cells.value(row, 1), *sums[what])


def _found(value: CellValue) -> object:
    return str(value) if isinstance(value, CellError) else found_value(value)
