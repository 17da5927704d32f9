"""What is charged of our own steel, in words: the mass, and what it holds beyond the pieces."""

from __future__ import annotations

import numpy as np

from estimator.pricing.build_up import steel_charged_kg
from estimator.pricing.job import Estimate
from estimator.pricing.rates import steel_per_piece_kg
from estimator.quantities.sorted_values import distinct
from estimator.quantities.stock import from_bar, round_waste_l_each
from estimator.words import Steel

__all__ = ["steel_charged_words"]


def steel_charged_words(estimate: Estimate) -> str:
    """Return the mass of our steel that the price charges, and what it holds beyond the pieces.

    Parameters
    ----------
    estimate : Estimate
        A priced job.

    Returns
    -------
    str
        Shares of the steel bought, as the shop book has them.
    """
    cuts, work = estimate.cuts, estimate.work
    charged_kg = steel_charged_kg(cuts, estimate.job.lines, estimate.rates, work, estimate.plates)
    units, ours = estimate.shop.shown, cuts.steel == Steel.OURS
    by_weight, bar = ours & np.isnan(estimate.plates.bought_kg_each), from_bar(cuts)
    beyond = []
    if not by_weight[ours].all():
        beyond.append(estimate.shop.shop.steel_charged)
    plate_shares = distinct(steel_per_piece_kg(estimate.rates, cuts.thickness_mm)[2][by_weight & ~bar])
    if plate_shares.any():
        beyond.append("+ " + " and ".join(f"{share * 100:g}" for share in plate_shares.tolist()) + " % left over")
    if np.any(by_weight & bar) and work.bar_left_over:
        beyond.append(f"+ {work.bar_left_over * 100:g} % bars")
    if work.round_waste_charged and np.any(round_waste_l_each(cuts)[by_weight] > 0):
        beyond.append("rounds by their squares")
    said = f" ({', '.join(beyond)})" if beyond else ""
    return f"{units.words(float(charged_kg.sum()), 'kg', ',.0f')} charged{said}"
