"""The rack line by line: what each step takes, from which cylinder, what it leaves; a chart of each gas falling."""

from __future__ import annotations

from dataclasses import dataclass, replace

from estimator.pricing.rack.gas_plan import GasPlan
from estimator.pricing.rack.report import RackReport
from estimator.shown_units import ShownUnits
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.rack.words import shown_by
from estimator.write.styles import CHART_COLOURS, Look

__all__ = ["LINES", "LineColumns", "insert_charts", "write_lines"]

LINES = "Line by line"
_HEAD = 4
_M3, _FT3 = "0.000", "0.00"
_FIXED = (("Row", 6), ("Mark", 18), ("Work", 14), ("Tip", 9), ("Draw of fuel m³/h", 9), ("List", 18))
_AT = "Gas at 15 °C and 101.325 kPa, losses in it. Left: over what stays in at change-over."
_AT_INCH = "Gas at 70 °F and 1 atm, losses in it; the draw at 59 °F. Left: over what stays in at change-over."
_MARK = 1
_PER_GAS = (
    ("{gas} needed m³", 11),
    ("of that short m³", 10),
    ("{gas} left m³", 11),
    ("from", 16),
    ("changed at m³", 11),
)
_NEEDED, _SHORT, _LEFT, _FROM, _CHANGED = range(5)
_MARKED = 60
"""Steps up to which a chart marks each of them."""


@dataclass(frozen=True, slots=True)
class LineColumns:
    """Where the columns of one gas stand, for its chart."""

    gas: str
    first: int
    start_row: int
    last_row: int
    changes: bool
    unit: str
    """Of its volumes."""


def write_lines(book: OutputBook, report: RackReport) -> list[LineColumns]:
    """Write the sheet.

    Parameters
    ----------
    book : OutputBook
        Open for writing.
    report : RackReport
        The finished plan.

    Returns
    -------
    list of LineColumns
        One for each gas that comes in cylinders.
    """
    sheet = book.sheet(LINES)
    gases = [gas for gas in report.gases if not gas.piped]
    last_column = len(_FIXED) + len(_PER_GAS) * len(gases) - 1
    sheet.set_row(0, 26)
    sheet.text(0, 0, "The rack line by line", Look.TITLE)
    units = shown_by(report)
    sheet.text(1, 0, _AT_INCH if units.inch else _AT)
    sheet.text(
        2, 0, "Left = left before − needed + short. Lightings stand before the first line of their tip.", Look.GUIDE
    )
    of_fuel = [(heading.replace("m³/h", units.unit("m³/h")), width) for heading, width in _FIXED]
    per_gas = [
        (heading.format(gas=gas.gas.capitalize()).replace("m³", units.gas_unit(gas.gas)), width)
        for gas in gases
        for heading, width in _PER_GAS
    ]
    sheet.set_row(_HEAD, 45)
    for column, (heading, width) in enumerate([*of_fuel, *per_gas]):
        sheet.set_column(column, column, width)
        sheet.text(_HEAD, column, heading, Look.HEADING)
    start, last = _HEAD + 1, _HEAD + 1 + len(report.steps)
    sheet.text(start, _MARK, "start", Look.GUIDE)
    for place, step in enumerate(report.steps.each):
        row = start + 1 + place
        if step.row:
            sheet.number(row, 0, step.row, number="0")
        short = step.mark or f"row {step.row}"
        sheet.text(row, _MARK, short if step.row else f"light {step.tip}", Look.LABEL if step.row else Look.GUIDE)
        sheet.text(row, 2, step.what)
        sheet.text(row, 3, step.tip)
        sheet.number(row, 4, units.number(step.draw_m3_h, "m³/h"), Look.WORKED, "0.0" if units.inch else "0.00")
        sheet.text(row, 5, step.file)
    columns = []
    for place, gas in enumerate(gases):
        first = len(_FIXED) + place * len(_PER_GAS)
        at = LineColumns(gas.gas, first, start, last, False, units.gas_unit(gas.gas))
        columns.append(_write_gas(sheet, gas, at, units))
    sheet.freeze_panes(_HEAD + 1, 2)
    sheet.set_up_page(last_row=last, last_column=last_column, headings=(_HEAD, _HEAD), landscape=True)
    return columns


