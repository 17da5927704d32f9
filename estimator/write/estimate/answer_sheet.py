"""The answer first: the price and how sure it is, the hours, the gas, and what is not in it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from estimator.learning.ranges import Range
from estimator.plain_words import bottles_words, duration_words
from estimator.pricing.build_up import steel_charged_kg
from estimator.pricing.job import Estimate
from estimator.pricing.second_look import price_without_steel
from estimator.pricing.setup_words import setup_parts, setup_words
from estimator.pricing.steel_words import steel_charged_words
from estimator.problems import Concern, Level, Problem, concern_of
from estimator.quantities.job_rows import JobRow
from estimator.reference import table
from estimator.words import Steel
from estimator.write.book import OutputBook, a1
from estimator.write.estimate.answer_charts import AnswerCharts
from estimator.write.estimate.job_rows_sheet import minutes_formula
from estimator.write.estimate.live_table import LiveTables
from estimator.write.estimate.look_of_numbers import SHEETS, NumberFormats
from estimator.write.estimate.page import Page
from estimator.write.styles import Look

__all__ = ["write_answer"]

_WIDTHS = (33.0, 16.0, 14.0, 14.0, 34.0)
_FRESH = "goes with the price above"
_STALE = "STALE: figures were changed; run again for a new range"


def write_answer(
    book: OutputBook,
    estimate: Estimate,
    lines: LiveTables,
    formats: NumberFormats,
    *,
    price_range: Range | None = None,
    hours_range: Range | None = None,
) -> None:
    """Write the first sheet of the workbook.

    Parameters
    ----------
    book : OutputBook
        The workbook that is being written.
    estimate : Estimate
        The priced job.
    lines : LiveTables
        The columns of the lines, placed.
    formats : NumberFormats
        The shop's number formats.
    price_range : Range, optional
        Range of the total in the major unit.
    hours_range : Range, optional
        Range of the man-minutes [min].
    """
    page = Page(book, SHEETS.answer, _WIDTHS, live=lines.live, figures=(1, 2, 3))
    answer = _Answer(page, estimate, lines, formats)
    row = answer.head()
    row = answer.warnings(row)
    row = answer.price(row, price_range, hours_range)
    row = answer.in_short(row)
    charts = AnswerCharts(page, estimate, lines, formats)
    blocks = [row]
    for write in (charts.money, answer.not_in_it, charts.top_lines, charts.by_sets):
        blocks.append(row := write(row))
    if price_range is not None:
        row = charts.what_moves(row, price_range)
    page.sheet.set_up_page(last_row=row, last_column=len(_WIDTHS) - 1, blocks=blocks)
    page.sheet.activate()


class _Answer:
    """Writes the sheet's parts one below the other; each returns the row below it."""

    def __init__(self, page: Page, estimate: Estimate, lines: LiveTables, formats: NumberFormats) -> None:
        self.page, self.estimate, self.lines, self.formats = page, estimate, lines, formats
        self.currency, self.minor = estimate.shop.shop.currency, 10.0**formats.decimals

    def head(self) -> int:
        cuts, order = self.estimate.cuts, self.estimate.order
        quote = " ".join(
            filter(None, (order.quote_number or cuts.title.quote_number, order.revision or cuts.title.revision))
        )
        self.page.title("Estimate" + (f" {quote}" if quote else ""))
        date = self.estimate.date.isoformat() if self.estimate.date else "no date"
        about = [cuts.title.customer, cuts.title.job, f"prices of {date}", f"list {cuts.file}"]
        row = self.page.say(1, " · ".join(part for part in about if part), Look.GUIDE)
        return row + 1

    def warnings(self, row: int) -> int:
        estimate = self.estimate
        if estimate.shop.is_example:
            text = "EXAMPLE PRICES: the built-in shop is invented. Price with your own shop book before you quote."
            row = self.page.say(row, text, Look.STOP)
        if estimate.incomplete:
            count = len(estimate.unpriced)
            text = (
                f"INCOMPLETE: {count} row{'s' if count != 1 else ''} of the list have no price; see Lines and Problems."
            )
            row = self.page.say(row, text, Look.STOP)
        if not self.page.live:
            row = self.page.say(
                row, "VALUES ONLY: this workbook has no formulas; it does not re-price itself.", Look.CAUTION
            )
        return row

    def price(self, row: int, price_range: Range | None, hours_range: Range | None) -> int:
        t, tax = self.estimate.totals, self.estimate.shop.shop.tax_name
        self.page.sheet.set_row(row, 28)
        self.page.sheet.text(row, 0, f"Total, {self.currency}", Look.ANSWER)
        if self.estimate.incomplete:
            self.page.sheet.text(row, 2, "INCOMPLETE", self.page.book.styles.get(Look.ANSWER, align="left"))
        self.page.figure(row, 1, "job_total", t.total / self.minor, self.formats.money, Look.ANSWER)
        self.page.book.name_cell("answer_total", SHEETS.answer, row, 1)
        row += 1
        self.page.sheet.text(row, 0, f"before {tax.lower()}", Look.LABEL)
        self.page.figure(row, 1, "net_price", t.taxable / self.minor, self.formats.money)
        row += 1
        if price_range is None:
            return row + 1
        ranges = [("four times in five between", price_range.low, price_range.high, "#,##0")]
        if hours_range is not None:
            ranges.append(("man-hours, four times in five", hours_range.low / 60.0, hours_range.high / 60.0, "#,##0.0"))
        for what, low, high, number in ranges:
            self.page.sheet.text(row, 0, what, Look.LABEL)
            self.page.sheet.number(row, 1, low, Look.TEXT, number)
            self.page.sheet.number(row, 2, high, Look.TEXT, number)
            row += 1
        self._fresh_or_stale(row - len(ranges))
        return row + 1

    def _fresh_or_stale(self, row: int) -> None:
        """Say beside a range, which is not live, whether what it rests on has been changed since."""
        same = "(changed_rates=0)*(ROUND(job_total-engine_total,decimals)=0)"
        if not self.page.live:
            return
        style = self.page.book.styles.get(Look.GUIDE, wrap=True)
        self.page.sheet.worked(row, 4, f'=IF({same},"{_FRESH}","{_STALE}")', _FRESH, style)
        self.page.book.name_cell("range_state", SHEETS.answer, row, 4)
        stop = self.page.book.add_format({"bold": True, "bg_color": "#F3CDB8"})
        cell = a1(row, 4)
        rule = {"type": "cell", "criteria": "!=", "value": f'"{_FRESH}"', "format": stop}
        self.page.sheet.conditional_format(cell, rule)

    def in_short(self, row: int) -> int:
        self.page.heads(row, "In short", "", "", "", "Usual, or in words")
        estimate, x = self.estimate, self.estimate.job.lines
        units, rows = estimate.shop.shown, estimate.rows.rows
        paid = estimate.whole_paid_time_min
        lit = float(x.flame_time_min.sum()) + sum(r.flame_time_min for r in rows)
        cut = float((x.cut_time_min + x.bevel_time_min).sum())
        paid_formula = f"({self.lines.sum('paid_time_min')}+SUM(row_paid_time_min))"
        bands = {str(n): i for i, n in enumerate(table("sense_bands").column("name"))}
        row = self._short(row, "Man-hours", f"{paid_formula}/60", paid / 60.0, "#,##0.0", duration_words(paid))
        row = self._setup(row)
        lit_formula = f"({self.lines.sum('flame_time_min')}+SUM(row_flame_time_min))/60"
        row = self._short(row, "Hours with the torch lit", lit_formula, lit / 60.0, "#,##0.0", "")
        bevel = f"+{self.lines.sum('bevel_time_min')}" if self.lines.has("bevel_time_min") else ""
        share = f"IF({paid_formula}=0,0,({self.lines.sum('cut_time_min')}{bevel})/{paid_formula})"
        usual = _band_words(bands["torch_on_hand"]) + "; " + _band_words(bands["torch_on_track"])
        row = self._short(row, "Cutting, of the man-hours", share, cut / paid if paid else 0.0, "0%", usual)
        cut_m = units.number(float(x.cut_m.sum()), "m")
        cut_words = "Feet cut" if units.inch else "Metres cut"
        row = self._short(row, cut_words, self.lines.sum("cut_m"), cut_m, "#,##0.0", "")
        row = self._short(row, "Pieces", self._pieces(), estimate.cuts.pieces, "#,##0", "")
        row = self._gas(row)
        ours = estimate.cuts.steel == Steel.OURS
        mass = np.nan_to_num(x.mass_each_kg) * estimate.cuts.quantity
        whose = [steel.word for steel in Steel if np.any(estimate.cuts.steel == steel)]
        formula = "0"
        if self.lines.has("our_steel") and self.lines.has("mass_each_kg"):
            names = ("our_steel", "quantity", "mass_each_kg")
            formula = "SUMPRODUCT(" + ",".join(self.lines.range(n) for n in names) + ")"
        row = self._short(
            row,
            f"Our steel in the pieces, {units.unit('kg')}",
            formula,
            units.number(float(mass[ours].sum()), "kg"),
            "#,##0",
            f"steel: {', '.join(whose) or 'not said'}",
        )
        if ours.any():
            row = self._steel_charged(row)
        price = price_without_steel(estimate)
        gas_share = estimate.totals.parts["gas"] / self.minor / price if price > 0 else 0.0
        rest = "(net_price-steel_total*(1+add_on_steel+overhead_share)*price_over_cost)"
        gas_formula = f"IF({rest}<=0,0,gas_total/{rest})"
        usual = _band_words(bands["gas_share_hand"])
        return self._short(row, "Gas in the price without steel", gas_formula, gas_share, "0.0%", usual) + 2

    def _pieces(self) -> str:
        """Return the formula text that counts pieces of steel; rows of work on them are not counted again."""
        if not self.lines.has("is_piece"):
            return self.lines.sum("quantity")
        return f"SUMPRODUCT({self.lines.range('is_piece')},{self.lines.range('quantity')})"

    def _short(self, row: int, what: str, formula: str, value: float, number: str, words: str) -> int:
        row += 1
        self.page.sheet.text(row, 0, what, Look.LABEL)
        self.page.figure(row, 1, formula, value, number)
        self.page.sheet.text(row, 4, words, Look.GUIDE, wrap=True)
        self.page.sheet.fit_row(row, [(words, _WIDTHS[4])])
        return row

    def _setup(self, row: int) -> int:
        """Write what the job's own rows cost, and beside it the minutes they are made of, as live as the amount."""
        estimate = self.estimate
        rows, spread = estimate.rows.rows, estimate.shop.shop.spread_job_rows
        words = setup_words(rows, estimate.work.rest_allowance)
        if not words:
            return row
        heading = "Set-up and the rest" + (", in the lines" if spread else f", {self.currency}")
        row = self._short(row, heading, "rows_total", estimate.totals.job_rows / self.minor, self.formats.money, words)
        if self.page.live:
            style = self.page.book.styles.get(Look.GUIDE, wrap=True)
            self.page.sheet.worked(row, 4, f"={_setup_formula(rows)}", words, style)
        return row

    def _steel_charged(self, row: int) -> int:
        estimate = self.estimate
        charged_kg = steel_charged_kg(
            estimate.cuts, estimate.job.lines, estimate.rates, estimate.work, estimate.plates
        ).sum()
        units = estimate.shop.shown
        heading, words = f"Our steel charged, {units.unit('kg')}", steel_charged_words(estimate)
        formula = self.lines.sum("steel_charged_kg")
        charged = units.number(float(charged_kg), "kg")
        return self._short(row, heading, formula, charged, "#,##0", words.partition(" (")[2].removesuffix(")"))

    def _gas(self, row: int) -> int:
        job, rates = self.estimate.job, self.estimate.rates
        for key, gas, used in (
            ("oxygen", rates.oxygen, job.drawn_oxygen_m3),
            ("fuel", rates.fuel, job.drawn_fuel_m3),
        ):
            usable = gas.usable_m3
            words = f"{bottles_words(used, usable)} of {gas.cylinder}" if np.isfinite(usable) else "by pipe"
            unit = self.lines.cells.of("m³", key)
            heading = f"{gas.gas.capitalize()}, {unit.unit}"
            row = self._short(row, heading, unit.name(f"{key}_used_m3"), unit.shown(used), "#,##0.00", words)
        return row

    def not_in_it(self, row: int) -> int:
        self.page.heads(row, "What is not in it")
        said = _not_in_it(self.estimate)
        for text in said:
            row = self.page.say(row + 1, text, Look.TEXT) - 1
        warnings = sum(1 for p in self.estimate.problems if p.level is Level.WARNING)
        notes = sum(1 for p in self.estimate.problems if p.level is Level.NOTE)
        row += 1
        if self.estimate.problems:
            said = f"{_counted(warnings, 'warning')} and {_counted(notes, 'note')}: see Problems"
            self.page.sheet.jump(row, 0, SHEETS.problems, "A1", said)
        else:
            self.page.sheet.text(row, 0, "No warnings.", Look.TEXT)
        return row + 2


