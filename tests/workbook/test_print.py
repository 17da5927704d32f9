"""Every sheet prints whole: numbers have room, headings are repeated, pages numbered, and no part is torn."""

from __future__ import annotations

import io
import re
import subprocess
import zipfile
from dataclasses import replace
from pathlib import Path

import numpy as np
import openpyxl
import pytest
from openpyxl.utils import range_boundaries

from estimator.check.cut_list import CutList
from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.job import Estimate
from estimator.write.book import OutputBook, Paper, word_width, wrapped_lines, write_book
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.number_width import number_width
from estimator.write.quote.page import quote_page
from estimator.write.quote.pdf import quote_pdf
from estimator.write.quote.workbook import quote_workbook
from estimator.write.styles import series_fill
from tests.samples.estimates import own_shop
from tests.samples.jobs import a_bit_of_everything, estimated, plates

LONG = "Stiffener to the underside of the second frame, from the flats left over from the batch before, bundled in tens"
MARK = "FRAME-A-GU1-WITH-LONG-MARK-3"
TABLES = {"Lines", "Rates", "Tip settings", "Job rows", "Line costs", "Line work", "Problems", "Sources"}
"""Sheets whose headings are repeated on each page."""


def made(estimate: Estimate) -> bytes:
    ranges = estimate_ranges(estimate)
    file = io.BytesIO()
    estimate_workbook(estimate, price_range=ranges.price, hours_range=ranges.paid_time_min)(file)
    return file.getvalue()


def large_job() -> CutList:
    cuts = plates(30)
    return replace(cuts, quantity=cuts.quantity * 4000, mark=[f"{MARK}{i}" for i in range(30)], description=[LONG] * 30)


@pytest.fixture(scope="module")
def large() -> bytes:
    return made(estimated(large_job(), own_shop(decimals=3, paper="Letter")))


def test_a_column_gets_the_width_that_a_number_takes_in_its_format() -> None:
    # The characters are counted by hand: 1,234,567.50 has 12.
    for value, number, characters in (
        (1234567.5, "#,##0.00", 12),
        (-1234.5, "#,##0.000", 10),
        (0.125, "0.0%", 5),
        (45000.0, "yyyy-mm-dd", 10),
        (12.0, "+#,##0;-#,##0;0", 3),
        (0.5, "0.00##", 6),
        (123456.789, "", 6),
    ):
        assert number_width(value, number) == characters + 1.5
    assert number_width(100.0, "0", font_size=22.0) == 2 * number_width(100.0, "0")


def test_no_word_of_a_heading_is_broken_and_no_wrapped_text_is_cut_off() -> None:
    assert word_width("Tips and consumables, exact") > len("consumables,")
    assert wrapped_lines(MARK, 11.0) >= 4
    assert wrapped_lines("short", 11.0) == 1


@pytest.mark.recalculate
def test_no_number_of_a_large_job_is_printed_as_hashes(tmp_path: Path, large: bytes) -> None:
    (tmp_path / "large.xlsx").write_bytes(large)
    quote_file = io.BytesIO()
    quote_workbook(quote_page(estimated(large_job(), own_shop(decimals=3))))(quote_file)
    (tmp_path / "quote.xlsx").write_bytes(quote_file.getvalue())
    profile = f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}"
    books = [str(tmp_path / name) for name in ("large.xlsx", "quote.xlsx")]
    command = ["soffice", profile, "--headless", "--convert-to", "pdf", "--outdir", str(tmp_path), *books]
    subprocess.run(command, check=True, capture_output=True)
    for name in ("large.pdf", "quote.pdf"):
        printed = subprocess.run(["pdftotext", "-layout", str(tmp_path / name), "-"], check=True, capture_output=True)
        text = printed.stdout.decode()
        assert "###" not in text
        assert "E+" not in text
        assert len(text) > 1000


def test_every_sheet_prints_all_of_its_cells_one_page_wide_with_page_numbers(large: bytes) -> None:
    book = openpyxl.load_workbook(io.BytesIO(large))
    for sheet in book:
        assert sheet.oddFooter.right.text == "&P / &N", sheet.title
        assert sheet.oddFooter.center.text == "&A", sheet.title
        assert sheet.page_setup.fitToHeight == 0 or sheet.title == "Answer", sheet.title
        # Figures that a chart alone needs, and what formulas take of a setting, stand beside the printed columns.
        if sheet.title in ("Answer", "Gas", "Tip settings", "Record"):
            continue
        last_column, last_row = range_boundaries(sheet.print_area.split("!")[1])[2:]
        filled = [cell for row in sheet.iter_rows() for cell in row if cell.value is not None]
        assert max(cell.row for cell in filled) <= last_row, sheet.title
        assert max(cell.column for cell in filled) <= last_column, sheet.title


def test_headings_of_every_table_are_repeated_on_each_page(large: bytes) -> None:
    book = openpyxl.load_workbook(io.BytesIO(large))
    for name in TABLES:
        assert book[name].print_title_rows, name


