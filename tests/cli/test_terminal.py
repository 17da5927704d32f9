"""What every command has in common on the terminal: width, colour, help, near misses, our own faults."""

from __future__ import annotations

import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import typer.main
from typer.testing import CliRunner

from estimator.cli import Kerfledger as CommandLine
from estimator.cli import app
from estimator.commands import boundary, terminal
from estimator.commands.as_typed import command_line
from estimator.commands.problem_blocks import problem_blocks
from estimator.problems import Concern, Level, Place, Problem, all_codes
from tests.samples.estimates import heading_cell, saved_again, typed_in

ROOT = Path(__file__).resolve().parents[2]
SAMPLES = ROOT / "sample_jobs"
RUNNER = CliRunner()
GROUP: typer.main.TyperGroup = typer.main.get_command(app)  # type: ignore[assignment]
COMMANDS = sorted(GROUP.commands)


@pytest.mark.parametrize("command", COMMANDS)
def test_help_names_an_example_that_the_command_itself_understands(command: str) -> None:
    said = RUNNER.invoke(app, [command, "--help"]).stdout
    example = re.search(r"Example: kerfledger (\S+)(.*?)\n\n", said, flags=re.S)
    assert example, said
    assert example[1] == command
    known = {name for parameter in GROUP.commands[command].params for name in (*parameter.opts,)}
    assert set(re.findall(r"--[a-z-]+", example[2])) <= known


@pytest.mark.parametrize("command", COMMANDS)
def test_help_fits_eighty_columns_and_the_list_of_commands_ends_no_line_in_dots(command: str) -> None:
    for said in (RUNNER.invoke(app, [command, "--help"]).stdout, RUNNER.invoke(app, ["--help"]).stdout):
        assert max(map(len, said.splitlines())) <= terminal.WIDTH
    assert "..." not in RUNNER.invoke(app, ["--help"]).stdout.split("Commands:")[1]


@pytest.mark.parametrize("command", COMMANDS)
def test_the_list_of_commands_says_of_each_what_its_own_help_begins_with(command: str) -> None:
    listed = CommandLine.lines[command][1]
    assert GROUP.commands[command].help.splitlines()[0] == listed
    assert listed in re.sub(r"\s+", " ", RUNNER.invoke(app, ["--help"]).stdout)


def test_help_imports_no_command_and_nothing_heavy() -> None:
    code = (
        "import sys\nfrom estimator.cli import main\nsys.argv = ['kerfledger', '--help']\n"
        "try:\n    main()\nexcept SystemExit:\n    print('imported', *sys.modules)"
    )
    clean = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run([sys.executable, "-c", code], env=clean, capture_output=True, text=True, check=True)
    imported = set(done.stdout.split("imported")[1].split())
    assert "typer" in imported
    assert not imported & {"numpy", "pandas", "scipy", "pydantic", "openpyxl", "xlsxwriter", "estimator.tasks"}
    ours = {name for name in imported if name.startswith("estimator.commands.")}
    assert ours == {"estimator.commands.group"}


@pytest.mark.parametrize(
    ("typed", "nearest"),
    [(["estimat", "x"], "estimate"), (["calibrat"], "calibrate"), (["estimate", "x.csv", "--partal"], "--partial")],
)
def test_a_misspelt_command_or_option_is_answered_with_the_nearest(typed: list[str], nearest: str) -> None:
    result = RUNNER.invoke(app, typed)
    assert result.exit_code == boundary.Exit.USAGE
    assert nearest in result.stderr


