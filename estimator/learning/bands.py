"""Bands of many lines as one: lines that share a tip are wrong together, so their bands average and do not cancel."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.learning.spread import EXACT, Spread, split_lognormal

__all__ = ["shared_band", "sum_by_group"]


def sum_by_group(group: ArrayLike, groups: int, amount: ArrayLike) -> NDArray[np.float64]:
    """Return the sum of a column for each group: one pass over the lines.

    Parameters
    ----------
    group : array_like of int, shape (n,)
        Group of each line, from 0; a line below 0 belongs to none.
    groups : int
        Number of groups.
    amount : array_like of float, shape (n,)
        What is summed, in any unit.

    Returns
    -------
    ndarray of float, shape (groups,)
        Sums.

    Examples
    --------
    >>> sum_by_group([0, 1, 0, -1], 2, [1.0, 2.0, 3.0, 9.0])
    array([4., 2.])
    """
    index = np.asarray(group, dtype=np.int64)
    taken = index >= 0
    weights = np.asarray(amount, dtype=np.float64)[taken]
    return np.bincount(index[taken], weights=weights, minlength=groups).astype(np.float64)


def shared_band(
    low: ArrayLike, likely: ArrayLike, high: ArrayLike, weight: ArrayLike, group: ArrayLike, groups: int
) -> list[Spread]:
    """Return one spread for each group from the bands of its lines.

    Parameters
    ----------
    low, likely, high : array_like of float, shape (n,)
        Bands of the lines, above zero and rising, in any unit.
    weight : array_like of float, shape (n,)
        How much each line counts: its cut time or gas.
    group : array_like of int, shape (n,)
        Group of each line, from 0; a line below 0 belongs to none.
    groups : int
        Number of groups.

    Returns
    -------
    list of Spread, length groups
        About 1. A group without weight is exact.

    Notes
    -----
    Weighted mean of the log steps: the lines of a tip are wrong together, so their steps average and do not cancel.
    Source: definition.

    Examples
    --------
    >>> band, none = shared_band([80, 80], [100, 100], [110, 130], [1, 1], [0, 0], 2)
    >>> round(band.low, 3), round(band.high, 3), none.high
    (0.8, 1.196, 1.0)
    """
    total = sum_by_group(group, groups, weight)
    centre = np.log(np.asarray(likely, dtype=np.float64))
    steps = [
        sum_by_group(group, groups, np.asarray(weight) * (np.log(np.asarray(end, dtype=np.float64)) - centre))
        for end in (low, high)
    ]
    return [
        split_lognormal(float(np.exp(below / w)), 1.0, float(np.exp(above / w))) if w > 0 else EXACT
        for below, above, w in zip(steps[0], steps[1], total, strict=True)
    ]
