"""Write docs/trial_list.md anew: the trial list priced by the engine beside the trial's own figures, line by line."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

from estimator.check.cut_list import CutList
from estimator.check.example_shop import example_shop
from estimator.pricing.job import Estimate, JobOrder
from estimator.tasks import ReadOptions, estimate_list, read_list

ROOT = Path(__file__).parents[1]
LIST = ROOT / "sample_jobs" / "trial_list.csv"
EXPECTED = ROOT / "sample_jobs" / "trial_expected.csv"
PAGE = ROOT / "docs" / "trial_list.md"
FIGURES = ("cut_m", "cut_time_min", "flame_time_min", "paid_time_min", "oxygen_m3", "acetylene_m3")
# Rows that belong to the job whichever lines it has; the others are one line's own doing.
JOB_ROWS = frozenset({"setup_job", "setup_mark", "setup_thickness", "tip_changes", "cylinder_changes"})
INTRO = """# A trial list, worked by judgement and by the engine

Eight lines such as a small machine builder sends in one evening, for a hand torch with acetylene, steel left
out. The trial's figures are one person's judgement of the trade: **common practice, no source**. They are not
a measurement and not a published check: the test that holds the engine within a quarter of them,
`tests/regression/test_trial_list.py`, is a regression of judgement.

The list is typed as the trial made it: shared cuts and mill edges so that the same metres are burnt, the
strips straightened, the bevelled plates touched up, all other edges as cut.

Each mark stands here with the work that it brings by itself: plate fetched, guide set, site trip. Set-up of
the job, of each thickness and of each mark stands in the last row but one. Each cell is *engine / trial*;
gas holds what is lost to pilot, purge and leaks.

| mark | what | metres | cutting min | flame min | paid min | oxygen m³ | acetylene m³ | the trial's reason |
|---|---|---|---|---|---|---|---|---|
"""
WHY = """
## Why they differ

What the trial says of itself, and what its figures point to.

- **The job's set-up** is larger here: 20 minutes a job, 10 for each new thickness and 5 for each new drawing,
  by the adopted rule; the trial put 30 minutes on the whole job. Marks that share a plate pay for it once in
  the job and each by itself above, so the last rows are not the plain sum.
- **T1, T7**: the same cuts; the trial's minutes leave more for handling parts of 10 to 16 kg.
- **T4**: the trial sets the circle guide for each of the four circles, here each size is set once; the flame is lit
  for a third of those minutes in both, as it is while the track of T3 is set.
- **T6, T8**: sides of 0.6 m and cuts of 1.2 m are made in goes of 0.3 and 0.4 m, which run at 0.8 of the chart's
  speed; how the rule was read, knowing these figures, stands in [decisions](decisions.md).
- **T8**: the trial puts 1.5 to 2 hours before the torch is lit; load, travel and permit are 100 minutes here.

Made by `scripts/make_trial_page.py` from `sample_jobs/trial_list.csv` and `sample_jobs/trial_expected.csv`.
"""


@dataclass(frozen=True)
class Figures:
    """What one mark takes, whole."""

    cut_m: float
    cut_time_min: float
    flame_time_min: float
    paid_time_min: float
    oxygen_m3: float
    acetylene_m3: float


def trial_cuts() -> CutList:
    """Return the trial list as the engine reads it."""
    listed = read_list(LIST, ReadOptions(), example_shop())
    if listed.problems:
        raise ValueError("\n".join(problem.text() for problem in listed.problems))
    return listed.cuts


def estimate(cuts: CutList) -> Estimate:
    """Price lines with the adopted defaults and the invented example shop."""
    return estimate_list(cuts, example_shop(), JobOrder())


def ours_by_mark() -> dict[str, Figures]:
    """Each mark alone, with the job rows that it brings by itself (plate fetched, guide set, site work)."""
    cuts = trial_cuts()
    found = {}
    for mark in dict.fromkeys(cuts.mark):
        job = estimate(cuts.take([i for i, name in enumerate(cuts.mark) if name == mark])).job
        lines, rows = job.lines, [row for row in job.rows if row.key not in JOB_ROWS]
        oxygen = lines.cutting_oxygen_m3 + lines.preheat_oxygen_m3 + lines.lost_oxygen_m3
        found[mark] = Figures(
            cut_m=float((lines.cut_m + lines.metres.passes * lines.metres.bevel_m_each).sum()),
            cut_time_min=float((lines.cut_time_min + lines.bevel_time_min).sum()),
            flame_time_min=float(lines.flame_time_min.sum()) + sum(row.flame_time_min for row in rows),
            paid_time_min=float(lines.paid_time_min.sum()) + sum(row.paid_time_min for row in rows),
            oxygen_m3=float(oxygen.sum()) + sum(row.preheat_oxygen_m3 + row.lost_oxygen_m3 for row in rows),
            acetylene_m3=float((lines.fuel_m3 + lines.lost_fuel_m3).sum())
            + sum(row.fuel_m3 + row.lost_fuel_m3 for row in rows),
        )
    return found


def trial_by_mark() -> dict[str, dict[str, str]]:
    """Return the trial's own rows by mark, the job's among them."""
    with EXPECTED.open(newline="", encoding="utf-8") as file:
        return {row["mark"]: row for row in csv.DictReader(file)}


def whole_job_paid_min() -> float:
    """Paid minutes of the whole list as one job, every row in."""
    job = estimate(trial_cuts()).job
    return float(job.lines.paid_time_min.sum()) + sum(row.paid_time_min for row in job.rows)


def page() -> str:
    """Return the text of docs/trial_list.md."""
    ours, trial = ours_by_mark(), trial_by_mark()
    lines = []
    for mark, one in ours.items():
        them = trial[mark]
        cells = [
            f"{getattr(one, name):.{_decimals(name)}f} / {float(them[name]):.{_decimals(name)}f}" for name in FIGURES
        ]
        lines.append(f"| {mark} | {them['what']} | {' | '.join(cells)} | {them['why']} |")
    in_marks = sum(one.paid_time_min for one in ours.values())
    trial_paid = {mark: float(row["paid_time_min"]) for mark, row in trial.items()}
    whole = whole_job_paid_min()
    job = f"{whole - in_marks:.0f} / {trial_paid['job']:.0f}"
    lines += [
        f"| job | set-up, tip changes, cylinder changes | | | | {job} | | | |",
        f"| all | | | | | {whole:.0f} / {sum(trial_paid.values()):.0f} | | | |",
    ]
    return INTRO + "\n".join(lines) + "\n" + WHY


def _decimals(name: str) -> int:
    return {"cut_m": 1, "oxygen_m3": 2, "acetylene_m3": 3}.get(name, 0)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    print(PAGE)
