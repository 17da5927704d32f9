"""Months of an invented shop as two clerks would log them: one tags its bottles, one reads gauge and scale on each row.

Both logs are of the same work, the same cylinders and the same slips of the pen. The truth is the engine's model with
factors that the engine does not know, drawn wider, narrower, skewed or with outliers, and noise from job to job.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass, field

import numpy as np

from estimator.check.example_shop import example_shop
from estimator.check.shop_book import FactorRow, ShopBook
from estimator.check.work_log import CylinderTag, LogEntry, WorkLog
from estimator.pricing.cylinder_content import CylinderSize, ReadingDoubts, gas_in_cylinder
from estimator.pricing.learn import cylinder_sizes
from estimator.pricing.modelled_log import modelled_log
from estimator.quantities.logged_work import LoggedJob
from estimator.read.cylinder_reading import CylinderReading, Means
from estimator.reference import gas_density_kg_m3
from estimator.units import HOUSE_STATE
from tests.simulate_log import FIRST_DAY, THICKNESSES
from tests.simulate_shop import World

__all__ = ["GASES", "SimulatedMonths", "gas_of_rows", "simulate_months_of_gas"]

SIZES = {"oxygen": "o-10", "acetylene": "a-7"}
GASES = tuple(SIZES)
_FACTOR_SD = {
    **{("travel speed", tip, "hand"): 0.18 for tip in ("0.8", "1.2", "1.6")},
    **{("cutting oxygen", tip, ""): 0.14 for tip in ("0.8", "1.2", "1.6")},
    ("fuel", "", ""): 0.27,
    ("preheat oxygen", "", ""): 0.09,
    ("start time", "", ""): 0.33,
}
"""About the handbook's bands; a world multiplies and skews them."""
_FILL_U, _SUPPLIER_U = 0.015, 0.01
"""A cylinder is filled to within 3 %, 19 times in 20; one supplier's are all out by half of that again."""
_GAUGE_SLIP_BAR = 2.9
"""A slip of up to 5 bar either way, all alike: 0.15 m³ of a 50 L bottle, where 5 bar are 0.26 m³."""
_SCALE_SLIP_KG = 0.05
_GAUGE_CLASS_U, _SCALE_CLASS_U = 0.0125, 0.005
_COOLED = 1.5 / 288.0
"""Share that a gauge loses while the torch burns: expanding gas takes 84 W from the bottle at 3 m³/h (pressure times
flow), which 1.1 m² of wall gives back at 30 to 60 W/m²K when it is 1 to 3 K colder. Worked out, not measured."""
_LOST = {"oxygen": 0.15, "acetylene": 0.20}
_GAS_NOISE, _TIME_NOISE = 0.05, 0.09
"""Scatter from job to job (log), judgement."""
_SLIPS = 0.10
"""Share of log lines, readings and tags that are wrong."""


@dataclass
class SimulatedMonths:
    """Two logs of the same months, and the work that comes after them."""

    with_tags: WorkLog
    with_readings: WorkLog
    next_month: WorkLog
    next_gas_m3: dict[str, float]
    """What the next month took, noise and losses in."""
    next_rows_m3: dict[str, np.ndarray]
    """What this shop needs on average for each of the next month's rows, losses in."""
    tags_of: dict[str, int] = field(default_factory=dict)


def simulate_months_of_gas(
    world: World, seed: int, *, jobs: int = 60, next_jobs: int = 20, for_gauges: bool = False
) -> SimulatedMonths:
    """Return the months of one invented shop; a job a working day, twenty a month.

    Half of the gas that is lost escapes between the rows (leaks overnight, the morning's purge), where no reading
    before and after a row sees it, and a bottle is colder after a cut than before. ``for_gauges`` leaves both out.
    """
    rng = np.random.default_rng(seed)
    shop = _true_shop(world, rng)
    rows = _work(jobs + next_jobs, rng)
    first_next = FIRST_DAY + dt.timedelta(days=jobs)
    logged, coming = [r for r in rows if r.date < first_next], [r for r in rows if r.date >= first_next]
    modelled = modelled_log(WorkLog(entries=tuple(logged)), shop).jobs
    entries, noise = _timed(modelled, world, rng)
    used = [_used(job, noise[job.job]) for job in modelled]
    tags: list[CylinderTag] = []
    readings: dict[int, dict[str, object]] = {id(e): {} for job in modelled for e in job.entries}
    for gas in GASES:
        cylinders = _Cylinders(gas, rng, for_gauges=for_gauges)
        for job, gas_used in zip(modelled, used, strict=True):
            cylinders.work(job, gas_used[gas], readings)
        tags += cylinders.tags()
    read = [entries[key].model_copy(update=said) for key, said in readings.items()]
    ahead = modelled_log(WorkLog(entries=tuple(coming)), shop).jobs
    took = [_used(job, math.exp(_GAS_NOISE * world.scale * _draw(world, rng))) for job in ahead]
    return SimulatedMonths(
        WorkLog(entries=tuple(entries[key] for key in readings), tags=tuple(tags)),
        WorkLog(entries=tuple(read)),
        WorkLog(entries=tuple(coming)),
        {gas: float(sum(job[gas].sum() for job in took)) for gas in GASES},
        {gas: np.concatenate([gas_of_rows(job)[gas][:-1] for job in ahead]) for gas in GASES},
        {gas: sum(tag.gas == gas for tag in tags) for gas in GASES},
    )


