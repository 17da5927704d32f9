"""Shapes that words name beside sizes: a triangle or a flat bar is taken, a shape that has no model is asked for."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np

from estimator.problems import list_words as said
from estimator.read.hole_words import without_hole_signs
from estimator.read.list_columns import ColumnReader
from estimator.read.list_units import BareUnit, said_in
from estimator.read.named_shapes import shapes_named
from estimator.read.pieces import Pieces
from estimator.read.round_words import ROUND, round_forms
from estimator.read.section_words import DISC, FLAT, PLATE, RING, form_of, words_for, words_often_round
from estimator.read.size import Size
from estimator.read.text import plain_text
from estimator.read.what_to_type import cell_under, cut_length_instead
from estimator.words import BLANK, MadeFrom, Shape

__all__ = ["shape_of_word", "shapes_in_words"]

_SQUARE = re.compile(r"square|sq\.?\b|quadrat|cuadrad|kwadrat|carré|girder|web|beam|end plate")
_FLAT_WORD = re.compile(r"(?<![^\W\d_])flats?(?![^\W\d_])")
_FLANGE = "flange"
_SHAPES = {_FLANGE: "a flange, which is often round", RING: "a ring", DISC: "a disc", ROUND: "a round"}
_TYPED = {
    RING: "type ring under Shape, and its diameters under Size A and Size B",
    DISC: "type disc under Shape, and its diameter under Size A",
    _FLANGE: "type disc under Shape, and its diameter under Size A, if it is round; square in its words if it is not",
    ROUND: "type disc under Shape, and its diameter under Size A",
}
_TRIANGLE = "type right triangle under Shape, if it is one"
_PRICED_AS = {Shape.RECTANGLE: "a rectangle", Shape.DISC: "a whole disc", Shape.RING: "a whole ring"}
_NAMING = ("size", "description", "note", "material", "mark")
"""Columns whose words can name the shape of a piece."""


def shapes_in_words(reader: ColumnReader, pieces: Pieces, bare: BareUnit) -> None:
    """Hold the words of a row against the shape that its sizes make, where no cell types the shape.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    pieces : Pieces
        Shaped rows; a triangle or a flat bar is filled in here.
    bare : BareUnit
        Unit of bare lengths, in which sizes are said.

    Notes
    -----
    Two sides of a triangle are taken as the legs of a right one, and said. A flat bar is cut across only, which its
    width allows; a ring's two sides could be anything, so it is said. What has no model, as half a ring, is priced by
    its cut length alone, and asked for where none is typed. Source: common practice, no source.
    """
    typed = reader.texts("shape")
    lines = [n for n in np.flatnonzero(~pieces.refused).tolist() if not typed[n]]
    _named_shapes(reader, pieces, lines, bare)
    sides = (pieces.shape == Shape.RECTANGLE) | ((pieces.shape == BLANK) & ~np.isnan(pieces.length_mm))
    _rounds_and_flats(reader, pieces, [n for n in lines if sides[n]], bare)


def shape_of_word(word: str) -> tuple[Shape | None, str] | None:
    """Return what a word that stands under Shape and not in its list is taken as, and what to say of it.

    Examples
    --------
    >>> shape_of_word("tri"), shape_of_word("half ring")[0], shape_of_word("rnig")
    ((<Shape.RIGHT_TRIANGLE: 3>, 'a triangle'), None, None)
    """
    says, taken_as = shapes_named({word}).get(word, ("", ""))
    if not says:
        return None
    return (Shape.RIGHT_TRIANGLE if taken_as == Shape.RIGHT_TRIANGLE.word else None), says


def _named_shapes(reader: ColumnReader, pieces: Pieces, lines: list[int], bare: BareUnit) -> None:
    """Take or ask for the first shape of the word table that a row names."""
    cut_lengths = [reader.texts(name) for name in ("cut_length_mm", "total_cut_length_mm")]
    done: set[int] = set()
    for name in (one for first in _NAMING for one in reader.alike(first)):
        cells = reader.values(name) or []
        named = shapes_named({c for c in cells if type(c) is str})
        for line in lines if named else ():
            text = cells[line]
            if type(text) is str and text in named and line not in done:
                done.add(line)
                by_length = any(c[line] for c in cut_lengths)
                _take_or_ask(reader, pieces, line, name, text, *named[text], bare, by_length=by_length)


def _take_or_ask(
    reader: ColumnReader,
    pieces: Pieces,
    line: int,
    name: str,
    text: str,
    says: str,
    taken_as: str,
    bare: BareUnit,
    *,
    by_length: bool,
) -> None:
    shape = Shape(pieces.shape[line]) if pieces.shape[line] != BLANK else None
    sided = shape is Shape.RECTANGLE and not np.isnan(pieces.size_b_mm[line])
    fields = {
        "what": _what(name),
        "says": says,
        "read_as": "a straight cut" if shape is None else _PRICED_AS.get(shape, shape.word),
    }
    straight = shape is None and not np.isnan(pieces.length_mm[line])
    if taken_as == Shape.RIGHT_TRIANGLE.word and sided and not by_length:
        pieces.shape[line] = Shape.RIGHT_TRIANGLE
        legs = said_in(bare, pieces.size_a_mm[line], pieces.size_b_mm[line])
        _note_triangle(reader, line, name, text)
        reader.say(said.TRIANGLE_FROM_WORDS, line, name, text, what=_what(name), legs=legs)
    elif taken_as and (sided or straight):
        reader.say(said.SHAPE_NOT_TAKEN, line, name, text, **fields, do=_TRIANGLE)
    elif shape in _PRICED_AS and not by_length:
        reader.say(
            said.SHAPE_HAS_NO_MODEL, line, name, text, **fields, do=_how_to_give(reader, pieces, line, says, bare)
        )
        pieces.refused[line] = True
    elif shape in _PRICED_AS or straight:
        reader.say(said.SHAPE_BY_CUT_LENGTH, line, name, text, **fields)
        pieces.by_cut_length[line] = True


def _note_triangle(reader: ColumnReader, line: int, name: str, text: str) -> None:
    """Note how the words were read, in the place of a size's reading as a rectangle: the last reading stays."""
    at = reader.first_line + line
    for n, read in enumerate(reader.read_as):
        if read.line == at and read.read_as.startswith(Shape.RECTANGLE.word):
            said = read.read_as.replace(Shape.RECTANGLE.word, Shape.RIGHT_TRIANGLE.word, 1)
            reader.read_as[n] = replace(read, read_as=said)
            return
    reader.note(line, name, text, Shape.RIGHT_TRIANGLE.word, "shape")


