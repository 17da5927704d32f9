"""What a customer is told, and nothing else: the one thing that the quote's files are written from."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np

from estimator.check.flags import tolerance_in
from estimator.pricing.job import Estimate
from estimator.pricing.quote_changes import RevisionChanges
from estimator.problems import Place, WorkbookProblemsError
from estimator.problems import writing as codes
from estimator.words import BLANK, Steel
from estimator.write.quote.piece import lines_in_inches, piece_made

__all__ = ["PRICES", "QuoteChanges", "QuoteLine", "QuotePage", "QuoteSum", "changes_shown", "quote_page"]

PRICES = (5, 6)
"""Columns of the lines that hold money."""
_SHORT = 25
"""Lines of the longest list that is tried on one page."""
_STEEL_SAID = {Steel.OURS: "included", Steel.THEIRS: "yours", Steel.EXCLUDED: "not included"}


@dataclass(frozen=True, slots=True)
class QuoteLine:
    """One line of the quote; amounts in minor units."""

    mark: str
    drawing: str
    description: str
    steel: str
    quantity: float
    price_each: int | None
    """None where the shop quotes a lump sum, or the line has no price."""
    amount: int | None
    note: str = ""
    """``minimum charge`` or ``not priced``."""
    made: str = ""
    """What it is, as it was read: shape, thickness and sizes, holes, bevel; nothing that the description says."""

    @property
    def words(self) -> str:
        """What stands in the column of descriptions: the list's own, what is made, the note."""
        said = ": ".join(filter(None, (self.description, self.made)))
        return f"{said} ({self.note})" if self.note else said


@dataclass(frozen=True, slots=True)
class QuoteSum:
    """One row of the sums below the lines."""

    what: str
    minor: int
    strong: bool = False


@dataclass(frozen=True, slots=True)
class QuoteChanges:
    """What is different from the revision that the customer has; amounts in minor units."""

    title: str
    rows: tuple[tuple[str, str, int | None], ...]
    """What changed, how, and what it adds to the price before tax; no amounts where the shop quotes a lump sum."""


@dataclass(frozen=True, slots=True)
class QuotePage:
    """The whole page."""

    shop: tuple[str, ...]
    """Name, address, contact; blanks left out."""
    number: str
    revision: str
    date: dt.date | None
    valid_until: dt.date | None
    customer: str
    job: str
    currency: str
    decimals: int
    paper: str
    lump_sum: bool
    lines: tuple[QuoteLine, ...]
    sums: tuple[QuoteSum, ...]
    terms: tuple[tuple[str, str], ...]
    """What is agreed: a word and what is said."""
    incomplete: bool = False
    variation: int = 0
    """Number of a variation to the quote; 0 for the quote itself."""
    changes: QuoteChanges | None = None
    """What is different from an earlier revision."""

    @property
    def is_short(self) -> bool:
        """Whether it goes on one page, unless long texts would make its print too small to read."""
        return len(self.lines) <= _SHORT

    @property
    def has_drawings(self) -> bool:
        """Whether a line names a drawing; a column that is empty on every line is left out."""
        return any(line.drawing for line in self.lines)

    @property
    def title(self) -> str:
        """Heading of the page."""
        revision = f", revision {self.revision}" if self.revision else ""
        name = f"Quotation {self.number}{revision}".strip() if self.number else f"Quotation{revision}"
        return f"Variation {self.variation} to {name[0].lower()}{name[1:]}" if self.variation else name

    @property
    def facts(self) -> list[tuple[str, str]]:
        """Words at the head of the page with what is said to each; those of which nothing is known are left out."""
        facts = (
            ("Date", self.date.isoformat() if self.date else ""),
            ("Valid until", self.valid_until.isoformat() if self.valid_until else ""),
            ("Customer", self.customer),
            ("Job", self.job),
        )
        return [(what, text) for what, text in facts if text]

    @property
    def headings(self) -> tuple[str, ...]:
        """Headings of the lines; a lump sum shows none of its prices."""
        money = f", {self.currency}"
        return ("Mark", "Drawing", "Description", "Steel", "Quantity", f"Price each{money}", f"Amount{money}")

    def money(self, minor: int) -> float:
        """Return an amount in the major unit."""
        return minor / 10.0**self.decimals


