"""Rings by their two diameters, as shops write them: ``14 OD x 9 ID``, ``OD 400 ID 250``, ``Ø400/Ø250``."""

from __future__ import annotations

import re

from estimator.read.lengths import Length, read_length
from estimator.read.section_words import DISC, OPEN, PLATE, RING, form_of
from estimator.read.text import plain_text
from estimator.words import Shape

__all__ = ["as_ring", "in_two_cells", "inside_alone"]

_FEET = r"[0-9]+ ?'(?: ?-? ?[0-9]+(?:[ -][0-9]+/[0-9]+)? ?\"?)?"
_NUM = rf"(?:{_FEET}|(?:[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[.,]?[0-9]+) ?(?:mm|cm|\"|in\b\.?|мм)?)"
_END = r"(?![^\W\d_])\.?"
_OUT = (
    rf"(?:Ø ?)?(?:o\.?d|o/d|out(?:side|er)(?: ?dia(?:m|meter)?)?|da|ad|au(?:ß|ss)en(?:-? ?(?:Ø|durchmesser))?"
    rf"|(?:d\.? ?)?ext(?:érieur|erior)?|est(?:erno)?|zewn|нар|dia(?:m|meter)?){_END}"
)
_IN = (
    rf"(?:Ø ?)?(?:i\.?d|i/d|in(?:side|ner)(?: ?dia(?:m|meter)?)?|bore|di|innen(?:-? ?(?:Ø|durchmesser))?"
    rf"|(?:d\.? ?)?int(?:érieur|erior|erno)?|wewn|вн){_END}"
)
_SEP = r" ?(?:x|×|\*|х|/|-|,|;|by|with|&|and)? ?"
_EQ = r" ?[=:]? ?Ø? ?"
_START = r"(?<![\w.,/×*])(?<![0-9] [x×*] )"
_RINGS = (
    re.compile(rf"{_START}Ø? ?(?P<out>{_NUM}) ?{_OUT}{_SEP}Ø? ?(?P<in>{_NUM}) ?{_IN}", re.IGNORECASE),
    re.compile(rf"{_START}Ø? ?(?P<in>{_NUM}) ?{_IN}{_SEP}Ø? ?(?P<out>{_NUM}) ?{_OUT}", re.IGNORECASE),
    re.compile(rf"(?<![^\W\d_]){_OUT}{_EQ}(?P<out>{_NUM}){_SEP}{_IN}{_EQ}(?P<in>{_NUM})", re.IGNORECASE),
    re.compile(rf"(?<![^\W\d_]){_IN}{_EQ}(?P<in>{_NUM}){_SEP}{_OUT}{_EQ}(?P<out>{_NUM})", re.IGNORECASE),
    re.compile(
        rf"{_START}(?:Ø ?(?P<out>{_NUM})|(?:(?P<od>{_NUM}) ?{_OUT}))[ ,;]*(?:with |w/ ?|and )?(?:an? )?Ø? ?"
        rf"(?P<in>{_NUM}) ?(?:Ø|dia\.?)? ?(?:(?:cent(?:re|er)|middle|central) ?(?:hole|bore){_END}"
        r"|(?:hole|bore) (?:in|at) (?:the )?(?:cent(?:re|er)|middle))",
        re.IGNORECASE,
    ),
    re.compile(rf"{_START}Ø ?(?P<out>{_NUM}){_SEP}Ø ?(?P<in>{_NUM})(?: ?(?:cent(?:re|er) )?(?:hole|bore|loch){_END})?"),
)
_INSIDE = re.compile(
    rf"{_START}Ø? ?(?P<before>{_NUM}) ?{_IN}|(?<![^\W\d_]){_IN}{_EQ}(?P<behind>{_NUM})(?! ?[x×*])", re.IGNORECASE
)
_OF_ANOTHER = re.compile(r"(?<![^\W\d_])(?:for|to|suits?|fits?|für|zu|para|pour|per|do|dla)(?![^\W\d_])")
"""Words behind which a bore is that of another thing."""
_THICK = re.compile(r"[.0-9]|t(?:hk)?\.? ?=? ?[0-9]")
_HOLES = re.compile(r"[0-9]+ ?(?:[x×*х-]|no\.?|off)? ?Ø|[0-9]+ ?\w* (?:holes?|hls?)")
_EDGE = re.compile(r"^[ x×*х/,;@-]+|[ x×*х/,;@-]+$")
_ROUND = frozenset({None, RING, DISC, PLATE, OPEN})


