"""Shapes that words name beside sizes: a triangle or a flat bar is taken, a shape that has no model is asked for."""

from __future__ import annotations

import re
from functools import cache

import numpy as np

from estimator.problems import list_words as said
from estimator.read.hole_words import without_hole_signs
from estimator.read.list_columns import ColumnReader
from estimator.read.list_pieces import Pieces
from estimator.read.section_words import DISC, FLAT, PLATE, RING, form_of, words_for
from estimator.read.text import plain_text
from estimator.read.work_words import whole_words
from estimator.sheets.word_tables import word_table, words_of
from estimator.words import BLANK, MadeFrom, Shape

__all__ = ["shape_of_word", "shapes_in_words"]

_FIGURES_FIRST = re.compile(r"^[\W\d_]+")
_FLAT_WORD = re.compile(r"(?<![^\W\d_])flats?(?![^\W\d_])")
_SHAPES = {RING: "a ring", DISC: "a disc"}
_TYPED = {
    RING: "type ring under Shape, and its diameters under Size A and Size B",
    DISC: "type disc under Shape, and its diameter under Size A",
}
_TRIANGLE = "type right triangle under Shape, if it is one"
_PRICED_AS = {Shape.RECTANGLE: "a rectangle", Shape.DISC: "a whole disc", Shape.RING: "a whole ring"}
_NOT_OF_PIECE = (
    r"(?<!no )(?<!not )(?<!not a )(?:{words})"
    r"(?![ -]*(?:bars?|bolts?|nuts?|heads?|cut|holes?|notch|slots?|recess)|-[0-9])"
)
"""A shape that is denied, or that a cut in the piece or a bought part has, is not the piece's."""
_NAMING = ("size", "description", "note", "material", "mark")
"""Columns whose words can name the shape of a piece."""


def shapes_in_words(reader: ColumnReader, pieces: Pieces) -> None:
    """Hold the words of a row against the shape that its sizes make, where no cell types the shape.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    pieces : Pieces
        Shaped rows; a triangle or a flat bar is filled in here.

    Notes
    -----
    Two sides of a triangle are taken as the legs of a right one, and said. A flat bar is cut across only, which its
    width allows; a ring's two sides could be anything, so it is said. What has no model, as half a ring, is priced by
    its cut length alone, and asked for where none is typed. Source: common practice, no source.
    """
    typed = reader.texts("shape")
    lines = [n for n in np.flatnonzero(~pieces.refused).tolist() if not typed[n]]
    _named_shapes(reader, pieces, lines)
    sides = (pieces.shape == Shape.RECTANGLE) | ((pieces.shape == BLANK) & ~np.isnan(pieces.length_mm))
    _rounds_and_flats(reader, pieces, [n for n in lines if sides[n] and n not in pieces.sized])


def shape_of_word(word: str) -> tuple[Shape | None, str] | None:
    """Return what a word that stands under Shape and not in its list is taken as, and what to say of it.

    Examples
    --------
    >>> shape_of_word("tri"), shape_of_word("half ring")[0], shape_of_word("rnig")
    ((<Shape.RIGHT_TRIANGLE: 3>, 'a triangle'), None, None)
    """
    says, taken_as = _shapes_named({word}).get(word, ("", ""))
    if not says:
        return None
    return (Shape.RIGHT_TRIANGLE if taken_as == Shape.RIGHT_TRIANGLE.word else None), says


def _named_shapes(reader: ColumnReader, pieces: Pieces, lines: list[int]) -> None:
    """Take or ask for the first shape of the word table that a row names."""
    cut_lengths = [reader.texts(name) for name in ("cut_length_mm", "total_cut_length_mm")]
    done: set[int] = set()
    for name in (one for first in _NAMING for one in reader.alike(first)):
        cells = reader.values(name) or []
        named = _shapes_named({c for c in cells if type(c) is str})
        for line in lines if named else ():
            text = cells[line]
            if type(text) is str and text in named and line not in done:
                done.add(line)
                _take_or_ask(
                    reader, pieces, line, name, text, *named[text], by_length=any(c[line] for c in cut_lengths)
                )


