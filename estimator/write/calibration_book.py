"""The report of a calibration: what is yours now, what was logged beside what was expected, how it was worked out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import BinaryIO

from estimator import __version__
from estimator.learning.calibration_result import CalibratedFactor, JudgedObservation
from estimator.learning.observation import Kind
from estimator.pricing.learn import Calibration
from estimator.shown_units import ShownUnits, shown_units
from estimator.write.book import BookSheet, OutputBook, Paper, a1, write_book
from estimator.write.calibration_text import kind_words, measured_gas, ordered_errors, verdict
from estimator.write.quoted_sheet import write_quoted
from estimator.write.styles import CHART_COLOURS, Look

__all__ = ["calibration_workbook"]

_FACTORS, _LOGGED, _ERRORS, _UNUSED, _METHOD = (
    "Your own figures",
    "What was logged",
    "How far off",
    "Not used",
    "How worked out",
)
_TITLE_HEIGHT, _HEAD_HEIGHT = 26.0, 45.0
_METHOD_ROWS = (
    ("Each logged figure", "is the sum of what the model gives for every row of the job, each part times its factors"),
    ("All factors together", "are fitted at once, so a job that mixes tips or thicknesses is not divided by its total"),
    ("The handbook's band", "pulls each factor towards 1; the more jobs, the less it pulls"),
    ("Odd figures", "weigh less the further they lie from the others (Student's t with 4 degrees); none is dropped"),
    ("Fewer than 3 jobs", "or jobs all of one size (largest under 1.5 times the smallest) keep the handbook"),
    (
        "A log that contradicts itself",
        "(more than a third of one kind odd, or a scatter beyond 1.6 times) changes nothing",
    ),
    ("Shared errors", "of a gauge, a scale or a fill widen the factor, however many readings there are"),
    ("Old jobs", "count half after the days that the shop book states"),
    ("Four in five", "is an 80 % interval by Student's t"),
    ("Foretold from the others", "learned again without the job, then compared with it"),
)


def calibration_workbook(calibration: Calibration, paper: Paper | None = None) -> Callable[[BinaryIO], None]:
    """Return the function that writes the report of a calibration, for ``save``.

    Parameters
    ----------
    calibration : Calibration
        The finished calibration.
    paper : Paper, optional
        The shop's paper; A4 when left out.

    Returns
    -------
    function of a binary file
    """

    def build(book: OutputBook) -> None:
        _write_factors(book, calibration)
        units = shown_units(calibration.learned.before.shop.units)
        _write_logged(book, calibration.learned.result.observations, units)
        _write_errors(book, calibration)
        if calibration.learned.quoted is not None:
            write_quoted(book, calibration.learned.quoted)
        _write_unused(book, calibration)
        _write_method(book, calibration)

    return write_book(build, title="Learned from jobs", paper=paper or Paper())


def _open(book: OutputBook, name: str, title: str, guide: str, columns: Sequence[tuple[str, float]]) -> BookSheet:
    """Start a sheet: title, a line on how to read it, headings in row 4."""
    sheet = book.sheet(name)
    sheet.set_row(0, _TITLE_HEIGHT)
    sheet.text(0, 0, title, Look.TITLE)
    sheet.text(1, 0, guide, Look.GUIDE)
    sheet.set_row(3, _HEAD_HEIGHT)
    for column, (heading, width) in enumerate(columns):
        sheet.set_column(column, column, width)
        sheet.text(3, column, heading, Look.HEADING)
    sheet.freeze_panes(4, 1)
    return sheet


def _close(sheet: BookSheet, last_row: int, columns: int) -> None:
    sheet.set_up_page(last_row=max(last_row, 4), last_column=columns - 1, headings=(3, 3), landscape=True)


def _write_factors(book: OutputBook, calibration: Calibration) -> None:
    columns = (
        ("What", 32.0),
        ("Yours against the handbook", 13.0),
        ("Four in five: low", 10.0),
        ("high", 10.0),
        ("Handbook low", 10.0),
        ("Handbook high", 10.0),
        ("Jobs", 7.0),
        ("Latest", 12.0),
        ("Your data weigh", 10.0),
        ("Why", 60.0),
    )
    learned = calibration.learned
    first, _, rest = verdict(learned).partition(". ")
    sheet = _open(book, _FACTORS, "What your jobs say", first.removesuffix(".") + ".", columns)
    sheet.text(2, 0, rest, Look.GUIDE)
    row = 4
    for factor in sorted(learned.result.factors, key=lambda each: not each.changed):
        _factor_row(sheet, row, factor)
        row += 1
    last = row - 1
    _interval_chart(book, sheet, [f for f in learned.result.factors if f.changed], row + 1)
    _close(sheet, max(last, row + 18), len(columns))


def _factor_row(sheet: BookSheet, row: int, factor: CalibratedFactor) -> None:
    look = Look.WORKED if factor.changed else Look.ASSUMED
    sheet.text(row, 0, factor.name, Look.LABEL)
    figures = (factor.value, factor.low, factor.high, factor.handbook.low, factor.handbook.high)
    for column, figure in enumerate(figures, 1):
        sheet.number(row, column, figure, Look.ASSUMED if column > 3 else look, "0.00")
    sheet.number(row, 6, factor.jobs, look, "0")
    if factor.latest is not None:
        sheet.date(row, 7, factor.latest, look)
    sheet.number(row, 8, factor.weight, look, "0%")
    sheet.text(row, 9, factor.reason if factor.changed else f"handbook kept: {factor.reason}", wrap=True)


def _interval_chart(book: OutputBook, sheet: BookSheet, changed: list[CalibratedFactor], row: int) -> None:
    """Draw each learned figure between the ends of its interval; 1 is the handbook's."""
    if not changed:
        return
    last = 4 + len(changed) - 1
    # The lengths that the bars are stacked from stand beside the table and are not printed.
    for column, heading in ((11, "low to yours"), (12, "yours to high")):
        sheet.text(3, column, heading, Look.GUIDE)
    for at, factor in enumerate(changed, 4):
        sheet.worked(at, 11, f"={a1(at, 1)}-{a1(at, 2)}", factor.value - factor.low, Look.GUIDE, "0.00")
        sheet.worked(at, 12, f"={a1(at, 3)}-{a1(at, 1)}", factor.high - factor.value, Look.GUIDE, "0.00")
    chart = book.add_chart({"type": "bar", "subtype": "stacked"})
    fills: tuple[dict[str, object], ...] = ({"none": True}, {"color": CHART_COLOURS[0]}, {"color": CHART_COLOURS[2]})
    for column, name, fill in zip((2, 11, 12), ("", "low to yours", "yours to high"), fills, strict=True):
        chart.add_series(
            {
                "name": name,
                "categories": [_FACTORS, 4, 0, last, 0],
                "values": [_FACTORS, 4, column, last, column],
                "fill": fill,
                "gap": 60,
            }
        )
    chart.set_title(
        {"name": "Yours, four times in five (the two colours meet at the likely figure)", "name_font": {"size": 11}}
    )
    chart.set_legend({"none": True})
    chart.set_x_axis({"num_format": "0.0", "name": "1 = as the handbook"})
    chart.set_y_axis({"reverse": True})
    chart.set_size({"width": 860, "height": 120 + 26 * len(changed)})
    sheet.insert_chart(row, 0, chart, {"description": "Each figure with its interval; 1 is the handbook's"})


