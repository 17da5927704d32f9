"""The few ways a length is written in our own workbooks: a number or an inch fraction, with or without its unit."""

from __future__ import annotations

import re

from estimator.read.number_text import plain_text, read_number_text

__all__ = ["MM_PER_UNIT", "read_length_mm", "unit_word"]

MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}
_WORDS = {
    "inch": "in",
    "inches": "in",
    '"': "in",
    "\u201d": "in",
    "foot": "ft",
    "feet": "ft",
    "'": "ft",
    "metric": "mm",
}
_FRACTION = re.compile(r"(?:(\d+)[ -])?(\d+)/(\d+)")


def unit_word(text: str) -> str:
    """Return the unit that a word names (mm, cm, m, in, ft); empty when it names none."""
    word = plain_text(text).casefold().rstrip(".")
    return word if word in MM_PER_UNIT else _WORDS.get(word, "")


def read_length_mm(text: str, *, unit: str, decimal: str = "") -> float:
    """Return the length that a text states.

    Parameters
    ----------
    text : str
        Such as ``12``, ``12 mm``, ``1-1/2"`` or ``0.5 in``.
    unit : str
        The unit of a bare number: mm, cm, m, in or ft.
    decimal : str
        Decimal mark by the file's evidence; empty when there is none.

    Returns
    -------
    float
        Length [mm].

    Raises
    ------
    ValueError
        When the text is not one of these forms.

    Notes
    -----
    A fraction without a unit counts as inches only where the unit of bare numbers is inches. Source: definition.

    Examples
    --------
    >>> read_length_mm('1/2"', unit="mm"), read_length_mm("12", unit="mm"), read_length_mm("2-1/2", unit="in")
    (12.7, 12.0, 63.5)
    """
    said = plain_text(text)
    match = re.fullmatch(r"(.*?\d)\s*([^\d\s.,/-].*)?", said)
    if not match:
        raise ValueError(f"{text!r} is not a length")
    named = unit_word(match[2]) if match[2] else unit
    fraction = _FRACTION.fullmatch(match[1])
    if not named or (fraction and (named != "in" or int(fraction[3]) == 0)):
        raise ValueError(f"{text!r} is not a length")
    number = (
        int(fraction[1] or 0) + int(fraction[2]) / int(fraction[3]) if fraction else read_number_text(match[1], decimal)
    )
    return number * MM_PER_UNIT[named]
