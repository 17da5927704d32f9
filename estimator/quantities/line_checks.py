"""Checks of whole lines against the torch kit: what cannot be cut, timed or burnt as the list says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.torch_kit import TorchKit
from estimator.check.work_rates import WorkRates
from estimator.problems import Place, Problem, ProblemCode
from estimator.problems import lines as say
from estimator.quantities.job import ChosenSettings, JobQuantities
from estimator.quantities.orifice import orifice_oxygen_flow_m3_h
from estimator.quantities.oxidation import kerf_iron_kg, oxygen_need_m3_per_kg, supplied_over_needed
from estimator.shown_units import METRIC, ShownUnits
from estimator.words import BLANK, Shape, Work

__all__ = ["BadLines", "line_place", "physical_warnings", "setting_problems", "shape_problems"]

Flags = NDArray[np.bool_]


@dataclass(slots=True)
class BadLines:
    """Problems of lines and which lines they stop."""

    problems: list[Problem]
    bad: Flags


def line_place(cuts: CutList, line: int, column: str = "") -> Place:
    """Return the place of a line; the column's letters are known for values that were read from a cell."""
    letters = ""
    if column:
        letters = next((r.cell.rstrip("0123456789") for r in cuts.read_as if r.line == line and r.column == column), "")
    return Place(cuts.file, cuts.sheet[line], int(cuts.row[line]), letters or cuts.column_letters.get(column, ""))


def shape_problems(cuts: CutList) -> BadLines:
    """Return what is wrong with the lines themselves: nothing to cut, no thickness, no minutes.

    Parameters
    ----------
    cuts : CutList
        n lines.

    Returns
    -------
    BadLines
        Problems, sorted by line, and the lines they stop.
    """
    cutting = np.isin(cuts.work, (Work.CUT, BLANK))
    flame = ~cutting & (cuts.work != Work.OTHER)
    has_length = ~np.isnan(cuts.cut_length_mm) | ~np.isnan(cuts.total_cut_length_mm)
    sized = _has_sizes(cuts)
    only_bevel = ~np.isnan(cuts.bevel_length_mm) & (np.nan_to_num(cuts.bevel_deg) > 0)
    only_holes = (np.nan_to_num(cuts.holes) > 0) & ~np.isnan(cuts.hole_diameter_mm)
    ring = (cuts.shape == Shape.RING) & (cuts.size_b_mm >= cuts.size_a_mm)
    timed = ~np.isnan(cuts.flame_min_each) | (np.nan_to_num(cuts.heated_kg_each) > 0)
    checks: list[tuple[Flags, ProblemCode, str]] = [
        (cutting & np.isnan(cuts.thickness_mm), say.NO_THICKNESS, "thickness_mm"),
        (cutting & ~has_length & ~sized & ~only_bevel & ~only_holes, say.NO_LENGTH, "cut_length_mm"),
        (flame & ~timed, say.NO_MINUTES, "flame_min_each"),
        (cutting & ring, say.TOO_BIG, "size_b_mm"),
    ]
    found: list[Problem] = []
    bad = np.zeros(len(cuts), dtype=np.bool_)
    for where, code, column in checks:
        bad |= where
        do = {"do": _NO_LENGTH_DO} if code is say.NO_LENGTH else {}
        found += [code.at(line_place(cuts, int(i), column), **do) for i in np.flatnonzero(where)]
    return BadLines(found, bad)


_NO_LENGTH_DO = "type the length of the cut under Cut length, or a shape under Shape and its sizes under Size A and B"


def setting_problems(cuts: CutList, chosen: ChosenSettings, kit: TorchKit, units: ShownUnits = METRIC) -> BadLines:
    """Return the lines for which the torch kit has no tip, no chart or no such tip.

    Parameters
    ----------
    cuts : CutList
        n lines.
    chosen : ChosenSettings
        Their settings.
    kit : TorchKit
        Tips on hand.
    units : ShownUnits
        Units in which the shop is told.

    Returns
    -------
    BadLines
        Problems and the lines they stop.
    """
    found: list[Problem] = []
    covered = ", ".join(_span(a, b, units) for a, b in zip(kit.tips.from_mm, kit.tips.to_mm, strict=True)) or "none"
    for line in np.flatnonzero(chosen.unknown_tip):
        found.append(_unknown_tip(cuts, int(line), kit))
    for line in np.flatnonzero(chosen.no_tip & ~chosen.unknown_tip):
        along = chosen.thickness_along_cut_mm[line]
        shown = along if not np.isnan(along) else chosen.bevel_along_cut_mm[line]
        found.append(
            say.NO_TIP.at(
                line_place(cuts, int(line), "thickness_mm"),
                found=f"{units.words(shown, 'mm')} along the cut",
                covered=covered,
            )
        )
    for line in np.flatnonzero(chosen.no_chart):
        tip = chosen.settings.tip[int(chosen.setting[line])]
        chart = kit.charts[kit.tips.name.index(tip)] if tip in kit.tips.name else None
        found.append(
            say.OFF_CHART.at(
                line_place(cuts, int(line), "thickness_mm"),
                found=f"{units.words(chosen.thickness_along_cut_mm[line], 'mm')} along the cut",
                tip=tip,
                covered=_chart_covers(chart, units),
            )
        )
    return BadLines(found, chosen.no_tip | chosen.no_chart | chosen.unknown_tip)