def test_every_line_of_the_sample_answers_fits_eighty_columns(tmp_path: Path) -> None:
    cut_list, book = SAMPLES / "cut_list.xlsx", SAMPLES / "shop_book.xlsx"
    runs = [
        ["estimate", cut_list, "--out", tmp_path / "e.xlsx"],
        ["estimate", cut_list, "--read-only"],
        ["rack", cut_list, "--out", tmp_path / "r.xlsx"],
        ["compare", SAMPLES / "suppliers" / "price_lists.xlsx", "--cut-list", cut_list, "--out", tmp_path / "c.xlsx"],
        ["reconcile", "--bills", SAMPLES / "month_end" / "bills.xlsx", "--log", SAMPLES / "month_end" / "work_log.xlsx",
         "--shop", book, "--out", tmp_path / "m.xlsx"],
        ["explain", cut_list, "RI1"],
        ["settings", "20", "--shop", book],
    ]  # fmt: skip
    for arguments in runs:
        said = RUNNER.invoke(app, [str(a) for a in arguments]).stdout
        assert len(said) > 400, arguments
        to_copy = ("Wrote ", "$ ")
        too_long = [line for line in said.splitlines() if len(line) > terminal.WIDTH and not line.startswith(to_copy)]
        assert not too_long, arguments


