"""Gas that the work log needs by the model that makes quotes: each row becomes a line, thin rows are filled in."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.shop_book import ShopBook
from estimator.check.work_log import LogEntry, WorkLog
from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.expected_gas import ExpectedGas
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.problems import work_log as said
from estimator.problems.code import Level, Place, Problem, WorkbookProblemsError
from estimator.words import Method, Steel, Work

__all__ = ["GasOfLog", "gas_of_log"]

_LOG_SD_OF_80 = 2 * 1.2815515655446004
"""Width of an 80 % range in standard deviations of its logarithm."""
_ROW_SCATTER = 0.15
"""Standard deviation of one row about the model, as a share; rows are independent. Source: judgement."""
_FLAME_WORK = ("heat", "bend", "straighten", "weld", "braze")


@dataclass(frozen=True, slots=True)
class GasOfLog:
    """Modelled gas of a log, with the rows that could not be modelled or were filled in."""

    expected: ExpectedGas
    paid_time_min: NDArray[np.float64]
    """Paid time of each job: as logged, else by the model."""
    problems: tuple[Problem, ...]


@dataclass(slots=True)
class _Sums:
    """What the jobs add up to."""

    flame: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    paid: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    gas: dict[str, dict[str, float]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(float)))
    lost: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    own_squares: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    shared: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    """Standard uncertainty that all rows of a fuel share, added up over the fuels [m³]."""


def gas_of_log(log: WorkLog, shop: ShopBook, day: dt.date) -> GasOfLog:
    """Gas that the logged work needs, by job.

    Parameters
    ----------
    log : WorkLog
        Rows of the days in question.
    shop : ShopBook
        Tips, factors, work rates and the gas lost that quotes are made with.
    day : date
        The day whose shop book rows are in force.

    Returns
    -------
    GasOfLog

    Notes
    -----
    A row without starts, tip or flame minutes gets them from the model. Where the torch-lit minutes were timed, gas
    follows them: the modelled gas of the row is scaled to them. Lighting and the like belong to all jobs by torch-lit
    time. The doubt is the model's own 80 % range, shared by all rows, and each row's scatter. Source: definition.
    """
    sums, problems = _Sums(), []
    by_fuel: dict[str, list[LogEntry]] = defaultdict(list)
    for entry in log.entries:
        sums.paid[entry.job] += entry.paid_time_min or 0.0
        sums.flame[entry.job] += 0.0
        if entry.operation == "other":
            continue
        if not entry.is_modelled:
            continue  # the check of the log has said so
        by_fuel[entry.fuel or shop.shop.fuel].append(entry)
    for fuel, entries in by_fuel.items():
        problems += _add_fuel(sums, fuel, entries, shop, day)
    jobs = tuple(sums.flame)
    expected = ExpectedGas(
        jobs=jobs,
        flame_time_min=np.array([sums.flame[job] for job in jobs]),
        by_gas={gas: np.array([of_job[job] for job in jobs]) for gas, of_job in sums.gas.items()},
        shared_doubt={gas: sums.shared[gas] / _whole(sums, gas) for gas in sums.gas if _whole(sums, gas)},
        own_doubt_m3={gas: float(np.sqrt(sums.own_squares[gas])) for gas in sums.gas},
        loss_share={
            gas: sums.lost[gas] / sum(of_job.values()) for gas, of_job in sums.gas.items() if any(of_job.values())
        },
    )
    return GasOfLog(expected, np.array([sums.paid[job] for job in jobs]), tuple(problems))


def _whole(sums: _Sums, gas: str) -> float:
    return sum(sums.gas[gas].values()) + sums.lost[gas]


def _add_fuel(sums: _Sums, fuel: str, entries: list[LogEntry], shop: ShopBook, day: dt.date) -> list[Problem]:
    """Model the rows of one fuel and add them up by job; return what was filled in or could not be modelled."""
    cuts, problems = _as_lines(entries, shop, fuel)
    try:
        done = estimate_job(cuts, shop, JobOrder(date=day, fuel=fuel, partial=True))
    except WorkbookProblemsError as refused:
        return problems + [said.ROW_REFUSED.at(e.place, found=_first(refused)) for e in entries]
    kept = [int(mark) for mark in done.cuts.mark]
    problems += [
        said.ROW_REFUSED.at(entries[i].place, found=_reason(done, _row(entries[i], i)))
        for i in range(len(entries))
        if i not in kept
    ]
    lines = done.job.lines
    scale = _timed_over_modelled([entries[i] for i in kept], lines.flame_time_min)
    oxygen = (lines.cutting_oxygen_m3 + lines.preheat_oxygen_m3) * scale
    fuel_gas = lines.fuel_m3 * scale
    flame = lines.flame_time_min * scale
    sums.lost["oxygen"] += float((lines.lost_oxygen_m3 * scale).sum())
    sums.lost[fuel] += float((lines.lost_fuel_m3 * scale).sum())
    for i, line in zip(kept, range(len(kept)), strict=True):
        job = entries[i].job
        sums.flame[job] += float(flame[line])
        sums.gas["oxygen"][job] += float(oxygen[line])
        sums.gas[fuel][job] += float(fuel_gas[line])
        sums.own_squares["oxygen"] += (_ROW_SCATTER * float(oxygen[line])) ** 2
        sums.own_squares[fuel] += (_ROW_SCATTER * float(fuel_gas[line])) ** 2
        if entries[i].paid_time_min is None:
            sums.paid[job] += float(lines.paid_time_min[line])
    _add_rows(sums, fuel, done, [entries[i].job for i in kept], flame)
    ranges = estimate_ranges(done)
    for gas, band in (("oxygen", ranges.oxygen_m3), (fuel, ranges.fuel_m3)):
        if band.low > 0:
            sums.shared[gas] += band.likely * float(np.log(band.high / band.low)) / _LOG_SD_OF_80
    return problems


def _add_rows(sums: _Sums, fuel: str, done: Estimate, jobs: list[str], flame: NDArray[np.float64]) -> None:
    """Share lighting and the other rows with a flame over the jobs, by torch-lit time."""
    weights = flame / flame.sum() if flame.sum() else np.full(len(jobs), 1 / max(len(jobs), 1))
    oxygen = sum(row.preheat_oxygen_m3 for row in done.job.rows)
    fuel_gas = sum(row.fuel_m3 for row in done.job.rows)
    sums.lost["oxygen"] += sum(row.lost_oxygen_m3 for row in done.job.rows)
    sums.lost[fuel] += sum(row.lost_fuel_m3 for row in done.job.rows)
    for job, weight in zip(jobs, weights, strict=True):
        sums.gas["oxygen"][job] += oxygen * float(weight)
        sums.gas[fuel][job] += fuel_gas * float(weight)


def _as_lines(entries: list[LogEntry], shop: ShopBook, fuel: str) -> tuple[CutList, list[Problem]]:
    """Return the rows as lines of a list; what a thin row lacks is filled in and said."""
    problems: list[Problem] = []
    works = dict(zip(Work.words(), Work, strict=True))
    methods = dict(zip(Method.words(), Method, strict=True))
    typed = [e.thickness_mm for e in entries if e.thickness_mm is not None]
    usual_mm = float(np.median(typed)) if typed else 10.0
    flame_tips = [tip.name for tip in shop.flame_tips if tip.fuel == fuel]
    rows: dict[str, list[float]] = defaultdict(list)
    tips: list[str] = []
    thin: list[tuple[LogEntry, str]] = []
    for entry in entries:
        cutting = entry.operation not in _FLAME_WORK
        thin += [(entry, what) for what in _missing(entry, cutting)]
        rows["work"].append(works[entry.operation])
        rows["method"].append(methods.get(entry.method, Method.STRAIGHTEDGE))
        rows["thickness_mm"].append(entry.thickness_mm if entry.thickness_mm is not None else usual_mm)
        rows["total_cut_length_mm"].append((entry.cut_length_m or 1.0) * 1000.0 if cutting else np.nan)
        rows["pierces"].append(_or_nan(entry.pierces) if cutting else np.nan)
        rows["edge_starts"].append(_or_nan(entry.edge_starts) if cutting else np.nan)
        rows["flame_min_each"].append(np.nan if cutting else _or_nan(entry.flame_time_min))
        tips.append(entry.tip or ("" if cutting or not flame_tips else flame_tips[0]))
    if thin:
        count = len({id(entry) for entry, _ in thin})
        first = thin[0][0].place
        missing = ", ".join(dict.fromkeys(what for _, what in thin))
        problems.append(said.ROW_THIN.at(Place(first.file, first.sheet), count=count, missing=missing))
    n = len(entries)
    columns = {name: np.array(values, dtype=np.float64) for name, values in rows.items()}
    cuts = CutList(
        mark=[str(i) for i in range(n)],
        quantity=np.ones(n),
        thickness_mm=columns["thickness_mm"],
        sheet=[entry.place.sheet for entry in entries],
        row=np.array([_row(entry, i) for i, entry in enumerate(entries)], dtype=np.int64),
        work=columns["work"].astype(np.int8),
        method=columns["method"].astype(np.int8),
        total_cut_length_mm=columns["total_cut_length_mm"],
        pierces=columns["pierces"],
        edge_starts=columns["edge_starts"],
        flame_min_each=columns["flame_min_each"],
        tip=tips,
        steel=np.full(n, Steel.EXCLUDED, dtype=np.int8),
        file=entries[0].place.file if entries else "",
    )
    return cuts, problems


def _missing(entry: LogEntry, cutting: bool) -> list[str]:
    missing = []
    if cutting and entry.pierces is None and entry.edge_starts is None and entry.flame_time_min is None:
        missing.append("starts")
    if entry.thickness_mm is None and cutting:
        missing.append("thickness")
    if entry.flame_time_min is None:
        missing.append("torch-lit minutes")
    return missing


def _timed_over_modelled(entries: list[LogEntry], modelled: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return what each row's gas is scaled by: timed minutes over the model's, 1 where nothing was timed."""
    timed = np.array([_or_nan(e.flame_time_min) for e in entries], dtype=np.float64)
    with np.errstate(invalid="ignore", divide="ignore"):
        scale = timed / modelled
    return np.where(np.isfinite(scale), scale, 1.0)


def _or_nan(value: float | None) -> float:
    return float("nan") if value is None else float(value)


def _first(refused: WorkbookProblemsError) -> str:
    return refused.problems[0].fact if refused.problems else ""


def _row(entry: LogEntry, index: int) -> int:
    """Return the row a line is known by; a row that came from no sheet is counted."""
    return entry.place.row or index + 1


def _reason(done: Estimate, row: int) -> str:
    errors = [p for p in done.problems if p.level is Level.ERROR and p.place.row == row]
    return errors[0].fact if errors else ""
