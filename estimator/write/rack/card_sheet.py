"""The settings card as a sheet: the same entries as the PDF, two tips a printed page."""

from __future__ import annotations

from collections.abc import Sequence

from xlsxwriter.format import Format

from estimator.pricing.rack.card import COLUMNS_PER_TIP, TipCard
from estimator.write.book import BookSheet, OutputBook
from estimator.write.rack.card_pdf import TIPS_PER_PAGE
from estimator.write.rack.card_words import (
    CardRow,
    card_alarm,
    card_heading,
    card_notes,
    card_rows,
    card_subtitle,
    column_heading,
)
from estimator.write.styles import Look

__all__ = ["CARD", "write_card"]

CARD = "Settings card"
_MANUAL_FIRST = "Your torch's own manual and your local codes come first. Trained people only."
_LABEL_WIDTH, _FIGURE_WIDTH = 22, 18
_SIZES = (("main", 16, 23.0), ("beside", 12, 17.0), ("span", 8, 12.0))
"""The three lines of a large figure: which, its size [points], the height of its row."""


def write_card(book: OutputBook, cards: Sequence[TipCard]) -> None:
    """Write the card.

    Parameters
    ----------
    book : OutputBook
        Open for writing.
    cards : sequence of TipCard
        Tips at work.
    """
    sheet = book.sheet(CARD)
    sizes = {name: book.add_format({"bold": name == "main", "font_size": size}) for name, size, _ in _SIZES}
    sheet.set_column(0, 0, _LABEL_WIDTH)
    sheet.set_column(1, COLUMNS_PER_TIP, _FIGURE_WIDTH)
    sheet.set_row(0, 26)
    sheet.text(0, 0, "Settings card", Look.TITLE)
    sheet.text(1, 0, _MANUAL_FIRST, Look.LABEL)
    row, breaks = 3, []
    for number, card in enumerate(cards):
        if number and number % TIPS_PER_PAGE == 0:
            breaks.append(row)
        row = _tip(sheet, card, row, sizes) + 1
    sheet.set_h_pagebreaks(breaks)
    sheet.set_up_page(last_row=row, last_column=COLUMNS_PER_TIP)


def _tip(sheet: BookSheet, card: TipCard, row: int, sizes: dict[str, Format]) -> int:
    sheet.set_row(row, 28)
    sheet.text(row, 0, card_heading(card), Look.ANSWER)
    for line in card_subtitle(card):
        row += 1
        sheet.text(row, 0, line)
    row += 1
    if card.columns:
        head = CardRow(
            "Thickness", tuple(column_heading(column, inch=card.inch) for column in card.columns), large=True
        )
        row = _large(sheet, head, row, sizes)
    for entry in card_rows(card):
        if entry.large:
            row = _large(sheet, entry, row, sizes)
            continue
        sheet.text(row, 0, entry.label, Look.LABEL)
        for column, figure in enumerate(entry.figures, 1):
            sheet.text(row, column, ", ".join(part for part in (figure.main, figure.beside) if part), Look.WORKED)
        row += 1
    alarm = card_alarm(card)
    if alarm:
        sheet.merge_range(row, 0, row, COLUMNS_PER_TIP, alarm, sheet.styles.get(Look.STOP, wrap=True))
        sheet.set_row(row, 32)
        row += 1
    for note in card_notes(card):
        sheet.text(row, 0, note, Look.GUIDE)
        row += 1
    return row


def _large(sheet: BookSheet, entry: CardRow, row: int, sizes: dict[str, Format]) -> int:
    """Write a row that is read at arm's length: the shop's own unit, under it the other, and the range if any."""
    sheet.text(row, 0, entry.label, Look.LABEL)
    for name, _, high in _SIZES:
        texts = [getattr(figure, name) for figure in entry.figures]
        if not any(texts):
            continue
        sheet.set_row(row, high)
        for column, text in enumerate(texts, 1):
            sheet.text(row, column, text, sizes[name])
        row += 1
    return row
