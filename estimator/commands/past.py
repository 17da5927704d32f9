"""``check-past``: what the engine would have said of jobs that are finished."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import at_the_boundary, parse_date, parse_fuel, print_json, tell

__all__ = ["check_past"]


@at_the_boundary
def check_past(
    past_jobs: Annotated[
        Path, typer.Argument(metavar="PAST_JOBS", help="Your last finished jobs: lists or metres, hours, cylinders.")
    ],
    shop: opt.ShopFile = None,
    date: Annotated[
        str, typer.Option("--date", metavar="YYYY-MM-DD", help="Day whose rates are taken; else the newest.")
    ] = "",
    fuel: opt.FuelOption = "",
    partial: opt.Partial = False,
    json_out: opt.JsonOption = False,
    quiet: opt.Quiet = False,
) -> None:
    """See what would have been said of your last finished jobs.

    Example: kerfledger check-past past_jobs.xlsx --shop shop_book.xlsx
    """
    from estimator.pricing.job import JobOrder
    from estimator.tasks_past import check_past as check
    from estimator.write.past_text import past_json, past_text

    order = JobOrder(date=parse_date(date), fuel=parse_fuel(fuel), partial=partial)
    report = check(past_jobs, shop, order)
    if json_out:
        print_json(past_json(report))
        return
    tell(past_text(report), report.problems, quiet=quiet)
