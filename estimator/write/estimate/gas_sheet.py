"""Gas and cylinders of the job: what is burnt and lost, what it costs, how many cylinders, which tip takes it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from estimator.pricing.job import Estimate
from estimator.write.book import OutputBook, a1
from estimator.write.estimate.charts import bar_chart
from estimator.write.estimate.live_table import LiveTables
from estimator.write.estimate.look_of_numbers import SHEETS, NumberFormats
from estimator.write.estimate.page import Page
from estimator.write.estimate.setting_rows import SettingRows
from estimator.write.styles import Look

__all__ = ["write_gas"]

_AT = "Volumes at 15 °C and 101.325 kPa (1 atm)."
_AT_INCH = "Volumes at 70 °F and 1 atm, as gas is sold; the flows of the tips are at 59 °F (15 °C)."
_WIDTHS = (38.0, 15.0, 15.0, 15.0, 15.0)


@dataclass(frozen=True, slots=True)
class _Use:
    what: str
    line: str
    """Column of the lines."""
    row: str
    """Column of the job's rows; empty for none."""


_OXYGEN = (
    _Use("Cutting oxygen", "cutting_oxygen_m3", ""),
    _Use("Preheat oxygen", "preheat_oxygen_m3", "preheat_oxygen_m3"),
    _Use("Oxygen lost to pilot, purge and leaks", "lost_oxygen_m3", "lost_oxygen_m3"),
)
_FUEL = (
    _Use("{fuel} burnt", "fuel_m3", "fuel_m3"),
    _Use("{fuel} lost to pilot, purge and leaks", "lost_fuel_m3", "lost_fuel_m3"),
)


def write_gas(
    book: OutputBook, estimate: Estimate, lines: LiveTables, settings: SettingRows, formats: NumberFormats
) -> None:
    """Write the sheet and name its totals.

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
    """
    page = Page(book, SHEETS.gas, _WIDTHS, live=lines.live, figures=(1, 2, 3, 4))
    page.title("Gas and cylinders")
    page.sheet.text(1, 0, _AT_INCH if lines.cells.is_inch else _AT, Look.GUIDE)
    writer = _Writer(page, estimate, lines, formats)
    row = writer.gas(3, "oxygen", "Oxygen", _OXYGEN)
    row = writer.gas(row + 1, "fuel", estimate.kit.fuel.capitalize(), _FUEL)
    row = writer.by_tip(row + 1, settings)
    page.sheet.set_up_page(last_row=row, last_column=len(_WIDTHS) - 1)