def quote_page(estimate: Estimate, on: dt.date | None = None) -> QuotePage:
    """Return what the customer is told of an estimate.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    on : datetime.date, optional
        Day of the quote where the job has no date; prices do not follow it.

    Returns
    -------
    QuotePage
        With rows that have no price named as such.

    Raises
    ------
    WorkbookProblemsError
        When the prices are the invented examples.

    Notes
    -----
    Rows of the job are one amount, so that no time or rate can be read from them. Source: definition.
    """
    shop, title, order = estimate.shop.shop, estimate.cuts.title, estimate.order
    if estimate.shop.is_example:
        raise WorkbookProblemsError([codes.EXAMPLE_PRICES.at(Place(estimate.shop.file))])
    date = estimate.date or on
    return QuotePage(
        shop=tuple(text for text in (shop.shop_name, shop.address, shop.contact) if text),
        number=order.quote_number or title.quote_number,
        revision=order.revision or title.revision,
        date=date,
        valid_until=date + dt.timedelta(days=shop.validity_days) if date else None,
        customer=title.customer,
        job=title.job,
        currency=shop.currency,
        decimals=shop.decimals,
        paper=shop.paper,
        lump_sum=shop.lump_sum,
        lines=tuple(_lines(estimate)),
        sums=tuple(_sums(estimate)),
        terms=tuple(_terms(estimate, date)),
        incomplete=estimate.incomplete,
    )


def changes_shown(changes: RevisionChanges, *, lump_sum: bool) -> QuoteChanges:
    """Return the changes since a revision as the customer sees them.

    Parameters
    ----------
    changes : RevisionChanges
        What changed.
    lump_sum : bool
        Whether the shop quotes one sum, so that no line has a price.

    Returns
    -------
    QuoteChanges
        With the difference of the whole as its last row.
    """
    rows: list[tuple[str, str, int | None]] = [
        (f"{one.mark} {one.change}", "" if lump_sum else one.what, None if lump_sum else one.difference_minor)
        for one in changes.lines
    ]
    if changes.rest_minor and not lump_sum:
        rows.append(("Set-up, discounts and the rest", "", changes.rest_minor))
    whole = changes.now_minor - changes.was_minor
    return QuoteChanges(f"Changed since revision {changes.since}", (*rows, ("Difference before tax", "", whole)))


def _lines(estimate: Estimate) -> list[QuoteLine]:
    cuts, priced, lump = estimate.cuts, estimate.lines, estimate.shop.shop.lump_sum
    in_inches, lines = lines_in_inches(cuts), []
    for line in range(len(cuts)):
        minimum = bool(priced.top_up[line] > 0)
        lines.append(
            QuoteLine(
                mark=cuts.mark[line],
                drawing=cuts.drawing[line],
                description=cuts.description[line],
                steel=_steel(int(cuts.steel[line])),
                quantity=float(cuts.quantity[line]),
                price_each=None if lump else int(priced.price_each[line]),
                amount=None if lump else int(priced.price[line]),
                note="minimum charge" if minimum and not lump else "",
                made=piece_made(estimate, line, inch=in_inches[line]),
            )
        )
    for place in estimate.unpriced:
        lines.append(QuoteLine("", "", f"row {place.row} of your list", "", 0.0, None, None, "not priced"))
    return lines


def _steel(code: int) -> str:
    return "" if code == BLANK else _STEEL_SAID[Steel(code)]


def _sums(estimate: Estimate) -> list[QuoteSum]:
    """Return the sums in the order of the page; rows of nothing are left out."""
    t, shop = estimate.totals, estimate.shop.shop
    total = "Total of the priced lines, INCOMPLETE" if estimate.incomplete else "Total"
    if shop.lump_sum:
        head = [QuoteSum("Price", t.taxable, strong=True)]
    else:
        rows = (
            ("Lines", t.lines),
            ("Set-up and work for the whole job", t.job_rows),
            ("Quantity discount", -t.quantity_break),
            ("Rush", t.rush),
            ("Discount", -t.discount),
            ("Minimum charge", t.minimum_top_up),
            ("Delivery", t.delivery),
        )
        head = [QuoteSum(what, minor) for what, minor in rows if minor or what == "Lines"]
        head.append(QuoteSum(f"Net, before {shop.tax_name.lower()}", t.taxable, strong=True))
    tax = f"{shop.tax_name} {shop.tax * 100:g} %" if shop.tax else f"No {shop.tax_name.lower()} added"
    return [*head, QuoteSum(tax, t.tax), QuoteSum(total, t.total, strong=True)]


def _terms(estimate: Estimate, date: dt.date | None) -> list[tuple[str, str]]:
    shop, steel = estimate.shop.shop, estimate.cuts.steel
    valid = f"{shop.validity_days} days"
    if date:
        valid += f", until {(date + dt.timedelta(days=shop.validity_days)).isoformat()}"
    risk = "We do not know its grade; hard or unknown plate is worked at your risk."
    said = (
        (
            "Edges and sizes",
            tolerance_in(shop.tolerance_words, units=shop.units, list_in_inches=any(lines_in_inches(estimate.cuts))),
        ),
        ("Your own steel", risk if np.any(steel == Steel.THEIRS) else ""),
        (f"{shop.offcut_word.capitalize()}s", shop.left_over_words if np.any(steel != BLANK) else ""),
        ("Not included", shop.not_included),
        ("Delivery", shop.delivery_time),
        ("Payment", shop.payment_terms),
        ("Valid for", valid),
    )
    return [(what, text) for what, text in said if text]
