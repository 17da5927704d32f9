"""The month end on the command line: exit codes, what is said, what is written, what is never touched."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner

from estimator.commands.month_end import reconcile
from tests.samples.estimates import saved_again

SAMPLE = Path(__file__).parents[2] / "sample_jobs" / "month_end"


@pytest.fixture
def run(tmp_path):
    app = typer.Typer()
    app.command()(reconcile)
    for name in ("bills.xlsx", "work_log.xlsx"):
        shutil.copy(SAMPLE / name, tmp_path / name)

    def call(*options):
        return CliRunner().invoke(app, ["--bills", str(tmp_path / "bills.xlsx"), *map(str, options)])

    return call


def test_bills_with_faults_exit_4_with_the_verdict_and_the_workbook(run, tmp_path):
    before = (tmp_path / "bills.xlsx").read_bytes()
    result = run("--log", tmp_path / "work_log.xlsx")
    assert result.exit_code == 4
    assert "4 things are not right: 157.74 too much" in result.stdout
    assert (tmp_path / "bills_month_end.xlsx").exists()
    assert (tmp_path / "bills.xlsx").read_bytes() == before


def test_bills_are_checked_without_a_log(run):
    result = run()
    assert result.exit_code == 4
    assert "only the bills were checked" in result.stdout


def test_json_stands_alone_on_standard_output(run, tmp_path):
    result = run("--json", "--log", tmp_path / "work_log.xlsx")
    assert result.exit_code == 4
    assert json.loads(result.stdout)["too_much"] == "157.74"


def test_the_page_for_the_supplier_is_written_by_itself(run, tmp_path):
    result = run("--letter", tmp_path / "query.xlsx", "--quiet")
    assert result.exit_code == 4
    assert (tmp_path / "query.xlsx").exists()
    assert result.stdout == ""


def test_an_existing_result_is_kept_unless_forced(run, tmp_path):
    run()
    saved_again(tmp_path / "bills_month_end.xlsx")
    first = (tmp_path / "bills_month_end.xlsx").read_bytes()
    again = run()
    assert again.exit_code == 3
    assert (tmp_path / "bills_month_end.xlsx").read_bytes() == first
    assert run("--force").exit_code == 4


def test_a_file_that_is_no_workbook_is_a_problem(run, tmp_path):
    (tmp_path / "bills.xlsx").write_text("not a workbook")
    result = run()
    assert result.exit_code == 3
    assert not (tmp_path / "bills_month_end.xlsx").exists()
    assert "Traceback" not in result.output


def test_right_bills_exit_0(tmp_path):
    from scripts import make_month_end_sample as script

    app = typer.Typer()
    app.command()(reconcile)
    right = tmp_path / "right"
    folder, script.FOLDER = script.FOLDER, right
    lines, notes = script.bill_lines, list(script.DELIVERY_ROWS)
    try:
        right.mkdir()
        script.bill_lines = lambda: _right(lines())
        script.DELIVERY_ROWS[0] = {**notes[0], "credit_due": None}
        script.main()
    finally:
        script.FOLDER, script.bill_lines, script.DELIVERY_ROWS[:] = folder, lines, notes
    result = CliRunner().invoke(app, ["--bills", str(right / "bills.xlsx")])
    assert result.exit_code == 0, result.output
    assert "nothing in them is wrong as far as they could be checked" in result.stdout


def _right(lines):
    """The sample's lines with its faults taken out."""
    kept = [row for i, row in enumerate(lines) if i != 1]
    for row in kept:
        if row["unit_price"] == 142.14:
            row.update(unit_price=138.0, amount=138.0)
        if row["quantity"] == 248:
            row.update(quantity=188, amount=48.88)
    return kept
