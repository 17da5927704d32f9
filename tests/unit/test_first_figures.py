"""The shop book's first sheet: a bottle priced as the supplier prints it, in any unit, and nothing guessed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from estimator.check.first_figures import FirstFigures, first_figures
from estimator.problems import Level
from estimator.read.cells import Book, SheetCells
from estimator.read.own_sheets import read_sheet
from estimator.sheets.first_cells import NEEDED_FIRST, START

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


@pytest.mark.parametrize("fuel", ["propane", "acetylene"])
@pytest.mark.parametrize(
    ("content", "beside", "held"),
    [
        (33.0, "kg", (33.0, "kg")),
        (33.0, "KGS", (33.0, "kg")),
        ("33", "kg", (33.0, "kg")),
        ("33 kg", None, (33.0, "kg")),
        ("33kg.", None, (33.0, "kg")),
        ("11,5", "kg", (11.5, "kg")),
        ("11,5 kg", None, (11.5, "kg")),
        (40.0, "lb", (40.0, "lb")),
        ("40 lbs", None, (40.0, "lb")),
        (17.0, "Nm3", (17.0, "Nm3")),
        ("17 Nm³", None, (17.0, "Nm3")),
        (17.0, "m³", (17.0, "m3")),
        (17.0, "m3 at 15 °C, 1 bar", (17.0, "m3")),
        (600.0, "scf", (600.0, "ft3")),
        ("600 cu ft", None, (600.0, "ft3")),
    ],
)
def test_a_content_is_read_with_its_unit_behind_it_or_in_the_cell_beside_it(
    fuel: str, content: object, beside: str | None, held: tuple[float, str]
) -> None:
    found = read(["Fuel gas", fuel], [FUEL[0], content, beside], [FUEL[1], 75.0])
    assert [p for p in found.problems if p.level is Level.ERROR] == []
    bottle = found.gas_prices[0]
    assert (bottle.gas, bottle.content, bottle.content_unit, bottle.price) == (fuel, *held, 75.0)


@pytest.mark.parametrize(
    ("content", "beside", "cell"), [(33.0, None, "C2"), (33.0, "gal", "C2"), ("33 gal", None, "B2"), ("33", "", "C2")]
)
def test_a_content_whose_unit_is_missing_or_unknown_is_one_problem_at_the_one_cell_to_mend(
    content: object, beside: str | None, cell: str
) -> None:
    found = read(["Fuel gas", "propane"], [FUEL[0], content, beside], [FUEL[1], 75.0])
    said = [*found.problems, *found.blanks(dict.fromkeys(NEEDED_FIRST, False))]
    assert [(p.code, p.place.cell) for p in said if FUEL[0] in p.fact] == [("E171", cell)]


@pytest.mark.parametrize(
    ("price", "beside", "each"),
    [
        (2.1, "per kg", 69.3),
        (2.1, "/kg", 69.3),
        (2.1, "kg", 69.3),
        ("2,10/kg", None, 69.3),
        ("$2.10 / kg", None, 69.3),
        (75.0, "per bottle", 75.0),
        (75.0, "each", 75.0),
        (75.0, "USD", 75.0),
        ("75 each", None, 75.0),
        ("75 a bottle", None, 75.0),
        ("$75", None, 75.0),
        ("75 usd", None, 75.0),
        # a litre of the liquid weighs 0.5075 kg at 15 °C, by the saturation line: 1.10 x 33 / 0.5075, by hand
        ("1.10 per L", None, 71.53),
    ],
)
def test_a_price_of_propane_may_say_in_either_cell_what_it_is_for(
    price: object, beside: str | None, each: float
) -> None:
    rows = [["Currency", "USD"], ["Fuel gas", "propane"], [FUEL[0], 33.0, "kg"], [FUEL[1], price, beside]]
    found = read(*rows)
    assert found.problems == []
    assert found.gas_prices[0].price == pytest.approx(each, abs=0.005)


def test_a_price_is_refused_beside_a_content_that_is_refused_too_so_that_all_is_said_at_once() -> None:
    found = read(["Fuel gas", "propane"], [FUEL[0], 33.0], [FUEL[1], "dear"])
    assert [(p.code, p.place.cell) for p in found.problems] == [("E171", "C2"), ("E163", "B3")]


def test_litres_of_propane_are_liquid_and_are_said_by_weight() -> None:
    found = read(["Fuel gas", "propane"], [FUEL[0], 79.0, "L"], [FUEL[1], 75.0])
    assert [p.code for p in found.problems] == ["W312"]
    # 79 L x 0.5075 kg/L, by hand
    assert (found.gas_prices[0].content, found.gas_prices[0].content_unit) == (pytest.approx(40.09, abs=0.01), "kg")


def test_propane_by_the_cubic_foot_is_taken_with_its_weight_beside_it() -> None:
    found = read(["Fuel gas", "propane"], [FUEL[0], 33.0, "ft3"], [FUEL[1], 75.0])
    volume = next(p for p in found.problems if p.code == "W311")
    # 8.61 ft3 a pound near 60 °F (E. S. Menon), about 8.6 x 530 / 520 at 70 °F: 33 / 8.7 = 3.8 lb, by hand
    assert "(3.8" in volume.fact


def test_a_currency_sign_before_the_cost_of_an_hour_is_passed_over() -> None:
    assert read(["Cost of an hour of work", "$38.50"]).labour[0].per_hour == 38.5


@pytest.mark.parametrize(
    ("rows", "code", "cell"),
    [
        ([[OXYGEN[0], 281.0], [OXYGEN[1], 48.0]], "E171", "C1"),
        ([[OXYGEN[0], "full"], [OXYGEN[1], 48.0]], "E163", "B1"),
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
