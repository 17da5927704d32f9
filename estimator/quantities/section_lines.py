"""Sections and bars in a list: each cut through a section becomes a cut of some length and thickness, as plate is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.quantities.sections import is_section, section_cut

__all__ = ["with_section_cuts"]

Floats = NDArray[np.float64]


def with_section_cuts(cuts: CutList, *, shank_of_head: float) -> CutList:
    """Return the list with cut length, thickness along the cut, area and starts filled in for sections.

    Parameters
    ----------
    cuts : CutList
        n lines.
    shank_of_head : float
        Shank over head diameter of bolts and rivets whose shank is not given.

    Returns
    -------
    CutList
        A new list; lines that are no section are as they were, and what a line gives itself stays.
    """
    section = is_section(cuts.shape)
    if not section.any():
        return cuts
    cut = section_cut(
        cuts.shape,
        size_a_mm=cuts.size_a_mm,
        size_b_mm=cuts.size_b_mm,
        thickness_mm=cuts.thickness_mm,
        section_area_cm2=cuts.section_area_cm2,
        shank_of_head=shank_of_head,
    )

    def fill(own: Floats, worked: Floats) -> Floats:
        return np.where(section & np.isnan(own), worked, own)

    return replace(
        cuts,
        cut_length_mm=fill(cuts.cut_length_mm, cut.cut_length_mm),
        thickness_mm=np.where(section, cut.thickness_mm, cuts.thickness_mm),
        thickest_mm=np.where(section, cut.thickest_mm, np.nan),
        section_area_cm2=fill(cuts.section_area_cm2, cut.section_area_cm2),
        pierces=fill(cuts.pierces, cut.pierces),
        edge_starts=fill(cuts.edge_starts, cut.edge_starts),
    )
