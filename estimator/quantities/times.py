"""Times, gas and mass of every line, from its burnt metres and its torch setting."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.work_rates import WorkRates
from estimator.quantities.lines import (
    BurntMetres,
    grinding_min_per_m,
    is_machine,
    mass_each_kg,
    surface_speed,
    surface_start,
)
from estimator.quantities.normed import NormedWork
from estimator.quantities.torch_settings import Settings
from estimator.words import BLANK, Work

__all__ = ["LineQuantities", "line_quantities"]

Floats = NDArray[np.float64]


@dataclass(slots=True)
class LineQuantities:
    """Everything physical about n lines, whole quantities (not per piece) unless a name says *each*: shape (n,)."""

    setting: NDArray[np.int64]
    """Setting of each line; -1 for lines without a torch."""
    bevel_setting: NDArray[np.int64]
    """Setting of the bevel pass; -1 without one."""
    metres: BurntMetres
    cut_m: Floats
    travel_speed_mm_min: Floats
    """Mean speed over the line with every factor in it; NaN where nothing is cut."""
    long_run_speed_mm_min: Floats
    """Speed of a long straight run with surface and bevel in it; zero for lines without a torch."""
    surface_speed: Floats
    surface_start: Floats
    cut_time_min: Floats
    bevel_time_min: Floats
    bevel_flame_min: Floats
    """Bevel passes and their starts: the flame burns as at the bevel's own setting [min]."""
    pierce_time_min: Floats
    """The part of the start time that is piercing [min]."""
    start_time_min: Floats
    move_time_min: Floats
    flame_work_min: Floats
    flame_time_min: Floats
    jet_time_min: Floats
    """Cutting oxygen on, bevel passes left out [min]."""
    setting_time_min: Floats
    """Straightedge and track setting with the flame out."""
    layout_min: Floats
    handling_min: Floats
    helper_min: Floats
    cleaning_min: Floats
    grinding_min: Floats
    wait_min: Floats
    clamp_min: Floats
    norm_min: Floats
    """What a state norm of whole short cuts counts beyond the flame: marking, placing, moving on [min]."""
    normed: NormedWork
    drilling_min: Floats
    """Drilled holes and start holes; no rest allowance on a machine's work."""
    other_work_min: Floats
    other_work_rested: NDArray[np.bool_]
    paid_time_min: Floats
    other_oxygen_m3: Floats
    """Oxygen of other work; it is among the cutting oxygen [m³]."""
    other_fuel_m3: Floats
    """Fuel of other work; it is among the fuel [m³]."""
    cutting_oxygen_m3: Floats
    preheat_oxygen_m3: Floats
    fuel_m3: Floats
    lost_oxygen_m3: Floats
    lost_fuel_m3: Floats
    mass_each_kg: Floats
    kerf_mass_kg: Floats


