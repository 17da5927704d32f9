"""Untrusted text made harmless before it enters a workbook, a page or a terminal: it stays text, and only text."""

from __future__ import annotations

import re

__all__ = ["csv_text", "plain_text", "whole_characters"]

_LONGEST = 32_767
"""Characters that one cell holds."""

_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠")

_UNSEEN = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f"  # control characters, an escape that would speak to a terminal among them
    "\u200e\u200f\u202a-\u202e\u2066-\u2069"  # marks that turn the direction of writing and so disguise a text
    "\ufdd0-\ufdef\ufffe\uffff]"  # no characters at all
)
_HALF_CHARACTERS = re.compile("[\ud800-\udfff]")
_BYTES_OF_A_NAME = re.compile("[\udc80-\udcff]+")
"""How Python keeps the bytes of a file's name that the terminal's own alphabet cannot hold."""


def plain_text(text: object) -> str:
    r"""Return text with everything taken out that is not to be seen, cut to what a cell holds.

    Parameters
    ----------
    text : object
        Anything; None gives an empty text.

    Returns
    -------
    str
        Lines and tabs are kept. Half a surrogate pair becomes U+FFFD.

    Notes
    -----
    XlsxWriter writes a text that opens with ``<r>`` and ends with ``</r>`` as raw markup; a blank behind it makes it
    an ordinary text. Source: definition.

    Examples
    --------
    >>> plain_text("a\x1b[31mb\u202ec\r\n=1+1")
    'a[31mbc\n=1+1'
    """
    if text is None:
        return ""
    seen = str(text)
    if not (seen.isascii() and seen.isprintable()):  # a plain mark or number, as most are, has nothing to take out
        seen = _UNSEEN.sub("", whole_characters(seen))
    if len(seen) > _LONGEST:
        seen = seen[: _LONGEST - 1] + "…"
    return seen + " " if seen.startswith("<r>") and seen.endswith("</r>") else seen


def whole_characters(text: str) -> str:
    r"""Return text without half characters: the bytes of a file's name are read as UTF-8, the rest becomes U+FFFD.

    Parameters
    ----------
    text : str
        A text, perhaps with the name of a file that was given under a terminal that knows ASCII only.

    Returns
    -------
    str
        Fit for UTF-8.

    Notes
    -----
    Source: definition; PEP 383 for the bytes of a name.

    Examples
    --------
    >>> whole_characters("Gr\udcc3\udcb6\udcc3\udc9fe \ud800")
    'Größe �'
    """
    if _HALF_CHARACTERS.search(text) is None:
        return text
    named = _BYTES_OF_A_NAME.sub(lambda m: m[0].encode("ascii", "surrogateescape").decode("utf-8", "replace"), text)
    return _HALF_CHARACTERS.sub("\ufffd", named)


def csv_text(text: object) -> str:
    """Return text for a csv cell that no spreadsheet program takes for a formula.

    Parameters
    ----------
    text : object
        Anything; None gives an empty text.

    Returns
    -------
    str
        With an apostrophe in front where the text begins as a formula may.

    Notes
    -----
    Source: OWASP, "CSV Injection": cells that begin with = + - @, a tab or a carriage return.

    Examples
    --------
    >>> csv_text("=HYPERLINK(1)"), csv_text("plate")
    ("'=HYPERLINK(1)", 'plate')
    """
    raw = "" if text is None else str(text)
    seen = plain_text(raw)
    return "'" + seen if raw.startswith(_FORMULA_STARTS) or seen.startswith(_FORMULA_STARTS) else seen
