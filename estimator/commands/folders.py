"""``start`` and ``blanks``: a new shop's folder, and the blank workbooks by themselves."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import at_the_boundary, say, tell

__all__ = ["blanks", "start"]


@at_the_boundary
def start(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="Your shop folder; made if it is not there.")],
    inches: Annotated[
        bool, typer.Option("--inches", help="An inch shop: its cells and answers are in, ft, lb, psi and ft³.")
    ] = False,
    launcher: Annotated[
        bool, typer.Option("--launcher", help="Write the launcher alone anew, where kerfledger itself was moved.")
    ] = False,
    force: opt.Force = False,
    quiet: opt.Quiet = False,
) -> None:
    """Make your shop folder: shop book, blanks, guide, launcher.

    Asks nothing: what it needs to know is a cell of the shop book, and its first sheet asks for that. The folder may be
    moved or copied: its launcher prices with the shop book beside it. In a folder that is there it writes what is
    missing.

    Example: kerfledger start my_shop
    """
    from estimator.commands.as_typed import words_as_typed
    from estimator.write.shop_folder import drop_here, write_launcher, write_shop_folder

    if launcher:
        written, problems = write_launcher(folder)
        tell("", problems, written, quiet=quiet)
        return
    was_there = folder.is_dir() and any(folder.iterdir())
    written, problems = write_shop_folder(folder, inches=inches, force=force)
    if was_there and not force:
        stays = f"{folder} is there already: {'nothing' if not written else 'no file that was'} in it was changed."
        tell(stays, problems, written, quiet=quiet)
    else:
        guide, _ = written[0]
        what = f"your shop, {len(written)} files; {guide.name} tells what each is for"
        tell("", problems, [(folder, what)], quiet=quiet)
    launcher_at = drop_here(folder)
    say(
        f"Next: open {folder / 'shop_book.xlsx'}, type what its first sheet asks, save and close.\n"
        f"Then put a customer's list into {folder}, go there, and price it:\n"
        f"$ {words_as_typed(['cd', str(folder)])}\n$ kerfledger estimate LIST.xlsx\n"
        f"Or drop the list on {launcher_at}.",
        quiet=quiet,
    )


@at_the_boundary
def blanks(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="Where the blank workbooks go.")],
    force: opt.Force = False,
    quiet: opt.Quiet = False,
) -> None:
    """Write the blank workbooks alone; start makes a whole folder.

    Cut list, shop book, price lists, work log, bills.

    Example: kerfledger blanks my_blanks
    """
    from estimator.write.blanks import write_blanks
    from estimator.write.target import make_folder

    make_folder(folder)
    written, problems = write_blanks(folder, force=force)
    tell("", problems, [(path, "blank") for path in written], quiet=quiet)
