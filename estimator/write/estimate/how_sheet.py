"""How one line was worked out, step by step; the reader picks the line from a list."""

from __future__ import annotations

from dataclasses import dataclass

from estimator.pricing.job import Estimate
from estimator.write.book import OutputBook, a1
from estimator.write.estimate.how_steps import STEPS, Figure, Step, words_in_feet
from estimator.write.estimate.live_table import LiveTables
from estimator.write.estimate.look_of_numbers import SHEETS
from estimator.write.estimate.page import Page
from estimator.write.styles import Look

__all__ = ["write_how"]

_WIDTHS = (30.0, 14.0, 12.0, 62.0)
_PICK = (2, 1)
_AT = "how_at"
"""Name of the cell that holds the picked line's place in the block."""


def write_how(book: OutputBook, estimate: Estimate, lines: LiveTables) -> None:
    """Write the sheet; its figures follow the picked line.

    Parameters
    ----------
    book : OutputBook
        The workbook that is being written, live.
    estimate : Estimate
        The priced job.
    lines : LiveTables
        The columns of the lines, placed.
    """
    page = Page(book, SHEETS.how, _WIDTHS, live=lines.live)
    page.title("How a line was worked out")
    first = lines.positions[0]
    number = float(estimate.cuts.row[0])
    page.sheet.text(*_PICK[:1], 0, "Row of the list: pick it here", Look.LABEL)
    page.sheet.number(*_PICK, number, Look.TYPED, "0")
    rows = lines.range("list_row")
    page.sheet.data_validation(
        *_PICK,
        *_PICK,
        {"validate": "list", "source": f"={rows}", "input_title": "Row", "input_message": "Pick a row of the list."},
    )
    picked = a1(*_PICK, absolute=True)
    page.sheet.text(3, 0, "Its place among the lines", Look.GUIDE)
    page.named(_AT, 3, 1, f"MATCH({picked},{rows},0)", float(first + 1), "0", Look.GUIDE)
    mark = estimate.cuts.mark[0]
    page.figure(2, 3, f'INDEX({lines.range("mark")},{_AT})&""', mark, "", Look.LABEL)
    values = _Values(estimate, lines)
    row = 5
    for step in STEPS:
        if lines.has(step.answer):
            row = _write_step(page, row, step, lines, values)
    page.sheet.freeze_panes(4, 0)
    page.sheet.set_up_page(last_row=row, last_column=len(_WIDTHS) - 1, headings=(0, 3))


def _write_step(page: Page, row: int, step: Step, lines: LiveTables, values: _Values) -> int:
    """Write one step; return the row below it."""
    title, formula = (values.words(text) for text in (step.title, step.formula))
    page.sheet.text(row, 0, title, Look.SUBTITLE)
    for column in (1, 2):
        page.sheet.text(row, column, "", Look.SUBTITLE)
    page.words(row, 3, formula, Look.SUBTITLE)
    for figure in step.figures:
        found = values.figure(figure)
        if found is None:
            continue
        row += 1
        page.sheet.text(row, 0, f"   {figure.what}", Look.TEXT)
        page.figure(row, 1, found.formula, found.value, "#,##0.00##")
        page.sheet.text(row, 2, found.unit, Look.GUIDE)
    row += 1
    page.sheet.text(row, 0, f"= {title}", Look.LABEL)
    page.figure(
        row, 1, f"INDEX({lines.range(step.answer)},{_AT})", values.of_line(step.answer), "#,##0.00##", Look.TOTAL
    )
    unit = values.currency if step.unit == "money" else lines.unit(step.answer, step.unit)
    page.sheet.text(row, 2, unit, Look.GUIDE)
    page.sheet.text(row, 3, f"Source: {step.source}", Look.GUIDE)
    return row + 2


@dataclass(frozen=True, slots=True)
class _Found:
    """A figure of the first line as it is shown."""

    formula: str
    value: float
    unit: str


class _Values:
    """Formulas and values of figures, for the first line."""

    def __init__(self, estimate: Estimate, lines: LiveTables) -> None:
        from estimator.write.estimate.look_of_numbers import NumberFormats
        from estimator.write.estimate.price_rows import PriceRows
        from estimator.write.estimate.rate_rows import rate_sections
        from estimator.write.estimate.setting_rows import SettingRows
        from estimator.write.estimate.settings_sheet import setting_values

        self.lines, self.currency = lines, estimate.shop.shop.currency
        formats = NumberFormats(estimate.shop.shop.decimals)
        sections = rate_sections(estimate, PriceRows.of_job(estimate), formats)
        self.rates = {row.name: row.value for section in sections for row in section.rows}
        settings = SettingRows.of_job(estimate)
        self.tip = setting_values(estimate, settings, int(estimate.job.lines.setting[0]))

    def words(self, text: str) -> str:
        """Return a text in the shop's units."""
        return words_in_feet(text) if self.lines.cells.is_inch else text

    def figure(self, figure: Figure) -> _Found | None:
        """Return a figure; None for a column that does not stand in this job."""
        source = figure.source
        if source.startswith("["):
            name = source[1:-1]
            if not self.lines.has(name):
                return None
            formula = f"INDEX({self.lines.range(name)},{_AT})"
            return _Found(formula, self.of_line(name), self.lines.unit(name, figure.unit))
        if source.startswith("tip:"):
            name = source.removeprefix("tip:")
            setting = f"INDEX({self.lines.range('setting')},{_AT})"
            return self._turned(f"INDEX(tip_{name},{setting})", self.tip.get(name) or 0.0, figure.unit)
        gas = source.partition("_")[0] if figure.unit == "per m³" else ""
        return self._turned(source, self.rates[source] or 0.0, figure.unit, gas)

    def _turned(self, formula: str, value: float, house: str, gas: str = "") -> _Found:
        cell = self.lines.cells.of(house, gas)
        return _Found(cell.in_shown(formula), cell.shown(value), cell.unit)

    def of_line(self, name: str) -> float:
        """Return the value of the first line, blank as 0, as INDEX shows it."""
        value = self.lines.value(name, 0)
        return 0.0 if value is None or isinstance(value, str) else value
