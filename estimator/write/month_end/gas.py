"""The gas of each month: counted, delivered, used, explained by the work; and the months together."""

from __future__ import annotations

from math import hypot

from estimator.pricing.gas_balance import Explanation, GasVerdict, smallest_seen
from estimator.pricing.gas_used import GasUsed
from estimator.pricing.month_end import Month
from estimator.pricing.month_report import MonthReport
from estimator.pricing.own_ratio import OwnRatio
from estimator.shown_units import ShownUnits
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.month_end.sheets import GAS, MONTHS, across, headings, open_sheet
from estimator.write.month_end.words import month_name, month_verdict
from estimator.write.styles import CHART_COLOURS, Look

__all__ = ["write_gas", "write_months"]

_USED = (
    "Days between the counts",
    "Gas",
    "On the rack before",
    "Delivered",
    "On the rack after",
    "Sent back",
    "Used",
    "Standard uncertainty",
)
_EXPLAINED = (
    "Days between the counts",
    "Gas",
    "Used",
    "The work needs",
    "Pilot, purge, leak as stated",
    "Own months against the model",
    "Explained",
    "Standard uncertainty",
    "More than explained",
    "Real beyond",
    "Verdict",
    "Gas lost, as measured",
    "Smallest loss seen",
)
_TAGGED = (
    "On the torch",
    "Gas",
    "Cylinder",
    "Given",
    "Standard uncertainty",
    "Its jobs explain",
    "Standard uncertainty",
    "More than explained",
    "Real beyond",
    "Verdict",
    "Jobs between",
)
_WIDTHS = (25, 12, 11, 11, 11, 11, 12, 12, 11, 11, 15, 12, 12)
_M3 = "0.00_)"
_AT = "All amounts in {unit}; a cubic metre is one at 15 °C and 101.325 kPa."
_AT_INCH = "All amounts in {unit}; a cubic foot is one at 70 °F and 1 atm."


def write_gas(book: OutputBook, report: MonthReport) -> None:
    """Write what was used, then what the work explains of it."""
    sheet = book.sheet(GAS)
    units = report.units
    gases = dict.fromkeys(used.gas for month in report.done.months for used in month.used)
    at = (_AT_INCH if units.inch else _AT).format(unit=units.gas_units(gases))
    open_sheet(sheet, "Did the work use the gas?", at, _WIDTHS)
    across(sheet, 3, "What left the cylinders: before + delivered - after - sent back", Look.SUBTITLE, len(_USED))
    headings(sheet, 4, _USED)
    row = 5
    used_at: dict[tuple[int, str], int] = {}
    for number, month in enumerate(report.done.months):
        for used in month.used:
            _used(sheet, row, month, used, units)
            used_at[number, used.gas] = row
            row += 1
    row = _explained(sheet, report, row + 1, used_at)
    for month in report.done.months:
        look = Look.LABEL if month.explanation in (None, Explanation.EXPLAINED) else Look.STOP
        across(sheet, row, f"{month_name(month)}: {month_verdict(month)}", look, len(_USED))
        row += 1
    sheet.text(row, 0, _advice(report), Look.GUIDE)
    row = _tagged(sheet, report, row + 2) if report.spans else row
    sheet.set_up_page(last_row=row, last_column=len(_EXPLAINED) - 1, landscape=True)


def _advice(report: MonthReport) -> str:
    if not report.has_log:
        return "A work log would say here whether the work explains the gas."
    return (
        "Gas lost as measured may replace the share in the shop book once the bills are right and the log is whole: "
        "quote and month end use the same figure."
    )


def _used(sheet: BookSheet, row: int, month: Month, used: GasUsed, units: ShownUnits) -> None:
    """Write one gas of a month."""
    each = units.gas(1.0, used.gas)
    sheet.text(row, 0, month_name(month), Look.LABEL)
    sheet.text(row, 1, units.gas_named(used.gas))
    for column, amount in enumerate((used.opening, used.delivered, used.closing, used.sent_back), 2):
        sheet.number(row, column, amount.amount_m3 * each, Look.WORKED, _M3)
    before, came, after, back = (a1(row, column) for column in range(2, 6))
    sheet.worked(row, 6, f"={before}+{came}-{after}-{back}", used.used_m3 * each, Look.LABEL, _M3)
    sheet.number(row, 7, used.doubt_m3 * each, Look.WORKED, _M3)


