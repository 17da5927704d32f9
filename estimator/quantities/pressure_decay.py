"""How fast a closed system loses gas, from two readings of its gauge; and a tank's stock from a table of levels."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["leak_rate_m3_h", "stock_from_level"]

_HOUSE_PRESSURE_BAR = 1.01325
_HOUSE_TEMPERATURE_K = 288.15


def leak_rate_m3_h(
    volume_l: ArrayLike,
    pressure_before_bar: ArrayLike,
    pressure_after_bar: ArrayLike,
    time_min: ArrayLike,
    *,
    temperature_before_c: ArrayLike,
    temperature_after_c: ArrayLike,
) -> NDArray[np.float64]:
    """Return the leak of a closed hose and regulator, from the fall of its gauge.

    Parameters
    ----------
    volume_l : array_like of float, any shape
        Volume shut in, above zero [L].
    pressure_before_bar, pressure_after_bar : array_like of float, broadcast against it
        Gauge pressures, zero or above [bar].
    time_min : array_like of float, broadcast against it
        Time between the readings, above zero [min].
    temperature_before_c, temperature_after_c : array_like of float, broadcast against it
        Temperature of the gas at each reading [°C].

    Returns
    -------
    ndarray of float, broadcast shape
        Leak at 15 °C and 101.325 kPa [m³/h]; below zero when the pressure rose more than the temperature explains.

    Raises
    ------
    ValueError
        When a volume or time is not above zero, or a pressure is below zero.

    Notes
    -----
    ``volume x (p1 / T1 - p2 / T2) x T0 / p0 ÷ time``, absolute pressures, ideal gas: low pressures only, never a full
    cylinder. Source: the ideal gas law; the pressure change method of leak testing (EN 13184), from memory.

    Examples
    --------
    Ten litres from 3.0 to 2.9 bar in half an hour at 15 °C lose 0.1 x 10 / 1.01325 L, twice that in an hour:

    >>> leak_rate_m3_h(10, 3.0, 2.9, 30, temperature_before_c=15, temperature_after_c=15).round(6)
    np.float64(0.001974)
    """
    volume, time = np.asarray(volume_l, dtype=np.float64), np.asarray(time_min, dtype=np.float64)
    before, after = np.asarray(pressure_before_bar, dtype=np.float64), np.asarray(pressure_after_bar, dtype=np.float64)
    if np.any(volume <= 0) or np.any(time <= 0):
        raise ValueError("volume_l and time_min must be above zero")
    if np.any(before < 0) or np.any(after < 0):
        raise ValueError("pressures must be zero or above")
    kelvin_before = np.asarray(temperature_before_c, dtype=np.float64) + 273.15
    kelvin_after = np.asarray(temperature_after_c, dtype=np.float64) + 273.15
    density_fall = (before + _HOUSE_PRESSURE_BAR) / kelvin_before - (after + _HOUSE_PRESSURE_BAR) / kelvin_after
    lost_m3 = volume / 1000.0 * density_fall * _HOUSE_TEMPERATURE_K / _HOUSE_PRESSURE_BAR
    return np.asarray(lost_m3 / (time / 60.0))


def stock_from_level(level: ArrayLike, table_level: ArrayLike, table_stock: ArrayLike) -> NDArray[np.float64]:
    """Return what a tank holds at a level, between two rows of its table.

    Parameters
    ----------
    level : array_like of float, any shape
        Level as read, in the table's unit.
    table_level : array_like of float, shape (n,)
        Levels of the table, rising.
    table_stock : array_like of float, shape (n,)
        Stock at each level.

    Returns
    -------
    ndarray of float
        Stock in the table's unit.

    Raises
    ------
    ValueError
        When a level lies outside the table, or the table does not rise.

    Notes
    -----
    Straight between neighbouring rows, never beyond them. Source: Wisconsin tank training, page 18669 (excerpt):
    337 at a level, 8 more to the next inch, a quarter inch above: 337 + 8 / 4 = 339.

    Examples
    --------
    >>> float(stock_from_level(30.25, [30, 31], [337, 345]))
    339.0
    """
    levels, stock = np.asarray(table_level, dtype=np.float64), np.asarray(table_stock, dtype=np.float64)
    read = np.asarray(level, dtype=np.float64)
    if np.any(np.diff(levels) <= 0):
        raise ValueError("table_level must rise from row to row")
    if np.any(read < levels[0]) or np.any(read > levels[-1]):
        raise ValueError(f"level must lie from {levels[0]:g} to {levels[-1]:g}, got {level!r}")
    return np.asarray(np.interp(read, levels, stock))
