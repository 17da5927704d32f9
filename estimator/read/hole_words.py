"""Round holes in the words of a size or description, as ``4xØ22`` or ``4 holes 22 dia``: read, or refused."""

from __future__ import annotations

import re
from dataclasses import dataclass

from estimator.read.lengths import Length, read_length
from estimator.read.numbers import Refused

__all__ = ["MOST_ALONE", "Holes", "holes_of_note", "names_holes", "speaks_of_holes", "take_holes", "without_hole_signs"]


@dataclass(frozen=True, slots=True)
class Holes:
    """Round holes of one size in one piece."""

    count: int
    diameter: Length

    def __str__(self) -> str:
        return f"{self.count} hole{'s' if self.count > 1 else ''} of {self.diameter}"


_HOLE = (
    r"(?:holes?|hls?|bohrung(?:en)?|löchern?|loch|trous?|agujeros?|taladros?|furos?|for[io]|otw(?:orów|ory|ór|\.)?"
    r"|отв(?:ерсти[еяй]|\.)?|孔|lỗ)(?![^\W\d_])"
)
_NUM = r"(?:[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[.,]?[0-9]+)(?: ?(?:mm|cm|\"|in|мм)(?![a-z]))?"
_COUNT = r"(?<![\w.,/×*Ø])(?<![x×*] )\(? ?(?P<n>[0-9]{1,3})(?![.,/]?[0-9]) ?\)?"
_TIMES = r" ?(?:x|×|\*|х|-|off|no\.?|nos\.?|pcs|stk\.?|st\.?|шт\.?)? ?"
_CIRCLE = r"(?:pcd|p\.c\.d\.?|bcd|tk|lk)\.?"
_ON = (
    rf"(?: ?(?:on|auf|sur|@|at)? ?(?:a )?(?:{_CIRCLE} ?Ø? ?[0-9.,]+(?: ?mm)?"
    rf"|Ø? ?[0-9.,/ -]*[0-9](?: ?(?:mm|\"|in))? ?(?:{_CIRCLE}|bolt circle|b\.?c\.?(?![a-z]))))?"
)
_PHRASES = (
    re.compile(rf"{_COUNT}{_TIMES}(?:{_HOLE} ?)?(?:of )?(?:Ø|dia\.?|diam\.?) ?(?P<d>{_NUM})(?: ?{_HOLE})?{_ON}"),
    re.compile(rf"{_COUNT}{_TIMES}{_HOLE} ?(?:of |à |a |de |von |fi |@ ?)?(?P<d>{_NUM}) ?(?:Ø|dia\.?|diam\.?)?{_ON}"),
    re.compile(rf"{_COUNT}{_TIMES}(?P<d>{_NUM}) ?(?:Ø|dia\.?|diam\.?)? ?{_HOLE}{_ON}"),
    re.compile(rf"{_COUNT}{_TIMES}(?P<d>{_NUM}) ?(?:dia\.?|diam\.?)(?![a-z]){_ON}"),
    re.compile(
        rf"{_HOLE} ?:? ?(?:Ø|dia\.?)? ?(?P<d>{_NUM}) ?(?:Ø|dia\.?|diam\.?)?[ ,;-]*"
        r"(?=[(x×]|[0-9]+ ?(?:off|no|pcs|stk|szt))\(?(?:x|×)? ?(?P<n>[0-9]{1,3})(?![0-9.,/])"
        r" ?(?:off|no\.?|nos\.?|pcs|stk\.?|szt\.?)?\)?(?! ?(?:mm|thk|t\b|[0-9]))"
    ),
)
MOST_ALONE = 12
"""Holes that a count and a diameter alone can mean; 20 x 250 dia is a thickness and a disc."""
_CLAUSES = re.compile(r"[;\n]|,(?![0-9])|(?<!no)\. ")
_BESIDE = (
    r"drill(?:ed)?|burn(?:t|ed)?|torch(?:ed)?|flame|cut|punch(?:ed)?|thru|through|clear(?:ance)?|plain|round|with|w/|and"
    r"|in (?:the )?(?:cent(?:re|er)|middle)|central|cent(?:re|er)ed|centred"
    r"|(?:in|at|near|by) (?:the )?(?:four |4 )?corners"
    r"|(?:as )?(?:per|to|see) (?:the )?(?:dwg|drg|drawing|sketch|print|plan)|as (?:drawn|drawing|sketch|shown)"
    r"|equally spaced|equi-?spaced|please|pls|dia|diam|holes?|steel|gebohrt|bohren|mittig|durchgehend|pasantes|centrado"
    r"|przelotowe|wiercone|percés?|traversants?"
)
_SPACED = (
    rf"(?:at|@|on)? ?{_NUM} ?(?:from (?:the |each )?(?:edges?|ends?|sides?)"
    r"|(?:crs|ctrs|cts|c/c|cent(?:re|er)s|pitch|apart|spacing)\b)"
)
_OF_PIECE = re.compile(rf"(?:[ ,:()@+&.-]|{_SPACED}|(?:{_BESIDE})(?![^\W\d_]))*")
_MIXED = re.compile(r"[0-9]-[0-9]+/[0-9]+ ?\"? ?(?:Ø|dia\.?|diam\.?)(?! ?holes)")
"""4-7/8 dia is four holes, or one of 4-7/8 in."""
_DOUBTFUL = re.compile(
    r"(?<![^\W\d_])(?:each|both|either|every|per (?:end|side|corner|leg|plate|piece)|existing|exist|match\w*|mating"
    r"|suit|already|not|don't|without|if|or|by (?:others?|customer|client|you|us|them|site)|customer|others|later"
    r"|on site"
    r"|bauseits|vom kunden|por el cliente|przez klienta|je|jede[rnms]?|cada|każd\w+|nicht|ohne|sin|nie|bez)"
    r"(?![^\W\d_])|\?"
)
"""Words behind which the holes of a note are multiplied, denied, of another piece or made by others."""
_ONE = re.compile(rf"(?:Ø|dia\.?) ?(?P<d>{_NUM}) (?:centre |center )?{_HOLE}|{_HOLE} (?:Ø|dia\.?) ?(?P<e>{_NUM})")
_PLURAL = re.compile(r"holes|bohrungen|löcher|trous|agujeros|taladros|furos|fori|otwory|отверстия")
_WORD = re.compile(rf"(?<![^\W\d_]){_HOLE}")
_OTHER = re.compile(
    r"(?<![^\W\d_])(?:slots?|slotted|langl(?:och|öcher)|lumières?|tapped|thread(?:ed)?|gewinde)(?![^\W\d_])"
)
_THREAD = re.compile(r"(?<![\w.])[0-9]{1,3} ?(?:x|×|\*|-|off|no\.?) ?m[0-9]{1,2}(?![0-9])")
_LINKS = re.compile(r"[ ,;+&]*(?:\b(?:with|w/|c/w|and|mit|avec|con|com|z|incl\.?|drill(?:ed)?|\+))?[ ,;:+&(]*$")
_DIAMETER = re.compile(r"Ø|(?<![^\W\d_])(?:dia|diam|diameter)\.?(?![^\W\d_])")
_CLOSING = re.compile(r"^[ ,;)]+")


