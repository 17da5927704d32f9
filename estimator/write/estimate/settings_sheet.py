"""The settings card: what every tip is set to at each thickness of the job, the figures behind it, and the cautions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from estimator.cautions import Caution
from estimator.check.acetylene_limit import acetylene_limit_bar
from estimator.pricing.job import Estimate
from estimator.quantities.orifice import CHOKED_PRESSURE_BAR, orifice_oxygen_flow_m3_h
from estimator.quantities.torch_settings import Settings
from estimator.write.book import BookSheet, OutputBook, a1
from estimator.write.estimate.look_of_numbers import BAR_PER_PSI, MM_PER_INCH, SHEETS, NumberFormats
from estimator.write.estimate.setting_rows import SettingRows
from estimator.write.styles import Look

__all__ = ["SettingCell", "setting_values", "typed_setting_cells", "write_settings"]

_HEAD, _UNITS, _FIRST_ROW = 3, 4, 5
_CARD = 12
"""Columns of the card, which is printed; the figures behind them stand to its right."""
_CARD_ORDER = (
    "tip",
    "guided_by",
    "thickness_mm",
    "oxygen_pressure_bar",
    "fuel_pressure_bar",
    "speed_mm_min",
    "cutting_m3_h",
    "preheat_m3_h",
    "fuel_m3_h",
    "pierce_s",
    "edge_start_s",
    "kerf_mm",
    "thickness_in",
    "oxygen_pressure_psi",
    "fuel_pressure_psi",
)
_PROMPTS = {
    "oxygen_pressure_bar": "Gauge pressure with the lever down, in bar. The flow through the bore follows.",
    "fuel_pressure_bar": "Gauge pressure of the fuel, in bar. Acetylene never above 1.03 bar (15 psi).",
    "chart_speed": "Speed of a long, clean, square cut by the chart, in mm/min. Times and gas follow.",
    "own_speed": "Your own speed over the chart's; 1 until your log says otherwise.",
    "bore_mm": "Bore of the cutting-oxygen hole, in mm. The flow follows.",
    "given_flow": "Cutting oxygen that your chart gives, in m³/h; blank for that of the bore.",
    "own_oxygen": "Your own cutting oxygen over the worked-out one; 1 until your log says otherwise.",
    "chart_fuel": "Fuel with the flame lit by the chart, in m³/h.",
    "own_fuel": "Your own fuel over the chart's; 1 until your log says otherwise.",
    "per_fuel": "Preheat oxygen for one volume of fuel; for cutting tips it is the rate on the Rates sheet.",
    "own_preheat": "Your own preheat oxygen over the worked-out one.",
    "pierce_s": "Pierce time by the chart, in seconds, with acetylene and a steady torch.",
    "edge_start_s": "Start at an edge, in seconds; worked out from the pierce where the tip pierces.",
    "own_start": "Your own start time over the worked-out one.",
    "kerf_mm": "Width of the cut, in mm. Steel burnt away follows.",
    "cleaning_min_per_m": "Minutes to take the slag off a metre of edge.",
    "price": "Price of one tip; its wear is charged by hours of flame.",
}
_WIDTH, _FIRST_WIDTH = 11.0, 15.0
_FLOW = "m³/h, 15 °C, 1 atm"


@dataclass(frozen=True, slots=True)
class SettingCell:
    """One typed cell of the sheet, as it is written; row and column from 0."""

    setting: int
    """Index in the engine's list."""
    name: str
    heading: str
    unit: str
    row: int
    column: int
    value: float | None


