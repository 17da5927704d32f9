"""What sorting tells of an array: ``numpy.unique`` and ``quantile`` load the library of masked arrays for it."""

from __future__ import annotations

from typing import TypeVar

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["distinct", "quantiles"]

T = TypeVar("T", np.float64, np.int64, np.int8, np.generic)


def distinct(values: NDArray[T]) -> NDArray[T]:
    """Return the distinct values, rising.

    Parameters
    ----------
    values : ndarray, shape (n,)
        Numbers; NaN stands once for each that is there.

    Returns
    -------
    ndarray, shape (m,)

    Examples
    --------
    >>> distinct(np.array([20.0, 12.0, 20.0])).tolist(), distinct(np.array([])).tolist()
    ([12.0, 20.0], [])
    """
    rising = np.sort(values, axis=None)
    return rising[np.append(True, rising[1:] != rising[:-1])] if rising.size else rising


def quantiles(values: ArrayLike, shares: ArrayLike) -> NDArray[np.float64]:
    """Return the values below which shares of an array lie, straight between neighbours.

    Parameters
    ----------
    values : array_like, shape (n,)
        Numbers, at least one.
    shares : array_like, shape (m,)
        From 0 to 1.

    Returns
    -------
    ndarray of float, shape (m,)

    Notes
    -----
    Source: R. J. Hyndman and Y. Fan, Sample quantiles in statistical packages, 1996, definition 7; from memory.

    Examples
    --------
    >>> quantiles([4.0, 1.0, 2.0], [0.25, 0.5, 1.0]).tolist()
    [1.5, 2.0, 4.0]
    """
    rising = np.sort(np.asarray(values, dtype=np.float64), axis=None)
    return np.asarray(np.interp(np.asarray(shares) * (rising.size - 1), np.arange(rising.size), rising))
