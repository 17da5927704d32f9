"""A variation: extras to a quote that was won, priced at that quote's own rates, date and settings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from estimator.check.cut_list import CutList
from estimator.pricing.job import Estimate, Reopened, estimate_job
from estimator.problems import Problem

__all__ = ["DONE_ONCE", "variation_estimate"]

DONE_ONCE = ("setup_job_min", "site_load_min", "site_travel_min", "site_permit_min")
"""Work rates that the quote holds already: an extra is done while the job is set up."""


def variation_estimate(
    won: Estimate,
    extra: CutList,
    *,
    set_up_again: bool = False,
    partial: bool = False,
    problems: Sequence[Problem] = (),
) -> Estimate:
    """Return extras priced as the quote was.

    Parameters
    ----------
    won : Estimate
        The quote that was won, as its owner left it.
    extra : CutList
        The extra lines.
    set_up_again : bool
        Whether set-up, travel, delivery and the minimum of a job are charged again.
    partial : bool
        Whether rows with a problem are left out instead of stopping the variation.
    problems : sequence of Problem
        What reading the extras found.

    Returns
    -------
    Estimate
        With the quote's customer, number, discount and rush.

    Raises
    ------
    WorkbookProblemsError
        When an extra cannot be priced.
    """
    before = won.reopened or Reopened()
    once = {} if set_up_again else dict.fromkeys(DONE_ONCE, 0.0)
    free = {} if set_up_again else {"minimum_job": 0.0, "delivery": 0.0}
    shop = won.shop.model_copy(update={"shop": won.shop.shop.model_copy(update=free)})
    if not set_up_again:
        labour = tuple(row.model_copy(update={"minimum_hours": 0.0}) for row in shop.labour)
        shop = shop.model_copy(update={"labour": labour})
    title = replace(won.cuts.title, steel=extra.title.steel or won.cuts.title.steel)
    return estimate_job(
        replace(extra, title=title),
        shop,
        replace(won.order, partial=partial),
        problems=list(problems),
        reopened=Reopened(new_lines=True, work_rates={**before.work_rates, **once}, settings=before.settings),
    )
