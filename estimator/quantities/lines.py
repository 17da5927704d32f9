"""The model of a cut, line by line: from checked lines and torch settings to metres, minutes, gas and mass.

Every function works on whole columns. Nothing here rounds, prices or looks anything up.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.work_rates import WorkRates
from estimator.quantities.pieces import Outline, circle_length_mm, go_mm, outline_area_mm2, plate_outline, restarts
from estimator.quantities.sections import is_section
from estimator.words import BLANK, EdgeFinish, MadeFrom, Method, Shape, Surface, Work

__all__ = ["BurntMetres", "burnt_metres", "is_machine", "mass_each_kg"]

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclass(slots=True)
class BurntMetres:
    """What n lines burn and where they start. *Each* is per pass; *once* is what a row of shared cuts adds."""

    passes: Floats
    """Passes of the torch: quantity over stack, rounded up; 0 for lines that are not cut."""
    long_m_each: Floats
    short_m_each: Floats
    circle_m_each: Floats
    once_long_m: Floats
    once_short_m: Floats
    edge_starts_each: Floats
    restarts_each: Floats
    """Further edge starts by hand, one for each reach of a run."""
    once_starts: Floats
    pierces_each: Floats
    start_holes_each: Floats
    """Drilled start holes in place of pierces, by hand in thick plate."""
    drilled_holes_each: Floats
    """Holes drilled instead of burnt."""
    drilled_diameter_mm: Floats
    circles_each: Floats
    circle_sizes: Floats
    set_starts_each: Floats
    """Starts at which a straightedge is set."""
    runs_each: Floats
    """Track runs."""
    once_runs: Floats
    """Track runs of what a row adds once."""
    edge_m_each: Floats
    """Burnt edge of one piece, cleaned and ground [m]."""
    once_edge_m: Floats
    """Ends of the row that the mill has made: edge that no piece need be cleaned of, below zero [m]."""
    bevel_m_each: Floats
    """Length of a bevel pass of its own, all sides [m]."""
    bevel_is_short: Flags
    """Whether the hand makes the bevel in goes under the short-cut limit."""
    bevel_starts_each: Floats
    given_over_worked: Floats = field(default_factory=lambda: np.empty(0))
    """Cut length of the list over the one the shape gives; NaN where only one of them is known."""

    @property
    def once_m(self) -> Floats:
        """Metres that a row of shared cuts adds once [m]."""
        return self.once_long_m + self.once_short_m

    @property
    def cut_m(self) -> Floats:
        """Metres burnt by the whole line, bevel passes left out [m]."""
        return self.passes * (self.long_m_each + self.short_m_each + self.circle_m_each) + self.once_m


def is_machine(method: NDArray[np.int8]) -> Flags:
    """Return which lines run at machine speed: those on a track."""
    return np.asarray(method == Method.TRACK)


def burnt_metres(cuts: CutList, rates: WorkRates, *, outlines_pierced: bool) -> BurntMetres:
    """Return metres and starts of every line.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    rates : WorkRates
        The shop's work rates.
    outlines_pierced : bool
        Whether outlines start by a pierce instead of from the edge.

    Returns
    -------
    BurntMetres
        Shape (n,) each.

    Notes
    -----
    A given cut length wins over the shape; it is then split in the shape's proportions. A bare cut length is one run
    from each of its starts. Where the list gives the starts, those are all there are; else the hand starts once more
    for each reach. Source: definitions of the project's method, ``docs/method.md``.
    """
    cutting = np.isin(cuts.work, (Work.CUT, BLANK))
    passes = np.where(cutting, np.ceil(np.round(cuts.quantity / np.nan_to_num(cuts.stack, nan=1.0), 9)), 0.0)
    hand = ~is_machine(cuts.method)
    reach_mm = _reach_mm(cuts, rates)
    outline = _outline(cuts, cutting, passes, reach_mm, rates)
    in_plate = sum(_mill_edges(cuts)) == 0
    pierced = outlines_pierced & in_plate & ~np.isin(cuts.shape, (Shape.BAR_END, Shape.STRIP))
    metres = _from_outline(cuts, outline, passes, pierced)
    _apply_given_length(cuts, metres, cutting, reach_mm, rates)
    _add_holes(cuts, metres, cutting, hand, rates)
    _apply_given_starts(cuts, metres)
    _drill_thick_starts(cuts, metres, hand, rates)
    _add_bevel_pass(cuts, metres, cutting, hand, rates)
    return metres


def mass_each_kg(cuts: CutList, density_kg_m3: float) -> Floats:
    """Return the mass of one piece; NaN where the list gives no sizes.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    density_kg_m3 : float
        Density of steel [kg/m³].

    Returns
    -------
    ndarray of float, shape (n,)
        Mass [kg].

    Notes
    -----
    Plate shapes with their round holes taken off; sections and bars by their area and length. Source: geometry.
    """
    section = is_section(cuts.shape)
    of_section = np.where(section, cuts.section_area_cm2 * cuts.section_length_mm * 100.0, np.nan)
    area = outline_area_mm2(cuts.shape, cuts.size_a_mm, cuts.size_b_mm)
    holes = np.nan_to_num(cuts.holes) * np.pi * np.nan_to_num(cuts.hole_diameter_mm) ** 2 / 4
    return np.where(section, of_section, (area - holes) * cuts.thickness_mm) * density_kg_m3 * 1e-9


def _mill_edges(cuts: CutList) -> tuple[Floats, Floats]:
    """Return mill sides and ends: as the list says, else what a flat or a strip implies."""
    flat = cuts.made_from == MadeFrom.FLAT
    strip = cuts.shape == Shape.STRIP
    sides = np.where(np.isnan(cuts.mill_sides), np.where(flat | strip, 2.0, 0.0), cuts.mill_sides)
    ends = np.where(np.isnan(cuts.mill_ends), np.where(flat, 1.0, 0.0), cuts.mill_ends)
    return sides, ends


def _by_side(cuts: CutList) -> Flags:
    """Return which lines start at each straight side: those by hand without a template."""
    return np.asarray(~is_machine(cuts.method) & (cuts.method != Method.TEMPLATE))


def _length_is_given(cuts: CutList) -> Flags:
    """Return which lines give their cut length; what is shared is then counted in it, or not, by who gave it."""
    return np.asarray(~(np.isnan(cuts.cut_length_mm) & np.isnan(cuts.total_cut_length_mm)))


def _reach_mm(cuts: CutList, rates: WorkRates) -> Floats:
    """Return for what length each line starts once more; infinite where a guide or the list says all the starts."""
    listed = ~np.isnan(cuts.pierces) | ~np.isnan(cuts.edge_starts)
    round_cut = _length_is_given(cuts) & (cuts.shape == BLANK) & (cuts.method == Method.CIRCLE_GUIDE)
    return np.where(_by_side(cuts) & ~listed & ~round_cut, rates.reach_mm, np.inf)


def _outline(cuts: CutList, cutting: Flags, passes: Floats, reach_mm: Floats, rates: WorkRates) -> Outline:
    """Return what the shapes burn; nothing for pieces that come cut to length."""
    shape = np.where(cutting, cuts.shape, BLANK).astype(np.int8)
    is_strip = shape == Shape.STRIP
    narrow, wide = np.minimum(cuts.size_a_mm, cuts.size_b_mm), np.maximum(cuts.size_a_mm, cuts.size_b_mm)
    sides, ends = _mill_edges(cuts)
    outline = plate_outline(
        shape,
        np.where(is_strip, narrow, cuts.size_a_mm),
        np.where(is_strip, wide, cuts.size_b_mm),
        mill_sides=sides,
        mill_ends=ends,
        shared=cuts.shared_cuts & ~_length_is_given(cuts),
        passes=passes,
        short_under_mm=rates.short_straight_mm,
        reach_mm=reach_mm,
    )
    blank = cuts.made_from == MadeFrom.BLANK
    for part in fields(outline) if blank.any() else ():
        setattr(outline, part.name, np.where(blank, 0.0, getattr(outline, part.name)))
    return outline


def _from_outline(cuts: CutList, outline: Outline, passes: Floats, pierced: Flags) -> BurntMetres:
    hand = ~is_machine(cuts.method)
    by_side = _by_side(cuts)
    circle_outlines = np.where(outline.circles > 0, 1.0, 0.0)
    starts = np.where(by_side, outline.sides + circle_outlines, outline.outlines)
    pierces = outline.pierces.copy()
    # A piece with a mill edge starts from it.
    pierces = pierces + np.where(pierced, outline.outlines, 0.0)
    starts = np.where(pierced & (outline.outlines > 0), np.maximum(starts - 1.0, 0.0), starts)
    straightedge = by_side & (cuts.method != Method.FREE_HAND)
    n = len(cuts)
    return BurntMetres(
        passes=passes,
        long_m_each=outline.long_mm / 1000.0,
        short_m_each=outline.short_mm / 1000.0,
        circle_m_each=outline.circle_mm / 1000.0,
        once_long_m=outline.once_long_mm / 1000.0,
        once_short_m=outline.once_short_mm / 1000.0,
        edge_starts_each=starts,
        restarts_each=outline.side_restarts,
        once_starts=np.where(by_side, outline.once_starts, 0.0),
        pierces_each=pierces,
        start_holes_each=np.zeros(n),
        drilled_holes_each=np.zeros(n),
        drilled_diameter_mm=np.nan_to_num(cuts.hole_diameter_mm),
        circles_each=outline.circles,
        circle_sizes=np.where(hand & (cuts.method != Method.FREE_HAND), outline.circle_sizes, 0.0),
        set_starts_each=np.where(straightedge, outline.sides + outline.side_restarts, 0.0),
        runs_each=np.where(hand, 0.0, np.maximum(outline.sides, outline.outlines)),
        once_runs=np.where(hand, 0.0, outline.once_sides),
        edge_m_each=outline.edge_mm / 1000.0,
        once_edge_m=outline.once_edge_mm / 1000.0 * cuts.quantity / np.maximum(passes, 1.0),
        bevel_m_each=np.zeros(n),
        bevel_is_short=np.zeros(n, dtype=np.bool_),
        bevel_starts_each=np.zeros(n),
        given_over_worked=np.full(n, np.nan),
    )


def _apply_given_length(cuts: CutList, metres: BurntMetres, cutting: Flags, reach_mm: Floats, rates: WorkRates) -> None:
    """Let a given cut length win: scale the shape to it, or take it as bare runs from its starts."""
    each_mm = np.where(np.isnan(cuts.cut_length_mm), cuts.total_cut_length_mm / cuts.quantity, cuts.cut_length_mm)
    given_m = np.where(cutting, each_mm / 1000.0, np.nan)
    by_shape = metres.long_m_each + metres.short_m_each + metres.circle_m_each > 0
    _scale_to_given(cuts, metres, given_m, by_shape)
    _take_bare_runs(cuts, metres, given_m, ~np.isnan(given_m) & ~by_shape, reach_mm, rates)


def _scale_to_given(cuts: CutList, metres: BurntMetres, given_m: Floats, by_shape: Flags) -> None:
    """Stretch what a shape burns to the length that the list gives; shared cuts are counted in it, or not."""
    has = ~np.isnan(given_m)
    worked = metres.long_m_each + metres.short_m_each + metres.circle_m_each
    hole_m = np.nan_to_num(cuts.holes) * circle_length_mm(np.nan_to_num(cuts.hole_diameter_mm)) / 1000.0
    with np.errstate(invalid="ignore", divide="ignore"):
        # The list's length is compared with outline and burnt or drilled holes together, whichever lies nearer.
        ratio_plain, ratio_holes = given_m / worked, given_m / (worked + hole_m)
        nearer = np.where(np.abs(ratio_plain - 1) <= np.abs(ratio_holes - 1), ratio_plain, ratio_holes)
        metres.given_over_worked = np.where(has & by_shape, nearer, np.nan)
        scale = np.where(has & by_shape, ratio_plain, 1.0)
    for name in ("long_m_each", "short_m_each", "circle_m_each", "edge_m_each", "once_edge_m"):
        setattr(metres, name, getattr(metres, name) * scale)
    for name in ("once_long_m", "once_short_m", "once_starts", "once_runs"):
        setattr(metres, name, np.where(has, 0.0, getattr(metres, name)))


def _take_bare_runs(
    cuts: CutList, metres: BurntMetres, given_m: Floats, bare: Flags, reach_mm: Floats, rates: WorkRates
) -> None:
    """Take a length without a shape as one run from each of its starts."""
    # The shares of the list's own starts: with neither column a bare length is one run from one edge start.
    listed = np.nan_to_num(cuts.pierces) + np.nan_to_num(cuts.edge_starts)
    run_mm = np.nan_to_num(given_m) * 1000.0 / np.maximum(listed, 1.0)
    round_cut = bare & (cuts.method == Method.CIRCLE_GUIDE)
    further = restarts(run_mm, reach_mm)
    short = bare & ~round_cut & (run_mm / (1.0 + further) < rates.short_straight_mm)
    metres.circle_m_each = np.where(round_cut, given_m, metres.circle_m_each)
    metres.circle_sizes = np.where(round_cut, 1.0, metres.circle_sizes)
    metres.short_m_each = np.where(short, given_m, metres.short_m_each)
    metres.long_m_each = np.where(bare & ~short & ~round_cut, given_m, metres.long_m_each)
    metres.edge_m_each = np.where(bare, given_m, metres.edge_m_each)
    metres.once_edge_m = np.where(bare, 0.0, metres.once_edge_m)
    metres.edge_starts_each = np.where(bare, 1.0, metres.edge_starts_each)
    metres.restarts_each = np.where(bare, further, metres.restarts_each)
    by_edge = bare & (cuts.method == Method.STRAIGHTEDGE)
    metres.set_starts_each = np.where(by_edge, 1.0 + further, metres.set_starts_each)
    metres.runs_each = np.where(bare & is_machine(cuts.method), 1.0, metres.runs_each)


def _add_holes(cuts: CutList, metres: BurntMetres, cutting: Flags, hand: Flags, rates: WorkRates) -> None:
    """Burn each round hole, or drill it: by hand a small hole is drilled unless the line says burn it."""
    holes = np.where(cutting, np.nan_to_num(cuts.holes), 0.0)
    if not holes.any():
        return
    diameter = np.nan_to_num(cuts.hole_diameter_mm)
    small = (diameter < rates.small_hole_mm) | (diameter < rates.small_hole_ratio * cuts.thickness_mm)
    drilled = hand & small & ~cuts.burn_holes & (diameter > 0)
    burnt = np.where(drilled, 0.0, holes)
    metres.drilled_holes_each = np.where(drilled, holes, 0.0)
    length = burnt * circle_length_mm(diameter) / 1000.0
    # Where the list gives the cut length, its holes are in it already.
    inside_given = _length_is_given(cuts)
    metres.circle_m_each = metres.circle_m_each + np.where(inside_given, 0.0, length)
    metres.edge_m_each = metres.edge_m_each + np.where(inside_given, 0.0, length)
    metres.pierces_each = metres.pierces_each + burnt
    metres.circles_each = metres.circles_each + burnt
    guided = hand & (cuts.method != Method.FREE_HAND)
    metres.circle_sizes = metres.circle_sizes + np.where(guided & (burnt > 0), 1.0, 0.0)


def _apply_given_starts(cuts: CutList, metres: BurntMetres) -> None:
    """Take the list's own pierces and edge starts where it has them; they are then all the starts there are."""
    has_n, has_e = ~np.isnan(cuts.pierces), ~np.isnan(cuts.edge_starts)
    either = (has_n | has_e) & (metres.passes > 0)
    edge_if_pierces_only = np.where(np.nan_to_num(cuts.pierces) > 0, 0.0, 1.0)
    metres.edge_starts_each = np.where(
        either, np.where(has_e, cuts.edge_starts, edge_if_pierces_only), metres.edge_starts_each
    )
    metres.pierces_each = np.where(either & has_n, cuts.pierces, metres.pierces_each)
    metres.restarts_each = np.where(either, 0.0, metres.restarts_each)
    metres.once_starts = np.where(either, 0.0, metres.once_starts)
    metres.set_starts_each = np.where(
        either & (metres.set_starts_each > 0), metres.edge_starts_each, metres.set_starts_each
    )


