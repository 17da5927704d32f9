"""A quote is numbered once, kept as it was sent, and its file tells the customer nothing of the shop's own figures."""

from __future__ import annotations

import datetime as dt
import io
import re
import zipfile
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest

from estimator.check.cut_list import TitleBlock
from estimator.pricing.job import Estimate
from estimator.problems import WorkbookProblemsError
from estimator.tasks_quote import QuoteOrder, SentQuote, send_quote
from estimator.tasks_register import decide, kept_file, open_register
from tests.samples.estimates import heading_cell, own_shop, rate_cell, saved_again, setting_cell, typed_in, written
from tests.samples.jobs import a_bit_of_everything, estimated, plates
from tests.workbook.test_quote import secrets, told


def job(count: int = 3, *, customer: str = "Example Works", sha: str = "a" * 64, **title: str) -> Estimate:
    block = TitleBlock(customer=customer, job="Base plates", **title)
    return estimated(replace(plates(count), title=block, sha256=sha), own_shop())


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return written(job(), tmp_path / "plates_estimate.xlsx")


def codes_of(path: Path, order: QuoteOrder | None = None) -> list[str]:
    with pytest.raises(WorkbookProblemsError) as caught:
        send_quote(path, order or QuoteOrder())
    return [problem.code for problem in caught.value.problems]


def quoted(path: Path, **order: object) -> SentQuote:
    return send_quote(path, QuoteOrder(**order))  # type: ignore[arg-type]


def dearer(book: Path, copy: Path, *, markup: float = 0.4) -> Path:
    return typed_in(book, copy, {rate_cell(book, "Markup"): markup})


def test_the_first_quote_makes_the_register_and_keeps_the_estimate(tmp_path: Path, book: Path) -> None:
    sent = quoted(book, pdf=True)
    assert sorted(p.name for p in tmp_path.iterdir() if not p.name.startswith(".")) == [
        "Q-0001_A.pdf",
        "Q-0001_A.xlsx",
        "Q-0001_A_estimate.xlsx",
        "plates_estimate.xlsx",
        "quotes_register.xlsx",
    ]
    register, problems = open_register(tmp_path / "quotes_register.xlsx")
    (row,) = register.quotes
    assert problems == []
    assert (row.number, row.revision, row.customer, row.title, row.state) == (
        "Q-0001", "A", "Example Works", "Base plates", "open",
    )  # fmt: skip
    assert round(row.price * 100) == sent.estimate.totals.taxable
    assert round((row.total or 0) * 100) == sent.estimate.totals.total
    assert sum(round(line.amount * 100) for line in register.lines) == sent.estimate.totals.lines
    assert kept_file(tmp_path / "quotes_register.xlsx", row).read_bytes() == book.read_bytes()


def test_the_customers_page_has_the_total_that_the_register_keeps(book: Path) -> None:
    sent = quoted(book)
    sheet = openpyxl.load_workbook(sent.files[0][0]).active
    assert sheet is not None
    numbers = [c.value for row in sheet.iter_rows() for c in row if isinstance(c.value, int | float)]
    assert sent.row.price in numbers
    assert sent.row.total in numbers


def test_a_changed_price_is_the_next_revision_and_the_old_files_stay(tmp_path: Path, book: Path) -> None:
    first = quoted(book)
    old = {path: path.read_bytes() for path, _ in first.files}
    second = quoted(dearer(book, tmp_path / "dearer.xlsx"))
    third = quoted(dearer(book, tmp_path / "dearest.xlsx", markup=0.5), pdf=True)
    assert [s.row.revision for s in (first, second, third)] == ["A", "B", "C"]
    assert {s.row.number for s in (first, second, third)} == {"Q-0001"}
    assert all(path.read_bytes() == data for path, data in old.items())
    register, _ = open_register(tmp_path / "quotes_register.xlsx")
    assert [row.state for row in register.quotes] == ["replaced", "replaced", "open"]
    assert third.changes is not None
    assert third.changes.since == "B"
    moved = sum(one.difference_minor for one in third.changes.lines) + third.changes.rest_minor
    assert moved == third.estimate.totals.taxable - second.estimate.totals.taxable


def test_the_same_quote_again_is_no_new_row(tmp_path: Path, book: Path) -> None:
    first = quoted(book)
    again = quoted(book)
    assert again.files == [], "both are there, to the last byte"
    first.files[0][0].unlink()
    again = quoted(book)
    assert [path for path, _ in again.files] == [first.files[0][0]]
    assert "N917" in [p.code for p in again.problems]
    assert len(open_register(tmp_path / "quotes_register.xlsx")[0].quotes) == 1
    assert first.files[0][0].exists()


