"""One spelling for what people type: quotes, dashes, spaces, fraction signs and wide digits."""

from __future__ import annotations

import re
import unicodedata

__all__ = ["BLANK_MARKS", "DITTO_MARKS", "LONGEST", "is_ditto", "plain_text"]

LONGEST = 100
"""Signs of the longest text that is looked at as a size, a length or a count; longer ones are prose."""

BLANK_MARKS = frozenset({"", "-", "--", "---", "n/a", "na", "n.a.", "none", "nil", "."})
"""Texts that stand for an empty cell."""

DITTO_MARKS = frozenset(
    {'"', '""', '-"-', '- " -', '-"', '"-', '--"--', "''", "do.", "do", "ditto", "dto.", "dto", "idem", "id.", "то же"}
)
"""Texts that repeat the cell above."""

_VULGAR = {
    chr(code): f"{n}/{d}"
    for code, n, d in (
        (0xBC, 1, 4),
        (0xBD, 1, 2),
        (0xBE, 3, 4),
        (0x2153, 1, 3),
        (0x2154, 2, 3),
        (0x215B, 1, 8),
        (0x215C, 3, 8),
        (0x215D, 5, 8),
        (0x215E, 7, 8),
    )
}
_ONE_SPELLING = str.maketrans(
    dict.fromkeys("“”„‟″＂˝〃❝❞", '"')
    | dict.fromkeys("‘’‚‛′ʹʼ´`＇", "'")
    | dict.fromkeys("–‒−―‐‑－﹣", "-")
    | {"—": "--", "⁄": "/", "∕": "/", "／": "/", "⌀": "Ø", "ø": "Ø", "∅": "Ø"}
    | dict.fromkeys("²³¹⁰⁴⁵⁶⁷⁸⁹", "^")
    | dict.fromkeys("\u200b\u200c\u200d\u2060\ufeff\u00ad", "")
)
_VULGAR_SIGN = re.compile("[" + "".join(_VULGAR) + "]")
_SPACES = re.compile(r"\s+")
_DOUBLE_PRIME = re.compile(r"'\s?'")


def plain_text(text: str) -> str:
    r"""Return a text in one spelling: plain quotes, dashes, spaces, digits and fractions.

    Parameters
    ----------
    text : str
        What stands in a cell.

    Returns
    -------
    str
        The same text; a fraction sign becomes ``n/d``, set off by a space from a digit beside it.

    Examples
    --------
    >>> plain_text("1½”"), plain_text("5′–3¼″")
    ('1 1/2"', '5\'-3 1/4"')
    """
    if text.isascii():
        said = text
    else:
        said = _VULGAR_SIGN.sub(_vulgar, text.translate(_ONE_SPELLING))
        said = unicodedata.normalize("NFKC", said).replace("⁄", "/")
    if "'" in said:
        said = _DOUBLE_PRIME.sub('"', said)
    said = _SPACES.sub(" ", said).strip()
    return said.lstrip("'`").strip() if said[:1] in {"'", "`"} else said


def is_ditto(text: str) -> bool:
    """Return whether a text only repeats the cell above."""
    return len(text) <= 7 and (text.strip().casefold() in DITTO_MARKS or plain_text(text).casefold() in DITTO_MARKS)


def _vulgar(match: re.Match[str]) -> str:
    """Return the fraction in figures, kept apart from digits on either side."""
    text, start, end = match.string, match.start(), match.end()
    before = " " if start and text[start - 1].isdigit() else ""
    after = " " if end < len(text) and text[end].isdigit() else ""
    return f"{before}{_VULGAR[match[0]]}{after}"
