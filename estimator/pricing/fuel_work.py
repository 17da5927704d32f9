"""A list's work on one fuel or another: the same lines through the model of a cut, ready to be priced.

A shop that has no tips for a fuel is given its own tips' bores and ranges with that fuel's chart, and this is said.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from estimator import reference
from estimator.check.cut_list import CutList
from estimator.check.shop_book import FlameTipRow, ShopBook
from estimator.check.torch_kit import torch_kit, work_rates
from estimator.check.work_rates import WorkRates
from estimator.pricing.fuels import FuelCost, FuelTurn, FuelWork, MetreWork, compare_fuels, fuel_turns
from estimator.pricing.landed import Money
from estimator.pricing.line_physics import line_physics
from estimator.pricing.market import acetylene_draw_share
from estimator.pricing.offers import GasUse, Supplier
from estimator.quantities.job import ChosenSettings, JobQuantities, choose_settings
from estimator.quantities.section_lines import with_section_cuts
from estimator.quantities.torch_settings import preheat_ratio
from estimator.words import BLANK, Fuel, Work

__all__ = [
    "FuelComparison",
    "FuelLeftOut",
    "WorkOnFuel",
    "compare_fuels_on_list",
    "hardest_draw_m3_h",
    "work_on_fuel",
    "work_on_fuels",
]


@dataclass(frozen=True, slots=True)
class FuelLeftOut:
    """A fuel that the work cannot be put on."""

    fuel: str
    why: str


@dataclass(frozen=True, slots=True)
class FuelComparison:
    """The same month's work, fuel by fuel."""

    costs: tuple[FuelCost, ...]
    """The cheapest first."""
    turns: tuple[FuelTurn, ...]
    works: tuple[WorkOnFuel, ...]
    left_out: tuple[FuelLeftOut, ...]
    labour_per_hour: float
    change_counted: bool
    """Whether the cost of changing to another fuel is in it."""

    def work_on(self, fuel: str) -> WorkOnFuel:
        """Return the work on a fuel; KeyError names it when there is none."""
        for one in self.works:
            if one.work.fuel == fuel:
                return one
        raise KeyError(f"no work on {fuel}")


@dataclass(frozen=True, slots=True)
class WorkOnFuel:
    """A month's work on one fuel, and what was taken for it."""

    work: FuelWork
    stand_in_tips: bool
    """Whether the shop has no tips for this fuel, and its own tips' bores and ranges stand in."""
    heating_share: float
    """Share of the fuel that goes into heating."""


def compare_fuels_on_list(
    cuts: CutList,
    shop: ShopBook,
    suppliers: Sequence[Supplier],
    money: Money,
    *,
    labour_per_hour: float,
    months: float = 1.0,
    change_cost: float | None = None,
    change_months: int = 24,
) -> FuelComparison:
    """Compare a list's work on every fuel that somebody offers.

    Parameters
    ----------
    cuts, shop, months, change_months
        As for ``work_on_fuels``.
    suppliers : sequence of Supplier
        Who sells the gases.
    money : Money
        Decimals and interest.
    labour_per_hour : float
        Cost of a paid hour [money].
    change_cost : float
        Cost of changing to another fuel [money]; None leaves it out, and the comparison says so.

    Returns
    -------
    FuelComparison

    Raises
    ------
    ValueError
        When months are not above zero or the labour rate is below zero.

    Notes
    -----
    Source: as for ``work_on_fuels``.
    """
    offered = {offer.gas for supplier in suppliers for offer in supplier.offers} - {"oxygen"}
    fuels = [str(fuel) for fuel in Fuel if fuel in offered]
    works, left_out = work_on_fuels(
        cuts, shop, fuels, months=months, change_cost=change_cost or 0.0, change_months=change_months
    )
    costs = compare_fuels([one.work for one in works], suppliers, money, labour_per_hour=labour_per_hour)
    priced = {cost.fuel for cost in costs}
    left_out += [
        FuelLeftOut(one.work.fuel, "no choice of cylinders is offered and fits")
        for one in works
        if one.work.fuel not in priced
    ]
    turns = fuel_turns(costs, money.decimals)
    return FuelComparison(
        tuple(costs), tuple(turns), tuple(works), tuple(left_out), labour_per_hour, change_cost is not None
    )


