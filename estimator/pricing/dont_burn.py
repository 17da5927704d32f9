"""The lines of an estimate that a saw, a shear or a drill would do for less, at the shop's own rates."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.other_work import OtherWork, find_other_work, with_built_in
from estimator.pricing.burn_or_not import Cheaper, OtherWay, burn_or_not
from estimator.pricing.job import Estimate, estimate_job
from estimator.quantities.other_work import hole_volume_cm3
from estimator.quantities.sections import is_section
from estimator.words import BLANK, MadeFrom, MoreBy, Shape, Work

__all__ = ["dont_burn"]

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

_NEVER_SAWN = (Shape.RAIL, Shape.SHEET_PILE, Shape.BOLT_HEAD)
_STRAIGHT = (Shape.RECTANGLE, Shape.STRIP, Shape.RIGHT_TRIANGLE)


def dont_burn(estimate: Estimate) -> list[Cheaper]:
    """Find the lines that are cheaper sawn or sheared, and the burnt holes that are cheaper drilled.

    Parameters
    ----------
    estimate : Estimate
        A priced job.

    Returns
    -------
    list of Cheaper
        Largest saving first; for holes the units are holes, else pieces.

    Notes
    -----
    Whole lines are compared without their steel: the other way keeps the handling of the pieces and the minutes of work
    typed beside them, and takes its own minutes, cutter or blade. Only what the shop book's other-work sheet, or the
    built-in row, says it can take is offered: bars, sections and cross cuts of a flat for the saw, short straight cuts
    for the shear, round holes for the drill. A burnt hole's cost is the line's with its holes less the line's without.
    Source: definition.
    """
    known = with_built_in(estimate.shop.other_work)
    saw, shear, drill = (find_other_work(name, known) for name in ("saw", "shear", "drill hole"))
    ways = [way for way in (_saw(estimate, saw), _shear(estimate, shear)) if way is not None]
    q = estimate.cuts.quantity
    pieces = burn_or_not(
        units=q,
        torch_min_each=estimate.paid_time_min / q,
        torch_cost_each=np.where(_is_cut(estimate.cuts), _without_steel(estimate) / q, np.nan),
        ways=ways,
    )
    whole = {one.line for one in pieces}
    holes = [one for one in _holes(estimate, drill) if one.line not in whole]
    return sorted([*pieces, *holes], key=lambda one: -one.saving)


def _saw(estimate: Estimate, work: OtherWork | None) -> OtherWay | None:
    """Bars, sections, and pieces whose only burnt sides are the ends of a flat."""
    if work is None:
        return None
    cuts = estimate.cuts
    flat = np.isin(cuts.shape, (Shape.RECTANGLE, Shape.STRIP)) & (cuts.made_from == MadeFrom.FLAT)
    bar_end = cuts.shape == Shape.BAR_END
    section = is_section(cuts.shape) & ~np.isin(cuts.shape, _NEVER_SAWN)
    deep_mm = np.where(flat, cuts.size_b_mm, cuts.size_a_mm)
    across_mm = np.where(section, cuts.cut_length_mm, deep_mm)
    area_cm2 = across_mm * cuts.thickness_mm / 100.0
    possible = _is_cut(cuts) & (flat | bar_end | section) & _within(work, cuts.thickness_mm, deep_mm)
    return _way(estimate, work, possible, size=area_cm2 if work.more_by_code is MoreBy.CM2_OF_SECTION else None)


def _shear(estimate: Estimate, work: OtherWork | None) -> OtherWay | None:
    """Straight-sided plate with short sides and no holes; every burnt side is one stroke."""
    if work is None:
        return None
    cuts, metres = estimate.cuts, estimate.job.lines.metres
    longest_mm = np.fmax(cuts.size_a_mm, cuts.size_b_mm)
    whole = np.isnan(cuts.holes) | (cuts.holes == 0)
    possible = _is_cut(cuts) & np.isin(cuts.shape, _STRAIGHT) & whole & _within(work, cuts.thickness_mm, longest_mm)
    possible &= np.nan_to_num(cuts.bevel_deg) == 0
    strokes = metres.set_starts_each + metres.once_starts / cuts.quantity
    strokes = np.where(strokes > 0, strokes, np.maximum(metres.edge_starts_each, metres.runs_each))
    return _way(estimate, work, possible, strokes=strokes)


def _holes(estimate: Estimate, work: OtherWork | None) -> list[Cheaper]:
    """Burnt round holes, each beside a drilled one."""
    cuts = estimate.cuts
    if work is None:
        return []
    burnt = (np.nan_to_num(cuts.holes) > 0) & (estimate.job.lines.metres.drilled_holes_each == 0) & _is_cut(cuts)
    lines = np.flatnonzero(burnt & _within(work, cuts.thickness_mm, cuts.hole_diameter_mm))
    if not lines.size:
        return []
    with_holes = cuts.take(lines)
    without = replace(with_holes, holes=np.zeros(len(lines)))
    one, other = (estimate_job(some, estimate.shop, estimate.order) for some in (with_holes, without))
    units = with_holes.quantity * with_holes.holes
    per_hour = _per_hour(estimate)[lines]
    size = hole_volume_cm3(with_holes.hole_diameter_mm, with_holes.thickness_mm)
    way = OtherWay(
        work.name,
        _paid(
            estimate, work, work.minutes + (work.more_min * size if work.more_by_code is MoreBy.CM3_REMOVED else 0.0)
        ),
        per_hour,
        np.full(len(lines), _used_up(work)),
        np.ones(len(lines), dtype=np.bool_),
    )
    found = burn_or_not(
        units=units,
        torch_min_each=(one.paid_time_min - other.paid_time_min) / units,
        torch_cost_each=(_without_steel(one) - _without_steel(other)) / units,
        ways=[way],
    )
    return [replace(hole, line=int(lines[hole.line])) for hole in found]


def _way(
    estimate: Estimate,
    work: OtherWork,
    possible: Flags,
    *,
    size: Floats | None = None,
    strokes: Floats | float = 1.0,
) -> OtherWay:
    lines, rest = estimate.job.lines, 1.0 + estimate.work.rest_allowance
    each = (work.minutes + work.more_min * (0.0 if size is None else np.nan_to_num(size))) * strokes
    on_pieces = lines.other_work_min * np.where(lines.other_work_rested, rest, 1.0)
    kept = ((lines.handling_min + lines.helper_min) * rest + on_pieces) / estimate.cuts.quantity
    minutes = np.broadcast_to(_paid(estimate, work, each) + kept, possible.shape)
    used_up = np.broadcast_to(np.asarray(_used_up(work) * strokes), possible.shape)
    return OtherWay(work.name, minutes, _per_hour(estimate), used_up, possible)


def _paid(estimate: Estimate, work: OtherWork, minutes: Floats | float) -> Floats:
    rest = 1.0 + (estimate.work.rest_allowance if work.rest_allowed else 0.0)
    return np.asarray(minutes, dtype=np.float64) * rest * work.people


def _per_hour(estimate: Estimate) -> Floats:
    """What a paid hour of each line costs with its overhead."""
    form = estimate.shop.shop
    add_on = estimate.rates.add_on.get("labour", 0.0)
    return estimate.costs.labour_per_hour * (1.0 + add_on + form.overhead_share) + form.overhead_per_hour


def _without_steel(estimate: Estimate) -> Floats:
    """Cost of each line without its steel and what is added on it."""
    on_steel = 1.0 + estimate.rates.add_on.get("steel", 0.0) + estimate.shop.shop.overhead_share
    return estimate.costs.cost - estimate.costs.steel * on_steel


def _used_up(work: OtherWork) -> float:
    known = work.consumable_price is not None and work.consumable_life
    return work.consumable_price / work.consumable_life if known else 0.0  # type: ignore[operator]


def _is_cut(cuts: CutList) -> Flags:
    return np.isin(cuts.work, (Work.CUT, BLANK))


def _within(work: OtherWork, thickness_mm: Floats, size_mm: Floats) -> Flags:
    most_t, most_size = work.to_thickness_mm or np.inf, work.to_size_mm or np.inf
    with np.errstate(invalid="ignore"):
        return np.asarray((thickness_mm <= most_t) & (size_mm <= most_size))
