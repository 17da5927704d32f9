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
from estimator.read.xml_parts import Element, GrowingPart, attribute, children, local_name, parse_part

__all__ = ["read_ods"]

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
    count = _repeats(element, "number-columns-repeated")
    if attribute(element, "visibility") in {"collapse", "filter"}:
        table.grid.hide_columns(table.column, table.column + count - 1)
    limit = table.grid.budget.limits.columns
    table.styles.extend([attribute(element, "default-cell-style-name")] * min(count, max(0, limit - len(table.styles))))
    table.column += count


def _take_row(element: Element, table: _Table) -> None:
    count = _repeats(element, "number-rows-repeated")
    grid = table.grid
    values: list[CellValue] = []
    styles: list[str] = []
    column = 0
    for cell in element:
        if local_name(cell.tag) not in {"table-cell", "covered-table-cell"}:
            continue
        times = _repeats(cell, "number-columns-repeated")
        _note_span(cell, table, column)
        value = _value(cell)
        if value is not None:
            times = min(times, grid.budget.limits.columns + 2)
            own = attribute(cell, "style-name") or (table.styles[column] if column < len(table.styles) else "")
            styles += [""] * (column - len(values)) + [own] * times
            values += [None] * (column - len(values)) + [value] * times
            _note_formula(cell, table, column)
        column += times
    visibility = attribute(element, "visibility")
    if visibility in {"collapse", "filter"}:
        grid.hidden_rows.update(range(table.row, min(table.row + count, LAST_ROW)))
        grid.filtered = grid.filtered or visibility == "filter"
    if values:
        for row in range(table.row, table.row + count):
            grid.add_row(row, list(values), styles)
    table.row += count


def _repeats(element: Element, name: str) -> int:
    stated = attribute(element, name, "1")
    return max(1, min(int(stated), LAST_ROW)) if stated.isascii() and stated.isdigit() else 1


def _note_span(cell: Element, table: _Table, column: int) -> None:
    rows, columns = _repeats(cell, "number-rows-spanned"), _repeats(cell, "number-columns-spanned")
    if rows * columns > 1 and local_name(cell.tag) == "table-cell":
        table.grid.merge(table.row, column, table.row + rows - 1, column + columns - 1)


def _note_formula(cell: Element, table: _Table, column: int) -> None:
    formula = attribute(cell, "formula")
    if formula and looks_outside(formula):
        table.grid.formulas[table.row, column] = formula


def _value(cell: Element) -> CellValue:
    if not cell.attrib and not len(cell):
        return None
    stated = {local_name(key): value for key, value in cell.items()}
    kinds = {value for key, value in cell.items() if local_name(key) == "value-type"}
    text = _text(cell)
    if "error" in kinds or ("formula" in stated and _ERROR.fullmatch(text)):
        return CellError(text or "#ERROR")
    if not kinds:
        return NOT_CALCULATED if "formula" in stated and not children(cell, "p") else text or None
    if stated.get("formula", "").endswith(_TRUTHS):
        return stated["formula"].endswith(_TRUTHS[0])
    if kinds & {"float", "percentage", "currency"}:
        return _number(stated.get("value", ""))
    if "date" in kinds:
        return dt.datetime.fromisoformat(stated["date-value"]).replace(tzinfo=None)
    if "time" in kinds:
        return _time(stated["time-value"])
    if "boolean" in kinds:
        return stated["boolean-value"] == "true"
    return stated.get("string-value", text) or None


def _number(stated: str) -> CellValue:
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
    return "\n".join("".join(_runs(line)) for line in children(cell, "p"))


def _runs(element: Element) -> Iterator[str]:
    """Yield the text of a paragraph, its counted spaces, tabs and line breaks included."""
    yield element.text or ""
    for child in element:
        name = local_name(child.tag)
        if name == "s":
            yield " " * min(_repeats(child, "c"), 1000)
        elif name == "tab":
            yield "\t"
        elif name == "line-break":
            yield "\n"
        elif name not in {"annotation", "note"}:
            yield from _runs(child)
        yield child.tail or ""
