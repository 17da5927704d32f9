"""Checks a list can make on itself: thickness among its like, sizes against its own masses, totals against lengths."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = [
    "STEEL_KG_M3",
    "MassEvidence",
    "doubtful_sides",
    "doubtful_unit",
    "mass_evidence",
    "odd_thickness",
    "total_differs",
]

Floats = NDArray[np.float64]
STEEL_KG_M3 = 7850.0


@dataclass(frozen=True, slots=True)
class MassEvidence:
    """How a list's own masses fit its sizes."""

    worked_kg: Floats
    differs: NDArray[np.bool_]
    """Rows that do not fit where most do."""
    fitting: int
    compared: int


def odd_thickness(thickness_mm: Floats) -> NDArray[np.bool_]:
    """Return which thicknesses are so far above all others that a unit may be wrong.

    Parameters
    ----------
    thickness_mm : ndarray of float, shape (n,)
        Thicknesses as read, NaN where there is none [mm].

    Returns
    -------
    ndarray of bool, shape (n,)
        True for more than 100 mm and five times the list's 90 % point; never for more than one row in ten.

    Notes
    -----
    A thickness of 12 in among plates of 6 to 20 mm is a slip for 12 mm. Needs at least four rows. Source: judgement.

    Examples
    --------
    >>> odd_thickness(np.array([6, 10, 20, 12, 304.8])).tolist()
    [False, False, False, False, True]
    """
    known = np.sort(thickness_mm[~np.isnan(thickness_mm)])
    if known.size < 4:
        return np.zeros(len(thickness_mm), dtype=np.bool_)
    usual = known[int((known.size - 1) * 0.9)] if known.size >= 10 else known[-2]
    with np.errstate(invalid="ignore"):
        return np.asarray((thickness_mm > 100.0) & (thickness_mm > 5.0 * usual))


def doubtful_unit(thickness_mm: Floats) -> bool:
    """Return whether most thicknesses, as read, are none that plates have: under 1.2 mm or over 250 mm.

    Examples
    --------
    >>> doubtful_unit(np.array([0.25, 0.5, 0.375])), doubtful_unit(np.array([254.0, 304.8, 508.0]))
    (True, True)
    >>> doubtful_unit(np.array([6.0, 12.0, 600.0]))
    False
    """
    known = thickness_mm[thickness_mm > 0]
    many = max(int(np.sum(known < 1.2)), int(np.sum(known > 250.0)))
    return bool(known.size and many * 2 > known.size)


def doubtful_sides(length_mm: Floats, width_mm: Floats, thickness_mm: Floats) -> bool:
    """Return whether most pieces, as read, are no longer than twice their thickness, or under 30 mm.

    Examples
    --------
    >>> doubtful_sides(np.array([12.0, 10.0]), np.array([6.0, 5.0]), np.array([9.525, 12.7]))
    True
    >>> doubtful_sides(np.array([300.0]), np.array([200.0]), np.array([10.0]))
    False
    """
    side = np.fmax(length_mm, width_mm)
    known = side[~np.isnan(side)]
    thickness = thickness_mm[~np.isnan(thickness_mm)]
    least = max(30.0, 2.0 * float(np.median(thickness)) if thickness.size else 0.0)
    return bool(known.size and float(np.median(known)) < least)


def mass_evidence(
    thickness_mm: Floats, a_mm: Floats, b_mm: Floats, quantity: Floats, mass_kg: Floats, *, total: bool
) -> MassEvidence:
    """Compare a list's own masses with thickness x sides x 7850 kg/m³.

    Parameters
    ----------
    thickness_mm, a_mm, b_mm : ndarray of float, shape (n,)
        Sizes of rectangles as read; NaN elsewhere [mm].
    quantity : ndarray of float, shape (n,)
        Pieces.
    mass_kg : ndarray of float, shape (n,)
        The list's own masses, NaN where it gives none [kg].
    total : bool
        Whether the masses are for all pieces of the row.

    Returns
    -------
    MassEvidence
        Rows more than 3 % and 0.05 kg off, only where at least three rows and three in four of those compared fit.

    Notes
    -----
    Lists give masses at 7.85 kg per mm and m²; one list of fifty rows fitted within 0.08 %. Source: common practice.

    Examples
    --------
    >>> t, a, b = np.full(4, 10.0), np.full(4, 1000.0), np.array([100.0, 200, 300, 400])
    >>> mass = np.array([7.85, 15.7, 23.55, 62.8])
    >>> mass_evidence(t, a, b, np.ones(4), mass, total=False).differs.tolist()
    [False, False, False, True]
    """
    worked = thickness_mm * a_mm * b_mm * (STEEL_KG_M3 * 1e-9) * (quantity if total else 1.0)
    compared = ~np.isnan(worked) & ~np.isnan(mass_kg) & (mass_kg > 0)
    with np.errstate(invalid="ignore"):
        off = np.abs(worked - mass_kg)
        fits = compared & ((off <= 0.03 * worked) | (off <= 0.05))
    fitting, many = int(fits.sum()), int(compared.sum())
    telling = fitting >= 3 and fitting * 4 >= many * 3
    return MassEvidence(worked, compared & ~fits & telling, fitting, many)


def total_differs(length_mm: Floats, quantity: Floats, total_mm: Floats) -> NDArray[np.bool_]:
    """Return which rows' total length is not quantity x length, by more than half a percent.

    Examples
    --------
    >>> total_differs(np.array([300.0, 300]), np.array([4.0, 4]), np.array([1200.0, 1500])).tolist()
    [False, True]
    """
    worked = length_mm * quantity
    with np.errstate(invalid="ignore"):
        return np.asarray(np.abs(worked - total_mm) > 0.005 * worked)