@dataclass(slots=True)
class _Column:
    """One column: its values, None for a blank cell; and its formula with ``{name}`` for cells of its row."""

    name: str
    heading: str
    unit: str
    number: str
    values: Sequence[float | str | None]
    formula: str = ""
    formulas: dict[int, str] = field(default_factory=dict)
    """Formula of single rows where it is not the column's."""
    none: float | str = 0.0
    """Value in the row without a torch."""
    typed: bool = True


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
    columns = _columns(estimate, rows, formats)
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
            formula = column.formulas.get(offset, column.formula) if live else ""
            cells = {name: a1(row, at) for name, at in letters.items()}
            look = Look.WORKED if formula or not column.typed else Look.TYPED
            _write_cell(sheet, row, index, value, formula.format(**cells), column.number, look)
        last = _FIRST_ROW + len(column.values)
        if column.name in _PROMPTS and column.values:
            limited = column.name == "fuel_pressure_bar" and estimate.kit.fuel == "acetylene"
            most = acetylene_limit_bar() if limited else None
            said = {"title": column.heading, "message": _PROMPTS[column.name]}
            sheet.not_negative(_FIRST_ROW + 1, index, last, **said, most=most)
        span = f"{a1(_FIRST_ROW, index, absolute=True)}:{a1(last, index, absolute=True)}"
        book.define_name(f"tip_{column.name}", f"='{SHEETS.settings}'!{span}")
    sheet.fit_row(_HEAD, ((column.heading, 10.0) for column in columns))
    sheet.fit_row(_UNITS, ((column.unit, _WIDTH) for column in columns))
    sheet.freeze_panes(_FIRST_ROW, 2)
    bottom = _write_cautions(sheet, _FIRST_ROW + len(rows.used) + 2, cautions)
    inch = estimate.shop.shop.units == "in"
    card = _CARD + (3 if inch else 0)
    sheet.set_up_page(last_row=bottom, last_column=card - 1, headings=(_HEAD, _UNITS), landscape=True)
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
    columns = _columns(estimate, rows, formats)
    for offset, setting in enumerate(rows.used):
        for index, column in enumerate(columns):
            value = column.values[offset]
            if column.typed and not column.formulas.get(offset, column.formula) and not isinstance(value, str):
                at = _FIRST_ROW + 1 + offset
                cells.append(SettingCell(setting, column.name, column.heading, column.unit, at, index, value))
    return cells


def setting_values(estimate: Estimate, rows: SettingRows, setting: int) -> dict[str, float]:
    """Return the figures of one engine setting by column name; empty for -1."""
    if setting < 0:
        return {}
    place = rows.used.index(setting)
    columns = _columns(estimate, rows, NumberFormats(estimate.shop.shop.decimals))
    values = {column.name: column.values[place] for column in columns}
    return {name: value for name, value in values.items() if isinstance(value, float)}


def _write_cell(
    sheet: BookSheet, row: int, column: int, value: float | str | None, formula: str, number: str, look: Look
) -> None:
    if value is None:
        sheet.blank(row, column, look, number)
    elif isinstance(value, str):
        sheet.text(row, column, value, look)
    elif formula:
        sheet.worked(row, column, f"={formula}", value, look, number)
    else:
        sheet.number(row, column, value, look, number)


def _banner(sheet: BookSheet, text: str) -> None:
    style = sheet.styles.get(Look.STOP)
    sheet.merge_range(1, 0, 1, _CARD - 1, "", style)
    sheet.text(1, 0, text, style)


def _write_cautions(sheet: BookSheet, row: int, cautions: Sequence[Caution]) -> int:
    """Write the cautions by stage of the work; return the last row."""
    sheet.text(row, 0, "Cautions", Look.SUBTITLE)
    stage = ""
    for caution in cautions:
        row += 1
        sheet.text(row, 0, caution.stage if caution.stage != stage else "", Look.LABEL)
        text = f"{caution.text} [{caution.source}]"
        style = sheet.styles.get(Look.TEXT, wrap=True)
        sheet.merge_range(row, 1, row, _CARD - 1, "", style)
        sheet.text(row, 1, text, style)
        sheet.fit_row(row, [(text, _WIDTH * (_CARD - 1))])
        stage = caution.stage
    return row


