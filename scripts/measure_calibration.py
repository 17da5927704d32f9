"""Measure what calibration is worth on simulated shops, and write the table of docs/accuracy.md.

Usage: python scripts/measure_calibration.py [SHOPS] [JOBS]
"""

from __future__ import annotations

import sys
from datetime import date

import numpy as np

from estimator.learning.calibrate import calibrate_factors
from estimator.learning.calibration_result import CalibrationResult
from estimator.learning.observation import Kind
from estimator.learning.ranges import Factor, Output, Range, Term, job_ranges
from estimator.learning.spread import Spread, from_log_sd, split_lognormal
from tests.simulate_shop import HANDBOOK, PRICES, RATES, WORLDS, Job, Shop, World, price_of

PRICE = Output("price", PRICES)


def range_before(job: Job) -> Range:
    """The handbook's range: chart bands, and -15 / +40 % on hours, which stands for the work rates too."""
    factors = [Factor(f.name, f.spread, "handbook") for f in HANDBOOK if f.name not in RATES]
    terms = [Term(t.quantity, t.amount, {n: p for n, p in t.powers.items() if n not in RATES}) for t in job.terms]
    return job_ranges(factors, terms, [PRICE], count=500)["price"]


def range_after(job: Job, found: CalibrationResult) -> Range:
    """The range with the shop's own factors and its own scatter from job to job."""
    new_job = {error.kind: error.new_job for error in found.errors if error.kind is Kind.PAID_TIME}
    hours = new_job[Kind.PAID_TIME]
    factors, value = [Factor("hours, new job", hours, "log")], {}
    for each in found.factors:
        value[each.name] = each.value
        doubt = Spread(1.0, 0.0, 0.0) if each.name == "hours" or each.name in RATES else about_one(each)
        factors.append(Factor(each.name, doubt, "calibrated"))
    terms = []
    for term in job.terms:
        amount = term.amount * float(np.prod([value[n] ** p for n, p in term.powers.items()]))
        if term.quantity == "paid_time_min":
            terms.append(Term(term.quantity, amount, {"hours, new job": 1.0}))
        else:
            terms.append(Term(term.quantity, amount, term.powers))
    return job_ranges(factors, terms, [PRICE], count=500)["price"]


def about_one(each) -> Spread:
    """A factor's interval as a spread about 1."""
    if not each.low < each.value < each.high:
        return from_log_sd(1.0, 0.0)
    return split_lognormal(each.low / each.value, 1.0, each.high / each.value)


def measure(world: World, shops: int, jobs: int) -> dict[str, float]:
    """Median error and coverage of the next job's price, before and after."""
    rows = []
    for seed in range(shops):
        shop = Shop(world, seed=1000 + seed)
        logged = [shop.job() for _ in range(jobs)]
        found = calibrate_factors(shop.log(logged), HANDBOOK, today=date(2025, 6, 1))
        job = shop.job()
        true, mean = price_of(job.actual), price_of(job.expected)
        before, after = range_before(job), range_after(job, found)
        rows.append(
            (
                abs(before.likely / true - 1),
                abs(after.likely / true - 1),
                before.low <= true <= before.high,
                after.low <= true <= after.high,
                np.log(before.high / before.low),
                np.log(after.high / after.low),
                abs(before.likely / mean - 1),
                abs(after.likely / mean - 1),
            )
        )
    table = np.array(rows, dtype=float)
    return {
        "error before": float(np.median(table[:, 0])),
        "error after": float(np.median(table[:, 1])),
        "inside before": float(table[:, 2].mean()),
        "inside after": float(table[:, 3].mean()),
        "width before": float(np.median(table[:, 4])),
        "width after": float(np.median(table[:, 5])),
        "mean before": float(np.median(table[:, 6])),
        "mean after": float(np.median(table[:, 7])),
    }


def main() -> None:
    """Print the table."""
    shops, jobs = (int(v) for v in (*sys.argv[1:], *("100", "10")[len(sys.argv) - 1 :]))
    for world in WORLDS:
        found = measure(world, shops, jobs)
        print(f"{world.name:16s}", "  ".join(f"{k} {v:.3f}" for k, v in found.items()))


if __name__ == "__main__":
    main()
