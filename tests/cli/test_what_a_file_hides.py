"""What a workbook hides is said by the command that reads it: filtered rows, hidden sheets, values of other files."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
from typer.testing import CliRunner

from estimator.cli import app

SAMPLES = Path(__file__).resolve().parents[2] / "sample_jobs"


def hidden_row(source: Path, sheet: str, path: Path) -> Path:
    """Save a copy of a workbook with its last used row hidden."""
    book = openpyxl.load_workbook(source)
    rows = [row[0].row for row in book[sheet].iter_rows() if any(cell.value is not None for cell in row)]
    book[sheet].row_dimensions[rows[-1]].hidden = True
    book.save(path)
    return path


@pytest.mark.parametrize(
    ("source", "sheet", "words"),
    [
        ("cut_list.xlsx", "Parts list", "estimate {file} --shop {shop} --out out.xlsx"),
        ("shop_book.xlsx", "Labour", "estimate {list} --shop {file} --out out.xlsx"),
        ("suppliers/price_lists.xlsx", "Fees", "compare {file} --out out.xlsx"),
        ("month_end/work_log.xlsx", "Work log", "compare {prices} --log {file} --out out.xlsx"),
        ("month_end/work_log.xlsx", "Work log", "calibrate --log {file} --out out.xlsx"),
    ],
)
def test_a_hidden_row_is_said_with_its_number(
    source: str, sheet: str, words: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    file = hidden_row(SAMPLES / source, sheet, tmp_path / "book.xlsx")
    places = {
        "file": file,
        "list": SAMPLES / "cut_list.xlsx",
        "shop": SAMPLES / "shop_book.xlsx",
        "prices": SAMPLES / "suppliers" / "price_lists.xlsx",
    }
    result = CliRunner().invoke(app, [word.format(**places) for word in words.split()])
    assert "note N031 at " in result.stderr, result.output
