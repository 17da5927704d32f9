"""The first sheet of a comparison: who is cheapest and why, the ranking with every component, what to order."""

from __future__ import annotations

from math import ceil

from estimator.pricing.comparison import Comparison
from estimator.pricing.landed import Component
from estimator.pricing.suppliers import Mix
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.comparison_prices import PriceCells, write_headings
from estimator.write.comparison_text import explanation, order_lines, turning_lines
from estimator.write.comparison_ways import WayCells
from estimator.write.plain_text import plain_text
from estimator.write.styles import Look, money_format, series_fill

__all__ = ["ANSWER", "paragraph", "place_answer", "stale_line", "write_answer"]

ANSWER = "Answer"
_NAME_WIDTH, _MONEY_WIDTH, _PLACE_WIDTH = 56, 12, 7
_LINE_HEIGHT = 15.0


def place_answer(book: OutputBook) -> BookSheet:
    """Add the sheet in its place before the others; ``write_answer`` fills it when their cells are known."""
    return book.sheet(ANSWER)


def write_answer(
    book: OutputBook, sheet: BookSheet, comparison: Comparison, prices: PriceCells, ways: WayCells
) -> None:
    """Fill the first sheet."""
    components = _components(comparison)
    last_column = 3 + len(components)
    sheet.set_column(0, 0, _PLACE_WIDTH)
    sheet.set_column(1, 1, _NAME_WIDTH)
    sheet.set_column(2, last_column, _MONEY_WIDTH)
    width = _PLACE_WIDTH + _NAME_WIDTH + _MONEY_WIDTH * (last_column - 1)
    sheet.set_row(0, 26)
    sheet.text(0, 0, f"Whose gas is cheapest, prices in force on {comparison.on.isoformat()}", Look.TITLE)
    said = f"{explanation(comparison)} {comparison.use_from}".rstrip()
    row = paragraph(sheet, 1, last_column, said, width)
    stale_line(sheet, row, last_column, prices)
    row = _ranking(sheet, comparison, ways, components, row + 1)
    chart_row = row + 1
    _chart(book, sheet, comparison, components, chart_row)
    row = chart_row + 17
    sheet.text(row, 0, "What to order", Look.SUBTITLE)
    for line in order_lines(comparison):
        row = paragraph(sheet, row + 1, last_column, line, width) - 1
    row += 2
    sheet.text(row, 0, "What would change the answer", Look.SUBTITLE)
    for line in turning_lines(comparison) or ["Nothing that was tried: see the sheets behind."]:
        row = paragraph(sheet, row + 1, last_column, line, width) - 1
    sheet.freeze_panes(1, 0)
    sheet.set_up_page(last_row=row, last_column=last_column, landscape=True)


def paragraph(sheet: BookSheet, row: int, last_column: int, text: str, width: float, look: Look = Look.TEXT) -> int:
    """Write a text over a whole row, as high as it needs; return the row below."""
    sheet.merge_range(row, 0, row, last_column, plain_text(text), sheet.styles.get(look, wrap=True))
    sheet.set_row(row, _LINE_HEIGHT * max(1, ceil(len(text) * 1.1 / width)))
    return row + 1


def stale_line(sheet: BookSheet, row: int, last_column: int, prices: PriceCells) -> None:
    """Write a row that is empty until a typed figure differs from the one compared, and then stands out."""
    sheet.merge_range(row, 0, row, last_column, "", sheet.styles.get(Look.TEXT))
    sheet.worked(row, 0, f"={prices.stale}", "", Look.TEXT)
    said = sheet.styles.get(Look.STOP)
    sheet.conditional_format(
        row, 0, row, last_column, {"type": "formula", "criteria": f'={prices.stale}<>""', "format": said}
    )


def _components(comparison: Comparison) -> list[Component]:
    """The components that some mix has; empty columns would only hide the others."""
    return [c for c in Component if any(_of(mix, c) for mix in comparison.mixes)]


def _ranking(sheet: BookSheet, comparison: Comparison, ways: WayCells, components: list[Component], row: int) -> int:
    unit = f" {comparison.currency}".rstrip()
    headings = ["Place", "Supplier", *(c.value for c in components), f"A month{unit}", "More than the cheapest"]
    write_headings(sheet, row, headings)
    first, last = row + 1, row + len(comparison.mixes)
    total_column = 2 + len(components)
    totals = f"{a1(first, total_column, absolute=True)}:{a1(last, total_column, absolute=True)}"
    number, major = money_format(comparison.money.decimals), 10**comparison.money.decimals
    least = comparison.best.total_minor
    for at, mix in enumerate(comparison.mixes, first):
        total = a1(at, total_column)
        sheet.worked(at, 0, f"=RANK({total},{totals},1)", _place(comparison, mix), Look.LABEL, "0")
        sheet.text(at, 1, mix.name, Look.LABEL if mix is comparison.best else Look.TEXT, wrap=True)
        sheet.set_row(at, _LINE_HEIGHT * ceil(len(mix.name) / _NAME_WIDTH))
        for column, component in enumerate(components, 2):
            parts = [cell for plan in mix.plans for cell in ways.components[ways.number_of(plan)][component]]
            sheet.worked(at, column, "=" + "+".join(parts), _of(mix, component) / major, number=number)
        formula = f"=SUM({a1(at, 2)}:{a1(at, total_column - 1)})"
        sheet.worked(at, total_column, formula, mix.total_minor / major, Look.LABEL, number)
        more = (mix.total_minor - least) / major
        sheet.worked(at, total_column + 1, f"={total}-MIN({totals})", more, number=number)
    return last + 1


def _chart(book: OutputBook, sheet: BookSheet, comparison: Comparison, components: list[Component], row: int) -> None:
    """What a month is made of, for the first few mixes and every supplier alone."""
    heading = row - 2 - len(comparison.mixes)
    chart = book.add_chart({"type": "bar", "subtype": "stacked"})
    shown = min(len(comparison.mixes), 9)
    for index, _ in enumerate(components):
        column = 2 + index
        chart.add_series(
            {
                "name": [ANSWER, heading, column],
                "categories": [ANSWER, heading + 1, 1, heading + shown, 1],
                "values": [ANSWER, heading + 1, column, heading + shown, column],
                **series_fill(index),
                "border": {"color": "#1A1A1A", "width": 0.5},
                "gap": 40,
            }
        )
    chart.set_title({"name": "What a month is made of", "name_font": {"size": 12}})
    chart.set_y_axis({"reverse": True, "num_font": {"size": 8}})
    chart.set_x_axis(
        {"name": f"{comparison.currency} a month", "num_format": "0", "major_gridlines": {"visible": True}}
    )
    chart.set_legend({"position": "bottom", "font": {"size": 8}})
    chart.set_size({"width": 1000, "height": 320})
    sheet.insert_chart(row, 0, chart, {"description": "Components of a month's cost by supplier"})


def _of(mix: Mix, component: Component) -> int:
    return sum(plan.component_minor(component) for plan in mix.plans)


def _place(comparison: Comparison, mix: Mix) -> int:
    return 1 + sum(other.total_minor < mix.total_minor for other in comparison.mixes)
