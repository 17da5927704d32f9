"""How hard each tip of a job pulls acetylene: limits, full cylinders by each rule, how far a heating tip may draw."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.rack.sets import CylinderSet, draw_rules, published_rules
from estimator.pricing.rack.steps import Steps
from estimator.problems import Place, Problem
from estimator.problems import rack as say
from estimator.quantities.draw import cylinders_to_manifold
from estimator.quantities.draw_verdict import DrawLevel, DrawVerdict, draw_verdict
from estimator.quantities.rack import floor_m3
from estimator.sheets.rack import RACK

__all__ = ["TipDraw", "acetylene_draws", "acetylene_floors", "draw_problems"]

_FT3_M3 = 0.3048**3
_ORDER = (DrawLevel.WITHIN, DrawLevel.CAUTION, DrawLevel.WARNING, DrawLevel.STOP)


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
    """Full cylinders to manifold by the supplier's figure, where there is one, and by each published rule."""

    @property
    def counts_words(self) -> str:
        """The counts in words; for a heating tip the loosest rule is named as no permission."""
        parts = [f"{count} by {rule}" for rule, count in self.counts]
        if self.is_heating:
            parts[-1] += " (too few for a heating tip)" if self.counts[-1][1] < self.counts[-2][1] else ""
        return ", ".join(parts)

    @property
    def draw_ft3_h(self) -> float:
        """The draw in cubic feet an hour at the house state."""
        return self.draw_m3_h / _FT3_M3


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
        asked = _Asked(
            tip,
            max(s.draw_m3_h for s in on_tip),
            is_heating=any(s.is_heating for s in on_tip),
            is_continuous=any(s.is_continuous for s in on_tip),
        )
        tried = [_on_set(asked, one) for one in sets] or [_tip_draw(asked, "", size, full_m3, full_m3, 1, None)]
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
            found=f"{one.draw_m3_h:.2f} m³/h ({one.draw_ft3_h:.0f} ft³/h)",
            tip=one.tip,
            cylinder=one.set_name or one.size,
            size=one.size,
            limit=_limit_words(one),
            counts=one.counts_words,
        )
        for one in draws
        if one.verdict.level in codes
    ]


@dataclass(frozen=True, slots=True)
class _Asked:
    """What one tip asks at its hardest."""

    tip: str
    draw_m3_h: float
    is_heating: bool
    is_continuous: bool


def _on_set(asked: _Asked, one: CylinderSet) -> TipDraw:
    count = len(one.cylinders)
    now_m3 = min(one.now_m3, one.rated_m3)
    return _tip_draw(
        asked,
        one.name,
        one.cylinders[0].size,
        one.rated_m3 / count,
        now_m3 / count,
        count,
        one.supplier_draw_per_h,
    )


def _tip_draw(
    asked: _Asked,
    set_name: str,
    size: str,
    rated_m3: float,
    now_m3: float,
    cylinders: int,
    supplier_draw_per_h: float | None,
) -> TipDraw:
    verdict = draw_verdict(
        asked.draw_m3_h,
        rated_m3=rated_m3,
        now_m3=now_m3,
        cylinders=cylinders,
        is_heating=asked.is_heating,
        is_continuous=asked.is_continuous,
        rules=draw_rules(supplier_draw_per_h),
    )
    shares = list(published_rules().values())
    if supplier_draw_per_h is not None:
        shares.insert(0, ("the supplier's figure", supplier_draw_per_h))
    rule = published_rules()["continuous" if asked.is_continuous else "intermittent"][0]
    return TipDraw(
        tip=asked.tip,
        is_heating=asked.is_heating,
        is_continuous=asked.is_continuous,
        draw_m3_h=asked.draw_m3_h,
        set_name=set_name,
        size=size,
        rated_m3=rated_m3,
        cylinders=cylinders,
        verdict=verdict,
        rule=rule if supplier_draw_per_h is None else f"{supplier_draw_per_h:g} (supplier)",
        counts=tuple((name, int(cylinders_to_manifold(asked.draw_m3_h, rated_m3, share))) for name, share in shares),
    )


def _limit_words(one: TipDraw) -> str:
    of = "what is left in" if one.is_heating else "the rated content of"
    who = one.set_name or f"one full {one.size}"
    kind = "continuous" if one.is_continuous else "intermittent"
    limit = one.verdict.limit_m3_h
    return f"{limit:.2f} m³/h ({limit / _FT3_M3:.0f} ft³/h), which is {one.rule} of {of} {who} an hour, {kind}"
