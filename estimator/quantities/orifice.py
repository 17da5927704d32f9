"""Cutting-oxygen flow through a tip's bore, from its pressure: isentropic flow with a discharge coefficient.

The bore is taken as a cylinder; a tip with a flared outlet passes a little less for its stamped size.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.quantities.ranges import above_zero, within, zero_or_above

__all__ = [
    "ATMOSPHERE_BAR",
    "CHOKED_PRESSURE_BAR",
    "DISCHARGE_COEFFICIENT",
    "orifice_oxygen_flow_m3_h",
]

ATMOSPHERE_BAR = 1.01325
DISCHARGE_COEFFICIENT = 0.9
"""Judgement: a short drilled hole with a rounded entry passes 0.85 to 0.95 of the ideal flow."""
_HEAT_CAPACITY_RATIO = 1.4  # oxygen near room temperature
_GAS_CONSTANT_J_KG_K = 8.31446261815324 / 0.0319988  # CODATA 2018; IUPAC molar mass of O2
_UPSTREAM_C = (70.0 - 32.0) / 1.8
_CRITICAL_RATIO = (2.0 / (_HEAT_CAPACITY_RATIO + 1.0)) ** (_HEAT_CAPACITY_RATIO / (_HEAT_CAPACITY_RATIO - 1.0))

CHOKED_PRESSURE_BAR = ATMOSPHERE_BAR / _CRITICAL_RATIO - ATMOSPHERE_BAR
"""Gauge pressure from which the flow is choked and proportional to absolute pressure, 0.905 bar."""


def orifice_oxygen_flow_m3_h(
    bore_mm: ArrayLike,
    pressure_bar: ArrayLike,
    *,
    density_kg_m3: float,
    discharge_coefficient: float = DISCHARGE_COEFFICIENT,
    upstream_c: float = _UPSTREAM_C,
) -> NDArray[np.float64]:
    """Return the oxygen flow through a cylindrical bore into open air.

    Parameters
    ----------
    bore_mm : array_like of float, any shape
        Bore of the cutting-oxygen hole, above zero [mm].
    pressure_bar : array_like of float, broadcast against ``bore_mm``
        Gauge pressure at the tip with the lever down, zero or above [bar].
    density_kg_m3 : float
        Density of oxygen at the state in which the answer is wanted, above zero [kg/m³].
    discharge_coefficient : float
        Share of the ideal flow, from 0 to 1.
    upstream_c : float
        Temperature of the oxygen before the bore [°C].

    Returns
    -------
    ndarray of float, broadcast shape
        Flow at the state of ``density_kg_m3`` [m³/h].

    Raises
    ------
    ValueError
        When a bore, a density or a coefficient is not above zero, or a pressure is below zero.

    Notes
    -----
    ``m = Cd A p₀ √(2γ/((γ−1) R T₀) (r^(2/γ) − r^((γ+1)/γ)))`` with ``r`` the larger of outlet ÷ inlet pressure and the
    critical ratio 0.528; above 0.905 bar gauge it is choked: ``0.605 A (p + 1.013)`` in m³/h at 70 °F, 1 atm.
    Ideal gas, no heat exchange, no pressure loss between gauge and bore.

    Source: compressible flow of an ideal gas (any gas-dynamics text); ``Cd`` is judgement.

    Examples
    --------
    >>> orifice_oxygen_flow_m3_h(1.6, 2.8, density_kg_m3=1.3261).round(2)
    np.float64(4.64)
    """
    bore = above_zero(bore_mm=bore_mm)
    inlet_pa = (zero_or_above(pressure_bar=pressure_bar) + ATMOSPHERE_BAR) * 1e5
    coefficient = above_zero(discharge_coefficient=within(0.0, 1.0, discharge_coefficient=discharge_coefficient))
    area_m2 = np.pi / 4.0 * (bore / 1000.0) ** 2
    kg_s = coefficient * area_m2 * inlet_pa * _mass_flux_factor(ATMOSPHERE_BAR * 1e5 / inlet_pa, upstream_c)
    return kg_s * 3600.0 / above_zero(density_kg_m3=density_kg_m3)


def _mass_flux_factor(outlet_over_inlet: NDArray[np.float64], upstream_c: float) -> NDArray[np.float64]:
    """Mass flow per area and inlet pressure [s/m]."""
    gamma = _HEAT_CAPACITY_RATIO
    ratio = np.maximum(outlet_over_inlet, _CRITICAL_RATIO)
    scale = 2.0 * gamma / ((gamma - 1.0) * _GAS_CONSTANT_J_KG_K * (upstream_c + 273.15))
    spread = np.maximum(ratio ** (2.0 / gamma) - ratio ** ((gamma + 1.0) / gamma), 0.0)
    factor: NDArray[np.float64] = np.sqrt(scale * spread)
    return factor