def test_a_run_that_died_after_the_register_is_made_good_by_the_next(tmp_path: Path, book: Path) -> None:
    for path, _ in quoted(book, pdf=True).files:
        path.unlink()
    again = quoted(book, pdf=True)
    assert again.row.number == "Q-0001"
    assert all(path.exists() for path, _ in again.files)


def test_a_sent_revision_is_never_changed(tmp_path: Path, book: Path) -> None:
    quoted(book)
    other = dearer(book, tmp_path / "dearer.xlsx")
    assert codes_of(other, QuoteOrder(revision="A", force=True)) == ["E912"]
    assert quoted(other, revision="D").row.revision == "D"


def test_acetylene_above_15_psi_typed_into_the_estimate_reaches_no_page(tmp_path: Path, book: Path) -> None:
    # 15 psi gauge is 1.034 bar: 29 CFR 1910.253(a)(2)
    cell = setting_cell(book, "Fuel pressure")
    assert codes_of(typed_in(book, tmp_path / "high.xlsx", {cell: 1.1})) == ["E401"]
    assert quoted(typed_in(book, tmp_path / "allowed.xlsx", {cell: 1.034})).row.number == "Q-0001"


def test_a_number_is_not_given_to_another_customers_job(tmp_path: Path, book: Path) -> None:
    quoted(book)
    theirs = written(job(5, customer="Another Works", sha="b" * 64), tmp_path / "theirs.xlsx")
    assert codes_of(theirs, QuoteOrder(number="q-0001")) == ["E911"]
    assert quoted(theirs).row.number == "Q-0002"
    nobody = written(job(6, customer="", sha="c" * 64), tmp_path / "nobody.xlsx")
    assert codes_of(nobody, QuoteOrder(number="Q-0002")) == ["E911"]
    assert quoted(nobody, customer="New Works").row.customer == "New Works"


def test_a_new_list_of_the_same_customer_may_be_a_revision_by_its_number(tmp_path: Path, book: Path) -> None:
    quoted(book)
    changed_list = written(job(4, sha="d" * 64), tmp_path / "new_list.xlsx")
    sent = quoted(changed_list, number="Q-0001")
    assert (sent.row.revision, sent.changes and sent.changes.lines[-1].change) == ("B", "added")


def test_the_lists_own_number_and_revision_are_taken(tmp_path: Path) -> None:
    book = written(job(quote_number="2026/117", revision="P1"), tmp_path / "e.xlsx")
    sent = quoted(book)
    assert (sent.row.number, sent.row.revision, sent.files[0][0].name) == ("2026/117", "P1", "2026-117_P1.xlsx")
    again = quoted(dearer(book, tmp_path / "f.xlsx"))
    assert again.row.revision == "P1A"


def test_after_a_number_without_digits_the_next_is_asked(tmp_path: Path, book: Path) -> None:
    assert quoted(book, number="spring").row.number == "spring"
    other = written(job(5, sha="e" * 64), tmp_path / "other.xlsx")
    assert codes_of(other) == ["E913"]


def test_invented_prices_and_incomplete_lists_reach_no_customer(tmp_path: Path) -> None:
    invented = written(estimated(plates(3)), tmp_path / "invented.xlsx")
    assert codes_of(invented) == ["E817"]
    cuts = plates(4)
    cuts.thickness_mm[2] = 900.0
    partly = written(estimated(cuts, own_shop(), partial=True), tmp_path / "partly.xlsx")
    assert codes_of(partly) == ["E920"]
    assert not (tmp_path / "quotes_register.xlsx").exists()
    assert quoted(partly, partial=True).page.incomplete


def test_runs_at_the_same_time_get_numbers_of_their_own(tmp_path: Path) -> None:
    books = [written(job(n + 1, sha=str(n) * 64), tmp_path / f"job{n}.xlsx") for n in range(5)]
    with ThreadPoolExecutor(5) as pool:
        sent = list(pool.map(quoted, books))
    assert sorted(s.row.number for s in sent) == [f"Q-000{n}" for n in range(1, 6)]
    register, _ = open_register(tmp_path / "quotes_register.xlsx")
    assert sorted(row.estimate for row in register.quotes) == [f"Q-000{n}_A_estimate.xlsx" for n in range(1, 6)]


