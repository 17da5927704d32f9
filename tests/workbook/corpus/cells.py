"""What stands in the cells: fractions, dates, size strings, sections, units, odd quantities, other materials."""

import datetime as dt

from tests.workbook.corpus.case import Case

R = "rectangle"
HEAD = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
INCH = ["Mark", "Qty", "Thickness (in)", "Length (in)", "Width (in)"]

CASES = [
    Case(
        "fractions that became dates, month first",
        [
            INCH,
            ["P1", 4, dt.datetime(2026, 3, 4), 12, 6],
            ["P2", 2, dt.datetime(2026, 3, 8), 10, 5],
            ["P3", 2, "15/16", 10, 5],
        ],
        [
            (2, "P1", 4, 19.05, 304.8, 152.4, None, R),
            (3, "P2", 2, 9.525, 254, 127, None, R),
            (4, "P3", 2, 23.8125, 254, 127, None, R),
        ],
        codes="W210 W210",
        formats={(1, 2): "d-mmm", (2, 2): "d-mmm"},
    ),
    Case(
        "fractions that became dates, day first, and one with a year",
        [
            INCH,
            ["P1", 4, dt.datetime(2026, 4, 3), 12, 6],
            ["P2", 2, dt.datetime(2016, 3, 1), 10, 5],
        ],
        [(2, "P1", 4, 19.05, 304.8, 152.4, None, R), (3, "P2", 2, 4.7625, 254, 127, None, R)],
        codes="W210 W210",
        formats={(1, 2): "dd-mmm", (2, 2): "mmm-yy"},
    ),
    Case(
        "decimals that became dates and times are asked",
        [
            ["Mark", "Qty", "Thk (mm)", "Cut length (mm)"],
            ["P1", 4, dt.datetime(2026, 6, 5), 1200],
            ["P2", 2, 10, dt.datetime(2026, 4, 26)],
        ],
        [(2, "P1", 4, None, None, None, 1200, None), (3, "P2", 2, 10, None, None, None, None)],
        codes="E207 E207",
    ),
    Case(
        "inches by number format only",
        [
            ["Mark", "Qty", "Thk", "Length", "Width"],
            ["P1", 4, 0.375, 12, 6],
            ["P2", 2, 1.5, 10, 5],
        ],
        [(2, "P1", 4, 9.525, 304.8, 152.4, None, R), (3, "P2", 2, 38.1, 254, 127, None, R)],
        formats={(r, c): "# ?/?" for r in (1, 2) for c in (2, 3, 4)},
    ),
    Case(
        "a unit in the number format",
        [["Mark", "Qty", "Thk", "Length", "Width"], ["P1", 4, 10, 30, 20]],
        [(2, "P1", 4, 10, 300, 200, None, R)],
        formats={(1, 2): '0" mm"', (1, 3): '0.0" cm"', (1, 4): '0.0" cm"'},
    ),
    Case(
        "units said above the table",
        [["All dimensions in inches"], ["Mark", "Qty", "Thk", "Length", "Width"], ["P1", 4, 0.5, 12, 6]],
        [(3, "P1", 4, 12.7, 304.8, 152.4, None, R)],
        title={"units": "in"},
    ),
    Case(
        "an inch list that says so nowhere, in a metric shop",
        [["Mark", "Qty", "Thk", "Length", "Width"], ["P1", 4, 0.375, 12, 6], ["P2", 2, 0.5, 10, 5]],
        [(2, "P1", 4, 0.375, 12, 6, None, R), (3, "P2", 2, 0.5, 10, 5, None, R)],
        codes="E123 W116",
    ),
    Case(
        "a thickness in the wrong unit among others",
        [HEAD, ["P1", 4, 10, 300, 200], ["P2", 2, "12 in", 250, 150], ["P3", 1, 20, 99, 99], ["P4", 1, 6, 50, 50]],
        [
            (2, "P1", 4, 10, 300, 200, None, R),
            (3, "P2", 2, 304.8, 250, 150, None, R),
            (4, "P3", 1, 20, 99, 99, None, R),
            (5, "P4", 1, 6, 50, 50, None, R),
        ],
        codes="E219",
    ),
    Case(
        "two notations of one thickness",
        [
            ["Mark", "Qty", "Thickness", "Length (mm)", "Width (mm)"],
            ["P1", 4, '3/4" (19MM)', 300, 200],
            ["P2", 2, "6mm/1/4in", 250, 150],
            ["P3", 2, "1/4 6,3 MM", 250, 150],
        ],
        [
            (2, "P1", 4, 19.05, 300, 200, None, R),
            (3, "P2", 2, None, 250, 150, None, R),
            (4, "P3", 2, 6.35, 250, 150, None, R),
        ],
        codes="E203 W211 W211",
    ),
    Case(
        "a range and words instead of a thickness",
        [HEAD, ["P1", 4, "12-18mm", 300, 200], ["P2", 2, "see dwg", 250, 150], ["P3", 1, 10, "from DXF", 90]],
        [
            (2, "P1", 4, None, 300, 200, None, R),
            (3, "P2", 2, None, 250, 150, None, R),
            (4, "P3", 1, 10, None, None, None, None),
        ],
        codes="E203 E203 E203",
    ),
    Case(
        "gauge",
        [INCH, ["P1", 4, "10 ga", 12, 6], ["P2", 4, "7 ga", 12, 6]],
        [(2, "P1", 4, 3.4163, 304.8, 152.4, None, R), (3, "P2", 4, 4.5542, 304.8, 152.4, None, R)],
        codes="W211 W211",
    ),
    Case(
        "thickness inside the material, sides in their own columns",
        [
            ["Part", "Qty", "Material", "Width (in)", "Length (in)"],
            ["Gusset", 4, "1/4 Hot rolled Steel", 6, 8],
            ["Base", 2, '1/2" plate A36', 10, 12],
        ],
        [(2, "Gusset", 4, 6.35, 203.2, 152.4, None, R), (3, "Base", 2, 12.7, 304.8, 254, None, R)],
        grades=["1/4 Hot rolled Steel", '1/2" plate A36'],
    ),
    Case(
        "sizes as people write them",
        [
            ["Pos", "Description", "Size", "Qty"],
            [1, "Base", "PLATE 350X350X50", 4],
            [2, "Cleat", "PL3/8x6x12", 2],
            [3, "Strip", "20*2*1300 mm", 1],
            [4, "Side", "10mm x 150 x 300", 6],
        ],
        [
            (2, "1", 4, 50, 350, 350, None, R),
            (3, "2", 2, 9.525, 304.8, 152.4, None, R),
            (4, "3", 1, 2, 1300, 20, None, R),
            (5, "4", 6, 10, 300, 150, None, R),
        ],
        codes="E228 W116",
    ),
    Case(
        "flats and sections among plates",
        [
            ["Item", "Section", "Length (mm)", "No. off"],
            ["F1", "FB 50x10", 300, 4],
            ["F2", "MS FLAT 100*12", 250, 2],
            ["A1", "L50x50x5", 400, 2],
            ["T1", "SHS 60x60x4", 500, 2],
            ["B1", "HEA 200", 900, 1],
            ["X1", "M16x60", None, 12],
        ],
        [
            (2, "F1", 4, 10, 300, 50, None, R),
            (3, "F2", 2, 12, 250, 100, None, R),
            (4, "A1", 2, 5, 50, 50, None, "angle"),
            (5, "T1", 2, 4, 60, 60, None, "square tube"),
            (6, "B1", 1, None, None, None, None, None),
            (7, "X1", 12, None, None, None, None, None),
        ],
        codes="E226 E229 W116 W225 W225",
    ),
    Case(
        "profile and length, as steelwork lists have it",
        [
            ["Mark", "Qty", "Profile", "Length", "Grade"],
            ["p1001", 4, "PL10*150", 300, "S355"],
            ["p1002", 2, "PLT12*200", 250.5, "S355"],
            ["p1003", 8, "FLT8*90", 180, "S355"],
        ],
        [
            (2, "p1001", 4, 10, 300, 150, None, R),
            (3, "p1002", 2, 12, 250.5, 200, None, R),
            (4, "p1003", 8, 8, 180, 90, None, R),
        ],
        codes="W116 W213 W213",
    ),
    Case(
        "imperial profile and feet",
        [
            ["MARK", "QTY", "SHAPE/SIZE", "GRADE"],
            ["a1", 4, "PL3/8 x 6 x 0'-8\"", "A36"],
            ["a2", 2, "PL1/2 x 10 x 1'-2 1/2\"", "A36"],
        ],
        [(2, "a1", 4, 9.525, 203.2, 152.4, None, R), (3, "a2", 2, 12.7, 368.3, 254, None, R)],
    ),
    Case(
        "discs and rings",
        [
            ["Mark", "Qty", "Thk (mm)", "OD (mm)", "ID dia (mm)"],
            ["D1", 4, 20, 300, None],
            ["R1", 2, 25, 400, 250],
        ],
        [(2, "D1", 4, 20, 300, None, None, "disc"), (3, "R1", 2, 25, 400, 250, None, "ring")],
    ),
    Case(
        "disc in words",
        [["Part", "Qty", "Size", "Thickness"], ["Cap", 3, "380mm-circle-disc", "8 mm"]],
        [(2, "Cap", 3, 8, 380, None, None, "disc")],
    ),
    Case(
        "cut length, pierces and starts given",
        [
            ["Mark", "Qty", "Thk (mm)", "Cut length (m)", "Pierces", "Edge starts"],
            ["P1", 4, 20, 1.35, 4, 1],
            ["P2", 2, 12, 0.9, 0, 2],
        ],
        [(2, "P1", 4, 20, None, None, 1350, None), (3, "P2", 2, 12, None, None, 900, None)],
    ),
    Case(
        "a length without a width",
        [["Mark", "Qty", "Thk (mm)", "Length (mm)"], ["P1", 4, 20, 1200]],
        [(2, "P1", 4, 20, None, None, 1200, None)],
        codes="W119",
    ),
    Case(
        "quantities in words",
        [
            HEAD,
            ["P1", "4 ea", 10, 300, 200],
            ["P2", "x6", 10, 300, 200],
            ["P3", "2x3", 10, 300, 200],
            ["P4", "2 sets", 10, 300, 200],
            ["P5", "ALL", 10, 300, 200],
            ["P6", None, 10, 300, 200],
            ["P7", 2.5, 10, 300, 200],
        ],
        [
            (2, "P1", 4, 10, 300, 200, None, R),
            (3, "P2", 6, 10, 300, 200, None, R),
            (4, "P3", 6, 10, 300, 200, None, R),
            (5, "P4", 2, 10, 300, 200, None, R),
            (6, "P5", None, 10, 300, 200, None, R),
            (7, "P6", None, 10, 300, 200, None, R),
            (8, "P7", None, 10, 300, 200, None, R),
        ],
        codes="E201 E202 E202 W212 W212",
    ),
    Case(
        "quantity in metres when the unit says so",
        [
            ["Item", "Description", "Unit", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"],
            [1, "Plate", "pcs", 4, 10, 300, 200],
            [2, "Flat", "m", 12, 10, 300, 50],
        ],
        [(2, "1", 4, 10, 300, 200, None, R), (3, "2", 12, 10, 300, 50, None, R)],
        codes="E221 W238",
    ),
    Case(
        "metals and boards that a torch cannot cut",
        [
            ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Material"],
            ["P1", 4, 10, 300, 200, "S275"],
            ["P2", 1, 10, 300, 200, "304 stainless"],
            ["P3", 1, 10, 300, 200, "Alu 5083"],
            ["P4", 1, 18, 300, 200, "Plywood"],
            ["P5", 1, 10, 300, 200, "GG25 cast iron"],
            ["P6", 1, 1.2, 300, 200, "S235"],
        ],
        [
            (n + 1, f"P{n}", 4 if n == 1 else 1, t, 300, 200, None, R)
            for n, t in enumerate((10, 10, 10, 18, 10, 1.2), 1)
        ],
        codes="E227 E227 E227 E227 E228",
        grades=["S275", "304 stainless", "Alu 5083", "Plywood", "GG25 cast iron", "S235"],
    ),
    Case(
        "numbers as texts with blanks, commas and marks of texts",
        [
            HEAD,
            ["P1", "4\u00a0", "'10", "1\u00a0200", "200,0"],
            ["P2", "`2", "12", "250,5", "150"],
        ],
        [(2, "P1", 4, 10, 1200, 200, None, R), (3, "P2", 2, 12, 250.5, 150, None, R)],
        codes="W211",
    ),
    Case(
        "a thousands mark that could be a decimal mark",
        [HEAD, ["P1", 4, 10, "1,234", 200], ["P2", 1, 10, 900, 200]],
        [(2, "P1", 4, 10, None, None, None, None), (3, "P2", 1, 10, 900, 200, None, R)],
        codes="E203",
    ),
    Case(
        "masses that do not fit one row",
        [
            [*HEAD, "Weight (kg)"],
            ["P1", 4, 10, 300, 200, 4.71],
            ["P2", 2, 12, 250, 150, 3.53],
            ["P3", 1, 20, 300, 300, 14.13],
            ["P4", 1, 20, 300, 300, 1.41],
        ],
        [
            (2, "P1", 4, 10, 300, 200, None, R),
            (3, "P2", 2, 12, 250, 150, None, R),
            (4, "P3", 1, 20, 300, 300, None, R),
            (5, "P4", 1, 20, 300, 300, None, R),
        ],
        codes="W222",
    ),
    Case(
        "total length beside the length",
        [
            [*HEAD, "Total length (mm)"],
            ["P1", 4, 10, 300, 200, 1200],
            ["P2", 2, 12, 250, 150, 600],
        ],
        [(2, "P1", 4, 10, 300, 200, None, R), (3, "P2", 2, 12, 250, 150, None, R)],
        codes="W223",
    ),
    Case(
        "size and thickness that do not agree",
        [
            ["Mark", "Qty", "Thk (mm)", "Size (mm)"],
            ["P1", 4, 10, "10x300x200"],
            ["P2", 2, 12, "10x300x200"],
            ["P3", 2, 12, "300x200"],
        ],
        [
            (2, "P1", 4, 10, 300, 200, None, R),
            (3, "P2", 2, 12, None, None, None, None),
            (4, "P3", 2, 12, 300, 200, None, R),
        ],
        codes="E220",
    ),
    Case(
        "an alternate row",
        [
            [*HEAD, "Remarks"],
            ["P1", 4, 10, 300, 200, None],
            ["P1a", 4, 12, 300, 200, "alternate to P1"],
        ],
        [(2, "P1", 4, 10, 300, 200, None, R), (3, "P1a", 4, 12, 300, 200, None, R)],
        codes="W224",
    ),
    Case(
        "house columns with shapes in words",
        [
            ["Mark", "Quantity", "Thickness", "Shape", "Size A", "Size B", "Holes", "Hole diameter", "Steel"],
            [None, None, "mm", None, "mm", "mm", None, "mm", None],
            ["P1", 8, 20, "rectangle", 300, 300, 4, 22, "ours"],
            ["P2", 24, 10, "right triangle", 150, 150, None, None, "theirs"],
            ["P3", 2, 25, "ring", 400, 250, None, None, "ours"],
            ["P4", 1, 25, "rnig", 400, 250, None, None, "ours"],
        ],
        [
            (3, "P1", 8, 20, 300, 300, None, R),
            (4, "P2", 24, 10, 150, 150, None, "right triangle"),
            (5, "P3", 2, 25, 400, 250, None, "ring"),
            (6, "P4", 1, 25, 400, 250, None, None),
        ],
        codes="E209",
    ),
    Case(
        "gauge numbers under a heading of gauges",
        [["Mark", "Qty", "Gauge", "Length (in)", "Width (in)"], ["P1", 4, 10, 12, 6], ["P2", 2, "7", 10, 5]],
        [(2, "P1", 4, 3.4163, 304.8, 152.4, None, R), (3, "P2", 2, 4.5542, 254, 127, None, R)],
        codes="W211 W211",
    ),
    Case(
        "gauge or thickness, with bare numbers",
        [["Mark", "Qty", "Thickness/gauge", "Length (in)", "Width (in)"], ["P1", 4, 10, 12, 6], ["P2", 2, "3/8", 9, 5]],
        [(2, "P1", 4, None, 304.8, 152.4, None, R), (3, "P2", 2, 9.525, 228.6, 127, None, R)],
        codes="E217",
    ),
    Case(
        "feet and inches in columns of their own",
        [
            ["Mark", "Qty", "Thk (in)", "Length", None, "Width (in)"],
            [None, None, None, "ft", "in", None],
            ["P1", 4, 0.5, 2, 6.5, 6],
            ["P2", 2, 0.75, None, 10, 5],
        ],
        [(3, "P1", 4, 12.7, 774.7, 152.4, None, R), (4, "P2", 2, 19.05, 254, 127, None, R)],
        merged=[(0, 3, 0, 4)],
    ),
    Case(
        "one length in two units",
        [["Mark", "Qty", "Thk (mm)", "Length (mm)", "Length (in)"], ["P1", 4, 10, 304.8, 12]],
        [(2, "P1", 4, 10, None, None, 304.8, None)],
        codes="N128 W119",
    ),
    Case(
        "sizes of which one names inches",
        [["Part", "Qty", "Material", "Size"], ["A", 4, '1/4" plate', '6" x 8"'], ["B", 2, '1/4" plate', "10 x 12"]],
        [(2, "A", 4, 6.35, 203.2, 152.4, None, R), (3, "B", 2, 6.35, 304.8, 254, None, R)],
        codes="W116",
    ),
    Case(
        "sizes in inches that nothing says, in a metric shop",
        [["Part", "Qty", "Material", "Size"], ["A", 4, '1/4" plate', "6 x 8"], ["B", 2, '1/2" plate', "10 x 12"]],
        [(2, "A", 4, 6.35, 8, 6, None, R), (3, "B", 2, 12.7, 12, 10, None, R)],
        codes="E123 W116",
    ),
    Case(
        "a quantity of kilograms",
        [["Mark", "Qty (kg)", "Thk (mm)", "Length (mm)", "Width (mm)"], ["P1", 40, 10, 300, 200]],
        [],
        codes="E102",
    ),
    Case(
        "a weldment list with its sizes in the description",
        [
            ["ITEM NO.", "QTY.", "DESCRIPTION", "LENGTH (mm)"],
            [1, 2, "PL 12 x 150", 300],
            [2, 4, "FLAT BAR 50 x 10", 250],
            [3, 1, "TUBE, SQUARE 60 x 60 x 4", 800],
        ],
        [
            (2, "1", 2, 12, 300, 150, None, R),
            (3, "2", 4, 10, 250, 50, None, R),
            (4, "3", 1, 4, 60, 60, None, "square tube"),
        ],
        codes="W213 W213 W225",
    ),
    Case(
        "a home-made list: sides in the length column, stock in words, hardware",
        [
            ["Qty", "Size", "Length", "Material", "Notes"],
            [2, '2" x 2" x 1/4"', '48"', "Angle", None],
            [4, '1/4" x 3"', '12 1/2"', "Flat bar", "drill 2 holes"],
            [1, '1/4" x 48" x 96"', None, "Plate", "cut in half"],
            [6, '3/8"', '4" x 6"', "Plate", "gussets"],
            [8, '1/2"', '3"', "Rod", None],
            [10, "3/8 bolt", None, "Hardware", None],
        ],
        [
            (2, "", 2, 6.35, 50.8, 50.8, None, "angle"),
            (3, "", 4, 6.35, 317.5, 76.2, None, R),
            (4, "", 1, 6.35, 2438.4, 1219.2, None, R),
            (5, "", 6, 9.525, 152.4, 101.6, None, R),
            (6, "", 8, None, 12.7, None, None, "round bar"),
            (7, "", 10, None, None, None, None, None),
        ],
        codes="E229 W225 W225 W232 W236",
    ),
    Case(
        "descriptions in a price request: inches of thickness, millimetres of sides, areas and metres",
        [
            ["Item", "Descrição", "Quant.", "Unid."],
            [1, 'CHAPA 1/2" x 300 x 400 mm', 4, "pç"],
            [2, "CHAPA 6,3mm", 2, "m²"],
            [3, 'BARRA CHATA 1/4" x 2"', 12, "m"],
        ],
        [
            (2, "1", 4, 12.7, 400, 300, None, R),
            (3, "2", 2, 6.3, None, None, None, None),
            (4, "3", 12, 6.35, 50.8, None, None, "bar end"),
        ],
        codes="E221 E221 E273 W213 W213 W213",
    ),
    Case(
        "a piece length beside a flat in the description",
        [
            ["Nr poz", "Nazwa", "Ilość", "Wymiary [mm]", "Materiał"],
            [1, "Blacha", "4 szt", "10x200x300", "S235JR"],
            [2, "Płaskownik 60x8", "2 szt", "L=250", "S235JR"],
            [3, "Blacha gr. 12", "6 szt", "150x150", "S355"],
            ["", "Razem", "12", "", ""],
        ],
        [
            (2, "1", 4, 10, 300, 200, None, R),
            (3, "2", 2, 8, 250, 60, None, R),
            (4, "3", 6, 12, 150, 150, None, R),
        ],
        codes="W213 W213",
    ),
]