def _rounds_and_flats(reader: ColumnReader, pieces: Pieces, lines: list[int], bare: BareUnit) -> None:
    """Set flat bars by their words, and tell of rings and discs whose sides stand in columns of their own."""
    named = [(name, False) for name in reader.alike("description")]
    named += [(name, True) for what in ("note", "mark") for name in reader.alike(what)]
    for name, in_note in named if lines else ():
        cells = reader.values(name) or []
        texts = {cell for cell in cells if type(cell) is str}
        forms = round_forms(texts, in_note=in_note)
        forms |= {text: FLAT for text in texts - set(forms) if (_FLAT_BAR.match(text) if in_note else _says_flat(text))}
        forms |= {text: _FLANGE for text in texts - set(forms) if not in_note and _may_be_round(text)}
        named_otherwise = shapes_named(set(forms)) if forms else {}
        forms = {text: form for text, form in forms.items() if text not in named_otherwise}
        for line in lines if forms else ():
            text = cells[line]
            form = forms.get(text) if type(text) is str and not pieces.refused[line] else None
            if form == _FLANGE and pieces.size_a_mm[line] != pieces.size_b_mm[line]:
                continue
            if line in pieces.sized and (
                _says_itself(reader, pieces, line) if form == FLAT else pieces.sized[line] == name
            ):
                continue
            if form == FLAT and pieces.made_from[line] == BLANK and not np.isnan(pieces.width_mm[line]):
                if _from_plate(reader, line):
                    pieces.made_from[line] = MadeFrom.PLATE
                    reader.note(line, name, text, "from plate", "made_from")
                    continue
                pieces.made_from[line] = MadeFrom.FLAT
                _longer_side_first(pieces, line)
                width = said_in(bare, pieces.width_mm[line])
                reader.say(said.FLAT_FROM_WORDS, line, name, text, what=_what(name), width=width)
            elif form in _SHAPES:
                read_as = _PRICED_AS[Shape.RECTANGLE] if pieces.shape[line] == Shape.RECTANGLE else "a straight cut"
                fields = {"what": _what(name), "says": _SHAPES[form], "read_as": read_as, "do": _TYPED[form]}
                reader.say(said.SHAPE_NOT_TAKEN, line, name, text, **fields)


