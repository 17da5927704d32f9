"""Many factors from many logged figures at once: a robust regression over the work of each job, handbook included.

A job that mixes tips or thicknesses is not divided by a total; each of its terms speaks for its own factors.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.learning.fit import FEWEST_JOBS, robust_centre
from estimator.learning.observation_table import ObservationTable

__all__ = ["JointFit", "Scatter", "fit_jointly"]

_ROUNDS = 60
_SETTLED, _NEARLY = 1e-6, 1e-4
"""Longest step (log) at which a fit has settled; one that starts from another fit only foretells: nearly is enough."""
_WEIGHT_FREEDOM = 4.0
"""Degrees of freedom of the Student's t whose weights the robust fit uses; 4 is the customary choice."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Scatter:
    """What is expected of one kind's scatter before the data speak: job to job, on the log scale."""

    prior_sd: float
    prior_weight: float
    """Number of observations that the expectation is worth."""


@dataclass(frozen=True, slots=True)
class JointFit:
    """Log factors with their covariance, and what was made of each observation."""

    log_factors: Floats
    """Shape (k,)."""
    covariance: Floats
    """Shape (k, k): standard, to be widened by Student's t."""
    scatter: Floats
    """Standard deviation of each kind, shape (kinds,)."""
    weights: Floats
    """Weight of each observation, 0 to 1, shape (n,): 1 where nothing is odd about it."""
    residuals: Floats
    """Log of logged over fitted, shape (n,)."""
    slopes: Floats
    """Slope of each observation's log by each log factor, shape (n, k)."""


def fit_jointly(
    table: ObservationTable,
    prior_log_sd: Floats,
    kind: NDArray[np.int64],
    scatters: list[Scatter],
    age_weight: Floats,
    start: Floats | None = None,
) -> JointFit:
    """Return the factors that agree best with the log and with the handbook.

    Parameters
    ----------
    table : ObservationTable
        n observations over k factors.
    prior_log_sd : ndarray of float, shape (k,)
        Standard deviation of each factor's handbook band on the log scale, above zero.
    kind : ndarray of int, shape (n,)
        Kind of each observation, an index into ``scatters``.
    scatters : list of Scatter
        One for each kind.
    age_weight : ndarray of float, shape (n,)
        Weight that each observation keeps at its age, above 0 to 1.
    start : ndarray of float, shape (k,), optional
        Log factors of a fit of nearly the same observations; else the handbook.

    Returns
    -------
    JointFit
        The fit; with no observations the handbook.

    Notes
    -----
    Lognormal noise about a sum of products; the pull of the handbook is a normal prior on the log factors. Gauss-Newton
    with each step solved by QR, never by normal equations. Robust weights are those of a Student's t with 4 degrees of
    freedom (K. L. Lange, R. J. A. Little and J. M. G. Taylor 1989, Journal of the American Statistical Association 84,
    881-896, from memory), started from the kind's median so that a minority of wrong lines cannot set the start. The
    scatter of a kind is its robust spread, drawn towards the expected one.
    """
    count, factors = len(table.log_logged), len(prior_log_sd)
    log_factors = np.zeros(factors) if start is None else start
    scatter = np.array([each.prior_sd for each in scatters], dtype=np.float64)
    weights = np.ones(count)
    if count == 0:
        return JointFit(log_factors, np.diag(prior_log_sd**2), scatter, weights, np.zeros(0), np.zeros((0, factors)))
    for round_number in range(_ROUNDS):
        modelled, slopes = table.model(log_factors)
        residuals = table.log_logged - modelled
        if round_number > 0 or start is not None:
            scatter = _scatter(residuals, slopes, prior_log_sd, kind, scatters, table.reading_u)
        centred = residuals - _medians(residuals, kind) if round_number < 3 and start is None else residuals
        sd = np.hypot(scatter[kind], table.reading_u)
        weights = _odd_weight(centred / sd)
        pull = np.sqrt(weights * age_weight) / sd
        design = np.vstack([slopes * pull[:, np.newaxis], np.diag(1 / prior_log_sd)])
        target = np.concatenate([residuals * pull, -log_factors / prior_log_sd])
        q, r = np.linalg.qr(design)
        step = np.linalg.solve(r, q.T @ target)
        longest = float(np.abs(step).max(initial=0.0))
        log_factors = log_factors + step * min(1.0, 1.0 / longest if longest > 0 else 1.0)
        if longest < (_SETTLED if start is None else _NEARLY) and (round_number > 3 or start is not None):
            break
    inverse = np.linalg.solve(r, np.eye(factors))
    modelled, slopes = table.model(log_factors)
    return JointFit(log_factors, inverse @ inverse.T, scatter, weights, table.log_logged - modelled, slopes)


def _odd_weight(standardised: Floats) -> Floats:
    """Weight of residuals by Student's t, scaled to 1 for a residual of nought and kept at 1 up to one sd."""
    raw = (_WEIGHT_FREEDOM + 1) / (_WEIGHT_FREEDOM + standardised**2)
    return np.minimum(raw, 1.0)


def _medians(residuals: Floats, kind: NDArray[np.int64]) -> Floats:
    """Median residual of each observation's kind; nought where a kind has too few to have a middle."""
    medians = np.zeros(int(kind.max()) + 1)
    for index in np.unique(kind):
        if np.count_nonzero(kind == index) >= FEWEST_JOBS:
            medians[index] = np.median(residuals[kind == index])
    return medians[kind]


def _scatter(
    residuals: Floats,
    slopes: Floats,
    prior_log_sd: Floats,
    kind: NDArray[np.int64],
    scatters: list[Scatter],
    reading_u: Floats,
) -> Floats:
    """Job-to-job standard deviation of each kind, readings' own uncertainty taken off."""
    found = np.array([each.prior_sd for each in scatters], dtype=np.float64)
    for index, expected in enumerate(scatters):
        mine = kind == index
        count = int(mine.sum())
        if count == 0:
            continue
        own = residuals[mine]
        freedom = max(count - _parameters_used(slopes[mine], prior_log_sd, expected.prior_sd), 1.0)
        square = robust_centre(np.concatenate([own, -own]))[1] ** 2 * count / freedom
        square = max(square - float(np.mean(reading_u[mine] ** 2)), 0.0)
        total = expected.prior_weight * expected.prior_sd**2 + freedom * square
        found[index] = np.sqrt(total / (expected.prior_weight + freedom))
    return found


def _parameters_used(slopes: Floats, prior_log_sd: Floats, noise_sd: float) -> float:
    """How many factors the observations of a kind can really set, the handbook's pull counted."""
    strength = np.linalg.svd(slopes * prior_log_sd / noise_sd, compute_uv=False) ** 2
    return float(np.sum(strength / (1 + strength)))
