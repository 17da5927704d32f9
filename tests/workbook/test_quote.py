"""The customer's file holds prices and words, adds up, and has no trace of what the shop pays or takes."""

from __future__ import annotations

import datetime as dt
import io
import re
import subprocess
import zipfile
from dataclasses import replace
from pathlib import Path

import numpy as np
import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.check.cut_list import TitleBlock
from estimator.check.shop_book import ShopBook
from estimator.pricing.build_up import COST_PARTS
from estimator.pricing.job import Estimate
from estimator.problems import WorkbookProblemsError
from estimator.write.quote import pdf as pdf_module
from estimator.write.quote.gaps import quote_gaps
from estimator.write.quote.page import QuotePage, quote_page
from estimator.write.quote.pdf import quote_pdf
from estimator.write.quote.workbook import quote_workbook
from tests.samples.jobs import a_bit_of_everything, changed_shop, estimated, plates


def our_shop(**changed: object) -> ShopBook:
    """A shop of its own whose figures are unlike any quantity, size or price of the job."""
    book = changed_shop(
        **{
            "prices_are_examples": False,
            "markup": 0.2837,
            "overhead_per_hour": 14.637,
            "planned_flame_hours": 61.73,
            **changed,
        }
    )
    labour = tuple(r.model_copy(update={"per_hour": r.per_hour + 0.613}) for r in book.labour)
    gas = tuple(g.model_copy(update={"price": g.price + 0.417, "rent_per_month": 7.913}) for g in book.gas_prices)
    return book.model_copy(update={"labour": labour, "gas_prices": gas})


def made(page: QuotePage) -> bytes:
    file = io.BytesIO()
    quote_workbook(page)(file)
    return file.getvalue()


def secrets(estimate: Estimate) -> dict[str, float]:
    """Every figure of the shop that a customer must not see."""
    x, rates, minor = estimate.job.lines, estimate.rates, 100.0
    found: dict[str, float] = {
        "markup": estimate.shop.shop.markup or 0.0,
        "overhead": estimate.shop.shop.overhead_per_hour,
        "flame hours a month": estimate.shop.shop.planned_flame_hours,
        "oxygen price": rates.oxygen.price,
        "oxygen cost": rates.oxygen.cost_per_m3,
        "fuel cost": rates.fuel.cost_per_m3,
        "rental": rates.rent_per_flame_hour,
        "cost": estimate.totals.cost / minor,
    }
    found |= {f"labour {name}": value for name, value in rates.labour.items()}
    found |= {f"total {part}": estimate.totals.parts[part] / minor for part in COST_PARTS}
    for line in range(len(estimate.cuts)):
        found |= {f"{part} of line {line}": estimate.lines.parts[part][line] / minor for part in COST_PARTS}
        found |= {
            f"cost of line {line}": estimate.lines.cost[line] / minor,
            f"minutes of line {line}": float(estimate.paid_time_min[line]),
            f"flame of line {line}": float(x.flame_time_min[line]),
            f"oxygen of line {line}": float(x.cutting_oxygen_m3[line]),
            f"fuel of line {line}": float(x.fuel_m3[line]),
        }
    found |= {f"row {row.key}": cost / minor for row, cost in zip(estimate.rows.rows, estimate.rows.cost, strict=True)}
    return {name: value for name, value in found.items() if value and abs(value) not in (1.0, 8.0)}


def told(page: QuotePage) -> set[float]:
    """Every number that the page tells on purpose."""
    amounts = [one.minor for one in page.sums] + [m for line in page.lines for m in (line.price_each, line.amount) if m]
    return {abs(page.money(minor)) for minor in amounts} | {line.quantity for line in page.lines}


