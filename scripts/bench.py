"""Measure how fast the estimate is, as ratios within one run; not a timed test. Run: ``python -m scripts.bench [--quick]``.

Every figure is of a whole process (user and system time of the child, so that a busy machine disturbs little), the least
of a few runs. ``docs/performance.md`` holds a table with machine and date.
"""

from __future__ import annotations

import argparse
import csv
import os
import platform
import random
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

HEADINGS = ("Mark", "Description", "Qty", "Thickness mm", "Shape", "Size A mm", "Size B mm", "Cut length mm", "Pierces", "Steel")  # fmt: skip
DATE = "2026-11-02"

WHOLE = "from estimator.cli import main; import sys; sys.argv = ['kerfledger', 'estimate', {list!r}, '--date', '2026-11-02', '--out', {out!r}, '--force', '-q']; main()"
KEEP = """
import os; os.environ.setdefault('OPENBLAS_NUM_THREADS', '1')
import pickle, datetime as dt
from pathlib import Path
from estimator import tasks
from estimator.pricing.job import JobOrder
from estimator.pricing.doubt import estimate_ranges
done = tasks.estimate(Path({list!r}), None, JobOrder(date=dt.date(2026, 11, 2)), tasks.ReadOptions())
Path({kept!r}).write_bytes(pickle.dumps(done))
"""
COPY = """
import os; os.environ.setdefault('OPENBLAS_NUM_THREADS', '1')
import pickle
from pathlib import Path
from estimator import tasks
from estimator.read.load import load_book
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.save import save
book = load_book(Path({list!r}))
done = pickle.loads(Path({kept!r}).read_bytes())
save(Path({out!r}), estimate_workbook(done), force=True)
"""
COMPUTE = """
import os; os.environ.setdefault('OPENBLAS_NUM_THREADS', '1')
import datetime as dt, time
import numpy as np
from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.torch_kit import torch_kit, work_rates
from estimator.quantities.job import OtherMinutes, choose_settings, job_quantities
from estimator.quantities.lines import burnt_metres
from estimator.quantities.normed import normed_work
n = {lines}
draw = np.random.default_rng(1)
cuts = CutList(mark=[''] * n, sheet=['x'] * n, quantity=draw.integers(1, 40, n).astype(float),
               thickness_mm=draw.choice([6.0, 10.0, 12.0, 20.0, 25.0, 40.0], n), cut_length_mm=draw.uniform(200, 3000, n),
               pierces=draw.integers(0, 3, n).astype(float), steel=np.full(n, 2, dtype=np.int8))
shop = example_shop()
kit, rates = torch_kit(shop, 'acetylene'), work_rates(shop)
zero = np.zeros(n)
start = time.process_time()
chosen = choose_settings(cuts, kit, rates, keep_tip_in=True)
metres = burnt_metres(cuts, rates, outlines_pierced=False)
job_quantities(cuts, kit, rates, chosen=chosen, metres=metres, other=OtherMinutes(zero, np.ones(n, dtype=bool), zero, zero),
               net_heating_value_mj_m3=50.0)
print(time.process_time() - start)
"""
_SPREADSHEET = """
import xlsxwriter
n = {lines}
book = xlsxwriter.Workbook({out!r}, {{'constant_memory': True}})
sheet = book.add_worksheet('Lines')
rates = book.add_worksheet('Rates')
for row in range(12):
    rates.write_number(row, 0, 1.0 + row / 7)
columns = 'DEFGHIJKLMNOPQR'
for row in range(n):
    for column, value in enumerate((3.0, 12.0, 860.0)):
        sheet.write_number(row, column, value + row % 7)
    for place, column in enumerate(columns):
        before = 'C' if place == 0 else columns[place - 1]
        sheet.write_formula(row, 3 + place, f'=ROUND({{before}}{{row + 1}}*Rates!$A${{place % 12 + 1}}/60+$A{{row + 1}},4)')
book.close()
"""


@dataclass(frozen=True)
class Run:
    """One process, measured."""

    cpu_s: float
    wall_s: float
    peak_mb: float
    said: str


def measure(command: list[str], *, runs: int = 3) -> Run:
    """Return the least of a few runs of a command."""
    found = []
    for _ in range(runs):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        start = time.perf_counter()
        done = subprocess.run(command, capture_output=True, text=True, check=True)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        cpu = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
        found.append(Run(cpu, time.perf_counter() - start, after.ru_maxrss / 1024, done.stdout.strip()))
    return min(found, key=lambda run: run.cpu_s)


def python(code: str) -> list[str]:
    """Return the command that runs a piece of Python."""
    return [sys.executable, "-c", code]