def physical_warnings(
    cuts: CutList, job: JobQuantities, kit: TorchKit, rates: WorkRates, units: ShownUnits = METRIC
) -> list[Problem]:
    """Return what does not hold physically, line by line, and what the list's own figures contradict.

    Parameters
    ----------
    cuts : CutList
        n lines.
    job : JobQuantities
        Their physics.
    kit : TorchKit
        Tips on hand.
    rates : WorkRates
        The shop's work rates.
    units : ShownUnits
        Units in which the shop is told.

    Returns
    -------
    list of Problem
        Warnings and notes.
    """
    return [
        *_length_warnings(cuts, job, rates, units),
        *_oxygen_warnings(cuts, job, rates, kit.oxygen_density_kg_m3),
        *_flow_warnings(cuts, job, kit, rates, units),
        *_drill_notes(cuts, job, rates, units),
    ]


def _unknown_tip(cuts: CutList, line: int, kit: TorchKit) -> Problem:
    """Say which tip a line lacks: a line of flame work takes a heating tip, any other a cutting tip."""
    cutting = bool(np.isin(cuts.work[line], (Work.CUT, BLANK)))
    if not cutting and not kit.flame_tips:
        return say.NO_HEATING_TIP.at(line_place(cuts, line, "minutes_each"), found=cuts.tip[line], fuel=kit.fuel)
    known = ", ".join(kit.tips.name if cutting else (tip.name for tip in kit.flame_tips)) or "none"
    return say.UNKNOWN_TIP.at(line_place(cuts, line, "tip"), found=cuts.tip[line], fuel=kit.fuel, known=known)


def _has_sizes(cuts: CutList) -> Flags:
    a, b = ~np.isnan(cuts.size_a_mm), ~np.isnan(cuts.size_b_mm)
    two = np.isin(cuts.shape, (Shape.RECTANGLE, Shape.STRIP, Shape.RIGHT_TRIANGLE, Shape.RING))
    return np.asarray(np.where(two, a & b, np.where(cuts.shape == BLANK, False, a)))


def _chart_covers(chart: object, units: ShownUnits) -> str:
    curve = getattr(chart, "fuel_m3_h", None)
    if curve is None or not len(curve.thickness_mm):
        return "no rows for this fuel"
    return _span(curve.thickness_mm[0], curve.thickness_mm[-1], units)


def _span(low_mm: float, high_mm: float, units: ShownUnits) -> str:
    return f"{units.number(low_mm, 'mm'):.4g} to {units.words(high_mm, 'mm')}"


def _length_warnings(cuts: CutList, job: JobQuantities, rates: WorkRates, units: ShownUnits) -> Iterator[Problem]:
    ratio = job.lines.metres.given_over_worked
    differs = (np.abs(ratio - 1.0) > rates.length_differs_share) & ~cuts.shape_in_words
    for line in np.flatnonzero(differs):
        given = cuts.cut_length_mm[line]
        given = given if not np.isnan(given) else cuts.total_cut_length_mm[line] / cuts.quantity[line]
        yield say.LENGTH_DIFFERS.at(
            line_place(cuts, int(line), "cut_length_mm"),
            found=units.words(given, "mm", ".6g"),
            worked=units.words(given / ratio[line], "mm", ".6g"),
            given=units.words(given, "mm", ".6g"),
            difference=f"{abs(ratio[line] - 1) * 100:.1f}",
        )


