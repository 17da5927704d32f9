"""What is said of a draw on acetylene: within its limit, a caution, a warning or a stop; how many cylinders it needs.

Cutting and welding tips are held against the rated content, heating tips against what is left now. The fractions are
the shop book's; a supplier's written figure goes before them.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from estimator.quantities.draw import cylinders_to_manifold, draw_limit_m3_h
from estimator.quantities.ranges import above_zero, within, zero_or_above

__all__ = ["DrawLevel", "DrawRules", "DrawVerdict", "draw_verdict"]


class DrawLevel(StrEnum):
    """How hard a draw is, mildest first."""

    WITHIN = "within"
    CAUTION = "caution"
    """Within the limit of a full cylinder, over that of what is left in it now."""
    WARNING = "warning"
    STOP = "stop"


@dataclass(frozen=True, slots=True)
class DrawRules:
    """Shares of content an hour [1/h]."""

    continuous_per_h: float
    intermittent_per_h: float
    full_stop_per_h: float
    """Over this share of a full cylinder nothing is lit."""
    heating_stop_per_h: float
    """Over this share of what is left no heating tip is lit: 1/10, or the supplier's written figure."""


@dataclass(frozen=True, slots=True)
class DrawVerdict:
    """What is said of one draw."""

    level: DrawLevel
    limit_m3_h: float
    """The limit that the headline rests on, of the cylinders together [m³/h]."""
    cylinders_as_they_are: int | None
    """Cylinders like this one to manifold by the headline's share; None when it is empty."""


def draw_verdict(
    draw_m3_h: float,
    *,
    rated_m3: float,
    now_m3: float,
    cylinders: int = 1,
    is_heating: bool,
    is_continuous: bool,
    rules: DrawRules,
) -> DrawVerdict:
    """Return what is said of a draw on equal cylinders, one or a manifold.

    Parameters
    ----------
    draw_m3_h : float
        Fuel draw of all torches together, zero or above [m³/h].
    rated_m3 : float
        Rated content of one cylinder, above zero [m³].
    now_m3 : float
        What is left in one now, zero to rated [m³].
    cylinders : int
        Cylinders that share the draw, one or more.
    is_heating : bool
        Whether a heating tip draws.
    is_continuous : bool
        Whether the work is continuous, so that the stricter share holds.
    rules : DrawRules
        Shares of the shop book.

    Returns
    -------
    DrawVerdict

    Raises
    ------
    ValueError
        When a draw or content is out of range, or there is no cylinder.

    Notes
    -----
    A draw exactly at a limit is within it; one part in 10⁹ is left to rounding. Source: definition.

    Examples
    --------
    >>> rules = DrawRules(1 / 15, 1 / 10, 1 / 7, 1 / 10)
    >>> said = draw_verdict(80.0, rated_m3=150.0, now_m3=150.0, is_heating=True, is_continuous=True, rules=rules)
    >>> str(said.level), said.cylinders_as_they_are
    ('stop', 8)
    """
    draw = float(zero_or_above(draw_m3_h=draw_m3_h))
    rated, now = float(above_zero(rated_m3=rated_m3)), float(within(0.0, rated_m3 * (1 + 1e-9), now_m3=now_m3))
    together = float(above_zero(cylinders=cylinders))
    share = rules.continuous_per_h if is_continuous else rules.intermittent_per_h
    basis = now if is_heating else rated
    level = _level(draw, rated * together, now * together, is_heating=is_heating, share=share, rules=rules)
    return DrawVerdict(
        level,
        float(draw_limit_m3_h(basis * together, share)),
        int(cylinders_to_manifold(draw, basis, share)) if basis > 0 else None,
    )


def _level(draw: float, rated: float, now: float, *, is_heating: bool, share: float, rules: DrawRules) -> DrawLevel:
    def over(content: float, per_h: float) -> bool:
        return draw > content * per_h * (1 + 1e-9)

    if over(rated, rules.full_stop_per_h) or (is_heating and over(now, rules.heating_stop_per_h)):
        return DrawLevel.STOP
    if over(now if is_heating else rated, share):
        return DrawLevel.WARNING
    return DrawLevel.CAUTION if over(now, share) else DrawLevel.WITHIN
