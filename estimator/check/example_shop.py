"""The invented example shop: a whole shop book to price with until an owner has one. Every price is made up."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files
from typing import Any

from estimator.check.shop_book import ShopBook

__all__ = ["example_shop"]

_SHEETS = (
    "labour",
    "gas_prices",
    "steel",
    "breaks",
    "add_ons",
    "tips",
    "flame_tips",
    "rack",
    "outfit",
    "cylinder_outlets",
)


@cache
def example_shop() -> ShopBook:
    """Return the example book; its prices are examples and say so."""
    sheets: dict[str, Any] = {name: _rows(name) for name in _SHEETS}
    shop = {row["name"]: row["value"] for row in _rows("shop")}
    return ShopBook.model_validate({"shop": shop, **sheets})


def _rows(name: str) -> list[dict[str, str]]:
    """Return the rows of one table, blanks left out so that a record's own default holds."""
    text = files("estimator").joinpath("data", "example_shop", f"{name}.csv").read_text("utf-8")
    return [{k: v for k, v in row.items() if v != ""} for row in csv.DictReader(text.splitlines())]
