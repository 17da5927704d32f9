"""The shop book's first sheet: a bottle priced as the supplier prints it, in any unit, and nothing guessed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from estimator.check.first_figures import FirstFigures, first_figures
from estimator.read.cells import Book, SheetCells
from estimator.read.own_sheets import read_sheet
from estimator.sheets.first_cells import START

OXYGEN = "Oxygen: content of a full bottle", "Oxygen: price of a full bottle"
FUEL = "Fuel: content of a full bottle", "Fuel: price of a full bottle"


def read(*rows: list[Any], fuel: str = "acetylene") -> FirstFigures:
    book = Book(Path("shop_book.xlsx"), "0" * 64, "xlsx", [SheetCells(START.name, list(rows))])
    return first_figures(read_sheet(book, START), fuel=fuel)


@pytest.mark.parametrize(
    ("content", "price", "each"),
    [
        ("281 ft3 at 70 F, 1 atm", 48.0, 48.0),
        ("281 ft3 at 70 F, 1 atm", "48 a bottle", 48.0),
        ("250 ft3 at 70 F, 1 atm", "0.20 per ft3", 50.0),
        ("250 cf at 70 F, 1 atm", "20 / 100 cu ft", 50.0),
        ("10 m3 at 15 C, 1 bar", "4,50 per m3", 44.42),  # per m3 at 15 °C, 1 atm: 10 x 1000 / 1013.25 x 4.50, by hand
    ],
)
def test_a_bottle_is_priced_whole_or_by_amount(content: str, price: object, each: float) -> None:
    found = read([OXYGEN[0], content], [OXYGEN[1], price])
    assert found.problems == []
    assert found.gas_prices[0].price == pytest.approx(each, abs=0.02)


def test_propane_by_the_pound_has_no_state_and_keeps_its_pounds() -> None:
    found = read(["Fuel gas", "propane"], [FUEL[0], "100 lb"], [FUEL[1], "1.10 per lb"])
    bottle = found.gas_prices[0]
    assert found.problems == []
    assert (bottle.gas, bottle.content, bottle.content_unit, bottle.content_state) == ("propane", 100, "lb", None)
    assert bottle.price == pytest.approx(110)


def test_the_unit_cell_beside_a_bare_number_is_its_unit_and_the_usual_state_is_taken_aloud() -> None:
    found = read([OXYGEN[0], 281.0, "cu ft"], [OXYGEN[1], 48.0])
    assert (found.gas_prices[0].content_unit, found.gas_prices[0].content_state) == ("ft3", "70 °F, 1 atm")
    assert [(p.code, str(p.place)) for p in found.problems] == [("W306", "'Start here'!B1")]


@pytest.mark.parametrize(
    ("rows", "code", "cell"),
    [
        ([[OXYGEN[0], 281.0], [OXYGEN[1], 48.0]], "E163", "B1"),
        ([[OXYGEN[0], "281 ft3"]], "E160", ""),
        ([[OXYGEN[0], "9 kg"], [OXYGEN[1], None]], "E160", "B2"),
        ([[OXYGEN[0], "9 kg"], [OXYGEN[1], "4 per bushel"]], "E163", "B2"),
        ([[OXYGEN[0], "9 kg"], [OXYGEN[1], "dear"]], "E163", "B2"),
        ([[OXYGEN[0], "9 kg"], [OXYGEN[1], "1,234 per kg"]], "E163", "B2"),
    ],
)
def test_what_is_not_plain_is_asked_at_its_cell(rows: list[list[Any]], code: str, cell: str) -> None:
    found = read(*rows)
    assert found.gas_prices == []
    assert code in [p.code for p in found.problems]
    assert cell in {str(p.place).rpartition("!")[2] for p in found.problems if p.code == code} | {""}


def test_a_pound_of_steel_is_dearer_by_the_kilogram() -> None:
    found = read(["Price of plate", 0.60, "per lb"])
    assert found.steel[0].price_per_kg == pytest.approx(1.3228, abs=1e-4)  # 0.60 x 2.20462
