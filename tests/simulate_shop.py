"""Invented shops that log their jobs: true factors, noise, and one log line in ten wrong. Seeded.

The truth is not drawn from the engine's own spreads: a ``World`` says how much wider or narrower it is, and how it is
skewed. Amounts are worked out here from a small chart, so that the learning is tried apart from the rest.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from datetime import date, timedelta

import numpy as np

from estimator.learning.calibration_result import HandbookFactor
from estimator.learning.observation import Kind, Observation
from estimator.learning.ranges import Term
from estimator.learning.spread import split_lognormal

REST = 1.12
LOST_OXYGEN, LOST_FUEL = 1.15, 1.20
PRICES = {"paid_time_min": 1.05, "oxygen_m3": 6.0, "acetylene_m3": 26.0}
"""Invented prices of a minute and a cubic metre."""

# thickness mm: tip, speed mm/min, cutting oxygen m³/h, acetylene m³/h, pierce min, kg per m cut, cleaning min/m
CHART = {
    6: ("0.8", 500, 0.85, 0.25, 0.07, 3.5, 1.2),
    10: ("1.2", 450, 1.75, 0.25, 0.13, 7.0, 1.3),
    12: ("1.2", 410, 1.90, 0.25, 0.17, 9.0, 1.3),
    16: ("1.2", 390, 2.15, 0.28, 0.22, 13.0, 1.6),
    20: ("1.6", 370, 3.80, 0.30, 0.27, 18.0, 1.9),
    25: ("1.6", 310, 4.10, 0.30, 0.33, 24.0, 2.2),
    40: ("1.6", 220, 4.70, 0.34, 0.60, 45.0, 3.5),
}
TIPS = ("0.8", "1.2", "1.6")
HANDBOOK = [
    HandbookFactor("hours", split_lognormal(0.85, 1.0, 1.40)),
    *(HandbookFactor(f"speed {tip}", split_lognormal(0.78, 1.0, 1.24)) for tip in TIPS),
    *(HandbookFactor(f"oxygen flow {tip}", split_lognormal(0.85, 1.0, 1.20)) for tip in TIPS),
    HandbookFactor("fuel flow", split_lognormal(0.67, 1.0, 1.33)),
    HandbookFactor("starts", split_lognormal(0.5, 1.0, 1.8)),
    HandbookFactor("layout", split_lognormal(0.5, 1.0, 2.0)),
    HandbookFactor("handling", split_lognormal(0.5, 1.0, 2.0)),
    HandbookFactor("cleaning", split_lognormal(0.75, 1.0, 1.33)),
]
RATES = ("layout", "handling", "cleaning")
HOURS_OF_SHOP, RATES_OF_SHOP = 0.85, 0.10
"""The handbook's band of hours is split: most of it is the shop's (always wrong the same way), the rest the job's.
Layout, handling and cleaning stray from the shop's hours as a whole by a tenth (log)."""
CONTENT_M3 = {"oxygen_m3": 10.0, "acetylene_m3": 2.0}
CONTENT_U = 0.03
"""Relative error of a cylinder's content: fill and what is left in it."""
GAUGE_SLIP_M3 = {"oxygen_m3": 0.26, "acetylene_m3": 0.05}
"""Error of one reading: 5 bar on a 50 L cylinder, 50 g on a scale."""
GAUGE_SCALE_U = 0.025
SHARED_ERRORS = {f"{gas} gauge": GAUGE_SCALE_U for gas in GAUGE_SLIP_M3}
"""Relative error of one instrument's scale, shared by all its readings."""


@dataclass(frozen=True)
class World:
    """How the simulated truth differs from the engine's own spreads."""

    name: str
    scale: float = 1.0
    """Times the handbook's spread."""
    skew: float = 0.0
    """Shape of the truth about the handbook: 0 even, above 0 with a long tail upward."""
    heavy: bool = False
    """Noise with the heavy tails of a Student's t with 3 degrees of freedom."""
    wrong: float = 0.10
    """Share of log lines that are wrong."""
    hours_noise: float = 0.09
    """Scatter from job to job at scale 1 (log), as the two below."""
    gas_noise: float = 0.05
    flame_noise: float = 0.09


