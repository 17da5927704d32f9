"""A customer's or the shop's own list with prices added to the right of its table, everything else as it was."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass

from estimator.problems import Place, Problem, WorkbookProblemsError
from estimator.problems import writing as codes
from estimator.write.patch_sheet import NewCell, SheetPlaces, find_places, spliced
from estimator.write.workbook_parts import part_of, repacked

__all__ = ["Filling", "fill_problems", "filled_workbook"]

_WORKBOOK_ENDINGS = (".xlsx", ".xlsm")
_NUMBER_FORMATS = {0: 3, 2: 4}
"""Built-in number formats (ECMA-376 part 1, 18.8.30) by decimals: #,##0 and #,##0.00; General for others."""
_NEW_WIDTH = 14
_LAST_COLUMN = 16_383


@dataclass(frozen=True, slots=True)
class Filling:
    """Columns to add to one sheet."""

    sheet: str
    heading_row: int
    """Row of the table's headings as the spreadsheet numbers it; 0 where the table has none."""
    headings: tuple[str, ...]
    rows: dict[int, tuple[str | float | None, ...]]
    """Values by row as the spreadsheet numbers it, one for each heading; None leaves a cell empty."""


def fill_problems(name: str, data: bytes, *, force: bool) -> list[Problem]:
    """Return what cannot be carried over whole into a filled copy.

    Parameters
    ----------
    name : str
        The file's name.
    data : bytes
        The file, already found safe to open.
    force : bool
        Whether a broken signature is accepted.

    Returns
    -------
    list of Problem
        Pictures, charts and macros are carried over whole and are no problem.

    Notes
    -----
    Source: definition.
    """
    if not name.lower().endswith(_WORKBOOK_ENDINGS):
        return [codes.CANNOT_FILL_KIND.at(Place(file=name), found=name)]
    parts = zipfile.ZipFile(io.BytesIO(data)).namelist()
    signed = any(part.startswith("_xmlsignatures/") for part in parts)
    return [codes.SIGNATURE_BREAKS.at(Place(file=name))] if signed and not force else []


def filled_workbook(data: bytes, fillings: Sequence[Filling], *, name: str = "", decimals: int = 2) -> bytes:
    """Return a copy of a workbook with columns added to the right of everything on its sheets.

    Parameters
    ----------
    data : bytes
        An .xlsx or .xlsm file, already found safe to open.
    fillings : sequence of Filling
        What is added, a sheet each.
    name : str
        The file's name, for problems.
    decimals : int
        Decimals of money, for the number format.

    Returns
    -------
    bytes
        The copy. Parts that nothing was added to are byte for byte the same.

    Raises
    ------
    WorkbookProblemsError
        When a sheet is not there, has no room, or cannot be patched.

    Notes
    -----
    New cells take the look of their left neighbour in the same row. Source: definition.
    """
    whole = zipfile.ZipFile(io.BytesIO(data))
    styles_part = "xl/styles.xml"
    styles = _Styles(whole.read(styles_part) if styles_part in whole.namelist() else b"", decimals)
    changed: dict[str, bytes] = {}
    for filling in fillings:
        part = part_of(whole, filling.sheet)
        if part is None:
            raise _not_filled(name, filling, "it is not there")
        try:
            changed[part] = _filled_sheet(whole.read(part), filling, styles)
        except (ValueError, KeyError) as error:
            raise _not_filled(name, filling, str(error)) from error
    if styles.markup:
        changed[styles_part] = styles.finished()
    return repacked(whole, changed)


def _not_filled(name: str, filling: Filling, reason: str) -> WorkbookProblemsError:
    return WorkbookProblemsError([codes.SHEET_NOT_FILLED.at(Place(name, filling.sheet), reason=reason)])


