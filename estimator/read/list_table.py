"""Reads one table of a cut list: each column by its kind, then pieces, then what the list can check on itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from operator import attrgetter
from typing import Any

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList, TitleBlock
from estimator.problems import cut_list as said
from estimator.problems import lines as said_lines
from estimator.problems import list_words as said_words
from estimator.problems import table as said_table
from estimator.problems.code import Problem
from estimator.read.cells import column_letters
from estimator.read.counts import MEASURE_WORDS
from estimator.read.hole_cells import HoleTexts, ask_several_sizes, fill_hole_sizes, hole_texts
from estimator.read.length_words import UNIT_NAMES, unit_of
from estimator.read.list_columns import ColumnReader, shown
from estimator.read.list_holes import holes_in_words
from estimator.read.list_lengths import LengthColumn, read_lengths
from estimator.read.list_pieces import fill_from_sizes, shape_rows
from estimator.read.list_self_checks import check_itself
from estimator.read.list_titles import forms_above, thickness_from_titles
from estimator.read.list_units import BareUnit
from estimator.read.mark_ranges import say_mark_ranges
from estimator.read.materials import uncuttable
from estimator.read.numbers import decimal_mark
from estimator.read.parents import parents
from estimator.read.pieces import Pieces
from estimator.read.ring_words import in_two_cells
from estimator.read.row_orders import is_held, say_row_orders
from estimator.read.row_words import names_alternate
from estimator.read.rows_of_work import is_work_on_part, say_row_of_work, take_typed_work, take_work_by_hand
from estimator.read.section_words import HARDWARE, form_of
from estimator.read.shape_words import shape_of_word, shapes_in_words
from estimator.read.sizes_in_words import sizes_in_words
from estimator.read.table import Table
from estimator.read.table_units import TableUnits
from estimator.read.text import plain_text
from estimator.read.title_factors import multiply_by_titles
from estimator.read.unpriced_work import say_unpriced_work
from estimator.read.unread_columns import say_unread_columns
from estimator.read.what_to_type import bought_part_instead, sizes_to_type
from estimator.sheets.cut_list import CUT_LIST
from estimator.sheets.statement import Column, Kind
from estimator.words import EdgeFinish, MadeFrom, Method, Shape, Site, Steel, Surface, WordCode, Work

__all__ = ["read_table"]


_CODES: dict[str, type[WordCode]] = {
    "work": Work,
    "shape": Shape,
    "made_from": MadeFrom,
    "method": Method,
    "surface": Surface,
    "steel": Steel,
    "edge_finish": EdgeFinish,
    "site": Site,
}
_OF_LIST = {
    name: replace(
        CUT_LIST.column("size_a_mm"), heading=name.replace("_", " "), why="cut length and mass follow from it"
    )
    for name in ("length", "width", "diameter", "inside_diameter")
}
"""Statements of the columns that only reading knows."""
_OF_INCHES = ("in", "ft", "ga")
_PIECE_LENGTHS = (
    *("thickness_mm", "length", "width", "diameter", "inside_diameter"),
    *("size_a_mm", "size_b_mm", "cut_length_mm", "total_cut_length_mm"),
)
_NUMBERY = frozenset({*_PIECE_LENGTHS, "size", "quantity", "mass_each", "mass_total", "hole_diameter_mm"})


def read_table(
    file: str,
    table: Table,
    title: TitleBlock,
    *,
    default_unit: str | None,
    gauges_in: Mapping[int, Fraction],
    thin_sheet_mm: float,
    other_work: Mapping[str, str],
    first_line: int,
    decimal: str | None = None,
) -> tuple[CutList, list[Problem]]:
    """Read the pieces of one table.

    Parameters
    ----------
    file : str
        Name of the file.
    table : Table
        The table, its rows sorted.
    title : TitleBlock
        What stands above it.
    default_unit : str or None
        The shop book's unit for bare numbers.
    gauges_in : mapping of int to Fraction
        Thickness of each sheet gauge [in].
    thin_sheet_mm : float
        Thinner sheet is refused [mm].
    other_work : mapping of str to str
        Other work that the shop book has a time for, and that time in words.
    first_line : int
        Number of the table's first line in the whole list.
    decimal : {".", ",", None}
        Decimal mark that the whole file shows, where it is a text.

    Returns
    -------
    CutList and list of Problem
        One line a piece, in the order of the sheet.
    """
    reader = ColumnReader(file, table.sheet, table.rows.pieces, table.columns, None, gauges_in, first_line)
    reader.decimal = decimal or _decimal(reader)
    reader.headings = {column: " ".join(text.split()) for column, text in table.heading.texts.items()}
    columns: dict[str, Any] = {}
    units = TableUnits(reader, table.units, title.units, default_unit)
    _put_diameters_together(reader)
    lengths, bare_of = _lengths(reader, table, units)
    holed = hole_texts(reader)
    for column in CUT_LIST.columns:
        if column.name not in _PIECE_LENGTHS:
            columns[column.name] = _read_column(reader, units, column, holed)
    if "quantity 2" in reader.columns:
        second = reader.whole_numbers(replace(CUT_LIST.column("quantity"), low=0), "quantity 2")
        neither = np.isnan(columns["quantity"]) & np.isnan(second)
        both = np.nan_to_num(columns["quantity"]) + np.nan_to_num(second)
        columns["quantity"] = np.where(neither, np.nan, both)
    if "quantity of sets" in reader.columns:
        columns["quantity"] = columns["quantity"] * reader.whole_numbers(
            CUT_LIST.column("quantity"), "quantity of sets"
        )
    reader.forms = forms_above(reader, table)
    columns["quantity"] = multiply_by_titles(reader, table, columns["quantity"])
    say_mark_ranges(reader, columns["quantity"])
    pieces = _pieces(reader, columns, lengths)
    take_typed_work(columns, pieces)
    take_work_by_hand(reader, columns, pieces)
    cutting = np.isin(columns["work"], (Work.CUT, -1))
    whole = {name: lengths[name].sizes for name in ("thickness_mm", "length")}
    fill_from_sizes(reader, pieces, bare_of["size"], whole, cutting)
    thickness_from_titles(reader, table, pieces, bare_of["thickness_mm"], cutting)
    sizes_in_words(reader, pieces, bare_of["size"], cutting)
    check_itself(reader, table, pieces, columns["quantity"], bare_of)
    shape_rows(reader, pieces)
    shapes_in_words(reader, pieces, bare_of["length" if "length" in reader.columns else "size"])
    fill_hole_sizes(reader, pieces, holed.sized, units.of("hole_diameter_mm"))
    ask_several_sizes(reader, pieces, holed.several, units.of("hole_diameter_mm"))
    holes_in_words(reader, pieces, bare_of["size"], cutting)
    _refuse_parents(reader, pieces)
    _refuse(reader, pieces, columns, cutting, thin_sheet_mm, bare_of["size"], other_work)
    columns |= _shaped(pieces)
    columns["mark"] = reader.texts("mark")
    columns["grade"] = _grades(reader)
    say_row_orders(reader, table, columns, title)
    say_unpriced_work(reader, table, columns)
    say_unread_columns(reader, table)
    in_inches = any(bare.unit in _OF_INCHES for name, bare in bare_of.items() if name in reader.columns)
    columns["bare_in_inches"] = np.full(len(reader), in_inches)
    columns["sheet"] = [table.sheet.name] * len(reader)
    columns["row"] = reader.rows + 1
    cuts = CutList(**columns)
    cuts.read_as = sorted(reader.read_as, key=attrgetter("line", "column"))
    cuts.unknown = _carried(reader, table)
    return cuts, reader.problems


def _decimal(reader: ColumnReader) -> str | None:
    """Return the decimal mark that the texts of the table's number columns give evidence of."""
    texts: set[str] = set()
    for name in reader.columns:
        if (name in _NUMBERY or name.endswith("_mm")) and str in reader.kinds(name):
            texts |= {c for c in reader.values(name) or [] if type(c) is str}
    return decimal_mark(texts)


