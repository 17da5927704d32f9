"""Where the answer turns: cost against use with its crossing points, and the ranking after one thing has changed."""

from __future__ import annotations

from typing import Any

from estimator.pricing.comparison import Comparison
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.comparison_answer import stale_line
from estimator.write.comparison_prices import PriceCells, write_headings
from estimator.write.styles import CHART_COLOURS, Look, money_format

__all__ = ["CURVE", "WHAT_IF", "write_curve", "write_what_if"]

CURVE = "Cost against use"
WHAT_IF = "What would change it"
_MARKERS = ("circle", "square", "triangle", "diamond", "x", "star", "plus", "long_dash")
_DASHES = ("solid", "dash", "round_dot", "dash_dot", "long_dash", "square_dot", "long_dash_dot", "solid")
_TURNS = 4
"""Heading row of the crossing points."""
_CHART_ROWS = 26
_CHART_COLUMNS = 7
"""Columns that a chart lies over."""
_NEAR = 3.0
"""The chart of cost shows use up to this many times the present; the table shows all."""


def write_curve(book: OutputBook, comparison: Comparison, prices: PriceCells) -> None:
    """Write the cost of a month against use, its charts, and the points at which another choice is cheapest."""
    sheet = book.sheet(CURVE)
    names = _shown(comparison)
    sheet.set_column(0, 0, 14)
    sheet.set_column(1, 2 * len(names), 17)
    sheet.set_row(0, 26)
    sheet.text(0, 0, "What a month costs when there is less or more work", Look.TITLE)
    sheet.text(1, 0, "Every gas grows in proportion, the draw stays; sizes and cylinders are chosen anew.", Look.GUIDE)
    stale_line(sheet, 2, 2 * len(names), prices)
    turns = _turns(sheet, comparison)
    first = turns[1] + 2 + 2 * _CHART_ROWS
    last = _table(sheet, comparison, names, first)
    _cost_chart(book, sheet, comparison, len(names), (first, last), turns)
    _above_chart(book, sheet, comparison, len(names), (first, last), turns)
    sheet.set_h_pagebreaks([turns[1] + 2 + _CHART_ROWS, first - 2])
    sheet.set_up_page(last_row=last, last_column=max(2 * len(names), _CHART_COLUMNS), landscape=True)


def write_what_if(book: OutputBook, comparison: Comparison, prices: PriceCells) -> None:
    """Write the ranking after each change, and how far the leader's prices may move."""
    sheet = book.sheet(WHAT_IF)
    for column, width in enumerate((44, 56, 14, 12, 18)):
        sheet.set_column(column, column, width)
    sheet.set_row(0, 26)
    sheet.text(0, 0, "What would change the answer", Look.TITLE)
    stale_line(sheet, 1, 4, prices)
    write_headings(sheet, 3, ("If", "then cheapest is", "a month", "the same?", "the present one costs"), lines=2)
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
        said = "it keeps the lead up to 200 %" if factor is None else f"it loses the lead at + {factor - 1:.1%}"
        sheet.text(row, 0, f"If {comparison.best.name} alone raises its {what}", Look.LABEL, wrap=True)
        sheet.text(row, 1, said)
        row += 1
    sheet.freeze_panes(4, 1)
    sheet.set_up_page(last_row=row, last_column=4, landscape=True)


def _shown(comparison: Comparison) -> list[str]:
    """Every supplier alone, and every mix that leads somewhere; the cheapest now first."""
    leading = [span.mix for span in comparison.spans]
    names = [m.name for m in comparison.mixes if len(m.plans) == 1 or m.name in leading]
    return list(dict.fromkeys([*names, *leading]))[: len(CHART_COLOURS)]


def _month(comparison: Comparison) -> float:
    """Return what a month uses of the first gas, as it is shown."""
    gas = comparison.uses[0]
    return comparison.units.gas(gas.month_m3, gas.gas)


def _turns(sheet: BookSheet, comparison: Comparison) -> tuple[int, int]:
    """Write the crossing points; return the first and last of their rows."""
    gas = comparison.uses[0]
    headings = (f"{gas.gas} m³ a month", "a month costs", "cheapest from there on")
    write_headings(sheet, _TURNS, headings, lines=2, units=comparison.units, gases=(gas.gas,))
    number, major = money_format(comparison.money.decimals), 10**comparison.money.decimals
    for at, span in enumerate(comparison.spans, _TURNS + 1):
        sheet.number(at, 0, _month(comparison) * span.from_factor, Look.WORKED, "0.0")
        sheet.number(at, 1, span.from_minor / major, Look.WORKED, number)
        sheet.text(at, 2, span.mix)
    return _TURNS + 1, _TURNS + len(comparison.spans)


