"""The blank workbooks, made from the statements of their sheets. Built-in figures stand in them to be typed over."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import BinaryIO

from estimator import reference
from estimator.check.work_rate_units import rates_for_inches
from estimator.problems import Problem
from estimator.sheets.first_cells import START
from estimator.sheets.shop_rules import WORK_RATES
from estimator.sheets.statement import Sheet
from estimator.sheets.torch import BUILT_IN_STATUS, TIPS
from estimator.sheets.workbooks import WORKBOOKS, StatedWorkbook
from estimator.write.book import OutputBook, Paper, write_book
from estimator.write.own_cells import OwnUnits
from estimator.write.own_sheets import write_own_sheet
from estimator.write.save import save
from estimator.write.start_sheet import write_start_sheet
from estimator.write.styles import Look
from estimator.write.target import check_targets

__all__ = ["blank_workbook", "write_blanks"]

Record = Mapping[str, object]


def write_blanks(folder: Path, *, force: bool = False) -> tuple[list[Path], list[Problem]]:
    """Write every blank workbook into a folder; return the files and any warnings."""
    files = [folder / stated.file for stated in WORKBOOKS]
    check_targets(files, force=force)
    warnings: list[Problem] = []
    for file, stated in zip(files, WORKBOOKS, strict=True):
        warnings += save(file, blank_workbook(stated), force=force)
    return files, warnings


def blank_workbook(
    stated: StatedWorkbook,
    *,
    units: OwnUnits | None = None,
    paper: Paper | None = None,
    begun: Mapping[str, Record] | None = None,
) -> Callable[[BinaryIO], None]:
    """Return what writes one blank workbook into an open file.

    Parameters
    ----------
    stated : StatedWorkbook
        Which one.
    units : OwnUnits
        Units of its lengths; millimetres when left out.
    paper : Paper
        The shop's paper; A4 when left out.
    begun : mapping of str to mapping
        Values that stand in a form to begin with, by the form's name.

    Returns
    -------
    function of a binary file

    Notes
    -----
    Built-in work rates and tips stand in the shop book in the look of assumed cells. Source: definition.
    """
    units, forms = units or OwnUnits(), begun or {}

    def build(book: OutputBook) -> None:
        for index, sheet in enumerate(stated.sheets):
            if sheet is START:
                write_start_sheet(book, forms.get(START.name, {}), units)
                continue
            above: tuple[Sheet, Record] | None = (stated.above[0], {}) if stated.above and index == 0 else None
            rows = [forms[sheet.name]] if sheet.name in forms else built_in_rows(sheet, units)
            write_own_sheet(book, sheet, rows, units=units, above=above, look_of=lambda _row, _name: Look.ASSUMED)

    return write_book(build, title=f"{stated.title}, blank", paper=paper or Paper())


def built_in_rows(sheet: Sheet, units: OwnUnits) -> Sequence[Record]:
    """Return the built-in figures of a sheet, none for most."""
    if sheet is WORK_RATES:
        return rates_for_inches(_work_rates()) if units.length == "in" else _work_rates()
    return _tips(inch=units.length == "in") if sheet is TIPS else ()


def _work_rates() -> list[Record]:
    rows = reference.table("work_rates")
    names = ("name", "heading", "likely", "low", "high", "unit", "status", "why")
    columns = {name: rows.column(name).tolist() for name in names}
    return [{name: columns[name][row] for name in names} for row in range(len(columns["name"]))]


def _tips(*, inch: bool) -> list[Record]:
    """Return the built-in acetylene tips, named by their bore, each with its pressures and the doubt of its flow."""
    tips, pressure, spread = (reference.table(name) for name in ("tips", "tip_fuel_pressure", "tip_flow_spread"))
    records: list[Record] = []
    for row, bore in enumerate(tips.column("tip_bore_mm").tolist()):
        of_bore, doubt = pressure.where(tip_bore_mm=bore), spread.where(tip_bore_mm=bore)
        records.append(
            {
                "name": f"{bore / 25.4:.3f}" if inch else f"{bore:g}",
                "fuel": "acetylene",
                "bore_mm": bore,
                "from_mm": float(tips.column("thickness_from_mm")[row]),
                "to_mm": float(tips.column("thickness_to_mm")[row]),
                "pressure_from_bar": float(tips.column("cutting_oxygen_pressure_bar_at_from")[row]),
                "pressure_to_bar": float(tips.column("cutting_oxygen_pressure_bar_at_to")[row]),
                "fuel_pressure_bar": float(of_bore.column("likely_bar")[0]),
                "fuel_pressure_low_bar": float(of_bore.column("low_bar")[0]),
                "fuel_pressure_high_bar": float(of_bore.column("high_bar")[0]),
                "flow_low": float(doubt.column("low_x_likely")[0]),
                "flow_high": float(doubt.column("high_x_likely")[0]),
                "status": f"{BUILT_IN_STATUS}{tips.column('status')[row]}): type your own manual's figures",
            }
        )
    return records