def line_quantities(
    cuts: CutList,
    metres: BurntMetres,
    settings: Settings,
    *,
    setting: NDArray[np.int64],
    bevel_setting: NDArray[np.int64],
    flame_min_each: Floats,
    other_min_each: Floats,
    other_rested: NDArray[np.bool_],
    other_oxygen_m3_each: Floats,
    other_fuel_m3_each: Floats,
    normed: NormedWork,
    rates: WorkRates,
) -> LineQuantities:
    """Return times, gas and mass of every line.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    metres : BurntMetres
        What they burn.
    settings : Settings
        m torch settings.
    setting, bevel_setting : ndarray of int, shape (n,)
        Setting of each line and of its bevel pass; -1 for none.
    flame_min_each : ndarray of float, shape (n,)
        Flame minutes of one piece for heating, bending and welding; zero elsewhere [min].
    other_min_each : ndarray of float, shape (n,)
        Minutes of one piece for other work; zero elsewhere [min].
    other_rested : ndarray of bool, shape (n,)
        Whether the rest allowance applies to the other work.
    other_oxygen_m3_each, other_fuel_m3_each : ndarray of float, shape (n,)
        Gas of one piece for other work (scrap by the tonne) [m³].
    normed : NormedWork
        What state norms of whole short cuts say of one piece.
    rates : WorkRates
        The shop's work rates.

    Returns
    -------
    LineQuantities
        Shape (n,) each.

    Notes
    -----
    Formulas stand in ``docs/method.md``. Gas follows flame and jet time; it is never divided by an operating factor.
    """
    q, m = cuts.quantity, metres
    torch = setting >= 0
    burning = torch & (m.passes > 0)
    hand = ~is_machine(cuts.method)
    torches = np.nan_to_num(cuts.torches, nan=1.0)

    def at(values: Floats, index: NDArray[np.int64] = setting) -> Floats:
        """Return a setting's figure on each line; zero for lines without one."""
        return np.where(index >= 0, np.asarray(values)[np.maximum(index, 0)], 0.0) if len(values) else np.zeros(len(q))

    speed_of_surface, start_of_surface = surface_speed(cuts.surface, rates), surface_start(cuts.surface, rates)
    whole_bevel = (np.nan_to_num(cuts.bevel_deg) > 0) & np.isnan(cuts.bevel_length_mm)
    speed = at(settings.speed_mm_min) * speed_of_surface * np.where(whole_bevel, rates.bevel_speed, 1.0)
    short_speed = np.where(hand, rates.short_straight_speed, 1.0)
    circle_speed = np.where(hand, rates.circle_speed, 1.0)
    chart_metres = (
        m.passes * (m.long_m_each + m.short_m_each / short_speed + m.circle_m_each / circle_speed)
        + m.once_long_m
        + m.once_short_m / short_speed
    )
    cut_time = _over(chart_metres * 1000.0, speed * torches)
    bevel_speed = at(settings.speed_mm_min, bevel_setting) * speed_of_surface * rates.bevel_speed
    bevel_speed = bevel_speed * np.where(m.bevel_is_short, short_speed, 1.0)
    bevel_time = _over(m.passes * m.bevel_m_each * 1000.0, bevel_speed)

    start_factor = at(settings.start_factor) * start_of_surface / 60.0
    pierce_s = np.nan_to_num(at(settings.pierce_s)) * np.where(hand, rates.pierce_time_hand, 1.0)
    pierce_min = m.passes * m.pierces_each * pierce_s * start_factor
    edge_starts = m.passes * (m.edge_starts_each + m.restarts_each) + m.once_starts
    bevel_start_factor = at(settings.start_factor, bevel_setting) * start_of_surface / 60.0
    bevel_starts = m.passes * m.bevel_starts_each
    start_time = (
        pierce_min
        + edge_starts * at(settings.edge_start_s) * start_factor
        + bevel_starts * at(settings.edge_start_s, bevel_setting) * bevel_start_factor
    )
    set_starts = m.passes * m.set_starts_each + np.where(m.set_starts_each > 0, m.once_starts, 0.0)
    all_starts = edge_starts + bevel_starts + m.passes * m.pierces_each
    track_min = (m.passes * m.runs_each + m.once_runs) * rates.track_run_min
    lit_setting = set_starts * rates.straightedge_min * rates.straightedge_lit_share + track_min * rates.track_lit_share
    move_time = np.where(burning, (all_starts - set_starts) * rates.move_min + lit_setting, 0.0)
    setting_time = np.where(
        burning,
        set_starts * rates.straightedge_min * (1.0 - rates.straightedge_lit_share)
        + track_min * (1.0 - rates.track_lit_share),
        0.0,
    )
    flame_work = np.where(torch, q * flame_min_each, 0.0)
    flame_time = cut_time + bevel_time + start_time + move_time + flame_work
    jet_time = cut_time + rates.blow_through_share * pierce_min

    mass = mass_each_kg(cuts, rates.steel_density_kg_m3)
    hours = _work_minutes(cuts, m, at(settings.cleaning_min_per_m), mass, normed, rates)
    rest = 1.0 + rates.rest_allowance
    whole_cut = burning & ~np.isnan(normed.cut_min_each)
    norm = np.where(whole_cut, np.maximum(q * np.nan_to_num(normed.cut_min_each) / rest - flame_time, 0.0), 0.0)
    setting_time = np.where(whole_cut, 0.0, setting_time)
    other = q * other_min_each
    rested = (
        flame_time
        + setting_time
        + hours.layout
        + hours.handling
        + hours.helper
        + hours.cleaning
        + hours.grinding
        + hours.clamp
        + norm
    )
    wait = q * np.nan_to_num(cuts.wait_min_each)
    drilling = hours.drilling
    paid = rested * rest + wait + drilling + other * np.where(other_rested, rest, 1.0)

    cutting = torches * at(settings.cutting_flow_m3_h) * jet_time / 60.0 + (
        at(settings.cutting_flow_m3_h, bevel_setting) * bevel_time / 60.0
    )
    bevel_share = bevel_time + bevel_starts * at(settings.edge_start_s, bevel_setting) * bevel_start_factor
    main_flame = torches * (flame_time - bevel_share)
    fuel = (at(settings.fuel_flow_m3_h) * main_flame + at(settings.fuel_flow_m3_h, bevel_setting) * bevel_share) / 60.0
    preheat = (
        at(settings.preheat_flow_m3_h) * main_flame + at(settings.preheat_flow_m3_h, bevel_setting) * bevel_share
    ) / 60.0
    other_oxygen, other_fuel = q * other_oxygen_m3_each, q * other_fuel_m3_each
    cutting, fuel = cutting + other_oxygen, fuel + other_fuel
    cut_m = m.cut_m
    kerf_m3 = cut_m * at(settings.kerf_mm) * np.nan_to_num(at(settings.thickness_mm)) * 1e-6
    return LineQuantities(
        setting=setting,
        bevel_setting=bevel_setting,
        metres=m,
        cut_m=cut_m,
        travel_speed_mm_min=np.where(cut_time > 0, _over(cut_m * 1000.0, cut_time), np.nan),
        long_run_speed_mm_min=speed,
        surface_speed=speed_of_surface,
        surface_start=start_of_surface,
        cut_time_min=cut_time,
        bevel_time_min=bevel_time,
        bevel_flame_min=bevel_share,
        pierce_time_min=pierce_min,
        start_time_min=start_time,
        move_time_min=move_time,
        flame_work_min=flame_work,
        flame_time_min=flame_time,
        jet_time_min=jet_time,
        setting_time_min=setting_time,
        layout_min=hours.layout,
        handling_min=hours.handling,
        helper_min=hours.helper,
        cleaning_min=hours.cleaning,
        grinding_min=hours.grinding,
        wait_min=wait,
        clamp_min=hours.clamp,
        norm_min=norm,
        normed=normed,
        drilling_min=drilling,
        other_work_min=other,
        other_work_rested=other_rested,
        paid_time_min=paid,
        other_oxygen_m3=other_oxygen,
        other_fuel_m3=other_fuel,
        cutting_oxygen_m3=cutting,
        preheat_oxygen_m3=preheat,
        fuel_m3=fuel,
        lost_oxygen_m3=(cutting + preheat) * rates.gas_lost_oxygen,
        lost_fuel_m3=fuel * rates.gas_lost_fuel,
        mass_each_kg=mass,
        kerf_mass_kg=kerf_m3 * rates.steel_density_kg_m3,
    )


