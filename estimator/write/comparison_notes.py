"""What stands behind a comparison: reference states, questions, assumed figures, how it is worked out, problems."""

from __future__ import annotations

from estimator import __version__
from estimator.pricing.comparison import Comparison
from estimator.write.book import OutputBook, a1
from estimator.write.comparison_prices import state_words, write_headings
from estimator.write.styles import Look, money_format

__all__ = ["write_method", "write_problems", "write_questions", "write_states"]

_METHOD = (
    (
        "Cost of a m³",
        "(price x (1 + surcharge) + fees per cylinder) ÷ (content − gas that goes back unpaid)",
        "the same rule as in the estimate and the month end",
    ),
    (
        "Fills a month",
        "use of a month ÷ usable content; an average, so it need not be whole",
        "definition",
    ),
    (
        "In use together",
        "hardest draw ÷ (share of the content an hour x content), raised to a whole number, x sets",
        "acetylene: 1/10 an hour, or 1/15 for burns over 10 minutes (recalled from practice); a supplier's written "
        "figure stands before it; other gases have only the supplier's. Heating tips may need more: their limit is on "
        "what is left in the cylinder",
    ),
    (
        "Kept back",
        "the larger of the set in use and the cylinders that a busy month empties until the van comes",
        "definition",
    ),
    (
        "Held",
        "kept back + swapped at a time; the van is called when all but those kept back are empty",
        "definition",
    ),
    (
        "Vans a month",
        "the most that any gas needs: fills ÷ swapped at a time; once a year at least",
        "one van serves every gas of that supplier",
    ),
    (
        "Rent",
        "each list's rule; with a steady number held the monthly rules agree; yearly rents and leases are spread",
        "worked examples of every rule stand in the guide, under rent rules",
    ),
    (
        "Short of the minimum",
        "vans x minimum order − gas value, when above zero",
        "definition",
    ),
    (
        "The choice",
        "every size, every number of vans and every allowed mix of suppliers is tried; the cheapest is shown",
        "one size for each gas at one supplier: cylinders that feed a torch together must be alike",
    ),
    (
        "Rounding",
        "each component of each gas is rounded once; totals are sums of what is printed",
        "definition",
    ),
)


def write_states(book: OutputBook, comparison: Comparison) -> None:
    """Write what each list's volume is by mass, what it would be at face value, and the money between."""
    sheet = book.sheet("Reference states")
    headings = (
        "Supplier",
        "Gas",
        "Cylinder",
        "List says",
        "m³ at face value",
        "m³ by mass",
        "Off by",
        "Month's gas at face value",
        "Month's gas",
        "Hidden by face value",
    )
    for column, width in enumerate((20, 12, 16, 26, 10, 10, 9, 14, 12, 13)):
        sheet.set_column(column, column, width)
    sheet.set_row(0, 26)
    sheet.text(0, 0, "The same number of cubic metres or feet is not the same gas", Look.TITLE)
    stated = f"At {state_words(comparison.units)}."
    guide = f"{stated} Above zero: the list looks cheaper than it is. A mass (kg, lb) has no state."
    sheet.text(1, 0, guide, Look.GUIDE)
    gases = dict.fromkeys(row.gas for row in comparison.restated)
    write_headings(sheet, 3, headings, lines=3, units=comparison.units, gases=gases)
    number, major = money_format(comparison.money.decimals), 10**comparison.money.decimals
    for at, row in enumerate(comparison.restated, 4):
        for column, text in enumerate((row.supplier, comparison.units.gas_named(row.gas), row.cylinder, row.stated)):
            sheet.text(at, column, text, Look.LABEL if column == 0 else Look.TEXT)
        naive, content = (comparison.units.gas(one, row.gas) for one in (row.naive_m3, row.content_m3))
        sheet.number(at, 4, naive, Look.WORKED, "0.000")
        sheet.number(at, 5, content, Look.WORKED, "0.000")
        sheet.worked(at, 6, f"={a1(at, 5)}/{a1(at, 4)}-1", row.content_m3 / row.naive_m3 - 1, number="+0.0%;-0.0%;0.0%")
        sheet.number(at, 7, row.naive_month_minor / major, Look.WORKED, number)
        sheet.number(at, 8, row.month_minor / major, Look.WORKED, number)
        difference = row.difference_minor / major
        sheet.worked(at, 9, f"={a1(at, 8)}-{a1(at, 7)}", difference, Look.LABEL, f"+{number};-{number};{number}")
    sheet.freeze_panes(4, 1)
    sheet.set_up_page(last_row=4 + len(comparison.restated), last_column=len(headings) - 1, landscape=True)


