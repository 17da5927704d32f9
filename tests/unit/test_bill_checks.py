"""Each check of a bill on a small month that is right but for one thing; figures worked by hand."""

import datetime as dt

import pytest

from estimator.check.bills import AgreedPrice, BillsBook, Delivery, RackCount, SupplierTerms
from estimator.pricing.bill_checks.finding import FindingKind as Kind
from tests.small_bills import bills_book, check, day, foot, line, only

GAS = {"gas": "oxygen", "size": "50 L"}
S = "Supplier A"


def lines_with(index, **changed):
    """The right lines with one of them changed."""
    lines = list(bills_book().lines)
    lines[index] = lines[index].model_copy(update=changed)
    return tuple(lines)


def prices_with(index, **changed):
    prices = list(bills_book().prices)
    prices[index] = prices[index].model_copy(update=changed)
    return tuple(prices)


def terms(**changed):
    base = {"supplier": S, "objection_days": 30, "tax_rate": 0.2, "rent_rule": "daily on balance"}
    return (SupplierTerms(**(base | changed)),)


def test_a_right_month_has_no_finding_and_nothing_unchecked():
    checked = check(bills_book())
    assert checked.findings == ()
    assert checked.problems == ()


# --- as printed ---


def test_a_line_that_does_not_multiply_out():
    found = only(bills_book(lines=lines_with(0, amount=198.0)))
    assert (found.kind, found.money_minor) == (Kind.LINE_ARITHMETIC, 900)
    assert found.said == "6 x 31.5 is 189.00, not 198.00"


def test_a_line_within_its_suppliers_rounding_is_right():
    assert check(bills_book(lines=lines_with(1, quantity=248.02, amount=62.0))).findings == ()


def test_lines_that_do_not_add_up_to_the_printed_total():
    lines = bills_book().lines
    book = bills_book(bills=(foot("1", lines, net_total=283.5, tax_total=56.7, total=340.2),))
    found = only(book)  # 189 + 62 + 18 + 4.50 = 273.50
    assert (found.kind, found.money_minor) == (Kind.FOOTING, 1000)


def test_total_and_tax_that_do_not_add_up():
    lines = bills_book().lines
    found = only(bills_book(bills=(foot("1", lines, total=338.2),)))
    assert (found.kind, found.money_minor) == (Kind.FOOTING, 1000)


def test_tax_that_is_not_the_rate():
    lines = bills_book().lines
    found = only(bills_book(bills=(foot("1", lines, tax_total=60.0, total=333.5),)))
    assert (found.kind, found.money_minor) == (Kind.TAX, 530)  # 20 % of 273.50 is 54.70


def test_tax_worked_out_line_by_line_may_differ_by_a_coin_a_line():
    lines = bills_book().lines
    by_line = terms(tax_way="on each line")
    assert check(bills_book(bills=(foot("1", lines, tax_total=54.72, total=328.22),), terms=by_line)).findings == ()


# --- gas ---


def test_three_per_cent_above_the_agreed_price():
    found = only(bills_book(lines=lines_with(0, unit_price=32.45, amount=194.70)))
    assert (found.kind, found.money_minor) == (Kind.PRICE, 570)
    assert found.said == "oxygen 50 L is charged at 32.45 for 1 cylinder; agreed was 31.50 (+3.0%)"


def test_the_price_in_force_on_the_day_of_delivery_holds():
    old, *rest = bills_book().prices
    new = old.model_copy(update={"price": 33.0, "valid_from": day(6)})
    assert check(bills_book(prices=(old, new, *rest))).findings == ()
    assert only(bills_book(prices=(old, new.model_copy(update={"valid_from": day(5)}), *rest))).money_minor == -900


def test_a_price_agreed_by_volume_is_compared_in_one_reference_state():
    """10.6 m³ at 15 °C and 1 bar are 3.743 hundreds of ft³ at 70 °F and 1 atm; 31.50 ÷ 3.773 is 8.3488 a hundred."""
    per_volume = prices_with(0, unit=AgreedPrice(kind="gas", price=1, unit="100 ft³ (70 °F, 1 atm)").unit, price=8.3488)
    assert check(bills_book(prices=per_volume)).findings == ()


