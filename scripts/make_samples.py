"""Write the sample job's inputs: an invented shop's book and the cut list that an invented customer sent.

Run from the project's folder: ``python -m scripts.make_samples``. A test holds the committed files to what this makes.
"""

from __future__ import annotations

import datetime as dt
from io import BytesIO
from pathlib import Path

import xlsxwriter

from estimator.check.example_shop import example_shop
from estimator.write.shop_book import shop_book_workbook

SAMPLES = Path(__file__).resolve().parent.parent / "sample_jobs"
_FIXED = dt.datetime(2026, 11, 2)
"""Document date, fixed so that the same content gives the same bytes."""

TITLE = [
    ("Customer", "Invented Machines (an invented customer)"),
    ("Job", "Conveyor frames, first batch"),
    ("Date", "2026-11-02"),
    ("Quote number", "Q-0117"),
    ("Revision", "A"),
    ("Steel", "ours"),
]
HEADINGS = (
    "Mark", "Description", "Qty", "Thickness", "Shape", "Size A", "Size B", "Holes", "Hole diameter", "Cut length",
    "Pierces", "Edge starts", "Made from", "Share cuts", "Guided by", "Bevel", "Bevel length", "Surface", "Edges", "Note",
)  # fmt: skip

LINES: list[dict[str, object]] = [
    dict(Mark="BP1", Description="Base plate, 4 holes", Qty=8, Thickness="20 mm", Shape="rectangle", **{"Size A": "300 mm", "Size B": "300 mm", "Holes": 4, "Hole diameter": "22 mm"}),
    dict(Mark="BP2", Description="Base plate, 4 large holes", Qty=4, Thickness="25 mm", Shape="rectangle", **{"Size A": "400 mm", "Size B": "400 mm", "Holes": 4, "Hole diameter": "40 mm"}),
    dict(Mark="BP3", Description="Base plate, plain", Qty=6, Thickness='3/4"', Shape="rectangle", **{"Size A": '12"', "Size B": '12"'}),
    dict(Mark="GU1", Description="Gusset", Qty=24, Thickness="10 mm", Shape="right triangle", **{"Size A": "150 mm", "Size B": "150 mm", "Made from": "flat", "Share cuts": "yes"}),
    dict(Mark="GU2", Description="Gusset", Qty=12, Thickness='1/2"', Shape="right triangle", **{"Size A": '6"', "Size B": '8"'}),
    dict(Mark="RI1", Description="Ring", Qty=2, Thickness="25 mm", Shape="ring", **{"Size A": "400 mm", "Size B": "250 mm"}),
    dict(Mark="RI2", Description="Flange ring", Qty=4, Thickness='1"', Shape="ring", **{"Size A": '14"', "Size B": '8-1/2"'}),
    dict(Mark="DI1", Description="Blank disc", Qty=6, Thickness="15 mm", Shape="disc", **{"Size A": "220 mm"}),
    dict(Mark="ST1", Description="Ripped strip", Qty=6, Thickness="12 mm", Shape="strip", **{"Size A": "100 mm", "Size B": "1000 mm", "Share cuts": "yes", "Guided by": "track"}),
    dict(Mark="ST2", Description="Ripped strip, wide", Qty=4, Thickness="16 mm", Shape="strip", **{"Size A": "150 mm", "Size B": "2000 mm", "Guided by": "track"}),
    dict(Mark="BE1", Description="Flat bar to length", Qty=10, Thickness="12 mm", Shape="bar end", **{"Size A": "100 mm"}),
    dict(Mark="CP1", Description="Cap plate", Qty=20, Thickness="6 mm", Shape="rectangle", **{"Size A": "120 mm", "Size B": "120 mm", "Made from": "flat"}),
    dict(Mark="CP2", Description="Cap plate", Qty=8, Thickness='1/4"', Shape="rectangle", **{"Size A": '5"', "Size B": '5"'}),
    dict(Mark="WP1", Description="Wear plate, one long edge bevelled", Qty=4, Thickness="16 mm", Shape="rectangle", **{"Size A": "600 mm", "Size B": "200 mm", "Bevel": 30, "Bevel length": "600 mm"}),
    dict(Mark="WP2", Description="Wear plate, bevelled all round", Qty=2, Thickness="20 mm", **{"Cut length": "1600 mm", "Edge starts": 4, "Bevel": 30}),
    dict(Mark="BR1", Description="Bracket to drawing", Qty=16, Thickness="12 mm", **{"Cut length": "860 mm", "Pierces": 1, "Edge starts": 1}),
    dict(Mark="BR2", Description="Bracket to drawing", Qty=16, Thickness='1/2"', **{"Cut length": "2' 10\"", "Pierces": 1, "Edge starts": 1}),
    dict(Mark="HL1", Description="Hanger", Qty=4, Thickness="40 mm", Shape="rectangle", **{"Size A": "250 mm", "Size B": "200 mm", "Holes": 1, "Hole diameter": "60 mm"}),
    dict(Mark="BL1", Description="Counterweight block", Qty=1, Thickness="75 mm", Shape="rectangle", **{"Size A": "300 mm", "Size B": "250 mm"}),
    dict(Mark="SP1", Description="Spacer", Qty=30, Thickness="5 mm", Shape="rectangle", **{"Size A": "80 mm", "Size B": "60 mm"}),
    dict(Mark="SP2", Description="Spacer", Qty=30, Thickness="8 mm", Shape="disc", **{"Size A": "90 mm"}),
    dict(Mark="RP1", Description="Repair plate from stock, rusty", Qty=3, Thickness="10 mm", Shape="rectangle", Surface="rusty", **{"Size A": "500 mm", "Size B": "350 mm"}),
    dict(Mark="TP1", Description="Plate to template", Qty=5, Thickness="15 mm", **{"Cut length": "1450 mm", "Guided by": "template", "Edges": "touch up"}),
    dict(Mark="EN1", Description="End plate, ground bright", Qty=2, Thickness="30 mm", Shape="rectangle", Edges="bright", **{"Size A": "350 mm", "Size B": "250 mm"}),
    dict(Mark="KE1", Description="Key plate", Qty=2, Thickness='2"', Shape="rectangle", **{"Size A": '10"', "Size B": '6"'}),
]  # fmt: skip