def _columns(estimate: Estimate, rows: SettingRows, formats: NumberFormats) -> list[_Column]:
    settings, work = estimate.job.settings, estimate.work
    used = list(rows.used)
    points = 99.5 - work.oxygen_purity_percent
    speed_of_purity = 1.0 - work.purity_speed_per_point * points
    oxygen_of_purity = (1.0 + work.purity_oxygen_per_point * points) * speed_of_purity
    purity_points = "(base_purity_percent-oxygen_purity_percent)"
    purity_speed = f"(1-purity_speed_per_point*{purity_points})"
    purity_oxygen = f"(1+purity_oxygen_per_point*{purity_points})*{purity_speed}"
    fuel = estimate.kit.fuel.replace(" ", "_")
    start = "" if fuel == "acetylene" else "*start_" + ("propylene" if fuel == "mps" else fuel)
    flame = [bool(settings.is_flame[i]) for i in used]
    cleaning_ends = float(estimate.kit.charts[0].cleaning_min_per_m.thickness_mm[-1]) if estimate.kit.charts else 0.0

    def of(values: np.ndarray) -> list[float | None]:
        return [None if np.isnan(values[i]) else float(values[i]) for i in used]

    thickness = of(settings.thickness_mm)
    beyond = {n: "clean_above_30_per_mm*{thickness_mm}" for n, t in enumerate(thickness) if t and t > cleaning_ends}
    ratio = {n: f"preheat_{fuel}" for n, is_flame in enumerate(flame) if not is_flame}
    edge = "IF(ISNUMBER({pierce_s}),edge_start_share*{pierce_s},edge_start_thick_s*{thickness_mm}/100)"
    columns = [
        _Column("tip", "Tip", "", "", [settings.tip[i] for i in used], none="no torch", typed=False),
        _Column("guided_by", "Torch", "", "", [_guided(settings, i) for i in used], none="", typed=False),
        _Column("thickness_mm", "Thickness along the cut", "mm", formats.thickness, thickness, typed=False),
        _Column("oxygen_pressure_bar", "Oxygen pressure", "bar", formats.flow, of(settings.oxygen_pressure_bar)),
        _Column("fuel_pressure_bar", "Fuel pressure", "bar", formats.flow, of(settings.fuel_pressure_bar)),
        _Column("chart_speed", "Speed by chart", "mm/min", formats.speed, of(settings.chart_speed_mm_min)),
        _Column("own_speed", "Own factor, speed", "x", formats.factor, of(settings.speed_factor / speed_of_purity)),
        _Column(
            "speed_mm_min",
            "Speed",
            "mm/min",
            formats.speed,
            _zero(of(settings.speed_mm_min)),
            "{chart_speed}*{own_speed}*" + purity_speed,
        ),
        _Column("bore_mm", "Bore", "mm", formats.factor, of(settings.bore_mm)),
        _Column("given_flow", "Cutting oxygen given", _FLOW, formats.flow, _given_flow(estimate, used)),
        _Column("own_oxygen", "Own factor, oxygen", "x", formats.factor, of(settings.oxygen_factor / oxygen_of_purity)),
        _Column(
            "cutting_m3_h",
            "Cutting oxygen, lever down",
            _FLOW,
            formats.flow,
            of(settings.cutting_flow_m3_h),
            "IF(ISNUMBER({given_flow}),{given_flow},{bore_mm}*{bore_mm}*({oxygen_pressure_bar}+air_pressure_bar)"
            "*flow_per_mm2_bar)*{own_oxygen}*" + purity_oxygen,
        ),
        _Column("chart_fuel", "Fuel by chart", _FLOW, formats.volume, of(settings.fuel_m3_h)),
        _Column("own_fuel", "Own factor, fuel", "x", formats.factor, of(settings.fuel_factor)),
        _Column("fuel_m3_h", "Fuel", _FLOW, formats.volume, of(settings.fuel_flow_m3_h), "{chart_fuel}*{own_fuel}"),
        _Column("per_fuel", "Oxygen per fuel", "x", formats.factor, of(settings.preheat_per_fuel), formulas=ratio),
        _Column("own_preheat", "Own factor, preheat", "x", formats.factor, of(settings.preheat_factor)),
        _Column(
            "preheat_m3_h",
            "Preheat oxygen",
            _FLOW,
            formats.volume,
            of(settings.preheat_flow_m3_h),
            "{fuel_m3_h}*{per_fuel}*{own_preheat}",
        ),
        _Column("pierce_s", "Pierce by chart", "s", formats.minutes, of(settings.pierce_s)),
        _Column(
            "edge_start_s",
            "Edge start",
            "s",
            formats.minutes,
            of(settings.edge_start_s),
            formulas={n: edge for n, is_flame in enumerate(flame) if not is_flame},
        ),
        _Column("own_start", "Own factor, starts", "x", formats.factor, _own_start(estimate, used)),
        _Column("start_factor", "Start time", "x", formats.factor, of(settings.start_factor), "{own_start}" + start),
        _Column("kerf_mm", "Kerf", "mm", formats.factor, of(settings.kerf_mm)),
        _Column(
            "cleaning_min_per_m",
            "Slag off",
            "min/m",
            formats.factor,
            of(settings.cleaning_min_per_m),
            formulas=beyond,
        ),
        _Column("price", "Price of a tip", estimate.shop.shop.currency, formats.money, _tip_prices(estimate, used)),
    ]
    if estimate.shop.shop.units == "in":
        columns += _inch_columns(columns)
    card = {name: place for place, name in enumerate(_CARD_ORDER)}
    return sorted(columns, key=lambda column: card.get(column.name, len(card)))


