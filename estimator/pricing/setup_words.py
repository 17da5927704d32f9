"""What "set-up and the rest" of a price is made of: the job's rows in the shop's words, the longest first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from estimator.quantities.job_rows import JobRow

__all__ = ["SetupPart", "setup_parts", "setup_words"]

_WORDS = {
    "setup_job": "set-up",
    "setup_mark": "drawings",
    "setup_thickness": "thicknesses",
    "plates": "fetching plates",
    "templates": "templates",
    "circle_guide": "circle guide",
    "bevel_setting": "bevel guide",
    "strip_coating": "stripping paint",
    "tip_changes": "changing tips",
    "lighting": "lighting",
    "cylinder_changes": "changing cylinders",
    "site_load": "loading the cart",
    "site_travel": "travel",
    "site_permit": "permit and blankets",
    "site_helper": "helper on site",
    "fire_watch": "fire watch",
    "call_out": "call-out minimum",
}
_LEAST_MIN = 0.5
"""Shorter ones read 0 and are left out of the words; their money is in the amount."""


@dataclass(frozen=True, slots=True)
class SetupPart:
    """Minutes of one kind, before rest, and the rows of the job that hold them."""

    what: str
    minutes: float
    rows: tuple[int, ...]


def setup_parts(rows: Sequence[JobRow]) -> list[SetupPart]:
    """Return what the job's rows take by kind, the longest first.

    Parameters
    ----------
    rows : sequence of JobRow
        Rows of a job.

    Returns
    -------
    list of SetupPart
        Lighting of all tips together; what rounds to no minute is left out.
    """
    where: dict[str, list[int]] = {}
    for index, row in enumerate(rows):
        where.setdefault(_WORDS.get(row.key.partition(" ")[0], row.what.lower()), []).append(index)
    parts = [
        SetupPart(what, sum(rows[i].count * rows[i].minutes_each for i in held), tuple(held))
        for what, held in where.items()
    ]
    return sorted((part for part in parts if part.minutes >= _LEAST_MIN), key=lambda part: -part.minutes)


def setup_words(rows: Sequence[JobRow], rest_allowance: float, *, most: int | None = None) -> str:
    """Return the parts in one sentence: minutes as the work rates have them, and the rest that is added.

    Parameters
    ----------
    rows : sequence of JobRow
        Rows of a job.
    rest_allowance : float
        Share of rest that is paid on top.
    most : int, optional
        Parts that are named where there is room for few; the others are one sum.

    Returns
    -------
    str
    """
    parts = setup_parts(rows)
    if most is not None and len(parts) > most:
        others = sum(part.minutes for part in parts[most:])
        parts = [*parts[:most], SetupPart(f"{len(parts) - most} smaller", others, ())]
    said = ", ".join(f"{part.what} {part.minutes:.0f}{'' if index else ' min'}" for index, part in enumerate(parts))
    return f"{said}; + {rest_allowance * 100:.0f} % rest" if said else ""
