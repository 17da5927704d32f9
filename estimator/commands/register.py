"""``register`` and ``decide``: look at the quotes that were sent, and say what became of one."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import at_the_boundary, parse_date, parse_word, print_json, tell, today
from estimator.problems.asked import UNKNOWN_STATE

__all__ = ["decide", "register"]


_DECISIONS = ("won", "done", "lost", "open")
"""What may become of a quote."""


@at_the_boundary
def register(
    register_file: opt.RegisterFile = None,
    json_out: opt.JsonOption = False,
    quiet: opt.Quiet = False,
) -> None:
    """Show the quotes that are open and won, and how many are won.

    Example: kerfledger register
    """
    from estimator import tasks_register
    from estimator.write.register_text import register_json, register_text

    where = register_file or tasks_register.find_register(Path.cwd())
    found, problems = tasks_register.open_register(where, named=register_file is not None)
    if json_out:
        print_json(register_json(found) | {"problems": [p.as_json() for p in problems]})
        return
    said = "kerfledger decide NUMBER won, or lost, when you hear of an open one." if found.quotes else ""
    tell(register_text(found), problems, do_next=said, quiet=quiet)


@at_the_boundary
def decide(
    number: Annotated[str, typer.Argument(metavar="NUMBER", help="The quote, as Q-0031.")],
    state: Annotated[
        str, typer.Argument(metavar="STATE", help="won, done, lost or open.", autocompletion=lambda: list(_DECISIONS))
    ],
    revision: Annotated[
        str, typer.Option("--revision", metavar="TEXT", help="Its revision; the one that stands when left out.")
    ] = "",
    variation: Annotated[
        int, typer.Option("--variation", metavar="N", min=0, help="A variation of it; 0 for the quote.")
    ] = 0,
    why: Annotated[str, typer.Option("--why", metavar="TEXT", help="The reason you were given.")] = "",
    job: Annotated[str, typer.Option("--job", metavar="TEXT", help="The number the work is logged under.")] = "",
    work_from: Annotated[
        str, typer.Option("--work-from", metavar="YYYY-MM-DD", help="The day the work is to begin.")
    ] = "",
    date: Annotated[str, typer.Option("--date", metavar="YYYY-MM-DD", help="The day you heard; else today.")] = "",
    register_file: opt.RegisterFile = None,
    json_out: opt.JsonOption = False,
    quiet: opt.Quiet = False,
) -> None:
    """Say what became of a quote.

    Example: kerfledger decide Q-0031 won --job J-104 --work-from 2026-11-16
    """
    from estimator import tasks_register
    from estimator.write.register_text import next_step, quote_line, quote_row_json

    row, problems = tasks_register.decide(
        register_file or tasks_register.find_register(Path.cwd()),
        number,
        parse_word(state, _DECISIONS, UNKNOWN_STATE),
        revision=revision,
        variation=variation,
        why=why,
        job_number=job,
        work_from=parse_date(work_from),
        on=parse_date(date) or today(),
    )
    if json_out:
        said = {"schema": "kerfledger/1", "quote": quote_row_json(row)}
        print_json(said | {"problems": [problem.as_json() for problem in problems]})
        return
    tell(f"{row.state}: {quote_line(row)}", problems, do_next=next_step(row), quiet=quiet)
