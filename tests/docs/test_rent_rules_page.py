"""The page of rent rules holds a worked example of every rule, and its examples run."""

from __future__ import annotations

import doctest
from pathlib import Path

import pytest

from estimator.pricing.rent import RentCount

PAGE = Path(__file__).parents[2] / "docs" / "rent_rules.md"


def test_every_worked_example_on_the_page_gives_the_figure_it_shows():
    results = doctest.testfile(str(PAGE), module_relative=False)
    assert results.attempted >= 15
    assert results.failed == 0


@pytest.mark.parametrize("count", list(RentCount))
def test_every_rent_rule_has_its_heading_and_a_worked_example(count):
    sections = PAGE.read_text(encoding="utf-8").split("\n## ")
    mine = [s for s in sections if s.startswith(str(count) + "\n")]
    assert len(mine) == 1
    assert f"RentCount.{count.name}" in mine[0]
