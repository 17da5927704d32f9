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
    edges_once: Floats
    """Edges of the row that the mill has made, below zero."""


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
    A mill end belongs to the row. A row of n equal rectangles that share cuts takes n + 1 cross cuts less its mill
    ends, and its long sides once (definitions, "Cut metres are not edge metres"); cut singly, each piece takes its two
    ends, or one where it comes off the mill end of a bar, and one piece as long as the bar none. Right triangles
    that share cuts lie in pairs in a row of rectangles, a cross cut and a diagonal for two pieces; along one mill side
    they lie back to back on it, and two share the leg across. Each of these takes no run more often than the pieces
    cut singly do, and leaves no edge more, so sharing never costs more. Source: geometry.
    """
    a, b = np.nan_to_num(size_a_mm), np.nan_to_num(size_b_mm)
    row = _Row(mill_sides, mill_ends, shared & (passes > 1), passes)
    run_mm = np.stack([a, b, np.hypot(a, b)])
    each, once, edges, edges_once = (np.zeros_like(run_mm) for _ in range(4))
    for codes, counts in (
        ((Shape.RECTANGLE, Shape.STRIP), _rectangles(row)),
        ((Shape.RIGHT_TRIANGLE,), _triangles(row)),
        ((Shape.BAR_END,), _Counts(along=1.0, edges_along=1.0)),
    ):
        here = np.isin(shape, codes) & (run_mm > 0)
        for at, runs in enumerate(counts.by_run()):
            for total, value in zip((each, once, edges, edges_once), runs, strict=True):
                total[at] = np.where(here[at], value, total[at])
    return StraightRuns(run_mm, each, once, edges, edges_once)


@dataclass(frozen=True, slots=True)
class _Row:
    mill_sides: Floats
    mill_ends: Floats
    shared: NDArray[np.bool_]
    pieces: Floats


@dataclass(frozen=True, slots=True)
class _Counts:
    """Counts of the runs along the row, across it and on the diagonal: by every piece, and once by the row."""

    along: Floats | float = 0.0
    across: Floats | float = 0.0
    across_once: Floats | float = 0.0
    diagonal: Floats | float = 0.0
    diagonal_once: Floats | float = 0.0
    edges_along: Floats | float = 0.0
    edges_across: Floats | float = 0.0
    edges_across_once: Floats | float = 0.0
    edges_diagonal: Floats | float = 0.0

    def by_run(self) -> tuple[tuple[Floats | float, ...], ...]:
        """Return cuts each, cuts once, edges each, edges once of the three runs."""
        return (
            (self.along, 0.0, self.edges_along, 0.0),
            (self.across, self.across_once, self.edges_across, self.edges_across_once),
            (self.diagonal, self.diagonal_once, self.edges_diagonal, 0.0),
        )


def _rectangles(row: _Row) -> _Counts:
    """Every piece has two burnt ends, less the row's mill ends; a line cut singly doubles with its quantity."""
    whole_bar = (row.pieces <= 1) & (row.mill_ends == 2)
    singly = np.where(whole_bar, 0.0, np.maximum(2.0 - row.mill_ends, 1.0))
    return _Counts(
        along=2.0 - row.mill_sides,
        across=np.where(row.shared, 1.0, singly),
        across_once=np.where(row.shared, 1.0 - row.mill_ends, 0.0),
        edges_along=2.0 - row.mill_sides,
        edges_across=np.where(whole_bar, 0.0, 2.0),
        edges_across_once=np.where(row.shared, -row.mill_ends, 0.0),
    )


def _triangles(row: _Row) -> _Counts:
    """In a row of pairs an odd one has a diagonal of its own; back to back along one mill side all have."""
    along_mill = row.mill_sides == 1
    legs = 1.0 - np.minimum(row.mill_sides, 1.0)
    odd = np.mod(row.pieces, 2.0) == 1.0
    pairs_end = np.where(odd, 0.5 - np.minimum(row.mill_ends, 1.0), 1.0 - row.mill_ends)
    backs = np.ceil(np.maximum(row.pieces - row.mill_ends, 0.0) / 2.0)
    across_once = np.where(along_mill, backs - row.pieces / 2.0, pairs_end)
    mill_legs = np.minimum(row.mill_ends, np.where(along_mill | ~odd, 2.0, 1.0))
    return _Counts(
        along=np.where(row.shared & ~along_mill, (2.0 - row.mill_sides) / 2.0, legs),
        across=np.where(row.shared, 0.5, 1.0),
        across_once=np.where(row.shared, across_once, 0.0),
        diagonal=np.where(row.shared & ~along_mill, 0.5, 1.0),
        diagonal_once=np.where(row.shared & ~along_mill & odd, 0.5, 0.0),
        edges_along=legs,
        edges_across=1.0,
        edges_across_once=np.where(row.shared, -mill_legs, 0.0),
        edges_diagonal=1.0,
    )
