"""From quantities to cost, line by line and row by row, in the order of the definitions. Exact: nothing is rounded."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.shop_book import ShopForm
from estimator.check.work_rates import WorkRates
from estimator.pricing.plate_steel import PlateSteel
from estimator.pricing.rates import Rates, steel_per_piece_kg
from estimator.quantities.job_rows import JobRow
from estimator.quantities.stock import from_bar, round_waste_l_each
from estimator.quantities.times import LineQuantities
from estimator.quantities.torch_settings import Settings
from estimator.words import Steel

__all__ = ["COST_PARTS", "ExactCosts", "job_row_costs", "line_costs", "steel_charged_kg"]

Floats = NDArray[np.float64]

COST_PARTS = ("gas", "labour", "consumables", "rent", "steel", "add_on", "overhead")
"""Parts of the cost, in the order of the build-up; their sum is the cost."""


@dataclass(slots=True)
class ExactCosts:
    """Cost parts before rounding, in the major unit: shape (n,) each."""

    gas: Floats
    labour: Floats
    consumables: Floats
    rent: Floats
    steel: Floats
    add_on: Floats
    overhead: Floats
    labour_per_hour: Floats

    @property
    def cost(self) -> Floats:
        """Sum of the parts."""
        direct = self.gas + self.labour + self.consumables + self.rent + self.steel
        return direct + self.add_on + self.overhead


def line_costs(
    cuts: CutList,
    lines: LineQuantities,
    settings: Settings,
    *,
    rates: Rates,
    shop: ShopForm,
    work: WorkRates,
    paid_time_min: Floats,
    other_consumables: Floats,
    labour_rate: list[str],
    plates: PlateSteel,
) -> ExactCosts:
    """Return the exact cost parts of every line.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    lines : LineQuantities
        What they take.
    settings : Settings
        Torch settings.
    rates : Rates
        Rates in force.
    shop : ShopForm
        The shop's rules.
    work : WorkRates
        The shop's work rates.
    paid_time_min : ndarray of float, shape (n,)
        Paid minutes: worked out, or typed by the owner [min].
    other_consumables : ndarray of float, shape (n,)
        Consumables of other work and of drilled holes [money].
    labour_rate : list of str, length n
        Name of each line's labour rate, known to be in force.
    plates : PlateSteel
        What the lines pay of the job's plates; NaN where they go by weight.

    Returns
    -------
    ExactCosts
        Shape (n,) each.

    Notes
    -----
    Direct cost, then add-ons by class on one base, then overhead per paid hour and on direct cost. Steel is bought
    with its left-over share; what is left over is credited as scrap. Source: definition.
    """
    tip_price = np.array([rates.tip_price.get(tip, 0.0) for tip in settings.tip] + [0.0])
    thick = np.where(cuts.thickness_mm > work.thick_pierce_mm, lines.metres.passes * lines.metres.pierces_each, 0.0)
    worn_h = lines.flame_time_min / 60.0 + thick * work.thick_pierce_wear_h
    gas = rates.oxygen.cost_per_m3 * lines.drawn_oxygen_m3 + rates.fuel.cost_per_m3 * lines.drawn_fuel_m3
    per_hour = _per_hour(labour_rate, rates)
    return _with_overheads(
        gas=gas,
        labour=paid_time_min / 60.0 * per_hour,
        consumables=tip_price[lines.setting] * worn_h / work.tip_life_h + other_consumables,
        rent=rates.rent_per_flame_hour * lines.flame_time_min / 60.0,
        steel=steel_cost(cuts, lines, rates, work, plates),
        paid_time_min=paid_time_min,
        per_hour=per_hour,
        rates=rates,
        shop=shop,
    )


def steel_cost(cuts: CutList, lines: LineQuantities, rates: Rates, work: WorkRates, plates: PlateSteel) -> Floats:
    """Return what our own steel costs on each line, scrap credited; zero for steel that is theirs or excluded.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    lines : LineQuantities
        With the mass of a piece, NaN where unknown [kg].
    rates : Rates
        Rates in force.
    work : WorkRates
        The shop's work rates: what is left of a bar, and what a round piece pays of its square.
    plates : PlateSteel
        What the lines pay of the job's plates; NaN where they go by weight.

    Returns
    -------
    ndarray of float, shape (n,)
        Cost [money].
    """
    price, scrap, _ = steel_per_piece_kg(rates, cuts.thickness_mm)
    bought = steel_charged_kg(cuts, lines, rates, work, plates)
    mass = cuts.quantity * lines.mass_each_kg
    by_plate = ~np.isnan(plates.bought_kg_each)
    left = np.where(by_plate, cuts.quantity * plates.left_kg_each, bought - mass)
    return np.where(cuts.steel == Steel.OURS, np.nan_to_num(bought * price - left * scrap), 0.0)


def steel_charged_kg(cuts: CutList, lines: LineQuantities, rates: Rates, work: WorkRates, plates: PlateSteel) -> Floats:
    """Return the mass of our own steel that each line pays for; zero for steel that is theirs or excluded.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    lines : LineQuantities
        With the mass of a piece, NaN where unknown [kg].
    rates : Rates
        Rates in force, the left-over share of plates among them.
    work : WorkRates
        The shop's work rates: what is left of a bar, and what a round piece pays of its square.
    plates : PlateSteel
        What the lines pay of the job's plates; NaN where they go by weight.

    Returns
    -------
    ndarray of float, shape (n,)
        Mass bought [kg].

    Notes
    -----
    By weight, a round piece from plate is charged the square it comes from. Source: definition; common practice, no
    source.
    """
    left_over = np.where(from_bar(cuts), work.bar_left_over, steel_per_piece_kg(rates, cuts.thickness_mm)[2])
    corners_kg = round_waste_l_each(cuts) * work.steel_density_kg_m3 / 1000.0
    by_weight = (lines.mass_each_kg + work.round_waste_charged * corners_kg) / (1.0 - left_over)
    each_kg = np.where(np.isnan(plates.bought_kg_each), by_weight, plates.bought_kg_each)
    return np.where(cuts.steel == Steel.OURS, np.nan_to_num(cuts.quantity * each_kg), 0.0)


def job_row_costs(rows: list[JobRow], *, rates: Rates, shop: ShopForm, labour_rate: str) -> ExactCosts:
    """Return the exact cost parts of the job's rows.

    Parameters
    ----------
    rows : list of JobRow, length k
        Rows of the job.
    rates : Rates
        Rates in force.
    shop : ShopForm
        The shop's rules.
    labour_rate : str
        Labour rate of the job.

    Returns
    -------
    ExactCosts
        Shape (k,) each; no steel and no consumables.
    """

    def column(name: str) -> Floats:
        return np.array([getattr(r, name) for r in rows], dtype=np.float64)

    paid = column("paid_time_min")
    per_hour = _per_hour([labour_rate] * len(rows), rates)
    zero = np.zeros(len(rows))
    return _with_overheads(
        gas=rates.oxygen.cost_per_m3 * column("drawn_oxygen_m3") + rates.fuel.cost_per_m3 * column("drawn_fuel_m3"),
        labour=paid / 60.0 * per_hour,
        consumables=zero,
        rent=rates.rent_per_flame_hour * column("flame_time_min") / 60.0,
        steel=zero,
        paid_time_min=paid,
        per_hour=per_hour,
        rates=rates,
        shop=shop,
    )


def _with_overheads(
    *,
    gas: Floats,
    labour: Floats,
    consumables: Floats,
    rent: Floats,
    steel: Floats,
    paid_time_min: Floats,
    per_hour: Floats,
    rates: Rates,
    shop: ShopForm,
) -> ExactCosts:
    direct = gas + labour + consumables + rent + steel
    share = rates.add_on
    add_on = (
        share.get("gas", 0.0) * gas
        + share.get("labour", 0.0) * labour
        + share.get("consumables", 0.0) * consumables
        + share.get("rent", 0.0) * rent
        + share.get("steel", 0.0) * steel
    )
    overhead = shop.overhead_per_hour * paid_time_min / 60.0 + shop.overhead_share * direct
    return ExactCosts(gas, labour, consumables, rent, steel, add_on, overhead, per_hour)


def _per_hour(names: list[str], rates: Rates) -> Floats:
    known = {name: rates.labour[name] for name in rates.labour}
    return np.array([known[name] for name in names], dtype=np.float64)
