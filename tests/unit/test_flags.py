"""Which words of a list ask for care, and which only look as if they did."""

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.flags import flag_lines, flag_problems
from estimator.problems.code import Level
from estimator.words import Steel


def kinds(**columns):
    n = len(next(iter(columns.values())))
    cuts = CutList(mark=columns.pop("mark", ["P1"] * n), quantity=np.ones(n), thickness_mm=np.full(n, 20.0), **columns)
    return [flag.kind for flag in flag_lines(cuts)]


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Lug 200 x 250 x 40", "lifting"),
        ("LIFTING-EYE", "lifting"),
        ("pad_eye, 30 thk", "lifting"),
        ("Hebeöse", "lifting"),
        ("Проушина", "lifting"),
        ("Pressure vessel saddle", "pressure"),
        ("boiler door", "pressure"),
        ("cast iron bracket", "cast iron"),
        ("EN-GJL-250", "cast iron"),
        ("wear plate liner", "hardens"),
        ("galvanised post", "coated"),
        ("old hydraulic ram", "closed"),
        ("fuel tank", "closed"),
    ],
)
def test_a_word_that_asks_for_care_is_flagged_wherever_it_stands(text, kind):
    assert kind in kinds(description=[text])
    assert kind in kinds(note=[text])
    assert kind in kinds(mark=[text])


@pytest.mark.parametrize(
    "text", ["Plug plate", "slug", "Eyelet", "Blind plate", "Strut", "Frame", "Gusset", "Base plate", "S275"]
)
def test_a_word_that_only_looks_like_one_is_left_alone(text):
    assert kinds(description=[text]) == []


def test_a_grade_that_nobody_knows_is_flagged_in_the_grade_alone():
    assert kinds(grade=["unknown"]) == ["unknown"]
    assert kinds(grade=["?"]) == ["unknown"]
    assert kinds(description=["which way up?"]) == []


def test_the_customers_own_steel_without_a_grade_is_flagged_and_with_one_is_not():
    theirs = np.array([Steel.THEIRS], dtype=np.int8)
    assert kinds(steel=theirs, grade=[""]) == ["theirs"]
    assert kinds(steel=theirs, grade=["S275"]) == []


def test_a_kind_is_flagged_once_a_line_and_lifting_and_pressure_are_rough_only():
    cuts = CutList(
        mark=["L1"], quantity=np.ones(1), thickness_mm=np.full(1, 40.0), description=["Lifting lug"], note=["lug"]
    )
    (flag,) = flag_lines(cuts)
    assert flag.rough_only
    (problem,) = flag_problems(cuts, [flag])
    assert (problem.code, problem.level) == ("W460", Level.WARNING)
    assert "not as finished by flame" in problem.do
