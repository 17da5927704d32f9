"""A new shop's first hour: its folder, the list that is dropped, the demo."""

from __future__ import annotations

import datetime as dt
import os
import re
import shutil
import subprocess
import sys
import time
from pathlib import Path

import openpyxl
import pytest
from typer.testing import CliRunner, Result

from estimator.check.shop_book import ALWAYS
from estimator.cli import app
from estimator.commands import dropped as dropped_command
from estimator.commands.as_typed import command_line
from estimator.commands.demo import SAMPLE_FILES, demo_tasks
from estimator.read.load import load_book
from estimator.sheets.first_cells import LATER, NEEDED_FIRST, START, USUAL_FLAME_HOURS
from estimator.tasks import read_shop
from estimator.write.book import a1
from estimator.write.launcher import LINE_VARIABLE, dropped_on_windows
from estimator.write.shop_folder import LISTS_FOLDER
from estimator.write.start_sheet import start_cell

ROOT = Path(__file__).resolve().parents[2]
RUNNER = CliRunner()
TYPED: dict[str, object] = {
    "currency": "XTS", "labour_per_hour": 38, "markup": 0.25, "oxygen_content": "10 m3 at 15 °C, 1 bar",
    "oxygen_price": 42, "oxygen_rent": 8, "fuel": "acetylene", "fuel_content": "7 kg", "fuel_price": 138,
    "fuel_rent": 9, "planned_flame_hours": 60, "steel_when_silent": "theirs",
}  # fmt: skip
"""What an owner types on the first sheet."""


def run(*arguments: object) -> Result:
    return RUNNER.invoke(app, [str(a) for a in arguments])


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    folder = tmp_path / "An Owner's shop"
    assert run("start", folder).exit_code == 0
    return folder


def type_first_cells(book_path: Path, **changed: object) -> None:
    book = openpyxl.load_workbook(book_path)
    for name, value in (TYPED | changed).items():
        row, column = start_cell(name)
        book[START.name].cell(row + 1, column + 1).value = value
    book.save(book_path)


def write_list(path: Path, date: str = "2026-11-02") -> Path:
    path.write_text(f"Date,{date}\n\nMark,Qty,Thickness mm,Cut length mm\nA,4,12,1000\n", encoding="utf-8")
    return path


def test_the_first_sheet_asks_in_one_run_and_leads_to_what_can_wait(shop: Path) -> None:
    book = openpyxl.load_workbook(shop / "shop_book.xlsx")
    first = book.worksheets[0]
    assert first.title == START.name
    rows = [start_cell(column.name)[0] for column in START.columns]
    assert rows == list(range(rows[0], rows[0] + len(rows)))
    assert len(rows) <= 16
    for column, row in zip(START.columns, rows, strict=True):
        assert first.cell(row + 1, 1).value == column.heading
        assert first.cell(row + 1, 2).value is None
    for link, later in zip([c.hyperlink for c in first["A"] if c.hyperlink], LATER, strict=True):
        sheet, _, cell = link.location.rpartition("!")
        heading = later.sheet.column(later.name).heading
        target = book[sheet.strip("'")][cell]
        above = [target.parent.cell(row, target.column).value for row in range(1, target.row)]
        assert heading in [*above, target.parent.cell(target.row, 1).value]


def test_the_two_looks_of_cells_have_a_legend(shop: Path) -> None:
    book = openpyxl.load_workbook(shop / "shop_book.xlsx")
    first = book[START.name]
    yellow, pink = (first.cell(row, 1) for row in (3, 4))
    row, column = start_cell("labour_per_hour")
    assert "yellow" in yellow.value
    assert yellow.fill.fgColor.rgb == first.cell(row + 1, column + 1).fill.fgColor.rgb
    assert "pink" in pink.value
    assert pink.fill.fgColor.rgb == book["Tips"].cell(5, 1).fill.fgColor.rgb
    for sheet in ("Labour", "Gas prices", "Steel"):  # what must be typed there is yellow too
        assert {cell.fill.fgColor.rgb for cell in book[sheet][6]} == {yellow.fill.fgColor.rgb}


def test_an_untouched_book_prices_nothing_and_names_its_blank_cells_at_once(shop: Path) -> None:
    result = run("estimate", write_list(shop / "list.csv"))
    assert result.exit_code == 3
    assert f"{len(NEEDED_FIRST)} errors above" in result.stderr
    for name in NEEDED_FIRST:
        assert f" at '{START.name}'!{a1(*start_cell(name))}: {START.column(name).heading} is blank" in result.stderr
    assert not (shop / "list_estimate.xlsx").exists()


