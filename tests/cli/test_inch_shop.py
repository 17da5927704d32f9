"""An inch shop is asked and told in inches, feet, pounds, psi and cubic feet, from the first cell to the card."""

from __future__ import annotations

import re
from pathlib import Path

import openpyxl
import pytest
from typer.testing import CliRunner, Result

from estimator.check.shop_book import ShopBook
from estimator.check.torch_kit import work_rates
from estimator.cli import app
from estimator.sheets.first_cells import START
from estimator.tasks import read_shop
from estimator.write.save import save
from estimator.write.shop_book import shop_book_workbook
from estimator.write.start_sheet import start_cell

RUNNER = CliRunner()
TYPED: dict[str, object] = {
    "currency": "XTS", "labour_per_hour": 42, "markup": 0.3, "oxygen_content": 281, "oxygen_price": 48,
    "oxygen_rent": 6, "fuel_content": 145, "fuel_price": "0.52 per ft3", "fuel_rent": 7, "planned_flame_hours": 50,
    "steel_when_silent": "ours", "steel_price": 0.60,
}  # fmt: skip
METRIC = re.compile(r"\d ?(?:mm|m|kg|bar|m³|m³/h)\b(?!/)")


def run(*arguments: object) -> Result:
    return RUNNER.invoke(app, [str(a) for a in arguments])


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("inch") / "shop"
    assert run("start", "--inches", folder, "-q").exit_code == 0
    book = openpyxl.load_workbook(folder / "shop_book.xlsx")
    for name, value in TYPED.items():
        row, column = start_cell(name)
        book[START.name].cell(row + 1, column + 1).value = value
    rack = book["Rack"]
    for column, value in {1: "C1", 2: "oxygen", 3: "281 ft3", 7: 2200, 8: 1800}.items():
        rack.cell(5, column).value = value
    for column, value in {1: "C2", 2: "acetylene", 3: "145 ft3", 12: 0.75}.items():
        rack.cell(6, column).value = value
    book.save(folder / "shop_book.xlsx")
    (folder / "list.csv").write_text(
        "Date,2026-11-02\n\nMark,Qty,Thickness,Shape,Length,Width,Holes,Hole dia\n"
        "BASE,4,3/4,rectangle,12,10,4,13/16\nGUS,10,3/8,rectangle,8,6,,\n",
        encoding="utf-8",
    )
    return folder


def book_of(shop: Path) -> ShopBook:
    book, _ = read_shop(shop / "shop_book.xlsx")
    return book


def test_bare_numbers_are_read_in_the_units_that_its_sheets_show(shop: Path) -> None:
    book = book_of(shop)
    assert book.shop.units == "in"
    assert book.steel[0].price_per_kg == pytest.approx(0.60 * 2.20462, rel=1e-5)  # lb in a kg, by definition
    assert book.rack[0].full_pressure_bar == pytest.approx(2200 * 0.0689476, rel=1e-5)  # bar in a psi, by definition
    assert {row.content_unit for row in book.gas_prices} == {"ft3"}


def test_its_built_in_tips_are_those_of_a_metric_shop(shop: Path, tmp_path: Path) -> None:
    assert run("start", tmp_path / "mm", "-q").exit_code == 0
    metric = openpyxl.load_workbook(tmp_path / "mm" / "shop_book.xlsx")["Tips"]
    for row, tip in enumerate(book_of(shop).tips, 5):
        held = (tip.bore_mm, tip.from_mm, tip.to_mm, tip.pressure_from_bar, tip.pressure_to_bar, tip.fuel_pressure_bar)
        assert held == pytest.approx([metric.cell(row, column).value for column in range(3, 9)], rel=1e-9)


def test_its_built_in_work_rates_are_the_handbooks_each_in_its_own_unit(shop: Path) -> None:
    book = book_of(shop)
    assert len(book.work_rates) > 60
    assert work_rates(book) == work_rates(book.model_copy(update={"work_rates": ()}))
    sheet = openpyxl.load_workbook(shop / "shop_book.xlsx")["Work rates"]
    rows = {row[0].value: [cell.value for cell in row] for row in sheet.iter_rows()}
    units = {row[5] for row in rows.values() if row[5]}
    assert {"min per ft of cut", "lb", "in", "psi", "lb per ft3", "degrees F"} <= units
    assert not units & {"min per m of cut", "kg", "mm", "bar", "kg per m3", "degrees C", "min per kg", "MJ per kg"}
    assert rows["reach_mm"][2] == pytest.approx(600 / 25.4, rel=1e-5)  # by definition
    assert rows["edge_start_thick_s"][1] == "Edge start at 3.94 in"


