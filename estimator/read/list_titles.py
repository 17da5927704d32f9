"""What titles and notes say about the rows below them: sets that multiply, materials, the thickness of a section."""

from __future__ import annotations

import re
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from estimator.problems import cut_list as said
from estimator.problems import table as said_table
from estimator.problems.code import Place, Problem
from estimator.read.cells import SheetCells, column_letters
from estimator.read.heading_rows import cell_text, is_blank
from estimator.read.headings import heading_key, match_heading
from estimator.read.list_columns import ColumnReader
from estimator.read.list_lengths import in_mm
from estimator.read.list_pieces import Pieces
from estimator.read.list_units import BareUnit
from estimator.read.materials import uncuttable
from estimator.read.row_kinds import RowKind
from estimator.read.row_words import is_note, multiplier
from estimator.read.size import Size
from estimator.read.sizes import read_size
from estimator.read.table import Table

__all__ = ["thickness_from_titles", "title_problems"]

_SET_WORDS = (
    "qty|quantity|sets|no of sets|number of sets|set qty|sets required|units required|no off|no of units|assemblies|"
    "no of assemblies|number of assemblies|job qty|job quantity|anzahl|stuckzahl|anzahl satze|nombre|quantite|cantidad|"
    "quantidade|quantita|ilosc|количество|кол во|数量|數量|so luong"
)
_SETS = frozenset(_SET_WORDS.split("|"))
_SPEAKS_OF_MATERIAL = re.compile(
    r"\b(?:material|matl|mat'l|all|made|steel|plates?|parts|werkstoff|alle|matière|matériau|materiale?|materiał|материал)\b",
    re.IGNORECASE,
)


def title_problems(file: str, sheet: SheetCells, tables: list[Table]) -> list[Problem]:
    """Return what the texts around tables say against pricing their rows as they stand.

    Parameters
    ----------
    file : str
        Name of the file.
    sheet : SheetCells
        The sheet.
    tables : list of Table
        Its tables that are read.

    Returns
    -------
    list of Problem
        A number of sets above the table, a material that a torch cannot cut above it, in a sub-heading or in a note.
    """
    first = min((table.heading.row for table in tables), default=0)
    problems = list(_above(file, sheet, first))
    for table in tables:
        for row, kind in table.rows.others.items():
            if kind in {RowKind.TITLE, RowKind.NOTE}:
                problems += _materials(file, sheet, row, titled=kind is RowKind.TITLE)
    return problems


def thickness_from_titles(
    reader: ColumnReader, table: Table, pieces: Pieces, bare: BareUnit, cutting: NDArray[np.bool_]
) -> None:
    """Give rows without a thickness the one that the sub-heading or title above them names, and say so."""
    open_lines = np.flatnonzero(np.isnan(pieces.thickness_mm) & ~pieces.refused & cutting).tolist()
    titles = sorted(row for row, kind in table.rows.others.items() if kind is RowKind.TITLE)
    known: dict[int, Size | None] = {}
    for line in open_lines:
        above = [row for row in titles if row < reader.rows[line]]
        at = above[-1] if above else -1
        if at not in known:
            known[at] = _thickness_in(_title_text(table.sheet, at) if above else table.title)
        size = known[at]
        if size is None or size.thickness is None:
            continue
        pieces.thickness_mm[line] = in_mm(size.thickness, bare)
        named = size.thickness.unit or size.thickness.is_fraction
        said_as = str(size.thickness) if named else f"{size.thickness} {bare.unit}"
        text = _title_text(table.sheet, at) if above else table.title
        reader.note(line, "thickness_mm", text, said_as)
        reader.say(said.THICKNESS_FROM_TITLE, line, "thickness_mm", text, read_as=said_as)


def _title_text(sheet: SheetCells, row: int) -> str:
    return " ".join(cell_text(value).strip() for value in sheet.rows[row] if cell_text(value).strip())


def _thickness_in(text: str) -> Size | None:
    """Return the one thickness that a title names."""
    size = read_size(text) if 0 < len(text) <= 60 else None
    alone = isinstance(size, Size) and size.thickness is not None and size.a is None and size.b is None
    return size if alone and isinstance(size, Size) else None


def _above(file: str, sheet: SheetCells, first: int) -> Iterator[Problem]:
    """Look at the rows above the first table."""
    for row in range(min(first, len(sheet.rows))):
        cells = [(c, v) for c, v in enumerate(sheet.rows[row]) if not is_blank(v)]
        for n, (column, value) in enumerate(cells):
            text = cell_text(value)
            beside = cells[n + 1][1] if n + 1 < len(cells) else None
            counts = heading_key(text) in _SETS and isinstance(beside, float) and beside > 1
            if counts or (text and multiplier(text) is not None and not is_note(text)):
                at = cells[n + 1][0] if counts else column
                found = f"{beside:g}" if counts and isinstance(beside, float) else text
                yield said_table.TITLE_MULTIPLIES.at(Place(file, sheet.name, row + 1, column_letters(at)), found=found)
        yield from _materials(file, sheet, row, titled=False)


def _materials(file: str, sheet: SheetCells, row: int, *, titled: bool) -> Iterator[Problem]:
    """Look for a material that cannot be cut in one row of texts."""
    texts = [(c, cell_text(v)) for c, v in enumerate(sheet.rows[row]) if cell_text(v).strip()]
    for n, (column, text) in enumerate(texts):
        label = match_heading(texts[n - 1][1]) if n else None
        labelled = label is not None and label.column in {"material", "grade"}
        speaks = labelled or (titled and len(text) <= 40) or bool(_SPEAKS_OF_MATERIAL.search(text))
        kind = uncuttable(text, is_material=labelled) if speaks else None
        if kind is not None:
            place = Place(file, sheet.name, row + 1, column_letters(column))
            yield said.MATERIAL_NOT_CUT.at(place, found=text, material=kind.material, why=kind.why)
