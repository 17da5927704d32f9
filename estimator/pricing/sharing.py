"""What sharing cuts would save: the same job priced once more with neighbours sharing their cuts, nothing moved."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from estimator.pricing.job import Estimate, estimate_job
from estimator.pricing.money import format_minor
from estimator.problems import Place, Problem, WorkbookProblemsError, has_error
from estimator.problems import lines as say
from estimator.words import BLANK, MadeFrom, Shape, Work

__all__ = ["SharedCuts", "sharing_note", "sharing_saves"]

_LONGEST_LIST = 2_000
"""Longer lists are not priced a second time: the note would cost as much as the estimate."""


@dataclass(frozen=True, slots=True)
class SharedCuts:
    """What sharing would spare a job."""

    lines: int
    """Lines whose pieces could lie in a row."""
    metres: float
    saved_minor: int
    """Off the total before tax, in minor units."""


def sharing_saves(estimate: Estimate) -> SharedCuts | None:
    """Return what a job would save if its rows of equal pieces shared their cuts.

    Parameters
    ----------
    estimate : Estimate
        A priced job.

    Returns
    -------
    SharedCuts or None
        None where no line could share, nothing would be saved, or the list is too long to price twice.

    Notes
    -----
    Rectangles, strips and right triangles from plate, two or more of a kind, each row in a strip of its own. Plates and
    what is left over are not looked at. Source: definition.
    """
    cuts = estimate.cuts
    from_plate = np.isin(cuts.made_from, (MadeFrom.PLATE, BLANK))
    straight = np.isin(cuts.shape, (Shape.RECTANGLE, Shape.STRIP, Shape.RIGHT_TRIANGLE))
    given = ~np.isnan(cuts.cut_length_mm) | ~np.isnan(cuts.total_cut_length_mm)
    cut = np.isin(cuts.work, (Work.CUT, BLANK)) & straight & from_plate & ~given
    could = cut & ~cuts.shared_cuts & (cuts.quantity >= 2)
    if not could.any() or len(cuts) > _LONGEST_LIST:
        return None
    try:
        shared = estimate_job(
            replace(cuts, shared_cuts=cuts.shared_cuts | could),
            estimate.shop,
            replace(estimate.order, strict=False),
            my_minutes=estimate.my_minutes,
            my_price_each=estimate.my_price_each,
        )
    except WorkbookProblemsError:
        return None
    metres = float(estimate.job.lines.cut_m.sum() - shared.job.lines.cut_m.sum())
    saved = estimate.totals.taxable - shared.totals.taxable
    return SharedCuts(int(could.sum()), metres, saved) if saved > 0 else None


def sharing_note(estimate: Estimate) -> list[Problem]:
    """Return the note that says what sharing cuts would save; none where it would save nothing."""
    found = sharing_saves(estimate)
    if found is None or has_error(estimate.problems):
        return []
    form = estimate.shop.shop
    return [
        say.SHARING_SAVES.at(
            Place(estimate.cuts.file),
            found=f"lines that could share: {found.lines}",
            saved=f"{format_minor(found.saved_minor, form.decimals)} {form.currency}",
            length=estimate.shop.shown.words(found.metres, "m", ".1f"),
        )
    ]
