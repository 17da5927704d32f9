"""Finds the unit of each length column of one table from all that the table says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from estimator.read.length_words import unit_of
from estimator.read.list_columns import ColumnReader
from estimator.read.list_units import BareUnit, UnitEvidence, bare_unit, evidence_of, evidence_of_sizes, format_unit
from estimator.read.text import plain_text

__all__ = ["TableUnits"]

_SIDES = ("length", "width", "diameter", "inside_diameter", "size_a_mm", "size_b_mm", "cut_length_mm")


@dataclass(slots=True)
class TableUnits:
    """The units of one table."""

    reader: ColumnReader
    named: Mapping[str, str]
    """Units that headings and units row name, by column."""
    title: str
    """Unit named above the table."""
    default: str | None
    _evidence: dict[str, UnitEvidence] = field(default_factory=dict)
    _formats: dict[str, dict[tuple[int, int], str]] = field(default_factory=dict)

    def of(self, name: str) -> BareUnit:
        """Return the unit of the bare numbers of a column."""
        named = self.named.get(name)
        in_column = self._unit_column()
        if named is None and in_column:
            return BareUnit(in_column, "named in the column of units")
        beside = UnitEvidence()
        for other in _SIDES:
            if other != name and other in self.reader.columns:
                found = self.evidence(other)
                beside.units |= found.units
                beside.explicit_mm += found.explicit_mm
        beside.bare = self.evidence(name).bare
        if name == "thickness_mm":
            beside = UnitEvidence()
        others = {u for other, u in self.named.items() if u in {"mm", "in"} and not other.startswith("mass")}
        formats = set((self.formats(name) or {}).values())
        own = self.evidence(name)
        return bare_unit(named, own, beside, formats=formats, title=self.title, others=others, default=self.default)

    def evidence(self, name: str) -> UnitEvidence:
        """Return what the texts of a column say; read once."""
        if name not in self._evidence:
            cells = [] if name in self.named else self.reader.values(name) or []
            if name == "size":
                texts = {cell for cell in cells if type(cell) is str}
                self._evidence[name] = evidence_of_sizes(map(self.reader.size_of, texts))
            else:
                self._evidence[name] = evidence_of(cells, self.reader.decimal)
        return self._evidence[name]

    def formats(self, name: str) -> dict[tuple[int, int], str] | None:
        """Return the number formats of a column's cells that show a unit; None where none does."""
        column = self.reader.columns.get(name)
        formats = self.reader.sheet.number_formats
        if column is None:
            return None
        if name not in self._formats:
            distinct = getattr(formats, "distinct", None)
            telling = {kind for kind in (distinct() if distinct else set(formats.values())) if format_unit(kind)}
            places = ((row, column) for row in self.reader.rows.tolist()) if telling else ()
            self._formats[name] = {place: kind for place in places if (kind := formats.get(place, "")) in telling}
        return self._formats[name] or None

    def _unit_column(self) -> str | None:
        """Return the one unit that a column of units names for lengths: mm, cm or in, beside nothing else."""
        cells = {plain_text(c).lower() for c in self.reader.values("unit") or [] if isinstance(c, str) and c.strip()}
        units = {unit_of(cell) for cell in cells}
        return units.pop() if len(units) == 1 and units <= {"mm", "cm", "in"} else None
