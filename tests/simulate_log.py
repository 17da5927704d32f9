"""Work logs of an invented shop, worked with the engine's own model and true factors that the engine does not know."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from pathlib import Path

import numpy as np

from estimator.check.example_shop import example_shop
from estimator.check.shop_book import FactorRow, ShopBook
from estimator.check.work_log import CylinderTag, LogEntry, WorkLog
from estimator.pricing.cylinder_content import CylinderSize, ReadingDoubts, gas_in_cylinder
from estimator.pricing.learn import cylinder_sizes
from estimator.pricing.modelled_log import modelled_log
from estimator.read.cylinder_reading import CylinderReading, Means
from estimator.reference import gas_density_kg_m3
from estimator.sheets.cylinder_tags import CYLINDER_TAGS
from estimator.sheets.statement import Sheet
from estimator.sheets.work_log import WORK_LOG
from estimator.units import HOUSE_STATE
from estimator.write.book import OutputBook, write_book
from estimator.write.own_sheets import write_own_sheet
from estimator.write.save import save

FIRST_DAY = dt.date(2025, 3, 3)
THICKNESSES = (6.0, 10.0, 12.0, 16.0, 20.0, 25.0, 40.0)


def true_shop(**factors: float) -> ShopBook:
    """The example shop as it really is: factors by what they multiply, as ``travel_speed=0.85``."""
    rows = tuple(FactorRow(what=what.replace("_", " "), value=value) for what, value in factors.items())
    return example_shop().model_copy(update={"factors": rows})


def work_of(jobs: int, seed: int, *, first: dt.date = FIRST_DAY) -> list[LogEntry]:
    """Rows without any measurement: a job every third day, one to three thicknesses each."""
    rng = np.random.default_rng(seed)
    rows = []
    for number in range(jobs):
        day = first + dt.timedelta(days=3 * number)
        size = rng.lognormal(0.0, 0.6)
        for thickness in rng.choice(THICKNESSES, size=int(rng.integers(1, 4)), replace=False):
            pieces = int(rng.integers(4, 30))
            metres = round(float(pieces * rng.uniform(0.4, 1.2) * size), 1)
            pierces = int(rng.integers(0, 2)) * pieces
            rows.append(
                LogEntry(
                    date=day,
                    job=f"J-{100 + number}",
                    thickness_mm=float(thickness),
                    cut_length_m=max(metres, 0.5),
                    pieces=pieces,
                    pierces=pierces,
                    edge_starts=pieces,
                )
            )
    return rows


def logged_by(
    shop: ShopBook, rows: Sequence[LogEntry], seed: int, *, hours: float = 0.08, flame: float = 0.06
) -> WorkLog:
    """The rows as this shop worked them, with man-minutes, torch-lit minutes and a tag for each cylinder used."""
    rng = np.random.default_rng(seed)
    entries: list[LogEntry] = []
    for job in modelled_log(WorkLog(entries=tuple(rows)), shop).jobs:
        set_up = sum(row.paid_time_min for row in job.work.rows) / len(job.entries)
        factor = math.exp(hours * rng.standard_normal())
        for line, entry in enumerate(job.entries):
            paid = (float(job.work.lines.paid_time_min[line]) + set_up) * factor
            lit = float(job.work.lines.flame_time_min[line]) * math.exp(flame * rng.standard_normal())
            entries.append(entry.model_copy(update={"paid_time_min": round(paid), "flame_time_min": round(lit, 1)}))
    log = WorkLog(entries=tuple(entries))
    return log.model_copy(
        update={"tags": tuple(_tags(shop, log, "oxygen", "O-10") + _tags(shop, log, "acetylene", "A-7"))}
    )


def _tags(shop: ShopBook, log: WorkLog, gas: str, size: str) -> list[CylinderTag]:
    """Cylinders over whole days, read when they came off."""
    full = cylinder_sizes(shop)[gas, size.casefold()].content_m3
    work = modelled_log(log, shop)
    use: dict[dt.date, float] = {}
    for job in work.jobs:
        lines, rows = job.work.lines, job.work.rows
        if gas == "oxygen":
            used = lines.cutting_oxygen_m3 + lines.preheat_oxygen_m3 + lines.lost_oxygen_m3
            extra = sum(row.preheat_oxygen_m3 + row.lost_oxygen_m3 for row in rows)
        else:
            used, extra = lines.fuel_m3 + lines.lost_fuel_m3, sum(row.fuel_m3 + row.lost_fuel_m3 for row in rows)
        day = job.entries[0].date
        use[day] = use.get(day, 0.0) + float(used.sum()) + extra
    tags, on, taken = [], None, 0.0
    days = sorted(use)
    for index, day in enumerate(days):
        on, taken = on or day, taken + use[day]
        following = use[days[index + 1]] if index + 1 < len(days) else math.inf
        if taken + following > full and taken < full:
            name, read = f"{gas[0].upper()}-{index}", _readings(gas, taken, full)
            tags.append(CylinderTag(cylinder=name, gas=gas, size=size, date_on=on, date_off=day, **read))
            on, taken = None, 0.0
        elif taken >= full:
            on, taken = None, 0.0
    return tags


def _readings(gas: str, taken: float, full: float) -> dict[str, CylinderReading]:
    """What was read on and off: a gauge for oxygen, a scale for the fuel."""
    if gas == "oxygen":
        bar = round(_bar_of_share(1 - taken / full))
        return {"reading_off": CylinderReading(Means.PRESSURE, bar, said=f"{bar} bar")}
    off = round(70.0 - taken * gas_density_kg_m3(gas, HOUSE_STATE), 1)
    return {
        "reading_on": CylinderReading(Means.MASS, 70.0, said="70 kg"),
        "reading_off": CylinderReading(Means.MASS, off, said=f"{off} kg"),
    }


def _bar_of_share(share: float) -> float:
    """Gauge of an oxygen cylinder of 200 bar with this share of its gas, found by trying."""
    size = CylinderSize("oxygen", "any", 1.0, full_pressure_bar=200.0)
    bars = np.linspace(0, 200, 2001)
    held = [gas_in_cylinder(CylinderReading(Means.PRESSURE, bar), size, ReadingDoubts()).amount_m3 for bar in bars]
    return float(np.interp(share, held, bars))


def write_log(path: Path, log: WorkLog) -> Path:
    """Write a log as a workbook that a shop might have typed."""

    def build(book: OutputBook) -> None:
        write_own_sheet(book, WORK_LOG, [_typed(entry, WORK_LOG) for entry in log.entries])
        write_own_sheet(book, CYLINDER_TAGS, [_typed(tag, CYLINDER_TAGS) for tag in log.tags])

    save(path, write_book(build, title="Invented work log"), force=True)
    return path


def _typed(record: LogEntry | CylinderTag, sheet: Sheet) -> dict[str, object]:
    """A record as it was typed: readings as words, lists with commas, blanks left out."""
    typed: dict[str, object] = {}
    for column in sheet.columns:
        value = getattr(record, column.name)
        if isinstance(value, CylinderReading):
            value = value.said
        elif isinstance(value, tuple):
            value = ", ".join(value)
        if value not in (None, ""):
            typed[column.name] = value
    return typed
