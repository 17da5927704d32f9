"""Flame minutes where none are typed: by the mass heated, or by a length and the tip's speed.

By mass it is a judgement to stand beside the typed figure, never a promise.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.check.cut_list import CutList
from estimator.quantities.ranges import above_zero, within, zero_or_above
from estimator.words import Work

__all__ = ["heating_time_min", "with_minutes_by_speed"]

_BY_LENGTH = (Work.WELD, Work.BRAZE, Work.HEAT)


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


def with_minutes_by_speed(cuts: CutList, speed_mm_min: Mapping[str, float]) -> tuple[CutList, NDArray[np.bool_]]:
    """Return the list with flame minutes where a length and a tip's speed give them.

    Parameters
    ----------
    cuts : CutList
        n lines; flame work without minutes or heated mass is filled, all else stays.
    speed_mm_min : mapping of str to float
        Speed of each tip that has one, above zero [mm/min].

    Returns
    -------
    tuple of (CutList, ndarray of bool)
        The list, and the lines that were filled, shape (n,).

    Notes
    -----
    Length of one piece ÷ speed of its tip; a line that names no tip takes the only one. Source: definition.

    Examples
    --------
    >>> cuts = CutList(mark=["W"], quantity=np.ones(1), thickness_mm=np.array([3.0]), tip=["W-3"],
    ...     work=np.array([Work.WELD], dtype=np.int8), cut_length_mm=np.array([400.0]))
    >>> with_minutes_by_speed(cuts, {"W-3": 80.0})[0].flame_min_each
    array([5.])
    """
    only = next(iter(speed_mm_min)) if len(speed_mm_min) == 1 else ""
    speed = np.array([speed_mm_min.get(tip or only, np.nan) for tip in cuts.tip], dtype=np.float64)
    total_each = np.divide(cuts.total_cut_length_mm, np.where(cuts.quantity > 0, cuts.quantity, np.nan))
    length = np.where(np.isnan(cuts.cut_length_mm), total_each, cuts.cut_length_mm)
    untimed = np.isnan(cuts.flame_min_each) & ~(np.nan_to_num(cuts.heated_kg_each) > 0)
    filled = np.isin(cuts.work, _BY_LENGTH) & untimed & (np.nan_to_num(length) > 0) & (np.nan_to_num(speed) > 0)
    if not filled.any():
        return cuts, filled
    minutes = np.where(filled, length / np.where(filled, speed, 1.0), cuts.flame_min_each)
    return replace(cuts, flame_min_each=minutes), filled
