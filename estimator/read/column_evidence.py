"""What the cells of a column give away of its meaning, where its heading is not known or is one of two alike."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from estimator.problems import table as said
from estimator.read.cells import CellValue
from estimator.read.heading_rows import cell_text
from estimator.read.headings import match_heading
from estimator.read.lengths import Length, read_length
from estimator.read.section_words import HARDWARE, form_of
from estimator.read.table import Table

__all__ = ["are_thicknesses", "describe_by_cells", "says_shapes"]

_STUFF = re.compile(r"(?<![^\W\d_])(?:(?:mild|carbon|black|structural)[ -])?(?:steels?|sheet)(?![^\W\d_])")
_NAMES = frozenset({"mark", "item"})
_WORDY = 0.5
"""Share of the filled cells that must be words before a column is taken for a description."""
_PLATES = (0.18, 200.0)
"""Thicknesses that plates to be burnt have, in inches or in millimetres."""
_MOST_THICKNESSES = 12
"""Different thicknesses that one list has at most; sides have more."""


def describe_by_cells(file: str, table: Table, columns: dict[str, int]) -> None:
    """Take as descriptions the columns whose cells name shapes, and a spare column of part names that are words.

    Parameters
    ----------
    file : str
        Name of the file.
    table : Table
        The table; what was taken is said in its problems.
    columns : dict of str to int
        Column of the sheet for each meaning; filled here.

    Notes
    -----
    A ring that is not known for one is priced as the rectangle around it, so a column of shape words is never left
    out. Source: definition.
    """
    numbering = columns["item"] if columns.get("mark") not in {None, columns.get("item")} and "item" in columns else -1
    used = set(columns.values()) - {numbering}
    for column, text in sorted(table.heading.texts.items()):
        if column in used:
            continue
        cells = table.sample(column)
        if says_shapes(cells) or ("description" not in columns and _names_parts(text, cells)):
            _describe(file, table, columns, column)
    if "description" not in columns and "mark" in columns and says_shapes(table.sample(columns["mark"])):
        columns["description"] = columns["mark"]


def says_shapes(cells: Iterable[CellValue]) -> bool:
    """Return whether most cells of a column are words that name the shape of a piece of steel.

    Examples
    --------
    >>> says_shapes(["Ring", "Gusset", "Flat bar", None]), says_shapes(["red", "blue", "Ring"])
    (True, False)
    """
    texts = [cell_text(value).strip().lower() for value in cells if value not in (None, "")]
    shapes = sum(1 for text in texts if _shape_word(text))
    return bool(shapes) and shapes * 2 >= len(texts)


def are_thicknesses(cells: list[CellValue]) -> bool:
    """Return whether every cell of a column could be a thickness of plate: few figures, none of them large.

    Examples
    --------
    >>> are_thicknesses([10.0, 12.0, "3/8"]), are_thicknesses([300.0, 12.0]), are_thicknesses(["blue"])
    (True, False, False)
    """
    values = set(cells[:200])
    read = [read_length(value) if isinstance(value, str) else value for value in values]
    sizes = [length.value if isinstance(length, Length) else length for length in read]
    sane = all(isinstance(v, float | Fraction) and _PLATES[0] <= v <= _PLATES[1] for v in sizes)
    return 0 < len(values) <= _MOST_THICKNESSES and sane


def _shape_word(text: str) -> bool:
    if any(map(str.isdigit, text)) or len(text) > 40:
        return False
    return form_of(_STUFF.sub("", text)) not in {None, HARDWARE}


def _names_parts(heading: str, cells: list[CellValue]) -> bool:
    """Return whether a second column for the mark holds names in words, as Part beside Mark."""
    known = match_heading(heading)
    texts = [cell_text(value) for value in cells]
    wordy = sum(1 for text in texts if text and not any(map(str.isdigit, text)))
    return known is not None and known.column in _NAMES and bool(texts) and wordy > _WORDY * len(texts)


def _describe(file: str, table: Table, columns: dict[str, int], column: int) -> None:
    """Make a column the description, or a further one, and say so."""
    name = "description"
    while name in columns:
        name = f"description {int(name.partition(' ')[2] or 1) + 1}"
    for other in [n for n, c in columns.items() if c == column]:
        del columns[other]
    columns[name] = column
    text = " ".join(table.heading.texts[column].split())
    table.problems.append(
        said.HEADING_READ_AS.at(table.place(file, column), found=text, what="description", wording="'Description'")
    )
