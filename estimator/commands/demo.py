"""``demo``: the invented shop's sample, with every task run on it as its owner would type it."""

from __future__ import annotations

import re
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.as_typed import command_line, run_as_typed
from estimator.commands.boundary import Exit, at_the_boundary, say

__all__ = ["SAMPLE_FILES", "demo", "demo_tasks", "sample_folder"]

SAMPLE_FILES = (
    "cut_list.xlsx",
    "shop_book.xlsx",
    "suppliers/price_lists.xlsx",
    "month_end/bills.xlsx",
    "month_end/work_log.xlsx",
)
"""What the demo copies, flat, into its folder."""

_BELOW = re.compile(r"([0-9]+ warnings?), below")
"""What an answer says of problems that follow it; here they are left to the command."""
_MEANS = {
    Exit.PROBLEMS: "It stopped: something needs your answer first (exit code 3).",
    Exit.DOES_NOT_RECONCILE: "The bills do not agree with what was delivered (exit code 4).",
}


@dataclass(frozen=True, slots=True)
class DemoTask:
    """One task of the demo: what the owner asks, and the command that answers."""

    question: str
    arguments: tuple[str, ...]


@at_the_boundary
def demo(
    context: typer.Context,
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="Where the sample and its results go.")] = Path(
        "demo"
    ),
    force: opt.Force = False,
    quiet: opt.Quiet = False,
) -> None:
    """Run every task on an invented shop's sample.

    Example: kerfledger demo demo
    """
    _copy_sample(folder, force=force)
    tasks = demo_tasks(folder)
    say(
        f"Every shop, customer, supplier and price in {folder} is invented. {len(tasks)} tasks follow, each with its "
        "command; files go beside the lists.",
        quiet=quiet,
    )
    for number, task in enumerate(tasks, 1):
        account = _run(context, [*task.arguments, *(["--force"] if force else [])])
        say(f"\n{number}. {task.question}\n$ {command_line(task.arguments)}\n{account}", quiet=quiet)
    say(
        f"\nOpen {folder / 'cut_list_estimate.xlsx'} first and change a rate: it prices itself anew. For your own "
        "shop: kerfledger start FOLDER",
        quiet=quiet,
    )


def demo_tasks(folder: Path) -> list[DemoTask]:
    """Return every task of the demo, in the order in which a shop meets them."""
    at = {name.rsplit("/", 1)[-1]: str(folder / name.rsplit("/", 1)[-1]) for name in SAMPLE_FILES}
    cut_list, shop = at["cut_list.xlsx"], ("--shop", at["shop_book.xlsx"])
    log, bills = ("--log", at["work_log.xlsx"]), ("--bills", at["bills.xlsx"])
    out = {
        name: str(folder / name)
        for name in ("cut_list_filled.xlsx", "quote.xlsx", "settings_card.pdf", "shop_book_learned.xlsx")
    }
    return [
        DemoTask(
            "What do we charge for this list?",
            ("estimate", cut_list, *shop, "--fill", out["cut_list_filled.xlsx"]),
        ),
        DemoTask(
            "What does the customer get? (Its number goes into quotes_register.xlsx.)",
            ("quote", str(folder / "cut_list_estimate.xlsx"), "--out", out["quote.xlsx"], "--pdf"),
        ),
        DemoTask(
            "Will the cylinders on the rack finish it, and what do we order?",
            ("rack", cut_list, *shop, "--card", out["settings_card.pdf"]),
        ),
        DemoTask(
            "Whose gas is cheapest for this work?",
            ("compare", at["price_lists.xlsx"], "--cut-list", cut_list, *shop),
        ),
        DemoTask("Is the month's gas bill right, and where did the gas go?", ("reconcile", *bills, *log, *shop)),
        DemoTask(
            "What do our own jobs say against the handbook?",
            ("calibrate", *log, *shop, "--out", out["shop_book_learned.xlsx"]),
        ),
    ]


def sample_folder() -> Path:
    """Return the folder of the sample job: inside the installed package, or the project's own."""
    installed = Path(str(files("estimator"))) / "_sample_jobs"
    return installed if installed.is_dir() else Path(__file__).resolve().parents[2] / "sample_jobs"


def _copy_sample(folder: Path, *, force: bool) -> None:
    from estimator.write.save import save
    from estimator.write.target import check_targets, make_folder

    make_folder(folder)
    targets = [folder / Path(name).name for name in SAMPLE_FILES]
    check_targets(targets, force=force)
    for name, target in zip(SAMPLE_FILES, targets, strict=True):
        save(target, (sample_folder() / name).read_bytes(), force=force)


def _run(context: typer.Context, arguments: Sequence[str]) -> str:
    """Run one command as typed; return its first paragraph, what it wrote, and whether it named problems."""
    said = run_as_typed(context, arguments)
    if said.code in (Exit.OUR_FAULT, Exit.USAGE) or not said.out:
        sys.stderr.write(said.problems)
        raise typer.Exit(said.code or Exit.OUR_FAULT)
    lines = said.out.splitlines()
    first = lines[: lines.index("")] if "" in lines else lines
    wrote = _wrote(lines)
    first = [line for line in first if line not in wrote]
    warned = any(_BELOW.search(line) for line in first)
    first = [_BELOW.sub(r"\1, which the command prints", line) for line in first]
    return "\n".join(
        [
            *first,
            *([_MEANS[Exit(said.code)]] if said.code in _MEANS else []),
            *(["The command prints what to look at, besides."] if said.problems and not warned else []),
            *wrote,
        ]
    )


def _wrote(lines: Sequence[str]) -> list[str]:
    wrote: list[str] = []
    for line in lines:
        if line.startswith("Wrote ") or (wrote and line.startswith("  ")):
            wrote.append(line)
        elif wrote:
            break
    return wrote
