"""Numbers such as 1, 1.1, 1.2, that make a row the assembly of those below it and never a piece beside its parts."""

from __future__ import annotations

import re
from itertools import pairwise

from estimator.read.cells import CellValue

__all__ = ["is_parent", "item_number", "parents"]

_NUMBER = re.compile(r"[0-9]{1,5}(?:\.[0-9]{1,4})*\.?")


def item_number(value: CellValue) -> str:
    """Return an item number without a last dot or zero decimals; empty when the cell holds none.

    Examples
    --------
    >>> item_number(1.0), item_number("1.10."), item_number(2.5), item_number("P1")
    ('1', '1.10', '2.5', '')
    """
    if isinstance(value, float):
        return f"{value:g}" if value >= 0 and value < 1e5 else ""
    text = value.strip() if isinstance(value, str) else ""
    return text.rstrip(".") if _NUMBER.fullmatch(text) else ""


def is_parent(number: str, below: str) -> bool:
    """Return whether the row of the second number is a part of the row of the first.

    Examples
    --------
    >>> is_parent("1", "1.1"), is_parent("1", "10.1"), is_parent("1.1", "1.1.1"), is_parent("1", "2")
    (True, False, True, False)
    """
    return bool(number) and below.startswith(f"{number}.")


def parents(values: list[CellValue]) -> list[int]:
    """Return the places in a column of numbers that have parts of their own straight below them.

    Examples
    --------
    >>> parents([1.0, 1.1, 1.2, 2.0]), parents(["1", "1.1", "1.1.1", "1.2"]), parents(["10", "20"])
    ([0], [0, 1], [])
    """
    dotted = {v for v in set(values) if (type(v) is float and v % 1 > 0) or (type(v) is str and "." in v)}
    if not any(map(item_number, dotted)):
        return []
    numbers = [item_number(value) for value in values]
    return [n for n, (number, below) in enumerate(pairwise(numbers)) if is_parent(number, below)]