def work_on_fuels(
    cuts: CutList,
    shop: ShopBook,
    fuels: Sequence[str],
    *,
    months: float = 1.0,
    change_cost: float = 0.0,
    change_months: int = 12,
    long_burns: bool = False,
) -> tuple[list[WorkOnFuel], list[FuelLeftOut]]:
    """Put the same work on several fuels.

    Parameters
    ----------
    cuts : CutList
        n checked lines that the shop's own fuel can price.
    shop : ShopBook
        Tips, chart, rates.
    fuels : sequence of str
        Fuels to try.
    months : float
        Months that the list fills, above zero.
    change_cost : float
        Tips, hoses, regulators and training for another fuel than the shop's [money].
    change_months : int
        Months over which that is spread.
    long_burns : bool
        Whether a torch is lit more than 10 minutes without a break of 5.

    Returns
    -------
    tuple of (list of WorkOnFuel, list of FuelLeftOut)
        Fuels in the order asked.

    Raises
    ------
    ValueError
        When months are not above zero.

    Notes
    -----
    Other flows, preheat oxygen and start times come from the chart and the work rates; heating takes fuel in the
    inverse proportion of net heating values. Source: ``chart_fuel.csv``, ``work_rates.csv``, ``heating_values.csv``.
    """
    if months <= 0:
        raise ValueError(f"months must be above zero, got {months}")
    done: list[WorkOnFuel] = []
    left_out: list[FuelLeftOut] = []
    for fuel in fuels:
        change = 0.0 if fuel == shop.shop.fuel else change_cost
        found = work_on_fuel(cuts, shop, fuel, months=months, long_burns=long_burns)
        if isinstance(found, FuelLeftOut):
            left_out.append(found)
        else:
            work = replace(found.work, change_cost=change, change_months=change_months)
            done.append(replace(found, work=work))
    return done, left_out


def work_on_fuel(
    cuts: CutList, shop: ShopBook, fuel: str, *, months: float = 1.0, long_burns: bool = False
) -> WorkOnFuel | FuelLeftOut:
    """Put a list's work on one fuel.

    Parameters
    ----------
    cuts, shop, months, long_burns
        As for ``work_on_fuels``.
    fuel : str
        The fuel.

    Returns
    -------
    WorkOnFuel or FuelLeftOut
        Gas with its stated losses, and paid time, of a month.

    Notes
    -----
    Source: as for ``work_on_fuels``.
    """
    rates = work_rates(shop)
    stand_in = not any(tip.fuel == fuel and tip.on_hand for tip in shop.tips)
    if fuel != shop.shop.fuel:
        shop, cuts = _with_stand_in_tips(shop, fuel, rates), _without_named_cutting_tips(cuts)
    cuts = with_section_cuts(cuts, shank_of_head=rates.bolt_shank_share)
    kit = torch_kit(shop, fuel)
    if any(len(chart.fuel_m3_h.likely) == 0 for chart in kit.charts):
        return FuelLeftOut(fuel, "no chart holds its flows; type the shop's own chart")
    chosen = choose_settings(cuts, kit, rates, keep_tip_in=shop.shop.keep_tip_in)
    bad = chosen.no_tip | chosen.no_chart | chosen.unknown_tip
    if bad.any():
        return FuelLeftOut(fuel, f"{int(bad.sum())} of {len(cuts)} lines have no tip or chart for it")
    job, _ = line_physics(cuts, shop, kit, rates, chosen)
    uses = _uses(job, fuel, months=months, long_burns=long_burns)
    work = FuelWork(fuel, uses, job.whole_paid_time_min / months, _by_thickness(cuts, job, months))
    return WorkOnFuel(work, stand_in, _heating_share(job))


