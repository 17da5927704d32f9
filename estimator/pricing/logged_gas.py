"""Gas that the work log needs, by job, from the model that makes quotes; with the doubt of its charts and rows."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from estimator.check.shop_book import ShopBook
from estimator.check.torch_kit import built_in_work_rates, torch_kit, work_rates
from estimator.check.work_log import LogEntry, WorkLog
from estimator.pricing.expected_gas import ExpectedGas
from estimator.pricing.fuel_chart import fuel_problems
from estimator.pricing.modelled_log import modelled_log
from estimator.problems import work_log as said
from estimator.problems.code import Place, Problem
from estimator.quantities.logged_work import LoggedJob, LoggedWork
from estimator.quantities.torch_settings import Settings
from estimator.words import OwnFactor, Work

__all__ = ["GasOfLog", "gas_of_log"]

Floats = NDArray[np.float64]
_SD_OF_80 = 1.0 / (2 * 1.2815515655446004)
"""Standard deviations of a logarithm in the width of its 80 % range."""
_FLAME_WORK = ("heat", "bend", "straighten", "weld", "braze")


@dataclass(frozen=True, slots=True)
class GasOfLog:
    """Modelled gas of a log, with the rows that could not be modelled or were filled in."""

    expected: ExpectedGas
    paid_time_min: Floats
    """Paid time of each job: as logged, else by the model."""
    problems: tuple[Problem, ...]


@dataclass(slots=True)
class _Sums:
    """What the jobs add up to; m³ and minutes."""

    flame: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    paid: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    gas: dict[str, dict[str, float]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(float)))
    lost: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    own_squares: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    shared: dict[str, dict[str, float]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(float)))
    """By gas and shared error: the standard uncertainties, added up over the rows that share it."""

    def add(self, job: str, gas: str, amount_m3: float) -> None:
        """Add gas of a job."""
        self.gas[gas][job] += amount_m3


def gas_of_log(log: WorkLog, shop: ShopBook) -> GasOfLog:
    """Gas that the logged work needs, by job.

    Parameters
    ----------
    log : WorkLog
        Rows of the days in question.
    shop : ShopBook
        Tips, factors, work rates and the gas lost that quotes are made with.

    Returns
    -------
    GasOfLog

    Notes
    -----
    A row without starts, tip or torch-lit minutes gets them from the model. Where the minutes were timed, the modelled
    gas of the row is scaled to them, and the doubt of the travel speed falls away. Lighting belongs to its job. The
    shop's own factors carry their own intervals, others the chart's band. Source: definition.
    """
    thin = [(entry, what) for entry in log.entries if entry.is_modelled for what in _missing(entry)]
    rates = work_rates(shop)
    log = _filled_in(log, shop, usual_mm=rates.logged_thickness_mm)
    work = modelled_log(log, shop)
    sums = _Sums()
    for entry in log.entries:
        sums.flame[entry.job] += 0.0
        sums.paid[entry.job] += entry.paid_time_min or 0.0
    for job in work.jobs:
        _add_job(sums, job, shop, row_scatter=rates.logged_row_share / 2.0)
    jobs = tuple(sums.flame)
    paid = np.array([sums.paid[job] for job in jobs])
    kits = [torch_kit(shop, fuel) for fuel in dict.fromkeys(job.fuel for job in work.jobs)]
    lent = [problem for kit in kits if kit.lent_by for problem in fuel_problems(kit, shop)]
    return GasOfLog(_expected(sums, jobs, shop), paid, (*lent, *_problems(work, thin)))


def _expected(sums: _Sums, jobs: tuple[str, ...], shop: ShopBook) -> ExpectedGas:
    work_m3 = {gas: sum(of_job.values()) for gas, of_job in sums.gas.items()}
    known = [gas for gas in work_m3 if work_m3[gas] > 0]
    shared = {gas: float(np.sqrt(sum(u * u for u in sums.shared[gas].values()))) / work_m3[gas] for gas in known}
    loss = {gas: sums.lost[gas] / work_m3[gas] for gas in known}
    return ExpectedGas(
        jobs=jobs,
        flame_time_min=np.array([sums.flame[job] for job in jobs]),
        by_gas={gas: np.array([sums.gas[gas][job] for job in jobs]) for gas in known},
        shared_doubt=shared,
        own_doubt_m3={gas: float(np.sqrt(sums.own_squares[gas])) for gas in known},
        loss_share=loss,
        loss_doubt={gas: loss[gas] * _lost_doubt(gas, shop) for gas in known},
    )


def _add_job(sums: _Sums, job: LoggedJob, shop: ShopBook, *, row_scatter: float) -> None:
    """Add a job; ``row_scatter`` is the standard deviation of one row about the model, rows being independent."""
    lines, settings = job.work.lines, job.work.settings
    timed = np.array([_or_nan(entry.flame_time_min) for entry in job.entries], dtype=np.float64)
    with np.errstate(invalid="ignore", divide="ignore"):
        scale = timed / lines.flame_time_min
    was_timed = np.isfinite(scale)
    scale = np.where(was_timed, scale, 1.0)
    amounts = {
        "oxygen": (lines.cutting_oxygen_m3 + lines.preheat_oxygen_m3) * scale,
        job.fuel: lines.fuel_m3 * scale,
    }
    sums.lost["oxygen"] += float((lines.lost_oxygen_m3 * scale).sum())
    sums.lost[job.fuel] += float((lines.lost_fuel_m3 * scale).sum())
    sums.flame[job.job] += float((lines.flame_time_min * scale).sum())
    untimed_pay = [entry.paid_time_min is None for entry in job.entries]
    sums.paid[job.job] += float(lines.paid_time_min[np.array(untimed_pay, dtype=np.bool_)].sum())
    for gas, of_line in amounts.items():
        sums.add(job.job, gas, float(of_line.sum()))
        sums.own_squares[gas] += float(((row_scatter * of_line) ** 2).sum())
        _add_shared(sums.shared[gas], gas, of_line, was_timed, lines.setting, settings, shop)
    for row in job.work.rows:
        sums.flame[job.job] += row.flame_time_min
        sums.add(job.job, "oxygen", row.preheat_oxygen_m3)
        sums.add(job.job, job.fuel, row.fuel_m3)
        sums.lost["oxygen"] += row.lost_oxygen_m3
        sums.lost[job.fuel] += row.lost_fuel_m3


def _add_shared(
    shared: dict[str, float],
    gas: str,
    of_line: Floats,
    was_timed: NDArray[np.bool_],
    setting: NDArray[np.int64],
    settings: Settings,
    shop: ShopBook,
) -> None:
    """Add each line's part of the errors that all lines of its tip share: flow, and speed where nothing was timed."""
    flow_low, flow_high = (
        (settings.oxygen_low, settings.oxygen_high) if gas == "oxygen" else (settings.fuel_low, settings.fuel_high)
    )
    what = OwnFactor.CUTTING_OXYGEN if gas == "oxygen" else OwnFactor.FUEL
    for line, at in enumerate(setting):
        if at < 0:
            continue
        tip, by = settings.tip[at], "machine" if settings.machine[at] else "hand"
        flow = _own_or_band(shop, what, tip, "", float(flow_low[at]), float(flow_high[at]))
        shared[f"{what}, tip {tip}"] += float(of_line[line]) * flow
        if not was_timed[line]:
            speed = _own_or_band(
                shop, OwnFactor.SPEED, tip, by, float(settings.speed_low[at]), float(settings.speed_high[at])
            )
            shared[f"speed, tip {tip}, by {by}"] += float(of_line[line]) * speed


