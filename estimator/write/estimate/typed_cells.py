"""Read back what an owner typed in an estimate: rates, torch settings, and four cells of every line.

The sheets are known from what writes them, so a cell is found by the name of its row and the heading of its column.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import zip_longest
from typing import Any

import numpy as np

from estimator.check.acetylene_limit import is_over_acetylene_limit
from estimator.pricing.job import Estimate
from estimator.pricing.typed_figures import TypedFigures
from estimator.problems import Place, Problem
from estimator.problems import quotes as say
from estimator.problems.shop_book import ACETYLENE_PRESSURE
from estimator.quantities.typed_settings import setting_key
from estimator.read.cells import Book, CellValue, SheetCells, column_letters
from estimator.read.own_cells import OwnCell, is_blank, read_cell, shown
from estimator.sheets.statement import Column, Kind
from estimator.shop_units import unit_named
from estimator.write.estimate.line_sheet import ListRows
from estimator.write.estimate.look_of_numbers import SHEETS, NumberFormats
from estimator.write.estimate.price_rows import PriceRows
from estimator.write.estimate.rate_row import RateRow
from estimator.write.estimate.rate_rows import rate_sections
from estimator.write.estimate.setting_rows import SettingRows
from estimator.write.estimate.settings_sheet import SettingCell, typed_setting_cells
from estimator.write.estimate.shop_cells import AS_HOUSE, CellUnit
from estimator.write.plain_text import plain_text
from estimator.write.styles import Look

__all__ = ["LINE_COLUMNS", "LineCells", "columns_with_units", "find_lines", "row_with", "typed_figures"]

_VALUE_COLUMN = 1
_TIP_COLUMN = 0
_HEADING_ROWS = 12
_WHOLE = ("decimals", "job_labour_row", "break_from_quantity")
_SAME = 1e-12
"""Figures that differ by less are one: a spreadsheet program writes them back with fifteen digits."""

LINE_COLUMNS = {
    "quantity": Column(
        "quantity",
        "Quantity",
        Kind.WHOLE,
        "a whole number of pieces, 1 or more",
        "time, gas and price are per piece times this",
        "8",
        required=True,
        low=1,
        high=1_000_000,
    ),
    "my_minutes": Column(
        "my_minutes",
        "My minutes",
        Kind.NUMBER,
        "your paid minutes for the whole line, or blank",
        "they take the place of the worked minutes",
        "199",
        unit="min",
        low=0,
        high=1_000_000,
    ),
    "my_price_each": Column(
        "my_price_each",
        "My price each",
        Kind.MONEY,
        "your price for one piece, or blank",
        "it takes the place of the worked price",
        "21.50",
        low=0,
    ),
    "why": Column("why", "Why", Kind.TEXT, "your reason, or blank", "you know it again by it", "as last time"),
}


@dataclass(slots=True)
class LineCells:
    """Where the lines stand on their sheet."""

    cells: SheetCells
    rows: list[int]
    """Row of each line, from 0."""
    columns: dict[str, int]
    """Column by heading, from 0."""
    last_row: int
    """Last row of the block, rows without a price among them."""

    def value(self, heading: str, line: int) -> CellValue:
        """Return a line's cell under a heading; None where there is no such column."""
        column = self.columns.get(heading)
        return None if column is None else self.cells.value(self.rows[line], column)

    def place(self, file: str, heading: str, line: int) -> Place:
        """Return where a line's cell stands."""
        column = self.columns.get(heading)
        letters = "" if column is None else column_letters(column)
        return Place(file, self.cells.name, self.rows[line] + 1, letters)


@dataclass(slots=True)
class _Reader:
    book: Book
    before: Estimate
    typed: TypedFigures = field(default_factory=TypedFigures)
    problems: list[Problem] = field(default_factory=list)

    def sheet(self, name: str) -> SheetCells | None:
        found = next((sheet for sheet in self.book.sheets if sheet.name == name), None)
        if found is None:
            self.problems.append(say.ROW_GONE.at(Place(self.book.path.name), row=name))
        return found

    def read(self, cells: SheetCells, row: int, column: int, stated: Column, unit: CellUnit) -> Any:
        """Return the value of a typed cell in the house unit, which its column states; ``unit`` is what it shows."""
        place = Place(self.book.path.name, cells.name, row + 1, column_letters(column))
        known = unit_named(unit.unit, stated.unit)
        cell = OwnCell(cells.value(row, column), place, cells.number_formats.get((row, column), ""), unit=known)
        value, problem = read_cell(cell, stated)
        if problem is not None:
            self.problems.append(problem)
        return value if known or value is None or not unit.is_turned else unit.house(value)


