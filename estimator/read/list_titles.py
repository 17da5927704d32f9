"""What titles and notes say about the rows below them: sets that multiply, materials, the thickness of a section."""

from __future__ import annotations

import re
from bisect import bisect
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from estimator.problems import cut_list as said
from estimator.problems import list_words as said_words
from estimator.problems import table as said_table
from estimator.problems.code import Place, Problem
from estimator.read.cells import SheetCells, column_letters
from estimator.read.heading_rows import cell_text, is_blank
from estimator.read.headings import heading_key, match_heading
from estimator.read.list_columns import ColumnReader
from estimator.read.list_lengths import in_mm
from estimator.read.list_units import BareUnit
from estimator.read.materials import uncuttable
from estimator.read.numbers import plain_number
from estimator.read.pieces import Pieces
from estimator.read.row_kinds import RowKind
from estimator.read.row_orders import held_above
from estimator.read.row_words import is_note, multiplier
from estimator.read.section_words import form_of, form_of_title
from estimator.read.size import Size
from estimator.read.sizes import read_size
from estimator.read.table import Table
from estimator.words import Shape

__all__ = ["forms_above", "thickness_from_titles", "title_problems"]

_WALL = re.compile(r"\bwall\b|^wand|paroi|pared\b|parede|parete|scianki|стенки|壁")
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
    problems = [*_above(file, sheet, first), *held_above(file, sheet, first)]
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
        reader.say(said_words.THICKNESS_FROM_TITLE, line, "thickness_mm", text, read_as=said_as)


def forms_above(reader: ColumnReader, table: Table) -> dict[int, str | Shape]:
    """Return the section that a title, or a heading of wall thicknesses, says each line is; no line where none does.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    table : Table
        Its headings and titles.

    Returns
    -------
    dict of int to str or Shape
        By line.
    """
    walled = _WALL.search(heading_key(table.heading.texts.get(table.columns.get("thickness_mm", -1), "")))
    headed = form_of(table.heading.texts.get(table.columns.get("size", -1), "").casefold())
    default = headed if isinstance(headed, Shape) else Shape.SQUARE_TUBE if walled else form_of_title(table.title)
    rows = [row for row, kind in sorted(table.rows.others.items()) if kind is RowKind.TITLE]
    titles = {row: form_of_title(_title_text(table.sheet, row)) for row in rows}
    if default is None and not any(titles.values()):
        return {}
    forms = {}
    for line, row in enumerate(reader.rows.tolist()):
        at = bisect(rows, row)
        form = titles[rows[at - 1]] if at else default
        if form is not None:
            forms[line] = form
    return forms


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
            sets = plain_number(beside) if heading_key(text) in _SETS else None
            counts = sets is not None and sets > 1
            if counts or (text and multiplier(text) is not None and not is_note(text)):
                at = cells[n + 1][0] if counts else column
                found = f"{sets:g}" if counts else text
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
