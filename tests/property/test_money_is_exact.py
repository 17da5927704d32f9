"""A thousand random quotes: the engine, its JSON and an exact second pricing agree on every printed amount."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from decimal import Decimal
from typing import Any

import numpy as np
import pytest

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.shop_book import AddOn, QuantityBreak, ShopBook
from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.job import Estimate, JobOrder, estimate_job
from estimator.words import Method, Shape, Steel, Surface
from estimator.write.estimate_json import estimate_json
from estimator.write.quote.page import quote_page
from tests.exact_repricer import reprice

DATE = dt.date(2026, 11, 2)
PARTS = {"steel": "material"}
QUOTES, CHANGED = 2000, 300


def random_list(draw: np.random.Generator) -> CutList:
    n = int(draw.integers(1, 7))
    return CutList(
        mark=[f"M{draw.integers(0, 4)}" for _ in range(n)],
        quantity=draw.integers(1, 80, n).astype(np.float64),
        thickness_mm=draw.choice([3.0, 6.35, 10.0, 12.0, 20.0, 40.0, 60.0, 100.0], n),
        sheet=["List"] * n,
        row=np.arange(2, 2 + n),
        shape=np.full(n, Shape.RECTANGLE, dtype=np.int8),
        size_a_mm=np.round(draw.uniform(60, 1500, n), 1),
        size_b_mm=np.round(draw.uniform(40, 900, n), 1),
        method=draw.choice(np.array([Method.STRAIGHTEDGE, Method.TRACK, Method.FREE_HAND], dtype=np.int8), n),
        surface=draw.choice(np.array([int(s) for s in Surface], dtype=np.int8), n),
        steel=draw.choice(np.array([int(s) for s in Steel], dtype=np.int8), n),
    )


def random_shop(draw: np.random.Generator, *, breaks: bool = True) -> ShopBook:
    book = example_shop()
    by_margin = bool(draw.integers(0, 2))
    decimals = int(draw.choice([0, 2, 2, 3]))
    rate = round(float(draw.uniform(0, 0.6)), 3)
    form = book.shop.model_copy(
        update={
            "decimals": decimals,
            "margin": rate if by_margin else None,
            "markup": None if by_margin else rate * 2,
            "price_step": float(draw.choice([0.0, 0.0, 0.5, 1.0])) if decimals else 0.0,
            "minimum_line": round(float(draw.choice([0, 0, 25, 40.05])), decimals),
            "minimum_job": round(float(draw.choice([0, 60, 400])), decimals),
            "overhead_per_hour": float(draw.choice([0.0, 11.35])),
            "overhead_share": float(draw.choice([0.0, 0.125])),
            "spread_job_rows": bool(draw.integers(0, 2)),
            "delivery": round(float(draw.choice([0, 35.5])), decimals),
            "tax": float(draw.choice([0.0, 0.07, 0.19, 0.2])),
            "prices_are_examples": False,
        }
    )
    add_ons = (AddOn(name="a", cost_class="gas", share=0.1), AddOn(name="b", cost_class="steel", share=0.035))
    steps = (QuantityBreak(from_quantity=10, off_share=0.05), QuantityBreak(from_quantity=50, off_share=0.125))
    return book.model_copy(
        update={
            "shop": form,
            "file": "shop.xlsx",
            "add_ons": add_ons[: int(draw.integers(0, 3))],
            "breaks": steps[: int(draw.integers(0, 3))] if breaks else (),
        }
    )


def order(draw: np.random.Generator) -> JobOrder:
    return JobOrder(date=DATE, rush=float(draw.choice([0.0, 0.15])), discount=float(draw.choice([0.0, 0.03, 0.075])))


def quotes(count: int, seed: int, **shop: bool) -> list[Estimate]:
    draw = np.random.default_rng(seed)
    return [estimate_job(random_list(draw), random_shop(draw, **shop), order(draw)) for _ in range(count)]


@pytest.fixture(scope="module")
def thousand() -> list[Estimate]:
    return quotes(QUOTES, seed=20261102)


def test_every_printed_amount_is_that_of_the_exact_second_pricing(thousand: list[Estimate]) -> None:
    for done in thousand:
        second = reprice(
            done.cuts,
            done.job,
            done.work,
            done.shop,
            fuel="acetylene",
            date=DATE,
            rush=done.rush,
            discount=done.discount,
        )
        printed = [{name: int(done.lines.parts[name][i]) for name in done.lines.parts} for i in range(len(done.cuts))]
        assert printed == second.parts
        assert done.lines.price_each.tolist() == second.price_each
        assert done.lines.price.tolist() == second.price
        assert done.rows.price.tolist() == second.row_price
        assert {name: getattr(done.totals, name) for name in second.steps} == second.steps


def test_the_json_says_the_same_amounts_and_they_sum_to_its_totals(thousand: list[Estimate]) -> None:
    for done in thousand[::40]:
        data, minor = estimate_json(done, estimate_ranges(done)), 10**done.shop.shop.decimals
        for i, line in enumerate(data["lines"]):
            for name, part in done.lines.parts.items():
                assert Decimal(line[f"{PARTS.get(name, name)}_cost"]) * minor == int(part[i])
            assert Decimal(line["price"]) * minor == int(done.lines.price[i])
        assert Decimal(data["total"]) * minor == done.totals.total
        assert sum(Decimal(line["price"]) for line in data["lines"]) == Decimal(data["price_steps"]["lines"])
        assert sum(Decimal(row["price"]) for row in data["job_rows"]) == Decimal(data["price_steps"]["job_rows"])


def test_what_a_quote_prints_keeps_the_amount_rules_of_en_16931(thousand: list[Estimate]) -> None:
    """EN 16931-1:2017, business rules BR-CO-10 to BR-CO-17, from memory: the standard was not opened."""
    for done in thousand:
        page = quote_page(done)
        sums = {row.what.split(",")[0]: row.minor for row in page.sums}
        of_job = sums.get("Set-up and work for the whole job", 0)
        line_amounts = [int(line.amount or 0) for line in page.lines]
        assert sum(line_amounts) == sums["Lines"]  # BR-CO-10
        allowances = -sums.get("Quantity discount", 0) - sums.get("Discount", 0)  # BR-CO-11
        charges = sums.get("Rush", 0) + sums.get("Minimum charge", 0) + sums.get("Delivery", 0)  # BR-CO-12
        assert min(allowances, charges) >= 0
        net, (tax, total) = sums["Net"], [row.minor for row in page.sums[-2:]]
        assert net == sum(line_amounts) + of_job - allowances + charges  # BR-CO-13
        # BR-CO-14 and 17: one category of tax, its amount the base x the rate, rounded to the minor unit
        assert abs(Decimal(net) * Decimal(str(done.shop.shop.tax)) - tax) <= Decimal("0.5")
        assert total == net + tax  # BR-CO-15; nothing is paid before, so BR-CO-16 gives the same


def test_more_pieces_are_never_cheaper_in_total_where_no_break_says_so() -> None:
    draw = np.random.default_rng(7)
    for less in quotes(CHANGED, seed=7, breaks=False):
        form = less.shop.shop
        line, more = int(draw.integers(0, len(less.cuts))), float(draw.integers(1, 20))
        quantity = less.cuts.quantity + np.where(np.arange(len(less.cuts)) == line, more, 0.0)
        if form.spread_job_rows:  # a spread row is rounded with each piece
            continue
        done = estimate_job(replace(less.cuts, quantity=quantity), less.shop, less.order)
        assert done.totals.total >= less.totals.total


@pytest.mark.parametrize("what", ["gas", "labour", "steel", "markup", "tax", "overhead"])
def test_a_price_that_rises_never_lowers_a_total(what: str) -> None:
    for done in quotes(CHANGED // 5, seed=sum(map(ord, what))):
        dearer = estimate_job(done.cuts, risen(done.shop, what), done.order)
        assert dearer.totals.total >= done.totals.total
        assert dearer.totals.cost >= done.totals.cost


def risen(shop: ShopBook, what: str) -> ShopBook:
    def raised(rows: tuple[Any, ...], name: str) -> tuple[Any, ...]:
        return tuple(row.model_copy(update={name: getattr(row, name) * 1.013}) for row in rows)

    form = shop.shop
    changes: dict[str, dict[str, Any]] = {
        "gas": {"gas_prices": raised(shop.gas_prices, "price")},
        "labour": {"labour": raised(shop.labour, "per_hour")},
        "steel": {"steel": raised(shop.steel, "price_per_kg")},
        "markup": {
            "shop": form.model_copy(
                update={"markup": form.markup and form.markup + 0.01, "margin": form.margin and form.margin + 0.01}
            )
        },
        "tax": {"shop": form.model_copy(update={"tax": form.tax + 0.01})},
        "overhead": {"shop": form.model_copy(update={"overhead_per_hour": form.overhead_per_hour + 0.5})},
    }
    return shop.model_copy(update=changes[what])


def test_splitting_a_line_changes_the_total_by_no_more_than_the_rounding() -> None:
    for whole in quotes(CHANGED, seed=11):
        form = whole.shop.shop.model_copy(update={"minimum_line": 0.0, "minimum_job": 0.0, "price_step": 0.0})
        shop = whole.shop.model_copy(update={"shop": form})
        cuts, q = whole.cuts, whole.cuts.quantity
        line = int(np.argmax(q))
        if q[line] < 2:
            continue
        rows = [*range(len(cuts)), line]
        part = np.floor(q[line] / 3) or 1.0
        halves = cuts.take(np.array(rows))
        halves.quantity = np.array([*np.where(np.arange(len(q)) == line, q - part, q), part])
        one, two = estimate_job(cuts, shop, whole.order), estimate_job(halves, shop, whole.order)
        # half a minor unit of each amount that is rounded anew: a break on one line more, rush, discount, tax;
        # a spread row moves the price of every piece by as much
        pieces = float(q.sum()) if form.spread_job_rows else 0.0
        assert abs(two.totals.total - one.totals.total) <= 4 + pieces * 1.5
