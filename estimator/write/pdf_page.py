"""What the quote and the job card as PDF share: fonts, paper, tables, the foot of a page, the same bytes each time."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape

from estimator.write.plain_text import plain_text

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

__all__ = ["RULE", "SHADE", "PageParts", "PageSetup", "marked_up", "page_fonts", "set_pages"]

SHADE, RULE = "#DCE6EE", "#8C8C8C"


@dataclass(frozen=True, slots=True)
class PageSetup:
    """Paper, margins and foot of a page."""

    paper: str
    """A4 or Letter."""
    title: str
    side_mm: float
    top_mm: float
    bottom_mm: float
    foot: str
    """What stands left of the page's number."""
    foot_points: float
    """Size of its letters."""
    foot_up_points: float
    author: str | None = None


class PageParts:
    """Makes a page's parts out of plain texts, in letters of a size, as a share of the usual one."""

    padding = (1.5, 1.5)
    """Room above and below the text of a table's row."""

    def __init__(self, size: float, *, text_points: float, leading_points: float) -> None:
        from reportlab.lib.styles import ParagraphStyle

        self.size = size
        self.font, self.bold = page_fonts()
        self.text = ParagraphStyle("text", fontName=self.font, fontSize=text_points, leading=leading_points)
        self.strong = ParagraphStyle("strong", parent=self.text, fontName=self.bold)

    def say(self, text: str, style: Any = None) -> Flowable:
        """Set a text; what looks like markup in it is shown as it is."""
        from reportlab.platypus import Paragraph

        return Paragraph(marked_up(text).replace("\n", "<br/>"), style or self.text)

    def table(
        self,
        rows: Sequence[Sequence[Any]],
        widths_mm: Sequence[float],
        style: Sequence[Any] = (),
        *,
        repeat: int = 0,
        heights: Any = None,
    ) -> Flowable:
        """Set a table whose first rows are repeated on each page."""
        from reportlab.lib.units import mm
        from reportlab.platypus import Table, TableStyle

        above, below = self.padding
        base = [
            ("VALIGN", (0, 0), (-1, -1), "TOP"),
            ("TOPPADDING", (0, 0), (-1, -1), above * self.size),
            ("BOTTOMPADDING", (0, 0), (-1, -1), below * self.size),
            ("LEFTPADDING", (0, 0), (-1, -1), 2),
            ("RIGHTPADDING", (0, 0), (-1, -1), 2),
        ]
        columns = [width * mm for width in widths_mm]
        table = Table(rows, colWidths=columns, rowHeights=heights, repeatRows=repeat, hAlign="LEFT")
        table.setStyle(TableStyle([*base, *style]))
        return table


def set_pages(story: list[Any], setup: PageSetup, font: str) -> tuple[bytes, int]:
    """Return the parts as a PDF, and how many pages they take.

    Parameters
    ----------
    story : list of Flowable
        The parts, in their order.
    setup : PageSetup
        Paper, margins and foot.
    font : str
        Of the foot.

    Returns
    -------
    tuple of bytes, int
    """
    from reportlab.lib.pagesizes import A4, letter
    from reportlab.lib.units import mm
    from reportlab.platypus import SimpleDocTemplate

    out = io.BytesIO()
    document = SimpleDocTemplate(
        out,
        pagesize=letter if setup.paper == "Letter" else A4,
        leftMargin=setup.side_mm * mm,
        rightMargin=setup.side_mm * mm,
        topMargin=setup.top_mm * mm,
        bottomMargin=setup.bottom_mm * mm,
        title=plain_text(setup.title),
        author=None if setup.author is None else plain_text(setup.author),
        invariant=1,
    )
    foot = _foot(setup, font)
    document.build(story, onFirstPage=foot, onLaterPages=foot)
    return out.getvalue(), document.page


def marked_up(text: str) -> str:
    """Return a text in which nothing acts as markup."""
    return escape(plain_text(text))


def page_fonts() -> tuple[str, str]:
    """Return a font and its bold: with Greek and Cyrillic where the machine has one, else reportlab's own Latin one."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFError, TTFont

    for plain, bold in (("DejaVuSans.ttf", "DejaVuSans-Bold.ttf"), ("Vera.ttf", "VeraBd.ttf")):
        try:
            pdfmetrics.registerFont(TTFont(plain, _found(plain)))
            pdfmetrics.registerFont(TTFont(bold, _found(bold)))
        except (TTFError, OSError):
            continue
        return plain, bold
    return "Helvetica", "Helvetica-Bold"


def _found(font: str) -> str:
    folder = Path("/usr/share/fonts/truetype/dejavu")
    return str(folder / font) if (folder / font).is_file() else font


def _foot(setup: PageSetup, font: str) -> Callable[[Any, Any], None]:
    def draw(canvas: Any, document: Any) -> None:
        canvas.saveState()
        canvas.setFont(font, setup.foot_points)
        canvas.drawString(document.leftMargin, setup.foot_up_points, plain_text(setup.foot))
        right = document.pagesize[0] - document.rightMargin
        canvas.drawRightString(right, setup.foot_up_points, f"Page {document.page}")
        canvas.restoreState()

    return draw