@pytest.mark.parametrize(
    ("arguments", "more", "most"),
    [
        (["estimate", "cut_list.xlsx", "--out", "e.xlsx"], "smaller lines: see the sheet Lines", 36),
        (["rack", "cut_list.xlsx", "--out", "r.xlsx"], "more steps: see the workbook", 50),
        (["settings", "20"], "more cautions, and where each comes from", 38),
    ],
)
def test_a_long_answer_keeps_to_a_screen_and_all_of_it_is_there_when_asked_for(
    arguments: list[str], more: str, most: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("cut_list.xlsx", "shop_book.xlsx"):
        shutil.copy(SAMPLES / name, tmp_path)
    brief = RUNNER.invoke(app, arguments)
    whole = RUNNER.invoke(app, [*arguments, "--all", *(["--force"] if "--out" in arguments else [])])
    assert len((brief.stdout + brief.stderr).splitlines()) <= most
    assert more in brief.stdout
    assert more not in whole.stdout
    assert len(whole.stdout.splitlines()) > 60


def test_lines_that_are_not_shown_are_still_in_the_sum(tmp_path: Path) -> None:
    said = RUNNER.invoke(app, ["estimate", str(SAMPLES / "cut_list.xlsx"), "--out", str(tmp_path / "e.xlsx")]).stdout
    table = said.split("row mark")[1].split("\n\n")[0].splitlines()[1:]
    way = next(line for line in table if " = " in line)
    table = table[: table.index(way)]
    parts, total = way.split(" = ")
    amounts = [float(part.split()[0]) for part in parts.split(" + ")]
    assert round(sum(float(line.split()[-1]) for line in table), 2) == amounts[0]
    assert round(sum(amounts), 2) == float(total)
    assert f"Total: {total} " in said


def test_the_answer_comes_first_and_what_to_do_next_last(tmp_path: Path) -> None:
    out = tmp_path / "e.xlsx"
    said = RUNNER.invoke(app, ["estimate", str(SAMPLES / "cut_list.xlsx"), "--out", str(out)]).stdout.splitlines()
    assert said[0].startswith("Total:")
    assert said[-2].startswith("Next:")
    assert said[-1] == f"$ kerfledger quote {out} --pdf"


def test_a_file_that_is_not_there_is_answered_with_the_nearest_of_its_folder(tmp_path: Path) -> None:
    (tmp_path / "frames.csv").write_text("Mark,Qty\n", encoding="utf-8")
    for name in ("frame.csv", "farmes.csv"):
        assert "the nearest there is frames.csv" in RUNNER.invoke(app, ["estimate", str(tmp_path / name)]).stderr
    assert "nearest" not in RUNNER.invoke(app, ["estimate", str(tmp_path / "quite other.xlsx")]).stderr


def _problem(code: str, level: Level, cell: str, found: str = "", fact: str = "") -> Problem:
    place = Place("list.xlsx", "Parts", int(cell[1:]), cell[0])
    return Problem(code, level, place, fact or f"the fact of {code}", found, "a need", "a reason", f"mend {cell}")


def test_what_holds_for_several_cells_is_said_once_with_every_cell() -> None:
    blocks = problem_blocks(
        [
            _problem("W1", Level.WARNING, "C4"),
            _problem("E1", Level.ERROR, "D4", "'tbd'"),
            _problem("W1", Level.WARNING, "C5"),
            _problem("W1", Level.WARNING, "C6", "'odd'"),
            _problem("W1", Level.WARNING, "C7", fact="another fact"),
            _problem("E1", Level.ERROR, "D5", "'see dwg'"),
            _problem("E1", Level.ERROR, "D6", "'tbd'"),
        ]
    )
    assert [block.split(" at ")[0] for block in blocks] == ["error E1", "error E1", "warning W1"]
    assert blocks[0].endswith("do:    mend D4\n  also at D6")
    assert blocks[2].endswith("  also at C5, C6 ('odd')\n  also at 'Parts'!C7: another fact")


CODES = {code: stated.concern for code, stated in all_codes().items() if code[0] in "WN"}


def test_what_touches_safety_and_missing_money_is_said_before_formalities() -> None:
    listed = ("N128", "W284", "W116", "W232", "W460", "N294", "W236")
    codes = [_problem(code, Level.NOTE if code[0] == "N" else Level.WARNING, "C4") for code in listed]
    for brief in (True, False):
        said = [block.split()[1] for block in problem_blocks(codes, brief=brief) if " at " in block]
        order = ["W460", "W232", "W236", "W116", "N294", "W284", "N128"]
        assert said == order[: len(said)]
        assert len(said) >= 3


def test_every_caution_of_safety_and_every_thing_left_out_has_its_rank() -> None:
    cautions = {code for code in CODES if code.startswith("W46")}
    assert {CODES[code] for code in cautions} == {Concern.SAFETY}
    left_out = ("W105", "W129", "W130", "W232", "W236", "W280", "W302")
    assert {CODES[code] for code in left_out} == {Concern.MISSING}
    assert {CODES[code] for code in ("N128", "W284", "N118", "W120")} == {Concern.FORM}


def test_a_screen_takes_no_more_and_says_where_the_rest_is() -> None:
    many = [_problem(code, Level.WARNING, f"C{row}") for row, code in enumerate(CODES, 4) if code[0] == "W"]
    *blocks, rest = problem_blocks(many, brief=True, rest_in="the sheet Problems, or --all")
    said = [block.split()[1] for block in blocks]
    assert [CODES[code] for code in said] == sorted(CODES[code] for code in said)
    assert sum(block.count("\n") + 1 for block in blocks) <= 18
    left = len(many) - len(said)
    assert rest == f"{left} more warnings, and what to do about each: the sheet Problems, or --all."
    whole = "\n".join(problem_blocks(many))
    assert all(f" {problem.code} " in whole for problem in many)


def test_brief_problems_keep_the_fact_and_what_to_do_and_errors_keep_all() -> None:
    warning, error = _problem("W1", Level.WARNING, "C4"), _problem("E1", Level.ERROR, "C5")
    blocks = problem_blocks([warning, error], brief=True)
    assert blocks == [error.text(), "warning W1 at 'Parts'!C4: the fact of W1\n  do:    mend C4"]


def test_past_twenty_of_one_code_the_rest_are_counted() -> None:
    errors = [_problem("E1", Level.ERROR, f"C{row}", f"'{row}'") for row in range(1, 31)]
    warnings = [_problem("W1", Level.WARNING, f"C{row}") for row in range(1, 31)]
    blocks = problem_blocks([*errors, *warnings])
    assert "... and 10 more of E1." in blocks
    assert blocks[20].endswith("  also at C2 to C30")


def test_rows_that_follow_each_other_are_named_by_their_ends() -> None:
    cells = ["C1", "C2", "C3", "C7", "C9", "C10", "D11"]
    (block,) = problem_blocks([_problem("W1", Level.WARNING, cell) for cell in cells])
    assert block.endswith("  also at C2, C3, C7, C9, C10, D11")
    (block,) = problem_blocks([_problem("W1", Level.WARNING, f"C{row}") for row in (1, 4, 5, 6, 9)])
    assert block.endswith("  also at C4 to C6, C9")


def test_columns_keep_their_further_lines_under_the_last() -> None:
    folded = terminal.fold("  1     126.00  line billed twice: " + "word " * 20).splitlines()
    assert all(line.startswith(" " * 16 + "word") for line in folded[1:])


def test_a_file_below_this_folder_is_named_as_it_is_seen_from_here(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert terminal.wrote_line(tmp_path / "jobs" / "a.pdf", "the card") == f"Wrote {Path('jobs') / 'a.pdf'}: the card."


def test_a_label_keeps_its_further_lines_under_what_follows_it() -> None:
    folded = terminal.fold("  found: " + "word " * 30).splitlines()
    assert len(folded) == 3
    assert all(line.startswith(" " * 9 + "word") for line in folded[1:])


def test_a_file_name_with_blanks_is_never_broken() -> None:
    name = Path("C:/Users/An Owner/My Documents/lists of this week/frames for the new customer_estimate.xlsx")
    assert str(name) in terminal.fold(terminal.wrote_line(name, "the priced estimate")).splitlines()[0]


@pytest.mark.parametrize(
    ("environment", "coloured"), [({}, True), ({"NO_COLOR": "1"}, False), ({"TERM": "dumb"}, False)]
)
def test_colour_only_stands_beside_the_word_and_no_color_takes_it_away(
    environment: dict[str, str], coloured: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("NO_COLOR", "TERM"):
        monkeypatch.delenv(name, raising=False)
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    said: list[str] = []
    monkeypatch.setattr(terminal.typer, "echo", lambda text, err=False: said.append(text))
    terminal.print_line("warning W284: the job has no date", err=True)
    assert ("\x1b[" in said[0]) is coloured
    assert re.sub(r"\x1b\[[0-9;]*m", "", said[0]) == "warning W284: the job has no date"


def test_a_fault_of_ours_is_said_to_be_ours_and_shows_no_trace(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv("KERFLEDGER_TRACE", raising=False)

    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("a planted fault")

    monkeypatch.setattr("estimator.tasks.estimate", broken)
    result = RUNNER.invoke(app, ["explain", str(tmp_path / "list.csv"), "3"])
    assert result.exit_code == boundary.Exit.OUR_FAULT
    assert "the fault is ours" in result.stderr
    assert "a planted fault" in result.stderr
    assert "Traceback" not in result.output


def test_the_module_runs_like_the_command(tmp_path: Path) -> None:
    clean = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-m", "estimator", "--version"],
        cwd=tmp_path, env=clean, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout.startswith("kerfledger ")


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish", "powershell"])
def test_completion_is_there_for_the_usual_shells(shell: str) -> None:
    done = subprocess.run(
        [sys.executable, "-c", "from estimator.cli import main; main()"],
        env={**os.environ, "PYTHONPATH": str(ROOT), "_KERFLEDGER_COMPLETE": f"source_{shell}"},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert "kerfledger" in done.stdout


def test_a_taken_name_is_answered_with_the_command_that_replaces_it(tmp_path: Path) -> None:
    cut_list = tmp_path / "my list.xlsx"
    cut_list.write_bytes((SAMPLES / "cut_list.xlsx").read_bytes())
    arguments = ["rack", str(cut_list), "--shop", str(SAMPLES / "shop_book.xlsx")]
    assert not (first := RUNNER.invoke(app, arguments)).stderr.startswith("error E801"), first.output
    saved_again(tmp_path / "my list_rack.xlsx")
    again = RUNNER.invoke(app, arguments)
    assert again.exit_code == 3
    told = again.stderr.strip().splitlines()[-1]
    assert told == f"$ {command_line([*arguments, '--force'])}"
    if os.name != "nt":
        replaced = RUNNER.invoke(app, shlex.split(told)[2:])
        assert "Wrote" in replaced.stdout, replaced.output


def _list_with_a_bad_row(tmp_path: Path) -> list[str]:
    cut_list = tmp_path / "my list.csv"
    rows = ("Mark,Thickness mm,Width mm,Length mm,Qty", "A1,12,100,200,4", "A2,abc,100,200,3", "A3,20,100,300,2")
    cut_list.write_text("\n".join(rows), encoding="utf-8")
    return ["estimate", str(cut_list), "--shop", str(SAMPLES / "shop_book.xlsx")]


def test_a_row_that_cannot_be_read_is_answered_with_the_command_that_prices_the_rest(tmp_path: Path) -> None:
    arguments = _list_with_a_bad_row(tmp_path)
    stopped = RUNNER.invoke(app, arguments)
    assert stopped.exit_code == 3
    assert "price the 2 rows that can be read now" in stopped.stderr
    told = stopped.stderr.strip().splitlines()[-1]
    assert told == f"$ {command_line([*arguments, '--partial'])}"
    partial = RUNNER.invoke(app, [*arguments, "--partial"])
    assert "INCOMPLETE" in partial.stdout
    assert "'my list'!B3" in partial.stderr


def test_no_part_is_offered_where_no_row_can_be_read(tmp_path: Path) -> None:
    arguments = _list_with_a_bad_row(tmp_path)
    (tmp_path / "my list.csv").write_text("Mark,Thickness mm,Width mm,Length mm,Qty\nA2,abc,1,2,3\n", encoding="utf-8")
    stopped = RUNNER.invoke(app, arguments)
    assert stopped.exit_code == 3
    assert "--partial" not in stopped.stderr


def test_a_run_that_is_stopped_counts_its_warnings_and_prints_them_when_asked(tmp_path: Path) -> None:
    arguments = _list_with_a_bad_row(tmp_path)
    told, whole = RUNNER.invoke(app, arguments).stderr, RUNNER.invoke(app, [*arguments, "--all"]).stderr
    assert "error E203" in told
    assert "\nwarning " not in told
    assert "2 warnings too: they come when the error is mended, or with --all." in told
    assert whole.count("\nwarning ") == 2
    assert "too:" not in whole


def test_an_estimate_that_is_there_is_carried_on_or_replaced(tmp_path: Path) -> None:
    arguments = [*_list_with_a_bad_row(tmp_path), "--partial"]
    RUNNER.invoke(app, arguments)
    old = tmp_path / "my list_estimate.xlsx"
    typed_in(old, old, {heading_cell(old, "My minutes", 0): 50})
    told = RUNNER.invoke(app, arguments).stderr.splitlines()
    assert [line for line in told if line.startswith("$ ")] == [
        f"$ {command_line([*arguments, '--from', str(old)])}",
        f"$ {command_line([*arguments, '--force'])}",
    ]
    kept = RUNNER.invoke(app, [*arguments, "--from", str(old)])
    assert "Wrote" in kept.stdout, kept.output
    assert (tmp_path / "my list_estimate_2.xlsx").exists()


def test_a_name_with_blanks_that_was_not_quoted_is_shown_in_quotes(tmp_path: Path) -> None:
    _list_with_a_bad_row(tmp_path)
    refused = RUNNER.invoke(app, ["estimate", str(tmp_path / "my"), "list.csv", "--partial"])
    assert refused.exit_code == 2
    assert "put quote marks round a name with blanks" in refused.stderr
    assert f"$ {command_line(['estimate', str(tmp_path / 'my list.csv'), '--partial'])}" in refused.stderr
    (tmp_path / "my list.csv").unlink()
    refused = RUNNER.invoke(app, ["estimate", str(tmp_path / "my"), "list.csv"])
    assert "put quote marks round a name with blanks" in refused.stderr
    assert "$ " not in refused.stderr
