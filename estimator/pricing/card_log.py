"""The rows that a job fills in the work log, as far as the quote knows them; the bench adds days, names and hours."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from estimator.pricing.job import Estimate
from estimator.words import BLANK, Method, Work

__all__ = ["CardLogRow", "card_log_rows"]


@dataclass(slots=True)
class CardLogRow:
    """One row of the log: the work of one tip, thickness and guide. Its fields are columns of the work log."""

    operation: str
    method: str
    """Blank for the shop's usual way."""
    tip: str
    thickness_mm: float
    """NaN for heating and welding."""
    pieces: int = 0
    cut_length_m: float = 0.0
    """Metres that the quote burns, all pieces together, shared cuts once."""
    pierces: int = 0
    edge_starts: int = 0


def card_log_rows(estimates: Sequence[Estimate]) -> tuple[CardLogRow, ...]:
    """Return the log rows of a job, its variations among them.

    Parameters
    ----------
    estimates : sequence of Estimate
        The quote's estimate, then those of its variations.

    Returns
    -------
    tuple of CardLogRow
        Thin plate first; work without a torch has no row. Bevel passes are left to the bench.
    """
    rows: dict[tuple[str, str, str, str], CardLogRow] = {}
    for estimate in estimates:
        for line in np.flatnonzero(estimate.job.lines.setting >= 0):
            _add(rows, estimate, int(line))
    return tuple(sorted(rows.values(), key=lambda row: np.nan_to_num(row.thickness_mm, nan=np.inf)))


def _add(rows: dict[tuple[str, str, str, str], CardLogRow], estimate: Estimate, line: int) -> None:
    cuts, settings, lines = estimate.cuts, estimate.job.settings, estimate.job.lines
    setting, metres = int(lines.setting[line]), lines.metres
    flame = bool(settings.is_flame[setting])
    thickness = np.nan if flame else float(settings.thickness_mm[setting])
    operation = "cut" if cuts.work[line] == BLANK else Work(int(cuts.work[line])).word
    method = "" if flame or cuts.method[line] == BLANK else Method(int(cuts.method[line])).word
    key = (operation, method, settings.tip[setting], "" if flame else f"{thickness:g}")
    row = rows.setdefault(key, CardLogRow(operation, method, settings.tip[setting], thickness))
    row.pieces += int(cuts.quantity[line])
    row.cut_length_m += float(np.nan_to_num(metres.cut_m[line]))
    passes = metres.passes[line]
    starts = passes * (metres.edge_starts_each[line] + metres.restarts_each[line]) + metres.once_starts[line]
    row.edge_starts += round(float(starts))
    row.pierces += round(float(passes * metres.pierces_each[line]))
