"""Runs that meet: two at once into one folder, an output that is open elsewhere, names with anything in them."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import openpyxl
import pytest
from typer.testing import CliRunner

from estimator.cli import app

PROJECT = Path(__file__).resolve().parents[2]
SAMPLE = PROJECT / "sample_jobs" / "cut_list.xlsx"
RUN = [sys.executable, "-c", "from estimator.cli import main; main()"]


def together(commands: list[list[str]]) -> list[tuple[int, str]]:
    """Start several runs at once; return how each ended and what it said of problems."""
    env = {**os.environ, "PYTHONPATH": str(PROJECT)}
    runs = [subprocess.Popen([*RUN, *words], stdout=-1, stderr=-1, env=env, text=True) for words in commands]
    said = [run.communicate(timeout=120)[1] for run in runs]
    return [(run.returncode, text) for run, text in zip(runs, said, strict=True)]


@pytest.mark.parametrize("forced", [False, True])
def test_two_runs_at_once_onto_one_name_leave_one_whole_file(forced: bool, tmp_path: Path) -> None:
    shutil.copy(SAMPLE, tmp_path / "list.xlsx")
    words = ["estimate", str(tmp_path / "list.xlsx"), "--quiet", *(["--force"] if forced else [])]
    ends = sorted(together([words, words]))
    # The later run is refused while the other writes; begun after it, it makes anew what nobody typed into.
    assert [code for code, _ in ends] in ([[0, 0]] if forced else [[0, 3], [0, 0]]), ends
    assert ends[1][0] == 0 or "error E801" in ends[1][1]
    assert sorted(p.name for p in tmp_path.iterdir()) == ["list.xlsx", "list_estimate.xlsx"]
    alone = tmp_path / "alone.xlsx"
    assert CliRunner().invoke(app, ["estimate", str(tmp_path / "list.xlsx"), "--out", str(alone)]).exit_code == 0
    assert (tmp_path / "list_estimate.xlsx").read_bytes() == alone.read_bytes()


@pytest.mark.parametrize("lock", ["~$out.xlsx", ".~lock.out.xlsx#"])
def test_an_output_that_is_open_in_a_spreadsheet_program_is_left_alone(lock: str, tmp_path: Path) -> None:
    out = tmp_path / "out.xlsx"
    out.write_bytes(b"what the shop has open")
    (tmp_path / lock).write_text("Owner")
    result = CliRunner().invoke(app, ["estimate", str(SAMPLE), "--out", str(out), "--force"])
    assert result.exit_code == 3
    assert "open in another program" in result.stderr
    assert out.read_bytes() == b"what the shop has open"


def test_a_list_that_is_open_in_a_spreadsheet_program_is_priced_all_the_same(tmp_path: Path) -> None:
    shutil.copy(SAMPLE, tmp_path / "list.xlsx")
    (tmp_path / "~$list.xlsx").write_text("Owner")
    assert CliRunner().invoke(app, ["estimate", str(tmp_path / "list.xlsx")]).exit_code == 0


@pytest.mark.parametrize(
    "name",
    [
        "parts list.xlsx",
        " leading and trailing .xlsx",
        "Größe ½ – 部品.xlsx",
        "-rf.xlsx",
        "a'b\"c;d&e$(f).xlsx",
        "n\new.xlsx",
    ],
)
def test_any_name_that_a_disk_takes_will_do(name: str, tmp_path: Path) -> None:
    path = Path(shutil.copy(SAMPLE, tmp_path / name))
    result = CliRunner().invoke(app, ["estimate", "--", str(path)])
    assert result.exit_code == 0, result.output
    written = path.with_name(f"{path.stem}_estimate.xlsx")
    assert openpyxl.load_workbook(written, read_only=True).sheetnames
