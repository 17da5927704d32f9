"""What the log measured, beside what the model says of it: paid hours, torch-lit minutes, cylinder spans, gauges.

A cylinder's span is the first measurement of gas; two gauge readings on a row come second.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from estimator.check.work_log import CylinderTag, LogEntry, WorkLog
from estimator.check.work_rates import WorkRates
from estimator.learning.observation import Kind, Observation, PartTerm
from estimator.learning.ranges import Term
from estimator.pricing.cylinder_content import CylinderSize, GasInCylinder, ReadingDoubts, gas_in_cylinder, heel_of
from estimator.pricing.log_terms import OXYGEN, fuel_quantity, row_flame, row_gas, row_paid, set_up_gas, set_up_paid
from estimator.quantities.logged_work import LoggedJob, LoggedWork
from estimator.read.cylinder_reading import CylinderReading, Means
from estimator.reference import gas_density_kg_m3
from estimator.units import HOUSE_STATE

__all__ = ["NotUsed", "Observed", "observe", "shared_errors"]

_LEAST_GAS_M3 = 0.01

Sizes = Mapping[tuple[str, str], CylinderSize]


@dataclass(frozen=True, slots=True)
class NotUsed:
    """Something that was logged and teaches nothing, with the reason."""

    what: str
    place: str
    why: str


@dataclass(frozen=True, slots=True)
class Observed:
    """Observations of a log, and what could not be used."""

    observations: tuple[Observation, ...]
    not_used: tuple[NotUsed, ...]


@dataclass(frozen=True, slots=True)
class _Row:
    """A modelled row: its job and line."""

    job: LoggedJob
    line: int

    @property
    def entry(self) -> LogEntry:
        return self.job.entries[self.line]


def observe(log: WorkLog, work: LoggedWork, rates: WorkRates, sizes: Sizes, doubts: ReadingDoubts) -> Observed:
    """Return every measurement of a log as an observation.

    Parameters
    ----------
    log : WorkLog
        Checked log.
    work : LoggedWork
        The log as modelled with the handbook's factors.
    rates : WorkRates
        The work rates it was modelled with.
    sizes : mapping of (str, str) to CylinderSize
        By gas and size, as the log names them.
    doubts : ReadingDoubts
        Standard uncertainties of readings.

    Returns
    -------
    Observed
        Observations in the order hours, torch-lit minutes, cylinder spans, gauges; and what was not used, with why.

    Notes
    -----
    How the gas of a day fell on two cylinders that both stood on torches, where their tags name no jobs, is a part that
    is fitted beside the factors. Source: definition.
    """
    rows = [_Row(job, line) for job in work.jobs for line in range(len(job.entries))]
    found: list[Observation] = []
    unused = [NotUsed(f"row of {each.entry.job}", str(each.entry.place), each.why) for each in work.left_out]
    for made in (
        [_paid(job, [o.entry for o in work.left_out], rates) for job in _by_job(work.jobs)],
        [_flame(row, rates) for row in rows if row.entry.flame_time_min and row.entry.operation == "cut"],
        [_span(tag, log, rows, rates, sizes, doubts) for tag in log.tags],
        [_gauge(row, gas, rates, sizes, doubts) for row in rows for gas in ("oxygen", row.job.fuel)],
    ):
        for each in made:
            if isinstance(each, Observation):
                found.append(each)
            elif each is not None:
                unused.append(each)
    return Observed(tuple(found), tuple(unused))


def shared_errors(rates: WorkRates) -> dict[str, float]:
    """Return the relative standard uncertainty that all readings of one instrument share.

    Parameters
    ----------
    rates : WorkRates
        The shop's work rates: limits that hold about 19 times in 20.

    Returns
    -------
    dict of str to float
        By instrument.
    """
    return {
        "oxygen gauge": rates.gauge_class_share / 2.0,
        "fuel scale": rates.scale_class_share / 2.0,
        "cylinder fill": rates.fill_class_share / 2.0,
    }


def _by_job(jobs: Iterable[LoggedJob]) -> list[list[LoggedJob]]:
    """Group the parts of a job that burnt different fuels."""
    groups: dict[str, list[LoggedJob]] = {}
    for job in jobs:
        groups.setdefault(job.job, []).append(job)
    return list(groups.values())


def _time_u(rates: WorkRates) -> float:
    """Relative standard uncertainty of minutes as people write them down."""
    return rates.logged_minutes_share / 2.0


def _paid(parts: list[LoggedJob], left_out: Sequence[LogEntry], rates: WorkRates) -> Observation | NotUsed | None:
    """Paid minutes of a whole job, set-up in; a job of which part was not modelled or not timed teaches nothing."""
    name = parts[0].job
    entries = [entry for part in parts for entry in part.entries]
    timed = [entry for entry in entries if entry.paid_time_min]
    # A row that holds a person's day and no cut adds its minutes to the job's.
    bare = [e for e in left_out if e.job == name and e.paid_time_min and e.operation == "cut" and not e.is_modelled]
    if not timed and not bare:
        return None
    place = str((timed or bare)[0].place)
    if any(e.job == name and e not in bare for e in left_out):
        return NotUsed(f"hours of {name}", place, "part of the job could not be modelled")
    if timed and len(timed) < len(entries) and not bare:
        return NotUsed(f"hours of {name}", place, "some of its rows have no man-minutes")
    terms = [term for part in parts for line in range(len(part.entries)) for term in row_paid(part, line, rates)]
    terms += [term for part in parts for term in set_up_paid(part)]
    logged = float(sum(e.paid_time_min or 0.0 for e in (*timed, *bare)))
    when = max(entry.date for entry in entries)
    return Observation(
        Kind.PAID_TIME, f"hours of {name}", logged, tuple(terms), (name,), when, _time_u(rates), (), place
    )


def _flame(row: _Row, rates: WorkRates) -> Observation:
    """Torch-lit minutes of one row."""
    entry = row.entry
    terms = row_flame(row.job, row.line)
    said = f"torch-lit minutes of {entry.job}"
    logged = float(entry.flame_time_min or 0.0)
    u, place = _time_u(rates), str(entry.place)
    return Observation(Kind.FLAME_TIME, said, logged, terms, (entry.job,), entry.date, u, (), place)


def _span(
    tag: CylinderTag, log: WorkLog, rows: Sequence[_Row], rates: WorkRates, sizes: Sizes, doubts: ReadingDoubts
) -> Observation | NotUsed:
    """Gas of one cylinder over the rows that were worked from it."""
    said, place = f"{tag.gas} from {tag.cylinder or tag.size}", str(tag.place)
    if tag.date_off is None:
        return NotUsed(said, place, "still on the torch")
    covered = [entry for entry in log.entries if _burns(entry, tag.gas) and tag in _cylinders(entry, tag.gas, log.tags)]
    mine = [row for row in rows if row.entry in covered and tag.gas in ("oxygen", row.job.fuel)]
    if not mine:
        return NotUsed(said, place, "no work was logged in its days")
    if len(mine) < len(covered):
        return NotUsed(said, place, "part of the work in its days could not be modelled")
    used = _used_from_tag(tag, sizes, doubts)
    if isinstance(used, str):
        return NotUsed(said, place, used)
    quantity = OXYGEN if tag.gas == "oxygen" else fuel_quantity(tag.gas)
    terms = [
        term for row in mine for term in _parted(_of(quantity, _gas_with_set_up(row, rates)), row.entry, tag, log.tags)
    ]
    modelled = sum(term.amount for term in terms)
    if used.amount_m3 < _LEAST_GAS_M3 or modelled < _LEAST_GAS_M3:
        return NotUsed(said, place, "next to no gas was used")
    u = used.doubt_m3 / modelled
    jobs = tuple(dict.fromkeys(row.entry.job for row in mine))
    return Observation(
        Kind.CYLINDER_SPAN, said, used.amount_m3, tuple(terms), jobs, tag.date_off, u, ("cylinder fill",), place
    )


def _gas_with_set_up(row: _Row, rates: WorkRates) -> tuple[Term, ...]:
    """Return the gas of one row and its share of the job's lighting."""
    return row_gas(row.job, row.line, rates) + set_up_gas(row.job, share=1.0 / len(row.job.entries))


