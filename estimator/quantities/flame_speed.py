"""Flame minutes of gas welding and brazing from a length and the tip's speed, where no minutes are typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.words import Work

__all__ = ["with_minutes_by_speed"]

_BY_LENGTH = (Work.WELD, Work.BRAZE, Work.HEAT)


def with_minutes_by_speed(cuts: CutList, speed_mm_min: Mapping[str, float]) -> tuple[CutList, NDArray[np.bool_]]:
    """Return the list with flame minutes where a length and a tip's speed give them.

    Parameters
    ----------
    cuts : CutList
        n lines; flame work without minutes or heated mass is filled, all else stays.
    speed_mm_min : mapping of str to float
        Speed of each tip that has one, above zero [mm/min].

    Returns
    -------
    tuple of (CutList, ndarray of bool)
        The list, and the lines that were filled, shape (n,).

    Notes
    -----
    Length of one piece ÷ speed of its tip; a line that names no tip takes the only one. Source: definition.

    Examples
    --------
    >>> cuts = CutList(mark=["W"], quantity=np.ones(1), thickness_mm=np.array([3.0]), tip=["W-3"],
    ...     work=np.array([Work.WELD], dtype=np.int8), cut_length_mm=np.array([400.0]))
    >>> with_minutes_by_speed(cuts, {"W-3": 80.0})[0].flame_min_each
    array([5.])
    """
    only = next(iter(speed_mm_min)) if len(speed_mm_min) == 1 else ""
    speed = np.array([speed_mm_min.get(tip or only, np.nan) for tip in cuts.tip], dtype=np.float64)
    total_each = np.divide(cuts.total_cut_length_mm, np.where(cuts.quantity > 0, cuts.quantity, np.nan))
    length = np.where(np.isnan(cuts.cut_length_mm), total_each, cuts.cut_length_mm)
    untimed = np.isnan(cuts.flame_min_each) & ~(np.nan_to_num(cuts.heated_kg_each) > 0)
    filled = np.isin(cuts.work, _BY_LENGTH) & untimed & (np.nan_to_num(length) > 0) & (np.nan_to_num(speed) > 0)
    if not filled.any():
        return cuts, filled
    minutes = np.where(filled, length / np.where(filled, speed, 1.0), cuts.flame_min_each)
    return replace(cuts, flame_min_each=minutes), filled
