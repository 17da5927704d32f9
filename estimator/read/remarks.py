"""What someone who reads a file should know beside its values: what was hidden, not run, or from other files."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from estimator.problems import files as said
from estimator.problems.code import Place, Problem
from estimator.read.cells import Book, SheetCells, column_letters

__all__ = ["book_remarks"]


def book_remarks(book: Book, *, sheets: Collection[str] | None = None, file: str = "") -> list[Problem]:
    """Return a note or warning for everything in a book that its values do not show.

    Parameters
    ----------
    book : Book
        The loaded file.
    sheets : collection of str or None
        Names of the sheets that were used; None for all.
    file : str
        The file's name as problems show it; the book's own when empty.

    Returns
    -------
    list of Problem
        Hidden sheets, rows and columns, filters, values from other files, macros; none of them stops the work.

    Notes
    -----
    Hidden rows and columns without a value are not worth a word and get none. Source: definition.
    """
    file = file or book.path.name
    remarks = [said.MACROS_IGNORED.at(Place(file))] if book.macros else []
    for sheet in book.sheets:
        if sheet.rows and (sheets is None or sheet.name in sheets):
            remarks.extend(_of_sheet(sheet, file))
    return remarks


def _of_sheet(sheet: SheetCells, file: str) -> Iterator[Problem]:
    at = Place(file, sheet.name)
    if sheet.state != "visible":
        yield said.SHEET_HIDDEN.at(at, state=sheet.state)
    rows = sorted(row for row in sheet.hidden_rows if row < len(sheet.rows) and sheet.rows[row])
    if rows:
        code = said.ROWS_FILTERED if sheet.filtered else said.ROWS_HIDDEN
        yield code.at(at, found=_stretches([str(row + 1) for row in rows], rows), count=len(rows))
    hidden = sheet.hidden_columns
    used = {column for row in sheet.rows for column in hidden if column < len(row) and row[column] is not None}
    columns = sorted(used)
    if columns:
        letters = [column_letters(column) for column in columns]
        yield said.COLUMNS_HIDDEN.at(at, found=_stretches(letters, columns), count=len(columns))
    for (row, column), formula in sorted(sheet.formulas.items()):
        place = Place(file, sheet.name, row + 1, column_letters(column))
        yield said.VALUE_FROM_OTHER_FILE.at(place, found=f"={formula.removeprefix('of:').removeprefix('=')}")


def _stretches(names: list[str], numbers: list[int]) -> str:
    """Return names in stretches: ``5, 7-9``; at most ten of them."""
    stretches: list[list[str]] = []
    for index, name in enumerate(names):
        if index and numbers[index] == numbers[index - 1] + 1:
            stretches[-1][1:] = [name]
        else:
            stretches.append([name])
    shown = ["-".join(stretch) for stretch in stretches[:10]]
    return ", ".join(shown) + (" and more" if len(stretches) > 10 else "")
