"""One sheet of an .xlsx: its XML becomes cells.

Files as spreadsheet programs write them have one plain form for a cell; a regular expression takes such rows apart
faster than an XML parser hands them over, and sees for itself when anything is not plain. Then, and only then, the
sheet is read again element by element. Both ways give the same cells; a test holds them to it.
"""

from __future__ import annotations

import codecs
import re
import zipfile
from collections.abc import Iterator
from xml.etree import ElementTree

from estimator.read.cells import CellError, CellValue
from estimator.read.sheet_grid import SheetGrid
from estimator.read.xlsx_cell import BookFacts, CellMaker, ColumnNumbers, cell_place, row_number, text_of
from estimator.read.xml_parts import Element, GrowingPart, attribute, children, local_name, open_part

__all__ = ["NotPlainError", "read_sheet_elements", "read_sheet_plain", "read_sheet_xml"]


class NotPlainError(Exception):
    """The sheet's XML has a form that only an XML parser may take apart."""


_CELL = re.compile(
    r'<c r="([A-Z]{1,3})([0-9]{1,7})"([^<>/]*)(?:/>|><v>([^<_]*)</v></c>|>('
    r"(?:<f[^<>]*?(?:/>|>[^<]*</f>))?(?:<v>[^<]*</v>|<v ?/>|<is><t[^<>]*>[^<]*</t></is>)?)</c>)"
    r"|<"
)
"""A plain cell: letters, row, attributes, then a stored value or what else it holds. All are empty for another tag."""
_INSIDE = re.compile(r"(?:<f([^<>]*?)(?:/>|>([^<]*)</f>))?(?:<v>([^<]*)</v>|(<v ?/>)|<is><t[^<>]*>([^<]*)</t></is>)?")
_ROW = re.compile(r'\s*<row(?: r="([0-9]{1,7})")?((?: [^<>]*?)?)(/?)>')
_ATTRIBUTE = re.compile(r' ([\w:]+)="([^"<>&]*)"')
_NOT_XML = re.compile("[\x00-\x08\x0b\x0c\r\x0e-\x1f\ufffe\uffff]")
_UTF8 = {"utf-8", "utf8", "us-ascii", "ascii"}
_DATE = "number in a date style"


class _Attributes(dict[str, tuple[str, str]]):
    """Style and kind of a cell by the text of its attributes, of which a file has few."""

    def __init__(self, date_styles: frozenset[str]) -> None:
        self._date_styles = date_styles

    def __missing__(self, text: str) -> tuple[str, str]:
        pairs = _ATTRIBUTE.findall(text)
        if "".join(f' {name}="{value}"' for name, value in pairs) != text.rstrip():
            raise NotPlainError
        stated = dict(pairs)
        style, kind = stated.get("s", ""), stated.get("t", "n")
        self[text] = style, _DATE if kind == "n" and style in self._date_styles else kind
        return self[text]


def read_sheet_xml(archive: zipfile.ZipFile, part: str, grid: SheetGrid, facts: BookFacts) -> SheetGrid:
    """Return the cells of a sheet part, by the plain way where its form allows.

    Parameters
    ----------
    archive : zipfile.ZipFile
        The open file, already looked at.
    part : str
        Name of the sheet's part.
    grid : SheetGrid
        An empty grid with the sheet's name and state.
    facts : BookFacts
        Shared strings, date styles, epoch.

    Returns
    -------
    SheetGrid
        The cells; a grid of its own when the sheet had to be read twice.

    Notes
    -----
    The sheet's claimed dimension is never believed. Source: ECMA-376 part 1, 18.3.1 (worksheets).
    """
    spent = grid.budget.cells
    try:
        return read_sheet_plain(archive, part, grid, facts)
    except NotPlainError:
        grid.budget.cells = spent
        return read_sheet_elements(archive, part, SheetGrid(grid.name, grid.budget, grid.state), facts)


