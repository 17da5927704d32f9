"""What a cylinder holds: oxygen from its gauge by real-gas density, dissolved and liquid gas from its weight.

Acetylene is dissolved in acetone, so its pressure says little: it is weighed. Densities come in as arguments.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.quantities.ranges import above_zero, within, zero_or_above

__all__ = [
    "DensityGrid",
    "content_from_weight_m3",
    "gauge_reading_error_m3",
    "oxygen_content_m3",
    "water_volume_l",
    "weight_reading_error_m3",
]

_ATMOSPHERE_BAR = 1.01325


@dataclass(frozen=True, slots=True)
class DensityGrid:
    """Density of a gas against gauge pressure and temperature, each axis rising."""

    pressure_bar: NDArray[np.float64]
    """Gauge pressure, shape (p,) [bar]."""
    temperature_c: NDArray[np.float64]
    """Shape (t,) [°C]."""
    density_kg_m3: NDArray[np.float64]
    """Shape (p, t) [kg/m³]."""

    def at(self, pressure_bar: ArrayLike, temperature_c: ArrayLike) -> NDArray[np.float64]:
        """Return densities inside the grid; ValueError outside it.

        Density over absolute pressure is nearly flat, so it is what runs straight between the grid's points.
        """
        pressure = within(self.pressure_bar[0], self.pressure_bar[-1], pressure_bar=pressure_bar)
        temperature = within(self.temperature_c[0], self.temperature_c[-1], temperature_c=temperature_c)
        row, up = _place(self.pressure_bar, pressure)
        column, right = _place(self.temperature_c, temperature)
        per_bar = self.density_kg_m3 / (self.pressure_bar + _ATMOSPHERE_BAR)[:, None]
        low = per_bar[row, column] * (1 - right) + per_bar[row, column + 1] * right
        high = per_bar[row + 1, column] * (1 - right) + per_bar[row + 1, column + 1] * right
        return (low * (1 - up) + high * up) * (pressure + _ATMOSPHERE_BAR)


def oxygen_content_m3(
    pressure_bar: ArrayLike,
    temperature_c: ArrayLike,
    *,
    water_volume_l: ArrayLike,
    grid: DensityGrid,
    density_kg_m3: float,
) -> NDArray[np.float64]:
    """Return the oxygen in a cylinder from its gauge pressure and temperature.

    Parameters
    ----------
    pressure_bar : array_like of float, any shape
        Gauge pressure [bar].
    temperature_c : array_like of float, broadcast against it
        Temperature of the cylinder [°C].
    water_volume_l : array_like of float, broadcast against it
        Volume of the cylinder, above zero [L].
    grid : DensityGrid
        Density of oxygen.
    density_kg_m3 : float
        Density at the state in which the answer is wanted, above zero [kg/m³].

    Returns
    -------
    ndarray of float, broadcast shape
        All the gas in the cylinder, the last atmosphere included [m³].

    Raises
    ------
    ValueError
        When a reading lies outside the grid or a volume is not above zero.

    Notes
    -----
    ``volume x density(p, T) ÷ density at the state``. A rule linear in pressure is out by up to 1 % of the
    full content, at half pressure.

    Source: definition; density by an equation of state.

    Examples
    --------
    An ideal gas of 1.3 kg/m³ for each bar, in a 50 L cylinder at 200 bar:

    >>> grid = DensityGrid(np.array([0.0, 300.0]), np.array([0.0, 40.0]),
    ...     1.3 * np.array([[1.01325, 1.01325], [301.01325, 301.01325]]))
    >>> oxygen_content_m3(200.0, 15.0, water_volume_l=50.0, grid=grid, density_kg_m3=1.3).round(3)
    np.float64(10.051)
    """
    volume_m3 = above_zero(water_volume_l=water_volume_l) / 1000.0
    return volume_m3 * grid.at(pressure_bar, temperature_c) / above_zero(density_kg_m3=density_kg_m3)


def water_volume_l(
    content_m3: ArrayLike,
    pressure_bar: ArrayLike,
    temperature_c: ArrayLike,
    *,
    grid: DensityGrid,
    density_kg_m3: float,
) -> NDArray[np.float64]:
    """Return the volume of a cylinder from its rated content and the pressure at which it is full.

    Parameters
    ----------
    content_m3 : array_like of float, any shape
        Rated content, zero or above [m³].
    pressure_bar, temperature_c : array_like of float, broadcast against it
        Filling gauge pressure [bar] and its temperature [°C].
    grid, density_kg_m3
        As for ``oxygen_content_m3``.

    Returns
    -------
    ndarray of float, broadcast shape
        Water volume [L].

    Raises
    ------
    ValueError
        When a reading lies outside the grid or a content is below zero.

    Notes
    -----
    The way back of ``oxygen_content_m3``. Source: definition.

    Examples
    --------
    >>> grid = DensityGrid(np.array([0.0, 300.0]), np.array([0.0, 40.0]),
    ...     1.3 * np.array([[1.01325, 1.01325], [301.01325, 301.01325]]))
    >>> water_volume_l(10.050663, 200.0, 15.0, grid=grid, density_kg_m3=1.3).round(2)
    np.float64(50.0)
    """
    content = zero_or_above(content_m3=content_m3)
    return content * above_zero(density_kg_m3=density_kg_m3) / grid.at(pressure_bar, temperature_c) * 1000.0


def content_from_weight_m3(gross_kg: ArrayLike, tare_kg: ArrayLike, *, density_kg_m3: float) -> NDArray[np.float64]:
    """Return the gas in a cylinder from its weight over the stamped tare: acetylene, propane and other liquids.

    Parameters
    ----------
    gross_kg : array_like of float, any shape
        Weight with the gas, above zero [kg].
    tare_kg : array_like of float, broadcast against it
        Stamped weight without gas (for acetylene with its mass and acetone), above zero [kg].
    density_kg_m3 : float
        Density of the gas at the state in which the answer is wanted, above zero [kg/m³].

    Returns
    -------
    ndarray of float, broadcast shape
        Gas [m³]; zero where the cylinder weighs no more than its tare.

    Raises
    ------
    ValueError
        When a weight or the density is not above zero.

    Notes
    -----
    ``(gross − tare) ÷ density``. Acetone that went off with the gas makes an acetylene cylinder weigh less than
    its tare; that reads as empty. Source: definition.

    Examples
    --------
    >>> content_from_weight_m3(68.2, 61.0, density_kg_m3=1.109).round(2)
    np.float64(6.49)
    """
    gas_kg = above_zero(gross_kg=gross_kg) - above_zero(tare_kg=tare_kg)
    return np.maximum(gas_kg, 0.0) / above_zero(density_kg_m3=density_kg_m3)


def gauge_reading_error_m3(
    pressure_bar: ArrayLike,
    temperature_c: ArrayLike,
    *,
    pressure_error_bar: float,
    temperature_error_c: float,
    water_volume_l: ArrayLike,
    grid: DensityGrid,
    density_kg_m3: float,
) -> NDArray[np.float64]:
    """Return what an oxygen reading is worth: the ± of the content.

    Parameters
    ----------
    pressure_bar, temperature_c, water_volume_l, grid, density_kg_m3
        As for ``oxygen_content_m3``.
    pressure_error_bar : float
        ± of the gauge and of reading it, zero or above [bar]; a gauge of class 2.5 is out by up to 2.5 % of its range.
    temperature_error_c : float
        ± of the temperature, zero or above [°C].

    Returns
    -------
    ndarray of float, broadcast shape
        ± of the content [m³].

    Raises
    ------
    ValueError
        When a reading lies outside the grid or an error is below zero.

    Notes
    -----
    Both errors move the content by half the span between reading plus and reading minus; independent, so added in
    square. Source: JCGM 100:2008, 5.1.2.

    Examples
    --------
    >>> grid = DensityGrid(np.array([0.0, 300.0]), np.array([0.0, 40.0]),
    ...     1.3 * np.array([[1.01325, 1.01325], [301.01325, 301.01325]]))
    >>> gauge_reading_error_m3(100.0, 15.0, pressure_error_bar=5.0, temperature_error_c=0.0, water_volume_l=50.0,
    ...     grid=grid, density_kg_m3=1.3).round(3)
    np.float64(0.25)
    """
    pressure, temperature = np.broadcast_arrays(np.asarray(pressure_bar, float), np.asarray(temperature_c, float))
    scale = above_zero(water_volume_l=water_volume_l) / 1000.0 / above_zero(density_kg_m3=density_kg_m3)
    grid.at(pressure, temperature)
    by_pressure = _half_span(grid, pressure, temperature, zero_or_above(pressure_error_bar=pressure_error_bar), 0.0)
    by_heat = _half_span(grid, pressure, temperature, 0.0, zero_or_above(temperature_error_c=temperature_error_c))
    return scale * np.hypot(by_pressure, by_heat)


def weight_reading_error_m3(*, scale_error_kg: float, tare_error_kg: float, density_kg_m3: float) -> float:
    """Return what a weighing is worth: the ± of the content.

    Parameters
    ----------
    scale_error_kg : float
        ± of the scale and of reading it, zero or above [kg].
    tare_error_kg : float
        ± of the stamped tare (lost acetone, paint, a cap), zero or above [kg].
    density_kg_m3 : float
        Density of the gas at the state in which the answer is wanted, above zero [kg/m³].

    Returns
    -------
    float
        ± of the content [m³].

    Raises
    ------
    ValueError
        When an error is below zero or the density is not above zero.

    Notes
    -----
    Independent, so added in square. Source: JCGM 100:2008, 5.1.2.

    Examples
    --------
    >>> round(weight_reading_error_m3(scale_error_kg=0.3, tare_error_kg=0.4, density_kg_m3=1.109), 2)
    0.45
    """
    error_kg = np.hypot(zero_or_above(scale_error_kg=scale_error_kg), zero_or_above(tare_error_kg=tare_error_kg))
    return float(error_kg / above_zero(density_kg_m3=density_kg_m3))


def _place(axis: NDArray[np.float64], at: NDArray[np.float64]) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Return the interval each value stands in and how far along it."""
    index = np.clip(np.searchsorted(axis, at, side="right") - 1, 0, axis.size - 2)
    return index, (at - axis[index]) / (axis[index + 1] - axis[index])


def _half_span(
    grid: DensityGrid,
    pressure: NDArray[np.float64],
    temperature: NDArray[np.float64],
    pressure_error: ArrayLike,
    temperature_error: ArrayLike,
) -> NDArray[np.float64]:
    """Half the change of density from reading minus to reading plus; one-sided, scaled, where the grid ends."""
    ends = []
    for sign in (-1.0, 1.0):
        p = np.clip(pressure + sign * np.asarray(pressure_error), grid.pressure_bar[0], grid.pressure_bar[-1])
        t = np.clip(temperature + sign * np.asarray(temperature_error), grid.temperature_c[0], grid.temperature_c[-1])
        ends.append((grid.at(p, t), p, t))
    (low, p_low, t_low), (high, p_high, t_high) = ends
    spanned = (p_high - p_low) + (t_high - t_low)
    wanted = 2.0 * (np.asarray(pressure_error) + np.asarray(temperature_error))
    share = np.divide(wanted, spanned, out=np.zeros(np.shape(spanned)), where=spanned > 0)
    half: NDArray[np.float64] = np.abs(high - low) / 2.0 * share
    return half
