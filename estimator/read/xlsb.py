"""An .xlsb workbook: the parts of an .xlsx as binary records instead of XML."""

from __future__ import annotations

import struct
import zipfile
from collections.abc import Iterator

from estimator.problems import files as said
from estimator.read.cells import CellError, CellValue, SheetCells
from estimator.read.number_formats import BUILT_IN_FORMATS, GENERAL, date_value, is_date_format
from estimator.read.preflight import FileRefusedError
from estimator.read.sheet_grid import CellBudget, SheetGrid
from estimator.read.xlsx import book_part_of, part_links, target_of
from estimator.read.xlsx_cell import BookFacts

__all__ = ["read_xlsb", "records"]

# Record numbers by [MS-XLSB] 2.3.1 (alphabetical list of records).
_ROW, _BLANK, _RK, _ERROR, _BOOL, _REAL, _TEXT, _SHARED = 0, 1, 2, 3, 4, 5, 6, 7
_FORMULA_TEXT, _FORMULA_NUMBER, _FORMULA_BOOL, _FORMULA_ERROR, _RICH = 8, 9, 10, 11, 62
_STRING_ITEM, _FORMAT, _XF, _COLUMN, _BOOK, _SHEET = 19, 44, 47, 60, 153, 156
_FILTER_COLUMN, _MERGE, _BEGIN_XFS, _END_XFS = 163, 176, 617, 618
_CELLS = {
    _RK,
    _ERROR,
    _BOOL,
    _REAL,
    _TEXT,
    _SHARED,
    _FORMULA_TEXT,
    _FORMULA_NUMBER,
    _FORMULA_BOOL,
    _FORMULA_ERROR,
    _RICH,
}

_ERRORS = {
    0x00: "#NULL!", 0x07: "#DIV/0!", 0x0F: "#VALUE!", 0x17: "#REF!", 0x1D: "#NAME?", 0x24: "#NUM!", 0x2A: "#N/A",
    0x2B: "#GETTING_DATA",
}  # fmt: skip
_STATES = {0: "visible", 1: "hidden", 2: "very hidden"}


