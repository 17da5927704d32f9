"""Puts together what the cells of a row say of a piece: thickness, shape, sizes; from columns and from size strings."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from estimator.problems import cut_list as said
from estimator.problems import table as said_table
from estimator.read.cells import CellError, CellValue
from estimator.read.lengths import Length, read_length, say_length
from estimator.read.list_columns import ColumnReader
from estimator.read.list_evidence import STEEL_KG_M3
from estimator.read.list_holes import take_hole
from estimator.read.list_lengths import in_mm
from estimator.read.list_units import BareUnit
from estimator.read.note_thickness import thickness_of_note
from estimator.read.numbers import Refused
from estimator.read.pieces import Pieces
from estimator.read.round_words import ROUND, round_form
from estimator.read.section_words import FLAT, PLATE, form_in_words, form_of
from estimator.read.size import Size
from estimator.read.size_agrees import fits_row, fractions_in_metric_list
from estimator.read.thickness_cells import size_under_thickness
from estimator.read.what_to_type import bought_part_instead
from estimator.sheets.statement import Column, Kind
from estimator.words import BLANK, MadeFrom, Shape

__all__ = ["fill_from_sizes", "shape_rows", "take_size"]

Floats = NDArray[np.float64]


_SIZE = Column(
    "size",
    "Size",
    Kind.TEXT,
    "thickness and two sides, as 10x150x300; disc 10x300; ring 10x300x200 or 14 OD x 9 ID; a section by its name",
    "cut length and thickness follow from it",
    "10x150x300",
)
_NEEDED = {
    Shape.BEAM: "depth, flange, web and flange thickness, as beam 300x150x6.5x9",
    Shape.CHANNEL: "depth, flange, web and flange thickness, as channel 150x75x6.5x10",
    Shape.ANGLE: "both legs and the thickness, as angle 50x50x5",
    Shape.SQUARE_TUBE: "both sides and the wall, as square tube 60x60x4",
    Shape.PIPE: "outside diameter and wall, as pipe 60.3x3.6",
    Shape.RAIL: "its depth and, in a column of its own, the area of the section",
}
_SOLID = frozenset({Shape.ROUND_BAR, Shape.SQUARE_BAR})
_PLATES = frozenset({Shape.RECTANGLE, Shape.DISC, Shape.RING})


def fill_from_sizes(
    reader: ColumnReader, pieces: Pieces, bare: BareUnit, whole: dict[str, dict[int, Size]], cutting: NDArray[np.bool_]
) -> None:
    """Read size strings into what the rows do not say otherwise.

    Parameters
    ----------
    reader : ColumnReader
        The table and what is gathered.
    pieces : Pieces
        What the columns of lengths gave; filled here.
    bare : BareUnit
        Unit of bare numbers in size strings.
    whole : dict of str to dict of int to Size
        Whole sizes that stood in a column of lengths, by column and line.
    cutting : ndarray of bool
        Rows that are cut; others need no size.
    """
    needs = np.isnan(pieces.thickness_mm) | ~_measured(pieces)
    for line, found in whole["thickness_mm"].items():
        size = size_under_thickness(reader, pieces, line, found, _form_beside(reader, line), bare)
        if isinstance(size, Refused):
            _refuse(reader, pieces, line, "thickness_mm", (reader.values("thickness_mm") or [])[line], size.reason)
        else:
            take_size(reader, pieces, line, "thickness_mm", size, bare)
    for line, size in whole["length"].items():
        take_size(reader, pieces, line, "length", size, bare)
    sizes = reader.values("size")
    if sizes is not None:
        for line, value in enumerate(sizes):
            if value is not None and value != "" and line not in whole["thickness_mm"]:
                _one_size(reader, pieces, line, value, bare, strict=bool(needs[line] and cutting[line]))
    for name in (*reader.alike("material"), *reader.alike("description"), "mark"):
        cells = reader.values(name)
        if cells is None:
            continue
        open_lines = np.flatnonzero(np.isnan(pieces.thickness_mm) & ~pieces.refused & cutting)
        for line in open_lines.tolist():
            text = cells[line]
            if isinstance(text, str) and any(ch.isdigit() or ch in "½¼¾⅛⅜⅝⅞" for ch in text):
                read = reader.size_of(text)
                section = isinstance(read, Size) and read.shape not in {None, *_PLATES} and name != "mark"
                if isinstance(read, Size) and (section or _gives_thickness(read, name)):
                    take_size(reader, pieces, line, name, read, bare)
                elif (
                    isinstance(read, Refused)
                    and form_of(text.lower()) in {PLATE, FLAT}
                    and not (name == "mark" and {"thickness_mm", "size"} & set(reader.columns))
                ):
                    pieces.unread.setdefault(line, (name, text, read.reason))
    _thickness_of_notes(reader, pieces, bare, cutting)


def _thickness_of_notes(reader: ColumnReader, pieces: Pieces, bare: BareUnit, cutting: NDArray[np.bool_]) -> None:
    """Take the thickness that only the note of a row gives."""
    for name in reader.alike("note"):
        cells = reader.values(name) or []
        for line in np.flatnonzero(np.isnan(pieces.thickness_mm) & ~pieces.refused & cutting).tolist():
            text = cells[line]
            thick = thickness_of_note(text, reader.decimal) if type(text) is str else None
            if thick is not None:
                take_size(reader, pieces, line, name, Size(thickness=thick, plain=False), bare)


def _gives_thickness(size: Size, name: str) -> bool:
    """Return whether words give a thickness; a mark only where it gives the sides as well, for it may hold numbers."""
    return size.thickness is not None and (name != "mark" or size.b is not None)


def shape_rows(reader: ColumnReader, pieces: Pieces) -> None:
    """Give every row that names no shape the one that its sizes make, and lengths their meaning."""
    has = {name: ~np.isnan(getattr(pieces, name)) for name in ("length_mm", "width_mm", "diameter_mm", "inside_mm")}
    unnamed = pieces.shape == BLANK
    open_a, open_b = np.isnan(pieces.size_a_mm), np.isnan(pieces.size_b_mm)
    ring = unnamed & has["diameter_mm"] & has["inside_mm"]
    disc = unnamed & has["diameter_mm"] & ~has["inside_mm"] & ~has["width_mm"] & ~has["length_mm"]
    for here, shape in ((ring, Shape.RING), (disc, Shape.DISC)):
        pieces.shape[here] = shape
    round_named = np.isin(pieces.shape, (Shape.DISC, Shape.RING, Shape.PIPE, Shape.ROUND_BAR))
    pieces.size_a_mm = np.where(open_a & round_named & has["diameter_mm"], pieces.diameter_mm, pieces.size_a_mm)
    pieces.size_b_mm = np.where(open_b & (pieces.shape == Shape.RING), pieces.inside_mm, pieces.size_b_mm)
    both = unnamed & (pieces.shape == BLANK) & has["length_mm"] & has["width_mm"]
    pieces.shape[both] = Shape.RECTANGLE
    sided = np.isin(pieces.shape, (Shape.RECTANGLE, Shape.STRIP, Shape.RIGHT_TRIANGLE))
    pieces.size_a_mm = np.where(np.isnan(pieces.size_a_mm) & sided, pieces.length_mm, pieces.size_a_mm)
    pieces.size_b_mm = np.where(np.isnan(pieces.size_b_mm) & sided, pieces.width_mm, pieces.size_b_mm)
    _bar_ends(pieces, has)
    _lengths_that_are_cut(reader, pieces, has, unnamed)


def _bar_ends(pieces: Pieces, has: dict[str, NDArray[np.bool_]]) -> None:
    """A flat without a length is cut once across its width."""
    flat = (pieces.made_from == MadeFrom.FLAT) & (pieces.shape == Shape.RECTANGLE)
    end = flat & ~has["length_mm"] & has["width_mm"] & np.isnan(pieces.cut_length_mm)
    pieces.shape[end] = Shape.BAR_END
    pieces.size_a_mm = np.where(end, pieces.width_mm, pieces.size_a_mm)
    pieces.size_b_mm = np.where(end, np.nan, pieces.size_b_mm)


def _lengths_that_are_cut(
    reader: ColumnReader, pieces: Pieces, has: dict[str, NDArray[np.bool_]], unnamed: NDArray[np.bool_]
) -> None:
    """A length without a width is the length that is cut, said once a table."""
    alone = unnamed & (pieces.shape == BLANK) & has["length_mm"] & ~has["width_mm"] & ~has["diameter_mm"]
    alone &= np.isnan(pieces.cut_length_mm) & np.isnan(pieces.total_cut_length_mm) & ~pieces.refused
    alone &= np.array([not text for text in reader.texts("width")], dtype=np.bool_)
    if alone.any():
        pieces.cut_length_mm = np.where(alone, pieces.length_mm, pieces.cut_length_mm)
        place = reader.place(int(np.flatnonzero(alone)[0]), "length" if "length" in reader.columns else "size")
        reader.problems.append(said_table.LENGTH_IS_CUT_LENGTH.at(place))


def _measured(pieces: Pieces) -> NDArray[np.bool_]:
    """Return which rows say how much is cut without a size string."""
    return (
        ~np.isnan(pieces.cut_length_mm)
        | ~np.isnan(pieces.total_cut_length_mm)
        | (~np.isnan(pieces.length_mm) & ~np.isnan(pieces.width_mm))
        | ~np.isnan(pieces.diameter_mm)
        | ~np.isnan(pieces.size_a_mm)
    )


def _form_beside(reader: ColumnReader, line: int) -> str | Shape | None:
    """Return what the material or description of a row says it is."""
    for name in (*reader.alike("material"), *reader.alike("description")):
        cells = reader.values(name)
        text = cells[line] if cells is not None else None
        if isinstance(text, str) and (form := form_in_words(text.lower())) is not None:
            return form
    return None


def _one_size(
    reader: ColumnReader, pieces: Pieces, line: int, value: CellValue, bare: BareUnit, *, strict: bool
) -> None:
    """Read one size cell; what cannot be read is a problem only where the row needs it."""
    if not isinstance(value, str) or isinstance(value, CellError):
        if strict and not isinstance(value, float):
            reader.odd_cell(_SIZE, line, "size", value)
            pieces.refused[line] = True
        elif strict:
            _refuse(reader, pieces, line, "size", value, "one size alone, and no word says which it is")
        return
    if _is_length_of(reader, line, value):
        length = read_length(value, reader.decimal, reader.gauges_in)
        if isinstance(length, Length) and (length.unit or length.is_fraction or bare.unit):
            _set(pieces.length_mm, line, length, bare)
            return
    form = _form_beside(reader, line) or reader.forms.get(line)
    size = reader.size_of(value, form)
    if isinstance(size, Size) and size.shape is Shape.ROUND_BAR and not np.isnan(pieces.thickness_mm[line]):
        disc = Size(Shape.DISC, None, size.a, plain=False, remark="a round beside a thickness is a disc")
        size = disc if round_form(value) == ROUND else size
    alone = isinstance(size, Size) and size.shape is None
    if form == PLATE and not alone and (not np.isnan(pieces.thickness_mm[line]) or np.isnan(pieces.length_mm[line])):
        size = reader.size_of(value)
    if form == FLAT and isinstance(size, Size) and _sides_of_flat(pieces, line, size, bare):
        sides = reader.size_of(value)
        size = replace(sides, flat=True) if isinstance(sides, Size) else size
    if form == FLAT and isinstance(size, Size) and size.thickness is not None and "thickness_mm" in reader.columns:
        whole = reader.size_of(value)
        if np.isnan(pieces.thickness_mm[line]) and isinstance(whole, Size) and whole.thickness is None:
            size = replace(size, plain=False, remark="no thickness stands in a cell of its own")
    if form == FLAT and isinstance(size, Refused) and "thickness_mm" in reader.columns:
        length = read_length(value, reader.decimal, reader.gauges_in)
        if isinstance(length, Length) and strict and np.isnan(pieces.thickness_mm[line]):
            _refuse(reader, pieces, line, "thickness_mm", None, "the row is a flat bar, and its width is missing too")
            return
        size = size if isinstance(length, Length) else reader.size_of(value)
    if isinstance(size, Refused):
        if strict and "bought part" in size.reason:
            reader.say(said.SIZE_NOT_CUT, line, "size", value, what="size", do=bought_part_instead(reader, line))
            pieces.refused[line] = True
        elif strict and any(map(str.isdigit, value)):
            _refuse(reader, pieces, line, "size", value, size.reason)
        elif strict:
            pieces.unread.setdefault(line, ("size", value, size.reason))
        return
    take_size(reader, pieces, line, "size", size, bare)


def _sides_of_flat(pieces: Pieces, line: int, size: Size, bare: BareUnit) -> bool:
    """Return whether two sizes of a flat whose thickness stands elsewhere are its width and its length."""
    own = pieces.thickness_mm[line]
    if np.isnan(own) or size.thickness is None or size.a is not None or size.b is None:
        return False
    return all(abs(in_mm(dim, bare) - own) > 0.02 * own for dim in (size.thickness, size.b))


def _is_length_of(reader: ColumnReader, line: int, text: str) -> bool:
    """Return whether a size cell is one length alone, beside a bar or section that another cell gives in full."""
    if isinstance(read_length(text, reader.decimal, reader.gauges_in), Refused):
        return False
    for name in ("material", "description"):
        other = (reader.values(name) or {line: None})[line]
        size = reader.size_of(other) if isinstance(other, str) else None
        if isinstance(size, Size) and (size.flat or size.shape not in {None, *_PLATES}):
            return size.a is not None or size.b is not None
    return False


def _refuse(reader: ColumnReader, pieces: Pieces, line: int, name: str, value: CellValue, reason: str) -> None:
    reader.say(said.SIZE_REFUSED, line, name, value, reason=reason)
    pieces.refused[line] = True


def take_size(reader: ColumnReader, pieces: Pieces, line: int, name: str, size: Size, bare: BareUnit) -> None:
    """Put what a size says into its row, and report where it does not agree with the row's other cells."""
    value = (reader.values(name) or [None])[line] if reader.values(name) else None
    lengths = [d for d in (size.thickness, size.a, size.b) if d is not None]
    if any(d.unit is None and not d.is_fraction for d in lengths) and bare.unit is None:
        _refuse(reader, pieces, line, name, value, "it names no unit, and neither does the list")
        return
    if fractions_in_metric_list(lengths, bare):
        _refuse(reader, pieces, line, name, value, "its fraction is in inches, and the list is in millimetres")
        return
    if not fits_row(reader, pieces, line, name, value, size, bare):
        pieces.refused[line] = True
        return
    if size.shape not in {None, *_PLATES}:
        _take_section(reader, pieces, line, name, value, size, bare)
        return
    if size.flat and pieces.made_from[line] == BLANK:
        pieces.made_from[line] = MadeFrom.FLAT
    if pieces.shape[line] == BLANK and size.shape in {Shape.DISC, Shape.RING}:
        pieces.shape[line] = size.shape
        _set(pieces.diameter_mm, line, size.a, bare)
        _set(pieces.inside_mm, line, size.b, bare)
    else:
        _set(pieces.length_mm, line, size.a, bare)
        _set(pieces.width_mm, line, size.b, bare)
        if pieces.shape[line] == BLANK and not np.isnan(pieces.width_mm[line]) and size.flat:
            pieces.shape[line] = Shape.RECTANGLE
    _set(pieces.thickness_mm, line, size.thickness, bare)
    pieces.sized[line] = name
    if size.holes is not None:
        take_hole(reader, pieces, line, name, size.holes, in_mm(size.holes.diameter, bare))
    said_as = _said(size, bare)
    reader.note(line, name, value, said_as, "thickness_mm" if size.shape is None else "size_a_mm")
    if not size.plain or name.partition(" ")[0] in {"description", "mark", "note"}:
        what = name.removesuffix("_mm")
        remark = size.remark or ("with its holes" if size.holes is not None else "no column of its own gives it")
        reader.say(said.SIZE_READ_AS, line, name, value, what=what, read_as=said_as, remark=remark)


