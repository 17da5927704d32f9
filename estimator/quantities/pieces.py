"""Piece geometry: from a shape and its sizes to the metres that are burnt, the edges that are left, and the starts.

What scales with the number of passes is held per piece; what a row of shared cuts adds once is held apart, so that
metres and starts stay straight lines in the quantity.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.quantities.straight_runs import StraightRuns, straight_runs
from estimator.words import Shape

__all__ = ["Outline", "circle_length_mm", "go_mm", "outline_area_mm2", "plate_outline", "restarts"]

Floats = NDArray[np.float64]
_OUTLINES = (Shape.RECTANGLE, Shape.STRIP, Shape.RIGHT_TRIANGLE, Shape.BAR_END, Shape.DISC, Shape.RING)


@dataclass(slots=True)
class Outline:
    """What n lines burn, before holes: shape (n,) each."""

    long_mm: Floats
    """Straight metres made in goes of the short-cut limit and over, per piece [mm]."""
    short_mm: Floats
    """Straight metres made in shorter goes, per piece [mm]."""
    circle_mm: Floats
    """Circles, per piece [mm]."""
    sides: Floats
    """Straight sides, each a start by hand, per piece."""
    side_restarts: Floats
    """Further starts by hand, one for each reach of a side, per piece."""
    outlines: Floats
    """Closed outlines or single cuts, each a start when guided by template or track, per piece."""
    pierces: Floats
    """Pierces of the shape itself (the inside of a ring), per piece."""
    circles: Floats
    """Circles burnt, per piece."""
    circle_sizes: Floats
    """Circle guide settings of the line, once."""
    once_long_mm: Floats
    """What a row of shared cuts adds once, in goes of the short-cut limit and over [mm]."""
    once_short_mm: Floats
    """The same in shorter goes [mm]."""
    once_starts: Floats
    """Starts by hand of what is added once, further ones among them."""
    once_sides: Floats
    """Straight cuts that are added once."""
    edge_mm: Floats
    """Burnt edge of one piece [mm]: what is cleaned and ground."""
    once_edge_mm: Floats
    """Edges of the row that the mill has made, below zero [mm]."""


def restarts(run_mm: ArrayLike, reach_mm: ArrayLike) -> Floats:
    """Return the further starts by hand on runs: one more for each reach.

    Parameters
    ----------
    run_mm : array_like of float, any shape
        Length of each run, zero or above [mm].
    reach_mm : array_like of float, same shape or scalar
        Length for which the hand starts once more, above zero; infinite where nothing ends a go [mm].

    Returns
    -------
    ndarray of float, same shape
        ``floor(run / reach)``.

    Raises
    ------
    ValueError
        When a reach is not above zero.

    Notes
    -----
    "One per straight side, one more for each 0.6 m of reach": a side of 0.6 m has two starts, one of 1.2 m three.
    Source: common practice, no source (a fresh start each 0.5 to 0.7 m of reach).

    Examples
    --------
    >>> restarts([0.0, 550.0, 600.0, 1200.0], 600.0)
    array([0., 0., 1., 2.])
    """
    reach = np.asarray(reach_mm, dtype=np.float64)
    if np.any(reach <= 0):
        raise ValueError(f"reach must be above zero, got {reach[reach <= 0].ravel()[0]}")
    return np.asarray(np.floor(np.round(np.asarray(run_mm, dtype=np.float64) / reach, 9)))


def go_mm(run_mm: ArrayLike, reach_mm: ArrayLike) -> Floats:
    """Return how long each go is: the run between two starts.

    Parameters
    ----------
    run_mm : array_like of float, any shape
        Length of each run, zero or above [mm].
    reach_mm : array_like of float, same shape or scalar
        Length for which the hand starts once more, above zero [mm].

    Returns
    -------
    ndarray of float, same shape
        The run over its starts, in even goes [mm].

    Notes
    -----
    Source: definition; a go under half a metre runs slower by hand.

    Examples
    --------
    >>> go_mm([550.0, 600.0, 1200.0], 600.0)
    array([550., 300., 400.])
    """
    run = np.asarray(run_mm, dtype=np.float64)
    return np.asarray(run / (1.0 + restarts(run, reach_mm)))


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
    reach_mm: ArrayLike,
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
        A straight go under this is short [mm].
    reach_mm : array_like of float, shape (n,) or scalar
        Length for which the hand starts once more; infinite where it does not [mm].

    Returns
    -------
    Outline
        Lengths, starts and edges.

    Notes
    -----
    The straight sides are those of ``straight_runs``; each is made in even goes, one for each start, and a go under the
    limit is a short one. Source: definitions of the project's method, ``docs/method.md``.
    """
    here = np.flatnonzero(np.isin(shape, _OUTLINES))
    per_line = (size_a_mm, size_b_mm, mill_sides, mill_ends, passes, np.broadcast_to(reach_mm, shape.shape))
    a, b, sides, ends, pieces, reach = (column[here] for column in per_line)
    runs = straight_runs(shape[here], a, b, mill_sides=sides, mill_ends=ends, shared=shared[here], passes=pieces)
    outline = _outline(shape[here], a, b, runs, short_under_mm=short_under_mm, reach_mm=reach)
    if here.size == shape.size:
        return outline
    for part in fields(outline):
        whole = np.zeros(shape.shape)
        whole[here] = getattr(outline, part.name)
        setattr(outline, part.name, whole)
    return outline


def _outline(
    shape: NDArray[np.int8],
    size_a_mm: Floats,
    size_b_mm: Floats,
    runs: StraightRuns,
    *,
    short_under_mm: float,
    reach_mm: Floats,
) -> Outline:
    """Return what lines burn that all have a plate shape."""
    further = restarts(runs.run_mm, reach_mm)
    short = runs.run_mm / (1.0 + further) < short_under_mm
    each_mm, once_mm = runs.run_mm * runs.cuts_each, runs.run_mm * runs.cuts_once
    disc, ring = shape == Shape.DISC, shape == Shape.RING
    outside, inside = circle_length_mm(np.nan_to_num(size_a_mm)), circle_length_mm(np.nan_to_num(size_b_mm))
    circle_mm = np.where(disc, outside, np.where(ring, outside + inside, 0.0))
    circles = np.where(disc, 1.0, np.where(ring, 2.0, 0.0))
    return Outline(
        long_mm=np.where(short, 0.0, each_mm).sum(axis=0),
        short_mm=np.where(short, each_mm, 0.0).sum(axis=0),
        circle_mm=circle_mm,
        sides=runs.cuts_each.sum(axis=0),
        side_restarts=(runs.cuts_each * further).sum(axis=0),
        outlines=np.ones(shape.shape),
        pierces=np.where(ring, 1.0, 0.0),
        circles=circles,
        circle_sizes=circles.copy(),
        once_long_mm=np.where(short, 0.0, once_mm).sum(axis=0),
        once_short_mm=np.where(short, once_mm, 0.0).sum(axis=0),
        once_starts=(runs.cuts_once * (1.0 + further)).sum(axis=0),
        once_sides=runs.cuts_once.sum(axis=0),
        edge_mm=(runs.run_mm * runs.edges_each).sum(axis=0) + circle_mm,
        once_edge_mm=(runs.run_mm * runs.edges_once).sum(axis=0),
    )
