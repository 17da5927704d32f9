"""What must hold of the month end whatever the workbooks lack: no traceback, money that adds up, rows in any order."""

from __future__ import annotations

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.check.bills import BillsBook
from estimator.pricing.bill_checks.run import check_the_bills
from estimator.pricing.month_end import month_end
from tests.planted_faults import Fault
from tests.simulate_months import simulate
from tests.simulated_supplier import SIZES

SHOPS = [simulate(seed, fault, months=2) for seed, fault in enumerate([None, Fault.PRICE, Fault.SHORT_FILL])]
SHEETS = ("bills", "lines", "deliveries", "counts", "prices", "terms")


def closed(book, shop):
    return month_end(check_the_bills(book, as_of=shop.as_of, sizes=SIZES))


def hold(done):
    for month in done.months:
        assert month.bridge.start_minor + sum(p.minor for p in month.bridge.steps()) == month.bridge.total_minor


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(SHOPS), st.randoms(use_true_random=False), st.integers(1, 12))
def test_rows_may_be_missing_anywhere(shop, chance, missing):
    """Any rows but the last bill may be lost: a gap is a finding or a problem, never a traceback; money adds up."""
    rows = {name: list(getattr(shop.book, name)) for name in SHEETS}
    for _ in range(missing):
        name = chance.choice(SHEETS)
        if len(rows[name]) > (1 if name == "bills" else 0):
            rows[name].pop(chance.randrange(len(rows[name])))
    kept = {(b.supplier, b.bill_number) for b in rows["bills"]}
    rows["lines"] = [n for n in rows["lines"] if (n.supplier, n.bill_number) in kept]
    hold(closed(BillsBook(**{name: tuple(r) for name, r in rows.items()}), shop))


@settings(max_examples=15, deadline=None)
@given(st.sampled_from(SHOPS), st.integers(0, 10_000))
def test_the_order_of_rows_changes_nothing(shop, seed):
    chance = random.Random(seed)
    turned = {
        name: tuple(chance.sample(list(getattr(shop.book, name)), len(getattr(shop.book, name)))) for name in SHEETS
    }
    one, other = closed(shop.book, shop), closed(BillsBook(**turned), shop)
    assert sorted((f.kind, f.money_minor) for f in one.findings) == sorted(
        (f.kind, f.money_minor) for f in other.findings
    )
    assert [m.bridge.total_minor for m in one.months] == [m.bridge.total_minor for m in other.months]
    for mine, theirs in zip(one.months, other.months, strict=True):
        assert {(p.key, p.gas): p.minor for p in mine.bridge.parts} == {
            (p.key, p.gas): p.minor for p in theirs.bridge.parts
        }


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(SHOPS), st.floats(-500, 500).map(lambda x: round(x, 2)), st.data())
def test_an_amount_typed_wrongly_is_found_and_the_money_still_adds_up(shop, off, data):
    index = data.draw(st.integers(0, len(shop.book.lines) - 1))
    line = shop.book.lines[index]
    lines = list(shop.book.lines)
    lines[index] = line.model_copy(update={"amount": round(line.amount + off, 2)})
    done = closed(shop.book.model_copy(update={"lines": tuple(lines)}), shop)
    hold(done)
    if abs(off) > 1:
        assert done.findings


@settings(max_examples=10, deadline=None)
@given(st.sampled_from(SHOPS), st.sampled_from([10, 1000]))
def test_money_in_another_unit_scales_every_finding(shop, factor):
    """All prices and amounts times ten: every claim is ten times as large, within the rounding of what is printed."""
    untaxed = tuple(t.model_copy(update={"tax_rate": None}) for t in shop.book.terms)  # tax is rounded once, not scaled
    book = shop.book.model_copy(update={"terms": untaxed})
    lines = tuple(
        n.model_copy(update={"amount": round(n.amount * factor, 2), "unit_price": (n.unit_price or 0) * factor})
        for n in book.lines
    )
    bills = tuple(
        b.model_copy(update={k: round(getattr(b, k) * factor, 2) for k in ("net_total", "tax_total", "total")})
        for b in book.bills
    )
    prices = tuple(p.model_copy(update={"price": p.price * factor}) for p in book.prices)
    notes = tuple(
        d.model_copy(update={"credit_due": d.credit_due * factor if d.credit_due else None}) for d in book.deliveries
    )
    scaled = BillsBook(
        bills=bills, lines=lines, deliveries=notes, counts=book.counts, prices=prices,
        terms=tuple(t.model_copy(update={"line_rounding": 0.01 * factor}) for t in book.terms),
    )  # fmt: skip
    one, other = closed(book, shop), closed(scaled, shop)
    assert [f.kind for f in one.findings] == [f.kind for f in other.findings]
    for mine, theirs in zip(one.findings, other.findings, strict=True):
        assert abs(theirs.money_minor - factor * mine.money_minor) <= factor
