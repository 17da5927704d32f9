"""The settings card: what every tip is set to at each thickness of the job, the figures behind it, and the cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from estimator.cautions import Caution
from estimator.check.acetylene_limit import acetylene_limit_bar
from estimator.pricing.job import Estimate
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.estimate.look_of_numbers import SHEETS, NumberFormats
from estimator.write.estimate.setting_rows import SettingRows
from estimator.write.estimate.settings_columns import CARD_COLUMNS, SettingColumn, setting_columns
from estimator.write.estimate.shop_cells import CellUnit, ShopCells
from estimator.write.styles import Look

__all__ = ["SettingCell", "setting_values", "typed_setting_cells", "write_settings"]

_HEAD, _UNITS, _FIRST_ROW = 3, 4, 5
_PROMPTS = {
    "oxygen_pressure_bar": "Gauge pressure with the lever down, in {unit}. The flow through the bore follows.",
    "fuel_pressure_bar": "Gauge pressure of the fuel, in {unit}. Acetylene never above {limit}.",
    "chart_speed": "Speed of a long, clean, square cut by the chart, in {unit}. Times and gas follow.",
    "own_speed": "Your own speed over the chart's; 1 until your log says otherwise.",
    "bore_mm": "Bore of the cutting-oxygen hole, in {unit}. The flow follows.",
    "given_flow": "Cutting oxygen that your chart gives, in {unit}; blank for that of the bore.",
    "own_oxygen": "Your own cutting oxygen over the worked-out one; 1 until your log says otherwise.",
    "chart_fuel": "Fuel with the flame lit by the chart, in {unit}.",
    "own_fuel": "Your own fuel over the chart's; 1 until your log says otherwise.",
    "per_fuel": "Preheat oxygen for one volume of fuel; for cutting tips it is the rate on the Rates sheet.",
    "own_preheat": "Your own preheat oxygen over the worked-out one.",
    "pierce_s": "Pierce time by the chart, in seconds, with acetylene and a steady torch.",
    "edge_start_s": "Start at an edge, in seconds; worked out from the pierce where the tip pierces.",
    "own_start": "Your own start time over the worked-out one.",
    "kerf_mm": "Width of the cut, in {unit}. Steel burnt away follows.",
    "cleaning_min_per_m": "Minutes to take the slag off a {length} of edge.",
    "price": "Price of one tip; its wear is charged by hours of flame.",
}
_WIDTH, _FIRST_WIDTH = 11.0, 15.0


@dataclass(frozen=True, slots=True)
class SettingCell:
    """One typed cell of the sheet, as it is written; row and column from 0."""

    setting: int
    """Index in the engine's list."""
    name: str
    heading: str
    unit: str
    """Of the house, as is the value."""
    row: int
    column: int
    value: float | None
    shown: CellUnit
    """The unit in which the cell is typed."""


def write_settings(
    book: OutputBook,
    estimate: Estimate,
    rows: SettingRows,
    formats: NumberFormats,
    cautions: Sequence[Caution],
    *,
    live: bool = True,
) -> BookSheet:
    """Write the settings in use and name their columns, then the cautions.

    Parameters
    ----------
    book : OutputBook
        The workbook that is being written.
    estimate : Estimate
        The priced job.
    rows : SettingRows
        The settings in use.
    formats : NumberFormats
        The shop's number formats.
    cautions : sequence of Caution
        Cautions that apply to the job.
    live : bool
        Whether worked-out columns carry their formula.

    Returns
    -------
    BookSheet
    """
    sheet = book.sheet(SHEETS.settings)
    columns = setting_columns(estimate, rows, formats)
    sheet.set_row(0, 26)
    sheet.text(0, 0, "What the torch is set to, for each tip and thickness", Look.TITLE)
    _banner(sheet, "Set pressures with the lever down, at the torch. Your torch's manual comes first.")
    letters = {column.name: index for index, column in enumerate(columns)}
    for index, column in enumerate(columns):
        sheet.set_column(index, index, _WIDTH if index else _FIRST_WIDTH)
        align = "right" if column.number else "left" if index else ""
        sheet.text(_HEAD, index, column.heading, book.styles.get(Look.HEADING, align=align))
        sheet.text(_UNITS, index, column.unit, book.styles.get(Look.UNIT, wrap=True, align=align))
        _write_cell(sheet, _FIRST_ROW, index, column.none, "", column.number, Look.WORKED)
        for offset, value in enumerate(column.values):
            row = _FIRST_ROW + 1 + offset
            formula = column.formula_of(offset) if live else ""
            cells = {name: a1(row, at) for name, at in letters.items()}
            look = Look.WORKED if formula or not column.typed else Look.TYPED
            _write_cell(sheet, row, index, value, formula.format(**cells), column.number, look)
        last = _FIRST_ROW + len(column.values)
        if column.means in _PROMPTS and column.values and not column.is_behind:
            said = {"title": column.heading, "message": _prompt(column)}
            most = _most(column) if estimate.kit.fuel == "acetylene" else None
            sheet.not_negative(_FIRST_ROW + 1, index, last, **said, most=most)
        if column.is_behind and not columns[index - 1].is_behind:
            sheet.text(_HEAD - 1, index, "As formulas take them", Look.GUIDE)
        if not column.shows:
            span = f"{a1(_FIRST_ROW, index, absolute=True)}:{a1(last, index, absolute=True)}"
            book.define_name(f"tip_{column.name}", f"='{SHEETS.settings}'!{span}")
    sheet.fit_row(_HEAD, ((column.heading, 10.0) for column in columns))
    sheet.fit_row(_UNITS, ((column.unit, _WIDTH) for column in columns))
    sheet.freeze_panes(_FIRST_ROW, 2)
    bottom = _write_cautions(sheet, _FIRST_ROW + len(rows.used) + 2, cautions, ShopCells.of_job(estimate))
    sheet.set_up_page(last_row=bottom, last_column=CARD_COLUMNS - 1, headings=(_HEAD, _UNITS), landscape=True)
    return sheet