def _oxygen_warnings(cuts: CutList, job: JobQuantities, rates: WorkRates, density: float) -> Iterator[Problem]:
    lines, settings = job.lines, job.settings
    cut = (lines.setting >= 0) & (lines.cut_time_min > 0)
    index = np.maximum(lines.setting, 0)
    if not cut.any():
        return
    # Per metre at the setting's own steady speed: whether chart, tip and speed belong together.
    speed = settings.speed_mm_min[index] * lines.surface_speed
    supplied = np.where(cut, settings.cutting_flow_m3_h[index] / 60.0 * 1000.0 / np.where(speed > 0, speed, 1.0), 0.0)
    iron = kerf_iron_kg(
        np.fmax(settings.kerf_mm[index], rates.kerf_per_bore * settings.bore_mm[index])[cut],
        settings.thickness_mm[index][cut],
        1000.0,
        density_kg_m3=rates.steel_density_kg_m3,
    )
    need = oxygen_need_m3_per_kg("FeO", density_kg_m3=density)
    ratio = supplied_over_needed(supplied[cut], iron, share_oxidised=rates.iron_oxidised_share, oxygen_m3_per_kg=need)
    lines_cut, outside = np.flatnonzero(cut), (ratio < rates.oxygen_supplied_low) | (ratio > rates.oxygen_supplied_high)
    if not outside.any():
        return
    failing, first = np.unique(lines.setting[lines_cut[outside]], return_index=True)
    # One warning for a tip and thickness, at the first line that has it.
    for setting, where in zip(failing, np.flatnonzero(outside)[first], strict=True):
        line = int(lines_cut[where])
        yield say.OXYGEN_BALANCE.at(
            line_place(cuts, line, "thickness_mm"),
            found=f"{ratio[where]:.2f}",
            ratio=f"{ratio[where]:.2f}",
            low=f"{rates.oxygen_supplied_low:g}",
            high=f"{rates.oxygen_supplied_high:g}",
            tip=settings.tip[int(setting)],
        )


def _flow_warnings(
    cuts: CutList, job: JobQuantities, kit: TorchKit, rates: WorkRates, units: ShownUnits
) -> Iterator[Problem]:
    settings = job.settings
    cutting = ~settings.is_flame
    if not cutting.any():
        return
    choked = orifice_oxygen_flow_m3_h(
        settings.bore_mm[cutting],
        settings.oxygen_pressure_bar[cutting],
        density_kg_m3=kit.oxygen_density_kg_m3,
        discharge_coefficient=rates.orifice_coefficient,
    )
    given = settings.cutting_oxygen_m3_h[cutting]
    for setting in np.flatnonzero(np.abs(given / choked - 1.0) > rates.flow_differs_share):
        line = int(np.flatnonzero(job.lines.setting == setting)[0]) if (job.lines.setting == setting).any() else 0
        yield say.FLOW_AGAINST_BORE.at(
            line_place(cuts, line, "tip"),
            found=units.words(given[setting], "m³/h", ".3g"),
            choked=units.words(choked[setting], "m³/h", ".3g"),
            within=f"{rates.flow_differs_share * 100:g} %",
            given=units.words(given[setting], "m³/h", ".3g"),
            tip=settings.tip[int(setting)],
        )


def _burn_them(cuts: CutList, line: int) -> str:
    """Name the cell in which the list says to burn small holes, or the column that it lacks."""
    if "burn_holes" in cuts.column_letters:
        return f"type yes under Burn small holes, {line_place(cuts, line, 'burn_holes').cell}, to burn them"
    return "to burn them, add a column headed Burn small holes and type yes in their rows"


def _drill_notes(cuts: CutList, job: JobQuantities, rates: WorkRates, units: ShownUnits) -> Iterator[Problem]:
    metres = job.lines.metres
    drilled = metres.drilled_holes_each * cuts.quantity
    many = drilled.sum() > 1
    of_job = {
        "holes": f"{drilled.sum():g} small hole{'s' if many else ''}",
        "are": "are" if many else "is",
        "minutes": f"{job.lines.drilling_min[drilled > 0].sum():.0f}",
    }
    for line in np.flatnonzero(drilled > 0):
        limit = max(rates.small_hole_mm, rates.small_hole_ratio * float(cuts.thickness_mm[line]))
        yield say.HOLE_DRILLED.at(
            line_place(cuts, int(line), "hole_diameter_mm"),
            found=f"{cuts.holes[line]:g} of {units.words(cuts.hole_diameter_mm[line], 'mm')}",
            limit=units.words(limit, "mm"),
            do=_burn_them(cuts, int(line)),
            **of_job,
        )
    for line in np.flatnonzero(metres.start_holes_each > 0):
        yield say.START_DRILLED.at(
            line_place(cuts, int(line), "thickness_mm"),
            found=units.words(cuts.thickness_mm[line], "mm"),
            limit=units.words(rates.hand_pierce_limit_mm, "mm"),
        )