def _put_diameters_together(reader: ColumnReader) -> None:
    """Take a ring's two diameters that stand under Length and Width, each with its word, as one size."""
    lengths, widths = reader.values("length"), reader.values("width")
    for line, (first, second) in enumerate(zip(lengths or [], widths or [], strict=False)):
        if lengths and widths and (ring := in_two_cells(first, second)):
            lengths[line], widths[line] = ring, ""


def _lengths(
    reader: ColumnReader, table: Table, units: TableUnits
) -> tuple[dict[str, LengthColumn], dict[str, BareUnit]]:
    """Read the columns of lengths, and say once where their unit is from when no heading names it."""
    read: dict[str, LengthColumn] = {}
    bare_of: dict[str, BareUnit] = {}
    assumed: dict[tuple[str, str], list[str]] = {}
    for name in (*_PIECE_LENGTHS, "size"):
        bare_of[name] = bare = units.of(name)
        column = _OF_LIST.get(name) or CUT_LIST.column(name if name != "size" else "size_a_mm")
        if name != "size":
            bounds = name != "thickness_mm"
            read[name] = read_lengths(reader, column, name, bare, formats=units.formats(name), bounds=bounds)
            _add_inches(reader, column, name, read[name])
        taken = read[name].bare_lines if name != "size" else len(units.evidence("size").bare)
        if taken and not bare.sure and bare.unit in UNIT_NAMES:
            assumed.setdefault((bare.unit, bare.source), []).append(name.removesuffix("_mm").replace("_", " "))
    for (unit, source), names in assumed.items():
        what = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
        reader.problems.append(
            said_table.UNIT_ASSUMED.at(table.place(reader.file), what=what, unit=UNIT_NAMES[unit], source=source)
        )
    return read, bare_of


