"""The page on the month end names every finding, in the order and the words of the engine."""

import re
from pathlib import Path

from estimator.pricing.bill_checks.finding import FindingKind
from estimator.pricing.cylinder_content import ReadingDoubts

PAGE = (Path(__file__).parents[2] / "docs" / "month_end.md").read_text(encoding="utf-8")


def test_every_finding_stands_in_the_table_and_nothing_else_does():
    table = PAGE.split("## What is found in a bill")[1].split("\n## ")[0]
    named = [row[0] for row in re.findall(r"^\| ([^|]+?) \| ([^|]+?) \|$", table, re.MULTILINE)][1:]
    assert sorted(named) == sorted(str(kind) for kind in FindingKind)


def test_the_judged_uncertainties_are_those_of_the_engine():
    doubts = ReadingDoubts()
    judged = PAGE.split("## What rests on judgement")[1].split("\n## ")[0]
    assert f"a gauge ({doubts.gauge_bar:g} bar)" in judged
    assert f"a scale ({doubts.scale_kg:g} kg)" in judged
    assert f"acetylene by gauge ({doubts.acetylene_gauge_share:g} of full)" in judged
    assert f"was not read ({100 * doubts.fill_share:g} %)" in judged
    assert f"on a cold day ({100 * doubts.temperature_share:g} %)" in judged