def _own_or_band(shop: ShopBook, what: str, tip: str, by: str, low: float, high: float) -> float:
    """Return a standard deviation of the logarithm: of the shop's own factor, else of the chart's band."""
    for row in shop.factors:
        if row.what == what and row.tip in (tip, "") and row.by in (by, "") and row.low and row.high:
            return float(np.log(row.high / row.low)) * _SD_OF_80
    return float(np.log(high / low)) * _SD_OF_80 if low > 0 and high > low else 0.0


def _lost_doubt(gas: str, shop: ShopBook) -> float:
    """Return the standard uncertainty of the gas lost, as a share of it."""
    name = "gas_lost_oxygen" if gas == "oxygen" else "gas_lost_fuel"
    own = next((row for row in shop.work_rates if row.name == name and row.low and row.high), None)
    rate = own.model_dump() if own else built_in_work_rates()[name]
    low, high = (float(rate[end] or 0) / float(rate["likely"]) for end in ("low", "high"))
    if not 0 < low < high:
        built_in = built_in_work_rates()[name]
        low, high = (float(built_in[end]) / float(built_in["likely"]) for end in ("low", "high"))
    return float(np.log(high / low)) * _SD_OF_80


def _filled_in(log: WorkLog, shop: ShopBook, *, usual_mm: float) -> WorkLog:
    """Give a timed cut without a thickness the log's middle one, and heating without a tip the first that heats."""
    typed = [entry.thickness_mm for entry in log.entries if entry.thickness_mm is not None]
    usual_mm = float(np.median(typed)) if typed else usual_mm
    entries = []
    for entry in log.entries:
        given: dict[str, object] = {}
        if entry.operation == Work.CUT.word and entry.is_modelled:
            given |= {"thickness_mm": usual_mm} if entry.thickness_mm is None else {}
            given |= {"cut_length_m": 1.0} if entry.cut_length_m is None else {}  # its gas is scaled to the minutes
        elif entry.operation in _FLAME_WORK and not entry.tip:
            heats = entry.operation not in ("weld", "braze")
            fuel = entry.fuel or shop.shop.fuel
            tips = [tip.name for tip in shop.flame_tips if tip.fuel == fuel and tip.is_heating == heats]
            given |= {"tip": tips[0]} if tips else {}
        entries.append(entry.model_copy(update=given) if given else entry)
    return WorkLog(entries=tuple(entries), tags=log.tags)


def _problems(work: LoggedWork, thin: list[tuple[LogEntry, str]]) -> list[Problem]:
    problems: list[Problem] = []
    for out in work.left_out:
        if out.entry.operation != Work.OTHER.word and out.entry.is_modelled:
            problems.append(said.ROW_REFUSED.at(out.entry.place, found=out.why))
    if thin:
        first = thin[0][0].place
        missing = ", ".join(dict.fromkeys(what for _, what in thin))
        count = len({id(entry) for entry, _ in thin})
        problems.append(said.ROW_THIN.at(Place(first.file, first.sheet), count=count, missing=missing))
    return problems


def _missing(entry: LogEntry) -> list[str]:
    if entry.operation in _FLAME_WORK:
        return [] if entry.tip else ["heating tip"]
    if entry.operation != Work.CUT.word:
        return []
    missing = [] if entry.thickness_mm is not None else ["thickness"]
    if entry.flame_time_min is None:
        no_starts = entry.pierces is None and entry.edge_starts is None
        missing += ["torch-lit minutes", *(["starts"] if no_starts else [])]
    return missing


def _or_nan(value: float | None) -> float:
    return float("nan") if value is None else float(value)
