"""Settles which column counts the pieces, where several can or its cells hold marks: told by the cells, else asked."""

from __future__ import annotations

import re
from itertools import pairwise

from estimator.problems import table as said
from estimator.read.cells import CellValue, column_letters
from estimator.read.counts import read_count
from estimator.read.heading_rows import HANDS, cell_text, doubled
from estimator.read.headings import Heading, heading_key
from estimator.read.lengths import read_length
from estimator.read.numbers import Refused, plain_number
from estimator.read.sizes import read_size
from estimator.read.table import Table

__all__ = [
    "are_counts",
    "ask_between_quantities",
    "holds_no_figures",
    "marks_beside_quantity",
    "marks_under_quantity",
    "numbers_that_count",
    "say_marks",
    "sets_of_pieces",
]

_PER_SET = frozenset(
    {"per set", "each set", "pcs per set", "pieces per set", "in set", "in one set", "pro satz", "je satz"}
)
_SETS = frozenset(
    {"sets", "set", "no of sets", "number of sets", "sets required", "sets reqd", "sätze", "anzahl sätze"}
)
_MAY_COUNT = frozenset({"no", "nos", "nr", "n", "piece", "pieces", "part", "parts", "item", "items"})
"""Headings of marks or row numbers that some lists put over the number of pieces."""
_MARK = re.compile(r"[^\W\d_]{1,4}[-. ]?\d{1,4}[^\W\d_]?")
_NEARLY_ALL = 0.9
_LENGTHS = frozenset({"thickness_mm", "length", "width", "diameter", "inside_diameter", "size_a_mm", "size_b_mm"})


def marks_under_quantity(table: Table) -> set[int]:
    """Make a column whose heading says pieces and whose cells are marks a mark, and return it.

    Parameters
    ----------
    table : Table
        The table; what its headings mean is corrected here.

    Returns
    -------
    set of int
        The columns that were corrected.

    Notes
    -----
    Beside another column that counts, cells of any words are marks; a column that stands alone has to hold figures
    behind letters, each once, and the table no other mark. Source: judgement.
    """
    found = table.heading.found
    cells = {c: table.sample(c) for c, heading in found.items() if heading.column.startswith("quantity")}
    counts = any(counted_share(values) >= _NEARLY_ALL for values in cells.values())
    none = {c for c, values in cells.items() if counted_share(values) <= 1 - _NEARLY_ALL}
    marks = {c for c in none if counts or _are_marks(table, cells[c])}
    for column in marks:
        found[column] = Heading("mark")
    return marks


def marks_beside_quantity(candidates: list[int], table: Table, columns: dict[str, int]) -> set[int]:
    """Take the other column of pieces as the mark where the user has named one of two, and return it."""
    for column in candidates:
        cells = table.sample(column)
        if column not in columns.values() and len(set(map(str, cells))) == len(cells) > 1:
            columns["mark"] = column
            return {column}
    return set()


def say_marks(file: str, table: Table, columns: dict[str, int]) -> None:
    """Say that a column headed as the pieces is read as the mark."""
    texts = (" ".join(table.heading.texts.get(columns[name], "").split()) for name in ("mark", "quantity"))
    place = table.place(file, columns["mark"])
    table.problems.append(said.MARKS_UNDER_QUANTITY.at(place, **dict(zip(("heading", "other"), texts, strict=True))))


def counted_share(cells: list[CellValue]) -> float:
    """Return which share of filled cells are whole numbers of pieces; 1 where none is filled.

    Examples
    --------
    >>> counted_share([4.0, "x6", "BP1", "2 ea"]), counted_share([])
    (0.75, 1.0)
    """
    return sum(map(_is_count, cells)) / len(cells) if cells else 1.0


def are_counts(cells: list[CellValue]) -> bool:
    """Return whether nearly all cells of a column are numbers of pieces that do not number the rows.

    Examples
    --------
    >>> are_counts([4.0, 2.0, 8.0]), are_counts([1.0, 2.0, 3.0]), are_counts([])
    (True, False, False)
    """
    return bool(cells) and counted_share(cells) >= _NEARLY_ALL and not _runs(_numbers(cells))


def holds_no_figures(name: str, cells: list[CellValue]) -> bool:
    """Return whether nearly all cells of a column cannot be what the user names it for.

    Parameters
    ----------
    name : str
        House name of what the column is named for.
    cells : list of CellValue
        Its filled cells.

    Returns
    -------
    bool
        Always False for what is no number or length, and for a column of one cell: that cell is asked about itself.

    Examples
    --------
    >>> holds_no_figures("quantity", ["BP1", "BP2", "G1"]), holds_no_figures("quantity", ["BP1", 4.0])
    (True, False)
    >>> holds_no_figures("thickness_mm", ["Base plate", "Gusset"]), holds_no_figures("thickness_mm", ["PL10", '1/2"'])
    (True, False)
    """
    is_one = _is_count if name == "quantity" else _is_length if name in _LENGTHS else None
    if is_one is None or len(cells) < 2:
        return False
    return sum(map(is_one, cells)) <= (1 - _NEARLY_ALL) * len(cells)