def insert_charts(book: OutputBook, sheet: BookSheet, columns: list[LineColumns], row: int) -> int:
    """Put the falling gases on a sheet, one chart below the other; return the row below them."""
    for place, one in enumerate(columns):
        chart = book.add_chart({"type": "line"})
        colour = CHART_COLOURS[0 if place == 0 else 3]
        steps = one.last_row - one.start_row
        marker = {"type": "circle", "size": 5, "fill": {"color": colour}, "border": {"color": colour}}
        chart.add_series(
            {
                "name": f"{one.gas} left, {one.unit}",
                "categories": [LINES, one.start_row, _MARK, one.last_row, _MARK],
                "values": [LINES, one.start_row, one.first + _LEFT, one.last_row, one.first + _LEFT],
                "line": {"color": colour, "width": 2.25},
                "marker": marker if steps <= _MARKED else {"type": "none"},
            }
        )
        if one.changes:
            chart.add_series(
                {
                    "name": "another cylinder from here on",
                    "categories": [LINES, one.start_row, _MARK, one.last_row, _MARK],
                    "values": [LINES, one.start_row, one.first + _CHANGED, one.last_row, one.first + _CHANGED],
                    "line": {"none": True},
                    "marker": {
                        "type": "diamond",
                        "size": 11,
                        "fill": {"color": "#000000"},
                        "border": {"color": "#000000"},
                    },
                }
            )
        chart.set_title({"name": f"{one.gas.capitalize()} on the rack, line by line", "name_font": {"size": 12}})
        chart.set_y_axis({"name": f"{one.unit} over what stays in", "min": 0, "num_format": "0.0"})
        chart.set_x_axis({"name": "mark, in the order of work", "num_font": {"size": 8, "rotation": -45}})
        chart.set_legend({"position": "top"})
        chart.set_size({"width": 940, "height": 300})
        sheet.insert_chart(row, 0, chart, {"description": f"{one.gas} left after each line"})
        row += 16
    return row


def _write_gas(sheet: BookSheet, gas: GasPlan, at: LineColumns, units: ShownUnits) -> LineColumns:
    """Write the columns of one gas; return them with whether its cylinder is changed on the way."""
    number, volume = _FT3 if units.inch else _M3, units.gas(1.0, gas.gas)
    sheet.number(at.start_row, at.first + _LEFT, gas.usable_m3 * volume, Look.LABEL, number)
    left, short = ((each * volume).tolist() for each in (gas.plan.left_after_line_m3, gas.plan.short_m3))
    use = (gas.use_m3 * volume).tolist()
    before = ""
    changes = False
    for place in range(at.last_row - at.start_row):
        row = at.start_row + 1 + place
        names = gas.step_sets[place]
        sheet.number(row, at.first + _NEEDED, use[place], Look.WORKED, number)
        if short[place] > 0:
            sheet.number(row, at.first + _SHORT, short[place], Look.STOP, number)
        above, cells = a1(row - 1, at.first + _LEFT), (a1(row, at.first + _NEEDED), a1(row, at.first + _SHORT))
        sheet.worked(row, at.first + _LEFT, f"=MAX({above}-{cells[0]}+{cells[1]},0)", left[place], number=number)
        sheet.text(row, at.first + _FROM, ", ".join(names))
        if names and before and names[-1] != before:
            sheet.worked(row, at.first + _CHANGED, f"={a1(row, at.first + _LEFT)}", left[place], number=number)
            changes = True
        before = names[-1] if names else before
    return replace(at, changes=changes)
