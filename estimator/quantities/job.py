"""A job's physics, whole: which setting each line takes, then metres, minutes, gas and the rows of the job."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.torch_kit import TorchKit
from estimator.check.work_rates import WorkRates
from estimator.quantities.chart import choose_tips, distinct_values, effective_thickness_mm
from estimator.quantities.flame_minutes import heating_time_min
from estimator.quantities.job_rows import JobRow, job_rows
from estimator.quantities.lines import BurntMetres, is_machine
from estimator.quantities.normed import no_normed_work, normed_work
from estimator.quantities.orifice import orifice_oxygen_flow_m3_h
from estimator.quantities.other_work import OtherMinutes
from estimator.quantities.sorted_values import distinct
from estimator.quantities.times import LineQuantities, line_quantities
from estimator.quantities.torch_settings import (
    Settings,
    cutting_settings,
    flame_settings,
    join_settings,
    tip_pressure_bar,
)
from estimator.quantities.torch_times import OnSettings
from estimator.words import BLANK, Work

__all__ = ["ChosenSettings", "JobQuantities", "choose_settings", "job_quantities"]

Floats = NDArray[np.float64]
_FLAME_WORK = (Work.HEAT, Work.BEND, Work.STRAIGHTEN, Work.WELD, Work.BRAZE)


@dataclass(slots=True)
class ChosenSettings:
    """Settings of a job and which one each line takes."""

    settings: Settings
    setting: NDArray[np.int64]
    bevel_setting: NDArray[np.int64]
    thickness_along_cut_mm: Floats
    """NaN for lines that are not cut."""
    bevel_along_cut_mm: Floats
    no_tip: NDArray[np.bool_]
    """Lines, or their bevel pass, that no tip on hand covers."""
    no_chart: NDArray[np.bool_]
    """Lines whose thickness lies outside the chart of their tip."""
    unknown_tip: NDArray[np.bool_]
    """Lines that name a tip which is not on hand, or flame work without a heating tip."""


@dataclass(slots=True)
class JobQuantities:
    """Everything physical about a job."""

    chosen: ChosenSettings
    lines: LineQuantities
    rows: list[JobRow]

    @property
    def settings(self) -> Settings:
        """The job's torch settings."""
        return self.chosen.settings

    @property
    def drawn_oxygen_m3(self) -> float:
        """Oxygen of the whole job: lines and lighting, the gas lost with it [m³]."""
        return float(self.lines.drawn_oxygen_m3.sum()) + sum(row.drawn_oxygen_m3 for row in self.rows)

    @property
    def drawn_fuel_m3(self) -> float:
        """Fuel of the whole job: lines and lighting, the gas lost with it [m³]."""
        return float(self.lines.drawn_fuel_m3.sum()) + sum(row.drawn_fuel_m3 for row in self.rows)

    @property
    def whole_paid_time_min(self) -> float:
        """Paid minutes of the whole job as worked out, lines and rows [min]."""
        return float(self.lines.paid_time_min.sum()) + sum(row.paid_time_min for row in self.rows)


def choose_settings(cuts: CutList, kit: TorchKit, rates: WorkRates, *, keep_tip_in: bool) -> ChosenSettings:
    """Return the torch settings that a list needs.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    kit : TorchKit
        Tips, charts and factors of the job's fuel.
    rates : WorkRates
        The shop's work rates.
    keep_tip_in : bool
        Whether the tip that is in stays in while its range covers the work.

    Returns
    -------
    ChosenSettings
        One setting for each tip, mode and thickness that the list holds, thinnest first; then the flame tips.
    """
    n = len(cuts)
    cutting = np.isin(cuts.work, (Work.CUT, BLANK))
    along, bevel, reach = _thickness_mm(cuts, cutting)
    both = np.concatenate([along, bevel])
    chosen = np.full(2 * n, -1, dtype=np.int64)
    wanted = ~np.isnan(both)
    if len(kit.tips.name):
        chosen[wanted] = choose_tips(np.concatenate([reach, bevel])[wanted], kit.tips, keep_tip_in=keep_tip_in)
    unknown = _take_named_tips(cuts, kit, cutting, chosen[:n], reach)
    no_tip = (wanted & (chosen < 0))[:n] | (wanted & (chosen < 0))[n:]
    machine = np.concatenate([is_machine(cuts.method)] * 2)
    settings, index = _distinct_settings(kit, rates, chosen, machine, both)
    main, of_bevel = index[:n], index[n:]
    unknown |= _take_flame_tips(cuts, kit, main, len(settings))
    whole = join_settings(settings, flame_settings(kit.flame_tips))
    off_chart = _off_chart(whole, main) | _off_chart(whole, of_bevel)
    return ChosenSettings(whole, main, of_bevel, along, bevel, no_tip, off_chart, unknown)


