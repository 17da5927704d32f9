"""The settings card as a PDF: two tips a page to be read at arm's length, then the usual sequence and cautions."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

from estimator import __version__
from estimator.cautions import Caution
from estimator.check.shop_book import ShopBook
from estimator.pricing.rack.card import TipCard
from estimator.write.rack.card_words import (
    Figure,
    card_alarm,
    card_heading,
    card_notes,
    card_rows,
    card_subtitle,
    column_heading,
)

__all__ = ["TIPS_PER_PAGE", "card_note", "card_pdf"]

TIPS_PER_PAGE = 2
_MM = 72 / 25.4
_PAGES_MM = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
_MARGIN_MM, _HEAD_MM, _FOOT_MM = 14.0, 16.0, 16.0
_LABEL_MM = 46.0
_TITLE_MM, _COLUMN_HEAD_MM, _LARGE_MM, _SMALL_MM, _NOTE_MM = 17.0, 12.0, 14.0, 6.5, 4.2
_ALARM_MM = 6.0
_LARGEST = 1.2
"""Most that an entry is enlarged to fill its half of the page."""
_PLAIN, _BOLD, _SLANTED = "Helvetica", "Helvetica-Bold", "Helvetica-Oblique"
_MANUAL_FIRST = "Your torch's own manual and your local codes come first. Trained people only."


def card_pdf(cards: Sequence[TipCard], cautions: Sequence[Caution], *, title: str, note: str, paper: str) -> bytes:
    """Return the settings card.

    Parameters
    ----------
    cards : sequence of TipCard
        Tips, two to a page.
    cautions : sequence of Caution
        In the order of the work.
    title : str
        What the card is for: a job, a thickness.
    note : str
        A line under the title, such as that the shop is an example; may be empty.
    paper : str
        A4 or Letter.

    Returns
    -------
    bytes
        The same card gives the same bytes.
    """
    from reportlab.pdfgen.canvas import Canvas

    file = io.BytesIO()
    width, height = _PAGES_MM[paper]
    canvas = Canvas(file, pagesize=(width * _MM, height * _MM), invariant=1)
    canvas.setTitle("Settings card")
    sheets = _Sheets(canvas, width, height, title, note)
    for start in range(0, len(cards), TIPS_PER_PAGE):
        sheets.begin()
        half = (height - _HEAD_MM - _FOOT_MM) / TIPS_PER_PAGE
        for place, card in enumerate(cards[start : start + TIPS_PER_PAGE]):
            _tip(sheets, card, height - _HEAD_MM - place * half, half)
    _cautions(sheets, cautions)
    canvas.save()
    return file.getvalue()


def card_note(shop: ShopBook) -> str:
    """Return what stands at the head of every page: whose shop it is, and that it is invented where it is."""
    return f"{shop.shop.shop_name or 'shop'}{', EXAMPLE FIGURES' if shop.is_example else ''}"


class _Sheets:
    """Pages with head and foot; measures are in millimetres from the lower left corner."""

    def __init__(self, canvas: Any, width: float, height: float, title: str, note: str) -> None:
        self.canvas, self.width, self.height = canvas, width, height
        self._title, self._note, self._page = title, note, 0

    @property
    def inside(self) -> float:
        """Width between the margins."""
        return self.width - 2 * _MARGIN_MM

    def begin(self) -> None:
        """Begin a page."""
        if self._page:
            self.canvas.showPage()
        self._page += 1
        top = self.height - 9.0
        self.text(_MARGIN_MM, top, self._title, 10, bold=True, width=self.inside * 0.55)
        self.text(self.width - _MARGIN_MM, top, self._note, 10, right=True, width=self.inside * 0.44)
        self.rule(self.height - 11.5)
        self.rule(12.0)
        self.text(_MARGIN_MM, 7.5, _MANUAL_FIRST, 10, bold=True)
        self.text(self.width - _MARGIN_MM, 7.5, f"kerfledger {__version__}, page {self._page}", 8, right=True)

    def text(
        self, x: float, y: float, text: str, size: float, *, bold: bool = False, right: bool = False, width: float = 0.0
    ) -> None:
        """Write one line; made smaller where it is broader than a width."""
        font, said = _BOLD if bold else _PLAIN, _latin(text)
        fits = self.canvas.stringWidth(said, font, size) / _MM
        if width and fits > width:
            size *= width / fits
        self.canvas.setFont(font, size)
        draw = self.canvas.drawRightString if right else self.canvas.drawString
        draw(x * _MM, y * _MM, said)

    def bar(self, y: float, lines: Sequence[str], size: float, step: float) -> None:
        """Write white on black across the page: what must not be overlooked, in print without colour too."""
        high = step * len(lines) + 2.0
        self.canvas.rect(_MARGIN_MM * _MM, y * _MM, self.inside * _MM, high * _MM, stroke=0, fill=1)
        self.canvas.setFillGray(1)
        for place, line in enumerate(lines, 1):
            self.text(_MARGIN_MM + 2, y + high - step * place + 0.6, line, size, bold=True, width=self.inside - 4)
        self.canvas.setFillGray(0)

    def rule(self, y: float, weight: float = 0.6) -> None:
        """Draw a line between the margins."""
        self.canvas.setLineWidth(weight)
        self.canvas.line(_MARGIN_MM * _MM, y * _MM, (self.width - _MARGIN_MM) * _MM, y * _MM)

    def lines(self, text: str, size: float, width: float, font: str = _PLAIN) -> list[str]:
        """Break a text into lines of a width."""
        from reportlab.lib.utils import simpleSplit

        return list(simpleSplit(_latin(text), font, size, width * _MM))


def _tip(sheets: _Sheets, card: TipCard, top: float, room: float) -> None:
    """Draw one tip from its top edge down, as large as its half of the page allows."""
    rows = card_rows(card)
    notes = [line for note in card_notes(card) for line in sheets.lines(note, 10, sheets.inside)]
    needed = _TITLE_MM + _NOTE_MM * (len(notes) + 1) + sum(_LARGE_MM if r.large else _SMALL_MM for r in rows)
    alarm = sheets.lines(card_alarm(card), 14, sheets.inside - 4, _BOLD)
    needed += (_COLUMN_HEAD_MM if card.columns else 0.0) + (_ALARM_MM * len(alarm) + 4.0 if alarm else 0.0)
    k = min(_LARGEST, room / needed)
    y = top - 12.0 * k
    sheets.text(_MARGIN_MM, y, card_heading(card), 32 * k, bold=True, width=sheets.inside * 0.45)
    for place, line in enumerate(card_subtitle(card)):
        at = y + (4.5 - 6.0 * place) * k
        sheets.text(sheets.width - _MARGIN_MM, at, line, 13 * k, right=True, width=sheets.inside * 0.53)
    y = top - _TITLE_MM * k
    sheets.rule(y, 1.5)
    wide = (sheets.inside - _LABEL_MM) / max(len(card.columns), 1)
    places = [_MARGIN_MM + _LABEL_MM + place * wide for place in range(max(len(card.columns), 1))]
    if card.columns:
        sheets.text(_MARGIN_MM, y - 7.0 * k, "Thickness", 13 * k, bold=True, width=_LABEL_MM - 3)
        for x, column in zip(places, card.columns, strict=True):
            _large(sheets, x, y, column_heading(column, inch=card.inch), wide - 4, k)
        y -= _COLUMN_HEAD_MM * k
        sheets.rule(y)
    for row in rows:
        drop, size = (7.5, 13) if row.large else (4.7, 11)
        sheets.text(_MARGIN_MM, y - drop * k, row.label, size * k, bold=row.large, width=_LABEL_MM - 3)
        for x, figure in zip(places, row.figures, strict=True):
            (_large if row.large else _small)(sheets, x, y, figure, wide - 4, k)
        y -= (_LARGE_MM if row.large else _SMALL_MM) * k
        sheets.rule(y, 0.3)
    if alarm:
        y -= _ALARM_MM * k * len(alarm) + 4.0
        sheets.bar(y, alarm, 14 * k, _ALARM_MM * k)
    for line in notes:
        y -= _NOTE_MM * k
        sheets.text(_MARGIN_MM, y, line, 10)


def _large(sheets: _Sheets, x: float, y: float, figure: Figure, width: float, k: float) -> None:
    sheets.text(x, y - 6.5 * k, figure.main, 18 * k, bold=True, width=width)
    sheets.text(x, y - 10.7 * k, figure.beside, 12 * k, width=width)
    sheets.text(x, y - 13.3 * k, figure.span, 7 * k, width=width)


def _small(sheets: _Sheets, x: float, y: float, figure: Figure, width: float, k: float) -> None:
    both = f"{figure.main}, {figure.beside}" if figure.beside else figure.main
    sheets.text(x, y - 4.7 * k, both, 11 * k, width=width)


def _cautions(sheets: _Sheets, cautions: Sequence[Caution]) -> None:
    """Write the cautions by stage, each with its source small behind it."""
    y, stage = 0.0, ""
    for caution in cautions:
        said = sheets.lines(caution.text, 12, sheets.inside - 6)
        source = sheets.lines(f"[{caution.source}]", 7.5, sheets.inside - 6, _SLANTED)
        high = 5.0 * len(said) + 3.2 * len(source) + 2.0 + (10.0 if caution.stage != stage else 0.0)
        if y - high < _FOOT_MM:
            sheets.begin()
            y, stage = sheets.height - _HEAD_MM, ""
        if caution.stage != stage:
            stage = caution.stage
            y -= 8.0
            sheets.text(_MARGIN_MM, y, stage.upper(), 14, bold=True)
            y -= 2.0
        for place, line in enumerate(said):
            y -= 5.0
            if place == 0:
                sheets.text(_MARGIN_MM, y, "-", 12, bold=True)
            sheets.text(_MARGIN_MM + 5, y, line, 12)
        for line in source:
            y -= 3.2
            sheets.text(_MARGIN_MM + 5, y, line, 7.5)
        y -= 2.0


def _latin(text: str) -> str:
    """Replace what the standard fonts of a PDF do not hold."""
    return text.encode("cp1252", "replace").decode("cp1252")