def speaks_of_holes(folded: str) -> bool:
    """Return whether a folded text names holes, slots or threads, with a figure.

    Examples
    --------
    >>> speaks_of_holes("drill 2 holes"), speaks_of_holes("hole by customer")
    (True, False)
    """
    named = _WORD.search(folded) or _OTHER.search(folded) or _THREAD.search(folded)
    return bool(named) and any(map(str.isdigit, folded))


def names_holes(folded: str) -> bool:
    """Return whether a folded text speaks of holes at all."""
    return bool(_WORD.search(folded))


def without_hole_signs(folded: str) -> str:
    """Return a folded text without signs of a diameter where it names holes, whose diameters they then are.

    Examples
    --------
    >>> without_hole_signs("plate, 4 holes 26 dia"), without_hole_signs("blank 300 dia")
    ('plate, 4 holes 26  ', 'blank 300 dia')
    """
    return _DIAMETER.sub(" ", folded) if names_holes(folded) else folded


def take_holes(folded: str, decimal: str | None = None, *, sized: bool = False) -> tuple[str, Holes | Refused | None]:
    """Take the holes out of a folded size or description.

    Parameters
    ----------
    folded : str
        The text in plain spelling and small letters, the diameter sign as ``Ø``.
    decimal : {".", ",", None}
        Decimal mark that the list gives evidence of.
    sized : bool
        Whether other cells give the piece's sizes, so that the text needs to hold nothing but holes.

    Returns
    -------
    str and Holes, Refused or None
        The rest of the text; None where it names no holes, Refused where it names some that cannot be read.

    Examples
    --------
    >>> rest, holes = take_holes("pl10x150x300 w/ 4xØ22")
    >>> rest, str(holes)
    ('pl10x150x300', '4 holes of 22')
    >>> take_holes("disc 10xØ300")
    ('disc 10xØ300', None)
    """
    found = _phrases(folded)
    if not found:
        if _OTHER.search(folded) or _THREAD.search(folded):
            return folded, Refused("it names slots or threads, which no column of holes can hold")
        return folded, None
    rest = folded
    for match in reversed(found):
        before, after = _LINKS.sub("", rest[: match.start()]), _CLOSING.sub("", rest[match.end() :])
        rest = f"{before} {after}".strip()
    if not sized and not any(map(str.isdigit, rest)) and not _WORD.search(folded):
        return folded, None
    sizes = {read for match in found if isinstance(read := _diameter(match, decimal), Length) and read.value > 0}
    if len(sizes) != 1:
        return rest, Refused("it names holes of several sizes, or one that is no length")
    if speaks_of_holes(rest) or _THREAD.search(rest):
        return rest, Refused("it names more holes than can be read")
    count = sum(int(match.groupdict().get("n") or 1) for match in found)
    return rest, Holes(count, sizes.pop()) if count else Refused("it names no hole")


