"""The cells of a shop book that an owner types before the first list is priced; others have a value to begin with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from estimator.sheets.shop_form import SHOP
from estimator.sheets.shop_prices import GAS_PRICES, LABOUR, STEEL
from estimator.sheets.statement import Sheet

__all__ = ["FIRST_CELLS", "FIRST_ROWS", "START_SHEET", "FirstCell"]

START_SHEET = "Start here"
"""Name of the sheet that leads to the first cells; no reader looks for it."""


@dataclass(frozen=True, slots=True)
class FirstCell:
    """One cell to type before anything else."""

    sheet: Sheet
    name: str
    """House name of its column, or of its row in a form."""
    record: int
    """Which row of the sheet's table, from 0; 0 in a form."""
    ask: str
    """What to type, as a person would ask for it."""


FIRST_ROWS: Mapping[str, tuple[Mapping[str, object], ...]] = {
    LABOUR.name: ({"name": "normal"},),
    GAS_PRICES.name: ({"gas": "oxygen"}, {"gas": "acetylene"}),
}
"""Rows that stand in a new shop book, begun for the owner to finish."""


def _of_gas(gas: str, record: int) -> tuple[FirstCell, ...]:
    return (
        FirstCell(GAS_PRICES, "cylinder", record, f"{gas}: your name for the cylinder size you buy"),
        FirstCell(GAS_PRICES, "content", record, f"{gas}: what a full one holds, as the supplier prints it"),
        FirstCell(GAS_PRICES, "content_unit", record, f"{gas}: the unit of that (m3, ft3, kg, lb …)"),
        FirstCell(GAS_PRICES, "content_state", record, f"{gas}: measured at; leave blank for kg and lb"),
        FirstCell(GAS_PRICES, "price", record, f"{gas}: price of a full one"),
        FirstCell(GAS_PRICES, "rent_per_month", record, f"{gas}: rent of one for a month; blank for none"),
    )


FIRST_CELLS: tuple[FirstCell, ...] = (
    FirstCell(SHOP, "shop_name", 0, "your shop's name"),
    FirstCell(SHOP, "currency", 0, "your currency, as three letters"),
    FirstCell(SHOP, "units", 0, "are bare numbers in lists mm or inches?"),
    FirstCell(SHOP, "steel_when_silent", 0, "whose steel it is when a list does not say"),
    FirstCell(SHOP, "markup", 0, "markup on cost (or a margin, in the row below it)"),
    FirstCell(SHOP, "overhead_per_hour", 0, "overhead for each paid hour; blank for none"),
    FirstCell(SHOP, "planned_flame_hours", 0, "hours the flame is lit in a usual month"),
    FirstCell(LABOUR, "per_hour", 0, "what an hour of work costs you"),
    *_of_gas("oxygen", 0),
    *_of_gas("acetylene", 1),
    FirstCell(STEEL, "price_per_kg", 0, "price of a kilogram of plate; blank when it is never yours"),
    FirstCell(STEEL, "from_date", 0, "the first day from which that price holds; blank too then"),
)
"""In the order in which they are asked."""
