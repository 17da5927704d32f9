"""The usual cautions, in our own words, each with its source: for the settings card, the rack plan and the estimate.

They guide nobody past the torch's manual, local codes or training, and say so first.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from estimator.reference import Provenance, table

__all__ = ["CONDITIONS", "STAGES", "Caution", "cautions"]

STAGES = (
    "always",
    "setting up",
    "before lighting",
    "while working",
    "the piece",
    "shutting down",
    "if it goes wrong",
    "store and move",
)
CONDITIONS = (
    "acetylene",
    "propane",
    "heating",
    "several torches",
    "confined",
    "closed",
    "coated",
    "heavy",
    "hard",
    "critical",
)
"""What must hold for a caution that is not for everyone; ``all`` holds always."""


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution with its provenance."""

    key: str
    stage: str
    applies_to: str
    first: bool
    """Whether it is said where there is room for few."""
    text: str
    provenance: Provenance

    @property
    def source(self) -> str:
        """What is printed small behind the caution."""
        if self.provenance.status == "common practice, no source":
            return self.provenance.status
        names = ", ".join("recalled" if one.id == "MEM" else one.title for one in self.provenance.sources)
        return f"{names} ({self.provenance.status})"


def cautions(conditions: Iterable[str] | None = None) -> list[Caution]:
    """Return the cautions that apply, in the order of the work.

    Parameters
    ----------
    conditions : iterable of str, optional
        What holds, from ``CONDITIONS``, as ``["acetylene", "heating"]``; every caution when left out.

    Returns
    -------
    list of Caution
        Those for everyone and those whose condition holds, by stage.

    Raises
    ------
    ValueError
        When a condition is not known.

    Notes
    -----
    Source: ``cautions.csv``.

    Examples
    --------
    >>> cautions([])[0].key, cautions(["propane"])[-1].stage
    ('manual first', 'store and move')
    """
    held = None if conditions is None else set(conditions)
    if held and not held <= set(CONDITIONS):
        raise ValueError(f"conditions must be among {', '.join(CONDITIONS)}, got {sorted(held - set(CONDITIONS))}")
    every = [_caution(row) for row in range(len(table("cautions")))]
    wanted = [one for one in every if held is None or one.applies_to == "all" or one.applies_to in held]
    return sorted(wanted, key=lambda one: STAGES.index(one.stage))


def _caution(row: int) -> Caution:
    rows = table("cautions")
    key, stage, applies_to, first, text = (
        str(rows.column(name)[row]) for name in ("key", "stage", "applies_to", "first", "caution")
    )
    return Caution(key, stage, applies_to, first == "yes", text, rows.source(row))
