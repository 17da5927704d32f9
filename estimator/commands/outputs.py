"""What the estimate command writes: the priced workbook, the customer's page, the filled list, the marked list."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import typer

from estimator.commands.boundary import Exit, print_json, print_problems, say, today
from estimator.pricing.doubt import EstimateRanges
from estimator.pricing.job import Estimate
from estimator.problems import Level, WorkbookProblemsError
from estimator.tasks import ListReading
from estimator.tasks_replace import may_replace_estimate
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.quote.gaps import quote_gaps
from estimator.write.save import save
from estimator.write.target import check_lines, check_targets

__all__ = ["Outputs", "marked_list", "next_after_estimate", "show_reading", "write_outputs"]


_NOT_SENT = "a draft, not in your register"
_ANEW = "it replaces an untouched one"


@dataclass(frozen=True, slots=True)
class Outputs:
    """Which files are wanted, and how."""

    workbook: Path
    quote: Path | None = None
    pdf: Path | None = None
    fill: Path | None = None
    fill_read_as: bool = False
    """Whether the filled list shows how each row was read."""
    problems: Path | None = None
    """Where the list goes with the problems of its rows marked."""
    values: bool = False
    force: bool = False
    old: Path | None = None
    """An estimate that was read for its owner's figures."""


def write_outputs(
    done: Estimate, ranges: EstimateRanges, cut_list: Path, shop: Path | None, wanted: Outputs
) -> list[tuple[Path, str]]:
    """Write every file that was asked for, none when one of them cannot be; return each with what it is."""
    inputs = [path for path in (cut_list, shop, wanted.old) if path is not None]
    targets = (wanted.workbook, wanted.quote, wanted.pdf, wanted.fill, wanted.problems)
    replaces = not wanted.force and may_replace_estimate(wanted.workbook, cut_list)
    anew = [wanted.workbook] if replaces else []
    check_targets([path for path in targets if path is not None], inputs=inputs, force=wanted.force, anew=anew)
    check_lines(wanted.workbook, len(done.cuts))
    page = None
    if wanted.quote or wanted.pdf:
        from estimator.write.quote.page import quote_page

        now = today()
        page = quote_page(done, now)
        done.problems += quote_gaps(done, now, now)
    filled = filled_list(done, cut_list, read_as=wanted.fill_read_as, force=wanted.force) if wanted.fill else b""
    book = estimate_workbook(
        done, values_only=wanted.values, price_range=ranges.price, hours_range=ranges.paid_time_min
    )
    save(wanted.workbook, book, inputs=inputs, force=wanted.force or replaces)
    written = [(wanted.workbook, f"the priced estimate; {_ANEW if replaces else 'for your own eyes'}")]
    if wanted.quote and page:
        from estimator.write.quote.workbook import quote_workbook

        save(wanted.quote, quote_workbook(page), inputs=inputs, force=wanted.force)
        written.append((wanted.quote, f"the customer's page, without the shop's figures; {_NOT_SENT}"))
    if wanted.pdf and page:
        from estimator.write.quote.pdf import quote_pdf

        save(wanted.pdf, quote_pdf(page), inputs=inputs, force=wanted.force)
        written.append((wanted.pdf, f"the customer's page as a PDF; {_NOT_SENT}"))
    if wanted.problems:
        from estimator.write.marked_list import reading_problems, write_marked_list

        write_marked_list(cut_list, wanted.problems, reading_problems(done.problems), force=wanted.force)
        written.append((wanted.problems, "the list with its problems marked"))
    if wanted.fill:
        save(wanted.fill, filled, inputs=inputs, force=wanted.force)
        written.append((wanted.fill, "the list as it was sent, with prices added"))
    return written


def next_after_estimate(done: Estimate, workbook: Path, *, has_page: bool = False) -> str:
    """Return what to do with a priced estimate, in the words of the terminal; a page is not in the register yet."""
    if done.incomplete:
        return "answer what is asked above, and run it again."
    if done.shop.is_example:
        return "these prices are invented; kerfledger start FOLDER makes a shop book of your own."
    name = f'"{workbook}"' if " " in str(workbook) else workbook
    first = "before you send the page, number it and put it in the register" if has_page else "then"
    return f"look it over, type in its yellow cells, save; {first}\n$ kerfledger quote {name} --pdf"


def filled_list(done: Estimate, cut_list: Path, *, read_as: bool, force: bool) -> bytes:
    """Return a copy of the list with prices, and how it was read where asked for, right of everything on its sheets."""
    from estimator.write.fill import fill_problems, filled_workbook
    from estimator.write.fill_columns import price_fillings

    data = cut_list.read_bytes()
    problems = fill_problems(cut_list.name, data, force=force)
    if problems:
        raise WorkbookProblemsError(problems)
    fillings = price_fillings(done, read_as=read_as)
    return filled_workbook(data, fillings, name=cut_list.name, decimals=done.shop.shop.decimals)


def show_reading(reading: ListReading, *, json_out: bool) -> None:
    """Print how a list was read, row by row, without pricing; a row that cannot be priced ends it as in pricing."""
    from estimator.write.reading_text import reading_json, reading_text

    if json_out:
        print_json(reading_json(reading.cuts, reading.problems))
    else:
        say(reading_text(reading.cuts))
        print_problems(reading.problems)
    if any(problem.level is Level.ERROR for problem in reading.problems):
        raise typer.Exit(Exit.PROBLEMS)


@contextlib.contextmanager
def marked_list(cut_list: Path, target: Path | None, *, force: bool) -> Iterator[None]:
    """Where a problem stops the job and a file is named for it, write the list with its problems marked."""
    try:
        yield
    except WorkbookProblemsError as error:
        if target is not None:
            from estimator.write.marked_list import write_marked_list

            write_marked_list(cut_list, target, error.problems, force=force)
        raise
