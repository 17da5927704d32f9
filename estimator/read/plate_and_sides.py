"""A plate's thickness set apart from its two sides, as ``PL20 - 300x300`` or ``1/4" plate 6" x 8"``."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from estimator.read.lengths import Gauges, Length, read_length
from estimator.read.numbers import Refused
from estimator.read.size import Size
from estimator.words import Shape

__all__ = ["plate_and_sides"]

_NUMBERED = re.compile(r"(?<![^\W\d_])plates? ?(?:no\.?|nr\.?|#)? ?$")
"""A bare figure behind the whole word may be the plate's number."""
MOST_THICKNESS_MM = 200


def plate_and_sides(
    bare: str,
    groups: list[tuple[int, int, int]],
    read_run: Callable[[str], list[Length] | Refused],
    *,
    decimal: str | None,
    gauges_in: Gauges | None,
) -> Size | None:
    """Read a text that names a plate and holds one figure and two sides.

    Parameters
    ----------
    bare : str
        A folded text whose words say plate.
    groups : list of tuple of int
        Start, end and number of figures of each group in it.
    read_run : callable
        Reads the figures of one group.
    decimal : {".", ",", None}
        Decimal mark that the list gives evidence of.
    gauges_in : mapping of int to Fraction, optional
        Thickness of each sheet gauge [in].

    Returns
    -------
    Size or None
        None where the one figure is no smaller than the sides, or may number the plate.
    """
    if sorted(many for *_, many in groups) != [1, 2]:
        return None
    (start, end, _), (first, last, _) = sorted(groups, key=lambda group: group[2])
    thick, sides = read_length(bare[start:end], decimal, gauges_in), read_run(bare[first:last])
    if isinstance(thick, Refused) or isinstance(sides, Refused) or thick.label not in {"", "thickness"}:
        return None
    sure = thick.unit is not None or thick.is_fraction or thick.label or not _NUMBERED.search(bare[:start])
    if thick.is_fraction and thick.unit is None:
        thick = replace(thick, unit="in")
    unit = sides[0].unit
    thick = replace(thick, unit=thick.unit or unit)
    sides = [replace(side, unit=side.unit or thick.unit) for side in sides]
    if not sure or thick.in_mm() >= min(side.in_mm() for side in sides) or thick.in_mm() > MOST_THICKNESS_MM:
        return None
    if thick.unit != sides[0].unit and thick.unit != "in":
        return None
    a, b = sorted(sides, key=Length.in_mm, reverse=True)
    remark = "the figure by itself is read as the thickness"
    return Size(Shape.RECTANGLE, thick, a, b, plain=False, remark=remark)