@pytest.mark.parametrize("lump_sum", [False, True])
def test_no_part_of_the_file_holds_a_cost_a_rate_a_time_or_an_amount_of_gas(lump_sum: bool) -> None:
    estimate = estimated(a_bit_of_everything(), our_shop(lump_sum=lump_sum))
    page = quote_page(estimate)
    parts = zipfile.ZipFile(io.BytesIO(made(page)))
    sheet = openpyxl.load_workbook(io.BytesIO(made(page)))["Quotation"]
    cells = [c.value for row in sheet.iter_rows() for c in row if isinstance(c.value, int | float)]
    texts = {name: parts.read(name).decode("utf-8", "replace") for name in parts.namelist() if "theme" not in name}
    hidden = secrets(estimate)
    assert len(hidden) > 80
    for name, value in hidden.items():
        if round(value, 2) in {round(t, 2) for t in told(page)}:
            continue  # an amount that happens to equal a price
        assert not any(abs(cell - value) < 1e-9 for cell in cells), name
        for shown in {f"{value:.2f}", f"{value:.3f}", repr(value)} if value >= 10 else {repr(value)}:
            for part, text in texts.items():
                assert not re.search(rf"(?<![\d.]){re.escape(shown)}(?![\d])", text), (name, part)


@pytest.mark.parametrize("lump_sum", [False, True])
def test_no_text_and_no_property_of_the_pdf_holds_a_figure_of_the_shop(tmp_path: Path, lump_sum: bool) -> None:
    estimate = estimated(a_bit_of_everything(), our_shop(lump_sum=lump_sum))
    page = quote_page(estimate)
    (tmp_path / "quote.pdf").write_bytes(quote_pdf(page))
    said = "".join(
        subprocess.run([*command, tmp_path / "quote.pdf", *end], check=True, capture_output=True, text=True).stdout
        for command, end in ((["pdftotext", "-layout"], ["-"]), (["pdfinfo"], []))
    ).replace(",", "")
    assert f"{page.money(estimate.totals.total):.2f}" in said
    told_shown = {f"{amount:.2f}" for amount in told(page)}
    for name, value in secrets(estimate).items():
        shown = f"{value:.2f}"
        if shown not in told_shown and value >= 10:
            assert not re.search(rf"(?<![\d.]){re.escape(shown)}(?!\d)", said), name


def test_the_file_has_one_visible_sheet_no_formula_no_comment_and_no_name_but_for_print() -> None:
    data = made(quote_page(estimated(a_bit_of_everything(), our_shop())))
    book = openpyxl.load_workbook(io.BytesIO(data))
    assert [(sheet.title, sheet.sheet_state) for sheet in book] == [("Quotation", "visible")]
    assert not [c for row in book["Quotation"].iter_rows() for c in row if c.data_type == "f" or c.comment]
    assert list(book.defined_names) == []
    assert not any(dimension.hidden for dimension in book["Quotation"].column_dimensions.values())
    assert "kerfledger" not in str(book.properties)


def test_an_invented_price_never_reaches_a_customer() -> None:
    with pytest.raises(WorkbookProblemsError, match="E817"):
        quote_page(estimated(plates(3)))


@settings(max_examples=60, deadline=None)
@given(
    st.integers(1, 30),
    st.integers(0, 10_000),
    st.sampled_from([0.0, 0.025, 0.1]),
    st.sampled_from([0.0, 12.0, 300.0]),
    st.sampled_from([0.0, 0.21]),
    st.sampled_from([0, 2, 3]),
)
def test_what_is_printed_adds_up(
    count: int, seed: int, discount: float, minimum: float, tax: float, decimals: int
) -> None:
    """The amount identities of EN 16931 (BR-CO-10 to BR-CO-15): lines, allowances and charges, tax base, tax, total."""
    shop = our_shop(
        discount=discount, minimum_line=minimum, minimum_job=minimum, tax=tax, decimals=decimals, delivery=9.5
    )
    page = quote_page(estimated(plates(count, seed), shop))
    assert sum(line.amount or 0 for line in page.lines) == page.sums[0].minor
    strong = [i for i, one in enumerate(page.sums) if one.strong]
    net, total = page.sums[strong[0]], page.sums[strong[1]]
    assert sum(one.minor for one in page.sums[: strong[0]]) == net.minor
    assert net.minor + page.sums[strong[1] - 1].minor == total.minor
    for line in page.lines:
        if not line.note:
            assert line.amount == round(line.price_each * line.quantity)  # type: ignore[operator]


