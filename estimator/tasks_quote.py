"""The quote from the sheet that the owner worked on, step by step: reopen, price as typed, number, write, register."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field, replace
from pathlib import Path

import numpy as np

from estimator import __version__
from estimator.check.register import QuoteRow, Register, next_revision
from estimator.check.shop_book import ShopBook
from estimator.pricing.job import Estimate
from estimator.pricing.job_record import JobRecord
from estimator.pricing.money import format_minor
from estimator.pricing.quote_changes import RevisionChanges, revision_changes
from estimator.pricing.quote_issue import QuoteIssue, issue_quote, numbered, quote_print, quoted_lines, row_of
from estimator.pricing.typed_figures import TypedFigures, priced_as_typed
from estimator.problems import Place, Problem, WorkbookProblemsError, raise_on_errors
from estimator.problems import quotes as say
from estimator.read.cells import Book
from estimator.read.load import load_book
from estimator.sheets.register import OPEN, REPLACED
from estimator.tasks_register import file_stem, find_register, relative_name
from estimator.tasks_replace import same_estimate, same_page
from estimator.write.book import Paper
from estimator.write.estimate.record_sheet import read_job_record
from estimator.write.estimate.shown_figures import shown_problems
from estimator.write.estimate.typed_cells import find_lines, typed_figures
from estimator.write.quote.gaps import quote_gaps
from estimator.write.quote.page import QuotePage, changes_shown, quote_page
from estimator.write.quote.pdf import quote_pdf
from estimator.write.quote.workbook import quote_workbook
from estimator.write.register import RegisterChange, changing_register
from estimator.write.save import Content, holds, save
from estimator.write.target import check_targets

_WORDS = (
    "shop_name",
    "address",
    "contact",
    "tolerance_words",
    "not_included",
    "left_over_words",
    "payment_terms",
    "delivery_time",
    "validity_days",
)
"""What the customer's page takes from another shop book: words, never a figure that the price rests on."""

__all__ = ["QuoteOrder", "ReopenedEstimate", "SentQuote", "reopen_estimate", "send_quote"]


@dataclass(slots=True)
class ReopenedEstimate:
    """An estimate as its owner left it."""

    path: Path
    sha256: str
    record: JobRecord
    before: Estimate
    """As it was written."""
    typed: TypedFigures
    estimate: Estimate
    """With what was typed since."""
    problems: list[Problem] = field(default_factory=list)
    """Warnings and notes."""


@dataclass(frozen=True, slots=True)
class QuoteOrder:
    """What is asked for a quote, beside the estimate."""

    number: str = ""
    revision: str = ""
    customer: str = ""
    """Empty for the list's."""
    on: dt.date | None = None
    """Day of the quote; None for the estimate's own."""
    today: dt.date | None = None
    """The day itself; None leaves unsaid whether the quote is still valid."""
    register: Path | None = None
    out: Path | None = None
    pdf: bool = False
    words: ShopBook | None = None
    """A shop book whose name, address and terms are printed; None for those of the estimate."""
    partial: bool = False
    force: bool = False


@dataclass(frozen=True, slots=True)
class _Files:
    customers: Path
    kept: Path
    writes: list[tuple[Path, Content, str]]
    """Each file with its content and what it is."""


@dataclass(slots=True)
class SentQuote:
    """A quote as it was written."""

    row: QuoteRow
    page: QuotePage
    estimate: Estimate
    changes: RevisionChanges | None
    """Against the revision before it."""
    files: list[tuple[Path, str]]
    """Each file that was written, and what it is."""
    problems: list[Problem]


