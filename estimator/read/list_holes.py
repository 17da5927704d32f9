"""Holes that the words of a row name: read where its hole columns are blank, or said where they are not counted."""

from __future__ import annotations

import re
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from estimator.problems import cut_list as said
from estimator.problems import list_words as said_words
from estimator.read.cells import CellValue
from estimator.read.hole_words import MOST_ALONE, Holes, holes_of_note, speaks_of_holes, take_holes, without_hole_signs
from estimator.read.list_columns import ColumnReader
from estimator.read.list_lengths import in_mm
from estimator.read.list_units import BareUnit
from estimator.read.section_words import DISC, RING, form_of
from estimator.read.text import LONGEST, plain_text
from estimator.words import BLANK

__all__ = ["holes_in_words", "take_hole"]

Floats = NDArray[np.float64]
_MAY_HOLE = re.compile(
    r"[Øø⌀φ]|hol|hl|dia|bohr|l[oö]ch|trou|aguj|talad|furo|for[oi]|otw|отв|孔|lỗ|slot|langl|tapp|thread|gewinde"
    r"|(?:[x×*-]|off|no\.?) ?m[0-9]",
    re.IGNORECASE,
)
"""What every text that names holes, slots or threads holds."""

_PLAIN_MARK = re.compile("(?!(?i:hl))[A-Za-z]{0,2}-?[0-9]{1,9}")
"""A mark as most are, as ``P12``: it names no hole, and a long list is read faster without looking closer."""


_COUNT_AND_SIZE = re.compile(
    r"(?:\([0-9]{1,2}\)|[0-9]{1,2} ?(?:x|×|@|off|no\.?)) ?"
    r"(?:[0-9]+[ -])?(?:[0-9]+/[0-9]+ ?(?:\"|in)?|[0-9.,]+ ?(?:mm|\"|in))"
    r"|[Øø] ?[0-9.,/]+ ?(?:mm|\"|in)? ?[x×] ?[0-9]{1,2}"
)
_LONGEST_COUNT = 24
_LEAST_MM = 3.0
"""A hole is no smaller: a figure below it counts something else."""
_SPEAKS = "speaks of holes, slots or threads"
_MAY_BE = "is a count and a size, perhaps of holes,"


class HoledPieces(Protocol):
    """Pieces whose holes can be filled in."""

    shape: NDArray[np.int8]
    thickness_mm: Floats
    cut_length_mm: Floats
    holes: Floats
    hole_diameter_mm: Floats
    length_mm: Floats
    width_mm: Floats
    refused: NDArray[np.bool_]


def take_hole(
    reader: ColumnReader, pieces: HoledPieces, line: int, name: str, holes: Holes, diameter_mm: float
) -> bool:
    """Put holes into a row, unless its own columns say other ones; return whether the row still stands."""
    count, own_mm = pieces.holes[line], pieces.hole_diameter_mm[line]
    value = (reader.values(name) or [None])[line] if reader.values(name) else None
    if (count > 0 and count != holes.count) or abs(own_mm - diameter_mm) > 0.05:
        own = f"{count:g} holes" if count > 0 else f"a hole of {own_mm:g} mm"
        first, second = f"{own} in a column of its own", f"{str(value)!r}"
        reader.say(said.SIZES_DISAGREE, line, name, value, first=first, second=second)
        pieces.refused[line] = True
        return False
    if _too_large(pieces, line, diameter_mm):
        first, second = f"a hole of {diameter_mm:.6g} mm", "the sides of the piece"
        reader.say(said.SIZES_DISAGREE, line, name, value, first=first, second=second)
        pieces.refused[line] = True
        return False
    pieces.holes[line], pieces.hole_diameter_mm[line] = holes.count, diameter_mm
    return True


def _too_large(pieces: HoledPieces, line: int, diameter_mm: float) -> bool:
    """Return whether a hole is as wide as a side of its piece."""
    return bool(diameter_mm >= np.fmin(pieces.length_mm[line], pieces.width_mm[line]))


