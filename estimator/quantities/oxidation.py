"""Oxygen that the iron of the kerf takes up, from molar masses: the check on every cut's oxygen flow."""

from __future__ import annotations

from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.quantities.ranges import above_zero, within, zero_or_above

__all__ = [
    "OXYGEN_PER_IRON",
    "STEEL_KG_M3",
    "kerf_iron_kg",
    "oxygen_need_m3_per_kg",
    "supplied_over_needed",
]

STEEL_KG_M3 = 7850.0
"""Density of mild steel, common practice."""
_IRON_G_MOL = 55.845  # IUPAC 2021
_OXYGEN_G_MOL = 31.998  # IUPAC 2021, O2

OXYGEN_PER_IRON = MappingProxyType({"FeO": 1 / 2, "Fe3O4": 2 / 3, "Fe2O3": 3 / 4})
"""Molecules of oxygen taken up by one atom of iron."""


def kerf_iron_kg(
    kerf_mm: ArrayLike, thickness_mm: ArrayLike, cut_length_mm: ArrayLike, *, density_kg_m3: float = STEEL_KG_M3
) -> NDArray[np.float64]:
    """Return the steel that a cut removes.

    Parameters
    ----------
    kerf_mm, thickness_mm, cut_length_mm : array_like of float, broadcast together
        Width of the kerf, thickness along the cut, length of the cut; zero or above [mm].
    density_kg_m3 : float
        Density of the steel, above zero [kg/m³].

    Returns
    -------
    ndarray of float, broadcast shape
        Mass, taken as iron [kg].

    Raises
    ------
    ValueError
        When a size is below zero or the density is not above zero.

    Notes
    -----
    Source: geometry.

    Examples
    --------
    >>> kerf_iron_kg(2.7, 25.0, 1000.0).round(3)
    np.float64(0.53)
    """
    kerf, thickness = zero_or_above(kerf_mm=kerf_mm), zero_or_above(thickness_mm=thickness_mm)
    length = zero_or_above(cut_length_mm=cut_length_mm)
    return kerf * thickness * length * 1e-9 * above_zero(density_kg_m3=density_kg_m3)


def oxygen_need_m3_per_kg(oxide: str, *, density_kg_m3: float) -> float:
    """Return the oxygen that burns one kilogram of iron to an oxide.

    Parameters
    ----------
    oxide : str
        FeO, Fe3O4 or Fe2O3.
    density_kg_m3 : float
        Density of oxygen at the state in which the answer is wanted, above zero [kg/m³].

    Returns
    -------
    float
        Oxygen for each kilogram of iron [m³/kg].

    Raises
    ------
    ValueError
        When the oxide is not known or the density is not above zero.

    Notes
    -----
    ``n · M(O₂) ÷ M(Fe) ÷ density``. Source: IUPAC molar masses, 2021.

    Examples
    --------
    >>> round(oxygen_need_m3_per_kg("FeO", density_kg_m3=1.3366), 4)
    0.2143
    """
    if oxide not in OXYGEN_PER_IRON:
        raise ValueError(f"oxide must be one of {', '.join(OXYGEN_PER_IRON)}, got {oxide!r}")
    return OXYGEN_PER_IRON[oxide] * _OXYGEN_G_MOL / _IRON_G_MOL / float(above_zero(density_kg_m3=density_kg_m3))


def supplied_over_needed(
    cutting_oxygen_m3: ArrayLike, iron_kg: ArrayLike, *, share_oxidised: float, oxygen_m3_per_kg: float
) -> NDArray[np.float64]:
    """Return the cutting oxygen of a cut as a multiple of what its kerf takes up.

    Parameters
    ----------
    cutting_oxygen_m3 : array_like of float, any shape
        Cutting oxygen, zero or above [m³].
    iron_kg : array_like of float, broadcast against it
        Iron of the kerf, above zero [kg].
    share_oxidised : float
        Share of the kerf's iron that burns, the rest leaves as metal; above 0, up to 1.
    oxygen_m3_per_kg : float
        Need of each kilogram that burns, at the state of ``cutting_oxygen_m3`` [m³/kg].

    Returns
    -------
    ndarray of float, broadcast shape
        Under 1.0 the oxygen cannot have made the cut; over 4 the flow, the speed or the kerf is doubtful.

    Raises
    ------
    ValueError
        When a value is out of range.

    Notes
    -----
    Source: definition; the usual share is 0.7, from memory and worked back from one observation.

    Examples
    --------
    >>> supplied_over_needed(0.2, 0.5, share_oxidised=0.7, oxygen_m3_per_kg=0.2115).round(2)
    np.float64(2.7)
    """
    share = above_zero(share_oxidised=within(0.0, 1.0, share_oxidised=share_oxidised))
    need_m3 = above_zero(iron_kg=iron_kg) * share * above_zero(oxygen_m3_per_kg=oxygen_m3_per_kg)
    return zero_or_above(cutting_oxygen_m3=cutting_oxygen_m3) / need_m3
