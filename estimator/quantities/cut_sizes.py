"""Sizes as the torch runs: the centre of the cut lies half a kerf outside the piece, and half a kerf inside a hole."""

from __future__ import annotations

import numpy as np

__all__ = ["drop_disc_mm", "larger_by_kerf_mm", "triangle_path_mm"]


def larger_by_kerf_mm(size_mm: float, kerf_mm: float) -> float:
    """Return a side or an outside diameter at the centre of the cut.

    Parameters
    ----------
    size_mm : float
        Size of the piece [mm].
    kerf_mm : float
        Width of the kerf; below zero for a hole [mm].

    Returns
    -------
    float
        Half a kerf more on both sides [mm].

    Examples
    --------
    >>> larger_by_kerf_mm(300.0, 2.5), larger_by_kerf_mm(60.0, -2.5)
    (302.5, 57.5)
    """
    return size_mm + kerf_mm


def triangle_path_mm(leg_a_mm: float, leg_b_mm: float, kerf_mm: float) -> tuple[float, float]:
    """Return the legs of the path around a right triangle, half a kerf outside of all three sides.

    Parameters
    ----------
    leg_a_mm, leg_b_mm : float
        Legs of the piece, above zero [mm].
    kerf_mm : float
        Width of the kerf [mm].

    Returns
    -------
    tuple of float
        Legs of the path [mm].

    Notes
    -----
    Lines at one distance from the sides of a triangle form a like triangle, larger in the ratio of the radii of their
    inscribed circles: ``(r + kerf / 2) / r`` with ``r = (a + b - c) / 2``. Source: definition (plane geometry).

    Examples
    --------
    >>> [round(leg, 6) for leg in triangle_path_mm(30.0, 40.0, 2.0)]
    [33.0, 44.0]
    """
    radius = (leg_a_mm + leg_b_mm - float(np.hypot(leg_a_mm, leg_b_mm))) / 2.0
    times = (radius + kerf_mm / 2.0) / radius
    return leg_a_mm * times, leg_b_mm * times


def drop_disc_mm(hole_mm: float, kerf_mm: float) -> float:
    """Return the diameter of the disc that falls out of a hole; zero where the kerf takes it all.

    Parameters
    ----------
    hole_mm : float
        Diameter of the hole [mm].
    kerf_mm : float
        Width of the kerf [mm].

    Returns
    -------
    float
        A whole kerf less on both sides [mm].

    Examples
    --------
    >>> drop_disc_mm(250.0, 2.7), drop_disc_mm(4.0, 2.7)
    (244.6, 0.0)
    """
    return max(hole_mm - 2.0 * kerf_mm, 0.0)
