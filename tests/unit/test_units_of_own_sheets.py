"""A shop types the units that it knows, in a cell, in a heading or in the row of units, and never has them guessed."""

from __future__ import annotations

from pathlib import Path

import pint
import pytest

from estimator.check.shop_book import GasPrice, RackCylinder
from estimator.check.shop_book_reading import read_shop_book
from estimator.read.cells import Book, CellValue, SheetCells
from estimator.read.own_sheets import read_records, read_sheet
from estimator.sheets.rack import RACK
from estimator.sheets.shop_prices import GAS_PRICES
from estimator.sheets.torch import OWN_CHART
from estimator.shop_units import from_house_unit, inch_unit, to_house_unit

PINT_NAMES = {"m³/h": "m³/hour", "ft³/h": "ft³/hour", "mm/min": "mm/minute", "in/min": "inch/minute"}
PAIRS = [("mm", 19.05), ("m", 3.0), ("bar", 137.0), ("kg", 50.0), ("m³/h", 2.4), ("mm/min", 400.0), ("m³", 9.0)]


def book(tab: str, *rows: list[CellValue]) -> Book:
    return Book(Path("shop_book.xlsx"), "0" * 64, "xlsx", [SheetCells(tab, list(rows))])


def rack(headings: list[CellValue], *rows: list[CellValue]) -> RackCylinder:
    records, problems = read_records(book("Rack", headings, *rows), RACK, RackCylinder)
    assert problems == []
    return records[0]


@pytest.mark.parametrize(("house", "amount"), PAIRS)
def test_each_inch_unit_is_the_one_that_pint_knows_and_comes_back(house: str, amount: float) -> None:
    # Factors by Pint 0.24, which holds the international yard and pound (1959).
    unit = inch_unit(house)
    named = [PINT_NAMES.get(name, name) for name in (house, unit)]
    expected = pint.UnitRegistry().Quantity(amount, named[0]).to(named[1]).magnitude
    assert from_house_unit(amount, unit, house) == pytest.approx(expected, rel=1e-12)
    assert to_house_unit(from_house_unit(amount, unit, house), unit, house) == pytest.approx(amount, rel=1e-12)


def test_a_price_a_pound_is_dearer_a_kilogram_and_degrees_have_their_own_zero() -> None:
    assert to_house_unit(1.00, "per lb", "per kg") == pytest.approx(2.20462, rel=1e-5)  # lb in a kg, by definition
    assert (to_house_unit(32, "°F", "°C"), from_house_unit(100, "°F", "°C")) == (0, 212)


@pytest.mark.parametrize(
    ("headings", "rows"),
    [
        (["Cylinder number", "Gas", "Full pressure"], [["1", "oxygen", "2200 psi"]]),
        (["Cylinder number", "Gas", "Full pressure (psi)"], [["1", "oxygen", 2200.0]]),
        (["Cylinder number", "Gas", "Full pressure, PSIG"], [["1", "oxygen", "2200"]]),
        (["Cylinder number", "Gas", "Full pressure"], [[None, None, "psi"], ["1", "oxygen", 2200.0]]),
        (["Cylinder number", "Gas", "Full pressure (psi)"], [["1", "oxygen", "151.684659 bar"]]),
    ],
)
def test_a_pressure_may_be_typed_in_psi_in_four_places(headings: list[CellValue], rows: list[list[CellValue]]) -> None:
    assert rack(headings, *rows).full_pressure_bar == pytest.approx(151.6847, rel=1e-6)  # 2200 x 0.0689476


def test_a_row_of_units_holds_for_every_kind_of_figure() -> None:
    headings: list[CellValue] = ["Cylinder number", "Gas", "Weight now", "Tare", "Temperature"]
    found = rack(headings, [None, None, "lb", "lb", "°F"], ["1", "propane", 100.0, 72.0, 59.0])
    assert (found.gross_kg, found.tare_kg) == (pytest.approx(45.359237), pytest.approx(32.658651))
    assert found.temperature_c == pytest.approx(15)
    flow = read_sheet(
        book(
            "Own chart",
            ["Tip", "By", "Thickness (in)", "Speed (ipm)", "Fuel flow (cfh)"],
            ["1", "hand", 0.5, 16.0, 10.0],
        ),
        OWN_CHART,
    ).rows[0]
    assert flow.values["thickness_mm"] == pytest.approx(12.7)
    assert flow.values["speed_mm_min"] == pytest.approx(406.4)
    assert flow.values["fuel_m3_h"] == pytest.approx(0.283168, rel=1e-5)


def test_a_bare_number_without_any_unit_stays_in_the_unit_of_the_column() -> None:
    assert rack(["Cylinder number", "Gas", "Gauge now"], ["1", "oxygen", 120.0]).gauge_bar == 120


@pytest.mark.parametrize(
    ("typed", "unit"),
    [
        *[(word, "ft3") for word in ("cu ft", "cuft", "cf", "scf", "CF", "ft³", "Cu. Ft.")],
        *[(word, "m3") for word in ("cu m", "cbm", "m³")],
        ("lbs", "lb"),
        ("Kilos", "kg"),
    ],
)
def test_a_unit_of_gas_is_known_by_the_names_that_suppliers_print(typed: str, unit: str) -> None:
    headings: list[CellValue] = ["Gas", "Cylinder", "Content", "Unit", "At", "Price", "From"]
    row: list[CellValue] = ["oxygen", "K", 281.0, typed, "70F, 1 atm", 40.0, "2026-01-01"]
    records, problems = read_records(book("Gas prices", headings, row), GAS_PRICES, GasPrice)
    assert problems == []
    assert (records[0].content_unit, records[0].content_state) == (unit, "70 °F, 1 atm")


def test_all_that_is_wrong_is_said_at_once_though_the_form_is_refused() -> None:
    gas: list[list[CellValue]] = [
        ["Gas", "Cylinder", "Content", "Unit", "At", "Price", "From"],
        ["oxygen", "K", 281.0, "cu ft", None, 40.0, "2026-01-01"],
        ["acetylene", "4", 145.0, "bushels", None, 60.0, "2026-01-01"],
    ]
    shop: list[list[CellValue]] = [["Markup", 30.0], ["Flame hours a month", None]]
    whole = Book(
        Path("shop_book.xlsx"), "0" * 64, "xlsx",
        [SheetCells("Shop", shop, number_formats={(0, 1): "0.0##%"}), SheetCells("Gas prices", gas)],
    )  # fmt: skip
    read, problems = read_shop_book(whole)
    assert read is None
    said = {(p.code, str(p.place)) for p in problems}
    assert {
        ("E164", "'Shop'!B1"),
        ("E160", "'Shop'!B2"),
        ("E165", "'Gas prices'!D3"),
        ("W306", "'Gas prices'!E2"),
    } <= said
