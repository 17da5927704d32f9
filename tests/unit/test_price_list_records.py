"""Price lists become offers that can be priced: units, states, price bases, tax, dates, several files."""

from __future__ import annotations

import datetime as dt

import pytest

from estimator.check.price_lists_book import in_force, read_price_lists
from estimator.pricing.market import acetylene_draw_share, gas_uses, make_market
from estimator.tasks_compare import compare_books
from tests.price_list_books import FEE, FORM, OFFER, TERM, USE, price_list_book

ON = dt.date(2026, 3, 2)


def offer_of(book):
    lists, problems = read_price_lists([book])
    assert problems == []
    lists, _ = in_force(lists, ON)
    return make_market(lists).suppliers[0].offers[0]


@pytest.mark.parametrize(
    ("content", "unit", "state", "price", "per"),
    [
        # one cylinder of 10.6 m³ at 15 °C and 1 bar for 34.00, said in other ways; factors by hand from the densities
        # 1.33664 (15 °C, 1 bar), 1.32614 (70 °F), 1.42903 kg/m³ (0 °C) and 0.0283168466 m³ a cubic foot
        (10.6, "m3", "15 °C, 1 bar", 34.0, "cylinder"),
        (10.6, "m3", "15 °C, 1 bar", 34.0 / 10.6, "m3"),
        (10.6 * 1.33664 / 1.32614 / 0.028316846592, "ft3", "70 °F, 1 atm", 34.0, "cylinder"),
        (10.6 * 1.33664, "kg", None, 34.0, "cylinder"),
        (10.6 * 1.33664, "kg", None, 34.0 / (10.6 * 1.33664), "kg"),
        (10.6 * 1.33664 / 0.45359237, "lb", None, 34.0, "cylinder"),
        (10.6 * 1.33664 / 1.42903, "Nm3", None, 34.0 / (10.6 * 1.33664 / 1.42903), "Nm3"),
        (10.6, "m3", "15 °C, 1 bar", 34.0 * 1.42903 / (10.6 * 1.33664), "Nm3"),
    ],
)
def test_one_offer_said_in_another_unit_state_or_price_basis_is_the_same_offer(content, unit, state, price, per):
    said = {"content": content, "content_unit": unit, "content_state": state, "price": price, "priced_per": per}
    offer = offer_of(price_list_book(offers=[OFFER | said]))
    assert offer.content_m3 == pytest.approx(10.6 * 1.33664 / 1.35436, rel=1e-9)
    assert offer.price == pytest.approx(34.0, rel=1e-9)


def test_a_price_per_hundred_cubic_feet_in_a_state_of_its_own_is_converted_from_that_state():
    said = {"price": 8.0, "priced_per": "100 ft3", "priced_state": "70 °F, 1 atm"}
    offer = offer_of(price_list_book(offers=[OFFER | said]))
    # by hand: 10.6 m³ at 15 °C, 1 bar are 10.6 x 1.33664 / 1.32614 / 0.0283168466 = 377.30 ft³ at 70 °F
    assert offer.price == pytest.approx(8.0 * 3.77302, rel=1e-4)


def test_prices_with_tax_are_compared_before_tax():
    terms = [TERM | {"tax": 0.25, "prices_include_tax": "yes"}]
    offer = offer_of(price_list_book(offers=[OFFER | {"price": 50.0, "rent": 10.0}], terms=terms))
    assert (offer.price, offer.rent.rate) == (40.0, 8.0)


def test_fees_are_gathered_by_what_they_grow_with():
    fees = [
        FEE,
        FEE | {"fee": "hazardous goods", "amount": 7.5},
        FEE | {"fee": "energy", "charged": "percent of gas", "amount": None, "share": 0.04},
        FEE | {"fee": "valve", "charged": "each cylinder", "amount": 1.5, "gas": "oxygen"},
        FEE | {"fee": "valve on fuel", "charged": "each cylinder", "amount": 9.0, "gas": "propane"},
        FEE | {"fee": "account", "charged": "each month", "amount": 3.0},
        FEE | {"fee": "paper", "charged": "each invoice", "amount": 2.0},
    ]
    lists, problems = read_price_lists([price_list_book(fees=fees)])
    assert problems == []
    supplier = make_market(in_force(lists, ON)[0]).suppliers[0]
    terms, offer = supplier.terms, supplier.offers[0]
    assert (terms.delivery_fee, terms.month_fee, terms.invoice_fee) == (19.5, 3.0, 2.0)
    assert (offer.cylinder_fees, offer.surcharge_share) == (1.5, 0.04)


