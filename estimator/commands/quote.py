"""``quote``: the customer's file from the estimate as its owner left it, numbered and kept in the register."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import at_the_boundary, parse_date, print_json, tell, today

__all__ = ["quote"]


@at_the_boundary
def quote(
    estimate: Annotated[
        Path, typer.Argument(metavar="ESTIMATE", help="The workbook that 'estimate' wrote, with what you typed in it.")
    ],
    number: Annotated[
        str, typer.Option("--number", metavar="TEXT", help="Quote number; the next free one when left out.")
    ] = "",
    revision: Annotated[
        str, typer.Option("--revision", metavar="TEXT", help="Revision; the next one when left out.")
    ] = "",
    customer: Annotated[
        str, typer.Option("--customer", metavar="NAME", help="Who it is for, where the list does not say.")
    ] = "",
    date: Annotated[
        str, typer.Option("--date", metavar="YYYY-MM-DD", help="Day of the quote; else that of the estimate.")
    ] = "",
    shop: Annotated[
        Path | None,
        typer.Option(
            "--shop", metavar="BOOK", help="A shop book for name, address and terms; prices stay the sheet's."
        ),
    ] = None,
    out: opt.Out = None,
    pdf: Annotated[bool, typer.Option("--pdf", help="Write the page as a PDF too.")] = False,
    register: opt.RegisterFile = None,
    partial: opt.Partial = False,
    force: opt.Force = False,
    json_out: opt.JsonOption = False,
    quiet: opt.Quiet = False,
) -> None:
    """Write the customer's page from an estimate as you left it.

    What you typed into it holds; number and revision go into the register.

    Example: kerfledger quote parts_estimate.xlsx --pdf
    """
    from estimator import tasks, tasks_quote
    from estimator.write.quote.answer import quote_json, quote_text

    words = tasks.read_shop(shop)[0] if shop else None
    order = tasks_quote.QuoteOrder(
        number=number,
        revision=revision,
        customer=customer,
        on=parse_date(date),
        today=today(),
        register=register,
        out=out,
        pdf=pdf,
        words=words,
        partial=partial,
        force=force,
    )
    sent = tasks_quote.send_quote(estimate, order)
    if json_out:
        print_json(quote_json(sent.row, sent.estimate, sent.changes, sent.files, sent.problems))
        return
    then = f"send it. When you hear whether it is won or lost\n$ kerfledger decide {sent.row.number} won"
    tell(quote_text(sent.row, sent.estimate, sent.changes), sent.problems, sent.files, do_next=then, quiet=quiet)
