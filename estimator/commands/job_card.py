"""``job-card``: the page that goes to the bench with the steel and comes back as the work log."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import at_the_boundary, print_json, tell

__all__ = ["job_card"]


@at_the_boundary
def job_card(
    number: Annotated[str, typer.Argument(metavar="NUMBER", help="The quote that was won, as Q-0031.")],
    revision: Annotated[str, typer.Option("--revision", metavar="TEXT", help="Its revision, if not the one won.")] = "",
    out: opt.Out = None,
    register: opt.RegisterFile = None,
    force: opt.Force = False,
    json_out: opt.JsonOption = False,
    quiet: opt.Quiet = False,
) -> None:
    """Write the bench page of a won quote, to print and type back.

    Example: kerfledger job-card Q-0031
    """
    from estimator import tasks_register, tasks_won
    from estimator.write.job_card.pdf import job_card_pdf
    from estimator.write.job_card.words import card_json
    from estimator.write.job_card.workbook import job_card_workbook
    from estimator.write.left_alone import REPLACED, left_alone
    from estimator.write.save import save
    from estimator.write.target import check_targets

    where = register or tasks_register.find_register(Path.cwd())
    card, problems = tasks_won.card_of_job(where, number, revision)
    pdf = (out or where.with_name(f"{tasks_register.plain_name(number)}_job_card.pdf")).with_suffix(".pdf")
    book = pdf.with_suffix(".xlsx")
    replaces = not force and out is None and bool(left_alone([book]))
    check_targets([pdf, book], inputs=[where], force=force, anew=[pdf, book] if replaces else [])
    problems += save(pdf, job_card_pdf(card), inputs=[where], force=force or replaces)
    problems += save(book, job_card_workbook(card), inputs=[where], force=force or replaces)
    if json_out:
        print_json(card_json(card) | {"problems": [p.as_json() for p in problems]})
        return
    written = [(pdf, "the job card, to print"), (book, "the same as a workbook" + REPLACED * replaces)]
    then = f"type its foot into the work log when it comes back; then\n$ kerfledger decide {number} done"
    tell("", problems, written, do_next=then, quiet=quiet)
