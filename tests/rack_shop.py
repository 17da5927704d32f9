"""An invented shop book for tests of the rack, with any rack, tips and lists on it."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from pathlib import Path

from estimator.check.example_shop import example_shop
from estimator.check.shop_book import FlameTipRow, GasPrice, RackCylinder, ShopBook
from estimator.write.save import save
from estimator.write.shop_book import shop_book_workbook

__all__ = ["ft3_acetylene", "heating_tip", "shop_with", "write_list", "write_shop"]

HEADINGS = (
    "Mark",
    "Quantity",
    "Thickness",
    "Work",
    "Tip or heating tip",
    "Flame minutes each",
    "Cooling wait each",
    "Shape",
    "Size A",
    "Size B",
)


def shop_with(rack: Iterable[dict[str, object]], **sheets: object) -> ShopBook:
    """Return the example shop with another rack and other sheets, its prices its own."""
    shop = example_shop()
    form = shop.shop.model_copy(update={"prices_are_examples": False})
    rows = tuple(RackCylinder.model_validate(row) for row in rack)
    return shop.model_copy(update={"shop": form, "rack": rows, **sheets})


def ft3_acetylene(content_ft3: float, shop: ShopBook) -> tuple[GasPrice, ...]:
    """Return the shop's gas prices with acetylene in cylinders of so many cubic feet at 70 °F and 1 atm."""
    size = {"cylinder": "A-ft3", "content": content_ft3, "content_unit": "ft3", "content_state": "70 °F, 1 atm"}
    return tuple(g.model_copy(update=size) if g.gas == "acetylene" else g for g in shop.gas_prices)


def heating_tip(fuel_m3_h: float, *, name: str = "H", fuel: str = "acetylene") -> FlameTipRow:
    """Return a large heating tip of a fuel flow."""
    return FlameTipRow(
        name=name,
        fuel=fuel,
        fuel_m3_h=fuel_m3_h,
        preheat_oxygen_m3_h=1.1 * fuel_m3_h,
        fuel_pressure_bar=0.8,
        oxygen_pressure_bar=1.6,
        status="invented for a test",
    )


def write_shop(path: Path, shop: ShopBook) -> Path:
    """Write a shop book as a workbook."""
    save(path, shop_book_workbook(shop, title="Invented shop"), force=True)
    return path


def write_list(path: Path, rows: Sequence[Sequence[object]], date: str = "2026-11-02") -> Path:
    """Write a cut list with the headings of this module; the steel is the customer's."""
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerows([["Date", date], ["Steel", "theirs"], [], HEADINGS, *rows])
    return path