def _write_logged(book: OutputBook, observations: Sequence[JudgedObservation], units: ShownUnits) -> None:
    columns = (
        ("What", 34.0),
        ("Measured as", 24.0),
        ("Where", 22.0),
        ("Date", 12.0),
        ("Logged", 10.0),
        ("Unit", 7.0),
        ("Handbook says", 10.0),
        ("Your figures say", 10.0),
        ("Foretold from the others", 11.0),
        ("Logged ÷ handbook", 10.0),
        ("Logged ÷ yours", 10.0),
        ("Counts", 9.0),
        ("Age leaves", 9.0),
        ("Why it counts less", 52.0),
    )
    guide = "Nothing is dropped. A figure that lies far from the others counts less, and says the likely reason."
    sheet = _open(book, _LOGGED, "Each logged figure beside what was expected", guide, columns)
    for row, each in enumerate(observations, 4):
        _logged_row(sheet, row, each, units)
    _close(sheet, 3 + len(observations), len(columns))


def _logged_row(sheet: BookSheet, row: int, each: JudgedObservation, units: ShownUnits) -> None:
    seen = each.seen
    is_time = seen.kind in (Kind.PAID_TIME, Kind.FLAME_TIME)
    number = "0" if is_time else "0.000"
    volume = 1.0 if is_time else units.gas(1.0, measured_gas(seen.gas))
    sheet.text(row, 0, seen.what, Look.LABEL)
    sheet.text(row, 1, kind_words(seen.kind, seen.gas))
    sheet.text(row, 2, seen.place)
    sheet.date(row, 3, seen.when)
    sheet.number(row, 4, seen.logged * volume, Look.TYPED, number)
    sheet.text(row, 5, "min" if is_time else units.unit("m³"), Look.UNIT)
    for column, figure in enumerate((each.before, each.after, each.left_out), 6):
        sheet.number(row, column, figure * volume, Look.WORKED, number)
    for column, against, figure in ((9, 6, each.before), (10, 7, each.after)):
        sheet.worked(row, column, f"={a1(row, 4)}/{a1(row, against)}", seen.logged / figure, number="0.00")
    sheet.number(row, 11, each.weight, Look.CAUTION if each.odd else Look.WORKED, "0%")
    sheet.number(row, 12, each.age_weight, Look.WORKED, "0%")
    sheet.text(row, 13, each.reason, Look.CAUTION if each.odd else Look.TEXT, wrap=True)
    sheet.fit_row(row, ((each.reason, 52.0), (seen.what, 34.0)))


