"""Own minutes, prices and reasons outlive a new run over the list, and last prices stand beside them."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import openpyxl
import pytest

from estimator.pricing.job import Estimate, JobOrder
from estimator.problems import WorkbookProblemsError
from estimator.tasks import ReadOptions, estimate, find_shop_book
from estimator.tasks_again import estimate_again, with_last_prices
from estimator.tasks_quote import QuoteOrder, reopen_estimate, send_quote
from estimator.tasks_register import decide
from estimator.write.save import save
from estimator.write.shop_book import shop_book_workbook
from tests.samples.estimates import heading_cell, own_shop, rate_cell, typed_in, written
from tests.samples.jobs import DATE

HEAD = "Customer,Example Works\nDate,2026-11-02\n\nMark,Qty,Thickness mm,Shape,Size A,Size B,Steel\n"
LINES = ["P1,8,20,rectangle,300,300,ours", "P2,24,10,rectangle,150,150,ours", ",3,12,rectangle,200,90,ours"]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    save(tmp_path / "shop_book.xlsx", shop_book_workbook(own_shop(), title="Shop book"))
    (tmp_path / "list.csv").write_text(HEAD + "\n".join(LINES))
    done = priced(tmp_path)
    book = written(done, tmp_path / "list_estimate.xlsx")
    cells = {
        heading_cell(book, "My minutes", 0): 180,
        heading_cell(book, "My price each", 1): 6.75,
        heading_cell(book, "Why", 1): "as last time",
        heading_cell(book, "My minutes", 2): 25,
        rate_cell(book, "Markup"): 0.31,
    }
    typed_in(book, tmp_path / "typed.xlsx", cells)
    return tmp_path


def priced(folder: Path, lines: list[str] | None = None, *, again: bool = False) -> Estimate:
    if lines is not None:
        (folder / "list.csv").write_text(HEAD + "\n".join(lines))
    options = (folder / "list.csv", find_shop_book(folder / "list.csv"), JobOrder(date=DATE), ReadOptions())
    return estimate_again(*options, folder / "typed.xlsx") if again else estimate(*options)


def said(done: Estimate) -> list[tuple[str, str]]:
    return [(p.code, p.place.cell) for p in done.problems if p.code[1:] in ("924", "925", "926")]


def test_what_was_typed_on_the_lines_is_kept_and_a_typed_rate_is_said(folder: Path) -> None:
    done = priced(folder, again=True)
    np.testing.assert_array_equal(done.my_minutes, [180, np.nan, 25])
    np.testing.assert_array_equal(done.my_price_each, [np.nan, 6.75, np.nan])
    assert done.why == ["", "as last time", ""]
    assert done.shop.shop.markup == own_shop().shop.markup
    assert said(done) == [("N926", rate_cell(folder / "typed.xlsx", "Markup")[1])]


def test_kept_figures_stand_in_the_new_workbook_and_are_quoted_from_it(folder: Path) -> None:
    book = written(priced(folder, again=True), folder / "second.xlsx")
    reopened = reopen_estimate(book)
    assert reopened.problems == []
    assert reopened.estimate.lines.price_each[1] == 675
    assert reopened.estimate.why[1] == "as last time"
    sheet, cell = heading_cell(book, "Why", 1)
    assert openpyxl.load_workbook(book)[sheet][cell].value == "as last time"


def test_figures_follow_their_marks_when_the_list_changes(folder: Path) -> None:
    done = priced(folder, ["N9,1,20,rectangle,90,90,ours", LINES[1], "P1,10,20,rectangle,300,300,ours"], again=True)
    assert done.cuts.mark == ["N9", "P2", "P1"]
    np.testing.assert_array_equal(done.my_minutes, [np.nan, np.nan, 180])
    np.testing.assert_array_equal(done.my_price_each, [np.nan, 6.75, np.nan])
    codes = dict(said(done))
    assert {"W924", "W925", "N926"} == codes.keys()
    assert codes["W925"] == "B7", "its quantity"
    lost = next(p for p in done.problems if p.code == "W924")
    assert lost.needs == "a line with the same mark and thickness; row 7 had 25 minutes"


def test_a_mark_of_another_thickness_is_another_line(folder: Path) -> None:
    done = priced(folder, ["P1,8,25,rectangle,300,300,ours", *LINES[1:]], again=True)
    np.testing.assert_array_equal(done.my_minutes, [np.nan, np.nan, 25])
    assert "W924" in dict(said(done))


def test_an_old_estimate_that_is_none_or_holds_a_text_for_minutes_is_a_problem(folder: Path) -> None:
    plain = openpyxl.Workbook()
    plain.worksheets[0]["A1"] = "Mark"
    plain.save(folder / "typed.xlsx")
    with pytest.raises(WorkbookProblemsError, match="E901"):
        priced(folder, again=True)
    book = folder / "list_estimate.xlsx"
    typed_in(book, folder / "typed.xlsx", {heading_cell(book, "My minutes", 0): "long"})
    with pytest.raises(WorkbookProblemsError, match="E163"):
        priced(folder, again=True)


def test_an_old_estimate_with_a_line_taken_out_still_gives_its_figures(folder: Path) -> None:
    book = openpyxl.load_workbook(folder / "typed.xlsx")
    book["Lines"].delete_rows(7)
    del book["Record"]
    book.save(folder / "typed.xlsx")
    np.testing.assert_array_equal(priced(folder, again=True).my_minutes, [180, np.nan, 25])


def test_last_prices_stand_beside_the_lines_of_the_next_estimate(folder: Path) -> None:
    assert with_last_prices(priced(folder), folder / "list.csv").last_time == []
    send_quote(folder / "typed.xlsx", QuoteOrder())
    decide(folder / "quotes_register.xlsx", "Q-0001", "lost", why="too dear")
    done = with_last_prices(
        priced(folder, ["P2,30,10,rectangle,150,150,ours", "P7,1,6,rectangle,9,9,ours"]), folder / "list.csv"
    )
    np.testing.assert_array_equal(done.last_price_each, [6.75, np.nan])
    assert done.last_time == ["24 on 2026-11-02, Q-0001 A, lost", ""]
    note = next(p for p in done.problems if p.code == "N927")
    assert (note.fact, note.found) == ("marks of this list were quoted to this customer before (1)", "'P2 6.75'")
    book = written(done, folder / "next.xlsx")
    sheet, cell = heading_cell(book, "Last price each", 0)
    assert openpyxl.load_workbook(book)[sheet][cell].value == 6.75
    assert reopen_estimate(book).problems == []