def _explained(sheet: BookSheet, report: MonthReport, row: int, used_at: dict[tuple[int, str], int]) -> int:
    """Write what the work explains; return the row below."""
    if not any(month.verdicts for month in report.done.months):
        return row
    across(sheet, row, "What the logged work explains", Look.SUBTITLE, len(_EXPLAINED))
    headings(sheet, row + 1, _EXPLAINED, lines=3)
    row += 2
    for number, month in enumerate(report.done.months):
        for verdict in month.verdicts:
            _verdict(sheet, row, month, verdict, used_at[number, verdict.gas], report.units)
            row += 1
    return row + 1


def _verdict(sheet: BookSheet, row: int, month: Month, verdict: GasVerdict, used_row: int, units: ShownUnits) -> None:
    """Write what the work explains of one gas."""
    expected = month.expected
    if expected is None:
        return
    each = units.gas(1.0, verdict.gas)
    work, loss = (amount * each for amount in (expected.work_m3(verdict.gas), expected.loss_m3(verdict.gas)))
    c = [a1(row, column) for column in range(len(_EXPLAINED))]
    sheet.text(row, 0, month_name(month), Look.LABEL)
    sheet.text(row, 1, units.gas_named(verdict.gas))
    sheet.worked(row, 2, f"={a1(used_row, 6)}", verdict.used_m3 * each, number=_M3)
    sheet.number(row, 3, work, Look.WORKED, _M3)
    sheet.number(row, 4, loss, Look.ASSUMED, _M3)
    learned = month.learned.get(verdict.gas, OwnRatio())
    sheet.number(row, 5, learned.ratio, Look.WORKED, "0.000_)")
    sheet.worked(row, 6, f"=({c[3]}+{c[4]})*{c[5]}", verdict.expected_m3 * each, Look.LABEL, _M3)
    sheet.number(row, 7, verdict.expected_doubt_m3 * each, Look.WORKED, _M3)
    sheet.worked(row, 8, f"={c[2]}-{c[6]}", verdict.difference_m3 * each, Look.LABEL, _M3)
    both = hypot(verdict.used_doubt_m3, verdict.expected_doubt_m3)
    factor = verdict.limit_m3 / both if both else 0.0
    limit = f"={factor!r}*SQRT({a1(used_row, 7)}^2+{c[7]}^2)"
    sheet.worked(row, 9, limit, verdict.limit_m3 * each, number=_M3)
    said = "explained" if verdict.explained else "not explained"
    look = Look.WORKED if verdict.explained else Look.STOP
    sheet.worked(row, 10, f'=IF(ABS({c[8]})<={c[9]},"explained","not explained")', said, look)
    lost = month.lost_share(verdict.gas)
    if lost is not None:
        sheet.worked(row, 11, f"={c[2]}/{c[3]}-1", lost, number="0%")
        sheet.number(row, 12, smallest_seen(verdict), Look.WORKED, "0%")


