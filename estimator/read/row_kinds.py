"""Which rows under a heading are pieces, and which are titles, totals, notes, repeated headings or blank."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from estimator.problems import table as said
from estimator.problems.code import Place, Problem, ProblemCode
from estimator.read.cells import CellValue, SheetCells, column_letters
from estimator.read.counts import read_count
from estimator.read.heading_rows import HeadingRow, cell_text, heading_at, is_blank, is_ruled
from estimator.read.lengths import read_length
from estimator.read.numbers import Refused, plain_number
from estimator.read.parents import is_parent, item_number
from estimator.read.row_words import is_note, is_total, may_be_total, multiplier

__all__ = ["RowKind", "TableRows", "sort_rows"]


class RowKind(StrEnum):
    """What a row of a sheet is; every row is one of these."""

    PRICED = "priced"
    PROBLEM = "problem"
    TITLE = "title"
    HEADING = "heading"
    UNITS = "units"
    SUBTOTAL = "subtotal"
    NOTE = "note"
    BLANK = "blank"
    OTHER_TABLE = "other table"


@dataclass(slots=True)
class TableRows:
    """The rows of one table, sorted."""

    pieces: NDArray[np.int64]
    """Rows that are pieces, from 0 at the top of the sheet."""
    others: dict[int, RowKind]
    end: int
    """First row that is no longer this table's."""
    next_heading: HeadingRow | None = None
    multiplying: dict[int, int] = field(default_factory=dict)
    """Titles that may multiply the rows below them: row, and column of the words or number that say so."""
    problems: list[Problem] = field(default_factory=list)


_MEASURES = ("thickness_mm", "size", "cut_length_mm", "length", "width", "diameter", "size_a_mm", "total_cut_length_mm")
_OTHER_WORK = ("flame_min_each", "minutes_each", "heated_kg_each", "other_work", "holes")
_OF_MASS = re.compile(r"weight|mass|area|length|gewicht|masse|poids|peso|waga|масс|вес|重|kg|lbs?\b|m2|mm")
"""What a total is of that is no count of pieces."""
_LABELS = ("mark", "item", "description", "material", "size")


@dataclass(slots=True)
class _Scan:
    """What the walk over the odd rows needs."""

    file: str
    sheet: SheetCells
    heading: HeadingRow
    columns: dict[str, int]
    span: range
    first: int
    quantity: NDArray[np.float64]
    rows: TableRows
    side_by_side: bool = False
    example: bool = False
    section: int = 0
    """First row of the running section; a sum is looked for from here."""


def sort_rows(
    file: str,
    sheet: SheetCells,
    heading: HeadingRow,
    columns: dict[str, int],
    span: range,
    *,
    side_by_side: bool = False,
    example: bool = False,
) -> TableRows:
    """Sort the rows below a heading.

    Parameters
    ----------
    file : str
        Name of the file, for problems.
    sheet : SheetCells
        The sheet.
    heading : HeadingRow
        The table's headings.
    columns : dict of str to int
        Column of the sheet for each meaning.
    span : range
        Columns that belong to the table.
    side_by_side : bool
        Whether other tables stand beside it.
    example : bool
        Whether the table is an example by its title: the same headings once more then begin another table.

    Returns
    -------
    TableRows
        Rows with a quantity and a measure are pieces at once; only the others are looked at one by one.
    """
    first, count = heading.row + heading.rows, len(sheet.rows)
    rows = TableRows(np.empty(0, dtype=np.int64), {}, count)
    scan = _Scan(file, sheet, heading, columns, span, first, np.empty(0), rows, side_by_side, example, section=first)
    pieces: list[NDArray[np.int64]] = []
    start, block = first, 4096
    while start < rows.end:
        stop = min(start + block, count)
        pieces.append(_block(scan, start, stop))
        start, block = stop, block * 4
    taken = [row for row in rows.others if row >= first]
    piece = np.zeros(count, dtype=np.bool_)
    piece[np.concatenate([*pieces, np.empty(0, dtype=np.int64)])] = True
    piece[taken] = False
    piece[rows.end :] = False
    rows.pieces = np.flatnonzero(piece).astype(np.int64)
    rows.others = {row: kind for row, kind in rows.others.items() if row < rows.end}
    return rows


