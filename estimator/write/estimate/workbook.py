"""The priced workbook, whole: places every column, writes every sheet, names every cell that a formula uses."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import BinaryIO

import numpy as np

from estimator.cautions import Caution, cautions
from estimator.learning.ranges import Range
from estimator.pricing.job import Estimate
from estimator.words import Surface
from estimator.write.book import OutputBook, Paper, write_book
from estimator.write.estimate.answer_sheet import write_answer
from estimator.write.estimate.build_up_sheet import write_build_up
from estimator.write.estimate.carried_sheet import carried_columns
from estimator.write.estimate.gas_sheet import write_gas
from estimator.write.estimate.how_sheet import write_how
from estimator.write.estimate.job_rows_sheet import write_job_rows
from estimator.write.estimate.line_gas import gas_columns
from estimator.write.estimate.line_money import (
    amount_columns,
    break_columns,
    cost_columns,
    line_price_column,
    price_columns,
)
from estimator.write.estimate.line_readings import reading_columns
from estimator.write.estimate.line_sheet import ListRows, line_columns, minutes_columns, name_columns, read_as_columns
from estimator.write.estimate.line_work import time_columns
from estimator.write.estimate.live_table import LiveColumn, LiveTables
from estimator.write.estimate.look_of_numbers import SHEETS, NumberFormats
from estimator.write.estimate.notes_sheets import write_checks, write_problems, write_sources
from estimator.write.estimate.price_rows import PriceRows
from estimator.write.estimate.rate_rows import rate_sections
from estimator.write.estimate.rates_sheet import write_rates
from estimator.write.estimate.record_sheet import write_record
from estimator.write.estimate.second_look_sheet import write_second_look
from estimator.write.estimate.setting_rows import SettingRows
from estimator.write.estimate.settings_sheet import write_settings
from estimator.write.estimate.shop_cells import ShopCells
from estimator.write.styles import Look

__all__ = ["VALUES_ONLY_ABOVE", "estimate_workbook"]

VALUES_ONLY_ABOVE = 20_000
"""Lists with more rows than this are written with values alone, and the workbook says so."""
_FIRST_ROW = 5


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
    price_range: Range | None
    hours_range: Range | None


def estimate_workbook(
    estimate: Estimate,
    *,
    price_range: Range | None = None,
    hours_range: Range | None = None,
    values_only: bool = False,
) -> Callable[[BinaryIO], None]:
    """Return what writes the priced workbook into an open file.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    price_range, hours_range : Range, optional
        Ranges of the total [money] and of the man-minutes [min].
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
    lines = LiveTables(
        _FIRST_ROW,
        len(estimate.cuts),
        live=live,
        positions=rows.positions,
        rows=rows.count,
        cells=ShopCells.of_job(estimate),
    )
    parts = _Parts(estimate, settings, prices, formats, rows, lines, live, price_range, hours_range)
    _place_lines(parts)

    def build(book: OutputBook) -> None:
        _write_sheets(book, parts)

    shop = estimate.shop.shop
    title = " ".join(filter(None, ("Estimate", estimate.order.quote_number or estimate.cuts.title.quote_number)))
    about = " · ".join(filter(None, (estimate.cuts.title.customer, estimate.cuts.title.job)))
    return write_book(build, title=title, author=shop.shop_name, subject=about, paper=Paper(shop.paper))


def _place_lines(parts: _Parts) -> None:
    """Place the columns of the lines, each behind those that its formula names."""
    lines, estimate, formats = parts.lines, parts.estimate, parts.formats
    lines.place(SHEETS.lines, line_columns(estimate, parts.rows, formats))
    for sheet in (SHEETS.work, SHEETS.costs, *((SHEETS.carried,) if estimate.cuts.unknown else ())):
        lines.place(sheet, name_columns(estimate, sheet))
    lines.place(SHEETS.carried, carried_columns(estimate.cuts))
    lines.place(SHEETS.work, reading_columns(estimate, parts.settings, formats))
    lines.place(SHEETS.work, time_columns(estimate, formats))
    lines.place(SHEETS.work, gas_columns(estimate, formats))
    lines.place(SHEETS.lines, [_shown("cut_m", "Cut", estimate.job.lines.cut_m, "m", formats.metres)])
    lines.place(SHEETS.lines, minutes_columns(estimate, formats))
    lines.place(SHEETS.costs, cost_columns(estimate, parts.prices, formats))
    cost = estimate.lines.cost / 10.0**formats.decimals
    lines.place(SHEETS.lines, [_shown("cost", "Cost", cost, estimate.shop.shop.currency, formats.money)])
    lines.place(SHEETS.lines, price_columns(estimate, formats))
    lines.place(SHEETS.costs, amount_columns(estimate, formats))
    lines.place(SHEETS.lines, [line_price_column(estimate, formats)])
    lines.place(SHEETS.costs, break_columns(estimate, parts.prices, formats))
    lines.place(SHEETS.lines, read_as_columns(estimate, parts.rows))
    for name in ("quantity", "paid_time_min", *(("mark_number",) if estimate.shop.breaks else ())):
        lines.range(name)


