"""A thickness that only the note of a row gives, as ``in 12mm plate``: its words have to call it one."""

from __future__ import annotations

import re

from estimator.read.lengths import Length, read_length
from estimator.read.numbers import Refused
from estimator.read.text import LONGEST, plain_text

__all__ = ["thickness_of_note"]

_CLAUSES = re.compile(r"[;\n]|,(?![0-9])|\. ")
_NUM = r"(?P<num>(?:[0-9]+[ -])?[0-9]+/[0-9]+ ?(?:\"|in\.?|inch)?|[0-9]*[.,]?[0-9]+ ?(?:mm|\"|in\.?|inch))"
_STEEL = r"(?:m\.?s\.?|mild(?: steel)?|steel|black|hot rolled|hr|a36|s[23][0-9]5(?:j[r0-9]+)?)"
_THICK = (
    r"thk|thick|plate|plates|pl|blech(?:dicke)?|dick|stark|chapa|gruesa|espesor|blacha|blachy|grub\w*|tôle|épais\w*"
)
_THICKNESS = re.compile(
    rf"(?:(?:all|cut|made|use|off|out|please|to be|be)? ?(?:in|from|of|ex|on|aus|en|de|z|w) ?)?(?:a |an )?{_NUM}"
    rf" ?(?:{_STEEL} )?(?:{_THICK})(?:[ ,]+(?:{_STEEL}|thk|thick|plate|please|pls|steel))*"
)


def thickness_of_note(text: str, decimal: str | None = None) -> Length | None:
    """Return the one thickness that a note names; None where no word calls it so.

    Examples
    --------
    >>> str(thickness_of_note("in 12mm plate")), str(thickness_of_note('weld on; 1/2" thk'))
    ('12 mm', '1/2 in')
    >>> thickness_of_note("20mm radius"), thickness_of_note("12mm"), thickness_of_note("for 12mm plate")
    (None, None, None)
    """
    if len(text) > LONGEST:
        return None
    clauses = _CLAUSES.split(plain_text(text).casefold())
    named = [found["num"].strip() for one in clauses if (found := _THICKNESS.fullmatch(one.strip(" .()")))]
    read = {one for num in named if not isinstance(one := read_length(num, decimal), Refused)}
    return read.pop() if len(read) == 1 else None
