"""What a calibration says: each factor, each observation, and how far off each kind of figure was."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from estimator.learning.fit import Method
from estimator.learning.observation import Kind, Observation
from estimator.learning.spread import Spread
from estimator.learning.suspects import ODD_WEIGHT

__all__ = ["CalibratedFactor", "CalibrationResult", "HandbookFactor", "JudgedObservation", "KindError"]


@dataclass(frozen=True, slots=True)
class HandbookFactor:
    """A factor that can be learned, with the handbook's band about 1."""

    name: str
    """As shown to people and as the terms name it: ``speed, tip 1.2, by hand``."""
    spread: Spread


@dataclass(frozen=True, slots=True)
class CalibratedFactor:
    """What became of one factor."""

    name: str
    value: float
    low: float
    """10 % end of its 80 % interval."""
    high: float
    """90 % end of its 80 % interval."""
    jobs: int
    """Logged jobs, or spans of a cylinder, that speak of it."""
    latest: date | None
    """Day of the latest of them."""
    weight: float
    """Weight of the shop's own data against the handbook, 0 to 1."""
    method: Method
    reason: str
    """Why it was changed, or why not."""
    handbook: Spread

    @property
    def changed(self) -> bool:
        """Whether the log could support a figure of the shop's own."""
        return self.method is not Method.HANDBOOK


@dataclass(frozen=True, slots=True)
class JudgedObservation:
    """One observation beside what was expected of it, with its weight."""

    seen: Observation
    before: float
    """Expected by the handbook."""
    after: float
    """Expected with the calibrated factors."""
    left_out: float
    """Expected with factors learned from all other jobs."""
    weight: float
    """0 to 1, by how well it agrees with the others; nothing is ever dropped."""
    age_weight: float
    """0 to 1, by its age."""
    reason: str
    """Why it weighs less than the others; empty when it does not."""

    @property
    def odd(self) -> bool:
        """Whether it stands out from the others."""
        return self.weight < ODD_WEIGHT


@dataclass(frozen=True, slots=True)
class KindError:
    """How far off the figures of one kind were, as the median of |expected ÷ logged − 1|."""

    kind: Kind
    gas: str
    count: int
    before: float
    left_out: float
    """Each job foretold from all the others."""
    new_job: Spread
    """Logged over expected for a job that is not in the log yet, about 1."""


@dataclass(frozen=True, slots=True)
class CalibrationResult:
    """Factors, observations and errors of one calibration."""

    factors: tuple[CalibratedFactor, ...]
    observations: tuple[JudgedObservation, ...]
    errors: tuple[KindError, ...]

    def factor(self, name: str) -> CalibratedFactor:
        """Return the factor of this name; KeyError when there is none."""
        for each in self.factors:
            if each.name == name:
                return each
        raise KeyError(name)