def test_a_lump_sum_shows_no_price_of_a_line() -> None:
    page = quote_page(estimated(plates(4), our_shop(lump_sum=True)))
    assert {(line.price_each, line.amount) for line in page.lines} == {(None, None)}
    assert [one.what for one in page.sums] == ["Price", "Sales tax 10 %", "Total"]


def test_a_row_without_a_price_is_named_and_the_total_says_incomplete() -> None:
    cuts = plates(4)
    thick = cuts.thickness_mm.copy()
    thick[1] = 999.0
    page = quote_page(estimated(replace(cuts, thickness_mm=thick), our_shop(), partial=True))
    assert [line.note for line in page.lines].count("not priced") == 1
    assert "INCOMPLETE" in page.sums[-1].what
    assert page.incomplete


def test_a_line_without_a_description_is_described_by_its_shape_and_sizes() -> None:
    cuts = a_bit_of_everything(description=[""] * 10)
    assert [line.words for line in quote_page(estimated(cuts, our_shop())).lines][:4] == [
        "rectangle 20 x 300 x 300 mm, 4 holes Ø 22 mm drilled, edges touched up",
        "right triangle 10 mm, legs 150 x 150 mm, edges ground bright",
        "strip 12 x 1000 x 100 mm",
        "ring 25 mm, Ø 400 mm, inside Ø 250 mm",
    ]


def test_the_pdf_says_what_the_workbook_says_and_nothing_more(monkeypatch: pytest.MonkeyPatch) -> None:
    page = quote_page(estimated(a_bit_of_everything(), our_shop()))
    said: list[str] = []
    say = pdf_module._Setter.say

    def noting(self: pdf_module._Setter, text: str, style: object = None) -> object:
        said.append(text)
        return say(self, text, style)

    monkeypatch.setattr(pdf_module._Setter, "say", noting)
    first = quote_pdf(page)
    cells = [c for row in openpyxl.load_workbook(io.BytesIO(made(page)))["Quotation"].iter_rows() for c in row]
    shown = {str(c.value) for c in cells if c.value is not None}
    shown |= {f"{c.value:,.2f}" for c in cells if isinstance(c.value, int | float)}
    shown |= {f"{c.value:,.6g}" for c in cells if isinstance(c.value, int | float)}
    assert {text for text in said if text.strip()} <= shown
    assert first.startswith(b"%PDF")
    assert quote_pdf(page) == first


def test_hostile_text_is_only_text_in_both_files() -> None:
    bad = ["=1+1", "<b>bold</b>", "&lt;", "@x", "\x1b[31mred", "\u202eback", "</para>", "<img src='x'/>", "-1", "a\nb"]
    cuts = a_bit_of_everything(mark=bad, description=bad, drawing=bad)
    title = replace(cuts.title, customer="<font size=90>", job="=cmd()")
    page = quote_page(estimated(replace(cuts, title=title), our_shop(shop_name="<a href='x'>shop</a>")))
    sheet = openpyxl.load_workbook(io.BytesIO(made(page)))["Quotation"]
    assert {cell.data_type for row in sheet.iter_rows() for cell in row} <= {"s", "n"}
    assert not sheet._hyperlinks
    assert len(quote_pdf(page)) > 1000


def test_a_long_quote_repeats_its_headings_and_a_short_one_is_one_page() -> None:
    short, long = (
        openpyxl.load_workbook(io.BytesIO(made(quote_page(estimated(plates(n), our_shop())))))["Quotation"]
        for n in (5, 60)
    )
    assert short.page_setup.fitToHeight in (1, None)
    assert long.page_setup.fitToHeight == 0
    assert long.print_title_rows is not None
    assert quote_pdf(quote_page(estimated(plates(60), our_shop()))).count(b"/Type /Page\n") > 1