def _parted(terms: Sequence[Term], entry: LogEntry, tag: CylinderTag, tags: Sequence[CylinderTag]) -> Sequence[Term]:
    """Return a row's terms, or this cylinder's part of them where several were on that day: how it fell is fitted."""
    standing = _cylinders(entry, tag.gas, tags)
    if len(standing) == 1:
        return terms
    names = [str(each.place) + each.cylinder for each in standing]
    whole, part = f"{tag.gas} on {entry.date}: {', '.join(names)}", names[standing.index(tag)]
    count = len(standing)
    return [PartTerm(t.quantity, t.amount / count, t.powers, whole, part, count) for t in terms]


def _burns(entry: LogEntry, gas: str) -> bool:
    """Return whether a row may have used this gas."""
    return entry.operation != "other" and (gas == "oxygen" or entry.fuel in ("", gas))


def _cylinders(entry: LogEntry, gas: str, tags: Sequence[CylinderTag]) -> list[CylinderTag]:
    """Return the cylinders that a row was worked from: those that name its job, else all that stood on that day."""
    standing = [tag for tag in tags if tag.gas == gas and tag.covers(entry)]
    return [tag for tag in standing if tag.jobs] or standing


def _used_from_tag(tag: CylinderTag, sizes: Sizes, doubts: ReadingDoubts) -> GasInCylinder | str:
    """Gas that left a cylinder between its tag's two days, or why that is not known."""
    size = sizes.get((tag.gas, tag.size.casefold()))
    off = tag.reading_off
    if off is not None and tag.reading_on.means is off.means is Means.MASS:
        return _by_mass(tag.gas, tag.reading_on, off, doubts)
    if size is None:
        return f"the shop book knows no {tag.gas} cylinder {tag.size!r}"
    try:
        on = gas_in_cylinder(tag.reading_on, size, doubts)
        left = heel_of(size) if off is None else gas_in_cylinder(off, size, doubts)
    except ValueError as reason:
        return str(reason)
    return GasInCylinder(on.amount_m3 - left.amount_m3, math.hypot(on.doubt_m3, left.doubt_m3))


