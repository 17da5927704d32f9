"""A price list that was compared serves as the agreed prices of the bills."""

import datetime as dt

import pytest

from estimator.pricing.bill_checks.finding import FindingKind as Kind
from estimator.tasks_month_end import close_books
from tests.month_end_books import AGREED, LINES, TERM, bills_file, day
from tests.price_list_books import FEE, OFFER, price_list_book

LIST = OFFER | {
    "supplier": "Supplier A",
    "cylinder": "O-10",
    "content": 10.0,
    "price": 42.0,
    "rent_rule": "daily on balance",
    "rent": 0.252,
}


def close(lists, **changed):
    return close_books(bills_file(agreed=[], terms=[], **changed), prices=[lists])


def listed(**changed):
    return price_list_book(offers=[LIST | changed], terms=[], fees=[], uses=None)


def test_a_bill_at_the_lists_prices_is_right_without_one_agreed_price_typed():
    report = close(listed())
    assert report.done.findings == ()
    assert [p.code for p in report.problems if p.code.startswith("W6")] == []


def test_a_bill_dearer_than_the_list_is_found():
    (found,) = close(listed(price=40.0)).done.findings
    assert (found.kind, found.money_minor) == (Kind.PRICE, 600)


def test_a_price_by_volume_is_compared_by_the_cylinders_content():
    """420 for 100 m³ at 15 °C and 1 bar is 42.00 for a cylinder of ten."""
    assert close(listed(price=4.2, priced_per="m3")).done.findings == ()


def test_rental_is_counted_by_the_lists_rule():
    lines = [LINES[0], LINES[1] | {"quantity": 279.0, "amount": 70.31}]
    found = close(listed(), lines=lines).done.findings
    assert Kind.RENT in {f.kind for f in found}


def test_a_typed_price_wins_over_the_list():
    typed = close_books(bills_file(agreed=AGREED, terms=[TERM]), prices=[listed(price=10.0)])
    assert typed.done.findings == ()


def test_an_offer_that_does_not_hold_yet_checks_nothing():
    report = close(listed(valid_from=day(1, 6)))
    assert "W614" in {p.code for p in report.problems}


def test_a_fee_of_the_list_is_agreed_and_another_is_not():
    fee = FEE | {"supplier": "Supplier A", "fee": "delivery", "amount": 12.0}
    lists = price_list_book(offers=[LIST], terms=[], fees=[fee], uses=None)
    lines = [
        *LINES,
        FEE_LINE,
        FEE_LINE | {"kind": "fee", "description": "compliance", "amount": 3.0, "unit_price": 3.0},
    ]
    bill = {"net_total": None, "tax_total": None, "total": 203.5}
    report = close(lists, lines=lines, bills=[BILL_OF | bill])
    assert [(f.kind, f.money_minor) for f in report.done.findings] == [(Kind.FEE_NOT_AGREED, 300)]


FEE_LINE = {
    "bill_number": "1",
    "kind": "delivery",
    "description": "delivery",
    "quantity": 1.0,
    "unit": "delivery",
    "unit_price": 12.0,
    "amount": 12.0,
}
BILL_OF = {
    "supplier": "Supplier A",
    "bill_number": "1",
    "bill_date": day(31),
    "period_from": day(1),
    "period_to": day(31),
}


@pytest.mark.parametrize("rule", ["month-end balance", "annual in advance"])
def test_the_unit_of_rent_follows_the_rule(rule):
    from estimator.check.agreed_from_lists import with_price_lists
    from estimator.check.bills import Bill, BillsBook
    from estimator.check.price_lists_book import read_price_lists

    lists, _ = read_price_lists([listed(rent_rule=rule, renewal=dt.datetime(2026, 1, 1))])
    bill = Bill(supplier="Supplier A", bill_number="1", bill_date=dt.date(2026, 3, 31), total=1.0)
    book = with_price_lists(BillsBook(bills=(bill,)), lists)
    rent = next(p for p in book.prices if p.kind == "rent")
    assert rent.unit.said == {"month-end balance": "cylinder-month", "annual in advance": "cylinder-year"}[rule]
    assert book.terms[0].rent_rule == rule
