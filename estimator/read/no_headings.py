"""Lists without headings: which column is which, where their cells leave no doubt; else words for the question."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from estimator.read.cells import CellValue, SheetCells, column_letters
from estimator.read.counts import read_count
from estimator.read.heading_rows import HeadingRow, cell_text, is_blank
from estimator.read.headings import Heading
from estimator.read.lengths import Length, read_length
from estimator.read.numbers import Refused, plain_number
from estimator.read.size import Size
from estimator.read.sizes import read_size

__all__ = ["heading_by_content", "say_columns"]

SAMPLE = 200
"""Rows that are looked at."""
LEAST_ROWS = 2
MOST_PIECES = 2000
"""A whole number above this in most rows is a size or a code, not a quantity (judgement)."""


def heading_by_content(sheet: SheetCells) -> HeadingRow | None:
    """Return headings of our own for a list that has none, where every needed column can be told by its cells.

    Parameters
    ----------
    sheet : SheetCells
        A sheet on which no heading row was found.

    Returns
    -------
    HeadingRow or None
        Above the first row, taking no row of its own; None where any needed column could be another.

    Notes
    -----
    Told are: one column of sizes such as 10x150x300, or three columns of lengths that all name their unit, the smallest
    the thickness; and one column of whole numbers, or of counts with a word for pieces. Source: judgement.
    """
    columns = _columns(sheet)
    if columns is None:
        return None
    kinds = {c: _kind(values) for c, values in columns.items()}
    sized = _sizes(columns, kinds)
    counted = _of_kind(kinds, "pieces") or _of_kind(kinds, "whole")
    if not sized or len(counted) != 1:
        return None
    found = sized | {counted[0]: Heading("quantity")}
    words = [c for c in _of_kind(kinds, "words") if c not in found]
    for column, name in zip(words, ("mark", "description"), strict=False):
        found[column] = Heading(name)
    texts = {c: f"column {column_letters(c)}" for c in columns}
    return HeadingRow(_first_row(sheet), 0, texts, found)


def say_columns(sheet: SheetCells) -> str:
    """Return what the columns of a sheet hold, for the question which is which; empty for a sheet that is no table.

    Examples
    --------
    >>> say_columns(SheetCells("a", [["P1", 4.0, 10.0], ["P2", 2.0, 12.0]]))
    'A holds P1, P2; B holds 4, 2; C holds 10, 12'
    """
    columns = _columns(sheet) or {}
    parts = []
    for column, values in list(columns.items())[:8]:
        shown = [f"{v:g}" if isinstance(v, float) else cell_text(v).strip()[:20] for v in values[:3]]
        parts.append(f"{column_letters(column)} holds {', '.join(filter(None, shown))}")
    return "; ".join(parts)


def _columns(sheet: SheetCells) -> dict[int, list[CellValue]] | None:
    """Return the cells of each column that is filled in nearly all rows; None where rows are too few or unlike."""
    rows = [row for row in sheet.rows[_first_row(sheet) : 5 * SAMPLE] if any(not is_blank(v) for v in row)][:SAMPLE]
    if len(rows) < LEAST_ROWS:
        return None
    width = max(map(len, rows))
    filled = {c: [row[c] for row in rows if c < len(row) and not is_blank(row[c])] for c in range(min(width, 60))}
    kept = {c: values for c, values in filled.items() if len(values) * 10 >= 8 * len(rows)}
    return kept if len(kept) >= LEAST_ROWS else None


def _first_row(sheet: SheetCells) -> int:
    """Return the first of the fullest rows that have a like; what stands above it are titles."""
    full = [sum(1 for v in row if not is_blank(v)) for row in sheet.rows[:SAMPLE]]
    fullest = max((count for count, rows in Counter(full).items() if rows >= LEAST_ROWS), default=0)
    return next((row for row, count in enumerate(full) if count == fullest), 0)


def _kind(values: list[CellValue]) -> str:
    """Return what nearly all cells of a column are: sizes, lengths, pieces, whole or running numbers, or words."""
    numbers = [number for v in values if (number := plain_number(v)) is not None]
    if len(numbers) == len(values) and all(n.is_integer() and 0 < n <= MOST_PIECES for n in numbers):
        return "running" if numbers == [numbers[0] + n for n in range(len(numbers))] else "whole"
    texts = [cell_text(v).strip() for v in values]
    if not all(texts):
        return "other"
    for kind, holds in (("pieces", _is_pieces), ("sizes", _is_size), ("lengths", _is_length)):
        if sum(map(holds, texts)) * 10 >= 9 * len(texts):
            return kind
    return "words" if not any(_is_size(text) or _is_length(text) or text.isdigit() for text in texts) else "other"


def _of_kind(kinds: dict[int, str], kind: str) -> list[int]:
    return [column for column, one in kinds.items() if one == kind]


def _is_pieces(text: str) -> bool:
    """Return whether a text is a count with a word or sign that says so."""
    return not text.isdigit() and text[:1] not in "'\"." and not isinstance(read_count(text), Refused)


def _is_size(text: str) -> bool:
    size = read_size(text)
    return isinstance(size, Size) and size.thickness is not None and size.a is not None


def _is_length(text: str) -> bool:
    length = read_length(text)
    return isinstance(length, Length) and length.unit is not None


def _sizes(columns: dict[int, list[CellValue]], kinds: dict[int, str]) -> dict[int, Heading]:
    """Return the columns that give sizes: one of whole sizes, or three of lengths with their units."""
    whole = _of_kind(kinds, "sizes")
    if len(whole) == 1:
        return {whole[0]: Heading("size")}
    lengths = _of_kind(kinds, "lengths")
    if whole or len(lengths) != 3:
        return {}
    order = sorted(lengths, key=lambda c: max(_millimetres(columns[c])))
    smallest = max(_millimetres(columns[order[0]]))
    if any(smallest >= min(_millimetres(columns[c])) for c in order[1:]):
        return {}
    return {order[0]: Heading("thickness_mm"), order[2]: Heading("length"), order[1]: Heading("width")}


def _millimetres(values: list[CellValue]) -> Iterator[float]:
    for value in values:
        read = read_length(cell_text(value))
        if isinstance(read, Length):
            yield float(read.in_mm())
