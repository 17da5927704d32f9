"""The steel that pieces come from: bars and sections, plates, and the square that a round piece spoils."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.quantities.lines import mass_each_kg
from estimator.quantities.sections import is_section
from estimator.words import MadeFrom, Shape

__all__ = ["from_bar", "round_waste_l_each"]


def from_bar(cuts: CutList) -> NDArray[np.bool_]:
    """Return which lines are cut to length from bars and sections, or come so, instead of out of a plate."""
    of_bar = np.isin(cuts.made_from, (MadeFrom.FLAT, MadeFrom.BLANK)) | (cuts.shape == Shape.BAR_END)
    return np.asarray(of_bar | is_section(cuts.shape))


def round_waste_l_each(cuts: CutList) -> NDArray[np.float64]:
    """Return the steel of the square that a round piece from plate comes from, beyond the piece itself.

    Parameters
    ----------
    cuts : CutList
        n checked lines.

    Returns
    -------
    ndarray of float, shape (n,)
        Corners, the inside of a ring and round holes; zero for pieces that are not round or not from plate [l].

    Notes
    -----
    Source: geometry.
    """
    piece_kg = mass_each_kg(cuts, 1.0)
    square_kg = cuts.size_a_mm**2 * cuts.thickness_mm * 1e-9
    is_round = np.isin(cuts.shape, (Shape.DISC, Shape.RING)) & ~from_bar(cuts)
    return np.where(is_round, np.nan_to_num(square_kg - piece_kg), 0.0) * 1000.0