@dataclass(slots=True)
class _WorkMinutes:
    layout: Floats
    handling: Floats
    helper: Floats
    cleaning: Floats
    grinding: Floats
    clamp: Floats
    drilling: Floats


def _work_minutes(
    cuts: CutList,
    m: BurntMetres,
    cleaning_min_per_m: Floats,
    mass_each: Floats,
    normed: NormedWork,
    rates: WorkRates,
) -> _WorkMinutes:
    """Return the minutes around the flame: layout, handling, cleaning, grinding, clamping and drilling."""
    q = cuts.quantity
    has_piece = ~np.isin(cuts.work, (Work.OTHER,))
    cut = np.isin(cuts.work, (Work.CUT, BLANK))
    heavy = np.nan_to_num(mass_each) > rates.handling_limit_kg
    edge_m = q * m.edge_m_each + m.once_edge_m
    by_hand_min = rates.handling_min_per_piece + rates.handling_min_per_kg * np.nan_to_num(mass_each)
    bored_cm3 = np.pi * m.drilled_diameter_mm**2 / 4 * np.nan_to_num(cuts.thickness_mm) / 1000.0
    drilled = m.drilled_holes_each * (rates.drill_min_per_hole + rates.drill_min_per_cm3 * bored_cm3)
    stacked = np.nan_to_num(cuts.stack, nan=1.0) > 1
    # A state norm of a whole short cut holds its marking and placing; a norm of cleaned ends holds its cleaning.
    in_norm = ~np.isnan(normed.cut_min_each)
    ends = normed.end_cleaning_min_each
    return _WorkMinutes(
        layout=np.where(cut & ~in_norm, rates.layout_min_per_m * m.cut_m + rates.layout_min_per_piece * q, 0.0),
        handling=np.where(has_piece & ~in_norm, q * np.where(heavy, rates.lift_min, by_hand_min), 0.0),
        helper=np.where(has_piece & heavy, q * rates.helper_min_per_lift, 0.0),
        cleaning=np.where(np.isnan(ends), edge_m * cleaning_min_per_m, q * np.nan_to_num(ends)),
        grinding=edge_m * grinding_min_per_m(cuts.edge_finish, rates)
        + np.where(cut, q * m.circles_each * rates.stop_mark_min, 0.0),
        clamp=np.where(stacked, m.passes * rates.stack_clamp_min, 0.0),
        drilling=q * (drilled + m.start_holes_each * rates.start_hole_min),
    )


def _over(value: Floats, by: Floats) -> Floats:
    """Divide, zero where there is nothing to divide."""
    return np.divide(value, by, out=np.zeros_like(value), where=(by > 0) & (value != 0))
