"""An .ods workbook (OpenDocument): one part of XML, taken row by row; what it says to repeat is held to the limits."""

from __future__ import annotations

import datetime as dt
import re
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field

from estimator.read.cells import NOT_CALCULATED, CellError, CellValue, SheetCells
from estimator.read.ods_formats import read_formats
from estimator.read.sheet_grid import LAST_ROW, CellBudget, SheetGrid
from estimator.read.xlsx_cell import looks_outside
from estimator.read.xml_parts import Element, GrowingPart, attribute, local_name, parse_part

__all__ = ["read_ods"]

_NAMES = "{{urn:oasis:names:tc:opendocument:xmlns:{}:1.0}}"
_OFFICE, _TABLE, _TEXT = _NAMES.format("office"), _NAMES.format("table"), _NAMES.format("text")
_CALC = "{urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0}"
_CELL, _COVERED, _LINE = f"{_TABLE}table-cell", f"{_TABLE}covered-table-cell", f"{_TEXT}p"
_KIND, _NUMBER, _FORMULA, _CALC_KIND = (
    f"{_OFFICE}value-type",
    f"{_OFFICE}value",
    f"{_TABLE}formula",
    f"{_CALC}value-type",
)
_COLUMNS, _COLUMNS_SPANNED = f"{_TABLE}number-columns-repeated", f"{_TABLE}number-columns-spanned"
_ROWS, _ROWS_SPANNED = f"{_TABLE}number-rows-repeated", f"{_TABLE}number-rows-spanned"
_STYLE, _VISIBILITY = f"{_TABLE}style-name", f"{_TABLE}visibility"
_ERROR = re.compile(r"#(?:REF|N/A|DIV/0|VALUE|NAME|NUM|NULL)[!?]?|Err:\d+")
_TRUTHS = ("=TRUE()", "=FALSE()")
_TIME = re.compile(r"(-?)P(?:(\d+)D)?T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)(?:[.,](\d+))?S)?")


@dataclass(slots=True)
class _Table:
    """The table that is being read."""

    grid: SheetGrid
    styles: list[str] = field(default_factory=list)
    """Default cell style of each column."""
    row: int = 0
    column: int = 0


class _GrowingTables(GrowingPart):
    """The children of each table as they are complete, with their table."""

    def __init__(self, archive: zipfile.ZipFile) -> None:
        super().__init__(archive, "content.xml", "body", "spreadsheet")
        self.tables: list[Element] = []

    def _take_whole(self, keep: int) -> list[Element]:
        """Return complete children, each put into a wrapper beside its table's number."""
        holder = self._holder()
        found: list[Element] = []
        tables = [child for child in holder if local_name(child.tag) == "table"] if holder is not None else []
        for table in tables:
            if table not in self.tables:
                self.tables.append(table)
            last = keep if table is tables[-1] else 0
            whole = table[: max(0, len(table) - last)]
            del table[: len(whole)]
            for child in whole:
                child.set("of-table", str(self.tables.index(table)))
            found += whole
        return found


def read_ods(archive: zipfile.ZipFile, budget: CellBudget) -> list[SheetCells]:
    """Return the sheets of a workbook, in the order of its tabs.

    Parameters
    ----------
    archive : zipfile.ZipFile
        The open file, already looked at.
    budget : CellBudget
        Counts cells against the limit.

    Returns
    -------
    list of SheetCells
        One for each table.

    Notes
    -----
    Error values have no type of their own in the standard; they are known by the extension ``calcext:value-type`` or by
    the text that a formula shows. Source: OpenDocument 1.3 part 3, 9 (tables), 19.385 (value types).
    """
    growing = _GrowingTables(archive)
    tables: list[_Table] = []
    for element in growing:
        number = int(element.get("of-table", "0"))
        while len(tables) <= number:
            tables.append(_table(growing.tables[len(tables)], budget))
        _take(element, tables[number])
    for number in range(len(tables), len(growing.tables)):
        tables.append(_table(growing.tables[number], budget))
    styles = parse_part(archive, "styles.xml") if "styles.xml" in archive.namelist() else None
    formats, hidden = read_formats(growing.root, styles)
    for table, element in zip(tables, growing.tables, strict=True):
        if attribute(element, "style-name") in hidden:
            table.grid.state = "hidden"
    return [table.grid.done(formats) for table in tables]


def _table(element: Element, budget: CellBudget) -> _Table:
    return _Table(SheetGrid(attribute(element, "name"), budget))


def _take(element: Element, table: _Table) -> None:
    """Take one child of a table: a column, a row, or a group of either."""
    name = local_name(element.tag)
    if name == "table-column":
        _take_column(element, table)
    elif name == "table-row":
        _take_row(element, table)
    elif name in {"table-header-rows", "table-rows", "table-row-group"} or name.startswith(
        ("table-header-c", "table-col")
    ):
        for child in element:
            _take(child, table)


