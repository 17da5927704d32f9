"""What ``quote`` and ``variation`` say on the terminal and as JSON: for the shop, not for the customer."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np

from estimator.check.register import QuoteRow
from estimator.pricing.job import Estimate
from estimator.pricing.money import format_minor
from estimator.pricing.quote_changes import RevisionChanges
from estimator.problems import Problem
from estimator.write.register_text import quote_row_json

__all__ = ["quote_json", "quote_text"]


def quote_text(row: QuoteRow, estimate: Estimate, changes: RevisionChanges | None) -> str:
    """Return what was quoted, what in it is the owner's own, and what changed since the revision before.

    Parameters
    ----------
    row : QuoteRow
        The quote as it stands in the register.
    estimate : Estimate
        The job as it was quoted.
    changes : RevisionChanges or None
        Against the revision before it.

    Returns
    -------
    str
    """
    shop, totals = estimate.shop.shop, estimate.totals

    def money(minor: int) -> str:
        return f"{format_minor(minor, shop.decimals)} {shop.currency}"

    out = [
        f"{row.key}, {row.customer or 'no customer named'}: {money(totals.taxable)} before {shop.tax_name.lower()}, "
        f"{money(totals.total)} with it",
        *_own_figures(estimate),
    ]
    if changes is not None:
        out.append(f"Changed since revision {changes.since}:")
        out += [f"  {c.mark} {c.change}: {c.what}: {_signed(c.difference_minor, shop.decimals)}" for c in changes.lines]
        if changes.rest_minor:
            out.append(f"  set-up, discounts and the rest: {_signed(changes.rest_minor, shop.decimals)}")
        if not changes.lines and not changes.rest_minor:
            out.append("  nothing that has a price")
        out.append(f"  price before {shop.tax_name.lower()}: {money(changes.was_minor)} -> {money(changes.now_minor)}")
    return "\n".join(out)


def quote_json(
    row: QuoteRow,
    estimate: Estimate,
    changes: RevisionChanges | None,
    files: Sequence[tuple[Path, str]],
    problems: Sequence[Problem],
) -> dict[str, Any]:
    """Return what ``--json`` gives.

    Parameters
    ----------
    row, estimate, changes
        As for ``quote_text``.
    files : sequence of (Path, str)
        Each file that was written, and what it is.
    problems : sequence of Problem
        Warnings and notes.

    Returns
    -------
    dict
        Money as decimal strings.
    """
    decimals = estimate.shop.shop.decimals

    def money(minor: int) -> str:
        return format_minor(minor, decimals)

    changed = None
    if changes is not None:
        changed = {
            "since": changes.since,
            "lines": [
                {
                    "change": str(one.change),
                    "mark": one.mark,
                    "what": one.what,
                    "was": money(one.was_minor),
                    "now": money(one.now_minor),
                    "difference": money(one.difference_minor),
                }
                for one in changes.lines
            ],
            "rest": money(changes.rest_minor),
            "was": money(changes.was_minor),
            "now": money(changes.now_minor),
        }
    quote = quote_row_json(row) | {"price": money(estimate.totals.taxable), "total": money(estimate.totals.total)}
    return {
        "schema": "kerfledger/1",
        "currency": estimate.shop.shop.currency,
        "incomplete": estimate.incomplete,
        "quote": quote,
        "changes": changed,
        "files": [str(file) for file, _ in files],
        "problems": [problem.as_json() for problem in problems],
    }


def _own_figures(estimate: Estimate) -> list[str]:
    """Say which lines hold the owner's own minutes or price."""
    cuts, decimals = estimate.cuts, estimate.shop.shop.decimals
    said = []
    for line in range(len(cuts)):
        minutes, price = estimate.my_minutes[line], estimate.my_price_each[line]
        own = [] if np.isnan(minutes) else [f"{minutes:g} minutes"]
        own += [] if np.isnan(price) else [f"{price:,.{decimals}f} each"]
        if own:
            why = f" ({estimate.why[line]})" if estimate.why and estimate.why[line] else ""
            said.append(f"Yours on {cuts.mark[line] or f'row {cuts.row[line]}'}: {', '.join(own)}{why}")
    return said


def _signed(minor: int, decimals: int) -> str:
    return f"{'+' if minor > 0 else ''}{format_minor(minor, decimals)}"