def test_the_agreed_number_charged_for_another_reference_state():
    normal = AgreedPrice(supplier=S, kind="gas", **GAS, content="10.6 m³ (15 °C, 1 bar)", price=3.2, unit="Nm³")
    gas = line("gas", 63.6, 3.2, "m³ (15 °C, 1 bar)", **GAS, delivery_note="4471", date=day(5))
    lines = (gas, *bills_book().lines[1:])
    found = only(bills_book(lines=lines, prices=(normal, *bills_book().prices[1:])))
    assert found.kind is Kind.STATE
    # 63.6 m³ at 15 °C and 1 bar are 59.49 Nm³ (x 273.15/288.15 x 1/1.01325, ideal): 203.52 - 190.37
    assert found.money_minor == pytest.approx(1315, abs=5)


def test_a_quantity_counted_in_another_unit_than_printed():
    per_m3 = prices_with(0, unit=AgreedPrice(kind="gas", price=1, unit="m³ (15 °C, 1 bar)").unit, price=2.97)
    kilograms = line("gas", 85.02, 2.97, "m³ (15 °C, 1 bar)", **GAS, delivery_note="4471", date=day(5))
    found = only(bills_book(lines=(kilograms, *bills_book().lines[1:]), prices=per_m3))
    assert found.kind is Kind.UNIT  # 63.6 m³ x 1.3366 kg/m³ = 85.01 kg
    assert found.money_minor == pytest.approx(6362, abs=3)  # (85.02 - 63.6) x 2.97


def test_a_volume_without_its_state_is_read_as_the_agreed_one_and_said():
    bare = line("gas", 63.6, 2.97, "m³", **GAS, delivery_note="4471", date=day(5))
    per_m3 = prices_with(0, unit=AgreedPrice(kind="gas", price=1, unit="m³ (15 °C, 1 bar)").unit, price=2.97)
    checked = check(bills_book(lines=(bare, *bills_book().lines[1:]), prices=per_m3))
    assert checked.findings == ()
    assert [p.code for p in checked.problems] == ["W608"]
    assert "15 °C, 1 bar" in checked.problems[0].why


def test_more_is_billed_than_came():
    found = only(bills_book(lines=lines_with(0, quantity=7, amount=220.5)))
    assert (found.kind, found.money_minor) == (Kind.BILLED_NOT_RECEIVED, 3150)
    assert found.said == "7 oxygen 50 L are billed, note 4471 brought 6 (6 were ordered)"


def test_a_note_that_is_not_here_brought_nothing():
    found = check(bills_book(lines=lines_with(0, delivery_note="4477"))).findings
    assert {f.kind for f in found} == {Kind.BILLED_NOT_RECEIVED, Kind.RECEIVED_NOT_BILLED}
    assert sum(f.money_minor for f in found) == 0


def test_a_delivery_that_no_bill_asks_for():
    extra = Delivery(supplier=S, note_number="4480", date=day(12), **GAS, full_in=2, empty_out=2)
    found = only(bills_book(deliveries=(*bills_book().deliveries, extra), prices=prices_with(2, unit=BILL_UNIT)))
    assert (found.kind, found.money_minor) == (Kind.RECEIVED_NOT_BILLED, -6300)


BILL_UNIT = AgreedPrice(kind="fee", price=1, unit="bill").unit


def test_more_came_and_is_billed_than_was_ordered():
    note = bills_book().deliveries[0].model_copy(update={"ordered": 5})
    found = only(bills_book(deliveries=(note,)))
    assert (found.kind, found.money_minor) == (Kind.NOT_ORDERED, 3150)


def test_lines_without_note_numbers_are_set_beside_the_notes_of_the_bills_days():
    assert check(bills_book(lines=lines_with(0, delivery_note=""))).findings == ()
    found = only(bills_book(lines=lines_with(0, delivery_note="", quantity=8, amount=252.0)))
    assert (found.kind, found.money_minor) == (Kind.BILLED_NOT_RECEIVED, 6300)


# --- twice ---


def test_the_same_line_twice():
    lines = bills_book().lines
    found = only(bills_book(lines=(*lines, lines[0].model_copy())))
    assert (found.kind, found.money_minor) == (Kind.DUPLICATE_LINE, 18900)


