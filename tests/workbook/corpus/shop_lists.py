"""Small shops: stock in words beside cut sizes, walls in a column, titles naming the stock, labelled figures."""

from tests.workbook.corpus.case import Case

R = "rectangle"
TUBE = "square tube"

CASES = [
    Case(
        "stock in words beside the cut size, plates and sections together",
        [
            ["#", "Part", "Stock", "Cut size", "Qty"],
            [1, "Spine", '2" x 3" x 1/8" wall rect tube', '22-7/8"', 1],
            [2, "Tab", '1/2" plate', '1.75" x 2" blank', 2],
            [3, "Socket", '1-1/2" OD x 0.156" wall round tube', '4"', 1],
            [4, "Strap", '1/4" x 1" flat bar', '13"', 3],
        ],
        [
            (2, "Spine", 1, 3.175, 76.2, 50.8, None, TUBE),
            (3, "Tab", 2, 12.7, 50.8, 44.45, None, R),
            (4, "Socket", 1, 3.9624, 38.1, None, None, "pipe"),
            (5, "Strap", 3, 6.35, 330.2, 25.4, None, R),
        ],
        codes="W225 W225",
    ),
    Case(
        "tubes whose wall has a column of its own",
        [
            ["Size", "Wall thickness", "Length needed", "Quantity", "Part Ref"],
            ['4" x 4"', '1/4" (6.35mm)', "1800mm", 2, "A1"],
            ['2" x 2"', '1/4"', "100mm", 2, "F1"],
        ],
        [(2, "A1", 2, 6.35, 101.6, 101.6, None, TUBE), (3, "F1", 2, 6.35, 50.8, 50.8, None, TUBE)],
        codes="W211 W225 W225",
    ),
    Case(
        "angles by the title alone",
        [
            ["Angle iron"],
            ["Size", "Thickness", "Length", "Quantity"],
            ['2" x 2"', '1/4"', '14"', 2],
            ['3" x 3"', '1/4"', "as needed", "variable"],
        ],
        [
            (3, "", 2, 6.35, 50.8, 50.8, None, "angle"),
            (4, "", None, 6.35, 76.2, 76.2, None, "angle"),
        ],
        codes="E202 E203 W225 W225",
    ),
    Case(
        "an assembly named after a section is no section",
        [["PIPE SUPPORT 1"], ["Mark", "Qty", "Size (mm)"], ["P1", 2, "50x50x5"], ["P2", 2, "10x150x300"]],
        [(3, "P1", 2, 5, 50, 50, None, R), (4, "P2", 2, 10, 300, 150, None, R)],
    ),
    Case(
        "two tables, each under its plate in two notations",
        [
            ['1/4" (6.35mm) Plate Steel'],
            [],
            ["Description", "Dimensions", "Quantity"],
            ["Bottom", "1100mm x 600mm", 1],
            ["Sides", "600mm x 400mm", 2],
            ['Total 1/4" Plate: approximately 1 m2'],
            [],
            ['1/2" (12.7mm) Plate Steel'],
            [],
            ["Description", "Dimensions", "Quantity"],
            ["Lugs", "100mm x 150mm", 8],
        ],
        [
            (4, "Bottom", 1, 6.35, 1100, 600, None, R),
            (5, "Sides", 2, 6.35, 600, 400, None, R),
            (11, "Lugs", 8, 12.7, 150, 100, None, R),
        ],
        codes="W230 W230 W230",
    ),
    Case(
        "sizes over three cells with an x between",
        [
            ["Name", "Dimensions", None, None, "Thickness", "Quantity"],
            ["Back", "200 mm", "x", "300 mm", "6 mm", 1],
            ["Foot", "80 mm", "x", "700 mm", "10 mm", 2],
        ],
        [(2, "Back", 1, 6, 300, 200, None, R), (3, "Foot", 2, 10, 700, 80, None, R)],
    ),
    Case(
        "an unknown heading over the sizes of tubes",
        [
            ["Part", "Source Tube", "Length", "Qty"],
            ["Bracket", '3"x3"x1/4"', "100mm", 2],
            ["Brace", '2"x2"x1/4"', "600mm", 1],
        ],
        [(2, "Bracket", 2, 6.35, 76.2, 76.2, None, TUBE), (3, "Brace", 1, 6.35, 50.8, 50.8, None, TUBE)],
        codes="W109 W225 W225",
    ),
    Case(
        "figures with labels of their own",
        [
            ["Part", "Qty", "Spec"],
            ["A", 1, "300 L x 200 W x 10 T mm"],
            ["B", 1, "Plate 300mm long x 200mm wide x 10mm thick"],
            ["C", 1, "300 mm dia x 10 mm thk"],
            ["D", 1, "OD 300 mm ID 200 mm x 10 mm thk"],
            ["E", 1, '1018 flat bar, 1/4" thick x 1/2" wide, cut length 1.00"'],
            ["F", 1, "FB 50x10 mm L=300"],
            ["G", 1, "SHS 50x50x3 mm - 1200 long"],
        ],
        [
            (2, "A", 1, 10, 300, 200, None, R),
            (3, "B", 1, 10, 300, 200, None, R),
            (4, "C", 1, 10, 300, None, None, "disc"),
            (5, "D", 1, 10, 300, 200, None, "ring"),
            (6, "E", 1, 6.35, 25.4, 12.7, None, R),
            (7, "F", 1, 10, 300, 50, None, R),
            (8, "G", 1, 3, 50, 50, None, TUBE),
        ],
        codes="W116 W225",
    ),
    Case(
        "the cut length of a tube is the length of the piece",
        [
            ["ID", "Part", "Stock", "Qty", "Cut length"],
            ["P1", "Post", "2x2x1/8 tube", 4, '96"'],
            ["P2", "Foot", '4" x 4" x 1/4" plate', 4, None],
        ],
        [(2, "P1", 4, 3.175, 50.8, 50.8, None, TUBE), (3, "P2", 4, 6.35, 101.6, 101.6, None, R)],
        codes="W109 W225",
    ),
    Case(
        "thickness apart from the sides, words among the figures",
        [
            ["ITEM NO.", "PART NUMBER", "DESCRIPTION", "QTY."],
            [1, "X-1", "BASEPLATE 20 - 300x300 mm", 2],
            [2, "X-2", '1/4" plate 6" x 8"', 8],
            [3, "X-3", "50 x 50 x 3 mm SHS x 700", 4],
            [4, "X-4", "W12x26", 1],
        ],
        [
            (2, "X-1", 2, 20, 300, 300, None, R),
            (3, "X-2", 8, 6.35, 203.2, 152.4, None, R),
            (4, "X-3", 4, 3, 50, 50, None, TUBE),
            (5, "X-4", 1, None, None, None, None, None),
        ],
        codes="E226 W213 W213 W225",
    ),
    Case(
        "a first row of words is no second row of headings",
        [["Part", "Qty", "Size (mm)", "Thk"], ["a", "10 @ 1200", "FLAT 50*12", None], ["b", "1pcs", "945x180", "12mm"]],
        [(2, "a", None, 12, 50, None, None, "bar end"), (3, "b", 1, 12, 945, 180, None, R)],
        codes="E202",
    ),
    Case(
        "a column of specifications in words, the size in the name",
        [
            ["Item", "Specification", "Qty"],
            ["Wall plate 100x180x6mm", "welded to the outer face", 14],
            ["Gasket strip", "neoprene", 2],
        ],
        [
            (2, "Wall plate 100x180x6mm", 14, 6, 180, 100, None, R),
            (3, "Gasket strip", 2, None, None, None, None, None),
        ],
        codes="E229 W213",
    ),
    *(
        Case(
            f"marks under {mark}, numbers of pieces under {count}",
            [[mark, count, "Thk (mm)", "Length (mm)", "Width (mm)"], ["BP1", 4, 10, 300, 200], ["G1", 2, 12, 250, 150]],
            [(2, "BP1", 4, 10, 300, 200, None, R), (3, "G1", 2, 12, 250, 150, None, R)],
            codes=codes,
        )
        for mark, count, codes in [
            *(("Pc", "Qty", "N135"), ("Pcs", "Qty", "N135"), ("Pieces", "Req'd", "N135"), ("Pc", "Total qty", "N135")),
            *(("Pc", "No", "N135 W109"), ("No", "Piece", "W109"), ("Item", "Part", "W109")),
            *(("Piece", "Qty", ""), ("No", "Qty", ""), ("Part", "Pcs", ""), ("Item", "Qty", "")),
        ]
    ),
    Case(
        "a heading of pieces over marks beside a heading of marks",
        [["Mark", "Pc", "Qty", "Size (mm)"], ["P1", "BP1", 4, "10x300x200"], ["P2", "BP1", 2, "12x250x150"]],
        [(2, "P1", 4, 10, 300, 200, None, R), (3, "P2", 2, 12, 250, 150, None, R)],
        codes="N128",
    ),
    Case(
        "the user's word for one of two columns of pieces leaves the other its marks",
        [["Pc", "Qty", "Size (mm)", "What"], [1, 4, "10x300x200", "plate"], [2, 9, "12x250x150", "plate"]],
        [(2, "1", 4, 10, 300, 200, None, R), (3, "2", 9, 12, 250, 150, None, R)],
        codes="N135",
        columns="quantity=B",
    ),
]
