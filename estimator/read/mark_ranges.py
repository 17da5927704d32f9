"""Marks that name several pieces, as ``A7-A9`` or ``B1, B2``: held against the quantity of their row."""

from __future__ import annotations

import re

import numpy as np
from numpy.typing import NDArray

from estimator.problems import list_words as said
from estimator.read.list_columns import ColumnReader
from estimator.read.what_to_type import cell_under

__all__ = ["marks_named", "say_mark_ranges"]

_SEVERAL = re.compile(
    r"^(?P<before>[A-Za-z]{1,4}-?)(?P<first>[0-9]{1,4}) ?(?:(?P<range>[-–—]|to|bis|thru|through|\.\.+)|[,&+]|and|und) ?"
    r"(?P=before)(?P<last>[0-9]{1,4})(?P<more>(?: ?[,&+] ?(?P=before)[0-9]{1,4})*)$",
    re.MULTILINE,
)
_MOST = 60


def marks_named(texts: set[str]) -> dict[str, int]:
    """Return how many marks each text names; not there where it is one.

    Examples
    --------
    >>> marks_named({"A7-A9", "B1, B2", "P-12", "12-14", "A9-A7"}) == {"A7-A9": 3, "B1, B2": 2}
    True
    """
    named = {}
    for found in _SEVERAL.finditer("\n".join(texts)):
        between = int(found["last"]) - int(found["first"])
        many = between + 1 if found["range"] else 2 + len(re.findall(r"[,&+]", found["more"]))
        if between and 1 < many <= _MOST:
            named[found[0]] = many
    return named


def say_mark_ranges(reader: ColumnReader, quantity: NDArray[np.float64]) -> None:
    """Ask where the quantity of a row cannot be that of all its marks, and say where it is taken so.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    quantity : ndarray of float
        Pieces of each row.
    """
    marks = reader.texts("mark")
    named = marks_named(set(marks))
    for line, mark in enumerate(marks if named else ()):
        many, pieces = named.get(mark, 1), quantity[line]
        if many == 1 or not pieces > 0 or pieces == many:
            continue
        fields = {"many": many, "pieces": f"{pieces:g}", "each": f"{pieces * many:g}"}
        if pieces % many:
            at, here = cell_under(reader, line, "quantity"), cell_under(reader, line, "mark")
            do = f"type {pieces * many:g} in {at} if it is {pieces:g} of each mark, or leave one mark in {here}"
            reader.say(said.MARKS_AND_QUANTITY, line, "mark", mark, **fields, do=do)
        else:
            reader.say(said.MARKS_TOGETHER, line, "mark", mark, **fields)