def _tagged(sheet: BookSheet, report: MonthReport, row: int) -> int:
    """Write the tagged cylinders against the jobs between their dates; return the last row."""
    across(sheet, row, "Cylinder by cylinder, from the tags", Look.SUBTITLE, len(_EXPLAINED))
    headings(sheet, row + 1, _TAGGED, lines=3)
    row += 1
    for span in report.spans:
        row += 1
        tag, one = span.tag, span.verdict
        c = [a1(row, column) for column in range(len(_TAGGED))]
        sheet.text(row, 0, f"{tag.date_on} to {tag.date_off}", Look.LABEL)
        sheet.text(row, 1, report.units.gas_named(tag.gas))
        sheet.text(row, 2, " ".join(filter(None, (tag.size, tag.cylinder))), wrap=True)
        each = report.units.gas(1.0, tag.gas)
        values = (one.used_m3, one.used_doubt_m3, one.expected_m3, one.expected_doubt_m3)
        for column, value in enumerate(values, 3):
            sheet.number(row, column, value * each, Look.WORKED, _M3)
        sheet.worked(row, 7, f"={c[3]}-{c[5]}", one.difference_m3 * each, Look.LABEL, _M3)
        both = hypot(one.used_doubt_m3, one.expected_doubt_m3)
        factor = one.limit_m3 / both if both else 0.0
        sheet.worked(row, 8, f"={factor!r}*SQRT({c[4]}^2+{c[6]}^2)", one.limit_m3 * each, number=_M3)
        said = "explained" if one.explained else "not explained"
        look = Look.WORKED if one.explained else Look.STOP
        sheet.worked(row, 9, f'=IF(ABS({c[7]})<={c[8]},"explained","not explained")', said, look)
        jobs = ", ".join(span.jobs)
        sheet.text(row, 10, jobs, wrap=True)
        sheet.fit_row(row, ((jobs, _WIDTHS[10]), (f"{tag.size} {tag.cylinder}", _WIDTHS[2])))
    return row


def write_months(book: OutputBook, report: MonthReport) -> None:
    """Write the months together, gas by gas, with a chart of use against hours."""
    if not report.trends:
        return
    sheet = book.sheet(MONTHS)
    open_sheet(
        sheet,
        "Over the months",
        "A fixed part above zero is gas that went without work. The running sums alarm above 4.",
        (18, 14, 12, 12, 14, 14),
    )
    row = 3
    for trend in report.trends:
        sheet.text(row, 0, trend.gas, Look.SUBTITLE)
        each, unit = report.units.gas(1.0, trend.gas), report.units.gas_unit(trend.gas)
        used_and_wanted = (f"Used {unit}", f"Explained {unit}")
        headings(sheet, row + 1, ("Month", "Torch-lit hours", *used_and_wanted, "Running sum, more", "less"))
        first = row + 2
        rows = zip(trend.hours, trend.used_m3, trend.expected_m3, trend.summed.up, trend.summed.down, strict=True)
        for at, (hours, used, wanted, up, down) in enumerate(rows, first):
            sheet.number(at, 0, at - first + 1, Look.LABEL)
            for column, value in enumerate((hours, used * each, wanted * each), 1):
                sheet.number(at, column, value, Look.WORKED, "0.0")
            for column, value in enumerate((float(up), float(down)), 4):
                sheet.number(at, column, value, Look.CAUTION if value > 4 else Look.WORKED, "0.0")
        last = first + len(trend.hours) - 1
        line = trend.line
        said = f"No line through these months: {trend.refused}."
        if line is not None:
            fixed, low, high = (f"{one * each:.1f}" for one in (line.fixed, line.fixed_low, line.fixed_high))
            said = (
                f"{line.variable * each:.2f} {unit} a torch-lit hour, {fixed} {unit} a month without work "
                f"(95 %: {low} to {high} {unit}). {' '.join(line.warnings)}"
            )
        sheet.text(last + 1, 0, said, Look.LABEL)
        chart = book.add_chart({"type": "scatter"})
        chart.add_series(
            {
                "name": f"{trend.gas} used",
                "categories": [MONTHS, first, 1, last, 1],
                "values": [MONTHS, first, 2, last, 2],
                "marker": {"type": "circle", "size": 7, "fill": {"color": CHART_COLOURS[0]}},
            }
        )
        chart.set_x_axis({"name": "torch-lit hours", "min": 0})
        chart.set_y_axis({"name": f"{unit} used", "min": 0})
        chart.set_legend({"none": True})
        chart.set_size({"width": 560, "height": 260})
        sheet.insert_chart(last + 3, 0, chart, {"description": f"Use of {trend.gas} against torch-lit hours"})
        row = last + 18
    sheet.set_up_page(last_row=row, last_column=5)