def holes_in_words(reader: ColumnReader, pieces: HoledPieces, bare: BareUnit, cutting: NDArray[np.bool_]) -> None:
    """Read the holes that a description or a size beside its own columns names, and say which are not counted.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    pieces : HoledPieces
        What was read so far; filled here.
    bare : BareUnit
        Unit of bare numbers in size strings.
    cutting : ndarray of bool
        Rows that are cut.
    """
    for name in ("size", "description", "material", "mark", "note"):
        values = reader.values(name) or []
        texts = {value for value in values if type(value) is str}
        folded = _folded_with_figures(texts) if _MAY_HOLE.search("\n".join(texts)) else {}
        for line, value in enumerate(values) if folded else ():
            if type(value) is not str or value not in folded or not cutting[line] or pieces.refused[line]:
                continue
            if not (pieces.holes[line] > 0 and pieces.hole_diameter_mm[line] > 0):
                _from_words(reader, pieces, line, name, value, folded[value], bare)
    _say_counts_and_sizes(reader, pieces, cutting)


def _folded_with_figures(texts: set[str]) -> dict[str, str]:
    """Return the texts that hold figures and may name holes, each in plain spelling and small letters."""
    read = (text for text in texts if len(text) <= LONGEST and not _PLAIN_MARK.fullmatch(text))
    folded = ((text, plain_text(text).casefold().replace("ø", "Ø").replace("φ", "Ø")) for text in read)
    return {text: plain for text, plain in folded if any(map(str.isdigit, plain))}


def _from_words(
    reader: ColumnReader, pieces: HoledPieces, line: int, name: str, value: str, folded: str, bare: BareUnit
) -> None:
    """Read the holes of one text; those of a note only where it leaves no doubt that they are made in the piece."""
    rest, holes = take_holes(folded, reader.decimal, sized=True)
    alone = name == "note" and isinstance(holes, Holes) and not rest and holes.count > 1
    if (holes is None and not speaks_of_holes(folded)) or (
        form_of(without_hole_signs(folded)) in {DISC, RING} and not alone
    ):
        return
    if alone and isinstance(holes, Holes) and _may_be_a_disc(pieces, line, holes):
        holes = None
    elif name == "note":
        holes = holes_of_note(folded, reader.decimal) if _has_a_shape(pieces, line) else None
    named = isinstance(holes, Holes) and (holes.diameter.unit or holes.diameter.is_fraction or bare.unit)
    if isinstance(holes, Holes) and named:
        mm = in_mm(holes.diameter, bare)
        if _too_large(pieces, line, mm) or mm < _LEAST_MM:
            reader.say(said_words.HOLES_NOT_COUNTED, line, name, value, what=name, says=_SPEAKS)
        elif take_hole(reader, pieces, line, name, holes, mm):
            reader.note(line, name, value, f"{holes.count} x Ø {mm:.6g} mm", "holes")
            reader.say(said_words.HOLES_READ_AS, line, name, value, what=name, read_as=f"{holes.count} of {mm:.6g} mm")
    else:
        reader.say(said_words.HOLES_NOT_COUNTED, line, name, value, what=name, says=_SPEAKS)


def _may_be_a_disc(pieces: HoledPieces, line: int, holes: Holes) -> bool:
    """Return whether a count and a diameter may as well be a thickness and a diameter."""
    return bool(holes.count > MOST_ALONE or holes.count == pieces.thickness_mm[line])


def _has_a_shape(pieces: HoledPieces, line: int) -> bool:
    """Return whether a row is a piece by itself, so that a note can speak of holes in it."""
    return bool(pieces.shape[line] != BLANK or not np.isnan(pieces.cut_length_mm[line]))


def _say_counts_and_sizes(reader: ColumnReader, pieces: HoledPieces, cutting: NDArray[np.bool_]) -> None:
    """Tell of notes that are a count and a size and nothing more, as *(4) 22 mm*: they may be holes."""
    texts = {value: bool(_COUNT_AND_SIZE.fullmatch(plain_text(value))) for value in _short(reader.values("note"))}
    for line, value in enumerate(reader.values("note") or [] if any(texts.values()) else ()):
        if (
            type(value) is str
            and texts.get(value)
            and cutting[line]
            and not pieces.refused[line]
            and not pieces.holes[line] > 0
        ):
            reader.say(said_words.HOLES_NOT_COUNTED, line, "note", value, what="note", says=_MAY_BE)


def _short(values: list[CellValue] | None) -> set[str]:
    return {value for value in values or [] if type(value) is str and len(value) <= _LONGEST_COUNT}