def read_xlsb(archive: zipfile.ZipFile, budget: CellBudget) -> list[SheetCells]:
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
        Worksheets; chart sheets and macro sheets have no cells and are left out.

    Raises
    ------
    FileRefusedError
        When a part is missing or a record does not fit.

    Notes
    -----
    Formulas are not taken apart, so a value from another file cannot be told from others. Source: [MS-XLSB] 2.1, 2.4.
    """
    book_part = book_part_of(archive)
    links = part_links(archive, book_part)
    formats = _formats(archive, target_of(links, "styles"))
    book = list(records(_part(archive, book_part)))
    facts = BookFacts(
        _strings(archive, target_of(links, "sharedStrings")),
        frozenset(style for style, number_format in formats.items() if is_date_format(number_format)),
        any(kind == _BOOK and data[0] & 1 for kind, data in book),
    )
    shown = {style: number_format for style, number_format in formats.items() if number_format != GENERAL}
    sheets = []
    for data in (data for kind, data in book if kind == _SHEET):
        state = struct.unpack_from("<I", data)[0]
        link, end = _wide_text(data, 8)
        kind, target = links.get(link, ("", ""))
        if kind == "worksheet":
            grid = SheetGrid(_wide_text(data, end)[0], budget, _STATES.get(state, "hidden"))
            sheets.append(_read_sheet(_part(archive, target), grid, facts).done(shown))
    return sheets


def records(part: bytes) -> Iterator[tuple[int, bytes]]:
    """Yield each record of a binary part: its number and its bytes; a part that ends inside a record is a problem."""
    at, end = 0, len(part)
    while at < end:
        kind, at = _varying(part, at, 2)
        size, at = _varying(part, at, 4)
        if at + size > end:
            raise FileRefusedError(said.FILE_DAMAGED, reason="a part ends inside a record")
        yield kind, part[at : at + size]
        at += size


def _varying(part: bytes, at: int, most: int) -> tuple[int, int]:
    """Return a number of at most so many bytes of seven bits, lowest first, and where it ends."""
    number = 0
    for place in range(most):
        if at >= len(part):
            raise FileRefusedError(said.FILE_DAMAGED, reason="a part ends inside a record")
        byte = part[at]
        at += 1
        number |= (byte & 0x7F) << (7 * place)
        if not byte & 0x80:
            break
    return number, at


def _part(archive: zipfile.ZipFile, name: str) -> bytes:
    try:
        return archive.read(name)
    except KeyError:
        raise FileRefusedError(said.FILE_DAMAGED, reason=f"part '{name}' is missing") from None


def _wide_text(data: bytes, at: int) -> tuple[str, int]:
    """Return a counted UTF-16 text and where it ends; a count of all ones is no text."""
    (count,) = struct.unpack_from("<I", data, at)
    if count == 0xFFFFFFFF:
        return "", at + 4
    end = at + 4 + 2 * count
    if end > len(data):
        raise FileRefusedError(said.FILE_DAMAGED, reason="a text is longer than its record")
    return data[at + 4 : end].decode("utf-16-le", "replace"), end


def _strings(archive: zipfile.ZipFile, part: str) -> list[str]:
    if not part:
        return []
    return [_wide_text(data, 1)[0] for kind, data in records(_part(archive, part)) if kind == _STRING_ITEM]


def _formats(archive: zipfile.ZipFile, part: str) -> dict[str, str]:
    """Return the number format of each cell style, by its number as text."""
    codes = dict(BUILT_IN_FORMATS)
    styles: list[int] = []
    inside = False
    for kind, data in records(_part(archive, part)) if part else ():
        if kind == _FORMAT:
            codes[struct.unpack_from("<H", data)[0]] = _wide_text(data, 2)[0]
        elif kind in {_BEGIN_XFS, _END_XFS}:
            inside = kind == _BEGIN_XFS
        elif kind == _XF and inside:
            styles.append(struct.unpack_from("<H", data, 2)[0])
    return {str(number): codes.get(code, GENERAL) for number, code in enumerate(styles)}


def _read_sheet(part: bytes, grid: SheetGrid, facts: BookFacts) -> SheetGrid:
    row = -1
    values: list[CellValue] = []
    styles: list[str] = []
    for kind, data in records(part):
        if kind == _ROW:
            grid.add_row(row, values, styles)
            values, styles = [], []
            (row,) = struct.unpack_from("<I", data)
            if data[11] & 0x10:
                grid.hidden_rows.add(row)
        elif kind in _CELLS:
            _take_cell(kind, data, row, grid, facts, values, styles)
        elif kind == _MERGE:
            first_row, last_row, first_column, last_column = struct.unpack_from("<4I", data)
            grid.merge(first_row, first_column, last_row, last_column)
        elif kind == _COLUMN and struct.unpack_from("<H", data, 16)[0] & 1:
            grid.hide_columns(*struct.unpack_from("<2I", data))
        elif kind == _FILTER_COLUMN:
            grid.filtered = True
    grid.add_row(row, values, styles)
    return grid


def _take_cell(
    kind: int, data: bytes, row: int, grid: SheetGrid, facts: BookFacts, values: list[CellValue], styles: list[str]
) -> None:
    column, style = struct.unpack_from("<2I", data)
    style_name = str(style & 0xFFFFFF)
    value = _value(kind, data, style_name, facts)
    if value is None:
        return
    if not len(values) <= column < 16_384:
        raise grid.damaged("its cells are out of order, stand twice or lie beyond the end", row)
    styles.extend([""] * (column - len(values)))
    values.extend([None] * (column - len(values)))
    values.append(value)
    styles.append(style_name)


def _value(kind: int, data: bytes, style: str, facts: BookFacts) -> CellValue:
    if kind in {_ERROR, _FORMULA_ERROR}:
        return CellError(_ERRORS.get(data[8], "#ERROR"))
    if kind in {_BOOL, _FORMULA_BOOL}:
        return bool(data[8])
    if kind in {_TEXT, _FORMULA_TEXT}:
        return _wide_text(data, 8)[0] or None
    if kind == _RICH:
        return _wide_text(data, 9)[0] or None
    if kind == _SHARED:
        (index,) = struct.unpack_from("<I", data, 8)
        if index >= len(facts.strings):
            raise FileRefusedError(said.FILE_DAMAGED, reason=f"there is no shared text {index}")
        return facts.strings[index] or None
    number = _packed(data) if kind == _RK else struct.unpack_from("<d", data, 8)[0]
    if number - number != 0.0:
        return CellError(str(number))
    return date_value(number, epoch_1904=facts.epoch_1904) if style in facts.date_styles else number


def _packed(data: bytes) -> float:
    """Return a number of 30 bits: a whole number or the upper half of a float, either divided by 100 or not."""
    (packed,) = struct.unpack_from("<i", data, 8)
    if packed & 2:
        number = float(packed >> 2)
    else:
        (number,) = struct.unpack("<d", struct.pack("<Ii", 0, packed & ~3))
    return number / 100 if packed & 1 else number