def test_two_like_lines_for_a_note_that_brought_both_are_right():
    note = bills_book().deliveries[0].model_copy(update={"full_in": 12, "empty_out": 12, "ordered": 12})
    lines = bills_book().lines
    assert check(bills_book(lines=(*lines, lines[0].model_copy()), deliveries=(note,))).findings == ()


def test_a_bill_sent_again_under_another_number():
    lines = bills_book().lines
    again = tuple(n.model_copy(update={"bill_number": "2"}) for n in lines)
    found = only(bills_book(lines=(*lines, *again), bills=(foot("1", lines), foot("2", again))))
    assert (found.kind, found.money_minor, found.bill_number) == (Kind.DUPLICATE_BILL, 32820, "2")


def test_a_bill_typed_twice_under_one_number():
    lines = bills_book().lines
    again = tuple(n.model_copy() for n in lines)
    found = only(bills_book(lines=(*lines, *again), bills=(foot("1", lines), foot("1", lines))))
    assert (found.kind, found.money_minor) == (Kind.DUPLICATE_BILL, 32820)


def test_two_months_of_like_rent_are_no_duplicates():
    rent = tuple(line("rent", 248, 0.25, "cylinder-day", **GAS, bill_number=n) for n in ("1", "2"))
    april = {"bill_date": day(30, 4), "period_from": day(1, 4), "period_to": day(30, 4)}
    book = bills_book(lines=rent, bills=(foot("1", rent), foot("2", rent, **april)), deliveries=NO_MOVES)
    assert {f.kind for f in check(book).findings} == {Kind.RENT}  # eight for 30 days are 240, not 248


NO_MOVES = (Delivery(supplier=S, note_number="9", date=day(5), **GAS, full_in=0, empty_out=0),)


# --- cylinders and rental ---


def test_a_count_that_the_notes_do_not_explain():
    counts = (bills_book().counts[0], bills_book().counts[1].model_copy(update={"empty": 2}))
    found = only(bills_book(counts=counts))
    assert (found.kind, found.money_minor) == (Kind.CYLINDERS_MISSING, 0)
    assert found.said.startswith("2 oxygen 50 L (rented) are missing: nothing says that they went back")


def test_rental_on_two_cylinders_that_went_back():
    back = Delivery(supplier=S, note_number="4460", date=day(2), **GAS, empty_out=2)
    counts = (bills_book().counts[0], bills_book().counts[1].model_copy(update={"empty": 2}))
    book = bills_book(deliveries=(*bills_book().deliveries, back), counts=counts, prices=prices_with(2, unit=BILL_UNIT))
    found = only(book)  # eight on the 1st, six for 30 days: 188; 248 are billed
    assert (found.kind, found.money_minor) == (Kind.RENT, 1500)
    assert "2 oxygen 50 L for 30 days more than you had (248 cylinder-days, your count gives 188)" in found.said


def test_the_day_of_a_return_does_not_count_and_a_swap_changes_nothing():
    """Checked with the clean month: six in and six out on the 5th leave eight for 31 days, 248."""
    assert bills_book().lines[1].quantity == 8 * 31
    assert check(bills_book()).findings == ()


def test_rental_by_the_months_end():
    monthly = (bills_book().prices[0], AgreedPrice(supplier=S, kind="rent", **GAS, price=7.5, unit="cylinder-month"))
    monthly += bills_book().prices[2:]
    rent = line("rent", 9, 7.5, "cylinder-month", **GAS)
    lines = (bills_book().lines[0], rent, *bills_book().lines[2:])
    found = only(bills_book(lines=lines, prices=monthly, terms=terms(rent_rule="month-end balance")))
    assert (found.kind, found.money_minor) == (Kind.RENT, 750)


def test_a_rent_period_from_the_25th_to_the_24th_is_lined_up_first():
    """25 February to 24 March are 28 days of eight cylinders: 224, though the bill is for March."""
    lines = lines_with(1, quantity=224, amount=56.0)
    assert check(bills_book(lines=lines, terms=terms(rent_period_ends=24))).findings == ()
    assert only(bills_book(lines=lines)).kind is Kind.RENT_SHORT