def write_questions(book: OutputBook, comparison: Comparison) -> None:
    """Write what to ask each supplier, with room for the answer, and what was assumed meanwhile."""
    sheet = book.sheet("Questions")
    for column, width in enumerate((20, 58, 50, 30)):
        sheet.set_column(column, column, width)
    sheet.set_row(0, 26)
    sheet.text(0, 0, "What to ask before signing", Look.TITLE)
    write_headings(sheet, 2, ("Supplier", "Ask", "Because", "Answer"), lines=1)
    row = 3
    for question in comparison.questions:
        sheet.text(row, 0, question.supplier, Look.LABEL)
        sheet.text(row, 1, question.ask, wrap=True)
        sheet.text(row, 2, question.why, wrap=True)
        sheet.blank(row, 3, Look.TYPED)
        row += 1
    row += 1
    sheet.text(row, 0, "Taken meanwhile, because no list says it", Look.SUBTITLE)
    for assumed in comparison.market.assumed:
        row += 1
        sheet.text(row, 0, assumed.supplier, Look.LABEL)
        sheet.text(row, 1, assumed.what)
        sheet.text(row, 2, f"{assumed.taken} ({assumed.status})", Look.ASSUMED)
    sheet.freeze_panes(3, 1)
    sheet.set_up_page(last_row=row, last_column=3, headings=(2, 2), landscape=True)


def write_method(book: OutputBook, comparison: Comparison) -> None:
    """Write how each figure is worked out and where its rule comes from."""
    sheet = book.sheet("How worked out")
    for column, width in enumerate((22, 66, 66)):
        sheet.set_column(column, column, width)
    sheet.set_row(0, 26)
    sheet.text(0, 0, "How it is worked out", Look.TITLE)
    write_headings(sheet, 2, ("Figure", "Rule", "From"), lines=1)
    for row, (figure, rule, source) in enumerate(_METHOD, 3):
        sheet.text(
            row, 0, figure.replace("m³", comparison.units.gas_units(use.gas for use in comparison.uses)), Look.LABEL
        )
        sheet.text(row, 1, rule, wrap=True)
        sheet.text(row, 2, source, Look.GUIDE, wrap=True)
        sheet.set_row(row, 15.0 * max(1, -(-max(len(rule), len(source)) // 60)))
    row = 4 + len(_METHOD)
    sheet.text(row, 0, "Made by", Look.LABEL)
    sheet.text(row, 1, f"engine {__version__}, prices in force on {comparison.on.isoformat()}")
    for name, sha256 in comparison.inputs:
        row += 1
        sheet.text(row, 0, "Read from", Look.LABEL)
        sheet.text(row, 1, name)
        sheet.text(row, 2, f"SHA-256 {sha256}", Look.GUIDE)
    sheet.set_up_page(last_row=row, last_column=2, landscape=True)


def write_problems(book: OutputBook, comparison: Comparison) -> None:
    """Write what was interpreted or looks doubtful, in the words of the terminal."""
    sheet = book.sheet("Problems")
    for column, width in enumerate((9, 10, 34, 50, 24, 60)):
        sheet.set_column(column, column, width)
    sheet.set_row(0, 26)
    sheet.text(0, 0, "Problems", Look.TITLE)
    write_headings(sheet, 2, ("Code", "Level", "Where", "What", "Found", "What to do"), lines=1)
    if not comparison.problems:
        sheet.text(3, 0, "None.")
    for row, problem in enumerate(comparison.problems, 3):
        texts = (problem.code, problem.level.value, str(problem.place), problem.fact, problem.found, problem.do)
        for column, text in enumerate(texts):
            sheet.text(row, column, text, wrap=True)
    sheet.freeze_panes(3, 0)
    sheet.set_up_page(last_row=3 + len(comparison.problems), last_column=5, headings=(2, 2), landscape=True)