def _take_or_ask(
    reader: ColumnReader, pieces: Pieces, line: int, name: str, text: str, says: str, taken_as: str, *, by_length: bool
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
        legs = f"{pieces.size_a_mm[line]:.6g} x {pieces.size_b_mm[line]:.6g} mm"
        reader.note(line, name, text, Shape.RIGHT_TRIANGLE.word, "shape")
        reader.say(said.TRIANGLE_FROM_WORDS, line, name, text, what=_what(name), legs=legs)
    elif taken_as and (sided or straight):
        reader.say(said.SHAPE_NOT_TAKEN, line, name, text, **fields, do=_TRIANGLE)
    elif shape in _PRICED_AS and not by_length:
        reader.say(said.SHAPE_HAS_NO_MODEL, line, name, text, **fields)
        pieces.refused[line] = True
    elif shape in _PRICED_AS or straight:
        reader.say(said.SHAPE_BY_CUT_LENGTH, line, name, text, **fields)


def _rounds_and_flats(reader: ColumnReader, pieces: Pieces, lines: list[int]) -> None:
    """Set flat bars by their words, and tell of rings and discs whose sides stand in columns of their own."""
    named = [(name, _form) for name in reader.alike("description")] + [(n, _round) for n in reader.alike("note")]
    for name, form_of_text in named if lines else ():
        cells = reader.values(name) or []
        forms = {text: form_of_text(text) for text in {c for c in cells if type(c) is str}}
        for line in lines:
            text = cells[line]
            form = forms.get(text) if type(text) is str and not pieces.refused[line] else None
            if form == FLAT and pieces.made_from[line] == BLANK and not np.isnan(pieces.width_mm[line]):
                pieces.made_from[line] = MadeFrom.FLAT
                reader.say(
                    said.FLAT_FROM_WORDS, line, name, text, what=_what(name), width=f"{pieces.width_mm[line]:.6g} mm"
                )
            elif form in _SHAPES:
                read_as = _PRICED_AS[Shape.RECTANGLE] if pieces.shape[line] == Shape.RECTANGLE else "a straight cut"
                fields = {"what": _what(name), "says": _SHAPES[form], "read_as": read_as, "do": _TYPED[form]}
                reader.say(said.SHAPE_NOT_TAKEN, line, name, text, **fields)


def _what(name: str) -> str:
    return name.partition(" ")[0]


def _form(text: str) -> str | None:
    """Return flat, ring or disc where words say so; a flat plate is a plate."""
    folded = without_hole_signs(plain_text(text).lower())
    form = form_of(folded) if words_for(RING, DISC, FLAT).search(folded) else None
    if form == FLAT:
        return None if form_of(_FLAT_WORD.sub("", folded)) == PLATE else FLAT
    return str(form) if form in {RING, DISC} else None


def _round(text: str) -> str | None:
    """Return ring or disc where a note begins with it; behind other words it may be what the piece goes to."""
    form = _form(text) if words_for(RING, DISC).match(_FIGURES_FIRST.sub("", plain_text(text).lower())) else None
    return form if form in {RING, DISC} else None


def _shapes_named(texts: set[str]) -> dict[str, tuple[str, str]]:
    """Return what shape each text names, and what it is taken as; not there where it names none."""
    whole = "\n".join(texts).lower()
    patterns = [row for row in _shape_patterns() if any(word in whole for word in row[2])]
    folded = {text: plain_text(text).lower() for text in texts} if patterns else {}
    named: dict[str, tuple[str, str]] = {}
    for says, taken_as, _, pattern in patterns:
        named |= {text: (says, taken_as) for text, words in folded.items() if pattern.search(words)}
    return named


@cache
def _shape_patterns() -> list[tuple[str, str, tuple[str, ...], re.Pattern[str]]]:
    """Return what each row says and is taken as, its bare words to look for quickly, and its pattern."""
    found = []
    for row in word_table("shape_words"):
        words = words_of(row["words"])
        pattern = re.compile(_NOT_OF_PIECE.format(words=whole_words(words)))
        found.append((row["says"], row["taken_as"], tuple(word.rstrip("*") for word in words), pattern))
    return found
