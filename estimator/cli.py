"""The command line: the list of commands. Each is imported when it is called for, and imports what it needs then."""

from __future__ import annotations

import gc
import os

import typer

from estimator import __version__
from estimator.commands.group import CommandList

__all__ = ["Kerfledger", "app", "main"]


class Kerfledger(CommandList):
    """Each command with its function in ``estimator/commands/`` and the first line of its own help."""

    lines = {  # noqa: RUF012 - stated once, never changed
        "start": ("folders:start", "Make your shop folder: shop book, blanks, guide, launcher."),
        "estimate": ("estimate:estimate", "Price a cut list: the priced workbook is written beside it."),
        "quote": ("quote:quote", "Write the customer's page from an estimate as you left it."),
        "variation": ("variation:variation", "Price extras to a won quote at its own rates, on a slip to sign."),
        "job-card": ("job_card:job_card", "Write the bench page of a won quote, to print and type back."),
        "explain": ("explain:explain", "Work one line step by step: formula, figures, answer, source."),
        "settings": ("settings:settings", "Tip, pressures, speed, flows and cautions for one thickness."),
        "rack": ("rack:rack", "Will the cylinders finish the work, and what to order."),
        "compare": ("compare:compare", "Whose gas is cheapest for what this shop uses, and why."),
        "reconcile": ("month_end:reconcile", "Month end: are the gas bills right, and did the work use it."),
        "calibrate": ("calibrate:calibrate", "Learn your own figures from logged jobs."),
        "decide": ("register:decide", "Say what became of a quote."),
        "register": ("register:register", "Show the quotes that are open and won, and how many are won."),
        "check-past": ("past:check_past", "See what would have been said of your last finished jobs."),
        "blanks": ("folders:blanks", "Write the blank workbooks alone; start makes a whole folder."),
        "dropped": ("dropped:dropped", "Price dropped lists and open each result; launchers call it."),
        "demo": ("demo:demo", "Run every task on an invented shop's sample."),
    }


app = typer.Typer(
    cls=Kerfledger,
    name="kerfledger",
    help="Costing and estimating for shops that cut steel with an oxy-fuel torch.",
    epilog="Begin with: kerfledger start my_shop. For one command: kerfledger estimate --help.",
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    rich_markup_mode=None,
)


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"kerfledger {__version__}")
        raise typer.Exit


@app.callback()
def _root(
    version: bool = typer.Option(False, "--version", callback=_version, is_eager=True, help="Print the version."),
) -> None:
    """Costing and estimating for shops that cut steel with an oxy-fuel torch."""


def main() -> None:
    """Run the command line."""
    # Our matrices are small: one thread starts faster than two that wait for each other.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # A run is short and leaves little that reference counts do not free: without the collector it ends sooner.
    gc.disable()
    app(prog_name="kerfledger")
