"""Where the answer turns: cost against use with its crossing points, and the ranking after one thing has changed."""

from __future__ import annotations

from estimator.pricing.comparison import Comparison
from estimator.write.book import BookSheet, OutputBook
from estimator.write.comparison_prices import PriceCells, money_format
from estimator.write.styles import CHART_COLOURS, Look

__all__ = ["CURVE", "WHAT_IF", "write_curve", "write_what_if"]

CURVE = "Cost against use"
WHAT_IF = "What would change it"
_MARKERS = ("circle", "square", "triangle", "diamond", "x", "star", "plus", "long_dash")
_DASHES = ("solid", "dash", "round_dot", "dash_dot", "long_dash", "square_dot", "long_dash_dot", "solid")
_FIRST = 4


def write_curve(book: OutputBook, comparison: Comparison, prices: PriceCells) -> None:
    """Write the cost of a month against use, its chart, and the points at which another choice is cheapest."""
    sheet = book.sheet(CURVE)
    names = _shown(comparison)
    gas = comparison.uses[0]
    sheet.set_column(0, 0, 14)
    sheet.set_column(1, len(names), 18)
    sheet.text(0, 0, "What a month costs when there is less or more work", Look.TITLE)
    sheet.text(1, 0, "Every gas grows in proportion, the draw stays; sizes and cylinders are chosen anew.", Look.GUIDE)
    sheet.worked(2, 0, f"={prices.stale}", "", Look.CAUTION)
    sheet.text(_FIRST - 1, 0, f"{gas.gas} m³ a month", Look.HEADING)
    number, major = money_format(comparison.money.decimals), 10**comparison.money.decimals
    for column, name in enumerate(names, 1):
        sheet.text(_FIRST - 1, column, name, Look.HEADING)
        for row, minor in enumerate(comparison.curve.by_mix_minor[name], _FIRST):
            if minor is not None:
                sheet.number(row, column, minor / major, Look.WORKED, number)
    for row, factor in enumerate(comparison.curve.factors, _FIRST):
        sheet.number(row, 0, gas.month_m3 * factor, Look.WORKED, "0.0")
    last = _FIRST + len(comparison.curve.factors) - 1
    turns = _turns(sheet, comparison, last + 2)
    _chart(book, sheet, comparison, len(names), last, turns)
    sheet.freeze_panes(_FIRST, 1)
    sheet.set_up_page(last_row=turns[1] + 24, last_column=max(len(names), 6), landscape=True)


def write_what_if(book: OutputBook, comparison: Comparison, prices: PriceCells) -> None:
    """Write the ranking after each change, and how far the leader's prices may move."""
    sheet = book.sheet(WHAT_IF)
    for column, width in enumerate((38, 44, 14, 12, 18)):
        sheet.set_column(column, column, width)
    sheet.text(0, 0, "What would change the answer", Look.TITLE)
    sheet.worked(1, 0, f"={prices.stale}", "", Look.CAUTION)
    headings = ("If", "then cheapest is", "a month", "the same?", "the present one costs")
    for column, heading in enumerate(headings):
        sheet.text(3, column, heading, Look.HEADING)
    number, major = money_format(comparison.money.decimals), 10**comparison.money.decimals
    for row, change in enumerate(comparison.changes, 4):
        sheet.text(row, 0, change.what, Look.LABEL)
        sheet.text(row, 1, change.leader, wrap=True)
        sheet.number(row, 2, change.leader_minor / major, Look.WORKED, number)
        sheet.text(row, 3, "yes" if change.same_leader else "no", Look.TEXT if change.same_leader else Look.CAUTION)
        if change.first_was_minor is not None:
            sheet.number(row, 4, change.first_was_minor / major, Look.WORKED, number)
    row = 5 + len(comparison.changes)
    for what, factor in (("gas price", comparison.price_rise), ("rent", comparison.rent_rise)):
        sheet.text(row, 0, f"It keeps the lead until its {what} rises by", Look.LABEL)
        if factor is None:
            sheet.text(row, 1, "more than 200 %")
        else:
            sheet.number(row, 1, factor - 1, Look.WORKED, "0.0%")
        row += 1
    sheet.freeze_panes(4, 1)
    sheet.set_up_page(last_row=row, last_column=len(headings) - 1, landscape=True)


def _shown(comparison: Comparison) -> list[str]:
    """Every supplier alone, and every mix that leads somewhere; the cheapest now first."""
    leading = {span.mix for span in comparison.spans}
    names = [m.name for m in comparison.mixes if len(m.plans) == 1 or m.name in leading]
    return (names + [name for name in leading if name not in names])[: len(CHART_COLOURS)]


def _turns(sheet: BookSheet, comparison: Comparison, row: int) -> tuple[int, int]:
    """Write the crossing points; return the first and last of their rows (the heading's row twice when none)."""
    gas = comparison.uses[0]
    sheet.text(row, 0, "Where it turns", Look.SUBTITLE)
    sheet.text(row + 1, 0, f"{gas.gas} m³ a month", Look.HEADING)
    sheet.text(row + 1, 1, "cost there", Look.HEADING)
    sheet.text(row + 1, 2, "cheapest from there", Look.HEADING)
    number, major = money_format(comparison.money.decimals), 10**comparison.money.decimals
    first = row + 2
    for at, span in enumerate(comparison.spans[1:], first):
        sheet.number(at, 0, gas.month_m3 * span.from_factor, Look.WORKED, "0.0")
        sheet.number(at, 1, span.from_minor / major, Look.WORKED, number)
        sheet.text(at, 2, span.mix)
    last = first + len(comparison.spans) - 2
    if last < first:
        sheet.text(first, 0, "It does not turn between a tenth of the present use and ten times.")
        return row + 1, row + 1
    return first, last


def _chart(
    book: OutputBook, sheet: BookSheet, comparison: Comparison, series: int, last: int, turns: tuple[int, int]
) -> None:
    chart = book.add_chart({"type": "scatter", "subtype": "straight"})
    for column in range(1, series + 1):
        chart.add_series(
            {
                "name": [CURVE, _FIRST - 1, column],
                "categories": [CURVE, _FIRST, 0, last, 0],
                "values": [CURVE, _FIRST, column, last, column],
                "line": {"color": CHART_COLOURS[column - 1], "width": 2, "dash_type": _DASHES[column - 1]},
                "marker": {"type": _MARKERS[column - 1], "size": 4, "fill": {"color": CHART_COLOURS[column - 1]}},
            }
        )
    if comparison.spans[1:]:
        chart.add_series(
            {
                "name": "turns here",
                "categories": [CURVE, turns[0], 0, turns[1], 0],
                "values": [CURVE, turns[0], 1, turns[1], 1],
                "line": {"none": True},
                "marker": {"type": "diamond", "size": 11, "border": {"color": "#000000"}, "fill": {"color": "#FFFFFF"}},
            }
        )
    gas = comparison.uses[0]
    chart.set_title({"name": "A month's cost against use", "name_font": {"size": 12}})
    chart.set_x_axis({"name": f"{gas.gas} m³ a month", "log_base": 10, "min": 1, "num_format": "0", "crossing": 1})
    chart.set_y_axis({"name": f"{comparison.currency} a month", "log_base": 10, "num_format": "0", "min": 10})
    chart.set_legend({"position": "bottom"})
    chart.set_size({"width": 900, "height": 440})
    sheet.insert_chart(turns[1] + 2, 0, chart, {"description": "Cost of a month against use, mix by mix"})
