"""Put new cells into one sheet of somebody else's workbook, and leave every other byte of its parts as it was.

The sheet's markup is looked through once for the places of rows and cells; the new cells are spliced in between.
Nothing is loaded and saved again, so pictures, charts, macros, text styles and comments stay whole.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from html import escape
from xml.parsers import expat

from xlsxwriter.utility import xl_cell_to_rowcol, xl_col_to_name

from estimator.write.plain_text import plain_text

__all__ = ["NewCell", "SheetPlaces", "find_places", "spliced"]


@dataclass(frozen=True, slots=True)
class NewCell:
    """What a new cell holds and the index of its style in the workbook."""

    value: str | float
    style: int = 0


@dataclass(slots=True)
class _Cell:
    start: int
    style: int
    end: int = 0
    filled: bool = False
    worked: bool = False
    """Whether it holds a formula."""


@dataclass(slots=True)
class _Row:
    number: int
    start: int
    """Offset of the row's opening tag."""
    end: int = 0
    """Offset just behind the row."""
    cells: dict[int, _Cell] = field(default_factory=dict)
    """By column from 0."""


@dataclass(slots=True)
class SheetPlaces:
    """Where rows and cells stand in a sheet's markup."""

    rows: dict[int, _Row] = field(default_factory=dict)
    """By row number as the spreadsheet counts, from 1."""
    last_column: int = -1
    """Rightmost column, from 0, that a filled cell or a merged range reaches."""
    prefix: str = ""
    """Namespace prefix of the markup with its colon, as ``x:``."""

    def style(self, row: int, column: int) -> int:
        """Return the style of a cell, 0 where there is none."""
        cell = self.rows[row].cells.get(column) if row in self.rows else None
        return cell.style if cell else 0


