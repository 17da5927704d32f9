"""An output workbook: XlsxWriter with our rules built in.

The same content gives the same bytes. A text from a user stays a text. A formula carries the value that the engine
computed. Every sheet prints on the shop's paper, one page wide, with its headings and page numbers.
"""

from __future__ import annotations

import datetime as dt
import io
import textwrap
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, isfinite
from typing import Any, BinaryIO

from xlsxwriter.format import Format
from xlsxwriter.packager import Packager
from xlsxwriter.utility import xl_rowcol_to_cell
from xlsxwriter.workbook import Workbook

from estimator.write.block_sheet import BlockSheet
from estimator.write.number_width import number_width
from estimator.write.package import StreamedPackager
from estimator.write.plain_text import plain_text
from estimator.write.styles import Look, Styles

__all__ = [
    "DOCUMENT_DATE",
    "LINE_HEIGHT",
    "BookSheet",
    "OutputBook",
    "Paper",
    "a1",
    "word_width",
    "wrapped_lines",
    "write_book",
]

DOCUMENT_DATE = dt.datetime(2000, 1, 1)
"""The date in every document's properties, so that two runs give one file; real dates stand in the sheets."""
_LONGEST_MESSAGE = 255
_LONGEST_PROMPT_TITLE = 32
_LONGEST_LIST = 255
LINE_HEIGHT = 15.0
"""Height of one line of text [points]."""
_USUAL_WIDTH = 8.43
"""Width of a column that is given none [digits]."""
_DIGIT, _CELL_MARGIN = 5.25, 3.75
"""Width of a digit, and of the margins of a cell beside it [points]."""
_FITTED = 0.75
"""Share of a page's width that is used: where a workbook's font is missing, a digit of the one in its place is up to
1.3 times as wide."""
_WIDEST_PAGE = 260.0
"""A sheet that is wider [digits] prints on several pages side by side; smaller print could not be read."""


@dataclass(frozen=True, slots=True)
class Paper:
    """The paper that a shop prints on."""

    name: str = "A4"
    """A4 or Letter."""

    @property
    def width(self) -> float:
        """Width between the margins [points]."""
        return {"A4": 595.3, "Letter": 612.0}[self.name] - 72.0

    @property
    def height(self) -> float:
        """Height between the margins [points]."""
        return {"A4": 841.9, "Letter": 792.0}[self.name] - 93.6

    @property
    def code(self) -> int:
        """Number of the paper size in a workbook (ECMA-376, part 1, pageSetup paperSize)."""
        return {"A4": 9, "Letter": 1}[self.name]