def _setup_formula(rows: Sequence[JobRow]) -> str:
    """Return the words of ``setup_words`` as a formula over the job's rows, in the order when computed."""
    said = []
    for index, part in enumerate(setup_parts(rows)):
        before, after = (", ", "") if index else ("", '&" min"')
        said.append(f'"{before}{part.what} "&TEXT({minutes_formula(part.rows)},"0"){after}')
    return "&".join([*said, '"; + "&TEXT(rest_allowance*100,"0")&" % rest"'])


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" + ("" if number == 1 else "s")


def _band_words(row: int) -> str:
    bands = table("sense_bands")
    low, high = float(bands.column("low")[row]), float(bands.column("high")[row])
    return f"{bands.column('who')[row]} {low * 100:.0f} to {high * 100:.0f} %"


def _not_in_it(estimate: Estimate) -> Sequence[str]:
    shop = estimate.shop.shop
    said = [shop.not_included.capitalize() + "." if shop.not_included else ""]
    steel = estimate.cuts.steel
    if np.any(steel == Steel.THEIRS):
        said.append("Steel of some lines is the customer's own.")
    if np.any(steel == Steel.EXCLUDED):
        said.append("Steel of some lines is excluded.")
    said += _open_work(estimate.problems)
    if estimate.incomplete:
        rows = ", ".join(f"{place.sheet} row {place.row}" for place in estimate.unpriced[:12])
        more = len(estimate.unpriced) - 12
        said.append(f"Rows without a price: {rows}" + (f" and {more} more." if more > 0 else "."))
    return [text for text in said if text]


def _open_work(problems: Sequence[Problem]) -> list[str]:
    """Say what the list's own words ask for and no cell prices, each work once with its rows."""
    rows: dict[str, list[str]] = {}
    for problem in problems:
        if concern_of(problem) is Concern.MISSING and problem.place.row:
            rows.setdefault(problem.fact, []).append(f"row {problem.place.row}")
    most = 12
    return [
        f"{', '.join(at[:most])}{f' and {len(at) - most} more' if len(at) > most else ''}: {fact}."
        for fact, at in rows.items()
    ]
