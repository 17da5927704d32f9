"""Invented cut lists as the checker would hand them on, and their estimates."""

from __future__ import annotations

import datetime as dt
from typing import Any

import numpy as np

from estimator.check.cut_list import CutList, ReadAs, TitleBlock
from estimator.check.example_shop import example_shop
from estimator.check.shop_book import ShopBook
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.words import BLANK, EdgeFinish, Method, Shape, Site, Steel, Surface, Work

__all__ = ["a_bit_of_everything", "changed_shop", "estimated", "plates"]

DATE = dt.date(2026, 11, 2)
NAN = float("nan")


def _codes(values: list[int]) -> np.ndarray:
    return np.array(values, dtype=np.int8)


def _floats(values: list[float]) -> np.ndarray:
    return np.array(values, dtype=np.float64)


def a_bit_of_everything(**replaced: Any) -> CutList:
    """A job in which every column of the workbook has something to say."""
    s, w, m = Shape, Work, Method
    columns: dict[str, Any] = {
        "mark": ["P1", "G2", "S3", "R4", "=C5", "B6", "L7", "H8", "X9", "P1"],
        "sheet": ["List"] * 10,
        "row": np.arange(5, 15, dtype=np.int64),
        "drawing": ["D-1", "", "", "", "", "", "", "", "", "D-1"],
        "description": [
            "Base plate",
            "Gusset",
            "Strip",
            "Ring",
            "@Cap",
            "Bevelled plate",
            "Lug",
            "Bend",
            "Saw cut",
            "",
        ],
        "quantity": _floats([8, 24, 6, 2, 20, 4, 4, 3, 5, 50]),
        "thickness_mm": _floats([20, 10, 12, 25, 6, 16, 60, 20, 6, 20]),
        "work": _codes([w.CUT] * 7 + [w.HEAT, w.OTHER, w.CUT]),
        "other_work": [""] * 8 + ["saw", ""],
        "shape": _codes(
            [s.RECTANGLE, s.RIGHT_TRIANGLE, s.STRIP, s.RING, s.RECTANGLE, s.RECTANGLE, s.RECTANGLE, BLANK, BLANK, BLANK]
        ),
        "size_a_mm": _floats([300, 150, 1000, 400, 120, 600, 250, NAN, NAN, NAN]),
        "size_b_mm": _floats([300, 150, 100, 250, 120, 200, 200, NAN, NAN, NAN]),
        "holes": _floats([4, 0, 0, 0, 0, 0, 1, NAN, NAN, NAN]),
        "hole_diameter_mm": _floats([22, NAN, NAN, NAN, NAN, NAN, 80, NAN, NAN, NAN]),
        "cut_length_mm": _floats([NAN] * 9 + [1200]),
        "pierces": _floats([NAN] * 9 + [2]),
        "shared_cuts": np.array([True] + [False] * 9),
        "method": _codes(
            [
                m.STRAIGHTEDGE,
                m.STRAIGHTEDGE,
                m.TRACK,
                m.CIRCLE_GUIDE,
                m.FREE_HAND,
                m.STRAIGHTEDGE,
                m.STRAIGHTEDGE,
                BLANK,
                BLANK,
                m.TEMPLATE,
            ]
        ),
        "torches": _floats([NAN, NAN, 2, NAN, NAN, NAN, NAN, NAN, NAN, NAN]),
        "bevel_deg": _floats([NAN, NAN, NAN, NAN, 30, 30, NAN, NAN, NAN, NAN]),
        "bevel_length_mm": _floats([NAN] * 5 + [600] + [NAN] * 4),
        "root_face_mm": _floats([NAN] * 5 + [2] + [NAN] * 4),
        "surface": _codes([0, Surface.RUSTY, 0, 0, 0, 0, 0, 0, 0, Surface.PAINTED]),
        "stack": _floats([NAN, NAN, NAN, NAN, 2, NAN, NAN, NAN, NAN, NAN]),
        "steel": _codes([Steel.OURS] * 6 + [Steel.THEIRS, BLANK, BLANK, Steel.EXCLUDED]),
        "edge_finish": _codes([EdgeFinish.TOUCH_UP, EdgeFinish.BRIGHT] + [0] * 8),
        "site": _codes([0] * 9 + [Site.SITE]),
        "tip": [""] * 7 + ["H-60", "", ""],
        "heated_kg_each": _floats([NAN] * 7 + [1.9, NAN, NAN]),
        "wait_min_each": _floats([NAN] * 7 + [10, NAN, NAN]),
        "minutes_each": _floats([NAN] * 8 + [6, NAN]),
        "labour_rate": [""] * 9 + ["overtime"],
        "note": [""] * 10,
        "title": TitleBlock(customer="Invented Machines", job="Frames", quote_number="Q-0117", revision="A", rush=0.1),
        "read_as": [ReadAs(2, "thickness_mm", "C7", "1/2", "12 mm")],
        "file": "list.xlsx",
        "sha256": "0" * 64,
    }
    return CutList(**{**columns, **replaced})


def plates(count: int, seed: int = 1) -> CutList:
    """Many simple plates, all ours, some with holes."""
    rng = np.random.default_rng(seed)
    return CutList(
        mark=[f"P{i // 2}" for i in range(count)],
        quantity=rng.integers(1, 60, count).astype(np.float64),
        thickness_mm=rng.choice([6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 40.0], count),
        sheet=["List"] * count,
        row=np.arange(2, count + 2, dtype=np.int64),
        description=[f"Plate {i}" for i in range(count)],
        shape=np.full(count, Shape.RECTANGLE, dtype=np.int8),
        size_a_mm=rng.integers(80, 900, count).astype(np.float64),
        size_b_mm=rng.integers(60, 600, count).astype(np.float64),
        holes=rng.integers(0, 5, count).astype(np.float64),
        hole_diameter_mm=rng.choice([14.0, 22.0, 60.0], count),
        steel=np.full(count, Steel.OURS, dtype=np.int8),
        method=rng.choice(np.array([Method.STRAIGHTEDGE, Method.TRACK, Method.FREE_HAND], dtype=np.int8), count),
        file="plates.xlsx",
    )


def changed_shop(**shop: Any) -> ShopBook:
    """The example shop with some of its first sheet changed."""
    book = example_shop()
    return book.model_copy(update={"shop": book.shop.model_copy(update=shop)})


def estimated(cuts: CutList, shop: ShopBook | None = None, **order: Any) -> Estimate:
    """Price a list."""
    return estimate_job(cuts, shop or example_shop(), JobOrder(**{"date": DATE, **order}))
