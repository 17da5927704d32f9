"""One table of a sheet that can be a cut list: its headings, its settled columns, its sorted rows."""

from __future__ import annotations

from dataclasses import dataclass, field

from estimator.problems.code import Place, Problem
from estimator.read.cells import CellValue, SheetCells, column_letters
from estimator.read.heading_rows import HeadingRow, cell_text, is_blank
from estimator.read.note_thickness import thickness_of_note
from estimator.read.row_kinds import RowKind, TableRows
from estimator.read.size import Size
from estimator.read.sizes import read_size

__all__ = ["Table"]


@dataclass(slots=True)
class Table:
    """One table that can be a cut list."""

    sheet: SheetCells
    heading: HeadingRow
    columns: dict[str, int]
    """Column of the sheet for each meaning that was settled."""
    rows: TableRows
    title: str = ""
    """Text straight above the headings."""
    problems: list[Problem] = field(default_factory=list)
    set_aside: bool = False
    """Not the table that the user names."""

    @property
    def units(self) -> dict[str, str]:
        """Unit that heading or units row names, by meaning."""
        named = {}
        for name, column in self.columns.items():
            heading = self.heading.found.get(column)
            if unit := self.heading.units.get(column) or (heading.unit if heading else ""):
                named[name] = unit
        return named

    @property
    def carried(self) -> dict[int, str]:
        """Headings of columns that are not read, by column of the sheet."""
        used = {c for name, c in self.columns.items() if not name.startswith(("material ", "grade ", "description "))}
        return {c: " ".join(text.split()) for c, text in self.heading.texts.items() if c not in used}

    def sample(self, column: int, many: int = 200) -> list[CellValue]:
        """Return the filled cells among the first rows below a heading."""
        first = self.heading.row + self.heading.rows
        rows = range(first, min(first + many, len(self.sheet.rows)))
        return [value for row in rows if not is_blank(value := self.sheet.value(row, column))]

    @property
    def has_measures(self) -> bool:
        """Whether the columns can tell what is cut: a quantity, and a thickness or a size."""
        if "quantity" not in self.columns:
            return False
        return bool({"thickness_mm", "size", "material", "work"} & set(self.columns)) or self._sizes_in_words()

    def _sizes_in_words(self) -> bool:
        """Return whether titles, descriptions or marks of the first rows hold thicknesses."""
        titles = [row for row, kind in self.rows.others.items() if kind is RowKind.TITLE][:20]
        words = [self.title, *(" ".join(map(cell_text, self.sheet.rows[row])) for row in titles)]
        if any(isinstance(size := read_size(text), Size) and size.thickness is not None for text in words if text):
            return True
        for name in ("description", "mark", "note"):
            column = self.columns.get(name)
            for row in self.rows.pieces[:30].tolist() if column is not None else ():
                text = cell_text(self.sheet.value(row, column or 0))
                if name == "note":
                    if thickness_of_note(text) is not None:
                        return True
                elif isinstance(size := read_size(text), Size) and size.thickness is not None:
                    return True
        return False

    @property
    def score(self) -> float:
        """How good a cut list this table is."""
        return (10.0 if self.has_measures else 1.0) * self.heading.score * max(len(self.rows.pieces), 0.5)

    def place(self, file: str, column: int | None = None) -> Place:
        """Return the place of the headings, or of one heading."""
        letters = column_letters(column) if column is not None else ""
        return Place(file, self.sheet.name, self.heading.row + 1, letters)
