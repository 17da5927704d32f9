"""The rows of an .xlsx sheet in the plain form that spreadsheet programs write, taken apart by regular expressions.

Every tag is accounted for; at the first that is not plain this way gives up, and the sheet is read element by element.
Rows of a list are alike, so a row like the one before is taken in one match (``xlsx_shape``).
"""

from __future__ import annotations

import codecs
import re
import zipfile
from collections.abc import Iterator
from xml.etree import ElementTree

from estimator.read.cells import CellError, CellValue
from estimator.read.sheet_grid import SheetGrid
from estimator.read.xlsx_cell import BookFacts, CellMaker, row_number
from estimator.read.xlsx_shape import FORMULA, NotPlainError, PlainCells, RowShape
from estimator.read.xml_parts import open_part

__all__ = ["NotPlainError", "read_plain_rows"]

_CELL = re.compile(
    r'<c r="([A-Z]{1,3})([0-9]{1,7})"([^<>/]*)'
    rf"(?:/>|>({FORMULA})?<v>([^<]*)</v></c>|>((?:{FORMULA})?(?:<v ?/>|<is><t[^<>]*>[^<]*</t></is>)?)</c>)"
    r"|<"
)
"""A cell: letters, row, attributes, formula, stored value, or what else it holds; all empty at any other tag."""
_INSIDE = re.compile(rf"({FORMULA})?(?:(<v ?/>)|<is><t[^<>]*>([^<]*)</t></is>)?")
_FORMULA_PARTS = re.compile(r"<f([^<>]*?)(?:/>|>([^<]*)</f>)")
_ATTRIBUTE = re.compile(r' ([\w:]+)="([^"<>&]*)"')
_ROW = re.compile(r'\s*<row(?: r="([0-9]{1,7})")?([^<>]*?)(/?)>')
_NOT_XML = re.compile("[\x00-\x08\x0b\x0c\r\x0e-\x1f\ufffe\uffff]")
_OUTSIDE_SIGNS = ("[", "|", "file:", "WEBSERVICE", "RTD", "DDE")
_UTF8 = {"utf-8", "utf8", "us-ascii", "ascii"}
_MOST_PENDING = 16 << 20
"""A row longer than this is left to the other way, which refuses it."""


def read_plain_rows(archive: zipfile.ZipFile, part: str, grid: SheetGrid, facts: BookFacts) -> ElementTree.Element:
    """Read a sheet's rows into a grid and return the sheet's root without them.

    Parameters
    ----------
    archive : zipfile.ZipFile
        The open file, already looked at.
    part : str
        Name of the sheet's part.
    grid : SheetGrid
        An empty grid.
    facts : BookFacts
        Shared strings, date styles, epoch.

    Returns
    -------
    Element
        What stands around the rows.

    Raises
    ------
    NotPlainError
        When anything is not in the plain form.

    Notes
    -----
    What is plain was settled by what the common programs and libraries write. Source: ECMA-376 part 1, 18.3.1.
    """
    rows = _PlainRows(grid, facts)
    around: list[str] = []
    for text, is_rows in _blocks(archive, part):
        if is_rows:
            rows.read(text)
        else:
            around.append(text)
    try:
        return ElementTree.fromstring("".join(around).encode())
    except ElementTree.ParseError as error:
        raise NotPlainError from error


def _blocks(archive: zipfile.ZipFile, part: str) -> Iterator[tuple[str, bool]]:
    """Yield the part up to its rows, then stretches of whole rows, then the part behind them; True marks rows."""
    decoder = codecs.getincrementaldecoder("utf-8-sig")()
    chunks = (decoder.decode(chunk) for chunk in open_part(archive, part))
    try:
        head, text = _head(chunks)
        yield head, False
        while "</sheetData>" not in text:
            end = text.rfind("</row>") + len("</row>")
            if end >= len("</row>"):
                yield text[:end], True
                text = text[end:]
            text = _longer(text, chunks)
        rows, end_tag, behind = text.partition("</sheetData>")
        yield rows, True
        yield end_tag + behind + "".join(chunks), False
    except (UnicodeDecodeError, StopIteration) as error:
        raise NotPlainError from error


def _head(chunks: Iterator[str]) -> tuple[str, str]:
    """Return the part up to and with ``<sheetData>``, and what has been read behind it."""
    text = ""
    while "<sheetData>" not in text:
        text = _longer(text, chunks)
    head, opened, rest = text.partition("<sheetData>")
    declared = re.match(r"<\?xml[^>]*encoding=[\"']([^\"']+)", head)
    if declared and declared[1].casefold() not in _UTF8:
        raise NotPlainError
    return head + opened, rest


