"""The pull of the handbook: shop figures are drawn towards it, the more so the fewer and the older they are."""

from __future__ import annotations

import math
from dataclasses import dataclass

__all__ = ["Drawn", "age_weight", "credibility", "draw_towards", "fade"]


@dataclass(frozen=True, slots=True)
class Drawn:
    """A factor after the pull of the handbook."""

    factor: float
    log_u: float
    """Standard uncertainty of the factor's natural log."""
    weight: float
    """Weight of the shop's own data, 0 to 1; the rest is the handbook's."""


def credibility(observations: float, process_variance: float, variance_of_means: float) -> float:
    """Return the weight of a shop's own mean against the handbook (Bühlmann's credibility).

    Parameters
    ----------
    observations : float
        Number of observations, or the sum of their weights.
    process_variance : float
        Variance from job to job inside one shop.
    variance_of_means : float
        Variance of the true means from shop to shop: the handbook's band.

    Returns
    -------
    float
        Z = n / (n + k), with k = process variance over variance of means.

    Raises
    ------
    ValueError
        When a figure is below zero.

    Notes
    -----
    Source: H. Bühlmann (1967), ASTIN Bulletin 4(3), 199-207, from memory.

    Examples
    --------
    Dice of 4, 6 and 8 sides in shares of 60, 30 and 10 %: the variances inside a die average
    0.6 x 15/12 + 0.3 x 35/12 + 0.1 x 63/12 = 2.15, and its means 2.5, 3.5 and 4.5 vary by 0.45.

    >>> round(credibility(1, process_variance=2.15, variance_of_means=0.45), 4)
    0.1731
    """
    if min(observations, process_variance, variance_of_means) < 0:
        raise ValueError("observations and variances must be zero or above")
    if observations == 0 or variance_of_means == 0:
        return 0.0
    return observations / (observations + process_variance / variance_of_means)


def draw_towards(factor: float, log_u: float, prior_factor: float, prior_log_sd: float) -> Drawn:
    """Return a fitted factor drawn towards the handbook on the log scale.

    Parameters
    ----------
    factor : float
        The shop's own fitted factor, above zero.
    log_u : float
        Standard uncertainty of its natural log, zero or above; infinite where there is no data.
    prior_factor : float
        The handbook's factor, above zero (1 where nothing was calibrated before).
    prior_log_sd : float
        Standard deviation of the handbook's band on the log scale.

    Returns
    -------
    Drawn
        Inverse-variance mean of the two logs: narrower than either.

    Raises
    ------
    ValueError
        When a factor is not above zero, or an uncertainty is below zero.

    Notes
    -----
    The weight is Bühlmann's credibility with ``log_u²`` = process variance / n. Source: definition.

    Examples
    --------
    >>> drawn = draw_towards(factor=1.21, log_u=0.1, prior_factor=1.0, prior_log_sd=0.1)
    >>> round(drawn.factor, 3), round(drawn.log_u, 4), drawn.weight
    (1.1, 0.0707, 0.5)
    """
    if min(factor, prior_factor) <= 0 or min(log_u, prior_log_sd) < 0:
        raise ValueError("factors must be above zero and uncertainties zero or above")
    weight = 0.0 if math.isinf(log_u) else credibility(1.0, log_u**2, prior_log_sd**2)
    log_factor = weight * math.log(factor) + (1 - weight) * math.log(prior_factor)
    log_u_after = prior_log_sd * math.sqrt(1 - weight)
    return Drawn(math.exp(log_factor), log_u_after, weight)


def age_weight(age_days: float, half_life_days: float) -> float:
    """Return the weight that an observation keeps at its age.

    Parameters
    ----------
    age_days : float
        Age; a date ahead counts as no age [days].
    half_life_days : float
        Age at which half of the weight is left; infinite where nothing fades [days].

    Returns
    -------
    float
        Weight between 0 and 1.

    Raises
    ------
    ValueError
        When the half-life is not above zero.

    Examples
    --------
    >>> age_weight(730, half_life_days=365)
    0.25
    """
    if not half_life_days > 0:
        raise ValueError(f"half_life_days must be above zero, got {half_life_days}")
    return float(0.5 ** (max(age_days, 0.0) / half_life_days))


def fade(factor: float, log_u: float, prior_log_sd: float, *, age_days: float, half_life_days: float) -> Drawn:
    """Return a factor calibrated some time ago as it stands today: nearer to the handbook, and less sure.

    Parameters
    ----------
    factor : float
        Calibrated factor, above zero.
    log_u : float
        Standard uncertainty of its natural log when it was calibrated.
    prior_log_sd : float
        Standard deviation of the handbook's band on the log scale.
    age_days : float
        Days since it was calibrated [days].
    half_life_days : float
        Setting of the shop book; infinite where nothing fades [days].

    Returns
    -------
    Drawn
        The faded factor; its weight is what is left of the calibration.

    Notes
    -----
    What the calibration knew beyond the handbook (its precision less the handbook's) loses half of itself in each
    half-life, and the log of the factor moves back in proportion. Source: definition.
    """
    if prior_log_sd <= 0 or log_u >= prior_log_sd:
        return Drawn(factor, log_u, 0.0)
    known = (1 / log_u**2 if log_u > 0 else math.inf) - 1 / prior_log_sd**2
    left = known * age_weight(age_days, half_life_days)
    if math.isinf(left):
        return Drawn(factor, log_u, 1.0)
    weight_then, weight_now = (part * prior_log_sd**2 / (1 + part * prior_log_sd**2) for part in (known, left))
    own_log = 0.0 if weight_then == 0 else math.log(factor) / weight_then
    return Drawn(math.exp(weight_now * own_log), 1 / math.sqrt(left + 1 / prior_log_sd**2), weight_now)
