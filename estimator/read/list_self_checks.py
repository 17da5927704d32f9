"""Holds the reading of a table against what the list itself says: plausible units, masses, total lengths."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from estimator.problems import cut_list as said
from estimator.problems import table as said_table
from estimator.read.length_words import UNIT_NAMES
from estimator.read.list_columns import ColumnReader
from estimator.read.list_evidence import doubtful_sides, doubtful_unit, mass_evidence, odd_thickness, total_differs
from estimator.read.list_units import BareUnit, evidence_of, evidence_of_sizes
from estimator.read.numbers import plain_number
from estimator.read.pieces import Pieces
from estimator.read.table import Table
from estimator.sheets.cut_list import CUT_LIST

__all__ = ["check_itself"]

Floats = NDArray[np.float64]
_KG_PER = {"kg": 1.0, "lb": 0.45359237, "t": 1000.0}


def check_itself(
    reader: ColumnReader, table: Table, pieces: Pieces, quantity: Floats, units: Mapping[str, BareUnit]
) -> None:
    """Report where a table contradicts itself.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    table : Table
        Its headings.
    pieces : Pieces
        What its cells gave; rows whose unit is in doubt are marked refused.
    quantity : ndarray of float
        Pieces of each row.
    units : mapping of str to BareUnit
        Unit of the bare numbers of each column.
    """
    _check_thickness(reader, table, pieces, units["thickness_mm"])
    if not pieces.refused.all():
        _check_sides(reader, table, pieces, units)
    _check_masses(reader, table, pieces, quantity)
    _check_totals(reader, table, pieces, quantity)


def _check_thickness(reader: ColumnReader, table: Table, pieces: Pieces, bare: BareUnit) -> None:
    """Ask when most thicknesses are none that plates have; refuse single ones out of bounds or far from the others."""
    thickness = pieces.thickness_mm
    column = table.columns.get("thickness_mm")
    if column is not None and bare.unit in UNIT_NAMES and doubtful_unit(thickness):
        middle = float(np.nanmedian(thickness))
        example = "Thickness (in)" if middle < 1.2 else "Thickness (mm)"
        _doubt(reader, table, column, bare.unit, what="thickness", middle=middle, example=example)
        pieces.refused[:] = True
        return
    if column is not None:
        values = reader.values("thickness_mm") or []
        reader.bounded(CUT_LIST.column("thickness_mm"), "thickness_mm", thickness, values)
    odd = odd_thickness(thickness)
    for line in np.flatnonzero(odd).tolist():
        name = "thickness_mm" if column is not None else pieces.sized.get(line, "size")
        value = (reader.values(name) or [None] * len(reader))[line]
        others = thickness[~odd & ~np.isnan(thickness)]
        low, high = others.min(), others.max()
        fields = {"thick": f"{thickness[line]:.6g} mm", "low": f"{low:.6g}", "high": f"{high:.6g} mm"}
        reader.say(said.THICKNESS_IMPLAUSIBLE, line, name, value, **fields)
        pieces.refused[line] = True


def _check_sides(reader: ColumnReader, table: Table, pieces: Pieces, units: Mapping[str, BareUnit]) -> None:
    """Ask when, in a unit that nothing names, most pieces would be no longer than their plate is thick."""
    name = "length" if "length" in table.columns else "size"
    column, bare = table.columns.get(name), units[name]
    if column is None or bare.sure or not bare.unit:
        return
    if doubtful_sides(pieces.length_mm, pieces.width_mm, pieces.thickness_mm) and _has_bare(reader, name):
        middle = float(np.nanmedian(np.fmax(pieces.length_mm, pieces.width_mm)))
        example = f"{name.title()} (in)"
        _doubt(reader, table, column, bare.unit, what=name, middle=middle, example=example)
        pieces.refused[:] = True


def _has_bare(reader: ColumnReader, name: str) -> bool:
    """Return whether any cell of a column leaves its unit out; what names its own is not in doubt."""
    values = reader.values(name) or []
    if name != "size":
        return bool(evidence_of(values, reader.decimal).bare)
    sizes = {text for text in values if type(text) is str}
    return bool(evidence_of_sizes(map(reader.size_of, sizes)).bare) or any(type(v) is float for v in values)


def _doubt(
    reader: ColumnReader, table: Table, column: int, unit: str, *, what: str, middle: float, example: str
) -> None:
    fields = {"unit": UNIT_NAMES[unit], "what": what, "value": f"{middle:.4g} mm", "example": example}
    reader.problems.append(said_table.UNIT_DOUBTFUL.at(table.place(reader.file, column), **fields))


def _check_masses(reader: ColumnReader, table: Table, pieces: Pieces, quantity: Floats) -> None:
    """Warn of rows whose own mass does not fit, where the masses of most rows do."""
    for name, total in (("mass_each", False), ("mass_total", True)):
        values = reader.values(name)
        if values is None:
            continue
        factor = _KG_PER.get(table.units.get(name, "kg"), 1.0)
        masses = np.array([np.nan if (kg := plain_number(v)) is None else kg for v in values]) * factor
        sides = (pieces.thickness_mm, pieces.length_mm, pieces.width_mm)
        found = mass_evidence(*sides, quantity, masses, total=total)
        for line in np.flatnonzero(found.differs).tolist():
            fields = {"worked": f"{found.worked_kg[line]:.4g}", "fitting": found.fitting, "many": found.compared}
            reader.say(said.MASS_DIFFERS, line, name, values[line], **fields)


def _check_totals(reader: ColumnReader, table: Table, pieces: Pieces, quantity: Floats) -> None:
    """Warn of total lengths that are not quantity x length; beside a length they are no cut lengths."""
    values = reader.values("total_cut_length_mm")
    if values is None or "length" not in table.columns:
        return
    for line in np.flatnonzero(total_differs(pieces.length_mm, quantity, pieces.total_cut_length_mm)).tolist():
        worked = f"{pieces.length_mm[line] * quantity[line]:.10g}"
        reader.say(said.TOTAL_DIFFERS, line, "total_cut_length_mm", values[line], worked=worked)
    sided = ~np.isnan(pieces.length_mm)
    pieces.total_cut_length_mm = np.where(sided, np.nan, pieces.total_cut_length_mm)