def _add_inches(reader: ColumnReader, column: Column, name: str, feet: LengthColumn) -> None:
    """Add the inches that stand in a column of their own beside the feet."""
    if f"{name} inches" in reader.columns:
        bare = BareUnit("in", "named in the heading")
        inches = read_lengths(reader, column, f"{name} inches", bare, bounds=False).mm
        neither = np.isnan(feet.mm) & np.isnan(inches)
        feet.mm = np.where(neither, np.nan, np.nan_to_num(feet.mm) + np.nan_to_num(inches))


def _read_column(reader: ColumnReader, units: TableUnits, column: Column, holed: HoleTexts) -> Any:
    """Read a house column by its kind."""
    if column.name == "shape":
        return reader.words(column, Shape, shape_of_word)
    if column.name in _CODES:
        return reader.words(column, _CODES[column.name])
    if column.kind is Kind.FLAG:
        return reader.flags(column)
    if column.kind is Kind.WHOLE:
        return reader.whole_numbers(column, known=holed.counts if column.name == "holes" else None)
    if column.kind is Kind.NUMBER:
        return reader.numbers(column)
    if column.kind is Kind.LENGTH:
        formats = units.formats(column.name)
        return read_lengths(reader, column, column.name, units.of(column.name), formats=formats).mm
    return reader.texts(column.name)


def _pieces(reader: ColumnReader, columns: dict[str, Any], lengths: dict[str, LengthColumn]) -> Pieces:
    refused = np.zeros(len(reader), dtype=np.bool_)
    mm = {name: column.mm for name, column in lengths.items()}
    return Pieces(
        mm["thickness_mm"],
        mm["length"],
        mm["width"],
        mm["diameter"],
        mm["inside_diameter"],
        mm["size_a_mm"],
        mm["size_b_mm"],
        mm["cut_length_mm"],
        mm["total_cut_length_mm"],
        columns.pop("section_area_cm2"),
        columns.pop("section_length_mm"),
        columns.pop("holes"),
        columns.pop("hole_diameter_mm"),
        columns.pop("shape"),
        columns.pop("made_from"),
        refused,
        by_cut_length=np.zeros(len(reader), dtype=np.bool_),
    )


