"""What the torch does on every line: speeds, cutting, starts, moves and settings of guides, in minutes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.check.cut_list import CutList
from estimator.check.work_rates import WorkRates
from estimator.quantities.lines import BurntMetres, is_machine, surface_speed, surface_start
from estimator.quantities.torch_settings import Settings

__all__ = ["OnSettings", "TorchTimes", "over", "torch_times"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class OnSettings:
    """Which of m settings each of n lines and its bevel pass take; -1 for none."""

    settings: Settings
    setting: NDArray[np.int64]
    bevel_setting: NDArray[np.int64]

    def main(self, values: ArrayLike) -> Floats:
        """Return a setting's figure on each line; zero for lines without one."""
        return _at(values, self.setting)

    def bevel(self, values: ArrayLike) -> Floats:
        """Return the figure of the bevel pass's setting; zero for lines without one."""
        return _at(values, self.bevel_setting)


@dataclass(frozen=True, slots=True)
class TorchTimes:
    """Whole lines, shape (n,) each, in minutes unless the name says otherwise."""

    long_run_speed_mm_min: Floats
    surface_speed: Floats
    surface_start: Floats
    cut_time_min: Floats
    bevel_time_min: Floats
    pierce_time_min: Floats
    start_time_min: Floats
    """Pierces, edge starts and those of bevel passes."""
    bevel_start_min: Floats
    move_time_min: Floats
    setting_time_min: Floats
    """Guides set with the flame out."""


def torch_times(cuts: CutList, metres: BurntMetres, on: OnSettings, rates: WorkRates) -> TorchTimes:
    """Return what the torch does on every line.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    metres : BurntMetres
        What they burn.
    on : OnSettings
        Their settings.
    rates : WorkRates
        The shop's work rates.

    Returns
    -------
    TorchTimes
        Shape (n,) each.

    Notes
    -----
    Formulas stand in ``docs/method.md``, section Time.
    """
    of_surface = surface_speed(cuts.surface, rates)
    speed = _long_run_speed(cuts, on, of_surface, rates)
    starts_of_surface = surface_start(cuts.surface, rates)
    start_factor = on.main(on.settings.start_factor) * starts_of_surface / 60.0
    bevel_factor = on.bevel(on.settings.start_factor) * starts_of_surface / 60.0
    pierce = _pierce_min(cuts, metres, on, start_factor, rates)
    edge_starts = metres.passes * (metres.edge_starts_each + metres.restarts_each) + metres.once_starts
    bevel_start = metres.passes * metres.bevel_starts_each * on.bevel(on.settings.edge_start_s) * bevel_factor
    move, setting = _moves(metres, edge_starts, (on.setting >= 0) & (metres.passes > 0), rates)
    return TorchTimes(
        long_run_speed_mm_min=speed,
        surface_speed=of_surface,
        surface_start=starts_of_surface,
        cut_time_min=_cut_min(cuts, metres, speed, rates),
        bevel_time_min=_bevel_min(cuts, metres, on, of_surface, rates),
        pierce_time_min=pierce,
        start_time_min=pierce + edge_starts * on.main(on.settings.edge_start_s) * start_factor + bevel_start,
        bevel_start_min=bevel_start,
        move_time_min=move,
        setting_time_min=setting,
    )


def over(value: Floats, by: Floats) -> Floats:
    """Divide, zero where there is nothing to divide."""
    return np.divide(value, by, out=np.zeros_like(value), where=(by > 0) & (value != 0))


def _at(values: ArrayLike, index: NDArray[np.int64]) -> Floats:
    figures = np.asarray(values, dtype=np.float64)
    return np.append(figures, 0.0)[index]  # a line without a setting has -1, and so the last


def _long_run_speed(cuts: CutList, on: OnSettings, of_surface: Floats, rates: WorkRates) -> Floats:
    """Speed of a long straight run, with its surface and a bevel all round in it [mm/min]."""
    whole_bevel = (np.nan_to_num(cuts.bevel_deg) > 0) & np.isnan(cuts.bevel_length_mm)
    return on.main(on.settings.speed_mm_min) * of_surface * np.where(whole_bevel, rates.bevel_speed, 1.0)


def _short_speed(cuts: CutList, rates: WorkRates) -> Floats:
    return np.where(is_machine(cuts.method), 1.0, rates.short_straight_speed)


def _cut_min(cuts: CutList, m: BurntMetres, speed_mm_min: Floats, rates: WorkRates) -> Floats:
    """Metres as if all ran at the speed of a long run, over that speed."""
    short = _short_speed(cuts, rates)
    circle = np.where(is_machine(cuts.method), 1.0, rates.circle_speed)
    a_pass = m.long_m_each + m.short_m_each / short + m.circle_m_each / circle
    chart_m = m.passes * a_pass + m.once_long_m + m.once_short_m / short
    return over(chart_m * 1000.0, speed_mm_min * np.nan_to_num(cuts.torches, nan=1.0))


def _bevel_min(cuts: CutList, m: BurntMetres, on: OnSettings, of_surface: Floats, rates: WorkRates) -> Floats:
    speed = on.bevel(on.settings.speed_mm_min) * of_surface * rates.bevel_speed
    speed = speed * np.where(m.bevel_is_short, _short_speed(cuts, rates), 1.0)
    return over(m.passes * m.bevel_m_each * 1000.0, speed)


def _pierce_min(cuts: CutList, m: BurntMetres, on: OnSettings, start_factor: Floats, rates: WorkRates) -> Floats:
    by_hand = np.where(is_machine(cuts.method), 1.0, rates.pierce_time_hand)
    pierce_s = np.nan_to_num(on.main(on.settings.pierce_s)) * by_hand
    return m.passes * m.pierces_each * pierce_s * start_factor


def _moves(m: BurntMetres, edge_starts: Floats, burning: NDArray[np.bool_], rates: WorkRates) -> tuple[Floats, Floats]:
    """Return moves with the flame lit, guides being set among them, and guides set with the flame out."""
    set_starts = m.passes * m.set_starts_each + np.where(m.set_starts_each > 0, m.once_starts, 0.0)
    straightedge = set_starts * rates.straightedge_min
    track = (m.passes * m.runs_each + m.once_runs) * rates.track_run_min
    lit = straightedge * rates.straightedge_lit_share + track * rates.track_lit_share
    all_starts = edge_starts + m.passes * (m.bevel_starts_each + m.pierces_each)
    move = np.where(burning, (all_starts - set_starts) * rates.move_min + lit, 0.0)
    return move, np.where(burning, straightedge + track - lit, 0.0)
