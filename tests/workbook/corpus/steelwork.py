"""Sections, holes in words, lists without headings, assemblies, tapered plates: how steelwork lists are kept."""

from tests.workbook.corpus.case import Case

R = "rectangle"
HEAD = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
ITEMS = ["Item", "Description", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
CORNERS = ["Bearing", "Qty", "Dim A", "Dim B", "T1", "T2", "T3", "T4", "Max", "Profile"]

CASES = [
    Case(
        "sections by their sizes, in the orders that people write",
        [
            ["Mark", "Qty", "Size", "Length (mm)"],
            ["B1", 1, "UB 203x133x25", 900],
            ["B2", 1, "203x133 UB 25", 900],
            ["B3", 2, "RH300*150*6.5*9", 500],
            ["C1", 1, "[150x75x6.5x10", 400],
            ["C2", 1, "U 80x45x6", 400],
            ["L1", 1, "L 100x100x10x50", None],
            ["T1", 1, "TS 4x4x1/4", 500],
            ["P1", 1, "PIPE 60.3x3.6", 500],
        ],
        [
            (2, "B1", 1, None, 203, 133, None, "beam"),
            (3, "B2", 1, None, 203, 133, None, "beam"),
            (4, "B3", 2, 9, 300, 150, None, "beam"),
            (5, "C1", 1, 10, 150, 75, None, "channel"),
            (6, "C2", 1, 6, 80, 45, None, "channel"),
            (7, "L1", 1, 10, 100, 100, None, "angle"),
            (8, "T1", 1, 6.35, 101.6, 101.6, None, "square tube"),
            (9, "P1", 1, 3.6, 60.3, None, None, "pipe"),
        ],
        codes="W116 " + " ".join(["W225"] * 8),
    ),
    Case(
        "sections that no size string prices",
        [
            ["Mark", "Qty", "Size (mm)"],
            ["P0", 1, "10x150x300"],
            ["B1", 1, "HEA 200"],
            ["B2", 1, "200UB25.4"],
            ["P1", 1, 'pipe 2" sch 40'],
            ["T1", 1, "T-BAR 100x100x10"],
            ["R1", 1, "ROUND BAR 100x50"],
            ["C1", 1, "C 150x75x20x3.2"],
        ],
        [
            (2, "P0", 1, 10, 300, 150, None, R),
            (3, "B1", 1, None, None, None, None, None),
            (4, "B2", 1, None, None, None, None, None),
            (5, "P1", 1, None, None, None, None, None),
            (6, "T1", 1, None, None, None, None, None),
            (7, "R1", 1, None, None, None, None, None),
            (8, "C1", 1, None, None, None, None, None),
        ],
        codes="E204 E204 E204 E226 E226 E226",
    ),
    Case(
        "what a description says beside the sizes: the last word of a name counts",
        [
            ["Mark", "Description", "Qty", "Size (mm)"],
            ["A1", "Support tube", 1, "50x50x3"],
            ["A2", "Tube cap", 1, "50x50x4"],
            ["A3", "Bearing plate", 2, "300x300x25"],
            ["A4", "Angle bracket", 2, "100x100x10"],
            ["A5", "Plate to column UC", 2, "300x200x20"],
        ],
        [
            (2, "A1", 1, 3, 50, 50, None, "square tube"),
            (3, "A2", 1, 4, 50, 50, None, R),
            (4, "A3", 2, 25, 300, 300, None, R),
            (5, "A4", 2, None, None, None, None, None),
            (6, "A5", 2, 20, 300, 200, None, R),
        ],
        codes="E204 W225",
    ),
    Case(
        "a section in inches beside sizes in millimetres",
        [
            ["Mark", "Qty", "Size", "Length (mm)"],
            ["P1", 2, "10x150x300", None],
            ["T1", 1, 'HSS 4"x4"x1/4"', 500],
        ],
        [(2, "P1", 2, 10, 300, 150, None, R), (3, "T1", 1, 6.35, 101.6, 101.6, None, "square tube")],
        codes="W116 W225",
    ),
    Case(
        "no headings: sizes and whole numbers leave no doubt",
        [["P1", 4, "10x300x200"], ["P2", 2, "12x250x150"]],
        [(1, "P1", 4, 10, 300, 200, None, R), (2, "P2", 2, 12, 250, 150, None, R)],
        codes="W116 W126",
    ),
    Case(
        "no headings: three lengths with their units and counts with a word",
        [["P1", "300mm", "10mm", "200mm", "4 off"], ["P2", "250mm", "12mm", "150mm", "2 off"]],
        [(1, "P1", 4, 10, 300, 200, None, R), (2, "P2", 2, 12, 250, 150, None, R)],
        codes="W126",
    ),
    Case(
        "no headings and bare numbers are asked",
        [["P1", 4, 10, 300, 200], ["P2", 2, 12, 250, 150]],
        [],
        codes="E101",
    ),
    Case(
        "tapered bearing plates: the profile is cut, not a corner",
        [CORNERS, ["B1", 4, 300, 250, 22, 23, 24, 25, 25, 32], ["B2", 2, 300, 250, 18, 18, 20, 20, 20, 25]],
        [(2, "", 4, 32, 300, 250, None, R), (3, "", 2, 25, 300, 250, None, R)],
        codes="N128 W116 W127",
    ),
    Case(
        "tapered bearing plates without a profile are asked",
        [CORNERS[:-1], ["B1", 4, 300, 250, 22, 23, 24, 25, 25]],
        [],
        codes="E106",
    ),
    Case(
        "an assembly by its number multiplies its parts alone",
        [
            ITEMS,
            [1, "Frame", 2],
            [1.1, "Plate", 1, 10, 300, 200],
            [1.2, "Plate", 4, 12, 250, 150],
            [2, "Base", 1, 20, 500, 500],
        ],
        [
            (3, "1.1", 2, 10, 300, 200, None, R),
            (4, "1.2", 8, 12, 250, 150, None, R),
            (5, "2", 1, 20, 500, 500, None, R),
        ],
        codes="W125",
        counts="heading 1, title 1, priced 3",
    ),
    Case(
        "an assembly of one is a title",
        [ITEMS, ["1", "Frame", 1], ["1.1", "Plate", 2, 10, 300, 200], ["2", "Base", 1, 20, 500, 500]],
        [(3, "1.1", 2, 10, 300, 200, None, R), (4, "2", 1, 20, 500, 500, None, R)],
        counts="heading 1, title 1, priced 2",
    ),
    Case(
        "an assembly with sizes of its own beside its parts is asked",
        [ITEMS, ["1", "Frame", 1, 50, 900, 900], ["1.1", "Plate", 2, 10, 300, 200], ["2", "Base", 1, 20, 500, 500]],
        [
            (2, "1", 1, 50, 900, 900, None, R),
            (3, "1.1", 2, 10, 300, 200, None, R),
            (4, "2", 1, 20, 500, 500, None, R),
        ],
        codes="E234",
    ),
    Case(
        "a title whose number divides every quantity is asked, row by row",
        [HEAD, ["FRAME A (x2)"], ["P1", 4, 10, 300, 200], ["P2", 2, 12, 250, 150], ["FRAME B"], ["P3", 1, 8, 90, 80]],
        [
            (3, "P1", 4, 10, 300, 200, None, R),
            (4, "P2", 2, 12, 250, 150, None, R),
            (6, "P3", 1, 8, 90, 80, None, R),
        ],
        codes="E233 E233",
    ),
    Case(
        "a title above another title is asked",
        [HEAD, ["TOWER (x2)"], ["FRAME A"], ["P1", 1, 10, 300, 200]],
        [(4, "P1", 1, 10, 300, 200, None, R)],
        codes="E111",
    ),
    Case(
        "holes in descriptions and sizes",
        [
            ["Mark", "Description", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"],
            ["P1", "Base plate 4xØ22", 2, 20, 300, 300],
            ["P2", "Plate, 2 holes by us", 2, 20, 300, 300],
            ["P3", "Plate 2 slots 18x30", 2, 20, 300, 300],
        ],
        [(n + 1, f"P{n}", 2, 20, 300, 300, None, R) for n in (1, 2, 3)],
        codes="W231 W232 W232",
    ),
]