def _shown(name: str, heading: str, values: np.ndarray, unit: str, number: str) -> LiveColumn:
    """Return a column that shows a column of another sheet."""
    return LiveColumn(f"shown_{name}", heading, values, unit, number, (f"[{name}]",), width=10.0)


def _write_sheets(book: OutputBook, parts: _Parts) -> None:
    """Write the sheets in the order in which they are read."""
    lines, estimate, formats = parts.lines, parts.estimate, parts.formats
    write_answer(book, estimate, lines, formats, price_range=parts.price_range, hours_range=parts.hours_range)
    _write_lines(book, parts, SHEETS.lines, "Lines: what you type in yellow cells wins", repeat=2)
    write_build_up(book, estimate, lines, formats)
    write_gas(book, estimate, lines, parts.settings, formats)
    write_settings(book, estimate, parts.settings, formats, _cautions(estimate), live=parts.live)
    write_rates(book, rate_sections(estimate, parts.prices, formats), live=parts.live)
    if parts.live:
        write_how(book, estimate, lines)
    write_job_rows(book, estimate, lines, parts.settings, formats, live=parts.live)
    _write_lines(book, parts, SHEETS.costs, "What every line costs, exact and as printed", repeat=2)
    _write_lines(book, parts, SHEETS.work, "What every line takes: readings, minutes and gas", repeat=2)
    if estimate.cuts.unknown:
        _write_lines(book, parts, SHEETS.carried, "Columns of the list that are not read, as they stand", repeat=2)
    write_second_look(book, estimate, lines, formats)
    write_problems(book, estimate, lines)
    write_checks(book, estimate, lines, formats)
    write_sources(book, estimate)
    write_record(book, estimate)
    lines.define_names(book)


def _write_lines(book: OutputBook, parts: _Parts, name: str, title: str, *, repeat: int) -> None:
    """Write one of the sheets with a row for each line."""
    sheet = book.sheet(name)
    sheet.set_row(0, 26)
    parts.lines.write(book, sheet, name)
    columns = len(parts.lines.columns_on(name))
    last = _FIRST_ROW + parts.rows.count - 1
    sheet.freeze_panes(_FIRST_ROW, repeat)
    sheet.autofilter(_FIRST_ROW - 1, 0, last, columns - 1)
    heads = (_FIRST_ROW - 2, _FIRST_ROW - 1)
    wide = sheet.set_up_page(last_row=last, last_column=columns - 1, headings=heads, names=repeat, landscape=True)
    sheet.text(0, repeat if wide else 0, title, Look.TITLE)  # in a repeated column it would be cut off on later pages


def _cautions(estimate: Estimate) -> list[Caution]:
    """Return the cautions that this job asks for."""
    fuel, x = estimate.kit.fuel, estimate.job.lines
    holds = [fuel] if fuel in ("acetylene", "propane") else []
    heavy = np.nan_to_num(x.mass_each_kg) > estimate.work.handling_limit_kg
    told = (
        ("heating", bool(np.any(x.flame_work_min > 0))),
        ("several torches", bool(np.any(np.nan_to_num(estimate.cuts.torches, nan=1.0) > 1))),
        ("coated", bool(np.any(estimate.cuts.surface == Surface.PAINTED))),
        ("heavy", bool(np.any(heavy))),
    )
    return cautions([*holds, *(name for name, is_so in told if is_so)])
