"""What the shop logged beside what the handbook says of it: one observation is one figure that was measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from estimator.learning.ranges import Term

__all__ = ["Kind", "Observation", "ObservationTable", "observation_table"]


class Kind(StrEnum):
    """What was measured, the surest measurement of each thing first."""

    CYLINDER_SPAN = "cylinder span"
    """Gas of a cylinder between the day it went on and the day it came off, over the jobs between."""
    GAUGE = "gauge readings"
    """Gas between two readings on one row of the log."""
    FLAME_TIME = "torch-lit time"
    PAID_TIME = "paid time"


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


@dataclass(frozen=True, slots=True)
class ObservationTable:
    """Observations as arrays: n observations, t terms, k factors."""

    log_logged: NDArray[np.float64]
    """Shape (n,)."""
    reading_u: NDArray[np.float64]
    """Shape (n,)."""
    owner: NDArray[np.int64]
    """Observation of each term, shape (t,)."""
    amount: NDArray[np.float64]
    """Shape (t,)."""
    powers: NDArray[np.float64]
    """Shape (t, k)."""

    def model(self, log_factors: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Return the log of each modelled figure, shape (n,), and its slope by each log factor, shape (n, k)."""
        products = self.amount * np.exp(self.powers @ log_factors)
        count = len(self.log_logged)
        totals = np.bincount(self.owner, weights=products, minlength=count)
        slopes = np.zeros((count, self.powers.shape[1]))
        np.add.at(slopes, self.owner, products[:, np.newaxis] * self.powers)
        return np.log(totals), slopes / totals[:, np.newaxis]

    def rows(self, keep: NDArray[np.bool_]) -> ObservationTable:
        """Return the table of some of the observations."""
        renumbered = np.cumsum(keep) - 1
        terms = keep[self.owner]
        return ObservationTable(
            self.log_logged[keep],
            self.reading_u[keep],
            renumbered[self.owner[terms]],
            self.amount[terms],
            self.powers[terms],
        )


def observation_table(observations: Sequence[Observation], factors: Sequence[str]) -> ObservationTable:
    """Return observations as arrays.

    Parameters
    ----------
    observations : sequence of Observation
        Observations, each with a modelled figure above zero.
    factors : sequence of str
        Names of the factors, in the order of the columns; shared errors stand among them.

    Returns
    -------
    ObservationTable
        Powers of terms and of shared errors by factor.

    Raises
    ------
    ValueError
        When a logged or modelled figure is not above zero, or a factor is not named.
    """
    place = {name: column for column, name in enumerate(factors)}
    owner: list[int] = []
    amount: list[float] = []
    powers: list[NDArray[np.float64]] = []
    for index, seen in enumerate(observations):
        if not (seen.logged > 0 and seen.modelled > 0):
            raise ValueError(f"{seen.what}: logged and modelled must be above zero, got {seen.logged}, {seen.modelled}")
        for term in seen.terms:
            row = np.zeros(len(factors))
            for name, power in (*term.powers.items(), *((shared, 1.0) for shared in seen.shared)):
                if name not in place:
                    raise ValueError(f"{seen.what} names the factor {name!r}, which is not given")
                row[place[name]] += power
            owner.append(index)
            amount.append(term.amount)
            powers.append(row)
    return ObservationTable(
        np.log([seen.logged for seen in observations]),
        np.array([seen.reading_u for seen in observations], dtype=np.float64),
        np.array(owner, dtype=np.int64),
        np.array(amount, dtype=np.float64),
        np.array(powers, dtype=np.float64).reshape(len(amount), len(factors)),
    )
