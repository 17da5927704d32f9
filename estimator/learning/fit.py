"""Straight-line fits to logged figures, plain and robust, with Student's t intervals.

Solved by QR, never by normal equations (which lose half of the digits on nearly collinear data). Leaves the pull of
the handbook to ``prior`` and the choice of fit to ``calibrate``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = [
    "FEWEST_JOBS",
    "LEAST_SPREAD",
    "ROBUST_JOBS",
    "LinearFit",
    "Method",
    "NotEnoughDataError",
    "activity_spread",
    "fit_line",
    "fit_linear",
    "method_for",
    "robust_centre",
    "robust_slope_through_origin",
    "student_t",
]

FEWEST_JOBS = 3
"""Fewer jobs than this keep the handbook. Source: definition."""
ROBUST_JOBS = 6
"""From this many jobs on the fit is robust. Source: definition."""
LEAST_SPREAD = 1.5
"""Largest over smallest logged quantity below which no slope is fitted. Source: definition."""
_MAD_TO_SD = 1.482602218505602
"""Standard deviation of a normal over its median absolute deviation: 1 / Φ⁻¹(3/4)."""


class Method(StrEnum):
    """How a factor is fitted, by the number of jobs that speak of it."""

    HANDBOOK = "handbook kept"
    MEAN = "mean with the handbook"
    ROBUST = "robust slope with the handbook"


class NotEnoughDataError(ValueError):
    """The data are too few, or too much alike, to carry the fit."""


@dataclass(frozen=True, slots=True)
class LinearFit:
    """A fitted linear form: coefficients with their covariance."""

    coefficients: NDArray[np.float64]
    covariance: NDArray[np.float64]
    residual_sd: float
    freedom: int
    residuals: NDArray[np.float64]

    @property
    def standard_errors(self) -> NDArray[np.float64]:
        """Standard uncertainty of each coefficient."""
        return np.asarray(np.sqrt(np.diag(self.covariance)))

    def at(self, row: ArrayLike) -> tuple[float, float]:
        """Return the fitted value at one row of the design, and its standard uncertainty."""
        regressors = np.asarray(row, dtype=np.float64)
        return float(regressors @ self.coefficients), math.sqrt(float(regressors @ self.covariance @ regressors))

    def interval(self, index: int = 0, level: float = 0.80) -> tuple[float, float]:
        """Return the two-sided Student's t interval of one coefficient."""
        half = student_t(level, self.freedom) * float(self.standard_errors[index])
        return float(self.coefficients[index]) - half, float(self.coefficients[index]) + half


def method_for(jobs: int) -> Method:
    """Return the fit that this many jobs can carry.

    Parameters
    ----------
    jobs : int
        Number of jobs that speak of the factor.

    Returns
    -------
    Method
        The handbook under 3, the mean from 3 to 5, the robust slope from 6 on.

    Notes
    -----
    Source: definition.
    """
    if jobs < FEWEST_JOBS:
        return Method.HANDBOOK
    return Method.MEAN if jobs < ROBUST_JOBS else Method.ROBUST


def activity_spread(quantity: ArrayLike) -> float:
    """Return the largest over the smallest logged quantity of a kind.

    Parameters
    ----------
    quantity : array_like of float, shape (n,)
        Logged quantities of one kind, above zero.

    Returns
    -------
    float
        Ratio, 1 or more.

    Raises
    ------
    ValueError
        When there is none, or one is not above zero.
    """
    values = np.asarray(quantity, dtype=np.float64)
    if values.size == 0 or not np.all(np.isfinite(values)) or values.min() <= 0:
        raise ValueError(f"quantity must hold figures above zero, got {values[:5]}")
    return float(values.max() / values.min())