def typed_setting_cells(estimate: Estimate, rows: SettingRows, formats: NumberFormats) -> list[SettingCell]:
    """Return every typed cell of the sheet of settings and what stands in it when it is written.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    rows : SettingRows
        The settings in use.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of SettingCell
        Row by row, left to right.
    """
    cells = []
    columns = setting_columns(estimate, rows, formats)
    house = {column.name: column for column in columns}
    for offset, setting in enumerate(rows.used):
        for index, column in enumerate(columns):
            if column.typed and not column.formula_of(offset):
                figure = house[column.means]
                value = figure.values[offset] if column.values[offset] is not None else None
                cells.append(_setting_cell(setting, column, figure.unit, (_FIRST_ROW + 1 + offset, index), value))
    return cells


def _setting_cell(
    setting: int, column: SettingColumn, unit: str, at: tuple[int, int], value: float | str | None
) -> SettingCell:
    if isinstance(value, str):
        raise TypeError(f"a typed figure of {column.name} must be a number, got {value!r}")
    return SettingCell(setting, column.means, column.heading, unit, *at, value, column.cell)


def setting_values(estimate: Estimate, rows: SettingRows, setting: int) -> dict[str, float]:
    """Return the figures of one engine setting by column name; empty for -1."""
    if setting < 0:
        return {}
    place = rows.used.index(setting)
    columns = setting_columns(estimate, rows, NumberFormats(estimate.shop.shop.decimals))
    values = {column.name: column.values[place] for column in columns}
    return {name: value for name, value in values.items() if isinstance(value, float)}


def _write_cell(
    sheet: BookSheet, row: int, column: int, value: float | str | None, formula: str, number: str, look: Look
) -> None:
    if value is None:
        sheet.blank(row, column, look, number)
    elif formula:
        sheet.worked(row, column, f"={formula}", value, look, number)
    elif isinstance(value, str):
        sheet.text(row, column, value, look)
    else:
        sheet.number(row, column, value, look, number)


def _prompt(column: SettingColumn) -> str:
    """Return what is shown while a typed cell is selected, in the unit of the cell."""
    turned = column.cell.is_turned
    limit, length = ("15 psi (1.03 bar)", "foot") if turned else ("1.03 bar (15 psi)", "metre")
    return _PROMPTS[column.means].format(unit=column.unit.partition(",")[0], limit=limit, length=length)


def _most(column: SettingColumn) -> float | None:
    """Return the highest pressure of acetylene as its cell takes it; None for other columns."""
    if column.means != "fuel_pressure_bar":
        return None
    limit = column.cell.shown(acetylene_limit_bar())
    return round(limit, 1) if column.cell.is_turned else limit  # 15 psi itself passes


def _banner(sheet: BookSheet, text: str) -> None:
    style = sheet.styles.get(Look.STOP)
    sheet.merge_range(1, 0, 1, CARD_COLUMNS - 1, "", style)
    sheet.text(1, 0, text, style)


def _write_cautions(sheet: BookSheet, row: int, cautions: Sequence[Caution], cells: ShopCells) -> int:
    """Write the cautions by stage of the work; return the last row."""
    sheet.text(row, 0, "Cautions", Look.SUBTITLE)
    stage = ""
    for caution in cautions:
        row += 1
        sheet.text(row, 0, caution.stage if caution.stage != stage else "", Look.LABEL)
        text = f"{cells.words(caution.text)} [{caution.source}]"
        style = sheet.styles.get(Look.TEXT, wrap=True)
        sheet.merge_range(row, 1, row, CARD_COLUMNS - 1, "", style)
        sheet.text(row, 1, text, style)
        sheet.fit_row(row, [(text, _WIDTH * (CARD_COLUMNS - 1))])
        stage = caution.stage
    return row
