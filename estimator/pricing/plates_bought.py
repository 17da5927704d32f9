"""The plates a job needs, by thickness: the cheapest size of the steel sheet, its count, what is used, what is left."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.work_rates import WorkRates
from estimator.pricing.rates import Rates, steel_row
from estimator.quantities.pieces import outline_area_mm2
from estimator.quantities.plates import PlateNeed, PlateOption, plate_need
from estimator.quantities.sorted_values import distinct
from estimator.quantities.times import LineQuantities
from estimator.shown_units import METRIC, ShownUnits
from estimator.words import BLANK, MadeFrom, Shape, Steel, SteelCharged, Work

if TYPE_CHECKING:
    from estimator.pricing.priced_job import Estimate

__all__ = ["PlateBuy", "PlatesBought", "plates_bought", "plates_needed"]

Floats = NDArray[np.float64]
_CHARGED = {
    SteelCharged.BY_WEIGHT.word: "the price charges steel by the weight of the pieces",
    SteelCharged.WHOLE_PLATES.word: "the price charges whole plates, less the scrap of what is left over",
    SteelCharged.AREA_USED.word: "the price charges the area used; what is left over stays with the shop",
}


@dataclass(frozen=True, slots=True)
class PlateBuy:
    """One thickness, bought in one size; money in the major unit, unrounded."""

    thickness_mm: float
    plate_length_mm: float
    plate_width_mm: float
    option: PlateOption
    price: float
    """All the plates."""
    scrap_credit: float
    """What is left over, as scrap."""
    lines: NDArray[np.int64]
    """Lines of the estimate."""

    def words(self, money: Callable[[float], str], offcut: str, units: ShownUnits = METRIC) -> str:
        """Say it; ``offcut`` is the shop's word for what is left."""
        count = self.option.plates
        length, width = (units.number(size, "mm") for size in (self.plate_length_mm, self.plate_width_mm))
        return (
            f"{count} plate{'s' if count != 1 else ''} {units.words(self.thickness_mm, 'mm')}, {length:.6g} x "
            f"{width:.6g}: {self.option.used_share * 100:.0f} % used, "
            f"{units.words(self.option.drop_mass_kg, 'kg', '.0f')} {offcut}, {money(self.price)}"
        )


@dataclass(frozen=True, slots=True)
class PlatesBought:
    """The plates of a job, and the lines that no plate serves."""

    buys: list[PlateBuy]
    larger_than_any_plate: NDArray[np.int64]
    not_on_offer: NDArray[np.int64]
    """Lines of a thickness for which the steel sheet has no plate size."""
    how_counted: str

    def words(self, money: Callable[[float], str], offcut: str, units: ShownUnits = METRIC) -> str:
        """Say all of them at once, for a place that holds no list."""
        thickness = [buy.thickness_mm for buy in self.buys]
        used = [buy.option.used_share * 100 for buy in self.buys]
        left_kg = sum(buy.option.drop_mass_kg for buy in self.buys)
        return (
            f"{sum(buy.option.plates for buy in self.buys)} plates of {len(self.buys)} thicknesses, "
            f"{units.number(min(thickness), 'mm'):.4g} to {units.words(max(thickness), 'mm')}: {min(used):.0f} to "
            f"{max(used):.0f} % used, {units.words(left_kg, 'kg', ',.0f')} {offcut}, "
            f"{money(sum(buy.price for buy in self.buys))}"
        )


def plates_bought(estimate: Estimate) -> PlatesBought:
    """Count the plates for our own steel, in the size that costs least for each thickness.

    Parameters
    ----------
    estimate : Estimate
        A priced job.

    Returns
    -------
    PlatesBought
        Only plate shapes whose steel is ours; flats and blanks are bought as bars.

    Notes
    -----
    Whether the price rests on this count or on the pieces' weight is the shop book's "steel from plate is charged".
    Source: definition.
    """
    bought = plates_needed(estimate.cuts, estimate.job.lines, estimate.rates, estimate.work)
    told = _CHARGED[estimate.shop.shop.steel_charged]
    return replace(bought, how_counted=f"{bought.how_counted}; {told}") if bought.buys else bought


