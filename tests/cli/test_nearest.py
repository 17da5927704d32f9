"""A misspelt word of a closed set is answered with the nearest right one, whatever the set."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from estimator.cli import app

SAMPLES = Path(__file__).resolve().parents[2] / "sample_jobs"


@pytest.mark.parametrize(
    ("typed", "nearest"),
    [
        ("estimat cut_list.xlsx", "estimate"),
        ("estimate cut_list.xlsx --shpo shop_book.xlsx", "--shop"),
        ("estimate cut_lst.xlsx", "cut_list.xlsx"),
        ("estimate cut_list.xlsx --shop shop_bok.xlsx", "shop_book.xlsx"),
        ("estimate cut_list.xlsx --sheet Partslist", "'Parts list'"),
        ("estimate cut_list.xlsx --columns thicknes=D", "thickness"),
        ("estimate cut_list.xlsx --fuel acetelyne", "the nearest is acetylene"),
        ("estimate cut_list.xlsx --labour-rate overtme", "the nearest is overtime"),
        ("estimate list.csv --encoding utf9", "the nearest is utf-8"),
        ("explain cut_list.xlsx RI9", "the nearest is RI"),
        ("settings 20mmm", "the nearest unit is mm"),
        ("settings 3/4inchs", "the nearest unit is inch"),
        ("settings 20 --fuel propan", "the nearest is propane"),
        ("decide Q-0117 wonn", "the nearest is won"),
    ],
)
def test_the_nearest_is_named(typed: str, nearest: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("cut_list.xlsx", "shop_book.xlsx"):
        shutil.copy(SAMPLES / name, tmp_path)
    (tmp_path / "list.csv").write_text("Mark,Qty\n", encoding="utf-8")
    result = CliRunner().invoke(app, typed.split())
    assert result.exit_code in (2, 3)
    assert nearest in result.stderr


def test_a_labour_rate_of_the_job_is_asked_about_once(tmp_path: Path) -> None:
    shutil.copy(SAMPLES / "shop_book.xlsx", tmp_path)
    shutil.copy(SAMPLES / "cut_list.xlsx", tmp_path)
    result = CliRunner().invoke(app, ["estimate", str(tmp_path / "cut_list.xlsx"), "--labour-rate", "nights"])
    assert result.stderr.count("error E") == 1
    assert "Nothing was written: 1 error above." in result.stderr


def test_a_word_where_a_number_is_to_stand_is_said_in_plain_words() -> None:
    result = CliRunner().invoke(app, ["rack", "list.csv", "--torches", "two"])
    assert result.exit_code == 2
    assert "it takes a whole number" in result.stderr