WORLDS = (
    World("spreads x 0.7", scale=0.7),
    World("spreads x 1.5", scale=1.5),
    World("skewed", skew=1.0),
    World("heavy tails", heavy=True),
)


@dataclass
class Job:
    """One job: the handbook's terms, and what really happened."""

    number: str
    day: date
    rows: list[list[Term]]
    """Terms of each row of the log: one for each thickness; the first also carries the job's own."""
    noise: dict[str, float] = field(default_factory=dict)
    expected: dict[str, float] = field(default_factory=dict)
    """What this shop would need on average."""
    actual: dict[str, float] = field(default_factory=dict)

    @property
    def terms(self) -> list[Term]:
        return [term for row in self.rows for term in row]

    def modelled(self, quantity: str) -> tuple[Term, ...]:
        return tuple(term for term in self.terms if term.quantity == quantity)


class Shop:
    """One simulated shop: its true factors, and a stream of jobs."""

    def __init__(self, world: World, seed: int) -> None:
        self.world = world
        self.rng = np.random.default_rng(seed)
        self.truth = {factor.name: self._true(factor) for factor in HANDBOOK}
        for name in RATES:
            self.truth[name] = math.exp(RATES_OF_SHOP * self.world.scale * self.rng.standard_normal())
        self.gauge_scale = {gas: math.exp(GAUGE_SCALE_U * self.rng.standard_normal()) for gas in GAUGE_SLIP_M3}
        self.count = 0

    def job(self) -> Job:
        """Return the next job, worked."""
        self.count += 1
        day = date(2025, 1, 6) + timedelta(days=3 * self.count)
        job = Job(f"J-{self.count}", day, handbook_rows(self.rng))
        known = {"paid_time_min": self.world.hours_noise, "flame_time_min": self.world.flame_noise}
        for quantity in ("paid_time_min", "flame_time_min", "oxygen_m3", "acetylene_m3"):
            job.expected[quantity] = sum(self._worked(term) for term in job.modelled(quantity))
            job.noise[quantity] = math.exp(self.world.scale * known.get(quantity, self.world.gas_noise) * self._noise())
            job.actual[quantity] = job.expected[quantity] * job.noise[quantity]
        return job

    def log(self, jobs: list[Job], *, spans: bool = True, flame: bool = True) -> list[Observation]:
        """Return what the shop wrote down: one line in ten is wrong."""
        seen = [self._line(Kind.PAID_TIME, job, "paid_time_min") for job in jobs]
        if flame:
            seen += [self._line(Kind.FLAME_TIME, job, "flame_time_min") for job in jobs]
        for gas in ("oxygen_m3", "acetylene_m3"):
            seen += self._spans(gas, jobs) if spans else self._gauges(gas, jobs)
        return seen

    def _true(self, factor: HandbookFactor) -> float:
        """A true factor: the handbook's own middle and spread, scaled and skewed."""
        spread, z = factor.spread, self.rng.standard_normal()
        if self.world.skew:
            z = (self.rng.gamma(4.0) - 4.0) / 2.0 * self.world.skew
        share = HOURS_OF_SHOP if factor.name == "hours" else 1.0
        return math.exp(spread.log_mean + self.world.scale * share * spread.log_sd * z)

    def _worked(self, term: Term) -> float:
        return term.amount * math.prod(self.truth[name] ** power for name, power in term.powers.items())

    def _noise(self) -> float:
        return float(self.rng.standard_t(3) / math.sqrt(3)) if self.world.heavy else float(self.rng.standard_normal())

    def _line(self, kind: Kind, job: Job, quantity: str) -> Observation:
        logged, terms = job.actual[quantity], job.modelled(quantity)
        if self.rng.random() < self.world.wrong:
            slip = self.rng.choice([1 / 60, 0.5, 2.0, 25.4])
            if slip == 25.4:  # metres logged from a drawing in inches: the model sees too much work
                terms = tuple(Term(t.quantity, t.amount * 25.4, t.powers) for t in terms)
            else:
                logged *= float(slip)
        return Observation(kind, f"{quantity} of {job.number}", logged, terms, (job.number,), job.day, reading_u=0.02)

    def _spans(self, gas: str, jobs: list[Job]) -> list[Observation]:
        """Cylinders over whole jobs, until one full cylinder is used."""
        content, seen, held = CONTENT_M3[gas], [], []
        for job in jobs:
            held.append(job)
            used = sum(each.actual[gas] for each in held)
            if used >= content:
                terms = tuple(term for each in held for term in each.modelled(gas))
                logged = used * math.exp(CONTENT_U * self.rng.standard_normal())
                seen.append(self._gas(Kind.CYLINDER_SPAN, gas, held, terms, logged, reading_u=CONTENT_U))
                held = []
        return seen

    def _gauges(self, gas: str, jobs: list[Job]) -> list[Observation]:
        """Two readings on each row, but where a cylinder ran dry between them: then the row tells nothing."""
        slip, shared, seen, left = GAUGE_SLIP_M3[gas], f"{gas} gauge", [], CONTENT_M3[gas]
        for job in jobs:
            for row in job.rows:
                terms = tuple(term for term in row if term.quantity == gas)
                used = sum(self._worked(term) for term in terms) * job.noise[gas]
                left -= used
                if left < 0:
                    left = CONTENT_M3[gas]
                    continue
                read = used * self.gauge_scale[gas] + slip * math.sqrt(2) * float(self.rng.standard_normal())
                if read > 0:
                    u = slip * math.sqrt(2) / sum(term.amount for term in terms)
                    seen.append(self._gas(Kind.GAUGE, gas, [job], terms, read, reading_u=u, shared=(shared,)))
        return seen

    def _gas(self, kind, gas, jobs, terms, logged, *, reading_u, shared=()) -> Observation:
        if self.rng.random() < self.world.wrong:
            logged *= float(self.rng.choice([0.5, 2.0, 1.6]))
        names = tuple(job.number for job in jobs)
        return Observation(kind, f"{gas} of {names}", logged, terms, names, jobs[-1].day, reading_u, shared)


