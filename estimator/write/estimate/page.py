"""A sheet that reads from top to bottom: headings, sentences across the page, and figures, live where they may be."""

from __future__ import annotations

from collections.abc import Sequence

from estimator.write.book import BookSheet, OutputBook
from estimator.write.styles import Look

__all__ = ["Page"]

_TITLE_HEIGHT = 28.0


class Page:
    """One sheet with its column widths; ``figures`` are the columns of numbers. Rows and columns count from 0."""

    def __init__(
        self, book: OutputBook, name: str, widths: Sequence[float], *, live: bool, figures: Sequence[int] = ()
    ) -> None:
        self.book, self.widths, self.live, self.figures = book, widths, live, figures
        self.sheet: BookSheet = book.sheet(name)
        self.name = name
        for column, width in enumerate(widths):
            self.sheet.set_column(column, column, width)

    def title(self, text: str) -> None:
        """Write the sheet's title in its first row."""
        self.sheet.set_row(0, _TITLE_HEIGHT)
        self.sheet.text(0, 0, text, Look.TITLE)

    def heads(self, row: int, *headings: str) -> None:
        """Write a row of headings across the page."""
        shown = [*headings, *[""] * (len(self.widths) - len(headings))]
        for column, heading in enumerate(shown):
            align = "right" if column in self.figures else "left" if column else ""
            self.sheet.text(row, column, heading, self.book.styles.get(Look.HEADING, align=align))
        self.sheet.fit_row(row, zip(shown, self.widths, strict=True))

    def say(self, row: int, text: str, look: Look = Look.TEXT) -> int:
        """Write a sentence across the page; return the row below it."""
        style = self.book.styles.get(look, wrap=True)
        self.sheet.merge_range(row, 0, row, len(self.widths) - 1, "", style)
        self.sheet.text(row, 0, text, style)
        self.sheet.fit_row(row, [(text, sum(self.widths))])
        return row + 1

    def figure(
        self, row: int, column: int, formula: str, value: float | str, number: str = "", look: Look = Look.WORKED
    ) -> None:
        """Write a figure that the engine worked out, with its formula (without =) in a live workbook."""
        if self.live:
            self.sheet.worked(row, column, f"={formula}", value, look, number)
        elif isinstance(value, str):
            self.sheet.text(row, column, value, look)
        else:
            self.sheet.number(row, column, value, look, number)

    def named(
        self, name: str, row: int, column: int, formula: str, value: float, number: str, look: Look = Look.WORKED
    ) -> None:
        """Write a figure and give its cell a name."""
        self.figure(row, column, formula, value, number, look)
        self.book.name_cell(name, self.name, row, column)

    def words(self, row: int, column: int, text: str, look: Look = Look.GUIDE) -> None:
        """Write a text that breaks inside its column, and make the row high enough."""
        self.sheet.text(row, column, text, look, wrap=True)
        self.sheet.fit_row(row, [(text, self.widths[column])])