def _write_errors(book: OutputBook, calibration: Calibration) -> None:
    columns = (
        ("Measured as", 30.0),
        ("How many", 9.0),
        ("Off with the handbook", 12.0),
        ("Off when foretold from the others", 14.0),
        ("A new job: low", 10.0),
        ("high", 10.0),
    )
    guide = (
        "Half of the figures were off by less, half by more. A new job lies between low and high four times in five."
    )
    sheet = _open(book, _ERRORS, "How far off, before and after", guide, columns)
    errors = ordered_errors(calibration.learned)
    for row, error in enumerate(errors, 4):
        sheet.text(row, 0, kind_words(error.kind, error.gas), Look.LABEL)
        sheet.number(row, 1, error.count, Look.WORKED, "0")
        sheet.number(row, 2, error.before, Look.WORKED, "0.0%")
        sheet.number(row, 3, error.left_out, Look.WORKED, "0.0%")
        sheet.number(row, 4, error.new_job.low, Look.WORKED, '0.00" x"')
        sheet.number(row, 5, error.new_job.high, Look.WORKED, '0.00" x"')
    last = 3 + len(errors)
    if errors:
        _error_chart(book, sheet, last)
    _close(sheet, last + 18, len(columns))


def _error_chart(book: OutputBook, sheet: BookSheet, last: int) -> None:
    chart = book.add_chart({"type": "column"})
    for column, name, colour in ((2, "with the handbook", 1), (3, "foretold from the other jobs", 0)):
        chart.add_series(
            {
                "name": name,
                "categories": [_ERRORS, 4, 0, last, 0],
                "values": [_ERRORS, 4, column, last, column],
                "fill": {"color": CHART_COLOURS[colour]},
            }
        )
    chart.set_title({"name": "How far off", "name_font": {"size": 12}})
    chart.set_y_axis({"num_format": "0%", "min": 0})
    chart.set_legend({"position": "bottom"})
    sheet.insert_chart(last + 2, 0, chart, {"description": "Median error by the handbook and by the other jobs"})


def _write_unused(book: OutputBook, calibration: Calibration) -> None:
    columns = (("What", 40.0), ("Where", 26.0), ("Why it teaches nothing", 70.0))
    guide = "Put these right in the log and learn again; nothing is lost by leaving them."
    sheet = _open(book, _UNUSED, "Logged and not used", guide, columns)
    unused = calibration.learned.not_used
    for row, each in enumerate(unused, 4):
        sheet.text(row, 0, each.what, Look.LABEL)
        sheet.text(row, 1, each.place)
        sheet.text(row, 2, each.why, wrap=True)
    if not unused:
        sheet.text(4, 0, "Everything that was measured was used.")
    _close(sheet, 3 + len(unused), len(columns))


def _write_method(book: OutputBook, calibration: Calibration) -> None:
    sheet = _open(book, _METHOD, "How it was worked out", "", (("", 32.0), ("", 110.0)))
    learned = calibration.learned
    rows = [
        *_METHOD_ROWS,
        ("Ages count from", learned.today.isoformat()),
        ("Logged work counts half after", f"{learned.before.shop.fade_days} days"),
        ("Engine", f"kerfledger {__version__}"),
        ("Work log", f"{calibration.log_file}, SHA-256 {calibration.log_sha256}"),
        ("Shop book", _shop_words(calibration)),
    ]
    for row, (what, said) in enumerate(rows, 4):
        sheet.text(row, 0, what, Look.LABEL)
        sheet.text(row, 1, said, wrap=True)
    _close(sheet, 3 + len(rows), 2)


def _shop_words(calibration: Calibration) -> str:
    before = calibration.learned.before
    return f"{before.file}, SHA-256 {before.sha256}" if before.file else "none: the invented example stood in for it"