def cut_list() -> bytes:
    """Return the customer's cut list as a workbook."""
    out = BytesIO()
    with xlsxwriter.Workbook(out, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}) as book:
        book.set_properties({"title": "Invented sample cut list", "created": _FIXED})
        bold = book.add_format({"bold": True})
        sheet = book.add_worksheet("Parts list")
        for row, (name, value) in enumerate(TITLE):
            sheet.write_string(row, 0, name, bold)
            sheet.write_string(row, 1, value)
        top = len(TITLE) + 1
        for column, heading in enumerate(HEADINGS):
            sheet.write_string(top, column, heading, bold)
        for row, line in enumerate(LINES, top + 1):
            for column, heading in enumerate(HEADINGS):
                value = line.get(heading)
                if isinstance(value, str):
                    sheet.write_string(row, column, value)
                elif value is not None:
                    sheet.write_number(row, column, float(value))  # type: ignore[arg-type]
        sheet.set_column(0, 0, 14)
        sheet.set_column(1, 1, 36)
        sheet.set_column(2, len(HEADINGS) - 1, 12)
    return out.getvalue()


def shop_book() -> bytes:
    """Return the invented shop's own book: the example shop's rows, said to be its own so that a quote can be written."""
    shop = example_shop()
    own = shop.model_copy(update={"shop": shop.shop.model_copy(update={"prices_are_examples": False})})
    out = BytesIO()
    shop_book_workbook(own, title="Shop book of an invented shop")(out)
    return out.getvalue()


def files() -> dict[str, bytes]:
    """Return every file of the sample job by name."""
    return {"cut_list.xlsx": cut_list(), "shop_book.xlsx": shop_book()}


def main() -> None:
    """Write the files."""
    SAMPLES.mkdir(exist_ok=True)
    for name, content in files().items():
        (SAMPLES / name).write_bytes(content)


if __name__ == "__main__":
    main()