def _block(scan: _Scan, start: int, stop: int) -> NDArray[np.int64]:
    """Sort one block of rows and return those that are pieces; the odd ones are looked at one by one."""
    ordinary, quantity = _ordinary(scan.sheet, scan.heading, scan.columns, start, stop)
    scan.quantity = np.concatenate([scan.quantity, quantity])
    for row in (np.flatnonzero(~ordinary) + start).tolist():
        if row in scan.rows.others:
            continue
        kind = _kind_of(scan, row)
        if kind is RowKind.OTHER_TABLE:
            scan.rows.end = row
            break
        if kind is RowKind.PRICED:
            ordinary[row - start] = True
        else:
            scan.rows.others[row] = kind
    return (np.flatnonzero(ordinary) + start).astype(np.int64)


def _column(sheet: SheetCells, column: int, start: int, stop: int) -> list[CellValue]:
    try:
        return [row[column] for row in sheet.rows[start:stop]]
    except IndexError:
        return [row[column] if column < len(row) else None for row in sheet.rows[start:stop]]


def _ordinary(
    sheet: SheetCells, heading: HeadingRow, columns: dict[str, int], start: int, stop: int
) -> tuple[NDArray[np.bool_], NDArray[np.float64]]:
    """Return which rows have a quantity and a measure and no label of a total, and the quantities."""
    count = stop - start
    quantity = np.full(count, np.nan)
    if "quantity" in columns:
        quantity = _quantities(_column(sheet, columns["quantity"], start, stop))
    measured = np.zeros(count, dtype=np.bool_)
    strong: list[str] = [name for name in ("thickness_mm", "size") if name in columns]
    for name in strong or [measure for measure in _MEASURES if measure in columns]:
        values = _column(sheet, columns[name], start, stop)
        whole = set(map(type, values)) == {float}
        measured |= True if whole else np.array([v is not None and v != "" for v in values])
    ordinary = ~np.isnan(quantity) & measured
    for label in {columns[name] for name in _LABELS if name in columns} | {min(heading.texts, default=0)}:
        for n in _totals(_column(sheet, label, start, stop)):
            ordinary[n] = False
    return ordinary, quantity


def _totals(values: list[CellValue]) -> Iterator[int]:
    """Return where a column of labels says total; the first letters sort out almost all others."""
    if str in set(map(type, values)):
        starts = [v[:3] if type(v) is str else "" for v in values]
        telling = {start for start in set(starts) if start and may_be_total(start)}
        for n in (n for n, start in enumerate(starts) if start in telling) if telling else ():
            if is_total(str(values[n])):
                yield n


def _quantities(values: list[CellValue]) -> NDArray[np.float64]:
    """Return quantities, NaN for what is none; texts are read once each."""
    kinds = set(map(type, values))
    if kinds <= {float}:
        return np.array(values, dtype=np.float64)
    known: dict[str, float] = {}
    out = np.full(len(values), np.nan)
    for n, value in enumerate(values):
        if type(value) is float:
            out[n] = value
        elif type(value) is str:
            if value not in known:
                read = read_count(value)
                known[value] = np.nan if isinstance(read, Refused) else float(read.value)
            out[n] = known[value]
    return out


