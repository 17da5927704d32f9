"""Every command fed every class of bad file, in each place where it reads one: exit 3, nothing written or changed."""

from __future__ import annotations

import hashlib
import re
import shutil
from pathlib import Path

import pytest
import typer.main
from typer.testing import CliRunner, Result

from estimator.cli import app
from tests.problems.bad_files import BAD_FILES, ENCODINGS
from tests.problems.bad_lists import BAD_LISTS
from tests.problems.test_bad_lists import expected as said_of_lists
from tests.workbook.corpus.case import write_case

SAMPLES = Path(__file__).resolve().parents[2] / "sample_jobs"
GOOD = {
    "list": SAMPLES / "cut_list.xlsx",
    "shop": SAMPLES / "shop_book.xlsx",
    "prices": SAMPLES / "suppliers" / "price_lists.xlsx",
    "log": SAMPLES / "month_end" / "work_log.xlsx",
    "bills": SAMPLES / "month_end" / "bills.xlsx",
}
SLOTS = {
    "estimate list": "estimate {bad} --date 2026-11-02",
    "estimate shop": "estimate {list} --shop {bad}",
    "estimate read-only": "estimate {bad} --read-only",
    "explain list": "explain {bad} 5 --date 2026-11-02",
    "explain shop": "explain {list} 5 --shop {bad}",
    "settings shop": "settings 12mm --shop {bad} --pdf card.pdf",
    "rack list": "rack {bad} --date 2026-11-02",
    "rack second list": "rack {list} {bad} --card card.pdf",
    "rack shop": "rack {list} --shop {bad}",
    "compare prices": "compare {bad}",
    "compare log": "compare {prices} --log {bad}",
    "compare list": "compare {prices} --cut-list {bad} --shop {shop}",
    "compare shop": "compare {prices} --cut-list {list} --shop {bad}",
    "reconcile bills": "reconcile --bills {bad} --log {log}",
    "reconcile log": "reconcile --bills {bills} --log {bad} --letter letter.xlsx",
    "reconcile shop": "reconcile --bills {bills} --log {log} --shop {bad}",
    "calibrate log": "calibrate --log {bad} --out new.xlsx",
    "calibrate shop": "calibrate --log {log} --shop {bad} --out new.xlsx",
    "register": "register --register {bad}",
    "decide": "decide Q-0001 won --register {bad} --date 2026-11-02",
    "quote": "quote {bad}",
    "variation": "variation Q-0001 {bad}",
    "check-past": "check-past {bad}",
}
"""Where each command reads a file: the bad file stands there, the others are good."""
EVERY_CLASS = ("estimate list", "explain list", "settings shop", "rack list", "compare prices", "reconcile bills",
               "calibrate log", "register", "decide", "quote", "variation", "check-past")  # fmt: skip
"""One slot of each command gets every class of bad file; the other slots share the classes among them."""
SHARED = [slot for slot in SLOTS if slot not in EVERY_CLASS]
NO_FILE_IS_READ = {"blanks", "demo", "start", "job-card"}
SAYS_IT_IN_A_FILE = {"dropped"}
"""Writes a page with the reasons, for an owner without a terminal: ``tests/cli/test_first_hour.py``."""
SAID = said_of_lists()
STOPPING_LISTS = [
    name
    for name, case in BAD_LISTS.items()
    if "error " in SAID[name] and case.in_file and not (case.sheet or case.columns)
]

COMMANDS = set(typer.main.get_command(app).commands)  # type: ignore[attr-defined]


@pytest.fixture
def good(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> dict[str, Path]:
    """The sample files, each alone in its folder, and the working folder empty."""
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    copies = {}
    for what, source in GOOD.items():
        (tmp_path / what).mkdir()
        copies[what] = Path(shutil.copy(source, tmp_path / what))
    return copies


def run(slot: str, good: dict[str, Path], bad: Path, *more: str) -> Result:
    words = [word.format(bad=bad, **good) for word in SLOTS[slot].split()]
    return CliRunner().invoke(app, [*words, *more])


def state(folder: Path) -> dict[str, str]:
    """Return every file below a folder with its content's hash."""
    files = [path for path in sorted(folder.rglob("*")) if path.is_file() and not path.name.endswith(".lock")]
    return {str(path): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


def fault(result: Result, before: dict[str, str], folder: Path) -> str:
    """Return what is wrong with the end of a run that had to stop; empty when all is well."""
    if result.exit_code != 3:
        return f"exit {result.exit_code}: {result.exception!r}"
    if "Traceback" in result.output or not re.search(r"^error E\d{3}", result.stderr, re.MULTILINE):
        return result.output
    return "" if state(folder) == before else f"files changed: {set(state(folder)) ^ set(before)}"


def test_every_command_that_reads_a_file_is_tried() -> None:
    assert {slot.split()[0] for slot in SLOTS} == COMMANDS - NO_FILE_IS_READ - SAYS_IT_IN_A_FILE
    assert {slot.split()[0] for slot in EVERY_CLASS} == COMMANDS - NO_FILE_IS_READ - SAYS_IT_IN_A_FILE


@pytest.mark.parametrize("name", BAD_FILES)
def test_a_bad_file_stops_every_command_with_3_and_leaves_no_trace(
    name: str, good: dict[str, Path], tmp_path: Path
) -> None:
    (tmp_path / "bad").mkdir()
    bad = BAD_FILES[name](tmp_path / "bad")
    before = state(tmp_path)
    faults = {}
    turn = list(BAD_FILES).index(name)
    for slot in (*EVERY_CLASS, SHARED[turn % len(SHARED)], SHARED[turn * 5 // 3 % len(SHARED)]):
        takes_encoding = name in ENCODINGS and slot in ("estimate list", "explain list", "rack list")
        result = run(slot, good, bad, *(["--encoding", ENCODINGS[name]] if takes_encoding else []))
        if found := fault(result, before, tmp_path):
            faults[slot] = found
    assert not faults


@pytest.mark.parametrize("name", STOPPING_LISTS)
def test_a_bad_list_stops_every_command_that_reads_lists(name: str, good: dict[str, Path], tmp_path: Path) -> None:
    (tmp_path / "bad").mkdir()
    write_case(BAD_LISTS[name], tmp_path / "bad" / "list.xlsx")
    before = state(tmp_path)
    slots = ("estimate read-only", "explain list", "rack list")
    faults = {slot: fault(run(slot, good, tmp_path / "bad" / "list.xlsx"), before, tmp_path) for slot in slots}
    assert not {slot: found for slot, found in faults.items() if found}


@pytest.mark.parametrize("wrong", GOOD)
def test_a_good_workbook_in_the_wrong_place_stops_the_command(
    wrong: str, good: dict[str, Path], tmp_path: Path
) -> None:
    before = state(tmp_path)
    right = {
        "list": ("list", "read-only"),
        "shop": ("shop",),
        "prices": ("prices",),
        "log": ("log",),
        "bills": ("bills",),
    }
    slots = [slot for slot in SLOTS if not slot.endswith(right[wrong])]
    faults = {slot: fault(run(slot, good, good[wrong]), before, tmp_path) for slot in slots}
    assert not {slot: found for slot, found in faults.items() if found}
