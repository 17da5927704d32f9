"""Tables on a sheet: found by their headings, their columns settled, their rows sorted."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import PurePath

import numpy as np

from estimator.problems import table as said
from estimator.problems.code import Place, Problem
from estimator.read.cells import Book, CellValue, SheetCells, column_letters
from estimator.read.heading_rows import (
    HEADING_LIMIT,
    HeadingRow,
    cell_text,
    doubled,
    heading_at,
    is_blank,
    split_side_by_side,
)
from estimator.read.headings import Heading
from estimator.read.row_kinds import RowKind, TableRows, sort_rows
from estimator.read.row_words import is_example
from estimator.read.sizes import Size, read_size
from estimator.words import Steel

__all__ = ["Table", "column_of_letters", "examples", "rows_of_sheet", "tables_on"]


@dataclass(slots=True)
class Table:
    """One table that can be a cut list."""

    sheet: SheetCells
    heading: HeadingRow
    columns: dict[str, int]
    """Column of the sheet for each meaning that was settled."""
    rows: TableRows
    title: str = ""
    """Text straight above the headings."""
    problems: list[Problem] = field(default_factory=list)
    set_aside: bool = False
    """Not the table that the user names."""

    @property
    def units(self) -> dict[str, str]:
        """Unit that heading or units row names, by meaning."""
        named = {}
        for name, column in self.columns.items():
            heading = self.heading.found.get(column)
            if unit := self.heading.units.get(column) or (heading.unit if heading else ""):
                named[name] = unit
        return named

    @property
    def carried(self) -> dict[int, str]:
        """Headings of columns that are not read, by column of the sheet."""
        used = set(self.columns.values())
        return {c: " ".join(text.split()) for c, text in self.heading.texts.items() if c not in used}

    @property
    def has_measures(self) -> bool:
        """Whether the columns can tell what is cut: a quantity, and a thickness or a size."""
        if "quantity" not in self.columns:
            return False
        return bool({"thickness_mm", "size", "material", "work"} & set(self.columns)) or self._sizes_in_words()

    def _sizes_in_words(self) -> bool:
        """Return whether descriptions or marks of the first rows hold thicknesses."""
        for name in ("description", "mark"):
            column = self.columns.get(name)
            for row in self.rows.pieces[:30].tolist() if column is not None else ():
                text = cell_text(self.sheet.value(row, column or 0))
                if isinstance(size := read_size(text), Size) and size.thickness is not None:
                    return True
        return False

    @property
    def score(self) -> float:
        """How good a cut list this table is."""
        return (10.0 if self.has_measures else 1.0) * self.heading.score * max(len(self.rows.pieces), 0.5)

    def place(self, file: str, column: int | None = None) -> Place:
        """Return the place of the headings, or of one heading."""
        letters = column_letters(column) if column is not None else ""
        return Place(file, self.sheet.name, self.heading.row + 1, letters)


def tables_on(book: Book, sheet: SheetCells, chosen: dict[str, str] | None = None) -> list[Table]:
    """Return the tables of a sheet that can be cut lists, from top to bottom and left to right.

    Parameters
    ----------
    book : Book
        The file.
    sheet : SheetCells
        One of its sheets.
    chosen : dict of str to str, optional
        Column letters or heading text that the user names for a meaning; they win over any heading.

    Returns
    -------
    list of Table
        Empty when no heading row is found.
    """
    heading = _first_heading(sheet)
    if heading is None and chosen:
        heading = _heading_of_letters(sheet, chosen)
    tables: list[Table] = []
    file = PurePath(book.path).name
    while heading is not None:
        parts = split_side_by_side(heading)
        width = max(map(len, sheet.rows))
        made = [_table(file, sheet, part, _span(part, parts, width), chosen or {}) for part in parts]
        tables += made
        heading = next((t.rows.next_heading for t in made if t.rows.next_heading is not None), None)
        end = min(t.rows.end for t in made)
        for table in made:
            _cut_off(table.rows, end)
    return tables


def _first_heading(sheet: SheetCells) -> HeadingRow | None:
    """Return the first heading row whose score comes near the best of the rows looked at."""
    rows = range(min(HEADING_LIMIT, len(sheet.rows)))
    found = [h for row in rows if (h := heading_at(sheet, row)) is not None]
    if not found:
        texts = ((row, sum(1 for v in sheet.rows[row] if cell_text(v).strip())) for row in rows)
        full = [row for row, many in texts if 3 <= many <= 40][:20]
        found = [h for row in full if (h := heading_at(sheet, row, slips=True)) is not None and len(h.found) >= 3]
    best = max((h.score for h in found), default=0.0)
    return next((h for h in found if h.score >= 0.6 * best), None)


def _heading_of_letters(sheet: SheetCells, chosen: dict[str, str]) -> HeadingRow | None:
    """Return a heading for a list without headings: the user's letters over the first row with a number under one."""
    columns = {name: c for name, text in chosen.items() if (c := column_of_letters(text)) is not None}
    for row, cells in enumerate(sheet.rows):
        if any(c < len(cells) and isinstance(cells[c], float) for c in columns.values()):
            width = range(len(cells))
            texts = {c: f"column {column_letters(c)}" for c in width}
            return HeadingRow(row, 0, texts, {c: Heading(name) for name, c in columns.items()})
    return None


