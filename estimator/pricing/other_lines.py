"""Other work on the lines of a list: rows of the shop book, or built-in ones, as minutes, gas and consumables."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.other_work import OtherWork, find_other_work, with_built_in
from estimator.check.work_rates import WorkRates
from estimator.quantities.lines import mass_each_kg
from estimator.quantities.other_work import (
    OtherMinutes,
    hole_volume_cm3,
    minutes_per_unit,
    no_other_work,
    units_of_work,
)
from estimator.words import BLANK, MoreBy, Work

__all__ = ["OtherLines", "other_lines"]

Floats = NDArray[np.float64]


@dataclass(slots=True)
class OtherLines:
    """Other work of n lines: shape (n,) each, for one piece."""

    minutes: OtherMinutes
    consumables_each: Floats
    """Consumables of one piece [money]; those of drilled holes among them."""
    labour_rate: list[str]
    """Rate that the work's own row names; empty for the line's."""
    unknown: NDArray[np.bool_]
    """Lines whose work nobody has timed."""
    known: list[str]
    """Names that a line may use."""


def other_lines(
    cuts: CutList, typed: Sequence[OtherWork], rates: WorkRates, *, drilled_each: Floats, fuel_density_kg_m3: float
) -> OtherLines:
    """Return the other work of every line.

    Parameters
    ----------
    cuts : CutList
        n lines.
    typed : sequence of OtherWork
        Rows of the shop book; the built-in rows stand behind them.
    rates : WorkRates
        The shop's work rates.
    drilled_each : ndarray of float, shape (n,)
        Holes of a piece that are drilled instead of burnt.
    fuel_density_kg_m3 : float
        Density of the fuel at 15 °C, 101.325 kPa [kg/m³].

    Returns
    -------
    OtherLines
        Zeros for lines without other work. Minutes typed in the line win over the row's. A line that is cut or heated
        takes its typed minutes besides: hand work on each piece.
    """
    known = with_built_in(typed)
    n = len(cuts)
    out = OtherLines(
        no_other_work(n),
        np.zeros(n),
        [""] * n,
        np.zeros(n, dtype=np.bool_),
        [work.name for work in known],
    )
    named = np.array([bool(name) for name in cuts.other_work], dtype=np.bool_)
    besides = named & np.isin(cuts.work, (Work.CUT, BLANK))
    lines = np.flatnonzero((cuts.work == Work.OTHER) | besides | ~np.isnan(cuts.minutes_each))
    mass = mass_each_kg(cuts, rates.steel_density_kg_m3) if len(lines) else np.empty(0)
    for line in lines:
        _fill(out, int(line), cuts, find_other_work(cuts.other_work[line], known), mass, fuel_density_kg_m3)
    drill = find_other_work("drill hole", known)
    if drill is not None:
        out.consumables_each += drilled_each * _consumable_price(drill)
    return out


def _fill(
    out: OtherLines, line: int, cuts: CutList, work: OtherWork | None, mass: Floats, fuel_density_kg_m3: float
) -> None:
    typed = cuts.minutes_each[line]
    if work is None:
        out.unknown[line] = bool(np.isnan(typed))
        out.minutes.minutes_each[line] = np.nan_to_num(typed)
        return
    length = np.nansum([cuts.cut_length_mm[line]]) or np.nan
    units = units_of_work(
        work.per_code, quantity=1.0, holes=cuts.holes[line], length_mm=length, mass_kg=mass[line]
    ).units
    size = _size(work.more_by_code, line, cuts, mass)
    each = minutes_per_unit(work.minutes, more_min=work.more_min, size=size)
    minutes = out.minutes
    minutes.minutes_each[line] = float(units * each) * work.people if np.isnan(typed) else typed
    minutes.rested[line] = work.rest_allowed
    minutes.oxygen_m3_each[line] = float(units) * work.oxygen_m3
    minutes.fuel_m3_each[line] = float(units) * work.fuel_kg / fuel_density_kg_m3
    out.consumables_each[line] = float(units) * _consumable_price(work)
    out.labour_rate[line] = work.labour_rate


def _size(more_by: MoreBy, line: int, cuts: CutList, mass: Floats) -> float:
    """Return the size that a line's other work grows with; zero where the list does not give it."""
    if more_by is MoreBy.CM3_REMOVED:
        sizes = cuts.hole_diameter_mm[line], cuts.thickness_mm[line]
        return float(hole_volume_cm3(*sizes)) if np.all(np.isfinite(sizes)) else 0.0
    by = {
        MoreBy.CM2_OF_SECTION: cuts.section_area_cm2,
        MoreBy.KG: mass,
        MoreBy.MM_OF_THICKNESS: cuts.thickness_mm,
    }
    return float(np.nan_to_num(by[more_by][line])) if more_by in by else 0.0


def _consumable_price(work: OtherWork) -> float:
    """Return the consumables of one unit; zero where price or life is not known."""
    return work.consumable_price / work.consumable_life if work.consumable_price and work.consumable_life else 0.0