def write_list(path: Path, lines: int) -> None:
    """Write an invented list."""
    draw = random.Random(1)
    with path.open("w", newline="", encoding="utf-8") as file:
        out = csv.writer(file)
        out.writerow(HEADINGS)
        for i in range(lines):
            thickness = draw.choice([6, 8, 10, 12, 15, 20, 25, 40])
            if i % 2:
                out.writerow(
                    [
                        f"P{i}",
                        "Bracket",
                        draw.randint(1, 40),
                        thickness,
                        "",
                        "",
                        "",
                        draw.randint(200, 3000),
                        draw.randint(0, 3),
                        "excluded",
                    ]
                )
            else:
                out.writerow(
                    [
                        f"P{i}",
                        "Plate",
                        draw.randint(1, 40),
                        thickness,
                        "rectangle",
                        draw.randint(100, 900),
                        draw.randint(100, 900),
                        "",
                        "",
                        "excluded",
                    ]
                )


def whole_against_copy(folder: Path, lines: int, runs: int) -> tuple[Run, Run]:
    """Return the whole estimate, and reading and writing the same cells without computing."""
    cut_list, kept, out = (str(folder / name) for name in (f"list{lines}.csv", f"kept{lines}", f"out{lines}.xlsx"))
    write_list(Path(cut_list), lines)
    whole = measure(python(WHOLE.format(list=cut_list, out=out)), runs=runs)
    subprocess.run(python(KEEP.format(list=cut_list, kept=kept)), check=True, capture_output=True)
    return whole, measure(python(COPY.format(list=cut_list, kept=kept, out=out)), runs=runs)


def spreadsheet(folder: Path, lines: int, runs: int) -> Run | None:
    """Return LibreOffice opening, recalculating and saving the same number of formula columns; None without it."""
    office = shutil.which("soffice")
    if office is None:
        return None
    book, profile = folder / "sheet.xlsx", folder / "profile"
    subprocess.run(python(_SPREADSHEET.format(lines=lines, out=str(book))), check=True)
    user = profile / "user"
    user.mkdir(parents=True)
    (user / "registrymodifications.xcu").write_text(
        '<?xml version="1.0" encoding="UTF-8"?><oor:items xmlns:oor="http://openoffice.org/2001/registry">'
        '<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse">'
        "<value>0</value></prop></item></oor:items>",
        encoding="utf-8",
    )
    command = [office, f"-env:UserInstallation={profile.as_uri()}", "--headless", "--convert-to", "xlsx", "--outdir", str(folder / "saved"), str(book)]  # fmt: skip
    return measure(command, runs=runs)


def report(quick: bool, say: Callable[[str], None] = print) -> None:
    """Print the table."""
    sizes = (200, 10_000) if quick else (200, 10_000, 100_000)
    runs = 1 if quick else 3
    say(
        f"Python {platform.python_version()}, {os.cpu_count()} cores, {platform.machine()}, {time.strftime('%Y-%m-%d')}; CPU seconds, least of {runs}.\n"
    )
    say("| what | measured | goal |\n|---|---|---|")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        wholes: dict[int, Run] = {}
        for lines in sizes:
            whole, copy = whole_against_copy(folder, lines, runs)
            wholes[lines] = whole
            goal = "1.3" if lines > 200 else "reported"
            say(
                f"| (a) whole ÷ same cells, {lines:,} lines | {whole.cpu_s / copy.cpu_s:.2f} ({whole.cpu_s:.2f} ÷ {copy.cpu_s:.2f} s) | {goal} |"
            )
        million = float(measure(python(COMPUTE.format(lines=100_000 if quick else 1_000_000)), runs=runs).said)
        say(f"| (b) computing alone, {'100,000' if quick else '1,000,000'} lines | {million:.2f} s | 1 s a million |")
        if not quick:
            say(f"| (c) 100,000 ÷ 10,000 lines | {wholes[100_000].cpu_s / wholes[10_000].cpu_s:.1f} | 11 |")
        sheet = spreadsheet(folder, 10_000, runs)
        if sheet is not None:
            say(
                f"| (d) spreadsheet ÷ whole, 10,000 lines, wall | {sheet.wall_s / wholes[10_000].wall_s:.2f} ({sheet.wall_s:.2f} ÷ {wholes[10_000].wall_s:.2f} s) | 1.5 |"
            )
        bare, typer = measure(python("pass"), runs=runs), measure(python("import typer"), runs=runs)
        helped = measure(
            python("import sys; sys.argv = ['kerfledger', '--help']; from estimator.cli import main; main()"), runs=runs
        )
        extra = (helped.cpu_s - (typer.cpu_s - bare.cpu_s)) / bare.cpu_s
        say(f"| (e) `--help` less Typer's import ÷ bare Python | {extra:.1f} ({helped.cpu_s:.2f} s) | 2.5 |")
        write_list(folder / "small.csv", 25)
        small = measure(python(WHOLE.format(list=str(folder / "small.csv"), out=str(folder / "small.xlsx"))), runs=runs)
        say(f"| (e) 25 lines, start to finish, wall | {small.wall_s:.2f} s | 1.0 s |")
        largest = sizes[-1]
        say(f"| (f) peak memory, {largest:,} lines | {wholes[largest].peak_mb:.0f} MB | 500 MB |")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="one run each, up to 10,000 lines")
    report(parser.parse_args().quick)
