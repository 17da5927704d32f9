"""Accounts for every row of a sheet: how many are of each kind, so that the counts add to the sheet's rows."""

from __future__ import annotations

import numpy as np

from estimator.read.cells import SheetCells
from estimator.read.heading_rows import is_blank
from estimator.read.row_kinds import RowKind
from estimator.read.table import Table

__all__ = ["rows_of_sheet"]

_BY_RANK = (
    *(RowKind.PRICED, RowKind.SUBTOTAL, RowKind.HEADING, RowKind.UNITS, RowKind.TITLE, RowKind.NOTE),
    *(RowKind.OTHER_TABLE, RowKind.BLANK, RowKind.PROBLEM),
)


def rows_of_sheet(sheet: SheetCells, tables: list[Table], read: list[Table], bad: set[int]) -> dict[str, int]:
    """Return how many rows of a sheet are of each kind.

    Parameters
    ----------
    sheet : SheetCells
        The sheet.
    tables : list of Table
        All its tables.
    read : list of Table
        The tables that are read.
    bad : set of int
        Rows with an error, as the spreadsheet numbers them.

    Returns
    -------
    dict of str to int
        They add to the rows of the sheet; where tables stand side by side, the better kind of a row counts.
    """
    rank = {kind: n for n, kind in enumerate(_BY_RANK)}
    kinds = np.full(len(sheet.rows), len(_BY_RANK), dtype=np.int8)
    for table in tables:
        wanted = any(table is one for one in read)
        head = table.heading
        for row in range(head.row, head.row + head.rows):
            kinds[row] = min(kinds[row], rank[RowKind.UNITS if row == head.units_row else RowKind.HEADING])
        piece = rank[RowKind.PRICED if wanted else RowKind.OTHER_TABLE]
        kinds[table.rows.pieces] = np.minimum(kinds[table.rows.pieces], piece)
        for row, kind in table.rows.others.items():
            kinds[row] = min(kinds[row], rank[kind])
    for row in np.flatnonzero(kinds == len(_BY_RANK)).tolist():
        kinds[row] = rank[RowKind.BLANK if all(is_blank(v) for v in sheet.rows[row]) else RowKind.TITLE]
    for row in bad:
        if row <= len(kinds) and kinds[row - 1] == rank[RowKind.PRICED]:
            kinds[row - 1] = rank[RowKind.PROBLEM]
    many = np.bincount(kinds, minlength=len(_BY_RANK))
    return {str(kind): int(many[n]) for n, kind in enumerate(_BY_RANK) if many[n]}
