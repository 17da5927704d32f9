"""One gas of a job on the rack: which cylinder each step draws on, where each runs to its heel, how likely it lasts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from estimator.learning.ranges import DRAWS, SEED, Range
from estimator.learning.spread import EXACT, Spread, draws, from_log_sd, split_lognormal
from estimator.pricing.rack.contents import CylinderContent
from estimator.pricing.rack.sets import CylinderSet
from estimator.pricing.rates import GasInUse
from estimator.quantities.rack import RackPlan, plan_rack, used_by_cylinder_m3
from estimator.quantities.rack_order import chance_enough

__all__ = ["CylinderOutcome", "GasPlan", "gas_range", "plan_gas"]

Floats = NDArray[np.float64]
_HALVINGS = 30


@dataclass(frozen=True, slots=True)
class CylinderOutcome:
    """What becomes of one cylinder: used + left + heel = now."""

    content: CylinderContent
    used_m3: float
    left_m3: float
    """Over the heel, at the end."""
    dry_step: int | None
    """The step at which it runs to its heel; None when it does not."""
    set_name: str


@dataclass(frozen=True, slots=True)
class GasPlan:
    """One gas; volumes at 15 °C and 101.325 kPa."""

    gas: str
    in_use: GasInUse
    use_m3: Floats
    """Gas of each step."""
    use_range: Range
    """Four times in five, of the whole job [m³]."""
    sets: tuple[CylinderSet, ...]
    floors_m3: Floats | None
    """Lowest content at which a step may draw on a set, shape (steps, sets); None where that is the heel."""
    plan: RackPlan
    cylinders: tuple[CylinderOutcome, ...]
    covers: float
    """How many times the likely use the rack carries; infinite where nothing is used or the gas is piped."""
    chance: float
    """Chance that the rack is enough, 0 to 1."""
    step_sets: tuple[tuple[str, ...], ...] = field(default=())
    """The sets that each step draws on."""

    @property
    def piped(self) -> bool:
        """Whether the gas comes by pipe."""
        return self.in_use.cylinder == "piped"

    @property
    def used_m3(self) -> float:
        """Likely gas of the whole job."""
        return float(self.use_m3.sum())

    @property
    def usable_m3(self) -> float:
        """Gas over the heels."""
        return float((self.plan.content_m3 - self.plan.heel_m3).sum())

    @property
    def short_m3(self) -> float:
        """Gas that the rack lacks."""
        return 0.0 if self.piped else float(self.plan.short_m3.sum())

    @property
    def first_short_step(self) -> int | None:
        """The first step that lacks gas."""
        return None if self.piped else self.plan.first_short_line


def plan_gas(
    gas: str,
    in_use: GasInUse,
    use_m3: Floats,
    use_range: Range,
    sets: Sequence[CylinderSet],
    floors_m3: Floats | None = None,
) -> GasPlan:
    """Return the plan of one gas.

    Parameters
    ----------
    gas : str
        Oxygen or the fuel.
    in_use : GasInUse
        The size that the shop buys.
    use_m3 : ndarray of float, shape (n,)
        Likely gas of each step, in the order of work [m³].
    use_range : Range
        Range of the whole job's gas [m³].
    sets : sequence of CylinderSet
        The rack, in order of use.
    floors_m3 : ndarray of float, shape (n, sets), optional
        Lowest content at which a step may draw on a set, where that is above the heel [m³].

    Returns
    -------
    GasPlan
        With gas used + left + heel = gas at the start for every cylinder.
    """
    content = np.array([one.now_m3 for one in sets], dtype=np.float64)
    heel = np.array([one.heel_m3 for one in sets], dtype=np.float64)
    plan = plan_rack(use_m3, content, heel, floors_m3=floors_m3)
    piped = in_use.cylinder == "piped"
    covers = np.inf if piped else _covers(plan, floors_m3)
    return GasPlan(
        gas=gas,
        in_use=in_use,
        use_m3=use_m3,
        use_range=use_range,
        sets=tuple(sets),
        floors_m3=floors_m3,
        plan=plan,
        cylinders=tuple(_outcomes(plan, sets)),
        covers=covers,
        chance=1.0 if piped else _chance(covers, use_range, sets),
        step_sets=tuple(
            tuple(one.name for one, taken in zip(sets, row, strict=True) if taken > 0) for row in plan.taken_m3
        ),
    )


def gas_range(ranges: Sequence[Range]) -> Range:
    """Return the range of several jobs together: they share the chart, so their errors go the same way."""
    return Range(sum(r.low for r in ranges), sum(r.likely for r in ranges), sum(r.high for r in ranges))


def _outcomes(plan: RackPlan, sets: Sequence[CylinderSet]) -> list[CylinderOutcome]:
    every = [(place, c) for place, one in enumerate(sets) for c in one.cylinders]
    usable = [c.now_m3 - c.heel_m3 for _, c in every]
    used = used_by_cylinder_m3(plan.used_m3, usable, [place for place, _ in every]) if every else np.zeros(0)
    outcomes = []
    for (place, content), gave, free in zip(every, used.tolist(), usable, strict=True):
        dry = plan.dry_line[place]
        left = max(free - gave, 0.0) if dry is None else 0.0
        outcomes.append(CylinderOutcome(content, gave, left, dry, sets[place].name))
    return outcomes


def _covers(plan: RackPlan, floors_m3: Floats | None) -> float:
    """How many times the likely use the rack carries, by halving where a floor above the heel decides."""
    likely = float(plan.use_m3.sum())
    if likely <= 0:
        return float("inf")
    most = float((plan.content_m3 - plan.heel_m3).sum()) / likely
    if floors_m3 is None or bool(np.all(floors_m3 <= plan.heel_m3[None, :] + 1e-12)):
        return most

    def lasts(times: float) -> bool:
        tried = plan_rack(plan.use_m3 * times, plan.content_m3, plan.heel_m3, floors_m3=floors_m3)
        return tried.first_short_line is None

    least = 0.0
    for _ in range(_HALVINGS):
        middle = (least + most) / 2
        least, most = (middle, most) if lasts(middle) else (least, middle)
    return least


def _chance(covers: float, use_range: Range, sets: Sequence[CylinderSet]) -> float:
    """Chance that use, in its range, stays within what the rack carries, within the ± of its readings."""
    if np.isinf(covers):
        return 1.0
    usable = sum(one.now_m3 - one.heel_m3 for one in sets)
    if covers <= 0 or usable <= 0:
        return 0.0
    # ± is about two standard uncertainties; readings of several cylinders are independent.
    doubt = float(np.sqrt(sum((c.plus_minus_m3 / 2) ** 2 for one in sets for c in one.cylinders))) / usable
    drawn = draws([_spread(use_range), from_log_sd(1.0, doubt)], DRAWS, SEED)
    return chance_enough(drawn[:, 0] / drawn[:, 1], covers)


def _spread(use_range: Range) -> Spread:
    if use_range.likely <= 0:
        return EXACT
    low, high = (end / use_range.likely for end in (use_range.low, use_range.high))
    return split_lognormal(min(max(low, 1e-6), 1.0), 1.0, max(high, 1.0))
