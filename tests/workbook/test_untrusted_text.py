"""Hostile text in every cell of a list and a shop book stays text: in workbooks, csv, PDF, JSON and on the terminal."""

from __future__ import annotations

import json
import re
import subprocess
import zipfile
from collections.abc import Iterator
from pathlib import Path

import openpyxl
import pytest
from typer.testing import CliRunner, Result

from estimator.cli import app
from estimator.read.load import load_book

SAMPLES = Path(__file__).resolve().parents[2] / "sample_jobs"
HOSTILE = [
    "=cmd|'/c calc'!A0",
    "@SUM(1+1)",
    "+1+cmd",
    "<xml><r>bold</r></xml>",
    "<r><b/>raw</r>",
    "a\x1b[31mred",
    "a\x9b2J",
    "invoice\u202egpj.exe",
    "http://bad.example/x",
    "mailto:a@bad.example",
    "a\x00b",
    "&amp;<b>&#x1b;",
    "{{7*7}}${x}",
    "_x001B_[2J",
    " =1+cmd",
    "\t=1+cmd",
    "\r=1+cmd",
    "＝1+cmd",
    "-1+cmd",
    "＠SUM(1+1)",
]
TITLES = (("Customer", "=1+cmd"), ("Job", "@SUM(1+1)"), ("Quote number", "+1+cmd"), ("Steel", "theirs"))
LIST_FILE = "in_=cmd'list.xlsx"
SHEET = "=1+cmd'x"
FREE_COLUMNS = ("Drawing", "Description", "Note", "Grade", "Customer ref")
STEERING = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")


def written(text: str) -> str:
    """Return the text as an .xlsx file can hold it: a control character becomes its escape."""
    return re.sub("[\x00-\x1f]", lambda m: f"_x{ord(m[0]):04X}_", text.replace("_x", "_x005F_x"))


