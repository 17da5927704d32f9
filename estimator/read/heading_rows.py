"""Where a table's headings stand: one row or two, merged group titles, a units row, tables side by side."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field

from estimator.read.cells import CellError, CellValue, SheetCells
from estimator.read.headings import Heading, match_grouped, match_heading, near_heading, unit_in_cell
from estimator.read.numbers import Refused, plain_number
from estimator.read.sizes import read_size

__all__ = [
    "HANDS",
    "HEADING_LIMIT",
    "HeadingRow",
    "cell_text",
    "doubled",
    "heading_at",
    "is_blank",
    "is_ruled",
    "split_side_by_side",
]

HEADING_LIMIT = 60
"""Rows from the top within which the first heading row must stand."""

_RULED = re.compile(r"[\s\-_=*~.|+]{3,}")
HANDS = frozenset("l r lh rh left right т н t n links rechts lewa prawa gauche droite izq der sx dx".split())  # noqa: SIM905
"""Sub-headings under a quantity that part pieces from their mirror images: as drawn and opposite hand."""
_WEIGHT = {
    "quantity": 3.0,
    "quantity_total": 3.0,
    "thickness_mm": 3.0,
    "size": 3.0,
    "cut_length_mm": 2.5,
    "length": 2.0,
}
_WEIGHT |= {"width": 2.0, "mark": 1.5, "item": 1.0, "material": 1.5, "description": 1.0, "diameter": 1.5, "grade": 1.0}
_MEASURES = frozenset({"thickness_mm", "size", "cut_length_mm", "length", "width", "diameter", "material", "size_a_mm"})
_WHAT = _MEASURES | {"description", "mark", "work", "shape", "total_cut_length_mm"}


@dataclass(slots=True)
class HeadingRow:
    """Headings of one table: which column of the sheet means what."""

    row: int
    rows: int
    """Rows that the headings take, with a units row and a row of column numbers."""
    texts: dict[int, str]
    """Heading text by column of the sheet."""
    found: dict[int, Heading]
    units: dict[int, str] = field(default_factory=dict)
    """Units from a units row, by column."""
    units_row: int | None = None

    @property
    def score(self) -> float:
        """How much of a cut list the headings name."""
        return sum(_WEIGHT.get(column, 0.5) for column in {heading.column for heading in self.found.values()})

    @property
    def is_cut_list(self) -> bool:
        """Whether the headings name at least two columns, one of them a quantity or a measure beside another."""
        columns = {heading.column for heading in self.found.values()}
        counted = bool(columns & {"quantity", "quantity_total"})
        return len(columns) >= 2 and bool(columns & _MEASURES or (counted and columns & _WHAT))


def is_blank(value: CellValue) -> bool:
    """Return whether a cell holds nothing that can be seen."""
    return value is None or (isinstance(value, str) and not isinstance(value, CellError) and not value.strip())


def is_ruled(value: CellValue) -> bool:
    """Return whether a text only draws a line."""
    return isinstance(value, str) and bool(_RULED.fullmatch(value))


def cell_text(value: CellValue) -> str:
    """Return a cell's text; empty for anything that is not one."""
    return value if isinstance(value, str) and not isinstance(value, CellError) else ""


def heading_at(sheet: SheetCells, row: int, columns: range | None = None, *, slips: bool = False) -> HeadingRow | None:
    """Return the headings that start in a row; None when the row is no heading row.

    Parameters
    ----------
    sheet : SheetCells
        The sheet.
    row : int
        Row, from 0.
    columns : range, optional
        Only these columns of the sheet.
    slips : bool
        Allow slips of the pen from the first; for a sheet where no row is understood without.

    Returns
    -------
    HeadingRow or None
        One row or two, whichever names more, with the units row and the row of column numbers below.
    """
    one = _one_row(sheet, row, columns)
    two = _two_rows(sheet, row, columns)
    below = _one_row(sheet, row + 1, columns)
    if two is not None and below is not None and below.score >= two.score:
        two = None
    if slips and one is None:
        one = HeadingRow(row, 1, _row_texts(sheet, row, columns), {})
    if slips and one is not None:
        _allow_slips(one)
    best = max((h for h in (one, two) if h is not None), key=lambda h: (h.score, len(h.found)), default=None)
    if best is None or not best.is_cut_list or not _reads_as_headings(sheet, best, columns):
        return None
    _allow_slips(best)
    _take_units_row(sheet, best, columns)
    _take_number_row(sheet, best)
    return best


