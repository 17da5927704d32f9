"""Numbers as people type them: decimal point or comma, grouped thousands, shop fractions. Exact, or refused."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from estimator.read.text import plain_text

__all__ = ["Number", "Refused", "decimal_mark", "plain_number", "read_fraction", "read_number"]

MOST_FIGURES = 20
"""Figures and marks of the longest number that is read."""
SHOP_DENOMINATORS = frozenset({2, 4, 8, 16, 32, 64, 128})


@dataclass(frozen=True, slots=True)
class Number:
    """An exact number read from a text."""

    value: Fraction
    plain: bool = True
    """False when something had to be interpreted; ``remark`` says what."""
    remark: str = ""
    step: Fraction = Fraction(1)
    """One unit of the last digit that was written."""
    is_fraction: bool = False
    reduced: bool = True
    """False for a fraction such as 12/16, which nobody calls by that name."""


@dataclass(frozen=True, slots=True)
class Refused:
    """A text that has no single sensible reading."""

    reason: str
    """A fact, to stand in a problem's headline: ``it is a range``."""


_PLAIN = re.compile(r"[0-9]{1,9}(?:[.,][0-9]{1,9})?")
_WHOLE = re.compile(r"[0-9]+")
_ONE_MARK = re.compile(r"([0-9]*)([.,])([0-9]*)")
_COMMA_GROUPS = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]*)?")
_DOT_GROUPS = re.compile(r"[0-9]{1,3}(?:\.[0-9]{3})+(?:,[0-9]*)?")
_SPACE_GROUPS = re.compile(r"[0-9]{1,3}(?: [0-9]{3})+(?:[.,][0-9]*)?")
_QUOTE_GROUPS = re.compile(r"[0-9]{1,3}(?:'[0-9]{3})+(?:\.[0-9]*)?")
_FRACTION = re.compile(r"(?:([0-9]+)(?: |-|- |\.| -|\+))?([0-9]+) ?/ ?([0-9]+)")
_EVIDENCE = re.compile(r"(?<![0-9.,])([0-9]*)([.,])([0-9]+)(?![0-9.,])")
_BOTH_MARKS = re.compile(r"[0-9]{1,3}(?:([.,])[0-9]{3})+([.,])[0-9]+")

_AMBIGUOUS = "a mark before exactly three digits can be a decimal or a thousands mark"
_AGAINST = "its decimal mark is not the one that the rest of the list uses"


def read_number(text: str, decimal: str | None = None) -> Number | Refused:
    """Read one unsigned decimal number.

    Parameters
    ----------
    text : str
        The digits and marks alone, in plain spelling.
    decimal : {".", ",", None}
        The decimal mark that the list itself gives evidence of; None when it gives none.

    Returns
    -------
    Number or Refused
        The exact value, or why there is not one.

    Examples
    --------
    >>> read_number("1 200,5").value, read_number("1,234")
    (Fraction(2401, 2), Refused(reason='a mark before exactly three digits can be a decimal or a thousands mark'))
    >>> read_number("1,234", ",").value
    Fraction(617, 500)
    """
    if len(text) > MOST_FIGURES:
        return Refused("it is not a number" if not text[0].isdigit() else "it has more figures than any size or count")
    if _WHOLE.fullmatch(text):
        return Number(Fraction(text))
    if found := _ONE_MARK.fullmatch(text):
        return _one_mark(found[1], found[2], found[3], decimal)
    if _COMMA_GROUPS.fullmatch(text):
        return _grouped(text, group=",", mark=".", decimal=decimal)
    if _DOT_GROUPS.fullmatch(text):
        return _grouped(text, group=".", mark=",", decimal=decimal)
    if _SPACE_GROUPS.fullmatch(text):
        mark = "," if "," in text else "."
        if mark in text and decimal not in (None, mark):
            return Refused(_AGAINST)
        return _decimal(text.replace(" ", ""), mark, plain=False, remark="the space groups the thousands")
    if _QUOTE_GROUPS.fullmatch(text):
        return Refused("the ' can mean feet or group the thousands")
    return Refused("it is not a number")