def fit_linear(design: ArrayLike, observed: ArrayLike) -> LinearFit:
    """Return the least-squares fit of ``observed`` on the columns of ``design``.

    Parameters
    ----------
    design : array_like of float, shape (n, p)
        Regressors; a column of ones where an intercept is wanted.
    observed : array_like of float, shape (n,)
        Observed figures.

    Returns
    -------
    LinearFit
        Coefficients with covariance, residual standard deviation and degrees of freedom n − p.

    Raises
    ------
    NotEnoughDataError
        When n is not above p, or the columns are not independent.

    Notes
    -----
    QR of the design with its columns scaled to one length.
    """
    matrix, values = np.asarray(design, dtype=np.float64), np.asarray(observed, dtype=np.float64)
    rows, columns = matrix.shape
    if rows <= columns:
        raise NotEnoughDataError(f"{rows} figures cannot carry {columns} coefficients and a residual")
    length = np.linalg.norm(matrix, axis=0)
    if not np.all(length > 0):
        raise NotEnoughDataError("a column of the design is all zero")
    q, r = np.linalg.qr(matrix / length)
    if np.abs(np.diag(r)).min() < 1e-12:
        raise NotEnoughDataError("the columns of the design are not independent")
    inverse = np.linalg.solve(r, np.eye(columns))
    coefficients = (inverse @ (q.T @ values)) / length
    residuals = values - matrix @ coefficients
    # One step of refinement: the residual is fitted once more, which wins back digits on nearly collinear columns.
    coefficients = coefficients + (inverse @ (q.T @ residuals)) / length
    residuals = values - matrix @ coefficients
    variance = float(residuals @ residuals) / (rows - columns)
    covariance = variance * (inverse @ inverse.T) / np.outer(length, length)
    return LinearFit(coefficients, covariance, math.sqrt(variance), rows - columns, residuals)


def fit_line(x: ArrayLike, y: ArrayLike, origin: float = 0.0) -> LinearFit:
    """Return the least-squares line.

    Parameters
    ----------
    x, y : array_like of float, shape (n,)
        Figures.
    origin : float
        Point of x where the intercept is taken.

    Returns
    -------
    LinearFit
        Two coefficients: the value at ``origin`` and the slope.

    Notes
    -----
    Source: JCGM 100:2008 (GUM), H.3.2.
    """
    shifted = np.asarray(x, dtype=np.float64) - origin
    return fit_linear(np.column_stack([np.ones_like(shifted), shifted]), y)


def robust_centre(value: ArrayLike) -> tuple[float, float]:
    """Return the median and a robust standard deviation about it.

    Parameters
    ----------
    value : array_like of float, shape (n,)
        Figures.

    Returns
    -------
    tuple of float
        Median, and 1.4826 times the median absolute deviation.
    """
    values = np.asarray(value, dtype=np.float64)
    centre = float(np.median(values))
    return centre, _MAD_TO_SD * float(np.median(np.abs(values - centre)))


def robust_slope_through_origin(x: ArrayLike, y: ArrayLike) -> tuple[float, float]:
    """Return the Theil-Sen slope of a line through the origin, and its relative standard uncertainty.

    Parameters
    ----------
    x, y : array_like of float, shape (n,)
        Modelled and logged figures, above zero.

    Returns
    -------
    tuple of float
        Slope, and the standard uncertainty of its natural log.

    Raises
    ------
    ValueError
        When a figure is not above zero.

    Notes
    -----
    With one end of every pair at the origin the Theil-Sen slope is the median of the ratios y / x; half of the data
    may be wrong before it breaks. The uncertainty is that of a median, sd x √(π / 2n), with the robust sd.

    Source: P. K. Sen (1968), Journal of the American Statistical Association 63, 1379-1389, from memory.
    """
    modelled, logged = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    if modelled.size == 0 or min(modelled.min(), logged.min()) <= 0:
        raise ValueError("x and y must hold figures above zero")
    centre, sd = robust_centre(np.log(logged / modelled))
    return math.exp(centre), sd * math.sqrt(math.pi / (2 * modelled.size))


def student_t(level: float, freedom: float) -> float:
    """Return the two-sided point of Student's t.

    Parameters
    ----------
    level : float
        Share of outcomes inside, as 0.80.
    freedom : float
        Degrees of freedom, above zero.

    Returns
    -------
    float
        Half width of the interval in standard uncertainties.

    Examples
    --------
    >>> round(student_t(0.95, 4), 3)
    2.776
    """
    from scipy.special import stdtrit

    if not (0 < level < 1 and freedom > 0):
        raise ValueError(f"level must lie between 0 and 1 and freedom above 0, got {level} and {freedom}")
    return float(stdtrit(freedom, (1 + level) / 2))
