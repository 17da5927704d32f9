"""Columns of the working sheet that follow from the readings: passes, speeds and flame minutes, as formulas.

Each formula is the one that ``quantities.times`` works by, in the words of the sheet; the values beside it are the
engine's.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.job import Estimate
from estimator.write.estimate.line_hours import hour_columns
from estimator.write.estimate.live_table import LiveColumn
from estimator.write.estimate.look_of_numbers import NumberFormats

__all__ = ["time_columns"]

Floats = NDArray[np.float64]


def time_columns(estimate: Estimate, formats: NumberFormats) -> list[LiveColumn]:
    """Return passes, speeds and minutes of every line.

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
    minutes = formats.minutes
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
            f"/(INDEX(tip_speed_mm_min,[bevel_setting])*[surface_speed]*bevel_speed*IF([bevel_is_short?]=1,{slow},1)))",
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
            "[passes]*[runs_each]*track_run_min*track_lit_share",
            "[once_runs]*track_run_min*track_lit_share",
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
            "[outside_norm]*[passes]*[runs_each]*track_run_min*(1-track_lit_share)",
            "[outside_norm]*[once_runs]*track_run_min*(1-track_lit_share)",
        ),
        *hour_columns(estimate, formats),
    ]
