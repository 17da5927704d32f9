"""How hard a cylinder may be pulled: draw limits, usable content, cylinders to manifold, propane's own limit.

Fractions and heels are arguments: the shop book and the supplier decide them. A count from here is a plan, never a
permission; a manifold is the supplier's to approve.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.quantities.ranges import above_zero, within, zero_or_above

__all__ = [
    "BREAK_MIN",
    "CONTINUOUS_AFTER_MIN",
    "cylinders_to_manifold",
    "draw_limit_m3_h",
    "draw_over_limit",
    "is_continuous",
    "propane_vaporisation_kg_h",
]

CONTINUOUS_AFTER_MIN = 10.0
BREAK_MIN = 5.0


def draw_limit_m3_h(content_m3: ArrayLike, fraction_per_h: ArrayLike) -> NDArray[np.float64]:
    """Return the draw that a content allows.

    Parameters
    ----------
    content_m3 : array_like of float, any shape
        Content that the rule counts on, rated or now, of one cylinder or of a manifold together; zero or above [m³].
    fraction_per_h : array_like of float, broadcast against it
        Share of the content an hour, above zero [1/h].

    Returns
    -------
    ndarray of float, broadcast shape
        Draw limit [m³/h].

    Raises
    ------
    ValueError
        When a content is below zero or a fraction is not above zero.

    Notes
    -----
    ``fraction x content``. Source: definition; fractions in ``acetylene_draw_rules.csv``.

    Examples
    --------
    >>> draw_limit_m3_h(4.2, 1 / 7).round(3)
    np.float64(0.6)
    """
    return zero_or_above(content_m3=content_m3) * above_zero(fraction_per_h=fraction_per_h)


def draw_over_limit(draw_m3_h: ArrayLike, content_m3: ArrayLike, fraction_per_h: ArrayLike) -> NDArray[np.float64]:
    """Return a draw as a multiple of its limit; over 1 is too hard.

    Parameters
    ----------
    draw_m3_h : array_like of float, any shape
        Draw of all torches on the cylinders together, zero or above [m³/h].
    content_m3, fraction_per_h
        As for ``draw_limit_m3_h``, the content above zero.

    Returns
    -------
    ndarray of float, broadcast shape
        Multiple of the limit.

    Raises
    ------
    ValueError
        When a draw is below zero, or a content or fraction is not above zero.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> draw_over_limit(80.0, 150.0, 1 / 7).round(2)
    np.float64(3.73)
    """
    limit = draw_limit_m3_h(above_zero(content_m3=content_m3), fraction_per_h)
    return zero_or_above(draw_m3_h=draw_m3_h) / limit


def cylinders_to_manifold(draw_m3_h: ArrayLike, content_m3: ArrayLike, fraction_per_h: ArrayLike) -> NDArray[np.int64]:
    """Return how many equal cylinders together allow a draw.

    Parameters
    ----------
    draw_m3_h : array_like of float, any shape
        Draw of all torches together, zero or above [m³/h].
    content_m3 : array_like of float, broadcast against it
        Content of one cylinder, above zero [m³].
    fraction_per_h : array_like of float, broadcast against it
        Share of the content an hour, above zero [1/h].

    Returns
    -------
    ndarray of int, broadcast shape
        Cylinders, one or more.

    Raises
    ------
    ValueError
        When a draw is below zero, or a content or fraction is not above zero.

    Notes
    -----
    Draw ÷ limit of one, raised to a whole number; one part in 10⁹ over a whole number counts as that number.
    A manifold is made for the gas and approved by the supplier; never tees, never plain copper. Source: definition.

    Examples
    --------
    >>> cylinders_to_manifold(80.0, 150.0, [1 / 15, 1 / 10, 1 / 7])
    array([8, 6, 4])
    """
    over = np.round(draw_over_limit(draw_m3_h, content_m3, fraction_per_h), 9)
    return np.maximum(np.ceil(over), 1.0).astype(np.int64)


def is_continuous(lit_min: ArrayLike, break_min: ArrayLike, times: ArrayLike) -> NDArray[np.bool_]:
    """Return whether flames in a row count as continuous: lit longer than ten minutes without a break of five.

    Parameters
    ----------
    lit_min : array_like of float, any shape
        Time lit each time, zero or above [min].
    break_min : array_like of float, broadcast against it
        Break between two times, zero or above [min].
    times : array_like of float, broadcast against it
        How many times in a row, one or more.

    Returns
    -------
    ndarray of bool, broadcast shape
        True where the stricter limit holds: one flame is long, or those that no break parts add up to long.

    Raises
    ------
    ValueError
        When a time is below zero, or ``times`` is not above zero.

    Notes
    -----
    Source: definition of this project; the codes leave the word to practice.

    Examples
    --------
    >>> is_continuous([12.0, 8.0, 8.0, 4.0], [0.0, 6.0, 2.0, 2.0], [1, 9, 2, 2])
    array([ True, False,  True, False])
    """
    parted = zero_or_above(break_min=break_min) >= BREAK_MIN
    joined = np.where(parted, 1.0, above_zero(times=times))
    return zero_or_above(lit_min=lit_min) * joined > CONTINUOUS_AFTER_MIN


def propane_vaporisation_kg_h(
    fill_share: ArrayLike,
    air_c: ArrayLike,
    *,
    diameter_mm: float,
    liquid_height_full_mm: float,
    coldest_liquid_c: float,
    heat_transfer_w_m2_k: float,
    latent_heat_kj_kg: float,
) -> NDArray[np.float64]:
    """Return the propane that the air's heat evaporates in an upright cylinder in steady use; advisory.

    Parameters
    ----------
    fill_share : array_like of float, any shape
        Liquid now as a share of a full cylinder's, from 0 to 1.
    air_c : array_like of float, broadcast against it
        Temperature of still air round the cylinder [°C].
    diameter_mm : float
        Outside diameter, above zero [mm].
    liquid_height_full_mm : float
        Height of the liquid when full, above zero [mm].
    coldest_liquid_c : float
        Temperature at which the vapour pressure still feeds the regulator [°C].
    heat_transfer_w_m2_k : float
        From still air through the wall, above zero [W/m²K]; 6 to 12 without frost, judgement.
    latent_heat_kj_kg : float
        Heat to evaporate at that temperature, above zero [kJ/kg].

    Returns
    -------
    ndarray of float, broadcast shape
        Steady draw [kg/h]; zero where the air is no warmer than the liquid may become.

    Raises
    ------
    ValueError
        When a share lies outside 0 to 1 or a size is not above zero.

    Notes
    -----
    ``U A (air − liquid) ÷ latent heat`` over the wetted side and the bottom. Left out: heat stored in steel and liquid
    (which carries short draws above this), frost (which lowers it), wind and sun. The supplier's figure wins.

    Source: heat balance; vapour pressure and latent heat in ``propane_saturation.csv``.

    Examples
    --------
    >>> propane_vaporisation_kg_h([1.0, 0.2], 15.0, diameter_mm=370, liquid_height_full_mm=900, coldest_liquid_c=-20,
    ...     heat_transfer_w_m2_k=8, latent_heat_kj_kg=401).round(2)
    array([2.9, 0.8])
    """
    diameter_m = above_zero(diameter_mm=diameter_mm) / 1000.0
    height_m = above_zero(liquid_height_full_mm=liquid_height_full_mm) / 1000.0
    share = within(0.0, 1.0, fill_share=fill_share)
    wetted_m2 = np.where(share > 0, np.pi * diameter_m * height_m * share + np.pi / 4 * diameter_m**2, 0.0)
    warmer_k = np.maximum(np.asarray(air_c, dtype=np.float64) - coldest_liquid_c, 0.0)
    heat_kj_h = above_zero(heat_transfer_w_m2_k=heat_transfer_w_m2_k) * wetted_m2 * warmer_k * 3.6
    return heat_kj_h / above_zero(latent_heat_kj_kg=latent_heat_kj_kg)
