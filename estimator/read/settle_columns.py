"""Settles which column of a table means what: ties by rule or asked, the user's own words first."""

from __future__ import annotations

import re
from itertools import pairwise

from estimator.problems import table as said
from estimator.read.cells import CellValue, column_letters
from estimator.read.column_content import like_marks, size_by_content, size_over_cells
from estimator.read.column_evidence import describe_by_cells, says_shapes
from estimator.read.heading_rows import HANDS, cell_text, doubled
from estimator.read.headings import heading_key, match_heading
from estimator.read.numbers import plain_number
from estimator.read.table import Table
from estimator.words import Steel

__all__ = ["column_of_letters", "settle_columns"]

_ABBREVIATED = re.compile(r"\s*o\.?d(?![a-z])", re.IGNORECASE)
_ABBREVIATED_BORE = re.compile(r"\s*i\.?d\b\.?", re.IGNORECASE)


def settle_columns(file: str, table: Table, chosen: dict[str, str]) -> dict[str, int]:
    """Return one column for each meaning; ties are settled by rule or asked."""
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
    if "quantity" not in columns and "quantity_total" not in columns:
        _numbers_that_count(file, table, columns)
    if "quantity" not in chosen:
        _settle_quantity(file, table, columns, many)
    _second_length(table, columns, many)
    _steel_is_grade(table, columns)
    describe_by_cells(file, table, columns)
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
        for other in [n for n, c in columns.items() if c == column]:
            del columns[other]
        columns[name] = column


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
    """Return whether cells are figures that do not number the rows."""
    figures = all(isinstance(v, float) or cell_text(v).strip()[:1].isdigit() for v in cells)
    numbers = [plain_number(v) for v in cells]
    counted = len(cells) > 1 and all(a is not None and b is not None and b == a + 1 for a, b in pairwise(numbers))
    return bool(cells) and figures and not counted


def _numbers_that_count(file: str, table: Table, columns: dict[str, int]) -> None:
    """A column called No. beside the marks counts pieces, unless it numbers the rows."""
    column = columns.get("item")
    if column is None or columns.get("mark") in {None, column}:
        return
    values = [number for v in table.sample(column) if (number := plain_number(v)) is not None]
    text = heading_key(table.heading.texts[column])
    runs = all(b == a + 1 for a, b in pairwise(values))
    if (
        text in {"no", "nos", "nr", "n"}
        and len(values) >= 2
        and not runs
        and all(v == int(v) and v > 0 for v in values)
    ):
        columns["quantity"] = columns.pop("item")
        found = table.heading.texts[column]
        place = table.place(file, column)
        table.problems.append(said.HEADING_READ_AS.at(place, found=found, what="quantity", wording="'Qty'"))


def _settle_quantity(file: str, table: Table, columns: dict[str, int], many: dict[str, list[int]]) -> None:
    """Take the total quantity where there is one; ask where two columns of quantities differ."""
    total, each = columns.pop("quantity_total", None), columns.get("quantity")
    if total is not None:
        columns["quantity"] = total
        if each is not None and table.sample(total) != table.sample(each):
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
    hands = [c for c in candidates if table.heading.texts[c].split()[-1].strip(" .").lower() in HANDS]
    if len(hands) == len(candidates) == 2:
        columns["quantity"], columns["quantity 2"] = hands
        names = " and ".join(f"{' '.join(table.heading.texts[c].split())} ({column_letters(c)})" for c in hands)
        table.problems.append(said.QUANTITY_OF_HANDS.at(table.place(file, hands[0]), columns=names))
        return
    first, *rest = [table.sample(c) for c in candidates] or [[]]
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
    words = {cell_text(v).strip().lower() for v in table.sample(column)} if column is not None else set()
    if column is not None and words and not words & set(Steel.words()):
        del columns["steel"]
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
