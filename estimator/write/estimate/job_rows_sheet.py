"""Rows of the job that belong to no line (set-up, lighting, changes, site work), with their minutes, gas and money."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from estimator.pricing.job import Estimate
from estimator.quantities.job_rows import JobRow
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.estimate.job_row_columns import RowColumn, row_columns
from estimator.write.estimate.live_table import LiveTables
from estimator.write.estimate.look_of_numbers import SHEETS, NumberFormats
from estimator.write.estimate.setting_rows import SettingRows
from estimator.write.estimate.shop_cells import AS_HOUSE, CellUnit, ShopCells
from estimator.write.styles import Look

__all__ = ["minutes_formula", "write_job_rows"]

_TITLE = "What the job takes besides its lines"
_ABOUT = "Counts of lighting, stripping and cylinder changes follow the lines; other counts are as read."
_HEAD, _UNITS, _FIRST_ROW = 3, 4, 5
_COUNT, _MINUTES_EACH = 1, 2
"""Places of the first two columns of figures."""


def write_job_rows(
    book: OutputBook,
    estimate: Estimate,
    lines: LiveTables,
    settings: SettingRows,
    formats: NumberFormats,
    *,
    live: bool = True,
) -> BookSheet:
    """Write the job's rows and name their columns ``row_…``.

    Parameters
    ----------
    book : OutputBook
        The workbook that is being written.
    estimate : Estimate
        The priced job.
    lines : LiveTables
        The columns of the lines, placed.
    settings : SettingRows
        The settings in use.
    formats : NumberFormats
        The shop's number formats.
    live : bool
        Whether formulas are written.

    Returns
    -------
    BookSheet
    """
    sheet = book.sheet(SHEETS.job_rows)
    sheet.set_row(0, 26)
    rows = estimate.rows.rows
    columns = row_columns(estimate, settings, formats)
    letters = {column.name: index for index, column in enumerate(columns, 1)}
    sheet.set_column(0, 0, 38.0)
    sheet.text(_HEAD, 0, "Row", Look.HEADING)
    sheet.text(_UNITS, 0, "", Look.UNIT)
    for offset, row in enumerate(rows):
        sheet.text(_FIRST_ROW + offset, 0, row.what, Look.TEXT, wrap=True)
        sheet.fit_row(_FIRST_ROW + offset, [(row.what, 38.0)])
    for index, column in enumerate(columns, 1):
        sheet.set_column(index, index, 10.0)
        sheet.text(_HEAD, index, column.heading, book.styles.get(Look.HEADING, align="right"))
        sheet.text(_UNITS, index, column.unit, book.styles.get(Look.UNIT, align="right"))
        for offset, (row, of_row) in enumerate(zip(rows, column.values, strict=True)):
            at = _FIRST_ROW + offset
            formula = _own_formula(column, row, estimate, lines, letters, at) or column.formula
            value = _row_unit(column, row, lines.cells).shown(of_row)
            if formula and live:
                cells = {name: a1(at, place) for name, place in letters.items()}
                sheet.worked(at, index, "=" + formula.format(**cells), value, Look.WORKED, column.number)
            else:
                sheet.number(at, index, value, Look.WORKED, column.number)
        last = a1(_FIRST_ROW + len(rows) - 1, index, absolute=True)
        book.define_name(column.range_name, f"='{SHEETS.job_rows}'!{a1(_FIRST_ROW, index, absolute=True)}:{last}")
    sheet.fit_row(_HEAD, ((column.heading, 10.0) for column in columns))
    sheet.freeze_panes(_FIRST_ROW, 1)
    bottom = _FIRST_ROW + len(rows)
    heads = (_HEAD, _UNITS)
    wide = sheet.set_up_page(last_row=bottom, last_column=len(columns), headings=heads, names=1, landscape=True)
    for at, text, look in ((0, _TITLE, Look.TITLE), (1, _ABOUT, Look.GUIDE)):
        sheet.text(at, 1 if wide else 0, text, look)  # in the repeated column it would be cut off on later pages
    return sheet


def minutes_formula(places: Sequence[int]) -> str:
    """Return what rows of the job, by their places from 0, take before rest, for a formula on another sheet."""
    cells = [tuple(a1(_FIRST_ROW + place, column) for column in (_COUNT, _MINUTES_EACH)) for place in places]
    return "+".join(f"'{SHEETS.job_rows}'!{count}*'{SHEETS.job_rows}'!{each}" for count, each in cells)


def _own_formula(
    column: RowColumn,
    row: JobRow,
    estimate: Estimate,
    lines: LiveTables,
    letters: dict[str, int],
    at: int,
) -> str:
    """Return the formula of a cell that differs from row to row: the counts that follow the lines, and the minutes."""
    if column.name == "minutes_each":
        return _row_unit(column, row, lines.cells).in_shown(row.rate) or _call_out_minutes(lines, letters, at)
    if column.name == "lit_share":
        return row.lit_rate
    if column.name != "count":
        return ""
    if row.key.startswith("lighting ") and lines.has("worked_min"):
        paid_h = f"SUMIF({lines.range('tip_number')},{{tip_number}},{lines.range('worked_min')})/60"
        return f"MAX(1,ROUNDUP(ROUND({paid_h}/lighting_every_h,exact_digits),0))"
    if row.key == "strip_coating" and lines.has("painted"):
        burnt = [name for name in ("is_cut", "painted", "cut_m") if lines.has(name)]
        return f"SUMPRODUCT({'*'.join(lines.range(name) for name in burnt)})"
    if row.key == "site_helper" and lines.has("worked_min"):
        helped = [name for name in ("on_site", "worked_min") if lines.has(name)]
        return f"SUMPRODUCT({'*'.join(lines.range(name) for name in helped)})"
    if row.key == "cylinder_changes":
        return _cylinder_changes(estimate, lines, letters, at)
    return ""


def _row_unit(column: RowColumn, row: JobRow, cells: ShopCells) -> CellUnit:
    """Return the unit of a cell that counts metres, or minutes of one, in this row alone."""
    if row.key != "strip_coating" or column.name not in ("count", "minutes_each"):
        return AS_HOUSE
    return cells.of("m" if column.name == "count" else "min/m")


def _call_out_minutes(lines: LiveTables, letters: dict[str, int], at: int) -> str:
    column = letters["paid_time_min"]
    above = f"{a1(_FIRST_ROW, column)}:{a1(at - 1, column)}"
    return f"MAX(0,call_out_minimum_h*60-{lines.sum('worked_min')}-SUM({above}))"


def _cylinder_changes(estimate: Estimate, lines: LiveTables, letters: dict[str, int], at: int) -> str:
    """Gas of lines and of the rows above, over the usable content of a cylinder, gas by gas."""

    def used(names: tuple[str, ...], own: tuple[str, ...]) -> str:
        of_lines = [lines.sum(name) for name in names if lines.has(name)]
        of_rows = [f"SUM({a1(_FIRST_ROW, letters[name])}:{a1(at - 1, letters[name])})" for name in own]
        return "+".join([*of_lines, *of_rows])

    def cylinders(key: str, shown: str) -> str:
        return f"{lines.cells.of('m³', key).in_house(f'({shown})')}/{key}_usable_m3"

    terms = []
    oxygen = used(("cutting_oxygen_m3", "preheat_oxygen_m3", "lost_oxygen_m3"), ("preheat_oxygen_m3", "lost_oxygen_m3"))
    if np.isfinite(estimate.rates.oxygen.usable_m3):
        terms.append(cylinders("oxygen", oxygen))
    if np.isfinite(estimate.rates.fuel.usable_m3):
        terms.append(cylinders("fuel", used(("fuel_m3", "lost_fuel_m3"), ("fuel_m3", "lost_fuel_m3"))))
    return "+".join(terms) or "0"
