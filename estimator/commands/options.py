"""Options that several commands share, each stated once, so that they mean the same everywhere."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

__all__ = [
    "Columns",
    "CutListFile",
    "DateOption",
    "Encoding",
    "Force",
    "FuelOption",
    "JsonOption",
    "LabourRate",
    "Out",
    "Partial",
    "ProblemsFile",
    "Quiet",
    "RegisterFile",
    "SheetName",
    "ShopFile",
    "ShowAll",
    "Strict",
]

CutListFile = Annotated[
    Path, typer.Argument(metavar="CUT_LIST", help="A cut list: xlsx, xlsm, xls, xlsb, ods, csv or tsv.")
]
ShopFile = Annotated[
    Path | None,
    typer.Option("--shop", metavar="BOOK", help="Your shop book; one named shop_book.xlsx beside the list is found."),
]
SheetName = Annotated[str, typer.Option("--sheet", metavar="NAME", help="The sheet to read, where several would do.")]
Columns = Annotated[
    str, typer.Option("--columns", metavar="MAP", help='Which column holds what, as "thickness=D,length=F".')
]
Encoding = Annotated[
    str, typer.Option("--encoding", metavar="NAME", help="Encoding of a csv or tsv that is not utf-8, as cp1252.")
]
DateOption = Annotated[
    str, typer.Option("--date", metavar="YYYY-MM-DD", help="Date of the job, where the list gives none.")
]
Out = Annotated[Path | None, typer.Option("--out", metavar="FILE", help="Where the result goes.")]
Force = Annotated[bool, typer.Option("--force", help="Replace what is there, and all that was typed in it.")]
JsonOption = Annotated[bool, typer.Option("--json", help="Print JSON and nothing else on standard output.")]
Quiet = Annotated[bool, typer.Option("--quiet", "-q", help="Print problems and nothing else.")]
ShowAll = Annotated[bool, typer.Option("--all", help="Print all of it, not what fits on one screen.")]
Partial = Annotated[bool, typer.Option("--partial", help="Price the good rows; every total says INCOMPLETE.")]
Strict = Annotated[bool, typer.Option("--strict", help="Treat every warning as an error.")]
FuelOption = Annotated[
    str, typer.Option("--fuel", metavar="FUEL", help="acetylene, propane, propylene, natural gas or mps.")
]
LabourRate = Annotated[
    str, typer.Option("--labour-rate", metavar="NAME", help="A rate of the Labour sheet, as overtime.")
]
ProblemsFile = Annotated[
    Path | None, typer.Option("--problems", metavar="FILE", help="Write the list with its problems marked.")
]
RegisterFile = Annotated[
    Path | None,
    typer.Option("--register", metavar="FILE", help="The register; quotes_register.xlsx here or above is found."),
]
