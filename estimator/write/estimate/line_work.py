"""Columns of the working sheet that follow from the readings: speeds, minutes and gas of every line, as formulas.

Each formula is the one that ``quantities.times`` works by, in the words of the sheet; the values beside it are the
engine's.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.job import Estimate
from estimator.write.estimate.live_table import LiveColumn
from estimator.write.estimate.look_of_numbers import NumberFormats

__all__ = ["gas_columns", "time_columns"]

Floats = NDArray[np.float64]


def time_columns(estimate: Estimate, formats: NumberFormats) -> list[LiveColumn]:
    """Return passes, metres, speeds and minutes of every line.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of LiveColumn
        In the order in which they build on each other.
    """
    x = estimate.job.lines
    minutes, metres = formats.minutes, formats.metres
    slow = "IF([by_hand]=1,short_straight_speed,1)"
    round_speed = "IF([by_hand]=1,circle_speed,1)"
    start = "INDEX(tip_start_factor,[setting])*[surface_start]/60"
    edge = f"INDEX(tip_edge_start_s,[setting])*{start}"
    bevel_start = "INDEX(tip_edge_start_s,[bevel_setting])*INDEX(tip_start_factor,[bevel_setting])*[surface_start]/60"
    whole_bevel = (np.nan_to_num(estimate.cuts.bevel_deg) > 0) & np.isnan(estimate.cuts.bevel_length_mm)
    bevel_factor = np.where(whole_bevel, estimate.work.bevel_speed, 1.0)

    def over_speed(length: str) -> str:
        return f"IF([speed]=0,0,{length}*mm_per_m/([speed]*[torches]))"

    def column(
        name: str, heading: str, values: Floats, unit: str, number: str, *terms: str, neutral: float | None = None
    ) -> LiveColumn:
        return LiveColumn(name, heading, values, unit, number, terms, neutral)

    return [
        column(
            "passes",
            "Passes",
            x.metres.passes,
            "",
            formats.quantity,
            "[is_cut]*ROUNDUP(ROUND([quantity]/[stack],exact_digits),0)",
        ),
        column(
            "surface_speed",
            "Surface, speed",
            x.surface_speed,
            "x",
            formats.factor,
            "1",
            "[rusty]*(rusty_speed-1)",
            "[painted]*(painted_speed-1)",
            neutral=1.0,
        ),
        column(
            "surface_start",
            "Surface, start",
            x.surface_start,
            "x",
            formats.factor,
            "1",
            "[rusty]*(rusty_start-1)",
            "[painted]*(painted_start-1)",
            neutral=1.0,
        ),
        column(
            "bevel_factor",
            "Bevel, speed",
            bevel_factor,
            "x",
            formats.factor,
            "1",
            "[whole_bevel]*(bevel_speed-1)",
            neutral=1.0,
        ),
        column(
            "speed",
            "Speed, long run",
            np.nan_to_num(x.long_run_speed_mm_min),  # a heating tip does not travel
            "mm/min",
            formats.speed,
            "INDEX(tip_speed_mm_min,[setting])*[surface_speed]*[bevel_factor]",
        ),
        column(
            "cut_time_min",
            "Cutting",
            x.cut_time_min,
            "min",
            minutes,
            over_speed("[passes]*[long_m_each]"),
            over_speed(f"[passes]*[short_m_each]/{slow}"),
            over_speed(f"[passes]*[circle_m_each]/{round_speed}"),
            over_speed("[once_long_m]"),
            over_speed(f"[once_short_m]/{slow}"),
        ),
        column(
            "bevel_time_min",
            "Bevel pass",
            x.bevel_time_min,
            "min",
            minutes,
            "IF(INDEX(tip_speed_mm_min,[bevel_setting])=0,0,[passes]*[bevel_m_each]*mm_per_m"
            "/(INDEX(tip_speed_mm_min,[bevel_setting])*[surface_speed]*bevel_speed))",
        ),
        column(
            "pierce_time_min",
            "Piercing",
            x.pierce_time_min,
            "min",
            minutes,
            f"[passes]*[pierces_each]*INDEX(tip_pierce_s,[setting])*IF([by_hand]=1,pierce_time_hand,1)*{start}",
        ),
        column(
            "start_time_min",
            "Starts",
            x.start_time_min,
            "min",
            minutes,
            "[pierce_time_min]",
            f"[passes]*[edge_starts_each]*{edge}",
            f"[passes]*[restarts_each]*{edge}",
            f"[once_starts]*{edge}",
            f"[passes]*[bevel_starts_each]*{bevel_start}",
        ),
        column(
            "move_time_min",
            "Moves, flame lit",
            x.move_time_min,
            "min",
            minutes,
            "[passes]*[edge_starts_each]*move_min",
            "[passes]*[restarts_each]*move_min",
            "[once_starts]*move_min",
            "[passes]*[pierces_each]*move_min",
            "[passes]*[bevel_starts_each]*move_min",
            "[passes]*[set_starts_each]*(straightedge_min*straightedge_lit_share-move_min)",
            "[set_starts_once]*(straightedge_min*straightedge_lit_share-move_min)",
        ),
        column(
            "flame_work_min",
            "Heating and bending",
            x.flame_work_min,
            "min",
            minutes,
            "[quantity]*[flame_min_typed]",
            "IF([heated_kg_each]=0,0,[quantity]*[heated_kg_each]*heat_mj_per_kg*60"
            "/(INDEX(tip_fuel_m3_h,[setting])*net_mj_per_m3*heating_efficiency))",
        ),
        column(
            "flame_time_min",
            "Flame lit",
            x.flame_time_min,
            "min",
            minutes,
            "[cut_time_min]",
            "[bevel_time_min]",
            "[start_time_min]",
            "[move_time_min]",
            "[flame_work_min]",
        ),
        column(
            "jet_time_min",
            "Cutting oxygen on",
            x.jet_time_min,
            "min",
            minutes,
            "[cut_time_min]",
            "blow_through_share*[pierce_time_min]",
        ),
        column(
            "setting_time_min",
            "Setting guides",
            x.setting_time_min,
            "min",
            minutes,
            "[outside_norm]*[passes]*[set_starts_each]*straightedge_min*(1-straightedge_lit_share)",
            "[outside_norm]*[set_starts_once]*straightedge_min*(1-straightedge_lit_share)",
            "[outside_norm]*[passes]*[runs_each]*track_run_min",
        ),
        *_work_columns(estimate, formats, column_metres=metres),
    ]


def _work_columns(estimate: Estimate, formats: NumberFormats, column_metres: str) -> list[LiveColumn]:
    """Return the minutes around the flame, and the paid minutes that all of them come to."""
    x = estimate.job.lines
    minutes = formats.minutes

    def column(name: str, heading: str, values: Floats, unit: str, number: str, *terms: str) -> LiveColumn:
        return LiveColumn(name, heading, values, unit, number, terms)

    one_lift = "handling_min_per_piece+handling_min_per_kg*[mass_each_kg?]"
    lifted = f"IF([mass_each_kg?]>handling_limit_kg,lift_min,{one_lift})"
    rested = (
        "flame_time_min",
        "setting_time_min",
        "layout_min",
        "handling_min",
        "helper_min",
        "cleaning_min",
        "grinding_min",
        "clamp_min",
        "norm_min",
    )
    return [
        column(
            "cut_m",
            "Cut",
            x.cut_m,
            "m",
            column_metres,
            "[passes]*[long_m_each]",
            "[passes]*[short_m_each]",
            "[passes]*[circle_m_each]",
            "[once_long_m]",
            "[once_short_m]",
        ),
        LiveColumn(
            "mass_each_kg",
            "Mass each",
            np.nan_to_num(x.mass_each_kg),
            "kg",
            formats.metres,
            ("[volume_l_each]*steel_density_kg_m3/litres_per_m3",),
            neutral=0.0,
        ),
        column(
            "layout_min",
            "Layout",
            x.layout_min,
            "min",
            minutes,
            "[is_cut]*[outside_norm]*layout_min_per_m*[cut_m]",
            "[is_cut]*[outside_norm]*layout_min_per_piece*[quantity]",
        ),
        column(
            "handling_min",
            "Handling",
            x.handling_min,
            "min",
            minutes,
            f"[has_piece]*[outside_norm]*[quantity]*{lifted}",
        ),
        column(
            "helper_min",
            "Helper",
            x.helper_min,
            "min",
            minutes,
            "[has_piece]*[quantity]*IF([mass_each_kg]>handling_limit_kg,helper_min_per_lift,0)",
        ),
        column(
            "cleaning_min",
            "Slag off",
            x.cleaning_min,
            "min",
            minutes,
            "[cleaned_by_edge]*[quantity]*[edge_m_each]*INDEX(tip_cleaning_min_per_m,[setting])",
            "[quantity]*[end_cleaning_min_each]",
        ),
        column(
            "grinding_min",
            "Grinding",
            x.grinding_min,
            "min",
            minutes,
            "[quantity]*[edge_m_each]*[touch_up]*touch_up_min_per_m",
            "[quantity]*[edge_m_each]*[bright]*bright_min_per_m",
            "[is_cut]*[quantity]*[circles_each]*stop_mark_min",
        ),
        column(
            "norm_min",
            "Rest of the norm",
            x.norm_min,
            "min",
            minutes,
            "IF([norm_cut_min_each]=0,0,MAX([quantity]*[norm_cut_min_each]/(1+rest_allowance)-[flame_time_min],0))",
        ),
        column("clamp_min", "Clamping", x.clamp_min, "min", minutes, "[stacked]*[passes]*stack_clamp_min"),
        column(
            "drilling_min",
            "Drilling",
            x.drilling_min,
            "min",
            minutes,
            "[quantity]*[drilled_holes_each]*drill_min_per_hole",
            "[quantity]*[drilled_cm3_each]*drill_min_per_cm3",
            "[quantity]*[start_holes_each]*start_hole_min",
        ),
        column("other_work_min", "Other work", x.other_work_min, "min", minutes, "[quantity]*[other_min_each]"),
        column(
            "wait_min",
            "Cooling wait",
            x.wait_min,
            "min",
            minutes,
            "[quantity]*[wait_min_each]",
        ),
        column(
            "worked_min",
            "Man-minutes worked out",
            x.paid_time_min,
            "min",
            minutes,
            *(f"[{name}]*(1+rest_allowance)" for name in rested),
            "[wait_min]",
            "[drilling_min]",
            "[other_work_min]*(1+[other_rested]*rest_allowance)",
        ),
    ]


def gas_columns(estimate: Estimate, formats: NumberFormats) -> list[LiveColumn]:
    """Return the gas of every line at 15 °C and 101.325 kPa, and the mass that the kerf takes.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of LiveColumn
    """
    x = estimate.job.lines
    bevel_start = "INDEX(tip_edge_start_s,[bevel_setting])*INDEX(tip_start_factor,[bevel_setting])*[surface_start]/60"

    def column(name: str, heading: str, values: Floats, *terms: str, unit: str = "m³") -> LiveColumn:
        number = formats.minutes if unit == "min" else formats.volume
        return LiveColumn(name, heading, values, unit, number, terms)

    def flame(flow: str) -> tuple[str, str]:
        """Gas of the flame: at the line's setting, but at the bevel's while that pass burns."""
        main = f"[torches]*[flame_time_min]*INDEX({flow},[setting])/60"
        return main, f"[bevel_flame_min]*(INDEX({flow},[bevel_setting])-[torches]*INDEX({flow},[setting]))/60"

    return [
        column(
            "bevel_flame_min",
            "Bevel pass, flame",
            x.bevel_flame_min,
            "[bevel_time_min]",
            f"[passes]*[bevel_starts_each]*{bevel_start}",
            unit="min",
        ),
        column(
            "cutting_oxygen_m3",
            "Cutting oxygen",
            x.cutting_oxygen_m3,
            "[torches]*[jet_time_min]*INDEX(tip_cutting_m3_h,[setting])/60",
            "[bevel_time_min]*INDEX(tip_cutting_m3_h,[bevel_setting])/60",
            "[quantity]*[other_oxygen_each]",
        ),
        column("preheat_oxygen_m3", "Preheat oxygen", x.preheat_oxygen_m3, *flame("tip_preheat_m3_h")),
        column("fuel_m3", "Fuel", x.fuel_m3, *flame("tip_fuel_m3_h"), "[quantity]*[other_fuel_each]"),
        column(
            "lost_oxygen_m3",
            "Oxygen lost",
            x.lost_oxygen_m3,
            "[cutting_oxygen_m3]*gas_lost_oxygen",
            "[preheat_oxygen_m3]*gas_lost_oxygen",
        ),
        column("lost_fuel_m3", "Fuel lost", x.lost_fuel_m3, "[fuel_m3]*gas_lost_fuel"),
        column(
            "kerf_mass_kg",
            "Steel burnt away",
            x.kerf_mass_kg,
            "[cut_m]*INDEX(tip_kerf_mm,[setting])*INDEX(tip_thickness_mm,[setting])*steel_density_kg_m3/mm2_per_m2",
            unit="kg",
        ),
    ]
