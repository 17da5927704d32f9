"""The first sheet of a rack plan: the answer, the cylinders, how hard each tip pulls, what to order, the charts."""

from __future__ import annotations

from estimator.pricing.rack.gas_plan import GasPlan
from estimator.pricing.rack.report import RackReport
from estimator.quantities.draw_verdict import DrawLevel
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.plain_text import plain_text
from estimator.write.rack.line_sheet import LineColumns, insert_charts
from estimator.write.rack.words import (
    FIRST_WAYS_OUT,
    MANIFOLD_WORDS,
    call_list,
    gas_line,
    headline,
    list_names,
    propane_figures,
    shown_by,
    step_list,
    to_ft3,
)
from estimator.write.styles import Look

__all__ = ["PLAN", "place_plan", "write_plan"]

PLAN = "Plan"
_WIDTHS = (16, 11, 13, 11, 9, 11, 11, 14, 16, 30)
_LAST = len(_WIDTHS) - 1
_CYLINDERS = (
    "Cylinder",
    "Size",
    "Read by",
    "In it now m³",
    "± m³",
    "Used m³",
    "Left m³",
    "Stays in m³",
    "Used, left, stays, less now",
    "Runs down at",
)
_DRAWS = ("Tip", "Kind", "Work", "Draw m³/h", "ft³/h", "Limit m³/h", "ft³/h", "By", "On", "Full cylinders needed")
_LOOKS = {
    DrawLevel.WITHIN: Look.TEXT,
    DrawLevel.CAUTION: Look.TEXT,
    DrawLevel.WARNING: Look.CAUTION,
    DrawLevel.STOP: Look.STOP,
}


def place_plan(book: OutputBook) -> BookSheet:
    """Add the sheet in its place before the others; ``write_plan`` fills it when the lines are written."""
    return book.sheet(PLAN)


def write_plan(book: OutputBook, sheet: BookSheet, report: RackReport, lines: list[LineColumns]) -> None:
    """Fill the first sheet.

    Parameters
    ----------
    book : OutputBook
        Open for writing.
    sheet : BookSheet
        From ``place_plan``.
    report : RackReport
        The finished plan.
    lines : list of LineColumns
        Where the line-by-line sheet holds each gas, for the charts.
    """
    for column, width in enumerate(_WIDTHS):
        sheet.set_column(column, column, width)
    sheet.set_row(0, 26)
    sheet.text(0, 0, "Will the cylinders finish the work?", Look.TITLE)
    row = _paragraph(
        sheet, 1, f"{list_names(report)}; oxygen and {report.fuel}; torches at once: {report.steps.torches}."
    )
    if report.estimates[0].shop.is_example:
        row = _paragraph(sheet, row, "EXAMPLE SHOP: rack, sizes and prices are invented.", Look.CAUTION)
    if report.incomplete:
        row = _paragraph(sheet, row, "INCOMPLETE: rows or cylinders with problems are left out.", Look.STOP)
    bad = report.stop or not report.finishes
    row = _paragraph(sheet, row, headline(report), Look.STOP if bad else Look.LABEL)
    row += 1
    for gas in report.gases:
        row = _paragraph(sheet, row, gas_line(gas, shown_by(report)))
        if gas.cylinders and not gas.piped:
            row = _cylinders(sheet, report, gas, row)
        row += 1
    if report.draws:
        row = _draws(sheet, report, row) + 1
    for one in report.propane:
        draw, evaporates, air = propane_figures(one, shown_by(report))
        row = _paragraph(
            sheet,
            row,
            f"Tip {one.tip} draws {draw} of propane; in {one.cylinder_id} about {evaporates} evaporate at {air} and "
            "its present fill. Advisory: the supplier's figure decides.",
            Look.CAUTION if one.draw_kg_h > one.likely_kg_h else Look.TEXT,
        )
    sheet.text(row, 0, "The call to the supplier", Look.SUBTITLE)
    for line in call_list(report) or ["Nothing: all gas is piped."]:
        row = _paragraph(sheet, row + 1, line) - 1
    sheet.set_h_pagebreaks([row + 2])
    row = insert_charts(book, sheet, lines, row + 2)
    sheet.freeze_panes(1, 0)
    sheet.set_up_page(last_row=row, last_column=_LAST, landscape=True)


