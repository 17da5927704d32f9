"""A small strict grammar for numbers typed as text: grouping, decimal mark, and the one case that must be asked.

Spreadsheet numbers never come here; only texts do. Lengths and gas amounts have grammars of their own that build on it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

__all__ = ["AmbiguousNumberError", "decimal_mark_of", "plain_text", "read_number_text"]

_SPACES = re.compile(r"[\s\u00a0\u2007\u2009\u202f]+")
_DIGITS = re.compile(r"\d+")
_GROUPED = {mark: re.compile(rf"\d{{1,3}}(?:{re.escape(mark)}\d{{3}})+") for mark in ".,' "}
_NUMBER = re.compile(r"[\d .,']*\d")


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
    Groups are three digits set off by a space, an apostrophe or the mark that is not the decimal mark. Exponents, units
    and words are refused. Source: definition.

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
    if not decimal and _is_ambiguous(body):
        readings = (sign * float(body.replace(",", ".")), sign * float(re.sub("[.,]", "", body)))
        raise AmbiguousNumberError(text, readings)
    whole, mark, part = body.rpartition(decimal or _decimal_of(body) or "\0")
    if not mark:
        whole, part = body, ""
    if (mark and not _DIGITS.fullmatch(part)) or not (_is_whole(whole) or (mark and not whole)):
        raise ValueError(f"{text!r} is not a plain number")
    digits = re.sub(r"[ .,']", "", whole)
    return sign * float(f"{digits or 0}.{part or 0}")


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
    A mark used for grouping (``1,234,567``) tells the other one. Source: definition.

    Examples
    --------
    >>> decimal_mark_of(["12,5", "mild steel", "1,234"])
    ','
    >>> decimal_mark_of(["12,5", "3.5"])
    ''
    """
    seen: set[str] = set()
    for text in texts:
        body = plain_text(text).lstrip("+-")
        if not ("," in body or "." in body) or not _NUMBER.fullmatch(body) or _is_ambiguous(body):
            continue
        mark = _decimal_of(body)
        if mark:
            seen.add(mark)
        elif _is_whole(body):
            seen.add("." if "," in body else ",")
    return seen.pop() if len(seen) == 1 else ""


def _decimal_of(body: str) -> str:
    """Return the decimal mark by the number's own form; empty when its marks are all grouping or there are none."""
    last = max(body.rfind("."), body.rfind(","))
    if last < 0 or body.count(body[last]) > 1:
        return ""
    return body[last]


def _is_ambiguous(body: str) -> bool:
    match = re.fullmatch(r"([1-9]\d{0,2})[.,](\d{3})", body)
    return match is not None


def _is_whole(body: str) -> bool:
    return bool(_DIGITS.fullmatch(body)) or any(pattern.fullmatch(body) for pattern in _GROUPED.values())
