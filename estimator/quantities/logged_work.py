"""The work log as the model of a cut sees it: each logged row a line, each logged job with its own set-up.

Thin rows are filled in as an estimate fills in a thin list; what cannot be modelled is left out, and said why.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from estimator.check.cut_list import CutList
from estimator.check.torch_kit import TorchKit
from estimator.check.work_log import LogEntry, WorkLog
from estimator.check.work_rates import WorkRates
from estimator.quantities.job import JobQuantities, choose_settings, job_quantities
from estimator.quantities.lines import burnt_metres
from estimator.quantities.other_work import no_other_work
from estimator.words import BLANK, Method, Work

__all__ = ["LeftOut", "LogRules", "LoggedJob", "LoggedWork", "model_log"]


@dataclass(frozen=True, slots=True)
class LogRules:
    """How the shop works where the log does not say."""

    fuel: str
    """The shop's usual fuel."""
    keep_tip_in: bool
    outlines_pierced: bool
    net_heating_value_mj_m3: Mapping[str, float]
    """By fuel; a fuel without one is given as NaN."""


@dataclass(frozen=True, slots=True)
class LoggedJob:
    """The modelled rows of one job and fuel."""

    job: str
    fuel: str
    entries: tuple[LogEntry, ...]
    """In the order of the lines."""
    work: JobQuantities


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A row of the log that the model cannot follow."""

    entry: LogEntry
    why: str


@dataclass(frozen=True, slots=True)
class LoggedWork:
    """What the model makes of a log."""

    jobs: tuple[LoggedJob, ...]
    left_out: tuple[LeftOut, ...]


def model_log(log: WorkLog, kits: Mapping[str, TorchKit], rates: WorkRates, rules: LogRules) -> LoggedWork:
    """Return times and gas of the logged work as an estimate would have them.

    Parameters
    ----------
    log : WorkLog
        Checked log.
    kits : mapping of str to TorchKit
        Tips, charts and factors by fuel.
    rates : WorkRates
        The shop's work rates.
    rules : LogRules
        How the shop works where the log does not say.

    Returns
    -------
    LoggedWork
        Jobs in the order in which they first appear; rows left out with the reason.

    Notes
    -----
    A row is one line: its length is that of all its pieces, its starts are spread over them. Rows of one job share one
    set-up. Source: definition.
    """
    groups: dict[tuple[str, str], list[LogEntry]] = {}
    left_out = []
    for entry in log.entries:
        fuel = entry.fuel or rules.fuel
        why = _why_not(entry, fuel, kits)
        if why:
            left_out.append(LeftOut(entry, why))
        else:
            groups.setdefault((entry.job, fuel), []).append(entry)
    jobs = []
    for (job, fuel), entries in groups.items():
        modelled, without_tip = _model_job(job, fuel, entries, kits[fuel], rates, rules)
        left_out += without_tip
        if modelled is not None:
            jobs.append(modelled)
    return LoggedWork(tuple(jobs), tuple(left_out))


def _why_not(entry: LogEntry, fuel: str, kits: Mapping[str, TorchKit]) -> str:
    """Say why a row cannot be modelled; empty when it can."""
    if fuel not in kits:
        return f"no tip on hand burns {fuel}"
    if entry.operation == Work.OTHER.word:
        return "work without a torch"
    if entry.operation == Work.CUT.word and (entry.thickness_mm is None or entry.cut_length_m is None):
        return "no thickness or no length"
    if entry.operation != Work.CUT.word and entry.flame_time_min is None:
        return "no torch-lit minutes"
    return ""


def _model_job(
    job: str, fuel: str, entries: list[LogEntry], kit: TorchKit, rates: WorkRates, rules: LogRules
) -> tuple[LoggedJob | None, list[LeftOut]]:
    """Model the rows of one job, those that no tip covers left out."""
    cuts = _as_lines(entries)
    chosen = choose_settings(cuts, kit, rates, keep_tip_in=rules.keep_tip_in)
    bad = (chosen.setting < 0) | chosen.no_chart
    left_out = [LeftOut(entries[int(i)], "no tip on hand covers it") for i in np.flatnonzero(bad)]
    if bad.all():
        return None, left_out
    if bad.any():
        good = np.flatnonzero(~bad)
        entries, cuts = [entries[int(i)] for i in good], cuts.take(good)
        chosen = choose_settings(cuts, kit, rates, keep_tip_in=rules.keep_tip_in)
    work = job_quantities(
        cuts,
        kit,
        rates,
        chosen=chosen,
        metres=burnt_metres(cuts, rates, outlines_pierced=rules.outlines_pierced),
        other=no_other_work(len(cuts)),
        net_heating_value_mj_m3=rules.net_heating_value_mj_m3.get(fuel, float("nan")),
    )
    return LoggedJob(job, fuel, tuple(entries), work), left_out


def _as_lines(entries: list[LogEntry]) -> CutList:
    """Return log rows as lines of a cut list."""
    pieces = np.array([float(entry.pieces or 1) for entry in entries])

    def column(name: str, per: float = 1.0) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
        values = [getattr(entry, name) for entry in entries]
        return np.array([np.nan if value is None else value * per for value in values], dtype=np.float64)

    works, methods = ({w.word: w.value for w in Work}, {m.word: m.value for m in Method})
    return CutList(
        mark=[entry.mark for entry in entries],
        quantity=pieces,
        thickness_mm=column("thickness_mm"),
        work=np.array([works[entry.operation] for entry in entries], dtype=np.int8),
        method=np.array([methods.get(entry.method, BLANK) for entry in entries], dtype=np.int8),
        total_cut_length_mm=column("cut_length_m", 1000.0),
        pierces=column("pierces") / pieces,
        edge_starts=column("edge_starts") / pieces,
        flame_min_each=column("flame_time_min") / pieces,
        tip=[entry.tip for entry in entries],
    )