def as_ring(folded: str, form: str | Shape | None = None) -> str:
    """Return a size that names an outside and an inside diameter as ``ring 14 x 9``, any other as it is.

    Parameters
    ----------
    folded : str
        The text in plain spelling and small letters, the diameter sign as ``Ø``.
    form : str or Shape, optional
        What other cells of the row say it is: the two diameters of a pipe are no ring's.

    Returns
    -------
    str
        What stands before and after the diameters follows them: it can be the thickness.

    Examples
    --------
    >>> as_ring("14 od x 9 id"), as_ring("Ø400/Ø250 x 20"), as_ring("id 9, od 14")
    ('ring 14 x 9', 'ring 400 x 250 x 20', 'ring 14 x 9')
    >>> as_ring("pipe 60 od x 52 id"), as_ring("2xØ400")
    ('pipe 60 od x 52 id', '2xØ400')
    """
    if form_of(folded) not in _ROUND or form not in _ROUND:
        return folded
    found = next((match for pattern in _RINGS if (match := pattern.search(folded))), None)
    outside = (found["out"] or found["od"]) if found is not None and "od" in found.re.groupindex else None
    outside = outside or (found["out"] if found is not None else "")
    if found is None or not _wider(outside, found["in"]):
        return folded
    sizes, words, holes = [outside.strip(), found["in"].strip()], "", ""
    for rest in (folded[: found.start()], folded[found.end() :]):
        bare = _EDGE.sub("", rest.strip())
        if _HOLES.match(bare):
            holes += f", {bare}"
        elif _THICK.match(bare):
            sizes.append(bare)
        elif bare:
            words += f" {bare}"
    return f"ring{words} {' x '.join(sizes)}{holes}"


def in_two_cells(first: object, second: object) -> str | None:
    """Return one text for a ring whose diameters stand in two cells, each with its word; None for anything else.

    Examples
    --------
    >>> in_two_cells("300 OD", "180 ID"), in_two_cells("OD 300", "ID 180"), in_two_cells("300", "180 ID")
    ('300 OD x 180 ID', 'OD 300 x ID 180', None)
    """
    if not (isinstance(first, str) and isinstance(second, str)):
        return None
    both = f"{first.strip()} x {second.strip()}"
    is_bore = _INSIDE.fullmatch(plain_text(second).strip().lower()) is not None
    return both if is_bore and as_ring(plain_text(both).lower()).startswith(RING) else None


def inside_alone(folded: str) -> Length | None:
    """Return the one inside diameter or bore that a text names.

    Examples
    --------
    >>> str(inside_alone("flange, 150 bore")), str(inside_alone("id 9")), inside_alone("bore to suit")
    ('150', '9', None)
    >>> inside_alone("blank to suit 150 bore pipe") is None
    True
    """
    found = list(_INSIDE.finditer(folded))
    if len(found) != 1 or _OF_ANOTHER.search(folded[: found[0].start()]):
        return None
    read = read_length((found[0]["before"] or found[0]["behind"]).strip())
    return read if isinstance(read, Length) else None


def _wider(outside: str, inside: str) -> bool:
    """Return whether the outside diameter is the larger one; of two units the one that is named holds for both."""
    out, bore = read_length(outside.strip()), read_length(inside.strip())
    if not isinstance(out, Length) or not isinstance(bore, Length):
        return False
    unit = out.unit or bore.unit or ("in" if out.is_fraction or bore.is_fraction else "mm")
    return out.in_mm(unit) > bore.in_mm(unit)
