"""The command line: each command is registered here, and imports what it needs only when it runs."""

from __future__ import annotations

import os

import typer

from estimator import __version__
from estimator.commands.calibrate import calibrate
from estimator.commands.compare import compare
from estimator.commands.demo import demo
from estimator.commands.dropped import dropped
from estimator.commands.estimate import estimate, explain, settings
from estimator.commands.folders import blanks, start
from estimator.commands.job_card import job_card
from estimator.commands.month_end import reconcile
from estimator.commands.past import check_past
from estimator.commands.quote import quote
from estimator.commands.rack import rack
from estimator.commands.register import decide, register
from estimator.commands.variation import variation

__all__ = ["app", "main"]

app = typer.Typer(
    name="kerfledger",
    help="Costing and estimating for shops that cut steel with an oxy-fuel torch.",
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


for _command in (
    start,
    estimate,
    quote,
    variation,
    job_card,
    explain,
    settings,
    rack,
    compare,
    reconcile,
    calibrate,
    decide,
    register,
    check_past,
    blanks,
    dropped,
    demo,
):
    app.command()(_command)


def main() -> None:
    """Run the command line."""
    # Our matrices are small: one thread starts faster than two that wait for each other.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    app(prog_name="kerfledger")
