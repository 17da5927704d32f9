"""A low, likely and high figure as a distribution: the split lognormal.

Low is the 10 % point, high the 90 % point, likely the mode on the log scale. Leaves to ``ranges`` what is done
with the draws.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["EXACT", "TAIL", "Spread", "draws", "from_log_sd", "split_lognormal", "stratified_points"]

TAIL = 0.10
"""Share of outcomes under the low figure, and over the high one. Source: definition (an 80 % range)."""

_NORMAL = NormalDist()


@dataclass(frozen=True, slots=True)
class Spread:
    """A split lognormal: two half normals on the log scale that meet at the likely figure.

    Notes
    -----
    The density of the log is continuous and highest at ``log(likely)``; its spread is ``sd_below`` under that and
    ``sd_above`` over it, so that ``sd_below / (sd_below + sd_above)`` of all outcomes lie under the likely figure.

    Source: the two-piece normal distribution; moments after S. John (1982), Communications in Statistics A 11(8),
    879-885, from memory, and checked against numerical integration in the tests.
    """

    likely: float
    sd_below: float
    sd_above: float

    @property
    def share_below(self) -> float:
        """Share of outcomes under the likely figure."""
        both = self.sd_below + self.sd_above
        return self.sd_below / both if both > 0 else 0.5

    @property
    def low(self) -> float:
        """The 10 % point."""
        return float(self.quantile(TAIL))

    @property
    def high(self) -> float:
        """The 90 % point."""
        return float(self.quantile(1 - TAIL))

    @property
    def log_mean(self) -> float:
        """Mean of the natural log."""
        return math.log(self.likely) + math.sqrt(2 / math.pi) * (self.sd_above - self.sd_below)

    @property
    def log_sd(self) -> float:
        """Standard deviation of the natural log."""
        apart = self.sd_above - self.sd_below
        return math.sqrt((1 - 2 / math.pi) * apart**2 + self.sd_below * self.sd_above)

    @property
    def log_sd_about_likely(self) -> float:
        """Root mean square distance of the log from ``log(likely)``: the pull of the handbook in a calibration."""
        return math.hypot(self.log_sd, self.log_mean - math.log(self.likely))

    @property
    def mean(self) -> float:
        """Mean of the figure itself."""
        below = self.share_below * math.exp(self.sd_below**2 / 2) * _NORMAL.cdf(-self.sd_below)
        above = (1 - self.share_below) * math.exp(self.sd_above**2 / 2) * _NORMAL.cdf(self.sd_above)
        return 2 * self.likely * (below + above)

    def quantile(self, share: ArrayLike) -> NDArray[np.float64]:
        """Return the figure that this share of outcomes lies under.

        Parameters
        ----------
        share : array_like of float, any shape
            Shares above 0 and under 1.

        Returns
        -------
        ndarray of float, same shape
            Figures in the unit of ``likely``.
        """
        shares = np.asarray(share, dtype=np.float64)
        if self.sd_below + self.sd_above == 0:
            return np.full(shares.shape, self.likely)
        flat = [self._log_step(p) for p in shares.ravel().tolist()]
        return np.asarray(self.likely * np.exp(np.asarray(flat).reshape(shares.shape)))

    def narrowed(self, share: float) -> Spread:
        """Return the same shape with this share of its spread on the log scale."""
        return Spread(self.likely, self.sd_below * share, self.sd_above * share)

    def _log_step(self, share: float) -> float:
        """Log distance from the likely figure at one share."""
        below = self.share_below
        if share < below:
            return self.sd_below * _NORMAL.inv_cdf(share / (2 * below))
        return -self.sd_above * _NORMAL.inv_cdf(min((1 - share) / (2 * (1 - below)), 0.5))


EXACT = Spread(likely=1.0, sd_below=0.0, sd_above=0.0)
"""A factor of 1 that is not in doubt."""


@lru_cache(maxsize=4096)
def split_lognormal(low: float, likely: float, high: float) -> Spread:
    """Return the split lognormal with these 10 %, likely and 90 % figures.

    Parameters
    ----------
    low, likely, high : float
        Figures of one unit, above zero, in rising order; equal figures leave no spread on that side.

    Returns
    -------
    Spread
        The distribution that has them.

    Raises
    ------
    ValueError
        When a figure is not above zero and finite, or they do not rise.

    Notes
    -----
    The share under the likely figure is found by halving: with it known, both spreads follow from the two quantiles.

    Source: definition.

    Examples
    --------
    >>> band = split_lognormal(0.85, 1.0, 1.40)
    >>> round(band.low, 9), round(band.high, 9), round(band.share_below, 3)
    (0.85, 1.4, 0.378)
    """
    if not (0 < low <= likely <= high < math.inf):
        raise ValueError(f"low, likely and high must be above zero and rise, got {low}, {likely}, {high}")
    below, above = math.log(likely / low), math.log(high / likely)
    if below == 0 and above == 0:
        return Spread(likely, 0.0, 0.0)
    share = _share_below(below, above)
    # The wider side settles the scale; the other follows from the share, also where its own step is nought.
    if above >= below:
        sd_above = above / -_NORMAL.inv_cdf(TAIL / (2 * (1 - share)))
        return Spread(likely, sd_above * share / (1 - share), sd_above)
    sd_below = below / -_NORMAL.inv_cdf(TAIL / (2 * share))
    return Spread(likely, sd_below, sd_below * (1 - share) / share)


def from_log_sd(likely: float, log_sd: float) -> Spread:
    """Return the plain lognormal (both sides alike) about a likely figure.

    Parameters
    ----------
    likely : float
        Centre, above zero.
    log_sd : float
        Standard deviation of the natural log, zero or above.

    Returns
    -------
    Spread
        The distribution.
    """
    if not (likely > 0 and log_sd >= 0):
        raise ValueError(f"likely must be above zero and log_sd zero or above, got {likely} and {log_sd}")
    return Spread(likely, log_sd, log_sd)


def stratified_points(count: int, inputs: int, seed: int) -> NDArray[np.float64]:
    """Return evenly layered points of the unit cube, the same for the same seed.

    Parameters
    ----------
    count : int
        Number of points.
    inputs : int
        Number of inputs.
    seed : int
        Seed of the shuffles.

    Returns
    -------
    ndarray of float, shape (count, inputs)
        Every column holds the middles of ``count`` equal layers, each once.

    Notes
    -----
    Latin hypercube with centred points, its columns made orthogonal before they are ranked, so that chance ties
    between inputs do not widen or narrow their sum. Source: M. D. McKay, R. J. Beckman and W. J. Conover (1979),
    Technometrics 21(2), 239-245; R. L. Iman and W. J. Conover (1982), Communications in Statistics B 11(3), 311-334;
    both from memory.
    """
    if inputs == 0:
        return np.empty((count, 0))
    scores = np.random.default_rng(seed).standard_normal((count, inputs))
    if inputs < count:
        scores = np.linalg.qr(scores - scores.mean(axis=0))[0]
    return np.asarray((scores.argsort(axis=0).argsort(axis=0) + 0.5) / count)


def draws(spreads: Sequence[Spread], count: int, seed: int) -> NDArray[np.float64]:
    """Return layered draws of independent inputs.

    Parameters
    ----------
    spreads : sequence of Spread, length k
        One distribution for each input.
    count : int
        Number of draws.
    seed : int
        Seed of the shuffles.

    Returns
    -------
    ndarray of float, shape (count, k)
        One column for each input, in the unit of its spread.
    """
    middles = (np.arange(count) + 0.5) / count
    ranks = np.floor(stratified_points(count, len(spreads), seed) * count).astype(np.int64)
    drawn = np.empty((count, len(spreads)))
    sorted_draws: dict[Spread, NDArray[np.float64]] = {}
    for column, spread in enumerate(spreads):
        if spread not in sorted_draws:
            sorted_draws[spread] = _many_quantiles(spread, middles)
        drawn[:, column] = sorted_draws[spread][ranks[:, column]]
    return drawn


def _many_quantiles(spread: Spread, shares: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return many quantiles at once, within one part in a million of the spread."""
    if spread.sd_below + spread.sd_above == 0:
        return np.full(shares.shape, spread.likely)
    below = spread.share_below
    steps = np.where(
        shares < below,
        spread.sd_below * _normal_quantiles(np.minimum(shares / (2 * below), 0.5)) if below > 0 else 0.0,
        -spread.sd_above * _normal_quantiles(np.minimum((1 - shares) / (2 * (1 - below)), 0.5)) if below < 1 else 0.0,
    )
    return np.asarray(spread.likely * np.exp(steps))


def _normal_quantiles(shares: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return quantiles of the standard normal, straight between neighbours of a fine grid in log odds."""
    odds, quantiles = _normal_grid()
    return np.interp(np.log(shares / (1 - shares)), odds, quantiles)


@lru_cache(maxsize=1)
def _normal_grid() -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    odds = np.linspace(-14.0, 14.0, 2801)
    return odds, np.array([_NORMAL.inv_cdf(p) for p in (1 / (1 + np.exp(-odds))).tolist()])


def _share_below(below: float, above: float) -> float:
    """Share of outcomes under the likely figure, from the two log steps, by halving."""
    if below == above:
        return 0.5
    least, most = TAIL, 1 - TAIL
    for _ in range(60):
        share = (least + most) / 2
        step_below = -share * _NORMAL.inv_cdf(TAIL / (2 * share))
        step_above = -(1 - share) * _NORMAL.inv_cdf(TAIL / (2 * (1 - share)))
        if step_below * above > step_above * below:
            most = share
        else:
            least = share
    return (least + most) / 2
