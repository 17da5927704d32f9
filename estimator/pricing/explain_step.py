"""The form of one step of a line's working, and the words that steps share."""

from __future__ import annotations

from dataclasses import dataclass

from estimator.check.torch_kit import built_in_work_rates

__all__ = ["Step", "plain", "rate_status"]


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the working."""

    name: str
    formula: str
    figures: str
    answer: str
    source: str


def rate_status(name: str) -> str:
    """Return how well a built-in work rate is known; empty for a name that is none."""
    row = built_in_work_rates().get(name)
    return str(row["status"]) if row else ""


def plain(value: float) -> str:
    """Return a figure in as many digits as anybody reads."""
    return f"{float(value):.4g}"
