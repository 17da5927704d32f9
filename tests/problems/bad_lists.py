"""One broken list of each class: what a cut list can hold that cannot, or should not, be priced in silence."""

from __future__ import annotations

import datetime as dt
from typing import Any

from estimator.read.cells import NOT_CALCULATED, CellError
from tests.workbook.corpus.case import Case

__all__ = ["BAD_LISTS"]

HEAD = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
GOOD = ["P1", 4, 10, 300, 200]
NO_UNIT = ["Mark", "Qty", "Thk", "Length", "Width"]


def _case(name: str, *rows: list[Any], head: list[Any] | None = None, **more: Any) -> Case:
    """Return a list with one good row and what is wrong below it."""
    return Case(name, [HEAD if head is None else head, *rows], [], **more)


def _cell(name: str, column: int, value: Any, **more: Any) -> Case:
    """Return a list with one bad cell in the row below a good one."""
    row: list[Any] = ["P2", 2, 12, 250, 150]
    row[column] = value
    return _case(name, GOOD, row, in_file=not isinstance(value, CellError | type(NOT_CALCULATED) | bool), **more)


def _with(name: str, heading: str, value: Any) -> Case:
    """Return a list with one more column and one bad cell in it."""
    return _case(name, ["P1", 4, 10, 300, 200, value], head=[*HEAD, heading])


def _size(name: str, text: Any) -> Case:
    """Return a list of sizes with one that cannot be read."""
    return _case(name, ["P1", 4, "10x300x200"], ["P2", 2, text], head=["Mark", "Qty", "Size (mm)"])


def _described(name: str, words: str, length: float | None, width: float | None) -> Case:
    """Return a list with a good row and one whose description says what its sides do not."""
    return _case(name, ["P1", "Plate", 4, 10, 300, 200], ["P2", words, 2, 12, length, width], head=DESCRIBED)


DESCRIBED = ["Mark", "Description", *HEAD[1:]]
BARE = ["Mark", "Qty", *HEAD[3:]]
PLATES = ["Mark", "Qty", "Thk (in)", "L (in)", "W (in)"]
TOTALS = ["Mark", "Qty", "Total qty", *HEAD[2:]]
SHEETS = {"Redesign": [HEAD, ["P1", 4, 12, 300, 200], ["P2", 2, 12, 250, 150]]}

