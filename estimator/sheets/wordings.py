"""Headings that customers write over the columns of a cut list, by house column name and language.

They stand in ``data/words/heading_wordings.csv``; false friends there are headings that are never read. Wordings are
common practice of the trade, no source.
"""

from __future__ import annotations

from functools import cache

from estimator.sheets.word_tables import word_table, words_of

__all__ = ["READING_COLUMNS", "false_friends", "wordings"]

READING_COLUMNS = {
    "item": "a running number of the rows; used as the mark when there is no other",
    "length": "length of the piece; with a width a side of the rectangle, alone the cut length",
    "width": "width of the piece",
    "diameter": "outside diameter of a disc or ring",
    "inside_diameter": "inside diameter of a ring",
    "size": "a size string such as 10x150x300, PL3/8x6x12 or FB 50x10",
    "material": "words that may hold grade, thickness or size",
    "unit": "the unit that the quantity counts, or the unit of the lengths",
    "quantity_total": "quantity of the whole job, beside a quantity per assembly",
    "mass_each": "mass of one piece; checks the reading",
    "mass_total": "mass of all pieces of the row; checks the reading",
    "area": "area of the piece; carried through",
    "money": "prices of the sender; carried through, never used",
}
"""Columns that are none of our own cut list and that only reading knows, with their use."""


@cache
def wordings() -> dict[str, dict[str, tuple[str, ...]]]:
    """Return the wordings of each column by language; a wording stands under one column only."""
    found: dict[str, dict[str, tuple[str, ...]]] = {}
    for row in word_table("heading_wordings"):
        if row["column"] != "false friend":
            found.setdefault(row["column"], {})[row["language"]] = words_of(row["wordings"])
    return found


@cache
def false_friends() -> tuple[str, ...]:
    """Return headings that look like a column and are not: carried through, never read."""
    rows = word_table("heading_wordings")
    return tuple(word for row in rows if row["column"] == "false friend" for word in words_of(row["wordings"]))