def job_quantities(
    cuts: CutList,
    kit: TorchKit,
    rates: WorkRates,
    *,
    chosen: ChosenSettings,
    metres: BurntMetres,
    other: OtherMinutes,
    net_heating_value_mj_m3: float,
) -> JobQuantities:
    """Return the physics of a job whose lines all have their setting.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    kit : TorchKit
        Tips, charts and factors of the job's fuel.
    rates : WorkRates
        The shop's work rates.
    chosen : ChosenSettings
        What ``choose_settings`` returned for these lines.
    metres : BurntMetres
        What the lines burn.
    other : OtherMinutes
        Other work.
    net_heating_value_mj_m3 : float
        Net heating value of the fuel [MJ/m³ at 15 °C, 101.325 kPa].

    Returns
    -------
    JobQuantities
        Lines and rows; cylinder changes not among the rows.
    """
    lines = line_quantities(
        cuts,
        metres,
        OnSettings(chosen.settings, chosen.setting, chosen.bevel_setting),
        flame_min_each=flame_minutes_each(cuts, chosen, rates, net_heating_value_mj_m3),
        other=other,
        normed=(
            normed_work(cuts, kit.charts[0].cleaning_min_per_m, rates, fuel=kit.fuel)
            if kit.charts
            else no_normed_work(len(cuts))
        ),
        rates=rates,
    )
    return JobQuantities(chosen, lines, job_rows(cuts, lines, chosen.settings, rates))


def flame_minutes_each(
    cuts: CutList, chosen: ChosenSettings, rates: WorkRates, net_heating_value_mj_m3: float
) -> Floats:
    """Return flame minutes of one piece, all its heats: as typed, else from the mass heated; zero for other lines.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    chosen : ChosenSettings
        Their settings.
    rates : WorkRates
        The shop's work rates.
    net_heating_value_mj_m3 : float
        Net heating value of the fuel [MJ/m³].

    Returns
    -------
    ndarray of float, shape (n,)
        Flame minutes [min].
    """
    flame_line = np.isin(cuts.work, _FLAME_WORK) & (chosen.setting >= 0)
    minutes = np.where(flame_line, np.nan_to_num(cuts.flame_min_each), 0.0)
    by_mass = flame_line & np.isnan(cuts.flame_min_each) & (np.nan_to_num(cuts.heated_kg_each) > 0)
    if by_mass.any():
        flow = chosen.settings.fuel_flow_m3_h[chosen.setting[by_mass]]
        minutes[by_mass] = heating_time_min(
            cuts.heated_kg_each[by_mass],
            fuel_flow_m3_h=flow,
            net_mj_m3=net_heating_value_mj_m3,
            heat_mj_kg=rates.heat_mj_per_kg,
            efficiency=rates.heating_efficiency,
        )
    return minutes * np.nan_to_num(cuts.heats, nan=1.0)


def _thickness_mm(cuts: CutList, cutting: NDArray[np.bool_]) -> tuple[Floats, Floats, Floats]:
    """Return thickness along the cut and along the bevel pass, and what the tip of the cut must reach through."""
    degrees = np.nan_to_num(cuts.bevel_deg)
    own_pass = ~np.isnan(cuts.bevel_length_mm) & (degrees > 0) & cutting
    stack = np.nan_to_num(cuts.stack, nan=1.0)
    along = effective_thickness_mm(cuts.thickness_mm, np.where(own_pass, 0.0, degrees), stack)
    along = np.where(cutting, along, np.nan)
    above_root = np.where(own_pass, cuts.thickness_mm - np.nan_to_num(cuts.root_face_mm), np.nan)
    sides = np.nan_to_num(cuts.bevel_sides, nan=1.0)
    bevel = effective_thickness_mm(above_root / np.where(own_pass, sides, 1.0), degrees)
    # Time and gas follow the mean thickness; the tip must reach the thickest part, as a round bar's whole diameter.
    reach = np.fmax(along, np.where(cutting, cuts.thickest_mm * stack, np.nan))
    return along, bevel, reach


