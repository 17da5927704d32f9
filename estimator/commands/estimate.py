"""``estimate``: from a cut list to a priced workbook."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import (
    Exit,
    at_the_boundary,
    parse_date,
    parse_fuel,
    print_json,
    tell,
)
from estimator.commands.progress import progress

__all__ = ["estimate"]

_REST = "the workbook's sheet Problems, or --all"


@at_the_boundary
def estimate(
    cut_list: opt.CutListFile,
    shop: opt.ShopFile = None,
    sheet: opt.SheetName = "",
    columns: opt.Columns = "",
    encoding: opt.Encoding = "",
    date: opt.DateOption = "",
    fuel: opt.FuelOption = "",
    labour_rate: opt.LabourRate = "",
    out: opt.Out = None,
    quote: Annotated[
        Path | None,
        typer.Option("--quote", metavar="FILE", help="Write a draft of the customer's page too; 'quote' sends it."),
    ] = None,
    pdf: Annotated[bool, typer.Option("--pdf", help="Write that draft as a PDF too.")] = False,
    fill: Annotated[
        Path | None, typer.Option("--fill", metavar="FILE", help="Write a copy of the list with prices added.")
    ] = None,
    fill_read_as: Annotated[
        bool, typer.Option("--fill-read-as", help="Show in that copy how each row was read, too.")
    ] = False,
    quote_number: Annotated[str, typer.Option("--quote-number", metavar="TEXT", help="Number on the quote.")] = "",
    revision: Annotated[str, typer.Option("--revision", metavar="TEXT", help="Revision on the quote.")] = "",
    old: Annotated[
        Path | None,
        typer.Option("--from", metavar="OLD_ESTIMATE", help="Keep the minutes, prices and reasons you typed in it."),
    ] = None,
    read_only: Annotated[bool, typer.Option("--read-only", help="Show how the list was read; price nothing.")] = False,
    values: Annotated[bool, typer.Option("--values", help="Write values without formulas.")] = False,
    problems: opt.ProblemsFile = None,
    partial: opt.Partial = False,
    strict: opt.Strict = False,
    force: opt.Force = False,
    show_all: opt.ShowAll = False,
    json_out: opt.JsonOption = False,
    quiet: opt.Quiet = False,
) -> None:
    """Price a cut list: the priced workbook is written beside it.

    Example: kerfledger estimate parts.xlsx --shop shop_book.xlsx
    """
    from estimator import tasks, tasks_again
    from estimator.commands import outputs
    from estimator.pricing.doubt import estimate_ranges
    from estimator.pricing.job import JobOrder
    from estimator.write.estimate_json import estimate_json
    from estimator.write.estimate_text import estimate_text
    from estimator.write.target import free_name

    order = JobOrder(
        date=parse_date(date),
        fuel=parse_fuel(fuel),
        partial=partial,
        strict=strict,
        labour_rate=labour_rate,
        quote_number=quote_number,
        revision=revision,
    )
    reading = tasks.ReadOptions(sheet=sheet, columns=columns, encoding=encoding)
    if read_only:
        outputs.show_reading(tasks.read_only(cut_list, shop, reading), json_out=json_out)
        return
    with outputs.marked_list(cut_list, problems, force=force):
        if old is None:
            done = tasks.estimate(cut_list, shop, order, reading)
        else:
            done = tasks_again.estimate_again(cut_list, shop, order, reading, old)
    done = tasks_again.with_last_prices(done, cut_list)
    progress("working out the range", len(done.cuts), quiet=quiet)
    ranges = estimate_ranges(done)
    usual = cut_list.with_name(f"{cut_list.stem}_estimate.xlsx")
    target = out or (usual if old is None else free_name(usual))
    page = (quote or cut_list.with_name(f"{cut_list.stem}_quote.xlsx")).with_suffix(".pdf") if pdf else None
    if fill_read_as and fill is None:
        fill = cut_list.with_name(f"{cut_list.stem}_filled{cut_list.suffix}")
    wanted = outputs.Outputs(
        target,
        quote=quote,
        pdf=page,
        fill=fill,
        fill_read_as=fill_read_as,
        problems=problems,
        values=values,
        force=force,
        old=old,
    )
    progress("writing the workbook", len(done.cuts), quiet=quiet)
    try:
        written = outputs.write_outputs(done, ranges, cut_list, shop or tasks.find_shop_book(cut_list), wanted)
    finally:
        progress("", len(done.cuts), quiet=quiet)
    if json_out:
        print_json(estimate_json(done, ranges))
    else:
        answer = estimate_text(done, ranges, whole=show_all)
        then = outputs.next_after_estimate(done, target, has_page=quote is not None or pdf)
        tell(answer, done.problems, written, do_next=then, brief=not show_all, rest_in=_REST, quiet=quiet)
    if done.incomplete:
        raise typer.Exit(Exit.PROBLEMS)
