"""Short cuts that published state norms time as a whole: rails, sheet piles, bolt heads, and the ends of sections."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.torch_figures import Curve
from estimator.check.work_rates import WorkRates
from estimator.quantities.sections import (
    bolt_head_time_min,
    end_cleaning_min,
    ends_cleaned,
    is_section,
    section_time_min,
)
from estimator.words import BLANK, Shape, Work

__all__ = ["NormedWork", "no_normed_work", "normed_work"]

Floats = NDArray[np.float64]

# Sections whose ends the norm of end cleaning speaks of, and bars and tubes that are cleaned the same way.
_CLEANED_BY_END = (
    Shape.ANGLE,
    Shape.CHANNEL,
    Shape.BEAM,
    Shape.SQUARE_TUBE,
    Shape.PIPE,
    Shape.ROUND_BAR,
    Shape.SQUARE_BAR,
)


@dataclass(frozen=True, slots=True)
class NormedWork:
    """What the norms say of one piece of each line; NaN where they say nothing: shape (n,)."""

    cut_min_each: Floats
    """Paid minutes of the whole cut: marking, preheat, cut, moving on and rest are in it [min]."""
    end_cleaning_min_each: Floats
    """Cleaning of the piece's cut ends, without rest [min]."""


def no_normed_work(n: int) -> NormedWork:
    """Return n lines of which no norm speaks."""
    return NormedWork(np.full(n, np.nan), np.full(n, np.nan))


def normed_work(cuts: CutList, cleaning: Curve, rates: WorkRates, *, fuel: str) -> NormedWork:
    """Return what the norms say of each line.

    Parameters
    ----------
    cuts : CutList
        n lines, sections with their path and mean thickness filled in.
    cleaning : Curve
        Plate-edge cleaning by thickness [min/m].
    rates : WorkRates
        The shop's work rates.
    fuel : str
        Fuel of the job.

    Returns
    -------
    NormedWork
        Shape (n,).

    Notes
    -----
    Rails and piles by area, bolt and rivet heads by the head's diameter, section ends by path and plate norm; see
    ``sections``. Source: ENiR E22-1-41, E22-1-43, E12-85 and E40-2-4, fitted.
    """
    cutting = np.isin(cuts.work, (Work.CUT, BLANK)) & is_section(cuts.shape)
    if not cutting.any():
        return no_normed_work(len(cuts))
    factor = 1.0 if fuel == "acetylene" else rates.short_cut_time_other_fuels
    area_cm2 = np.where(
        np.isnan(cuts.section_area_cm2), cuts.cut_length_mm * cuts.thickness_mm / 100.0, cuts.section_area_cm2
    )
    cut_min = np.full(len(cuts), np.nan)
    for shape, rate in ((Shape.RAIL, rates.rail_cm2_min), (Shape.SHEET_PILE, rates.sheet_pile_cm2_min)):
        here = cutting & (cuts.shape == shape)
        cut_min[here] = section_time_min(area_cm2[here], area_rate_cm2_min=rate, fuel_time_factor=factor)
    heads = cutting & (cuts.shape == Shape.BOLT_HEAD)
    cut_min[heads] = bolt_head_time_min(
        cuts.size_a_mm[heads],
        start_min=rates.bolt_head_start_min,
        per_mm_min=rates.bolt_head_min_per_mm,
        fuel_time_factor=factor,
    )
    return NormedWork(cut_min, _end_cleaning(cuts, cutting, cleaning, rates))


def _end_cleaning(cuts: CutList, cutting: NDArray[np.bool_], cleaning: Curve, rates: WorkRates) -> Floats:
    """Minutes of a piece's ends: between the norm's thicknesses, above them in proportion to thickness."""
    by_end = cutting & np.isin(cuts.shape, _CLEANED_BY_END)
    if not len(cleaning.thickness_mm):
        return np.full(len(cuts), np.nan)
    t_mm = cuts.thickness_mm
    above = t_mm > cleaning.thickness_mm[-1]
    plate_min_m = np.where(
        above, rates.clean_above_30_per_mm * t_mm, np.interp(t_mm, cleaning.thickness_mm, cleaning.likely)
    )
    one_end = end_cleaning_min(cuts.cut_length_mm, edge_cleaning_min_m=plate_min_m, end_factor=rates.section_end_factor)
    return np.where(by_end, one_end * ends_cleaned(cuts.shape, mill_ends=cuts.mill_ends), np.nan)
