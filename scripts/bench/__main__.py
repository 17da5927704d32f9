"""Print the table of ratios that ``docs/performance.md`` holds with machine and date."""

from __future__ import annotations

import argparse
import os
import platform
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from scripts.bench.measure import Run, as_installed, measure, python
from scripts.bench.office import columns_of_lines, recalculated, small_spreadsheet
from scripts.bench.work import computing_alone, help_text, imports, whole, without_computing, write_list

_OF_HELP = 15
"""Runs of what lasts a tenth of a second."""
_OFFICE_LINES = 10_000


@dataclass(frozen=True)
class Bench:
    """Where a run of the bench works, how often, and where it says what it found."""

    folder: Path
    environment: dict[str, str]
    runs: int
    say: Callable[[str], None] = print

    def row(self, what: str, measured: str, goal: str) -> None:
        """Print a row of the table."""
        self.say(f"| {what} | {measured} | {goal} |")

    def ratio(self, what: str, over: Run, under: Run, goal: str) -> None:
        """Print a row with the ratio of two processor times."""
        self.row(what, f"{over.cpu_s / under.cpu_s:.2f} ({over.cpu_s:.2f} ÷ {under.cpu_s:.2f} s)", goal)


def report(*, quick: bool, runs: int) -> None:
    """Measure everything and print the table."""
    sizes = (200, 10_000) if quick else (200, 10_000, 100_000)
    print(
        f"Python {platform.python_version()}, {os.cpu_count()} cores, {platform.machine()}, "
        f"{time.strftime('%Y-%m-%d')}; CPU seconds, least of {runs} after one that is not counted.\n"
    )
    print("| what | measured | goal |\n|---|---|---|")
    with tempfile.TemporaryDirectory() as name:
        bench = Bench(Path(name), as_installed(Path(name) / "compiled"), runs)
        wholes = {lines: estimates(bench, lines) for lines in sizes}
        lines = 100_000 if quick else 1_000_000
        alone = computing_alone(lines, bench.environment, runs)
        bench.row(f"(b) computing alone, {lines:,} lines", f"{alone:.2f} s", "1 s a million")
        if not quick:
            growth = wholes[100_000][0].cpu_s / wholes[10_000][0].cpu_s
            bench.row("(c) 100,000 ÷ 10,000 lines", f"{growth:.1f}", "11")
        office(bench, *wholes[_OFFICE_LINES])
        start_up(bench)
        largest = sizes[-1]
        bench.row(f"(f) peak memory, {largest:,} lines", f"{wholes[largest][0].peak_mb:.0f} MB", "500 MB")


def estimates(bench: Bench, lines: int) -> tuple[Run, Path]:
    """Print a whole estimate beside the same cells without computing, and return it with its workbook."""
    cut_list = write_list(bench.folder, lines)
    run, out = whole(cut_list, bench.environment, bench.runs)
    copy = without_computing(cut_list, bench.environment, bench.runs)
    bench.ratio(f"(a) whole ÷ same cells, {lines:,} lines", run, copy, "1.3" if lines > 200 else "reported")
    return run, out


def office(bench: Bench, estimate: Run, book: Path) -> None:
    """Print the spreadsheet with the same columns, and a small one, beside the whole estimate."""
    columns, formulas = columns_of_lines(book, _OFFICE_LINES)
    same = recalculated(book, bench.environment, bench.runs)
    small = recalculated(small_spreadsheet(bench.folder, _OFFICE_LINES), bench.environment, bench.runs)
    if same is None or small is None:
        bench.row("(d) spreadsheet ÷ whole", "LibreOffice is not installed", "1.5")
        return
    named = f"(d) the same {columns} columns, {formulas} of formulas, in LibreOffice ÷ whole, {_OFFICE_LINES:,} lines"
    bench.ratio(named, same, estimate, "1.5")
    bench.ratio(
        f"(d) 18 columns, 15 of short formulas, in LibreOffice ÷ whole, {_OFFICE_LINES:,} lines", small, estimate, "1.5"
    )


def start_up(bench: Bench) -> None:
    """Print what the help and a short list take."""
    bare = measure(python("pass"), bench.environment, runs=_OF_HELP)
    typer_s = imports("typer", bench.environment, _OF_HELP).cpu_s - bare.cpu_s
    helped = help_text(bench.environment, _OF_HELP).cpu_s
    allowed = 2.5 * bare.cpu_s + typer_s
    bench.row(
        "(e) `--help` ÷ (2.5 x bare Python + Typer's import)",
        f"{helped / allowed:.2f} ({helped * 1000:.0f} ÷ (2.5 x {bare.cpu_s * 1000:.0f} + {typer_s * 1000:.0f}) ms)",
        "1",
    )
    bench.row("(e) `--help` less Typer's import ÷ bare Python", f"{(helped - typer_s) / bare.cpu_s:.1f}", "2.5")
    small, _ = whole(write_list(bench.folder, 25), bench.environment, max(bench.runs, 3))
    bench.row("(e) 25 lines, start to finish", f"{small.cpu_s:.2f} s; {small.wall_s:.2f} s by the clock", "1.0 s")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="one run each, up to 10,000 lines")
    parser.add_argument("--runs", type=int, default=0, help="runs of each; 3, or 1 with --quick")
    asked = parser.parse_args()
    report(quick=asked.quick, runs=asked.runs or (1 if asked.quick else 3))