def _kind_of(scan: _Scan, row: int) -> RowKind:
    """Return what an odd row is; ``OTHER_TABLE`` where the next table's headings begin."""
    inside = scan.sheet.rows[row][scan.span.start : scan.span.stop]
    cells = {c: v for c, v in enumerate(inside, scan.span.start) if not is_blank(v)}
    if cells and all(map(is_ruled, cells.values())):
        return RowKind.BLANK
    if not cells:
        return RowKind.NOTE if any(not is_blank(v) for v in scan.sheet.rows[row]) else RowKind.BLANK
    texts = {c: cell_text(v) for c, v in cells.items() if cell_text(v)}
    if len(texts) >= 2 and _may_be_headings(texts) and (again := _heading_again(scan, row, texts)) is not None:
        return again
    if _labelled_total(scan, cells, texts):
        _hold_total(scan, row, cells, texts)
        scan.section = row + 1
        return RowKind.SUBTOTAL
    if _sums_up(scan, row, cells):
        _say(scan, said.SUBTOTAL_BY_SUM, row, rows=_summed(scan, row).size)
        scan.section = row + 1
        return RowKind.SUBTOTAL
    lone = next(iter(texts.values())) if len(cells) == 1 and texts else None
    if _is_assembly(scan, row, cells):
        return RowKind.TITLE
    measured = any(scan.columns.get(name) in cells for name in (*_MEASURES, *_OTHER_WORK, "quantity"))
    if measured and not (lone is not None and _is_words(lone)):
        return RowKind.PRICED
    return _title_or_note(scan, row, texts)


def _heading_again(scan: _Scan, row: int, texts: dict[int, str]) -> RowKind | None:
    """Return HEADING for the same headings once more, OTHER_TABLE for those of another table."""
    heading = scan.heading
    same = sum(1 for c, text in texts.items() if text.strip() and text.strip() in heading.texts.get(c, ""))
    if same >= 2 and same == len(texts) == len(heading.texts) and not scan.example:
        return _mark_heading(scan, row)
    if scan.columns.get("quantity") in texts and read_ok(texts[scan.columns["quantity"]]):
        return None
    found = heading_at(scan.sheet, row, scan.span if scan.side_by_side else None)
    if found is None or len(found.found) < 3:
        return _mark_heading(scan, row) if same >= 2 and same * 10 >= 7 * len(texts) else None
    scan.rows.next_heading = found
    return RowKind.OTHER_TABLE


def _may_be_headings(texts: dict[int, str]) -> bool:
    """Return cheaply whether a row can be headings: two short texts without a figure."""
    return sum(1 for text in texts.values() if len(text) <= 60 and not any(map(str.isdigit, text))) >= 2


def _mark_heading(scan: _Scan, row: int) -> RowKind:
    """Mark the rows of headings that stand here once more."""
    for beside in range(row, min(row + scan.heading.rows, len(scan.sheet.rows))):
        kind = RowKind.UNITS if beside - row == _units_offset(scan.heading) else RowKind.HEADING
        scan.rows.others[beside] = kind
    return RowKind.HEADING


def _is_words(text: str) -> bool:
    """Return whether the only text of a row is a title, though it stands in a column of figures."""
    if not isinstance(read_count(text), Refused):
        return False
    length = read_length(text)
    return isinstance(length, Refused) or bool(length.label)


def read_ok(text: str) -> bool:
    """Return whether a text is a quantity."""
    return not isinstance(read_count(text), Refused)


def _units_offset(heading: HeadingRow) -> int:
    return -1 if heading.units_row is None else heading.units_row - heading.row


def _labelled_total(scan: _Scan, cells: dict[int, CellValue], texts: dict[int, str]) -> bool:
    """Return whether a text of the row, outside notes and grades, says total."""
    apart = {scan.columns.get(name) for name in ("note", "grade")}
    bare = not any(scan.columns.get(name) in cells for name in ("thickness_mm", "size", "width"))
    return any(column not in apart and is_total(text, with_words=bare) for column, text in texts.items())


