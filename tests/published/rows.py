"""Loads the published rows that stand beside these tests; every row names its source, locator and status."""

from __future__ import annotations

import csv
from pathlib import Path

__all__ = ["FOLDER", "number", "published_rows"]

FOLDER = Path(__file__).parent / "data"


def published_rows(name: str) -> list[dict[str, str]]:
    """Return the rows of one file, as text."""
    with (FOLDER / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def number(row: dict[str, str], column: str) -> float:
    """Return one filled cell as a number."""
    return float(row[column])
