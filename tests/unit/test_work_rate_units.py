"""An inch shop types the work rates in its own units; the engine works with the same figures, to the last bit."""

from __future__ import annotations

import re
from pathlib import Path

import openpyxl
import pytest

from estimator import reference
from estimator.check.shop_book import ShopBook, WorkRate
from estimator.check.work_rate_units import rates_for_inches, rates_in_house
from estimator.tasks import read_shop
from estimator.write.save import save
from estimator.write.shop_book import shop_book_workbook
from tests.samples.estimates import own_shop

LB_KG, FT_M = 0.45359237, 0.3048  # by definition


def built_in() -> list[dict[str, object]]:
    rows = reference.table("work_rates")
    names = ("name", "heading", "likely", "low", "high", "unit", "why")
    return [{name: rows.column(name)[i] for name in names} for i in range(len(rows))]


def in_house(**stated: object) -> WorkRate:
    (rate,) = rates_in_house([WorkRate(**stated)])
    return rate


def test_every_built_in_rate_comes_back_as_it_was() -> None:
    rows = built_in()
    shown = rates_for_inches(rows)
    assert sum(one["unit"] != row["unit"] for one, row in zip(shown, rows, strict=True)) > 20
    read = rates_in_house([WorkRate(**one) for one in shown])
    for row, rate in zip(rows, read, strict=True):
        assert (rate.likely, rate.low, rate.high, rate.unit) == (row["likely"], row["low"], row["high"], row["unit"])


@pytest.mark.parametrize(
    ("name", "typed", "unit", "house"),
    [
        ("layout_min_per_m", 0.35, "min per ft of cut", 0.35 / FT_M),
        ("handling_min_per_kg", 0.02, "min per lb", 0.02 / LB_KG),
        ("handling_limit_kg", 50.0, "lb", 50.0 * LB_KG),
        ("reach_mm", 24.0, "in", 609.6),
        ("steel_density_kg_m3", 490.0, "lb per ft3", 490.0 * LB_KG / FT_M**3),
        ("heat_mj_per_kg", 270.0, "Btu per lb", 0.62802),
        ("read_temperature_c", 18.0, "degrees F", 10.0),
    ],
)
def test_a_typed_rate_is_turned_by_the_unit_beside_it(name: str, typed: float, unit: str, house: float) -> None:
    assert in_house(name=name, likely=typed, unit=unit).likely == pytest.approx(house, rel=1e-12)


@pytest.mark.parametrize("unit", ["min per m of cut", "", "minutes"])
def test_a_rate_beside_its_house_unit_or_none_is_as_it_stands(unit: str) -> None:
    assert in_house(name="layout_min_per_m", likely=0.35, unit=unit).likely == 0.35


def test_a_name_that_is_not_known_is_left_for_the_reader_to_ask(tmp_path: Path) -> None:
    assert in_house(name="no_such_rate", likely=3.0, unit="in").likely == 3.0


def written(book: ShopBook, path: Path) -> Path:
    save(path, shop_book_workbook(book, title="Shop book"))
    return path


def test_a_shop_book_that_is_written_again_keeps_what_was_typed_in_it(tmp_path: Path) -> None:
    figures = {"likely": 0.35 / FT_M, "low": 0.2 / FT_M, "high": 0.5 / FT_M}
    own = (WorkRate(name="layout_min_per_m", unit="min per m of cut", **figures),)
    path = written(own_shop(units="in").model_copy(update={"work_rates": own}), tmp_path / "shop_book.xlsx")
    sheet = openpyxl.load_workbook(path)["Work rates"]
    row = next(row for row in sheet.iter_rows() if row[0].value == "layout_min_per_m")
    assert [cell.value for cell in row[2:6]] == [0.35, 0.2, 0.5, "min per ft of cut"]
    again, problems = read_shop(path)
    assert problems == []
    assert again.work_rates[0].likely == pytest.approx(own[0].likely, rel=1e-12)
    assert again.work_rates[0].unit == "min per m of cut"


def test_no_rate_is_left_in_a_metric_unit_but_one_that_nobody_types() -> None:
    left = {str(row["unit"]) for row in rates_for_inches(built_in())}
    metric = re.compile(r"\b(mm|m|m2|m3|cm2|cm3|kg|bar|MJ|metre|degrees C)\b")
    assert {unit for unit in left if metric.search(unit)} == {"W per m2 K"}
