"""Which number and revision a quote takes, so that none is used twice and none that was sent is changed."""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace

import numpy as np

from estimator.check.register import QuotedLine, QuoteKey, QuoteRow, Register, next_revision
from estimator.pricing.job import Estimate
from estimator.problems import Place, WorkbookProblemsError
from estimator.problems import quotes as say
from estimator.sheets.register import FIRST_REVISION, QUOTES

__all__ = ["QuoteIssue", "issue_quote", "numbered", "quote_print", "quoted_lines", "row_of"]

_LETTERS = 8
"""Letters of each half of a fingerprint: one mix-up in four thousand million."""


@dataclass(frozen=True, slots=True)
class QuoteIssue:
    """What a quote is to be called."""

    number: str
    revision: str
    sent_before: QuoteRow | None = None
    """The row of this very quote, where it was written before."""
    previous: QuoteRow | None = None
    """The revision that it follows."""

    @property
    def key(self) -> QuoteKey:
        """Its key in the register."""
        return QuoteKey(self.number.upper(), self.revision.upper())


def issue_quote(
    register: Register, estimate: Estimate, fingerprint: str, *, number: str = "", revision: str = ""
) -> QuoteIssue:
    """Return number and revision of a quote.

    Parameters
    ----------
    register : Register
        The register.
    estimate : Estimate
        The job as it is to be quoted.
    fingerprint : str
        What ``quote_print`` gave for it.
    number, revision : str
        As asked for; empty for the list's own, else the next that is free.

    Returns
    -------
    QuoteIssue

    Raises
    ------
    WorkbookProblemsError
        When the number belongs to another job, or the revision was sent with another content.

    Notes
    -----
    A job that was quoted before keeps its number: the same list is the same job. Source: definition.
    """
    title = estimate.cuts.title
    asked = number or estimate.order.quote_number or title.quote_number
    number = asked or _number_of_job(register, fingerprint) or _free_number(register)
    earlier = register.revisions(number)
    if register.is_taken(number):
        _hold_to_job(register, number, earlier, title.customer, fingerprint)
    same = [row for row in earlier if row.print == fingerprint]
    if same and (not revision or same[-1].revision.upper() == revision.upper()):
        return QuoteIssue(same[-1].number, same[-1].revision, sent_before=same[-1])
    wanted = revision or _own_revision(earlier, estimate)
    taken = next((row for row in earlier if row.revision.upper() == wanted.upper()), None)
    following = next_revision(earlier[-1].revision) if earlier else FIRST_REVISION
    if taken is not None:
        place = Place(register.file, QUOTES.name, taken.row)
        raise WorkbookProblemsError([say.REVISION_SENT.at(place, found=str(taken.key), number=number, free=following)])
    return QuoteIssue(number, wanted, previous=earlier[-1] if earlier else None)


def quote_print(estimate: Estimate) -> str:
    """Return a fingerprint of a quote: which job it is, and what the customer is asked to pay for what.

    Parameters
    ----------
    estimate : Estimate
        The priced job.

    Returns
    -------
    str
        Two halves: the list, and lines, prices and words.
    """
    title = replace(estimate.cuts.title, quote_number="", revision="")
    lines = [line.model_dump(exclude={"number", "revision", "variation", "paid_time_min"}) for line in
             quoted_lines(estimate, QuoteIssue("", ""))]  # fmt: skip
    words = estimate.shop.shop.model_dump(
        include={"tolerance_words", "not_included", "left_over_words", "payment_terms", "delivery_time"}
    )
    steel = estimate.cuts.steel.tolist()
    content = [asdict(title), lines, words, steel, str(estimate.date), estimate.totals.total, estimate.totals.taxable]
    return f"{_hash(_job_of(estimate))}-{_hash(repr(content))}"


