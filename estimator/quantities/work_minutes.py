"""The minutes around the flame: layout, handling, cleaning, grinding, clamping and drilling."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.work_rates import WorkRates
from estimator.quantities.lines import BurntMetres, grinding_min_per_m
from estimator.quantities.normed import NormedWork
from estimator.words import BLANK, Work

__all__ = ["WorkMinutes", "work_minutes"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class WorkMinutes:
    """Minutes of whole lines, shape (n,) each."""

    layout: Floats
    handling: Floats
    helper: Floats
    cleaning: Floats
    grinding: Floats
    clamp: Floats
    drilling: Floats

    @property
    def rested(self) -> Floats:
        """Those on which the rest allowance is given: all but drilling by machine."""
        return self.layout + self.handling + self.helper + self.cleaning + self.grinding + self.clamp


def work_minutes(
    cuts: CutList,
    m: BurntMetres,
    cleaning_min_per_m: Floats,
    mass_each_kg: Floats,
    normed: NormedWork,
    rates: WorkRates,
) -> WorkMinutes:
    """Return the minutes around the flame.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    m : BurntMetres
        What they burn.
    cleaning_min_per_m : ndarray of float, shape (n,)
        Norm of slag cleaning at each line's thickness [min/m].
    mass_each_kg : ndarray of float, shape (n,)
        Mass of a piece; NaN where unknown [kg].
    normed : NormedWork
        What state norms of whole short cuts say of one piece.
    rates : WorkRates
        The shop's work rates.

    Returns
    -------
    WorkMinutes
        Shape (n,) each.

    Notes
    -----
    A state norm of a whole short cut holds its marking and placing; a norm of cleaned ends holds its cleaning.
    Source: definitions of the project's method, ``docs/method.md``.
    """
    q = cuts.quantity
    has_piece = ~np.isin(cuts.work, (Work.OTHER,))
    cut = np.isin(cuts.work, (Work.CUT, BLANK))
    heavy = np.nan_to_num(mass_each_kg) > rates.handling_limit_kg
    edge_m = q * m.edge_m_each + m.once_edge_m
    by_hand_min = rates.handling_min_per_piece + rates.handling_min_per_kg * np.nan_to_num(mass_each_kg)
    bored_cm3 = np.pi * m.drilled_diameter_mm**2 / 4 * np.nan_to_num(cuts.thickness_mm) / 1000.0
    drilled = m.drilled_holes_each * (rates.drill_min_per_hole + rates.drill_min_per_cm3 * bored_cm3)
    stacked = np.nan_to_num(cuts.stack, nan=1.0) > 1
    in_norm = ~np.isnan(normed.cut_min_each)
    ends = normed.end_cleaning_min_each
    return WorkMinutes(
        layout=np.where(cut & ~in_norm, rates.layout_min_per_m * m.cut_m + rates.layout_min_per_piece * q, 0.0),
        handling=np.where(has_piece & ~in_norm, q * np.where(heavy, rates.lift_min, by_hand_min), 0.0),
        helper=np.where(has_piece & heavy, q * rates.helper_min_per_lift, 0.0),
        cleaning=np.where(np.isnan(ends), edge_m * cleaning_min_per_m, q * np.nan_to_num(ends)),
        grinding=edge_m * grinding_min_per_m(cuts.edge_finish, rates)
        + np.where(cut, q * m.circles_each * rates.stop_mark_min, 0.0),
        clamp=np.where(stacked, m.passes * rates.stack_clamp_min, 0.0),
        drilling=q * (drilled + m.start_holes_each * rates.start_hole_min),
    )
