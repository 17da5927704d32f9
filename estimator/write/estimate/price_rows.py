"""Rows of the rates sheet that lines point to: labour rates, steel prices, and marks that share a quantity break."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from estimator.check.shop_book import SteelPrice
from estimator.pricing.job import Estimate
from estimator.pricing.rates import steel_row
from estimator.quantities.sorted_values import distinct
from estimator.words import Steel

__all__ = ["NO_STEEL", "PriceRows"]

NO_STEEL = 1
"""Row of the steel prices for steel that is not ours; it holds zeros."""

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class PriceRows:
    """Labour rates and steel prices in the order of the rates sheet."""

    labour: tuple[str, ...]
    steel: tuple[SteelPrice, ...]
    """The first stands in row 2."""

    @classmethod
    def of_job(cls, estimate: Estimate) -> PriceRows:
        """Return the rates in force that a job may use."""
        return cls(tuple(estimate.rates.labour), estimate.rates.steel)

    def of_labour(self, estimate: Estimate) -> Floats:
        """Return the row of each line's labour rate, from 1."""
        return np.array([self.labour.index(name) + 1 for name in estimate.labour_rate], dtype=np.float64)

    def of_steel(self, estimate: Estimate) -> Floats:
        """Return the row of each line's steel price; ``NO_STEEL`` for steel that is theirs or excluded."""
        cuts = estimate.cuts
        ours = cuts.steel == Steel.OURS
        rows = {float(t): self._steel_row(float(t)) for t in distinct(cuts.thickness_mm[ours])}
        lines = zip(cuts.thickness_mm, ours, strict=True)
        return np.array([rows[float(t)] if own else NO_STEEL for t, own in lines], dtype=np.float64)

    def mark_numbers(self, estimate: Estimate) -> Floats:
        """Return a number for each mark, so that no formula compares a customer's text; unmarked lines stand alone."""
        numbers: dict[str, int] = {}
        keys = [mark or f"\0{line}" for line, mark in enumerate(estimate.cuts.mark)]
        return np.array([numbers.setdefault(key, len(numbers) + 1) for key in keys], dtype=np.float64)

    def _steel_row(self, thickness_mm: float) -> int:
        row = steel_row(self.steel, thickness_mm)
        return NO_STEEL if row is None else next(i for i, s in enumerate(self.steel, 2) if s is row)
