"""A result that nobody worked in is made again when its command is; what was typed, sent or named by hand stays."""

from __future__ import annotations

import shlex
import subprocess
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from openpyxl.workbook.workbook import Workbook
from typer.testing import CliRunner, Result

from estimator.cli import app
from estimator.commands.demo import SAMPLE_FILES, sample_folder
from estimator.read.load import load_book
from estimator.tasks_replace import typed_into
from estimator.write.save import save
from estimator.write.shop_book import shop_book_workbook
from tests.samples.estimates import heading_cell, own_shop, rate_cell, typed_in

RUNNER = CliRunner()
HEAD = "Customer,Example Works\nDate,2026-11-02\n\nMark,Qty,Thickness mm,Shape,Size A,Size B,Steel\n"
LINES = ["P1,8,20,rectangle,300,300,ours", "P2,24,10,rectangle,150,150,ours"]
Typing = Callable[[Workbook, Path], str]


def run(*arguments: object) -> Result:
    return RUNNER.invoke(app, [str(a) for a in arguments])


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    save(tmp_path / "shop_book.xlsx", shop_book_workbook(own_shop(), title="Shop book"))
    write_list(tmp_path)
    assert run("estimate", "list.csv").exit_code == 0
    return tmp_path


def write_list(folder: Path, lines: list[str] = LINES) -> None:
    (folder / "list.csv").write_text(HEAD + "\n".join(lines))


def saved_again(path: Path, typing: Typing | None = None) -> str:
    """Open a workbook in another program, type, save; return the cell that was typed in."""
    book = openpyxl.load_workbook(path)
    said = typing(book, path) if typing else ""
    book.save(path)
    return said


def typed(heading: str, value: object) -> Typing:
    def typing(book: Workbook, path: Path) -> str:
        sheet, cell = heading_cell(path, heading, 1)
        book[sheet][cell].value = value
        return f"'{sheet}'!"

    return typing


def typed_rate(book: Workbook, path: Path) -> str:
    sheet, cell = rate_cell(path, "Markup")
    book[sheet][cell].value = 0.4
    return f"'{sheet}'!{cell}: Markup 0.4 instead of"


def typed_tip(book: Workbook, path: Path) -> str:
    sheet = book["Tip settings"]
    kerf = next(c for row in sheet.iter_rows() for c in row if c.value == "Kerf")
    row = next(r for r in range(kerf.row + 2, 40) if (sheet.cell(r, kerf.column).value or 0) != 0)
    sheet.cell(row, kerf.column).value *= 2
    return "'Tip settings': tip"


def noted(book: Workbook, path: Path) -> str:
    book["Answer"]["K40"].value = "rang on Tuesday"
    return "'Answer'!K40: rang on Tuesday"


def renamed(book: Workbook, path: Path) -> str:
    book["Answer"]["A1"].value = "My own words"
    return "'Answer': a text was changed"


def added(book: Workbook, path: Path) -> str:
    book.create_sheet("Mine")["A1"].value = "x"
    return "'Mine'"


def overwritten(book: Workbook, path: Path) -> str:
    sheet, cell = heading_cell(path, "Price each", 0)
    book[sheet][cell].value = 99.5
    return f"'{sheet}'!{cell}"


KINDS: dict[str, Typing] = {
    "minutes": typed("My minutes", 50),
    "price": typed("My price each", 9.5),
    "reason": typed("Why", "as last time"),
    "quantity": typed("Quantity", 30),
    "rate": typed_rate,
    "tip": typed_tip,
    "note": noted,
    "text": renamed,
    "sheet": added,
    "formula": overwritten,
}


def test_an_estimate_that_nobody_typed_into_is_made_anew_from_the_mended_list(folder: Path) -> None:
    write_list(folder, ["P1,9,20,rectangle,300,300,ours", *LINES[1:]])
    result = run("estimate", "list.csv")
    assert result.exit_code == 0, result.stderr
    assert "the priced estimate; it replaces an untouched one." in " ".join(result.stdout.split())
    sheet, cell = heading_cell(folder / "list_estimate.xlsx", "Quantity", 0)
    assert openpyxl.load_workbook("list_estimate.xlsx")[sheet][cell].value == 9


def test_a_program_that_only_saved_it_again_counts_for_nothing(folder: Path) -> None:
    saved_again(folder / "list_estimate.xlsx")
    assert run("estimate", "list.csv").exit_code == 0


@pytest.mark.recalculate
def test_another_program_that_calculated_and_wrote_it_whole_counts_for_nothing(folder: Path) -> None:
    estimate, profile = folder / "list_estimate.xlsx", f"-env:UserInstallation=file://{folder}/profile"
    written = estimate.read_bytes()
    command = ["soffice", "--headless", profile, "--convert-to", "xlsx", "--outdir", str(folder / "again")]
    subprocess.run([*command, str(estimate)], check=True, capture_output=True)
    estimate.write_bytes((folder / "again" / "list_estimate.xlsx").read_bytes())
    assert estimate.read_bytes() != written
    assert typed_into(load_book(estimate)) == []
    saved_again(estimate)  # which bears a date of its own, so that its typed cells are priced again too
    assert typed_into(load_book(estimate)) == []
    assert run("estimate", "list.csv").exit_code == 0


