"""Discs and rings in words beside columns of sides: blank sides, equal sides, a bore, and what is asked."""

from tests.workbook.corpus.case import Case, Rows

R, DISC, RING = "rectangle", "disc", "ring"
DESCRIBED = ["Mark", "What", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
NOTED = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Remark"]
INCHES = ["Mark", "What", "Qty", "Thk (in)", "L (in)", "W (in)"]
PLATE = (2, "P1", 1, 12, 300, 200, None, R)


def _described(*words: str) -> Rows:
    """Return a plate with its sides, and rows whose sides stand in words."""
    return [DESCRIBED, ["P1", "Base plate", 1, 12, 300, 200], *(["A", text, 2, 12, None, None] for text in words)]


def _noted(side: int | None, *notes: str) -> Rows:
    """Return a plate without a note, and rows with a note and two equal sides or none."""
    return [NOTED, ["P1", 1, 12, 300, 200, None], *(["A", 2, 12, side, side, note] for note in notes)]


def _all_read(many: int, *sizes: float | str | None) -> list[tuple[float | str | None, ...]]:
    """Return the plate and some rows that read alike."""
    return [PLATE, *((row, "A", 2, 12, *sizes[:2], None, sizes[2]) for row in range(3, 3 + many))]


_RINGS = (
    *("Flange ring OD 320 ID 200", "Ring Ø320/200", "320 OD x 200 ID", "ring 320/200", "O.D. 320, I.D. 200"),
    *("Ring, outside 320 inside 200", "donut 320 x 200", "Pierścień fi 320/200", "anillo exterior 320 interior 200"),
)
_DISCS = ("Blank disc 320 dia", "320 mm diameter circle", "Scheibe Ø320", "round 320", "krążek fi 320")
_ROUND = ("round", "Disc", "circle", "redondo", "okrągła", "rund")
_SQUARE = ("weld all round", "not round", "stiffener for the ring")

CASES = [
    Case(
        "rings in words, sides blank", _described(*_RINGS), _all_read(9, 320, 200, RING), codes=" ".join(["W213"] * 9)
    ),
    Case(
        "discs in words, sides blank", _described(*_DISCS), _all_read(5, 320, None, DISC), codes=" ".join(["W213"] * 5)
    ),
    Case(
        "rings in a note, sides blank",
        _noted(None, "OD 320, ID 200", "ring 320/200", "320 OD x 200 ID"),
        _all_read(3, 320, 200, RING),
        codes="W213 W213 W213",
    ),
    Case(
        "two equal sides with a word for round are a disc, and said",
        _noted(320, *_ROUND),
        _all_read(6, 320, None, DISC),
        codes=" ".join(["W213"] * 6),
    ),
    Case(
        "a word for round that is another thing's leaves the square",
        _noted(320, *_SQUARE),
        _all_read(3, 320, 320, R),
        codes="W236",
    ),
    Case(
        "rings in inches",
        [INCHES, ["A", 'O.D. 14-1/2" I.D. 9"', 2, "1/2", None, None], ["B", "ring 12/8", 1, "1/2", None, None]],
        [(2, "A", 2, 12.7, 368.3, 228.6, None, RING), (3, "B", 1, 12.7, 304.8, 203.2, None, RING)],
        codes="W213 W213",
    ),
    Case(
        "sides that are a ring's diameters",
        [DESCRIBED, ["A", "Ring OD 320 ID 200", 1, 12, 320, 320], ["B", "Ring OD 320 ID 200", 1, 12, 320, 200]],
        [(2, "A", 1, 12, 320, 200, None, RING), (3, "B", 1, 12, 320, 200, None, RING)],
        codes="W213 W213",
    ),
    Case(
        "sides that are other ones than a ring's diameters",
        [DESCRIBED, ["A", "Ring OD 320 ID 200", 1, 12, 350, 350]],
        [(2, "A", 1, 12, 350, 350, None, R)],
        codes="E220",
    ),
    Case(
        "a ring without its inside diameter, and a round with one side",
        [DESCRIBED, ["A", "Ring", 1, 12, 320, 320], ["B", "Round", 1, 12, 320, None], ["C", "Disc", 1, 12, 320, None]],
        [
            (2, "A", 1, 12, 320, 320, None, R),
            (3, "B", 1, 12, None, None, None, None),
            (4, "C", 1, 12, 320, None, None, DISC),
        ],
        codes="E240 E240 W213",
    ),
    Case(
        "a bore in words beside a column of diameters",
        [
            ["Mark", "What", "Qty", "Thk (mm)", "Dia (mm)"],
            ["A", "Flange, 150 bore", 1, 20, 320],
            ["B", "ring OD 320 ID 200", 1, 20, 320],
            ["C", "Cover", 1, 20, 320],
            ["D", "ring OD 300 ID 200", 1, 20, 320],
        ],
        [
            (2, "A", 1, 20, 320, 150, None, RING),
            (3, "B", 1, 20, 320, 200, None, RING),
            (4, "C", 1, 20, 320, None, None, DISC),
            (5, "D", 1, 20, 320, None, None, DISC),
        ],
        codes="E220 W213 W213",
    ),
    Case(
        "a diameter among the lengths",
        [DESCRIBED, ["A", "Cover", 1, 12, "Ø320", None], ["B", "Cover", 1, 12, "Ø320", 100]],
        [(2, "A", 1, 12, 320, None, None, DISC), (3, "B", 1, 12, None, None, None, None)],
        codes="E220 W213",
    ),
    Case(
        "two sides in words, sides blank",
        _described("Base plate 300x200", "gusset 300 x 200", "Base 300x200x12"),
        _all_read(3, 300, 200, R),
        codes="W213 W213 W213",
    ),
    Case(
        "a size in words that is another thing's is asked for",
        _described("plate to suit 300x200 post", "Base 300x200x10"),
        _all_read(2, None, None, None),
        codes="E273 E273",
    ),
    Case(
        "a round among sizes beside a thickness",
        [["Mark", "Qty", "Thk", "Size", "Note"], ["A", 1, '1"', '8" round', ""], ["B", 1, '1"', '12" x 12"', "disc"]],
        [(2, "A", 1, 25.4, 203.2, None, None, DISC), (3, "B", 1, 25.4, 304.8, None, None, DISC)],
        codes="W213 W213",
    ),
]
