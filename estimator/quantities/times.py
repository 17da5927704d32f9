"""Times, gas and mass of every line, from its burnt metres and its torch setting."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.work_rates import WorkRates
from estimator.quantities.gas_use import gas_m3
from estimator.quantities.lines import BurntMetres, mass_each_kg
from estimator.quantities.normed import NormedWork
from estimator.quantities.other_work import OtherMinutes
from estimator.quantities.torch_times import OnSettings, TorchTimes, over, torch_times
from estimator.quantities.work_minutes import WorkMinutes, work_minutes

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

    @property
    def drawn_oxygen_m3(self) -> Floats:
        """Oxygen that leaves the bottles, the gas lost with it [m³]."""
        return self.cutting_oxygen_m3 + self.preheat_oxygen_m3 + self.lost_oxygen_m3

    @property
    def drawn_fuel_m3(self) -> Floats:
        """Fuel that leaves the bottles, the gas lost with it [m³]."""
        return self.fuel_m3 + self.lost_fuel_m3


def line_quantities(
    cuts: CutList,
    metres: BurntMetres,
    on: OnSettings,
    *,
    flame_min_each: Floats,
    other: OtherMinutes,
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
    on : OnSettings
        The setting of each line and of its bevel pass.
    flame_min_each : ndarray of float, shape (n,)
        Flame minutes of one piece for heating, bending and welding; zero elsewhere [min].
    other : OtherMinutes
        Minutes and gas of other work.
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
    torch = torch_times(cuts, metres, on, rates)
    mass = mass_each_kg(cuts, rates.steel_density_kg_m3)
    hours = work_minutes(cuts, metres, on.main(on.settings.cleaning_min_per_m), mass, normed, rates)
    flame_work = np.where(on.setting >= 0, cuts.quantity * flame_min_each, 0.0)
    burning = (on.setting >= 0) & (metres.passes > 0)
    paid = _paid_minutes(
        cuts, torch, hours, flame_work=flame_work, burning=burning, other=other, normed=normed, rates=rates
    )
    gas = _gas(cuts, torch, on, paid.flame, other, rates)
    cut_m = metres.cut_m
    return LineQuantities(
        setting=on.setting,
        bevel_setting=on.bevel_setting,
        metres=metres,
        cut_m=cut_m,
        travel_speed_mm_min=np.where(torch.cut_time_min > 0, over(cut_m * 1000.0, torch.cut_time_min), np.nan),
        long_run_speed_mm_min=torch.long_run_speed_mm_min,
        surface_speed=torch.surface_speed,
        surface_start=torch.surface_start,
        cut_time_min=torch.cut_time_min,
        bevel_time_min=torch.bevel_time_min,
        bevel_flame_min=torch.bevel_time_min + torch.bevel_start_min,
        pierce_time_min=torch.pierce_time_min,
        start_time_min=torch.start_time_min,
        move_time_min=torch.move_time_min,
        flame_work_min=flame_work,
        flame_time_min=paid.flame,
        jet_time_min=gas.jet_min,
        setting_time_min=paid.setting,
        layout_min=hours.layout,
        handling_min=hours.handling,
        helper_min=hours.helper,
        cleaning_min=hours.cleaning,
        grinding_min=hours.grinding,
        wait_min=paid.wait,
        clamp_min=hours.clamp,
        norm_min=paid.norm,
        normed=normed,
        drilling_min=hours.drilling,
        other_work_min=paid.other,
        other_work_rested=other.rested,
        paid_time_min=paid.paid,
        other_oxygen_m3=gas.other_oxygen_m3,
        other_fuel_m3=gas.other_fuel_m3,
        cutting_oxygen_m3=gas.cutting_m3,
        preheat_oxygen_m3=gas.preheat_m3,
        fuel_m3=gas.fuel_m3,
        lost_oxygen_m3=(gas.cutting_m3 + gas.preheat_m3) * rates.gas_lost_oxygen,
        lost_fuel_m3=gas.fuel_m3 * rates.gas_lost_fuel,
        mass_each_kg=mass,
        kerf_mass_kg=_kerf_mass_kg(cut_m, on, rates),
    )


@dataclass(frozen=True, slots=True)
class _Paid:
    """Minutes that the parts of a line come to."""

    flame: Floats
    setting: Floats
    norm: Floats
    wait: Floats
    other: Floats
    paid: Floats


def _paid_minutes(
    cuts: CutList,
    torch: TorchTimes,
    hours: WorkMinutes,
    *,
    flame_work: Floats,
    burning: NDArray[np.bool_],
    other: OtherMinutes,
    normed: NormedWork,
    rates: WorkRates,
) -> _Paid:
    """Add the parts, rest on all but drilling and waits; a norm of a whole cut fills up to what it says."""
    flame = torch.cut_time_min + torch.bevel_time_min + torch.start_time_min + torch.move_time_min + flame_work
    rest = 1.0 + rates.rest_allowance
    whole_cut = burning & ~np.isnan(normed.cut_min_each)
    of_norm = cuts.quantity * np.nan_to_num(normed.cut_min_each) / rest
    norm = np.where(whole_cut, np.maximum(of_norm - flame, 0.0), 0.0)
    setting = np.where(whole_cut, 0.0, torch.setting_time_min)
    wait = cuts.quantity * np.nan_to_num(cuts.wait_min_each) * np.nan_to_num(cuts.heats, nan=1.0)
    rested = (flame + setting + hours.rested + norm) * rest
    other_min = cuts.quantity * other.minutes_each
    paid = rested + wait + hours.drilling + other_min * np.where(other.rested, rest, 1.0)
    return _Paid(flame, setting, norm, wait, other_min, paid)


@dataclass(frozen=True, slots=True)
class _Gas:
    jet_min: Floats
    cutting_m3: Floats
    preheat_m3: Floats
    fuel_m3: Floats
    other_oxygen_m3: Floats
    other_fuel_m3: Floats


def _gas(
    cuts: CutList, torch: TorchTimes, on: OnSettings, flame_min: Floats, other: OtherMinutes, rates: WorkRates
) -> _Gas:
    """Gas by flame and jet time; the bevel pass burns at its own setting, and other work adds its own."""
    settings, torches = on.settings, np.nan_to_num(cuts.torches, nan=1.0)
    other_oxygen, other_fuel = cuts.quantity * other.oxygen_m3_each, cuts.quantity * other.fuel_m3_each
    jet = torch.cut_time_min + rates.blow_through_share * torch.pierce_time_min
    bevel = torch.bevel_time_min + torch.bevel_start_min
    main = torches * (flame_min - bevel)

    def burnt(flow_m3_h: Floats) -> Floats:
        return gas_m3(main, on.main(flow_m3_h)) + gas_m3(bevel, on.bevel(flow_m3_h))

    cutting = gas_m3(torches * jet, on.main(settings.cutting_flow_m3_h))
    of_bevel = gas_m3(torch.bevel_time_min, on.bevel(settings.cutting_flow_m3_h))
    return _Gas(
        jet_min=jet,
        cutting_m3=cutting + of_bevel + other_oxygen,
        preheat_m3=burnt(settings.preheat_flow_m3_h),
        fuel_m3=burnt(settings.fuel_flow_m3_h) + other_fuel,
        other_oxygen_m3=other_oxygen,
        other_fuel_m3=other_fuel,
    )


def _kerf_mass_kg(cut_m: Floats, on: OnSettings, rates: WorkRates) -> Floats:
    """Steel that is burnt and blown out of the kerf."""
    thickness_mm = np.nan_to_num(on.main(on.settings.thickness_mm))
    return cut_m * on.main(on.settings.kerf_mm) * thickness_mm * 1e-6 * rates.steel_density_kg_m3
