"""What is measured: an invented list priced whole, the same cells read and written without pricing, the computing alone."""

from __future__ import annotations

import csv
import random
from pathlib import Path

from scripts.bench.measure import Run, measure, python

__all__ = ["computing_alone", "help_text", "imports", "whole", "without_computing", "write_list"]

_HEADINGS = (
    "Mark",
    "Description",
    "Qty",
    "Thickness mm",
    "Shape",
    "Size A mm",
    "Size B mm",
    "Cut length mm",
    "Pierces",
    "Steel",
)
_THICKNESSES_MM = (6, 8, 10, 12, 15, 20, 25, 40)
_RUN = "import sys; sys.argv = ['kerfledger', *{arguments!r}]; from estimator.cli import main; main()"
_KEEP = """
import pickle, datetime as dt
from pathlib import Path
from estimator import tasks
from estimator.pricing.doubt import estimate_ranges
from estimator.pricing.job import JobOrder
done = tasks.estimate(Path({cut_list!r}), None, JobOrder(date=dt.date(2026, 11, 2)), tasks.ReadOptions())
Path({kept!r}).write_bytes(pickle.dumps((done, estimate_ranges(done))))
"""
_COPY = """
import gc; gc.disable()
import typer
import pickle
from pathlib import Path
from estimator.read.load import load_book
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.save import save
book = load_book(Path({cut_list!r}))
done, ranges = pickle.loads(Path({kept!r}).read_bytes())
save(Path({out!r}), estimate_workbook(done, price_range=ranges.price, hours_range=ranges.paid_time_min), force=True)
"""
_COMPUTE = """
import time
import numpy as np
from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.check.torch_kit import torch_kit, work_rates
from estimator.quantities.job import choose_settings, job_quantities
from estimator.quantities.lines import burnt_metres
from estimator.quantities.other_work import no_other_work
n = {lines}
draw = np.random.default_rng(1)
cuts = CutList(mark=[''] * n, sheet=['x'] * n, quantity=draw.integers(1, 40, n).astype(float),
               thickness_mm=draw.choice([6.0, 10.0, 12.0, 20.0, 25.0, 40.0], n), cut_length_mm=draw.uniform(200, 3000, n),
               pierces=draw.integers(0, 3, n).astype(float), steel=np.full(n, 2, dtype=np.int8))
shop = example_shop()
kit, rates = torch_kit(shop, 'acetylene'), work_rates(shop)
start = time.process_time()
chosen = choose_settings(cuts, kit, rates, keep_tip_in=True)
metres = burnt_metres(cuts, rates, outlines_pierced=False)
job_quantities(cuts, kit, rates, chosen=chosen, metres=metres, other=no_other_work(n),
               net_heating_value_mj_m3=50.0)
print(time.process_time() - start)
"""


def write_list(folder: Path, lines: int) -> Path:
    """Write an invented list, half of it cut lengths and half rectangles."""
    draw, path = random.Random(1), folder / f"list{lines}.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        out = csv.writer(file)
        out.writerow(_HEADINGS)
        for i in range(lines):
            quantity, thickness = draw.randint(1, 40), draw.choice(_THICKNESSES_MM)
            if i % 2:
                row = ["Bracket", quantity, thickness, "", "", "", draw.randint(200, 3000), draw.randint(0, 3)]
            else:
                row = [
                    "Plate",
                    quantity,
                    thickness,
                    "rectangle",
                    draw.randint(100, 900),
                    draw.randint(100, 900),
                    "",
                    "",
                ]
            out.writerow([f"P{i}", *row, "excluded"])
    return path


def whole(cut_list: Path, environment: dict[str, str], runs: int) -> tuple[Run, Path]:
    """Return the whole command, from the list to the priced workbook, and that workbook."""
    out = cut_list.with_suffix(".xlsx")
    arguments = ["estimate", str(cut_list), "--date", "2026-11-02", "--out", str(out), "--force", "-q"]
    return measure(python(_RUN.format(arguments=arguments)), environment, runs=runs), out


def without_computing(cut_list: Path, environment: dict[str, str], runs: int) -> Run:
    """Return reading the list and writing the same cells, already priced, with the same libraries."""
    kept, out = str(cut_list.with_suffix(".kept")), str(cut_list.with_suffix(".copy.xlsx"))
    measure(python(_KEEP.format(cut_list=str(cut_list), kept=kept)), environment, runs=0)
    return measure(python(_COPY.format(cut_list=str(cut_list), kept=kept, out=out)), environment, runs=runs)


def computing_alone(lines: int, environment: dict[str, str], runs: int) -> float:
    """Return the processor time of the quantities of so many lines, in arrays already [s]."""
    return float(measure(python(_COMPUTE.format(lines=lines)), environment, runs=runs).said)


def imports(module: str, environment: dict[str, str], runs: int) -> Run:
    """Return a Python that imports a module and ends."""
    return measure(python(f"import {module}"), environment, runs=runs)


def help_text(environment: dict[str, str], runs: int) -> Run:
    """Return the program's own help."""
    return measure(python(_RUN.format(arguments=["--help"])), environment, runs=runs)
