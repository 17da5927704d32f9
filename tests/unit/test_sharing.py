"""The note that says what sharing cuts would save, against the same list typed with shared cuts."""

from __future__ import annotations

import datetime as dt

import numpy as np

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.job import JobOrder, estimate_job
from estimator.pricing.sharing import sharing_saves
from estimator.words import Shape, Steel

ORDER = JobOrder(date=dt.date(2026, 11, 2))


def plates(quantity: float, *, shared: bool) -> CutList:
    return CutList(
        mark=["A"],
        quantity=np.array([quantity]),
        thickness_mm=np.array([12.0]),
        sheet=["List"],
        row=np.array([2]),
        shape=np.array([Shape.RECTANGLE], dtype=np.int8),
        size_a_mm=np.array([300.0]),
        size_b_mm=np.array([200.0]),
        shared_cuts=np.array([shared]),
        steel=np.array([Steel.THEIRS], dtype=np.int8),
    )


def test_the_saving_is_the_difference_to_the_same_list_with_shared_cuts() -> None:
    alone = estimate_job(plates(20, shared=False), example_shop(), ORDER)
    shared = estimate_job(plates(20, shared=True), example_shop(), ORDER)
    found = sharing_saves(alone)
    assert found is not None
    assert found.saved_minor == alone.totals.taxable - shared.totals.taxable > 0
    # 20 pieces alone take 40 cross cuts of 200, in a row 21.
    assert np.isclose(found.metres, 19 * 0.2)


def test_one_piece_and_a_list_that_shares_already_have_nothing_to_save() -> None:
    assert sharing_saves(estimate_job(plates(1, shared=False), example_shop(), ORDER)) is None
    assert sharing_saves(estimate_job(plates(20, shared=True), example_shop(), ORDER)) is None
