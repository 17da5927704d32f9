"""The sheet of rates and factors: every typed figure of the job stands here once, and its cell has a name."""

from __future__ import annotations

from collections.abc import Sequence

from estimator.check.shop_book import ALWAYS
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.estimate.look_of_numbers import SHEETS
from estimator.write.estimate.rate_rows import RateRow, RateSection
from estimator.write.styles import Look

__all__ = ["CHANGED", "write_rates"]

CHANGED = "changed_rates"
"""Name of the cell that counts the typed figures that differ from those the job was computed with."""

_HEADINGS = (
    ("What", 44.0),
    ("Value", 12.0),
    ("Unit", 19.0),
    ("When computed", 12.0),
    ("Low", 8.0),
    ("High", 8.0),
    ("From", 11.0),
    ("Status", 25.0),
    ("Source", 34.0),
    ("What it does", 42.0),
)
_TURNED = (("As formulas take it", 13.0), ("Unit", 17.0))
"""Two more columns where the shop's units are not those of the formulas."""
_VALUE, _HOUSE = 1, 10
"""Columns of the cell that is typed or read, and of the figure that formulas take where it is in another unit."""
_HOUSE_NUMBER = "#,##0.0####"
_FIGURES = (_VALUE, 3, 4, 5, 6, _HOUSE)
"""Columns of figures and dates."""
_OVER_WHOLE = ("markup", "overhead_share", "add_on_", "rush")
"""Beginnings of the names of shares that may be over 100 %."""
_FIRST_ROW = 4


def write_rates(book: OutputBook, sections: Sequence[RateSection], *, live: bool = True) -> BookSheet:
    """Write the sheet and name its cells.

    Parameters
    ----------
    book : OutputBook
        The workbook that is being written.
    sections : sequence of RateSection
        All rows, grouped.
    live : bool
        Whether worked-out rows carry their formula.

    Returns
    -------
    BookSheet
    """
    sheet = book.sheet(SHEETS.rates)
    turned = any(rate.cell.is_turned for section in sections for rate in section.rows)
    headings = (*_HEADINGS, *(_TURNED if turned else ()))
    for column, (heading, width) in enumerate(headings):
        sheet.set_column(column, column, width)
        align = "right" if column in _FIGURES else "left" if column else ""
        sheet.text(_FIRST_ROW - 1, column, heading, book.styles.get(Look.HEADING, align=align))
    sheet.set_row(0, 26)
    sheet.text(0, 0, "Rates, prices and factors that the job was priced with", Look.TITLE)
    sheet.text(1, 0, "Change a yellow cell and every line and total follows.", Look.GUIDE)
    row, cells_of = _write_sections(sheet, sections, len(headings), live=live)
    last = row - 1
    typed, computed = f"B{_FIRST_ROW + 1}:B{row}", f"D{_FIRST_ROW + 1}:D{row}"
    sheet.text(2, 0, "Figures changed since the job was computed", Look.LABEL)
    if live:
        sheet.worked(2, 1, f'=SUMPRODUCT(({computed}<>"")*({typed}<>{computed}))', 0.0, Look.WORKED, "0")
    else:
        sheet.number(2, 1, 0.0, Look.WORKED, "0")
    book.name_cell(CHANGED, SHEETS.rates, 2, 1)
    for name, cells in cells_of.items():
        span = a1(*cells[0], absolute=True) + (f":{a1(*cells[-1], absolute=True)}" if len(cells) > 1 else "")
        book.define_name(name, f"='{SHEETS.rates}'!{span}")
    sheet.freeze_panes(_FIRST_ROW, 1)
    sheet.set_up_page(last_row=last, last_column=len(headings) - 1, headings=(3, 3), landscape=True)
    return sheet


def _write_sections(
    sheet: BookSheet, sections: Sequence[RateSection], columns: int, *, live: bool
) -> tuple[int, dict[str, list[tuple[int, int]]]]:
    """Write all groups; return the row below them and the cells of each name."""
    row = _FIRST_ROW
    cells_of: dict[str, list[tuple[int, int]]] = {}
    for section in sections:
        if not section.rows:
            continue
        for column in range(columns):
            sheet.text(row, column, section.title if column == 0 else "", Look.SUBTITLE)
        row += 1
        for rate in section.rows:
            _write_row(sheet, row, rate, live=live)
            cells_of.setdefault(rate.name, []).append((row, _HOUSE if rate.cell.is_turned else _VALUE))
            row += 1
    return row, cells_of


def _write_row(sheet: BookSheet, row: int, rate: RateRow, *, live: bool) -> None:
    sheet.text(row, 0, rate.what, Look.TEXT, wrap=True)
    _write_figure(sheet, row, rate, live=live)
    unit = rate.shown_unit
    sheet.text(row, 2, unit, Look.GUIDE, wrap=True)
    if rate.look is not Look.WORKED:
        message = f"{rate.does} ({unit})" if unit else rate.does
        whole = rate.number.endswith("%") and not rate.name.startswith(_OVER_WHOLE)
        sheet.not_negative(row, _VALUE, row, title=rate.what, message=message, most=1.0 if whole else None)
        if rate.value is not None:
            sheet.number(row, 3, rate.cell.shown(rate.value), Look.GUIDE, rate.shown_number)
    for column, bound in ((4, rate.low), (5, rate.high)):
        if bound is not None:
            number = rate.shown_number if rate.cell.is_turned else ""
            sheet.number(row, column, rate.cell.shown(bound), Look.GUIDE, number)
    if rate.date not in (None, ALWAYS):
        sheet.date(row, 6, rate.date, Look.GUIDE)
    for column, text in ((7, rate.status), (8, rate.source), (9, rate.does)):
        sheet.text(row, column, text, Look.TEXT, wrap=True)
    texts = ((0, rate.what), (2, unit), (7, rate.status), (8, rate.source), (9, rate.does))
    fitted = [(text, _HEADINGS[column][1]) for column, text in texts]
    sheet.fit_row(row, [*fitted, (rate.unit, _TURNED[1][1])] if rate.cell.is_turned else fitted)


def _write_figure(sheet: BookSheet, row: int, rate: RateRow, *, live: bool) -> None:
    """Write the value and, where it is shown in another unit than formulas take, what they take."""
    if rate.value is None:
        sheet.blank(row, _VALUE, rate.look, rate.number)
        return
    shown, formula = rate.cell.shown(rate.value), rate.formula
    if rate.cell.is_turned:
        given = a1(row, _VALUE)
        house = rate.formula or f"={rate.cell.in_house(given)}"
        formula = f"={rate.cell.in_shown(a1(row, _HOUSE))}" if rate.formula else ""
        _write_number(sheet, row, _HOUSE, house if live else "", rate.value, Look.GUIDE, _HOUSE_NUMBER)
        sheet.text(row, _HOUSE + 1, rate.unit, Look.GUIDE, wrap=True)
    _write_number(sheet, row, _VALUE, formula if live else "", shown, rate.look, rate.shown_number)


def _write_number(sheet: BookSheet, row: int, column: int, formula: str, value: float, look: Look, number: str) -> None:
    if formula:
        sheet.worked(row, column, formula, value, look, number)
    else:
        sheet.number(row, column, value, look, number)