class _Writer:
    """Writes the sheet's tables one below the other."""

    def __init__(self, page: Page, estimate: Estimate, lines: LiveTables, formats: NumberFormats) -> None:
        self.page, self.estimate, self.lines, self.formats = page, estimate, lines, formats

    def gas(self, row: int, key: str, name: str, uses: tuple[_Use, ...]) -> int:
        """Write one gas; return the row below its table."""
        gas = self.estimate.rates.oxygen if key == "oxygen" else self.estimate.rates.fuel
        amount, cells = self.lines.cells.of("m³", key), self.lines.cells
        beside = cells.of("m³", key, by_volume=True) if key in cells.by_mass else cells.of("kg")
        times, each = ("", 1.0) if key in cells.by_mass else (f"*{key}_kg_per_m3", gas.density_kg_m3)
        heads = (f"{what}, {amount.unit}" for what in ("Lines", "Rows of the job", "Together"))
        self.page.heads(row, name, *heads, f"Together, {beside.unit}")
        first = row + 1
        total = 0.0

        def put(column: int, formula: str, value_m3: float, look: Look = Look.WORKED) -> None:
            self.page.figure(row, column, formula, amount.shown(value_m3), self.formats.volume, look)

        def put_beside(value_m3: float, look: Look = Look.WORKED) -> None:
            formula = beside.in_shown(f"{amount.in_house(a1(row, 3))}{times}")
            self.page.figure(row, 4, formula, beside.shown(value_m3 * each), self.formats.volume, look)

        for use in uses:
            row += 1
            of_lines = float(np.sum(getattr(self.estimate.job.lines, use.line)))
            of_rows = sum(float(getattr(r, use.row)) for r in self.estimate.rows.rows) if use.row else 0.0
            self.page.sheet.text(row, 0, use.what.format(fuel=name), Look.LABEL)
            put(1, self.lines.sum(use.line), of_lines)
            put(2, f"SUM(row_{amount.name(use.row)})" if use.row else "0", of_rows)
            put(3, f"{a1(row, 1)}+{a1(row, 2)}", of_lines + of_rows)
            put_beside(of_lines + of_rows)
            total += of_lines + of_rows
        row += 1
        self.page.sheet.text(row, 0, f"{name} together", Look.TOTAL)
        for column in (1, 2):
            self.page.sheet.blank(row, column, Look.TOTAL)
        put(3, f"SUM({a1(first, 3)}:{a1(row - 1, 3)})", total, Look.TOTAL)
        put_beside(total, Look.TOTAL)
        used = amount.name(f"{key}_used_m3")
        self.page.book.name_cell(used, SHEETS.gas, row, 3)
        row += 1
        per = self.lines.cells.of("per m³", key).unit
        currency, used = self.estimate.shop.shop.currency, amount.in_house(used)
        self.page.sheet.text(row, 0, f"Cost at {currency} {per} of the Rates sheet", Look.LABEL)
        self.page.figure(row, 3, f"{used}*{key}_cost_per_m3", total * gas.cost_per_m3, self.formats.money)
        if np.isfinite(gas.usable_m3):
            row += 1
            self.page.sheet.text(row, 0, f"Cylinders {gas.cylinder}, by usable content", Look.LABEL)
            self.page.figure(row, 3, f"{used}/{key}_usable_m3", total / gas.usable_m3, "0.00")
            self.page.book.name_cell(f"{key}_cylinders", SHEETS.gas, row, 3)
        return row + 1

    def by_tip(self, row: int, settings: SettingRows) -> int:
        """Write what each tip takes on the lines, and its chart; return the last row."""
        names = ("cutting_oxygen_m3", "preheat_oxygen_m3", "fuel_m3", "flame_time_min")
        units = [self.lines.cells.of("m³", gas) for gas in ("oxygen", "oxygen", "fuel")]
        whats = ("Cutting oxygen", "Preheat oxygen", "Fuel")
        heads = [f"{what}, {cell.unit}" for what, cell in zip(whats, units, strict=True)]
        self.page.heads(row, "Tip, on lines", *heads, "Flame lit, h")
        first = row + 1
        numbers = settings.tip_of(self.estimate.job.lines.setting)
        for number, tip in enumerate(settings.tips, 1):
            row += 1
            here = numbers == number
            self.page.sheet.text(row, 0, f"Tip {tip}", Look.LABEL)
            self.page.sheet.number(row, len(_WIDTHS), number, Look.GUIDE, "0")
            for column, name in enumerate(names, 1):
                value = float(getattr(self.estimate.job.lines, name)[here].sum())
                formula = f"SUMIF({self.lines.range('tip_number')},{a1(row, len(_WIDTHS))},{self.lines.range(name)})"
                formula = formula if self.lines.has(name) else "0"
                if name == "flame_time_min":
                    self.page.figure(row, column, f"{formula}/60", value / 60.0, "0.00")
                else:
                    self.page.figure(row, column, formula, units[column - 1].shown(value), self.formats.volume)
        if not settings.tips:
            return row
        chart = bar_chart(
            self.page.book,
            title="Which tip takes the gas" if units[0].unit == units[-1].unit else "Which tip takes the oxygen",
            sheet=SHEETS.gas,
            categories=(first, 0, row, 0),
            series=[(heads[at], at + 1) for at, cell in enumerate(units) if cell.unit == units[0].unit],
            axis=units[0].unit,
            stacked=True,
        )
        self.page.sheet.insert_chart(row + 2, 0, chart, {"object_position": 2})
        return row + 18
