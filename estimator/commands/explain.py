"""``explain``: one line worked step by step."""

from __future__ import annotations

from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import (
    at_the_boundary,
    parse_date,
    parse_fuel,
    print_json,
    say,
)

__all__ = ["explain"]


@at_the_boundary
def explain(
    cut_list: opt.CutListFile,
    row: Annotated[str, typer.Argument(metavar="ROW", help="Row as the spreadsheet numbers it, or a mark.")],
    shop: opt.ShopFile = None,
    sheet: opt.SheetName = "",
    columns: opt.Columns = "",
    encoding: opt.Encoding = "",
    date: opt.DateOption = "",
    fuel: opt.FuelOption = "",
    partial: opt.Partial = False,
    strict: opt.Strict = False,
    json_out: opt.JsonOption = False,
) -> None:
    """Work one line step by step: formula, figures, answer, source.

    Example: kerfledger explain parts.xlsx 12
    """
    from dataclasses import asdict

    from estimator import tasks
    from estimator.pricing.explain import explain_line, line_sentence
    from estimator.pricing.job import JobOrder
    from estimator.write.explain_text import explain_text

    order = JobOrder(date=parse_date(date), fuel=parse_fuel(fuel), partial=partial, strict=strict)
    done = tasks.estimate(cut_list, shop, order, tasks.ReadOptions(sheet=sheet, columns=columns, encoding=encoding))
    line = tasks.find_line(done, row)
    if json_out:
        steps = [asdict(step) for step in explain_line(done, line)]
        print_json({"schema": "kerfledger/1", "sentence": line_sentence(done, line), "steps": steps})
    else:
        say(explain_text(done, line))
