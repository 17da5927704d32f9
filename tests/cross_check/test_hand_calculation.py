"""The sample job against four lines worked by hand, ``sample_jobs/hand_calculation.md``, which names every source."""

from __future__ import annotations

import csv
import datetime as dt
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from estimator import tasks
from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.job import JobOrder
from estimator.write.estimate_json import estimate_json

SAMPLES = Path(__file__).resolve().parents[2] / "sample_jobs"


@pytest.fixture(scope="module")
def lines() -> dict[str, dict[str, Any]]:
    done = tasks.estimate(
        SAMPLES / "cut_list.xlsx", SAMPLES / "shop_book.xlsx", JobOrder(date=dt.date(2026, 11, 2)), tasks.ReadOptions()
    )
    return {line["mark"]: line for line in estimate_json(done, estimate_ranges(done))["lines"]}


def worked() -> list[tuple[str, str, str]]:
    with (SAMPLES / "hand_calculation.csv").open(encoding="utf-8") as file:
        return [(row["mark"], row["key"], row["value"]) for row in csv.DictReader(file)]


@pytest.mark.parametrize(("mark", "key", "value"), worked())
def test_the_engine_gives_what_was_worked_by_hand(
    lines: dict[str, dict[str, Any]], mark: str, key: str, value: str
) -> None:
    found = lines[mark][key]
    if isinstance(found, str):
        assert Decimal(found) == Decimal(value)
    else:
        # By hand four or five figures are carried, and 0.605 stands for 0.60502 in the flow through the bore.
        assert found == pytest.approx(float(value), rel=1e-4, abs=6e-6)


def test_at_least_four_lines_were_worked_by_hand() -> None:
    assert len({mark for mark, _, _ in worked()}) >= 4