def handbook_rows(rng: np.random.Generator) -> list[list[Term]]:
    """Return one job's rows: a few thicknesses, pieces and metres of each."""
    thicknesses = rng.choice(list(CHART), size=int(rng.integers(1, 4)), replace=False)
    rows = []
    for thickness in thicknesses:
        terms = [] if rows else [Term("paid_time_min", 20.0 * REST, {"hours": 1.0})]
        tip, speed, oxygen_flow, fuel_flow, pierce, kg_m, cleaning = CHART[int(thickness)]
        pieces = float(np.ceil(rng.lognormal(math.log(10), 0.7)))
        metres = pieces * float(rng.uniform(0.5, 2.0))
        cut, start, moved = metres * 1000 / speed, pieces * 2 * pierce, pieces * 0.5
        by_speed, by_start, by_hours = {f"speed {tip}": -1.0}, {"starts": 1.0}, {"hours": 1.0}
        for minutes, powers in ((cut, by_speed), (start, by_start), (moved, by_hours)):
            paid = powers if powers is by_hours else {**powers, "hours": 1.0}
            lit = {**powers, "fuel flow": 1.0}
            fuel = fuel_flow * minutes / 60 * LOST_FUEL
            terms += [
                Term("flame_time_min", minutes, powers),
                Term("paid_time_min", minutes * REST, paid),
                Term("acetylene_m3", fuel, lit),
                Term("oxygen_m3", fuel / LOST_FUEL * 1.1 * LOST_OXYGEN, lit),
            ]
        jet = {**by_speed, f"oxygen flow {tip}": 1.0}
        terms += [
            Term("oxygen_m3", oxygen_flow * cut / 60 * LOST_OXYGEN, jet),
            Term("paid_time_min", (metres + 0.5 * pieces) * REST, {"layout": 1.0, "hours": 1.0}),
            Term("paid_time_min", (pieces + 0.04 * kg_m * metres) * REST, {"handling": 1.0, "hours": 1.0}),
            Term("paid_time_min", cleaning * metres * REST, {"cleaning": 1.0, "hours": 1.0}),
            Term("paid_time_min", 10.0 * REST, {"hours": 1.0}),
        ]
        rows.append(terms)
    return rows


def price_of(used: dict[str, float]) -> float:
    """What minutes and gas cost at the invented prices."""
    return sum(PRICES[quantity] * used[quantity] for quantity in PRICES)
