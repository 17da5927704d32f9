"""Which unit the bare numbers of a list have: named by heading, format, title or the list's own texts, or asked."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from estimator.read.cells import CellValue
from estimator.read.dates import is_fraction_format
from estimator.read.length_words import MM_PER, UNIT_NAMES, unit_of
from estimator.read.lengths import Length, read_length
from estimator.read.numbers import Refused
from estimator.read.size import Size

__all__ = ["BareUnit", "UnitEvidence", "bare_unit", "evidence_of", "evidence_of_sizes", "format_unit", "said_in"]


@dataclass(frozen=True, slots=True)
class BareUnit:
    """The unit of numbers that name none."""

    unit: str | None
    """A length unit, ``ga`` for gauge numbers, or None when bare numbers must be asked."""
    source: str
    """Where it is from, to complete the sentence 'which is …'."""
    sure: bool = True
    """Named by heading, units row, number format or title block."""


@dataclass(slots=True)
class UnitEvidence:
    """What the texts of a column say about units, and how large its bare numbers are."""

    units: set[str] = field(default_factory=set)
    """Units that texts name; feet count as inches."""
    fractions: bool = False
    """Whether fractions without a unit stand in it."""
    explicit_mm: list[float] = field(default_factory=list)
    bare: list[float] = field(default_factory=list)

    def fits(self, unit: str) -> bool:
        """Return whether the bare numbers, in this unit, are of the size of the lengths that name theirs."""
        if not self.explicit_mm or not self.bare:
            return True
        low, high = min(self.explicit_mm) / 10, max(*(4 * mm for mm in self.explicit_mm), 4 * float(MM_PER[unit]))
        factor = float(MM_PER[unit])
        return low <= min(self.bare) * factor and max(self.bare) * factor <= high


_FORMAT_UNIT = re.compile(r"[\"\\ ](mm|cm|in|inch|ft|m)[\"\\ ]*$|\\?[\"]{3,4}$|\\\"", re.IGNORECASE)


def said_in(bare: BareUnit, *sizes_mm: float, rounded: bool = False) -> str:
    """Return sizes as a list says its own: in inches where they are inches or feet, else in mm.

    Examples
    --------
    >>> said_in(BareUnit("in", ""), 304.8, 203.2), said_in(BareUnit("in", ""), 1088.4, rounded=True)
    ('12 x 8 in', '42.85 in')
    >>> said_in(BareUnit("mm", ""), 300.0, 200.5), said_in(BareUnit("m", ""), 1088.4, rounded=True)
    ('300 x 200.5 mm', '1088 mm')
    """
    inches = bare.unit in {"in", "ft"}
    places = (".2f" if inches else ".0f") if rounded else ".6g"
    factor = float(MM_PER["in"]) if inches else 1.0
    return " x ".join(f"{mm / factor:{places}}" for mm in sizes_mm) + (" in" if inches else " mm")


def evidence_of(cells: Iterable[CellValue], decimal: str | None = None) -> UnitEvidence:
    """Return what the cells of a column say about its unit."""
    found = UnitEvidence()
    kinds = list(cells)
    found.bare = [c for c in kinds if type(c) is float and c > 0]
    if str not in set(map(type, kinds)):
        return found
    for text in {c for c in kinds if type(c) is str}:
        read = read_length(text, decimal)
        if not isinstance(read, Length) or read.value <= 0:
            continue
        if read.unit:
            found.units.add("in" if read.unit == "ft" else read.unit)
        found.fractions |= read.is_fraction and read.unit is None
        if read.unit or read.is_fraction:
            found.explicit_mm.append(float(read.in_mm("in")))
        else:
            found.bare.append(float(read.value))
    return found


def evidence_of_sizes(sizes: Iterable[Size | Refused]) -> UnitEvidence:
    """Return what size strings say about the unit of those that name none."""
    found = UnitEvidence()
    for size in sizes:
        if not isinstance(size, Size):
            continue
        dims = [d for d in (size.a, size.b) if d is not None] or [d for d in (size.thickness,) if d is not None]
        for dim in dims:
            if dim.unit is None:
                found.bare.append(float(dim.value))
            else:
                found.units.add("in" if dim.unit == "ft" else dim.unit)
                found.explicit_mm.append(float(dim.in_mm()))
    return found


def bare_unit(
    named: str | None,
    own: UnitEvidence,
    beside: UnitEvidence,
    *,
    formats: set[str],
    title: str,
    others: set[str],
    default: str | None,
) -> BareUnit:
    """Return the unit of the bare numbers of a column.

    Parameters
    ----------
    named : str or None
        Unit that the heading or the units row names.
    own : UnitEvidence
        What the column's own texts say.
    beside : UnitEvidence
        What the texts of the other lengths say; thickness apart, which is often in another unit.
    formats : set of str
        Number formats of the column.
    title : str
        Unit that the title block names; empty when it names none.
    others : set of str
        Units that the headings of the other lengths name.
    default : str or None
        Unit of the shop book.

    Returns
    -------
    BareUnit
        Heading first, then number format, title block, the column's own texts, the other headings, the texts beside it,
        the shop book. Texts in several units, or of quite another size than the bare numbers, leave it open.
    """
    if sure := _said_unit(named, formats, title):
        return sure
    units = own.units | ({"in"} if own.fractions else set())
    if len(units) > 1:
        return _only_fitting_unit(units, own)
    if units:
        return _unit_of_texts(next(iter(units)), own, others, default)
    if len(others) == 1:
        return BareUnit(next(iter(others)), "the unit of the other headings", sure=False)
    if len(beside.units) == 1 and (unit := next(iter(beside.units))) and beside.fits(unit):
        return BareUnit(unit, "the unit that cells of the other columns name", sure=False)
    return BareUnit(default, "the shop book's unit", sure=False)


def _said_unit(named: str | None, formats: set[str], title: str) -> BareUnit | None:
    """Return the unit that heading, number format or title block name; None where none of them does."""
    if named == "ga?":
        return BareUnit(None, "the heading says gauge or thickness", sure=False)
    if named:
        return BareUnit(named, "named in the heading")
    by_format = {unit for unit in map(format_unit, formats) if unit}
    if len(by_format) == 1:
        return BareUnit(by_format.pop(), "the unit of the number format")
    return BareUnit(title, "named above the table") if title else None


def _only_fitting_unit(units: set[str], own: UnitEvidence) -> BareUnit:
    """Return the one of several units in which the bare numbers are of the size of the others."""
    fitting = [unit for unit in sorted(units) if own.bare and own.fits(unit)]
    if len(fitting) != 1:
        return BareUnit(None, "the cells of the column name different units", sure=False)
    return BareUnit(fitting[0], "the only unit of the column that fits their size", sure=False)


def _unit_of_texts(unit: str, own: UnitEvidence, others: set[str], default: str | None) -> BareUnit:
    """Return the unit that other cells of the column name, unless the bare numbers are of quite another size."""
    if own.fits(unit):
        what = "that other cells of the column name" if own.units else "of the fractions in the column"
        return BareUnit(unit, f"the unit {what}", sure=False)
    if len(others - {unit}) == len(others) == 1:
        return BareUnit(next(iter(others)), "the unit of the other headings", sure=False)
    if unit == default:
        return BareUnit(default, "the shop book's unit, and the one that other cells name", sure=False)
    quite_other = f"other cells of the column are in {UNIT_NAMES[unit]} and of quite another size"
    return BareUnit(None, quite_other, sure=False)


def format_unit(number_format: str) -> str | None:
    r"""Return the unit that a number format shows behind the number; inches for a fraction format.

    Examples
    --------
    >>> format_unit('0.0" mm"'), format_unit("# ?/?"), format_unit("0.00"), format_unit('0.0\\"')
    ('mm', 'in', None, 'in')
    """
    if is_fraction_format(number_format):
        return "in"
    found = _FORMAT_UNIT.search(number_format)
    return (unit_of(found[1]) if found[1] else "in") if found else None
