"""How hard each tip of a job pulls the rack: acetylene against its limits, propane against what evaporates."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator import reference
from estimator.pricing.rack.contents import CylinderContent
from estimator.pricing.rack.sets import PUBLISHED_RULES, CylinderSet, draw_rules
from estimator.pricing.rack.steps import Steps
from estimator.problems import Place, Problem
from estimator.problems import rack as say
from estimator.quantities.draw import cylinders_to_manifold, propane_vaporisation_kg_h
from estimator.quantities.draw_verdict import DrawLevel, DrawVerdict, draw_verdict
from estimator.quantities.rack import floor_m3
from estimator.sheets.torch import RACK
from estimator.units import HOUSE_STATE

__all__ = ["PropaneDraw", "TipDraw", "acetylene_draws", "acetylene_floors", "draw_problems", "propane_draws"]

_FT3_M3 = 0.3048**3
_ORDER = (DrawLevel.WITHIN, DrawLevel.CAUTION, DrawLevel.WARNING, DrawLevel.STOP)
_NEEDED_BAR = 1.4
"""Vapour pressure that still feeds a regulator; judgement."""
_STILL_AIR_W_M2_K = (6.0, 8.0, 12.0)
"""Heat from still air through the wall without frost: low, likely, high; judgement."""


@dataclass(frozen=True, slots=True)
class TipDraw:
    """The hardest draw of one tip on acetylene, and the set that bears it best."""

    tip: str
    is_heating: bool
    is_continuous: bool
    draw_m3_h: float
    set_name: str
    """The set; empty where the rack has none and one full cylinder of the size in use is meant."""
    size: str
    rated_m3: float
    """Rated content of one cylinder of the set."""
    cylinders: int
    verdict: DrawVerdict
    rule: str
    """The rule that the headline rests on."""
    counts: tuple[tuple[str, int], ...]
    """Full cylinders to manifold by each published rule, as printed, and by the supplier's figure where there is one."""

    @property
    def draw_ft3_h(self) -> float:
        """The draw in cubic feet an hour at the house state."""
        return self.draw_m3_h / _FT3_M3


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


def acetylene_draws(steps: Steps, sets: Sequence[CylinderSet], *, full_m3: float, size: str) -> list[TipDraw]:
    """Return what is said of each tip's draw.

    Parameters
    ----------
    steps : Steps
        The job.
    sets : sequence of CylinderSet
        Acetylene on the rack.
    full_m3 : float
        Content of a full cylinder of the size in use [m³].
    size : str
        Its name.

    Returns
    -------
    list of TipDraw
        Hardest first; of each tip the set that bears it best.
    """
    found = []
    for tip in dict.fromkeys(s.tip for s in steps.each if s.tip and s.draw_m3_h > 0):
        on_tip = [s for s in steps.each if s.tip == tip]
        asked = {
            "draw": max(s.draw_m3_h for s in on_tip),
            "is_heating": any(s.is_heating for s in on_tip),
            "is_continuous": any(s.is_continuous for s in on_tip),
        }
        if sets:
            tried = [_on_set(tip, one, **asked) for one in sets]
        else:
            tried = [_tip_draw(tip, "", size, full_m3, full_m3, 1, None, **asked)]
        found.append(min(tried, key=lambda one: (_ORDER.index(one.verdict.level), -one.verdict.limit_m3_h)))
    return sorted(found, key=lambda one: -one.draw_m3_h)


def acetylene_floors(steps: Steps, sets: Sequence[CylinderSet]) -> NDArray[np.float64]:
    """Return how far each step may draw each set down, shape (steps, sets) [m³].

    Parameters
    ----------
    steps : Steps
        The job.
    sets : sequence of CylinderSet
        Acetylene on the rack.

    Returns
    -------
    ndarray of float
        Heating tips stop where a tenth of what is left (or the supplier's figure) would be passed; a draw above 1/7 of
        the full set takes nothing; the rest runs to the heel.
    """
    held = np.where(steps.is_heating, steps.draw_m3_h, 0.0)
    floors = np.empty((len(steps), len(sets)))
    for place, one in enumerate(sets):
        rules = draw_rules(one.supplier_draw_per_h)
        floors[:, place] = floor_m3([one.heel_m3], held, fraction_per_h=rules.heating_stop_per_h)[:, 0]
        too_hard = steps.draw_m3_h > one.rated_m3 * rules.full_stop_per_h * (1 + 1e-9)
        floors[too_hard, place] = np.maximum(floors[too_hard, place], one.now_m3)
    return floors