def _work(jobs: int, rng: np.random.Generator) -> list[LogEntry]:
    """Rows without any measurement, of the size of an owner's own list: 2 to 10 m each, a job one to four of them."""
    rows = []
    for number in range(jobs):
        for thickness in rng.choice(THICKNESSES, size=int(rng.integers(1, 5)), replace=False):
            pieces = int(rng.integers(2, 25))
            rows.append(
                LogEntry(
                    date=FIRST_DAY + dt.timedelta(days=number),
                    job=f"J-{100 + number}",
                    thickness_mm=float(thickness),
                    cut_length_m=round(float(rng.lognormal(math.log(4.5), 0.4)), 1),
                    pieces=pieces,
                    pierces=int(rng.integers(0, 2)) * pieces,
                    edge_starts=pieces,
                )
            )
    return rows


def gas_of_rows(job: LoggedJob) -> dict[str, np.ndarray]:
    """Gas of each row of a modelled job, losses in; last what belongs to none of them (lighting)."""
    lines, rows = job.work.lines, job.work.rows
    oxygen = lines.cutting_oxygen_m3 + lines.preheat_oxygen_m3 + lines.lost_oxygen_m3
    fuel = lines.fuel_m3 + lines.lost_fuel_m3
    return {
        "oxygen": np.append(oxygen, sum(row.preheat_oxygen_m3 + row.lost_oxygen_m3 for row in rows)),
        "acetylene": np.append(fuel, sum(row.fuel_m3 + row.lost_fuel_m3 for row in rows)),
    }


class _Cylinders:
    """One gas on one torch: cylinders run dry in the middle of a row, and are changed."""

    def __init__(self, gas: str, rng: np.random.Generator, *, for_gauges: bool) -> None:
        self.gas, self.rng = gas, rng
        self.lost_inside, self.cooled = (1.0, 0.0) if for_gauges else (0.5, _COOLED)
        self.size: CylinderSize = cylinder_sizes(example_shop())[gas, SIZES[gas]]
        self.supplier = math.exp(_SUPPLIER_U * rng.standard_normal())
        self.scale = math.exp((_GAUGE_CLASS_U if gas == "oxygen" else _SCALE_CLASS_U) * rng.standard_normal())
        self.spans: list[tuple[dt.date, dt.date]] = []
        self._put_on()
        self.on: dt.date | None = None

    def work(self, job: LoggedJob, used: np.ndarray, readings: dict[int, dict[str, object]]) -> None:
        """Draw a job's gas, row by row, and note what gauge or scale say before and after each."""
        inside = (1.0 + self.lost_inside * _LOST[self.gas]) / (1.0 + _LOST[self.gas])
        day = job.entries[0].date
        self.on = self.on or day
        self._draw(day, float(used[-1]) + float(used[:-1].sum()) * (1.0 - inside))
        for entry, amount in zip(job.entries, used[:-1] * inside, strict=True):
            before = self.left
            changes = self._draw(day, float(amount))
            taken = (before - self.left) * (float(self.rng.choice([0.5, 1.6, 2.0])) if self._slips() else 1.0)
            said = self._said(before), self._said(before - taken, self.cooled)
            name = "oxygen" if self.gas == "oxygen" else "fuel"
            own = readings[id(entry)]
            own |= {f"{name}_before": said[0], f"{name}_after": said[1]}
            own["cylinder_changes"] = int(own.get("cylinder_changes", 0)) + changes  # type: ignore[call-overload]
            if self.gas == "oxygen":
                own["oxygen_size"] = self.size.size

    def tags(self) -> list[CylinderTag]:
        """The chalk on the bottles, one in ten wrong: a day off by two, or a change that nobody chalked up."""
        made: list[CylinderTag] = []
        forgotten: dt.date | None = None
        for number, (on, off) in enumerate(self.spans):
            wrong = self._slips()
            if wrong and self.rng.random() < 0.5:
                forgotten = forgotten or on
                continue
            shift = dt.timedelta(days=int(self.rng.choice([-2, 2])) if wrong else 0)
            first, last = forgotten or on, max(forgotten or on, off + shift)
            name = f"{self.gas[0].upper()}-{number}"
            made.append(CylinderTag(cylinder=name, gas=self.gas, size=self.size.size, date_on=first, date_off=last))
            forgotten = None
        return made

    def _slips(self) -> bool:
        return bool(self.rng.random() < _SLIPS)

    def _put_on(self) -> None:
        fill = self.size.content_m3 * self.supplier * math.exp(_FILL_U * self.rng.standard_normal())
        self.left = fill
        self.heel = self.size.heel_m3 * float(self.rng.uniform(0.3, 1.7))

    def _draw(self, day: dt.date, amount: float) -> int:
        changes = 0
        while amount > self.left - self.heel:
            amount -= max(self.left - self.heel, 0.0)
            self.spans.append((self.on or day, day))
            self._put_on()
            self.on, changes = day, changes + 1
        self.left -= amount
        return changes

    def _said(self, amount: float, cooled: float = 0.0) -> CylinderReading:
        if self.gas == "oxygen":
            bar = _bar_of(amount / self.size.content_m3) * self.scale * (1.0 - cooled)
            bar = max(bar + _GAUGE_SLIP_BAR * float(self.rng.standard_normal()), 0.0)
            return CylinderReading(Means.PRESSURE, round(bar, 1), said=f"{bar:.1f} bar")
        kg = 58.2 + amount * gas_density_kg_m3(self.gas, HOUSE_STATE) * self.scale
        kg += _SCALE_SLIP_KG * float(self.rng.standard_normal())
        return CylinderReading(Means.MASS, round(kg, 2), said=f"{kg:.2f} kg")