def _gauge(row: _Row, gas: str, rates: WorkRates, sizes: Sizes, doubts: ReadingDoubts) -> Observation | NotUsed | None:
    """Gas of one row by two readings."""
    entry = row.entry
    before, after = (
        (entry.oxygen_before, entry.oxygen_after) if gas == "oxygen" else (entry.fuel_before, entry.fuel_after)
    )
    if before is None or after is None:
        return None
    said, place = f"{gas} of {entry.job} by two readings", str(entry.place)
    if entry.cylinder_changes:
        return NotUsed(said, place, "a cylinder was changed between the readings")
    if after.means is not before.means:
        return NotUsed(said, place, "the two readings are not of one kind")
    used = _between(gas, before, after, entry, sizes, doubts)
    if isinstance(used, str):
        return NotUsed(said, place, used)
    quantity = OXYGEN if gas == "oxygen" else fuel_quantity(gas)
    terms = _of(quantity, row_gas(row.job, row.line, rates))
    modelled = sum(term.amount for term in terms)
    if used.amount_m3 <= 0 or modelled < _LEAST_GAS_M3:
        return NotUsed(said, place, "the readings show no gas used")
    u, shared = used.doubt_m3 / modelled, "fuel scale" if before.means is Means.MASS else "oxygen gauge"
    return Observation(Kind.GAUGE, said, used.amount_m3, tuple(terms), (entry.job,), entry.date, u, (shared,), place)


def _between(
    gas: str, before: CylinderReading, after: CylinderReading, entry: LogEntry, sizes: Sizes, doubts: ReadingDoubts
) -> GasInCylinder | str:
    """Gas between two readings of one cylinder, or why it is not known."""
    if before.means is Means.MASS:
        return _by_mass(gas, before, after, doubts)
    if gas != "oxygen":
        return f"{gas} by gauge tells too little; weigh the cylinder"
    size = sizes.get((gas, entry.oxygen_size.casefold()))
    if size is None:
        return f"the shop book knows no oxygen cylinder {entry.oxygen_size!r}" if entry.oxygen_size else "no size given"
    # A slip of the needle counts, the day's temperature does not: it is the same before and after.
    slip = replace(doubts, temperature_share=0.0)
    try:
        first, last = gas_in_cylinder(before, size, slip), gas_in_cylinder(after, size, slip)
    except ValueError as reason:
        return str(reason)
    return GasInCylinder(first.amount_m3 - last.amount_m3, math.hypot(first.doubt_m3, last.doubt_m3))


def _by_mass(gas: str, first: CylinderReading, last: CylinderReading, doubts: ReadingDoubts) -> GasInCylinder:
    """Gas between two weighings of one cylinder; its tare falls out."""
    density = gas_density_kg_m3(gas, HOUSE_STATE)
    return GasInCylinder((first.value - last.value) / density, math.sqrt(2) * doubts.scale_kg / density)


def _of(quantity: str, terms: Sequence[Term]) -> list[Term]:
    return [term for term in terms if term.quantity == quantity]