_CASES = [
    _case("no headings", ["P1", 4, 10], ["P2", 2, 12], head=["bridge", "nine"]),
    _case("headings that nobody knows", ["P1", 4, 10, 3], head=["Merk", "Antal", "Tykkelse", "Laengde"]),
    _case("no column of quantities", ["P1", "x", 10, 300], head=["Mark", "Colour", "Thk (mm)", "Length (mm)"]),
    _case("no column of thicknesses", ["P1", 4, 300], head=["Mark", "Qty", "Length (mm)"]),
    _case("headings and no rows"),
    _case("two lists of one weight", GOOD, ["P2", 2, 12, 250, 150], sheet_name="Current", others=SHEETS),
    _case("a sheet that is not there", GOOD, sheet="Part"),
    _case("two columns of quantities", ["P1", 4, 6, 10, 300, 200], head=["Mark", "Pieces", "Need", *HEAD[2:]]),
    _case("a column word that is not known", GOOD, columns="thicknes=C"),
    _case("a column that is not there", GOOD, columns="thickness=Z"),
    _case(
        "marks numbered under a heading of pieces",
        *([1, 4, 10, 300, 200], [2, 9, 12, 250, 150]),
        head=["Pc", *HEAD[1:]],
    ),
    _case("a column named for what none of its cells is", GOOD, ["P2", *GOOD[1:]], columns="quantity=A"),
    _case("marks alone under a heading of pieces", ["P1", *GOOD[2:]], ["P2", *GOOD[2:]], head=["Pcs", *HEAD[2:]]),
    _case("a heading with a slip", GOOD, head=["Mark", "Qunatity", *HEAD[2:]]),
    _case("total quantity beside the quantity", ["P1", 2, 4, 10, 300, 200], head=TOTALS),
    _case("a title above titles that may multiply", ["TOWER (x3)"], ["FRAME A"], GOOD),
    _case("a title that may multiply", ["FRAME A (x2)"], GOOD),
    _case("a title that multiplies", ["FRAME A (x3)"], GOOD),
    _case("an assembly beside its parts", ["1", *GOOD[1:]], ["1.1", *GOOD[1:]]),
    _case("marks of three pieces and a quantity of one", ["A7-A9", 1, 10, 300, 200]),
    _case("marks of three pieces and a quantity of six", ["A7-A9", 6, 10, 300, 200]),
    _case("pieces of a set and sets", ["P1", 4, 3, 10, 300, 200], head=["Mark", "Per set", "Sets", *HEAD[2:]]),
    _case("a count and a size in a note", [*GOOD, "(4) 22mm"], head=[*HEAD, "Notes"]),
    _case("holes in a note", [*GOOD, "4 no. 22 holes"], head=[*HEAD, "Notes"]),
    _case("a thickness in a note", ["P1", 4, 300, 200, "in 12mm plate"], head=[*BARE, "Remarks"]),
    _described("a flange with two equal sides", "Blind flange", 300, 300),
    _described("a square plate with one side", "Square plate", 300, None),
    _case("work on a bought part", ["R1", "Straighten old hinge post", 1], head=DESCRIBED),
    _case("no headings and bare numbers", ["P2", 2, 12, 250, 150], head=GOOD),
    _case("no headings and sizes", ["P2", 2, "12x250x150"], head=["P1", 4, "10x300x200"]),
    _case("a thickness at each corner", ["B1", 4, 300, 250, 22, 23, 24, 25], head=[*BARE, "T1", "T2", "T3", "T4"]),
    _case(
        "a thickness at each corner, and a profile",
        ["B1", 4, 300, 250, 22, 23, 32],
        head=[*BARE, "T1", "T2", "PROFILE"],
    ),
    _case("the same pieces twice", GOOD, ["P2", 2, 12, 250, 150], [], HEAD, GOOD, ["P2", 2, 12, 250, 150]),
    _case(
        "a row with a name only", ["A", "Frame"], ["P1", "Plate", *GOOD[1:]], head=["Mark", "Description", *HEAD[1:]]
    ),
    _case(
        "a thickness in the title above a row", ["12 mm PLATE"], ["P1", 4, 300, 200], head=["Mark", "Qty", *HEAD[3:]]
    ),
    _case("an unlabelled sum", GOOD, ["P2", 2, 12, 250, 150], [None, 6]),
    _case("a total that is not the sum", GOOD, ["P2", 48, 12, 250, 150], ["Total", 48]),
    _case("no unit anywhere", GOOD, head=NO_UNIT),
    _case("inches in a metric shop", ["P1", 4, 0.25, 12, 6], ["P2", 2, 0.5, 10, 5], head=NO_UNIT),
    _case(
        "millimetres under inches",
        ["P1", 4, 12, 12, 6],
        ["P2", 2, 16, 10, 5],
        head=PLATES,
    ),
    _case("a date that can be read in two ways", GOOD, head=HEAD),
    _case("a length without a width", ["P1", 4, 10, 300], head=HEAD[:4]),
    _case("one merged thickness", GOOD, ["P2", 2, None, 250, 150], merged=[(1, 2, 2, 2)]),
    _case("a ditto mark", GOOD, ["P2", 2, '"', 250, 150]),
    _case("an example", ["X1", 1, 25, 9, 9, None], [], HEAD, GOOD, head=[*HEAD, "Remarks"]),
    _cell("no quantity", 1, None),
    _cell("a quantity in words", 1, "ALL"),
    _cell("half a piece", 1, 2.5),
    _cell("a quantity of metres", 1, "0,3m"),
    _cell("a quantity below zero", 1, -2),
    _cell("no pieces", 1, 0),
    _cell("a quantity with a length", 1, "10 @ 1200"),
    _cell("a product for a quantity", 1, "2x3"),
    _cell("a set", 1, "1 set"),
    _cell("an error value in the quantity", 1, CellError("#REF!")),
    _cell("a quantity that is yes", 1, True),
    _cell("words for a thickness", 2, "see dwg"),
    _cell("a range of thicknesses", 2, "12-18mm"),
    _cell("two notations that differ", 2, "6mm/1/4in"),
    _cell("a fraction of a millimetre", 2, "3/8 mm"),
    _cell("a fraction that is not in lowest terms", 2, "12/16"),
    _cell("a fraction under millimetres", 2, "3/8"),
    _cell("a fraction that became a date", 2, dt.datetime(2026, 3, 4)),
    _cell("a decimal that became a date", 2, dt.datetime(2026, 6, 5)),
    _cell("minutes for metres", 3, dt.time(0, 5)),
    _cell("a date whose format was lost", 2, 46085),
    _cell("an error value in the thickness", 2, CellError("#N/A")),
    _cell("a formula without a value", 2, NOT_CALCULATED),
    _cell("no thickness", 2, None),
    _cell("thin sheet", 2, 1.2),
    _cell("a thickness of half a metre and more", 2, 600),
    _cell("a thickness below zero", 2, -12),
    _cell("a label that fits another column", 2, "Ø22"),
    _cell("a thousands mark or a decimal mark", 3, "1,234"),
    _cell("an area for a length", 3, "12 m2"),
    _cell("a gauge that there is not", 2, "99 ga"),
    _cell("a gauge", 2, "10 ga"),
    _case("plate and width in one", ["P1", 4, "PL10*150", 300], head=["Mark", "Qty", "Profile (mm)", "Length (mm)"]),
    _case("12 in among millimetres", GOOD, ["P2", 2, "12 in", 9, 9], ["P3", 1, 20, 9, 9], ["P4", 1, 6, 9, 9]),
    _case("a bare number beside fractions", ["P1", 4, "3/8", 12, 6], ["P2", 2, 12, 10, 5], head=NO_UNIT),
    _size("a size in two units", "150mm x 3000mm x 1.5m"),
    _size("a size of four", "3*50*50*800"),
    _size("a ring that is wider inside", "9 OD x 14 ID"),
    _size("one figure for a size", "12"),
    _size("a number for a size", 12),
    _size("a bought part", "bolt M16"),
    _size("a section by height", "HEA 200"),
    _size("a section by height, width and weight", "UB 203x133x25"),
    _size("a section without a model", "T-BAR 100x100x10"),
    _size("a section by its sizes", "L50x50x5"),
    _size("a size with more in it", "6+PL3/8+A36"),
    _size("a size with holes", "PL 10x150x300 4xØ22"),
    _size("a size with slots", "PL 10x150x300 2 slots 18x30"),
    _case("holes in the description", ["P1", "Base 4xØ22", *GOOD[1:]], head=DESCRIBED),
    _case("holes that are not counted", ["P1", "Base, drill 2 holes", *GOOD[1:]], head=DESCRIBED),
    _case("a size against the thickness", ["P1", 4, 12, "10x300x200"], head=["Mark", "Qty", "Thk (mm)", "Size (mm)"]),
    _case("a size against the length", ["P1", 4, "10x300x200", 900], head=["Mark", "Qty", "Size (mm)", "Length (mm)"]),
    _with("aluminium", "Material", "Alu 5083"),
    _with("stainless steel", "Grade", "1.4301"),
    _with("plywood", "Material", "Plywood"),
    _with("cast iron", "Material", "GG25 cast iron"),
    _with("counted in metres", "Unit", "m"),
    _with("a shape that is not known", "Shape", "rnig"),
    _with("half a pierce", "Pierces", 1.5),
    _with("a bevel in words", "Bevel", "both"),
    _with("a bevel too steep", "Bevel", 75),
    _with("neither yes nor no", "Share cuts", "maybe"),
    _with("an alternate", "Remarks", "alternate to P9"),
    _case(
        "a mass that does not fit",
        *([f"P{n}", 1, 10, 300, 200, 4.71] for n in range(1, 4)),
        ["P4", 1, 10, 300, 200, 47.1],
        head=[*HEAD, "Weight (kg)"],
    ),
    _with("a total length that does not fit", "Total length (mm)", 1300),
    _with("holes with a size that may be a count", "Holes", "4 x 22"),
    _with("holes as wide as the piece", "Holes", "2 off 250"),
    _with("a hole in the middle", "Holes", '4" in the middle'),
    _with("holes of two sizes", "Holes", "4x Ø22 + 2x Ø14"),
    _with("holes of three sizes", "Holes", "2 x 3/4, 1 x 1/2, 1 x 5/8"),
    _with("holes in a range", "Holes", "4-13/16"),
    _with("a heading that may be the bevel", "Bevel in degrees maybe", 45),
    _with("a heading that asks for work", "Paint", "red"),
    _with("a bevel in a note", "Note", "bevel one long side 45"),
    _with("a triangle in a note", "Note", "cut corner to corner"),
    _with("burnt holes in a note", "Note", "torch holes ok"),
    _with("work in a column that nobody knows", "Zxqv", "drill and tap M12"),
    _with("grinding in a German note", "Bemerkung", "Kanten entgraten"),
    _with("a ring with two sides", "Description", "Ring"),
    _with("a triangle with two sides", "Description", "Triangular gusset"),
    _with("half a ring", "Description", "Half ring"),
    _described("a ring without its inside diameter", "Ring", 320, 320),
    _described("a quarter of a disc", "Quarter circle", 300, 300),
    _described("half a disc", "half moon", 320, 160),
    _described("a round whose side may be a length", "Round", 320, None),
    _described("sides beside a ring of another size", "Ring OD 320 ID 200", 350, 350),
    _described("equal sides of a disc", "Round plate", 320, 320),
    _described("a ring in words", "Ring 320/200", None, None),
    _described("no size at all", "Bracket", None, None),
    _case("no size and no columns of sides", ["P1", 4, 10, None], head=["Mark", "Qty", "Thk (mm)", "Size"]),
    _case("no size in inches", ["P1", 4, 0.5, None, None, "see sketch"], head=[*PLATES, "Note"]),
    _case(
        "half a ring with its cut length",
        ["P1", 4, 10, 300, 200, 900, "half ring"],
        head=[*HEAD, "Cut length (mm)", "Note"],
    ),
    _with("a triangle under Shape", "Shape", "tri"),
    _with("a half ring under Shape", "Shape", "half ring"),
    _with("corners clipped by their number", "Note", 'clip 2 corners 1"'),
    _with("a clipped corner in a note", "Note", 'snip 1" off the square corner'),
    _with("a held row", "Remarks", "ON HOLD - rev B coming"),
    _case("work that has a time", GOOD, ["straighten the bent frame", 1]),
    _case(
        "a bend with minutes of work alone", ["P1", 4, 10, None, None, "bend", 6], head=[*HEAD, "Work", "Minutes each"]
    ),
    _with("a bend in the row of its piece", "Work", "bend"),
    _with("a bend that nothing prices", "Note", "heat and bend 90"),
    _case("work that has no time", GOOD, ["powder coat all", 1]),
    _case("words that may be work", GOOD, ["as discussed with Bob", 1]),
    _case(
        "a title that holds what follows",
        GOOD,
        ["ON HOLD"],
        ["P2", 2, 12, 250, 150],
        ["LEVEL 2"],
        ["P3", 1, 10, 90, 80],
    ),
    _case("a note below that holds", GOOD, ["* waiting for drawing"]),
    _with("a cancelled row under a heading that nobody knows", "Zxqv", "cancelled"),
    _with("a row that is not settled", "Remarks", "check size with me"),
    _with("steel of whoever wrote the note", "Remarks", "our steel"),
    _with("the customer's steel in a note", "Remarks", "customer supplies plate"),
    _with("a flat with two sides", "Description", "Flat bar"),
]
_HANDED = Case(
    "pieces of two hands",
    [["Mark", "Qty", None, "Thk (mm)", "Length (mm)", "Width (mm)"], [None, "L", "R"], ["P1", 2, 3, 10, 300, 200]],
    [],
)
_TITLED = Case("a date that can be read in two ways", [["Date", "05/11/2026"], HEAD, GOOD], [])
_DATES = Case("two dates above the table", [["Cut list", "19.11.2026"], ["30.11.2026"], HEAD, GOOD], [])
_ABOVE = Case("a title above that holds the list", [["NOT YET RELEASED"], HEAD, GOOD], [])
_EXAMPLE = Case("an example", [["EXAMPLE"], HEAD, ["X1", 1, 25, 9, 9], [], ["Parts"], HEAD, GOOD], [])
BAD_LISTS = {case.name: case for case in (*_CASES, _HANDED, _TITLED, _DATES, _ABOVE, _EXAMPLE)}