def split_side_by_side(heading: HeadingRow) -> list[HeadingRow]:
    """Return one heading for each of the tables that stand side by side under one heading row."""
    ordered = sorted(heading.texts)
    groups: list[list[int]] = [[]]
    last = None
    for column in ordered:
        if last is not None and column > last + 1:
            groups.append([])
        groups[-1].append(column)
        last = column
    groups = [part for group in groups for part in _repeats(group, heading)]
    parts = [_part(heading, group) for group in groups]
    full = [part for part in parts if part.is_cut_list and _has_quantity(part)]
    return full if len(full) > 1 and len({frozenset(_names(part)) for part in full}) < len(full) else [heading]


def _repeats(group: list[int], heading: HeadingRow) -> list[list[int]]:
    """Part adjoining columns where the same headings start over."""
    first = heading.texts[group[0]].strip().lower() if group else ""
    starts = [n for n, column in enumerate(group) if heading.texts[column].strip().lower() == first]
    return [group[a:b] for a, b in zip(starts, [*starts[1:], len(group)], strict=True)] if first else [group]


def _part(heading: HeadingRow, group: list[int]) -> HeadingRow:
    kept = set(group)
    return HeadingRow(
        heading.row,
        heading.rows,
        {c: t for c, t in heading.texts.items() if c in kept},
        {c: h for c, h in heading.found.items() if c in kept},
        {c: u for c, u in heading.units.items() if c in kept},
        heading.units_row,
    )


def _names(heading: HeadingRow) -> Iterable[str]:
    return (found.column for found in heading.found.values())


def _has_quantity(heading: HeadingRow) -> bool:
    return bool({"quantity", "quantity_total"} & set(_names(heading)))


def _row_texts(sheet: SheetCells, row: int, columns: range | None) -> dict[int, str]:
    if not 0 <= row < len(sheet.rows):
        return {}
    cells = sheet.rows[row]
    span = range(len(cells)) if columns is None else columns
    return {c: cells[c] for c in span if c < len(cells) and cell_text(cells[c]).strip()}  # type: ignore[misc]


def _one_row(sheet: SheetCells, row: int, columns: range | None) -> HeadingRow | None:
    texts = _row_texts(sheet, row, columns)
    if len(texts) < 2:
        return None
    found = {c: heading for c, text in texts.items() if (heading := match_heading(text)) is not None}
    return HeadingRow(row, 1, texts, found) if found else None


def _two_rows(sheet: SheetCells, row: int, columns: range | None) -> HeadingRow | None:
    """Read two rows as group titles over sub-headings."""
    below = _row_texts(sheet, row + 1, columns)
    above = _row_texts(sheet, row, columns)
    if not above or len(below) < 2 or _numbers_in(sheet, row + 1, columns):
        return None
    if (_all_units(below) and set(below) <= set(above)) or not any(
        map(match_heading, [*above.values(), *below.values()])
    ):
        return None
    groups = _group_titles(sheet, row, above, below)
    texts: dict[int, str] = {}
    found: dict[int, Heading] = {}
    for column in sorted(set(above) | set(below)):
        top, bottom = groups.get(column, ""), below.get(column, "")
        texts[column] = f"{top} {bottom}".strip() if bottom != top else bottom
        heading = _two_part_heading(top, bottom, alone=list(groups.values()).count(top) == 1)
        if heading is not None:
            found[column] = heading
    if not found or any(map(_is_data, below.values())):
        return None
    return HeadingRow(row, 2, texts, found)


def _is_data(text: str) -> bool:
    """Return whether a text is a size or a count with a length, which no heading is."""
    return "@" in text or (any(map(str.isdigit, text)) and not isinstance(read_size(text), Refused))


