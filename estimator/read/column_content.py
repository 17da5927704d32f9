"""Columns told by what stands in them: sizes under an unknown heading or over several cells, marks against names."""

from __future__ import annotations

from estimator.problems import table as said
from estimator.read.heading_rows import cell_text
from estimator.read.size import Size
from estimator.read.sizes import read_size
from estimator.read.table import Table

__all__ = ["like_marks", "size_by_content", "size_over_cells"]

SAMPLE = 40
"""Cells of a column that are looked at."""


def like_marks(table: Table, column: int) -> tuple[int, int, float]:
    """Return how many cells of a column differ, how many hold figures, and how short they are: marks beat names."""
    texts = [value if isinstance(value, str) else f"{value}" for value in table.sample(column)]
    figures = sum(1 for text in texts if any(map(str.isdigit, text)))
    return len(set(texts)), figures, -sum(map(len, texts)) / max(len(texts), 1)


def size_by_content(file: str, table: Table, columns: dict[str, int]) -> None:
    """Take a column with an unknown heading as sizes where no other gives a thickness and nearly all its cells do."""
    if {"thickness_mm", "size", "material", "work", "shape"} & set(columns) or "quantity" not in columns:
        return
    sized = []
    for column in table.heading.texts.keys() - set(columns.values()):
        texts = [cell_text(value) for value in table.sample(column)[:SAMPLE]]
        many = sum(1 for text in texts if isinstance(size := read_size(text), Size) and size.thickness is not None)
        if many >= 2 and many * 5 >= len(texts) * 4:
            sized.append(column)
    if len(sized) == 1:
        columns["size"] = sized[0]
        found, place = table.heading.texts[sized[0]], table.place(file, sized[0])
        table.problems.append(said.HEADING_READ_AS.at(place, found=found, what="size", wording="'Size'"))


def size_over_cells(table: Table, columns: dict[str, int]) -> None:
    """Take the cells of a size that stands over several, with an x in a cell of its own between the figures."""
    at = columns.get("size")
    parts = 1
    while at is not None and not {at + 1, at + 2} & set(table.heading.texts):
        between = {cell_text(value).strip().lower() for value in table.sample(at + 1)[:SAMPLE]}
        if not between or not between <= {"x", "×", "*", "х", "by"} or not table.sample(at + 2):
            return
        at, parts = at + 2, parts + 1
        columns[f"size part {parts}"] = at
