"""Torch settings: for each tip and thickness that a job needs, the figures that all its lines share.

A job of ten thousand lines has a few dozen settings; lines point at theirs, so chart work is done once each.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from estimator.check.torch_figures import Chart, Curve, FlameTip, TipFactors, TipFigures
from estimator.check.work_rates import WorkRates
from estimator.quantities.chart import interpolate_log
from estimator.quantities.sorted_values import distinct

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
    read = _read_charts(tip_index, machine, thickness_mm, charts, factors, rates)
    listed = tips.given_flow_m3_h[tip_index].astype(np.float64)
    by_chart = np.array([charts[int(tip)].cutting_oxygen_m3_h is not None for tip in tip_index], dtype=np.bool_)
    given = np.where(by_chart, read["flow"], listed)
    points = rates.base_purity_percent - rates.oxygen_purity_percent
    speed_of_purity = 1.0 - rates.purity_speed_per_point * points
    return Settings(
        tip=[tips.name[int(i)] for i in tip_index],
        is_flame=np.zeros(m, dtype=np.bool_),
        machine=machine,
        thickness_mm=thickness_mm,
        bore_mm=tips.bore_mm[tip_index],
        oxygen_pressure_bar=tip_pressure_bar(tip_index, thickness_mm, tips),
        fuel_pressure_bar=tips.fuel_pressure_bar[tip_index],
        chart_speed_mm_min=read["speed"],
        speed_low=read["low"] / read["speed"],
        speed_high=read["high"] / read["speed"],
        speed_factor=read["own speed"] * speed_of_purity,
        cutting_oxygen_m3_h=np.where(np.isnan(given), orifice_flow_m3_h, given),
        oxygen_low=tips.flow_low[tip_index],
        oxygen_high=tips.flow_high[tip_index],
        # Purity raises the oxygen of a metre; the metre also takes longer, so the flow rises by what is left.
        oxygen_factor=read["own cut"] * (1.0 + rates.purity_oxygen_per_point * points) * speed_of_purity,
        fuel_m3_h=read["fuel"],
        fuel_low=read["f_low"] / read["fuel"],
        fuel_high=read["f_high"] / read["fuel"],
        fuel_factor=read["own fuel"],
        preheat_per_fuel=np.full(m, preheat_ratio(fuel, rates)),
        preheat_factor=read["own pre"],
        kerf_mm=read["kerf"],
        pierce_s=read["pierce"],
        edge_start_s=_edge_start_s(read["pierce"], thickness_mm, rates),
        start_factor=read["own start"] * start_factor(fuel, rates),
        cleaning_min_per_m=read["clean"],
    )


_READ = ("speed", "low", "high", "fuel", "f_low", "f_high", "kerf", "pierce", "clean", "flow")
_OWN = {"own cut": "cutting_oxygen", "own pre": "preheat_oxygen", "own fuel": "fuel", "own start": "start_time"}


def _read_charts(
    tip_index: NDArray[np.int64],
    machine: NDArray[np.bool_],
    thickness_mm: Floats,
    charts: Sequence[Chart],
    factors: Sequence[TipFactors],
    rates: WorkRates,
) -> dict[str, Floats]:
    """Return what each setting's chart and own factors say, NaN where they say nothing."""
    m = len(tip_index)
    read = {name: np.full(m, np.nan) for name in (*_READ, "own speed", *_OWN)}
    for tip in distinct(tip_index):
        chart, factor = charts[int(tip)], factors[int(tip)]
        for is_machine in (False, True):
            here = (tip_index == tip) & (machine == is_machine)
            at = thickness_mm[here]
            curve = chart.machine_speed_mm_min if is_machine else chart.hand_speed_mm_min
            _fill(read, here, at, ("speed", "low", "high"), curve)
            _fill(read, here, at, ("fuel", "f_low", "f_high"), chart.fuel_m3_h)
            read["kerf"][here] = interpolate_log(at, chart.kerf_mm.thickness_mm, chart.kerf_mm.likely)
            read["pierce"][here] = interpolate_log(at, chart.pierce_s.thickness_mm, chart.pierce_s.likely)
            read["clean"][here] = cleaning_rate_min_per_m(at, chart.cleaning_min_per_m, rates.clean_above_30_per_mm)
            if (flow := chart.cutting_oxygen_m3_h) is not None:
                read["flow"][here] = interpolate_log(at, flow.thickness_mm, flow.likely)
            read["own speed"][here] = factor.machine_speed if is_machine else factor.hand_speed
            for name, of_factor in _OWN.items():
                read[name][here] = getattr(factor, of_factor)
    return read


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

    def column(values: Mapping[int, float] | Sequence[float]) -> Floats:
        return np.array(list(values), dtype=np.float64)

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


def cleaning_rate_min_per_m(thickness_mm: Floats, curve: Curve, above_per_mm: float) -> Floats:
    """Return the slag-cleaning norm of the next thickness up; beyond the table in proportion to thickness.

    Parameters
    ----------
    thickness_mm : ndarray of float, shape (n,)
        Thickness [mm].
    curve : Curve
        Norms "to 6, 8, 10 ... mm" [min/m].
    above_per_mm : float
        Minutes per metre for each millimetre beyond the last row [min/m/mm].

    Returns
    -------
    ndarray of float, shape (n,)
        Minutes per metre of edge [min/m].

    Notes
    -----
    Source: ENiR E40-2-4 A inside the table; judgement beyond it.

    Examples
    --------
    >>> steps = Curve(*(np.array(v) for v in ([6.0, 30.0], [0.9, 2.7], [0.9, 2.7], [0.9, 2.7])))
    >>> cleaning_rate_min_per_m(np.array([5.0, 6.5, 40.0]), steps, 0.09)
    array([0.9, 2.7, 3.6])
    """
    row = np.searchsorted(curve.thickness_mm, thickness_mm - 1e-9)
    inside = row < len(curve.thickness_mm)
    norm = curve.likely[np.minimum(row, len(curve.thickness_mm) - 1)]
    return np.where(inside, norm, above_per_mm * thickness_mm)


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


def start_factor(fuel: str, rates: WorkRates) -> float:
    """Return how much longer a start takes than with acetylene; ValueError for an unknown fuel."""
    factors = {
        "acetylene": 1.0,
        "propane": rates.start_propane,
        "natural gas": rates.start_natural_gas,
        "propylene": rates.start_propylene,
        "mps": rates.start_propylene,
    }
    if fuel not in factors:
        raise ValueError(f"no start factor for {fuel!r}; fuels: {', '.join(factors)}")
    return factors[fuel]


def _fill(
    into: dict[str, Floats], here: NDArray[np.bool_], at: Floats, names: tuple[str, str, str], curve: Curve
) -> None:
    for name, values in zip(names, (curve.likely, curve.low, curve.high), strict=True):
        into[name][here] = interpolate_log(at, curve.thickness_mm, values)
