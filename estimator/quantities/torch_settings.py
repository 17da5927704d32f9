"""Torch settings: for each tip and thickness that a job needs, the figures that all its lines share.

A job of ten thousand lines has a few dozen settings; lines point at theirs, so chart work is done once each.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from estimator.check.torch_figures import Chart, FlameTip, TipFactors, TipFigures
from estimator.check.work_rates import WorkRates
from estimator.quantities.chart import interpolate_log
from estimator.quantities.chart_reading import ChartReading, cleaning_rate_min_per_m, read_charts

__all__ = ["Settings", "cutting_settings", "flame_settings", "join_settings"]

Floats = NDArray[np.float64]


@dataclass(slots=True)
class Settings:
    """Figures of m settings: shape (m,) each. Cutting settings come first, flame tips after."""

    tip: list[str]
    is_flame: NDArray[np.bool_]
    machine: NDArray[np.bool_]
    thickness_mm: Floats
    """Thickness along the cut [mm]; NaN for flame tips."""
    bore_mm: Floats
    oxygen_pressure_bar: Floats
    fuel_pressure_bar: Floats
    chart_speed_mm_min: Floats
    speed_low: Floats
    """Low and high as shares of the likely figure."""
    speed_high: Floats
    speed_factor: Floats
    """The shop's calibrated factor times that of the oxygen's purity."""
    cutting_oxygen_m3_h: Floats
    oxygen_low: Floats
    oxygen_high: Floats
    oxygen_factor: Floats
    fuel_m3_h: Floats
    fuel_low: Floats
    fuel_high: Floats
    fuel_factor: Floats
    preheat_per_fuel: Floats
    preheat_factor: Floats
    kerf_mm: Floats
    pierce_s: Floats
    """NaN where the chart has none."""
    edge_start_s: Floats
    start_factor: Floats
    cleaning_min_per_m: Floats

    def __len__(self) -> int:
        return len(self.tip)

    @property
    def speed_mm_min(self) -> Floats:
        """Speed of a long, clean, square cut [mm/min]."""
        return self.chart_speed_mm_min * self.speed_factor

    @property
    def cutting_flow_m3_h(self) -> Floats:
        """Cutting oxygen with the jet on [m³/h]."""
        return self.cutting_oxygen_m3_h * self.oxygen_factor

    @property
    def fuel_flow_m3_h(self) -> Floats:
        """Fuel with the flame lit [m³/h]."""
        return self.fuel_m3_h * self.fuel_factor

    @property
    def preheat_flow_m3_h(self) -> Floats:
        """Preheat oxygen with the flame lit [m³/h]."""
        return self.fuel_flow_m3_h * self.preheat_per_fuel * self.preheat_factor


def cutting_settings(
    tip_index: NDArray[np.int64],
    machine: NDArray[np.bool_],
    thickness_mm: Floats,
    *,
    tips: TipFigures,
    charts: Sequence[Chart],
    factors: Sequence[TipFactors],
    orifice_flow_m3_h: Floats,
    fuel: str,
    rates: WorkRates,
) -> Settings:
    """Return the figures of m cutting settings.

    Parameters
    ----------
    tip_index : ndarray of int, shape (m,)
        Tip of each setting, an index into ``tips``.
    machine : ndarray of bool, shape (m,)
        Whether the torch runs on a track.
    thickness_mm : ndarray of float, shape (m,)
        Thickness along the cut [mm].
    tips : TipFigures
        Tips on hand.
    charts : sequence of Chart, length of ``tips``
        Chart of each tip: the shop's own curve or the built-in one, whole.
    factors : sequence of TipFactors, length of ``tips``
        Calibrated factors of each tip.
    orifice_flow_m3_h : ndarray of float, shape (m,)
        Choked flow of the bore at the interpolated pressure [m³/h at 15 °C, 101.325 kPa].
    fuel : str
        Fuel of the job.
    rates : WorkRates
        The shop's work rates.

    Returns
    -------
    Settings
        Figures; NaN where a chart does not reach a thickness.
    """
    m = len(tip_index)
    chart = read_charts(tip_index, machine, thickness_mm, charts=charts, factors=factors)
    speed, speed_low, speed_high = chart.band(lambda of: of.speed_mm_min)
    fuel_m3_h, fuel_low, fuel_high = chart.band(lambda of: of.chart.fuel_m3_h)
    pierce_s = chart.likely(lambda of: of.chart.pierce_s)
    points = rates.base_purity_percent - rates.oxygen_purity_percent
    speed_of_purity = 1.0 - rates.purity_speed_per_point * points
    oxygen_of_purity = 1.0 + rates.purity_oxygen_per_point * points
    return Settings(
        tip=[tips.name[int(i)] for i in tip_index],
        is_flame=np.zeros(m, dtype=np.bool_),
        machine=machine,
        thickness_mm=thickness_mm,
        bore_mm=tips.bore_mm[tip_index],
        oxygen_pressure_bar=tip_pressure_bar(tip_index, thickness_mm, tips),
        fuel_pressure_bar=tips.fuel_pressure_bar[tip_index],
        chart_speed_mm_min=speed,
        speed_low=speed_low / speed,
        speed_high=speed_high / speed,
        speed_factor=chart.factor(lambda of: of.own_speed) * speed_of_purity,
        cutting_oxygen_m3_h=_cutting_oxygen_m3_h(chart, tips.given_flow_m3_h[tip_index], orifice_flow_m3_h),
        oxygen_low=tips.flow_low[tip_index],
        oxygen_high=tips.flow_high[tip_index],
        # Purity raises the oxygen of a metre; the metre also takes longer, so the flow rises by what is left.
        oxygen_factor=chart.factor(lambda of: of.own.cutting_oxygen) * oxygen_of_purity * speed_of_purity,
        fuel_m3_h=fuel_m3_h,
        fuel_low=fuel_low / fuel_m3_h,
        fuel_high=fuel_high / fuel_m3_h,
        fuel_factor=chart.factor(lambda of: of.own.fuel),
        preheat_per_fuel=np.full(m, preheat_ratio(fuel, rates)),
        preheat_factor=chart.factor(lambda of: of.own.preheat_oxygen),
        kerf_mm=chart.likely(lambda of: of.chart.kerf_mm),
        pierce_s=pierce_s,
        edge_start_s=_edge_start_s(pierce_s, thickness_mm, rates),
        start_factor=chart.factor(lambda of: of.own.start_time) * rates.start_factor(fuel),
        cleaning_min_per_m=chart.each(
            lambda of, at: cleaning_rate_min_per_m(at, of.chart.cleaning_min_per_m, rates.clean_above_30_per_mm)
        ),
    )


def _cutting_oxygen_m3_h(chart: ChartReading, listed_m3_h: Floats, orifice_m3_h: Floats) -> Floats:
    """Return the flow that the shop's own chart gives, without one that of its list of tips, else the bore's."""
    given = listed_m3_h.astype(np.float64)
    for of in chart.groups:
        if (flow := of.chart.cutting_oxygen_m3_h) is not None:
            given[of.here] = interpolate_log(chart.thickness_mm[of.here], flow.thickness_mm, flow.likely)
    return np.where(np.isnan(given), orifice_m3_h, given)


def _edge_start_s(pierce_s: Floats, thickness_mm: Floats, rates: WorkRates) -> Floats:
    """Preheat of an edge: a share of the pierce; beyond the pierce table in proportion to thickness."""
    thick = rates.edge_start_thick_s * thickness_mm / 100.0
    return np.where(np.isnan(pierce_s), thick, rates.edge_start_share * pierce_s)


def flame_settings(tips: Sequence[FlameTip]) -> Settings:
    """Return the figures of heating and welding tips: no cutting oxygen, no speed.

    Parameters
    ----------
    tips : sequence of FlameTip, length m
        Tips of the shop book.

    Returns
    -------
    Settings
        One setting a tip.
    """
    m = len(tips)

    def column(values: Sequence[float]) -> Floats:
        return np.array(values, dtype=np.float64)

    nan, one, zero = np.full(m, np.nan), np.ones(m), np.zeros(m)
    fuel = column([t.fuel_m3_h for t in tips])
    return Settings(
        tip=[t.name for t in tips],
        is_flame=np.ones(m, dtype=np.bool_),
        machine=np.zeros(m, dtype=np.bool_),
        thickness_mm=nan,
        bore_mm=nan,
        oxygen_pressure_bar=column([t.oxygen_pressure_bar for t in tips]),
        fuel_pressure_bar=column([t.fuel_pressure_bar for t in tips]),
        chart_speed_mm_min=nan,
        speed_low=one,
        speed_high=one,
        speed_factor=one,
        cutting_oxygen_m3_h=zero,
        oxygen_low=one,
        oxygen_high=one,
        oxygen_factor=one,
        fuel_m3_h=fuel,
        fuel_low=column([t.low for t in tips]),
        fuel_high=column([t.high for t in tips]),
        fuel_factor=one,
        preheat_per_fuel=column([t.preheat_oxygen_m3_h for t in tips]) / np.where(fuel > 0, fuel, np.nan),
        preheat_factor=one,
        kerf_mm=zero,
        pierce_s=nan,
        edge_start_s=zero,
        start_factor=one,
        cleaning_min_per_m=zero,
    )


def join_settings(first: Settings, second: Settings) -> Settings:
    """Return two groups of settings as one, the first group's numbers unchanged.

    Parameters
    ----------
    first, second : Settings
        Groups of m and k settings.

    Returns
    -------
    Settings
        m + k settings.
    """
    joined: dict[str, Any] = {}
    for name in Settings.__slots__:
        one, two = getattr(first, name), getattr(second, name)
        joined[name] = one + two if isinstance(one, list) else np.concatenate([one, two])
    return Settings(**joined)


def tip_pressure_bar(tip_index: NDArray[np.int64], thickness_mm: Floats, tips: TipFigures) -> Floats:
    """Return the oxygen pressure of each setting, interpolated in log thickness inside its tip's range.

    Parameters
    ----------
    tip_index : ndarray of int, shape (m,)
        Tip of each setting.
    thickness_mm : ndarray of float, shape (m,)
        Thickness along the cut [mm].
    tips : TipFigures
        Tips on hand.

    Returns
    -------
    ndarray of float, shape (m,)
        Pressure [bar gauge].

    Notes
    -----
    Source: definition.
    """
    low, high = tips.from_mm[tip_index], tips.to_mm[tip_index]
    with np.errstate(invalid="ignore", divide="ignore"):
        share = np.clip(np.log(thickness_mm / low) / np.log(high / low), 0.0, 1.0)
    at_from, at_to = tips.pressure_from_bar[tip_index], tips.pressure_to_bar[tip_index]
    return at_from + np.nan_to_num(share) * (at_to - at_from)


def preheat_ratio(fuel: str, rates: WorkRates) -> float:
    """Return preheat oxygen per volume of fuel; ValueError for a fuel without a ratio."""
    ratios = {
        "acetylene": rates.preheat_acetylene,
        "propane": rates.preheat_propane,
        "natural gas": rates.preheat_natural_gas,
        "propylene": rates.preheat_propylene,
        "mps": rates.preheat_mps,
    }
    if fuel not in ratios:
        raise ValueError(f"no preheat ratio for {fuel!r}; fuels: {', '.join(ratios)}")
    return ratios[fuel]
