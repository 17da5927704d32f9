"""An .xls workbook of the years before 2007, read by xlrd, which keeps error values, formats and hidden rows."""

from __future__ import annotations

import io
from typing import Any

from estimator.problems import files as said
from estimator.read.cells import CellError, CellValue, SheetCells
from estimator.read.compound import SIGNATURE, CompoundFile
from estimator.read.number_formats import GENERAL, date_value, is_date_format
from estimator.read.preflight import FileRefusedError
from estimator.read.sheet_grid import CellBudget, SheetGrid

__all__ = ["read_xls"]

_STATES = ("visible", "hidden", "very hidden")


def read_xls(data: bytes, budget: CellBudget) -> list[SheetCells]:
    """Return the sheets of a workbook, in the order of its tabs.

    Parameters
    ----------
    data : bytes
        The whole file.
    budget : CellBudget
        Counts cells against the limit.

    Returns
    -------
    list of SheetCells
        Worksheets with their cells.

    Raises
    ------
    FileRefusedError
        When the file is protected by a password, or not whole.

    Notes
    -----
    The format stores no text of formulas; a cell whose value comes from another file cannot be told from others.
    """
    import xlrd

    try:
        book = xlrd.open_workbook(
            file_contents=_workbook_stream(data),
            formatting_info=True,
            ragged_rows=True,
            on_demand=True,
            logfile=io.StringIO(),
        )
    except xlrd.XLRDError as error:
        if "encrypted" in str(error).lower():
            raise FileRefusedError(said.FILE_LOCKED_BY_PASSWORD) from error
        raise FileRefusedError(said.FILE_DAMAGED, reason="it is not a whole .xls workbook") from error
    formats = {str(number): book.format_map[xf.format_key].format_str for number, xf in enumerate(book.xf_list)}
    shown = {style: number_format for style, number_format in formats.items() if number_format != GENERAL}
    sheets = []
    for index in range(book.nsheets):
        sheets.append(_read_sheet(book, book.sheet_by_index(index), budget, formats).done(shown))
        book.unload_sheet(index)
    return sheets


def _workbook_stream(data: bytes) -> bytes:
    """Return the records of the workbook, out of their container where they have one."""
    if not data.startswith(SIGNATURE):
        return data
    container = CompoundFile(data)
    return container.stream("Workbook" if "Workbook" in container.names else "Book")


def _read_sheet(book: Any, sheet: Any, budget: CellBudget, formats: dict[str, str]) -> SheetGrid:
    grid = SheetGrid(sheet.name, budget, _STATES[min(sheet.visibility, 2)])
    for row in range(sheet.nrows):
        values: list[CellValue] = []
        styles: list[str] = []
        for cell in sheet.row(row):
            style = str(cell.xf_index)
            values.append(_value(cell, formats.get(style, GENERAL), epoch_1904=book.datemode == 1))
            styles.append(style)
        while values and values[-1] is None:
            values.pop()
            styles.pop()
        grid.add_row(row, values, styles)
    for first_row, last_row, first_column, last_column in sheet.merged_cells:
        grid.merge(first_row, first_column, last_row - 1, last_column - 1)
    grid.hidden_rows = {row for row, info in sheet.rowinfo_map.items() if info.hidden}
    grid.hidden_columns = {column for column, info in sheet.colinfo_map.items() if info.hidden}
    return grid


def _value(cell: Any, number_format: str, *, epoch_1904: bool) -> CellValue:
    import xlrd

    if cell.ctype == xlrd.XL_CELL_TEXT:
        return cell.value or None
    if cell.ctype == xlrd.XL_CELL_ERROR:
        return CellError(xlrd.error_text_from_code.get(cell.value, "#ERROR"))
    if cell.ctype == xlrd.XL_CELL_BOOLEAN:
        return bool(cell.value)
    if cell.ctype not in {xlrd.XL_CELL_NUMBER, xlrd.XL_CELL_DATE}:
        return None
    number = float(cell.value)
    if number - number != 0.0:
        return CellError(str(number))
    return date_value(number, epoch_1904=epoch_1904) if is_date_format(number_format) else number
