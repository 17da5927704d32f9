"""Settles which column of a table means what: ties by rule or asked, the user's own words first."""

from __future__ import annotations

import re
from itertools import pairwise

from estimator.problems import table as said
from estimator.read.cells import CellValue, column_letters
from estimator.read.column_content import like_marks, size_by_content, size_over_cells
from estimator.read.column_evidence import describe_by_cells, says_shapes
from estimator.read.heading_rows import cell_text, doubled
from estimator.read.headings import heading_key, match_heading
from estimator.read.numbers import plain_number
from estimator.read.quantity_columns import (
    ask_between_quantities,
    holds_no_figures,
    marks_beside_quantity,
    marks_under_quantity,
    numbers_that_count,
    say_marks,
    sets_of_pieces,
)
from estimator.read.table import Table
from estimator.words import Steel

__all__ = ["column_of_letters", "settle_columns"]

_ABBREVIATED = re.compile(r"\s*o\.?d(?![a-z])", re.IGNORECASE)
_SHOWN = 3
"""Cells that are quoted of a column that is not what the user names it for."""
_ABBREVIATED_BORE = re.compile(r"\s*i\.?d\b\.?", re.IGNORECASE)


def settle_columns(file: str, table: Table, chosen: dict[str, str]) -> dict[str, int]:
    """Return one column for each meaning; ties are settled by rule or asked."""
    marks = marks_under_quantity(table)
    heading = table.heading
    many = doubled(heading)
    columns: dict[str, int] = {}
    for column, found in sorted(heading.found.items()):
        columns.setdefault(found.column, column)
    for name, candidates in many.items():
        columns[name] = _better(table, name, candidates)
        if name in {"material", "grade"}:
            rest = (column for column in candidates if column != columns[name])
            columns |= {f"{name} {n}": column for n, column in enumerate(rest, 2)}
    _thickness_of_corners(file, table, columns)
    _bore_beside_outside(table, columns)
    size_by_content(file, table, columns)
    size_over_cells(table, columns)
    _named_by_user(file, table, columns, chosen)
    if not {"quantity", "quantity_total"} & set(columns):
        sets_of_pieces(file, table, columns)
    if not {"quantity", "quantity_total"} & set(columns):
        numbers_that_count(file, table, columns)
    if "quantity" not in chosen:
        ask_between_quantities(file, table, columns)
    elif not {"mark", "item"} & set(columns):
        marks |= marks_beside_quantity(many.get("quantity", []), table, columns)
    _second_length(table, columns, many)
    _steel_is_grade(table, columns)
    describe_by_cells(file, table, columns)
    if "mark" not in columns:
        for name in ("item", "description"):
            if name in columns:
                columns["mark"] = columns[name]
                break
    if columns.get("mark") in marks and "quantity" in columns:
        say_marks(file, table, columns)
    for column, found in heading.found.items():
        if not found.sure and columns.get(found.column) == column:
            what = found.column.removesuffix("_mm")
            table.problems.append(
                said.HEADING_READ_AS.at(
                    table.place(file, column), found=heading.texts[column], what=what, wording=f"'{what.title()}'"
                )
            )
    return columns


def _better(table: Table, name: str, candidates: list[int]) -> int:
    """Of several columns with one meaning take the one with most figures in it; the first of equals.

    Marks are no names of shapes.
    """

    def figures(column: int) -> int:
        return sum(1 for v in table.sample(column) if not isinstance(v, str) or any(ch.isdigit() for ch in v))

    if name == "mark":
        shapes = {column: says_shapes(table.sample(column)) for column in candidates}
        return max(candidates, key=lambda column: (not shapes[column], *like_marks(table, column), -column))
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
        if holds_no_figures(name, cells := table.sample(column)):
            _say_no_figures(file, table, columns, name, column, cells)
            continue
        for other in [n for n, c in columns.items() if c == column]:
            del columns[other]
        columns[name] = column


