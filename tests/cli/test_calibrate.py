"""The calibrate command as its user meets it: a new shop book, a report, the words of the terminal, and how it ends."""

from __future__ import annotations

import json
from pathlib import Path

import openpyxl
import pytest
from typer.testing import CliRunner, Result

from estimator.check.work_log import LogEntry, WorkLog
from estimator.cli import app
from estimator.tasks import read_shop
from estimator.write.save import save
from estimator.write.shop_book import shop_book_workbook
from tests.cross_check.recalculate import recalculated, stored
from tests.simulate_log import FIRST_DAY, logged_by, true_shop, work_of, write_log

RUNNER = CliRunner()
TRUTH = {"travel_speed": 0.85, "cutting_oxygen": 1.15, "fuel": 1.2, "paid_hours": 1.25}


def run(*arguments: object) -> Result:
    return RUNNER.invoke(app, [str(a) for a in arguments])


@pytest.fixture(scope="module")
def log() -> WorkLog:
    whole = logged_by(true_shop(**TRUTH), work_of(12, seed=5), seed=6)
    wrong = whole.entries[3]
    entries = [
        e if e is not wrong else e.model_copy(update={"flame_time_min": e.flame_time_min / 60}) for e in whole.entries
    ]
    return whole.model_copy(update={"entries": tuple(entries)})


@pytest.fixture
def folder(tmp_path: Path, log: WorkLog) -> Path:
    write_log(tmp_path / "work_log.xlsx", log)
    save(tmp_path / "shop_book.xlsx", shop_book_workbook(true_shop(), title="Invented shop"))
    return tmp_path


def test_a_log_gives_a_new_book_and_a_report_and_leaves_the_old_book_alone(folder: Path) -> None:
    before = (folder / "shop_book.xlsx").read_bytes()
    result = run("calibrate", "--log", folder / "work_log.xlsx", "--out", folder / "new.xlsx")
    assert result.exit_code == 0, result.output
    assert (folder / "shop_book.xlsx").read_bytes() == before
    assert "travel speed, tip 1.2, by hand" in result.stdout
    assert "hours may stand where minutes belong" in result.stdout
    assert f"Wrote {folder / 'new_report.xlsx'}" in result.stdout
    shop, problems = read_shop(folder / "new.xlsx")
    found = {(row.what, row.tip, row.by): row for row in shop.factors}
    speed = found["travel speed", "1.2", "hand"]
    assert speed.low < 0.85 < speed.high
    assert not [p for p in problems if p.level == "error"]
    assert [ws.title for ws in openpyxl.load_workbook(folder / "new_report.xlsx")] == [
        "Your own figures",
        "What was logged",
        "How far off",
        "Not used",
        "How worked out",
    ]


def test_json_says_of_each_factor_what_it_is_and_why(folder: Path) -> None:
    result = run("calibrate", "--log", folder / "work_log.xlsx", "--out", folder / "new.xlsx", "--json")
    data = json.loads(result.stdout)
    assert (data["schema"], data["task"]) == ("kerfledger/1", "calibrate")
    kept = [f for f in data["factors"] if not f["changed"]]
    assert kept
    assert all(f["value"] == 1.0 and f["reason"] for f in kept)
    changed = {f["what"] for f in data["factors"] if f["changed"]}
    assert {"travel speed", "man-hours", "cutting oxygen"} <= changed
    assert all(len(i["sha256"]) == 64 for i in data["inputs"])
    assert len(data["observations"]) > 30


def test_an_estimate_with_the_new_book_is_surer_and_says_where_its_figures_come_from(folder: Path) -> None:
    sample = Path(__file__).resolve().parents[2] / "sample_jobs" / "trial_list.csv"
    run("calibrate", "--log", folder / "work_log.xlsx", "--out", folder / "new.xlsx")
    widths = []
    for book in ("shop_book.xlsx", "new.xlsx"):
        out = folder / f"estimate_{book}"
        arguments = ("--shop", folder / book, "--date", "2026-03-02", "--partial", "--out", out, "--json")
        data = json.loads(run("estimate", sample, *arguments).stdout)
        low, high = (float(data["price_range"][end]) for end in ("low", "high"))
        widths.append(high / low)
    assert widths[1] < 0.8 * widths[0]
    answer = openpyxl.load_workbook(folder / "estimate_shop_book.xlsx", data_only=True)["Answer"]
    words = [str(row[0]) for row in answer.iter_rows(values_only=True)]
    assert words[words.index("What moves the price") + 1] == "hours, scope and surprises"
    rates = openpyxl.load_workbook(folder / "estimate_new.xlsx", data_only=True)["Rates"]
    said = [" ".join(str(v) for v in row if v is not None) for row in rates.iter_rows(values_only=True)]
    (line,) = [text for text in said if text.startswith("Travel speed, tip 1.2, by hand")]
    assert "jobs logged your work log, through calibrate" in line


