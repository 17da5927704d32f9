"""Minutes of work that is not burning: units counted, minutes grown with the size."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.quantities.ranges import above_zero, zero_or_above
from estimator.words import Per

__all__ = ["OtherMinutes", "UnitCount", "hole_volume_cm3", "minutes_per_unit", "no_other_work", "units_of_work"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class UnitCount:
    """Units of work of each line."""

    units: Floats
    counted_by_quantity: NDArray[np.bool_]
    """Where the list gives no measure of the unit, so that its quantity counts the units (5 means 5 tonnes)."""


@dataclass(slots=True)
class OtherMinutes:
    """Minutes and gas of other work for one piece of each line: shape (n,)."""

    minutes_each: Floats
    rested: NDArray[np.bool_]
    oxygen_m3_each: Floats
    fuel_m3_each: Floats


def no_other_work(n: int) -> OtherMinutes:
    """Return n lines without other work."""
    return OtherMinutes(np.zeros(n), np.ones(n, dtype=np.bool_), np.zeros(n), np.zeros(n))


def units_of_work(
    per: ArrayLike, *, quantity: ArrayLike, holes: ArrayLike, length_mm: ArrayLike, mass_kg: ArrayLike
) -> UnitCount:
    """Count the units of work of each line.

    Parameters
    ----------
    per : array_like of int, shape (n,)
        Codes of ``words.Per``.
    quantity : array_like of float, shape (n,)
        Pieces of the line, or units where nothing else measures them.
    holes : array_like of float, shape (n,)
        Holes of one piece; NaN where the list gives none.
    length_mm : array_like of float, shape (n,)
        Edge or cut length of one piece that is worked on; NaN where it is not known. [mm]
    mass_kg : array_like of float, shape (n,)
        Mass of one piece; NaN where it is not known. [kg]

    Returns
    -------
    UnitCount
        Arrays of shape (n,).

    Raises
    ------
    ValueError
        When a quantity is not above zero.

    Notes
    -----
    Holes, metres, kilograms and tonnes are per piece times the quantity. Where that measure is missing the quantity
    itself counts the units, and the answer says so: a line of 5 of a work by the tonne is 5 t. Source: definition.

    Examples
    --------
    >>> count = units_of_work([Per.HOLE, Per.TONNE, Per.METRE], quantity=[8, 5, 4], holes=[4, np.nan, np.nan],
    ...                       length_mm=[np.nan, np.nan, 600], mass_kg=[np.nan] * 3)
    >>> count.units.tolist(), count.counted_by_quantity.tolist()
    ([32.0, 5.0, 2.4], [False, True, False])
    """
    code, q = np.asarray(per), above_zero(quantity=quantity)
    measure = np.ones(np.broadcast_shapes(code.shape, q.shape))
    measures = (
        (Per.HOLE, np.asarray(holes, dtype=np.float64)),
        (Per.METRE, np.asarray(length_mm, dtype=np.float64) / 1000.0),
        (Per.KG, np.asarray(mass_kg, dtype=np.float64)),
        (Per.TONNE, np.asarray(mass_kg, dtype=np.float64) / 1000.0),
    )
    for unit, of_piece in measures:
        measure = np.where(code == unit, of_piece, measure)
    missing = np.isnan(measure)
    return UnitCount(units=q * np.where(missing, 1.0, measure), counted_by_quantity=missing)


def minutes_per_unit(minutes: ArrayLike, *, more_min: ArrayLike = 0.0, size: ArrayLike = 0.0) -> Floats:
    """Minutes of one unit, grown with its size.

    Parameters
    ----------
    minutes : array_like of float, any shape
        Part that every unit takes: fetch, mark, set. [min]
    more_min : array_like of float, broadcast against it
        Minutes for each cm³, cm², kg or mm of the size. [min]
    size : array_like of float, broadcast against it
        The size, in that unit.

    Returns
    -------
    ndarray of float, broadcast shape
        Minutes of one unit. [min]

    Raises
    ------
    ValueError
        When a value is below zero or not finite.

    Notes
    -----
    ``minutes + more_min * size``. A drill takes out its chips at a steady rate, so a hole's minutes grow with the
    metal removed, that is with the square of the diameter and with the thickness. Source: common practice, no source.

    Examples
    --------
    >>> minutes_per_unit(1.5, more_min=0.2, size=hole_volume_cm3(22, 20)).round(2)
    np.float64(3.02)
    """
    grown = zero_or_above(more_min=more_min) * zero_or_above(size=size)
    return np.asarray(zero_or_above(minutes=minutes) + grown, dtype=np.float64)


def hole_volume_cm3(diameter_mm: ArrayLike, thickness_mm: ArrayLike) -> Floats:
    """Metal that a drilled hole removes.

    Parameters
    ----------
    diameter_mm : array_like of float, any shape
        Diameter of the hole. [mm]
    thickness_mm : array_like of float, broadcast against it
        Thickness that is drilled through. [mm]

    Returns
    -------
    ndarray of float, broadcast shape
        Volume. [cm³]

    Raises
    ------
    ValueError
        When a size is not above zero.

    Notes
    -----
    ``π d² t / 4``. Source: geometry.

    Examples
    --------
    >>> hole_volume_cm3(22, 20).round(2)
    np.float64(7.6)
    """
    area_mm2 = np.pi / 4 * above_zero(diameter_mm=diameter_mm) ** 2
    return np.asarray(area_mm2 * above_zero(thickness_mm=thickness_mm) / 1000.0, dtype=np.float64)
