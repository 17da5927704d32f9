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
from estimator.commands.as_typed import Said, command_line, run_as_typed
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

_WARNINGS = re.compile(r"([0-9]+ warnings?)\b")
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
    figure: str
    """Finds the one figure of its answer that is shown where the whole is not."""
    says: str = "{0}"
    """That figure in words, with the pattern's groups by number."""


@at_the_boundary
def demo(
    context: typer.Context,
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="Where the sample and its results go.")] = Path(
        "demo"
    ),
    force: opt.Force = False,
    show_all: opt.ShowAll = False,
    quiet: opt.Quiet = False,
) -> None:
    """Run every task on an invented shop's sample.

    Says one figure of each; --all gives each command with its answer.

    Example: kerfledger demo demo
    """
    _copy_sample(folder, force=force)
    tasks = demo_tasks(folder)
    say(f"Made the folder {folder}: an invented shop, and what {len(tasks)} tasks make of its files.", quiet=quiet)
    for number, task in enumerate(tasks, 1):
        said = _answered(context, [*task.arguments, *(["--force"] if force else [])])
        if show_all:
            told = f"$ {command_line(task.arguments)}\n{_account(said)}"
        else:
            told = f"   {_figure(task, said)}\n   in {', '.join(_names(said))}"
        say(f"\n{number}. {task.question}\n{told}", quiet=quiet)
    say(
        f"\nOpen {folder / 'cut_list_estimate.xlsx'} first, and change the labour rate on its\n"
        "sheet Rates: the price follows.\n"
        f"Next: make a folder for your own shop, and price your own list\n$ {command_line(('start', 'my_shop'))}",
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
            r"(Total: [\d.,]+ \S+)",
        ),
        DemoTask(
            "What does the customer get?",
            ("quote", str(folder / "cut_list_estimate.xlsx"), "--out", out["quote.xlsx"], "--pdf"),
            r"(\S+ revision \S+), .*: ([\d.,]+ \S+ before [^,]+)",
            "{0}: {1}; listed in quotes_register.xlsx",
        ),
        DemoTask(
            "Will the cylinders on the rack finish it, and what do we order?",
            ("rack", cut_list, *shop, "--card", out["settings_card.pdf"]),
            r"(The rack [^.]+)",
        ),
        DemoTask(
            "Whose gas is cheapest for this work?",
            ("compare", at["price_lists.xlsx"], "--cut-list", cut_list, *shop),
            r"^(.* is cheapest).*?: (\S+ \S+ a month)",
            "{0}: {1}",
        ),
        DemoTask(
            "Is the month's gas bill right, and where did the gas go?",
            ("reconcile", *bills, *log, *shop),
            r"^(.*? too much)",
        ),
        DemoTask(
            "What do our own jobs say against the handbook?",
            ("calibrate", *log, *shop, "--out", out["shop_book_learned.xlsx"]),
            r"hours (\d+%) and (\d+%)",
            "hours foretold from the handbook are off by {0}, from its own jobs by {1}",
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


def _answered(context: typer.Context, arguments: Sequence[str]) -> Said:
    """Run one command as typed; one that says nothing ends the demo with what it complains of."""
    said = run_as_typed(context, arguments)
    if said.code in (Exit.OUR_FAULT, Exit.USAGE) or not said.out:
        sys.stderr.write(said.problems)
        raise typer.Exit(said.code or Exit.OUR_FAULT)
    return said


def _figure(task: DemoTask, said: Said) -> str:
    found = re.search(task.figure, " ".join(said.out.split("\n\n")[0].split()))
    return task.says.format(*found.groups()) if found else said.out.splitlines()[0]


def _names(said: Said) -> list[str]:
    """Return the files that a command wrote, by their names alone."""
    wrote = (line.removeprefix("Wrote ").split(": ")[0] for line in said.out.splitlines() if line.startswith("Wrote "))
    return [Path(name).name for name in wrote]


def _account(said: Said) -> str:
    """Return a command's first paragraph, what it wrote, and whether it named problems."""
    lines = said.out.splitlines()
    wrote = _wrote(lines)
    first = [line for line in (lines[: lines.index("")] if "" in lines else lines) if line not in wrote]
    warned = any(_WARNINGS.search(line) for line in first)
    return "\n".join(
        [
            *(_WARNINGS.sub(r"\1, which the command prints", line) for line in first),
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
