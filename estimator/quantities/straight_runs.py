"""The straight sides of plate pieces: how often each is burnt, by every piece and once by a row that shares cuts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.words import Shape

__all__ = ["StraightRuns", "straight_runs"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class StraightRuns:
    """Runs of one length each, shape (3, n): along the row, across it, and the diagonal of a triangle."""

    run_mm: Floats
    """Length of the run [mm]."""
    cuts_each: Floats
    """How often each piece burns it; half for a cut that two pieces share."""
    cuts_once: Floats
    """What the row adds once: one more cut, less the ends that the mill has made."""
    edges_each: Floats
    """Burnt edges that it leaves on each piece; a shared cut leaves one on both neighbours."""


def straight_runs(
    shape: NDArray[np.int8],
    size_a_mm: Floats,
    size_b_mm: Floats,
    *,
    mill_sides: Floats,
    mill_ends: Floats,
    shared: NDArray[np.bool_],
    passes: Floats,
) -> StraightRuns:
    """Return the straight runs of n lines.

    Parameters
    ----------
    shape : ndarray of int8, shape (n,)
        Codes of ``estimator.words.Shape``; shapes without straight sides count none.
    size_a_mm, size_b_mm : ndarray of float, shape (n,)
        Along the row of pieces and across it; legs of a right triangle; width of a bar whose end is cut [mm].
    mill_sides, mill_ends : ndarray of float, shape (n,)
        Long edges and ends of the row that the mill has made, 0 to 2.
    shared : ndarray of bool, shape (n,)
        Whether neighbours share a cut.
    passes : ndarray of float, shape (n,)
        Pieces in the row (stacks count once).

    Returns
    -------
    StraightRuns
        Shape (3, n) each.

    Notes
    -----
    A row of n equal rectangles that share cuts takes n + 1 cross cuts less the ends the mill has made, and its
    long sides once (definitions, "Cut metres are not edge metres"). Right triangles that share cuts are cut in pairs
    out of a row of rectangles: a cross cut and a diagonal for two pieces. A flat is a row whose two long sides and one
    end are the mill's. Pieces that do not share each take all their sides that the mill has not made. A mill end
    belongs to the row; a piece cut singly is a row of one. So one mill end takes one cross cut a piece either way, and
    two mean pieces as long as the bar when cut singly, one bar with its two ends when they share cuts.
    """
    a, b = np.nan_to_num(size_a_mm), np.nan_to_num(size_b_mm)
    rectangle = np.isin(shape, (Shape.RECTANGLE, Shape.STRIP))
    triangle, bar_end = shape == Shape.RIGHT_TRIANGLE, shape == Shape.BAR_END
    zero = np.zeros(len(shape))
    halved = np.where(shared, 0.5, 1.0)
    legs_left = 1.0 - np.minimum(mill_sides, 1.0)
    triangle_legs = np.where(shared, (2.0 - mill_sides) / 2.0, legs_left)
    ends_each = np.where(shared, 1.0, 2.0 - mill_ends)
    # A row: n cuts stand in the pieces; the row adds one and saves what the mill has made. An odd triangle at the end
    # of a row has a diagonal of its own and no further cross cut.
    row = (rectangle | triangle) & shared & (passes > 0)
    odd = row & triangle & (np.mod(passes, 2.0) == 1.0)
    row_ends = np.where(odd, 0.5 - np.minimum(mill_ends, 1.0), 1.0 - mill_ends)
    run_mm = np.stack([a, b, np.hypot(a, b)])
    is_there = np.where(run_mm > 0, 1.0, 0.0)

    def by_shape(of_rectangle: Floats, of_triangle: Floats, of_bar: float) -> Floats:
        return np.where(rectangle, of_rectangle, np.where(triangle, of_triangle, np.where(bar_end, of_bar, 0.0)))

    along = by_shape(2.0 - mill_sides, triangle_legs, 1.0)
    across = by_shape(ends_each, halved, 0.0)
    return StraightRuns(
        run_mm,
        is_there * np.stack([along, across, by_shape(zero, halved, 0.0)]),
        is_there * np.stack([zero, np.where(row, row_ends, 0.0), np.where(odd, 0.5, 0.0)]),
        is_there
        * np.stack(
            [
                by_shape(2.0 - mill_sides, legs_left, 1.0),
                by_shape(np.where(shared, 2.0, 2.0 - mill_ends), zero + 1.0, 0.0),
                by_shape(zero, zero + 1.0, 0.0),
            ]
        ),
    )
