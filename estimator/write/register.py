"""Write in the register of quotes: one run at a time, whole or not at all, and never over what the owner typed.

The register is read under a lock, rows are added or states changed, what results is read back, and only then does it
take the old one's place. Everything else in the workbook stays byte for byte as it was.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import io
import tempfile
import zipfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, BinaryIO

from estimator.check.register import QuotedLine, QuoteKey, QuoteRow, Register, read_register
from estimator.problems import Level, Place, Problem, WorkbookProblemsError
from estimator.problems import quotes as say
from estimator.read.cells import Book, SheetCells
from estimator.read.load import load_book
from estimator.read.own_cells import is_blank
from estimator.read.own_headings import Found, find_columns
from estimator.read.own_sheets import find_sheet
from estimator.sheets.register import QUOTED_LINES, QUOTES
from estimator.sheets.statement import Kind, Sheet
from estimator.write.book import OutputBook, Paper, write_book
from estimator.write.lock import LockBusyError, locked
from estimator.write.own_cells import OwnUnits
from estimator.write.own_sheets import write_own_sheet
from estimator.write.patch_sheet import NewCell, SheetPlaces, find_places, spliced
from estimator.write.save import save
from estimator.write.target import check_targets, problem_from
from estimator.write.workbook_parts import counts_from_1904, part_of, repacked

__all__ = ["RegisterChange", "changing_register", "lock_of"]

_PATIENCE_S = 20.0
_MM_PER_INCH = 25.4
_LAST_ROW = 1_048_575
_DAY_0 = dt.date(1899, 12, 30)
_DAYS_TO_1904 = 1462


@dataclass(slots=True)
class RegisterChange:
    """A register that this run alone may change, with what is to be written."""

    path: Path
    register: Register
    book: Book | None
    """None while there is no register yet."""
    problems: list[Problem] = field(default_factory=list)
    """What reading found in single rows; such rows are left alone."""
    new_rows: list[QuoteRow] = field(default_factory=list)
    new_lines: list[QuotedLine] = field(default_factory=list)
    changed: dict[int, dict[str, Any]] = field(default_factory=dict)
    """House names and values by row of the sheet of quotes."""

    def add(self, row: QuoteRow, lines: Sequence[QuotedLine]) -> None:
        """Add a quote with its lines; a key that is there already is our own mistake."""
        if any(other.key == row.key for other in (*self.register.quotes, *self.new_rows)):
            raise ValueError(f"{row.key} is in the register already")
        self.new_rows.append(row)
        self.new_lines += lines

    def change(self, key: QuoteKey, **values: Any) -> None:
        """Type values into the row of a quote that is there; None clears a cell."""
        row = self.register.find(key)
        if row is None:
            raise KeyError(f"{key} is not in the register")
        self.changed.setdefault(row.row, {}).update(values)

    def write(self, *, paper: Paper | None = None, units: OwnUnits | None = None) -> list[Problem]:
        """Write what was added and changed; return warnings of the disk."""
        if not self.new_rows and not self.changed:
            return []
        if self.book is None:
            return save(self.path, _new_register(self.new_rows, self.new_lines, paper or Paper(), units or OwnUnits()))
        before = self.path.read_bytes()
        if hashlib.sha256(before).hexdigest() != self.book.sha256:
            raise self._refused("another program saved it meanwhile")
        try:
            after = _typed_in(before, self.book, self._cells())
        except (ValueError, KeyError) as error:
            raise self._refused(str(error)) from error
        self._read_back(after)
        return save(self.path, after, force=True)

    def _cells(self) -> dict[str, _Typing]:
        """Return what is typed into each sheet, by its statement's name."""
        quotes = _Typing(QUOTES, [_values(row) for row in self.new_rows], self.changed)
        lines = _Typing(QUOTED_LINES, [_values(line) for line in self.new_lines], {})
        return {typing.sheet.name: typing for typing in (quotes, lines) if typing.rows or typing.changed}

    def _read_back(self, after: bytes) -> None:
        """Refuse to write a register that does not read as it should."""
        with tempfile.TemporaryDirectory() as folder:
            copy = Path(folder) / self.path.name
            copy.write_bytes(after)
            read, _ = read_register(load_book(copy))
        known = {row.key for row in read.quotes}
        lost = [row.key for row in (*self.register.quotes, *self.new_rows) if row.key not in known]
        short = len(self.register.lines) + len(self.new_lines) - len(read.lines)
        if lost or short:
            raise self._refused(f"after it {lost[0] if lost else f'{short} lines'} could not be read back")

    def _refused(self, reason: str) -> WorkbookProblemsError:
        place = Place(self.path.name, QUOTES.name)
        return WorkbookProblemsError([say.REGISTER_NOT_CHANGED.at(place, reason=reason)])


@dataclass(frozen=True, slots=True)
class _Typing:
    """Rows to add to one sheet, and cells to change in rows that it has."""

    sheet: Sheet
    rows: list[dict[str, Any]]
    changed: dict[int, dict[str, Any]]


@contextlib.contextmanager
def changing_register(path: Path, *, patience_s: float = _PATIENCE_S) -> Iterator[RegisterChange]:
    """Hold the register for one change: nobody else changes it until the block ends.

    Parameters
    ----------
    path : Path
        The register; it is made with the first quote.
    patience_s : float
        How long to wait for another run [s].

    Yields
    ------
    RegisterChange
        What it holds now. Nothing is written before ``write`` is called.

    Raises
    ------
    WorkbookProblemsError
        When another run or a spreadsheet program holds it, or when it cannot be read as a register.
    """
    try:
        with locked(lock_of(path), patience_s=patience_s):
            check_targets([path], force=True)
            yield _read(path)
    except LockBusyError as error:
        busy = say.REGISTER_BUSY.at(Place(path.name), seconds=f"{patience_s:g}")
        raise WorkbookProblemsError([busy]) from error


