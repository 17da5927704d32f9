"""What the shop's earlier months say of its own use, so that a chart's wide band need not hold for ever."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from estimator.pricing.gas_balance import GasVerdict

__all__ = ["OwnRatio", "PastMonth", "own_ratio", "past_month"]


@dataclass(frozen=True, slots=True)
class PastMonth:
    """One gas of one earlier month, before anything was learned."""

    ratio: float
    """Used over modelled."""
    doubt: float
    """Standard uncertainty of the ratio without what all months share."""


@dataclass(frozen=True, slots=True)
class OwnRatio:
    """The shop's own use against the model."""

    ratio: float = 1.0
    doubt: float = 0.0
    """Relative standard uncertainty that stays shared by all work."""
    months: int = 0
    """Earlier months it rests on."""


def past_month(verdict: GasVerdict, modelled_m3: float, shared_doubt: float, modelled_doubt_m3: float) -> PastMonth:
    """Return what one month says of the shop's own ratio.

    Parameters
    ----------
    verdict : GasVerdict
        The month's gas, for what was used and how sure that is.
    modelled_m3 : float
        Modelled gas, stated losses included, above zero [m³].
    shared_doubt : float
        Relative standard uncertainty that all months share.
    modelled_doubt_m3 : float
        Standard uncertainty of ``modelled_m3``, the shared part included [m³].

    Returns
    -------
    PastMonth

    Notes
    -----
    Source: JCGM 100:2008, 5.1.2.
    """
    own_m3 = np.sqrt(max(modelled_doubt_m3**2 - (shared_doubt * modelled_m3) ** 2, 0.0))
    doubt = float(np.hypot(verdict.used_doubt_m3, own_m3)) / modelled_m3
    return PastMonth(verdict.used_m3 / modelled_m3, doubt)


def own_ratio(past: Sequence[PastMonth], shared_doubt: float) -> OwnRatio:
    """Return the shop's own ratio from its earlier months and the model's own doubt.

    Parameters
    ----------
    past : sequence of PastMonth
        Earlier months that were explained.
    shared_doubt : float
        Relative standard uncertainty of the model before any month was closed, above zero.

    Returns
    -------
    OwnRatio
        The model as it is, at its own doubt, without earlier months.

    Notes
    -----
    The weighted mean of the model (1) and the months' ratios, each weighted by its precision. A leak that was always
    there hides in the ratio: the fixed part over the months shows it. Source: weighted least squares.

    Examples
    --------
    >>> learned = own_ratio([PastMonth(1.08, 0.02)] * 4, shared_doubt=0.10)
    >>> round(learned.ratio, 3), round(learned.doubt, 4)
    (1.079, 0.01)
    """
    if not past or shared_doubt <= 0:
        return OwnRatio(1.0, shared_doubt, 0)
    ratios = np.array([1.0, *(month.ratio for month in past)])
    weights = 1.0 / np.square([shared_doubt, *(max(month.doubt, 1e-6) for month in past)])
    return OwnRatio(float(ratios @ weights / weights.sum()), float(1.0 / np.sqrt(weights.sum())), len(past))
