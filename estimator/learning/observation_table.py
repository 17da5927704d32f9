"""Observations as arrays, and what the handbook's model gives for each of them at given factors."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from estimator.learning.observation import Observation, PartTerm

__all__ = ["ObservationTable", "observation_table"]

_NONE = -1


@dataclass(frozen=True, slots=True)
class ObservationTable:
    """Observations as arrays: n observations, t terms, k columns: the factors first, then the parts of shared days."""

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
    part: NDArray[np.int64]
    """Column of each term's part, −1 for a term that is known whole; shape (t,)."""
    whole: NDArray[np.int64]
    """Whole that each column is a part of, −1 for a factor; shape (k,)."""
    parts_of_whole: NDArray[np.int64]
    """Number of parts of each whole, those that no observation holds among them; shape (wholes,)."""

    @property
    def is_part(self) -> NDArray[np.bool_]:
        """Whether a column is a part of a whole, shape (k,)."""
        return np.asarray(self.whole != _NONE)

    def model(self, columns: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Return the log of each modelled figure, shape (n,), and its slope by each column, shape (n, k).

        A part is ``e^x`` over the sum of all parts of its whole: at nought all are equal, and they always add to one.
        """
        powers = self.powers
        products = self.amount * np.exp(powers @ columns)
        if self.is_part.any():
            growth, slopes_of_parts = self._parts(columns)
            parted = self.part != _NONE
            products[parted] *= growth[self.part[parted]]
            powers = powers + np.where(parted[:, np.newaxis], slopes_of_parts[self.part], 0.0)
        if not len(self.log_logged):
            return np.zeros(0), np.zeros((0, powers.shape[1]))
        # Terms stand in the order of their observations, and each has at least one.
        first = np.flatnonzero(np.diff(self.owner, prepend=-1))
        totals = np.add.reduceat(products, first)
        slopes = np.add.reduceat(products[:, np.newaxis] * powers, first)
        return np.log(totals), slopes / totals[:, np.newaxis]

    def rows(self, keep: NDArray[np.bool_]) -> ObservationTable:
        """Return the table of some of the observations."""
        renumbered = np.cumsum(keep) - 1
        terms = keep[self.owner]
        return replace(
            self,
            log_logged=self.log_logged[keep],
            reading_u=self.reading_u[keep],
            owner=renumbered[self.owner[terms]],
            amount=self.amount[terms],
            powers=self.powers[terms],
            part=self.part[terms],
        )

    def _parts(self, columns: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Each part over an equal one, shape (k,), and the slope of its log by each column, shape (k, k)."""
        mine, whole = self.is_part, self.whole[self.is_part]
        parts = np.exp(columns[mine])
        held = np.bincount(whole, minlength=len(self.parts_of_whole))
        total = np.bincount(whole, weights=parts, minlength=len(held)) + (self.parts_of_whole - held)
        share, growth = np.zeros(len(columns)), np.ones(len(columns))
        share[mine] = parts / total[whole]
        growth[mine] = share[mine] * self.parts_of_whole[whole]
        same = mine[:, np.newaxis] & (self.whole[:, np.newaxis] == self.whole)
        return growth, np.where(same, np.eye(len(columns)) - share, 0.0)


def observation_table(observations: Sequence[Observation], factors: Sequence[str]) -> ObservationTable:
    """Return observations as arrays.

    Parameters
    ----------
    observations : sequence of Observation
        Observations, each with a modelled figure above zero.
    factors : sequence of str
        Names of the factors, in the order of the first columns; shared errors stand among them.

    Returns
    -------
    ObservationTable
        Powers of terms and of shared errors by factor; a column more for each part of a shared day.

    Raises
    ------
    ValueError
        When a logged or modelled figure is not above zero, or a factor is not named.
    """
    place = {name: column for column, name in enumerate(factors)}
    terms = [(index, term) for index, seen in enumerate(observations) for term in seen.terms]
    parted = [term for _, term in terms if isinstance(term, PartTerm)]
    parts = {key: len(place) + n for n, key in enumerate(dict.fromkeys((t.whole, t.part) for t in parted))}
    wholes = {whole: n for n, whole in enumerate(dict.fromkeys(t.whole for t in parted))}
    for seen in observations:
        if not (seen.logged > 0 and seen.modelled > 0):
            raise ValueError(f"{seen.what}: logged and modelled must be above zero, got {seen.logged}, {seen.modelled}")
    powers = np.zeros((len(terms), len(place) + len(parts)))
    for row, (index, term) in enumerate(terms):
        seen = observations[index]
        for name, power in (*term.powers.items(), *((shared, 1.0) for shared in seen.shared)):
            if name not in place:
                raise ValueError(f"{seen.what} names the factor {name!r}, which is not given")
            powers[row, place[name]] += power
    number = {term.whole: term.of for term in parted}
    return ObservationTable(
        np.log([seen.logged for seen in observations]),
        np.array([seen.reading_u for seen in observations], dtype=np.float64),
        np.array([index for index, _ in terms], dtype=np.int64),
        np.array([term.amount for _, term in terms], dtype=np.float64),
        powers,
        np.array([parts[t.whole, t.part] if isinstance(t, PartTerm) else _NONE for _, t in terms], dtype=np.int64),
        np.array([_NONE] * len(place) + [wholes[whole] for whole, _ in parts], dtype=np.int64),
        np.array([number[whole] for whole in wholes], dtype=np.int64),
    )