def lock_of(path: Path) -> Path:
    """Return the lock file of a register; a folder that cannot hold one is a problem."""
    lock = path.with_name(f".{path.name}.lock")
    try:
        lock.touch(exist_ok=True)
    except OSError as error:
        raise WorkbookProblemsError([problem_from(error, path)]) from error
    return lock


def _read(path: Path) -> RegisterChange:
    if not path.exists():
        return RegisterChange(path, Register(file=path.name), None)
    book = load_book(path)
    register, problems = read_register(book)
    if any(problem.level is Level.ERROR and not problem.place.row for problem in problems):
        raise WorkbookProblemsError(problems)
    if find_sheet(book, QUOTED_LINES) is None:
        missing = say.REGISTER_NOT_CHANGED.at(Place(path.name), reason=f"it has no sheet '{QUOTED_LINES.name}'")
        raise WorkbookProblemsError([*problems, missing])
    return RegisterChange(path, register, book, problems)


def _new_register(
    rows: Sequence[QuoteRow], lines: Sequence[QuotedLine], paper: Paper, units: OwnUnits
) -> Callable[[BinaryIO], None]:
    def build(book: OutputBook) -> None:
        for sheet, records in ((QUOTES, rows), (QUOTED_LINES, lines)):
            made = write_own_sheet(book, sheet, [_values(record) for record in records], units=units)
            made.print_area(0, 0, _LAST_ROW, len(sheet.columns) - 1)  # as far as it will be filled

    return write_book(build, title="Register of quotes", paper=paper)


def _values(record: QuoteRow | QuotedLine) -> dict[str, Any]:
    return {name: value for name, value in record.model_dump().items() if name != "row" and value not in (None, "")}


def _typed_in(data: bytes, book: Book, typings: Mapping[str, _Typing]) -> bytes:
    """Return the workbook with cells typed into its sheets."""
    whole = zipfile.ZipFile(io.BytesIO(data))
    epoch = _DAYS_TO_1904 if counts_from_1904(whole) else 0
    changed: dict[str, bytes] = {}
    for typing in typings.values():
        cells = find_sheet(book, typing.sheet)
        part = part_of(whole, cells.name) if cells else None
        if cells is None or part is None:
            raise ValueError(f"the sheet '{typing.sheet.name}' was not found in it")
        markup = whole.read(part)
        typist = _Typist(typing.sheet, cells, find_places(markup), epoch)
        changed[part] = spliced(markup, typist.places, typist.cells(typing), typing=True)
    return repacked(whole, changed)


class _Typist:
    """Turns house values into cells of a sheet, each looking like the one above it."""

    def __init__(self, sheet: Sheet, cells: SheetCells, places: SheetPlaces, epoch_days: int) -> None:
        self.sheet, self.sheet_cells, self.places, self.epoch_days = sheet, cells, places, epoch_days
        self.found: Found = find_columns(cells, sheet, Place("", cells.name))
        self.last = self._last_row()
        self.date_style = self._date_style()

    def cells(self, typing: _Typing) -> dict[tuple[int, int], NewCell]:
        """Return the new cells by row from 1 and column from 0."""
        made: dict[tuple[int, int], NewCell] = {}
        for offset, values in enumerate(typing.rows, 1):
            for name, value in values.items():
                self._put(made, self.last + offset, name, value, like=self.last)
        for row, values in typing.changed.items():
            for name, value in values.items():
                self._put(made, row, name, value, like=row)
        return made

    def _put(self, made: dict[tuple[int, int], NewCell], row: int, name: str, value: Any, *, like: int) -> None:
        stands = self.found.columns.get(name)
        if stands is None and self.sheet.column(name).required:
            raise ValueError(f"the column '{self.sheet.column(name).heading}' is not there")
        if stands is None:
            return  # a column that the owner took out is not wanted
        style = self.places.style(like, stands.column)
        if isinstance(value, dt.date):
            number = float((value - _DAY_0).days - self.epoch_days)
            known = self.date_style
            made[row, stands.column] = NewCell(number, known) if known else NewCell(value.isoformat(), style)
        elif isinstance(value, int | float):
            inch = stands.unit == "in" and self.sheet.column(name).kind is Kind.LENGTH
            number = round(value / _MM_PER_INCH, 9) if inch else float(value)
            made[row, stands.column] = NewCell(number, style)
        else:
            made[row, stands.column] = NewCell(value or "", style)

    def _last_row(self) -> int:
        """Return the last row, from 1, in which one of our columns holds anything; else that of the headings."""
        columns = [stands.column for stands in self.found.columns.values()]
        rows = range(len(self.sheet_cells.rows) - 1, self.found.first_row - 1, -1)
        filled = (r for r in rows if any(not is_blank(self.sheet_cells.value(r, c)) for c in columns))
        return next(filled, self.found.first_row - 1) + 1

    def _date_style(self) -> int:
        """Return the style of a cell of ours that shows a date; 0 where none does."""
        names = [column.name for column in self.sheet.columns if column.kind is Kind.DATE]
        columns = [self.found.columns[name].column for name in names if name in self.found.columns]
        for row in range(self.last - 1, self.found.first_row - 1, -1):
            for column in columns:
                if isinstance(self.sheet_cells.value(row, column), dt.date):
                    return self.places.style(row + 1, column)
        return 0
