"""Count and size in one cell of a column of holes: ``4 @ 13/16``, ``6 x 1-1/16``, ``4 Ø22``, ``2 off 18``."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from estimator.problems import cut_list as said
from estimator.problems import list_words as said_words
from estimator.read.hole_words import Holes, take_holes
from estimator.read.lengths import Length, read_length, say_length
from estimator.read.list_columns import ColumnReader
from estimator.read.list_holes import HoledPieces, take_hole
from estimator.read.list_lengths import in_mm
from estimator.read.list_units import BareUnit
from estimator.read.text import LONGEST, plain_text
from estimator.read.what_to_type import cell_under

__all__ = ["HoleTexts", "ask_several_sizes", "fill_hole_sizes", "hole_texts", "read_hole_cell", "read_hole_groups"]

_SIZE = r"(?:[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*[.,]?[0-9]+) ?(?:mm|cm|in\.?|inch|\"|мм)?"
_CELL = re.compile(
    rf"\(?(?P<n>[0-9]{{1,3}})\)? ?(?P<by>x|×|\*|х|@|at|off|of|no\.?s?|nos\.?|pcs\.?|ea\.?|thus|stk\.?|szt\.?|шт\.?)"
    rf" ?(?:@|at|of|à|x)? ?(?P<d>{_SIZE})"
)
_PLACE = re.compile(
    r"[ ,;]+\(?(?:(?:in|at|on) )?(?:the |four )?(?:(?P<one>middle|cent(?:re|er))|corners|thru|through)(?: hole)?\)?$"
)
"""Where the holes are, behind their size; in the middle is but one. Each end would multiply them: it is not read."""
_ONE_SIZE = re.compile(rf"(?P<d>{_SIZE})")
_TIMES = frozenset("x×*х")
_BETWEEN = re.compile(r" ?[+;&\n] ?|, ?(?=[0-9(])(?! ?[0-9]+ ?(?:mm|cm|in|\"|$))| (?:and|plus|und|y|i|et|e) (?=[0-9])")
_SMALLEST = 6
"""Below this a bare whole number behind a times sign is a second count, as in two rows of 3."""


@dataclass(frozen=True, slots=True)
class HoleTexts:
    """Texts of the column of holes that give more than a count."""

    sized: dict[str, Holes]
    """Count and size, by text."""
    several: dict[str, list[Holes]]
    """Holes of several sizes, by text; a row holds one size."""

    @property
    def counts(self) -> dict[str, float]:
        """The count of each text; NaN where several sizes are asked about."""
        return {text: holes.count for text, holes in self.sized.items()} | dict.fromkeys(self.several, math.nan)


def hole_texts(reader: ColumnReader) -> HoleTexts:
    """Return the texts of the column of holes that give sizes.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.

    Returns
    -------
    HoleTexts
        Where sizes stand in a column of their own, ``2 x 3`` stays a product.
    """
    texts = {value for value in reader.values("holes") or [] if type(value) is str and len(value) <= LONGEST}
    own = any(value is not None for value in reader.values("hole_diameter_mm") or [])
    read = {text: read_hole_cell(text, reader.decimal, products=own) for text in texts}
    groups = {text: read_hole_groups(text, reader.decimal) for text, holes in read.items() if holes is None}
    summed = {text: all_of[0] for text, all_of in groups.items() if len(all_of) == 1}
    sized = {text: holes for text, holes in read.items() if holes is not None} | summed
    return HoleTexts(sized, {text: all_of for text, all_of in groups.items() if len(all_of) > 1})


def read_hole_groups(text: str, decimal: str | None = None) -> list[Holes]:
    """Read several counts and sizes of holes; those of one size are added.

    Parameters
    ----------
    text : str
        What stands in the cell.
    decimal : {".", ",", None}
        Decimal mark that the list gives evidence of.

    Returns
    -------
    list of Holes
        One for each size; empty where a part of the text gives no count with a size.

    Examples
    --------
    >>> [str(holes) for holes in read_hole_groups("4x Ø22 + 2x Ø14")]
    ['4 holes of 22', '2 holes of 14']
    >>> [str(holes) for holes in read_hole_groups("2 holes 18, 1 hole 18")], read_hole_groups("3 + 2")
    (['3 holes of 18'], [])
    """
    read = [read_hole_cell(part, decimal) for part in _BETWEEN.split(text) if part.strip()]
    groups: dict[Length, int] = {}
    for holes in read:
        if holes is None:
            return []
        groups[holes.diameter] = groups.get(holes.diameter, 0) + holes.count
    return [Holes(count, diameter) for diameter, count in groups.items()] if len(read) > 1 else []


def ask_several_sizes(
    reader: ColumnReader, pieces: HoledPieces, several: dict[str, list[Holes]], bare: BareUnit
) -> None:
    """Ask for a row of its own for each size of holes after the first: a row of holes and no sides is priced.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    pieces : HoledPieces
        Shaped pieces; rows that are asked about are marked refused.
    several : dict of str to list of Holes
        What ``hole_texts`` gave.
    bare : BareUnit
        Unit of bare numbers.
    """
    for line, value in enumerate(reader.values("holes") or [] if several else ()):
        if type(value) is not str or value not in several:
            continue
        first, *others = (_typed(holes, bare) for holes in several[value])
        mark = reader.texts("mark")[line] or reader.texts("item")[line]
        same = " and ".join(filter(None, (f"the mark {mark}" if mark else "", "the same quantity and thickness")))
        do = f"type '{first}' in {cell_under(reader, line, 'holes')}, and add a row with {same}, no sides and "
        do += " in its holes, and another with ".join(f"'{holes}'" for holes in others) + " in its holes"
        reader.say(said_words.HOLES_OF_SEVERAL_SIZES, line, "holes", value, many=len(others) + 1, do=do)
        pieces.refused[line] = True


def _typed(holes: Holes, bare: BareUnit) -> str:
    """Return count and size as they can be typed."""
    unit = holes.diameter.unit or ("in" if holes.diameter.is_fraction else bare.unit or "")
    return f"{holes.count} x {say_length(holes.diameter.value, unit, as_fraction=holes.diameter.is_fraction)}"


def read_hole_cell(text: str, decimal: str | None = None, *, products: bool = False) -> Holes | None:
    """Read count and size of the holes in one piece.

    Parameters
    ----------
    text : str
        What stands in the cell.
    decimal : {".", ",", None}
        Decimal mark that the list gives evidence of.
    products : bool
        Whether two whole numbers are a product.

    Returns
    -------
    Holes or None
        None where the cell gives no size.

    Examples
    --------
    >>> str(read_hole_cell("4 @ 13/16")), str(read_hole_cell("4 Ø22")), str(read_hole_cell("2 off 18"))
    ('4 holes of 13/16', '4 holes of 22', '2 holes of 18')
    >>> str(read_hole_cell('4" in the middle')), str(read_hole_cell('1 hole 4" in the middle'))
    ('1 hole of 4 in', '1 hole of 4 in')
    >>> read_hole_cell("2x3"), read_hole_cell("4 off")
    (None, None)
    """
    folded = plain_text(text).casefold().replace("ø", "Ø").replace("φ", "Ø").strip(" .")
    place = _PLACE.search(folded)
    if place is not None and place.start():
        return _at_place(folded[: place.start()], decimal, one=bool(place["one"]))
    rest, named = take_holes(folded, decimal, sized=True)
    if isinstance(named, Holes) and not rest:
        return named
    found = _CELL.fullmatch(folded)
    size = read_length(found["d"], decimal) if found else None
    if found is None or not isinstance(size, Length) or not int(found["n"]):
        return None
    whole = size.unit is None and not size.is_fraction and size.value.denominator == 1
    if found["by"] in _TIMES and whole and (products or size.value < _SMALLEST):
        return None
    return Holes(int(found["n"]), size)


def _at_place(folded: str, decimal: str | None, *, one: bool) -> Holes | None:
    """Read what stands before the words for a place; a size with its unit in the middle is one hole."""
    size = read_length(folded, decimal) if one and _ONE_SIZE.fullmatch(folded) else None
    if isinstance(size, Length) and (size.unit is not None or size.is_fraction):
        return Holes(1, size)
    return read_hole_cell(folded, decimal)


def fill_hole_sizes(reader: ColumnReader, pieces: HoledPieces, sized: dict[str, Holes], bare: BareUnit) -> None:
    """Put the sizes that stand beside the counts into the holes of the pieces.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    pieces : HoledPieces
        Shaped pieces; their holes are filled here, and checked against sides and columns of their own.
    sized : dict of str to Holes
        The sized ones that ``hole_texts`` gave.
    bare : BareUnit
        Unit of bare numbers.
    """
    for line, value in enumerate(reader.values("holes") or [] if sized else ()):
        if type(value) is not str or value not in sized:
            continue
        holes = sized[value]
        plain = holes.diameter.unit is not None or holes.diameter.is_fraction
        if not plain and bare.unit is None:
            needs = "a unit beside the size of the holes, as 4 x 22 mm"
            reader.say(said.UNIT_NOT_SAID, line, "holes", value, what="size of the holes", reason=_SILENT, needs=needs)
            continue
        mm = in_mm(holes.diameter, bare)
        if take_hole(reader, pieces, line, "holes", holes, mm):
            reader.note(line, "holes", value, f"{holes.count} x Ø {mm:.6g} mm")
            if (not plain and "Ø" not in value) or _PLACE.search(plain_text(value).casefold()):
                reader.say(
                    said_words.HOLES_READ_AS, line, "holes", value, what="cell", read_as=f"{holes.count} of {mm:.6g} mm"
                )


_SILENT = "neither the cell nor the list names one"
