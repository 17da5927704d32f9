"""A checked cut list: one array per column, in list order. Blank numbers are NaN, blank words are ``BLANK``."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from estimator.words import BLANK, Work

__all__ = ["NOT_COLUMNS", "CutList", "ReadAs", "RowCounts", "TitleBlock"]

Floats = NDArray[np.float64]
Codes = NDArray[np.int8]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What stands above the table; empty where the list says nothing."""

    customer: str = ""
    job: str = ""
    job_date: str = ""
    """ISO 8601 date, or empty."""
    quote_number: str = ""
    revision: str = ""
    units: str = ""
    steel: str = ""
    labour_rate: str = ""
    rush: float = 0.0
    other: tuple[tuple[str, str], ...] = ()
    """Anything else, kept and shown."""


@dataclass(frozen=True, slots=True)
class RowCounts:
    """Every row of a sheet, accounted for; the counts add to the rows of the sheet."""

    sheet: str
    rows: int
    by_kind: dict[str, int]
    """priced, title, heading, units, subtotal, note, blank, problem, other table."""
    heading_rows: tuple[int, ...] = ()
    """Rows in which the headings of its tables begin, as the spreadsheet numbers them; none for a list without any."""


@dataclass(frozen=True, slots=True)
class ReadAs:
    """One interpreted value: what stood in the cell and how it was read."""

    line: int
    """Index of the line in the list, from 0."""
    column: str
    """House name."""
    cell: str
    original: str
    read_as: str