def test_it_pays_the_price_of_a_metric_shop_with_the_same_prices(shop: Path, tmp_path: Path) -> None:
    assert run("start", tmp_path / "mm", "-q").exit_code == 0
    book = openpyxl.load_workbook(tmp_path / "mm" / "shop_book.xlsx")
    same = {"oxygen_content": "281 ft3", "fuel_content": "145 ft3", "steel_price": 0.60 / 0.45359237}
    for name, value in (TYPED | same).items():
        row, column = start_cell(name)
        book[START.name].cell(row + 1, column + 1).value = value
    book.save(tmp_path / "mm" / "shop_book.xlsx")
    metric = ["Date,2026-11-02", "", "Mark,Qty,Thickness mm,Shape,Length,Width,Holes,Hole dia"]
    metric += ["BASE,4,19.05,rectangle,304.8,254,4,20.6375", "GUS,10,9.525,rectangle,203.2,152.4,,"]
    (tmp_path / "mm" / "list.csv").write_text("\n".join(metric), encoding="utf-8")
    said = [run("estimate", folder / "list.csv", "--force").stdout for folder in (shop, tmp_path / "mm")]
    totals = [re.findall(r"^Total: (\S+)", text, flags=re.M) for text in said]
    assert len(totals[0]) == 1
    assert totals[0] == totals[1]


def test_a_book_that_calibration_writes_for_it_stays_in_inches(shop: Path, tmp_path: Path) -> None:
    book = book_of(shop)
    save(tmp_path / "shop_book.xlsx", shop_book_workbook(book, title="Shop book"))
    assert openpyxl.load_workbook(tmp_path / "shop_book.xlsx")["Tips"]["C4"].value == "in"
    again, problems = read_shop(tmp_path / "shop_book.xlsx")
    assert problems == []
    assert [row.price for row in again.gas_prices] == [row.price for row in book.gas_prices]
    assert [row.bore_mm for row in again.tips] == pytest.approx([row.bore_mm for row in book.tips], rel=1e-12)


@pytest.mark.parametrize("name", ["shop_book", "cut_list", "past_jobs", "work_log"])
def test_no_blank_of_its_folder_asks_for_a_metric_unit(shop: Path, name: str) -> None:
    book = openpyxl.load_workbook(shop / f"{name}.xlsx")
    for sheet in book.worksheets:
        units = {sheet.cell(4, column).value for column in range(1, sheet.max_column + 1)}
        assert not units & {"mm", "m", "kg", "bar", "°C", "m³/h", "mm/min", "per kg"}, sheet.title


@pytest.mark.parametrize("command", ["estimate", "rack"])
def test_what_the_terminal_says_is_in_its_units(shop: Path, command: str) -> None:
    result = run(command, shop / "list.csv", "--force")
    assert result.exit_code == 0, result.stderr
    assert "ft³" in result.stdout
    said = result.stdout + result.stderr
    assert METRIC.findall(said) == []
    if command == "estimate":
        assert re.search(r"\bin tip +cut ft\b", said)
        assert re.search(r"\d lb in the pieces", said)


def test_a_line_is_explained_in_its_units_and_by_what_stands_on_its_sheets(shop: Path) -> None:
    result = run("explain", shop / "list.csv", "BASE")
    assert result.exit_code == 0, result.stderr
    said = result.stdout
    assert METRIC.findall(said) == []
    assert "thickness along the cut: 0.75 in" in said
    assert re.search(r"feet cut: 14\.667 ft", said)  # by hand: 4 x 44 inches
    assert "0.3048 min per ft of cut (layout_min_per_m)" in said  # a minute a metre, by definition
    assert run("estimate", shop / "list.csv", "--force").exit_code == 0
    rates = openpyxl.load_workbook(shop / "list_estimate.xlsx", data_only=True)["Rates"]
    costs = {str(row[0].value): row[1].value for row in rates.iter_rows() if row[2].value == "XTS per ft³"}
    oxygen, acetylene = (costs[f"{gas}: cost at the torch"] for gas in ("Oxygen", "Acetylene"))
    assert f"oxygen {oxygen:.3f} per ft³ and acetylene {acetylene:.3f} per ft³" in said


def test_the_first_sheet_of_the_estimate_is_in_its_units(shop: Path) -> None:
    assert run("estimate", shop / "list.csv", "--force").exit_code == 0
    book = openpyxl.load_workbook(shop / "list_estimate.xlsx", data_only=True)
    assert any("4 of 0.8125 in" in str(cell.value) for row in book["Problems"].iter_rows() for cell in row)
    lines = book["Lines"]
    head = next(row for row in lines.iter_rows() if "Cut" in [cell.value for cell in row])
    cut = next(cell for cell in head if cell.value == "Cut")
    below = [lines.cell(cut.row + more, cut.column).value for more in (1, 2, 3)]
    assert below == ["ft", pytest.approx(4 * 44 / 12), pytest.approx(10 * 28 / 12)]
    answer = book["Answer"]
    figures = {row[0].value: row[1].value for row in answer.iter_rows(max_col=2) if isinstance(row[0].value, str)}
    # by hand: 4 x (2 x (12 + 10)) and 10 x (2 x (8 + 6)) inches; holes are drilled
    assert figures["Feet cut"] == pytest.approx((4 * 44 + 10 * 28) / 12, rel=1e-6)
    assert figures["Oxygen, ft³"] > figures["Acetylene, ft³"] > 5
    # by hand: 0.2836 lb a cubic inch (7850 kg/m³) x (4 x 12 x 10 x 0.75 + 10 x 8 x 6 x 0.375), four 13/16 holes out
    assert figures["Our steel in the pieces, lb"] == pytest.approx(0.2836 * (360 + 180 - 16 * 0.389), rel=0.01)


