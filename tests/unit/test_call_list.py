"""The call list is what is said on the telephone: a breath for each supplier, whole cylinders, a day."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from types import SimpleNamespace

import pytest

from estimator.pricing.rack.order import Order
from estimator.write.rack.words import call_list

THURSDAY = dt.date(2026, 11, 19)
OXYGEN = Order("oxygen", "O-10", "Gas One", 15.0, 2, 3, True, 300.0, THURSDAY, THURSDAY, 2, ("C-1", "C-2"))
FUEL = Order("acetylene", "A-7", "Gas One", 3.0, 1, 1, True, 900.0, None, dt.date(2026, 11, 24), 2, ("C-5",))
ENOUGH = Order("acetylene", "A-7", "Gas Two", 0.0, 0, 0, True, 900.0, None, None, 2, ())


def calls(*orders: Order) -> list[str]:
    said = call_list(SimpleNamespace(orders=orders))  # type: ignore[arg-type]
    return [line for line in said if line.startswith("Call")]


def test_one_supplier_is_called_once_by_the_earlier_day() -> None:
    assert calls(OXYGEN, FUEL) == [
        "Call Gas One: oxygen 2 (O-10), acetylene 1 (A-7), by Thursday noon, 2026-11-19; send back 3 when run down: "
        "C-1, C-2, C-5."
    ]


def test_two_suppliers_are_two_calls_and_their_cylinders_are_not_swapped() -> None:
    other = replace(FUEL, supplier="Gas Two")
    first, second = calls(OXYGEN, other)
    assert first.endswith("send back 2 when run down: C-1, C-2.")
    assert second.startswith("Call Gas Two: acetylene 1")
    assert second.endswith("send back 1 when run down: C-5.")


def test_nobody_is_called_when_the_rack_is_enough() -> None:
    assert calls(ENOUGH) == []


@pytest.mark.parametrize("day", range(7))
def test_the_day_of_the_week_is_that_of_the_date(day: int) -> None:
    """Independent of the module's own list: the days in their ISO order, Monday first."""
    date = dt.date(2026, 11, 16) + dt.timedelta(days=day)
    order = replace(FUEL, order_by=date)
    names = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]
    assert f"by {names[date.isoweekday() - 1]} noon, {date}" in calls(order)[0]
