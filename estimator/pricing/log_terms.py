"""The modelled minutes and gas of logged rows as terms, each tied to the factors that move it."""

from __future__ import annotations

from collections.abc import Iterator

from estimator.check.work_rates import WorkRates
from estimator.learning.ranges import Term
from estimator.pricing.own_factors import FactorKey
from estimator.quantities.logged_work import LoggedJob
from estimator.words import OwnFactor

__all__ = [
    "FLAME_MIN",
    "OXYGEN",
    "PAID_MIN",
    "fuel_quantity",
    "row_flame",
    "row_gas",
    "row_paid",
    "set_up_gas",
    "set_up_paid",
]

FLAME_MIN, PAID_MIN, OXYGEN = "flame_time_min", "paid_time_min", "oxygen_m3"
_HOURS = {FactorKey(OwnFactor.MAN_HOURS).name: 1.0}
_STARTS = {FactorKey(OwnFactor.START_TIME).name: 1.0}
_FUEL = {FactorKey(OwnFactor.FUEL).name: 1.0}
_PREHEAT = {FactorKey(OwnFactor.PREHEAT_OXYGEN).name: 1.0}


def fuel_quantity(fuel: str) -> str:
    """Return the quantity of a fuel: ``acetylene_m3``."""
    return f"{fuel.replace(' ', '_')}_m3"


def row_flame(job: LoggedJob, line: int) -> tuple[Term, ...]:
    """Return the torch-lit minutes of one row."""
    return tuple(Term(FLAME_MIN, minutes, powers) for minutes, powers in _lit(job, line) if minutes > 0)


def row_paid(job: LoggedJob, line: int, rates: WorkRates) -> tuple[Term, ...]:
    """Return the paid minutes of one row, the job's own set-up left out."""
    lines, rest = job.work.lines, 1.0 + rates.rest_allowance
    rested = [(minutes, powers | _HOURS) for minutes, powers in _lit(job, line)]
    for name, what in (
        ("layout_min", OwnFactor.LAYOUT),
        ("handling_min", OwnFactor.HANDLING),
        ("cleaning_min", OwnFactor.CLEANING),
    ):
        rested.append((float(getattr(lines, name)[line]), {FactorKey(what).name: 1.0} | _HOURS))
    other = ("setting_time_min", "helper_min", "grinding_min", "clamp_min", "norm_min")
    rested.append((float(sum(getattr(lines, name)[line] for name in other)), _HOURS))
    terms = [Term(PAID_MIN, minutes * rest, powers) for minutes, powers in rested]
    terms.append(Term(PAID_MIN, float(lines.wait_min[line] + lines.drilling_min[line]), {}))
    return tuple(term for term in terms if term.amount > 0)


def row_gas(job: LoggedJob, line: int, rates: WorkRates) -> tuple[Term, ...]:
    """Return the gas of one row, what is lost to pilot, purge and leaks among it.

    Parameters
    ----------
    job : LoggedJob
        The modelled job.
    line : int
        Its row.
    rates : WorkRates
        The shop's work rates.

    Returns
    -------
    tuple of Term
        Oxygen and the job's fuel.
    """
    lines, settings = job.work.lines, job.work.settings
    oxygen, fuel = 1.0 + rates.gas_lost_oxygen, 1.0 + rates.gas_lost_fuel
    jet, flame = float(lines.jet_time_min[line]), float(lines.flame_time_min[line])
    terms = []
    if jet > 0:
        flow = {FactorKey(OwnFactor.CUTTING_OXYGEN, settings.tip[lines.setting[line]]).name: 1.0}
        cutting = float(lines.cutting_oxygen_m3[line]) * oxygen
        travelling = min(float(lines.cut_time_min[line]) / jet, 1.0)
        terms.append(Term(OXYGEN, cutting * travelling, _speed(job, line) | flow))
        terms.append(Term(OXYGEN, cutting * (1.0 - travelling), _STARTS | flow))
    for minutes, powers in _lit(job, line) if flame > 0 else ():
        part = minutes / flame
        preheat = float(lines.preheat_oxygen_m3[line]) * oxygen * part
        terms.append(Term(OXYGEN, preheat, powers | _FUEL | _PREHEAT))
        terms.append(Term(fuel_quantity(job.fuel), float(lines.fuel_m3[line]) * fuel * part, powers | _FUEL))
    return tuple(term for term in terms if term.amount > 0)


def set_up_paid(job: LoggedJob) -> tuple[Term, ...]:
    """Return the paid minutes of a job that belong to none of its rows."""
    rested = sum(row.paid_time_min for row in job.work.rows if row.rested)
    unrested = sum(row.paid_time_min for row in job.work.rows if not row.rested)
    return tuple(t for t in (Term(PAID_MIN, rested, _HOURS), Term(PAID_MIN, unrested, {})) if t.amount > 0)


def set_up_gas(job: LoggedJob, *, share: float = 1.0) -> tuple[Term, ...]:
    """Return the gas of a job that belongs to none of its rows: lighting and setting the flame."""
    rows = job.work.rows
    oxygen = sum(row.drawn_oxygen_m3 for row in rows) * share
    fuel = sum(row.drawn_fuel_m3 for row in rows) * share
    terms = (Term(OXYGEN, oxygen, _FUEL | _PREHEAT), Term(fuel_quantity(job.fuel), fuel, _FUEL))
    return tuple(term for term in terms if term.amount > 0)


def _lit(job: LoggedJob, line: int) -> Iterator[tuple[float, dict[str, float]]]:
    """Torch-lit minutes of a row by what moves them: travelling, starting, and the rest."""
    lines = job.work.lines
    travelling = float(lines.cut_time_min[line] + lines.bevel_time_min[line])
    if travelling > 0:
        yield travelling, _speed(job, line)
    if lines.start_time_min[line] > 0:
        yield float(lines.start_time_min[line]), _STARTS
    yield float(lines.move_time_min[line] + lines.flame_work_min[line]), {}


def _speed(job: LoggedJob, line: int) -> dict[str, float]:
    settings, setting = job.work.settings, job.work.lines.setting[line]
    by = "machine" if settings.machine[setting] else "hand"
    return {FactorKey(OwnFactor.SPEED, settings.tip[setting], by).name: -1.0}