def _longer(text: str, chunks: Iterator[str]) -> str:
    text += next(chunks)
    if len(text) > _MOST_PENDING:
        raise NotPlainError
    return text


class _PlainRows:
    """Reads stretches of whole rows, one after the other."""

    def __init__(self, grid: SheetGrid, facts: BookFacts) -> None:
        self.grid, self.maker, self.cells = grid, CellMaker(grid, facts), PlainCells(facts)
        self.shape = RowShape(self.cells)
        self.row = -1

    def read(self, block: str) -> None:
        """Read a stretch of rows."""
        if not block.isprintable() and _NOT_XML.search(block):
            raise NotPlainError
        watched = self.maker.shares_outside or any(sign in block for sign in _OUTSIDE_SIGNS)
        for piece in block.split("</row>"):
            number, start = self._open_rows(piece)
            alike = None if watched else self.shape.match(piece, start, number)
            if alike is not None:
                self.grid.add_row(self.row, alike, self.shape.styles)
            elif start < len(piece):
                found = _CELL.findall(piece, start)
                self._read_row(found, number, watched=watched)
                self.shape.learn(found)

    def _open_rows(self, piece: str) -> tuple[str, int]:
        """Take a piece's opening tags, of rows without cells and one with; return its number and where cells begin."""
        start, end = 0, len(piece)
        while start < end:
            opened = _ROW.match(piece, start)
            if not opened:
                break
            number, others, empty = opened.groups()
            if others and (" r=" in others or " hidden=" in others):
                self._note_hidden(number, others)
            self.row = row_number(number) if number else self.row + 1
            start = opened.end()
            if not empty:
                return number or str(self.row + 1), start
        if piece[start:].strip():
            raise NotPlainError
        return "", end

    def _note_hidden(self, number: str | None, others: str) -> None:
        if " r=" in others:
            raise NotPlainError
        if ' hidden="1"' in others or ' hidden="true"' in others:
            self.grid.hidden_rows.add(row_number(number) if number else self.row + 1)

    def _read_row(self, found: list[tuple[str, ...]], number: str, *, watched: bool) -> None:
        """Read the cells of one row, whatever plain form each has."""
        values: list[CellValue] = []
        styles: list[str] = []
        for letters, stated_row, stated, formula, typed, inside in found:
            if stated_row != number:
                raise NotPlainError
            column = self.cells.columns[letters]
            if watched and formula:
                self._note_formula(column, formula)
            if not (typed or formula or inside):
                continue
            style, kind = self.cells.attributes[stated]
            value = self._value(column, kind, style, formula, typed, inside)
            if value is None:
                continue
            if column < len(values):
                raise NotPlainError
            if column > len(values):
                styles.extend([""] * (column - len(values)))
                values.extend([None] * (column - len(values)))
            values.append(value)
            styles.append(style)
        self.grid.add_row(self.row, values, styles)

    def _value(self, column: int, kind: str, style: str, formula: str, typed: str, inside: str) -> CellValue:
        """Return a cell's value: bare numbers and shared texts on the spot, the rest as the other way does."""
        if typed and kind == "n" and style not in self.maker.facts.date_styles and "_" not in typed:
            try:
                number = float(typed)
            except ValueError as error:
                raise NotPlainError from error
            return number if number - number == 0.0 else CellError(typed)
        stored: str | None = typed
        if inside:
            parts = _INSIDE.fullmatch(inside)
            if not parts:
                raise NotPlainError
            formula, empty, stored = parts[1], parts[2], parts[3]
            stored = "" if empty else stored
            if formula:
                self._note_formula(column, formula)
        stored = _decoded(stored) if stored else stored
        return self.maker.value(self.row, column, kind=kind, style=style, stored=stored, has_formula=bool(formula))

    def _note_formula(self, column: int, formula: str) -> None:
        parts = _FORMULA_PARTS.fullmatch(formula)
        if not parts:
            raise NotPlainError
        shared = dict(_ATTRIBUTE.findall(parts[1])).get("si", "")
        self.maker.note_formula(self.row, column, _decoded(parts[2] or ""), shared)


def _decoded(text: str) -> str:
    """Return XML character data as text."""
    if "&" not in text:
        return text
    try:
        return ElementTree.fromstring(f"<t>{text}</t>").text or ""
    except ElementTree.ParseError as error:
        raise NotPlainError from error
