"""``calibrate``: learn the shop's own figures from its work log."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import at_the_boundary, parse_date, print_json, tell

__all__ = ["calibrate"]


@at_the_boundary
def calibrate(
    log: Annotated[
        Path, typer.Option("--log", metavar="LOG", help="Your work log, with bottle tags if there are any.")
    ],
    out: Annotated[Path, typer.Option("--out", metavar="NEW_BOOK", help="The new shop book; the old one stays.")],
    shop: opt.ShopFile = None,
    date: Annotated[
        str, typer.Option("--date", metavar="YYYY-MM-DD", help="Day from which ages count; else the log's last day.")
    ] = "",
    register: opt.RegisterFile = None,
    strict: opt.Strict = False,
    force: opt.Force = False,
    json_out: opt.JsonOption = False,
    quiet: opt.Quiet = False,
) -> None:
    """Learn your own figures from logged jobs.

    Writes a new shop book and a report of what its figures rest on.

    Example: kerfledger calibrate --log work_log.xlsx --shop shop_book.xlsx --out shop_book_new.xlsx
    """
    from estimator import tasks, tasks_calibrate, tasks_register
    from estimator.write.book import Paper
    from estimator.write.calibration_book import calibration_workbook
    from estimator.write.calibration_text import calibration_json, calibration_text
    from estimator.write.save import save
    from estimator.write.shop_book import shop_book_workbook
    from estimator.write.target import check_targets

    shop = shop or tasks.find_shop_book(log)
    report = out.with_name(f"{out.stem}_report.xlsx")
    inputs = [log, *([shop] if shop else [])]
    check_targets([out, report], inputs=inputs, force=force)
    quotes = tasks_register.quoted_work(register, log, 2)
    minutes = {number: quote.paid_time_min for number, quote in quotes.items()}
    found = tasks_calibrate.calibrate(log, shop, on=parse_date(date), strictly=strict, quoted_min=minutes or None)
    new_book = found.learned.shop
    said = [
        *found.problems,
        *save(out, shop_book_workbook(new_book, title="Shop book"), inputs=inputs, force=force),
        *save(report, calibration_workbook(found, Paper(new_book.shop.paper)), inputs=inputs, force=force),
    ]
    if json_out:
        print_json(calibration_json(found))
        return
    then = f"open {report.name}; where your own figures come nearer than the handbook, {out.name} is your shop book."
    written = [(out, "the new shop book"), (report, "what it rests on")]
    tell(calibration_text(found), said, written, do_next=then, quiet=quiet)
