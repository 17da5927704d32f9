"""The highest delivery or working pressure of acetylene, from the table that states it."""

from __future__ import annotations

from functools import cache

from estimator.reference import table
from estimator.units import to_house

__all__ = ["acetylene_limit_bar", "is_over_acetylene_limit"]

_ROUNDING_BAR = 1e-4
"""Ten pascals, so that 15 psi typed as 1.0343 bar or 103.42 kPa passes."""


def is_over_acetylene_limit(pressure_bar: float) -> bool:
    """Return whether a delivery or working pressure of acetylene must be refused; the limit itself passes.

    Parameters
    ----------
    pressure_bar : float
        Pressure at the regulator's outlet or the hose [bar gauge]; never a cylinder's pressure.

    Returns
    -------
    bool

    Notes
    -----
    Source: 29 CFR 1910.253(a)(2), as ``acetylene_pressures.csv`` holds it.

    Examples
    --------
    >>> is_over_acetylene_limit(1.0342), is_over_acetylene_limit(1.103)
    (False, True)
    """
    return pressure_bar > acetylene_limit_bar() + _ROUNDING_BAR


@cache
def acetylene_limit_bar() -> float:
    """Return the highest delivery or working pressure of acetylene: 15 psi gauge.

    Returns
    -------
    float
        Pressure [bar gauge].

    Notes
    -----
    Source: 29 CFR 1910.253(a)(2), as ``acetylene_pressures.csv`` holds it.
    """
    rows = table("acetylene_pressures").where(what="acetylene working pressure, upper limit")
    return float(to_house("pressure_bar", rows.column("psi_gauge")[0], "psi"))