def save_list(path: Path) -> Path:
    """Save a good list whose every free text is hostile."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = SHEET
    for title in TITLES:
        sheet.append(title)
        sheet.cell(sheet.max_row, 2).data_type = "s"
    sheet.append([])
    sheet.append(["Mark", *FREE_COLUMNS, "Qty", "Thickness mm", "Length mm", "Width mm", "Steel"])
    for number, text in enumerate(HOSTILE):
        sheet.append([*[""] * 6, 2 + number, 12, 300, 200, "theirs"])
        for column in range(1, 7):
            cell = sheet.cell(sheet.max_row, column)
            cell.value = written(text)
            cell.data_type = "s"
    book.save(path)
    return path


def save_shop(path: Path) -> Path:
    """Save the sample shop book with hostile text in each free cell of its form and lists."""
    book = openpyxl.load_workbook(SAMPLES / "shop_book.xlsx")
    texts = iter(HOSTILE * 9)
    for row in book["Shop"].iter_rows():
        if any(str(cell.value).lower().startswith(("shop name", "address", "contact", "terms")) for cell in row):
            row[1].value = written(next(texts))
            row[1].data_type = "s"
    book.save(path)
    return path


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[Result]]:
    """Every output that a list and a shop book give, and what was printed."""
    folder = tmp_path_factory.mktemp("hostile")
    cut_list, shop = save_list(folder / LIST_FILE), save_shop(folder / "in_shop.xlsx")
    runs = [
        "estimate {list} --shop {shop} --date 2026-11-02 --out {to}/e.xlsx --quote {to}/q.xlsx --pdf --fill {to}/f.xlsx"
        " --quote-number =1+1 --revision \x1b[1m",
        "estimate {list} --shop {shop} --date 2026-11-02 --out {to}/j.xlsx --json",
        "estimate {list} --read-only",
        "quote {to}/e.xlsx --out {to}/s.xlsx --number =2+cmd --customer =1+1 --pdf --register {to}/g.xlsx",
        "decide =2+cmd won --register {to}/g.xlsx --date 2026-11-03",
        "job-card =2+cmd --register {to}/g.xlsx --out {to}/c.xlsx",
        "explain {list} 9 --shop {shop} --date 2026-11-02",
        "rack {list} --shop {shop} --date 2026-11-02 --out {to}/r.xlsx --card {to}/card.pdf",
    ]
    results = []
    for words in runs:
        arguments = [w.format(list=cut_list, shop=shop, to=folder) for w in words.split(" ")]
        results.append(CliRunner().invoke(app, arguments, color=True))
        assert results[-1].exit_code in (0, 3), results[-1].output
        assert "Traceback" not in results[-1].output
    return folder, results


def outputs(folder: Path, ending: str) -> list[Path]:
    found = sorted(p for p in folder.glob(f"*{ending}") if not p.name.startswith("in_"))
    assert found
    return found


def cells(path: Path) -> Iterator[tuple[str, object]]:
    for sheet in openpyxl.load_workbook(path).worksheets:
        for row in sheet.iter_rows():
            yield from ((str(cell.data_type), cell.value) for cell in row if cell.value is not None)


def test_no_text_becomes_a_formula_in_any_workbook(folder: tuple[Path, list[Result]]) -> None:
    whole = {f"{name}.xlsx" for name in "cefgjqrs"}
    assert {p.name for p in outputs(folder[0], ".xlsx") if not p.name.endswith("_estimate.xlsx")} == whole
    held = 0
    for path in outputs(folder[0], ".xlsx"):
        formulas = [str(v) for kind, v in cells(path) if kind == "f"]
        assert not [f for f in formulas if re.search(r"cmd|bad\.example|calc|^=1\+1$|SUM\(1\+1\)", f)]
        held += sum(kind != "f" and "cmd|" in str(v) for kind, v in cells(path))
    assert held >= 3


def test_no_link_markup_or_control_character_is_in_any_part_of_a_workbook(folder: tuple[Path, list[Result]]) -> None:
    for path in outputs(folder[0], ".xlsx"):
        ours = path.name != "f.xlsx"  # the filled list is the customer's own file: their cells stay as they were
        for value in (v for sheet in load_book(path).sheets for row in sheet.rows for v in row if ours):
            assert not STEERING.search(str(value)), (path.name, value)
        with zipfile.ZipFile(path) as parts:
            for name in parts.namelist():
                text = parts.read(name).decode("utf-8", "replace")
                assert not ours or not STEERING.search(text), (path.name, name)
                # Links lead to cells of our own sheets only: none has a target outside the file.
                assert not re.search(r"<hyperlink[^>]*r:id=", text), (path.name, name)
                assert 'TargetMode="External"' not in text, (path.name, name)
                assert not re.search(r"<(xml|b)>|<r><b/>raw", text), (path.name, name)


def test_no_pdf_holds_a_link_an_action_or_a_control_character(folder: tuple[Path, list[Result]]) -> None:
    for path in outputs(folder[0], ".pdf"):
        raw = path.read_bytes()
        assert not re.search(rb"/(URI|JavaScript|JS|Launch|OpenAction|SubmitForm|GoToR)\b", raw)
        shown = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, text=True, check=True).stdout
        assert not STEERING.search(shown.replace("\f", ""))
    text = subprocess.run(["pdftotext", folder[0] / "q.pdf", "-"], capture_output=True, text=True, check=True).stdout
    assert "<xml>" in text.replace("\n", "")


def test_nothing_that_is_printed_steers_a_terminal(folder: tuple[Path, list[Result]]) -> None:
    ours = re.compile("\x1b\\[(1|31|33|36|0)m")
    for result in folder[1]:
        for line in (result.stdout + result.stderr).split("\n"):
            own_colour = re.sub("^\x1b\\[3[136]m\x1b\\[1m(error|warning|note)\x1b\\[0m", "", line)
            assert not STEERING.search(own_colour.replace("\t", "")), ours.sub("", repr(line))


def test_the_json_keeps_each_text_as_it_was_read(folder: tuple[Path, list[Result]]) -> None:
    assert folder[1][1].exit_code == 0
    data = json.loads(folder[1][1].stdout)
    assert folder[1][1].stdout.isascii() or not STEERING.search(folder[1][1].stdout)
    assert "=cmd|'/c calc'!A0" in {line["mark"] for line in data["lines"]}
    assert len(data["lines"]) == len(HOSTILE)


def test_a_marked_list_is_text_too(tmp_path: Path) -> None:
    path, marked = tmp_path / "list.csv", tmp_path / "marked.csv"
    path.write_text("Mark,Qty,Thickness mm,Length mm,Width mm\n=1+1,2,@SUM(A1),300,200\n", encoding="utf-8")
    result = CliRunner().invoke(app, ["estimate", str(path), "--date", "2026-11-02", "--problems", str(marked)])
    assert result.exit_code == 3
    rows = marked.read_text(encoding="utf-8-sig").splitlines()
    assert not [cell for row in rows for cell in re.split(r'[,;]"?', row) if cell.startswith(("=", "@", "+"))]