def _inch_columns(columns: Sequence[_Column]) -> list[_Column]:
    """Return thickness and pressures once more as an inch shop reads them."""
    values = {column.name: column.values for column in columns}

    def shown(name: str, heading: str, unit: str, source: str, factor: str, per: float) -> _Column:
        known = [None if not isinstance(v, float) else v / per for v in values[source]]
        formulas = {n: f"{{{source}}}/{factor}" for n, value in enumerate(known) if value is not None}
        return _Column(name, heading, unit, "0.0##" if unit == "in" else "0.0", known, formulas=formulas, typed=False)

    return [
        shown("thickness_in", "Thickness", "in", "thickness_mm", "mm_per_inch", MM_PER_INCH),
        shown("oxygen_pressure_psi", "Oxygen pressure", "psi", "oxygen_pressure_bar", "bar_per_psi", BAR_PER_PSI),
        shown("fuel_pressure_psi", "Fuel pressure", "psi", "fuel_pressure_bar", "bar_per_psi", BAR_PER_PSI),
    ]


def _guided(settings: Settings, index: int) -> str:
    return "heating" if settings.is_flame[index] else "on a track" if settings.machine[index] else "by hand"


def _zero(values: list[float | None]) -> list[float | None]:
    """A flame tip has no speed; a zero keeps the formulas of its lines at zero."""
    return [0.0 if value is None else value for value in values]


def _given_flow(estimate: Estimate, used: list[int]) -> list[float | None]:
    """Return the cutting oxygen that a chart gives; None where bore and pressure decide."""
    settings = estimate.job.settings
    given: list[float | None] = []
    for index in used:
        flow, pressure = float(settings.cutting_oxygen_m3_h[index]), float(settings.oxygen_pressure_bar[index])
        if settings.is_flame[index] or pressure < CHOKED_PRESSURE_BAR:
            given.append(flow)
            continue
        bore, density = float(settings.bore_mm[index]), estimate.kit.oxygen_density_kg_m3
        by_bore = float(
            orifice_oxygen_flow_m3_h(
                bore, pressure, density_kg_m3=density, discharge_coefficient=estimate.work.orifice_coefficient
            )
        )
        given.append(None if abs(flow / by_bore - 1.0) < 1e-9 else flow)
    return given


def _own_start(estimate: Estimate, used: list[int]) -> list[float | None]:
    work, fuel = estimate.work, estimate.kit.fuel.replace(" ", "_")
    of_fuel = 1.0 if fuel == "acetylene" else getattr(work, "start_" + ("propylene" if fuel == "mps" else fuel))
    settings = estimate.job.settings
    return [1.0 if settings.is_flame[i] else float(settings.start_factor[i]) / of_fuel for i in used]


def _tip_prices(estimate: Estimate, used: list[int]) -> list[float | None]:
    return [estimate.rates.tip_price.get(estimate.job.settings.tip[i], 0.0) for i in used]
