"""Gas that a cut or a flame takes: flow times the time it flows, never divided by an operating factor."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.quantities.ranges import above_zero, zero_or_above

__all__ = ["cutting_oxygen_m3", "fuel_m3", "gas_kg", "preheat_oxygen_m3"]

_MIN_PER_H = 60.0


def cutting_oxygen_m3(jet_time_min: ArrayLike, cutting_oxygen_flow_m3_h: ArrayLike) -> NDArray[np.float64]:
    """Return the cutting oxygen.

    Parameters
    ----------
    jet_time_min : array_like of float, any shape
        Time with the lever down, zero or above [min].
    cutting_oxygen_flow_m3_h : array_like of float, broadcast against it
        Flow of the cutting oxygen, zero or above [m³/h].

    Returns
    -------
    ndarray of float, broadcast shape
        Cutting oxygen, at the state of the flow [m³].

    Raises
    ------
    ValueError
        When a time or a flow is below zero.

    Notes
    -----
    ``flow x jet time``. Source: definition.

    Examples
    --------
    >>> cutting_oxygen_m3(13.4, 4.09).round(2)
    np.float64(0.91)
    """
    flow = zero_or_above(cutting_oxygen_flow_m3_h=cutting_oxygen_flow_m3_h)
    return zero_or_above(jet_time_min=jet_time_min) * flow / _MIN_PER_H


def fuel_m3(flame_time_min: ArrayLike, fuel_flow_m3_h: ArrayLike) -> NDArray[np.float64]:
    """Return the fuel gas of a preheat or heating flame.

    Parameters
    ----------
    flame_time_min : array_like of float, any shape
        Time with the flame lit, zero or above [min].
    fuel_flow_m3_h : array_like of float, broadcast against it
        Flow of the fuel, zero or above [m³/h].

    Returns
    -------
    ndarray of float, broadcast shape
        Fuel, at the state of the flow [m³].

    Raises
    ------
    ValueError
        When a time or a flow is below zero.

    Notes
    -----
    ``flow x flame time``. Source: definition.

    Examples
    --------
    >>> fuel_m3(15.0, 0.3).round(3)
    np.float64(0.075)
    """
    flow = zero_or_above(fuel_flow_m3_h=fuel_flow_m3_h)
    return zero_or_above(flame_time_min=flame_time_min) * flow / _MIN_PER_H


def preheat_oxygen_m3(fuel_m3: ArrayLike, preheat_oxygen_ratio: ArrayLike) -> NDArray[np.float64]:
    """Return the oxygen that burns with the fuel.

    Parameters
    ----------
    fuel_m3 : array_like of float, any shape
        Fuel, zero or above [m³].
    preheat_oxygen_ratio : array_like of float, broadcast against it
        Oxygen for each volume of fuel at the same state, zero or above [m³/m³].

    Returns
    -------
    ndarray of float, broadcast shape
        Preheat oxygen [m³].

    Raises
    ------
    ValueError
        When a volume or a ratio is below zero.

    Notes
    -----
    ``fuel x ratio``. Source: definition.

    Examples
    --------
    >>> preheat_oxygen_m3(0.5, 1.1)
    np.float64(0.55)
    """
    ratio = zero_or_above(preheat_oxygen_ratio=preheat_oxygen_ratio)
    return zero_or_above(fuel_m3=fuel_m3) * ratio


def gas_kg(gas_m3: ArrayLike, density_kg_m3: ArrayLike) -> NDArray[np.float64]:
    """Return the mass of a volume of gas.

    Parameters
    ----------
    gas_m3 : array_like of float, any shape
        Volume, zero or above [m³].
    density_kg_m3 : array_like of float, broadcast against it
        Density at the state of the volume, above zero [kg/m³].

    Returns
    -------
    ndarray of float, broadcast shape
        Mass [kg].

    Raises
    ------
    ValueError
        When a volume is below zero or a density is not above zero.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> gas_kg(2.0, 1.8992)
    np.float64(3.7984)
    """
    return zero_or_above(gas_m3=gas_m3) * above_zero(density_kg_m3=density_kg_m3)