def _shaped(pieces: Pieces) -> dict[str, Any]:
    names = ["thickness_mm", "size_a_mm", "size_b_mm", "cut_length_mm", "total_cut_length_mm", "shape", "made_from"]
    names += ["section_area_cm2", "section_length_mm", "holes", "hole_diameter_mm"]
    return {name: getattr(pieces, name) for name in names} | {"shape_in_words": pieces.by_cut_length}


def _refuse(
    reader: ColumnReader,
    pieces: Pieces,
    columns: dict[str, Any],
    cutting: NDArray[np.bool_],
    thin_sheet_mm: float,
    bare: BareUnit,
    other_work: Mapping[str, str],
) -> None:
    """Refuse rows without a quantity, a thickness or a length, and what a torch cannot cut."""
    troubled = {(p.place.row) for p in reader.problems if p.level == "error" and p.place.sheet == reader.sheet.name}
    clear = np.array([row not in troubled for row in (reader.rows + 1).tolist()], dtype=np.bool_)
    _refuse_materials(reader, pieces)
    _refuse_units(reader)
    quantity_at = {p.place for p in reader.problems if p.level == "error"}
    for line in np.flatnonzero(np.isnan(columns["quantity"])).tolist():
        if reader.place(line, "quantity") not in quantity_at:
            reader.say(said.QUANTITY_MISSING, line, "quantity")
    open_rows = clear & cutting & ~pieces.refused
    thin = open_rows & (pieces.thickness_mm < thin_sheet_mm)
    for line in np.flatnonzero(thin).tolist():
        name = "thickness_mm" if "thickness_mm" in reader.columns else pieces.sized.get(line, "size")
        value = (reader.values(name) or [None] * len(reader))[line]
        reader.say(said.SHEET_TOO_THIN, line, name, value, thin=f"{pieces.thickness_mm[line]:.4g} mm")
    solid = np.isin(pieces.shape, (Shape.ROUND_BAR, Shape.SQUARE_BAR, Shape.RAIL, Shape.SHEET_PILE, Shape.BOLT_HEAD))
    no_wall = np.isnan(pieces.thickness_mm) & np.isnan(pieces.section_area_cm2)
    for line in np.flatnonzero(open_rows & no_wall & ~solid).tolist():
        bought = _bought_part(reader, line)
        if bought is not None:
            reader.say(said.SIZE_NOT_CUT, line, *bought, what=bought[0], do=bought_part_instead(reader, line))
        elif line in pieces.unread:
            name, text, reason = pieces.unread[line]
            reader.say(said.SIZE_REFUSED, line, name, text, reason=reason)
        elif not say_row_of_work(reader, pieces, line, other_work):
            at = "thickness_mm" if "thickness_mm" in reader.columns else "size"
            reader.say(said_lines.NO_THICKNESS, line, at, reader.texts(at)[line])
    said_much = ~np.isnan(pieces.cut_length_mm) | ~np.isnan(pieces.total_cut_length_mm) | (pieces.shape != -1)
    said_much |= (np.nan_to_num(pieces.holes) > 0) | ~np.isnan(columns["bevel_length_mm"])
    for line in np.flatnonzero(open_rows & ~said_much & ~np.isnan(pieces.thickness_mm)).tolist():
        _say_no_length(reader, line, bare)
    for name in ("description", "note"):
        values = reader.values(name) or []
        telling = {v for v in set(values) if type(v) is str and len(v) > 3 and names_alternate(v) and not is_held(v)}
        for line in (n for n, value in enumerate(values) if telling and value in telling):
            reader.say(said_words.ROW_IS_ALTERNATE, line, name, values[line])


