"""What a rack plan rests on: cautions, the cart, how it was worked out, problems; each a sheet of its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from estimator import __version__, reference
from estimator.check.outfit_fit import NEVER_A_PERMISSION
from estimator.pricing.rack.contents import ReadingErrors
from estimator.pricing.rack.report import RackReport
from estimator.write.book import BookSheet, OutputBook
from estimator.write.rack.words import shown_by
from estimator.write.styles import Look

__all__ = ["write_cart", "write_cautions", "write_method", "write_problems"]


def write_cautions(book: OutputBook, report: RackReport) -> None:
    """Write the cautions that apply, by stage, each with its source."""
    rows = [(c.stage, c.text, c.source) for c in report.cautions]
    sheet = _table(book, "Cautions", "The usual sequence and cautions", ("When", "What", "Source"), (16, 70, 60), rows)
    sheet.text(1, 0, "Your torch's own manual and your local codes come first. Get trained people.", Look.LABEL)


def write_cart(book: OutputBook, report: RackReport) -> None:
    """Write what does not fit together by the shop book's own words."""
    rows = [(p.code, str(p.place), p.fact, p.needs, p.do) for p in report.outfit]
    nothing = (
        "Nothing was found that does not fit." if report.estimates[0].shop.outfit else "The Outfit sheet is empty."
    )
    headings = ("Code", "Where", "What", "Needs", "What to do")
    sheet = _table(book, "The cart", "Does the cart fit together?", headings, (8, 22, 48, 40, 44), rows, nothing)
    sheet.text(1, 0, NEVER_A_PERMISSION, Look.LABEL)


def write_method(book: OutputBook, report: RackReport) -> None:
    """Write how each figure is worked out, what was assumed, and which files it came from."""
    rows = [*_METHOD, *_assumed(report), *_variants(), *_inputs(report)]
    _table(book, "How worked out", "How it is worked out", ("Figure", "Rule", "From"), (26, 74, 54), rows)


def write_problems(book: OutputBook, report: RackReport) -> None:
    """Write every problem in the words of the terminal."""
    rows = [(p.code, p.level.value, str(p.place), p.fact, p.found, p.needs, p.do) for p in report.problems]
    headings = ("Code", "Level", "Where", "What", "Found", "Needs", "What to do")
    _table(book, "Problems", "Problems", headings, (8, 9, 22, 40, 18, 44, 44), rows, "None.")


_METHOD = (
    ("Gas of a line", "cutting and preheat oxygen, fuel, and what pilot, purge and leaks lose", "the estimate"),
    ("Oxygen in a cylinder", "volume from rated content at full pressure, x density at gauge and temperature",
     "equation of state; oxygen_density table"),
    ("Fuel gas in a cylinder", "(weight − tare) ÷ density at 15 °C and 101.325 kPa; never by pressure",
     "definition; gas_densities table"),
    ("Order of use", "the cylinders of the Rack sheet from the top; each line draws on the first that may still give",
     "definition"),
    ("Runs down at", "the line at which a cylinder holds only what stays in at change-over", "definition"),
    ("Limit, cutting and welding", "fraction x rated content an hour; what is left now is a caution",
     "adopted rule; fractions below"),
    ("Limit, heating tips", "fraction x what is left now; stop at 1/10 or at the supplier's written figure",
     "adopted rule; fractions below"),
    ("How far a heating tip draws", "down to draw ÷ that fraction, when this is above what stays in", "definition"),
    ("Continuous", "lit more than 10 minutes without a break of 5", "definition; codes leave the word to practice"),
    ("Chance", "share of 2,000 cases of the estimate's range, and of the readings' ±, that the rack covers",
     "definition; see How sure in the guide"),
    ("To order", "fewest full cylinders, last on the rack, with which the likely use finishes; again at the 90 % use",
     "definition"),
    ("Order by", "man-hours before gas is short ÷ those of a working day, less the lead time; no weekends",
     "definition"),
)  # fmt: skip


def _assumed(report: RackReport) -> Iterable[tuple[str, str, str]]:
    work = report.estimates[0].work
    e = ReadingErrors.of(work)
    yield ("A working day", f"{work.work_day_h:g} man-hours", "common practice, no source")
    units = shown_by(report)
    errors = ((e.gauge_bar, "bar"), (e.scale_kg, "kg"), (e.tare_kg, "kg"))
    gauge, scale, tare = (units.words(value, unit, ".2g" if units.inch else "g") for value, unit in errors)
    warmth = f"{e.temperature_c * 1.8:g} °F" if units.inch else f"{e.temperature_c:g} °C"
    yield ("± of a gauge", f"{gauge} and {warmth}, added in square", "judgement")
    yield ("± of a scale", f"{scale}, and {tare} of the tare, added in square", "judgement")
    yield ("± of a look", f"{e.rough_share:.0%} of a full cylinder", "judgement")
    yield ("± where nothing was read", f"{e.fill_share:.0%} of a full cylinder, taken as full", "judgement")


def _variants() -> Iterable[tuple[str, str, str]]:
    rules = reference.table("acetylene_draw_rules")
    for i in range(len(rules)):
        said = f"{rules.column('as_printed')[i]} of the content an hour ({rules.column('duty')[i]})"
        yield (f"Draw of acetylene: {rules.column('rule')[i]}", said, _from(rules.source(i)))
    fixed = reference.table("acetylene_draw_fixed")
    for i in range(len(fixed)):
        said = f"{fixed.column('draw_ft3_h')[i]:g} ft³/h from a cylinder of {fixed.column('cylinder_ft3')[i]:g} ft³"
        yield (f"Draw of acetylene: {fixed.column('rule')[i]}", f"{said}; shown only", _from(fixed.source(i)))


def _from(source: reference.Provenance) -> str:
    names = " and ".join("recalled" if one.id == "MEM" else one.title for one in source.sources)
    return f"{names}: {source.locator} ({source.status})"


def _inputs(report: RackReport) -> Iterable[tuple[str, str, str]]:
    for one in report.estimates:
        yield ("Cut list", one.cuts.file, _digest(one.cuts.sha256))
    shop = report.estimates[0].shop
    yield ("Shop book", shop.file or "the built-in example, invented", _digest(shop.sha256))
    yield ("Engine", f"kerfledger {__version__}", "")


def _digest(sha256: str) -> str:
    """A digest in two parts, so that it breaks inside a cell."""
    return f"SHA-256 {sha256[:32]} {sha256[32:]}" if sha256 else ""


def _table(
    book: OutputBook,
    name: str,
    title: str,
    headings: Sequence[str],
    widths: Sequence[float],
    rows: Sequence[Sequence[str]],
    nothing: str = "",
) -> BookSheet:
    sheet = book.sheet(name)
    sheet.set_row(0, 26)
    sheet.text(0, 0, title, Look.TITLE)
    for column, (heading, width) in enumerate(zip(headings, widths, strict=True)):
        sheet.set_column(column, column, width)
        sheet.text(3, column, heading, Look.HEADING)
    if not rows:
        sheet.text(4, 0, nothing)
    for place, row in enumerate(rows, 4):
        for column, text in enumerate(row):
            sheet.text(place, column, text, Look.LABEL if column == 0 else Look.TEXT, wrap=True)
        sheet.fit_row(place, list(zip(row, widths, strict=True)))
    sheet.freeze_panes(4, 0)
    last_row = max(4, 3 + len(rows))
    sheet.set_up_page(last_row=last_row, last_column=len(headings) - 1, headings=(3, 3), landscape=True)
    return sheet