def test_a_quote_of_an_undated_job_has_the_day_it_was_written_on_it_and_its_prices_stay() -> None:
    dated, undated = (estimated(plates(3), our_shop(), date=date) for date in (dt.date(2026, 11, 2), None))
    page = quote_page(undated, dt.date(2026, 12, 1))
    assert (page.date, page.valid_until) == (dt.date(2026, 12, 1), dt.date(2026, 12, 31))
    assert ("Valid for", "30 days, until 2026-12-31") in page.terms
    assert page.sums == quote_page(dated).sums
    assert quote_page(dated, dt.date(2026, 12, 1)).date == dt.date(2026, 11, 2)


@pytest.mark.parametrize(
    ("units", "title", "said"),
    [
        ("mm", "", "± 3 mm, edges as flame cut, slag removed"),
        ("mm", "in", "± 3 mm (1/8 in), edges as flame cut, slag removed"),
        ("in", "", "± 1/8 in, edges as flame cut, slag removed"),
    ],
)
def test_the_tolerance_is_in_the_units_that_the_customer_reads(units: str, title: str, said: str) -> None:
    cuts = replace(plates(3), title=TitleBlock(units=title))
    words = "± 3 mm, edges as flame cut, slag removed"
    page = quote_page(estimated(cuts, our_shop(units=units, tolerance_words=words)))
    assert ("Edges and sizes", said) in page.terms
    own = quote_page(estimated(cuts, our_shop(units=units, tolerance_words="± 2 mm")))
    assert ("Edges and sizes", "± 2 mm") in own.terms


def test_set_up_is_told_of_where_it_stands_as_a_large_line_and_not_where_it_is_spread() -> None:
    one = replace(plates(1), quantity=np.ones(1), title=TitleBlock(customer="Example Works", job="Base plate"))
    stands, spread, lump = (
        estimated(one, our_shop(**shop)) for shop in ({}, {"spread_job_rows": True}, {"lump_sum": True})
    )
    assert [p.code for p in quote_gaps(stands, dt.date(2026, 11, 2))] == ["N947"]
    assert [p.code for p in quote_gaps(spread, dt.date(2026, 11, 2))] == []
    assert [p.code for p in quote_gaps(lump, dt.date(2026, 11, 2))] == []


def test_a_page_without_drawings_has_no_column_for_them() -> None:
    cuts = plates(3)
    for drawing in ("", "D-7"):
        page = quote_page(estimated(replace(cuts, drawing=[drawing, "", ""]), our_shop()))
        sheet = openpyxl.load_workbook(io.BytesIO(made(page))).active
        headings = next(row for row in sheet.iter_rows(values_only=True) if row[0] == "Mark")
        assert ("Drawing" in headings) is bool(drawing)
        row = next(row for row in sheet.iter_rows(values_only=True) if row[0] == page.lines[0].mark)
        assert row[headings.index("Description")] == page.lines[0].words
        assert quote_pdf(page).startswith(b"%PDF")


def test_a_shop_without_a_tax_says_so_and_the_sums_still_add_up() -> None:
    sums = quote_page(estimated(plates(3), our_shop(tax=0.0))).sums
    assert (sums[-2].what, sums[-2].minor) == ("No sales tax added", 0)
    assert sums[-3].minor == sums[-1].minor


def test_a_quote_without_the_shops_name_is_told_where_to_type_it() -> None:
    said = quote_gaps(estimated(plates(3), our_shop(shop_name="")), dt.date(2026, 11, 2))
    (gap,) = [problem for problem in said if problem.code == "W948"]
    assert "type it in 'Shop'!B" in gap.do
    assert "beside 'Shop name'" in gap.do
    assert "W948" not in {p.code for p in quote_gaps(estimated(plates(3), our_shop()), dt.date(2026, 11, 2))}