def test_the_first_cells_are_all_that_must_be_typed(shop: Path) -> None:
    type_first_cells(shop / "shop_book.xlsx")
    _, problems = read_shop(shop / "shop_book.xlsx")
    assert problems == []
    result = run("estimate", write_list(shop / "list.csv"))
    assert result.exit_code == 0, result.stderr
    assert "Total:" in result.stdout
    assert "XTS" in result.stdout


def test_hours_of_burning_are_taken_where_none_are_typed_and_said_where_rental_is_shared_over_them(shop: Path) -> None:
    book_path, cut_list = shop / "shop_book.xlsx", write_list(shop / "list.csv")
    type_first_cells(book_path, planned_flame_hours=None, oxygen_rent=None, fuel_rent=None)
    assert read_shop(book_path)[1] == []
    assert read_shop(book_path)[0].shop.planned_flame_hours == USUAL_FLAME_HOURS
    type_first_cells(book_path, planned_flame_hours=None)
    result = run("estimate", cut_list)
    assert result.exit_code == 0, result.stderr
    assert f"W316 at '{START.name}'!{a1(*start_cell('planned_flame_hours'))}" in result.stderr
    type_first_cells(book_path)
    assert read_shop(book_path)[1] == []


@pytest.mark.parametrize(
    ("options", "content", "unit", "price"),
    [
        ([], 33, "kg", 75),
        ([], "11 kg", None, 31),
        (["--inches"], 100, "lb", "1.10/lb"),
        (["--inches"], "20 lb", None, 24),
    ],
)
def test_an_owner_who_cuts_with_propane_gets_a_first_price_and_is_told_whose_tips_it_rests_on(
    tmp_path: Path, options: list[str], content: object, unit: str | None, price: object
) -> None:
    folder = tmp_path / "shop"
    assert run("start", *options, folder, "-q").exit_code == 0
    type_first_cells(folder / "shop_book.xlsx", fuel="propane", fuel_content=content, fuel_price=price)
    book = openpyxl.load_workbook(folder / "shop_book.xlsx")
    row, column = start_cell("fuel_content")
    if unit:
        book[START.name].cell(row + 1, column + 2).value = unit
    book.save(folder / "shop_book.xlsx")
    result = run("estimate", write_list(folder / "list.csv"))
    assert result.exit_code == 0, result.stderr
    assert "propane" in result.stdout
    assert "error" not in result.stderr
    assert result.stderr.count("W313 at 'Tips'!row 5: no tip on hand is for propane") == 1
    settings = openpyxl.load_workbook(folder / "list_estimate.xlsx", data_only=True)["Tip settings"]
    head = next(cell for row in settings.iter_rows() for cell in row if cell.value == "Fuel pressure")
    assert settings.cell(head.row + 3, head.column).value is None
    assert settings.cell(head.row + 3, head.column - 1).value > 0


def test_tips_that_are_only_renamed_to_propane_are_told_of_row_by_row(shop: Path) -> None:
    type_first_cells(shop / "shop_book.xlsx", fuel="propane")
    book = openpyxl.load_workbook(shop / "shop_book.xlsx")
    for row in range(5, 12):
        assert book["Tips"].cell(row, 2).value == "acetylene"
        book["Tips"].cell(row, 2).value = "propane"
    book.save(shop / "shop_book.xlsx")
    result = run("estimate", write_list(shop / "list.csv"))
    assert result.exit_code == 0, result.stderr
    assert "W315 at 'Tips'!row 5: the tip is for propane" in result.stderr
    assert "also at row 6" in result.stderr
    assert "W313" not in result.stderr


def test_prices_without_a_first_day_hold_whatever_the_day_of_the_job(shop: Path) -> None:
    type_first_cells(shop / "shop_book.xlsx")
    book, _ = read_shop(shop / "shop_book.xlsx")
    assert {row.from_date for row in (*book.labour, *book.gas_prices)} == {ALWAYS}
    result = run("estimate", write_list(shop / "list.csv"), "--date", "14.03.2009")
    assert result.exit_code == 0, result.stderr
    rates = openpyxl.load_workbook(shop / "list_estimate.xlsx")["Rates"]
    assert not [cell.value for row in rates.iter_rows() for cell in row if isinstance(cell.value, dt.datetime)]


