"""The cutting chart: what a tip does at a thickness. Interpolates in log thickness, never beyond the rows."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.check.torch_figures import TipFigures
from estimator.quantities.sorted_values import distinct

__all__ = ["choose_tips", "distinct_values", "effective_thickness_mm", "interpolate_log"]

Floats = NDArray[np.float64]


def interpolate_log(thickness_mm: ArrayLike, curve_mm: ArrayLike, values: ArrayLike) -> Floats:
    """Return values at thicknesses, straight between neighbouring rows against the logarithm of thickness.

    Parameters
    ----------
    thickness_mm : array_like of float, any shape
        Thicknesses, above zero [mm].
    curve_mm : array_like of float, shape (n,)
        Thickness of each row, rising [mm].
    values : array_like of float, shape (n,)
        Value of each row, in any unit.

    Returns
    -------
    ndarray of float, shape of ``thickness_mm``
        Values; NaN outside the rows.

    Raises
    ------
    ValueError
        When the rows do not rise.

    Notes
    -----
    A single row holds at its own thickness alone. Source: definition.

    Examples
    --------
    >>> interpolate_log([10.0, 14.142135623730951, 30.0], [10.0, 20.0], [1.0, 2.0])
    array([1. , 1.5, nan])
    """
    rows = np.asarray(curve_mm, dtype=np.float64)
    if np.any(np.diff(rows) <= 0):
        raise ValueError(f"chart thicknesses must rise, got {rows}")
    at = np.asarray(thickness_mm, dtype=np.float64)
    nan = float("nan")
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.interp(np.log(at), np.log(rows), np.asarray(values, dtype=np.float64), left=nan, right=nan)


def effective_thickness_mm(thickness_mm: ArrayLike, bevel_deg: ArrayLike = 0.0, stack: ArrayLike = 1.0) -> Floats:
    """Return the thickness along the cut.

    Parameters
    ----------
    thickness_mm : array_like of float, shape (n,)
        Plate thickness, above zero [mm].
    bevel_deg : array_like of float, shape (n,) or scalar
        Bevel angle from square, 0 or above and under 90 [degrees].
    stack : array_like of float, shape (n,) or scalar
        Plates cut together, 1 or more.

    Returns
    -------
    ndarray of float, shape (n,)
        Thickness along the cut [mm].

    Raises
    ------
    ValueError
        When an angle is below zero or 90 degrees and more.

    Notes
    -----
    ``t / cos β`` times the stack. Source: geometry; NIMI, Trade Practical p. 28, states that a bevel is thicker.

    Examples
    --------
    >>> effective_thickness_mm([16.0], 30.0).round(3)
    array([18.475])
    """
    angle = np.asarray(bevel_deg, dtype=np.float64)
    if np.any((angle < 0) | (angle >= 90)):
        raise ValueError(f"bevel must be from 0 to under 90 degrees, got {angle}")
    across = np.asarray(thickness_mm, dtype=np.float64) * np.asarray(stack, dtype=np.float64)
    return across / np.cos(np.radians(angle)) if np.any(angle) else across


def choose_tips(thickness_mm: ArrayLike, tips: TipFigures, *, keep_tip_in: bool) -> NDArray[np.int64]:
    """Return the tip for each thickness along the cut.

    Parameters
    ----------
    thickness_mm : array_like of float, shape (n,)
        Thickness along the cut [mm].
    tips : TipFigures
        Tips on hand for the fuel.
    keep_tip_in : bool
        Whether the tip that is in stays in while its range covers the work.

    Returns
    -------
    ndarray of int, shape (n,)
        Index into ``tips``; -1 where no tip on hand covers the thickness.

    Raises
    ------
    ValueError
        When the tips are not in order of bore.

    Notes
    -----
    The smallest bore whose range covers the thickness. Where the tip stays in, work is taken from the thickest
    down, so that the choice does not depend on the order of the list and tip changes are few. Source: definition.

    Examples
    --------
    >>> two = TipFigures(("0.8", "1.2"), *(np.array(v) for v in (
    ...     [0.8, 1.2], [3, 6], [6.5, 19.5], [1, 1.4], [1.4, 2.1], [.2, .2], [.85, .85], [1.2, 1.2], [np.nan, np.nan])))
    >>> choose_tips([6.0, 12.0, 40.0], two, keep_tip_in=False), choose_tips([6.0, 12.0], two, keep_tip_in=True)
    (array([ 0,  1, -1]), array([1, 1]))
    """
    if np.any(np.diff(tips.bore_mm) < 0):
        raise ValueError("tips must stand in order of bore")
    distinct, where = distinct_values(np.asarray(thickness_mm, dtype=np.float64))
    chosen = np.full(distinct.shape, -1, dtype=np.int64)
    tip_in = -1
    for index in range(len(distinct) - 1, -1, -1):
        covers = _covering(float(distinct[index]), tips)
        if keep_tip_in and tip_in in covers:
            chosen[index] = tip_in
        elif covers:
            chosen[index] = tip_in = covers[0]
    return chosen[where]


def distinct_values(values: Floats) -> tuple[Floats, NDArray[np.int64]]:
    """Return the distinct values, rising, and where each value stands among them.

    Parameters
    ----------
    values : ndarray of float, shape (n,)
        Values, none of them NaN.

    Returns
    -------
    tuple of (ndarray of float, shape (m,), ndarray of int, shape (n,))
        Distinct values and the index of each value.

    Notes
    -----
    A list of a million lines has a few dozen thicknesses: looking each up beats sorting them all. Source: definition.

    Examples
    --------
    >>> distinct_values(np.array([20.0, 12.0, 20.0]))
    (array([12., 20.]), array([1, 0, 1]))
    """
    known = distinct(values)
    return known, np.searchsorted(known, values)


def _covering(thickness_mm: float, tips: TipFigures) -> Sequence[int]:
    slack = 1e-9 * max(thickness_mm, 1.0)
    covers = (tips.from_mm - slack <= thickness_mm) & (thickness_mm <= tips.to_mm + slack)
    return [int(i) for i in np.flatnonzero(covers)]
