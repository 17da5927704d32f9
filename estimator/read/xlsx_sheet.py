"""One sheet of an .xlsx: its XML becomes cells.

The plain way of ``xlsx_plain`` is several times as fast as an XML parser's; where it gives up, the sheet is read again
element by element. Both ways give the same cells; a test holds them to it.
"""

from __future__ import annotations

import zipfile

from estimator.read.cells import CellValue
from estimator.read.sheet_grid import SheetGrid
from estimator.read.xlsx_cell import BookFacts, CellMaker, cell_place, row_number, text_of
from estimator.read.xlsx_plain import NotPlainError, read_plain_rows
from estimator.read.xml_parts import Element, GrowingPart, attribute, children, local_name

__all__ = ["NotPlainError", "read_sheet_elements", "read_sheet_plain", "read_sheet_xml"]


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
    return _take_surroundings(read_plain_rows(archive, part, grid, facts), grid)


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
