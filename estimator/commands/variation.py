"""``variation``: extras to a quote that was won, at its own rates and date, on a slip to be signed."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import at_the_boundary, parse_date, print_json, tell, today

__all__ = ["variation"]


@at_the_boundary
def variation(
    number: Annotated[str, typer.Argument(metavar="NUMBER", help="The quote that was won, as Q-0031.")],
    extras: Annotated[Path, typer.Argument(metavar="LIST", help="A list of the extras, as any cut list.")],
    revision: Annotated[str, typer.Option("--revision", metavar="TEXT", help="Its revision, if not the one won.")] = "",
    date: Annotated[str, typer.Option("--date", metavar="YYYY-MM-DD", help="Day of the slip; else today.")] = "",
    set_up_again: Annotated[
        bool, typer.Option("--set-up-again", help="Charge set-up, travel, delivery and the minimum once more.")
    ] = False,
    sheet: opt.SheetName = "",
    columns: opt.Columns = "",
    encoding: opt.Encoding = "",
    out: opt.Out = None,
    pdf: Annotated[bool, typer.Option("--pdf", help="Write the slip as a PDF too.")] = False,
    register: opt.RegisterFile = None,
    partial: opt.Partial = False,
    force: opt.Force = False,
    json_out: opt.JsonOption = False,
    quiet: opt.Quiet = False,
) -> None:
    """Price extras to a won quote at its own rates, on a slip to sign.

    Example: kerfledger variation Q-0031 extras.xlsx --pdf
    """
    from estimator import tasks, tasks_register, tasks_won
    from estimator.write.quote.answer import quote_json, quote_text

    order = tasks_won.VariationOrder(
        revision=revision,
        on=parse_date(date) or today(),
        reading=tasks.ReadOptions(sheet=sheet, columns=columns, encoding=encoding),
        set_up_again=set_up_again,
        out=out,
        pdf=pdf,
        partial=partial,
        force=force,
    )
    sent = tasks_won.send_variation(register or tasks_register.find_register(extras), number, extras, order)
    if json_out:
        print_json(quote_json(sent.row, sent.estimate, None, sent.files, sent.problems))
        return
    then = (
        "have the slip signed before the work begins; then\n"
        f"$ kerfledger decide {sent.row.number} won --variation {sent.row.variation}"
    )
    tell(quote_text(sent.row, sent.estimate, None), sent.problems, sent.files, do_next=then, quiet=quiet)