def test_rental_on_the_shops_own_cylinders():
    owned = tuple(c.model_copy(update={"owner": "owned"}) for c in bills_book().counts)
    note = bills_book().deliveries[0].model_copy(update={"owner": "owned"})
    found = only(bills_book(counts=owned, deliveries=(note,)))
    assert (found.kind, found.money_minor) == (Kind.RENT_OWNED, 6200)


def test_a_rent_rate_above_the_agreed_one():
    found = only(bills_book(lines=lines_with(1, unit_price=0.30, amount=74.4)))
    assert (found.kind, found.money_minor) == (Kind.PRICE, 1240)


def test_without_a_count_rent_is_not_checked_and_said():
    checked = check(bills_book(counts=()))
    assert checked.findings == ()
    assert [p.code for p in checked.problems] == ["W612"]


def test_a_bill_of_days_before_any_count_or_note_is_not_checked_for_rent():
    rent = (line("rent", 10 * 28, 0.25, "cylinder-day", **GAS, bill_number="0"),)
    january = {"bill_date": day(31, 1), "period_from": day(1, 1), "period_to": day(31, 1)}
    lines = (*rent, *bills_book().lines)
    book = bills_book(lines=lines, bills=(foot("0", rent, **january), foot("1", lines)))
    checked = check(book)
    assert {f.kind for f in checked.findings} == {Kind.PERIOD_GAP}
    assert [p.code for p in checked.problems] == ["W612"]


def test_without_a_rule_rent_is_not_checked_and_said():
    checked = check(bills_book(terms=terms(rent_rule="")))
    assert [p.code for p in checked.problems] == ["W616"]


# --- fees, credits, deposits, fills, periods ---


def test_a_fee_that_was_not_agreed():
    odd = line("fee", 1, 7.5, "bill", description="compliance charge")
    found = only(bills_book(lines=(*bills_book().lines, odd)))
    assert (found.kind, found.money_minor) == (Kind.FEE_NOT_AGREED, 750)


def test_a_fee_above_the_agreed_one():
    found = only(bills_book(lines=lines_with(3, unit_price=9.5, amount=9.5)))
    assert (found.kind, found.money_minor) == (Kind.FEE_RISEN, 500)


def test_a_delivery_charged_more_often_than_the_van_came():
    found = only(bills_book(lines=lines_with(2, quantity=2, amount=36.0)))
    assert (found.kind, found.money_minor) == (Kind.FEE_COUNT, 1800)


def test_a_fee_risen_since_the_last_bill_where_no_fee_was_agreed():
    february = {"bill_date": day(28, 2), "period_from": day(1, 2), "period_to": day(28, 2)}
    before = (line("fee", 1, 4.5, "bill", description="surcharge", bill_number="0"),)
    now = (line("fee", 1, 9.5, "bill", description="surcharge"),)
    prices = tuple(p for p in bills_book().prices if p.kind not in {"fee", "delivery"})
    bills = (foot("0", before, **february), foot("1", now))
    book = bills_book(lines=before + now, bills=bills, prices=prices, deliveries=NO_MOVES)
    found = only(book)
    assert (found.kind, found.money_minor, found.bill_number) == (Kind.FEE_RISEN, 500, "1")


def test_a_promised_credit_that_does_not_come():
    note = bills_book().deliveries[0].model_copy(update={"credit_due": 12.0})
    found = only(bills_book(deliveries=(note,)))
    assert (found.kind, found.money_minor) == (Kind.CREDIT_MISSING, 1200)


def test_a_credit_note_of_the_next_month_answers_it():
    note = bills_book().deliveries[0].model_copy(update={"credit_due": 12.0})
    credit = line("credit", 1, -12.0, "cylinder", **GAS, delivery_note="4471", bill_number="C1")
    lines = (*bills_book().lines, credit)
    april = {"kind": "credit note", "bill_date": day(3, 4), "period_from": None, "period_to": None}
    bills = (foot("1", lines), foot("C1", lines, **april))
    assert check(bills_book(deliveries=(note,), lines=lines, bills=bills)).findings == ()


