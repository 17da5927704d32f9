"""Which cells of an estimate were filled when it was written, kept with its record: by it a later filling is known.

A spreadsheet program that saves an estimate again changes every byte of it and, where nobody typed, none of this.
"""

from __future__ import annotations

import base64
import binascii
import json
import zlib
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from estimator.problems import Place
from estimator.read.cells import Book, SheetCells, column_letters
from estimator.read.own_cells import is_blank
from estimator.write.block_sheet import BlockColumn
from estimator.write.book import BookSheet, OutputBook
from estimator.write.plain_text import plain_text

__all__ = ["Shape", "filled_since", "packed_shape", "shape_of", "unpacked_shape"]

Shape = dict[str, dict[str, Any]]
"""By sheet: runs of rows with the columns filled in them, those that hold texts, and a sum over the texts."""


def shape_of(book: OutputBook) -> Shape:
    """Return which cells of the sheets of a workbook are filled, as they are about to be written."""
    texts = {number: text for text, number in book.str_table.string_table.items()}
    return {sheet.name: _shape_of_sheet(sheet, texts) for sheet in book.worksheets()}


def packed_shape(shape: Shape) -> str:
    """Return a shape as one text for a cell."""
    return base64.b64encode(zlib.compress(json.dumps(shape, separators=(",", ":")).encode(), 3)).decode("ascii")


def unpacked_shape(text: str) -> Shape | None:
    """Return a shape from its text; None where there is none, as in an estimate of an older engine."""
    try:
        shape = json.loads(zlib.decompress(base64.b64decode(text, validate=True)))
    except (ValueError, zlib.error, binascii.Error):
        return None
    return shape if isinstance(shape, dict) else None


def filled_since(book: Book, shape: Shape, *, apart_from: str) -> list[Place]:
    """Return where a book holds more than it was written with, or another text.

    Parameters
    ----------
    book : Book
        The estimate, loaded.
    shape : dict
        What ``shape_of`` gave.
    apart_from : str
        Name of the sheet that holds the shape.

    Returns
    -------
    list of Place
        A cell that was blank; a sheet that was added, or whose texts are others.
    """
    places: list[Place] = []
    for sheet in book.sheets:
        if sheet.name == apart_from:
            continue
        written = shape.get(sheet.name)
        if written is None:
            places.append(Place(book.path.name, sheet.name))
            continue
        places += _filled_cells(book.path.name, sheet, written["cells"])
        if _sum_of(_texts_at(sheet, written["texts"])) != written["sum"]:
            places.append(Place(book.path.name, sheet.name))
    return places


def _shape_of_sheet(sheet: BookSheet, shared: Mapping[int, str]) -> dict[str, Any]:
    filled: dict[int, list[int]] = {}
    texts: dict[int, list[int]] = {}
    worth = 0
    for row, cells in sheet.table.items():
        kinds = [(column, type(cell).__name__, cell) for column, cell in sorted(cells.items())]
        filled[row] = [column for column, kind, _ in kinds if kind != "Blank"]
        texts[row] = [column for column, kind, _ in kinds if kind == "String"]
        worth += _sum_of(shared[cell.string] for _, kind, cell in kinds if kind == "String")
    shape = {"cells": _runs(filled), "texts": _runs(texts), "sum": worth}
    if sheet.block is not None:
        _add_block(shape, *sheet.block)
    return shape


def _add_block(shape: dict[str, Any], first_row: int, first_column: int, columns: Sequence[BlockColumn]) -> None:
    """Add a sheet's block; a column of it that is blank throughout is one to type in."""
    last_row = first_row + len(columns[0].values) - 1
    numbered = list(enumerate(columns, first_column))
    texts = {place: column for place, column in numbered if column.holds_texts and not column.formula}
    shape["cells"].append([first_row, last_row, [place for place, column in numbered if not column.is_blank]])
    shape["texts"].append([first_row, last_row, list(texts)])
    counts = Counter(value for column in texts.values() for value in column.values)
    shape["sum"] += sum(count * _worth(plain_text(text)) for text, count in counts.items())


def _runs(columns: dict[int, list[int]]) -> list[list[Any]]:
    """Put rows that follow each other with the same columns together."""
    runs: list[list[Any]] = []
    for row in sorted(row for row, filled in columns.items() if filled):
        here = columns[row]
        if runs and runs[-1][1] == row - 1 and runs[-1][2] == here:
            runs[-1][1] = row
        else:
            runs.append([row, row, here])
    return runs


def _filled_cells(file: str, sheet: SheetCells, runs: Sequence[Sequence[Any]]) -> list[Place]:
    ours = {row: columns for first, last, of_run in runs for columns in [set(of_run)] for row in range(first, last + 1)}
    nothing: set[int] = set()
    return [
        Place(file, sheet.name, row + 1, column_letters(column))
        for row, values in enumerate(sheet.rows)
        for column, value in enumerate(values)
        if value is not None and column not in ours.get(row, nothing) and not is_blank(value)
    ]


def _texts_at(sheet: SheetCells, runs: Sequence[Sequence[Any]]) -> Iterator[object]:
    return (sheet.value(row, c) for first, last, columns in runs for row in range(first, last + 1) for c in columns)


def _sum_of(texts: Iterable[object]) -> int:
    return sum(_worth(text) for text in texts)


def _worth(text: object) -> int:
    """Return a number for a text, whatever a program does to its blanks; 0 for a blank cell."""
    words = "" if text is None else " ".join(str(text).split())
    return zlib.crc32(words.encode()) if words else 0
