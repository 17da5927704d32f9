"""The sheet of lines: what the owner reads and types into, one row for each row of the customer's list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from estimator.pricing.job import Estimate
from estimator.problems import Level, Place
from estimator.words import Steel
from estimator.write.estimate.live_table import LiveColumn
from estimator.write.estimate.look_of_numbers import MM_PER_INCH, NumberFormats
from estimator.write.read_as import interpreted, pieces_said, words_of
from estimator.write.styles import Look

__all__ = ["ListRows", "line_columns", "minutes_columns", "name_columns", "read_as_columns"]


class ListRows:
    """The rows of the customer's list in their order: priced lines, and rows that a problem keeps out of the price."""

    def __init__(self, estimate: Estimate) -> None:
        cuts = estimate.cuts
        sheets = {sheet: order for order, sheet in enumerate(dict.fromkeys(cuts.sheet))}
        places = [(sheet, int(row)) for sheet, row in zip(cuts.sheet, cuts.row, strict=True)]
        places += [(place.sheet, place.row) for place in estimate.unpriced]
        keys = [(sheets.get(sheet, len(sheets)), row, line) for line, (sheet, row) in enumerate(places)]
        where = {line: position for position, (_, _, line) in enumerate(sorted(keys))}
        self.count = len(keys)
        self.positions: list[int] = [where[line] for line in range(len(cuts))]
        self.unpriced: dict[int, str] = {
            where[len(cuts) + i]: f"row {place.row}: {_why(estimate, place)}"
            for i, place in enumerate(estimate.unpriced)
        }
        """Why each row without a price has none, by its place in the block."""


def line_columns(estimate: Estimate, rows: ListRows, formats: NumberFormats) -> list[LiveColumn]:
    """Return the columns that say what each line is.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    rows : ListRows
        Rows of the list.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of LiveColumn
    """
    cuts, x = estimate.cuts, estimate.job.lines
    scale = MM_PER_INCH if estimate.shop.shop.units == "in" else 1.0
    tips = [estimate.job.settings.tip[i] if i >= 0 else "" for i in x.setting]
    not_priced = dict.fromkeys(rows.unpriced, "NOT PRICED")
    width = _text_width(cuts.mark, 8, 16)
    quantity = LiveColumn("quantity", "Quantity", cuts.quantity, "pieces", formats.quantity, look=Look.TYPED)
    return [
        LiveColumn("list_row", "Row", cuts.row.astype(np.float64), "", formats.whole, width=6.0, look=Look.TEXT),
        LiveColumn("mark", "Mark", cuts.mark, width=width, look=Look.LABEL, wrap=True, elsewhere=not_priced),
        *_if_any("drawing", "Drawing", cuts.drawing, 9, 12),
        *_if_any("description", "Description", cuts.description, 14, 24),
        replace(
            quantity, prompt="Pieces of this line. Times, gas and price follow; readings of a shared row are kept."
        ),
        LiveColumn("shown_thickness", "Thickness", cuts.thickness_mm, "mm", formats.thickness, width=9.5),
        LiveColumn("what", "What", pieces_said(cuts, scale), width=25.0, wrap=True, look=Look.TEXT),
        LiveColumn("steel_word", "Steel", words_of(Steel, cuts.steel), width=9.0, look=Look.TEXT),
        LiveColumn("tip", "Tip", tips, width=7.0, look=Look.TEXT),
    ]


def name_columns(estimate: Estimate, sheet: str) -> list[LiveColumn]:
    """Return the row and the mark of every line, so that lines can be told apart on a sheet of figures.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    sheet : str
        The sheet they stand on.

    Returns
    -------
    list of LiveColumn
    """
    key, cuts = sheet.lower().replace(" ", "_"), estimate.cuts
    rows = cuts.row.astype(np.float64)
    return [
        LiveColumn(f"{key}_row", "Row", rows, "", "0", width=6.0, look=Look.TEXT),
        LiveColumn(f"{key}_mark", "Mark", cuts.mark, width=_text_width(cuts.mark, 8, 14), wrap=True, look=Look.LABEL),
    ]


def minutes_columns(estimate: Estimate, formats: NumberFormats) -> list[LiveColumn]:
    """Return the owner's own minutes, the paid minutes that hold, and those of one piece.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of LiveColumn
    """
    mine = LiveColumn("my_minutes", "My minutes", estimate.my_minutes, "whole line", formats.minutes, look=Look.TYPED)
    held = "IF(ISNUMBER([my_minutes]),[my_minutes],[worked_min])"
    each = estimate.paid_time_min / estimate.cuts.quantity
    return [
        replace(mine, prompt="Your own man-minutes for the whole line; they win over those worked out."),
        LiveColumn("paid_time_min", "Man-minutes", estimate.paid_time_min, "min", formats.minutes, (held,), width=9.5),
        LiveColumn(
            "min_each", "Minutes each", each, "min", formats.minutes, ("[paid_time_min]/[quantity]",), width=8.5
        ),
    ]


def read_as_columns(estimate: Estimate, rows: ListRows) -> list[LiveColumn]:
    """Return the typed reason for an own price, and what was interpreted or is wrong on each line."""
    notes = _notes(estimate)
    return [
        LiveColumn(
            "why",
            "Why",
            estimate.why or [""] * len(estimate.cuts),
            look=Look.TYPED,
            width=12.0,
            prompt="Why your own minutes or price hold; for you alone, the customer does not see it.",
        ),
        LiveColumn(
            "read_as", "Read as, warnings", notes, width=34.0, wrap=True, look=Look.TEXT, elsewhere=rows.unpriced
        ),
    ]


def _if_any(name: str, heading: str, texts: Sequence[str], low: int, high: int) -> list[LiveColumn]:
    if not any(texts):
        return []
    return [LiveColumn(name, heading, list(texts), width=_text_width(texts, low, high), wrap=True, look=Look.TEXT)]


def _text_width(texts: Sequence[str], low: int, high: int) -> float:
    return float(min(max([low, *(len(text) + 1 for text in texts)]), high))


def _notes(estimate: Estimate) -> list[str]:
    """Return, line by line, what was interpreted and which warnings there are."""
    cuts = estimate.cuts
    notes: list[list[str]] = [[] for _ in range(len(cuts))]
    for at, said in interpreted(cuts):
        notes[at].append(said)
    by_row = {(sheet, int(row)): line for line, (sheet, row) in enumerate(zip(cuts.sheet, cuts.row, strict=True))}
    for problem in estimate.problems:
        line = by_row.get((problem.place.sheet, problem.place.row))
        if line is not None and problem.level is not Level.ERROR:
            notes[line].append(f"{problem.code} {problem.fact}")
    return ["; ".join(dict.fromkeys(note)) for note in notes]


def _why(estimate: Estimate, place: Place) -> str:
    here = [p for p in estimate.problems if (p.place.sheet, p.place.row) == (place.sheet, place.row)]
    return "; ".join(f"{p.code} {p.fact}" for p in here if p.level is Level.ERROR)
