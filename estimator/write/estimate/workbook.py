"""The priced workbook, whole: places every column, writes every sheet, names every cell that a formula uses."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import BinaryIO

import numpy as np

from estimator.pricing.job import Estimate
from estimator.write.book import OutputBook, Paper, write_book
from estimator.write.estimate.job_rows_sheet import write_job_rows
from estimator.write.estimate.line_money import cost_columns, price_columns
from estimator.write.estimate.line_readings import reading_columns
from estimator.write.estimate.line_sheet import ListRows, line_columns, minutes_columns, read_as_columns
from estimator.write.estimate.line_work import gas_columns, time_columns
from estimator.write.estimate.live_table import LiveColumn, LiveTables
from estimator.write.estimate.look_of_numbers import SHEETS, NumberFormats
from estimator.write.estimate.price_rows import PriceRows
from estimator.write.estimate.rate_rows import rate_sections
from estimator.write.estimate.rates_sheet import write_rates
from estimator.write.estimate.setting_rows import SettingRows
from estimator.write.estimate.settings_sheet import write_settings

__all__ = ["VALUES_ONLY_ABOVE", "estimate_workbook"]

VALUES_ONLY_ABOVE = 20_000
"""Lists with more rows than this are written with values alone, and the workbook says so."""
_FIRST_ROW = 5
_IN_MEMORY_ROWS = 3_000


@dataclass(slots=True)
class _Parts:
    """What every sheet is written from."""

    estimate: Estimate
    settings: SettingRows
    prices: PriceRows
    formats: NumberFormats
    rows: ListRows
    lines: LiveTables
    live: bool


def estimate_workbook(estimate: Estimate, *, values_only: bool = False) -> Callable[[BinaryIO], None]:
    """Return what writes the priced workbook into an open file.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    values_only : bool
        Whether formulas are left out; so it is for very long lists anyway.

    Returns
    -------
    function of a binary file

    Notes
    -----
    Source: definition.
    """
    rows = ListRows(estimate)
    live = not values_only and rows.count <= VALUES_ONLY_ABOVE
    settings, prices = SettingRows.of_job(estimate), PriceRows.of_job(estimate)
    formats = NumberFormats(estimate.shop.shop.decimals)
    lines = LiveTables(_FIRST_ROW, len(estimate.cuts), live=live, positions=rows.positions, rows=rows.count)
    parts = _Parts(estimate, settings, prices, formats, rows, lines, live)
    _place_lines(parts)

    def build(book: OutputBook) -> None:
        _write_sheets(book, parts)

    shop = estimate.shop.shop
    title = " ".join(filter(None, ("Estimate", estimate.order.quote_number or estimate.cuts.title.quote_number)))
    return write_book(build, title=title, paper=Paper(shop.paper), in_memory=rows.count <= _IN_MEMORY_ROWS)


def _place_lines(parts: _Parts) -> None:
    """Place the columns of the lines, each behind those that its formula names."""
    lines, estimate, formats = parts.lines, parts.estimate, parts.formats
    lines.place(SHEETS.lines, line_columns(estimate, parts.rows, parts.settings, formats))
    lines.place(SHEETS.work, reading_columns(estimate, parts.settings, formats))
    lines.place(SHEETS.work, time_columns(estimate, formats))
    lines.place(SHEETS.work, gas_columns(estimate, formats))
    lines.place(SHEETS.lines, [_shown("cut_m", "Cut", estimate.job.lines.cut_m, "m", formats.metres)])
    lines.place(SHEETS.lines, minutes_columns(estimate, formats))
    lines.place(SHEETS.costs, cost_columns(estimate, parts.prices, formats))
    cost = estimate.lines.cost / 10.0**formats.decimals
    lines.place(SHEETS.lines, [_shown("cost", "Cost", cost, estimate.shop.shop.currency, formats.money)])
    lines.place(SHEETS.lines, price_columns(estimate, parts.prices, formats))
    lines.place(SHEETS.lines, read_as_columns(estimate, parts.rows))
    for name in ("quantity", "paid_time_min", *(("mark_number",) if estimate.shop.breaks else ())):
        lines.range(name)


def _shown(name: str, heading: str, values: np.ndarray, unit: str, number: str) -> LiveColumn:
    """Return a column that shows a column of another sheet."""
    return LiveColumn(f"shown_{name}", heading, values, unit, number, (f"[{name}]",), width=10.0)


def _write_sheets(book: OutputBook, parts: _Parts) -> None:
    lines, estimate = parts.lines, parts.estimate
    for name in (SHEETS.lines, SHEETS.costs, SHEETS.work):
        lines.write(book, book.sheet(name), name)
    write_job_rows(book, estimate, lines, parts.settings, parts.formats, live=parts.live)
    write_settings(book, estimate, parts.settings, parts.formats, (), live=parts.live)
    write_rates(book, rate_sections(estimate, parts.prices, parts.formats), live=parts.live)
    lines.define_names(book)