def _take_section(
    reader: ColumnReader, pieces: Pieces, line: int, name: str, value: CellValue, size: Size, bare: BareUnit
) -> None:
    """A section: its sizes for one cut across it, unless the row itself says how it is cut."""
    what = name.removesuffix("_mm")
    cut = ~np.isnan(pieces.cut_length_mm[line]) and ~np.isnan(pieces.thickness_mm[line])
    named = size.thickness is not None or size.mass_kg_m is not None or size.shape in _SOLID
    named |= not np.isnan(pieces.section_area_cm2[line])
    named |= size.a is not None and not np.isnan(pieces.thickness_mm[line])
    if not named and not cut:
        needed = _NEEDED.get(size.shape or Shape.RAIL, "its sizes and the thickness of its wall")
        reader.say(said.SECTION_NEEDS_THICKNESS, line, name, value, what=what, needed=needed)
        pieces.refused[line] = True
        return
    pieces.shape[line] = size.shape if size.shape is not None else BLANK
    pieces.sized[line] = name
    _set(pieces.size_a_mm, line, size.a, bare)
    _set(pieces.size_b_mm, line, size.b, bare)
    _set(pieces.thickness_mm, line, size.thickness, bare)
    if np.isnan(pieces.section_area_cm2[line]):
        pieces.section_area_cm2[line] = _area_cm2(size, bare)
    _set(pieces.section_length_mm, line, size.piece_length, bare)
    if np.isnan(pieces.section_length_mm[line]):
        pieces.section_length_mm[line] = pieces.length_mm[line]
    pieces.length_mm[line] = pieces.width_mm[line] = np.nan
    around_mm = 2 * (pieces.size_a_mm[line] + np.fmax(pieces.size_b_mm[line], pieces.size_a_mm[line]))
    if pieces.cut_length_mm[line] > around_mm:
        pieces.cut_length_mm[line] = np.nan
    if size.holes is not None:
        take_hole(reader, pieces, line, name, size.holes, in_mm(size.holes.diameter, bare))
    said_as = _said(size, bare)
    reader.note(line, name, value, said_as, "size_a_mm")
    reader.say(said.SECTION_CUT_ACROSS, line, name, value, what=what, read_as=said_as)


