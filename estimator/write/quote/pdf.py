"""The quote as a PDF, set by reportlab: the same page as the workbook, the same bytes each time."""

from __future__ import annotations

from typing import TYPE_CHECKING

from estimator.write.pdf_page import RULE, SHADE, PageParts, PageSetup, set_pages
from estimator.write.quote.page import PRICES, QuoteChanges, QuoteLine, QuotePage

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

__all__ = ["quote_pdf"]

_WIDTHS_MM = (18.0, 17.0, 64.0, 22.0, 17.0, 20.0, 23.0)
_SMALLER = (0.9, 0.8)
"""Sizes that are tried for a short quote; smaller print could not be read."""
_QUIET = "#595959"


def quote_pdf(page: QuotePage) -> bytes:
    """Return the quote as a PDF.

    Parameters
    ----------
    page : QuotePage
        What the customer is told.

    Returns
    -------
    bytes

    Notes
    -----
    A short quote that runs over by a little is set smaller, to stand on one page as the workbook does.
    Text is set in a font that holds Latin, Greek and Cyrillic letters where the machine has it, else in a Latin one,
    whose missing letters show as boxes. Source: definition.
    """
    made, pages = _set(page, 1.0)
    for size in _SMALLER if page.is_short and pages > 1 else ():
        smaller, pages = _set(page, size)
        if pages == 1:
            return smaller
    return made


def _set(page: QuotePage, size: float) -> tuple[bytes, int]:
    """Return the quote in letters of a size, as a share of the usual one, and how many pages it takes."""
    from reportlab.lib.units import mm
    from reportlab.platypus import Spacer

    setter = _Setter(size)
    gap = Spacer(1, 5 * mm * size)
    story: list[Flowable] = [
        *setter.head(page),
        gap,
        setter.lines(page),
        setter.sums(page),
        *([gap, *setter.changes(page.changes, page)] if page.changes else []),
        gap,
        setter.terms(page),
        gap,
        *setter.acceptance(page),
    ]
    setup = PageSetup(
        paper=page.paper,
        title=page.title,
        author=page.shop[0] if page.shop else "",
        side_mm=14,
        top_mm=16,
        bottom_mm=16,
        foot=page.title,
        foot_points=7.5,
        foot_up_points=24,
    )
    return set_pages(story, setup, setter.font)


class _Setter(PageParts):
    """Makes the parts of the quote."""

    def __init__(self, size: float) -> None:
        from reportlab.lib.styles import ParagraphStyle

        super().__init__(size, text_points=9 * size, leading_points=11.5 * size)
        self.right = ParagraphStyle("right", parent=self.text, alignment=2)
        self.strong_right = ParagraphStyle("strong right", parent=self.right, fontName=self.bold)
        self.title = ParagraphStyle("title", fontName=self.bold, fontSize=16 * size, leading=20 * size)
        self.quiet = ParagraphStyle("quiet", parent=self.text, textColor=_QUIET)

    def head(self, page: QuotePage) -> list[Flowable]:
        from reportlab.lib.units import mm
        from reportlab.platypus import Spacer

        shown = [self.say(text, self.title if row == 0 else self.text) for row, text in enumerate(page.shop)]
        rows = [[self.say(what, self.strong), self.say(text)] for what, text in page.facts]
        table = [self.table(rows, (28.0, 153.0))] if rows else []
        return [*shown, Spacer(1, 5 * mm * self.size), self.say(page.title, self.title), *table]

    def lines(self, page: QuotePage) -> Flowable:
        heads = page.headings[: PRICES[0]] if page.lump_sum else page.headings
        mark, drawing, description, *rest = _WIDTHS_MM
        if page.lump_sum:  # the description takes the room of the prices
            description, rest = description + sum(rest[-len(PRICES) :]), rest[: -len(PRICES)]
        widths = (mark, drawing, description, *rest)
        rows = [[self.say(h, self.strong_right if i > 3 else self.strong) for i, h in enumerate(heads)]]
        rows += [self._line(line, page) for line in page.lines]
        if not page.has_drawings:  # the description takes its room
            rows = [[row[0], *row[2:]] for row in rows]
            widths = (widths[0], widths[1] + widths[2], *widths[3:])
        style = [
            ("BACKGROUND", (0, 0), (-1, 0), SHADE),
            ("LINEBELOW", (0, 0), (-1, 0), 1.0, RULE),
            ("LINEBELOW", (0, 1), (-1, -1), 0.25, RULE),
        ]
        return self.table(rows, widths, style, repeat=1)

    def _line(self, line: QuoteLine, page: QuotePage) -> list[Flowable]:
        cells = [self.say(text) for text in (line.mark, line.drawing, line.words, line.steel)]
        cells.append(self.say(f"{line.quantity:,.6g}" if line.quantity else "", self.right))
        if not page.lump_sum:
            cells += [self.say(_money(minor, page), self.right) for minor in (line.price_each, line.amount)]
        return cells

    def sums(self, page: QuotePage) -> Flowable:
        rows, style = [], []
        for number, one in enumerate(page.sums):
            what, amount = (self.strong, self.strong_right) if one.strong else (self.text, self.right)
            rows.append([self.say(f"{one.what}, {page.currency}", what), self.say(_money(one.minor, page), amount)])
            if one.strong:
                style.append(("LINEABOVE", (0, number), (-1, number), 0.75, RULE))
        from reportlab.platypus import KeepTogether

        return KeepTogether([self.table(rows, (150.0, 31.0), style)])

    def changes(self, changes: QuoteChanges, page: QuotePage) -> list[Flowable]:
        rows = [
            [self.say(what), self.say(how), self.say(_signed(minor, page), self.right)]
            for what, how, minor in changes.rows
        ]
        return [self.say(changes.title, self.strong), self.table(rows, (50.0, 100.0, 31.0))]

    def terms(self, page: QuotePage) -> Flowable:
        rows = [[self.say(what, self.strong), self.say(text)] for what, text in page.terms]
        return self.table(rows or [[self.say(""), self.say("")]], (38.0, 143.0))

    def acceptance(self, page: QuotePage) -> list[Flowable]:
        from reportlab.lib.units import mm
        from reportlab.platypus import KeepTogether, Spacer

        row = [self.say(text, self.quiet) for text in ("Date", "Name and firm", "Signature")]
        line = self.table([row], (38.0, 80.0, 63.0), [("LINEABOVE", (0, 0), (-1, 0), 0.5, RULE)])
        accepted = self.say(f"Accepted as quoted in {page.title}:", self.strong)
        return [KeepTogether([accepted, Spacer(1, 14 * mm * self.size), line])]


def _money(minor: int | None, page: QuotePage) -> str:
    return "" if minor is None else f"{page.money(minor):,.{page.decimals}f}"


def _signed(minor: int | None, page: QuotePage) -> str:
    return f"+{_money(minor, page)}" if minor is not None and minor > 0 else _money(minor, page)
