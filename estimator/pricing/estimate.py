"""The priced estimate: exact costs become printed amounts, each rounded once, and totals that foot."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from estimator.check.cut_list import CutList
from estimator.check.shop_book import QuantityBreak, ShopForm
from estimator.pricing.build_up import COST_PARTS, ExactCosts
from estimator.pricing.money import round_up_to_step, to_minor
from estimator.quantities.job_rows import JobRow

__all__ = ["PricedLines", "PricedRows", "Totals", "price_job_rows", "price_lines", "total_up"]

Floats = NDArray[np.float64]
Minor = NDArray[np.int64]


@dataclass(slots=True)
class PricedLines:
    """Printed amounts of n lines, in minor units: shape (n,) each."""

    parts: dict[str, Minor]
    """Each part of the cost, rounded once."""
    cost: Minor
    """Sum of the printed parts."""
    exact_cost: Floats
    """Cost before rounding, with its share of the job's rows where they are spread."""
    price_each: Minor
    amount: Minor
    """Price each times quantity."""
    top_up: Minor
    """What the minimum per line adds."""
    price: Minor
    """Amount and top-up."""
    break_off: Minor
    """What the quantity break takes off, zero or above."""
    break_share: Floats


@dataclass(slots=True)
class PricedRows:
    """Printed amounts of the job's k rows, in minor units."""

    rows: list[JobRow]
    parts: dict[str, Minor]
    cost: Minor
    exact_cost: Floats
    price: Minor
    """Zero where the rows are spread over the lines."""


@dataclass(slots=True)
class Totals:
    """The job from amounts to total, in minor units, in the order of the page."""

    lines: int
    job_rows: int
    quantity_break: int
    rush: int
    discount: int
    minimum_top_up: int
    delivery: int
    taxable: int
    tax: int
    total: int
    cost: int
    """Printed cost of lines and rows."""
    parts: dict[str, int] = field(default_factory=dict)


def price_lines(
    cuts: CutList,
    costs: ExactCosts,
    *,
    shop: ShopForm,
    breaks: tuple[QuantityBreak, ...],
    spread_cost: float,
    spread_by: Floats,
    my_price_each: Floats,
) -> PricedLines:
    """Return the printed amounts of every line.

    Parameters
    ----------
    cuts : CutList
        n checked lines.
    costs : ExactCosts
        Their exact cost parts.
    shop : ShopForm
        Markup or margin, minimum per line, step, decimals.
    breaks : tuple of QuantityBreak
        Quantity breaks.
    spread_cost : float
        Exact cost of the job's rows that is spread over the lines; 0 when they are priced on their own [money].
    spread_by : ndarray of float, shape (n,)
        What it is spread by: paid minutes.
    my_price_each : ndarray of float, shape (n,)
        Price each that the owner typed; NaN where none [money].

    Returns
    -------
    PricedLines
        Shape (n,) each.

    Notes
    -----
    Markup or margin on the exact cost gives the price each, rounded once and then up to the shop's step; the amount is
    price each times quantity. A line at no price is not raised to the minimum of a line. Source: definition.
    """
    parts = {name: to_minor(getattr(costs, name), shop.decimals) for name in COST_PARTS}
    whole = spread_by.sum()
    exact = costs.cost + (spread_cost * spread_by / whole if spread_cost and whole > 0 else 0.0)
    raw_each = exact * shop.price_over_cost / cuts.quantity
    minor = 10.0**shop.decimals
    each = round_up_to_step(to_minor(raw_each, shop.decimals) / minor, shop.price_step)
    each = np.where(np.isnan(my_price_each), each, my_price_each)
    price_each = to_minor(each, shop.decimals)
    amount = price_each * cuts.quantity.astype(np.int64)
    typed = ~np.isnan(my_price_each)
    floor = int(to_minor(shop.minimum_line, shop.decimals))
    top_up = np.where(typed | (amount <= 0), 0, np.maximum(floor - amount, 0))
    price = amount + top_up
    share = _break_share(cuts, breaks)
    return PricedLines(
        parts=parts,
        cost=np.sum(np.stack(list(parts.values())), axis=0) if len(cuts) else np.zeros(0, dtype=np.int64),
        exact_cost=exact,
        price_each=price_each,
        amount=amount,
        top_up=top_up,
        price=price,
        break_off=to_minor(price / minor * share, shop.decimals),
        break_share=share,
    )