def _take_column(element: Element, table: _Table) -> None:
    count = _repeats(element, _COLUMNS)
    if element.get(_VISIBILITY) in {"collapse", "filter"}:
        table.grid.hide_columns(table.column, table.column + count - 1)
    room = max(0, table.grid.budget.limits.columns - len(table.styles))
    table.styles.extend([element.get(f"{_TABLE}default-cell-style-name", "")] * min(count, room))
    table.column += count


def _take_row(element: Element, table: _Table) -> None:
    count = _repeats(element, _ROWS)
    grid = table.grid
    values: list[CellValue] = []
    styles: list[str] = []
    column = 0
    for cell in element:
        if cell.tag != _CELL and cell.tag != _COVERED:
            continue
        times = _repeats(cell, _COLUMNS)
        value = _value(cell)
        if _COLUMNS_SPANNED in cell.attrib:
            _note_span(cell, table, column)
        if value is not None:
            times = min(times, grid.budget.limits.columns + 2)
            own = cell.get(_STYLE) or (table.styles[column] if column < len(table.styles) else "")
            styles += [""] * (column - len(values)) + [own] * times
            values += [None] * (column - len(values)) + [value] * times
            if _FORMULA in cell.attrib and looks_outside(cell.attrib[_FORMULA]):
                grid.formulas[table.row, column] = cell.attrib[_FORMULA]
        column += times
    visibility = element.get(_VISIBILITY)
    if visibility in {"collapse", "filter"}:
        grid.hidden_rows.update(range(table.row, min(table.row + count, LAST_ROW)))
        grid.filtered = grid.filtered or visibility == "filter"
    if values:
        for row in range(table.row, table.row + count):
            grid.add_row(row, list(values), styles)
    table.row += count


def _repeats(element: Element, name: str) -> int:
    stated = element.get(name)
    if stated is None:
        return 1
    return max(1, min(int(stated[:9]), LAST_ROW)) if stated.isascii() and stated.isdigit() else 1


def _note_span(cell: Element, table: _Table, column: int) -> None:
    rows, columns = _repeats(cell, _ROWS_SPANNED), _repeats(cell, _COLUMNS_SPANNED)
    if rows * columns > 1 and cell.tag == _CELL:
        table.grid.merge(table.row, column, table.row + rows - 1, column + columns - 1)


def _value(cell: Element) -> CellValue:
    kind, formula = cell.get(_KIND), cell.get(_FORMULA)
    if formula is None:
        if kind == "float" or kind == "percentage" or kind == "currency":
            return _finite(cell.get(_NUMBER, ""))
        if kind is None:
            return _text(cell) or None
    elif cell.get(_CALC_KIND) == "error" or _ERROR.fullmatch(_text(cell)):
        return CellError(_text(cell) or "#ERROR")
    elif kind is None:
        return _text(cell) or None if cell.find(_LINE) is not None else NOT_CALCULATED
    elif formula.endswith(_TRUTHS):
        return formula.endswith(_TRUTHS[0])
    return _stated_value(cell, kind or "")


def _stated_value(cell: Element, kind: str) -> CellValue:
    """Return the value of a cell that states its kind."""
    if kind == "string":
        return cell.get(f"{_OFFICE}string-value", _text(cell)) or None
    if kind == "date":
        return dt.datetime.fromisoformat(cell.attrib[f"{_OFFICE}date-value"]).replace(tzinfo=None)
    if kind == "time":
        return _time(cell.attrib[f"{_OFFICE}time-value"])
    if kind == "boolean":
        return cell.attrib[f"{_OFFICE}boolean-value"] == "true"
    return _finite(cell.get(_NUMBER, ""))


def _finite(stated: str) -> CellValue:
    number = float(stated)
    return number if number - number == 0.0 else CellError(stated)


def _time(stated: str) -> CellValue:
    """Return a time of day; a day or more is given as spreadsheets count it, from the end of 1899."""
    match = _TIME.fullmatch(stated)
    if not match or match[1]:
        return CellError("#####")
    days, hours, minutes, seconds = (int(match[n] or 0) for n in range(2, 6))
    fraction = float(f"0.{match[6] or 0}")
    span = dt.timedelta(days=days, hours=hours, minutes=minutes, seconds=seconds + fraction)
    moment = dt.datetime(1899, 12, 31) + span
    return moment.time() if span < dt.timedelta(days=1) else moment


def _text(cell: Element) -> str:
    return "\n".join((line.text or "") if not len(line) else "".join(_runs(line)) for line in cell.iterfind(_LINE))


def _runs(element: Element) -> Iterator[str]:
    """Yield the text of a paragraph, its counted spaces, tabs and line breaks included."""
    yield element.text or ""
    for child in element:
        name = local_name(child.tag)
        if name == "s":
            yield " " * min(_repeats(child, f"{_TEXT}c"), 1000)
        elif name == "tab":
            yield "\t"
        elif name == "line-break":
            yield "\n"
        elif name not in {"annotation", "note"}:
            yield from _runs(child)
        yield child.tail or ""