def _drill_thick_starts(cuts: CutList, metres: BurntMetres, hand: Flags, rates: WorkRates) -> None:
    """By hand thick plate is not pierced: a start hole is drilled and the cut starts from its edge."""
    thick = hand & (cuts.thickness_mm > rates.hand_pierce_limit_mm)
    metres.start_holes_each = np.where(thick, metres.pierces_each, 0.0)
    metres.edge_starts_each = metres.edge_starts_each + metres.start_holes_each
    metres.pierces_each = np.where(thick, 0.0, metres.pierces_each)


def _add_bevel_pass(cuts: CutList, metres: BurntMetres, cutting: Flags, hand: Flags, rates: WorkRates) -> None:
    """A bevel with a length of its own is a pass of its own, one for each side."""
    has = cutting & (np.nan_to_num(cuts.bevel_deg) > 0) & ~np.isnan(cuts.bevel_length_mm)
    if not has.any():
        return
    sides = np.nan_to_num(cuts.bevel_sides, nan=1.0)
    length = np.where(has, cuts.bevel_length_mm, 0.0)
    metres.bevel_m_each = length * sides / 1000.0
    # The list's own starts are those of the square cut; the bevel is a pass with starts of its own.
    reach_mm = np.where(_by_side(cuts), rates.reach_mm, np.inf)
    metres.bevel_is_short = has & (go_mm(length, reach_mm) < rates.short_straight_mm)
    metres.bevel_starts_each = np.where(has, sides * (1.0 + restarts(length, reach_mm)), 0.0)
    by_edge = hand & np.isin(cuts.method, (BLANK, Method.STRAIGHTEDGE))
    metres.set_starts_each = metres.set_starts_each + np.where(by_edge, metres.bevel_starts_each, 0.0)


def grinding_min_per_m(finish: NDArray[np.int8], rates: WorkRates) -> Floats:
    """Return grinding minutes for a metre of edge by finish [min/m]."""
    return np.where(
        finish == EdgeFinish.TOUCH_UP,
        rates.touch_up_min_per_m,
        np.where(finish == EdgeFinish.BRIGHT, rates.bright_min_per_m, 0.0),
    )


def surface_speed(surface: NDArray[np.int8], rates: WorkRates) -> Floats:
    """Return the speed factor of each surface."""
    return np.where(
        surface == Surface.RUSTY, rates.rusty_speed, np.where(surface == Surface.PAINTED, rates.painted_speed, 1.0)
    )


def surface_start(surface: NDArray[np.int8], rates: WorkRates) -> Floats:
    """Return the start-time factor of each surface."""
    return np.where(
        surface == Surface.RUSTY, rates.rusty_start, np.where(surface == Surface.PAINTED, rates.painted_start, 1.0)
    )
