"""Which tips cut with a fuel: those on hand for it, else those of another fuel standing in, which is always said."""

from __future__ import annotations

import numpy as np

from estimator import reference
from estimator.check.shop_book import ShopBook, TipRow
from estimator.sheets.torch import BUILT_IN_STATUS
from estimator.words import Fuel

__all__ = ["fuel_tips", "has_built_in_flow", "is_built_in_of_acetylene"]

_NO_PRESSURE = {"fuel_pressure_bar": 0.0, "fuel_pressure_low_bar": None, "fuel_pressure_high_bar": None}


def fuel_tips(shop: ShopBook, fuel: str) -> tuple[list[TipRow], str]:
    """Return the tips for a fuel in order of bore, and the fuel whose tips stand in.

    Parameters
    ----------
    shop : ShopBook
        The shop book.
    fuel : str
        Fuel of the job.

    Returns
    -------
    tuple of (list of TipRow, str)
        No tips when nothing is known that could stand in. The fuel is empty where the tips are the shop's own for it.

    Notes
    -----
    Only a fuel with built-in flows is stood in for, and only by tips without a chart of the shop's own, which would be
    of the other fuel. Bore, range and oxygen pressure are kept: a cutting-oxygen bore passes the same oxygen beside any
    flame. The fuel's pressure is left open, as zero; so is the built-in acetylene pressure of a tip that the book gives
    to another fuel. Source: common practice, no source.
    """
    on_hand = sorted((tip for tip in shop.tips if tip.on_hand), key=lambda tip: (tip.bore_mm, tip.name))
    own = [_told_of_its_fuel(tip) for tip in on_hand if tip.fuel == fuel]
    if own or not has_built_in_flow(fuel):
        return own, ""
    fuels = sorted({tip.fuel for tip in on_hand}, key=lambda other: (other != Fuel.ACETYLENE, other))
    charted = {row.tip for row in shop.own_chart}
    for lender in fuels:
        lent = [_lent(tip, fuel) for tip in on_hand if tip.fuel == lender]
        if charted.isdisjoint(tip.name for tip in lent):
            return lent, lender
    return [], ""


def has_built_in_flow(fuel: str) -> bool:
    """Return whether the built-in chart holds flows of a fuel."""
    return bool((reference.table("chart_fuel").column("fuel") == fuel).any())


def is_built_in_of_acetylene(tip: TipRow) -> bool:
    """Return whether a tip is for another fuel while its row says that its figures are built-in: an acetylene tip's."""
    return tip.fuel != Fuel.ACETYLENE and tip.status.startswith(BUILT_IN_STATUS)


def _lent(tip: TipRow, fuel: str) -> TipRow:
    status = f"stands in: bore, range and oxygen pressure of a tip for {tip.fuel}, no pressure of {fuel} known"
    return tip.model_copy(update={"fuel": fuel, "given_flow_m3_h": None, "status": status, **_NO_PRESSURE})


def _told_of_its_fuel(tip: TipRow) -> TipRow:
    """Return a tip without the built-in pressure of acetylene where the book gives it to another fuel."""
    built_in = reference.table("tip_fuel_pressure").column("likely_bar")
    if is_built_in_of_acetylene(tip) and np.isclose(tip.fuel_pressure_bar, built_in, rtol=1e-3).any():
        status = f"{tip.status} (an acetylene tip's; no pressure of {tip.fuel} known)"
        return tip.model_copy(update={"status": status, **_NO_PRESSURE})
    return tip
