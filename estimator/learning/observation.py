"""What the shop logged beside what the handbook says of it: one observation is one figure that was measured."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from estimator.learning.ranges import Term

__all__ = ["Kind", "Observation", "PartTerm"]


class Kind(StrEnum):
    """What was measured, the surest measurement of each thing first."""

    CYLINDER_SPAN = "cylinder span"
    """Gas of a cylinder between the day it went on and the day it came off, over the jobs between."""
    GAUGE = "gauge readings"
    """Gas between two readings on one row of the log."""
    FLAME_TIME = "torch-lit time"
    PAID_TIME = "paid time"


@dataclass(frozen=True, slots=True)
class PartTerm(Term):
    """A term of which the observation holds a part that nobody measured: work of a day on which a cylinder was changed.

    ``amount`` is the part when all parts are equal; all parts of one whole add to what was done.
    """

    whole: str
    """What is parted: ``oxygen on 2026-03-05``."""
    part: str
    """Whose part it is: the cylinder."""
    of: int
    """Number of parts of the whole."""


@dataclass(frozen=True, slots=True)
class Observation:
    """One logged figure and the terms that the handbook's model gives it, every factor at 1."""

    kind: Kind
    what: str
    """As shown to people: ``oxygen from O-17``, ``hours of J-104``."""
    logged: float
    """In the unit of the terms, above zero: minutes, or m³ at 15 °C and 101.325 kPa."""
    terms: tuple[Term, ...]
    jobs: tuple[str, ...]
    when: date
    reading_u: float = 0.0
    """Relative standard uncertainty of the reading itself (scale divisions, rounding)."""
    shared: tuple[str, ...] = ()
    """Errors that it shares with others of its instrument, by name: ``oxygen gauge``."""
    place: str = ""
    """Sheet and row it comes from."""

    @property
    def modelled(self) -> float:
        """The handbook's figure, every factor at 1."""
        return float(sum(term.amount for term in self.terms))

    @property
    def gas(self) -> str:
        """The quantity measured, as its terms name it."""
        return self.terms[0].quantity
