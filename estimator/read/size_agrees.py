"""Whether a size string agrees with what the other cells of its row say."""

from __future__ import annotations

import numpy as np

from estimator.problems import cut_list as said
from estimator.read.cells import CellValue
from estimator.read.lengths import Length
from estimator.read.list_columns import ColumnReader, shown
from estimator.read.list_lengths import in_mm
from estimator.read.list_units import BareUnit, said_in
from estimator.read.pieces import Pieces
from estimator.read.size import Size
from estimator.words import Shape

__all__ = ["fits_row", "fractions_in_metric_list"]


def fractions_in_metric_list(lengths: list[Length], bare: BareUnit) -> bool:
    """Return whether a fraction stands beside bare whole numbers in a list that itself says millimetres."""
    mixed = any(d.is_fraction for d in lengths) and any(not d.is_fraction and d.unit == "in" for d in lengths)
    large = any(d.unit == "in" and not d.is_fraction and d.value > 48 for d in lengths)
    return mixed and large and bare.sure and bare.unit in {"mm", "cm", "m"}


def fits_row(
    reader: ColumnReader, pieces: Pieces, line: int, name: str, value: CellValue, size: Size, bare: BareUnit
) -> bool:
    """Return whether a size agrees with the row's own thickness and length; else report it."""
    own = pieces.thickness_mm[line]
    if size.thickness is not None and not np.isnan(own) and name != "thickness_mm":
        given = in_mm(size.thickness, bare)
        if abs(given - own) > 0.02 * own and not _one_of_three(pieces, line, size, bare):
            first, second = f"a thickness of {said_in(bare, own)}", f"the size {shown(value)!r}"
            reader.say(said.SIZES_DISAGREE, line, name, value, first=first, second=second)
            return False
    length, width = pieces.length_mm[line], pieces.width_mm[line]
    if name == "length" and size.shape == Shape.DISC and size.a is not None and not np.isnan(width):
        outside = in_mm(size.a, bare)
        if abs(width - outside) > 0.01 * outside:
            first, second = f"the diameter {shown(value)!r}", f"a width of {said_in(bare, width)}"
            reader.say(said.SIZES_DISAGREE, line, name, value, first=first, second=second)
            return False
    if size.shape == Shape.RECTANGLE and size.a is not None and size.b is not None and not np.isnan(length):
        sides = [in_mm(d, bare) for d in (size.a, size.b)]
        if not any(abs(side - length) <= 0.01 * length for side in sides):
            first, second = f"a length of {said_in(bare, length)}", f"the size {shown(value)!r}"
            reader.say(said.SIZES_DISAGREE, line, name, value, first=first, second=second)
            return False
        if np.isnan(pieces.width_mm[line]) and abs(sides[0] - length) > 0.01 * length:
            pieces.width_mm[line], pieces.length_mm[line] = sides[1], sides[0]
    return True


def _one_of_three(pieces: Pieces, line: int, size: Size, bare: BareUnit) -> bool:
    """Take the row's own thickness out of three sizes when it is one of the larger two."""
    if size.a is None or size.b is None or size.thickness is None:
        return False
    own = pieces.thickness_mm[line]
    three = [in_mm(d, bare) for d in (size.thickness, size.a, size.b)]
    near = [side for side in three if abs(side - own) <= 0.02 * own]
    if len(near) != 1:
        return False
    three.remove(near[0])
    if np.isnan(pieces.length_mm[line]) and np.isnan(pieces.width_mm[line]):
        pieces.length_mm[line], pieces.width_mm[line] = max(three), min(three)
    return True
