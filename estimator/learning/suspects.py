"""Why a logged figure may be odd: known slips of the pen, each with the ratio that it leaves behind."""

from __future__ import annotations

import math
from dataclasses import dataclass

from estimator.learning.observation import Kind

__all__ = ["ODD_WEIGHT", "Slip", "likely_slip"]

ODD_WEIGHT = 0.5
"""An observation under this weight is shown as odd, with the likely reason."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A slip of the pen and the ratio, logged over expected, that it leaves."""

    ratio: float
    kinds: frozenset[Kind]
    reason: str


_TIMES = frozenset({Kind.FLAME_TIME, Kind.PAID_TIME})
_GASES = frozenset({Kind.CYLINDER_SPAN, Kind.GAUGE})
_ALL = _TIMES | _GASES
_SLIPS = (
    Slip(1 / 60, _TIMES, "hours may stand where minutes belong"),
    Slip(60, _TIMES, "seconds may stand where minutes belong"),
    Slip(1 / 25.4, _ALL, "the length may be in millimetres where inches were meant, or the other way round"),
    Slip(25.4, _ALL, "the length may be logged in inches and read as millimetres"),
    Slip(1 / 3.28, _ALL, "the length may be in feet and read as metres"),
    Slip(3.28, _ALL, "the length may be in metres and read as feet"),
    Slip(10, _ALL, "a decimal point may have slipped"),
    Slip(0.1, _ALL, "a decimal point may have slipped"),
    Slip(1 / 14.5, _GASES, "bar may stand where psi was read"),
    Slip(14.5, _GASES, "psi may stand where bar was read"),
    Slip(2, _TIMES, "two people's time may be logged, or the row stands twice"),
    Slip(0.5, _TIMES, "one of two people's time, or half of the pieces, may be missing"),
    Slip(2, _GASES, "another job may have used the cylinder, or the flame was left lit"),
    Slip(0.5, _GASES, "a cylinder may have been changed between the readings, or a job was worked from another one"),
)


def likely_slip(kind: Kind, log_ratio: float, scatter: float) -> str:
    """Return the likely reason why a figure is odd, in words.

    Parameters
    ----------
    kind : Kind
        What was measured.
    log_ratio : float
        Natural log of logged over expected.
    scatter : float
        Standard deviation of the kind's ordinary scatter, on the log scale.

    Returns
    -------
    str
        A known slip whose ratio fits within two standard deviations (at least 15 %), else what the direction alone
        suggests.

    Notes
    -----
    The ratios are exact or by count; that these slips are the usual ones is common practice, no source.

    Examples
    --------
    >>> likely_slip(Kind.PAID_TIME, math.log(1 / 61), 0.15)
    'hours may stand where minutes belong'
    >>> likely_slip(Kind.CYLINDER_SPAN, math.log(1.4), 0.05)
    'more gas than the work explains: a flame left lit, a leak, or work that was not logged'
    """
    fits = [slip for slip in _SLIPS if kind in slip.kinds]
    nearest = min(fits, key=lambda slip: abs(log_ratio - math.log(slip.ratio)))
    if abs(log_ratio - math.log(nearest.ratio)) <= max(2 * scatter, math.log(1.15)):
        return nearest.reason
    if kind in _GASES:
        if log_ratio > 0:
            return "more gas than the work explains: a flame left lit, a leak, or work that was not logged"
        return "less gas than the work needs: a cylinder changed and not noted, or metres that were not burnt"
    if log_ratio > 0:
        return "more time than the work explains: waiting, rework, or work that was not logged"
    return "less time than the work needs: minutes left out, or pieces that were not made"