def find_places(markup: bytes) -> SheetPlaces:
    """Return where rows and cells stand.

    Parameters
    ----------
    markup : bytes
        A worksheet part.

    Returns
    -------
    SheetPlaces

    Raises
    ------
    ValueError
        When the markup is broken, holds a document type, or is not written in bytes that start as ASCII does.

    Notes
    -----
    Source: definition; ECMA-376 part 1, 18.3.1.
    """
    if b"\x00" in markup[:4] or markup[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise ValueError("sheet markup of two bytes a character is not patched")
    finder = _Finder(markup)
    try:
        finder.parser.Parse(markup, True)
    except expat.ExpatError as error:
        raise ValueError(f"broken sheet markup: {error}") from error
    return finder.places


def spliced(
    markup: bytes,
    places: SheetPlaces,
    cells: Mapping[tuple[int, int], NewCell],
    *,
    typing: bool = False,
    heights: Mapping[int, float] | None = None,
) -> bytes:
    """Return the sheet's markup with new cells in it.

    Parameters
    ----------
    markup : bytes
        A worksheet part.
    places : SheetPlaces
        What ``find_places`` returned for it.
    cells : mapping from (row from 1, column from 0) to NewCell
        New cells; the style of a cell that is there is kept unless a new one is given.
    typing : bool
        Whether filled cells are typed over and rows that are not there are made, as a person would; else both are
        refused.
    heights : mapping of int to float, optional
        Least height of rows that get new cells [points]; a row that is higher stays so.

    Returns
    -------
    bytes

    Raises
    ------
    KeyError
        When a row is not in the sheet.
    ValueError
        When a cell is filled already, or holds a formula.

    Notes
    -----
    The hint ``spans`` of a changed row is taken out, and ``dimension`` with it, since both are optional and would now
    be wrong.
    """
    by_row: dict[int, dict[int, NewCell]] = {}
    for (row, column), cell in cells.items():
        by_row.setdefault(row, {})[column] = cell
    edits: list[tuple[int, int, bytes]] = []
    for number, new in sorted(by_row.items()):
        if typing and number not in places.rows:
            edits.append(_new_row(places, number, new))
        else:
            height = (heights or {}).get(number, 0.0)
            edits += _row_edits(markup, places.rows[number], new, places.prefix, typing=typing, height=height)
    dimension = re.search(rb"<(?:\w+:)?dimension\b[^>]*?/>", markup[: edits[0][0]] if edits else b"")
    if dimension:
        edits.insert(0, (dimension.start(), dimension.end(), b""))
    pieces, at = [], 0
    for start, end, text in sorted(edits, key=lambda edit: edit[:2]):
        pieces += [markup[at:start], text]
        at = end
    return b"".join([*pieces, markup[at:]])


class _Finder:
    """Notes offsets while the parser walks the markup."""

    def __init__(self, markup: bytes) -> None:
        self.markup, self.places = markup, SheetPlaces()
        self.row: _Row | None = None
        self.next_row, self.next_column = 1, 0
        self.cell: _Cell | None = None
        self.parser = expat.ParserCreate()
        self.parser.StartDoctypeDeclHandler = _refuse_document_type
        self.parser.StartElementHandler = self.start
        self.parser.EndElementHandler = self.end

    def start(self, name: str, attributes: dict[str, str]) -> None:
        prefix, colon, local = name.rpartition(":")
        if local == "row":
            number = int(attributes.get("r", self.next_row))
            self.places.prefix = prefix + colon
            self.row = _Row(number, self.parser.CurrentByteIndex)
            self.next_row, self.next_column = number + 1, 0
        elif local == "c" and self.row is not None:
            column = xl_cell_to_rowcol(attributes["r"])[1] if "r" in attributes else self.next_column
            self.cell = _Cell(self.parser.CurrentByteIndex, int(attributes.get("s", 0)))
            self.row.cells[column] = self.cell
            self.next_column = column + 1
        elif local in ("v", "f", "is") and self.cell is not None:
            self.cell.filled = True
            self.cell.worked |= local == "f"
            self.places.last_column = max(self.places.last_column, self.next_column - 1)
        elif local == "mergeCell":
            last = attributes["ref"].rpartition(":")[2]
            self.places.last_column = max(self.places.last_column, xl_cell_to_rowcol(last)[1])

    def end(self, name: str) -> None:
        local = name.rpartition(":")[2]
        if local not in ("c", "row"):
            return
        if local == "c" and self.cell is not None:
            self.cell.end, self.cell = self._behind(self.cell.start), None
        elif local == "row" and self.row is not None:
            self.row.end = self._behind(self.row.start)
            self.places.rows[self.row.number] = self.row
            self.row = None

    def _behind(self, start: int) -> int:
        """Return the offset behind the element that ends now; for ``<c/>`` releases of the parser differ in where."""
        opening_end = self.markup.index(b">", start) + 1
        if self.markup[opening_end - 2 : opening_end] == b"/>":
            return opening_end
        return self.markup.index(b">", self.parser.CurrentByteIndex) + 1


def _new_row(places: SheetPlaces, number: int, new: Mapping[int, NewCell]) -> tuple[int, int, bytes]:
    """Return the edit that makes a row which is not there, before the first that comes after it."""
    after = [row.start for row in places.rows.values() if row.number > number]
    at = min(after) if after else max(row.end for row in places.rows.values())
    prefix = places.prefix
    made = b"".join(_cell_markup(number, column, new[column], prefix) for column in sorted(new))
    return at, at, f'<{prefix}row r="{number}">'.encode() + made + f"</{prefix}row>".encode()


def _row_edits(
    markup: bytes, row: _Row, new: Mapping[int, NewCell], prefix: str, *, typing: bool, height: float
) -> list[tuple[int, int, bytes]]:
    opening_end = markup.index(b">", row.start) + 1
    opening = markup[row.start : opening_end]
    empty = opening.endswith(b"/>")
    plain = _with_height(re.sub(rb'\s+spans="[^"]*"', b"", opening), height)
    closing = f"</{prefix}row>".encode()
    if empty:
        made = b"".join(_cell_markup(row.number, column, new[column], prefix) for column in sorted(new))
        return [(row.start, row.end, plain[:-2] + b">" + made + closing)]
    edits = [(row.start, opening_end, plain)]
    last = row.end - len(closing)
    for column in sorted(new):
        there, cell = row.cells.get(column), new[column]
        if there is not None and (there.worked or (there.filled and not typing)):
            raise ValueError(f"cell {xl_col_to_name(column)}{row.number} is filled already")
        if there is not None:
            cell = NewCell(cell.value, cell.style or there.style)
            start, end = there.start, there.end
        else:
            start = end = min((other.start for at, other in row.cells.items() if at > column), default=last)
        edits.append((start, end, _cell_markup(row.number, column, cell, prefix)))
    return edits


def _with_height(opening: bytes, height: float) -> bytes:
    """Return a row's opening tag with a height, unless it states one that is as high."""
    stated = re.search(rb'\sht="([\d.]+)"', opening)
    if not height or (stated and float(stated[1]) >= height):
        return opening
    bare = re.sub(rb'\s(?:ht|customHeight)="[^"]*"', b"", opening)
    end = len(bare) - (2 if bare.endswith(b"/>") else 1)
    return bare[:end] + f' ht="{height:g}" customHeight="1"'.encode() + bare[end:]


def _cell_markup(row: int, column: int, cell: NewCell, prefix: str) -> bytes:
    style = f' s="{cell.style}"' if cell.style else ""
    start = f'<{prefix}c r="{xl_col_to_name(column)}{row}"{style}'
    if isinstance(cell.value, str):
        text = escape(plain_text(cell.value), quote=False)
        made = f'<{prefix}is><{prefix}t xml:space="preserve">{text}</{prefix}t></{prefix}is>'
        # Other letters as numbers, so that they are right in whatever encoding the sheet is written.
        return f'{start} t="inlineStr">{made}</{prefix}c>'.encode("ascii", "xmlcharrefreplace")
    return f"{start}><{prefix}v>{cell.value!r}</{prefix}v></{prefix}c>".encode()


def _refuse_document_type(*_: object) -> None:
    raise ValueError("a sheet with a document type is not read")