def _say_no_figures(
    file: str, table: Table, columns: dict[str, int], name: str, column: int, cells: list[CellValue]
) -> None:
    """Say once that a column which the user names holds no figures; the list is then read by its headings."""
    if columns.get(name) == column:
        del columns[name]
    texts = list(dict.fromkeys(" ".join(cell_text(value).split()) for value in cells))
    fields = {"what": name.removesuffix("_mm"), "heading": " ".join(table.heading.texts.get(column, "").split())}
    fields["found"] = ", ".join(texts[:_SHOWN]) + (" …" if len(texts) > _SHOWN else "")
    table.problems.append(said.COLUMN_OPTION_CONTENT.at(table.place(file, column), **fields))


def _thickness_of_corners(file: str, table: Table, columns: dict[str, int]) -> None:
    """Of a tapered plate with a thickness at each corner (T1 to T4) take the profile; ask where there is none."""
    keys = {c: heading_key(text) for c, text in table.heading.texts.items()}
    corners = [c for c, key in keys.items() if key in {"t1", "t2", "t3", "t4"}]
    if len(corners) < 2 or "thickness_mm" in columns:
        return
    profile = next((c for c, key in keys.items() if key in {"profile", "profile thk", "profile thickness"}), None)
    figures = table.sample(profile) if profile is not None else []
    if profile is not None and figures and all(plain_number(v) is not None for v in figures):
        for name in [name for name, column in columns.items() if column == profile]:
            del columns[name]
        columns["thickness_mm"] = profile
        named = ", ".join(table.heading.texts[c].strip() for c in corners)
        fields = {"heading": table.heading.texts[profile].strip(), "corners": named}
        place = table.place(file, profile)
        table.problems.append(said.CORNERS_READ.at(place, letters=column_letters(profile), **fields))
        return
    named = ", ".join(f"{table.heading.texts[c].strip()} ({column_letters(c)})" for c in corners)
    fields = {"what": "thickness", "columns": named, "first": column_letters(corners[0])}
    table.problems.append(said.COLUMNS_TIE.at(table.place(file), **fields))


def _bore_beside_outside(table: Table, columns: dict[str, int]) -> None:
    """A column called ID beside one called OD is the inside diameter, not the mark."""
    outside = columns.get("diameter")
    if outside is None or "inside_diameter" in columns or not _ABBREVIATED.match(table.heading.texts[outside]):
        return
    for column, text in table.heading.texts.items():
        bore = match_heading(_ABBREVIATED_BORE.sub("inside diameter", text)) if _ABBREVIATED_BORE.match(text) else None
        if bore is not None and bore.column == "inside_diameter" and _are_sizes(table.sample(column)):
            for name in [name for name, c in columns.items() if c == column]:
                del columns[name]
            columns["inside_diameter"], table.heading.found[column] = column, bore


def _are_sizes(cells: list[CellValue]) -> bool:
    """Return whether at least half of the cells are figures that do not number the rows; a bad cell is asked about."""
    figures = sum(isinstance(v, float) or cell_text(v).strip()[:1].isdigit() for v in cells)
    numbers = [number for v in cells if (number := plain_number(v)) is not None]
    most = 1 if len(numbers) == len(cells) else 2
    counted = len(numbers) > 1 and all(1 <= b - a <= most for a, b in pairwise(numbers))
    return bool(cells) and figures * 2 >= len(cells) and not counted


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
    """A column called steel that holds other words than whose steel it is holds the grade; it may hold both."""
    column = columns.get("steel")
    words = {cell_text(v).strip().lower() for v in table.sample(column)} if column is not None else set()
    others = words - set(Steel.words()) - {""}
    if column is not None and others == words != set():
        del columns["steel"]
        columns.setdefault("grade", column)
    elif column is not None and others and all(any(map(str.isdigit, word)) for word in others):
        columns.setdefault("grade", column)


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
