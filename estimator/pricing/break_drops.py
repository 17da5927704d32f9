"""Where a quantity break makes more pieces cheaper than fewer, it is said: the customer will find out anyway."""

from __future__ import annotations

from collections.abc import Sequence

from estimator.check.cut_list import CutList
from estimator.check.shop_book import QuantityBreak
from estimator.problems import Problem
from estimator.problems import lines as say
from estimator.quantities.line_checks import line_place

__all__ = ["break_drops"]


def break_drops(cuts: CutList, breaks: Sequence[QuantityBreak]) -> list[Problem]:
    """Return a note for each mark whose next break makes the larger order cheaper than this one.

    Parameters
    ----------
    cuts : CutList
        n priced lines.
    breaks : sequence of QuantityBreak
        Quantity breaks of the shop.

    Returns
    -------
    list of Problem
        One note at most for each mark, at its first line; an unmarked line stands alone.

    Notes
    -----
    At one price each, ``from`` pieces with their break cost less than ``q`` without it when
    ``from x (1 - off) < q x (1 - off now)``. Source: definition.
    """
    ordered: dict[str | int, float] = {}
    first: dict[str | int, int] = {}
    for line, (mark, quantity) in enumerate(zip(cuts.mark, cuts.quantity, strict=True)):
        key = mark or line
        ordered[key] = ordered.get(key, 0.0) + float(quantity)
        first.setdefault(key, line)
    cheaper = {quantity: _next_cheaper(quantity, breaks) for quantity in set(ordered.values())}
    return [
        say.BREAK_DROPS_PRICE.at(
            line_place(cuts, first[key], "quantity"),
            found=f"{quantity:g}",
            more=next_break.from_quantity,
            off=f"{next_break.off_share * 100:g} %",
        )
        for key, quantity in ordered.items()
        if (next_break := cheaper[quantity]) is not None
    ]


def _next_cheaper(quantity: float, breaks: Sequence[QuantityBreak]) -> QuantityBreak | None:
    """Return the first break beyond a quantity from which more pieces cost less than it; None where none does."""
    now = max((b for b in breaks if b.from_quantity <= quantity), key=lambda b: b.from_quantity, default=None)
    paid = quantity * (1.0 - (now.off_share if now else 0.0))
    dearer = [b for b in breaks if b.from_quantity > quantity and b.from_quantity * (1.0 - b.off_share) < paid]
    return min(dearer, key=lambda b: b.from_quantity, default=None)
