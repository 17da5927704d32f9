"""Tables with a chart each: where the money goes, which lines carry it, what more sets cost, what moves the price."""

from __future__ import annotations

import numpy as np

from estimator.learning.ranges import Range
from estimator.pricing.job import Estimate
from estimator.write.book import a1
from estimator.write.estimate.charts import bar_chart, line_chart
from estimator.write.estimate.line_money import PART_HEADINGS
from estimator.write.estimate.live_table import LiveTables
from estimator.write.estimate.look_of_numbers import SHEETS, NumberFormats
from estimator.write.estimate.page import Page
from estimator.write.styles import Look

__all__ = ["AnswerCharts"]

_TOP_LINES = 10
_SETS = (1, 2, 3, 5, 10, 20, 50)
_BARS = 8
_BESIDE = (6, 7)
"""Columns beside the printed ones, for figures that a chart alone needs."""
_WIDE = 780
"""Width of a chart [pixels]: that of the printed columns."""
_LONGEST_LABEL = 28


class AnswerCharts:
    """Writes tables and charts one below the other; each returns the row below it."""

    def __init__(self, page: Page, estimate: Estimate, lines: LiveTables, formats: NumberFormats) -> None:
        self.page, self.estimate, self.lines, self.formats = page, estimate, lines, formats
        self.currency, self.minor = estimate.shop.shop.currency, 10.0**formats.decimals

    def money(self, row: int) -> int:
        """Write where the money goes, and its chart."""
        self.page.heads(row, "Where the money goes", self.currency, "Of net price", "", "")
        first = row + 1
        t = self.estimate.totals
        parts = [*((f"{part}_total", minor) for part, minor in t.parts.items())]
        labels = {f"{part}_total": heading for part, heading in PART_HEADINGS.items()}
        earned = t.taxable - t.delivery - t.cost
        for name, minor in [*parts, ("delivery_total", t.delivery), ("earned", earned)]:
            row += 1
            self.page.sheet.text(
                row, 0, {"delivery_total": "Delivery", "earned": "Earned"}.get(name, labels.get(name, "")), Look.LABEL
            )
            self.page.figure(row, 1, name, minor / self.minor, self.formats.money)
            share = minor / t.taxable if t.taxable else 0.0
            self.page.figure(row, 2, f"IF(net_price=0,0,{name}/net_price)", share, self.formats.share)
        chart = bar_chart(
            self.page.book,
            title="Where does the money go?",
            sheet=SHEETS.answer,
            categories=(first, 0, row, 0),
            series=[(self.currency, 1)],
            axis=f"{self.currency}, before tax",
            number=self.formats.money,
            size=(_WIDE, 300),
        )
        self.page.sheet.insert_chart(row + 2, 0, chart, {"object_position": 2})
        return row + 19

    def top_lines(self, row: int) -> int:
        """Write the lines that carry the cost, in the order when computed, with live figures."""
        cost = self.estimate.lines.cost
        if len(cost) < 2:
            return row
        order = np.argsort(-cost, kind="stable")[:_TOP_LINES]
        self.page.heads(
            row, "Lines that carry the cost", f"Cost, {self.currency}", f"Price, {self.currency}", "Of the cost", ""
        )
        first = row + 1
        for line in order:
            row += 1
            mark = self.estimate.cuts.mark[line] or f"row {int(self.estimate.cuts.row[line])}"
            description = self.estimate.cuts.description[line]
            self.page.sheet.text(row, 0, _short(f"{mark} {description}".strip()), Look.LABEL)
            for column, name, minor in ((1, "cost", cost[line]), (2, "price", self.estimate.lines.price[line])):
                sheet, at, place = self.lines.address(name, int(line))
                self.page.figure(row, column, f"'{sheet}'!{a1(at, place)}", minor / self.minor, self.formats.money)
            share = cost[line] / self.estimate.totals.cost if self.estimate.totals.cost else 0.0
            self.page.figure(row, 3, f"IF(cost_total=0,0,B{row + 1}/cost_total)", share, self.formats.share)
        chart = bar_chart(
            self.page.book,
            title="Which lines carry the cost?",
            sheet=SHEETS.answer,
            categories=(first, 0, row, 0),
            series=[(self.currency, 1)],
            axis=self.currency,
            number=self.formats.money,
            size=(_WIDE, 90 + 26 * len(order)),
        )
        self.page.sheet.insert_chart(row + 2, 0, chart, {"object_position": 2})
        return row + 2 + (90 + 26 * len(order)) // 20 + 2

    def by_sets(self, row: int) -> int:
        """Write what one set costs when several are ordered: set-up is shared, breaks and minimums are left out."""
        t = self.estimate.totals
        self.page.heads(
            row, "Price of one set, by sets ordered", f"{self.currency} a set", "", "", "Set-up shared; breaks left out"
        )
        first = row + 1
        per_set, once = (t.lines - t.quantity_break) / self.minor, t.job_rows / self.minor
        for sets in _SETS:
            row += 1
            self.page.sheet.number(row, 0, sets, Look.LABEL, "0")
            formula = f"lines_total-break_total+rows_total/A{row + 1}"
            self.page.figure(row, 1, formula, per_set + once / sets, self.formats.money)
        chart = line_chart(
            self.page.book,
            title="What does one set cost when more are ordered?",
            sheet=SHEETS.answer,
            categories=(first, 0, row, 0),
            series=[(f"{self.currency} a set", 1)],
            axes=("sets ordered", f"{self.currency} a set, before rush, discount and tax"),
            size=(_WIDE, 280),
        )
        self.page.sheet.insert_chart(row + 2, 0, chart, {"object_position": 2})
        return row + 18

    def what_moves(self, row: int, price_range: Range) -> int:
        """Write which figures move the price most, as they were when the range was computed."""
        self.page.heads(
            row,
            "What moves the price",
            "At its low",
            "At its high",
            "Of the doubt",
            "How to know it better",
        )
        first = row + 1
        for column, heading in zip(_BESIDE, ("at its low", "at its high"), strict=True):
            self.page.sheet.text(row, column, heading, Look.GUIDE)
        for bar in price_range.bars[:_BARS]:
            row += 1
            self.page.sheet.text(row, 0, bar.factor.name, Look.LABEL, wrap=True)
            for column, value, number in ((1, bar.low, "#,##0"), (2, bar.high, "#,##0"), (3, bar.share, "0%")):
                self.page.sheet.number(row, column, value, Look.TEXT, number)
            for column, end in zip(_BESIDE, (bar.low, bar.high), strict=True):
                self.page.sheet.number(row, column, end - price_range.likely, Look.GUIDE, "+#,##0;-#,##0;0")
            words = bar.factor.source + (f"; log {bar.factor.logging}" if bar.factor.logging else "")
            self.page.sheet.text(row, 4, words, Look.GUIDE, wrap=True)
            self.page.sheet.fit_row(row, [(bar.factor.name, self.page.widths[0]), (words, self.page.widths[4])])
        return self._tornado(first, row) if row >= first else row + 1

    def _tornado(self, first: int, last: int) -> int:
        """Draw how far each input alone moves the total from the likely one, the widest on top."""
        height = 110 + 26 * (last - first + 1)
        chart = bar_chart(
            self.page.book,
            title="What would move the price, and how far?",
            sheet=SHEETS.answer,
            categories=(first, 0, last, 0),
            series=[("at its low", _BESIDE[0]), ("at its high", _BESIDE[1])],
            axis=f"{self.currency} from the likely total",
            stacked=True,
            size=(_WIDE, height),
        )
        chart.set_y_axis({"reverse": True, "label_position": "low", "num_font": {"size": 9}})
        self.page.sheet.insert_chart(last + 2, 0, chart, {"object_position": 2})
        return last + 2 + height // 20 + 2


def _short(label: str) -> str:
    """Return a label that fits its column."""
    return label if len(label) <= _LONGEST_LABEL else label[: _LONGEST_LABEL - 1] + "…"