def draw_problems(draws: Sequence[TipDraw], file: str) -> list[Problem]:
    """Return the stop, warning or note of each draw that is not within its limit."""
    codes = {DrawLevel.STOP: say.DRAW_STOP, DrawLevel.WARNING: say.DRAW_OVER, DrawLevel.CAUTION: say.DRAW_CAUTION}
    return [
        codes[one.verdict.level].at(
            Place(file, RACK.name),
            found=f"{one.draw_m3_h:.2f} m³/h",
            tip=one.tip,
            cylinder=one.set_name or one.size,
            size=one.size,
            draw=f"draw {one.draw_m3_h:.2f} m³/h ({one.draw_ft3_h:.0f} ft³/h)",
            limit=_limit_words(one),
            counts=", ".join(f"{count} by {rule}" for rule, count in one.counts),
        )
        for one in draws
        if one.verdict.level in codes
    ]


def propane_draws(steps: Steps, cylinders: Sequence[CylinderContent]) -> list[PropaneDraw]:
    """Return what still air evaporates against what each tip draws, for the cylinder that bears it best.

    Parameters
    ----------
    steps : Steps
        The job.
    cylinders : sequence of CylinderContent
        Propane on the rack.

    Returns
    -------
    list of PropaneDraw
        One for each tip; none without a cylinder. Steady use in still air; diameters are common sizes from memory.
    """
    density = reference.gas_density_kg_m3("propane", HOUSE_STATE)
    found = []
    for tip in dict.fromkeys(s.tip for s in steps.each if s.tip and s.draw_m3_h > 0):
        draw = max(s.draw_m3_h for s in steps.each if s.tip == tip) * density
        tried = [(c, *(_evaporates_kg_h(c, density, wall) for wall in _STILL_AIR_W_M2_K)) for c in cylinders]
        if tried:
            best, low, likely, high = max(tried, key=lambda one: one[2])
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


def _on_set(tip: str, one: CylinderSet, *, draw: float, is_heating: bool, is_continuous: bool) -> TipDraw:
    count = len(one.cylinders)
    return _tip_draw(
        tip,
        one.name,
        one.cylinders[0].size,
        one.rated_m3 / count,
        min(one.now_m3, one.rated_m3) / count,
        count,
        one.supplier_draw_per_h,
        draw=draw,
        is_heating=is_heating,
        is_continuous=is_continuous,
    )


def _tip_draw(
    tip: str,
    set_name: str,
    size: str,
    rated_m3: float,
    now_m3: float,
    cylinders: int,
    supplier_draw_per_h: float | None,
    *,
    draw: float,
    is_heating: bool,
    is_continuous: bool,
) -> TipDraw:
    verdict = draw_verdict(
        draw,
        rated_m3=rated_m3,
        now_m3=now_m3,
        cylinders=cylinders,
        is_heating=is_heating,
        is_continuous=is_continuous,
        rules=draw_rules(supplier_draw_per_h),
    )
    counts = [(as_printed, share) for as_printed, share in PUBLISHED_RULES.values()]
    if supplier_draw_per_h is not None:
        counts.insert(0, ("the supplier's figure", supplier_draw_per_h))
    rule = PUBLISHED_RULES["continuous" if is_continuous else "intermittent"][0]
    return TipDraw(
        tip=tip,
        is_heating=is_heating,
        is_continuous=is_continuous,
        draw_m3_h=draw,
        set_name=set_name,
        size=size,
        rated_m3=rated_m3,
        cylinders=cylinders,
        verdict=verdict,
        rule=rule if supplier_draw_per_h is None else f"{supplier_draw_per_h:g} (supplier)",
        counts=tuple((name, int(cylinders_to_manifold(draw, rated_m3, share))) for name, share in counts),
    )


def _limit_words(one: TipDraw) -> str:
    of = "what is left" if one.is_heating else "the rated content"
    who = f"{one.set_name}" if one.set_name else f"one full {one.size}"
    kind = "continuous" if one.is_continuous else "intermittent"
    limit = one.verdict.limit_m3_h
    return f"limit of {who} {limit:.2f} m³/h ({limit / _FT3_M3:.0f} ft³/h), {one.rule} of {of} an hour, {kind}"


def _evaporates_kg_h(cylinder: CylinderContent, density_kg_m3: float, wall_w_m2_k: float) -> float:
    rows = reference.table("propane_saturation")
    enough = np.flatnonzero(rows.column("vapour_pressure_bar_gauge") >= _NEEDED_BAR)[0]
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
