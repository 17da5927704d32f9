"""Does the logged work explain the gas? Used against expected, with the doubt of both, a month's gases as a family.

Knows no workbook: amounts come in as arrays of m³ at 15 °C and 101.325 kPa with their standard uncertainties.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["Explanation", "GasVerdict", "balance", "coverage_factor", "explain", "smallest_seen"]


_SECOND_FAULT = 3.0


class Explanation(StrEnum):
    """What a month's difference looks like, in the words the owner reads."""

    EXPLAINED = "the work explains the gas"
    ONE_GAS = "one gas only went missing: a leak, a flame left burning or cylinders that came short"
    ALL_GASES = "all gases went missing together: work that is not in the log"
    TOO_LITTLE = "less gas was used than the work needs: a count, a note or the log is wrong"
    MIXED = "the gases do not agree: a count, a note or the log is wrong"


@dataclass(frozen=True, slots=True)
class GasVerdict:
    """One gas of one month; m³."""

    gas: str
    used_m3: float
    used_doubt_m3: float
    expected_m3: float
    expected_doubt_m3: float
    limit_m3: float
    """Expanded uncertainty of the difference: beyond it the difference is real."""

    @property
    def difference_m3(self) -> float:
        """Used less expected."""
        return self.used_m3 - self.expected_m3

    @property
    def explained(self) -> bool:
        """Whether readings and model can explain the difference."""
        return abs(self.difference_m3) <= self.limit_m3

    @property
    def explained_m3(self) -> float:
        """The part of the difference that readings and model can explain."""
        return float(np.clip(self.difference_m3, -self.limit_m3, self.limit_m3))

    @property
    def unexplained_m3(self) -> float:
        """The part beyond; zero when the difference is explained."""
        return self.difference_m3 - self.explained_m3


def coverage_factor(gases: int, level: float = 0.95) -> float:
    """Return the factor on the standard uncertainty for a family of gases.

    Parameters
    ----------
    gases : int
        Gases that are tested together, 1 or more.
    level : float
        Share of months without a fault in which no gas of the family is called unexplained.

    Returns
    -------
    float

    Raises
    ------
    ValueError
        When there is no gas or the level is not between 0 and 1.

    Notes
    -----
    Bonferroni: each gas is tested at ``1 - (1 - level) / gases``, two-sided, normal. Source: definition.

    Examples
    --------
    >>> round(coverage_factor(1), 3), round(coverage_factor(2), 3)
    (1.96, 2.241)
    """
    from scipy.special import ndtri

    if gases < 1 or not 0 < level < 1:
        raise ValueError(f"gases must be 1 or more and level between 0 and 1, got {gases} and {level}")
    return float(ndtri(1 - (1 - level) / (2 * gases)))


def balance(
    gases: Sequence[str], used_m3: ArrayLike, used_doubt_m3: ArrayLike, expected_m3: ArrayLike,
    expected_doubt_m3: ArrayLike, level: float = 0.95,
) -> list[GasVerdict]:  # fmt: skip
    """Set used gas beside expected gas, for the gases of one month.

    Parameters
    ----------
    gases : sequence of str, length n
        Names.
    used_m3, used_doubt_m3 : array_like of float, shape (n,)
        Gas that left the cylinders and its standard uncertainty [m³].
    expected_m3, expected_doubt_m3 : array_like of float, shape (n,)
        Gas that the logged work needs, stated losses included, and its standard uncertainty [m³].
    level : float
        As for ``coverage_factor``.

    Returns
    -------
    list of GasVerdict

    Raises
    ------
    ValueError
        When an uncertainty is below zero or a value is not finite.

    Notes
    -----
    Explained when ``|used - expected| <= k sqrt(u_used² + u_expected²)``. Source: JCGM 100:2008, 5.1.2 and 6.2.

    Examples
    --------
    >>> [v.explained for v in balance(["oxygen", "acetylene"], [110, 20], [1, 0.2], [100, 20.3], [2, 0.4])]
    [False, True]
    """
    used, used_u = _finite(used_m3), _finite(used_doubt_m3)
    expected, expected_u = _finite(expected_m3), _finite(expected_doubt_m3)
    if np.any(used_u < 0) or np.any(expected_u < 0):
        raise ValueError("standard uncertainties must be zero or above")
    limit = coverage_factor(len(gases), level) * np.hypot(used_u, expected_u) if len(gases) else np.empty(0)
    rows = zip(gases, used, used_u, expected, expected_u, limit, strict=True)
    return [GasVerdict(gas, *(float(value) for value in values)) for gas, *values in rows]


def explain(verdicts: Sequence[GasVerdict]) -> Explanation:
    """Say what the differences of a month look like.

    Parameters
    ----------
    verdicts : sequence of GasVerdict
        The gases of one month.

    Returns
    -------
    Explanation

    Notes
    -----
    When a gas is unexplained, the smallest weighted sum of squares over these pictures decides: one gas alone, each in
    turn, or all gases by one share of their expected amounts. With one gas the two cannot be told apart, and one gas
    alone is said. A second fault is only said when another gas is off by three standard uncertainties as well.
    Source: least squares; definition.
    """
    if all(v.explained for v in verdicts):
        return Explanation.EXPLAINED
    expected = np.array([max(v.expected_m3, 1e-9) for v in verdicts])
    share = np.array([v.difference_m3 for v in verdicts]) / expected
    doubt = np.array([np.hypot(v.used_doubt_m3, v.expected_doubt_m3) for v in verdicts]) / expected
    weight = 1.0 / np.maximum(doubt, 1e-12) ** 2
    common = float(np.sum(weight * share) / np.sum(weight))
    alone = [float(np.sum(weight * share**2) - weight[i] * share[i] ** 2) for i in range(len(verdicts))]
    together = float(np.sum(weight * (share - common) ** 2))
    best = int(np.argmin(alone))
    if len(verdicts) > 1 and together < alone[best]:
        return Explanation.ALL_GASES if common > 0 else Explanation.TOO_LITTLE
    others = np.delete(share / doubt, best)
    if np.any(np.abs(others) > _SECOND_FAULT):
        return Explanation.MIXED
    return Explanation.ONE_GAS if share[best] > 0 else Explanation.TOO_LITTLE


def smallest_seen(verdict: GasVerdict, power: float = 0.95) -> float:
    """Return the smallest loss, as a share of the expected gas, that would be seen nearly always.

    Parameters
    ----------
    verdict : GasVerdict
        A gas of a month.
    power : float
        Share of months in which such a loss is found.

    Returns
    -------
    float
        Loss ÷ expected gas; infinite when nothing was expected.

    Notes
    -----
    The limit plus the one-sided normal point of the power. Source: definition.

    Examples
    --------
    >>> verdict = balance(["oxygen"], [100], [1.0], [100], [2.0])[0]
    >>> round(smallest_seen(verdict), 3)
    0.081
    """
    from scipy.special import ndtri

    if verdict.expected_m3 <= 0:
        return float("inf")
    doubt = float(np.hypot(verdict.used_doubt_m3, verdict.expected_doubt_m3))
    return float((verdict.limit_m3 + ndtri(power) * doubt) / verdict.expected_m3)


def _finite(values: ArrayLike) -> NDArray[np.float64]:
    array = np.asarray(values, dtype=np.float64)
    if not np.all(np.isfinite(array)):
        raise ValueError(f"amounts must be finite, got {array}")
    return array
