"""Loads the published rows that stand beside these tests; every row names its source, locator and status."""

from __future__ import annotations

import csv
import math
from pathlib import Path

from estimator.quantities.chart import interpolate_log
from estimator.reference import table

__all__ = ["FOLDER", "chart_at", "number", "published_rows"]

FOLDER = Path(__file__).parent / "data"


def published_rows(name: str) -> list[dict[str, str]]:
    """Return the rows of one file, as text."""
    with (FOLDER / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def number(row: dict[str, str], column: str) -> float:
    """Return one filled cell as a number."""
    return float(row[column])


def chart_at(name: str, column: str, thickness_mm: float, **curve: str) -> float:
    """Return a column of one of the engine's charts at a thickness, interpolated as the engine does."""
    rows = table(name).where(**curve) if curve else table(name)
    value = float(interpolate_log(thickness_mm, rows.column("thickness_mm"), rows.column(column)))
    assert not math.isnan(value), f"{name} does not reach {thickness_mm:g} mm"
    return value
