"""``blanks`` and ``demo``: blank workbooks to fill in, and the invented shop's sample with every task run on it."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import at_the_boundary, print_problems, say

__all__ = ["blanks", "demo", "sample_folder"]


@at_the_boundary
def blanks(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="Where the blank workbooks go.")],
    force: opt.Force = False,
    quiet: opt.Quiet = False,
) -> None:
    """Write the blank workbooks: cut list, shop book, price lists, work log, bills.

    Example: kerfledger blanks my_shop
    """
    from estimator.write.blanks import write_blanks

    folder.mkdir(parents=True, exist_ok=True)
    written, problems = write_blanks(folder, force=force)
    print_problems(problems)
    for path in written:
        say(f"Wrote {path}", quiet=quiet)


@at_the_boundary
def demo(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="Where the sample and its results go.")] = Path(
        "demo"
    ),
    force: opt.Force = False,
    quiet: opt.Quiet = False,
) -> None:
    """Price the invented shop's sample job, and run every other task on it.

    Example: kerfledger demo demo
    """
    from estimator.commands.estimate import estimate
    from estimator.commands.rack import rack
    from estimator.write.save import save

    say("The sample shop, its customer and its prices are invented.", quiet=quiet)
    folder.mkdir(parents=True, exist_ok=True)
    for source in sorted(sample_folder().iterdir()):
        if source.suffix == ".xlsx":
            save(folder / source.name, source.read_bytes(), force=True)
    estimate(
        folder / "cut_list.xlsx",
        shop=folder / "shop_book.xlsx",
        fill=folder / "cut_list_filled.xlsx",
        force=force,
        quiet=quiet,
    )
    rack(
        [folder / "cut_list.xlsx"],
        shop=folder / "shop_book.xlsx",
        card=folder / "settings_card.pdf",
        force=force,
        quiet=quiet,
    )


def sample_folder() -> Path:
    """Return the folder of the sample job: inside the installed package, or the project's own."""
    from importlib.resources import files

    installed = Path(str(files("estimator"))) / "_sample_jobs"
    return installed if installed.is_dir() else Path(__file__).resolve().parents[2] / "sample_jobs"