def _uses(job: JobQuantities, fuel: str, *, months: float, long_burns: bool) -> tuple[GasUse, ...]:
    """Return a month's use of each gas, with the hardest draw on it."""
    share = acetylene_draw_share(long_burns=long_burns) if fuel == "acetylene" else 0.0
    draw = {gas: hardest_draw_m3_h(job.chosen, gas) for gas in ("oxygen", "fuel")}
    uses = (
        GasUse("oxygen", job.drawn_oxygen_m3 / months, highest_draw_m3_h=draw["oxygen"]),
        GasUse(fuel, job.drawn_fuel_m3 / months, highest_draw_m3_h=draw["fuel"], draw_share_per_h=share),
    )
    return tuple(use for use in uses if use.month_m3 > 0)


def _with_stand_in_tips(shop: ShopBook, fuel: str, rates: WorkRates) -> ShopBook:
    """Give a shop that lacks tips for a fuel its own tips once more; its chart, which is of its own fuel, stays out."""
    own = shop.shop.fuel
    has = any(tip.fuel == fuel and tip.on_hand for tip in shop.tips)
    tips = [
        tip.model_copy(update={"fuel": fuel, "name": f"{tip.name} {fuel}", "given_flow_m3_h": None})
        for tip in shop.tips
        if tip.fuel == own and tip.on_hand and not has
    ]
    flame = [] if any(f.fuel == fuel for f in shop.flame_tips) else _stand_in_flames(shop, own, fuel, rates)
    return shop.model_copy(update={"tips": (*shop.tips, *tips), "flame_tips": (*shop.flame_tips, *flame)})


def _without_named_cutting_tips(cuts: CutList) -> CutList:
    """Let the model choose the tips: those that a list names are the present fuel's."""
    cutting = np.isin(cuts.work, (Work.CUT, BLANK))
    return replace(cuts, tip=["" if cut else name for name, cut in zip(cuts.tip, cutting, strict=True)])


def _stand_in_flames(shop: ShopBook, own: str, fuel: str, rates: WorkRates) -> list[FlameTipRow]:
    """Heating tips of the same heat: fuel in the inverse proportion of net heating values."""
    scale = reference.net_heating_value_mj_m3(own) / reference.net_heating_value_mj_m3(fuel)
    if np.isnan(scale):
        return []
    ratio = preheat_ratio(fuel, rates)
    return [
        tip.model_copy(
            update={
                "fuel": fuel,
                "fuel_m3_h": tip.fuel_m3_h * scale,
                "preheat_oxygen_m3_h": tip.fuel_m3_h * scale * ratio,
            }
        )
        for tip in shop.flame_tips
        if tip.fuel == own
    ]


def hardest_draw_m3_h(chosen: ChosenSettings, gas: str) -> float:
    """Return the hardest draw of one torch [m³/h]."""
    settings = chosen.settings
    used = np.unique(np.concatenate([chosen.setting, chosen.bevel_setting]))
    used = used[used >= 0]
    if not len(used):
        return 0.0
    fuel = settings.fuel_flow_m3_h[used]
    flow = fuel if gas == "fuel" else settings.cutting_flow_m3_h[used] + settings.preheat_flow_m3_h[used]
    return float(np.nanmax(flow))


def _heating_share(job: JobQuantities) -> float:
    chosen = job.chosen
    heated = (chosen.setting >= 0) & chosen.settings.is_flame[np.maximum(chosen.setting, 0)]
    return float(job.lines.drawn_fuel_m3[heated].sum()) / job.drawn_fuel_m3 if job.drawn_fuel_m3 > 0 else 0.0


def _by_thickness(cuts: CutList, job: JobQuantities, months: float) -> tuple[MetreWork, ...]:
    lines = job.lines
    cutting = lines.cut_m > 0
    rows = []
    for thickness in np.unique(np.round(cuts.thickness_mm[cutting], 6)):
        at = cutting & (np.round(cuts.thickness_mm, 6) == thickness)
        rows.append(
            MetreWork(
                float(thickness),
                float(lines.cut_m[at].sum()) / months,
                float(lines.drawn_oxygen_m3[at].sum()) / months,
                float(lines.drawn_fuel_m3[at].sum()) / months,
                float(lines.paid_time_min[at].sum()) / months,
            )
        )
    return tuple(rows)