def typed_figures(book: Book, before: Estimate) -> tuple[TypedFigures, list[Problem]]:
    """Return what stands in the typed cells of an estimate.

    Parameters
    ----------
    book : Book
        The estimate, loaded.
    before : Estimate
        Its record, priced as it was.

    Returns
    -------
    tuple of (TypedFigures, list of Problem)
        Rates and settings only where they differ from the record's.
    """
    reader = _Reader(book, before)
    _read_rates(reader)
    _read_settings(reader)
    _read_lines(reader)
    return reader.typed, reader.problems


def find_lines(book: Book, before: Estimate) -> tuple[LineCells | None, list[Problem]]:
    """Return where the lines stand; None with the problems when they are not as they were written."""
    file = book.path.name
    cells = next((sheet for sheet in book.sheets if sheet.name == SHEETS.lines), None)
    if cells is None:
        return None, [say.ROW_GONE.at(Place(file), row=SHEETS.lines)]
    head = row_with(cells, lambda texts: {"Row", "Mark", "Quantity"} <= texts)
    if head is None:
        return None, [say.ROW_GONE.at(Place(file, cells.name), row="Row, Mark, Quantity")]
    columns = {str(text): column for column, text in enumerate(cells.rows[head]) if not is_blank(text)}
    rows = ListRows(before)
    first = head + 2  # the units stand between
    found = LineCells(cells, [first + at for at in rows.positions], columns, first + rows.count - 1)
    problems = _moved(found, before, file)
    below = range(found.last_row + 1, len(cells.rows))
    columns_of_lines = [columns[name] for name in ("Mark", "Quantity") if name in columns]
    filled = next((row for row in below if any(not is_blank(cells.value(row, c)) for c in columns_of_lines)), None)
    if filled is not None:
        text = shown(next(v for v in cells.rows[filled] if not is_blank(v)))
        problems.append(say.LINE_TYPED_BELOW.at(Place(file, cells.name, filled + 1), found=text))
    return (None if problems else found), problems


def _moved(found: LineCells, before: Estimate, file: str) -> list[Problem]:
    """Return a problem at the first line that is not where it was written."""
    cuts = before.cuts
    for line in range(len(cuts)):
        row, mark = found.value("Row", line), found.value("Mark", line)
        was = plain_text(cuts.mark[line]).strip()  # as the sheet holds it, without what is not to be seen
        if row != float(cuts.row[line]) or (was and str(mark or "").strip() != was):
            name = f"'{cuts.mark[line]}' (row {cuts.row[line]})" if cuts.mark[line] else f"of row {cuts.row[line]}"
            there = " ".join(shown(value) for value in (row, mark) if not is_blank(value)) or "nothing"
            return [say.LINE_GONE.at(found.place(file, "Row", line), line=name, found=there)]
    return []


def _read_rates(reader: _Reader) -> None:
    cells = reader.sheet(SHEETS.rates)
    if cells is None:
        return
    before = reader.before
    formats = NumberFormats(before.shop.shop.decimals)
    rows = [row for section in rate_sections(before, PriceRows.of_job(before), formats) for row in section.rows]
    at = {_words(cells, row, 0, 2): row for row in range(len(cells.rows) - 1, -1, -1)}
    places: dict[str, int] = {}
    for rate in rows:
        place = places[rate.name] = places.get(rate.name, -1) + 1
        if rate.look is Look.WORKED:
            continue
        row = at.get((rate.what.strip(), rate.shown_unit.strip()))
        if row is None:
            reader.problems.append(say.ROW_GONE.at(Place(reader.book.path.name, cells.name), row=rate.what))
            continue
        stated = _stated(rate, formats, labour_rates=len(before.rates.labour))
        value = reader.read(cells, row, _VALUE_COLUMN, stated, rate.cell)
        if _differs(value, rate.value):
            reader.typed.rates[rate.name, place] = value


