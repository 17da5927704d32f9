"""Read our own workbooks (shop book, price lists, work log, bills, rack counts, register) by their statements.

A ``Book`` and a ``Sheet`` statement give rows of house values that know their cells, and every problem at once.
Customers' lists have other headings and other manners, and a reader of their own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any, TypeVar

import pydantic

from estimator.problems import own_sheets as said
from estimator.problems.code import Place, Problem, has_error
from estimator.read.cells import Book, SheetCells, column_letters
from estimator.read.number_text import decimal_mark_of, plain_text
from estimator.read.own_cells import OwnCell, found_value, is_blank, nearest, read_cell
from estimator.read.own_headings import Found, find_columns, find_names
from estimator.sheets.statement import Column, Layout, Sheet

__all__ = ["OwnRow", "OwnSheet", "find_sheet", "read_records", "read_sheet", "records_of"]

Record = TypeVar("Record", bound=pydantic.BaseModel)


@dataclass(frozen=True, slots=True)
class OwnRow:
    """One row of a table, or all of a form: house values with the cells they came from."""

    values: dict[str, Any]
    """House name to value; a blank without a default is None, and so is a value with a problem."""
    at: Place
    """The row; for a form the sheet."""
    cells: dict[str, Place]
    """House name to cell, for the columns that the sheet has."""
    refused: bool = False
    """Whether a value of this row has a problem, so that the row must not be used."""
    defaulted: frozenset[str] = frozenset()
    """House names whose value is the statement's default, because the cell is blank or missing."""

    def place(self, name: str) -> Place:
        """Return the cell of a house name, or the row where the sheet lacks that column."""
        return self.cells.get(name, self.at)


@dataclass(slots=True)
class OwnSheet:
    """A sheet that was read: its rows and its problems."""

    name: str
    rows: list[OwnRow] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    found: bool = True
    """Whether the book has the sheet; a sheet that may be absent is no problem."""


@dataclass(frozen=True, slots=True)
class _Typed:
    """What is known of numbers typed as text and of lengths typed without a unit."""

    decimal: str
    length_unit: str


def read_sheet(book: Book, sheet: Sheet, *, file: str = "", length_unit: str = "") -> OwnSheet:
    """Return the rows of one of our own sheets with every problem found in it.

    Parameters
    ----------
    book : Book
        The loaded file.
    sheet : Sheet
        The statement of the sheet.
    file : str
        The file's name as problems show it; the book's own when empty.
    length_unit : str
        Unit of lengths typed without one, where neither cell nor heading says (``mm`` or ``in``); empty for the
        column's own.

    Returns
    -------
    OwnSheet
        A table's rows in the sheet's order, blank rows left out; a form gives exactly one row.

    Notes
    -----
    A row with a problem stays in the list, marked ``refused``, so that counts add up. Source: definition.
    """
    file = file or book.path.name
    cells = find_sheet(book, sheet)
    if cells is None:
        problems = [_missing_sheet(book, sheet, file)] if sheet.required else []
        return OwnSheet(sheet.name, problems=problems, found=False)
    where = Place(file, cells.name)
    read = _read_form if sheet.layout is Layout.FORM else _read_table
    return read(cells, sheet, where, _Typed(book.decimal, length_unit))


def read_records(
    book: Book, sheet: Sheet, model: type[Record], *, file: str = "", length_unit: str = ""
) -> tuple[list[Record], list[Problem]]:
    """Return one pydantic record for each row without a problem, and every problem.

    Parameters
    ----------
    book : Book
        The loaded file.
    sheet : Sheet
        The statement of the sheet.
    model : type of pydantic.BaseModel
        Fields are house names; a field ``row`` receives the row number, a field ``place`` the row's ``Place`` and a
        field ``places`` the cell of each house name.
    file : str
        The file's name as problems show it; the book's own when empty.
    length_unit : str
        As in ``read_sheet``.

    Returns
    -------
    tuple of (list of records, list of Problem)
        What the model refuses is a problem at the cell of the field, or at the row.

    Notes
    -----
    A blank is left out, so that the model's own default holds. Source: definition.
    """
    return records_of(read_sheet(book, sheet, file=file, length_unit=length_unit), sheet, model)


def records_of(read: OwnSheet, sheet: Sheet, model: type[Record]) -> tuple[list[Record], list[Problem]]:
    """Return the records of a sheet that was read, as ``read_records`` does."""
    records: list[Record] = []
    problems = list(read.problems)
    for row in read.rows:
        if row.refused:
            continue
        try:
            records.append(model(**_fields(row, model)))
        except pydantic.ValidationError as error:
            problems.extend(_refusals(error, row, sheet))
    return records, problems


