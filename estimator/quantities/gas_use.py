"""Gas that a jet or a flame takes: flow times the time it flows, never divided by an operating factor."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["gas_m3"]

_MIN_PER_H = 60.0


def gas_m3(time_min: ArrayLike, flow_m3_h: ArrayLike) -> NDArray[np.float64]:
    """Return the gas that flows in a time: cutting oxygen in jet time, fuel and preheat oxygen in flame time.

    Parameters
    ----------
    time_min : array_like of float, any shape
        Time with the jet on or the flame lit [min].
    flow_m3_h : array_like of float, broadcast against it
        Flow while it is [m³/h].

    Returns
    -------
    ndarray of float, broadcast shape
        Gas at the state of the flow; NaN where time or flow is not known [m³].

    Notes
    -----
    ``flow x time``. Source: definition.

    Examples
    --------
    >>> gas_m3([13.4, 15.0], [4.09, 0.3]).round(3)
    array([0.913, 0.075])
    """
    return np.asarray(time_min, dtype=np.float64) * np.asarray(flow_m3_h, dtype=np.float64) / _MIN_PER_H