class BookSheet(BlockSheet):
    """One sheet of an output workbook; cells are counted from 0."""

    styles: Styles
    paper: Paper
    widths: dict[int, float]
    """Width of each column that was given one [digits]."""
    heights: dict[int, float]
    """Height of each row that was given one [points]."""

    def text(self, row: int, column: int, text: object, look: Look | Format = Look.TEXT, *, wrap: bool = False) -> None:
        """Write a text as a text, whatever it looks like; a blank one gives an empty cell of that look."""
        style = self._style(look, wrap=wrap)
        plain = plain_text(text)
        if plain:
            self.write_string(row, column, plain, style)
        else:
            self.write_blank(row, column, None, style)

    def number(self, row: int, column: int, value: float, look: Look | Format = Look.TEXT, number: str = "") -> None:
        """Write a finite number."""
        if not isfinite(value):
            raise ValueError(f"value of {a1(row, column)} must be finite, got {value}")
        style = self._style(look, number or "General")
        self.make_room(column, value, style)
        self.write_number(row, column, value, style)

    def date(self, row: int, column: int, date: dt.date, look: Look | Format = Look.TEXT) -> None:
        """Write a date."""
        self.write_datetime(row, column, dt.datetime(date.year, date.month, date.day), self._style(look, "yyyy-mm-dd"))

    def blank(self, row: int, column: int, look: Look | Format = Look.TEXT, number: str = "") -> None:
        """Give an empty cell a look."""
        self.write_blank(row, column, None, self._style(look, number))

    def worked(
        self,
        row: int,
        column: int,
        formula: str,
        value: float | str,
        look: Look | Format = Look.WORKED,
        number: str = "",
        *,
        wrap: bool = False,
    ) -> None:
        """Write a formula of our own making with the value the engine computed; never a formula with a user's text."""
        if not isinstance(value, str) and not isfinite(value):
            raise ValueError(f"stored value of {a1(row, column)} must be finite, got {value}")
        if isinstance(value, str):
            style = self.styles.get(look, number, wrap=wrap, align="left") if isinstance(look, Look) else look
            self.write_formula(row, column, formula, style, plain_text(value))
            return
        style = self._style(look, number, wrap=wrap)
        self.make_room(column, value, style)
        self.write_formula(row, column, formula, style, value)

    def make_room(self, column: int, value: float, style: Format) -> None:
        """Make a column wide enough for a number in the format of its cell."""
        width = number_width(value, str(style.num_format), font_size=style.font_size)
        if width > self.width(column):
            self.set_column(column, column, width)

    def width(self, column: int) -> float:
        """Return the width of a column [digits]."""
        return self.widths.get(column, _USUAL_WIDTH)

    def height(self, last_row: int) -> float:
        """Return the height of all rows down to the last [points]."""
        return sum(self.heights.get(row, LINE_HEIGHT) for row in range(last_row + 1))

    def set_column(self, first: int, last: int, width: float) -> None:
        """Set the width of columns [digits]."""
        self.widths |= dict.fromkeys(range(first, last + 1), width)
        super().set_column(first, last, width)

    def set_row(self, row: int, height: float) -> None:
        """Set the height of a row [points]."""
        self.heights[row] = height
        super().set_row(row, height)

    def jump(self, row: int, column: int, sheet: str, cell: str, shown: str) -> None:
        """Write a link to a cell of one of our own sheets; the text shown may be a user's, the target never is."""
        target = "internal:'" + sheet.replace("'", "''") + f"'!{cell}"
        self.write_url(row, column, target, self.styles.get(Look.LINK, wrap=True), plain_text(shown))

    def choice(self, row: int, column: int, last_row: int, choices: Sequence[str], *, title: str, message: str) -> None:
        """Offer a list in cells of one column; other entries are warned of, not refused."""
        options: dict[str, Any] = {"validate": "list", "source": list(choices), "error_type": "warning"}
        if len(",".join(choices)) > _LONGEST_LIST:
            options = {"validate": "any"}
        self._validation(row, column, last_row, options, title, message)

    def between(
        self, row: int, column: int, last_row: int, bounds: tuple[float, float], *, title: str, message: str
    ) -> None:
        """Warn of numbers outside plausible bounds in cells of one column."""
        low, high = bounds
        options = {"validate": "decimal", "criteria": "between", "minimum": low, "maximum": high}
        self._validation(row, column, last_row, {**options, "error_type": "warning"}, title, message)

    def not_negative(
        self, row: int, column: int, last_row: int, *, title: str, message: str, most: float | None = None
    ) -> None:
        """Warn of texts, and of numbers below zero or above the most, in typed cells; show what a cell does."""
        if most is not None:
            self.between(row, column, last_row, (0.0, most), title=title, message=message)
            return
        options = {"validate": "decimal", "criteria": ">=", "value": 0, "error_type": "warning"}
        self._validation(row, column, last_row, options, title, message)

    def prompt(self, row: int, column: int, last_row: int, *, title: str, message: str) -> None:
        """Show what a typed cell does while it is selected."""
        self._validation(row, column, last_row, {"validate": "any"}, title, message)

    def fit_row(self, row: int, texts: Iterable[tuple[str, float]]) -> None:
        """Make a row high enough for wrapped texts, each with the width of its column; no program does it for us."""
        lines = max((wrapped_lines(text, width) for text, width in texts), default=1)
        if lines > 1:
            self.set_row(row, LINE_HEIGHT * lines)

    def set_up_page(
        self,
        *,
        last_row: int,
        last_column: int,
        headings: tuple[int, int] | None = None,
        names: int = 0,
        blocks: Sequence[int] = (),
        landscape: bool = False,
    ) -> bool:
        """Set the sheet up for print: the shop's paper, one page wide, headings repeated, page numbers at the foot.

        A sheet too wide to be read so prints on several pages side by side, where ``names`` says how many columns on
        the left are repeated on each; returns whether it is so wide. ``blocks`` are the first rows of parts, as a table
        with its chart, that no page parts.
        """
        if landscape:
            self.set_landscape()
        self.set_paper(self.paper.code)
        self.set_margins(left=0.5, right=0.5, top=0.6, bottom=0.7)
        wide = ceil(sum(self.width(column) for column in range(last_column + 1)) / _WIDEST_PAGE) if names else 1
        self.fit_to_pages(wide, 0)
        if wide > 1:
            self.repeat_columns(0, names - 1)
        if blocks:
            self._keep_whole(blocks, last_row, last_column)
        self.print_area(0, 0, last_row, last_column)
        if headings is not None:
            self.repeat_rows(*headings)
        self.set_footer("&L&8&F&C&8&A&R&8&P / &N")
        return wide > 1

    def _keep_whole(self, blocks: Sequence[int], last_row: int, last_column: int) -> None:
        """Set the scale that fits the page's width, since fitting by the program would skip breaks, and set those."""
        points = sum(self.width(column) * _DIGIT + _CELL_MARGIN for column in range(last_column + 1))
        scale = min(1.0, _FITTED * self.paper.width / points)
        self.set_print_scale(int(scale * 100))
        page, top, breaks = self.paper.height / scale, 0, []
        for start, stop in pairwise([*blocks, last_row + 1]):
            if self.height(stop - 1) - self.height(top - 1) > page and start > top:
                breaks.append(top := start)
        self.set_h_pagebreaks(breaks)

    def _style(self, look: Look | Format, number: str = "", *, wrap: bool = False) -> Format:
        return self.styles.get(look, number, wrap=wrap) if isinstance(look, Look) else look

    def _validation(
        self, row: int, column: int, last_row: int, options: dict[str, Any], title: str, message: str
    ) -> None:
        said = plain_text(message)[:_LONGEST_MESSAGE]
        self.data_validation(
            row,
            column,
            last_row,
            column,
            {
                **options,
                "input_title": plain_text(title)[:_LONGEST_PROMPT_TITLE],
                "input_message": said,
                "error_title": plain_text(title)[:_LONGEST_PROMPT_TITLE],
                "error_message": said,
            },
        )


