"""Where the money went: each month's steps from the standard cost to the bills, and a native chart of them."""

from __future__ import annotations

from typing import Any

from estimator.pricing.bridge import BridgePart
from estimator.pricing.month_end import Month
from estimator.pricing.month_report import MonthReport
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.month_end.sheets import BRIDGE, across, headings, money_with_room, open_sheet
from estimator.write.month_end.words import gathered_steps, month_name
from estimator.write.styles import Look, series_fill

__all__ = ["write_money"]

_NAMES = ("Step", "Money", "Running total", "chart: unseen", "chart: more", "chart: less", "chart: totals")
_WIDTHS = (52, 13, 13, 12, 12, 12, 12)
_CHART_ROWS = 20


def write_money(book: OutputBook, report: MonthReport) -> None:
    """Write one table and one chart for each month, and the steps gas by gas below."""
    sheet = book.sheet(BRIDGE)
    guide = "Every step is worked out by itself; together they give the bills to the last coin."
    open_sheet(sheet, "Where the money went", guide, _WIDTHS)
    row = 3
    breaks = []
    for month in report.done.months:
        breaks.append(row)
        row = _month(book, sheet, report, month, row) + 2
    sheet.set_h_pagebreaks(breaks[1:])
    if not report.done.months:
        sheet.text(
            row, 0, "The rack was not counted twice: the steps need an opening and a closing count.", Look.CAUTION
        )
    sheet.set_up_page(last_row=row, last_column=len(_WIDTHS) - 1)


def _month(book: OutputBook, sheet: BookSheet, report: MonthReport, month: Month, row: int) -> int:
    across(sheet, row, month_name(month), Look.SUBTITLE, len(_NAMES))
    headings(sheet, row + 1, _NAMES)
    first = row + 2
    parts = gathered_steps(month)
    last = _table(sheet, report, parts, first)
    check = last + 1
    number, major = money_with_room(report.decimals), 10**report.decimals
    sheet.text(check, 0, "steps less bills: must be nothing", Look.GUIDE)
    sums = f"={a1(first, 1)}+SUM({a1(first + 1, 1)}:{a1(last - 1, 1)})-{a1(last, 1)}"
    off = (parts[0].minor + sum(part.minor for part in parts[1:-1]) - parts[-1].minor) / major
    sheet.worked(check, 1, f"=ROUND({sums[1:]},{report.decimals})", off, Look.WORKED, number)
    _chart(book, sheet, report, (first, last), check + 2)
    return _gas_by_gas(sheet, report, month, check + 3 + _CHART_ROWS)


def _table(sheet: BookSheet, report: MonthReport, parts: list[BridgePart], first: int) -> int:
    """Write the steps with what the chart stands on; return the last row."""
    number, major = money_with_room(report.decimals), 10**report.decimals
    running = 0
    for row, part in enumerate(parts, first):
        total = part.is_total
        look = Look.TOTAL if total else Look.WORKED
        sheet.text(row, 0, part.said, Look.TOTAL if total else Look.TEXT)
        sheet.number(row, 1, part.minor / major, look, number)
        before, running = running, part.minor if total else running + part.minor
        money, now, above = a1(row, 1), a1(row, 2), a1(row - 1, 2)
        sheet.worked(row, 2, f"={money}" if total else f"={above}+{money}", running / major, look, number)
        base, more, less, whole = _bars(part, before, running)
        formulas = (
            ("=0", "=0", "=0", f"={money}")
            if total
            else (f"=MIN({above},{now})", f"=MAX({money},0)", f"=MAX(-{money},0)", "=0")
        )
        for column, (formula, value) in enumerate(zip(formulas, (base, more, less, whole), strict=True), 3):
            sheet.worked(row, column, formula, value / major, Look.GUIDE, number)
    return first + len(parts) - 1


def _bars(part: BridgePart, before: int, after: int) -> tuple[int, int, int, int]:
    if part.is_total:
        return 0, 0, 0, part.minor
    return min(before, after), max(part.minor, 0), max(-part.minor, 0), 0


def _chart(book: OutputBook, sheet: BookSheet, report: MonthReport, rows: tuple[int, int], at: int) -> None:
    """Stack an unseen bar under each step, so that the steps hang between the totals."""
    chart = book.add_chart({"type": "bar", "subtype": "stacked"})
    first, last = rows
    unseen: dict[str, Any] = {"fill": {"none": True}}
    series = ((3, "", unseen), (6, "totals", series_fill(0)), (4, "more", series_fill(1)), (5, "less", series_fill(2)))
    for column, name, fill in series:
        chart.add_series(
            {
                "name": name or "under the bar",
                "categories": [BRIDGE, first, 0, last, 0],
                "values": [BRIDGE, first, column, last, column],
                **fill,
                "border": {"none": True} if fill is unseen else {"color": "#1A1A1A", "width": 0.5},
                "gap": 40,
            }
        )
    chart.set_legend({"none": True})
    money = f", {report.currency}" if report.currency else ""
    title = f"From the work's gas to the bills{money} (full: totals, lines: more, dots: less)"
    chart.set_title({"name": title, "name_font": {"size": 11}})
    chart.set_y_axis({"reverse": True, "num_font": {"size": 9}})
    chart.set_x_axis({"num_format": "#,##0", "major_gridlines": {"visible": True, "line": {"color": "#BFBFBF"}}})
    chart.set_size({"width": 900, "height": _CHART_ROWS * 20 - 10})
    sheet.insert_chart(at, 0, chart, {"description": "Steps from the cost of the work's gas to what the bills ask"})


def _gas_by_gas(sheet: BookSheet, report: MonthReport, month: Month, row: int) -> int:
    """Write the steps of each gas beside each other; return the row below."""
    gases = list(dict.fromkeys(part.gas for part in month.bridge.steps() if part.gas))
    if not gases:
        return row
    headings(sheet, row, ("The gas steps, gas by gas", *gases, "all gas"), lines=1)
    number, major = money_with_room(report.decimals), 10**report.decimals
    by_step: dict[str, dict[str, int]] = {}
    for part in month.bridge.steps():
        if part.gas:
            by_step.setdefault(part.said, {})[part.gas] = part.minor
    for said, of_gas in by_step.items():
        if not any(of_gas.values()):
            continue
        row += 1
        sheet.text(row, 0, said)
        for column, gas in enumerate(gases, 1):
            sheet.number(row, column, of_gas.get(gas, 0) / major, Look.WORKED, number)
        span = f"{a1(row, 1)}:{a1(row, len(gases))}"
        sheet.worked(row, len(gases) + 1, f"=SUM({span})", sum(of_gas.values()) / major, Look.LABEL, number)
    return row + 1