def _take_named_tips(
    cuts: CutList, kit: TorchKit, cutting: NDArray[np.bool_], chosen: NDArray[np.int64], reach: Floats
) -> NDArray[np.bool_]:
    """Put the tip that a cutting line names in the place of the choice; return the lines whose tip is not on hand."""
    unknown = np.zeros(len(cuts), dtype=np.bool_)
    if not any(cuts.tip):
        return unknown
    by_name = {name: i for i, name in enumerate(kit.tips.name)}
    for line, name in enumerate(cuts.tip):
        if not name or not cutting[line]:
            continue
        tip = by_name.get(name, -1)
        unknown[line] = tip < 0
        covers = tip >= 0 and kit.tips.from_mm[tip] <= reach[line] <= kit.tips.to_mm[tip]
        chosen[line] = tip if covers else -1
    return unknown


def _take_flame_tips(cuts: CutList, kit: TorchKit, setting: NDArray[np.int64], first: int) -> NDArray[np.bool_]:
    """Put the heating tip of each line of flame work in its place, the only one unnamed; return lines without one."""
    flame_line = np.isin(cuts.work, _FLAME_WORK)
    names = {tip.name: first + i for i, tip in enumerate(kit.flame_tips)}
    only = next(iter(names.values())) if len(names) == 1 else -1
    for line in np.flatnonzero(flame_line):
        setting[line] = names.get(cuts.tip[line], only if not cuts.tip[line] else -1)
    return np.asarray(flame_line & (setting < 0))


def _off_chart(settings: Settings, setting: NDArray[np.int64]) -> NDArray[np.bool_]:
    """Return the lines whose setting the chart of its tip does not reach."""
    if not len(settings):
        return np.zeros(len(setting), dtype=np.bool_)
    missing = np.isnan(settings.speed_mm_min) | np.isnan(settings.fuel_flow_m3_h) | np.isnan(settings.kerf_mm)
    return np.asarray((setting >= 0) & (missing & ~settings.is_flame)[np.maximum(setting, 0)])


def _distinct_settings(
    kit: TorchKit, rates: WorkRates, chosen: NDArray[np.int64], machine: NDArray[np.bool_], along: Floats
) -> tuple[Settings, NDArray[np.int64]]:
    """Return one setting for each distinct thickness, tip and mode, and the setting of every line."""
    has = chosen >= 0
    # Thicknesses that differ only by binary dust (0.5 in and 12.7 mm) are one setting.
    values, at = distinct_values(np.round(along[has], 6))
    keys = (at * max(len(kit.tips.name), 1) + chosen[has]) * 2 + machine[has]
    known = distinct(keys)
    index = np.full(len(chosen), -1, dtype=np.int64)
    index[has] = np.searchsorted(known, keys)
    by_machine = known % 2 > 0
    tip = known // 2 % max(len(kit.tips.name), 1)
    thickness = values[known // 2 // max(len(kit.tips.name), 1)]
    settings = cutting_settings(
        tip,
        by_machine,
        thickness,
        tips=kit.tips,
        charts=kit.charts,
        factors=kit.factors,
        orifice_flow_m3_h=_bore_flow_m3_h(kit, rates, tip, thickness),
        fuel=kit.fuel,
        rates=rates,
    )
    return settings, index


def _bore_flow_m3_h(kit: TorchKit, rates: WorkRates, tip: NDArray[np.int64], thickness_mm: Floats) -> Floats:
    """Return what the bore of each setting's tip passes at its pressure."""
    if not len(tip):
        return np.empty(0)
    return orifice_oxygen_flow_m3_h(
        kit.tips.bore_mm[tip],
        tip_pressure_bar(tip, thickness_mm, kit.tips),
        density_kg_m3=kit.oxygen_density_kg_m3,
        discharge_coefficient=rates.orifice_coefficient,
    )
