"""Columns of the customer's list that are not read, line by line as they stand, on a sheet of their own."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.write.estimate.live_table import LiveColumn
from estimator.write.styles import Look

__all__ = ["carried_columns"]

_LOW, _HIGH = 9.0, 30.0


def carried_columns(cuts: CutList) -> list[LiveColumn]:
    """Return a column for each column of the list that is not read.

    Parameters
    ----------
    cuts : CutList
        The priced lines.

    Returns
    -------
    list of LiveColumn
        Under the list's own headings. Numbers alone stay numbers; with a text among them all are texts.
    """
    return [_column(f"carried_{at}", heading, cells) for at, (heading, cells) in enumerate(cuts.unknown.items())]


def _column(name: str, heading: str, cells: Sequence[Any]) -> LiveColumn:
    if _are_numbers(cells):
        values: NDArray[np.float64] = np.array([np.nan if c is None else c for c in cells], dtype=np.float64)
        return LiveColumn(name, heading, values, number="General", look=Look.TEXT)
    texts = ["" if c is None else _said(c) for c in cells]
    width = min(max([_LOW, *(len(text) + 1.0 for text in texts)]), _HIGH)
    return LiveColumn(name, heading, texts, width=width, wrap=True, look=Look.TEXT)


def _are_numbers(cells: Sequence[Any]) -> bool:
    filled = [cell for cell in cells if cell is not None]
    return bool(filled) and all(isinstance(c, float) and np.isfinite(c) for c in filled)


def _said(cell: object) -> str:
    """Return a cell as it is shown; a whole number without its decimals."""
    return f"{cell:.15g}" if isinstance(cell, float) else str(cell)
