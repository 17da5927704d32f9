"""The build-up of the price: from the parts of the cost to the total, in the order of the page, each step named."""

from __future__ import annotations

from dataclasses import dataclass

from estimator.pricing.build_up import COST_PARTS
from estimator.pricing.job import Estimate
from estimator.write.book import OutputBook
from estimator.write.estimate.line_money import PART_HEADINGS
from estimator.write.estimate.live_table import LiveTables
from estimator.write.estimate.look_of_numbers import SHEETS, NumberFormats
from estimator.write.estimate.page import Page
from estimator.write.styles import Look

__all__ = ["write_build_up"]

_WIDTHS = (34.0, 16.0, 14.0, 52.0)
_ROW_PARTS = ("gas", "labour", "rent", "add_on", "overhead")


@dataclass(frozen=True, slots=True)
class _Step:
    name: str
    """Name of the cell in formulas."""
    what: str
    formula: str
    minor: int
    how: str
    look: Look = Look.WORKED


def write_build_up(book: OutputBook, estimate: Estimate, lines: LiveTables, formats: NumberFormats) -> None:
    """Write the sheet and name its amounts.

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
    page = Page(book, SHEETS.build_up, _WIDTHS, live=lines.live, figures=(1, 2))
    page.title("How the price is built up")
    row = 2
    for title, steps in (("Cost", _cost_steps(estimate, lines)), ("Price", _price_steps(estimate, lines))):
        page.heads(row, title, estimate.shop.shop.currency, "Of net price", "How")
        for step in steps:
            row += 1
            _write_step(page, row, step, estimate, formats)
        row += 2
    row = _write_earned(page, row, estimate, formats)
    page.sheet.set_up_page(last_row=row, last_column=len(_WIDTHS) - 1)


def _write_step(page: Page, row: int, step: _Step, estimate: Estimate, formats: NumberFormats) -> None:
    net = estimate.totals.taxable
    share = step.minor / net if net else 0.0
    page.sheet.text(row, 0, step.what, Look.TOTAL if step.look is Look.TOTAL else Look.LABEL)
    page.named(step.name, row, 1, step.formula, step.minor / 10.0**formats.decimals, formats.money, step.look)
    page.figure(row, 2, f"IF(net_price=0,0,{step.name}/net_price)", share, formats.share, step.look)
    page.words(row, 3, step.how)


def _cost_steps(estimate: Estimate, lines: LiveTables) -> list[_Step]:
    totals = estimate.totals
    how = {
        "gas": lines.cells.words("cubic metres x cost at the torch, gas lost and lighting with it"),
        "labour": "man-minutes ÷ 60 x rate",
        "consumables": "price of a tip x flame hours ÷ its life; discs, drills and blades",
        "rent": "month's rental ÷ flame hours of a month x flame hours",
        "steel": "steel bought x price, less scrap; ours only",
        "add_on": "percentages on one class of cost, all on one base",
        "overhead": "per man-hour and on direct cost",
    }
    steps = []
    for part in COST_PARTS:
        terms = [lines.sum(f"{part}_cost")] if lines.has(f"{part}_cost") else []
        terms += [f"SUM(row_{part}_cost)"] if part in _ROW_PARTS else []
        formula = "+".join(terms) or "0"
        steps.append(_Step(f"{part}_total", PART_HEADINGS[part], formula, totals.parts[part], how[part]))
    whole = "+".join(f"{part}_total" for part in COST_PARTS)
    return [*steps, _Step("cost_total", "Cost", whole, totals.cost, "lines and rows of the job", Look.TOTAL)]


def _price_steps(estimate: Estimate, lines: LiveTables) -> list[_Step]:
    t, tax = estimate.totals, estimate.shop.shop.tax_name
    off = lines.sum("break_off") if estimate.shop.breaks else "0"
    minimum = "MAX(minimum_job-(lines_total+rows_total-break_total+rush_total-discount_total),0)"
    return [
        _Step("lines_total", "Lines", lines.sum("price"), t.lines, "price each x quantity, minimum per line with it"),
        _Step("rows_total", "Rows of the job", "SUM(row_price)", t.job_rows, "set-up, lighting, changes, site"),
        _Step("break_total", "Quantity breaks, taken off", off, t.quantity_break, "by the mark's total quantity"),
        _Step(
            "rush_total",
            "Rush",
            "ROUND((lines_total+rows_total-break_total)*rush,decimals)",
            t.rush,
            "on lines and rows",
        ),
        _Step(
            "discount_total",
            "Discount, taken off",
            "ROUND((lines_total+rows_total-break_total+rush_total)*discount,decimals)",
            t.discount,
            "on the whole job",
        ),
        _Step("minimum_total", "Minimum per job adds", minimum, t.minimum_top_up, "after discount, before delivery"),
        _Step("delivery_total", "Delivery", "ROUND(delivery,decimals)", t.delivery, "as typed"),
        _Step(
            "net_price",
            "Net price",
            "lines_total+rows_total-break_total+rush_total-discount_total+minimum_total+delivery_total",
            t.taxable,
            f"before {tax.lower()}",
            Look.TOTAL,
        ),
        _Step("tax_total", tax, "ROUND(net_price*tax,decimals)", t.tax, "on the net price, rounded once"),
        _Step("job_total", "Total", "net_price+tax_total", t.total, "what the customer pays", Look.TOTAL),
    ]


def _write_earned(page: Page, row: int, estimate: Estimate, formats: NumberFormats) -> int:
    """Write what is earned over cost, as markup and as margin; return the last row."""
    t = estimate.totals
    sold = t.taxable - t.delivery
    over = sold - t.cost
    page.heads(row, "What is left", estimate.shop.shop.currency, "", "How")
    markup, margin = over / t.cost if t.cost else 0.0, over / sold if sold else 0.0
    rows = (
        ("earned", "Earned over cost", "net_price-delivery_total-cost_total", over / 10.0**formats.decimals),
        ("earned_markup", "As markup on cost", "IF(cost_total=0,0,earned/cost_total)", markup),
        (
            "earned_margin",
            "As margin of price",
            "IF(net_price-delivery_total=0,0,earned/(net_price-delivery_total))",
            margin,
        ),
    )
    hows = ("net price less delivery and cost", "of the cost", "of the net price without delivery")
    for (name, what, formula, value), how in zip(rows, hows, strict=True):
        row += 1
        page.sheet.text(row, 0, what, Look.LABEL)
        page.named(name, row, 1, formula, value, formats.money if name == "earned" else formats.share)
        page.words(row, 3, how)
    return row
