"""Reads the word tables of ``data/words/``: one table a file, words of a cell parted by semicolons."""

from __future__ import annotations

import csv
from functools import cache
from importlib import resources

__all__ = ["word_table", "words_of"]


@cache
def word_table(name: str) -> tuple[dict[str, str], ...]:
    """Return the rows of a word table by its file name without ``.csv``."""
    text = (resources.files("estimator") / "data" / "words" / f"{name}.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))


def words_of(cell: str) -> tuple[str, ...]:
    """Return the words of a cell.

    Examples
    --------
    >>> words_of("qty; no. off")
    ('qty', 'no. off')
    """
    return tuple(word for word in cell.split("; ") if word)