def reopen_estimate(path: Path, *, old_engine_is_a_note: bool = False) -> ReopenedEstimate:
    """Read an estimate back and price it with what its owner typed.

    Parameters
    ----------
    path : Path
        The workbook that ``estimate`` wrote, as it was left.
    old_engine_is_a_note : bool
        Whether prices of an older engine are said and kept, as for a quote that was sent; else they stop the run.

    Returns
    -------
    ReopenedEstimate

    Raises
    ------
    WorkbookProblemsError
        When it is no estimate, when a typed cell cannot be read, or when the sheet shows other figures than its typed
        cells give.
    """
    book = load_book(path)
    record = read_job_record(book)
    before = record.priced()
    problems = _engine_problems(book, record, before, as_note=old_engine_is_a_note)
    typed, found = typed_figures(book, before)
    raise_on_errors(problems := [*problems, *found])
    after = _priced(path, record, before, typed)
    lines, _ = find_lines(book, before)
    if lines is not None and not problems:
        problems += shown_problems(book, lines, before, after)
    raise_on_errors(problems)
    return ReopenedEstimate(path, book.sha256, record, before, typed, after, problems)


def _priced(path: Path, record: JobRecord, before: Estimate, typed: TypedFigures) -> Estimate:
    try:
        with np.errstate(divide="ignore", invalid="ignore"):  # what comes of it is refused as not finite
            return priced_as_typed(record, before, typed)
    except ValueError as error:
        tips = [f"tip {key.tip} at {key.thickness_mm:g} mm" for key in typed.settings]
        changed = ", ".join([*(name.replace("_", " ") for name, _ in typed.rates), *tips]) or "the lines"
        problem = say.TYPED_NOT_PRICED.at(Place(path.name), reason=str(error), changed=changed)
        raise WorkbookProblemsError([problem]) from error


def _engine_problems(book: Book, record: JobRecord, before: Estimate, *, as_note: bool) -> list[Problem]:
    """Say when this engine gives another total for the record than the one that wrote it."""
    if before.totals.total == record.total_minor:
        return []
    decimals = before.shop.shop.decimals
    totals = {"before": record.total_minor, "after": before.totals.total}
    said = {name: format_minor(minor, decimals) for name, minor in totals.items()}
    code = say.OLD_ENGINE if as_note else say.ENGINE_DIFFERS
    return [code.at(Place(book.path.name), engine=record.engine, now=__version__, **said)]


def send_quote(path: Path, order: QuoteOrder) -> SentQuote:
    """Write the customer's file of an estimate as its owner left it, and its row in the register.

    Parameters
    ----------
    path : Path
        The estimate.
    order : QuoteOrder
        What is asked.

    Returns
    -------
    SentQuote

    Raises
    ------
    WorkbookProblemsError
        When the estimate cannot be quoted; then nothing was written.

    Notes
    -----
    The row goes into the register before the files are named, so that a number is never given twice; a run that dies
    between the two is made good by the next, which finds the row and writes the files.
    """
    reopened = reopen_estimate(path)
    estimate = _as_asked(reopened.estimate, order)
    if estimate.incomplete and not order.partial:
        raise WorkbookProblemsError([say.INCOMPLETE.at(Place(path.name), count=len(estimate.unpriced))])
    quote_page(estimate)  # refuses example prices before anything is numbered
    fingerprint = quote_print(estimate)
    register_path = order.register or find_register(path)
    with changing_register(register_path) as change:
        issue = issue_quote(change.register, estimate, fingerprint, number=order.number, revision=order.revision)
        estimate = numbered(estimate, issue)
        changes = _changes(change.register, issue, estimate)
        on = estimate.date or (issue.sent_before.date if issue.sent_before else order.today or dt.date.today())
        page = quote_page(estimate, on)
        if changes is not None:
            page = replace(page, changes=changes_shown(changes, lump_sum=page.lump_sum))
        files = _files(path, order, page, issue)
        writes = [one for one in files.writes if not _is_there(*one[:2], path, files)]
        if issue.sent_before is not None and not order.force:
            _refuse_changed([file for file, _, _ in writes if file.is_file()], issue.sent_before, change.register)
        check_targets([file for file, _, _ in writes], inputs=[path, register_path], force=order.force)
        row = issue.sent_before or _new_row(change, estimate, issue, fingerprint, files, on)
        problems = [
            *quote_gaps(estimate, on, order.today),
            *reopened.problems,
            *change.problems,
            *change.write(paper=Paper(page.paper)),
        ]
        for file, content, _ in writes:
            problems += save(file, content, inputs=[path, register_path], force=order.force)
    if issue.sent_before is not None:
        problems.append(say.SAME_QUOTE.at(Place(path.name), key=row.key))
    return SentQuote(row, page, estimate, changes, [(file, what) for file, _, what in writes], problems)


