"""Numbers and revisions go on from the last; hit rates and last prices come from what was sent."""

from __future__ import annotations

import datetime as dt

import pytest

from estimator.check.register import QuotedLine, QuoteKey, QuoteRow, Register, next_revision
from estimator.pricing.quote_history import hit_rates, last_price, last_prices


def quote(number: str, revision: str = "A", *, day: int = 1, **more: object) -> QuoteRow:
    values = {"number": number, "revision": revision, "date": dt.date(2026, 11, day), "customer": "North", "price": 100}
    return QuoteRow.model_validate(values | more)


def line(number: str, revision: str, mark: str, price: float, **more: object) -> QuotedLine:
    values = {"number": number, "revision": revision, "mark": mark, "quantity": 2, "price_each": price}
    return QuotedLine.model_validate(values | {"amount": 2 * price} | more)


@pytest.mark.parametrize(
    ("taken", "following"),
    [
        ([], "Q-0001"),
        (["Q-0001", "Q-0003", "Q-0002"], "Q-0004"),
        (["Q-0031", "2026-007"], "2026-008"),
        (["41"], "42"),
        (["Q-999"], "Q-1000"),
        (["spring"], None),
    ],
)
def test_the_next_number_goes_on_from_the_kind_used_last(taken: list[str], following: str | None) -> None:
    assert Register(taken=taken).next_number() == following


def test_revisions_go_on_as_they_began() -> None:
    assert [next_revision(one) for one in ("A", "b", "Z", "AZ", "9", "P1")] == ["B", "C", "AA", "BA", "10", "P1A"]


def test_a_quote_counts_once_however_often_it_was_revised() -> None:
    register = Register(
        [
            quote("Q-1", "A", state="replaced"),
            quote("Q-1", "B", state="won", price=90),
            quote("Q-1", "B", variation=1, state="won", price=15),
            quote("Q-2", state="lost"),
            quote("Q-3", "A", state="replaced"),
            quote("Q-3", "B", state="open", customer="South", price=40),
        ]
    )
    everyone, north, south = hit_rates(register)
    assert (everyone.won, everyone.lost, everyone.open) == (1, 1, 1)
    assert (everyone.won_price, everyone.lost_price, everyone.open_price) == (105, 100, 40)
    assert everyone.of_decided == 0.5
    assert (north.customer, north.of_decided, south.customer, south.of_decided) == ("North", 0.5, "South", None)


def test_an_empty_register_has_no_hit_rate() -> None:
    assert [(rate.won, rate.of_decided) for rate in hit_rates(Register())] == [(0, None)]


def test_the_last_price_is_the_latest_for_this_customer_mark_and_thickness() -> None:
    register = Register(
        [quote("Q-1", day=3), quote("Q-2", day=9), quote("Q-3", day=20, customer="South"), quote("Q-4", day=1)],
        [
            line("Q-2", "A", "P1", 21.5, thickness_mm=20),
            line("Q-1", "A", "P1", 19.0, thickness_mm=20),
            line("Q-2", "A", "p1", 30.0, thickness_mm=25),
            line("Q-3", "A", "P1", 99.0, thickness_mm=20),
        ],
    )

    def last(
        mark: str = "P1", thickness_mm: float = 20.0, customer: str = "north", apart_from: str = ""
    ) -> float | None:
        prices = last_prices(register, customer, apart_from=apart_from)
        found = last_price(prices, mark=mark, thickness_mm=thickness_mm)
        return None if found is None else found.price_each

    assert last() == 21.5
    assert last(thickness_mm=25.0) == 30.0
    assert last(thickness_mm=12.0) is None
    assert last(customer="South") == 99.0
    assert last(mark="P2") is None
    assert last(apart_from="Q-2") == 19.0
    assert last(thickness_mm=float("nan")) == 30.0


def test_variations_stand_behind_their_revision() -> None:
    rows = [quote("Q-1", "B"), quote("Q-1", "A", variation=1), quote("Q-1", "A"), quote("Q-1", "AA")]
    register = Register(rows)
    assert [row.key for row in register.of_number("q-1")] == [
        QuoteKey("Q-1", "A"),
        QuoteKey("Q-1", "A", 1),
        QuoteKey("Q-1", "B"),
        QuoteKey("Q-1", "AA"),
    ]
    assert [row.revision for row in register.revisions("Q-1")] == ["A", "B", "AA"]
