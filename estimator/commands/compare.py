"""``compare``: whose gas is cheapest for this shop, and on which fuel."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import at_the_boundary, parse_date, print_json, tell

__all__ = ["compare"]


@at_the_boundary
def compare(
    price_lists: Annotated[
        list[Path],
        typer.Argument(metavar="PRICE_LISTS", help="Price lists of several suppliers, in one workbook or several."),
    ],
    log: Annotated[
        Path | None, typer.Option("--log", metavar="LOG", help="A work log that says what a month uses.")
    ] = None,
    cut_list: Annotated[
        Path | None,
        typer.Option("--cut-list", metavar="LIST", help="A cut list that says what is used; compares fuels too."),
    ] = None,
    months: Annotated[
        float, typer.Option("--months", metavar="N", min=0.01, help="Months of work that the cut list holds.")
    ] = 1.0,
    long_burns: Annotated[
        bool, typer.Option("--long-burns", help="A torch burns more than 10 minutes without a break of 5.")
    ] = False,
    shop: opt.ShopFile = None,
    sheet: opt.SheetName = "",
    columns: opt.Columns = "",
    encoding: opt.Encoding = "",
    date: opt.DateOption = "",
    out: opt.Out = None,
    strict: opt.Strict = False,
    force: opt.Force = False,
    json_out: opt.JsonOption = False,
    quiet: opt.Quiet = False,
) -> None:
    """Whose gas is cheapest for what this shop uses, and why.

    Rent, fees, vans and cylinder sizes count; what would change the answer is said.

    Example: kerfledger compare price_lists.xlsx --cut-list parts.xlsx
    """
    from estimator.tasks import ReadOptions
    from estimator.tasks_compare import CompareOrder
    from estimator.tasks_compare import compare as compare_task
    from estimator.write.comparison_book import comparison_workbook
    from estimator.write.comparison_json import comparison_json
    from estimator.write.comparison_text import summary_text
    from estimator.write.left_alone import REPLACED, left_alone
    from estimator.write.save import save
    from estimator.write.target import check_targets

    if log is not None and cut_list is not None:
        raise typer.BadParameter("name a log or a cut list, not both", param_hint="--log")
    order = CompareOrder(
        shop=shop,
        log=log,
        cut_list=cut_list,
        months=months,
        long_burns=long_burns,
        date=parse_date(date),
        strict=strict,
        reading=ReadOptions(sheet=sheet, columns=columns, encoding=encoding),
    )
    target = out or price_lists[0].with_name(f"{price_lists[0].stem}_comparison.xlsx")
    inputs = [*price_lists, *(path for path in (shop, log, cut_list) if path is not None)]
    anew = left_alone([target]) if out is None and not force else []
    check_targets([target], inputs=inputs, force=force, anew=anew)
    done = compare_task(price_lists, order)
    warnings = save(target, comparison_workbook(done), inputs=inputs, force=force or bool(anew))
    if json_out:
        print_json(comparison_json(done))
        return
    tell(
        summary_text(done),
        [*done.problems, *warnings],
        [(target, "the comparison" + REPLACED * bool(anew))],
        do_next=f"ask the suppliers the questions of {target.name} before you sign.",
        quiet=quiet,
    )
