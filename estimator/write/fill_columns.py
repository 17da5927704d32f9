"""What a filled list gets beside its rows: the prices, and how each row was read where that is asked for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from estimator.check.cut_list import CutList
from estimator.pricing.job import Estimate
from estimator.problems import Level, Place, WorkbookProblemsError
from estimator.problems import writing as codes
from estimator.words import Steel
from estimator.write.estimate.look_of_numbers import MM_PER_INCH
from estimator.write.fill import FillColumn, Filling, FillKind
from estimator.write.marked_list import reading_problems
from estimator.write.read_as import interpreted, pieces_said, words_of

__all__ = ["price_fillings"]

_NOT_PRICED = "not priced"
_WIDEST_NOTES = 160.0

Cell = str | float | None


def price_fillings(estimate: Estimate, *, read_as: bool = False) -> list[Filling]:
    """Return the columns to add to the customer's sheets: price each and amount, and the reading where asked for.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    read_as : bool
        Whether quantity, thickness, sizes and steel as they were read stand beside the prices.

    Returns
    -------
    list of Filling
        One for each table; of tables that stand side by side each has its own columns.

    Raises
    ------
    WorkbookProblemsError
        When the prices are the invented examples.

    Notes
    -----
    A row that has no price says so. Source: definition.
    """
    if estimate.shop.is_example:
        raise WorkbookProblemsError([codes.EXAMPLE_PRICES.at(Place(estimate.shop.file))])
    cuts, money = estimate.cuts, 10.0**estimate.shop.shop.decimals
    readings = _readings(estimate) if read_as else [()] * len(cuts)
    fillings = []
    for sheet, tables in _tables(cuts).items():
        for number, lines in enumerate(tables, 1):
            rows: dict[int, tuple[Cell, ...]] = {
                int(cuts.row[i]): (
                    float(estimate.lines.price_each[i]) / money,
                    float(estimate.lines.price[i]) / money,
                    *readings[i],
                )
                for i in lines
            }
            if number == 1:
                rows |= {place.row: (_NOT_PRICED,) for place in estimate.unpriced if place.sheet == sheet and place.row}
            which = f", table {number}" if len(tables) > 1 else ""
            columns = _columns(estimate, which, [row[-1] for row in readings if row])
            fillings.append(Filling(sheet, _heading_rows(cuts, sheet, min(rows)), columns, rows))
    return fillings


def _columns(estimate: Estimate, which: str, notes: Sequence[Cell]) -> tuple[FillColumn, ...]:
    """Return the columns of one table; those of the reading where there are notes on it, a blank one for each line."""
    shop = estimate.shop.shop
    prices = tuple(
        FillColumn(f"{what} {shop.currency}{which}", FillKind.MONEY, 14.0) for what in ("Price each", "Amount")
    )
    if not notes:
        return prices
    longest = max(len(str(note or "")) for note in notes)
    return (
        *prices,
        FillColumn(f"Quantity read{which}", FillKind.NUMBER, 14.0),
        FillColumn(f"Thickness read, {shop.units}{which}", FillKind.NUMBER, 20.0),
        FillColumn(f"Piece read, {shop.units}{which}", FillKind.TEXT, 32.0),
        FillColumn(f"Steel read{which}", FillKind.TEXT, 12.0),
        FillColumn(f"Notes on reading{which}", FillKind.TEXT, min(max(24.0, longest + 2.0), _WIDEST_NOTES)),
    )


def _tables(cuts: CutList) -> dict[str, list[list[int]]]:
    """Return the lines of each sheet, table by table: a row that does not come after the last begins another one."""
    tables: dict[str, list[list[int]]] = {}
    for line, sheet in enumerate(cuts.sheet):
        of_sheet = tables.setdefault(sheet, [[]])
        if of_sheet[-1] and cuts.row[line] <= cuts.row[of_sheet[-1][-1]]:
            of_sheet.append([])
        of_sheet[-1].append(line)
    return tables


def _heading_rows(cuts: CutList, sheet: str, first: int) -> tuple[int, ...]:
    """Return the rows of a sheet's headings; the row above the first line where the list does not tell."""
    told = next((counts.heading_rows for counts in cuts.counts if counts.sheet == sheet), None)
    return (first - 1,) if told is None and first > 1 else told or ()


def _readings(estimate: Estimate) -> list[tuple[Cell, ...]]:
    """Return for each line the quantity, thickness, piece and steel as they were read, and what was interpreted."""
    cuts = estimate.cuts
    scale = MM_PER_INCH if estimate.shop.shop.units == "in" else 1.0
    thickness = np.round(cuts.thickness_mm / scale, 6)
    notes: list[list[str]] = [[] for _ in range(len(cuts))]
    for line, said in [*interpreted(cuts), *_warnings(estimate)]:
        notes[line].append(said)
    return [
        (
            float(cuts.quantity[i]),
            None if np.isnan(thickness[i]) else float(thickness[i]),
            piece or None,
            steel or None,
            "; ".join(dict.fromkeys(notes[i])) or None,
        )
        for i, (piece, steel) in enumerate(zip(pieces_said(cuts, scale), words_of(Steel, cuts.steel), strict=True))
    ]


def _warnings(estimate: Estimate) -> Iterator[tuple[int, str]]:
    """Give each line with what reading it left in doubt."""
    cuts = estimate.cuts
    line_of = {(sheet, int(row)): i for i, (sheet, row) in enumerate(zip(cuts.sheet, cuts.row, strict=True))}
    for problem in reading_problems(estimate.problems):
        line = line_of.get((problem.place.sheet, problem.place.row))
        if line is not None and problem.level is not Level.ERROR:
            yield line, problem.fact
