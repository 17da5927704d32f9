"""Shapes that words name where a row gives only sides: a flat bar is taken, a ring or disc is told of."""

from __future__ import annotations

import re

import numpy as np

from estimator.problems import cut_list as said
from estimator.read.list_columns import ColumnReader
from estimator.read.list_pieces import Pieces
from estimator.read.section_words import DISC, FLAT, PLATE, RING, form_of, words_for
from estimator.read.text import plain_text
from estimator.words import BLANK, MadeFrom, Shape

__all__ = ["shapes_in_words"]

_TRIANGLE = re.compile(r"triang|dreieck|triáng|triâng|trójkąt|треуг|косын|三角")
_FLAT_WORD = re.compile(r"(?<![^\W\d_])flats?(?![^\W\d_])")
_SHAPES = {RING: "a ring", DISC: "a disc", "triangle": "a triangle"}
_TYPED = {
    RING: "type ring under Shape, and its diameters under Size A and Size B",
    DISC: "type disc under Shape, and its diameter under Size A",
    "triangle": "type right triangle under Shape, if it is one",
}


def shapes_in_words(reader: ColumnReader, pieces: Pieces) -> None:
    """Set the words of a description beside sides that stand in columns of their own.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    pieces : Pieces
        Shaped rows; a flat bar is filled in here.

    Notes
    -----
    Sides in a size string are read with the words beside them; sides in columns are a rectangle's, whatever the words
    say. A flat bar is cut across only, which its width allows; a ring's two sides could be anything, so it is said.
    Source: common practice, no source.
    """
    sides = (pieces.shape == Shape.RECTANGLE) | ((pieces.shape == BLANK) & ~np.isnan(pieces.length_mm))
    typed = reader.texts("shape")
    lines = [n for n in np.flatnonzero(sides & ~pieces.refused).tolist() if n not in pieces.sized and not typed[n]]
    for name in reader.alike("description") if lines else ():
        cells = reader.values(name) or []
        forms = {text: _form(text) for text in {c for c in cells if type(c) is str}}
        for line in lines:
            text = cells[line]
            form = forms.get(text) if type(text) is str else None
            if form == FLAT and pieces.made_from[line] == BLANK and not np.isnan(pieces.width_mm[line]):
                pieces.made_from[line] = MadeFrom.FLAT
                reader.say(
                    said.FLAT_FROM_WORDS, line, name, text, what=_what(name), width=f"{pieces.width_mm[line]:.6g} mm"
                )
            elif form in _SHAPES:
                read_as = "a rectangle" if pieces.shape[line] == Shape.RECTANGLE else "a straight cut"
                fields = {"what": _what(name), "says": _SHAPES[form], "read_as": read_as, "do": _TYPED[form]}
                reader.say(said.SHAPE_NOT_TAKEN, line, name, text, **fields)


def _what(name: str) -> str:
    return name.partition(" ")[0]


def _form(text: str) -> str | None:
    """Return flat, ring, disc or triangle where words say so; a flat plate is a plate."""
    folded = plain_text(text).lower()
    form = form_of(folded) if words_for(RING, DISC, FLAT).search(folded) else None
    if form == FLAT:
        return None if form_of(_FLAT_WORD.sub("", folded)) == PLATE else FLAT
    if form in {RING, DISC}:
        return str(form)
    return "triangle" if _TRIANGLE.search(folded) else None
