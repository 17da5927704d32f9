"""Write a whole shop book: the same sheets as the blank one, filled, ready to be typed over and read back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, BinaryIO

from estimator.check.shop_book import ShopBook
from estimator.check.shop_book_reading import SHOP_TABLES
from estimator.check.work_rate_units import rates_for_inches
from estimator.sheets.shop_form import SHOP
from estimator.sheets.shop_rules import WORK_RATES
from estimator.sheets.workbooks import SHOP_BOOK_SHEETS
from estimator.write.book import OutputBook, Paper, write_book
from estimator.write.own_cells import OwnUnits
from estimator.write.own_sheets import write_own_sheet

__all__ = ["shop_book_workbook"]


def shop_book_workbook(shop: ShopBook, *, title: str) -> Callable[[BinaryIO], None]:
    """Return what writes a shop book into an open file.

    Parameters
    ----------
    shop : ShopBook
        The book.
    title : str
        Document title.

    Returns
    -------
    function of a binary file
    """
    rows = _rows(shop)
    form = shop.shop
    units = OwnUnits(length=form.units, currency=form.currency)
    if form.units == "in":
        rows[WORK_RATES.name] = rates_for_inches(rows[WORK_RATES.name])

    def build(book: OutputBook) -> None:
        for sheet in SHOP_BOOK_SHEETS:
            write_own_sheet(book, sheet, rows.get(sheet.name, []), units=units)

    return write_book(build, title=title, paper=Paper(form.paper))


def _rows(shop: ShopBook) -> dict[str, list[dict[str, Any]]]:
    """Return the rows of each sheet, by the sheet's name; a form is one row, blanks are left out."""
    rows = {SHOP.name: [_row(shop.shop, {c.name for c in SHOP.columns})]}
    for field, (sheet, _) in SHOP_TABLES.items():
        names = {c.name for c in sheet.columns}
        rows[sheet.name] = [_row(record, names) for record in getattr(shop, field)]
    return rows


def _row(record: Any, names: set[str]) -> dict[str, Any]:
    return {k: v for k, v in record.model_dump().items() if k in names and v is not None and v != ""}
