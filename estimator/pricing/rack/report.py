"""The whole answer of ``rack``: names each step from priced jobs to plan, draws, orders, outfit and cautions."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from estimator.cautions import CONDITIONS, Caution, cautions
from estimator.check.flags import flag_lines
from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.job import Estimate
from estimator.pricing.rack.contents import CylinderContent, rack_contents
from estimator.pricing.rack.draws import TipDraw, acetylene_draws, acetylene_floors, draw_problems
from estimator.pricing.rack.gas_plan import GasPlan, gas_range, plan_gas
from estimator.pricing.rack.order import Order, order_gas
from estimator.pricing.rack.outfit import outfit_problems
from estimator.pricing.rack.propane import PropaneDraw, propane_draws, propane_problems
from estimator.pricing.rack.sets import cylinder_sets, manifold_problems
from estimator.pricing.rack.steps import Steps, rack_steps
from estimator.problems import Level, Place, Problem, WorkbookProblemsError, has_error, sort_problems, strict
from estimator.problems import rack as say
from estimator.quantities.draw_verdict import DrawLevel
from estimator.sheets.rack import RACK
from estimator.words import Surface

__all__ = ["RackReport", "plan_the_rack", "rack_conditions"]

_FLAG_CONDITIONS = {
    "lifting": "critical",
    "pressure": "critical",
    "cast iron": "hard",
    "unknown": "hard",
    "hardens": "hard",
    "coated": "coated",
    "closed": "closed",
}


@dataclass(frozen=True, slots=True)
class RackReport:
    """What every output of ``rack`` is written from."""

    estimates: tuple[Estimate, ...]
    """In the order of their dates."""
    steps: Steps
    rack: tuple[CylinderContent, ...]
    gases: tuple[GasPlan, ...]
    """Oxygen, then the fuel."""
    orders: tuple[Order, ...]
    draws: tuple[TipDraw, ...]
    """Acetylene only."""
    propane: tuple[PropaneDraw, ...]
    outfit: tuple[Problem, ...]
    problems: tuple[Problem, ...]
    """Everything found, the outfit's among them."""
    cautions: tuple[Caution, ...]

    @property
    def fuel(self) -> str:
        """Fuel of the jobs."""
        return self.estimates[0].kit.fuel

    @property
    def stop(self) -> bool:
        """Whether a tip may not be lit on this rack."""
        return any(one.verdict.level is DrawLevel.STOP for one in self.draws)

    @property
    def incomplete(self) -> bool:
        """Whether a row of a list or a cylinder was left out because of a problem."""
        return any(p.level is Level.ERROR and p.code != say.DRAW_STOP.code for p in self.problems)

    @property
    def finishes(self) -> bool:
        """Whether the rack finishes the jobs at their likely use."""
        return not self.stop and all(gas.first_short_step is None for gas in self.gases)


def plan_the_rack(
    estimates: Sequence[Estimate],
    *,
    torches: int = 1,
    by_tip: bool = False,
    partial: bool = False,
    strictly: bool = False,
) -> RackReport:
    """Return the plan of the rack for one or several priced jobs of one fuel and one shop.

    Parameters
    ----------
    estimates : sequence of Estimate
        The jobs.
    torches : int
        Torches at work on the rack at once.
    by_tip : bool
        Whether lists are worked tip by tip instead of in their own order.
    partial : bool
        Whether cylinders that cannot be known are left out, instead of stopping the plan.
    strictly : bool
        Whether warnings stop the plan.

    Returns
    -------
    RackReport

    Raises
    ------
    WorkbookProblemsError
        When a cylinder's content cannot be known (unless partial), or with ``strictly`` on any warning. A draw above
        its limit does not raise: the plan is needed to answer it.
    """
    steps = rack_steps(estimates, torches=torches, by_tip=by_tip)
    jobs = sorted(estimates, key=lambda one: one.date or dt.date.max)
    first, of_jobs = jobs[0], [p for one in jobs for p in one.problems]
    file = first.shop.file or "the example shop book"
    contents, found = rack_contents(first.shop, first.date)
    if not partial and has_error(found):
        raise WorkbookProblemsError([*of_jobs, *found])

    gases = _gas_plans(jobs, steps, contents)
    draws, of_draws = _acetylene(first, steps, contents, file)
    propane, of_propane = _propane(first, steps, contents, file)
    supply = [problem for gas in gases for problem in _supply_problems(gas, steps, file)]
    outfit = outfit_problems(jobs, steps)
    every = sort_problems(dict.fromkeys([*of_jobs, *found, *of_draws, *of_propane, *supply, *outfit]))
    if strictly and any(p.level is Level.WARNING for p in every):
        raise WorkbookProblemsError(strict(every))
    return RackReport(
        estimates=tuple(jobs),
        steps=steps,
        rack=tuple(contents),
        gases=gases,
        orders=tuple(
            order_gas(gas, steps, lead_days=first.shop.shop.lead_time_days, work_day_h=first.work.work_day_h)
            for gas in gases
        ),
        draws=tuple(draws),
        propane=tuple(propane),
        outfit=tuple(outfit),
        problems=tuple(every),
        cautions=tuple(cautions(rack_conditions(jobs, steps))),
    )