@pytest.mark.parametrize("kind", KINDS)
def test_whatever_was_typed_is_named_with_its_cell_and_kept(folder: Path, kind: str) -> None:
    estimate = folder / "list_estimate.xlsx"
    where = saved_again(estimate, KINDS[kind])
    before = estimate.read_bytes()
    result = run("estimate", "list.csv")
    assert result.exit_code == 3
    assert "error E821 at list_estimate.xlsx" in result.stderr
    assert where in result.stderr
    assert estimate.read_bytes() == before


def test_the_command_that_it_names_keeps_what_was_typed(folder: Path) -> None:
    saved_again(folder / "list_estimate.xlsx", KINDS["minutes"])
    told = run("estimate", "list.csv").stderr
    command = next(line for line in told.splitlines() if line.startswith("$ ") and "--from" in line)
    assert run(*shlex.split(command)[2:]).exit_code == 0
    sheet, cell = heading_cell(folder / "list_estimate_2.xlsx", "My minutes", 1)
    assert openpyxl.load_workbook("list_estimate_2.xlsx")[sheet][cell].value == 50


def test_figures_that_were_carried_on_are_typed_ones_and_the_newest_is_named(folder: Path) -> None:
    saved_again(folder / "list_estimate.xlsx", KINDS["minutes"])
    assert run("estimate", "list.csv", "--from", "list_estimate.xlsx").exit_code == 0
    assert "--from list_estimate_2.xlsx" in run("estimate", "list.csv").stderr
    named = run("estimate", "list.csv", "--out", "list_estimate_2.xlsx")
    assert "error E821" in named.stderr
    assert "kerfledger estimate list.csv --from list_estimate_2.xlsx" in named.stderr


def test_another_lists_estimate_and_any_other_file_are_asked_about(folder: Path) -> None:
    (folder / "other.csv").write_text((folder / "list.csv").read_text())
    assert "error E801" in run("estimate", "other.csv", "--out", "list_estimate.xlsx").stderr
    (folder / "other_estimate.xlsx").write_text("a note")
    assert "error E801" in run("estimate", "other.csv").stderr


def test_the_estimate_behind_a_quote_is_not_replaced(folder: Path) -> None:
    assert run("quote", "list_estimate.xlsx").exit_code == 0
    kept = next(folder.glob("Q-*_estimate.xlsx"))
    result = run("estimate", "list.csv", "--out", kept)
    assert result.exit_code == 3
    assert "error E801" in result.stderr


def test_the_same_quote_again_writes_nothing_and_is_no_error(folder: Path) -> None:
    assert run("quote", "list_estimate.xlsx", "--pdf").exit_code == 0
    before = {path: path.read_bytes() for path in folder.glob("Q-*")}
    again = run("quote", "list_estimate.xlsx", "--pdf")
    assert again.exit_code == 0, again.stderr
    assert "note N917" in again.stderr
    assert "Wrote" not in again.stdout
    assert {path: path.read_bytes() for path in folder.glob("Q-*")} == before


def test_a_sent_quote_that_was_changed_by_hand_is_not_replaced(folder: Path) -> None:
    assert run("quote", "list_estimate.xlsx").exit_code == 0
    page = next(path for path in folder.glob("Q-*.xlsx") if "estimate" not in path.name)
    saved_again(page)
    assert "note N917" in run("quote", "list_estimate.xlsx").stderr
    typed_in(page, page, {("Quotation", "A1"): "another name"})
    changed = page.read_bytes()
    assert "error E949" in run("quote", "list_estimate.xlsx").stderr
    assert page.read_bytes() == changed


@pytest.mark.parametrize(
    ("command", "made"),
    [
        ("rack cut_list.xlsx", "cut_list_rack.xlsx"),
        ("compare price_lists.xlsx --cut-list cut_list.xlsx --shop shop_book.xlsx", "price_lists_comparison.xlsx"),
        ("reconcile --bills bills.xlsx --log work_log.xlsx", "bills_month_end.xlsx"),
    ],
)
def test_other_results_are_made_again_until_somebody_saves_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str, made: str
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in SAMPLE_FILES:
        (tmp_path / Path(name).name).write_bytes((sample_folder() / name).read_bytes())
    typed_command = command.split()
    first, second = run(*typed_command), run(*typed_command)
    assert "error" not in second.stderr
    assert second.exit_code == first.exit_code
    assert "the one before was replaced" in second.stdout
    saved_again(tmp_path / made)
    assert "error E801" in run(*typed_command).stderr
    saved_again(tmp_path / made)
    assert "error E801" in run(*typed_command, "--out", made).stderr


def test_a_job_card_is_made_again_until_somebody_types_on_it(folder: Path) -> None:
    assert run("quote", "list_estimate.xlsx").exit_code == 0
    assert run("decide", "Q-0001", "won", "--job", "J-1").exit_code == 0
    assert run("job-card", "Q-0001").exit_code == 0
    again = run("job-card", "Q-0001")
    assert again.exit_code == 0, again.stderr
    assert "the one before was replaced" in again.stdout
    saved_again(folder / "Q-0001_job_card.xlsx")
    assert "error E801" in run("job-card", "Q-0001").stderr