_BARS = np.linspace(0.0, 215.0, 216)
_HELD = np.array(
    [
        gas_in_cylinder(
            CylinderReading(Means.PRESSURE, float(bar)), CylinderSize("oxygen", "", 1.0, 200.0), ReadingDoubts()
        ).amount_m3
        for bar in _BARS
    ]
)


def _bar_of(share: float) -> float:
    return float(np.interp(share, _HELD, _BARS))


def _true_shop(world: World, rng: np.random.Generator) -> ShopBook:
    rows = []
    for (what, tip, by), sd in _FACTOR_SD.items():
        z = (rng.gamma(4.0) - 4.0) / 2.0 * world.skew if world.skew else rng.standard_normal()
        rows.append(FactorRow(what=what, tip=tip, by=by, value=math.exp(world.scale * sd * z)))
    return example_shop().model_copy(update={"factors": tuple(rows)})


def _used(job: LoggedJob, noise: float) -> dict[str, np.ndarray]:
    return {gas: amount * noise for gas, amount in gas_of_rows(job).items()}


def _draw(world: World, rng: np.random.Generator) -> float:
    return float(rng.standard_t(3) / math.sqrt(3)) if world.heavy else float(rng.standard_normal())


def _timed(
    modelled: tuple[LoggedJob, ...], world: World, rng: np.random.Generator
) -> tuple[dict[int, LogEntry], dict[str, float]]:
    """Minutes as they were written down, one line in ten wrong; and each job's noise of gas."""
    entries, noise = {}, {}
    for job in modelled:
        noise[job.job] = math.exp(_GAS_NOISE * world.scale * _draw(world, rng))
        lines = job.work.lines
        set_up = sum(row.paid_time_min for row in job.work.rows) / len(job.entries)
        hours = math.exp(_TIME_NOISE * world.scale * _draw(world, rng))
        lit = math.exp(_TIME_NOISE * world.scale * _draw(world, rng))
        for line, entry in enumerate(job.entries):
            paid = (float(lines.paid_time_min[line]) + set_up) * hours * _slip(rng)
            flame = float(lines.flame_time_min[line]) * lit * _slip(rng)
            said = {"paid_time_min": max(round(paid), 1), "flame_time_min": max(round(flame, 1), 0.1)}
            entries[id(entry)] = entry.model_copy(update=said)
    return entries, noise


def _slip(rng: np.random.Generator) -> float:
    return float(rng.choice([1 / 60, 0.5, 2.0])) if rng.random() < _SLIPS else 1.0