def read_sheet_plain(archive: zipfile.ZipFile, part: str, grid: SheetGrid, facts: BookFacts) -> SheetGrid:
    """Read a sheet whose rows all have the plain form; raise NotPlainError at the first that has not."""
    maker, columns, attributes = CellMaker(grid, facts), ColumnNumbers(), _Attributes(facts.date_styles)
    around: list[str] = []
    row = -1
    for piece, is_rows in _pieces(archive, part):
        if not is_rows:
            around.append(piece)
            continue
        if not piece.isprintable() and _NOT_XML.search(piece):
            raise NotPlainError
        row, start = _open_rows(piece, row, grid)
        try:
            _read_cells(_CELL.findall(piece, start), row, maker, columns, attributes)
        except ValueError as error:
            raise NotPlainError from error
    return _take_plain_surroundings("".join(around), grid)


def _take_plain_surroundings(xml: str, grid: SheetGrid) -> SheetGrid:
    try:
        return _take_surroundings(ElementTree.fromstring(xml.encode()), grid)
    except ElementTree.ParseError as error:
        raise NotPlainError from error


def read_sheet_elements(archive: zipfile.ZipFile, part: str, grid: SheetGrid, facts: BookFacts) -> SheetGrid:
    """Read a sheet of any form, element by element."""
    maker = CellMaker(grid, facts)
    growing = GrowingPart(archive, part, "sheetData")
    row = -1
    for element in growing:
        if local_name(element.tag) != "row":
            continue
        number = attribute(element, "r")
        row = row_number(number) if number else row + 1
        if attribute(element, "hidden") in {"1", "true"}:
            grid.hidden_rows.add(row)
        _read_row_element(element, row, maker)
    return _take_surroundings(growing.root, grid)


def _pieces(archive: zipfile.ZipFile, part: str) -> Iterator[tuple[str, bool]]:
    """Yield the part up to its rows, then each stretch up to ``</row>``, then the part behind them; True marks rows."""
    decoder = codecs.getincrementaldecoder("utf-8-sig")()
    chunks = (decoder.decode(chunk) for chunk in open_part(archive, part))
    try:
        head, text = _head(chunks)
        yield head, False
        while "</sheetData>" not in text:
            *whole, text = text.split("</row>")
            yield from ((piece, True) for piece in whole)
            text += next(chunks)
        rows, end, behind = text.partition("</sheetData>")
        yield from ((piece, True) for piece in rows.split("</row>"))
        yield end + behind + "".join(chunks), False
    except (UnicodeDecodeError, StopIteration) as error:
        raise NotPlainError from error


def _head(chunks: Iterator[str]) -> tuple[str, str]:
    """Return the part up to and with ``<sheetData>``, and what has been read behind it."""
    text = next(chunks)
    while "<sheetData>" not in text:
        text += next(chunks)
    head, opened, rest = text.partition("<sheetData>")
    declared = re.match(r"<\?xml[^>]*encoding=[\"']([^\"']+)", head)
    if declared and declared[1].casefold() not in _UTF8:
        raise NotPlainError
    return head + opened, rest


def _open_rows(piece: str, row: int, grid: SheetGrid) -> tuple[int, int]:
    """Take a piece's opening tags, of rows without cells and one with; return the row and where its cells begin."""
    start, end = 0, len(piece)
    while start < end:
        opened = _ROW.match(piece, start)
        if not opened:
            break
        number, others, empty = opened.groups()
        if " r=" in others:
            raise NotPlainError
        row = int(number) - 1 if number else row + 1
        if " hidden=" in others and (' hidden="1"' in others or ' hidden="true"' in others):
            grid.hidden_rows.add(row)
        start = opened.end()
        if not empty:
            return row, start
    if piece[start:].strip():
        raise NotPlainError
    return row, len(piece)


