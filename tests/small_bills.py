"""A small right month of bills, to be made wrong one cell at a time. Every name and price is invented."""

from __future__ import annotations

import datetime as dt
from typing import Any

from estimator.check.bills import AgreedPrice, Bill, BillLine, BillsBook, Delivery, RackCount, SupplierTerms
from estimator.pricing.bill_checks.finding import Finding
from estimator.pricing.bill_checks.run import CheckedBills, check_the_bills
from estimator.pricing.cylinder_content import CylinderSize

__all__ = ["SIZES", "bills_book", "check", "day", "line", "only"]

SIZES = (CylinderSize("oxygen", "50 L", 10.46, full_pressure_bar=200.0),)
_S = "Supplier A"


def day(number: int, month: int = 3) -> dt.date:
    """A day of 2025."""
    return dt.date(2025, month, number)


def line(kind: str, quantity: float, price: float, unit: str, **rest: Any) -> BillLine:
    """A line that multiplies out."""
    given = {"supplier": _S, "bill_number": "1", "description": kind, **rest}
    amount = given.pop("amount", round(quantity * price, 2))
    return BillLine(kind=kind, quantity=quantity, unit=unit, unit_price=price, amount=amount, **given)


def bills_book(**changed: Any) -> BillsBook:
    """A right month: six oxygen came on the 5th as a swap, eight stand there all month."""
    gas = {"gas": "oxygen", "size": "50 L"}
    lines = [
        line("gas", 6, 31.5, "cylinder", **gas, delivery_note="4471", date=day(5)),
        line("rent", 248, 0.25, "cylinder-day", **gas),
        line("delivery", 1, 18.0, "delivery"),
        line("fee", 1, 4.5, "bill", description="energy surcharge"),
    ]
    book: dict[str, Any] = {
        "lines": tuple(lines),
        "deliveries": (
            Delivery(supplier=_S, note_number="4471", date=day(5), **gas, full_in=6, empty_out=6, ordered=6),
        ),
        "counts": (
            RackCount(date=day(28, 2), supplier=_S, **gas, full=2, part_readings="100 bar", empty=5),
            RackCount(date=day(31), supplier=_S, **gas, full=3, part_readings="100 bar", empty=4),
        ),
        "prices": (
            AgreedPrice(supplier=_S, kind="gas", **gas, content="10.6 m³ (15 °C, 1 bar)", price=31.5, unit="cylinder"),
            AgreedPrice(supplier=_S, kind="rent", **gas, price=0.25, unit="cylinder-day"),
            AgreedPrice(supplier=_S, kind="delivery", description="delivery", price=18.0, unit="delivery"),
            AgreedPrice(supplier=_S, kind="fee", description="energy surcharge", price=4.5, unit="bill"),
        ),
        "terms": (SupplierTerms(supplier=_S, objection_days=30, tax_rate=0.2, rent_rule="daily on balance"),),
    }
    book |= changed
    if "bills" not in book:
        book["bills"] = (foot("1", book["lines"]),)
    return BillsBook(**book)


def foot(number: str, lines: tuple[BillLine, ...], **changed: Any) -> Bill:
    """The bill whose totals fit its lines."""
    net = round(sum(n.amount for n in lines if n.bill_number == number and n.kind != "tax"), 2)
    tax = round(net * 0.2, 2)
    given = {"net_total": net, "tax_total": tax, "total": round(net + tax, 2)} | changed
    dates = {"bill_date": day(31), "period_from": day(1), "period_to": day(31)}
    return Bill(supplier=_S, bill_number=number, **(dates | given))


def check(book: BillsBook) -> CheckedBills:
    """Check on the fifth day after the bill."""
    return check_the_bills(book, as_of=day(5, 4), sizes=SIZES)


def only(book: BillsBook) -> Finding:
    """Return the one finding there must be."""
    found = check(book).findings
    assert len(found) == 1, [(f.kind, f.said) for f in found]
    return found[0]