def plain_number(value: object) -> float | None:
    """Return the number of a cell, or of a text that is nothing but one, as every cell of a csv file is; else None.

    Examples
    --------
    >>> plain_number(12.0), plain_number(" 12,5"), plain_number("1,234"), plain_number("P1")
    (12.0, 12.5, None, None)
    """
    if type(value) is float:
        return value
    if not isinstance(value, str) or not _PLAIN.fullmatch(value.strip()):
        return None
    number = read_number(value.strip())
    return None if isinstance(number, Refused) else float(number.value)


def read_fraction(text: str) -> Number | Refused | None:
    """Read a shop fraction such as ``3/8``, ``1-1/2``, ``1 1/2`` or ``1.1/2``; None when it is not written as one."""
    found = _FRACTION.fullmatch(text) if len(text) <= MOST_FIGURES else None
    if not found:
        return None
    whole, over, under = int(found[1] or 0), int(found[2]), int(found[3])
    if under not in SHOP_DENOMINATORS:
        return Refused("a shop fraction is in halves, quarters, 8ths, 16ths, 32nds or 64ths")
    if over == 0 or over >= under:
        return Refused("the upper figure of the fraction is not below the lower one; a space may be missing")
    dotted = "." in text or "+" in text
    return Number(
        Fraction(whole) + Fraction(over, under),
        plain=not dotted,
        remark="the mark parts the whole inches from the fraction" if dotted else "",
        step=Fraction(1, under),
        is_fraction=True,
        reduced=over % 2 == 1,
    )


def decimal_mark(texts: Iterable[str]) -> str | None:
    """Return the decimal mark that texts give evidence of; None without evidence, or when they disagree."""
    seen = set()
    for text in texts:
        said = plain_text(text)
        for found in _BOTH_MARKS.finditer(said):
            if found[1] != found[2]:
                seen.add(found[2])
        for head, mark, tail in _EVIDENCE.findall(said):
            if len(tail) != 3 or len(head) > 3 or head[:1] in {"", "0"}:
                seen.add(mark)
    return seen.pop() if len(seen) == 1 else None


def _one_mark(head: str, mark: str, tail: str, decimal: str | None) -> Number | Refused:
    """Read a number with a single point or comma."""
    if not head and not tail:
        return Refused("it is not a number")
    if not tail:
        if mark == ",":
            return Refused("it ends in a comma")
        return Number(Fraction(head), plain=False, remark="the last dot is left out")
    text = f"{head or '0'}{mark}{tail}"
    if len(tail) != 3 or len(head) > 3 or head[:1] in {"", "0"}:
        if decimal not in (None, mark):
            return Refused(_AGAINST)
        sure = mark == "." or decimal == ","
        return _decimal(text, mark, plain=sure, remark="" if sure else "the comma is read as the decimal mark")
    if decimal is None:
        return Refused(_AMBIGUOUS)
    if decimal == mark:
        return _decimal(text, mark, plain=True, remark="")
    return Number(
        Fraction(head + tail), plain=False, remark=f"the {mark} groups the thousands, as in the rest of the list"
    )


def _grouped(text: str, *, group: str, mark: str, decimal: str | None) -> Number | Refused:
    """Read a number whose thousands are grouped."""
    if decimal not in (None, mark) and (mark in text or text.count(group) == 1):
        return Refused(_AGAINST)
    return _decimal(text.replace(group, ""), mark, plain=True, remark="")


def _decimal(text: str, mark: str, *, plain: bool, remark: str) -> Number:
    """Return digits with one decimal mark as an exact number."""
    head, _, tail = text.partition(mark)
    return Number(Fraction(f"{head or '0'}.{tail or '0'}"), plain, remark, Fraction(1, 10 ** len(tail)))