def find_sheet(book: Book, sheet: Sheet) -> SheetCells | None:
    """Return the book's sheet of that name, in any case, or the only sheet of a csv or tsv; None when there is none."""
    if book.kind in {"csv", "tsv"} and len(book.sheets) == 1:
        return book.sheets[0]
    wanted = plain_text(sheet.name).casefold()
    return next((cells for cells in book.sheets if plain_text(cells.name).casefold() == wanted), None)


def _missing_sheet(book: Book, sheet: Sheet, file: str) -> Problem:
    near = nearest(sheet.name, [cells.name for cells in book.sheets])
    hint = f"add the sheet '{sheet.name}' from the blank workbook"
    if near:
        hint = f"rename the sheet '{near[0]}' to '{sheet.name}'"
    found = ", ".join(cells.name for cells in book.sheets)
    return said.SHEET_MISSING.at(Place(file), found=found, sheet=sheet.name, purpose=sheet.purpose, hint=hint)


def _read_table(cells: SheetCells, sheet: Sheet, where: Place, typed: _Typed) -> OwnSheet:
    found = find_columns(cells, sheet, where)
    if found.heading_row is None:
        return OwnSheet(cells.name, problems=found.problems)
    read = OwnSheet(cells.name, problems=list(found.problems))
    typed = replace(typed, decimal=typed.decimal or decimal_mark_of(_texts(cells, found)))
    blocked = has_error(found.problems)
    for row in range(found.first_row, len(cells.rows)):
        if all(is_blank(cells.value(row, place.column)) for place in found.columns.values()):
            continue
        at = Place(where.file, where.sheet, row + 1)
        read.rows.append(_read_row(cells, sheet, at, found, typed, read.problems, refused=blocked))
    return read


def _read_form(cells: SheetCells, sheet: Sheet, where: Place, typed: _Typed) -> OwnSheet:
    found = find_names(cells, sheet, where)
    read = OwnSheet(cells.name, problems=list(found.problems))
    typed = replace(typed, decimal=typed.decimal or decimal_mark_of(_texts(cells, found)))
    row = _read_row(cells, sheet, where, found, typed, read.problems, refused=has_error(found.problems))
    read.rows.append(row)
    return read


def _read_row(
    cells: SheetCells,
    sheet: Sheet,
    at: Place,
    found: Found,
    typed: _Typed,
    problems: list[Problem],
    *,
    refused: bool,
) -> OwnRow:
    values: dict[str, Any] = {}
    places: dict[str, Place] = {}
    defaulted = set()
    for column in sheet.columns:
        stands = found.columns.get(column.name)
        if stands is None:
            values[column.name] = column.default
            defaulted.add(column.name)
            continue
        row = at.row - 1 if stands.row is None else stands.row
        place = Place(at.file, at.sheet, row + 1, column_letters(stands.column))
        value = cells.value(row, stands.column)
        number_format = cells.number_formats.get((row, stands.column), "")
        unit_place = None if stands.row is None else replace(place, column=column_letters(stands.column + 1))
        cell = OwnCell(value, place, number_format, typed.decimal, stands.unit or typed.length_unit, unit_place)
        values[column.name], problem = read_cell(cell, column)
        places[column.name] = place
        if problem is not None:
            problems.append(problem)
            refused = True
        if is_blank(value):
            defaulted.add(column.name)
    return OwnRow(values, at, places, refused, frozenset(defaulted))


def _texts(cells: SheetCells, found: Found) -> Iterator[str]:
    """Yield the texts below the headings, the evidence for a decimal mark."""
    for row in cells.rows[found.first_row :]:
        for value in row:
            if type(value) is str:
                yield value


def _fields(row: OwnRow, model: type[pydantic.BaseModel]) -> dict[str, Any]:
    fields = {name: value for name, value in row.values.items() if value is not None and name in model.model_fields}
    about = {"row": row.at.row, "place": row.at, "places": row.cells}
    return fields | {name: value for name, value in about.items() if name in model.model_fields}


def _refusals(error: pydantic.ValidationError, row: OwnRow, sheet: Sheet) -> Iterator[Problem]:
    by_name = {column.name: column for column in sheet.columns}
    for one in error.errors(include_url=False):
        name = str(one["loc"][0]) if one["loc"] else ""
        column: Column | None = by_name.get(name)
        reason = str(one["msg"]).removeprefix("Value error, ").removeprefix("Assertion failed, ")
        found = found_value(row.values[name]) if column else ""
        yield said.RECORD_REFUSED.at(
            row.place(name),
            found=found,
            heading=column.heading if column else "the row",
            reason=reason[:1].lower() + reason[1:],
            needs=column.needs if column else "",
            why=column.why if column else "",
        )