def column_of_letters(text: str) -> int | None:
    """Return the column, from 0, that letters name; None when the text is no column letters.

    Examples
    --------
    >>> column_of_letters("A"), column_of_letters("ab"), column_of_letters("Dicke")
    (0, 27, None)
    """
    letters = text.strip().upper()
    if not (letters.isascii() and letters.isalpha() and len(letters) <= 3):
        return None
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number - 1


def _span(part: HeadingRow, parts: list[HeadingRow], width: int) -> range:
    """Return the columns that belong to a table: all when it stands alone, else those of its headings."""
    return range(width) if len(parts) == 1 else range(min(part.texts), max(part.texts) + 1)


def _table(file: str, sheet: SheetCells, heading: HeadingRow, span: range, chosen: dict[str, str]) -> Table:
    table = Table(
        sheet,
        heading,
        {},
        TableRows(np.empty(0, dtype=np.int64), {}, len(sheet.rows)),
        _title_above(sheet, heading, span),
    )
    table.columns = _settled(file, table, chosen)
    table.rows = sort_rows(file, sheet, heading, table.columns, span, example=is_example(table.title))
    table.problems += table.rows.problems
    return table


def _cut_off(rows: TableRows, end: int) -> None:
    rows.pieces = rows.pieces[rows.pieces < end]
    rows.others = {row: kind for row, kind in rows.others.items() if row < end}
    rows.end = end
    rows.problems = [p for p in rows.problems if p.place.row <= end]


def _title_above(sheet: SheetCells, heading: HeadingRow, span: range) -> str:
    """Return the text in the two rows above the headings."""
    for row in (heading.row - 1, heading.row - 2):
        texts = [text for c in span if (text := cell_text(sheet.value(row, c)).strip())]
        if texts:
            return " ".join(texts)
    return ""


def _settled(file: str, table: Table, chosen: dict[str, str]) -> dict[str, int]:
    """Return one column for each meaning; ties are settled by rule or asked."""
    heading = table.heading
    many = doubled(heading)
    columns: dict[str, int] = {}
    for column, found in sorted(heading.found.items()):
        columns.setdefault(found.column, column)
    for name, candidates in many.items():
        columns[name] = _better(table, name, candidates)
    _named_by_user(file, table, columns, chosen)
    if "quantity" not in chosen:
        _settle_quantity(file, table, columns, many)
    _second_length(table, columns, many)
    _steel_is_grade(table, columns)
    if "mark" not in columns:
        for name in ("item", "description"):
            if name in columns:
                columns["mark"] = columns[name]
                break
    for column, found in heading.found.items():
        if not found.sure and columns.get(found.column) == column:
            what = found.column.removesuffix("_mm")
            table.problems.append(
                said.HEADING_READ_AS.at(
                    table.place(file, column), found=heading.texts[column], what=what, wording=f"'{what.title()}'"
                )
            )
    return columns


def _sample(table: Table, column: int, many: int = 200) -> list[CellValue]:
    first = table.heading.row + table.heading.rows
    values = (table.sheet.value(row, column) for row in range(first, min(first + many, len(table.sheet.rows))))
    return [value for value in values if not is_blank(value)]


def _better(table: Table, name: str, candidates: list[int]) -> int:
    """Of several columns with one meaning take the one with most figures in it; the first of equals."""

    def figures(column: int) -> int:
        return sum(1 for v in _sample(table, column) if not isinstance(v, str) or any(ch.isdigit() for ch in v))

    if name in {"size", "thickness_mm", "material"}:
        return max(candidates, key=lambda column: (figures(column), -column))
    return candidates[0]


def _named_by_user(file: str, table: Table, columns: dict[str, int], chosen: dict[str, str]) -> None:
    """Put the columns that the user names in place of what the headings say."""
    for name, text in chosen.items():
        by_heading = [c for c, said_ in table.heading.texts.items() if said_.strip().lower() == text.strip().lower()]
        column = by_heading[0] if by_heading else column_of_letters(text)
        width = max((len(row) for row in table.sheet.rows), default=0)
        if column is None or column >= width:
            hint = f"the headings are: {', '.join(' '.join(t.split()) for t in table.heading.texts.values())}"
            table.problems.append(
                said.COLUMN_OPTION_PLACE.at(table.place(file), named=text, what=name.removesuffix("_mm"), hint=hint)
            )
            continue
        for other in [n for n, c in columns.items() if c == column]:
            del columns[other]
        columns[name] = column


