"""What an owner typed in an old estimate, read for the next one: figures of his lines, and rates he changed.

The old workbook need not be whole: lines may be moved, taken out or typed in, as long as their headings stand.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from estimator.problems import Place, Problem, WorkbookProblemsError
from estimator.problems import quotes as say
from estimator.read.cells import Book, SheetCells, column_letters
from estimator.read.own_cells import OwnCell, is_blank, read_cell, shown
from estimator.write.estimate.look_of_numbers import SHEETS
from estimator.write.estimate.typed_cells import LINE_COLUMNS, columns_with_units, row_with

__all__ = ["ChangedRate", "KeptLine", "changed_rates", "kept_lines"]

_MM_PER = {"mm": 1.0, "in": 25.4}
_OWN = ("my_minutes", "my_price_each", "why")


@dataclass(frozen=True, slots=True)
class KeptLine:
    """A line of an old estimate with what its owner typed; None for a blank."""

    place: Place
    mark: str
    list_row: int
    thickness_mm: float | None
    quantity: float | None
    my_minutes: float | None
    my_price_each: float | None
    why: str

    @property
    def name(self) -> str:
        """As people call the line."""
        return self.mark or f"row {self.list_row}"

    def own_words(self) -> list[str]:
        """Say each figure that was typed."""
        said = [] if self.my_minutes is None else [f"{self.my_minutes:g} minutes"]
        said += [] if self.my_price_each is None else [f"{self.my_price_each:g} each"]
        return said + ([f"'{self.why}'"] if self.why else [])


@dataclass(frozen=True, slots=True)
class ChangedRate:
    """A figure of the sheet of rates that was typed over."""

    place: Place
    what: str
    unit: str
    was: str
    now: str


def kept_lines(book: Book) -> tuple[list[KeptLine], list[Problem]]:
    """Return the lines of an old estimate on which something was typed.

    Parameters
    ----------
    book : Book
        The old estimate, loaded.

    Returns
    -------
    tuple of (list of KeptLine, list of Problem)
        A cell that cannot be read is a problem.

    Raises
    ------
    WorkbookProblemsError
        When the workbook is no estimate of ours.
    """
    cells = next((sheet for sheet in book.sheets if sheet.name == SHEETS.lines), None)
    head = None if cells is None else row_with(cells, lambda texts: {"Row", "Mark", "Quantity", "My minutes"} <= texts)
    if cells is None or head is None:
        found = ", ".join(sheet.name for sheet in book.sheets[:8])
        raise WorkbookProblemsError([say.NOT_AN_ESTIMATE.at(Place(book.path.name), found=found)])
    columns = {heading: (column, unit) for (heading, unit), column in columns_with_units(cells, head).items()}
    kept: list[KeptLine] = []
    problems: list[Problem] = []
    for row in range(head + 2, len(cells.rows)):
        typed = [columns[LINE_COLUMNS[name].heading][0] for name in _OWN if LINE_COLUMNS[name].heading in columns]
        if all(is_blank(cells.value(row, column)) for column in typed):
            continue
        line, found_problems = _line(book.path.name, cells, row, columns)
        kept.append(line)
        problems += found_problems
    return kept, problems


def changed_rates(book: Book) -> list[ChangedRate]:
    """Return the figures of the sheet of rates that differ from those the job was computed with."""
    cells = next((sheet for sheet in book.sheets if sheet.name == SHEETS.rates), None)
    head = None if cells is None else row_with(cells, lambda texts: {"What", "Value", "When computed"} <= texts)
    if cells is None or head is None:
        return []
    changed = []
    for row in range(head + 1, len(cells.rows)):
        what, now, unit, was = (cells.value(row, column) for column in range(4))
        if is_blank(what) or is_blank(was) or now == was:
            continue
        if isinstance(now, float) and isinstance(was, float) and abs(now - was) <= 1e-12 * max(abs(now), abs(was), 1.0):
            continue
        place = Place(book.path.name, cells.name, row + 1, column_letters(1))
        words = ["blank" if is_blank(value) else shown(value) for value in (was, now)]
        changed.append(ChangedRate(place, shown(what), "" if is_blank(unit) else shown(unit), *words))
    return changed


def _line(
    file: str, cells: SheetCells, row: int, columns: dict[str, tuple[int, str]]
) -> tuple[KeptLine, list[Problem]]:
    problems: list[Problem] = []

    def typed(name: str) -> Any:
        stated = LINE_COLUMNS[name]
        if stated.heading not in columns:
            return None
        column = columns[stated.heading][0]
        place = Place(file, cells.name, row + 1, column_letters(column))
        value, problem = read_cell(OwnCell(cells.value(row, column), place), stated)
        problems.extend([problem] if problem is not None else [])
        return value

    def number(heading: str) -> float | None:
        column, unit = columns.get(heading, (-1, ""))
        value = cells.value(row, column) if column >= 0 else None
        return value * _MM_PER.get(unit, 1.0) if isinstance(value, float) else None

    mark = cells.value(row, columns["Mark"][0])
    line = KeptLine(
        place=Place(file, cells.name, row + 1),
        mark="" if is_blank(mark) else shown(mark).strip(),
        list_row=int(number("Row") or 0),
        thickness_mm=number("Thickness"),
        quantity=number("Quantity"),
        my_minutes=typed("my_minutes"),
        my_price_each=typed("my_price_each"),
        why=typed("why") or "",
    )
    return line, problems
