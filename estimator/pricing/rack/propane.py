"""How fast a tip draws propane against what still air evaporates in its cylinder: advisory, the supplier decides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from estimator import reference
from estimator.check.shop_book import ShopBook
from estimator.check.torch_kit import work_rate_band, work_rates
from estimator.pricing.rack.contents import CylinderContent
from estimator.pricing.rack.steps import Steps
from estimator.problems import Place, Problem
from estimator.problems import rack as say
from estimator.quantities.draw import propane_vaporisation_kg_h
from estimator.sheets.rack import RACK
from estimator.units import HOUSE_STATE

__all__ = ["PropaneDraw", "propane_draws", "propane_problems"]


@dataclass(frozen=True, slots=True)
class PropaneDraw:
    """A draw on one propane cylinder against what still air evaporates in it; advisory."""

    tip: str
    cylinder_id: str
    draw_kg_h: float
    low_kg_h: float
    likely_kg_h: float
    high_kg_h: float
    air_c: float
    fill_share: float


def propane_draws(steps: Steps, cylinders: Sequence[CylinderContent], shop: ShopBook) -> list[PropaneDraw]:
    """Return what still air evaporates against what each tip draws, for the cylinder that bears it best.

    Parameters
    ----------
    steps : Steps
        The job.
    cylinders : sequence of CylinderContent
        Propane on the rack.
    shop : ShopBook
        The shop book: how much heat still air gives, and what pressure feeds a regulator.

    Returns
    -------
    list of PropaneDraw
        One for each tip; none without a cylinder. Steady use in still air; diameters are common sizes from memory.
    """
    density = reference.gas_density_kg_m3("propane", HOUSE_STATE)
    walls = work_rate_band(shop, "still_air_w_m2_k")
    needed_bar = work_rates(shop).propane_needed_bar
    found = []
    for tip in dict.fromkeys(s.tip for s in steps.each if s.tip and s.draw_m3_h > 0):
        draw = max(s.draw_m3_h for s in steps.each if s.tip == tip) * density
        if cylinders:
            best = max(cylinders, key=lambda one: _evaporates_kg_h(one, density, walls[1], needed_bar))
            low, likely, high = (_evaporates_kg_h(best, density, wall, needed_bar) for wall in walls)
            fill = min(best.now_m3 / best.rated_m3, 1.0)
            found.append(PropaneDraw(tip, best.cylinder_id, draw, low, likely, high, best.temperature_c, fill))
    return found


def propane_problems(draws: Sequence[PropaneDraw], file: str) -> list[Problem]:
    """Return an advisory warning for each draw above what the cylinder likely evaporates."""
    return [
        say.PROPANE_COLD.at(
            Place(file, RACK.name),
            found=f"{one.draw_kg_h:.2f} kg/h",
            tip=one.tip,
            gas="propane",
            cylinder=one.cylinder_id,
            draw=f"{one.draw_kg_h:.2f}",
            low=f"{one.low_kg_h:.1f}",
            high=f"{one.high_kg_h:.1f}",
            air=f"{one.air_c:g}",
        )
        for one in draws
        if one.draw_kg_h > one.likely_kg_h
    ]


def _evaporates_kg_h(cylinder: CylinderContent, density_kg_m3: float, wall_w_m2_k: float, needed_bar: float) -> float:
    rows = reference.table("propane_saturation")
    enough = np.flatnonzero(rows.column("vapour_pressure_bar_gauge") >= needed_bar)[0]
    full_kg = cylinder.rated_m3 * density_kg_m3
    sizes = reference.table("propane_cylinders")
    place = min(int(np.searchsorted(sizes.column("content_to_kg"), full_kg)), len(sizes) - 1)
    diameter_mm = float(sizes.column("diameter_mm")[place])
    liquid = float(np.interp(15.0, rows.column("temperature_c"), rows.column("liquid_density_kg_m3")))
    height_mm = full_kg / liquid / (np.pi / 4 * (diameter_mm / 1000.0) ** 2) * 1000.0
    return float(
        propane_vaporisation_kg_h(
            min(cylinder.now_m3 / cylinder.rated_m3, 1.0),
            cylinder.temperature_c,
            diameter_mm=diameter_mm,
            liquid_height_full_mm=height_mm,
            coldest_liquid_c=float(rows.column("temperature_c")[enough]),
            heat_transfer_w_m2_k=wall_w_m2_k,
            latent_heat_kj_kg=float(rows.column("latent_heat_kj_kg")[enough]),
        )
    )
