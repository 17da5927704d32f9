"""Lists as farmers, workshops and builders send them: their own words for headings, shapes, holes and wishes."""

from tests.workbook.corpus.case import Case

R, DISC, RING = "rectangle", "disc", "ring"
NOTED = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Notes"]
DESCRIBED = ["Mark", "What", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
ROW = ("A", 2, 12, 300, 200, None, R)


def _noted(name: str, note: str, codes: str) -> Case:
    """Return one plate with a note, and what has to be said of it."""
    return Case(name, [NOTED, ["A", 2, 12, 300, 200, note]], [(2, *ROW)], codes=codes)


def _shaped(what: str) -> list[object]:
    return ["A", what, 2, 12, 300, 200]


CASES = [
    Case(
        "how many, how thick, how long, how wide",
        [["How many", "What", "How thick", "How long", "How wide"], [2, "kick plate", '1/2"', '24"', '18"']],
        [(2, "kick plate", 2, 12.7, 609.6, 457.2, None, R)],
    ),
    Case(
        "a flange with its holes on a circle, sides blank",
        [DESCRIBED, ["F1", "Flange OD 400 ID 200, 8 holes 22 on 350 PCD", 2, 20, None, None]],
        [(2, "F1", 2, 20, 400, 200, None, RING)],
        codes="W213",
    ),
    Case(
        "squares and rounds by one size beside a thickness",
        [["Qty", "Thk", "Size", "Item"], [2, '1/2"', '14" round', "lid"], [1, '1/2"', '14" sq', "base"]],
        [(2, "lid", 2, 12.7, 355.6, None, None, DISC), (3, "base", 1, 12.7, 355.6, 355.6, None, R)],
        codes="W213 W213",
    ),
    Case(
        "German round and square bars by their short words",
        [["Pos", "Menge", "Abmessung (mm)", "Länge (mm)"], [1, 4, "Rd 50", 300], [2, 2, "Vkt 40", 200]],
        [(2, "1", 4, None, 50, None, None, "round bar"), (3, "2", 2, None, 40, None, None, "square bar")],
        codes="W225 W225",
    ),
    Case(
        "plates of shapes that two sides do not give",
        [DESCRIBED, *map(_shaped, ("tapered web", "hex plate", "D-shaped plate", "Lug with radius end", "horseshoe"))],
        [(row, *ROW) for row in range(2, 7)],
        codes="E240 E240 E240 E240 E240",
    ),
    Case(
        "pieces of two hands",
        [NOTED[:5], ["A", "2L + 2R", 12, 300, 200], ["B", "1 LH 1 RH", 12, 300, 200]],
        [(2, "A", 4, 12, 300, 200, None, R), (3, "B", 2, 12, 300, 200, None, R)],
        codes="W212 W212",
    ),
    Case(
        "rows ticked as done",
        [[*NOTED[:5], "Done"], ["A", 2, 12, 300, 200, "x"], ["B", 2, 12, 300, 200, None]],
        [(2, *ROW), (3, "B", 2, 12, 300, 200, None, R)],
        codes="E242 N128",
    ),
    Case(
        "rows whose status says that they are done",
        [[*NOTED[:5], "Status"], ["A", 2, 12, 300, 200, "cut already"], ["B", 2, 12, 300, 200, "to do"]],
        [(2, *ROW), (3, "B", 2, 12, 300, 200, None, R)],
        codes="E242",
    ),
    Case(
        "words that speak of other things leave the plate as it is",
        [
            DESCRIBED,
            ["A", "Pad for round bar", 2, 12, 60, 60],
            ["B", "Plate under ring beam", 2, 12, 300, 300],
            ["C", "Support, round hollow section", 2, 12, 300, 300],
            ["D", "Washer plate", 2, 12, 100, 100],
        ],
        [
            (2, "A", 2, 12, 60, 60, None, R),
            (3, "B", 2, 12, 300, 300, None, R),
            (4, "C", 2, 12, 300, 300, None, R),
            (5, "D", 2, 12, 100, 100, None, R),
        ],
    ),
    Case(
        "discs with a hole and a diameter with a bore, sides blank",
        [
            DESCRIBED,
            ["A", "Disc Ø300 with Ø100 hole", 2, 12, None, None],
            ["B", "300 dia x 100 bore", 2, 12, None, None],
        ],
        [(2, "A", 2, 12, 300, 100, None, RING), (3, "B", 2, 12, 300, 100, None, RING)],
        codes="W213 W213",
    ),
    Case(
        "another thing's bore is not the piece's, and a German disc",
        [["Mark", "What", "Qty", "Thk (mm)", "Dia (mm)"], ["A", "blank to suit 150 bore pipe", 2, 12, 300]],
        [(2, "A", 2, 12, 300, None, None, DISC)],
    ),
    Case(
        "a German disc by two equal sides",
        [["Pos", "Bezeichnung", "Stk", "Dicke (mm)", "Länge (mm)", "Breite (mm)"], [1, "Kreisplatte", 1, 15, 400, 400]],
        [(2, "1", 1, 15, 400, None, None, DISC)],
        codes="W213",
    ),
    Case(
        "a row that its material holds",
        [["Mark", "Qty", "Material", "Thk (mm)", "Length (mm)", "Width (mm)"], ["A", 2, "S275 - hold", 12, 300, 200]],
        [(2, *ROW)],
        codes="E242",
    ),
    _noted("weld preparation in short", "prep 30 deg both sides", "W236"),
    _noted("a question in a note", "or 350 long?", "W247"),
    _noted("a plate that is to be cut up", "cut into 4 strips 50 wide", "W236"),
    _noted("a mitre in a note", "mitre both ends 45", "W236"),
    _noted("spares in a note", "plus 1 spare", "W236"),
    _noted("rounded corners in a note", "4 corners R50", "W236"),
    _noted("a Polish corner in a note", "ścięcie 20x20", "W236"),
]