def _as_asked(estimate: Estimate, order: QuoteOrder) -> Estimate:
    """Return the estimate with the customer and the words that were asked for."""
    if order.customer:
        title = replace(estimate.cuts.title, customer=order.customer)
        estimate = replace(estimate, cuts=replace(estimate.cuts, title=title))
    if order.on is not None:
        estimate = replace(estimate, date=order.on)
    if order.words is not None:
        own = {name: getattr(order.words.shop, name) for name in _WORDS}
        shop = estimate.shop.model_copy(update={"shop": estimate.shop.shop.model_copy(update=own)})
        estimate = replace(estimate, shop=shop)
    return estimate


def _changes(register: Register, issue: QuoteIssue, estimate: Estimate) -> RevisionChanges | None:
    before = issue.previous or _before(register, issue)
    if before is None:
        return None
    return revision_changes(
        before.revision,
        register.lines_of(before.key),
        quoted_lines(estimate, issue),
        price_before=before.price,
        price_after=estimate.totals.taxable / 10.0**estimate.shop.shop.decimals,
        decimals=estimate.shop.shop.decimals,
    )


def _before(register: Register, issue: QuoteIssue) -> QuoteRow | None:
    """Return the revision before one that was sent already."""
    earlier = register.revisions(issue.number)
    place = next((i for i, row in enumerate(earlier) if row is issue.sent_before), 0)
    return earlier[place - 1] if place else None


def _files(path: Path, order: QuoteOrder, page: QuotePage, issue: QuoteIssue) -> _Files:
    """Name the files to write: the customer's, as a workbook and a PDF, and the estimate as it was quoted."""
    stem = file_stem(issue.number, issue.revision)
    book = order.out or path.with_name(f"{stem}.xlsx")
    kept = path.with_name(f"{stem}_estimate.xlsx")
    writes: list[tuple[Path, Content, str]] = [(book, quote_workbook(page), "the quote, for the customer")]
    if order.pdf:
        writes.append((book.with_suffix(".pdf"), quote_pdf(page), "the quote, for the customer"))
    if kept.resolve() != path.resolve():
        writes.append((kept, path.read_bytes(), "the estimate as it was quoted, for your own eyes"))
    return _Files(book, kept, writes)


def _is_there(file: Path, content: Content, estimate: Path, files: _Files) -> bool:
    """Say whether a file holds what would be written, though another program saved it or the estimate since."""
    if holds(file, content) or not file.is_file():
        return file.is_file()
    return same_estimate(file, estimate) if file == files.kept else same_page(file, content)


def _refuse_changed(files: list[Path], sent: QuoteRow, register: Register) -> None:
    """Refuse to write over files of a quote that was sent and is the same."""
    free = next_revision(register.revisions(sent.number)[-1].revision)
    said = [say.QUOTE_FILE_DIFFERS.at(Place(str(file)), key=sent.key, free=free) for file in files]
    raise_on_errors(said)


def _new_row(
    change: RegisterChange, estimate: Estimate, issue: QuoteIssue, fingerprint: str, files: _Files, on: dt.date
) -> QuoteRow:
    """Put the quote into the register; revisions before it that are still open are replaced by it."""
    folder = change.path.parent
    row = row_of(
        estimate,
        issue,
        fingerprint,
        on=on,
        file=relative_name(files.customers, folder),
        kept=relative_name(files.kept, folder),
    )
    change.add(row, quoted_lines(estimate, issue))
    for earlier in change.register.revisions(issue.number):
        if earlier.state == OPEN:
            change.change(earlier.key, state=REPLACED)
    return row