def quoted_lines(estimate: Estimate, issue: QuoteIssue, variation: int | None = None) -> list[QuotedLine]:
    """Return the lines of a quote as the register keeps them.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    issue : QuoteIssue
        Its number and revision.
    variation : int, optional
        Number of a variation.

    Returns
    -------
    list of QuotedLine
    """
    cuts, priced, minor = estimate.cuts, estimate.lines, 10.0**estimate.shop.shop.decimals
    minutes = estimate.paid_time_min
    return [
        QuotedLine(
            number=issue.number,
            revision=issue.revision,
            variation=variation,
            mark=cuts.mark[i],
            description=cuts.description[i],
            thickness_mm=None if np.isnan(cuts.thickness_mm[i]) else float(cuts.thickness_mm[i]),
            quantity=float(cuts.quantity[i]),
            price_each=float(priced.price_each[i]) / minor,
            amount=float(priced.price[i]) / minor,
            paid_time_min=round(float(minutes[i]), 2),
        )
        for i in range(len(cuts))
    ]


def row_of(estimate: Estimate, issue: QuoteIssue, fingerprint: str, *, on: dt.date, file: str, kept: str) -> QuoteRow:
    """Return the row of a quote as the register keeps it.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    issue : QuoteIssue
        Its number and revision.
    fingerprint : str
        What ``quote_print`` gave.
    on : datetime.date
        Day of the quote.
    file, kept : str
        The customer's file and the kept estimate, as the register names them.

    Returns
    -------
    QuoteRow
        Open.
    """
    title, minor = estimate.cuts.title, 10.0**estimate.shop.shop.decimals
    return QuoteRow(
        number=issue.number,
        revision=issue.revision,
        date=on,
        customer=title.customer,
        title=title.job,
        price=estimate.totals.taxable / minor,
        total=estimate.totals.total / minor,
        hours=round(estimate.whole_paid_time_min / 60.0, 2),
        oxygen_m3=round(estimate.job.drawn_oxygen_m3, 3),
        fuel=estimate.kit.fuel,
        fuel_m3=round(estimate.job.drawn_fuel_m3, 3),
        gas_cost=estimate.totals.parts["gas"] / minor,
        file=file,
        estimate=kept,
        print=fingerprint,
    )


def numbered(estimate: Estimate, issue: QuoteIssue) -> Estimate:
    """Return the estimate with the number and revision that it is quoted under."""
    order = replace(estimate.order, quote_number=issue.number, revision=issue.revision)
    return replace(estimate, order=order)


def _job_of(estimate: Estimate) -> str:
    """Return what tells one job from another: the list, or the lines where there is no file."""
    cuts = estimate.cuts
    return cuts.sha256 + "|".join(cuts.sheet[:1]) or repr([cuts.mark, cuts.thickness_mm.tolist()])


def _number_of_job(register: Register, fingerprint: str) -> str:
    job = fingerprint.partition("-")[0]
    rows = [row for row in register.quotes if not row.variation and row.print.partition("-")[0] == job]
    return rows[-1].number if rows else ""


def _free_number(register: Register) -> str:
    number = register.next_number()
    if number is None:
        last = register.taken[-1]
        raise WorkbookProblemsError([say.NO_NEXT_NUMBER.at(Place(register.file, QUOTES.name), found=last)])
    return number


def _hold_to_job(register: Register, number: str, earlier: Sequence[QuoteRow], customer: str, fingerprint: str) -> None:
    """Refuse a number that went to another customer's job, or stands in a row that cannot be read."""
    job = fingerprint.partition("-")[0]
    same_job = any(row.print.partition("-")[0] == job for row in earlier)
    same_customer = bool(customer.strip()) and any(_plain(row.customer) == _plain(customer) for row in earlier)
    if same_job or same_customer:
        return
    went_to = earlier[-1].customer or "a customer who is not named" if earlier else "a row that cannot be read"
    place = Place(register.file, QUOTES.name, earlier[-1].row if earlier else 0)
    free = register.next_number() or "any that ends in a digit"
    raise WorkbookProblemsError(
        [say.NUMBER_OF_ANOTHER.at(place, found=number, number=number, customer=went_to, free=free)]
    )


def _own_revision(earlier: Sequence[QuoteRow], estimate: Estimate) -> str:
    """Return the list's own revision where it is free, else the next."""
    own = estimate.order.revision or estimate.cuts.title.revision
    if own and own.upper() not in {row.revision.upper() for row in earlier}:
        return own
    return next_revision(earlier[-1].revision) if earlier else FIRST_REVISION


def _hash(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:_LETTERS]


def _plain(text: str) -> str:
    return " ".join(text.upper().split())