def _cylinders(sheet: BookSheet, report: RackReport, gas: GasPlan, row: int) -> int:
    sheet.set_row(row, 32)
    units = shown_by(report)
    volume = units.gas(1.0, gas.gas)
    for column, heading in enumerate(_CYLINDERS):
        sheet.text(row, column, heading.replace("m³", units.gas_unit(gas.gas)), Look.HEADING)
    for place, one in enumerate(gas.cylinders, row + 1):
        c = one.content
        sheet.text(place, 0, c.cylinder_id, Look.LABEL)
        sheet.text(place, 1, c.size)
        sheet.text(place, 2, str(c.how), Look.TEXT if str(c.how) in ("gauge", "weight") else Look.ASSUMED)
        for column, value in enumerate((c.now_m3, c.plus_minus_m3, one.used_m3, one.left_m3, c.heel_m3), 3):
            sheet.number(place, column, value * volume, Look.WORKED, "0.0" if units.inch else "0.000")
        parts = "+".join(a1(place, column) for column in (5, 6, 7))
        check = (one.used_m3 + one.left_m3 + c.heel_m3 - c.now_m3) * volume
        sheet.worked(place, 8, f"=ROUND({parts}-{a1(place, 3)},6)", round(check, 6) + 0.0, Look.GUIDE, "0.000")
        sheet.text(place, 9, step_list(report, one.dry_step), wrap=True)
    row += 1 + len(gas.cylinders)
    for one in gas.cylinders:
        row = _paragraph(sheet, row, f"{one.content.cylinder_id}: {one.content.read_as}", Look.GUIDE)
    return row


def _draws(sheet: BookSheet, report: RackReport, row: int) -> int:
    sheet.text(row, 0, "How hard each tip pulls acetylene", Look.SUBTITLE)
    row += 1
    sheet.set_row(row, 30)
    for column, heading in enumerate(_DRAWS):
        sheet.text(row, column, heading, Look.HEADING)
    for one in report.draws:
        row += 1
        look, limit = _LOOKS[one.verdict.level], one.verdict.limit_m3_h
        sheet.text(row, 0, one.tip, look if look is not Look.TEXT else Look.LABEL)
        sheet.text(row, 1, "heating" if one.is_heating else "cut, weld")
        sheet.text(row, 2, "continuous" if one.is_continuous else "intermittent")
        for column, value in ((3, one.draw_m3_h), (5, limit)):
            sheet.number(row, column, value, Look.WORKED, "0.00")
            sheet.number(row, column + 1, to_ft3(value), Look.WORKED, "0")
        sheet.text(row, 7, one.rule)
        sheet.text(row, 8, one.set_name or f"one {one.size}")
        sheet.text(row, 9, one.counts_words, wrap=True)
        sheet.fit_row(row, [(one.counts_words, _WIDTHS[9])])
    row = _paragraph(
        sheet,
        row + 1,
        "Limits of cutting and welding tips count on the rated content, those of heating tips on what is left now. "
        "Above 1/7 of a full cylinder nothing is lit; a heating tip stops at 1/10 of what is left, or at the "
        "supplier's written figure.",
        Look.GUIDE,
    )
    if any(one.verdict.level in (DrawLevel.STOP, DrawLevel.WARNING) for one in report.draws):
        row = _paragraph(sheet, row, f"{FIRST_WAYS_OUT} {MANIFOLD_WORDS}", Look.CAUTION)
    return row


def _paragraph(sheet: BookSheet, row: int, text: str, look: Look = Look.TEXT) -> int:
    """Write a text over the whole row, as high as it needs; return the row below."""
    sheet.merge_range(row, 0, row, _LAST, plain_text(text), sheet.styles.get(look, wrap=True))
    sheet.fit_row(row, [(text, sum(_WIDTHS))])
    return row + 1