@dataclass(slots=True)
class CutList:
    """A checked cut list of n lines. Words of closed lists are held as codes (``estimator.words``)."""

    mark: list[str]
    quantity: Floats
    thickness_mm: Floats
    sheet: list[str] = field(default_factory=list)
    row: NDArray[np.int64] = field(default_factory=lambda: np.empty(0, dtype=np.int64))
    """Row as the spreadsheet numbers it, from 1."""
    drawing: list[str] = field(default_factory=list)
    description: list[str] = field(default_factory=list)
    work: Codes = field(default_factory=lambda: np.empty(0, dtype=np.int8))
    other_work: list[str] = field(default_factory=list)
    shape: Codes = field(default_factory=lambda: np.empty(0, dtype=np.int8))
    size_a_mm: Floats = field(default_factory=lambda: np.empty(0))
    size_b_mm: Floats = field(default_factory=lambda: np.empty(0))
    section_area_cm2: Floats = field(default_factory=lambda: np.empty(0))
    section_length_mm: Floats = field(default_factory=lambda: np.empty(0))
    thickest_mm: Floats = field(default_factory=lambda: np.empty(0))
    """What the tip must reach in a section, where that is more than its mean thickness; no column of a list."""
    shape_in_words: Flags = field(default_factory=lambda: np.empty(0, dtype=np.bool_))
    """Whether words name a shape that the sizes do not make, so that the cut length is its own; no column of a list."""
    holes: Floats = field(default_factory=lambda: np.empty(0))
    hole_diameter_mm: Floats = field(default_factory=lambda: np.empty(0))
    burn_holes: Flags = field(default_factory=lambda: np.empty(0, dtype=np.bool_))
    cut_length_mm: Floats = field(default_factory=lambda: np.empty(0))
    total_cut_length_mm: Floats = field(default_factory=lambda: np.empty(0))
    pierces: Floats = field(default_factory=lambda: np.empty(0))
    edge_starts: Floats = field(default_factory=lambda: np.empty(0))
    made_from: Codes = field(default_factory=lambda: np.empty(0, dtype=np.int8))
    mill_sides: Floats = field(default_factory=lambda: np.empty(0))
    mill_ends: Floats = field(default_factory=lambda: np.empty(0))
    shared_cuts: Flags = field(default_factory=lambda: np.empty(0, dtype=np.bool_))
    method: Codes = field(default_factory=lambda: np.empty(0, dtype=np.int8))
    torches: Floats = field(default_factory=lambda: np.empty(0))
    bevel_deg: Floats = field(default_factory=lambda: np.empty(0))
    bevel_length_mm: Floats = field(default_factory=lambda: np.empty(0))
    bevel_sides: Floats = field(default_factory=lambda: np.empty(0))
    root_face_mm: Floats = field(default_factory=lambda: np.empty(0))
    surface: Codes = field(default_factory=lambda: np.empty(0, dtype=np.int8))
    stack: Floats = field(default_factory=lambda: np.empty(0))
    steel: Codes = field(default_factory=lambda: np.empty(0, dtype=np.int8))
    grade: list[str] = field(default_factory=list)
    edge_finish: Codes = field(default_factory=lambda: np.empty(0, dtype=np.int8))
    site: Codes = field(default_factory=lambda: np.empty(0, dtype=np.int8))
    tip: list[str] = field(default_factory=list)
    flame_min_each: Floats = field(default_factory=lambda: np.empty(0))
    heated_kg_each: Floats = field(default_factory=lambda: np.empty(0))
    heats: Floats = field(default_factory=lambda: np.empty(0))
    wait_min_each: Floats = field(default_factory=lambda: np.empty(0))
    minutes_each: Floats = field(default_factory=lambda: np.empty(0))
    labour_rate: list[str] = field(default_factory=list)
    note: list[str] = field(default_factory=list)
    bare_in_inches: Flags = field(default_factory=lambda: np.empty(0, dtype=np.bool_))
    """Whether numbers of the line's table that name no unit are inches or feet; no column of a list."""
    title: TitleBlock = field(default_factory=TitleBlock)
    read_as: list[ReadAs] = field(default_factory=list)
    unknown: dict[str, list[Any]] = field(default_factory=dict)
    """Columns that the engine does not know, by heading, carried to the estimate untouched."""
    counts: list[RowCounts] = field(default_factory=list)
    column_letters: dict[str, str] = field(default_factory=dict)
    """House name to the letters of the column it was read from, where all lines share one table."""
    file: str = ""
    sha256: str = ""

    def __post_init__(self) -> None:
        """Fill every column that was not given with blanks of the right length."""
        n = len(self.mark)
        for item in fields(self):
            if item.name in NOT_COLUMNS:
                continue
            value = getattr(self, item.name)
            if len(value) == 0 and n:
                setattr(self, item.name, _blanks(value, n))
            elif len(value) != n:
                raise ValueError(f"column {item.name} has {len(value)} values for {n} lines")

    def __len__(self) -> int:
        return len(self.mark)

    @property
    def is_piece(self) -> Flags:
        """Which lines make pieces, so that none is counted twice.

        A line that is cut out does. A row of bending, of other work, of holes or of a bevel alone works on the pieces
        of its mark, where a line of that mark is cut out; a row of work without a mark, as a trip, makes none, nor does
        a bought part left in the list at no price.
        """
        sized = (self.shape != BLANK) | ~np.isnan(self.cut_length_mm) | ~np.isnan(self.total_cut_length_mm)
        made = np.isin(self.work, (Work.CUT, BLANK)) & sized
        cut_out = {self.mark[line] for line in np.flatnonzero(made).tolist()} | {""}
        alone = np.array([mark not in cut_out for mark in self.mark], dtype=np.bool_)
        at_no_price = (self.work == Work.OTHER) & (self.minutes_each == 0)
        return np.asarray(made | (alone & ~at_no_price), dtype=np.bool_)

    @property
    def pieces(self) -> float:
        """How many pieces of steel the list makes."""
        return float(self.quantity[self.is_piece].sum())

    def take(self, lines: Sequence[int] | NDArray[np.int64]) -> CutList:
        """Return the list with only these lines, in this order; ``read_as`` follows them."""
        index = np.asarray(lines, dtype=np.int64)
        new_of = {int(old): new for new, old in enumerate(index)}
        chosen: dict[str, Any] = {}
        for item in fields(self):
            if item.name not in NOT_COLUMNS:
                value = getattr(self, item.name)
                chosen[item.name] = [value[i] for i in index] if isinstance(value, list) else value[index]
        chosen["unknown"] = {k: [v[i] for i in index] for k, v in self.unknown.items()}
        chosen["read_as"] = [replace(r, line=new_of[r.line]) for r in self.read_as if r.line in new_of]
        return replace(self, **chosen)


NOT_COLUMNS = frozenset({"title", "read_as", "unknown", "counts", "column_letters", "file", "sha256"})
"""What a list holds beside its columns."""


def _blanks(like: list[str] | NDArray[Any], n: int) -> list[str] | NDArray[Any]:
    if isinstance(like, list):
        return [""] * n
    if like.dtype == np.int8:
        return np.full(n, BLANK, dtype=np.int8)
    if like.dtype == np.bool_:
        return np.zeros(n, dtype=np.bool_)
    if like.dtype == np.int64:
        return np.zeros(n, dtype=np.int64)
    return np.full(n, np.nan)
