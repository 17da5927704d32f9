"""Rounding and sharing of money. The one place where an amount becomes whole minor units."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["format_minor", "round_up_to_step", "share_out", "to_minor"]


def to_minor(amount: ArrayLike, decimals: int = 2) -> NDArray[np.int64]:
    """Return amounts in whole minor units, rounded half away from zero as spreadsheets do.

    Parameters
    ----------
    amount : array_like of float, any shape
        Amounts in the major unit.
    decimals : int
        Decimals of the minor unit.

    Returns
    -------
    ndarray of int64, same shape
        Amounts in minor units.

    Raises
    ------
    ValueError
        When an amount is not finite.

    Notes
    -----
    The amount is first rounded to nine decimals, so that a tie that binary fractions hide (1.005) is seen as a tie.

    Source: definition; the rule equals a spreadsheet's ROUND.

    Examples
    --------
    >>> to_minor([1.005, -1.005, 2.5, 0.0049999])
    array([ 101, -101,  250,    0])
    """
    values = np.asarray(amount, dtype=np.float64)
    if not np.all(np.isfinite(values)):
        raise ValueError(f"amount holds a value that is not finite: {values[~np.isfinite(values)][:3]}")
    scaled = np.round(np.abs(np.round(values, 9)) * 10.0**decimals, 9 - decimals)
    return (np.sign(values) * np.floor(scaled + 0.5)).astype(np.int64)


def round_up_to_step(amount: ArrayLike, step: float) -> NDArray[np.float64]:
    """Return amounts raised to the next whole step (0.50, 1, 5); a step of 0 leaves them as they are.

    Parameters
    ----------
    amount : array_like of float, any shape
        Amounts in the major unit, zero or above.
    step : float
        Step in the major unit, zero or above.

    Returns
    -------
    ndarray of float, same shape
        Amounts on the step.

    Raises
    ------
    ValueError
        When the step is below zero.

    Notes
    -----
    An amount within one part in 10⁹ of a step counts as on it. Source: definition.

    Examples
    --------
    >>> round_up_to_step([20.82, 21.0], 0.5)
    array([21., 21.])
    """
    if step < 0:
        raise ValueError(f"step must be zero or above, got {step}")
    values = np.asarray(amount, dtype=np.float64)
    if step == 0:
        return values
    return np.ceil(np.round(values / step, 9)) * step


def share_out(total_minor: int, weights: Sequence[float] | NDArray[np.float64]) -> list[int]:
    """Share whole minor units over weights so that the parts add back exactly.

    Parameters
    ----------
    total_minor : int
        What is shared, in minor units; may be below zero.
    weights : sequence of float, shape (n,)
        Weights, zero or above, at least one above zero.

    Returns
    -------
    list of int, length n
        Parts in minor units; their sum is ``total_minor``.

    Raises
    ------
    ValueError
        When there are no weights, one is below zero or not finite, or all are zero.

    Notes
    -----
    Largest remainder; ties go to the earlier row. Source: definition.

    Examples
    --------
    >>> share_out(100, [1, 1, 1])
    [34, 33, 33]
    """
    shares = np.asarray(weights, dtype=np.float64)
    if shares.size == 0 or not np.all(np.isfinite(shares)) or np.any(shares < 0) or shares.sum() == 0:
        raise ValueError(f"weights must be zero or above with one above zero, got {list(shares[:5])}")
    sign = -1 if total_minor < 0 else 1
    exact = abs(total_minor) * (shares / shares.sum())
    parts = np.floor(exact).astype(np.int64)
    left = abs(int(total_minor)) - int(parts.sum())
    for index in np.argsort(-(exact - parts), kind="stable")[:left]:
        parts[index] += 1
    return [sign * int(part) for part in parts]


def format_minor(minor: int, decimals: int = 2) -> str:
    """Return minor units as a decimal string, the form that JSON carries.

    Parameters
    ----------
    minor : int
        Amount in minor units.
    decimals : int
        Decimals of the minor unit.

    Returns
    -------
    str
        Such as ``-12.05``.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> format_minor(-1205), format_minor(7), format_minor(500, 0)
    ('-12.05', '0.07', '500')
    """
    sign = "-" if minor < 0 else ""
    whole, part = divmod(abs(int(minor)), 10**decimals)
    return f"{sign}{whole}.{part:0{decimals}d}" if decimals else f"{sign}{whole}"
