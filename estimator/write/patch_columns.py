"""Give single columns of somebody else's sheet a width, and leave what its markup says of all others as it was."""

from __future__ import annotations

import re
from collections.abc import Mapping

__all__ = ["with_widths"]

_COLUMNS = re.compile(rb"<(?:\w+:)?cols>.*?</(?:\w+:)?cols>", re.DOTALL)
_COLUMN = re.compile(rb"<(?:\w+:)?col\b[^>]*?/>")
_REACH = re.compile(rb'\b(min|max)="(\d+)"')


def with_widths(markup: bytes, widths: Mapping[int, float], prefix: str) -> bytes:
    """Return a sheet's markup with the width of some columns set.

    Parameters
    ----------
    markup : bytes
        A worksheet part.
    widths : mapping of int to float
        Width [digits] by column, from 0.
    prefix : str
        Namespace prefix of the markup with its colon.

    Returns
    -------
    bytes
        A width that the sheet states for a range is kept for the rest of the range.

    Notes
    -----
    Source: ECMA-376 part 1, 18.3.1.13 and 18.3.1.17.
    """
    start = markup.find(f"<{prefix}sheetData".encode())
    stated = _COLUMNS.search(markup, 0, start)
    new = {column + 1: width for column, width in widths.items()}
    parts: list[bytes] = _apart(stated[0] if stated else b"", new)
    parts += [_column(at, width, prefix) for at, width in new.items()]
    parts.sort(key=_first)
    made = f"<{prefix}cols>".encode() + b"".join(parts) + f"</{prefix}cols>".encode()
    place, end = stated.span() if stated else (start, start)
    return markup[:place] + made + markup[end:]


def _apart(stated: bytes, new: Mapping[int, float]) -> list[bytes]:
    """Return the stated columns, each range split round the new ones."""
    kept = []
    for element in _COLUMN.findall(stated):
        reach = {name: int(number) for name, number in _REACH.findall(element)}
        low = reach[b"min"]
        for at in sorted(at for at in new if low <= at <= reach[b"max"]):
            kept += [_over(element, low, at - 1)] if at > low else []
            low = at + 1
        kept += [_over(element, low, reach[b"max"])] if low <= reach[b"max"] else []
    return kept


def _over(element: bytes, first: int, last: int) -> bytes:
    bounds = {b"min": first, b"max": last}
    return _REACH.sub(lambda match: match[1] + f'="{bounds[match[1]]}"'.encode(), element)


def _column(at: int, width: float, prefix: str) -> bytes:
    return f'<{prefix}col min="{at}" max="{at}" width="{width:g}" customWidth="1"/>'.encode()


def _first(element: bytes) -> int:
    found = re.search(rb'\bmin="(\d+)"', element)
    return int(found[1]) if found else 0