def _settle_quantity(file: str, table: Table, columns: dict[str, int], many: dict[str, list[int]]) -> None:
    """Take the total quantity where there is one; ask where two columns of quantities differ."""
    total, each = columns.pop("quantity_total", None), columns.get("quantity")
    if total is not None:
        columns["quantity"] = total
        if each is not None and _sample(table, total) != _sample(table, each):
            texts = table.heading.texts
            table.problems.append(
                said.QUANTITY_TOTAL_USED.at(
                    table.place(file, total),
                    total=repr(texts[total]),
                    each=repr(texts[each]),
                    letters=column_letters(each),
                )
            )
        return
    candidates = many.get("quantity", [])
    first, *rest = [_sample(table, c) for c in candidates] or [[]]
    if any(values and values != first for values in rest):
        names = ", ".join(f"{' '.join(table.heading.texts[c].split())} ({column_letters(c)})" for c in candidates)
        table.problems.append(
            said.COLUMNS_TIE.at(table.place(file), what="quantity", columns=names, first=column_letters(candidates[0]))
        )


def _second_length(table: Table, columns: dict[str, int], many: dict[str, list[int]]) -> None:
    """Feet and inches beside each other are one length; two lengths and no width are the two sides of a piece."""
    units = {column: table.heading.units.get(column) or found.unit for column, found in table.heading.found.items()}
    for name, candidates in many.items():
        by_unit = {units[column]: column for column in candidates}
        if len(candidates) == 2 and set(by_unit) == {"ft", "in"} and name != "thickness_mm":
            columns[name], columns[f"{name} inches"] = by_unit["ft"], by_unit["in"]
    for name, other in (("length", "width"), ("width", "length")):
        candidates = many.get(name, [])
        alike = len({units[column] for column in candidates}) == 1
        if other not in columns and len(candidates) == 2 and alike and f"{name} inches" not in columns:
            columns[other] = next(c for c in candidates if c != columns[name])


def _steel_is_grade(table: Table, columns: dict[str, int]) -> None:
    """A column called steel that holds other words than whose steel it is holds the grade."""
    column = columns.get("steel")
    words = {cell_text(v).strip().lower() for v in _sample(table, column)} if column is not None else set()
    if column is not None and words and not words & set(Steel.words()):
        del columns["steel"]
        columns.setdefault("grade", column)


def examples(tables: list[Table]) -> list[Table]:
    """Return the tables that are examples by their title, where another table is none."""
    shown = [table for table in tables if is_example(table.title)]
    return shown if len(shown) < len(tables) else []


_BY_RANK = (
    *(RowKind.PRICED, RowKind.SUBTOTAL, RowKind.HEADING, RowKind.UNITS, RowKind.TITLE, RowKind.NOTE),
    *(RowKind.OTHER_TABLE, RowKind.BLANK, RowKind.PROBLEM),
)


def rows_of_sheet(sheet: SheetCells, tables: list[Table], read: list[Table], bad: set[int]) -> dict[str, int]:
    """Return how many rows of a sheet are of each kind.

    Parameters
    ----------
    sheet : SheetCells
        The sheet.
    tables : list of Table
        All its tables.
    read : list of Table
        The tables that are read.
    bad : set of int
        Rows with an error, as the spreadsheet numbers them.

    Returns
    -------
    dict of str to int
        They add to the rows of the sheet; where tables stand side by side, the better kind of a row counts.
    """
    rank = {kind: n for n, kind in enumerate(_BY_RANK)}
    kinds = np.full(len(sheet.rows), len(_BY_RANK), dtype=np.int8)
    for table in tables:
        wanted = any(table is one for one in read)
        head = table.heading
        for row in range(head.row, head.row + head.rows):
            kinds[row] = min(kinds[row], rank[RowKind.UNITS if row == head.units_row else RowKind.HEADING])
        piece = rank[RowKind.PRICED if wanted else RowKind.OTHER_TABLE]
        kinds[table.rows.pieces] = np.minimum(kinds[table.rows.pieces], piece)
        for row, kind in table.rows.others.items():
            kinds[row] = min(kinds[row], rank[kind])
    for row in np.flatnonzero(kinds == len(_BY_RANK)).tolist():
        kinds[row] = rank[RowKind.BLANK if all(is_blank(v) for v in sheet.rows[row]) else RowKind.TITLE]
    for row in bad:
        if row <= len(kinds) and kinds[row - 1] == rank[RowKind.PRICED]:
            kinds[row - 1] = rank[RowKind.PROBLEM]
    many = np.bincount(kinds, minlength=len(_BY_RANK))
    return {str(kind): int(many[n]) for n, kind in enumerate(_BY_RANK) if many[n]}
