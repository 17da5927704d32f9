"""Cell formats added to somebody else's workbook: copies of its own, with a number format or with broken lines."""

from __future__ import annotations

import re
from enum import Enum, auto

__all__ = ["FillKind", "PatchedStyles"]

_GENERAL = 0
_MONEY_FORMATS = {0: 3, 2: 4}
"""Built-in number formats (ECMA-376 part 1, 18.8.30) by decimals: #,##0 and #,##0.00; General for others."""
_FORMATS = re.compile(rb"<((?:\w+:)?)cellXfs\b[^>]*>(.*?)</(?:\w+:)?cellXfs>", re.DOTALL)
_FORMAT = re.compile(rb"<(?:\w+:)?xf\b[^>]*?(?:/>|>.*?</(?:\w+:)?xf>)", re.DOTALL)
_ALIGNMENT = re.compile(rb"<((?:\w+:)?)alignment\b([^>]*?)/?>(?:</(?:\w+:)?alignment>)?")


class FillKind(Enum):
    """What the cells of an added column hold, and so how they look."""

    MONEY = auto()
    NUMBER = auto()
    TEXT = auto()
    LONG_TEXT = auto()
    """Breaks inside its column."""


class PatchedStyles:
    """The workbook's styles part, to which formats are added at the end of the list that cells point into."""

    def __init__(self, markup: bytes, decimals: int) -> None:
        self.markup, self.money = markup, _MONEY_FORMATS.get(decimals, _GENERAL)
        self.found = _FORMATS.search(markup)
        self.formats = _FORMAT.findall(self.found[2]) if self.found else []
        self.made: dict[tuple[int, FillKind], int] = {}
        self.added: list[bytes] = []

    def for_kind(self, style: int, kind: FillKind) -> int:
        """Return the index of a format's copy for a kind of cell; itself for a text or where the part is not read."""
        known = self.formats + self.added
        if kind is FillKind.TEXT or style >= len(known):
            return style
        if (style, kind) not in self.made:
            self.made[style, kind] = len(known)
            plain = known[style]
            if kind is FillKind.LONG_TEXT:
                self.added.append(_wrapped(plain))
            else:
                self.added.append(_with_number(plain, self.money if kind is FillKind.MONEY else _GENERAL))
        return self.made[style, kind]

    def finished(self) -> bytes:
        """Return the part with the added formats; as it was where there are none."""
        if not self.added or self.found is None:
            return self.markup
        start, end = self.found.span(2)
        opening = self.markup[self.found.start() : start]
        count = f'count="{len(self.formats) + len(self.added)}"'.encode()
        opening = re.sub(rb'count="\d+"', count, opening)
        return self.markup[: self.found.start()] + opening + self.found[2] + b"".join(self.added) + self.markup[end:]


def _with_number(xf: bytes, number_format: int) -> bytes:
    """Return a copy of a cell format with another number format."""
    return _with_attributes(xf, f'numFmtId="{number_format}" applyNumberFormat="1"')


def _wrapped(xf: bytes) -> bytes:
    """Return a copy of a cell format whose texts break inside the column, from the top of the cell."""
    prefix = re.match(rb"<((?:\w+:)?)xf", xf)
    name = prefix[1] if prefix else b""
    there = _ALIGNMENT.search(xf)
    kept = re.sub(rb'\s(?:wrapText|vertical|shrinkToFit)="[^"]*"', b"", there[2]) if there else b""
    alignment = b"<" + name + b"alignment" + kept.rstrip() + b' vertical="top" wrapText="1"/>'
    whole = _with_attributes(xf, 'applyAlignment="1"')
    if there:
        return _ALIGNMENT.sub(lambda _: alignment, whole, count=1)
    opening_end = whole.index(b">")
    if whole[opening_end - 1 : opening_end] == b"/":
        return whole[: opening_end - 1] + b">" + alignment + b"</" + name + b"xf>"
    return whole[: opening_end + 1] + alignment + whole[opening_end + 1 :]


def _with_attributes(xf: bytes, attributes: str) -> bytes:
    """Return a format with attributes set, whatever it said of them."""
    opening_end = xf.index(b">")
    opening, rest = xf[:opening_end], xf[opening_end:]
    self_closed = opening.endswith(b"/")
    names = "|".join(re.findall(r"(\w+)=", attributes)).encode()
    opening = re.sub(rb"\s(?:" + names + rb')="[^"]*"', b"", opening.rstrip(b"/")).rstrip()
    return opening + b" " + attributes.encode() + (b"/" if self_closed else b"") + rest