def test_of_prices_and_fees_that_were_changed_the_one_in_force_is_used():
    june = dt.datetime(2026, 6, 1)
    offers = [OFFER, OFFER | {"price": 37.0, "valid_from": june}]
    fees = [FEE, FEE | {"amount": 15.0, "valid_from": june}]
    lists, _ = read_price_lists([price_list_book(offers=offers, fees=fees)])
    spring, autumn = (make_market(in_force(lists, day)[0]).suppliers[0] for day in (ON, dt.date(2026, 9, 1)))
    assert (spring.offers[0].price, spring.terms.delivery_fee) == (34.0, 12.0)
    assert (autumn.offers[0].price, autumn.terms.delivery_fee) == (37.0, 15.0)


def test_an_offer_past_its_last_day_is_left_out():
    ended = OFFER | {"cylinder": "old", "valid_to": dt.datetime(2026, 2, 28)}
    lists, _ = read_price_lists([price_list_book(offers=[OFFER, ended])])
    assert [offer.cylinder for offer in in_force(lists, ON)[0].offers] == ["L50"]


def test_one_file_for_each_supplier_compares_as_one_file_with_all():
    birch = {"supplier": "Birch (invented)"}
    both = price_list_book(
        offers=[OFFER, OFFER | birch | {"price": 30.0}], terms=[TERM, TERM | birch], fees=[FEE, FEE | birch]
    )
    first = price_list_book()
    second = price_list_book(
        offers=[OFFER | birch | {"price": 30.0}], terms=[TERM | birch], fees=[FEE | birch], uses=[]
    )
    together, _ = compare_books([both])
    apart, problems = compare_books([first, second])
    assert together is not None
    assert apart is not None
    assert [m.total_minor for m in together.mixes] == [m.total_minor for m in apart.mixes]
    assert [p for p in problems if p.level == "error"] == []


def test_a_suppliers_name_may_differ_in_capitals_and_spaces():
    lists, problems = read_price_lists([price_list_book(terms=[TERM | {"supplier": " ash  (INVENTED)"}])])
    assert problems == []
    assert lists.terms_of("Ash (invented)").lead_time_days == 2


def test_piped_gas_is_priced_by_its_amount_and_needs_no_content():
    piped = OFFER | {
        "gas": "natural gas",
        "cylinder": "meter",
        "piped": "yes",
        "content": None,
        "content_unit": None,
        "content_state": None,
        "price": 1.2,
        "priced_per": "m3",
        "priced_state": "15 °C, 101.325 kPa",
        "rent": 12.0,
    }
    use = USE | {"gas": "natural gas", "amount": 50.0, "state": "15 °C, 101.325 kPa"}
    comparison, problems = compare_books([price_list_book(offers=[piped], uses=[use], fees=[])])
    assert problems == []
    assert comparison is not None
    assert comparison.best.total_minor == 50 * 120 + 1200


def test_a_heel_that_no_list_states_is_taken_from_the_recalled_figures_and_said():
    lists, _ = read_price_lists([price_list_book()])
    market = make_market(in_force(lists, ON)[0])
    offer = market.suppliers[0].offers[0]
    assert offer.uncredited_m3 == pytest.approx(0.01 * offer.content_m3)  # 2 bar of 200, from memory
    assert ("oxygen left at change-over", "memory") in {(a.what, a.status) for a in market.assumed}
    stated, _ = read_price_lists([price_list_book(offers=[OFFER | {"heel_share": 0.04, "credited_share": 0.25}])])
    known = make_market(in_force(stated, ON)[0]).suppliers[0].offers[0]
    assert known.uncredited_m3 == pytest.approx(0.03 * known.content_m3)


def test_long_burns_take_the_stricter_draw_limit_of_acetylene():
    assert acetylene_draw_share(long_burns=True) == 1 / 15
    row = {"gas": "acetylene", "amount": 5.0, "highest_draw": 0.9}
    lists, _ = read_price_lists([price_list_book(uses=[USE | row, USE])])
    assert [use.draw_share_per_h for use in gas_uses(lists.uses)] == [1 / 10, 0.0]


def test_the_days_defaults_are_taken_from_the_shop_when_no_list_says_and_are_shown():
    silent = price_list_book(offers=[OFFER | {"content_unit": None, "content_state": None}])
    silent.sheets.pop()  # the list has no sheet 'Comparison'; the shop book's stands in
    with_sheet = price_list_book(form=FORM | {"list_unit": "m3", "list_state": "15 °C, 1 bar"})
    form = read_price_lists([with_sheet])[0].form
    comparison, problems = compare_books([silent], form=form)
    assert comparison is not None
    assert [p.code for p in problems] == ["W502", "W504"]
    usual, _ = compare_books([price_list_book()])
    assert usual is not None
    assert comparison.best.total_minor == usual.best.total_minor


def test_yearly_rent_keeps_its_renewal_day():
    book = price_list_book(offers=[OFFER | {"rent_rule": "annual in advance", "renewal": dt.datetime(2025, 4, 6)}])
    assert offer_of(book).rent.renewal == (4, 6)