def _read_settings(reader: _Reader) -> None:
    cells = reader.sheet(SHEETS.settings)
    if cells is None:
        return
    before, file = reader.before, reader.book.path.name
    settings = before.job.settings
    written = typed_setting_cells(before, SettingRows.of_job(before), NumberFormats(before.shop.shop.decimals))
    head = row_with(cells, lambda texts: {"Tip", "Bore", "Kerf"} <= texts)
    columns = {} if head is None else columns_with_units(cells, head)
    values: dict[int, dict[str, float]] = {}
    changed: set[int] = set()
    prices: dict[str, dict[float, Place]] = {}
    for cell in written:
        tip = settings.tip[cell.setting]
        column = columns.get((cell.heading, cell.shown.unit or cell.unit))
        if column is None or shown(cells.value(cell.row, _TIP_COLUMN)).strip() != tip.strip():
            what = cell.heading if column is None else f"tip {tip}"
            reader.problems.append(say.ROW_GONE.at(Place(file, cells.name, cell.row + 1), row=what))
            return
        value = reader.read(cells, cell.row, column, _stated_setting(cell), cell.shown)
        place = Place(file, cells.name, cell.row + 1, column_letters(column))
        if (
            cell.name == "fuel_pressure_bar"
            and before.kit.fuel == "acetylene"
            and is_over_acetylene_limit(value or 0.0)
        ):
            reader.problems.append(ACETYLENE_PRESSURE.at(place, found=f"{value:.4g} bar gauge"))
        if cell.name == "price":
            prices.setdefault(tip, {})[float(value or 0.0)] = place
            if _differs(value, cell.value):
                reader.typed.tip_prices[tip] = float(value or 0.0)
            continue
        if _differs(value, cell.value):
            changed.add(cell.setting)
        else:
            value = cell.value
        values.setdefault(cell.setting, {})[cell.name] = np.nan if value is None else float(value)
    for tip, of_tip in prices.items():
        if len(of_tip) > 1:
            found = " and ".join(f"{price:g}" for price in sorted(of_tip))
            reader.problems.append(say.TIP_PRICES_DIFFER.at(list(of_tip.values())[-1], found=found, tip=tip))
    reader.typed.settings = {setting_key(settings, index): values[index] for index in sorted(changed)}


def _read_lines(reader: _Reader) -> None:
    found, problems = find_lines(reader.book, reader.before)
    reader.problems += problems
    if found is None:
        return
    lines = len(reader.before.cuts)
    read: dict[str, list[Any]] = {}
    for name, stated in LINE_COLUMNS.items():
        column = found.columns.get(stated.heading)
        if column is None:
            file = reader.book.path.name
            reader.problems.append(say.ROW_GONE.at(Place(file, found.cells.name), row=stated.heading))
            return
        read[name] = [reader.read(found.cells, row, column, stated, AS_HOUSE) for row in found.rows]

    def floats(name: str) -> np.ndarray[Any, np.dtype[np.float64]]:
        return np.array([np.nan if value is None else value for value in read[name]], dtype=np.float64)

    typed = reader.typed
    typed.quantity, typed.my_minutes = floats("quantity"), floats("my_minutes")
    typed.my_price_each = floats("my_price_each")
    typed.why = [str(value or "") for value in read["why"]] if any(read["why"]) else [""] * lines


def row_with(cells: SheetCells, holds: Callable[[set[str]], bool]) -> int | None:
    """Return the first row whose texts satisfy a condition."""
    for row, values in enumerate(cells.rows[:_HEADING_ROWS]):
        if holds({str(value) for value in values if isinstance(value, str)}):
            return row
    return None


def columns_with_units(cells: SheetCells, head: int) -> dict[tuple[str, ...], int]:
    """Return the column of each heading with the unit below it; pressures may stand in two units."""
    units = cells.rows[head + 1] if head + 1 < len(cells.rows) else []
    pairs = zip_longest(cells.rows[head], units)
    return {tuple("" if is_blank(v) else shown(v).strip() for v in pair): column for column, pair in enumerate(pairs)}


def _words(cells: SheetCells, row: int, *columns: int) -> tuple[str, ...]:
    return tuple("" if is_blank(value := cells.value(row, c)) else shown(value).strip() for c in columns)


def _stated(rate: RateRow, formats: NumberFormats, *, labour_rates: int) -> Column:
    """Return what a row of the rates sheet takes."""
    share = rate.number == formats.share
    kind = Kind.SHARE if share else Kind.WHOLE if rate.name in _WHOLE else Kind.NUMBER
    needs = "a percentage, as 12 % or 0.12" if share else "a number, 0 or above"
    high = {"margin": 0.99, "decimals": 3.0, "job_labour_row": float(labour_rates)}.get(rate.name)
    high = 100.0 if rate.unit == "%" else high
    return Column(
        rate.name,
        rate.what,
        kind,
        needs,
        rate.does or "the job is priced with it",
        "",
        required=rate.value is not None,
        unit=rate.unit,
        low=1.0 if rate.name == "job_labour_row" else 0.0,
        high=high,
    )


def _stated_setting(cell: SettingCell) -> Column:
    return Column(
        cell.name,
        cell.heading,
        Kind.NUMBER,
        "a number, 0 or above",
        "times and gas of the lines that use this setting follow it",
        "",
        required=cell.value is not None and cell.name != "given_flow",
        unit=cell.unit,
        low=0.0,
    )


def _differs(value: float | None, written: float | None) -> bool:
    if value is None or written is None:
        return value is not written
    return abs(value - written) > _SAME * max(abs(value), abs(written), 1.0)
