"""Uncertainty carried through a formula to first order (JCGM 100:2008, 5.2): what the engine's draws are set beside."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["Propagated", "correlation_of", "covariance_of", "jacobian", "propagate_first_order"]

Formula = Callable[[NDArray[np.float64]], ArrayLike]
"""A formula of inputs, shape (k,), that returns its outputs, shape (m,)."""

_STEP = float(np.finfo(np.float64).eps ** (1 / 3))


@dataclass(frozen=True, slots=True)
class Propagated:
    """Outputs of a formula with their covariance."""

    values: NDArray[np.float64]
    covariance: NDArray[np.float64]

    @property
    def standard_uncertainties(self) -> NDArray[np.float64]:
        """Standard uncertainty of each output."""
        return np.asarray(np.sqrt(np.diag(self.covariance)))

    @property
    def correlation(self) -> NDArray[np.float64]:
        """Correlation matrix of the outputs."""
        return correlation_of(self.covariance)


def covariance_of(
    standard_uncertainty: ArrayLike,
    correlation: ArrayLike | None = None,
    *,
    common: Sequence[ArrayLike] = (),
) -> NDArray[np.float64]:
    """Return the covariance of inputs from their uncertainties, correlations and shared errors.

    Parameters
    ----------
    standard_uncertainty : array_like of float, shape (k,)
        Standard uncertainty of each input, in its unit.
    correlation : array_like of float, shape (k, k), optional
        Correlation matrix; none where the inputs are independent.
    common : sequence of array_like of float, shape (k,)
        One entry for each error that several inputs share: the standard uncertainty that it gives to each.

    Returns
    -------
    ndarray of float, shape (k, k)
        Covariance matrix.

    Notes
    -----
    Source: JCGM 100:2008 (GUM), 5.2 and F.1.2.3.
    """
    u = np.asarray(standard_uncertainty, dtype=np.float64)
    matrix = np.outer(u, u) * (np.eye(u.size) if correlation is None else np.asarray(correlation, dtype=np.float64))
    for shared in common:
        effect = np.asarray(shared, dtype=np.float64)
        matrix = matrix + np.outer(effect, effect)
    return np.asarray(matrix)


def correlation_of(covariance: ArrayLike) -> NDArray[np.float64]:
    """Return the correlation matrix of a covariance matrix.

    Parameters
    ----------
    covariance : array_like of float, shape (k, k)
        Covariance matrix with variances above zero.

    Returns
    -------
    ndarray of float, shape (k, k)
        Correlation matrix.
    """
    matrix = np.asarray(covariance, dtype=np.float64)
    u = np.sqrt(np.diag(matrix))
    return np.asarray(matrix / np.outer(u, u))


def jacobian(formula: Formula, inputs: ArrayLike) -> NDArray[np.float64]:
    """Return the sensitivity of each output to each input, by central differences.

    Parameters
    ----------
    formula : callable
        Formula of the inputs.
    inputs : array_like of float, shape (k,)
        Point at which it is taken; the step is relative, and absolute at zero.

    Returns
    -------
    ndarray of float, shape (m, k)
        Sensitivities.
    """
    point = np.asarray(inputs, dtype=np.float64)
    columns = []
    for index, value in enumerate(point):
        step = _STEP * (abs(value) or 1.0)
        up, down = point.copy(), point.copy()
        up[index] += step
        down[index] -= step
        above, below = (np.atleast_1d(np.asarray(formula(at), dtype=np.float64)) for at in (up, down))
        columns.append((above - below) / (up[index] - down[index]))
    return np.column_stack(columns)


def propagate_first_order(formula: Formula, inputs: ArrayLike, covariance: ArrayLike) -> Propagated:
    """Return the outputs of a formula with the covariance that the inputs give them.

    Parameters
    ----------
    formula : callable
        Formula of the inputs, shape (k,), that returns its outputs, shape (m,).
    inputs : array_like of float, shape (k,)
        Best estimates.
    covariance : array_like of float, shape (k, k)
        Their covariance, from ``covariance_of``.

    Returns
    -------
    Propagated
        Outputs and their covariance.

    Notes
    -----
    U_y = C U_x Cᵀ with C by central differences. Source: JCGM 100:2008 (GUM), 5.1.2 and 5.2.2; for several outputs
    JCGM 102:2011, 6.2.
    """
    point, matrix = np.asarray(inputs, dtype=np.float64), np.asarray(covariance, dtype=np.float64)
    sensitivity = jacobian(formula, point)
    values = np.atleast_1d(np.asarray(formula(point), dtype=np.float64))
    return Propagated(values, sensitivity @ matrix @ sensitivity.T)