def _say_no_length(reader: ColumnReader, line: int, bare: BareUnit) -> None:
    """Ask how much is cut, at the first cell that could say it, with the words that the row has."""
    at = next((name for name in ("size", "length", "diameter", "cut_length_mm") if name in reader.columns), "")
    found = next((text for name in ("size", "description", "note") if (text := reader.texts(name)[line])), None)
    reader.say(said_lines.NO_LENGTH, line, at, found, do=sizes_to_type(reader, line, bare))


def _bought_part(reader: ColumnReader, line: int) -> tuple[str, str] | None:
    """Return the column and text that call a row a bolt, a nut or another bought part."""
    for name in ("description", "mark", "material"):
        text = (reader.values(name) or [None] * len(reader))[line]
        if isinstance(text, str) and form_of(text.lower()) == HARDWARE and not is_work_on_part(text):
            return name, text
    return None


def _refuse_materials(reader: ColumnReader, pieces: Pieces) -> None:
    """Refuse rows whose material a torch cannot cut."""
    done: set[int] = set()
    more = [name for name in reader.columns if name.startswith(("material ", "grade "))]
    columns = [*((name, True) for name in ("material", "grade", *more)), ("size", False), ("description", False)]
    for name, is_material in columns:
        values = reader.values(name) or []
        known = {v: uncuttable(v, is_material=is_material) for v in set(values) if type(v) is str}
        if not any(known.values()):
            continue
        for line, value in enumerate(values):
            kind = known.get(value) if type(value) is str else None
            if kind is not None and line not in done:
                reader.say(said.MATERIAL_NOT_CUT, line, name, value, material=kind.material, why=kind.why)
                pieces.refused[line] = True
                done.add(line)


def _refuse_parents(reader: ColumnReader, pieces: Pieces) -> None:
    """Refuse rows with sizes whose own parts stand below them, as 1 above 1.1: it would be priced twice."""
    name = "item" if "item" in reader.columns else "mark"
    values = reader.values(name) or []
    for line in parents(values):
        reader.say(said_words.ROW_HAS_PARTS, line, name, values[line], below=shown(values[line + 1]))
        pieces.refused[line] = True


def _refuse_units(reader: ColumnReader) -> None:
    """Refuse quantities that the column of units counts in metres, kilograms or square metres."""
    for line, value in enumerate(reader.values("unit") or []):
        if type(value) is not str:
            continue
        word = plain_text(value).lower().strip(" .")
        if word in MEASURE_WORDS and unit_of(word) not in {"mm", "in"}:
            reader.say(said.QUANTITY_IS_AMOUNT, line, "quantity", value, unit=value)


def _grades(reader: ColumnReader) -> list[str]:
    """Return the grade of each row, or the words of its material where there is no grade."""
    grades, materials = reader.texts("grade"), reader.texts("material")
    whose = Steel.words() if reader.columns.get("steel") == reader.columns.get("grade") else ()
    grades = ["" if grade.lower() in whose else grade for grade in grades] if whose else grades
    return [grade or material for grade, material in zip(grades, materials, strict=True)]


def _carried(reader: ColumnReader, table: Table) -> dict[str, list[Any]]:
    """Return the columns that are not read, and those read only for checks, as they stand."""
    kept: dict[str, list[Any]] = {}
    checks = {table.columns[n] for n in ("mass_each", "mass_total", "area", "money", "unit") if n in table.columns}
    texts = {c: " ".join(t.split()) for c, t in table.heading.texts.items() if c in checks} | table.carried
    rows = [table.sheet.rows[row] for row in reader.rows.tolist()]
    for column, text in sorted(texts.items()):
        name = text if text not in kept else f"{text} ({column_letters(column)})"
        kept[name] = [row[column] if column < len(row) else None for row in rows]
    return kept
