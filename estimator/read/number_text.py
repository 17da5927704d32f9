"""Numbers typed as text in our own workbooks and in csv files: a sign, then the number grammar; floats or an exception.

Spreadsheet numbers never come here; only texts do.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

from estimator.read.numbers import Refused, decimal_mark, read_number

__all__ = ["AmbiguousNumberError", "decimal_mark_of", "plain_text", "read_number_text", "without_currency_sign"]

_SPACES = re.compile(r"[\s\u00a0\u2007\u2009\u202f]+")
_AMBIGUOUS = re.compile(r"([1-9][0-9]{0,2})[.,]([0-9]{3})")


class AmbiguousNumberError(ValueError):
    """A number such as ``1,234`` that two readers would read differently; ``readings`` holds both."""

    def __init__(self, text: str, readings: tuple[float, float]) -> None:
        self.readings = readings
        super().__init__(f"{text!r} is {readings[0]:g} or {readings[1]:g}")


def plain_text(text: str) -> str:
    """Return text with each run of blanks as one space, and the typographic minus and apostrophe as the plain ones.

    Parameters
    ----------
    text : str
        What a cell holds.

    Returns
    -------
    str
        The same words, comparable.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> plain_text(" 1\u202f200,5 ")
    '1 200,5'
    """
    return _SPACES.sub(" ", text).strip().replace("\u2212", "-").replace("\u2019", "'")


def read_number_text(text: str, decimal: str = "") -> float:
    """Return the number that a text states.

    Parameters
    ----------
    text : str
        Digits with at most a sign, grouping and one decimal mark.
    decimal : str
        The decimal mark, ``.`` or ``,``, where the file itself shows it; empty when it does not.

    Returns
    -------
    float
        The number.

    Raises
    ------
    AmbiguousNumberError
        When one mark stands before exactly three digits and nothing tells which mark it is.
    ValueError
        When the text is not a plain number.

    Notes
    -----
    Exponents, units and words are refused. Source: definition; the grammar is ``numbers.read_number``.

    Examples
    --------
    >>> read_number_text("1 200,5"), read_number_text("1,234.5"), read_number_text(".375")
    (1200.5, 1234.5, 0.375)
    >>> read_number_text("1,234", decimal=",")
    1.234
    """
    said = plain_text(text)
    sign = -1.0 if said.startswith("-") else 1.0
    body = said[1:] if said[:1] in {"+", "-"} else said
    two = None if decimal else _AMBIGUOUS.fullmatch(body)
    if two:
        raise AmbiguousNumberError(text, (sign * float(f"{two[1]}.{two[2]}"), sign * float(two[1] + two[2])))
    number = read_number(body, decimal or None)
    if isinstance(number, Refused):
        raise ValueError(f"{text!r} is not a plain number: {number.reason}")
    return sign * float(number.value)


def without_currency_sign(text: str, code: str = "") -> str:
    """Return an amount of money without the sign or the code of its currency.

    Parameters
    ----------
    text : str
        Such as ``$ 38.50``.
    code : str
        The shop's own currency code; empty where it is not known.

    Returns
    -------
    str

    Notes
    -----
    A sign is a character of Unicode's category Sc. Source: definition.

    Examples
    --------
    >>> without_currency_sign("$38.50"), without_currency_sign("75 USD", "USD"), without_currency_sign("75 USD")
    ('38.50', '75', '75 USD')
    """
    said = "".join(" " if unicodedata.category(mark) == "Sc" else mark for mark in text)
    if code:
        said = re.sub(rf"\b{re.escape(code)}\b", " ", said, flags=re.IGNORECASE)
    return plain_text(said)


def decimal_mark_of(texts: Iterable[str]) -> str:
    """Return the decimal mark that the unambiguous numbers among some texts share; empty when none do or they differ.

    Parameters
    ----------
    texts : iterable of str
        Texts of one file.

    Returns
    -------
    str
        ``.``, ``,`` or empty.

    Notes
    -----
    Source: definition; the evidence is that of ``numbers.decimal_mark``.

    Examples
    --------
    >>> decimal_mark_of(["12,5", "mild steel", "1,234"])
    ','
    >>> decimal_mark_of(["12,5", "3.5"])
    ''
    """
    return decimal_mark(texts) or ""
