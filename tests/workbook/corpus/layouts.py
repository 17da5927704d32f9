"""Where tables stand: titles above, two-row headings, several tables, several sheets, totals, notes and no headings."""

import datetime as dt

from tests.workbook.corpus.case import Case

R = "rectangle"
HEAD = ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"]
ONE = ["P1", 4, 10, 300, 200]
TWO = ["P2", 2, 12, 250, 150]
READ_ONE = ("P1", 4, 10, 300, 200, None, R)
READ_TWO = ("P2", 2, 12, 250, 150, None, R)

CASES = [
    Case(
        "title block, starting at column B in row 8",
        [
            [None, "CUTTING LIST"],
            [None, "Client", None, "Invented Silos"],
            [None, "Job:", "Hopper legs"],
            [None, "Date", dt.datetime(2026, 11, 5)],
            [None, "Quote No: Q-0117"],
            [None, "Rev", "B", "Checked by", "nobody"],
            [],
            [None, *HEAD],
            [None, *ONE],
            [None, *TWO],
        ],
        [(9, *READ_ONE), (10, *READ_TWO)],
        counts="title 6, blank 1, heading 1, priced 2",
        title={
            "customer": "Invented Silos",
            "job": "Hopper legs",
            "job_date": "2026-11-05",
            "quote_number": "Q-0117",
            "revision": "B",
        },
    ),
    Case(
        "two-row headings with merged group titles",
        [
            ["Mark", "Plate", None, None, "Qty", "Weight", None],
            [None, "Thk", "Width", "Length", None, "Each", "Total"],
            ["G1", 10, 200, 300, 4, 4.71, 18.84],
            ["G2", 12, 150, 250, 2, 3.53, 7.07],
            ["G3", 20, 300, 300, 1, 14.13, 14.13],
        ],
        [
            (3, "G1", 4, 10, 300, 200, None, R),
            (4, "G2", 2, 12, 250, 150, None, R),
            (5, "G3", 1, 20, 300, 300, None, R),
        ],
        codes="W116",
        merged=[(0, 0, 1, 0), (0, 1, 0, 3), (0, 4, 1, 4), (0, 5, 0, 6)],
        counts="heading 2, priced 3",
    ),
    Case(
        "a row that numbers the columns under the headings",
        [
            ["Поз.", "Наименование", "Толщина, мм", "Длина, мм", "Ширина, мм", "Кол-во"],
            [1, 2, 3, 4, 5, 6],
            [1, "Фасонка", 10, 300, 200, 4],
            [2, "Ребро", 8, 200, 90, 8],
        ],
        [(3, "1", 4, 10, 300, 200, None, R), (4, "2", 8, 8, 200, 90, None, R)],
        counts="heading 2, priced 2",
    ),
    Case(
        "headings repeated down the sheet, as pages were pasted",
        [HEAD, ONE, [], HEAD, TWO, [], HEAD, ["P3", 1, 16, 100, 100]],
        [(2, *READ_ONE), (5, *READ_TWO), (8, "P3", 1, 16, 100, 100, None, R)],
        counts="heading 3, priced 3, blank 2",
    ),
    Case(
        "sub-headings, blank rows, subtotals, a grand total and notes",
        [
            HEAD,
            ["LEVEL 1"],
            ONE,
            ["Sub-total", 4],
            [],
            ["LEVEL 2"],
            TWO,
            ["Sub-total", 2],
            ["GRAND TOTAL", 6],
            [],
            ["Notes:"],
            ["1. All edges as flame cut."],
            ["2. Holes by others."],
        ],
        [(3, *READ_ONE), (7, *READ_TWO)],
        counts="heading 1, title 2, priced 2, subtotal 3, blank 2, note 3",
    ),
    Case(
        "an unlabelled sum at the foot",
        [HEAD, ONE, TWO, [None, 6]],
        [(2, *READ_ONE), (3, *READ_TWO)],
        codes="W114",
        counts="heading 1, priced 2, subtotal 1",
    ),
    Case(
        "a total above the headings",
        [["TOTAL PIECES", 6], ["TOTAL WEIGHT kg", 22.1], HEAD, ONE, TWO],
        [(4, *READ_ONE), (5, *READ_TWO)],
        counts="title 2, heading 1, priced 2",
    ),
    Case(
        "totals twice at the foot",
        [HEAD, ONE, TWO, ["Total", 6], ["Total all sheets", 6]],
        [(2, *READ_ONE), (3, *READ_TWO)],
        counts="heading 1, priced 2, subtotal 2",
    ),
    Case(
        "a title that may multiply the rows below",
        [HEAD, ["FRAME A (x3)"], ONE, TWO],
        [(3, *READ_ONE), (4, *READ_TWO)],
        codes="E111",
    ),
    Case(
        "two tables side by side",
        [
            [*HEAD, None, *HEAD],
            [*ONE, None, "P7", 3, 8, 120, 80],
            [*TWO, None, None, None, None, None, None],
        ],
        [(2, *READ_ONE), (3, *READ_TWO), (2, "P7", 3, 8, 120, 80, None, R)],
        counts="heading 1, priced 2",
    ),
    Case(
        "two different tables under each other",
        [
            HEAD,
            ONE,
            [],
            ["Item", "Description", "Size (mm)", "Quantity"],
            [1, "Cleat", "10x80x120", 6],
            [2, "Cap", "6x100x100", 4],
        ],
        [(2, *READ_ONE), (5, "1", 6, 10, 120, 80, None, R), (6, "2", 4, 6, 100, 100, None, R)],
        counts="heading 2, priced 3, blank 1",
    ),
    Case(
        "the same pieces twice on one sheet",
        [HEAD, ONE, TWO, [], ["Sequence"], ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Done"], ONE, TWO],
        [(2, *READ_ONE), (3, *READ_TWO), (7, *READ_ONE), (8, *READ_TWO)],
        codes="E112",
    ),
    Case(
        "the second of two tables named by the cell of its headings",
        [HEAD, ONE, TWO, [], ["Sequence"], ["Mark", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)", "Done"], ONE, TWO],
        [(7, *READ_ONE), (8, *READ_TWO)],
        sheet="Parts!A6",
    ),
    Case(
        "an example table above the list",
        [
            ["EXAMPLE - how to fill in"],
            ["Mark", "Qty", "Thickness (mm)", "Length (mm)", "Width (mm)", "Remarks"],
            ["X1", 1, 25, 999, 888, "delete me"],
            [],
            ["Your parts"],
            HEAD,
            ONE,
        ],
        [(7, *READ_ONE)],
        codes="W120",
    ),
    Case(
        "several sheets, one of them the list",
        [HEAD, ONE, TWO],
        [(2, *READ_ONE), (3, *READ_TWO)],
        codes="N118",
        before={"Cover": [["Bridge 9"], ["Drawn by", "nobody"]]},
        others={"Prices": [["Item", "Price each"], ["P1", 12.5]]},
    ),
    Case(
        "a short second list beside a long one",
        [HEAD, *([f"P{n}", n, 10, 300, 200] for n in range(1, 9))],
        [(n + 1, f"P{n}", n, 10, 300, 200, None, R) for n in range(1, 9)],
        codes="N118 W105",
        others={"Spares": [HEAD, ["S1", 1, 10, 50, 50]]},
    ),
    Case(
        "current and redesign: two lists of one weight",
        [HEAD, ONE, TWO],
        [],
        codes="E104",
        sheet_name="Current",
        others={"Redesign": [HEAD, ["P1", 4, 12, 300, 200], TWO]},
    ),
    Case(
        "a tie settled by naming the sheet",
        [HEAD, ONE, TWO],
        [(2, "P1", 4, 12, 300, 200, None, R), (3, *READ_TWO)],
        codes="N118",
        sheet_name="Current",
        others={"Redesign": [HEAD, ["P1", 4, 12, 300, 200], TWO]},
        sheet="redesign",
    ),
    Case(
        "no headings at all, columns named by the user",
        [["P1", 4, 10, 300, 200], ["P2", 2, 12, 250, 150]],
        [(1, *READ_ONE), (2, *READ_TWO)],
        codes="W116",
        columns="mark=A,quantity=B,thickness=C,length=D,width=E",
    ),
    Case(
        "a heading that nobody knows, named by the user",
        [["Mark", "Wieviele", "Thk (mm)", "Length (mm)", "Width (mm)"], ONE, TWO],
        [(2, *READ_ONE), (3, *READ_TWO)],
        columns="quantity=Wieviele",
    ),
    Case(
        "columns in another order, with columns that are not known",
        [
            ["Colour", "Width (mm)", "Qty", "Bay", "Length (mm)", "Mark", "Thk (mm)"],
            ["red", 200, 4, "A", 300, "P1", 10],
            ["blue", 150, 2, "B", 250, "P2", 12],
        ],
        [(2, *READ_ONE), (3, *READ_TWO)],
    ),
    Case(
        "misspelt headings",
        [["Mark", "Qunatity", "Tickness (mm)", "Lenght (mm)", "Widht (mm)"], ONE],
        [(2, *READ_ONE)],
        codes="W109 W109 W109 W109",
    ),
    Case(
        "quantity per assembly beside the total",
        [
            ["Mark", "Qty per assy", "Total qty", "Thk (mm)", "Length (mm)", "Width (mm)"],
            ["P1", 2, 4, 10, 300, 200],
            ["P2", 1, 2, 12, 250, 150],
        ],
        [(2, *READ_ONE), (3, *READ_TWO)],
        codes="W110",
    ),
    Case(
        "a row that names a sub-assembly",
        [
            ["Mark", "Description", "Qty", "Thk (mm)", "Length (mm)", "Width (mm)"],
            ["A", "Frame, welded"],
            ["P1", "Plate", 4, 10, 300, 200],
        ],
        [(3, *READ_ONE)],
        codes="W113",
        counts="heading 1, title 1, priced 1",
    ),
    Case(
        "one thickness merged over three rows",
        [
            HEAD,
            ["P1", 4, 10, 300, 200],
            ["P2", 2, None, 250, 150],
            ["P3", 1, None, 100, 100],
        ],
        [
            (2, *READ_ONE),
            (3, "P2", 2, 10, 250, 150, None, R),
            (4, "P3", 1, 10, 100, 100, None, R),
        ],
        codes="W121",
        merged=[(1, 2, 3, 2)],
    ),
    Case(
        "ditto marks",
        [HEAD, ONE, ["P2", 2, '"', 250, "do."], ["P3", 1, "ditto", 100, 100]],
        [(2, *READ_ONE), (3, "P2", 2, 10, 250, 200, None, R), (4, "P3", 1, 10, 100, 100, None, R)],
        codes="W122 W122 W122",
    ),
    Case(
        "stock and order columns beside the quantity",
        [
            ["Mark", "Qty", "Qty in stock", "Thk (mm)", "Length (mm)", "Width (mm)", "Stock length", "Unit price"],
            ["P1", 4, 99, 10, 300, 200, 6000, 12.5],
        ],
        [(2, *READ_ONE)],
    ),
    Case(
        "thickness in the sub-headings",
        [
            ["Mark", "Qty", "Length (mm)", "Width (mm)"],
            ["10 mm PLATE"],
            ["P1", 4, 300, 200],
            ["PL 12"],
            ["P2", 2, 250, 150],
        ],
        [(3, *READ_ONE), (5, *READ_TWO)],
        codes="W230 W230",
        counts="heading 1, title 2, priced 2",
    ),
    Case(
        "thickness in the title above",
        [["ALL FROM 10mm PLATE"], ["Mark", "Qty", "Length (mm)", "Width (mm)"], ["P1", 4, 300, 200]],
        [(3, *READ_ONE)],
        codes="W230",
    ),
    Case(
        "a number of sets above the table",
        [["Frame", None, "No. of sets", 3], [], HEAD, ONE],
        [(4, *READ_ONE)],
        codes="E111",
    ),
    Case("sets in the title", [["GATE POST - 4 OFF"], HEAD, ONE], [(3, *READ_ONE)], codes="E111"),
    Case("a material in the title", [["Material:", "Aluminium 5083"], HEAD, ONE], [(3, *READ_ONE)], codes="E227"),
    Case(
        "a material in a sub-heading",
        [HEAD, ONE, ["STAINLESS STEEL PARTS"], TWO],
        [(2, *READ_ONE), (4, *READ_TWO)],
        codes="E227",
    ),
    Case(
        "a note on bolts is no material",
        [HEAD, ONE, ["Note: stainless bolts by others"]],
        [(2, *READ_ONE)],
    ),
    Case(
        "two columns of materials, of which one says aluminium",
        [
            [*HEAD[:2], "Type", "Length (mm)", "Width (mm)", "Material"],
            ["P1", 4, "10mm Plate", 300, 200, "S275"],
            ["P2", 2, "12mm Plate", 250, 150, "Aluminium"],
        ],
        [(2, *READ_ONE), (3, *READ_TWO)],
        codes="E227",
    ),
]
