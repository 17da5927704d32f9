"""Columns of the working sheet for the minutes around the flame, and the man-minutes that all of them come to."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.job import Estimate
from estimator.quantities.times import LineQuantities
from estimator.write.estimate.live_table import LiveColumn
from estimator.write.estimate.look_of_numbers import NumberFormats

__all__ = ["hour_columns"]

Floats = NDArray[np.float64]

_ONE_LIFT = "handling_min_per_piece+handling_min_per_kg*[mass_each_kg?]"
_LIFTED = f"IF([mass_each_kg?]>handling_limit_kg,lift_min,{_ONE_LIFT})"
_RESTED = (
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
"""Minutes on which the rest allowance is paid."""


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
    return [*_piece_columns(x, formats), *_edge_columns(x, formats), *_other_columns(x, formats)]


def _piece_columns(x: LineQuantities, formats: NumberFormats) -> list[LiveColumn]:
    """Return metres and mass, and the minutes of laying out and lifting."""
    return [
        _column(
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
        _column(
            "layout_min",
            "Layout",
            x.layout_min,
            "min",
            formats.minutes,
            "[is_cut]*[outside_norm]*layout_min_per_m*[cut_m]",
            "[is_cut]*[outside_norm]*layout_min_per_piece*[quantity]",
        ),
        _column(
            "handling_min",
            "Handling",
            x.handling_min,
            "min",
            formats.minutes,
            f"[has_piece]*[outside_norm]*[quantity]*{_LIFTED}",
        ),
        _column(
            "helper_min",
            "Helper",
            x.helper_min,
            "min",
            formats.minutes,
            "[has_piece]*[quantity]*IF([mass_each_kg]>handling_limit_kg,helper_min_per_lift,0)",
        ),
    ]


def _edge_columns(x: LineQuantities, formats: NumberFormats) -> list[LiveColumn]:
    """Return the minutes of cleaning and grinding edges, of a norm's rest, and of clamping a stack."""
    return [
        _column(
            "cleaning_min",
            "Slag off",
            x.cleaning_min,
            "min",
            formats.minutes,
            "[cleaned_by_edge]*[quantity]*[edge_m_each]*INDEX(tip_cleaning_min_per_m,[setting])",
            "[cleaned_by_edge]*[once_edge_m]*INDEX(tip_cleaning_min_per_m,[setting])",
            "[quantity]*[end_cleaning_min_each]",
        ),
        _column(
            "grinding_min",
            "Grinding",
            x.grinding_min,
            "min",
            formats.minutes,
            "[quantity]*[edge_m_each]*[touch_up]*touch_up_min_per_m",
            "[quantity]*[edge_m_each]*[bright]*bright_min_per_m",
            "[once_edge_m]*[touch_up]*touch_up_min_per_m",
            "[once_edge_m]*[bright]*bright_min_per_m",
            "[is_cut]*[quantity]*[circles_each]*stop_mark_min",
        ),
        _column(
            "norm_min",
            "Rest of the norm",
            x.norm_min,
            "min",
            formats.minutes,
            "IF([norm_cut_min_each]=0,0,MAX([quantity]*[norm_cut_min_each]/(1+rest_allowance)-[flame_time_min],0))",
        ),
        _column("clamp_min", "Clamping", x.clamp_min, "min", formats.minutes, "[stacked]*[passes]*stack_clamp_min"),
    ]


def _other_columns(x: LineQuantities, formats: NumberFormats) -> list[LiveColumn]:
    """Return the minutes of work without a flame, and the man-minutes that all come to."""
    return [
        _column(
            "drilling_min",
            "Drilling",
            x.drilling_min,
            "min",
            formats.minutes,
            "[quantity]*[drilled_holes_each]*drill_min_per_hole",
            "[quantity]*[drilled_cm3_each]*drill_min_per_cm3",
            "[quantity]*[start_holes_each]*start_hole_min",
        ),
        _column(
            "other_work_min", "Other work", x.other_work_min, "min", formats.minutes, "[quantity]*[other_min_each]"
        ),
        _column(
            "wait_min",
            "Cooling wait",
            x.wait_min,
            "min",
            formats.minutes,
            "[quantity]*[wait_min_each]",
        ),
        _column(
            "worked_min",
            "Man-minutes worked out",
            x.paid_time_min,
            "min",
            formats.minutes,
            *(f"[{name}]*(1+rest_allowance)" for name in _RESTED),
            "[wait_min]",
            "[drilling_min]",
            "[other_work_min]*(1+[other_rested]*rest_allowance)",
        ),
    ]


def _column(name: str, heading: str, values: Floats, unit: str, number: str, *terms: str) -> LiveColumn:
    return LiveColumn(name, heading, values, unit, number, terms)
