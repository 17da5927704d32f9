"""Shapes beyond rectangles, discs and rings that words name: triangles, hexagons, half discs, halves of rings."""

from __future__ import annotations

import re
from functools import cache

from estimator.read.text import plain_text
from estimator.read.work_words import whole_words
from estimator.sheets.word_tables import word_table, words_of

__all__ = ["shapes_named"]

_NOT_OF_PIECE = (
    r"(?<!no )(?<!not )(?<!not a )(?:{words})"
    r"(?![ -]*(?:bars?|bolts?|nuts?|heads?|cut|holes?|notch|slots?|recess)|-[0-9])"
)
"""A shape that is denied, or that a cut in the piece or a bought part has, is not the piece's."""


def shapes_named(texts: set[str]) -> dict[str, tuple[str, str]]:
    """Return what shape each text names, and what it is taken as; not there where it names none.

    Examples
    --------
    >>> shapes_named({"6 x 6 tri", "quarter circle", "disc"}) == {
    ...     "6 x 6 tri": ("a triangle", "right triangle"),
    ...     "quarter circle": ("a quarter of a disc", ""),
    ... }
    True
    """
    whole = "\n".join(texts).lower()
    patterns = [row for row in _shape_patterns() if any(word in whole for word in row[2])]
    folded = {text: plain_text(text).lower() for text in texts} if patterns else {}
    named: dict[str, tuple[str, str]] = {}
    for says, taken_as, _, pattern in patterns:
        named |= {text: (says, taken_as) for text, words in folded.items() if pattern.search(words)}
    return named


@cache
def _shape_patterns() -> list[tuple[str, str, tuple[str, ...], re.Pattern[str]]]:
    """Return what each row says and is taken as, its bare words to look for quickly, and its pattern."""
    found = []
    for row in word_table("shape_words"):
        words = words_of(row["words"])
        pattern = re.compile(_NOT_OF_PIECE.format(words=whole_words(words)))
        found.append((row["says"], row["taken_as"], tuple(word.rstrip("*") for word in words), pattern))
    return found