def _gas_plans(jobs: Sequence[Estimate], steps: Steps, rack: Sequence[CylinderContent]) -> tuple[GasPlan, ...]:
    """Return the plan of oxygen, then that of the fuel."""
    fuel, rates = jobs[0].kit.fuel, jobs[0].rates
    ranges = [estimate_ranges(one) for one in jobs]
    oxygen_m3, fuel_m3 = gas_range([one.oxygen_m3 for one in ranges]), gas_range([one.fuel_m3 for one in ranges])
    oxygen_sets, fuel_sets = cylinder_sets(rack, "oxygen"), cylinder_sets(rack, fuel)
    floors = acetylene_floors(steps, fuel_sets) if fuel == "acetylene" else None
    return (
        plan_gas("oxygen", rates.oxygen, steps.use_m3("oxygen"), oxygen_m3, oxygen_sets),
        plan_gas(fuel, rates.fuel, steps.use_m3(fuel), fuel_m3, fuel_sets, floors),
    )


def _acetylene(
    job: Estimate, steps: Steps, rack: Sequence[CylinderContent], file: str
) -> tuple[list[TipDraw], list[Problem]]:
    """Return how hard each tip pulls acetylene, with what is said of it and of manifolds."""
    if job.kit.fuel != "acetylene":
        return [], []
    sets, full = cylinder_sets(rack, "acetylene"), job.rates.fuel
    draws = acetylene_draws(steps, sets, full_m3=full.content_m3, size=full.cylinder)
    return draws, [*draw_problems(draws, file), *manifold_problems(sets, file, job.shop.shown)]


def _propane(
    job: Estimate, steps: Steps, rack: Sequence[CylinderContent], file: str
) -> tuple[list[PropaneDraw], list[Problem]]:
    """Return whether the propane evaporates fast enough, with what is said of it."""
    if job.kit.fuel != "propane":
        return [], []
    draws = propane_draws(steps, [one for one in rack if one.gas == "propane"], job.shop)
    return draws, propane_problems(draws, file)


def rack_conditions(estimates: Iterable[Estimate], steps: Steps) -> list[str]:
    """Return what holds for the jobs, of ``cautions.CONDITIONS``: fuel, heating, weight, coating and the like.

    Parameters
    ----------
    estimates : iterable of Estimate
        The jobs.
    steps : Steps
        Their steps.

    Returns
    -------
    list of str
        Without doubles, in the order of ``CONDITIONS``.
    """
    held: set[str] = set()
    for estimate in estimates:
        held.add(estimate.kit.fuel)
        held |= {_FLAG_CONDITIONS[flag.kind] for flag in flag_lines(estimate.cuts) if flag.kind in _FLAG_CONDITIONS}
        if np.any(np.nan_to_num(estimate.job.lines.mass_each_kg) > estimate.work.handling_limit_kg):
            held.add("heavy")
        if np.any(estimate.cuts.surface == Surface.PAINTED):
            held.add("coated")
        if np.any(np.nan_to_num(estimate.cuts.torches, nan=1.0) > 1):
            held.add("several torches")
    if bool(np.any(steps.is_heating)):
        held.add("heating")
    if steps.torches > 1:
        held.add("several torches")
    return [condition for condition in CONDITIONS if condition in held]


def _supply_problems(gas: GasPlan, steps: Steps, file: str) -> list[Problem]:
    if gas.piped:
        draws = [s.oxygen_draw_m3_h if gas.gas == "oxygen" else s.draw_m3_h for s in steps.each]
        return [say.PIPED.at(Place(file), gas=gas.gas, draw=f"{max(draws, default=0.0):.2f}")]
    return [] if gas.sets or gas.used_m3 <= 0 else [say.NO_CYLINDERS.at(Place(file, RACK.name), gas=gas.gas)]