def numbers_that_count(file: str, table: Table, columns: dict[str, int]) -> None:
    """Take a column called No. or Piece beside the marks as the number of pieces, unless it numbers the rows."""
    both = [name for name in ("item", "mark") if name in columns]
    if len(both) < 2 or columns["item"] == columns["mark"]:
        return
    for name in both:
        values = _numbers(table.sample(columns[name]))
        known = heading_key(table.heading.texts[columns[name]]) in _MAY_COUNT
        whole = all(v == int(v) and v > 0 for v in values)
        if (
            not known
            or len(values) < 2
            or not whole
            or _runs(values)
            or (name == "mark" and not _beside(table, columns))
        ):
            continue
        columns["quantity"] = column = columns.pop(name)
        fields = {"found": table.heading.texts[column], "what": "quantity", "wording": "'Qty'"}
        table.problems.append(said.HEADING_READ_AS.at(table.place(file, column), **fields))
        return


def sets_of_pieces(file: str, table: Table, columns: dict[str, int]) -> None:
    """Take the pieces of a set and the number of sets, where columns give both, for the quantity.

    Parameters
    ----------
    file : str
        Name of the file.
    table : Table
        The table; it is said there.
    columns : dict of str to int
        Column of each meaning; filled here.
    """
    keys = {heading_key(text): column for column, text in table.heading.texts.items() if column not in columns.values()}
    each = next((column for key, column in keys.items() if key in _PER_SET), None)
    sets = next((column for key, column in keys.items() if key in _SETS), None)
    if each is None or sets is None:
        return
    columns["quantity"], columns["quantity of sets"] = each, sets
    fields = {"each": repr(table.heading.texts[each]), "sets": repr(table.heading.texts[sets])}
    table.problems.append(said.QUANTITY_OF_SETS.at(table.place(file, each), **fields))


def ask_between_quantities(file: str, table: Table, columns: dict[str, int]) -> None:
    """Take the total quantity where there is one; ask where two columns of quantities differ, the likelier first."""
    total, each = columns.pop("quantity_total", None), columns.get("quantity")
    texts = {c: " ".join(text.split()) for c, text in table.heading.texts.items()}
    if total is not None:
        columns["quantity"] = total
        if each is not None and table.sample(total) != table.sample(each):
            fields = {"total": repr(table.heading.texts[total]), "each": repr(table.heading.texts[each])}
            place = table.place(file, total)
            table.problems.append(said.QUANTITY_TOTAL_USED.at(place, letters=column_letters(each), **fields))
        return
    candidates = doubled(table.heading).get("quantity", [])
    hands = [c for c in candidates if table.heading.texts[c].split()[-1].strip(" .").lower() in HANDS]
    if len(hands) == len(candidates) == 2:
        columns["quantity"], columns["quantity 2"] = hands
        names = " and ".join(f"{texts[c]} ({column_letters(c)})" for c in hands)
        table.problems.append(said.QUANTITY_OF_HANDS.at(table.place(file, hands[0]), columns=names))
        return
    first, *rest = [table.sample(c) for c in candidates] or [[]]
    if any(values and values != first for values in rest):
        names = ", ".join(f"{texts[c]} ({column_letters(c)})" for c in candidates)
        columns["quantity"] = likely = max(candidates, key=lambda c: (*_likely_counts(table.sample(c)), -c))
        fields = {"what": "quantity", "columns": names, "first": column_letters(likely)}
        table.problems.append(said.COLUMNS_TIE.at(table.place(file), **fields))


def _likely_counts(cells: list[CellValue]) -> tuple[float, bool]:
    return counted_share(cells), not _runs(_numbers(cells))


def _numbers(cells: list[CellValue]) -> list[float]:
    return [number for value in cells if (number := plain_number(value)) is not None]


def _runs(values: list[float]) -> bool:
    """Return whether several numbers count the rows."""
    return len(values) > 1 and all(b == a + 1 for a, b in pairwise(values))


def _beside(table: Table, columns: dict[str, int]) -> bool:
    """Return whether the numbers of the rows are marks, so that the column of marks may count."""
    cells = table.sample(columns["item"])
    return bool(cells) and counted_share(cells) <= 1 - _NEARLY_ALL


def _are_marks(table: Table, cells: list[CellValue]) -> bool:
    """Return whether cells can be nothing but marks, in a table that has no others."""
    texts = [cell_text(value).strip() for value in cells]
    named = any(heading.column == "mark" for heading in table.heading.found.values())
    return not named and len(set(texts)) == len(texts) >= 2 and all(map(_MARK.fullmatch, texts))


def _is_count(value: CellValue) -> bool:
    if isinstance(value, str):
        return not isinstance(read_count(cell_text(value)), Refused)
    return isinstance(value, float) and value.is_integer()


def _is_length(value: CellValue) -> bool:
    if not isinstance(value, str):
        return True
    return not (isinstance(read_length(value), Refused) and isinstance(read_size(value), Refused))