def test_no_sheet_of_the_estimate_asks_or_tells_in_a_metric_unit_but_where_it_says_so(shop: Path) -> None:
    assert run("estimate", shop / "list.csv", "--force").exit_code == 0
    book = openpyxl.load_workbook(shop / "list_estimate.xlsx", data_only=True)
    rates, settings = book["Rates"], book["Tip settings"]
    constants = next(cell.row for cell in rates["A"] if cell.value == "Unit factors and constants")
    behind = next(cell.column for cell in settings[3] if cell.value == "As formulas take them")
    assert rates["K4"].value == "As formulas take it"
    said = [
        (sheet.title, cell.coordinate, str(cell.value))
        for sheet in book.worksheets
        if sheet.sheet_state == "visible" and sheet.title not in {"Sources", "Problems"}
        for row in sheet.iter_rows()
        for cell in row
        if isinstance(cell.value, str)
        and not (sheet is rates and (cell.row >= constants or cell.column_letter in "IKL"))
        and not (sheet is settings and cell.column >= behind)
    ]
    beside = re.compile(r"\((?:11|6|1\.5) m\)|\(1\.03 bar\)")  # metric figures that stand behind inch ones
    metric = re.compile(r"(?<![\w.])(mm|m|kg|bar|m³|m3|cm2|cm3|cm³|MJ|litres?|kilograms?|\w*metres?)\b(?!/)")
    assert len(said) > 500
    assert [place for *place, text in said if metric.search(beside.sub("", text))] == []


def test_its_prices_stand_by_the_pound_and_the_cubic_foot(shop: Path) -> None:
    assert run("estimate", shop / "list.csv", "--force").exit_code == 0
    book = openpyxl.load_workbook(shop / "list_estimate.xlsx", data_only=True)
    rows = {(row[0].value, row[2].value): row[1].value for row in book["Rates"].iter_rows(max_col=3)}
    assert rows["Steel, any thickness: price", "XTS per lb"] == pytest.approx(0.60)
    content = next(value for (what, unit), value in rows.items() if str(what).startswith("Oxygen: content of a full"))
    assert content == pytest.approx(281)  # as typed
    assert rows["Density of steel", "lb per ft3"] == pytest.approx(490, rel=0.001)  # common practice, no source
    per_foot = {str(what): value for (what, unit), value in rows.items() if unit == "XTS per ft³"}
    # by hand: 48.00 a bottle of 281 ft³, 0.52 per ft³ of fuel, over the part that comes out of the bottle
    for gas, a_foot in (("Oxygen", 48 / 281), ("Acetylene", 0.52)):
        out = 1 - rows[f"{gas}: left in when swapped", None]
        assert per_foot[f"{gas}: cost at the torch"] == pytest.approx(a_foot / out)


def test_its_card_shows_psi_first(shop: Path) -> None:
    assert run("rack", shop / "list.csv", "--force").exit_code == 0
    card = openpyxl.load_workbook(shop / "list_rack.xlsx")["Settings card"]
    cells = [cell.value for row in card.iter_rows() for cell in row if isinstance(cell.value, str)]
    large = next(number for number, text in enumerate(cells) if text.startswith("Oxygen, lever down"))
    assert cells[large + 1].endswith("psi")


def test_its_rack_plan_reads_the_gauge_in_psi_and_counts_cubic_feet_line_by_line(shop: Path) -> None:
    assert run("rack", shop / "list.csv", "--force").exit_code == 0
    book = openpyxl.load_workbook(shop / "list_rack.xlsx", data_only=True)
    lines = book["Line by line"]
    heads = {cell.value: cell.column for cell in lines[5]}
    assert {"Draw of fuel ft³/h", "Oxygen needed ft³", "Oxygen left ft³", "Acetylene left ft³"} <= set(heads)
    start = lines.cell(6, heads["Oxygen left ft³"]).value
    assert start == pytest.approx(281 * 1800 / 2200, rel=0.06)  # by hand: an ideal gas, what stays in not yet off
    at = heads["Oxygen needed ft³"] - 1
    needed = sum(row[at].value for row in lines.iter_rows(min_row=7, max_row=lines.max_row) if row[at].value)
    assert run("estimate", shop / "list.csv", "--force").exit_code == 0
    gas = openpyxl.load_workbook(shop / "list_estimate.xlsx", data_only=True)["Gas"]
    assert needed == pytest.approx(next(row[3].value for row in gas.iter_rows() if row[0].value == "Oxygen together"))
    sheets = (book["Plan"], book["How worked out"])
    said = " ".join(str(cell.value) for sheet in sheets for row in sheet for cell in row)
    assert "gauge 1800 of 2200 psi at 59 °F" in said
    assert "± of a gauge" in said
    assert re.findall(r"\d (?:bar|kg|mm|L)\b", said) == []
