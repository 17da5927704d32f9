"""Piece geometry: from a shape and its sizes to the metres that are burnt, the edges that are left, and the starts.

What scales with the number of passes is held per piece; what a row of shared cuts adds once is held apart, so that
metres and starts stay straight lines in the quantity.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.words import Shape

__all__ = ["Outline", "circle_length_mm", "outline_area_mm2", "plate_outline", "restarts"]

Floats = NDArray[np.float64]


@dataclass(slots=True)
class Outline:
    """What n lines burn, before holes: shape (n,) each."""

    long_mm: Floats
    """Straight metres in runs of the short-cut limit and over, per piece [mm]."""
    short_mm: Floats
    """Straight metres in shorter runs, per piece [mm]."""
    circle_mm: Floats
    """Circles, per piece [mm]."""
    sides: Floats
    """Straight sides, each a start by hand, per piece."""
    side_restarts: Floats
    """Further starts by hand where a side is longer than one reach, per piece."""
    outlines: Floats
    """Closed outlines or single cuts, each a start when guided by template or track, per piece."""
    pierces: Floats
    """Pierces of the shape itself (the inside of a ring), per piece."""
    circles: Floats
    """Circles burnt, per piece."""
    circle_sizes: Floats
    """Circle guide settings of the line, once."""
    once_mm: Floats
    """What a row of shared cuts adds once, in runs of ``once_run_mm`` [mm]."""
    once_run_mm: Floats
    once_longest_mm: Floats
    """The longest of those runs, which says whether they are short [mm]."""
    once_starts: Floats
    edge_mm: Floats
    """Burnt edge of one piece [mm]: what is cleaned and ground."""


def restarts(run_mm: ArrayLike, reach_mm: float) -> Floats:
    """Return the further starts by hand on runs longer than one reach.

    Parameters
    ----------
    run_mm : array_like of float, any shape
        Length of each run, zero or above [mm].
    reach_mm : float
        Length cut from one start, above zero [mm].

    Returns
    -------
    ndarray of float, same shape
        ``ceil(run / reach) - 1``, zero for an empty run.

    Raises
    ------
    ValueError
        When the reach is not above zero.

    Notes
    -----
    Source: common practice, no source (a fresh start each 0.5 to 0.7 m of reach).

    Examples
    --------
    >>> restarts([0.0, 600.0, 1000.0], 600.0)
    array([0., 0., 1.])
    """
    if reach_mm <= 0:
        raise ValueError(f"reach must be above zero, got {reach_mm}")
    goes = np.ceil(np.round(np.asarray(run_mm, dtype=np.float64) / reach_mm, 9))
    return np.maximum(goes - 1.0, 0.0)


def circle_length_mm(diameter_mm: ArrayLike) -> Floats:
    """Return the length of circles, kerf offset ignored.

    Parameters
    ----------
    diameter_mm : array_like of float, any shape
        Diameters, zero or above [mm].

    Returns
    -------
    ndarray of float, same shape
        ``π d`` [mm].

    Notes
    -----
    Source: geometry.

    Examples
    --------
    >>> circle_length_mm([400.0, 250.0]).round(1)
    array([1256.6,  785.4])
    """
    return np.pi * np.asarray(diameter_mm, dtype=np.float64)


def outline_area_mm2(shape: NDArray[np.int8], size_a_mm: Floats, size_b_mm: Floats) -> Floats:
    """Return the face area of plate pieces, holes not taken off.

    Parameters
    ----------
    shape : ndarray of int8, shape (n,)
        Codes of ``estimator.words.Shape``.
    size_a_mm, size_b_mm : ndarray of float, shape (n,)
        Sizes [mm].

    Returns
    -------
    ndarray of float, shape (n,)
        Area [mm²]; NaN for shapes that are not plate pieces.

    Notes
    -----
    A ring is its outside disc less its hole. Source: geometry.

    Examples
    --------
    >>> outline_area_mm2(np.array([0, 3], dtype=np.int8), np.array([200.0, 150.0]), np.array([100.0, 150.0]))
    array([20000., 11250.])
    """
    a, b = size_a_mm, size_b_mm
    area = np.full(len(shape), np.nan)
    for codes, value in (
        ((Shape.RECTANGLE, Shape.STRIP), a * b),
        ((Shape.RIGHT_TRIANGLE,), a * b / 2),
        ((Shape.DISC,), np.pi * a**2 / 4),
        ((Shape.RING,), np.pi * (a**2 - b**2) / 4),
    ):
        area = np.where(np.isin(shape, codes), value, area)
    return area


def plate_outline(
    shape: NDArray[np.int8],
    size_a_mm: Floats,
    size_b_mm: Floats,
    *,
    mill_sides: Floats,
    mill_ends: Floats,
    shared: NDArray[np.bool_],
    passes: Floats,
    short_under_mm: float,
    reach_mm: float,
) -> Outline:
    """Return what each plate shape burns.

    Parameters
    ----------
    shape : ndarray of int8, shape (n,)
        Codes of ``estimator.words.Shape``; other shapes give zeros.
    size_a_mm, size_b_mm : ndarray of float, shape (n,)
        Sizes: a along the row of pieces and b across it for a rectangle or strip, legs of a right triangle, diameter
        of a disc, outside and inside diameter of a ring, width of a bar whose end is cut [mm].
    mill_sides, mill_ends : ndarray of float, shape (n,)
        Long edges and ends of the row that the mill has made, 0 to 2.
    shared : ndarray of bool, shape (n,)
        Whether neighbours share a cut.
    passes : ndarray of float, shape (n,)
        Pieces in the row (stacks count once).
    short_under_mm : float
        A straight run under this is short [mm].
    reach_mm : float
        Length cut by hand from one start [mm].

    Returns
    -------
    Outline
        Lengths, starts and edges.

    Notes
    -----
    A row of n equal rectangles that share cuts takes n + 1 cross cuts less the ends the mill has made, and its
    long sides once (definitions, "Cut metres are not edge metres"). Right triangles that share cuts are cut in pairs
    out of a row of rectangles: a cross cut and a diagonal for two pieces. A flat is a row whose two long sides and one
    end are the mill's. Pieces that do not share each take all their sides that the mill has not made. A mill end
    belongs to the row; a piece cut singly is a row of one. So one mill end takes one cross cut a piece either way, and
    two mean pieces as long as the bar when cut singly, one bar with its two ends when they share cuts.
    """
    n = len(shape)
    zero = np.zeros(n)
    out = Outline(*(zero.copy() for _ in range(14)))
    a, b = np.nan_to_num(size_a_mm), np.nan_to_num(size_b_mm)
    hypotenuse = np.hypot(a, b)
    sides_left = 2.0 - mill_sides
    ends_left = np.where(shared, 1.0, 2.0 - mill_ends)

    rectangle = np.isin(shape, (Shape.RECTANGLE, Shape.STRIP))
    triangle = shape == Shape.RIGHT_TRIANGLE
    bar_end = shape == Shape.BAR_END
    disc, ring = shape == Shape.DISC, shape == Shape.RING

    # One piece: how often each straight run is burnt.
    triangle_sides = np.where(shared, sides_left / 2.0, 1.0 - np.minimum(mill_sides, 1.0))
    halved = np.where(shared, 0.5, 1.0)
    runs = (
        (a, np.where(rectangle, sides_left, np.where(triangle, triangle_sides, np.where(bar_end, 1.0, 0.0)))),
        (b, np.where(rectangle, ends_left, np.where(triangle, halved, 0.0))),
        (hypotenuse, np.where(triangle, halved, 0.0)),
    )
    for run, count in runs:
        count = np.where(run > 0, count, 0.0)
        short = run < short_under_mm
        out.short_mm += np.where(short, run * count, 0.0)
        out.long_mm += np.where(short, 0.0, run * count)
        out.sides += count
        out.side_restarts += count * restarts(run, reach_mm)
    out.edge_mm = _edges(rectangle, triangle, bar_end, a, b, hypotenuse, mill_sides, mill_ends, shared)

    # A row: n cuts stand in the pieces; the row adds one and saves what the mill has made. An odd triangle at the end
    # of a row has a diagonal of its own and no further cross cut.
    row = (rectangle | triangle) & shared & (passes > 0)
    odd = triangle & shared & (np.mod(passes, 2.0) == 1.0)
    cross = np.where(row, 1.0 - np.where(odd, np.minimum(mill_ends, 1.0), mill_ends), 0.0) - np.where(odd, 0.5, 0.0)
    out.once_run_mm = np.where(row, b, 0.0)
    out.once_longest_mm = np.where(odd, hypotenuse, out.once_run_mm)
    out.once_mm = cross * out.once_run_mm + np.where(odd, hypotenuse / 2, 0.0)
    out.once_starts = cross + np.where(odd, 0.5, 0.0)

    out.circle_mm = np.where(disc, circle_length_mm(a), np.where(ring, circle_length_mm(a) + circle_length_mm(b), 0.0))
    out.edge_mm = out.edge_mm + out.circle_mm
    out.circles = np.where(disc, 1.0, np.where(ring, 2.0, 0.0))
    out.circle_sizes = out.circles.copy()
    out.pierces = np.where(ring, 1.0, 0.0)
    out.outlines = np.where(rectangle | triangle | bar_end | disc | ring, 1.0, 0.0)
    return out


def _edges(
    rectangle: NDArray[np.bool_],
    triangle: NDArray[np.bool_],
    bar_end: NDArray[np.bool_],
    a: Floats,
    b: Floats,
    hypotenuse: Floats,
    mill_sides: Floats,
    mill_ends: Floats,
    shared: NDArray[np.bool_],
) -> Floats:
    """Return the straight burnt edge of one piece: a shared cut leaves an edge on both neighbours."""
    ends = np.where(shared, 2.0, 2.0 - mill_ends)
    return np.where(
        rectangle,
        a * (2.0 - mill_sides) + b * ends,
        np.where(triangle, a * (1.0 - np.minimum(mill_sides, 1.0)) + b + hypotenuse, np.where(bar_end, a, 0.0)),
    )