def test_deposits_follow_the_cylinders():
    deposit = AgreedPrice(supplier=S, kind="deposit", **GAS, price=50.0, unit="cylinder")
    prices = (*bills_book().prices, deposit)
    assert check(bills_book(prices=prices)).findings == ()  # a swap costs no deposit
    asked = line("deposit", 6, 50.0, "cylinder", **GAS)
    found = only(bills_book(prices=prices, lines=(*bills_book().lines, asked)))
    assert (found.kind, found.money_minor) == (Kind.DEPOSIT, 30000)


def test_cylinders_that_came_ten_per_cent_short():
    note = bills_book().deliveries[0].model_copy(update={"readings_in": readings("180 bar; 178 bar; 182 bar")})
    found = only(bills_book(deliveries=(note,)))
    assert found.kind is Kind.SHORT_FILL
    props = pytest.importorskip("CoolProp.CoolProp").PropsSI
    density = {bar: props("D", "T", 288.15, "P", (bar + 1.01325) * 1e5, "Oxygen") for bar in (178, 180, 182, 200)}
    short = 1 - (density[178] + density[180] + density[182]) / 3 / density[200]
    assert found.money_minor == pytest.approx(3 * 3150 * short, abs=3)


def test_cold_cylinders_are_not_called_short():
    note = bills_book().deliveries[0].model_copy(update={"readings_in": readings("194 bar; 195 bar")})
    assert check(bills_book(deliveries=(note,))).findings == ()


def readings(text):
    from estimator.read.cylinder_reading import read_cylinders

    return read_cylinders(text)


def test_bills_that_overlap_and_bills_that_leave_a_gap():
    first = (line("rent", 248, 0.25, "cylinder-day", **GAS, bill_number="1"),)
    second = (line("rent", 8 * 37, 0.25, "cylinder-day", **GAS, bill_number="2"),)
    april = {"bill_date": day(30, 4), "period_from": day(25), "period_to": day(30, 4)}
    book = bills_book(lines=first + second, bills=(foot("1", first), foot("2", second, **april)), deliveries=NO_MOVES)
    found = only(book)
    assert (found.kind, found.money_minor) == (Kind.PERIOD_OVERLAP, 1400)  # 74.00 x 7 / 37
    april["period_from"] = day(3, 4)
    third = (line("rent", 8 * 28, 0.25, "cylinder-day", **GAS, bill_number="2"),)
    book = bills_book(lines=first + third, bills=(foot("1", first), foot("2", third, **april)), deliveries=NO_MOVES)
    assert only(book).kind is Kind.PERIOD_GAP


# --- days left, order, order of rows ---


def test_the_days_left_run_from_the_bills_date():
    assert only(bills_book(lines=lines_with(3, unit_price=9.5, amount=9.5))).days_left == 25
    no_days = bills_book(lines=lines_with(3, unit_price=9.5, amount=9.5), terms=terms(objection_days=None))
    assert only(no_days).days_left is None


def test_the_most_money_stands_first():
    lines = (*lines_with(3, unit_price=9.5, amount=9.5), bills_book().lines[0].model_copy())
    assert [f.kind for f in check(bills_book(lines=lines)).findings] == [Kind.DUPLICATE_LINE, Kind.FEE_RISEN]


def test_the_order_of_rows_changes_nothing():
    lines = (*lines_with(3, unit_price=9.5, amount=9.5), bills_book().lines[0].model_copy())
    book = bills_book(lines=lines)
    turned = BillsBook(**{name: tuple(reversed(getattr(book, name))) for name in BillsBook.model_fields})
    assert {(f.kind, f.money_minor) for f in check(turned).findings} == {
        (f.kind, f.money_minor) for f in check(book).findings
    }


def test_owned_and_rented_cylinders_of_one_size_are_counted_apart():
    own = RackCount(date=day(28, 2), supplier=S, **GAS, owner="owned", full=3)
    later = own.model_copy(update={"date": day(31)})
    assert check(bills_book(counts=(*bills_book().counts, own, later))).findings == ()
    found = only(bills_book(counts=(*bills_book().counts, own, later), lines=lines_with(1, quantity=341, amount=85.25)))
    assert (found.kind, found.money_minor) == (Kind.RENT_OWNED, 2325)  # 3 x 31 x 0.25


def test_the_small_book_is_of_one_month():
    assert {d.date.month for d in bills_book().deliveries} == {3}
    assert bills_book().bills[0].first_day == dt.date(2025, 3, 1)
