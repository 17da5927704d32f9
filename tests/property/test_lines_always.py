"""What must always hold of a priced list, whatever it contains."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.words import MadeFrom, Method, Shape, Steel, Surface

ORDER = JobOrder(date=dt.date(2026, 11, 2))
LINE = st.fixed_dictionaries(
    {
        "quantity": st.integers(1, 60),
        "thickness_mm": st.sampled_from([3.0, 5.0, 6.35, 10.0, 12.0, 12.7, 19.05, 20.0, 25.4, 40.0, 60.0, 75.0, 100.0]),
        "shape": st.sampled_from([-1, *(int(s) for s in list(Shape)[:6])]),
        "size_a_mm": st.floats(120, 1500),
        "size_b_mm": st.floats(30, 110),
        "holes": st.integers(0, 6),
        "hole_diameter_mm": st.floats(8, 90),
        "cut_length_mm": st.floats(20, 6000),
        "method": st.sampled_from([-1, *(int(m) for m in Method)]),
        "made_from": st.sampled_from([int(MadeFrom.PLATE), int(MadeFrom.FLAT)]),
        "surface": st.sampled_from([int(s) for s in Surface]),
        "bevel_deg": st.sampled_from([np.nan, 0.0, 30.0]),
        "steel": st.sampled_from([int(s) for s in Steel]),
    }
)
LISTS = st.lists(LINE, min_size=1, max_size=12)


def cut_list(lines: list[dict[str, float]], **changes: object) -> CutList:
    def column(name: str, kind: type = float) -> np.ndarray:
        return np.array([line[name] for line in lines], dtype=kind)

    bare = column("shape") < 0
    whole = CutList(
        mark=[f"M{i}" for i in range(len(lines))],
        quantity=column("quantity"),
        thickness_mm=column("thickness_mm"),
        sheet=["List"] * len(lines),
        row=np.arange(2, 2 + len(lines)),
        shape=column("shape", np.int8),
        size_a_mm=column("size_a_mm"),
        size_b_mm=column("size_b_mm"),
        holes=np.where(bare, 0.0, column("holes")),
        hole_diameter_mm=column("hole_diameter_mm"),
        cut_length_mm=np.where(bare, column("cut_length_mm"), np.nan),
        method=column("method", np.int8),
        made_from=column("made_from", np.int8),
        surface=column("surface", np.int8),
        bevel_deg=column("bevel_deg"),
        steel=column("steel", np.int8),
    )
    return replace(whole, **changes)


def price(cuts: CutList) -> Estimate:
    return estimate_job(cuts, example_shop(), ORDER)


@settings(max_examples=60, deadline=None)
@given(LISTS)
def test_printed_lines_sum_to_every_printed_total(lines: list[dict[str, float]]) -> None:
    done = price(cut_list(lines))
    printed, rows, totals = done.lines, done.rows, done.totals
    assert np.array_equal(printed.amount, printed.price_each * done.cuts.quantity.astype(np.int64))
    assert totals.lines == int((printed.amount + printed.top_up).sum())
    assert totals.job_rows == int(rows.price.sum())
    before_tax = (
        totals.lines
        + totals.job_rows
        - totals.quantity_break
        + totals.rush
        - totals.discount
        + totals.minimum_top_up
        + totals.delivery
    )
    assert totals.taxable == before_tax
    assert totals.total == totals.taxable + totals.tax
    assert np.array_equal(printed.cost, np.sum(np.stack(list(printed.parts.values())), axis=0))
    assert totals.cost == sum(totals.parts.values())


@settings(max_examples=60, deadline=None)
@given(LISTS)
def test_doubling_a_quantity_doubles_the_gas_and_the_time_of_its_line(lines: list[dict[str, float]]) -> None:
    once, twice = price(cut_list(lines)), price(cut_list([line | {"quantity": line["quantity"] * 2} for line in lines]))
    for name in (
        "cut_time_min",
        "flame_time_min",
        "jet_time_min",
        "paid_time_min",
        "cutting_oxygen_m3",
        "preheat_oxygen_m3",
        "fuel_m3",
        "cut_m",
    ):
        assert np.allclose(getattr(twice.job.lines, name), 2 * getattr(once.job.lines, name), rtol=1e-12), name


@settings(max_examples=60, deadline=None)
@given(LISTS, st.randoms(use_true_random=False))
def test_the_order_of_rows_does_not_matter(lines: list[dict[str, float]], random: object) -> None:
    order = list(range(len(lines)))
    random.shuffle(order)  # type: ignore[attr-defined]
    first = price(cut_list(lines))
    second = price(cut_list(lines).take(order))
    assert np.array_equal(first.lines.price[order], second.lines.price)
    assert first.totals.total == second.totals.total


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.integers(1, 20), st.integers(2, 48), st.integers(8, 800)), min_size=1, max_size=8))
def test_inches_and_millimetres_of_the_same_list_give_one_price(pieces: list[tuple[int, int, int]]) -> None:
    sixteenths = [
        {
            "quantity": q,
            "thickness_mm": t / 16 * 25.4,
            "shape": -1,
            "size_a_mm": 1,
            "size_b_mm": 1,
            "holes": 0,
            "hole_diameter_mm": 0,
            "cut_length_mm": length / 8 * 25.4,
            "method": -1,
            "made_from": 0,
            "surface": 0,
            "bevel_deg": np.nan,
            "steel": 2,
        }
        for q, t, length in pieces
    ]
    typed = [line | {k: float(f"{line[k]:.7f}") for k in ("thickness_mm", "cut_length_mm")} for line in sixteenths]
    assert price(cut_list(sixteenths)).totals == price(cut_list(typed)).totals


@settings(max_examples=60, deadline=None)
@given(st.integers(1, 60), st.floats(40, 1200), st.floats(40, 1200), st.sampled_from([0, 3]), st.integers(0, 1))
def test_sharing_cuts_never_costs_more_and_a_row_of_n_takes_n_plus_1_cross_cuts(
    n: int, a: float, b: float, shape: int, mill_ends: int
) -> None:
    line = {
        "quantity": n,
        "thickness_mm": 12.0,
        "shape": shape,
        "size_a_mm": a,
        "size_b_mm": b,
        "holes": 0,
        "hole_diameter_mm": 0,
        "cut_length_mm": 1,
        "method": -1,
        "made_from": 0,
        "surface": 0,
        "bevel_deg": np.nan,
        "steel": 2,
    }
    alone = price(cut_list([line])).job.lines
    shared = price(cut_list([line], shared_cuts=np.array([True]), mill_ends=np.array([float(mill_ends)]))).job.lines
    assert shared.cut_m[0] <= alone.cut_m[0] + 1e-9
    assert shared.paid_time_min[0] <= alone.paid_time_min[0] + 1e-9
    if shape == 0:
        assert np.isclose(shared.cut_m[0] * 1000, (n + 1 - mill_ends) * b + 2 * n * a)
