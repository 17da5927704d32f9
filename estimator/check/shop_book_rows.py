"""A shop book as rows for writing: the example shop, or one that calibration changed, sheet by sheet."""

from __future__ import annotations

from typing import Any

from estimator.check.shop_book import ShopBook
from estimator.check.shop_book_reading import SHOP_BOOK_SHEETS
from estimator.sheets.shop_form import SHOP

__all__ = ["shop_book_rows"]


def shop_book_rows(shop: ShopBook) -> dict[str, list[dict[str, Any]]]:
    """Return the rows of each sheet, by the sheet's name; a form is one row.

    Parameters
    ----------
    shop : ShopBook
        The book.

    Returns
    -------
    dict of str to list of dict
        House names to values; blanks left out.
    """
    rows = {SHOP.name: [_row(shop.shop, {c.name for c in SHOP.columns})]}
    for field, (sheet, _) in SHOP_BOOK_SHEETS.items():
        names = {c.name for c in sheet.columns}
        rows[sheet.name] = [_row(record, names) for record in getattr(shop, field)]
    return rows


def _row(record: Any, names: set[str]) -> dict[str, Any]:
    return {k: v for k, v in record.model_dump().items() if k in names and v is not None and v != ""}