def _read_cells(
    found: list[tuple[str, ...]], row: int, maker: CellMaker, columns: ColumnNumbers, attributes: _Attributes
) -> None:
    """Read the plain cells of one row. The hot loop of reading: numbers and shared texts are dealt with on the spot."""
    number, strings, dates = str(row + 1), maker.facts.strings_by_number, maker.dates
    values: list[CellValue] = []
    styles: list[str] = []
    width = 0
    value: CellValue
    for letters, stated_row, stated, typed, inside in found:
        if stated_row != number:
            raise NotPlainError
        if not typed and not inside:
            continue
        style, kind = attributes[stated]
        column = columns[letters]
        if kind == "n" and typed:
            value = float(typed)
            if value - value != 0.0:
                value = CellError(typed)
        elif kind == "s" and typed in strings:
            value = strings[typed]
        elif kind is _DATE and typed in dates:
            value = dates[typed]
        else:
            value = _other_value(row, column, kind, style, typed, inside, maker)
            if value is None:
                continue
        if column != width:
            if column < width:
                raise maker.grid.damaged("its cells are out of order or stand twice", row, column)
            values.extend([None] * (column - width))
            styles.extend([""] * (column - width))
            width = column
        values.append(value)
        styles.append(style)
        width += 1
    maker.grid.add_row(row, values, styles)


def _other_value(row: int, column: int, kind: str, style: str, typed: str, inside: str, maker: CellMaker) -> CellValue:
    """Return the value of a plain cell that is neither a bare number nor a bare shared text."""
    stored: str | None = typed
    if inside:
        parts = _INSIDE.fullmatch(inside)
        if not parts:
            raise NotPlainError
        attributes, formula, *stored_forms = parts.groups()
        if attributes is not None:
            shared = dict(_ATTRIBUTE.findall(attributes)).get("si", "")
            maker.note_formula(row, column, _decoded(formula or ""), shared)
        full, empty, text = stored_forms
        stored = "" if empty else full if full is not None else text
    stored = _decoded(stored) if stored else stored
    if kind is not _DATE:
        return maker.value(row, column, kind=kind, style=style, stored=stored, has_formula=inside.startswith("<f"))
    value = maker.value(row, column, kind="n", style=style, stored=stored, has_formula=inside.startswith("<f"))
    if typed:
        maker.dates[typed] = value
    return value


def _decoded(text: str) -> str:
    """Return XML character data as text."""
    if "&" not in text:
        return text
    try:
        return ElementTree.fromstring(f"<t>{text}</t>").text or ""
    except ElementTree.ParseError as error:
        raise NotPlainError from error


def _read_row_element(element: Element, row: int, maker: CellMaker) -> None:
    values: list[CellValue] = []
    styles: list[str] = []
    column = -1
    for cell in element:
        if local_name(cell.tag) != "c":
            continue
        reference = cell.get("r", "")
        at, column = cell_place(reference) if reference else (row, column + 1)
        if at != row:
            raise maker.grid.damaged(f"it holds a cell called '{reference}'", row)
        style = cell.get("s", "")
        value = _element_value(cell, row, column, style, maker)
        if value is None:
            continue
        if column < len(values):
            raise maker.grid.damaged("its cells are out of order or stand twice", row, column)
        styles.extend([""] * (column - len(values)))
        values.extend([None] * (column - len(values)))
        values.append(value)
        styles.append(style)
    maker.grid.add_row(row, values, styles)


def _element_value(cell: Element, row: int, column: int, style: str, maker: CellMaker) -> CellValue:
    parts = {local_name(part.tag): part for part in cell}
    formula = parts.get("f")
    if formula is not None:
        maker.note_formula(row, column, formula.text or "", formula.get("si", ""))
    if "is" in parts and "v" not in parts:
        return text_of(parts["is"]) or None
    stored = (parts["v"].text or "") if "v" in parts else None
    kind = cell.get("t", "")
    return maker.value(row, column, kind=kind, style=style, stored=stored, has_formula=formula is not None)


def _take_surroundings(root: Element, grid: SheetGrid) -> SheetGrid:
    """Take what stands around the rows: hidden columns, merged ranges, a filter."""
    for column in children(root, "cols", "col"):
        if attribute(column, "hidden") in {"1", "true"}:
            grid.hide_columns(int(attribute(column, "min")) - 1, int(attribute(column, "max")) - 1)
    for merged in children(root, "mergeCells", "mergeCell"):
        first, _, last = attribute(merged, "ref").partition(":")
        grid.merge(*cell_place(first), *cell_place(last or first))
    grid.filtered = bool(children(root, "autoFilter", "filterColumn"))
    return grid