def price_job_rows(rows: list[JobRow], costs: ExactCosts, shop: ShopForm) -> PricedRows:
    """Return the printed amounts of the job's rows.

    Parameters
    ----------
    rows : list of JobRow, length k
        Rows of the job.
    costs : ExactCosts
        Their exact cost parts.
    shop : ShopForm
        Markup or margin, decimals, whether rows are spread.

    Returns
    -------
    PricedRows
        Prices are zero where the rows are spread over the lines.
    """
    parts = {name: to_minor(getattr(costs, name), shop.decimals) for name in COST_PARTS}
    price = to_minor(costs.cost * shop.price_over_cost, shop.decimals)
    return PricedRows(
        rows=rows,
        parts=parts,
        cost=np.sum(np.stack(list(parts.values())), axis=0),
        exact_cost=costs.cost,
        price=np.zeros_like(price) if shop.spread_job_rows else price,
    )


def total_up(lines: PricedLines, rows: PricedRows, shop: ShopForm, *, rush: float, discount: float) -> Totals:
    """Return the job's totals: sums of printed amounts, tax rounded once.

    Parameters
    ----------
    lines : PricedLines
        Lines.
    rows : PricedRows
        Rows of the job.
    shop : ShopForm
        Minimum, delivery, tax, decimals.
    rush, discount : float
        Shares on the job.

    Returns
    -------
    Totals
        In minor units.

    Notes
    -----
    Amounts and rows, quantity break, rush, discount, minimum per job, delivery, tax. Source: definition.
    """
    minor = 10.0**shop.decimals

    def share_of(amount: int, share: float) -> int:
        return int(to_minor(amount / minor * share, shop.decimals))

    of_lines, of_rows, off = int(lines.price.sum()), int(rows.price.sum()), int(lines.break_off.sum())
    before_rush = of_lines + of_rows - off
    rush_minor = share_of(before_rush, rush)
    discount_minor = share_of(before_rush + rush_minor, discount)
    after_discount = before_rush + rush_minor - discount_minor
    top_up = max(int(to_minor(shop.minimum_job, shop.decimals)) - after_discount, 0) if len(lines.price) else 0
    delivery = int(to_minor(shop.delivery, shop.decimals))
    taxable = after_discount + top_up + delivery
    tax = share_of(taxable, shop.tax)
    return Totals(
        lines=of_lines,
        job_rows=of_rows,
        quantity_break=off,
        rush=rush_minor,
        discount=discount_minor,
        minimum_top_up=top_up,
        delivery=delivery,
        taxable=taxable,
        tax=tax,
        total=taxable + tax,
        cost=int(lines.cost.sum() + rows.cost.sum()),
        parts={name: int(lines.parts[name].sum() + rows.parts[name].sum()) for name in COST_PARTS},
    )


def _break_share(cuts: CutList, breaks: tuple[QuantityBreak, ...]) -> Floats:
    """Return the share off each line, by the total quantity of its mark; an unmarked line stands alone."""
    if not breaks:
        return np.zeros(len(cuts))
    totals: dict[str, float] = {}
    for mark, quantity in zip(cuts.mark, cuts.quantity, strict=True):
        totals[mark] = totals.get(mark, 0.0) + quantity
    of_mark = np.array([totals[m] if m else q for m, q in zip(cuts.mark, cuts.quantity, strict=True)], dtype=np.float64)
    share = np.zeros(len(cuts))
    for row in sorted(breaks, key=lambda b: b.from_quantity):
        share = np.where(of_mark >= row.from_quantity, row.off_share, share)
    return share
