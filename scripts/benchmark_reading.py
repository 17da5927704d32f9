"""Measure the reading of a long list against the bare fastest library that reads the same file, each in its own process.

Run: python scripts/benchmark_reading.py [ROWS]. Prints CPU seconds, the ratio and the peak memory. python-calamine, from the
test extra, is the bare reader: it gives values alone, where ours also gives error cells, formats, hidden rows and links.
"""

from __future__ import annotations

import random
import subprocess
import sys
import tempfile
from pathlib import Path

import xlsxwriter

OURS = "from pathlib import Path; from estimator.read.load import load_book; run = lambda: load_book(Path({path!r}))"
BARE = (
    "from pathlib import Path; from python_calamine import CalamineWorkbook; "
    "run = lambda: CalamineWorkbook.from_path({path!r}).get_sheet_by_index(0).to_python()"
)
MEASURE = (
    "; import time; t = time.process_time(); book = run(); used = time.process_time() - t; "
    "status = Path('/proc/self/status'); text = status.read_text() if status.exists() else 'VmHWM: 0'; "
    "print(used, int(text.split('VmHWM:')[1].split()[0]) / 1024)"
)


def write_list(path: Path, rows: int, *, formulas: bool) -> None:
    """Write a list of ten columns: a mark, a grade, a date and seven numbers, of which four may be formulas."""
    chance = random.Random(1)
    with xlsxwriter.Workbook(path) as book:
        sheet, day, cents = book.add_worksheet(), book.add_format({"num_format": "d-mmm"}), book.add_format()
        cents.set_num_format("0.00")
        for row in range(rows):
            sheet.write_string(row, 0, f"P{row}")
            sheet.write_string(row, 1, chance.choice(("plain", "hard", "soft")))
            sheet.write_number(row, 2, 46_000 + chance.randrange(300), day)
            for column in range(3, 6):
                sheet.write_number(row, column, round(chance.uniform(1, 3000), 1), cents)
            for column in range(6, 10):
                value = round(chance.uniform(1, 90), 2)
                if formulas:
                    sheet.write_formula(row, column, f"=D{row + 1}*E{row + 1}", cents, value)
                else:
                    sheet.write_number(row, column, value, cents)


def measure(code: str, path: Path) -> tuple[float, float]:
    """Return CPU seconds and peak memory [MiB] of one fresh process; 0 where the system does not tell the memory."""
    run = [sys.executable, "-c", code.format(path=str(path)) + MEASURE]
    seconds, memory = subprocess.run(run, check=True, capture_output=True, text=True).stdout.split()
    return float(seconds), float(memory)


def main(rows: int) -> None:
    """Print one line for a list of numbers and one for a list with formulas; the better of three runs of each."""
    with tempfile.TemporaryDirectory() as folder:
        for formulas in (False, True):
            path = Path(folder) / "list.xlsx"
            write_list(path, rows, formulas=formulas)
            ours, bare = (min(measure(code, path) for _ in range(3)) for code in (OURS, BARE))
            kind = "with formulas" if formulas else "numbers alone"
            print(
                f"{rows:,} x 10 {kind}: ours {ours[0]:.2f} s, {ours[1]:.0f} MiB; "
                f"bare {bare[0]:.2f} s, {bare[1]:.0f} MiB; ratio {ours[0] / bare[0]:.2f}"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000)
