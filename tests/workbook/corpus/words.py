"""Shapes and work that a list says in words: in columns of any heading, in notes, in rows between the pieces."""

from tests.workbook.corpus.case import Case

R = "rectangle"
SIZED = ["Mark", "Qty", "What", "Size (mm)", "Thk (mm)"]
RING = (2, "R1", 2, 20, 350, 230, None, "ring")
GUSSET = (3, "G1", 6, 12, 200, 150, None, R)
FLAT = (4, "F1", 4, 12, 150, None, None, "bar end")
PLATE = [["P1", 4, 10, 300, 200]]
ROWS = [["R1", 2, "Ring", "350x230", 20], ["G1", 6, "Gusset", "200x150", 12]]

CASES = [
    Case(
        "shapes under What",
        [SIZED, *ROWS, ["F1", 4, "Flat bar", "850x150", 12]],
        [RING, GUSSET, (4, "F1", 4, 12, 850, 150, None, R)],
        codes="W213",
    ),
    Case(
        "shapes under a heading that nobody knows",
        [["Mark", "Qty", "Zxqv", "Size (mm)", "Thk (mm)"], *ROWS],
        [RING, GUSSET],
        codes="W109 W213",
    ),
    Case(
        "shapes under Part beside the mark",
        [["Mark", "Qty", "Part", "Size (mm)", "Thk (mm)"], *ROWS],
        [RING, GUSSET],
        codes="W109 W213",
    ),
    Case(
        "shapes under Item beside the mark",
        [["Mark", "Qty", "Item", "Size (mm)", "Thk (mm)"], *ROWS],
        [RING, GUSSET],
        codes="W109 W213",
    ),
    Case(
        "shapes for marks",
        [["Part", "Qty", "Size (mm)", "Thk (mm)"], ["Ring", 2, "350x230", 20], ["Gusset", 6, "200x150", 12]],
        [(2, "Ring", 2, 20, 350, 230, None, "ring"), (3, "Gusset", 6, 12, 200, 150, None, R)],
        codes="W213",
    ),
    Case(
        "shapes beside a description that names the part",
        [
            ["Mark", "Qty", "Description", "Kind?", "Size (mm)", "Thk (mm)"],
            ["R1", 2, "Hopper outlet", "Ring", "350x230", 20],
            ["G1", 6, "Leg", "Gusset", "200x150", 12],
        ],
        [RING, GUSSET],
        codes="W109 W213",
    ),
    Case(
        "part names under Part beside the mark",
        [
            ["Mark", "Qty", "Part", "Size (mm)", "Thk (mm)"],
            ["P1", 4, "Hopper wall", "300x200", 10],
            ["P2", 2, "Hopper lid", "250x150", 12],
        ],
        [(2, "P1", 4, 10, 300, 200, None, R), (3, "P2", 2, 12, 250, 150, None, R)],
        codes="W109",
    ),
    Case(
        "a flat bar whose sides stand in columns",
        [["Mark", "Qty", "Description", "Thk (mm)", "Length (mm)", "Width (mm)"], ["F1", 4, "Flat bar", 12, 850, 150]],
        [(2, "F1", 4, 12, 850, 150, None, R)],
        codes="W238",
    ),
    Case(
        "a flat plate is a plate",
        [
            ["Mark", "Qty", "Description", "Thk (mm)", "Length (mm)", "Width (mm)"],
            ["F1", 4, "Flat plate", 12, 850, 150],
        ],
        [(2, "F1", 4, 12, 850, 150, None, R)],
    ),
    Case(
        "work in notes that the rows price",
        [
            [
                "Mark",
                "Qty",
                "Thk (mm)",
                "Length (mm)",
                "Width (mm)",
                "Shape",
                "Bevel",
                "Edges",
                "Holes",
                "Hole dia",
                "Note",
            ],
            ["P1", 4, 10, 300, 200, None, 30, None, None, None, "bevel all round 30"],
            ["P2", 2, 12, 250, 150, None, None, "bright", None, None, "grind edges bright"],
            ["P3", 2, 12, 250, 150, "right triangle", None, None, None, None, "cut corner to corner"],
            ["P4", 2, 12, 250, 150, None, None, None, 4, "22 mm", "drill 4 holes"],
        ],
        [
            (2, "P1", 4, 10, 300, 200, None, R),
            (3, "P2", 2, 12, 250, 150, None, R),
            (4, "P3", 2, 12, 250, 150, None, "right triangle"),
            (5, "P4", 2, 12, 250, 150, None, R),
        ],
    ),
    Case(
        "work in a note that another row of the mark prices",
        [
            ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Work", "Other work", "Note"],
            ["P1", 4, 10, 300, 200, None, None, "straighten after cutting"],
            ["P1", 4, None, None, None, "other", "straighten", None],
        ],
        [(2, "P1", 4, 10, 300, 200, None, R), (3, "P1", 4, None, None, None, None, None)],
    ),
    Case(
        "work that others do, or nobody",
        [
            ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Note"],
            ["P1", 4, 10, 300, 200, "holes drilled by customer"],
            ["P2", 2, 12, 250, 150, "do not grind"],
            ["P3", 2, 12, 250, 150, "no bevel"],
            ["P4", 2, 12, 250, 150, "ohne Fase"],
        ],
        [
            (2, "P1", 4, 10, 300, 200, None, R),
            (3, "P2", 2, 12, 250, 150, None, R),
            (4, "P3", 2, 12, 250, 150, None, R),
            (5, "P4", 2, 12, 250, 150, None, R),
        ],
    ),
    Case(
        "work in a note below the pieces",
        [
            ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"],
            ["P1", 4, 10, 300, 200],
            [],
            ["NOTE: all long edges bevelled 30"],
        ],
        [(2, "P1", 4, 10, 300, 200, None, R)],
        codes="W236",
        counts="heading 1, priced 1, blank 1, note 1",
    ),
    Case(
        "parts named after work are no work",
        [
            ["Mark", "Qty", "Description", "Thk (mm)", "Length (mm)", "Width (mm)"],
            ["P1", 4, "Weld plate", 10, 300, 200],
            ["P2", 2, "Drill jig base", 12, 250, 150],
        ],
        [(2, "P1", 4, 10, 300, 200, None, R), (3, "P2", 2, 12, 250, 150, None, R)],
    ),
    Case(
        "rings by their diameters",
        [
            ["Mark", "Qty", "Size (mm)", "Thk (mm)"],
            ["R1", 2, "350 OD x 230 ID", 20],
            ["R2", 2, "OD 350 ID 230", 20],
            ["R3", 2, "Ø350/Ø230", 20],
            ["R4", 2, "350/230 ring", 20],
            ["R5", 2, "ID 230, OD 350", 20],
            ["R6", 2, "350 OD x 230 ID x 20 THK", None],
            ["P1", 2, "pipe 350 OD x 10 wall", 10],
        ],
        [
            *((row, f"R{row - 1}", 2, 20, 350, 230, None, "ring") for row in range(2, 8)),
            (8, "P1", 2, 10, 350, None, None, "pipe"),
        ],
        codes="W213 W213 W213 W213 W213 W225",
    ),
    Case(
        "outside and inside diameter under OD and ID",
        [["Qty", "ID", "OD (mm)", "Thk (mm)"], [2, 230, 350, 20], [4, 100, 350, 20]],
        [(2, "", 2, 20, 350, 230, None, "ring"), (3, "", 4, 20, 350, 100, None, "ring")],
        codes="W116",
    ),
    Case(
        "discs with an ID that numbers them",
        [["ID", "Qty", "OD (mm)", "Thk (mm)"], [1, 2, 350, 20], [2, 4, 300, 20]],
        [(2, "1", 2, 20, 350, None, None, "disc"), (3, "2", 4, 20, 300, None, None, "disc")],
    ),
    Case(
        "a title line that names the job",
        [
            ["CUTTING LIST"],
            ["All dimensions in mm"],
            ["Tollgate hopper - cutting for Mr Vane"],
            [],
            ["Mark", "Qty", "Thk", "Length", "Width"],
            ["P1", 4, 10, 300, 200],
        ],
        [(6, "P1", 4, 10, 300, 200, None, R)],
        title={"job": "Tollgate hopper - cutting for Mr Vane", "customer": "", "units": "mm"},
    ),
    Case(
        "a title that says Job, below a line of words",
        [["Vane and daughters"], ["Job", "Hopper"], ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"], *PLATE],
        [(4, "P1", 4, 10, 300, 200, None, R)],
        title={"job": "Hopper"},
    ),
    Case(
        "lines above the table that are no title",
        [
            ["Note: read the drawing first"],
            ["Rev B"],
            ["ALL FROM 10mm PLATE"],
            ["Mark", "Qty", "Length (mm)", "Width (mm)"],
            ["P1", 4, 300, 200],
        ],
        [(5, "P1", 4, 10, 300, 200, None, R)],
        codes="W230",
        title={"job": ""},
    ),
    Case(
        "triangles in sizes, descriptions and notes",
        [
            ["Mark", "Qty", "Size (mm)", "Thk (mm)", "Description", "Remarks"],
            ["T1", 4, "150 x 120", 12, None, 'triangles, snip 1" off the square corner'],
            ["T2", 4, "150 x 120", 12, "gusset, triangle", None],
            ["T3", 4, "150 x 120 tri.", 12, None, None],
            ["T4", 4, "12 x 150 x 120 triangle", None, None, None],
            ["T5", 4, "150 x 120", 12, "Dreieckblech", None],
            ["G1", 4, "150 x 120", 12, "gusset", "not a triangle"],
            ["G2", 4, "150 x 120", 12, "trim plate", None],
        ],
        [
            *((row, f"T{row - 1}", 4, 12, 150, 120, None, "right triangle") for row in range(2, 7)),
            (7, "G1", 4, 12, 150, 120, None, R),
            (8, "G2", 4, 12, 150, 120, None, R),
        ],
        codes="W236 W239 W239 W239 W239 W239",
    ),
    Case(
        "a half ring whose cut length is typed, and cuts in a plate that is no half disc",
        [
            ["Mark", "Qty", "Size (mm)", "Thk (mm)", "Cut length (mm)", "Description"],
            ["H1", 4, "ring 350 x 230", 20, 1100, "half ring"],
            ["P1", 4, "300 x 200", 20, 1100, "plate, half circle cut out"],
        ],
        [(2, "H1", 4, 20, 350, 230, 1100, "ring"), (3, "P1", 4, 20, 300, 200, 1100, R)],
        codes="W213 W241",
    ),
    Case(
        "a triangle under Shape",
        [
            ["Mark", "Qty", "Thk (mm)", "Shape", "Size A (mm)", "Size B (mm)"],
            ["T1", 4, 12, "Triangle", 150, 120],
            ["T2", 4, 12, "tri", 150, 120],
            ["T3", 4, 12, "right triangle", 150, 120],
        ],
        [(row, f"T{row - 1}", 4, 12, 150, 120, None, "right triangle") for row in range(2, 5)],
        codes="W213 W213",
    ),
    Case(
        "whose steel it is, said in notes",
        [
            ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Steel", "Remarks"],
            ["P1", 4, 10, 300, 200, None, "their steel"],
            ["P2", 4, 10, 300, 200, None, "FREE ISSUE"],
            ["P3", 4, 10, 300, 200, None, "Blech vom Kunden"],
            ["P4", 4, 10, 300, 200, "theirs", "steel by customer"],
            ["P5", 4, 10, 300, 200, None, "drilling by customer"],
            ["P6", 4, 10, 300, 200, None, "not on hold; do not cut the corners; drawing not required"],
        ],
        [(row, f"P{row - 1}", 4, 10, 300, 200, None, R) for row in range(2, 8)],
        codes="W224 W243 W243 W243",
    ),
    Case(
        "totals of sections and of all, and of weight",
        [
            ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"],
            ["P1", 4, 10, 300, 200],
            ["P2", 3, 10, 300, 200],
            ["Subtotal", 7],
            ["P3", 5, 12, 300, 200],
            ["Subtotal", 5],
            ["Total weight", 61],
            ["Grand total", 12],
        ],
        [
            (2, "P1", 4, 10, 300, 200, None, R),
            (3, "P2", 3, 10, 300, 200, None, R),
            (5, "P3", 5, 12, 300, 200, None, R),
        ],
    ),
]
