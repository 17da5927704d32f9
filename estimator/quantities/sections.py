"""Cross cuts of bars and rolled sections: burnt path, thickness along the cut, starts, area, ends, and normed minutes.

Fillets, tapers and rolling radii are left out; where the list gives the section's area, the area rules the thickness.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.words import Shape

__all__ = [
    "MEAN_CHORD",
    "SectionCut",
    "bolt_head_time_min",
    "end_cleaning_min",
    "ends_cleaned",
    "is_section",
    "section_cut",
    "section_time_min",
]

Floats = NDArray[np.float64]

MEAN_CHORD = float(np.pi / 4)
"""Mean chord of a circle as a share of its diameter, 0.785 (geometry)."""


@dataclass(frozen=True, slots=True)
class SectionCut:
    """One cross cut of each line's section; arrays of the lines' shape, NaN where a size is missing or does not fit."""

    cut_length_mm: Floats
    """Path that is burnt."""
    thickness_mm: Floats
    """Mean thickness along the cut; path times this is the area."""
    thickest_mm: Floats
    """Thickness that the tip must reach."""
    section_area_cm2: Floats
    pierces: Floats
    edge_starts: Floats


@dataclass(frozen=True, slots=True)
class _Wall:
    """A section of even wall t: path = of_a * a + of_b * b - corners * t."""

    of_a: float
    of_b: float
    corners: float
    most_of_a: float
    """Share of size a that the wall stays under."""
    most_of_b: float
    pierces: int
    edge_starts: int


# Path of the middle of the wall, from geometry; a closed wall has no edge, so its first start is a pierce.
_WALLS = {
    Shape.ANGLE: _Wall(1, 1, 1, 1.0, 1.0, 0, 2),
    Shape.CHANNEL: _Wall(1, 2, 2, 0.5, 1.0, 0, 3),
    Shape.BEAM: _Wall(1, 2, 2, 0.5, 1.0, 0, 3),
    Shape.SQUARE_TUBE: _Wall(2, 2, 4, 0.5, 0.5, 1, 3),
    Shape.PIPE: _Wall(np.pi, 0, np.pi, 0.5, np.inf, 1, 1),
}
# (pierces, edge starts) of solid bars and of sections that are cut by area.
_STARTS = {
    Shape.ROUND_BAR: (0, 1),
    Shape.SQUARE_BAR: (0, 1),
    Shape.BOLT_HEAD: (0, 1),
    Shape.RAIL: (0, 1),  # the norm of light rails leaves no time for a second
    Shape.SHEET_PILE: (0, 3),
}


def is_section(shape: ArrayLike) -> NDArray[np.bool_]:
    """Say which lines are cross cuts of a bar or a rolled section.

    Parameters
    ----------
    shape : array_like of int, any shape
        Codes of ``words.Shape``; -1 is blank.

    Returns
    -------
    ndarray of bool, same shape
        True from angle to sheet pile.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> is_section([Shape.RECTANGLE, Shape.ANGLE, -1]).tolist()
    [False, True, False]
    """
    return np.isin(np.asarray(shape), [*_WALLS, *_STARTS])


def section_cut(
    shape: ArrayLike,
    *,
    size_a_mm: ArrayLike,
    size_b_mm: ArrayLike,
    thickness_mm: ArrayLike,
    section_area_cm2: ArrayLike,
    shank_of_head: float,
) -> SectionCut:
    """Path, thickness, starts and area of one cross cut of each line.

    Parameters
    ----------
    shape : array_like of int, shape (n,)
        Codes of ``words.Shape``; lines that are no section come back as NaN.
    size_a_mm : array_like of float, shape (n,)
        Depth, first leg, outside diameter, bar size or head diameter; NaN where it is not given. [mm]
    size_b_mm : array_like of float, shape (n,)
        Flange or second leg (NaN: the same as the first), or shank of a bolt (NaN: from the head). [mm]
    thickness_mm : array_like of float, shape (n,)
        Web, leg or wall; NaN where it is not given and the area rules. [mm]
    section_area_cm2 : array_like of float, shape (n,)
        Area of the section; NaN where it is not given. [cm²]
    shank_of_head : float
        Shank diameter as a share of the head's, for bolts and rivets without one.

    Returns
    -------
    SectionCut
        Arrays of shape (n,).

    Raises
    ------
    ValueError
        When a size, thickness or area that is given is not above zero.

    Notes
    -----
    Even walls (angle, channel, beam, tube, pipe): path ``S - k t`` along the middle of the wall, area ``t (S - k t)``,
    with S the sum of the sides and k the number of corners. An area that is given rules: it sets the mean thickness,
    or the wall itself when no thickness is given. Round bar: path D at the mean chord 0.785 D. Rail and sheet pile:
    the path is the depth and the mean thickness is area over depth; without a depth, the thickness sets the path.
    A web's thickness stands for flanges too unless the area is given, which is low for beams and channels. A wall that
    is too thick for its section, or an area too large for it, comes back as NaN.

    Source: geometry; the number of starts is judgement.

    Examples
    --------
    >>> cut = section_cut([Shape.ANGLE, Shape.ROUND_BAR], size_a_mm=[100, 80], size_b_mm=[np.nan, np.nan],
    ...                   thickness_mm=[10, np.nan], section_area_cm2=[np.nan, np.nan], shank_of_head=0.6)
    >>> cut.cut_length_mm.tolist(), cut.thickness_mm.round(2).tolist(), cut.section_area_cm2.round(2).tolist()
    ([190.0, 80.0], [10.0, 62.83], [19.0, 50.27])
    """
    given = _Given.of(shape, size_a_mm, size_b_mm, thickness_mm, section_area_cm2)
    n = given.shape.size
    cut = SectionCut(*(np.full(n, np.nan) for _ in range(6)))
    for code, wall in _WALLS.items():
        _fill_wall(cut, given, given.shape == code, wall)
    _fill_bars(cut, given, shank_of_head)
    _fill_by_area(cut, given)
    for code, (pierces, edges) in _STARTS.items():
        cut.pierces[given.shape == code], cut.edge_starts[given.shape == code] = pierces, edges
    return cut


def ends_cleaned(shape: ArrayLike, *, mill_ends: ArrayLike) -> Floats:
    """Ends of each piece that are cleaned after cutting.

    Parameters
    ----------
    shape : array_like of int, shape (n,)
        Codes of ``words.Shape``.
    mill_ends : array_like of float, shape (n,)
        Ends that the mill has made; NaN counts as none.

    Returns
    -------
    ndarray of float, shape (n,)
        Two less the mill's own; none for a bolt or rivet head, none for a line that is no section.

    Notes
    -----
    One cut makes an end on the piece and one on the next: a piece out of a bar has two cut ends for its one cut.
    Source: definition.

    Examples
    --------
    >>> ends_cleaned([Shape.ANGLE, Shape.ANGLE, Shape.BOLT_HEAD], mill_ends=[np.nan, 1, np.nan]).tolist()
    [2.0, 1.0, 0.0]
    """
    codes = np.asarray(shape)
    ends = np.clip(2.0 - np.nan_to_num(np.asarray(mill_ends, dtype=np.float64)), 0.0, 2.0)
    return np.where(is_section(codes) & (codes != Shape.BOLT_HEAD), ends, 0.0)


def section_time_min(
    section_area_cm2: ArrayLike, *, area_rate_cm2_min: ArrayLike, fuel_time_factor: ArrayLike = 1.0
) -> Floats:
    """Normed minutes of one whole cut through a section of this area.

    Parameters
    ----------
    section_area_cm2 : array_like of float, any shape
        Area that is cut through. [cm²]
    area_rate_cm2_min : array_like of float, same shape or scalar
        Area cut in one minute of normed time (about 13.35 for single rails by hand, 10.7 for sheet piles with fetching
        and marking). [cm²/min]
    fuel_time_factor : array_like of float, same shape or scalar
        Time of the whole short cut over that with acetylene (1.05 to 1.20 for propane in the state norms).

    Returns
    -------
    ndarray of float, same shape
        Minutes of one cut, all in: preheat, cut, and what the norm counts as part of it. [min]

    Raises
    ------
    ValueError
        When an area, a rate or a factor is not above zero.

    Notes
    -----
    ``area / rate * factor``. A normed minute is a paid minute with its preheat, its moves and its pauses; the torch
    is on for a part of it, so this is three to eight times the chart's cutting time.

    Source: fitted to ENiR E22-1-41 (rails) and E12-85 (sheet piles); see ``tests/published/test_enir_norms.py``.

    Examples
    --------
    >>> section_time_min(65.99, area_rate_cm2_min=13.35).round(2)
    np.float64(4.94)
    """
    area = _above_zero("section_area_cm2", section_area_cm2)
    rate = _above_zero("area_rate_cm2_min", area_rate_cm2_min)
    return area / rate * _above_zero("fuel_time_factor", fuel_time_factor)


def bolt_head_time_min(
    head_diameter_mm: ArrayLike, *, start_min: float, per_mm_min: float, fuel_time_factor: ArrayLike = 1.0
) -> Floats:
    """Normed minutes to cut off one bolt or rivet head.

    Parameters
    ----------
    head_diameter_mm : array_like of float, any shape
        Diameter of the head. [mm]
    start_min : float
        Part that every head takes: reach it, preheat it (about 0.62). [min]
    per_mm_min : float
        Part that grows with the head's diameter (about 0.052). [min/mm]
    fuel_time_factor : array_like of float, same shape or scalar
        Time over that with acetylene.

    Returns
    -------
    ndarray of float, same shape
        Minutes of one head. [min]

    Raises
    ------
    ValueError
        When a diameter or a factor is not above zero.

    Notes
    -----
    ``(start + per_mm * diameter) * factor``: the norm grows with the diameter and not with the area, since most of the
    time is the start. Source: fitted to ENiR E22-1-43; see ``tests/published/test_enir_norms.py``.

    Examples
    --------
    >>> bolt_head_time_min(30, start_min=0.62, per_mm_min=0.052).round(2)
    np.float64(2.18)
    """
    diameter = _above_zero("head_diameter_mm", head_diameter_mm)
    return (start_min + per_mm_min * diameter) * _above_zero("fuel_time_factor", fuel_time_factor)


def end_cleaning_min(cut_length_mm: ArrayLike, *, edge_cleaning_min_m: ArrayLike, end_factor: ArrayLike) -> Floats:
    """Minutes to clean the slag off one end of a section or bar.

    Parameters
    ----------
    cut_length_mm : array_like of float, any shape
        Path of the cross cut. [mm]
    edge_cleaning_min_m : array_like of float, same shape or scalar
        Plate-edge cleaning at the thickness along the cut, between the norm's thicknesses. [min/m]
    end_factor : array_like of float, same shape or scalar
        How much longer a metre of section end takes than a metre of plate edge (about 4.8: 4.2 to 5.6
        over angles, channels and beams).

    Returns
    -------
    ndarray of float, same shape
        Minutes of one end. [min]

    Notes
    -----
    ``path * rate * factor``. The ends are short, have inside corners and must be reached and turned one by one.
    Source: the factor ties ENiR E40-2-4 B and C (ends) to E40-2-4 A (plate edges); see
    ``tests/published/test_enir_norms.py``.

    Examples
    --------
    >>> end_cleaning_min(190, edge_cleaning_min_m=1.2, end_factor=4.8).round(2)
    np.float64(1.09)
    """
    path_m = np.asarray(cut_length_mm, dtype=np.float64) / 1000.0
    return np.asarray(path_m * np.asarray(edge_cleaning_min_m) * np.asarray(end_factor), dtype=np.float64)


@dataclass(frozen=True, slots=True)
class _Given:
    shape: NDArray[np.int64]
    a_mm: Floats
    b_mm: Floats
    t_mm: Floats
    area_mm2: Floats

    @classmethod
    def of(cls, shape: ArrayLike, a: ArrayLike, b: ArrayLike, t: ArrayLike, area_cm2: ArrayLike) -> _Given:
        sizes = [
            _above_zero(name, value)
            for name, value in (("size_a_mm", a), ("size_b_mm", b), ("thickness_mm", t), ("section_area_cm2", area_cm2))
        ]
        codes = np.atleast_1d(np.asarray(shape)).astype(np.int64)
        a_mm, b_mm, t_mm, area = (np.broadcast_to(v, codes.shape).astype(np.float64) for v in sizes)
        return cls(codes, a_mm, b_mm, t_mm, area * 100.0)


def _fill_wall(cut: SectionCut, given: _Given, here: NDArray[np.bool_], wall: _Wall) -> None:
    a_mm, t_mm, area_mm2 = given.a_mm[here], given.t_mm[here], given.area_mm2[here]
    b_mm = np.where(np.isnan(given.b_mm[here]), a_mm, given.b_mm[here])
    sides_mm = wall.of_a * a_mm + wall.of_b * b_mm
    with np.errstate(invalid="ignore"):
        t_of_area_mm = (sides_mm - np.sqrt(sides_mm**2 - 4 * wall.corners * area_mm2)) / (2 * wall.corners)
    wall_mm = np.where(np.isnan(t_mm), t_of_area_mm, t_mm)
    fits = (wall_mm < wall.most_of_a * a_mm) & (wall_mm < wall.most_of_b * b_mm)
    path_mm = np.where(fits, sides_mm - wall.corners * wall_mm, np.nan)
    area = np.where(np.isnan(area_mm2) | ~fits, wall_mm * path_mm, area_mm2)
    _put(cut, here, path_mm, mean_mm=area / path_mm, area_mm2=area)
    cut.thickest_mm[here] = np.fmax(wall_mm, area / path_mm)
    cut.pierces[here], cut.edge_starts[here] = wall.pierces, wall.edge_starts


def _fill_bars(cut: SectionCut, given: _Given, shank_of_head: float) -> None:
    shank_mm = np.where(np.isnan(given.b_mm), given.a_mm * shank_of_head, given.b_mm)
    for code, across_mm in ((Shape.ROUND_BAR, given.a_mm), (Shape.BOLT_HEAD, shank_mm)):
        here = given.shape == code
        mean_mm = across_mm[here] * MEAN_CHORD
        _put(cut, here, across_mm[here], mean_mm=mean_mm, area_mm2=across_mm[here] * mean_mm)
        cut.thickest_mm[here] = across_mm[here]
    here = given.shape == Shape.SQUARE_BAR
    through_mm = np.where(np.isnan(given.b_mm), given.a_mm, given.b_mm)[here]
    _put(cut, here, given.a_mm[here], mean_mm=through_mm, area_mm2=given.a_mm[here] * through_mm)
    cut.thickest_mm[here] = through_mm


def _fill_by_area(cut: SectionCut, given: _Given) -> None:
    here = (given.shape == Shape.RAIL) | (given.shape == Shape.SHEET_PILE)
    a_mm, t_mm, area_mm2 = given.a_mm[here], given.t_mm[here], given.area_mm2[here]
    path_mm = np.where(np.isnan(a_mm), area_mm2 / t_mm, a_mm)
    _put(cut, here, path_mm, mean_mm=area_mm2 / path_mm, area_mm2=area_mm2)
    cut.thickest_mm[here] = np.fmax(area_mm2 / path_mm, t_mm)


def _put(cut: SectionCut, here: NDArray[np.bool_], path_mm: Floats, *, mean_mm: Floats, area_mm2: Floats) -> None:
    cut.cut_length_mm[here], cut.thickness_mm[here] = path_mm, mean_mm
    cut.section_area_cm2[here] = area_mm2 / 100.0


def _above_zero(name: str, value: ArrayLike) -> Floats:
    values = np.asarray(value, dtype=np.float64)
    if np.any(values <= 0):
        raise ValueError(f"{name} must be above zero, got {values[values <= 0].ravel()[:3].tolist()}")
    return values
