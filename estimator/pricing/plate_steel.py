"""What each line pays of the plates bought for the job: mass bought and mass credited as scrap, for one piece."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.pricing.plates_bought import PlatesBought
from estimator.words import SteelCharged

__all__ = ["PlateSteel", "plate_steel"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class PlateSteel:
    """Plate that one piece of each line pays for; NaN where its steel goes by weight: shape (n,) each."""

    bought_kg_each: Floats
    left_kg_each: Floats
    """Left over and credited as scrap [kg]."""


def plate_steel(cuts: CutList, plates: PlatesBought, charged: SteelCharged) -> PlateSteel:
    """Share the plates of a job over its lines by area.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    plates : PlatesBought
        The plates of these lines.
    charged : SteelCharged
        By weight, whole plates, or the area that the pieces take with their spacing.

    Returns
    -------
    PlateSteel
        Shape (n,). Lines that no plate serves go by weight.

    Notes
    -----
    Whole plates: the masses bought add to the plates, and what is left over is credited to the lines that paid for it.
    Area used: pieces with their spacing, never less than the pieces; the rest stays the shop's. Source: definition.
    """
    bought, left = np.full(len(cuts), np.nan), np.full(len(cuts), np.nan)
    for buy in plates.buys if charged is not SteelCharged.BY_WEIGHT else ():
        whole = charged is SteelCharged.WHOLE_PLATES
        paid_kg = buy.option.plate_mass_kg * (1.0 if whole else buy.option.taken_share)
        share = buy.option.line_shares / cuts.quantity[buy.lines]
        bought[buy.lines] = paid_kg * share
        left[buy.lines] = (buy.option.drop_mass_kg if whole else 0.0) * share
    return PlateSteel(bought, left)
