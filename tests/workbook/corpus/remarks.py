"""What notes and marks say of a piece: holes, a thickness, several marks; and quantities in words and in sets."""

from tests.workbook.corpus.case import Case, Rows

R, DISC, RING = "rectangle", "disc", "ring"
NOTED = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Remark"]
DESCRIBED = ["Mark", "What", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
COUNTED = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
BARE = ["Mark", "Qty", "Length (mm)", "Width (mm)", "Notes"]


def _noted(*notes: str) -> Rows:
    return [NOTED, *(["A", 2, 12, 300, 200, note] for note in notes)]


def _all(many: int, *sizes: float | str | None) -> list[tuple[float | str | None, ...]]:
    return [(row, "A", 2, 12, *sizes[:2], None, sizes[2]) for row in range(2, 2 + many)]


_TOLD = (
    *(
        "(4) 22mm",
        "Ø22 x 4",
        "4 holes",
        "2 slots 22x40",
        "holes 22 dia each corner",
        "2 holes 22 both ends",
        "4 x M20 holes",
    ),
    *("4 holes 22 dia by others", "matches 4 holes 22 dia in base", "4-7/8 dia", "4 holes 22 dia, not drilled"),
)
_SILENT = ("4 x 300 long", "3 @ 150", "12mm", "as drawing 4")

CASES = [
    Case(
        "holes of notes that are told of", _noted(*_TOLD), _all(len(_TOLD), 300, 200, R), codes=" ".join(["W232"] * 11)
    ),
    Case("figures of notes that are no holes", _noted(*_SILENT), _all(4, 300, 200, R)),
    Case(
        "marks of several pieces",
        [
            COUNTED,
            *([mark, many, 12, 300, 200] for mark, many in (("A7-A9", 3), ("B1, B2", 4), ("P-12", 1), ("7-9", 1))),
        ],
        [
            *((2, "A7-A9", 3, 12, 300, 200, None, R), (3, "B1, B2", 4, 12, 300, 200, None, R)),
            *((4, "P-12", 1, 12, 300, 200, None, R), (5, "7-9", 1, 12, 300, 200, None, R)),
        ],
        codes="W249",
    ),
    Case(
        "quantities in words",
        [COUNTED, *(["A", text, 12, 300, 200] for text in ("two", "zwei", "dos", "dwie", "2 off"))],
        _all(5, 300, 200, R),
    ),
    Case(
        "pairs and dozens",
        [COUNTED, *(["A", text, 12, 300, 200] for text in ("a pair", "half a dozen", "2 doz"))],
        [(n, "A", many, 12, 300, 200, None, R) for n, many in ((2, 2), (3, 6), (4, 24))],
        codes="W212 W212 W212",
    ),
    Case(
        "thicknesses of notes",
        [
            BARE,
            *(
                ["A", 2, 300, 200, text]
                for text in ("in 12mm plate", "12 mm thk", "aus 12 mm Blech", "12mm plate, bevel 45")
            ),
        ],
        _all(4, 300, 200, R),
        codes="W213 W213 W213 W213 W236",
    ),
    Case(
        "rings in feet and a hole in the middle",
        [
            DESCRIBED,
            ["A", "ring 2' OD 1'-6\" ID", 2, 12, None, None],
            ["A", "Disc 300 dia, 100 hole in centre", 2, 12, None, None],
        ],
        [(2, "A", 2, 12, 609.6, 457.2, None, RING), (3, "A", 2, 12, 300, 100, None, RING)],
        codes="W213 W213",
    ),
    Case(
        "squares of one side, and a square end that is none",
        [DESCRIBED, ["A", "Square plate", 2, 12, 300, None], ["A", "square end bar cut", 2, 12, 300, None]],
        [(2, "A", 2, 12, 300, 300, None, R), (3, "A", 2, 12, None, None, 300, None)],
        codes="W119 W213",
    ),
    Case(
        "flanges with sides",
        [DESCRIBED, *(["A", text, 2, 12, 300, 300] for text in ("blind flange", "square flange", "base plate"))],
        _all(3, 300, 300, R),
        codes="W237",
    ),
]
