"""What a job asks of the rack, step by step: the lines of one list or several, and the lightings before them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.pricing.job import Estimate
from estimator.quantities.draw import is_continuous
from estimator.quantities.job_rows import JobRow
from estimator.words import BLANK, Work

__all__ = ["Step", "Steps", "rack_steps"]

Floats = NDArray[np.float64]
_LIGHT = "light and set"


@dataclass(frozen=True, slots=True)
class Step:
    """One line, or the lightings of one tip, as the rack sees it; gas at 15 °C and 101.325 kPa."""

    file: str
    row: int
    """Row of the list as the spreadsheet numbers it; 0 for a lighting."""
    mark: str
    what: str
    tip: str
    """Empty for work without a torch."""
    is_heating: bool
    """Whether the tip is a large heating tip by the shop book."""
    oxygen_m3: float
    fuel_m3: float
    draw_m3_h: float
    """Fuel draw of all torches together."""
    oxygen_draw_m3_h: float
    is_continuous: bool
    paid_min: float
    date: dt.date | None
    list_number: int
    setting: int

    @property
    def name(self) -> str:
        """The step as people point to it."""
        if not self.row:
            return f"lighting tip {self.tip}" if self.what == _LIGHT else f"{self.what.lower()}, tip {self.tip}"
        return f"row {self.row} ({self.mark})" if self.mark else f"row {self.row}"


@dataclass(frozen=True, slots=True)
class Steps:
    """Every step in the order in which it is done."""

    each: tuple[Step, ...]
    by_tip: bool
    torches: int

    def __len__(self) -> int:
        return len(self.each)

    def use_m3(self, gas: str) -> Floats:
        """Return the gas of every step; ``oxygen``, else the fuel [m³]."""
        return np.array([s.oxygen_m3 if gas == "oxygen" else s.fuel_m3 for s in self.each], dtype=np.float64)

    @property
    def draw_m3_h(self) -> Floats:
        """Fuel draw of every step [m³/h]."""
        return np.array([s.draw_m3_h for s in self.each], dtype=np.float64)

    @property
    def is_heating(self) -> NDArray[np.bool_]:
        """Whether a large heating tip draws."""
        return np.array([s.is_heating for s in self.each], dtype=np.bool_)

    @property
    def paid_min(self) -> Floats:
        """Paid time of every step [min]."""
        return np.array([s.paid_min for s in self.each], dtype=np.float64)


def rack_steps(estimates: Sequence[Estimate], *, torches: int = 1, by_tip: bool = False) -> Steps:
    """Return the steps of one or several estimates, in the order of their dates and lists.

    Parameters
    ----------
    estimates : sequence of Estimate
        Priced jobs that share the rack.
    torches : int
        Torches at work on the rack at once, each drawing as the line's does; a line's own torches count besides.
    by_tip : bool
        Whether each list is worked tip by tip, thinnest first, to save changes, instead of in its own order.

    Returns
    -------
    Steps
        Lightings, and guides set with the flame lit, stand before the first line of their tip; the gas of all steps is
        that of the estimates.
    """
    dated = sorted(estimates, key=lambda one: one.date or dt.date.max)
    steps = [step for number, one in enumerate(dated) for step in _of_list(one, number, torches, by_tip=by_tip)]
    return Steps(tuple(steps), by_tip, torches)


def _of_list(estimate: Estimate, number: int, torches: int, *, by_tip: bool) -> Iterator[Step]:
    lines, settings = estimate.job.lines, estimate.job.settings
    oxygen_m3, fuel_m3 = lines.drawn_oxygen_m3, lines.drawn_fuel_m3
    waiting: dict[str, list[JobRow]] = {}
    for row in estimate.job.rows:
        if row.setting >= 0 and row.fuel_m3 > 0:
            waiting.setdefault(settings.tip[row.setting], []).append(row)
    for line in _order(estimate, by_tip=by_tip):
        for setting in (int(lines.setting[line]), int(lines.bevel_setting[line])):
            tip = settings.tip[setting] if setting >= 0 else ""
            for row in waiting.pop(tip, []):
                yield _flame_of_row(estimate, row, number, torches)
        gas_m3 = float(oxygen_m3[line]), float(fuel_m3[line])
        yield _line(estimate, int(line), gas_m3, number, torches)


def _order(estimate: Estimate, *, by_tip: bool) -> Sequence[int]:
    lines, settings = estimate.job.lines, estimate.job.settings
    every = range(len(estimate.cuts))
    if not by_tip:
        return every
    place = {tip: i for i, tip in enumerate(dict.fromkeys(settings.tip))}
    last = len(place)
    return sorted(every, key=lambda i: place[settings.tip[lines.setting[i]]] if lines.setting[i] >= 0 else last)


def _line(estimate: Estimate, line: int, gas_m3: tuple[float, float], number: int, torches: int) -> Step:
    cuts, lines, settings = estimate.cuts, estimate.job.lines, estimate.job.settings
    on = [s for s in (int(lines.setting[line]), int(lines.bevel_setting[line])) if s >= 0]
    at_once = torches * float(np.nan_to_num(cuts.torches[line], nan=1.0))
    tip = settings.tip[on[0]] if on else ""
    flow = settings.cutting_flow_m3_h + settings.preheat_flow_m3_h
    work = int(cuts.work[line])
    return Step(
        file=cuts.file,
        row=int(cuts.row[line]),
        mark=cuts.mark[line] or cuts.description[line],
        what=cuts.other_work[line] if work == Work.OTHER else Work(work if work != BLANK else Work.CUT).word,
        tip=tip,
        is_heating=_is_heating(estimate, tip),
        oxygen_m3=gas_m3[0],
        fuel_m3=gas_m3[1],
        draw_m3_h=max((float(settings.fuel_flow_m3_h[s]) for s in on), default=0.0) * at_once,
        oxygen_draw_m3_h=max((float(flow[s]) for s in on), default=0.0) * at_once,
        is_continuous=_continuous(estimate, line),
        paid_min=float(estimate.paid_time_min[line]),
        date=estimate.date,
        list_number=number,
        setting=on[0] if on else -1,
    )


def _flame_of_row(estimate: Estimate, row: JobRow, number: int, torches: int) -> Step:
    settings = estimate.job.settings
    tip = settings.tip[row.setting]
    return Step(
        file=estimate.cuts.file,
        row=0,
        mark=row.what,
        what=_LIGHT if row.key.startswith("lighting ") else row.what,
        tip=tip,
        is_heating=_is_heating(estimate, tip),
        oxygen_m3=row.drawn_oxygen_m3,
        fuel_m3=row.drawn_fuel_m3,
        draw_m3_h=float(settings.fuel_flow_m3_h[row.setting]) * torches,
        oxygen_draw_m3_h=float(settings.preheat_flow_m3_h[row.setting]) * torches,
        is_continuous=False,
        paid_min=row.paid_time_min,
        date=estimate.date,
        list_number=number,
        setting=row.setting,
    )


def _is_heating(estimate: Estimate, tip: str) -> bool:
    return any(row.name == tip and row.is_heating for row in estimate.shop.flame_tips)


def _continuous(estimate: Estimate, line: int) -> bool:
    """Flames piece after piece: lit as long as one piece takes, with the rest of its paid time as the break."""
    lit = float(estimate.job.lines.flame_time_min[line])
    pieces = float(estimate.cuts.quantity[line])
    if lit <= 0 or pieces <= 0:
        return False
    off = max(float(estimate.paid_time_min[line]) - lit, 0.0)
    return bool(is_continuous(lit / pieces, off / pieces, max(pieces, 1.0)))
