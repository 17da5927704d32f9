"""How sure an estimate is: low, likely and high of price, hours and gas, and which input moves them most.

Works on sums of a job, never on its lines, so that its cost does not grow with their number. Knows no money: an
output is any weighted sum of quantities, and a caller may say how the price follows from it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from estimator.learning.spread import TAIL, Spread, draws
from estimator.quantities.sorted_values import quantiles

__all__ = ["DRAWS", "SEED", "Bar", "Factor", "Output", "Range", "Term", "first_order_log_sd", "job_bars", "job_ranges"]

DRAWS = 2000
"""Draws of a job: the ends of a range are then within about one part in twenty of its half width."""
SEED = 20_011
"""One seed for every job, so that the same job has the same range on every machine."""

Curve = Callable[[NDArray[np.float64]], NDArray[np.float64]]


@dataclass(frozen=True, slots=True)
class Factor:
    """An input that is not known exactly, as a factor about its likely figure; shared by all that names it."""

    name: str
    """As shown to people: ``speed, tip 1.2, by hand``."""
    spread: Spread
    """Distribution with its likely figure at 1."""
    source: str
    """Where the spread comes from: the handbook's band, so many logged jobs, common practice."""
    logging: str = ""
    """What to log so that it narrows; empty when nothing would help."""


@dataclass(frozen=True, slots=True)
class Term:
    """One product in the job: an amount of a quantity that follows factors to whole powers."""

    quantity: str
    """House name of what it adds to, its unit in the name: ``cutting_oxygen_m3``."""
    amount: float
    """The amount when every factor is likely."""
    powers: Mapping[str, float]
    """Power of each factor, by name: time follows speed to the power −1."""


@dataclass(frozen=True, slots=True)
class Output:
    """A figure whose range is wanted: a weighted sum of quantities, or a curve over it."""

    name: str
    weights: Mapping[str, float]
    """Weight of each quantity, by house name; a quantity that is not named counts nothing."""
    fixed: float = 0.0
    """What is added and is not in doubt."""
    curve: Curve | None = None
    """How the figure follows from the sum (a minimum, a discount step); vectorised and never falling."""


@dataclass(frozen=True, slots=True)
class Bar:
    """What one input does to an output by itself."""

    factor: Factor
    low: float
    """The output with this input alone at its low figure."""
    high: float
    """The output with this input alone at its high figure."""
    share: float
    """Share of the range's variance that it explains, to first order; all bars add to 1."""


@dataclass(frozen=True, slots=True)
class Range:
    """An 80 % range: four times in five the outcome lies between low and high."""

    low: float
    likely: float
    high: float
    bars: tuple[Bar, ...] = field(default=())
    """Widest first."""


def job_ranges(
    factors: Sequence[Factor],
    terms: Sequence[Term],
    outputs: Sequence[Output],
    *,
    count: int = DRAWS,
    seed: int = SEED,
) -> dict[str, Range]:
    """Return the 80 % range of each output, and what drives it.

    Parameters
    ----------
    factors : sequence of Factor
        Inputs in doubt, each independent of the others; what lines share is one factor.
    terms : sequence of Term
        The job as sums: about ten for a tip and ten for the job.
    outputs : sequence of Output
        What is asked for.
    count : int
        Number of draws.
    seed : int
        Seed of the draws.

    Returns
    -------
    dict of str to Range
        By the output's name.

    Raises
    ------
    ValueError
        When a term names a factor that is not given, or two factors have one name.

    Notes
    -----
    Likely is the output with every input likely, which is the estimate as printed. Low and high are the 10 % and 90 %
    points of the draws; where many inputs are skewed the same way the likely figure could fall outside them, and the
    range is then widened to hold it.
    """
    powers = _powers(factors, terms)
    amounts = np.array([term.amount for term in terms], dtype=np.float64)
    drawn = np.log(draws([factor.spread for factor in factors], count, seed))
    products = np.exp(drawn @ powers.T) * amounts
    ranges = {}
    for output in outputs:
        weights = np.array([output.weights.get(term.quantity, 0.0) for term in terms], dtype=np.float64)
        likely = float(_shaped(output, np.array([weights @ amounts]))[0])
        low, high = quantiles(_shaped(output, products @ weights), [TAIL, 1 - TAIL]).tolist()
        bars = _bars(output, factors, powers, weights * amounts)
        ranges[output.name] = Range(min(low, likely), likely, max(high, likely), bars)
    return ranges


def job_bars(factors: Sequence[Factor], terms: Sequence[Term], output: Output) -> tuple[Bar, ...]:
    """Return what each input does to an output by itself, widest first.

    Parameters
    ----------
    factors : sequence of Factor
        Inputs in doubt.
    terms : sequence of Term
        The job as sums.
    output : Output
        What is asked for.

    Returns
    -------
    tuple of Bar
        Inputs that do nothing are left out.
    """
    weights = np.array([output.weights.get(t.quantity, 0.0) * t.amount for t in terms], dtype=np.float64)
    return _bars(output, factors, _powers(factors, terms), weights)


def first_order_log_sd(factors: Sequence[Factor], terms: Sequence[Term], output: Output) -> float:
    """Return the relative standard uncertainty of an output by first-order propagation, for comparison.

    Parameters
    ----------
    factors : sequence of Factor
        Inputs in doubt.
    terms : sequence of Term
        The job as sums.
    output : Output
        Output without a curve.

    Returns
    -------
    float
        Standard deviation of the output's natural log.

    Notes
    -----
    Source: JCGM 100:2008 (GUM), 5.1.2, on the logs of the inputs.
    """
    weighted = np.array([output.weights.get(term.quantity, 0.0) * term.amount for term in terms], dtype=np.float64)
    total = float(weighted.sum()) + output.fixed
    if total == 0:
        return 0.0
    log_sd = np.array([factor.spread.log_sd for factor in factors], dtype=np.float64)
    return float(np.linalg.norm((weighted @ _powers(factors, terms)) / total * log_sd))


def _powers(factors: Sequence[Factor], terms: Sequence[Term]) -> NDArray[np.float64]:
    """Power of each factor in each term, shape (terms, factors)."""
    place = {factor.name: index for index, factor in enumerate(factors)}
    if len(place) < len(factors):
        raise ValueError("two factors have one name")
    matrix = np.zeros((len(terms), len(factors)))
    for row, term in enumerate(terms):
        for name, power in term.powers.items():
            if name not in place:
                raise ValueError(f"term {term.quantity!r} names the factor {name!r}, which is not given")
            matrix[row, place[name]] = power
    return matrix


def _shaped(output: Output, sums: NDArray[np.float64]) -> NDArray[np.float64]:
    """The output from its weighted sums."""
    totals = sums + output.fixed
    return totals if output.curve is None else output.curve(totals)


def _bars(
    output: Output, factors: Sequence[Factor], powers: NDArray[np.float64], weighted: NDArray[np.float64]
) -> tuple[Bar, ...]:
    """What each input does alone, widest first; inputs that do nothing are left out."""
    variance = ((weighted @ powers) * np.array([factor.spread.log_sd for factor in factors])) ** 2
    total = float(variance.sum())
    bars = []
    for index, factor in enumerate(factors):
        if variance[index] > 0:
            ends = [weighted @ np.power(end, powers[:, index]) for end in (factor.spread.low, factor.spread.high)]
            low, high = _shaped(output, np.array(ends)).tolist()
            bars.append(Bar(factor, low, high, float(variance[index]) / total))
    return tuple(sorted(bars, key=lambda bar: -bar.share))
