"""Sizes whose figures carry labels of their own, in any order, as ``300 L x 200 W x 10 T`` or ``OD 300 x 10 thk``."""

from __future__ import annotations

import re
from dataclasses import replace

from estimator.read.length_words import UNIT_PATTERN
from estimator.read.lengths import Gauges, Length, read_length
from estimator.read.numbers import Refused
from estimator.read.section_words import FLAT, PLATE
from estimator.read.size import Size
from estimator.words import Shape

__all__ = ["labelled_size", "take_length", "with_length"]

_NUM = (
    r"(?:[0-9]+ ?(?:'|ft)(?: ?-? ?[0-9]+(?:[ -][0-9]+/[0-9]+)?\"?)?|[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+"
    rf"|[0-9]*[.,]?[0-9]+)(?: ?(?:{UNIT_PATTERN})(?![a-zа-я]))?"
)
_WORDS = {
    "length": "length|long|len|lg|l|länge|lang",
    "width": "width|wide|w|breit|breite",
    "thickness": "thickness|thick|thk|wall|w\\.t|t|stark|dick",
    "outside": "o\\.d\\.?|od|outside dia|diameter|diam\\.?|dia\\.?|Ø",
    "inside": "i\\.d\\.?|id|inside dia|bore",
}
_LABEL = "|".join(f"(?P<{kind}{{0}}>{words})" for kind, words in _WORDS.items())
_AFTER = rf"(?P<num1>{_NUM}) ?\(?(?:{_LABEL.replace('{0}', '1')})\)?(?![a-z0-9])\.?"
_BEFORE = rf"(?<![a-z])(?:{_LABEL.replace('{0}', '2')})\.? ?[=:]? ?(?P<num2>{_NUM})"
_ONE = re.compile(rf"(?:{_AFTER}|{_BEFORE})")
_BARE = re.compile(_NUM)
_LONG = "length|long|len|lg|länge|lang"
_END_BEFORE = re.compile(rf"[ ,;-]+(?:cut )?(?:{_LONG}|l(?= ?[=:])) ?[=:]? ?(?P<num>{_NUM})$")
_END_AFTER = re.compile(rf"(?<![x×* ])(?:[,;]| -)? (?P<num>{_NUM}) ?(?:{_LONG})$")


def take_length(bare: str, decimal: str | None, gauges_in: Gauges | None) -> tuple[str, Length | None]:
    """Take the piece's length from the end of a folded size, where a word calls it that.

    Examples
    --------
    >>> take_length("fb 50x10 l=300", None, None)[0], take_length("shs 50x50x3 - 1200 long", None, None)[0]
    ('fb 50x10', 'shs 50x50x3')
    >>> take_length("pl 10 x 150 x 300 lg", None, None)
    ('pl 10 x 150 x 300 lg', None)
    """
    found = _END_BEFORE.search(bare) or _END_AFTER.search(bare)
    if found is None or not any(map(str.isdigit, bare[: found.start()])):
        return bare, None
    read = read_length(found["num"], decimal, gauges_in)
    return (bare, None) if isinstance(read, Refused) else (bare[: found.start()].rstrip(" ,;-"), read)


def with_length(size: Size, length: Length) -> Size | Refused:
    """Return a size with the length that was said apart from it."""
    if size.shape not in {None, Shape.RECTANGLE, Shape.DISC, Shape.RING}:
        return size if size.piece_length is not None else replace(size, piece_length=length)
    if size.shape is Shape.RECTANGLE and size.a is None and size.thickness is not None:
        if length.unit is None and size.thickness.unit is not None:
            length = replace(length, unit=size.thickness.unit)
        return replace(size, a=length)
    return Refused("it says a length besides its sizes")


def labelled_size(
    bare: str, form: str | Shape | None, decimal: str | None, gauges_in: Gauges | None
) -> Size | Refused | None:
    """Read a size whose figures carry labels of their own.

    Parameters
    ----------
    bare : str
        A folded text without grades.
    form : str or Shape, optional
        What its words say it is.
    decimal : {".", ",", None}
        Decimal mark that the list gives evidence of.
    gauges_in : mapping of int to Fraction, optional
        Thickness of each sheet gauge [in].

    Returns
    -------
    Size, Refused or None
        None where fewer than two figures carry labels, or figures are left without one.

    Examples
    --------
    >>> str(labelled_size("300 l x 200 w x 10 t", None, None, None))
    'rectangle 300 x 200, 10 thick'
    >>> str(labelled_size("od 300 id 200 x 10 thk", None, None, None)), labelled_size("10x150x300", None, None, None)
    ('ring 300 x 200, 10 thick', None)
    """
    found = list(_ONE.finditer(bare))
    if len(found) < 2:
        return None
    kinds = [next(key[:-1] for key, word in m.groupdict().items() if word and not key.startswith("num")) for m in found]
    left = bare
    for match in reversed(found):
        left = left[: match.start()] + " " + left[match.end() :]
    loose = _BARE.findall(left)
    if not loose and len(set(kinds)) == len(kinds):
        numbers = [match["num1"] or match["num2"] for match in found]
        read = [read_length(number, decimal, gauges_in) for number in numbers]
        return _of(dict(zip(kinds, read, strict=True)), form)
    return None


def _of(read: dict[str, Length | Refused], form: str | Shape | None) -> Size | Refused | None:
    """Return the size that labelled figures make."""
    dims: dict[str, Length] = {}
    for kind, one in read.items():
        if isinstance(one, Refused):
            return one
        dims[kind] = one
    units = {dim.unit for dim in dims.values() if dim.unit}
    if len(units) > 1 or any(dim.is_fraction and dim.unit is None for dim in dims.values()):
        units |= {"in"}
    if len(units) > 1:
        return Refused("its sizes are in different units")
    unit = units.pop() if units else None
    dims = {kind: replace(dim, unit=dim.unit or unit, label="") for kind, dim in dims.items()}
    thickness, length, width = dims.get("thickness"), dims.get("length"), dims.get("width")
    outside, inside = dims.get("outside"), dims.get("inside")
    if form in {None, PLATE, FLAT} and set(dims) == {"thickness", "length", "width"}:
        return Size(Shape.RECTANGLE, thickness, length, width, flat=form == FLAT)
    if form in {PLATE, FLAT} and set(dims) == {"thickness", "width"}:
        return Size(Shape.RECTANGLE, thickness, None, width, flat=form == FLAT)
    if form in {Shape.PIPE, Shape.SQUARE_TUBE} and outside and thickness and not inside:
        return Size(Shape.PIPE, thickness, outside, None, length, plain=False)
    if form is Shape.ROUND_BAR and outside and length and len(dims) == 2:
        return Size(form, None, outside, piece_length=length)
    if not isinstance(form, Shape) and outside and thickness and not length and not width:
        return Size(Shape.RING if inside else Shape.DISC, thickness, outside, inside)
    return None
