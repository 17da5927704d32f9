"""Minutes of flame that it takes to heat steel: a judgement to stand beside the typed figure, never a promise."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.quantities.ranges import above_zero, within, zero_or_above

__all__ = ["heating_time_min"]


def heating_time_min(
    heated_kg: ArrayLike, fuel_flow_m3_h: ArrayLike, *, heat_mj_kg: float, net_mj_m3: float, efficiency: float
) -> NDArray[np.float64]:
    """Return the minutes of flame that bring a mass of steel to heat.

    Parameters
    ----------
    heated_kg : array_like of float, any shape
        Mass that is to be hot, zero or above [kg].
    fuel_flow_m3_h : array_like of float, broadcast against it
        Fuel flow of the heating tip, above zero [m³/h].
    heat_mj_kg : float
        Heat to reach the temperature, above zero [MJ/kg]; 0.62 to about 900 °C, judgement.
    net_mj_m3 : float
        Net heating value of the fuel at the state of the flow, above zero [MJ/m³].
    efficiency : float
        Share of the fuel's heat that stays in the steel, above 0, up to 1; 0.25, judgement.

    Returns
    -------
    ndarray of float, broadcast shape
        Flame time [min].

    Raises
    ------
    ValueError
        When a value is out of range.

    Notes
    -----
    ``kg x MJ/kg ÷ (m³/h x MJ/m³ x share) x 60``. Heat that runs off into a large piece is inside the share; a thick or
    long piece takes more.

    Source: heat balance; common practice, no source, takes half as long again and more.

    Examples
    --------
    >>> heating_time_min(1.9, 2.27, heat_mj_kg=0.62, net_mj_m3=53.9, efficiency=0.25).round(1)
    np.float64(2.3)
    """
    share = above_zero(efficiency=within(0.0, 1.0, efficiency=efficiency))
    heat_mj_h = above_zero(fuel_flow_m3_h=fuel_flow_m3_h) * above_zero(net_mj_m3=net_mj_m3) * share
    return zero_or_above(heated_kg=heated_kg) * above_zero(heat_mj_kg=heat_mj_kg) / heat_mj_h * 60.0