def plates_needed(cuts: CutList, lines: LineQuantities, rates: Rates, work: WorkRates) -> PlatesBought:
    """Count the plates of n lines before they have a price.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    lines : LineQuantities
        What they take.
    rates : Rates
        Rates in force, the plate sizes among them.
    work : WorkRates
        The shop's work rates: spacing, usable part of a plate, density.

    Returns
    -------
    PlatesBought
        As ``plates_bought``.
    """
    area = outline_area_mm2(cuts.shape, cuts.size_a_mm, cuts.size_b_mm)
    wanted = np.isin(cuts.work, (Work.CUT, BLANK)) & (cuts.steel == Steel.OURS) & np.isfinite(area)
    wanted &= np.isin(cuts.made_from, (MadeFrom.PLATE, BLANK)) & np.isfinite(cuts.thickness_mm)
    index = np.flatnonzero(wanted)
    offers = _offers(rates, distinct(cuts.thickness_mm[index]))
    none = np.empty(0, dtype=np.int64)
    if not index.size or not offers:
        return PlatesBought([], none, index, "")
    thickness, q = cuts.thickness_mm[index], cuts.quantity[index]
    kerf_mm2 = lines.kerf_mass_kg[index] / (q * thickness * work.steel_density_kg_m3 * 1e-9)
    round_shape = np.isin(cuts.shape[index], (Shape.DISC, Shape.RING))
    need = plate_need(
        thickness_mm=thickness,
        length_mm=cuts.size_a_mm[index],
        width_mm=np.where(round_shape, cuts.size_a_mm[index], cuts.size_b_mm[index]),
        net_area_mm2=area[index],
        rectangle_share=np.where(cuts.shape[index] == Shape.RIGHT_TRIANGLE, 0.5, 1.0),
        kerf_area_mm2=kerf_mm2,
        quantity=q,
        offer_thickness_mm=[offer.thickness_mm for offer in offers],
        offer_length_mm=[offer.length_mm for offer in offers],
        offer_width_mm=[offer.width_mm for offer in offers],
        spacing_mm=work.piece_spacing_mm,
        fill_factor=work.plate_fill,
        steel_kg_m3=work.steel_density_kg_m3,
    )
    return PlatesBought(
        buys=_cheapest(need, offers, index),
        larger_than_any_plate=index[need.larger_than_any_plate],
        not_on_offer=index[need.thickness_not_on_offer],
        how_counted=need.how_counted(),
    )


@dataclass(frozen=True, slots=True)
class _Offer:
    thickness_mm: float
    length_mm: float
    width_mm: float
    price_per_kg: float
    scrap_per_kg: float


def _offers(rates: Rates, thicknesses: Floats) -> list[_Offer]:
    """Plate sizes for each thickness; a row for any thickness offers its size in all of them."""
    found = []
    for thickness in thicknesses.tolist():
        row = steel_row(rates.steel, thickness)
        if row is not None and row.plate_length_mm and row.plate_width_mm:
            sizes = row.plate_length_mm, row.plate_width_mm
            found.append(_Offer(thickness, *sizes, row.price_per_kg, row.scrap_per_kg))
    return found


def _cheapest(need: PlateNeed, offers: list[_Offer], index: NDArray[np.int64]) -> list[PlateBuy]:
    """The cheapest option of each thickness among those that serve the most lines."""
    best: dict[float, PlateBuy] = {}
    for option in need.options:
        offer = offers[option.offer]
        if not option.plates:
            continue
        buy = PlateBuy(
            thickness_mm=option.thickness_mm,
            plate_length_mm=offer.length_mm,
            plate_width_mm=offer.width_mm,
            option=option,
            price=option.plate_mass_kg * offer.price_per_kg,
            scrap_credit=option.drop_mass_kg * offer.scrap_per_kg,
            lines=index[option.lines],
        )
        held = best.get(option.thickness_mm)
        if held is None or _rank(buy) < _rank(held):
            best[option.thickness_mm] = buy
    return [best[thickness] for thickness in sorted(best)]


def _rank(buy: PlateBuy) -> tuple[int, float]:
    return -len(buy.lines), buy.price - buy.scrap_credit