def test_a_won_revision_stays_won_when_another_is_quoted(tmp_path: Path, book: Path) -> None:
    quoted(book)
    decide(tmp_path / "quotes_register.xlsx", "Q-0001", "won")
    quoted(dearer(book, tmp_path / "dearer.xlsx"))
    assert [r.state for r in open_register(tmp_path / "quotes_register.xlsx")[0].quotes] == ["won", "open"]


def parts_of(path: Path) -> dict[str, str]:
    whole = zipfile.ZipFile(io.BytesIO(path.read_bytes()))
    return {name: whole.read(name).decode("utf-8", "replace") for name in whole.namelist() if "theme" not in name}


def test_no_part_of_a_revised_quote_holds_a_cost_a_rate_a_time_or_an_amount_of_gas(tmp_path: Path) -> None:
    book = written(estimated(a_bit_of_everything(sha256="f" * 64), own_shop(markup=0.2837)), tmp_path / "e.xlsx")
    quoted(book)
    cells = {rate_cell(book, "Markup"): 0.3319, heading_cell(book, "My minutes", 0): 233.7}
    cells |= {heading_cell(book, "My price each", 2): 61.25, heading_cell(book, "Why", 2): "hungry for work"}
    sent = quoted(typed_in(book, tmp_path / "typed.xlsx", cells))
    page, minor = sent.page, 100.0
    assert page.changes is not None
    on_purpose = {round(value, 2) for value in told(page)}
    on_purpose |= {round(abs(amount or 0) / minor, 2) for _, _, amount in page.changes.rows}
    shown = parts_of(sent.files[0][0])
    hidden = secrets(sent.estimate) | {"typed minutes": 233.7, "typed markup": 0.3319}
    assert len(hidden) > 80
    for name, value in hidden.items():
        if round(value, 2) in on_purpose:
            continue  # an amount that happens to equal a price
        for said in {f"{value:.2f}", f"{value:.3f}", repr(value)} if value >= 10 else {repr(value)}:
            for part, text in shown.items():
                assert not re.search(rf"(?<![\d.]){re.escape(said)}(?![\d])", text), (name, part)
    everything = " ".join(shown.values())
    assert "hungry" not in everything
    assert "Record" not in everything
    assert "61.25" in everything


def test_the_same_quote_saved_again_by_a_spreadsheet_program_is_the_same_quote(tmp_path: Path, book: Path) -> None:
    first = quoted(book)
    for path in (book, tmp_path / "Q-0001_A.xlsx"):
        saved_again(path)
    kept = {path: path.read_bytes() for path, _ in first.files}
    again = quoted(book)
    assert (again.row.revision, again.files) == ("A", [])
    assert "N917" in [problem.code for problem in again.problems]
    assert all(path.read_bytes() == data for path, data in kept.items())


def test_a_page_or_kept_estimate_that_differs_stays_and_the_revision_to_type_is_named(
    tmp_path: Path, book: Path
) -> None:
    quoted(book)
    page, kept = tmp_path / "Q-0001_A.xlsx", tmp_path / "Q-0001_A_estimate.xlsx"
    for path, place in ((page, ("Quotation", "A1")), (kept, heading_cell(kept, "Why", 0))):
        before = path.read_bytes()
        typed_in(path, path, {place: "by hand"})
        with pytest.raises(WorkbookProblemsError) as caught:
            quoted(book)
        (problem,) = caught.value.problems
        assert (problem.code, problem.place.file) == ("E949", str(path))
        assert "--revision B" in problem.do
        path.write_bytes(before)
    typed_in(page, page, {("Quotation", "A1"): "by hand"})
    assert quoted(book, revision="B").row.revision == "B"


def test_a_quote_that_is_past_says_so_and_a_day_renews_it(tmp_path: Path, book: Path) -> None:
    late = dt.date(2027, 6, 1)
    old = quoted(book, today=late)
    (said,) = [problem for problem in old.problems if problem.code == "W950"]
    assert "dated 2026-11-02 and valid until 2026-12-02" in said.fact
    assert "--date 2027-06-01" in said.do
    renewed = quoted(book, today=late, on=late)
    assert "W950" not in {problem.code for problem in renewed.problems}
    assert (renewed.row.revision, renewed.row.date, renewed.page.valid_until) == ("B", late, dt.date(2027, 7, 1))
    assert renewed.estimate.totals == old.estimate.totals
    assert "W950" not in {problem.code for problem in quoted(book, today=dt.date(2026, 12, 2)).problems}
