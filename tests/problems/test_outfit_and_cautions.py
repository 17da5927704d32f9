"""The exact text of every problem of the outfit and of every caution on a line, as the terminal prints it.

The texts stand in ``outfit.txt`` and ``cautions.txt`` beside this file: read them aloud when one changes.
"""

from pathlib import Path

import numpy as np

from estimator.check.cut_list import CutList
from estimator.check.flags import flag_lines, flag_problems
from estimator.check.outfit import CylinderOutlet, OutfitItem, TipNeed
from estimator.check.outfit_fit import check_outfit
from estimator.problems import all_codes
from estimator.problems.code import Place
from estimator.words import Steel

HERE = Path(__file__).parent


def outfit_text():
    """One cart on which every check has something to say; all names are invented."""

    def row(number):
        return Place("shop_book.xlsx", "Outfit", number)

    oxygen = {"gas": "oxygen", "inlet_thread": "right", "outlet_thread": "right"}
    items = [
        OutfitItem(item="torch", name="torch", gas="acetylene", oxygen_inlet="T-1", place=row(2)),
        OutfitItem(
            item="regulator",
            name="oxygen regulator",
            inlet="Q-9",
            outlet="H-1",
            most_bar=4,
            most_cylinder_bar=150,
            place=row(3),
            **oxygen,
        ),
        OutfitItem(
            item="hose",
            name="oxygen hose",
            inlet="H-1",
            outlet="T-1",
            made_for="acetylene",
            most_m3_h=10,
            place=row(4),
            **(oxygen | {"inlet_thread": "left"}),
        ),
        OutfitItem(item="check valve", name="valve", gas="oxygen", place=row(5)),
        OutfitItem(item="check valve", name="fuel valve", gas="acetylene", place=row(6)),
        OutfitItem(item="flashback arrestor", name="fuel arrestor", gas="acetylene", place=row(7)),
    ]
    outlets = [CylinderOutlet(gas="oxygen", outlet="Q-1", outlet_thread="right", full_bar=200)]
    tips = [
        TipNeed(name="2.4", fuel="acetylene", oxygen_bar=4.9, oxygen_m3_h=16.1),
        TipNeed(name="P2", fuel="propane", place=Place("shop_book.xlsx", "Tips", 9)),
    ]
    return [problem.text() for problem in check_outfit(items, outlets, tips)]


def caution_text():
    words = [
        "lifting lug",
        "pressure part",
        "cast iron foot",
        "plate",
        "wear plate",
        "galvanised post",
        "fuel tank",
        "arm",
    ]
    grade = ["", "", "", "unknown", "", "", "", ""]
    n = len(words)
    cuts = CutList(
        mark=[f"M{i + 1}" for i in range(n)],
        quantity=np.ones(n),
        thickness_mm=np.full(n, 12.0),
        description=words,
        grade=grade,
        steel=np.array([Steel.OURS] * (n - 1) + [Steel.THEIRS], dtype=np.int8),
        sheet=["Cut list"] * n,
        row=np.arange(2, n + 2),
        file="list.xlsx",
    )
    return [problem.text() for problem in flag_problems(cuts, flag_lines(cuts))]


def codes_in(texts):
    return {text.split()[1] for text in texts}


def test_every_problem_of_the_outfit_reads_as_it_was_agreed():
    assert "\n\n".join(outfit_text()) + "\n" == (HERE / "outfit.txt").read_text(encoding="utf-8")


def test_every_caution_on_a_line_reads_as_it_was_agreed():
    assert "\n\n".join(caution_text()) + "\n" == (HERE / "cautions.txt").read_text(encoding="utf-8")


def test_no_code_of_the_outfit_or_of_the_cautions_is_left_out():
    stated = {code for code in all_codes() if code[1:3] in ("45", "46")}
    assert codes_in(outfit_text()) | codes_in(caution_text()) == stated