def test_settings_takes_the_tips_and_the_fuel_of_the_shop_book_that_lies_where_one_stands(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    type_first_cells(shop / "shop_book.xlsx", fuel="propane", fuel_content="18 kg")
    monkeypatch.chdir(shop)
    result = run("settings", "20")
    assert result.exit_code == 0, result.stderr
    assert result.stdout.startswith("20 mm (0.787 in) with oxygen and propane")


def test_start_in_a_folder_that_is_there_writes_what_is_missing_and_no_more(shop: Path) -> None:
    before = (shop / "shop_book.xlsx").read_bytes()
    type_first_cells(shop / "shop_book.xlsx")
    typed = (shop / "shop_book.xlsx").read_bytes()
    assert typed != before
    result = run("start", shop)
    assert result.exit_code == 0
    assert "is there already: nothing in it was changed." in " ".join(result.stdout.split())
    assert "Next: open" in result.stdout
    (shop / "bills.xlsx").unlink()
    again = run("start", shop)
    assert "bills.xlsx the month's gas bills, to check them." in " ".join(again.stdout.split())
    assert (shop / "bills.xlsx").exists()
    assert (shop / "shop_book.xlsx").read_bytes() == typed
    assert run("start", shop, "--force").exit_code == 0
    assert (shop / "shop_book.xlsx").read_bytes() != typed


def test_a_file_where_the_folder_should_be_is_a_problem(tmp_path: Path) -> None:
    (tmp_path / "shop").write_text("a note", encoding="utf-8")
    result = run("start", tmp_path / "shop")
    assert result.exit_code == 3
    assert "error E820 at" in result.stderr


def test_the_guide_fits_one_page_and_names_only_what_is_there(shop: Path) -> None:
    lines = (shop / "read_me_first.txt").read_text("utf-8").splitlines()
    assert len(lines) <= 60
    assert max(map(len, lines)) <= 80
    for name in ("shop_book.xlsx", "cut_list.xlsx", "work_log.xlsx", "bills.xlsx", "price_lists.xlsx"):
        assert any(name in line for line in lines)
        assert load_book(shop / name).sheets


def test_the_launcher_prices_a_list_with_the_folders_own_book_and_opens_it(shop: Path, tmp_path: Path) -> None:
    if sys.platform in ("win32", "darwin"):
        pytest.skip("the Linux form of the launcher")
    type_first_cells(shop / "shop_book.xlsx")
    mail = tmp_path / "mail of a customer"
    opened, programs = tmp_path / "opened.txt", tmp_path / "programs"
    for folder in (mail, programs):
        folder.mkdir()
    (programs / "xdg-open").write_text(f'#!/bin/sh\necho "$1" >> "{opened}"\n', encoding="utf-8")
    (programs / "xdg-open").chmod(0o755)
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PATH": f"{programs}:{os.environ['PATH']}"}
    cut_list = write_list(mail / "frames & feet.csv")
    for _ in range(2):
        subprocess.run([shop / "price_a_list.sh", cut_list], check=True, env=environment, capture_output=True)
    results = [mail / "frames & feet_estimate.xlsx", mail / "frames & feet_estimate_2.xlsx"]
    assert opened.read_text("utf-8").splitlines() == [str(path) for path in results]
    assert "XTS" in str([c.value for row in openpyxl.load_workbook(results[0]).worksheets[0] for c in row])


@pytest.mark.skipif(shutil.which("gio") is None, reason="needs GLib's gio, which starts desktop entries")
def test_the_desktop_entry_hands_a_dropped_list_over_from_a_folder_with_a_hostile_name(tmp_path: Path) -> None:
    folder = tmp_path / "o'n 5% $hop"
    assert run("start", folder).exit_code == 0
    type_first_cells(folder / "shop_book.xlsx")
    cut_list = write_list(tmp_path / "dropped one.csv")
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    subprocess.run(
        ["gio", "launch", folder / "price_a_list.desktop", cut_list], check=True, env=environment, capture_output=True
    )
    result = tmp_path / "dropped one_estimate.xlsx"
    patience = time.monotonic() + 60
    while not result.exists() and time.monotonic() < patience:
        time.sleep(0.2)
    assert result.exists()


def test_a_list_that_cannot_be_priced_gets_a_page_that_says_why(shop: Path) -> None:
    type_first_cells(shop / "shop_book.xlsx")
    bad = shop / LISTS_FOLDER / "bad.csv"
    bad.write_text("Mark,Qty,Thickness mm,Cut length mm\nA,4,see dwg,1000\n", encoding="utf-8")
    result = run("dropped", bad, "--folder", shop, "--no-open")
    assert result.exit_code == 3
    page = (shop / LISTS_FOLDER / "bad_not_priced.txt").read_text("utf-8")
    assert "C2" in page
    assert not (shop / LISTS_FOLDER / "bad_estimate.xlsx").exists()


def test_without_a_list_those_that_wait_are_priced_once(shop: Path) -> None:
    type_first_cells(shop / "shop_book.xlsx")
    write_list(shop / LISTS_FOLDER / "one.csv")
    first = run("dropped", "--folder", shop, "--no-open")
    assert "one_estimate.xlsx" in first.stdout
    second = run("dropped", "--folder", shop, "--no-open")
    assert "No list waits" in second.stdout


def test_a_system_without_an_opener_is_no_fault(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    type_first_cells(shop / "shop_book.xlsx")
    monkeypatch.setattr(dropped_command, "_opener", lambda path: ("no-such-program-here", str(path)))
    assert run("dropped", write_list(shop / "list.csv"), "--folder", shop).exit_code == 0


@pytest.mark.parametrize(
    ("line", "files"),
    [
        (r'C:\WINDOWS\system32\cmd.exe /c ""C:\o\price_a_list.bat" "', []),
        (r'C:\WINDOWS\system32\cmd.exe /c ""C:\o\price_a_list.bat" C:\in\a.csv"', [r"C:\in\a.csv"]),
        (r'cmd /c ""C:\o p\price_a_list.bat" C:\in\a&b.csv "C:\in\c d.csv""', [r"C:\in\a&b.csv", r"C:\in\c d.csv"]),
        (r'cmd /c ""C:\o\price_a_list.bat" "C:\Stücke, 5 % (ü)!.xlsx" C:\in\x;y^z.csv"',
         [r"C:\Stücke, 5 % (ü)!.xlsx", r"C:\in\x;y^z.csv"]),
        (r'"C:\WINDOWS\system32\cmd.exe"', []),
        ("", []),
    ],
)  # fmt: skip
def test_names_that_windows_would_cut_are_taken_from_the_line_itself(line: str, files: list[str]) -> None:
    assert dropped_on_windows(line) == files


def test_the_windows_line_names_the_lists_that_are_priced(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    type_first_cells(shop / "shop_book.xlsx")
    cut_list = write_list(shop / "a&b.csv")
    monkeypatch.setenv(LINE_VARIABLE, f'cmd /c ""{shop}/price_a_list.bat" "{cut_list}""')
    assert run("dropped", shop / "a", "--folder", shop, "--no-open").exit_code == 0
    assert (shop / "a&b_estimate.xlsx").exists()


def test_where_nothing_may_be_written_beside_a_list_its_result_waits_in_the_shop_folder(
    shop: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    type_first_cells(shop / "shop_book.xlsx")
    shut = tmp_path / "shut"
    shut.mkdir()
    monkeypatch.setattr(dropped_command, "_may_write", lambda folder: folder != shut)
    assert run("dropped", write_list(shut / "list.csv"), "--folder", shop, "--no-open").exit_code == 0
    assert (shop / LISTS_FOLDER / "list_estimate.xlsx").exists()
    assert [path.name for path in shut.iterdir()] == ["list.csv"]


def test_the_demo_runs_every_task_and_names_each_file_it_made(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    result = run("demo", folder)
    assert result.exit_code == 0, result.stderr
    for number, task in enumerate(demo_tasks(folder), 1):
        assert f"{number}. {task.question}\n   " in result.stdout
    sample = {Path(name).name for name in SAMPLE_FILES}
    made = {path.name for path in folder.iterdir() if not path.name.startswith(".")} - sample
    assert len(made) >= 8
    assert {name for name in made if name not in result.stdout} == set()
    assert run("demo", folder).exit_code == 3
    assert run("demo", folder, "--force", "-q").exit_code == 0


def test_the_demo_fits_a_screen_and_says_one_figure_of_each_task(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    folder = Path("demo")
    said, whole = run("demo", folder).stdout, run("demo", folder, "--force", "--all").stdout
    assert len(said.split()) <= 200
    assert len(said.splitlines()) <= 32
    for task in demo_tasks(folder):
        figure = said.split(f"{task.question}\n   ")[1].splitlines()[0]
        assert re.search(r"\d", figure)
        assert f"{task.question}\n$ kerfledger {task.arguments[0]}" in whole
    total = said.split("Total: ")[1].split()[0]
    assert f"Total: {total} XTS  (before tax" in whole
    assert run("demo", "-q", tmp_path / "other").stdout == ""


@pytest.mark.parametrize(
    ("called", "shown"),
    [
        (str(Path(".venv") / "bin" / "kerfledger"), str(Path(".venv") / "bin" / "kerfledger")),
        (str(Path("/usr") / "bin" / "kerfledger"), "kerfledger"),
        ("kerfledger", "kerfledger"),
        (str(Path("x") / "pytest"), "kerfledger"),
    ],
)
def test_a_command_to_copy_works_as_the_program_was_called(
    called: str, shown: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "argv", [called])
    assert command_line(("start", "my_shop")) == f"{shown} start my_shop"