def _filled_sheet(markup: bytes, filling: Filling, styles: _Styles) -> bytes:
    places = find_places(markup)
    first = places.last_column + 1
    if first + len(filling.headings) - 1 > _LAST_COLUMN:
        raise ValueError("there is no free column to the right")
    cells: dict[tuple[int, int], NewCell] = {}
    for offset, heading in enumerate(filling.headings):
        if filling.heading_row:
            style = _neighbour_style(places, filling.heading_row, first - 1)
            cells[filling.heading_row, first + offset] = NewCell(heading, style)
    for row, values in filling.rows.items():
        style = _neighbour_style(places, row, first - 1)
        for offset, value in enumerate(values):
            if value is not None:
                number = styles.money(style) if isinstance(value, int | float) else style
                cells[row, first + offset] = NewCell(value, number)
    return _with_widths(spliced(markup, places, cells), first, len(filling.headings), places.prefix)


def _neighbour_style(places: SheetPlaces, row: int, column: int) -> int:
    """Return the style of the nearest styled cell to the left in the same row."""
    while column >= 0 and not (style := places.style(row, column)):
        column -= 1
    return style if column >= 0 else 0


def _with_widths(markup: bytes, first: int, count: int, prefix: str) -> bytes:
    """Give the new columns a width, unless the sheet states one for them."""
    new = f'<{prefix}col min="{first + 1}" max="{first + count}" width="{_NEW_WIDTH}" customWidth="1"/>'.encode()
    stated = re.search(rb"<(?:\w+:)?cols>.*?</(?:\w+:)?cols>", markup[: markup.find(b"sheetData")], re.DOTALL)
    if stated is None:
        place = markup.index(f"<{prefix}sheetData".encode())
        cols = f"<{prefix}cols>".encode() + new + f"</{prefix}cols>".encode()
        return markup[:place] + cols + markup[place:]
    reach = max((int(last) for last in re.findall(rb'\bmax="(\d+)"', stated[0])), default=0)
    if reach > first:
        return markup
    place = stated.end() - len(f"</{prefix}cols>")
    return markup[:place] + new + markup[place:]


class _Styles:
    """The workbook's styles part, to which money formats are added at the end of the list that cells point into."""

    def __init__(self, markup: bytes, decimals: int) -> None:
        self.markup, self.format = markup, _NUMBER_FORMATS.get(decimals, 0)
        self.found = re.search(rb"<((?:\w+:)?)cellXfs\b[^>]*>(.*?)</(?:\w+:)?cellXfs>", markup, re.DOTALL)
        element = rb"<(?:\w+:)?xf\b[^>]*?(?:/>|>.*?</(?:\w+:)?xf>)"
        self.formats = re.findall(element, self.found[2], re.DOTALL) if self.found else []
        self.money_of: dict[int, int] = {}
        self.added: list[bytes] = []

    def money(self, style: int) -> int:
        """Return the index of a style's copy that shows money; the style itself where the part cannot be read."""
        if style >= len(self.formats):
            return style
        if style not in self.money_of:
            self.money_of[style] = len(self.formats) + len(self.added)
            self.added.append(_as_money(self.formats[style], self.format))
        return self.money_of[style]

    def finished(self) -> bytes:
        if not self.added or self.found is None:
            return self.markup
        start, end = self.found.span(2)
        opening = self.markup[self.found.start() : start]
        count = f'count="{len(self.formats) + len(self.added)}"'.encode()
        opening = re.sub(rb'count="\d+"', count, opening)
        return self.markup[: self.found.start()] + opening + self.found[2] + b"".join(self.added) + self.markup[end:]


def _as_money(xf: bytes, number_format: int) -> bytes:
    """Return a copy of a cell format with another number format."""
    opening_end = xf.index(b">")
    opening, rest = xf[:opening_end], xf[opening_end:]
    self_closed = opening.endswith(b"/")
    opening = re.sub(rb'\s(?:numFmtId|applyNumberFormat)="[^"]*"', b"", opening.rstrip(b"/"))
    return (
        opening + f' numFmtId="{number_format}" applyNumberFormat="1"'.encode() + (b"/" if self_closed else b"") + rest
    )