def _hold_total(scan: _Scan, row: int, cells: dict[int, CellValue], texts: dict[int, str]) -> None:
    """Warn where a total of pieces is neither the sum of its section nor of all rows above it."""
    column = scan.columns.get("quantity")
    held = plain_number(cells.get(column)) if column is not None else None
    if (
        held is None
        or not held.is_integer()
        or {"quantity 2", "quantity of sets"} & set(scan.columns)
        or scan.rows.multiplying
    ):
        return
    if any(_OF_MASS.search(text.lower()) for text in texts.values()):
        return
    rows = [n for n in range(scan.first, row) if n not in scan.rows.others]
    pieces = [n for n in rows if not _is_holes_alone(scan, n)]
    sums = {float(_summed(scan, row).sum()), _sum_of(scan, rows), _sum_of(scan, pieces)}
    sums.add(_sum_of(scan, [n for n in pieces if n >= scan.section]))
    if held not in sums:
        summed = f"{min(sums, key=lambda one: abs(one - held)):g}"
        _say(scan, said.SUBTOTAL_DIFFERS, row, column, found=f"{held:g}", total=f"{held:g}", summed=summed)


def _sum_of(scan: _Scan, rows: list[int]) -> float:
    return float(np.nansum(scan.quantity[[n - scan.first for n in rows]])) if rows else 0.0


def _is_holes_alone(scan: _Scan, row: int) -> bool:
    """Return whether a row gives holes and no sides: it stands for more holes of a mark, not for more pieces."""
    cells = scan.sheet.rows[row]

    def filled(name: str) -> bool:
        column = scan.columns.get(name)
        return column is not None and column < len(cells) and not is_blank(cells[column])

    return filled("holes") and not any(filled(name) for name in _MEASURES if name != "thickness_mm")


def _summed(scan: _Scan, row: int) -> NDArray[np.float64]:
    part = scan.quantity[scan.section - scan.first : row - scan.first]
    return part[~np.isnan(part)]


def _sums_up(scan: _Scan, row: int, cells: dict[int, CellValue]) -> bool:
    """Return whether a row without mark, thickness and size holds the sum of the quantities above it."""
    column = scan.columns.get("quantity")
    held = plain_number(cells.get(column)) if column is not None else None
    if held is None:
        return False
    if any(
        scan.columns.get(name) in cells for name in ("mark", "item", "description", "thickness_mm", "size", "width")
    ):
        return False
    above = _summed(scan, row)
    return above.size >= 2 and float(above.sum()) == held


def _is_assembly(scan: _Scan, row: int, cells: dict[int, CellValue]) -> bool:
    """Return whether a row without sizes is numbered as the parent of the next one, and note what it multiplies by."""
    if any(scan.columns.get(name) in cells for name in (*_MEASURES, *_OTHER_WORK)):
        return False
    column = next((scan.columns[name] for name in ("item", "mark") if scan.columns.get(name) in cells), None)
    following = range(row + 1, min(row + 4, len(scan.sheet.rows)))
    below = next((scan.sheet.rows[r] for r in following if any(not is_blank(v) for v in scan.sheet.rows[r])), [])
    if column is None or column >= len(below) or not is_parent(item_number(cells[column]), item_number(below[column])):
        return False
    count = scan.columns.get("quantity")
    if count in cells and plain_number(cells[count]) != 1.0:
        scan.rows.multiplying[row] = count
    return True


def _title_or_note(scan: _Scan, row: int, texts: dict[int, str]) -> RowKind:
    """Sort a row that names no quantity and no measure."""
    if not texts:
        return RowKind.NOTE
    said_in = next(iter(texts.items()))
    for column, text in texts.items():
        if multiplier(text) is not None and not is_note(text):
            scan.rows.multiplying[row] = column
            return RowKind.TITLE
    if len(texts) == 1:
        return RowKind.NOTE if is_note(said_in[1]) else RowKind.TITLE
    if scan.columns.get("mark") in texts or scan.columns.get("description") in texts:
        _say(scan, said.ROW_IS_TITLE, row, found=" | ".join(texts.values()))
    return RowKind.TITLE


def _say(
    scan: _Scan, code: ProblemCode, row: int, column: int | None = None, *, found: str = "", **fields: object
) -> None:
    letters = column_letters(column) if column is not None else ""
    place = Place(scan.file, scan.sheet.name, row + 1, letters)
    scan.rows.problems.append(code.at(place, found=found, **fields))
