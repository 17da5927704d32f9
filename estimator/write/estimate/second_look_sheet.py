"""The second look at a priced job: does it make sense, which plates it needs, what is better not burnt. Values only."""

from __future__ import annotations

import numpy as np

from estimator.pricing.job import Estimate
from estimator.pricing.plates_bought import PlatesBought, plates_bought
from estimator.pricing.second_look import SecondLook, second_look
from estimator.pricing.sense import SenseCheck
from estimator.write.book import OutputBook, a1
from estimator.write.estimate.live_table import LiveTables
from estimator.write.estimate.look_of_numbers import SHEETS, NumberFormats
from estimator.write.estimate.page import Page
from estimator.write.styles import Look

__all__ = ["write_second_look"]

_WIDTHS = (26.0, 15.0, 15.0, 15.0, 15.0, 15.0, 52.0)
_FROZEN = (
    "Values of the run that priced this job: nothing here moves the price, and nothing here is worked out anew when a "
    "cell is changed. Price the list again for a new second look."
)
_FRESH, _STALE = "as priced", "STALE: price the list again"
_SHOWN = 20


def write_second_look(book: OutputBook, estimate: Estimate, lines: LiveTables, formats: NumberFormats) -> None:
    """Write the sense checks, the plates to buy, and the lines that another way would do for less.

    Parameters
    ----------
    book : OutputBook
        The workbook that is being written.
    estimate : Estimate
        The priced job.
    lines : LiveTables
        The columns of the lines, placed.
    formats : NumberFormats
        The shop's number formats.
    """
    page = Page(book, SHEETS.second_look, _WIDTHS, live=lines.live, figures=(1, 2, 3, 4, 5))
    page.title("A second look")
    row = page.say(1, _FROZEN, Look.GUIDE)
    if lines.live:
        same = "(changed_rates=0)*(ROUND(job_total-engine_total,decimals)=0)"
        page.figure(row, 0, f'IF({same},"{_FRESH}","{_STALE}")', _FRESH, look=Look.GUIDE)
        row += 1
    look, plates = second_look(estimate), plates_bought(estimate)
    parts = _Parts(page, estimate, lines, formats)
    row = parts.sense(row + 1, look.sense)
    row = parts.plates(row + 1, plates)
    row = parts.cheaper(row + 1, look)
    page.sheet.set_up_page(last_row=row, last_column=len(_WIDTHS) - 1, landscape=True)


class _Parts:
    """Writes the sheet's parts one below the other; each returns the row below it."""

    def __init__(self, page: Page, estimate: Estimate, lines: LiveTables, formats: NumberFormats) -> None:
        self.page, self.estimate, self.lines, self.formats = page, estimate, lines, formats
        self.currency = estimate.shop.shop.currency
        self.right = page.book.styles.get(Look.TEXT, align="right")

    def sense(self, row: int, checks: list[SenseCheck]) -> int:
        self.page.heads(row, "Does it make sense", "Found", "Usual from", "to", "", "", "In words")
        for check in checks:
            row += 1
            look = Look.CAUTION if check.doubtful else Look.TEXT
            number = self.formats.share if "share" in check.name else self.formats.money
            self.page.sheet.text(row, 0, check.name.capitalize(), Look.LABEL)
            band = (check.band.low, check.band.high) if check.band else (None, None)
            for column, value in enumerate((check.found, *band), 1):
                if value is not None:
                    self.page.sheet.number(row, column, value, look, number)
            self.page.words(row, 6, check.words, look)
        return row + 1

    def plates(self, row: int, bought: PlatesBought) -> int:
        units = self.estimate.shop.shown
        size, left = f"Size, {units.unit('mm')}", f"Left over, {units.unit('kg')}"
        self.page.heads(row, "Plates to buy", size, "Plates", "Used", left, f"Price, {self.currency}", "Lines")
        for buy in bought.buys:
            row += 1
            option, sheet = buy.option, self.page.sheet
            sheet.text(row, 0, units.words(buy.thickness_mm, "mm"), Look.LABEL)
            sides = (units.number(side, "mm") for side in (buy.plate_length_mm, buy.plate_width_mm))
            sheet.text(row, 1, " x ".join(f"{side:.6g}" for side in sides), self.right)
            sheet.number(row, 2, option.plates, Look.TEXT, self.formats.whole)
            sheet.number(row, 3, option.used_share, Look.TEXT, self.formats.share)
            sheet.number(row, 4, units.number(option.drop_mass_kg, "kg"), Look.TEXT, self.formats.whole)
            sheet.number(row, 5, buy.price, Look.TEXT, self.formats.money)
            self.page.words(row, 6, self._names(buy.lines), Look.TEXT)
        said = [bought.how_counted.capitalize() + "." if bought.buys else "No steel of ours is cut from plate."]
        if len(bought.larger_than_any_plate):
            said.append(f"Larger than any plate on offer: {self._names(bought.larger_than_any_plate)}.")
        if len(bought.not_on_offer):
            said.append(f"No plate size in the shop book: {self._names(bought.not_on_offer)}.")
        row += 1
        for text in said:
            row = self.page.say(row, text, Look.GUIDE)
        return row

    def cheaper(self, row: int, look: SecondLook) -> int:
        money = self.currency
        heads = ("Cheaper not burnt", "Other way", "Pieces or holes", f"Torch each, {money}", f"Other each, {money}")
        self.page.heads(row, *heads, f"Less in all, {money}", "In words")
        for one in look.cheaper[:_SHOWN]:
            row += 1
            name, sheet = self._name(one.line), self.page.sheet
            _, at, column = self.lines.address("mark", one.line)
            sheet.jump(row, 0, SHEETS.lines, a1(at, column), name)
            sheet.text(row, 1, one.way, self.right)
            sheet.number(row, 2, one.units, Look.TEXT, self.formats.quantity)
            for place, value in enumerate((one.burn_cost_each, one.way_cost_each, one.saving), 3):
                sheet.number(row, place, value, Look.TEXT, self.formats.money)
            said = f"{one.way} takes {one.way_min_each:.1f} paid minutes each, the torch {one.burn_min_each:.1f}"
            sheet.text(row, 6, said, Look.TEXT, wrap=True)
            sheet.fit_row(row, [(name, self.page.widths[0]), (said, self.page.widths[6])])
        left = len(look.cheaper) - _SHOWN
        said = f"{left} more lines would save less." if left > 0 else "" if look.cheaper else "Nothing."
        return self.page.say(row + 1, said, Look.GUIDE) if said else row + 1

    def _name(self, line: int) -> str:
        cuts = self.estimate.cuts
        return cuts.mark[line] or cuts.description[line] or f"row {int(cuts.row[line])}"

    def _names(self, lines: np.ndarray[tuple[int], np.dtype[np.int64]]) -> str:
        """The lines by name, not more than a cell can hold in a few rows."""
        named = list(dict.fromkeys(self._name(int(line)) for line in lines[:_SHOWN]))
        return ", ".join(named[:20]) + (f" and {len(named) - 20} more" if len(named) > 20 else "")
