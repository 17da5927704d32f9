"""``rack``: will the cylinders finish the work, how hard may each be pulled, what to order and what to set."""

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

__all__ = ["rack"]


@at_the_boundary
def rack(
    cut_lists: Annotated[
        list[Path] | None,
        typer.Argument(metavar="CUT_LIST...", help="One cut list, or several: worked by their dates."),
    ] = None,
    won: Annotated[
        bool, typer.Option("--won", help="Plan all work of the register that is won and not done, too.")
    ] = False,
    until: Annotated[
        str, typer.Option("--until", metavar="YYYY-MM-DD", help="With --won: only work that begins by this day.")
    ] = "",
    register: opt.RegisterFile = None,
    shop: opt.ShopFile = None,
    sheet: opt.SheetName = "",
    columns: opt.Columns = "",
    encoding: opt.Encoding = "",
    date: opt.DateOption = "",
    fuel: opt.FuelOption = "",
    torches: Annotated[
        int, typer.Option("--torches", metavar="N", min=1, max=50, help="Torches at work on the rack at once.")
    ] = 1,
    by_tip: Annotated[bool, typer.Option("--by-tip", help="Work each list tip by tip, not in list order.")] = False,
    out: opt.Out = None,
    card: Annotated[
        Path | None, typer.Option("--card", metavar="FILE", help="Write the settings card as a PDF too.")
    ] = None,
    partial: opt.Partial = False,
    strict: opt.Strict = False,
    force: opt.Force = False,
    show_all: opt.ShowAll = False,
    json_out: opt.JsonOption = False,
    quiet: opt.Quiet = False,
) -> None:
    """Will the cylinders finish the work, and what to order.

    Run-dry lines, draw limits, order, settings card and cautions.

    Example: kerfledger rack parts.xlsx --shop shop_book.xlsx --card card.pdf
    """
    from estimator import tasks, tasks_register
    from estimator.pricing.job import JobOrder
    from estimator.tasks_week import rack_of_won
    from estimator.write.rack.json_form import rack_json
    from estimator.write.rack.outputs import write_rack
    from estimator.write.rack.text import next_step, rack_text

    order = JobOrder(date=parse_date(date), fuel=parse_fuel(fuel), partial=partial, strict=strict)
    reading = tasks.ReadOptions(sheet=sheet, columns=columns, encoding=encoding)
    lists = cut_lists or []
    if won:
        where = register or tasks_register.find_register(lists[0] if lists else Path.cwd())
        shop = shop or tasks.find_shop_book(where)
        day = parse_date(until)
        report = rack_of_won(where, lists, shop, order, reading, until=day, torches=torches, by_tip=by_tip)
        target = out or where.with_name("won_rack.xlsx")
    elif lists:
        shop = shop or tasks.find_shop_book(lists[0])
        report = tasks.rack(lists, shop, order, reading, torches=torches, by_tip=by_tip)
        target = out or lists[0].with_name(f"{lists[0].stem}_rack.xlsx")
    else:
        raise typer.BadParameter("name a cut list, or plan the work of the register with --won")
    inputs = [*lists, *([shop] if shop else [])]
    written, disk = write_rack(report, target, card=card, inputs=inputs, usual=out is None, force=force)
    if json_out:
        print_json(rack_json(report))
    else:
        answer = rack_text(report, whole=show_all)
        tell(
            answer,
            [*report.problems, *disk],
            written,
            do_next=next_step(report),
            brief=not show_all,
            rest_in="the workbook's sheet Problems, or --all",
            quiet=quiet,
        )
    if report.stop or report.incomplete:
        raise typer.Exit(Exit.PROBLEMS)