def _area_cm2(size: Size, bare: BareUnit) -> float:
    """Return the area of a beam or channel by its mass, or by its web and flanges; NaN for other sections."""
    if size.mass_kg_m is not None:
        return size.mass_kg_m / (STEEL_KG_M3 * 1e-4)
    if size.web is None or size.a is None or size.b is None or size.thickness is None:
        return np.nan
    depth, flange, web, thick = (in_mm(d, bare) for d in (size.a, size.b, size.web, size.thickness))
    return (2 * flange * thick + (depth - 2 * thick) * web) / 100


def _set(column: Floats, line: int, length: Length | None, bare: BareUnit) -> None:
    if length is not None and np.isnan(column[line]):
        column[line] = in_mm(length, bare)


def _said(size: Size, bare: BareUnit) -> str:
    """Return a size as it was read, with the unit that its bare numbers took."""

    def one(length: Length) -> str:
        unit = length.unit or ("in" if length.is_fraction else bare.unit)
        return say_length(length.value, unit, as_fraction=length.is_fraction)

    kind = "flat" if size.flat else size.shape.word if size.shape is not None else ""
    sides = " x ".join(one(d) for d in (size.a, size.b) if d is not None)
    thick = f"{one(size.thickness)} thick" if size.thickness is not None else ""
    web = f"web {one(size.web)}" if size.web is not None else ""
    mass = f"{size.mass_kg_m:g} kg/m" if size.mass_kg_m is not None else ""
    parts = [f"{kind} {sides}".strip(), thick, web, mass]
    if size.holes is not None:
        parts.append(f"{size.holes.count} x Ø {one(size.holes.diameter)}")
    return ", ".join(filter(None, parts))
