"""The compare command as its user meets it: what it prints, what it writes, how it ends."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner, Result

from estimator.commands.compare import compare
from estimator.read.load import load_book
from tests.samples.estimates import saved_again

SAMPLES = Path(__file__).resolve().parents[2] / "sample_jobs"
SAMPLE = SAMPLES / "suppliers" / "price_lists.xlsx"
APP = typer.Typer(pretty_exceptions_enable=False)
APP.command()(compare)


def run(*arguments: object) -> Result:
    return CliRunner().invoke(APP, [str(argument) for argument in arguments])


@pytest.fixture
def lists(tmp_path: Path) -> Path:
    path = tmp_path / "price_lists.xlsx"
    path.write_bytes(SAMPLE.read_bytes())
    return path


def test_the_answer_is_printed_and_a_workbook_stands_beside_the_price_lists(lists: Path) -> None:
    result = run(lists)
    assert result.exit_code == 0
    assert result.stdout.startswith("Cedar (invented) is cheapest for this shop: 262.87 XTS a month")
    written = lists.with_name("price_lists_comparison.xlsx")
    assert str(written) in result.stdout
    names = [sheet.name for sheet in load_book(written).sheets]
    assert names[0] == "Answer"
    assert {"Prices", "Cost against use", "What would change it", "Reference states", "Questions"} <= set(names)


def test_json_stands_alone_on_standard_output(lists: Path) -> None:
    result = run(lists, "--json")
    form = json.loads(result.stdout)
    assert (form["task"], form["ranking"][0]["mix"]) == ("compare", "Cedar (invented)")


def test_an_existing_workbook_is_replaced_only_when_forced(lists: Path) -> None:
    assert run(lists).exit_code == 0
    saved_again(lists.with_name(f"{lists.stem}_comparison.xlsx"))
    assert run(lists).exit_code == 3
    assert run(lists, "--force").exit_code == 0


def test_a_cut_list_says_the_use_and_the_fuels_are_compared(lists: Path) -> None:
    result = run(lists, "--cut-list", SAMPLES / "cut_list.xlsx", "--shop", SAMPLES / "shop_book.xlsx", "--months", 0.25)
    assert result.exit_code == 0
    assert "Use of a month: the work of cut_list.xlsx, taken as 0.25 months." in result.stdout
    assert "The same work is cheapest on" in result.stdout


def test_a_log_and_a_cut_list_at_once_are_a_usage_error(lists: Path) -> None:
    result = run(lists, "--log", "log.xlsx", "--cut-list", "list.xlsx")
    assert result.exit_code == 2


def test_without_a_date_in_force_nothing_is_written_and_the_exit_code_is_3(lists: Path) -> None:
    result = run(lists, "--date", "2020-01-01", "--json")
    assert result.exit_code == 3
    assert "E515" in {problem["code"] for problem in json.loads(result.stdout)["problems"]}
    assert [path.name for path in lists.parent.iterdir()] == ["price_lists.xlsx"]


def test_quiet_prints_nothing_but_problems(lists: Path) -> None:
    result = run(lists, "--quiet")
    assert (result.exit_code, result.stdout) == (0, "")


def test_two_runs_write_the_same_bytes(lists: Path, tmp_path: Path) -> None:
    first, second = tmp_path / "first.xlsx", tmp_path / "second.xlsx"
    run(lists, "--out", first)
    run(lists, "--out", second)
    assert first.read_bytes() == second.read_bytes()