def test_a_sheet_too_wide_to_be_read_goes_on_several_pages_with_the_marks_on_each(large: bytes) -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(large))["Line work"]
    assert sheet.page_setup.fitToWidth > 1
    assert sheet.print_title_cols == "$A:$B"
    assert sheet["A1"].value is None
    assert sheet["C1"].value.startswith("What every line takes")


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_no_page_of_the_answer_parts_a_table_from_its_chart(paper: str) -> None:
    data = made(estimated(a_bit_of_everything(), own_shop(paper=paper)))
    sheet = openpyxl.load_workbook(io.BytesIO(data))["Answer"]
    breaks = [0, *(b.id for b in sheet.row_breaks.brk), sheet.max_row + 30]
    drawing = zipfile.ZipFile(io.BytesIO(data)).read("xl/drawings/drawing1.xml").decode()
    anchors = re.findall(
        r"<xdr:from>.*?<xdr:row>(\d+)</xdr:row>.*?<xdr:to>.*?<xdr:row>(\d+)</xdr:row>", drawing, re.DOTALL
    )
    assert len(anchors) == 4
    assert {int(column) for column in re.findall(r"<xdr:to>.*?<xdr:col>(\d+)", drawing, re.DOTALL)} <= {0, 1, 2, 3, 4}
    for top, bottom in anchors:
        page = max(b for b in breaks if b <= int(top))
        following = min(b for b in breaks if b > page)
        assert int(bottom) <= following, (paper, top, bottom, breaks)
    # A page is 297 or 279.4 mm high and its margins are 0.6 and 0.7 inches; a row is 15 points unless it says more.
    page_points = {"A4": 297.0 / 25.4 * 72, "Letter": 792.0}[paper] - 1.3 * 72
    scale = sheet.page_setup.scale / 100
    for first, last in zip(breaks[:-1], [*breaks[1:-1], max(int(bottom) for _, bottom in anchors)], strict=True):
        points = sum(sheet.row_dimensions[row + 1].height or 15.0 for row in range(first, last))
        assert points * scale <= page_points


def plain(count: int) -> CutList:
    """Plates of which every fourth has holes, as on most lists."""
    cuts = plates(count)
    return replace(cuts, holes=np.where(np.arange(count) % 4 == 0, cuts.holes, np.nan))


def test_a_short_quote_takes_one_page_and_one_with_long_texts_is_not_shrunk_until_it_cannot_be_read() -> None:
    for cuts, fit in ((plain(25), 1), (replace(plain(25), description=[LONG * 2] * 25), 0), (plain(26), 0)):
        file = io.BytesIO()
        quote_workbook(quote_page(estimated(cuts, own_shop())))(file)
        sheet = openpyxl.load_workbook(io.BytesIO(file.getvalue()))["Quotation"]
        assert (sheet.page_setup.fitToHeight != 0) == bool(fit)  # not said means one page
        assert sheet.page_setup.fitToWidth in (None, 1)
        assert sheet.print_title_rows


def test_the_pdf_of_a_short_quote_takes_one_page() -> None:
    pdf = quote_pdf(quote_page(estimated(plain(25), own_shop())))
    assert pdf.count(b"/Type /Page\n") == 1


def test_a_long_customer_and_job_break_inside_the_quotes_page() -> None:
    cuts = plates(2)
    title = replace(cuts.title, customer=LONG, job=LONG * 2)
    file = io.BytesIO()
    quote_workbook(quote_page(estimated(replace(cuts, title=title), own_shop(shop_name=LONG))))(file)
    sheet = openpyxl.load_workbook(io.BytesIO(file.getvalue()))["Quotation"]
    merged = {str(cells) for cells in sheet.merged_cells.ranges}
    for row in sheet.iter_rows():
        for cell in row:
            if cell.value in (LONG, LONG * 2):
                assert any(span.startswith(f"{cell.coordinate}:G") for span in merged), cell.coordinate
                assert cell.alignment.wrap_text
                assert sheet.row_dimensions[cell.row].height > 15


def test_room_is_made_for_numbers_of_ordinary_cells_and_of_formulas() -> None:
    def build(book: OutputBook) -> None:
        sheet = book.sheet("Sheet")
        sheet.set_column(0, 1, 5.0)
        sheet.number(0, 0, 1234567.0, number="#,##0.00")
        sheet.worked(0, 1, "=A1", 1234567.0, number="#,##0.00")
        sheet.number(0, 2, 1.0)

    file = io.BytesIO()
    write_book(build, title="x", paper=Paper())(file)
    sheet = openpyxl.load_workbook(io.BytesIO(file.getvalue()))["Sheet"]
    widths = {letter: column.width for letter, column in sheet.column_dimensions.items()}
    assert widths["A"] >= 13
    assert "C" not in widths


def test_eight_series_of_a_chart_each_have_a_pattern_of_their_own() -> None:
    fills = [series_fill(index) for index in range(8)]
    patterns = [fill.get("pattern", {}).get("pattern", "solid") for fill in fills]
    assert len(set(patterns)) == len(fills)
