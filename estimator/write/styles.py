"""How cells look. Each look has a name that shows in the spreadsheet program's list of cell styles.

A typed cell is boxed and tinted, a worked-out cell is plain, an assumed one is italic in a dotted box: the three differ
in print without colour too. Colours are from the set by M. Okabe and K. Ito, made to be told apart by everybody.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from xlsxwriter.format import Format
from xlsxwriter.packager import Packager
from xlsxwriter.styles import Styles as StylesPart
from xlsxwriter.styles import XFormatType
from xlsxwriter.workbook import Workbook

__all__ = ["CHART_COLOURS", "Look", "NamedStylesPackager", "Styles", "money_format", "series_fill"]

# Okabe and Ito, "Color Universal Design", 2008; ordered so that neighbours differ in grey as well.
CHART_COLOURS = ("#0072B2", "#E69F00", "#56B4E9", "#D55E00", "#009E73", "#F0E442", "#CC79A7", "#000000")

_PATTERNS = (
    "",
    "wide_upward_diagonal",
    "dotted_grid",
    "narrow_horizontal",
    "wide_downward_diagonal",
    "large_confetti",
    "trellis",
    "light_vertical",
)
_INK, _QUIET, _LINE = "#1A1A1A", "#595959", "#8C8C8C"


class Look(StrEnum):
    """What a cell is, and so how it looks. The value is the name in the spreadsheet program."""

    TEXT = "Text"
    TITLE = "Sheet title"
    SUBTITLE = "Section title"
    GUIDE = "Guide"
    HEADING = "Column heading"
    UNIT = "Unit row"
    LABEL = "Row name"
    TYPED = "Typed"
    WORKED = "Worked out"
    ASSUMED = "Assumed"
    TOTAL = "Total"
    ANSWER = "Answer"
    CAUTION = "Caution"
    STOP = "Stop"
    LINK = "Jump"


_LOOKS: dict[Look, dict[str, Any]] = {
    Look.TEXT: {},
    Look.TITLE: {"bold": True, "font_size": 16},
    Look.SUBTITLE: {"bold": True, "font_size": 12, "bottom": 1, "bottom_color": _LINE},
    Look.GUIDE: {"italic": True, "font_color": _QUIET, "valign": "top"},
    Look.HEADING: {"bold": True, "bg_color": "#DCE6EE", "bottom": 1, "text_wrap": True, "valign": "bottom"},
    Look.UNIT: {"italic": True, "font_color": _QUIET, "bottom": 1, "bottom_color": _LINE},
    Look.LABEL: {"bold": True},
    Look.TYPED: {"bg_color": "#FFF6CC", "border": 1, "border_color": _LINE},
    Look.WORKED: {},
    Look.ASSUMED: {"italic": True, "bg_color": "#F7E3D4", "border": 4, "border_color": _LINE},
    Look.TOTAL: {"bold": True, "top": 1, "bottom": 6},
    Look.ANSWER: {"bold": True, "font_size": 18},
    Look.CAUTION: {"bg_color": "#FBE7B5", "left": 5, "left_color": "#E69F00"},
    Look.STOP: {"bold": True, "bg_color": "#F3CDB8", "left": 5, "left_color": "#D55E00"},
    Look.LINK: {"underline": 1, "font_color": "#0B5394"},
}


_WORDS = (Look.TEXT, Look.GUIDE)


def series_fill(index: int) -> dict[str, Any]:
    """Return how a chart shows one of several series: a colour and a pattern of its own, so that grey tells it too.

    Parameters
    ----------
    index : int
        Number of the series, from 0.

    Returns
    -------
    dict
        For a series of XlsxWriter: a fill or a pattern.
    """
    at = index % len(CHART_COLOURS)
    if not _PATTERNS[at]:
        return {"fill": {"color": CHART_COLOURS[at]}}
    return {"pattern": {"pattern": _PATTERNS[at], "fg_color": CHART_COLOURS[at], "bg_color": "#FFFFFF"}}


@dataclass(slots=True)
class Styles:
    """The formats of one workbook, made once each."""

    workbook: Workbook
    _made: dict[tuple[Look, str, bool, str], Format]

    def __init__(self, workbook: Workbook) -> None:
        self.workbook = workbook
        self._made = {}

    def get(self, look: Look, number: str = "", *, wrap: bool = False, align: str = "") -> Format:
        """Return the format of a look; ``wrap`` breaks long text, ``align`` is right, or left with a small indent."""
        key = (look, number, wrap, align)
        if key not in self._made:
            properties: dict[str, Any] = {"font_color": _INK, "valign": "top", **_LOOKS[look]}
            if number:
                properties["num_format"] = number
            if wrap:
                properties["text_wrap"] = True
            if align == "left" or (not align and not number and look in _WORDS):
                properties |= {"align": "left", "indent": 1}  # words keep off the number on their left
            elif align:
                properties["align"] = align
            self._made[key] = self.workbook.add_format(properties)
            self._made[key].xf_id = list(Look).index(look)
        return self._made[key]


class _NamedStylesPart(StylesPart):  # type: ignore[misc]
    """The styles part with our looks as named cell styles; XlsxWriter itself writes the name Normal alone."""

    def _write_cell_style_xfs(self) -> None:
        samples = self._samples()
        self._xml_start_tag("cellStyleXfs", [("count", len(samples))])
        for sample in samples:
            self._write_xf(sample, XFormatType.STYLE)
        self._xml_end_tag("cellStyleXfs")

    def _write_cell_styles(self) -> None:
        self._xml_start_tag("cellStyles", [("count", len(Look))])
        self._xml_empty_tag("cellStyle", [("name", "Normal"), ("xfId", 0), ("builtinId", 0)])
        for index, look in enumerate(Look):
            if index:
                self._xml_empty_tag("cellStyle", [("name", str(look)), ("xfId", index)])
        self._xml_end_tag("cellStyles")

    def _samples(self) -> list[Format]:
        """Return one format of each look, the plain one where a look is not used."""
        first: dict[int, Format] = {}
        for xf_format in self.xf_formats:
            first.setdefault(xf_format.xf_id, xf_format)
        return [first.get(index, self.xf_formats[0]) for index in range(len(Look))]


class NamedStylesPackager(Packager):  # type: ignore[misc]
    """XlsxWriter's packager with the styles part above."""

    def _write_styles_file(self) -> None:
        book = self.workbook
        part = _NamedStylesPart()
        part._set_style_properties(
            [
                book.xf_formats,
                book.palette,
                book.font_count,
                book.num_formats,
                book.border_count,
                book.fill_count,
                book.custom_colors,
                book.dxf_formats,
                book.has_comments,
            ]
        )
        part._set_xml_writer(self._filename("xl/styles.xml"))
        part._assemble_xml_file()


def money_format(decimals: int) -> str:
    """Return the number format of money; the currency stands in headings, not in every cell."""
    return "#,##0" + ("." + "0" * decimals if decimals else "")
