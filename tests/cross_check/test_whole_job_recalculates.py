"""Another spreadsheet program works out a whole list anew (plate, sections, rails, site, other work) and gets ours."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.words import Method, Shape, Steel, Work
from estimator.write.estimate.workbook import estimate_workbook
from scripts.make_trial_page import estimate, trial_cuts
from tests.cross_check.recalculate import recalculated, stored

pytestmark = pytest.mark.recalculate


def sections() -> Estimate:
    """Every shape that is cut by section, and drilling beside them."""
    shapes = [
        (Shape.ANGLE, 80, np.nan, 8, np.nan),
        (Shape.BEAM, 200, 100, 5.6, 28.5),
        (Shape.SQUARE_TUBE, 60, 60, 5, np.nan),
        (Shape.PIPE, 88.9, np.nan, 5, np.nan),
        (Shape.ROUND_BAR, 50, np.nan, np.nan, np.nan),
        (Shape.RAIL, 152, np.nan, np.nan, 65.99),
        (Shape.SHEET_PILE, np.nan, np.nan, 14.8, 94.3),
        (Shape.BOLT_HEAD, 30, np.nan, np.nan, np.nan),
        (Shape.RECTANGLE, 300, 200, 12, np.nan),
    ]
    shape, a, b, t, area = zip(*shapes, strict=True)
    n = len(shapes)
    cuts = CutList(
        mark=[code.word for code in shape],
        quantity=np.arange(2.0, n + 2),
        shape=np.array(shape, dtype=np.int8),
        size_a_mm=np.array(a, dtype=float),
        size_b_mm=np.array(b, dtype=float),
        thickness_mm=np.array(t, dtype=float),
        section_area_cm2=np.array(area, dtype=float),
        method=np.full(n, Method.STRAIGHTEDGE, dtype=np.int8),
        work=np.full(n, Work.CUT, dtype=np.int8),
        steel=np.full(n, Steel.EXCLUDED, dtype=np.int8),
    )
    return estimate_job(cuts, example_shop(), JobOrder(date=dt.date(2026, 11, 2)))


def plates() -> Estimate:
    """Steel by whole plates, a flat and a bar by weight, rows that share cuts, guides set with the flame lit."""
    shop = example_shop()
    sizes = {"plate_length_mm": 2500.0, "plate_width_mm": 1250.0}
    shop = shop.model_copy(
        update={
            "steel": tuple(row.model_copy(update=sizes) for row in shop.steel),
            "shop": shop.shop.model_copy(update={"steel_charged": "whole plates"}),
        }
    )
    cuts = CutList(
        mark=["A", "B", "C", "D", "E"],
        quantity=np.array([40.0, 7.0, 12.0, 2.0, 3.0]),
        shape=np.array([0, Shape.RIGHT_TRIANGLE, 0, Shape.ROUND_BAR, Shape.RING], dtype=np.int8),
        size_a_mm=np.array([300.0, 550.0, 120.0, 80.0, 400.0]),
        size_b_mm=np.array([600.0, 250.0, 120.0, np.nan, 250.0]),
        thickness_mm=np.array([20.0, 20.0, 10.0, np.nan, 12.0]),
        section_length_mm=np.array([np.nan, np.nan, np.nan, 1000.0, np.nan]),
        bevel_deg=np.array([30.0, np.nan, np.nan, np.nan, np.nan]),
        bevel_length_mm=np.array([600.0, np.nan, np.nan, np.nan, np.nan]),
        shared_cuts=np.array([False, True, True, False, False]),
        made_from=np.array([0, 0, 1, 0, 0], dtype=np.int8),
        method=np.array([1, Method.TRACK, 1, Method.FREE_HAND, Method.CIRCLE_GUIDE], dtype=np.int8),
        steel=np.full(5, Steel.OURS, dtype=np.int8),
    )
    return estimate_job(cuts, shop, JobOrder(date=dt.date(2026, 11, 2)))


@pytest.mark.parametrize(
    "priced", [sections, plates, lambda: estimate(trial_cuts())], ids=["sections", "plates", "trial"]
)
def test_every_formula_gives_the_value_that_the_engine_stored_beside_it(priced, tmp_path: Path):
    book = tmp_path / "estimate.xlsx"
    with book.open("wb") as file:
        estimate_workbook(priced())(file)
    ours, theirs = stored(book), recalculated(book)
    numbers = {cell: value for cell, value in ours.items() if isinstance(value, float | int)}
    assert len(numbers) > 300
    different = {
        cell: (value, theirs.get(cell))
        for cell, value in numbers.items()
        if theirs.get(cell) != pytest.approx(value, rel=1e-9, abs=1e-9)
    }
    assert different == {}
