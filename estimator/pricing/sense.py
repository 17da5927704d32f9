"""Sense checks beside the result: figures that are far from what the trade, or the shop's own past, would expect.

They never change a price; each is a figure, the band beside it, and a sentence.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

__all__ = ["FEWEST_JOBS", "Band", "SenseCheck", "Verdict", "gas_share_check", "own_past_check", "torch_on_check"]

FEWEST_JOBS = 5
"""Fewest jobs of its own from which a shop's usual range is told (judgement)."""


class Verdict(StrEnum):
    """How a figure lies to its band."""

    USUAL = "usual"
    LOW = "low"
    HIGH = "high"
    NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True)
class Band:
    """What a figure usually is."""

    low: float
    high: float
    who: str
    """Whose band it is, for the sentence: hand one-offs, track runs, your last 10 jobs."""

    def verdict(self, found: float) -> Verdict:
        """Return where the figure lies; the ends count as usual."""
        if found < self.low:
            return Verdict.LOW
        return Verdict.HIGH if found > self.high else Verdict.USUAL


@dataclass(frozen=True, slots=True)
class SenseCheck:
    """One figure beside its band."""

    name: str
    found: float | None
    band: Band | None
    verdict: Verdict
    words: str

    @property
    def doubtful(self) -> bool:
        """Whether it should stand out on the page."""
        return self.verdict in (Verdict.LOW, Verdict.HIGH)


def torch_on_check(
    *, cut_time_min: float, track_cut_time_min: float, paid_time_min: float, bands: dict[str, Band]
) -> SenseCheck:
    """Set the share of paid time in which the torch cuts beside what it usually is.

    Parameters
    ----------
    cut_time_min : float
        Cutting time of the whole job. [min]
    track_cut_time_min : float
        The part of it that is cut on a track. [min]
    paid_time_min : float
        Paid time of the whole job. [min]
    bands : dict of str to Band
        ``hand`` and ``track``.

    Returns
    -------
    SenseCheck
        Not known where nothing is cut.

    Notes
    -----
    The track's band is used where half or more of the cutting is on a track. Source: common practice, no source.

    Examples
    --------
    >>> bands = {"hand": Band(0.10, 0.25, "one-offs by hand"), "track": Band(0.3, 0.5, "track runs")}
    >>> torch_on_check(cut_time_min=172, track_cut_time_min=0, paid_time_min=602, bands=bands).words
    'the torch cuts for 29 % of the man-hours; one-offs by hand usually 10 to 25 %: minutes may be missing'
    """
    if not cut_time_min > 0 or not paid_time_min > 0:
        return SenseCheck("torch-on share", None, None, Verdict.NOT_KNOWN, "nothing is cut")
    share, band = cut_time_min / paid_time_min, bands["track" if track_cut_time_min * 2 >= cut_time_min else "hand"]
    verdict = band.verdict(share)
    usual = f"{band.who} usually {band.low * 100:.0f} to {band.high * 100:.0f} %"
    doubt = {Verdict.HIGH: ": minutes may be missing", Verdict.LOW: ": much of the time is not cutting"}
    words = f"the torch cuts for {share * 100:.0f} % of the man-hours; {usual}{doubt.get(verdict, '')}"
    return SenseCheck("torch-on share", share, band, verdict, words)


def gas_share_check(*, gas_cost: float, price: float, band: Band) -> SenseCheck:
    """Set the share of gas in the price, steel left out, beside what it usually is.

    Parameters
    ----------
    gas_cost : float
        Cost of all gases, in the major unit.
    price : float
        Price without steel, in the major unit.
    band : Band
        Usual share; its high end warns (0.08 for hand cutting).

    Returns
    -------
    SenseCheck
        Not known where nothing is priced. A low share never stands out: most of a price is hours.

    Notes
    -----
    Source: 1 to 2 % of cost in TWI Job Knowledge 50; over 8 % of a hand-cut price is common practice, no source.

    Examples
    --------
    >>> gas_share_check(gas_cost=71, price=841, band=Band(0.01, 0.08, "hand cutting")).words
    'gas is 8.4 % of the price without steel; over 8 % of a hand-cut price means that minutes are missing'
    """
    if not price > 0:
        return SenseCheck("gas share", None, None, Verdict.NOT_KNOWN, "nothing is priced")
    share = gas_cost / price
    high = share > band.high
    words = f"gas is {share * 100:.1f} % of the price without steel"
    if high:
        words += f"; over {band.high * 100:.0f} % of a hand-cut price means that minutes are missing"
    return SenseCheck("gas share", share, band, Verdict.HIGH if high else Verdict.USUAL, words)


def own_past_check(*, name: str, found: float, past: Sequence[float], last: int = 10) -> SenseCheck:
    """Set a price per metre, kilogram or piece beside the shop's own last jobs.

    Parameters
    ----------
    name : str
        What is compared, as ``price per metre of cut``.
    found : float
        This job's figure, in the major unit for one metre, kilogram or piece.
    past : sequence of float
        The same figure of finished jobs, the latest last.
    last : int
        How many of the latest jobs are looked at.

    Returns
    -------
    SenseCheck
        Not known with fewer than ``FEWEST_JOBS`` jobs, and it says so.

    Notes
    -----
    The band runs from the 10 % to the 90 % point of the last jobs. Source: definition.

    Examples
    --------
    >>> own_past_check(name="price per kg", found=4.1, past=[1.8, 2.0, 2.2, 2.4, 2.1, 1.9]).words
    'price per kg is 4.10; your last 6 jobs were mostly 1.85 to 2.30'
    """
    figures = np.asarray([value for value in past if np.isfinite(value)], dtype=np.float64)[-last:]
    if figures.size < FEWEST_JOBS or not np.isfinite(found):
        words = f"{name}: {figures.size} finished jobs are too few to compare with"
        return SenseCheck(name, found if np.isfinite(found) else None, None, Verdict.NOT_KNOWN, words)
    low, high = np.quantile(figures, [0.1, 0.9])
    band = Band(float(low), float(high), f"your last {figures.size} jobs")
    words = f"{name} is {found:.2f}; {band.who} were mostly {low:.2f} to {high:.2f}"
    return SenseCheck(name, found, band, band.verdict(found), words)
