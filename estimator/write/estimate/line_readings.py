"""Columns of the working sheet that the engine read from the list: what each line burns, where it starts, what it is.

They are kept as they were read. A change of the shape, the tip or a reading rule needs a new run.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.job import Estimate
from estimator.quantities.lines import is_machine
from estimator.quantities.stock import from_bar, round_waste_l_each
from estimator.words import BLANK, EdgeFinish, Site, Surface, Work
from estimator.write.estimate.live_table import LiveColumn
from estimator.write.estimate.look_of_numbers import NumberFormats
from estimator.write.estimate.setting_rows import SettingRows

__all__ = ["reading_columns"]

Floats = NDArray[np.float64]


def reading_columns(estimate: Estimate, settings: SettingRows, formats: NumberFormats) -> list[LiveColumn]:
    """Return the readings of every line.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    settings : SettingRows
        Rows of the settings sheet.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of LiveColumn
        Readings that are neutral on every line will get no column.
    """
    cuts, lines, m = estimate.cuts, estimate.job.lines, estimate.job.lines.metres
    q = cuts.quantity
    one, zero = 1.0, 0.0

    def reading(
        name: str,
        heading: str,
        values: Floats | NDArray[np.bool_],
        unit: str,
        number: str,
        neutral: float | None = zero,
        gas: str = "",
    ) -> LiveColumn:
        return LiveColumn(name, heading, values.astype(np.float64), unit, number, neutral=neutral, gas=gas)

    def flag(name: str, heading: str, values: NDArray[np.bool_], neutral: float | None = zero) -> LiveColumn:
        return reading(name, heading, values, "1 = yes", formats.whole, neutral)

    metres, count, minutes, volume = formats.metres, formats.quantity, formats.minutes, formats.volume
    bored_cm3 = np.pi * m.drilled_diameter_mm**2 / 4 * np.nan_to_num(cuts.thickness_mm) / 1000.0
    typed_min, heated_kg = _flame_minutes(estimate)
    volume_l = np.nan_to_num(lines.mass_each_kg) / estimate.work.steel_density_kg_m3 * 1000.0
    whole_bevel = (np.nan_to_num(cuts.bevel_deg) > 0) & np.isnan(cuts.bevel_length_mm)
    stack = np.nan_to_num(cuts.stack, nan=1.0)
    cut = np.isin(cuts.work, (Work.CUT, BLANK))
    in_norm = ~np.isnan(lines.normed.cut_min_each)
    ends_min = lines.normed.end_cleaning_min_each
    return [
        reading("setting", "Setting", settings.of(lines.setting), "row", formats.whole, None),
        reading("tip_number", "Tip no.", settings.tip_of(lines.setting), "", formats.whole, None),
        reading("bevel_setting", "Bevel setting", settings.of(lines.bevel_setting), "row", formats.whole, one),
        reading("thickness_mm", "Thickness", np.nan_to_num(cuts.thickness_mm), "mm", formats.thickness, None),
        flag("is_cut", "Is cut", cut, one),
        flag("is_piece", "Counts as pieces", cuts.is_piece, one),
        flag("has_piece", "Has a piece", cuts.work != Work.OTHER, one),
        flag("by_hand", "By hand", ~is_machine(cuts.method), None),
        flag("rusty", "Rusty", cuts.surface == Surface.RUSTY),
        flag("painted", "Painted", cuts.surface == Surface.PAINTED),
        flag("on_site", "On site", cuts.site == Site.SITE),
        flag("whole_bevel", "Bevelled all round", whole_bevel),
        flag("touch_up", "Edges touched up", cuts.edge_finish == EdgeFinish.TOUCH_UP),
        flag("bright", "Edges bright", cuts.edge_finish == EdgeFinish.BRIGHT),
        flag("outside_norm", "No norm of the whole cut", ~in_norm, one),
        reading("norm_cut_min_each", "Norm of the whole cut", np.nan_to_num(lines.normed.cut_min_each), "min", minutes),
        flag("cleaned_by_edge", "Cleaned by the metre", np.isnan(ends_min), one),
        reading("end_cleaning_min_each", "Cleaning ends, each", np.nan_to_num(ends_min), "min", minutes),
        reading("stack", "Stack", stack, "plates", count, one),
        flag("stacked", "Stacked", stack > 1),
        reading("torches", "Torches", np.nan_to_num(cuts.torches, nan=1.0), "", count, one),
        reading("volume_l_each", "Steel each", volume_l, "litres", volume),
        reading("round_waste_l_each", "Round it and inside", round_waste_l_each(cuts), "litres", volume),
        flag("from_bar", "From bar", from_bar(cuts)),
        reading("long_m_each", "Long cuts each", m.long_m_each, "m", metres),
        reading("short_m_each", "Short cuts each", m.short_m_each, "m", metres),
        reading("circle_m_each", "Circles each", m.circle_m_each, "m", metres),
        reading("once_long_m", "Long cuts, once", m.once_long_m, "m", metres),
        reading("once_short_m", "Short cuts, once", m.once_short_m, "m", metres),
        reading("edge_starts_each", "Edge starts each", m.edge_starts_each, "starts", count),
        reading("restarts_each", "Fresh starts each", m.restarts_each, "starts", count),
        reading("once_starts", "Starts, once", m.once_starts, "starts", count),
        reading("pierces_each", "Pierces each", m.pierces_each, "starts", count),
        reading("set_starts_each", "Straightedge settings each", m.set_starts_each, "settings", count),
        reading(
            "set_starts_once",
            "Straightedge settings, once",
            np.where(m.set_starts_each > 0, m.once_starts, 0.0),
            "settings",
            count,
        ),
        reading("runs_each", "Track runs each", m.runs_each, "runs", count),
        reading("once_runs", "Track runs, once", m.once_runs, "runs", count),
        reading("circles_each", "Circles each", m.circles_each, "circles", count),
        reading("edge_m_each", "Burnt edge each", m.edge_m_each, "m", metres),
        reading("once_edge_m", "Mill ends of the row", m.once_edge_m, "m", metres),
        reading("bevel_m_each", "Bevel pass each", m.bevel_m_each, "m", metres),
        flag("bevel_is_short", "Bevel in short goes", m.bevel_is_short),
        reading("bevel_starts_each", "Bevel starts each", m.bevel_starts_each, "starts", count),
        reading("start_holes_each", "Drilled start holes each", m.start_holes_each, "holes", count),
        reading("drilled_holes_each", "Drilled holes each", m.drilled_holes_each, "holes", count),
        reading("drilled_cm3_each", "Drilled out each", m.drilled_holes_each * bored_cm3, "cm³", metres),
        reading("flame_min_typed", "Flame given each", typed_min, "min", minutes),
        reading("heated_kg_each", "Heated each", heated_kg, "kg", metres),
        reading("wait_min_each", "Cooling wait each", lines.wait_min / q, "min", minutes),
        reading("other_min_each", "Other work each", lines.other_work_min / q, "min", minutes),
        flag("other_rested", "Rest on other work", lines.other_work_rested, one),
        reading("other_oxygen_each", "Other oxygen each", lines.other_oxygen_m3 / q, "m³", volume, gas="oxygen"),
        reading("other_fuel_each", "Other fuel each", lines.other_fuel_m3 / q, "m³", volume, gas="fuel"),
    ]


def _flame_minutes(estimate: Estimate) -> tuple[Floats, Floats]:
    """Return flame minutes of a piece as the list gives them, and the mass heated where they are worked out instead."""
    cuts, lines = estimate.cuts, estimate.job.lines
    flame = lines.flame_work_min > 0
    by_mass = flame & np.isnan(cuts.flame_min_each)
    heats = np.nan_to_num(cuts.heats, nan=1.0)
    typed = np.where(flame & ~by_mass, np.nan_to_num(cuts.flame_min_each) * heats, 0.0)
    return typed, np.where(by_mass, np.nan_to_num(cuts.heated_kg_each) * heats, 0.0)
