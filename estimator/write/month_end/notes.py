"""How the month end is worked out, and what could not be checked."""

from __future__ import annotations

from estimator.pricing.month_report import MonthReport
from estimator.write.book import OutputBook
from estimator.write.month_end.sheets import METHOD, UNCHECKED, across, headings, open_sheet
from estimator.write.styles import Look

__all__ = ["write_method", "write_unchecked"]

_METHOD = (
    (
        "Billed twice",
        "a second bill with the first one's lines; a gas line for a note whose cylinders are billed already",
        "",
    ),
    (
        "Price",
        "billed price against the agreed price in force on the day of delivery, in one unit and reference state",
        "",
    ),
    (
        "Unit and state",
        "the same number in another unit or at another temperature and pressure is looked for first",
        "by mass, one density table",
    ),
    ("Quantity", "ordered, received by the delivery note, billed", ""),
    ("Cylinders", "count + in - out = next count, size by size; a count holds for the end of its day", ""),
    (
        "Rental",
        "the supplier's named rule on that ledger; the day a cylinder comes counts, the day it goes does not",
        "worked examples stand in the guide, under rent rules",
    ),
    (
        "Short fills",
        "mean of the cylinders read on receipt against a full one, beyond twice what the readings leave in doubt",
        "judgement",
    ),
    ("Used", "before + delivered - after - sent back; a size that came short counts as it was read", ""),
    (
        "Explained",
        "the model of a cut on each row of the log, as in an estimate, and the gas lost as the shop book states it; "
        "x the shop's own use in the months before, each weighted by its precision",
        "weighted least squares",
    ),
    (
        "Verdict",
        "difference against the expanded uncertainty of both; the gases of a month as a family at 95 % (Bonferroni)",
        "JCGM 100:2008, 5.1.2 and 6.2",
    ),
    (
        "Dearer gas",
        "billed - received x agreed price, on what was bought",
        "OpenStax, Managerial Accounting, direct materials variances",
    ),
    (
        "Wasted gas, other ratio",
        "used against explained, at agreed prices, as far as readings and model go; split into yield and mix",
        "a published mix and yield exercise",
    ),
    ("Can't say", "used beyond that", ""),
    ("Still on the rack", "(after - before) x agreed price", ""),
    (
        "Jobs",
        "each gas's money by the gas each job needs; rental, delivery and fees by torch-lit time; largest remainder",
        "the parts add back to the coin",
    ),
    (
        "Months",
        "Theil-Sen line of use on torch-lit hours, refused under six months or 1.5 times spread; "
        "running sum of differences, alarm above 4",
        "P. K. Sen 1968, E. S. Page 1954, from memory",
    ),
)
_DOUBTS = (
    ("gauge_bar", "a gauge reading", "bar"),
    ("scale_kg", "a scale reading", "kg"),
    ("eye_share", "a look (about 3/4), as a share of full", ""),
    ("acetylene_gauge_share", "acetylene by gauge, as a share of full: it is dissolved, weigh it", ""),
    ("temperature_share", "a pressure at another temperature, as a share of it", ""),
    ("fill_share", "a full cylinder that was not read, as a share of it", ""),
)


def write_method(book: OutputBook, report: MonthReport) -> None:
    """Write each rule with its source, and the uncertainties of readings."""
    sheet = book.sheet(METHOD)
    widths = (26, 78, 44)
    open_sheet(sheet, "How it is worked out", "What every figure of the other sheets rests on.", widths)
    headings(sheet, 3, ("What", "How", "Source or note"), lines=1)
    row = 4
    for what, how, source in _METHOD:
        sheet.text(row, 0, what, Look.LABEL)
        sheet.text(row, 1, how, wrap=True)
        sheet.text(row, 2, source or "definition", Look.GUIDE, wrap=True)
        sheet.fit_row(row, ((how, widths[1]), (source, widths[2])))
        row += 1
    row += 1
    headings(sheet, row, ("Standard uncertainty", "of", "status"), lines=1)
    for name, said, unit in _DOUBTS:
        row += 1
        value, places = getattr(report.doubts, name), ".3g" if report.units.inch else "g"
        sheet.text(row, 0, report.units.words(value, unit, places).strip(), Look.ASSUMED)
        sheet.text(row, 1, said)
        sheet.text(row, 2, "judgement", Look.GUIDE)
    row += 2
    for said in (
        "A finding is a question to the supplier, not a proof: look at the cells it names before you send the page.",
        "Missing gas can be a leak: if you smell gas or hear it, shut the cylinders, air the room, and find it first.",
        "Look for leaks with leak spray, never with a flame; the torch's manual, supplier and local codes come first.",
    ):
        across(sheet, row, said, Look.CAUTION, 3)
        row += 1
    sheet.set_up_page(last_row=row, last_column=2, landscape=True)


def write_unchecked(book: OutputBook, report: MonthReport) -> None:
    """Write every problem: what could not be checked, and what looked odd."""
    sheet = book.sheet(UNCHECKED)
    names = ("Code", "Where", "What", "Found", "Why it matters", "What to do")
    widths = (8, 26, 44, 20, 44, 44)
    open_sheet(sheet, "What could not be checked", "Each line says what would make it checkable.", widths)
    headings(sheet, 3, names, lines=1)
    row = 4
    for problem in report.problems:
        texts = (problem.code, str(problem.place), problem.fact, problem.found, problem.why, problem.do)
        for column, text in enumerate(texts):
            sheet.text(row, column, text, Look.LABEL if column == 0 else Look.TEXT, wrap=column > 0)
        sheet.fit_row(row, zip(texts, widths, strict=True))
        row += 1
    if not report.problems:
        sheet.text(row, 0, "Everything was checked.")
    sheet.set_up_page(last_row=row, last_column=len(names) - 1, headings=(3, 3), landscape=True)
