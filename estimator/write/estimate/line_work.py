"""Columns of the working sheet that follow from the readings: passes, speeds and flame minutes, as formulas.

Each formula is the one that ``quantities.times`` works by, in the words of the sheet; the values beside it are the
engine's.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.job import Estimate
from estimator.quantities.times import LineQuantities
from estimator.write.estimate.line_hours import hour_columns
from estimator.write.estimate.live_table import LiveColumn
from estimator.write.estimate.look_of_numbers import NumberFormats

__all__ = ["BEVEL_START", "time_columns"]

Floats = NDArray[np.float64]

_SLOW = "IF([by_hand]=1,short_straight_speed,1)"
_ROUND = "IF([by_hand]=1,circle_speed,1)"
_START = "INDEX(tip_start_factor,[setting])*[surface_start]/60"
_EDGE = f"INDEX(tip_edge_start_s,[setting])*{_START}"
BEVEL_START = "INDEX(tip_edge_start_s,[bevel_setting])*INDEX(tip_start_factor,[bevel_setting])*[surface_start]/60"
"""Minutes of one start of a bevel pass, as a formula."""


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
    return [
        *_travel_columns(estimate, formats),
        *_start_columns(estimate.job.lines, formats),
        *_flame_columns(estimate.job.lines, formats),
        *hour_columns(estimate, formats),
    ]


def _travel_columns(estimate: Estimate, formats: NumberFormats) -> list[LiveColumn]:
    """Return passes, speeds, and the minutes of cuts and bevels."""
    x = estimate.job.lines
    whole_bevel = (np.nan_to_num(estimate.cuts.bevel_deg) > 0) & np.isnan(estimate.cuts.bevel_length_mm)
    bevel_factor = np.where(whole_bevel, estimate.work.bevel_speed, 1.0)
    return [
        _column(
            "passes",
            "Passes",
            x.metres.passes,
            "",
            formats.quantity,
            "[is_cut]*ROUNDUP(ROUND([quantity]/[stack],exact_digits),0)",
        ),
        _column(
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
        _column(
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
        _column(
            "bevel_factor",
            "Bevel, speed",
            bevel_factor,
            "x",
            formats.factor,
            "1",
            "[whole_bevel]*(bevel_speed-1)",
            neutral=1.0,
        ),
        _column(
            "speed",
            "Speed, long run",
            np.nan_to_num(x.long_run_speed_mm_min),  # a heating tip does not travel
            "mm/min",
            formats.speed,
            "INDEX(tip_speed_mm_min,[setting])*[surface_speed]*[bevel_factor]",
        ),
        _column(
            "cut_time_min",
            "Cutting",
            x.cut_time_min,
            "min",
            formats.minutes,
            _over_speed("[passes]*[long_m_each]"),
            _over_speed(f"[passes]*[short_m_each]/{_SLOW}"),
            _over_speed(f"[passes]*[circle_m_each]/{_ROUND}"),
            _over_speed("[once_long_m]"),
            _over_speed(f"[once_short_m]/{_SLOW}"),
        ),
        _column(
            "bevel_time_min",
            "Bevel pass",
            x.bevel_time_min,
            "min",
            formats.minutes,
            "IF(INDEX(tip_speed_mm_min,[bevel_setting])=0,0,[passes]*[bevel_m_each]*mm_per_m"
            f"/(INDEX(tip_speed_mm_min,[bevel_setting])*[surface_speed]*bevel_speed*IF([bevel_is_short?]=1,{_SLOW},1)))",
        ),
    ]


def _start_columns(x: LineQuantities, formats: NumberFormats) -> list[LiveColumn]:
    """Return the minutes of starts and of moves between them."""
    return [
        _column(
            "pierce_time_min",
            "Piercing",
            x.pierce_time_min,
            "min",
            formats.minutes,
            f"[passes]*[pierces_each]*INDEX(tip_pierce_s,[setting])*IF([by_hand]=1,pierce_time_hand,1)*{_START}",
        ),
        _column(
            "start_time_min",
            "Starts",
            x.start_time_min,
            "min",
            formats.minutes,
            "[pierce_time_min]",
            f"[passes]*[edge_starts_each]*{_EDGE}",
            f"[passes]*[restarts_each]*{_EDGE}",
            f"[once_starts]*{_EDGE}",
            f"[passes]*[bevel_starts_each]*{BEVEL_START}",
        ),
        _column(
            "move_time_min",
            "Moves, flame lit",
            x.move_time_min,
            "min",
            formats.minutes,
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
    ]


def _flame_columns(x: LineQuantities, formats: NumberFormats) -> list[LiveColumn]:
    """Return the minutes of heating, of the flame and of the jet together, and of setting guides."""
    return [
        _column(
            "flame_work_min",
            "Heating and bending",
            x.flame_work_min,
            "min",
            formats.minutes,
            "[quantity]*[flame_min_typed]",
            "IF([heated_kg_each]=0,0,[quantity]*[heated_kg_each]*heat_mj_per_kg*60"
            "/(INDEX(tip_fuel_m3_h,[setting])*net_mj_per_m3*heating_efficiency))",
        ),
        _column(
            "flame_time_min",
            "Flame lit",
            x.flame_time_min,
            "min",
            formats.minutes,
            "[cut_time_min]",
            "[bevel_time_min]",
            "[start_time_min]",
            "[move_time_min]",
            "[flame_work_min]",
        ),
        _column(
            "jet_time_min",
            "Cutting oxygen on",
            x.jet_time_min,
            "min",
            formats.minutes,
            "[cut_time_min]",
            "blow_through_share*[pierce_time_min]",
        ),
        _column(
            "setting_time_min",
            "Setting guides",
            x.setting_time_min,
            "min",
            formats.minutes,
            "[outside_norm]*[passes]*[set_starts_each]*straightedge_min*(1-straightedge_lit_share)",
            "[outside_norm]*[set_starts_once]*straightedge_min*(1-straightedge_lit_share)",
            "[outside_norm]*[passes]*[runs_each]*track_run_min*(1-track_lit_share)",
            "[outside_norm]*[once_runs]*track_run_min*(1-track_lit_share)",
        ),
    ]


def _over_speed(length: str) -> str:
    """Return the formula of the minutes that metres take at the line's speed."""
    return f"IF([speed]=0,0,{length}*mm_per_m/([speed]*[torches]))"


def _column(
    name: str, heading: str, values: Floats, unit: str, number: str, *terms: str, neutral: float | None = None
) -> LiveColumn:
    return LiveColumn(name, heading, values, unit, number, terms, neutral)
