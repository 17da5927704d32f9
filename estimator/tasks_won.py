"""The tasks on quotes that were won, step by step: open what was quoted, write a variation of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from estimator.check.register import QuoteRow, Register
from estimator.pricing.job import Estimate
from estimator.pricing.job_card import JobCard, job_card
from estimator.pricing.money import to_minor
from estimator.pricing.quote_issue import QuoteIssue, quote_print, quoted_lines, row_of
from estimator.pricing.variation import variation_estimate
from estimator.problems import Place, Problem, WorkbookProblemsError
from estimator.problems import quotes as say
from estimator.sheets.register import AGREED, QUOTES
from estimator.tasks import ReadOptions, read_list
from estimator.tasks_quote import ReopenedEstimate, SentQuote, reopen_estimate
from estimator.tasks_register import file_stem, kept_file, open_register, quote_row, relative_name
from estimator.write.book import Paper
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.quote.page import QuotePage, quote_page
from estimator.write.quote.pdf import quote_pdf
from estimator.write.quote.workbook import quote_workbook
from estimator.write.register import RegisterChange, changing_register
from estimator.write.save import Content, holds, save
from estimator.write.target import check_targets

__all__ = ["VariationOrder", "WonJob", "card_of_job", "open_won", "send_variation", "won_jobs"]


@dataclass(frozen=True, slots=True)
class VariationOrder:
    """What is asked for a variation, beside the quote and the list of extras."""

    revision: str = ""
    on: dt.date | None = None
    """Day of the variation; today when left out."""
    reading: ReadOptions = field(default_factory=ReadOptions)
    set_up_again: bool = False
    out: Path | None = None
    pdf: bool = False
    partial: bool = False
    force: bool = False


@dataclass(slots=True)
class WonJob:
    """A quote that was won, opened as it was quoted."""

    row: QuoteRow
    kept: Path
    reopened: ReopenedEstimate


def open_won(path: Path, register: Register, row: QuoteRow) -> WonJob:
    """Open the estimate that was kept of a quote.

    Parameters
    ----------
    path : Path
        The register's file.
    register : Register
        What it holds.
    row : QuoteRow
        The quote.

    Returns
    -------
    WonJob

    Raises
    ------
    WorkbookProblemsError
        When the quote is not won, its estimate is gone, or no longer gives the price that was quoted.
    """
    place = Place(register.file, QUOTES.name, row.row)
    if row.state not in AGREED:
        raise WorkbookProblemsError([say.NOT_WON.at(place, key=row.key, state=row.state, number=row.number)])
    kept = kept_file(path, row)
    reopened = reopen_estimate(kept, old_engine_is_a_note=True)
    decimals, now = reopened.estimate.shop.shop.decimals, reopened.estimate.totals.taxable
    if int(to_minor(row.price, decimals)) != now and reopened.record.total_minor == reopened.before.totals.total:
        said = {"quoted": f"{row.price:,.{decimals}f}", "now": f"{now / 10**decimals:,.{decimals}f}"}
        raise WorkbookProblemsError([say.KEPT_ESTIMATE_CHANGED.at(place, key=row.key, **said)])
    return WonJob(row, kept, reopened)


def won_jobs(path: Path, number: str, revision: str = "") -> tuple[list[WonJob], list[Problem]]:
    """Open a won quote and its won variations, in their order; return them with the warnings on the way."""
    register, problems = open_register(path, named=True)
    main = _won_row(register, number, revision)
    rows = [row for row in register.of_number(number) if row.revision == main.revision and row.state in AGREED]
    jobs = [open_won(path, register, main)] + [open_won(path, register, row) for row in rows if row.variation]
    return jobs, [*problems, *(p for job in jobs for p in job.reopened.problems)]


def card_of_job(register: Path, number: str, revision: str = "") -> tuple[JobCard, list[Problem]]:
    """Return the job card of a quote that was won, its won variations on it, and the warnings on the way."""
    jobs, problems = won_jobs(register, number, revision)
    main = jobs[0].row
    extras = "".join(f" + variation {job.row.variation}" for job in jobs[1:])
    card = job_card(
        [job.reopened.estimate for job in jobs],
        quote=f"{main.number} revision {main.revision}{extras}",
        quote_number=main.number,
        job_number=main.job_number,
        work_from=main.work_from,
    )
    return card, problems


def send_variation(register_path: Path, number: str, extras: Path, order: VariationOrder) -> SentQuote:
    """Write a slip for extras to a quote that was won, and its row in the register.

    Parameters
    ----------
    register_path : Path
        The register.
    number : str
        The quote.
    extras : Path
        A list of the extra lines, as any cut list.
    order : VariationOrder
        What is asked.

    Returns
    -------
    SentQuote

    Raises
    ------
    WorkbookProblemsError
        When the quote is not won, or an extra cannot be priced; then nothing was written.
    """
    with changing_register(register_path) as change:
        won = open_won(register_path, change.register, _won_row(change.register, number, order.revision))
        estimate, issue, place = _variation(change.register, won, extras, order)
        page = variation_page(quote_page(estimate), won.row, place, order.on or dt.date.today())
        named = _variation_files(won, estimate, page, order)
        files = [(file, content, what) for file, content, what in named if not holds(file, content)]
        inputs = [extras, register_path, won.kept]
        check_targets([file for file, _, _ in files], inputs=inputs, force=order.force)
        row = issue.sent_before or _variation_row(change, won, estimate, page, named)
        problems = [*won.reopened.problems, *estimate.problems, *change.problems]
        problems += change.write(paper=Paper(page.paper))
        for file, content, _ in files:
            problems += save(file, content, inputs=inputs, force=order.force)
    if issue.sent_before is not None:
        problems.append(say.SAME_QUOTE.at(Place(extras.name), key=row.key))
    return SentQuote(row, page, estimate, None, [(file, what) for file, _, what in files], problems)


def _variation(
    register: Register, won: WonJob, extras: Path, order: VariationOrder
) -> tuple[Estimate, QuoteIssue, int]:
    """Price the extras and find their place: that of the same variation sent before, or the next."""
    listed = read_list(extras, order.reading, won.reopened.estimate.shop)
    estimate = variation_estimate(
        won.reopened.estimate,
        listed.cuts,
        set_up_again=order.set_up_again,
        partial=order.partial,
        problems=listed.problems,
    )
    fingerprint = quote_print(estimate)
    variations = [row for row in register.of_number(won.row.number) if row.variation]
    sent = next((row for row in variations if row.print == fingerprint), None)
    # Variations of all revisions count on, so that none is mistaken for another.
    following = max((row.variation or 0 for row in variations), default=0) + 1
    place = following if sent is None or not sent.variation else sent.variation
    return estimate, QuoteIssue(won.row.number, won.row.revision, sent_before=sent), place


def _variation_files(
    won: WonJob, estimate: Estimate, page: QuotePage, order: VariationOrder
) -> list[tuple[Path, Content, str]]:
    stem = file_stem(won.row.number, won.row.revision, page.variation)
    slip, what = order.out or won.kept.with_name(f"{stem}.xlsx"), "the variation, for the customer to sign"
    files: list[tuple[Path, Content, str]] = [(slip, quote_workbook(page), what)]
    if order.pdf:
        files.append((slip.with_suffix(".pdf"), quote_pdf(page), what))
    kept = won.kept.with_name(f"{stem}_estimate.xlsx")
    return [*files, (kept, estimate_workbook(estimate), "its estimate, for your own eyes")]


def _variation_row(
    change: RegisterChange,
    won: WonJob,
    estimate: Estimate,
    page: QuotePage,
    files: Sequence[tuple[Path, Content, str]],
) -> QuoteRow:
    """Put the variation into the register, open until it is signed."""
    folder, issue = change.path.parent, QuoteIssue(won.row.number, won.row.revision)
    names = {"file": relative_name(files[0][0], folder), "kept": relative_name(files[-1][0], folder)}
    new = row_of(estimate, issue, quote_print(estimate), on=page.date or won.row.date, **names)
    own = {"variation": page.variation, "job_number": won.row.job_number, "work_from": won.row.work_from}
    row = new.model_copy(update=own)
    change.add(row, quoted_lines(estimate, issue, page.variation))
    return row


def _won_row(register: Register, number: str, revision: str) -> QuoteRow:
    """Return the row of a quote, of several revisions the one that was won."""
    won = [row for row in register.revisions(number) if row.state in AGREED]
    if won and not revision:
        return won[-1]
    return quote_row(register, number, revision)


def variation_page(page: QuotePage, won: QuoteRow, place: int, on: dt.date) -> QuotePage:
    """Return the page of a variation: the quote's, dated, with what it rests on said."""
    basis = f"The rates of quotation {won.number}, revision {won.revision}, of {won.date.isoformat()}."
    kept = [(what, text) for what, text in page.terms if what not in ("Valid for", "Delivery")]
    terms = (("Priced at", basis), *kept, ("Begins", "When this slip is signed."))
    return replace(
        page,
        number=won.number,
        revision=won.revision,
        variation=place,
        customer=won.customer,
        date=on,
        valid_until=None,
        terms=terms,
    )
