"""Whole sizes that stand in the column of thicknesses: a flat's thickness and width, its length in another cell."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np

from estimator.read.lengths import Length, read_length
from estimator.read.list_columns import ColumnReader
from estimator.read.list_lengths import in_mm
from estimator.read.list_units import BareUnit
from estimator.read.numbers import Refused
from estimator.read.pieces import Pieces
from estimator.read.section_words import PLATE
from estimator.read.size import Size
from estimator.words import Shape

__all__ = ["size_under_thickness"]

_AGREE = 0.01
"""Share by which a width said twice may differ."""


def size_under_thickness(
    reader: ColumnReader, pieces: Pieces, line: int, size: Size, form: str | Shape | None, bare: BareUnit
) -> Size | Refused:
    """Return what a whole size under the heading of thicknesses says, with the length that the row gives elsewhere.

    Parameters
    ----------
    reader : ColumnReader
        The table.
    pieces : Pieces
        What the columns of lengths gave.
    line : int
        The row.
    size : Size
        The cell as it reads alone.
    form : str, Shape or None
        What the row's other words say that it is.
    bare : BareUnit
        Unit of bare numbers.

    Returns
    -------
    Size or Refused
        Two figures are a thickness and a width where the row has one length besides; else why they are not.

    Notes
    -----
    The smaller figure is the thickness. A piece of a bar is cut across it, unless a word says plate. Source: common
    practice, no source.
    """
    if _other_sides(reader, line, size, bare):
        return Refused("it gives sides, and the size of the row gives others")
    length = _length_beside(reader, line)
    if size.thickness is not None:
        own = size.shape in {None, Shape.RECTANGLE} and size.a is None and np.isnan(pieces.length_mm[line])
        return replace(size, a=length) if own and length is not None else size
    if size.shape is not Shape.RECTANGLE or size.a is None or size.b is None:
        return size
    width, own_width = in_mm(size.a, bare), pieces.width_mm[line]
    if not np.isnan(own_width) and abs(width - own_width) > _AGREE * own_width:
        return Refused("it gives a thickness and a width, and the row another width")
    if length is None and np.isnan(pieces.length_mm[line]):
        return Refused("two figures are no thickness, and no other cell of the row is the length of a flat")
    remark = "the two figures are its thickness and its width"
    remark += ", and the size is its length" if length is not None else ""
    flat = form != PLATE
    return Size(None, size.b, length, size.a, flat=flat, plain=False, remark=remark)


def _length_beside(reader: ColumnReader, line: int) -> Length | None:
    """Return the one length that the row's size is, a bare number too; None where it is more or none."""
    value = (reader.values("size") or [None] * len(reader))[line]
    if isinstance(value, float):
        return Length(Fraction(str(value))) if value > 0 else None
    read = read_length(value, reader.decimal, reader.gauges_in) if isinstance(value, str) else None
    return read if isinstance(read, Length) and read.label in {"", "length"} else None


def _other_sides(reader: ColumnReader, line: int, size: Size, bare: BareUnit) -> bool:
    """Return whether the row's size gives two sides that the size under thickness does not hold."""
    value = (reader.values("size") or [None] * len(reader))[line]
    other = reader.size_of(value) if isinstance(value, str) and size.b is not None else None
    if not isinstance(other, Size) or other.a is None or other.b is None:
        return False
    held = [in_mm(d, bare) for d in (size.thickness, size.a, size.b) if d is not None]
    sides = [in_mm(d, bare) for d in (other.a, other.b)]
    return not all(any(abs(side - one) <= _AGREE * one for one in held) for side in sides)