def _two_part_heading(top: str, bottom: str, *, alone: bool) -> Heading | None:
    """Match a group title and a sub-heading: together, then the sub-heading, then a title over one column."""
    if not bottom:
        return match_heading(top) if alone else None
    unit = unit_in_cell(bottom)
    if unit is not None and top and (whole := match_heading(top)) is not None and alone:
        return Heading(whole.column, "" if unit == "other" else unit, whole.sure)
    if bottom.strip(" .").lower() in HANDS and (whole := match_heading(top)) is not None and whole.column == "quantity":
        return whole
    both = match_grouped(top, bottom) if top else None
    if both is not None and both.sure:
        return both
    return match_heading(bottom) or (match_heading(top) if alone and top else None)


def _group_titles(sheet: SheetCells, row: int, above: dict[int, str], below: dict[int, str]) -> dict[int, str]:
    """Spread each group title over the columns that it is merged over, or over the blanks to its right."""
    titles = dict(above)
    spans = {(r, c): last for r, c, _, last in sheet.merged if r == row}
    ordered = sorted(above)
    for n, column in enumerate(ordered):
        if (row, column) in spans:
            last = spans[row, column]
        elif spans:
            last = column
        else:
            last = (ordered[n + 1] if n + 1 < len(ordered) else max(below) + 1) - 1
        for beside in range(column + 1, last + 1):
            if beside in below:
                titles[beside] = above[column]
    return titles


def _allow_slips(heading: HeadingRow) -> None:
    """Match what is left of a heading row once more, a slip of the pen allowed."""
    have = set(_names(heading))
    for column, text in heading.texts.items():
        if column not in heading.found and (near := near_heading(text)) is not None and near.column not in have:
            heading.found[column] = near


def _numbers_in(sheet: SheetCells, row: int, columns: range | None) -> bool:
    cells = sheet.rows[row] if row < len(sheet.rows) else []
    span = range(len(cells)) if columns is None else columns
    return any(plain_number(cells[c]) is not None for c in span if c < len(cells))


def _all_units(texts: dict[int, str]) -> bool:
    return all(unit_in_cell(text) is not None for text in texts.values())


def _reads_as_headings(sheet: SheetCells, heading: HeadingRow, columns: range | None) -> bool:
    """Return whether a row is headings and not a row of data that happens to hold heading words."""
    if heading.rows == 1 and _numbers_in(sheet, heading.row, columns):
        return len(heading.found) >= 4 and len(heading.found) * 2 >= len(heading.texts)
    return len(heading.found) >= 4 or len(heading.found) * 4 >= len(heading.texts)


def _take_units_row(sheet: SheetCells, heading: HeadingRow, columns: range | None) -> None:
    """Take the row below as units when most of its texts are, and none holds a figure."""
    row = heading.row + heading.rows
    texts = _row_texts(sheet, row, columns)
    named = {c: unit for c, text in texts.items() if (unit := unit_in_cell(text)) is not None}
    words = not any(ch.isdigit() for text in texts.values() for ch in text)
    mostly = len(named) * 2 > len(texts) and any(unit != "other" for unit in named.values())
    if mostly and words and not _numbers_in(sheet, row, columns) and set(texts) <= set(heading.texts):
        heading.units = {c: unit for c, unit in named.items() if unit != "other"}
        heading.units_row = row
        heading.rows += 1


def _take_number_row(sheet: SheetCells, heading: HeadingRow) -> None:
    """Take the row below as column numbers when it counts 1, 2, 3 … under the headings."""
    row = heading.row + heading.rows
    if len(heading.texts) < 4 or row >= len(sheet.rows):
        return
    values = [sheet.value(row, c) for c in sorted(heading.texts)]
    counted = [_whole(value) for value in values if not is_blank(value)]
    if len(counted) >= 4 and counted == list(range(1, len(counted) + 1)) and len(counted) >= len(values) - 1:
        heading.rows += 1


def _whole(value: CellValue) -> int | None:
    if isinstance(value, float) and value.is_integer():
        return int(value)
    text = cell_text(value).strip(" ().")
    return int(text) if text.isdigit() else None


def doubled(heading: HeadingRow) -> dict[str, list[int]]:
    """Return the meanings that more than one column of a heading row has, with the columns."""
    many = Counter(_names(heading))
    return {name: [c for c, h in heading.found.items() if h.column == name] for name, n in many.items() if n > 1}