def _what(name: str) -> str:
    return name.partition(" ")[0]


def _may_be_round(text: str) -> bool:
    """Return whether words name a piece that is often round, and do not call it square."""
    folded = text.lower()
    return bool(words_often_round().search(folded)) and not _SQUARE.search(folded)


_FLAT_BAR = re.compile(
    r"\W*(?:(?:cut )?(?:from|out of) )?(?:flat[ -]?bars?|flachstahl|p[łl]askownik|pletina)\b", re.IGNORECASE
)
"""Words of a note or a mark for a piece of a flat bar, where they come first, not as in ``bolts to flat bar``."""


def _says_itself(reader: ColumnReader, pieces: Pieces, line: int) -> bool:
    """Return whether the cell that gives a row's size also says what the piece is, or how thick."""
    if pieces.sized[line] != "size":
        return True
    size = reader.size_of(str((reader.values("size") or [""])[line]))
    return (
        not isinstance(size, Size)
        or size.shape not in {None, Shape.RECTANGLE}
        or size.flat
        or size.thickness is not None
    )


def _longer_side_first(pieces: Pieces, line: int) -> None:
    """Put the length of a bar before its width, which a size may name in either order."""
    if line in pieces.sized and pieces.size_a_mm[line] < pieces.size_b_mm[line]:
        for one, other in ((pieces.size_a_mm, pieces.size_b_mm), (pieces.length_mm, pieces.width_mm)):
            one[line], other[line] = other[line], one[line]


_FROM_PLATE = re.compile(
    r"\b(?:(?:from|out of)\b[^.;,]*\b(?:plate|sheet)|ripped|aus (?:blech|tafel)|de (?:chapa|plancha)|z blachy)\b"
)
"""Words for a strip that is ripped out of plate; common practice, no source."""


def _from_plate(reader: ColumnReader, line: int) -> bool:
    """Return whether any words of a row say that it is cut out of plate."""
    columns = [reader.values(name) or [] for what in ("description", "note") for name in reader.alike(what)]
    return any(_FROM_PLATE.search(str(cells[line]).casefold()) for cells in columns)


def _says_flat(text: str) -> bool:
    """Return whether words say a flat; a flat plate is a plate."""
    if not words_for(FLAT).search(text.lower()):
        return False
    folded = without_hole_signs(plain_text(text).lower())
    return form_of(folded) == FLAT and form_of(_FLAT_WORD.sub("", folded)) != PLATE


def _how_to_give(reader: ColumnReader, pieces: Pieces, line: int, says: str, bare: BareUnit) -> str:
    """Return how to price a shape that has no model; the cut of half or a quarter of a disc is worked out."""
    sides = sorted((pieces.size_a_mm[line], pieces.size_b_mm[line]), reverse=True)
    if says == "a quarter of a disc" and abs(sides[0] - sides[1]) <= 0.01 * sides[0]:
        worked, of = sides[0] * (2 + np.pi / 2), f"two sides of {said_in(bare, sides[0])} and a quarter of that circle"
    elif says == "half a disc" and abs(sides[0] - 2 * sides[1]) <= 0.01 * sides[0]:
        worked, of = sides[0] * (1 + np.pi / 2), f"one side of {said_in(bare, sides[0])} and half of that circle"
    else:
        return f"{cut_length_instead(reader, line)}, or its shape in {cell_under(reader, line, 'shape')}"
    length = cut_length_instead(reader, line, said_in(bare, worked, rounded=True))
    return f"{length}, which is {of}, if that is the piece; else the length of its own cut"
