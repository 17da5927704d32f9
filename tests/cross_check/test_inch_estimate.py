"""An inch estimate is a metric one in other units: equal figures typed in both give one price, to the minor unit.

The factors are said here once more, from the definitions of the units (NIST Special Publication 811:2008, appendix B,
from memory); a gas by the mass that is sold, whose densities `tests/published` holds.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import openpyxl
import pytest
from openpyxl.cell import Cell
from openpyxl.worksheet.worksheet import Worksheet

from estimator.check.shop_book import GasPrice, ShopBook
from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.job import Estimate
from estimator.read.load import load_book
from estimator.tasks_quote import reopen_estimate
from estimator.tasks_replace import typed_into
from estimator.units import ReferenceState, gas_volume_m3
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.save import save
from tests.cross_check.recalculate import Values, recalculated_all, resaved_all, stored
from tests.samples.estimates import named_cell, own_shop, typed_in, written
from tests.samples.jobs import a_bit_of_everything, estimated, plates

IN_MM, FT_M, LB_KG, FT3_M3 = 25.4, 0.3048, 0.45359237, 0.3048**3
PSI_BAR = LB_KG * 9.80665 / 0.0254**2 / 1e5
SOLD_M3 = {g: gas_volume_m3(1.0, unit="ft3", gas=g, state=ReferenceState.F70_ATM) for g in ("oxygen", "acetylene")}
ACETYLENE_LB_M3 = gas_volume_m3(1.0, unit="lb", gas="acetylene", state=None)

FACTORS = {
    ("mm", "in"): IN_MM,
    ("kg", "lb"): LB_KG,
    ("bar", "psi"): PSI_BAR,
    ("mm/min", "in/min"): IN_MM,
    ("min/m", "min/ft"): 1 / FT_M,
    ("m³/h, 15 °C, 1 atm", "ft³/h, 59 °F"): FT3_M3,
    ("XTS per kg", "XTS per lb"): 1 / LB_KG,
    ("min per m", "min per ft"): 1 / FT_M,
    ("min per m of cut", "min per ft of cut"): 1 / FT_M,
    ("min per m of edge", "min per ft of edge"): 1 / FT_M,
    ("min per m per mm", "min per ft per in"): 1 / FT_M / IN_MM,
    ("min per kg", "min per lb"): 1 / LB_KG,
    ("min per cm3", "min per in3"): 1 / 2.54**3,
    ("kg per m3", "lb per ft3"): LB_KG / FT3_M3,
    ("MJ per kg", "Btu per lb"): 0.002326,
    ("m³ (15 °C, 1 atm)", "ft³ (70 °F, 1 atm)"): SOLD_M3["oxygen"],
    ("m³ (15 °C, 1 atm)", "lb"): ACETYLENE_LB_M3,
    ("share per metre", "share per foot"): 1.0,
    ("m3 per m3 fuel", "ft3 per ft3 fuel"): 1.0,
}
"""How many of a metric cell's unit are in one of the inch cell's."""
CASTS = {"Decimals of money": 3.0, "Labour rate of the job's own rows": 2.0, "Purity of the oxygen": 98.7}
CASTS["Cutting oxygen given"] = 4.2
CARD_WORKED = {"Speed", "Cutting oxygen, lever down", "Fuel", "Preheat oxygen", "Start time", "Thickness along the cut"}

JOBS = {
    "everything": lambda units: estimated(a_bit_of_everything(), own_shop(units=units)),
    "plates": lambda units: estimated(plates(12), own_shop(units=units)),
    "propane by the pound": lambda units: estimated(plates(6), with_propane(units)),
    "no steps, spread rows": lambda units: estimated(
        plates(9), own_shop(units=units, margin=0.3, markup=None, price_step=0.0, spread_job_rows=True)
    ),
}


def with_propane(units: str) -> ShopBook:
    book = own_shop(units=units, fuel="propane")
    tips = tuple(tip.model_copy(update={"fuel": "propane"}) for tip in book.tips if tip.fuel == "acetylene")
    sold = {"content": 100.0, "content_unit": "lb", "content_state": ""}
    gas: list[GasPrice] = [row.model_copy(update=sold) if row.gas == "propane" else row for row in book.gas_prices]
    assert any(row.gas == "propane" for row in gas)
    return book.model_copy(update={"tips": tips, "gas_prices": tuple(gas)})


@pytest.fixture(scope="module")
def twins(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """One job of one shop, which reads it in millimetres or in inches."""
    books = {units: tmp_path_factory.mktemp("twins") / f"{units}.xlsx" for units in ("mm", "in")}
    for units, book in books.items():
        estimate = JOBS["everything"](units)
        save(book, estimate_workbook(estimate, price_range=estimate_ranges(estimate).price))
    return books


def typed_rates(sheet: Worksheet) -> list[tuple[Cell, str, str]]:
    """Return the typed figures of the sheet of rates: cell, name and unit."""
    rows = [row for row in sheet.iter_rows(min_row=5) if isinstance(row[3].value, int | float)]
    return [(row[1], str(row[0].value), str(row[2].value or "")) for row in rows]


def typed_settings(sheet: Worksheet) -> Iterator[tuple[Cell, str, str]]:
    """Return the typed figures of the sheet of tip settings, row by row: those without a formula."""
    head = next(row for row in sheet.iter_rows() if row[0].value == "Tip")
    units = {cell.column: str(cell.value or "") for cell in sheet[head[0].row + 1]}
    for row in sheet.iter_rows(min_row=head[0].row + 3):
        if row[0].value in (None, "Cautions"):
            return
        for cell in row[2:]:
            heading = str(head[cell.column - 1].value)
            given = heading == "Cutting oxygen given" and cell.value is None and cell.row % 2 == 0
            if given or (isinstance(cell.value, int | float) and heading not in CARD_WORKED):
                yield cell, heading, units[cell.column]


def changed(what: str, value: float) -> float:
    if what.startswith(("Purity that", "Purity under")):
        return value * 0.99
    if what.startswith("Break") and what.endswith("from"):
        return value + 5
    if what == "Price of a tip":
        return value + 2.5
    return CASTS.get(what) or (value * 1.07 if value else 0.06)


Changes = dict[tuple[str, str], object]


def equal_changes(twins: dict[str, Path]) -> list[tuple[Changes, Changes]]:
    """Return groups of typed figures, metric and inch, that together change every typed cell of both sheets."""
    books = {units: openpyxl.load_workbook(path) for units, path in twins.items()}
    groups: list[tuple[Changes, Changes]] = [({}, {}) for _ in range(5)]
    rates = zip(*(typed_rates(books[units]["Rates"]) for units in ("mm", "in")), strict=True)
    settings = zip(*(list(typed_settings(books[units]["Tip settings"])) for units in ("mm", "in")), strict=True)
    pairs = [("Rates", number % 4, *pair) for number, pair in enumerate(rates)]
    pairs += [("Tip settings", 4, *pair) for pair in settings]
    for sheet, group, (cell, what, unit), (inch_cell, _, inch_unit) in pairs:
        value = changed(what, float(cell.value or 0.0))
        factor = 1.0 if unit == inch_unit else FACTORS[unit, inch_unit]
        metric, inch = groups[group]
        metric[sheet, cell.coordinate] = value
        inch[sheet, inch_cell.coordinate] = value / factor
    return groups


@pytest.mark.recalculate
def test_another_program_gives_the_engines_figures_in_inches(tmp_path: Path) -> None:
    from tests.cross_check.test_estimate_recalculated import assert_equal_values

    books = [written(job("in"), tmp_path / f"{number}.xlsx") for number, job in enumerate(JOBS.values())]
    for book, values in zip(books, recalculated_all(books), strict=True):
        assert assert_equal_values(book, values) > 100
        checks = {value for (sheet, cell), value in values.items() if sheet == "Checks" and cell.startswith("D")}
        assert checks == {"Result", "ok"}


@pytest.mark.parametrize("job", JOBS)
def test_an_inch_estimate_is_priced_again_as_it_was(tmp_path: Path, job: str) -> None:
    one: Estimate = JOBS[job]("in")
    assert one.totals == JOBS[job]("mm").totals
    reopened = reopen_estimate(written(one, tmp_path / "estimate.xlsx"))
    assert reopened.estimate.totals == one.totals
    assert reopened.problems == []


@pytest.mark.recalculate
def test_equal_figures_typed_in_either_unit_give_one_price_in_another_program_and_in_the_quote(
    tmp_path: Path, twins: dict[str, Path]
) -> None:
    groups = equal_changes(twins)
    assert sum(len(inch) for _, inch in groups) > 100
    assert {"Rates", "Tip settings"} == {sheet for _, inch in groups for sheet, _ in inch}
    books = [
        typed_in(twins[units], tmp_path / f"{number}_{units}.xlsx", changes)
        for number, pair in enumerate(groups)
        for units, changes in zip(("mm", "in"), pair, strict=True)
    ]
    saved = resaved_all(books, tmp_path / "saved")
    before = reopen_estimate(twins["mm"]).estimate.totals.total
    for metric, inch in zip(saved[::2], saved[1::2], strict=True):
        reopened = {"mm": reopen_estimate(metric), "in": reopen_estimate(inch)}
        assert [one.problems for one in reopened.values()] == [[], []]
        assert reopened["mm"].estimate.totals == reopened["in"].estimate.totals
        values = {"mm": stored(metric), "in": stored(inch)}
        shown = {units: of_book(values[units], twins[units], "job_total") for units in values}
        assert shown["mm"] == shown["in"]
        total = reopened["in"].estimate.totals.total
        assert total == round(float(shown["in"]) * 10.0 ** reopened["in"].estimate.shop.shop.decimals)
        assert total != before
        assert str(of_book(values["in"], twins["in"], "range_state")).startswith("STALE")


def of_book(values: Values, book: Path, name: str) -> object:
    """Return the value of a named cell."""
    return values[named_cell(book, name)]


@pytest.mark.recalculate
def test_an_inch_estimate_that_another_program_saved_again_was_not_typed_into(
    tmp_path: Path, twins: dict[str, Path]
) -> None:
    (saved,) = resaved_all([twins["in"]], tmp_path / "saved")
    reopened = reopen_estimate(saved)
    assert reopened.typed.rates == {}
    assert reopened.typed.settings == {}
    assert typed_into(load_book(saved)) == []
