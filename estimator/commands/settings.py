"""``settings``: what to set for one thickness, and the cautions that come first."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from estimator.commands import options as opt
from estimator.commands.boundary import (
    at_the_boundary,
    parse_fuel,
    print_json,
    print_problems,
    say,
    say_wrote,
)

__all__ = ["settings"]


@at_the_boundary
def settings(
    thickness: Annotated[str, typer.Argument(metavar="THICKNESS", help='As 19, 19mm, 3/4 or 1-1/2".')],
    shop: opt.ShopFile = None,
    fuel: opt.FuelOption = "",
    pdf: Annotated[Path | None, typer.Option("--pdf", metavar="FILE", help="Write the settings card too.")] = None,
    force: opt.Force = False,
    show_all: opt.ShowAll = False,
    json_out: opt.JsonOption = False,
) -> None:
    """Tip, pressures, speed, flows and cautions for one thickness.

    The fuel and tips are those of the shop book in this folder, or of --shop.

    Example: kerfledger settings 3/4in --fuel propane --pdf card.pdf
    """
    from estimator import tasks
    from estimator.write.settings_text import settings_json, settings_text

    book = shop or tasks.find_shop_book(Path.cwd() / "settings")
    found = tasks.settings_for(thickness, book, parse_fuel(fuel))
    if pdf is not None:
        from estimator.write.rack.outputs import write_settings_card

        print_problems(write_settings_card(found, tasks.read_shop(book)[0], pdf, force=force))
    if json_out:
        print_json(settings_json(found))
        return
    say(settings_text(found, whole=show_all, book=book.name if book else ""))
    if pdf is not None:
        say("")
        say_wrote(pdf, "the settings card, to hang up")