def _table(sheet: BookSheet, comparison: Comparison, names: list[str], first: int) -> int:
    gas, width = comparison.uses[0], len(names)
    headings = [f"{gas.gas} m³ a month", *names, *(f"{name}: above the cheapest" for name in names)]
    write_headings(sheet, first - 1, headings, lines=5, units=comparison.units, gases=(gas.gas,))
    number, major = money_format(comparison.money.decimals), 10**comparison.money.decimals
    for row, factor in enumerate(comparison.curve.factors, first):
        sheet.number(row, 0, _month(comparison) * factor, Look.WORKED, "0.0")
        costs = [comparison.curve.by_mix_minor[name][row - first] for name in names]
        least = min((cost for cost in costs if cost is not None), default=0)
        for column, cost in enumerate(costs, 1):
            if cost is not None:
                sheet.number(row, column, cost / major, Look.WORKED, number)
                formula = f"={a1(row, column)}/MIN({a1(row, 1)}:{a1(row, width)})-1"
                sheet.worked(row, column + width, formula, cost / least - 1 if least else 0.0, number="0.0%")
    return first + len(comparison.curve.factors) - 1


def _cost_chart(
    book: OutputBook,
    sheet: BookSheet,
    comparison: Comparison,
    width: int,
    rows: tuple[int, int],
    turns: tuple[int, int],
) -> None:
    chart = _lines(book, rows, range(1, width + 1), names_row=rows[0] - 1, shift=0)
    near = [s for s in comparison.spans[1:] if s.from_factor <= _NEAR]
    if near:
        chart.add_series(
            {
                "name": "another is cheapest from here on",
                "categories": [CURVE, turns[0] + 1, 0, turns[0] + len(near), 0],
                "values": [CURVE, turns[0] + 1, 1, turns[0] + len(near), 1],
                "line": {"none": True},
                "marker": {"type": "diamond", "size": 10, "border": {"color": "#000000"}, "fill": {"color": "#000000"}},
            }
        )
    gas = comparison.uses[0]
    unit = comparison.units.gas_unit(gas.gas)
    most = _month(comparison) * _NEAR
    dearest = [
        cost
        for costs in comparison.curve.by_mix_minor.values()
        for factor, cost in zip(comparison.curve.factors, costs, strict=True)
        if cost is not None and factor <= _NEAR
    ]
    chart.set_title({"name": "What a month costs", "name_font": {"size": 12}})
    chart.set_x_axis({"name": f"{gas.gas} {unit} a month", "min": 0, "max": round(most, -1), "num_format": "0"})
    top = round(max(dearest) / 10**comparison.money.decimals * 1.1, -1)
    chart.set_y_axis({"name": f"{comparison.currency} a month", "num_format": "0", "min": 0, "max": top})
    sheet.insert_chart(turns[1] + 2, 0, chart, {"description": "Cost of a month against use"})


def _above_chart(
    book: OutputBook,
    sheet: BookSheet,
    comparison: Comparison,
    width: int,
    rows: tuple[int, int],
    turns: tuple[int, int],
) -> None:
    chart = _lines(book, rows, range(width + 1, 2 * width + 1), names_row=rows[0] - 1, shift=width)
    gas = comparison.uses[0]
    unit = comparison.units.gas_unit(gas.gas)
    least = _month(comparison) * comparison.curve.factors[0]
    start = 10.0 ** int(f"{least:e}".split("e")[1])
    chart.set_title({"name": "How far above the cheapest", "name_font": {"size": 12}})
    name = f"{gas.gas} {unit} a month"
    axis = {"name": name, "log_base": 10, "min": start, "crossing": start, "num_format": "General"}
    chart.set_x_axis(axis)
    chart.set_y_axis({"name": "above the cheapest", "num_format": "0%", "min": 0})
    sheet.insert_chart(turns[1] + 2 + _CHART_ROWS, 0, chart, {"description": "Share above the cheapest against use"})


def _lines(book: OutputBook, rows: tuple[int, int], columns: range, *, names_row: int, shift: int) -> Any:
    chart = book.add_chart({"type": "scatter", "subtype": "straight_with_markers"})
    for index, column in enumerate(columns):
        colour = CHART_COLOURS[index]
        chart.add_series(
            {
                "name": [CURVE, names_row, column - shift],
                "categories": [CURVE, rows[0], 0, rows[1], 0],
                "values": [CURVE, rows[0], column, rows[1], column],
                "line": {"color": colour, "width": 2, "dash_type": _DASHES[index]},
                "marker": {"type": _MARKERS[index], "size": 4, "fill": {"color": colour}, "border": {"color": colour}},
            }
        )
    chart.set_legend({"position": "bottom"})
    chart.set_size({"width": 940, "height": 460})
    return chart
