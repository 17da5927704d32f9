"""A shop is shown a gas by the weight that its own bottle is stated in, on the terminal and on its sheets. Invented."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from typer.testing import CliRunner, Result

from estimator.cli import app
from estimator.sheets.first_cells import START
from estimator.shown_units import shown_units
from estimator.write.start_sheet import start_cell

RUNNER = CliRunner()
LB_KG = 0.45359237
PROPANE_KG_M3 = 44.0956 / 23.6448
"""Molar mass over the volume of a mole of an ideal gas at 15 °C and 1 atm, from memory; the real gas is 2 % denser."""
TYPED: dict[str, object] = {
    "currency": "XTS", "labour_per_hour": 42, "markup": 0.3, "fuel": "propane", "oxygen_content": "10.6 m3",
    "oxygen_price": 48, "oxygen_rent": 6, "fuel_content": "33 kg", "fuel_price": 66, "fuel_rent": 7,
    "planned_flame_hours": 50, "steel_when_silent": "theirs",
}  # fmt: skip
LIST = "Date,2026-11-02\n\nMark,Qty,Thickness mm,Shape,Length mm,Width mm\nBASE,24,20,rectangle,300,250\n"


def run(*arguments: object) -> Result:
    return RUNNER.invoke(app, [str(a) for a in arguments])


def shop_of(folder: Path, bottle: str) -> Path:
    assert run("start", folder, "-q").exit_code == 0
    book = openpyxl.load_workbook(folder / "shop_book.xlsx")
    for name, value in {**TYPED, "fuel_content": bottle}.items():
        row, column = start_cell(name)
        book[START.name].cell(row + 1, column + 1).value = value
    for column, value in {1: "P1", 2: "propane", 3: bottle, 10: 52.4, 11: 33.1}.items():
        book["Rack"].cell(5, column).value = value
    for column, value in {1: "C1", 2: "oxygen", 3: "10.6 m3", 7: 200, 8: 180}.items():
        book["Rack"].cell(6, column).value = value
    book.save(folder / "shop_book.xlsx")
    (folder / "list.csv").write_text(LIST, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return shop_of(tmp_path_factory.mktemp("propane") / "shop", "33 kg")


def estimated(shop: Path) -> tuple[str, dict[str, Any], Any]:
    """Return what the terminal says, the JSON and the workbook of one estimate."""
    said = run("estimate", shop / "list.csv", "--force")
    assert said.exit_code == 0, said.stderr
    book = openpyxl.load_workbook(shop / "list_estimate.xlsx", data_only=True)
    return said.stdout, json.loads(run("estimate", shop / "list.csv", "--force", "--json").stdout), book


def rows_of(sheet: Any, unit: int) -> dict[str, tuple[Any, Any]]:
    """Return the value and the unit beside each label of a sheet."""
    rows = [row for row in sheet.iter_rows(values_only=True) if isinstance(row[0], str)]
    return {row[0].strip(): (row[1], row[unit]) for row in rows}


def test_a_bottle_in_kilograms_is_counted_in_kilograms_and_json_stays_in_cubic_metres(shop: Path) -> None:
    said, data, book = estimated(shop)
    answer = rows_of(book["Answer"], 4)
    kg, words = answer["Propane, kg"]
    assert f"propane {kg:.2f} kg" in said
    assert "of 33 kg" in words
    assert "Oxygen, m³" in answer
    of_lines = sum(line["fuel_m3"] + line["lost_fuel_m3"] for line in data["lines"])
    of_rows = sum(row.get("fuel_m3", 0.0) + row.get("lost_fuel_m3", 0.0) for row in data["job_rows"])
    # ideal gas: the real one weighs 1.8 % more
    assert kg == pytest.approx((of_lines + of_rows) * PROPANE_KG_M3, rel=0.025)


def test_its_rates_are_typed_by_the_kilogram_over_a_factor_that_stands_in_a_cell(shop: Path) -> None:
    rates = rows_of(estimated(shop)[2]["Rates"], 2)
    assert rates["Propane: content of a full 33 kg (33 kg)"] == (pytest.approx(33.0), "kg")
    assert rates["Propane: cost at the torch"] == (pytest.approx(66 / 33), "XTS per kg")
    factor, unit = rates["Propane: m³ at 15 °C, 101.325 kPa in a kilogram"]
    assert unit == "m³/kg"
    assert factor == pytest.approx(1 / PROPANE_KG_M3, rel=0.025)


def test_the_gas_sheet_adds_kilograms_and_shows_the_volume_beside_them(shop: Path) -> None:
    book = estimated(shop)[2]
    gas = [row for row in book["Gas"].iter_rows(values_only=True) if row[0]]
    head = next(row for row in gas if row[0] == "Propane")
    total = next(row for row in gas if row[0] == "Propane together")
    assert head[1:5] == ("Lines, kg", "Rows of the job, kg", "Together, kg", "Together, m³")
    assert total[3] == pytest.approx(total[4] * PROPANE_KG_M3, rel=0.025)
    assert total[3] == pytest.approx(rows_of(book["Answer"], 4)["Propane, kg"][0])


def test_the_same_bottle_in_pounds_is_counted_in_pounds_at_the_same_price(shop: Path, tmp_path: Path) -> None:
    said, data, book = estimated(shop_of(tmp_path / "lb", f"{33 / LB_KG} lb"))
    first, before, in_kg = estimated(shop)
    assert data["total"] == before["total"]
    pounds = float(re.findall(r"propane (\S+) lb", said)[0])
    kilograms = float(re.findall(r"propane (\S+) kg", first)[0])
    assert pounds * LB_KG == pytest.approx(kilograms, abs=0.05)
    assert rows_of(book["Answer"], 4)["Propane, lb"][0] * LB_KG == pytest.approx(
        rows_of(in_kg["Answer"], 4)["Propane, kg"][0], rel=1e-9
    )


def test_the_rack_counts_its_propane_in_kilograms(shop: Path) -> None:
    said = run("rack", shop / "list.csv", "--force").stdout
    assert "now kg" in said
    assert re.search(r"P1 +33 kg +weight +19\.30 ", said)  # 52.4 - 33.1
    assert "fuel kg" in said
    book = openpyxl.load_workbook(shop / "list_rack.xlsx", data_only=True)
    texts = {str(cell.value) for sheet in book.worksheets for row in sheet.iter_rows() for cell in row}
    assert {"Propane needed kg", "In it now kg", "Oxygen needed m³"} <= texts


def test_settings_are_those_of_the_shop_book_in_this_folder(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(shop)
    said = run("settings", "20").stdout
    assert "with oxygen and propane" in said
    assert "of shop_book.xlsx" in said
    monkeypatch.chdir(shop.parent)
    elsewhere = run("settings", "20").stdout
    assert "with oxygen and acetylene" in elsewhere
    assert "of the invented example shop" in elsewhere


def test_a_gas_without_a_bottle_by_weight_stays_a_volume() -> None:
    units = shown_units("mm", {"propane": "kg", "oxygen": "m3"})
    assert [units.gas_unit(gas) for gas in ("propane", "oxygen", "natural gas")] == ["kg", "m³", "m³"]
    assert units.gas_units(("oxygen", "propane")) == "m³ or kg"
    assert (units.gas_named("propane"), shown_units("mm").gas_named("propane")) == ("propane, kg", "propane")
    assert units.gas_words(1.0, "propane") == f"{units.gas(1.0, 'propane'):.2f} kg"
    assert units.gas_price(2 * units.gas(1.0, "propane"), "propane") == "propane 2.000 per kg"
