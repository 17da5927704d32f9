"""``reconcile``, the month end: are the bills right, did the work use the gas, what did each job cost."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import Exit, at_the_boundary, parse_date, print_json, tell

__all__ = ["reconcile"]


@at_the_boundary
def reconcile(
    bills: Annotated[
        Path, typer.Option("--bills", metavar="BILLS", help="Bills, delivery notes, cylinder counts, agreed prices.")
    ],
    log: Annotated[
        Path | None, typer.Option("--log", metavar="LOG", help="The work log; the bills are checked without it too.")
    ] = None,
    shop: opt.ShopFile = None,
    prices: Annotated[
        list[Path] | None,
        typer.Option("--prices", metavar="LIST", help="A price list, for prices not among the bills."),
    ] = None,
    register: opt.RegisterFile = None,
    date: Annotated[
        str, typer.Option("--date", metavar="YYYY-MM-DD", help="Day from which the days left to object are counted.")
    ] = "",
    out: opt.Out = None,
    letter: Annotated[
        Path | None, typer.Option("--letter", metavar="FILE", help="Write the page for the supplier by itself.")
    ] = None,
    strict: opt.Strict = False,
    force: opt.Force = False,
    json_out: opt.JsonOption = False,
    quiet: opt.Quiet = False,
) -> None:
    """Month end: are the gas bills right, and did the work use it.

    Checks the bills, balances the gas, shares the money over the jobs. Exit 4 when they do not agree.

    Example: kerfledger reconcile --bills bills.xlsx --log work_log.xlsx --shop shop_book.xlsx
    """
    from estimator.tasks import find_shop_book, read_shop
    from estimator.tasks_month_end import close_month
    from estimator.tasks_register import quoted_work
    from estimator.write.left_alone import REPLACED, left_alone
    from estimator.write.month_end.as_json import month_end_json
    from estimator.write.month_end.book import month_end_workbook, supplier_pages
    from estimator.write.month_end.text import month_end_text, next_step
    from estimator.write.save import save
    from estimator.write.target import check_targets

    shop = shop or find_shop_book(bills)
    quotes = quoted_work(register, bills, read_shop(shop)[0].shop.decimals) if log else {}
    report = close_month(bills, log, shop, prices=prices or (), as_of=parse_date(date), strictly=strict, quotes=quotes)
    target = out or bills.with_name(f"{bills.stem}_month_end.xlsx")
    pages = supplier_pages(report, letter) if letter else {}
    inputs = [path for path in (bills, log, shop, *(prices or ())) if path is not None]
    anew = left_alone([target]) if out is None and not force else []
    check_targets([target, *pages], inputs=inputs, force=force, anew=anew)
    save(target, month_end_workbook(report), inputs=inputs, force=force or bool(anew))
    for path, page in pages.items():
        save(path, page, inputs=inputs, force=force)
    if json_out:
        print_json(month_end_json(report))
    else:
        written = [(target, "the month end, for the shop's own eyes" + REPLACED * bool(anew))]
        written += [(path, "the page for the supplier") for path in pages]
        tell(month_end_text(report), report.problems, written, do_next=next_step(report), quiet=quiet)
    if not report.done.reconciles:
        raise typer.Exit(Exit.DOES_NOT_RECONCILE)
