"""Each line of the customer's page says what the price is for, as it was read, in the units of the list."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import numpy as np
import openpyxl
import pytest

from estimator.pricing.job import Estimate
from estimator.pricing.job_record import job_record, record_data, record_from_data
from estimator.tasks import ReadOptions, read_list
from estimator.write.quote.page import QuotePage, quote_page
from estimator.write.quote.pdf import quote_pdf
from estimator.write.quote.workbook import quote_workbook
from tests.samples.estimates import own_shop
from tests.samples.jobs import a_bit_of_everything, estimated, plates

INCH = [
    ('BP1,Base plate,"3/4""",10 x 12,4,13/16,,', "Base plate: rectangle 3/4 x 12 x 10 in, 4 holes Ø 13/16 in drilled"),
    ('CP1,,"3/8""",8-1/2 x 10-1/4,1,4-1/2,,', "rectangle 3/8 x 10-1/4 x 8-1/2 in, 1 hole Ø 4-1/2 in burnt"),
    ('GS1,Gusset,"1/2""",6 x 6 tri,,,,', "Gusset: right triangle 1/2 in, legs 6 x 6 in"),
    ('RG1,Ring,"1""",OD 14 ID 8,,,,', "Ring: 1 in, Ø 14 in, inside Ø 8 in"),
    ('FL1,Blank,"1""","12"" dia",,,,', "Blank: disc 1 in, Ø 12 in"),
    ('ST1,Flat,"1/2""","3 x 4\'-6""",,,,', "Flat: 1/2 x 54 x 3 in"),
    ('BV1,Plate,"3/4""",10 x 12,,,30,10', "Plate: rectangle 3/4 x 12 x 10 in, bevel 30° on 10 in"),
    ("MM1,Plate,20 mm,10 x 12,,,,", "Plate: rectangle 20 mm x 12 in x 10 in"),
    ('SAID,Base plate 3/4 x 10 x 12,"3/4""",10 x 12,2,1,,', "Base plate 3/4 x 10 x 12: 2 holes Ø 1 in burnt"),
    ('FEET,"PL3/4x10x1\'-0""","3/4""",10 x 12,,,,', "PL3/4x10x1'-0\""),
    ('OTHER,Base plate 3/4 x 10 x 14,"3/4""",10 x 12,,,,', "Base plate 3/4 x 10 x 14: rectangle 3/4 x 12 x 10 in"),
]


def priced(folder: Path, text: str, *, units: str = "mm") -> Estimate:
    path = folder / "list.csv"
    path.write_text(text, encoding="utf-8")
    shop = own_shop(units=units)
    return estimated(read_list(path, ReadOptions(), shop).cuts, shop)


def said(estimate: Estimate) -> list[str]:
    return [line.words for line in quote_page(estimate).lines]


@pytest.mark.parametrize("units", ["in", "mm"])
def test_an_inch_list_is_quoted_in_fractions_whatever_the_shop_works_in(tmp_path: Path, units: str) -> None:
    head = "Mark,Description,Thickness (in),Size (in),Holes,Hole diameter (in),Bevel (deg),Bevel length (in),Quantity\n"
    rows = "\n".join(f"{row},4" for row, _ in INCH)
    assert said(priced(tmp_path, head + rows, units=units)) == [words for _, words in INCH]


def test_decimals_of_a_list_headed_in_inches_stay_inches(tmp_path: Path) -> None:
    text = "Mark,Quantity,Thickness (in),Width (in),Length (ft)\nA,2,0.75,10,2.5\nB,2,0.3125,10.125,1.111\n"
    estimate = priced(tmp_path, text)
    assert said(estimate) == ["rectangle 3/4 x 30 x 10 in", "rectangle 5/16 x 13.332 x 10-1/8 in"]
    again = record_from_data(record_data(job_record(estimate))).priced()
    assert said(again) == said(estimate), "the record of the estimate keeps in which units the list is"


def test_a_metric_list_is_quoted_in_millimetres_though_the_shop_works_in_inches(tmp_path: Path) -> None:
    text = (
        "Mark,Quantity,Grade,Description,Thickness (mm),Width (mm),Length (mm)\nA,2,S275,Plate 20x254x300,20,254,300\n"
    )
    assert said(priced(tmp_path, text, units="in")) == ["Plate 20x254x300: S275"]
    text = text.replace("Plate 20x254x300", "Plate")
    assert said(priced(tmp_path, text, units="in")) == ["Plate: rectangle 20 x 300 x 254 mm, S275"]


def test_a_section_is_quoted_by_its_name_sizes_and_length(tmp_path: Path) -> None:
    text = (
        "Mark,Quantity,Section,Length (mm)\n"
        "A,2,L 100x100x10,1200\nT,3,SHS 100x80x5,800\nP,3,CHS 114.3x5,800\nR,3,round bar 50,300\nF,4,FB 100x12,250\n"
    )
    assert said(priced(tmp_path, text)) == [
        "angle 100 x 100 x 10 mm, 1200 mm long",
        "square tube 100 x 80 x 5 mm, 800 mm long",
        "pipe 114.3 x 5 mm, 800 mm long",
        "round bar 50 mm, 300 mm long",
        "flat 12 x 250 x 100 mm",
    ]


def test_every_kind_of_work_says_what_it_is() -> None:
    everything = estimated(a_bit_of_everything(), own_shop())
    assert said(everything) == [
        "Base plate: rectangle 20 x 300 x 300 mm, 4 holes Ø 22 mm drilled, edges touched up",
        "Gusset: right triangle 10 mm, legs 150 x 150 mm, edges ground bright",
        "Strip: 12 x 1000 x 100 mm",
        "Ring: 25 mm, Ø 400 mm, inside Ø 250 mm",
        "@Cap: rectangle 6 x 120 x 120 mm, bevel 30° all round",
        "Bevelled plate: rectangle 16 x 600 x 200 mm, bevel 30° on 600 mm, root face 2 mm",
        "Lug: rectangle 60 x 250 x 200 mm, 1 hole Ø 80 mm burnt",
        "Bend: heat 20 mm",
        "Saw cut: 6 mm",
        "20 mm, cut length 1200 mm",
    ]


def test_holes_are_said_as_they_are_priced() -> None:
    cuts = plates(1)
    holed = replace(cuts, holes=np.array([2.0]), hole_diameter_mm=np.array([20.0]))
    burnt = replace(holed, burn_holes=np.array([True]))
    assert ["burnt" in said(estimated(one, own_shop()))[0] for one in (holed, burnt)] == [False, True]
    assert "2 holes Ø 20 mm drilled" in said(estimated(holed, own_shop()))[0]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_both_files_hold_the_words_of_each_line(paper: str) -> None:
    page = quote_page(estimated(plates(5), own_shop(paper=paper)))
    assert all("mm" in line.made for line in page.lines)
    cells = cells_of(page)
    assert all(line.words in cells for line in page.lines)
    assert quote_pdf(page).count(b"/Type /Page\n") == 1


def cells_of(page: QuotePage) -> set[object]:
    file = io.BytesIO()
    quote_workbook(page)(file)
    sheet = openpyxl.load_workbook(io.BytesIO(file.getvalue())).active
    assert sheet is not None
    return {cell for row in sheet.iter_rows(values_only=True) for cell in row}
