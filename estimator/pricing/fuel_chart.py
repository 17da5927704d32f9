"""Whether a fuel can be cut with: flows, built in or in the shop's own chart, and tips, its own or standing in."""

from __future__ import annotations

from collections.abc import Sequence

from estimator.check.shop_book import ShopBook, TipRow
from estimator.check.torch_kit import TorchKit, built_in_chart
from estimator.problems import Place, Problem
from estimator.problems import shop_book as say
from estimator.problems.rack import OWN_CHART_NEEDED
from estimator.sheets.torch import OWN_CHART, TIPS

__all__ = ["fuel_problems"]


def fuel_problems(kit: TorchKit, shop: ShopBook) -> list[Problem]:
    """Return the problem of a fuel that cannot be cut with, or the warning that another fuel's tips stand in.

    Parameters
    ----------
    kit : TorchKit
        Tips for the fuel, with their charts.
    shop : ShopBook
        The shop book; its file name is empty for the built-in example.

    Returns
    -------
    list of Problem
        One, or none.
    """
    file = shop.file or "the example shop book"
    charts = [built_in_chart(kit.fuel), *kit.charts]
    if not any(len(chart.fuel_m3_h.thickness_mm) for chart in charts):
        found = _tips([tip for tip in shop.tips if tip.on_hand])
        return [OWN_CHART_NEEDED.at(Place(file, OWN_CHART.name), found=found, gas=kit.fuel)]
    if kit.tip_rows and not kit.lent_by:
        return []
    others = [tip for tip in shop.tips if tip.on_hand and (not kit.lent_by or tip.fuel == kit.lent_by)]
    place = Place(file, TIPS.name, others[0].row if others else 0)
    if kit.lent_by:
        fields = {"fuel": kit.fuel, "lender": kit.lent_by, "rows": _rows(others)}
        return [say.TIPS_LENT.at(place, found=_tips(others), **fields)]
    why = "tip, speed and gas depend on it"
    if shop.own_chart:
        why += "; tips with a chart of your own do not stand in, since it is of their fuel"
    mend = f"choose {kit.fuel} under Fuel in {_rows(others)} of Tips, for the tips made for it"
    if not others:
        mend = f"type your tips for {kit.fuel} on the sheet Tips, with yes under On hand"
    return [say.NO_TIP_FOR_FUEL.at(place, found=_tips(others), why=why, mend=mend, fuel=kit.fuel)]


def _tips(tips: Sequence[TipRow]) -> str:
    """Return how many tips there are for each fuel."""
    fuels = [tip.fuel for tip in tips]
    counts = ", ".join(f"{fuels.count(fuel)} for {fuel}" for fuel in dict.fromkeys(fuels))
    return f"tips on hand: {counts or 'none'}"


def _rows(tips: Sequence[TipRow]) -> str:
    """Return the rows of the sheet that tips stand in, by their ends."""
    rows = sorted(tip.row for tip in tips if tip.row)
    if not rows:
        return "each row"
    return f"row {rows[0]}" if rows[0] == rows[-1] else f"rows {rows[0]} to {rows[-1]}"