def test_two_jobs_teach_nothing_and_the_terminal_says_what_is_missing(tmp_path: Path) -> None:
    write_log(tmp_path / "work_log.xlsx", logged_by(true_shop(**TRUTH), work_of(2, seed=5), seed=6))
    result = run("calibrate", "--log", tmp_path / "work_log.xlsx", "--out", tmp_path / "new.xlsx")
    assert result.exit_code == 0
    assert "the handbook's figures are kept" in result.stdout
    assert "2 logged, 3 are needed" in result.stdout
    assert (
        "warning W731 at work_log.xlsx: the log teaches nothing yet: 2 logged, 3 are needed\n"
        "  needs: three jobs or more with man-minutes, torch-lit minutes or cylinder tags, of different sizes\n"
        "  why:   a factor that the log cannot carry would make the next quote worse, so the handbook's was kept\n"
        "  do:    go on logging; the report says of each factor what is missing\n"
    ) in result.stderr
    assert read_shop(tmp_path / "new.xlsx")[0].factors == ()


def test_what_could_not_be_used_is_counted(tmp_path: Path, log: WorkLog) -> None:
    odd = LogEntry(date=FIRST_DAY, job="J-900", thickness_mm=900.0, cut_length_m=2.0, paid_time_min=30.0)
    write_log(tmp_path / "work_log.xlsx", log.model_copy(update={"entries": (*log.entries, odd)}))
    result = run("calibrate", "--log", tmp_path / "work_log.xlsx", "--out", tmp_path / "new.xlsx")
    assert "note N732 at work_log.xlsx: " in result.stderr
    unused = openpyxl.load_workbook(tmp_path / "new_report.xlsx")["Not used"]
    assert "no tip on hand covers it" in [row[2] for row in unused.iter_rows(min_row=5, values_only=True)]


def test_an_output_is_never_an_input_nor_replaced_unasked(folder: Path) -> None:
    log = folder / "work_log.xlsx"
    for out in (log, folder / "shop_book.xlsx"):
        for shop in ((), ("--shop", folder / "shop_book.xlsx")):
            assert run("calibrate", "--log", log, *shop, "--out", out, "--force").exit_code == 3
    assert run("calibrate", "--log", log, "--out", folder / "new.xlsx").exit_code == 0
    again = run("calibrate", "--log", log, "--out", folder / "new.xlsx")
    assert again.exit_code == 3
    assert run("calibrate", "--log", log, "--out", folder / "new.xlsx", "--force").exit_code == 0


def test_an_empty_log_is_a_problem_and_nothing_is_written(tmp_path: Path) -> None:
    write_log(tmp_path / "work_log.xlsx", WorkLog())
    result = run("calibrate", "--log", tmp_path / "work_log.xlsx", "--out", tmp_path / "new.xlsx")
    assert result.exit_code == 3
    assert "error E701" in result.stderr
    assert [p.name for p in tmp_path.iterdir()] == ["work_log.xlsx"]


@pytest.mark.recalculate
def test_another_program_finds_the_reports_own_values(folder: Path) -> None:
    run("calibrate", "--log", folder / "work_log.xlsx", "--out", folder / "new.xlsx")
    ours, theirs = stored(folder / "new_report.xlsx"), recalculated(folder / "new_report.xlsx")
    numbers = {key: value for key, value in ours.items() if isinstance(value, float)}
    assert len(numbers) > 300
    for key, value in numbers.items():
        assert theirs[key] == pytest.approx(value, rel=1e-9, abs=1e-12), key


def test_the_same_log_gives_the_same_files(folder: Path) -> None:
    for name in ("one.xlsx", "two.xlsx"):
        run("calibrate", "--log", folder / "work_log.xlsx", "--out", folder / name)
    assert (folder / "one.xlsx").read_bytes() == (folder / "two.xlsx").read_bytes()
    assert (folder / "one_report.xlsx").read_bytes() == (folder / "two_report.xlsx").read_bytes()
