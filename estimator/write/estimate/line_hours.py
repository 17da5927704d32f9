"""Columns of the working sheet for the minutes around the flame, and the man-minutes that all of them come to."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.job import Estimate
from estimator.write.estimate.live_table import LiveColumn
from estimator.write.estimate.look_of_numbers import NumberFormats

__all__ = ["hour_columns"]

Floats = NDArray[np.float64]


def hour_columns(estimate: Estimate, formats: NumberFormats) -> list[LiveColumn]:
    """Return the minutes around the flame, and the paid minutes that all of them come to.

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
            formats.metres,
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
            "[cleaned_by_edge]*[once_edge_m]*INDEX(tip_cleaning_min_per_m,[setting])",
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
            "[once_edge_m]*[touch_up]*touch_up_min_per_m",
            "[once_edge_m]*[bright]*bright_min_per_m",
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
