"""The job card as a PDF: one page where it can be read on one, set by reportlab, the same bytes each time."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from estimator.pricing.job_card import CardGroup, CardLine, JobCard
from estimator.write.job_card.words import (
    LOG_HEADINGS,
    boxes,
    cut_words,
    facts,
    group_words,
    keep_words,
    log_row_words,
    log_title,
    mass_shown,
    mass_unit,
    note_words,
    piece_words,
    title_words,
)
from estimator.write.pdf_page import RULE, SHADE, PageParts, PageSetup, marked_up, set_pages

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

__all__ = ["job_card_pdf"]

_SIZES = (1.0, 0.92, 0.85, 0.78, 0.72)
"""Tried from the largest; smaller print cannot be read at the bench."""
_WIDTHS_MM = (18.0, 50.0, 34.0, 40.0, 11.0, 33.0)
_LOG_WIDTHS_MM = (44.0, 17.0, 13.0, 15.0, 15.0, 26.0, 26.0, 30.0)
_SPARE_ROWS = 2
"""Blank rows of the log: a second day, a second man."""
_HEADINGS = ("Mark", "Piece", "Centre of the cut", "Done", "{mass} each", "And")


def job_card_pdf(card: JobCard) -> bytes:
    """Return the job card.

    Parameters
    ----------
    card : JobCard
        The card.

    Returns
    -------
    bytes
        One page, as large as fits on it; several where even the smallest print does not.
    """
    for size in _SIZES:
        data, pages = _set(card, size)
        if pages == 1:
            return data
    return _set(card, _SIZES[1])[0]


def _set(card: JobCard, size: float) -> tuple[bytes, int]:
    """Set the card at a size; return it and how many pages it takes."""
    from reportlab.lib.units import mm
    from reportlab.platypus import Spacer

    setter = _Setter(card, size)
    gap = Spacer(1, 2.5 * mm * size)
    story = [setter.head(), gap, setter.work(), *setter.keep(), gap, *setter.cautions(), gap, *setter.log()]
    setup = PageSetup(
        paper=card.paper,
        title=title_words(card),
        side_mm=12,
        top_mm=10,
        bottom_mm=11,
        foot=f"{card.shop}  {title_words(card)}".strip(),
        foot_points=7,
        foot_up_points=18,
    )
    return set_pages(story, setup, setter.font)


class _Setter(PageParts):
    """Makes the card's parts at one size of print."""

    padding = (1.2, 1.6)

    def __init__(self, card: JobCard, size: float) -> None:
        from reportlab.lib.styles import ParagraphStyle

        text, small = 8.4 * size, 7.2 * size
        super().__init__(size, text_points=text, leading_points=text * 1.18)
        self.card = card
        self.small = ParagraphStyle("small", fontName=self.font, fontSize=small, leading=small * 1.15)
        self.title = ParagraphStyle("title", fontName=self.bold, fontSize=15 * size, leading=18 * size)

    def head(self) -> Flowable:
        pairs = facts(self.card)
        half = (len(pairs) + 1) // 2
        rows = [[self.say(title_words(self.card), self.title), "", "", ""]]
        for place in range(half):
            right = pairs[half + place] if half + place < len(pairs) else ("", "")
            said = (*pairs[place], *right)
            rows.append([self.say(text, self.text if column % 2 else self.strong) for column, text in enumerate(said)])
        return self.table(rows, (20.0, 83.0, 20.0, 63.0), [("SPAN", (0, 0), (-1, 0))])

    def work(self) -> Flowable:
        rows: list[list[Any]] = [
            [self.say(heading.format(mass=mass_unit(self.card)), self.strong) for heading in _HEADINGS]
        ]
        style: list[Any] = [("LINEBELOW", (0, 0), (-1, 0), 1.0, RULE), ("GRID", (0, 0), (-1, -1), 0.25, RULE)]
        for group in self.card.groups:
            at = len(rows)
            rows.append([self.group(group), *[""] * (len(_HEADINGS) - 1)])
            style += [("SPAN", (0, at), (-1, at)), ("BACKGROUND", (0, at), (-1, at), SHADE)]
            rows += [self.line(line) for line in group.lines]
        return self.table(rows, _WIDTHS_MM, style, repeat=1)

    def group(self, group: CardGroup) -> Flowable:
        from reportlab.platypus import Paragraph

        name, set_to = (marked_up(text) for text in group_words(group, self.card))
        return Paragraph(f'<font name="{self.bold}">{name}</font> &nbsp; {set_to}', self.text)

    def line(self, line: CardLine) -> list[Any]:
        mark = f"{line.mark}\n{line.drawing}" if line.drawing else line.mark
        notes = note_words(line, self.card)
        return [
            self.say(mark, self.strong),
            self.say(piece_words(line, self.card)),
            self.say(cut_words(line, self.card)),
            _boxes(line.quantity, self.size, self.font),
            self.say(f"{mass_shown(line, self.card):.1f}" if line.mass_each_kg else ""),
            self.say(notes, self.strong if line.heavy else self.small),
        ]

    def keep(self) -> list[Flowable]:
        said = keep_words(self.card)
        word = self.card.offcut_word.capitalize()
        rest = "_" * 30
        return [self.say(f"{word}s to keep: {said + '; ' if said else ''}others {rest}")]

    def cautions(self) -> list[Flowable]:
        said = " ".join(f"• {one.text}" for one in self.card.cautions)
        return [self.say(said, self.small), self.say("The settings card says the rest, with its sources.", self.small)]

    def log(self) -> list[Flowable]:
        from reportlab.lib.units import mm
        from reportlab.platypus import KeepTogether

        heads = [self.say(heading, self.strong) for heading in LOG_HEADINGS]
        known = [self.say(log_row_words(row, self.card), self.small) for row in self.card.log_rows]
        empty = [""] * (len(heads) - 1)
        rows = [heads, *[[first, *empty] for first in [*known, *[""] * _SPARE_ROWS]]]
        heights = [None, *[8.5 * mm * self.size] * (len(rows) - 1)]
        table = self.table(rows, _LOG_WIDTHS_MM, [("GRID", (0, 0), (-1, -1), 0.5, RULE)], heights=heights)
        return [KeepTogether([self.say(log_title(self.card), self.strong), table])]


def _boxes(quantity: int, size: float, font: str) -> Flowable:
    """Return a box to tick for each piece; for many, one at every ten, with how many are then done."""
    from reportlab.platypus import Flowable

    named = boxes(quantity)
    counted = bool(named[0])

    class Boxes(Flowable):  # type: ignore[misc]
        """Squares in rows, the quantity in front of them."""

        side, step = 6.0 * size, (22.0 if counted else 8.8) * size
        indent, down = 18.0 * size, 8.8 * size

        def wrap(self, width: float, height: float) -> tuple[float, float]:
            del height
            self.across = max(int((width - self.indent) // self.step), 1)
            self.rows = -(-len(named) // self.across)
            return width, self.down * self.rows + 1.5 * size

        def draw(self) -> None:
            top = self.down * self.rows
            self.canv.setFont(font, 8.4 * size)
            self.canv.drawString(0, top - 6.6 * size, str(quantity))
            self.canv.setLineWidth(0.5)
            self.canv.setFont(font, 6.0 * size)
            for place, done in enumerate(named):
                row, column = divmod(place, self.across)
                left, low = self.indent + column * self.step, top - (row + 1) * self.down + 1.4
                self.canv.rect(left, low, self.side, self.side)
                self.canv.drawString(left + self.side + 1.2, low + 1.0, done)

    return Boxes()
