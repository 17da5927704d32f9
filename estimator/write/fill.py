"""A customer's or the shop's own list with prices added to the right of its table, everything else as it was."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass

from estimator.problems import Place, Problem, WorkbookProblemsError
from estimator.problems import writing as codes
from estimator.write.book import LINE_HEIGHT, wrapped_lines
from estimator.write.patch_columns import with_widths
from estimator.write.patch_sheet import NewCell, SheetPlaces, find_places, spliced
from estimator.write.patch_styles import FillKind, PatchedStyles
from estimator.write.workbook_parts import part_of, repacked

__all__ = ["FillColumn", "FillKind", "Filling", "fill_problems", "filled_workbook"]

_WORKBOOK_ENDINGS = (".xlsx", ".xlsm")
_LAST_COLUMN = 16_383


@dataclass(frozen=True, slots=True)
class FillColumn:
    """One column to add."""

    heading: str
    kind: FillKind = FillKind.TEXT
    width: float = 14.0
    """In digits, as the spreadsheet counts."""


@dataclass(frozen=True, slots=True)
class Filling:
    """Columns to add to one sheet, right of those that an earlier filling of the same sheet added."""

    sheet: str
    heading_rows: tuple[int, ...]
    """Rows of the tables' headings as the spreadsheet numbers them; none where the tables have none."""
    columns: tuple[FillColumn, ...]
    rows: dict[int, tuple[str | float | None, ...]]
    """Values by row as the spreadsheet numbers it, at most one for each column; None leaves a cell empty."""


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
    styles = PatchedStyles(whole.read(styles_part) if styles_part in whole.namelist() else b"", decimals)
    changed: dict[str, bytes] = {}
    for filling in fillings:
        part = part_of(whole, filling.sheet)
        if part is None:
            raise _not_filled(name, filling, "it is not there")
        try:
            changed[part] = _filled_sheet(changed.get(part) or whole.read(part), filling, styles)
        except (ValueError, KeyError) as error:
            raise _not_filled(name, filling, str(error)) from error
    if styles.markup:
        changed[styles_part] = styles.finished()
    return repacked(whole, changed)


def _not_filled(name: str, filling: Filling, reason: str) -> WorkbookProblemsError:
    return WorkbookProblemsError([codes.SHEET_NOT_FILLED.at(Place(name, filling.sheet), reason=reason)])


def _filled_sheet(markup: bytes, filling: Filling, styles: PatchedStyles) -> bytes:
    places = find_places(markup)
    first = places.last_column + 1
    if first + len(filling.columns) - 1 > _LAST_COLUMN:
        raise ValueError("there is no free column to the right")
    cells: dict[tuple[int, int], NewCell] = {}
    for row in places.rows.keys() & set(filling.heading_rows):
        style = _neighbour_style(places, row, first - 1)
        for at, column in enumerate(filling.columns, first):
            cells[row, at] = NewCell(column.heading, style)
    for row, values in filling.rows.items():
        style = _neighbour_style(places, row, first - 1)
        for at, (value, column) in enumerate(zip(values, filling.columns, strict=False), first):
            if value is not None:
                words = isinstance(value, str) and column.kind is not FillKind.LONG_TEXT
                kind = FillKind.TEXT if words else column.kind
                cells[row, at] = NewCell(value, styles.for_kind(style, kind))
    widths = {at: column.width for at, column in enumerate(filling.columns, first)}
    return with_widths(spliced(markup, places, cells, heights=_heights(filling)), widths, places.prefix)


def _heights(filling: Filling) -> dict[int, float]:
    """Return the height that the long texts of each row need."""
    heights: dict[int, float] = {}
    for row, values in filling.rows.items():
        long = [
            wrapped_lines(str(value), column.width)
            for value, column in zip(values, filling.columns, strict=False)
            if column.kind is FillKind.LONG_TEXT and value is not None
        ]
        if max(long, default=1) > 1:
            heights[row] = LINE_HEIGHT * max(long)
    return heights


def _neighbour_style(places: SheetPlaces, row: int, column: int) -> int:
    """Return the style of the nearest styled cell to the left in the same row."""
    while column >= 0 and not (style := places.style(row, column)):
        column -= 1
    return style if column >= 0 else 0