def holes_of_note(folded: str, decimal: str | None = None) -> Holes | None:
    """Return the holes that a folded note names where it leaves no doubt that they are to be made in this piece.

    Examples
    --------
    >>> str(holes_of_note("4 holes 22 dia, 40 from edge; weld all round")), str(holes_of_note("holes 22 (4 off)"))
    ('4 holes of 22', '4 holes of 22')
    >>> holes_of_note("2 holes 22 each end"), holes_of_note("matches 4 holes 22 dia in base")
    (None, None)
    """
    holes = take_holes(folded, decimal, sized=True)[1]
    if not isinstance(holes, Holes) or _DOUBTFUL.search(folded) or _MIXED.search(folded):
        return None
    clauses = [take_holes(part, decimal, sized=True) for part in _CLAUSES.split(folded)]
    named = [left for left, taken in clauses if taken is not None or names_holes(left)]
    return holes if named and all(_OF_PIECE.fullmatch(left) for left in named) else None


def _phrases(folded: str) -> list[re.Match[str]]:
    """Return the phrases that name holes, from left to right, none within another."""
    found: list[re.Match[str]] = []
    for pattern in _PHRASES:
        for match in pattern.finditer(folded):
            if not any(match.start() < other.end() and other.start() < match.end() for other in found):
                found.append(match)
    if not found and (one := _ONE.search(folded)) and not _PLURAL.search(one[0]):
        found.append(one)
    return sorted(found, key=lambda match: match.start())


def _diameter(match: re.Match[str], decimal: str | None) -> Length | Refused:
    named = match.groupdict()
    return read_length(named.get("d") or named.get("e") or "", decimal)
