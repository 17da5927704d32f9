"""From a loaded book to an understood cut list: which table, which unit, what each row says. Nothing is guessed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from fractions import Fraction
from pathlib import PurePath
from typing import Any

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList, RowCounts, TitleBlock
from estimator.problems.code import Level, Problem, sort_problems
from estimator.read.cells import Book, SheetCells, column_letters
from estimator.read.choose_table import Choice, choose_tables
from estimator.read.collection import collection_paused
from estimator.read.column_option import read_column_option
from estimator.read.list_table import read_table
from estimator.read.list_titles import title_problems
from estimator.read.remarks import book_remarks
from estimator.read.rows_of_work import built_in_names
from estimator.read.sheet_rows import rows_of_sheet
from estimator.read.table import Table
from estimator.read.title_block import read_title_block
from estimator.read.title_dates import date_of_list

__all__ = ["ListDefaults", "bad_lines", "read_cut_list", "sheet_gauges_in"]


@dataclass(frozen=True, slots=True)
class ListDefaults:
    """What the shop book says about lists that do not say it themselves."""

    unit: str | None = "mm"
    """Unit of bare numbers: mm, cm, m, in or ft; None to have it asked."""
    gauges_in: Mapping[int, Fraction] | None = None
    """Thickness of each sheet gauge [in]; None for the built-in table."""
    thin_sheet_mm: float = 2.9
    """Thinner sheet is refused (common practice, no source)."""
    other_work: Mapping[str, str] | None = None
    """Other work that has a time, and that time in words; None for the built-in table."""
    currency: str = ""
    """The shop's money, three letters of ISO 4217: it tells in which order a list's date is written."""


# Numbers without a sensible size are refused by their bounds, not by a warning of the arithmetic.
@np.errstate(over="ignore", invalid="ignore")
@collection_paused()
def read_cut_list(
    book: Book,
    *,
    sheet: str | None = None,
    columns: Mapping[str, str] | str | None = None,
    shop_defaults: ListDefaults | None = None,
) -> tuple[CutList, list[Problem]]:
    """Read a customer's cut list.

    Parameters
    ----------
    book : Book
        The loaded file.
    sheet : str, optional
        Name of the sheet; ``Name!A12`` names the table whose headings stand there.
    columns : mapping or str, optional
        ``thickness=D,length=F`` or the same as a mapping: column letters or headings for what they mean.
    shop_defaults : ListDefaults, optional
        What holds where the list says nothing.

    Returns
    -------
    CutList
        Every piece of the list; what could not be read is NaN or blank there, and ``bad_lines`` names its rows.
    list of Problem
        Sorted by sheet and cell. With an error nothing of the list is fit to be priced as a whole.

    Notes
    -----
    Every row of the sheet is accounted for in ``counts``. Source: definition.
    """
    defaults = shop_defaults or ListDefaults()
    file = PurePath(book.path).name
    wanted, problems = read_column_option(file, columns)
    choice = choose_tables(book, sheet, wanted)
    problems += choice.problems
    gauges = defaults.gauges_in if defaults.gauges_in is not None else sheet_gauges_in()
    title = TitleBlock()
    parts: list[CutList] = []
    if choice.tables:
        first = min(table.heading.row for table in choice.tables)
        title, said = read_title_block(file, choice.tables[0].sheet, first)
        job_date, dated = date_of_list(file, choice.tables[0].sheet, choice.tables, defaults.currency)
        title = replace(title, job_date=job_date)
        problems += [*said, *dated, *title_problems(file, choice.tables[0].sheet, choice.tables)]
    for table in choice.tables:
        part, said = read_table(
            *(file, table, title),
            default_unit=defaults.unit,
            gauges_in=gauges,
            thin_sheet_mm=defaults.thin_sheet_mm,
            other_work=built_in_names() if defaults.other_work is None else defaults.other_work,
            first_line=sum(map(len, parts)),
            decimal=book.decimal or None,
        )
        parts.append(part)
        problems += said
    problems = _once([*problems, *book_remarks(book, sheets={table.sheet.name for table in choice.tables} or None)])
    cuts = _joined(parts)
    cuts.title, cuts.file, cuts.sha256 = title, file, book.sha256
    cuts.counts = _counts(choice, problems)
    cuts.column_letters = _letters(choice.tables)
    return cuts, problems


def bad_lines(cuts: CutList, problems: list[Problem]) -> NDArray[np.bool_]:
    """Return which lines have an error; all of them where an error is not one line's own."""
    places = {(p.place.sheet, p.place.row) for p in problems if p.level is Level.ERROR}
    if not places:
        return np.zeros(len(cuts), dtype=np.bool_)
    lines = list(zip(cuts.sheet, cuts.row.tolist(), strict=True))
    whole = bool(places - set(lines))
    return np.array([whole or line in places for line in lines], dtype=np.bool_)


def sheet_gauges_in() -> dict[int, Fraction]:
    """Return the built-in thickness of each US steel sheet gauge [in]."""
    from estimator.reference import table

    rows = table("sheet_gauge")
    pairs = zip(rows.column("gauge"), rows.column("thickness_in"), strict=True)
    return {int(gauge): Fraction(str(float(inches))) for gauge, inches in pairs}


def _once(problems: list[Problem]) -> list[Problem]:
    """Return the problems sorted, each once."""
    return list(dict.fromkeys(sort_problems(problems)))


def _joined(parts: list[CutList]) -> CutList:
    """Return several tables as one list."""
    if not parts:
        return CutList(mark=[], quantity=np.empty(0), thickness_mm=np.empty(0))
    if len(parts) == 1:
        return parts[0]
    whole: dict[str, Any] = {}
    for item in fields(CutList):
        values = [getattr(part, item.name) for part in parts]
        if item.name in {"title", "counts", "column_letters", "file", "sha256", "unknown"}:
            continue
        if values and isinstance(values[0], np.ndarray):
            whole[item.name] = np.concatenate(values)
        else:
            whole[item.name] = [value for part in values for value in part]
    cuts = CutList(**whole)
    for name in dict.fromkeys(name for part in parts for name in part.unknown):
        cuts.unknown[name] = [v for part in parts for v in part.unknown.get(name, [None] * len(part))]
    return cuts


def _counts(choice: Choice, problems: list[Problem]) -> list[RowCounts]:
    """Return the rows of each sheet that was read, by kind; they add to the rows of the sheet."""
    errors = [p.place for p in problems if p.level is Level.ERROR]
    counts = []
    for sheet in _sheets(choice.tables):
        bad = {place.row for place in errors if place.sheet == sheet.name and place.row}
        kinds = rows_of_sheet(sheet, choice.tables_of(sheet), choice.tables, bad)
        headings = {table.heading.row + 1 for table in choice.tables_of(sheet) if table.heading.rows}
        counts.append(RowCounts(sheet.name, len(sheet.rows), kinds, tuple(sorted(headings))))
    return counts


def _sheets(tables: list[Table]) -> list[SheetCells]:
    return list({id(table.sheet): table.sheet for table in tables}.values())


def _letters(tables: list[Table]) -> dict[str, str]:
    """Return the letters of each column where all lines share one table."""
    if len(tables) != 1:
        return {}
    renamed = {"length": "cut_length_mm", "size": "size_a_mm"}
    columns = tables[0].columns
    letters = {renamed.get(name, name): column_letters(c) for name, c in columns.items() if name in renamed}
    if "width" in columns and "length" in columns:
        letters |= {"size_a_mm": column_letters(columns["length"]), "size_b_mm": column_letters(columns["width"])}
    return letters | {name: column_letters(c) for name, c in columns.items() if name not in renamed}