class OutputBook(Workbook):  # type: ignore[misc]
    """An output workbook, open for writing into a binary file."""

    def __init__(
        self, file: BinaryIO, *, title: str, author: str = "", subject: str = "", paper: Paper = Paper()
    ) -> None:
        # Our packager writes the file; XlsxWriter is left an empty package of its own to close.
        super().__init__(
            io.BytesIO(),
            {
                "strings_to_formulas": False,
                "strings_to_urls": False,
                "strings_to_numbers": False,
                "in_memory": True,
            },
        )
        self._file = file
        self.paper = paper
        self.styles = Styles(self)
        said = {"title": title, "author": author, "subject": subject}
        self.set_properties({name: plain_text(text) for name, text in said.items()} | {"created": DOCUMENT_DATE})

    def sheet(self, name: str) -> BookSheet:
        """Add a sheet with one of our own names."""
        sheet: BookSheet = self.add_worksheet(name, BookSheet)
        sheet.styles, sheet.paper = self.styles, self.paper
        sheet.widths, sheet.heights = {}, {}
        return sheet

    def name_cell(self, name: str, sheet: str, row: int, column: int) -> None:
        """Give a cell a name that formulas use."""
        self.define_name(name, f"='{sheet}'!{a1(row, column, absolute=True)}")

    def _get_packager(self) -> Packager:
        return StreamedPackager(self._file)


def write_book(
    build: Callable[[OutputBook], None],
    *,
    title: str,
    author: str = "",
    subject: str = "",
    paper: Paper = Paper(),
) -> Callable[[BinaryIO], None]:
    """Return the function that writes a workbook into an open file, for ``save``.

    Parameters
    ----------
    build : function of OutputBook
        Adds the sheets and their cells.
    title, author, subject : str
        What the document's properties say.
    paper : Paper
        The shop's paper.

    Returns
    -------
    function of a binary file

    Notes
    -----
    Source: definition.
    """

    def write(file: BinaryIO) -> None:
        whole = io.BytesIO()
        book = OutputBook(whole, title=title, author=author, subject=subject, paper=paper)
        build(book)
        book.close()
        file.write(whole.getbuffer())

    return write


def wrapped_lines(text: str, width: float) -> int:
    """Return the lines that a text takes in a column of a width in characters."""
    # A width is counted in digits: broader than small letters, narrower than capitals; one is taken for the margins.
    broad = max(int((width - 1.0) * (0.85 if text.isupper() else 1.05)), 1)
    if len(text) <= broad and "\n" not in text:
        return 1
    return sum(len(textwrap.wrap(part, broad)) or 1 for part in text.splitlines()) or 1


def word_width(heading: str) -> float:
    """Return the width of a column in which no word of a heading, in bold letters, is broken."""
    return max((len(word) for word in heading.split()), default=0) * 1.1 + 1.0


def a1(row: int, column: int, *, absolute: bool = False) -> str:
    """Return the address of a cell counted from 0: ``B3``, or ``$B$3``."""
    address: str = xl_rowcol_to_cell(row, column, row_abs=absolute, col_abs=absolute)
    return address
