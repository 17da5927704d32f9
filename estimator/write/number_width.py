"""How wide a number is as a cell shows it, so that no column is too narrow for one and shows ### instead."""

from __future__ import annotations

import re

__all__ = ["number_width"]

_SPARE = 1.5
"""Characters beside the number: the cell's own margin, and room for it to grow when a rate is changed."""
_LITERAL = re.compile(r'"([^"]*)"|\\(.)')
_DATE = re.compile(r"[ymd]{1,4}([-/. ][ymd]{1,4})+", re.IGNORECASE)


def number_width(value: float, number_format: str, *, font_size: float = 11.0) -> float:
    """Return the width of a column that shows a number whole.

    Parameters
    ----------
    value : float
        The number.
    number_format : str
        Its format in the spreadsheet's own language; empty or General for the program's own.
    font_size : float
        Size of its letters [points].

    Returns
    -------
    float
        Width in digits of the usual size of 11 points.

    Notes
    -----
    A number in the program's own format is rounded to its column, so that only its whole part counts.
    Source: definition; ECMA-376 part 1, 18.8.31 for formats.

    Examples
    --------
    >>> number_width(1234567.5, "#,##0.00"), number_width(0.25, "0.0%"), number_width(3.0, "")
    (13.5, 6.5, 2.5)
    """
    return (_characters(value, number_format) + _SPARE) * font_size / 11.0


def _characters(value: float, number_format: str) -> int:
    """Return the characters of a number in a format, with every optional decimal."""
    section = _section(value, number_format)
    if _DATE.search(section):
        return len(section)
    literals = sum(len(quoted or escaped) for quoted, escaped in _LITERAL.findall(section))
    bare = _LITERAL.sub("", section)
    shown = abs(value) * (100.0 if "%" in bare else 1.0)
    whole, _, decimals = bare.partition(".")
    places = sum(decimals.count(mark) for mark in "0#")
    separator = "," if "," in whole else ""
    signs = sum(bare.count(mark) for mark in "%+") + (value < 0)
    return len(f"{shown:{separator}.{places}f}") + signs + literals


def _section(value: float, number_format: str) -> str:
    """Return the part of a format that holds for a number: for those above zero, below zero, or zero."""
    if number_format in ("", "General"):
        return "0"
    sections = number_format.split(";")
    if value == 0.0 and len(sections) > 2:
        return sections[2]
    return sections[1] if value < 0 and len(sections) > 1 else sections[0]
