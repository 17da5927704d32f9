"""The sheets that say how far to trust the rest: problems, checks, sources."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from estimator import __version__
from estimator.pricing.build_up import COST_PARTS
from estimator.pricing.job import Estimate
from estimator.problems import Level
from estimator.reference import sources
from estimator.write.book import OutputBook, a1
from estimator.write.estimate.live_table import LiveTables
from estimator.write.estimate.look_of_numbers import SHEETS, NumberFormats
from estimator.write.estimate.page import Page
from estimator.write.styles import Look

__all__ = ["write_checks", "write_problems", "write_sources"]

_LONGEST_FOUND = 90
"""Letters of what was found that are shown; the rest stands in the list itself."""
_SHOWN_PROBLEMS = 2_000
_LOOKS = {Level.ERROR: Look.STOP, Level.WARNING: Look.CAUTION, Level.NOTE: Look.TEXT}


def write_problems(book: OutputBook, estimate: Estimate, lines: LiveTables) -> None:
    """Write every problem of the list and the job, with a link to its line where it has one.

    Parameters
    ----------
    book : OutputBook
        The workbook that is being written.
    estimate : Estimate
        The priced job.
    lines : LiveTables
        The columns of the lines, placed.
    """
    widths = (9.0, 8.0, 17.0, 34.0, 18.0, 30.0, 30.0, 34.0)
    page = Page(book, SHEETS.problems, widths, live=lines.live)
    page.title("Problems, warnings and notes")
    page.heads(2, "Level", "Code", "Where", "What is the matter", "Found", "Needs", "Why", "What to do")
    cuts = estimate.cuts
    row_of = {(sheet, int(row)): line for line, (sheet, row) in enumerate(zip(cuts.sheet, cuts.row, strict=True))}
    row = 2
    for problem in estimate.problems[:_SHOWN_PROBLEMS]:
        row += 1
        place = problem.place
        page.sheet.text(row, 0, problem.level, _LOOKS[problem.level])
        page.sheet.text(row, 1, problem.code, Look.TEXT)
        line = row_of.get((place.sheet, place.row))
        if line is None:
            page.sheet.text(row, 2, str(place), Look.TEXT, wrap=True)
        else:
            _, at, column = lines.address("mark", line)
            page.sheet.jump(row, 2, SHEETS.lines, a1(at, column), str(place))
        found = problem.found if len(problem.found) <= _LONGEST_FOUND else problem.found[:_LONGEST_FOUND] + "…"
        texts = (
            problem.fact,
            found,
            problem.needs,
            problem.why,
            problem.do,
        )
        for column, text in enumerate(texts, 3):
            page.sheet.text(row, column, text, Look.TEXT, wrap=True)
        page.sheet.fit_row(row, zip((str(place), *texts), widths[2:], strict=True))
    if not estimate.problems:
        row = page.say(3, "None.") - 1
    left = len(estimate.problems) - _SHOWN_PROBLEMS
    if left > 0:
        row = page.say(row + 1, f"{left} more stand in the output of --json.", Look.CAUTION) - 1
    page.sheet.freeze_panes(3, 0)
    page.sheet.set_up_page(last_row=row, last_column=len(widths) - 1, headings=(2, 2), landscape=True)


@dataclass(frozen=True, slots=True)
class _Check:
    what: str
    formula: str
    must_be: str
    """Formula of what it must be."""
    value: float
    number: str


def write_checks(book: OutputBook, estimate: Estimate, lines: LiveTables, formats: NumberFormats) -> None:
    """Write the workbook's checks of itself: each a figure, what it must be, and whether it is.

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
    """
    widths = (58.0, 16.0, 16.0, 12.0)
    page = Page(book, SHEETS.checks, widths, live=lines.live, figures=(1, 2))
    page.title("Checks")
    page.heads(2, "What is checked", "Found", "Must be", "Result")
    row = 2
    for check in _checks(estimate, lines, formats):
        row += 1
        page.sheet.text(row, 0, check.what, Look.TEXT, wrap=True)
        page.figure(row, 1, check.formula, check.value, check.number)
        page.figure(row, 2, check.must_be, check.value, check.number)
        same = f"ROUND({a1(row, 1)}-{a1(row, 2)},exact_digits)=0"
        page.figure(row, 3, f'IF({same},"ok","LOOK")', "ok")
        page.sheet.fit_row(row, [(check.what, widths[0])])
    row = _write_counts(page, row + 2, estimate)
    page.sheet.set_up_page(last_row=row, last_column=len(widths) - 1)


def _checks(estimate: Estimate, lines: LiveTables, formats: NumberFormats) -> list[_Check]:
    t, minor, money = estimate.totals, 10.0**formats.decimals, formats.money
    parts = "+".join(lines.sum(f"{part}_cost") for part in COST_PARTS if lines.has(f"{part}_cost"))
    lines_cost = float(estimate.lines.cost.sum()) / minor
    top_up = [lines.sum("top_up")] if estimate.shop.shop.minimum_line > 0 else []
    amounts = "+".join([lines.sum("amount"), *top_up])
    errors = "+".join(f"SUMPRODUCT(ISERROR({lines.range(name)})*1)" for name in ("cost", "price", "paid_time_min"))
    x, rows = estimate.job.lines, estimate.rows.rows
    fuel = float(np.sum(x.fuel_m3 + x.lost_fuel_m3)) + sum(r.fuel_m3 + r.lost_fuel_m3 for r in rows)
    of_lines = [lines.sum(name) for name in ("fuel_m3", "lost_fuel_m3") if lines.has(name)]
    unit = lines.cells.of("m³", "fuel")
    fuel_used = unit.name("fuel_used_m3")
    fuel_sum = "+".join([*of_lines, *(f"SUM(row_{unit.name(name)})" for name in ("fuel_m3", "lost_fuel_m3"))])
    priced, asked = f"COUNT({lines.range('price')})", f"COUNT({lines.range('quantity')})"
    total, count = t.total / minor, float(len(estimate.cuts))
    with_rows = f"{lines.sum('cost')}+SUM(row_cost)"
    mine = "Total as the engine computed it (LOOK where you changed a figure)"
    return [
        _Check("Printed parts of the lines add to their cost", parts, lines.sum("cost"), lines_cost, money),
        _Check("Lines and rows of the job add to the cost", with_rows, "cost_total", t.cost / minor, money),
        _Check("Amounts and minimums add to the price of the lines", amounts, "lines_total", t.lines / minor, money),
        _Check("Net price and tax add to the total", "net_price+tax_total", "answer_total", total, money),
        _Check("Fuel of lines and rows adds to the Gas sheet", fuel_sum, fuel_used, unit.shown(fuel), formats.volume),
        _Check("Cells with an error", errors, "0", 0.0, "0"),
        _Check("Lines priced", priced, asked, count, "0"),
        _Check("Rates and prices changed since the job was computed", "changed_rates", "0", 0.0, "0"),
        _Check(mine, "job_total", "engine_total", total, money),
    ]


def _write_counts(page: Page, row: int, estimate: Estimate) -> int:
    """Write what became of every row of the list; return the last row."""
    page.heads(row, "Rows of the list", "Rows", "", "")
    for counted in estimate.cuts.counts:
        row += 1
        page.sheet.text(row, 0, f"Sheet {counted.sheet}", Look.LABEL)
        page.sheet.number(row, 1, counted.rows, Look.LABEL, "0")
        for kind, number in counted.by_kind.items():
            row += 1
            page.sheet.text(row, 0, f"   {kind}", Look.TEXT)
            page.sheet.number(row, 1, number, Look.TEXT, "0")
    row += 1
    page.sheet.text(row, 0, "Total that the engine computed", Look.LABEL)
    page.sheet.number(row, 1, estimate.totals.total / 10.0**estimate.shop.shop.decimals, Look.TEXT, "#,##0.00##")
    page.book.name_cell("engine_total", SHEETS.checks, row, 1)
    return row


def write_sources(book: OutputBook, estimate: Estimate) -> None:
    """Write what the workbook was made from: engine, files with their fingerprints, and every source of the figures.

    Parameters
    ----------
    book : OutputBook
        The workbook that is being written.
    estimate : Estimate
        The priced job.
    """
    widths = (30.0, 44.0, 24.0, 16.0, 14.0, 40.0)
    page = Page(book, SHEETS.sources, widths, live=False)
    page.title("What this rests on")
    shop = estimate.shop
    made = (
        ("Engine", f"kerfledger {__version__}"),
        ("Chart", "the shop's own where it has one, else built-in figures; each row's status is on the Rates sheet"),
        ("Cut list", f"{estimate.cuts.file}  SHA-256 {estimate.cuts.sha256}"),
        ("Shop book", f"{shop.file}  SHA-256 {shop.sha256}" if shop.file else "the built-in, invented example"),
        ("Cells", "yellow: typed; italic in a dotted box: assumed, source named; plain: worked out"),
    )
    row = 1
    for what, said in made:
        row += 1
        page.sheet.text(row, 0, what, Look.LABEL)
        page.sheet.text(row, 1, said, Look.TEXT)
    row += 2
    page.heads(row, "Source", "Title", "Body", "Edition", "Status", "Caution")
    first = row
    for source in sources().values():
        row += 1
        texts = (source.address or source.id, source.title, source.body, source.edition, source.status, source.caution)
        for column, text in enumerate(texts):
            page.sheet.text(row, column, text, Look.TEXT, wrap=True)
        page.sheet.fit_row(row, zip(texts, widths, strict=True))
    page.sheet.set_up_page(last_row=row, last_column=len(widths) - 1, headings=(first, first), landscape=True)
