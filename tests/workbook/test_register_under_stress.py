"""Runs that are killed and runs at the same time: no quote is lost, no number used twice, the register always reads."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from estimator.check.register import read_register
from estimator.read.load import load_book

ROOT = Path(__file__).resolve().parents[2]
RUNS, QUOTES_EACH, KILLS = 3, 6, 8

WORKER = """
import datetime as dt, sys
from pathlib import Path
from estimator.check.register import QuotedLine, QuoteRow
from estimator.write.register import changing_register
path, count = Path(sys.argv[1]), int(sys.argv[2])
for _ in range(count):
    with changing_register(path, patience_s=60) as change:
        number = change.register.next_number()
        quote = QuoteRow(number=number, date=dt.date(2026, 11, 2), price=10.0)
        change.add(quote, [QuotedLine(number=number, mark=m, quantity=1, price_each=5.0, amount=5.0) for m in "ab"])
        change.write()
    print(number, flush=True)
"""


def worker(path: Path, count: int) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", WORKER, str(path), str(count)],
        cwd=ROOT,
        env={"PYTHONPATH": str(ROOT), "OPENBLAS_NUM_THREADS": "1", "PATH": "/usr/bin:/bin"},
        stdout=subprocess.PIPE,
        text=True,
    )


def numbers_in(path: Path) -> list[str]:
    """Return the numbers in a register, which must read whole: every quote with both of its lines."""
    register, problems = read_register(load_book(path))
    assert not [p for p in problems if p.level != "note"]
    numbers = [one.number for one in register.quotes]
    assert [one.number for one in register.lines] == [number for number in numbers for _ in "ab"]
    return numbers


def test_runs_at_the_same_time_lose_no_quote_and_use_no_number_twice(tmp_path: Path) -> None:
    path = tmp_path / "quotes_register.xlsx"
    runs = [worker(path, QUOTES_EACH) for _ in range(RUNS)]
    said = [number for run in runs for number in run.communicate(timeout=120)[0].split()]
    assert [run.returncode for run in runs] == [0] * RUNS
    expected = [f"Q-{n:04d}" for n in range(1, RUNS * QUOTES_EACH + 1)]
    assert sorted(said) == expected
    assert numbers_in(path) == expected


@pytest.mark.skipif(sys.platform == "win32", reason="there is no kill signal")
def test_runs_that_are_killed_leave_a_register_that_reads_and_holds_all_they_confirmed(tmp_path: Path) -> None:
    path = tmp_path / "quotes_register.xlsx"
    chance = random.Random(20261102)
    confirmed: list[str] = []
    for _ in range(KILLS):
        run = worker(path, 10_000)
        assert run.stdout is not None
        confirmed.append(run.stdout.readline().strip())
        start = time.perf_counter()
        confirmed.append(run.stdout.readline().strip())
        took = time.perf_counter() - start
        time.sleep(chance.uniform(0.0, 1.5 * took))  # somewhere in the next change, or the one after it
        run.send_signal(signal.SIGKILL)
        confirmed += run.communicate(timeout=60)[0].split()
        numbers = numbers_in(path)
        assert len(numbers) == len(set(numbers))
        assert set(confirmed) <= set(numbers)
    assert len(numbers) <= len(confirmed) + KILLS, "at most the one quote of each kill is in it unconfirmed"
    assert len(confirmed) >= 2 * KILLS
