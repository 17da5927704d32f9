"""Columns of the settings sheet: what a tip is set to at a thickness, and the figures and formulas behind it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from estimator.pricing.job import Estimate
from estimator.quantities.orifice import CHOKED_PRESSURE_BAR, orifice_oxygen_flow_m3_h
from estimator.quantities.torch_settings import Settings
from estimator.write.estimate.look_of_numbers import NumberFormats
from estimator.write.estimate.setting_rows import SettingRows
from estimator.write.estimate.shop_cells import AS_HOUSE, CellUnit, ShopCells

__all__ = ["CARD_COLUMNS", "SettingColumn", "setting_columns"]

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
)
CARD_COLUMNS = len(_CARD_ORDER)
"""Columns of the card, which is printed; the figures behind them stand to its right."""
_FLOW = "m³/h, 15 °C, 1 atm"


@dataclass(slots=True)
class SettingColumn:
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
    may_be_blank: bool = False
    """Whether a blank says that something else holds, rather than nothing."""
    shows: str = ""
    """Name of the column whose figures this one shows in the shop's unit."""
    cell: CellUnit = AS_HOUSE
    """The unit in which it shows them."""
    is_behind: bool = False
    """Whether it stands for formulas alone, behind a column that shows its figures."""

    def formula_of(self, row: int) -> str:
        """Return the formula of a row, from 0; empty for a typed or a read figure."""
        return self.formulas.get(row, self.formula)

    @property
    def means(self) -> str:
        """Name of the figure in its house unit."""
        return self.shows or self.name


def setting_columns(estimate: Estimate, rows: SettingRows, formats: NumberFormats) -> list[SettingColumn]:
    """Return the columns, left to right: those of the card first.

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
    list of SettingColumn
        Where the shop's units are not those of the formulas, a column in its unit, and at the right one that formulas
        take.
    """
    place = {name: at for at, name in enumerate(_CARD_ORDER)}
    columns = sorted(_house_columns(estimate, rows, formats), key=lambda column: place.get(column.name, len(place)))
    cells = ShopCells.of_job(estimate)
    pairs = [_in_shop_unit(column, cells.of(column.unit)) for column in columns]
    return [*(shown for shown, _ in pairs), *(house for _, house in pairs if house is not None)]


def _house_columns(estimate: Estimate, rows: SettingRows, formats: NumberFormats) -> list[SettingColumn]:
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
    return [
        SettingColumn("tip", "Tip", "", "", [settings.tip[i] for i in used], none="no torch", typed=False),
        SettingColumn("guided_by", "Torch", "", "", [_guided(settings, i) for i in used], none="", typed=False),
        SettingColumn("thickness_mm", "Thickness along the cut", "mm", formats.thickness, thickness, typed=False),
        SettingColumn("oxygen_pressure_bar", "Oxygen pressure", "bar", formats.flow, of(settings.oxygen_pressure_bar)),
        SettingColumn("fuel_pressure_bar", "Fuel pressure", "bar", formats.flow, of(settings.fuel_pressure_bar)),
        SettingColumn("chart_speed", "Speed by chart", "mm/min", formats.speed, of(settings.chart_speed_mm_min)),
        SettingColumn(
            "own_speed", "Own factor, speed", "x", formats.factor, of(settings.speed_factor / speed_of_purity)
        ),
        SettingColumn(
            "speed_mm_min",
            "Speed",
            "mm/min",
            formats.speed,
            _zero(of(settings.speed_mm_min)),
            "{chart_speed}*{own_speed}*" + purity_speed,
        ),
        SettingColumn("bore_mm", "Bore", "mm", formats.factor, of(settings.bore_mm)),
        SettingColumn(
            "given_flow", "Cutting oxygen given", _FLOW, formats.flow, _given_flow(estimate, used), may_be_blank=True
        ),
        SettingColumn(
            "own_oxygen", "Own factor, oxygen", "x", formats.factor, of(settings.oxygen_factor / oxygen_of_purity)
        ),
        SettingColumn(
            "cutting_m3_h",
            "Cutting oxygen, lever down",
            _FLOW,
            formats.flow,
            of(settings.cutting_flow_m3_h),
            "IF(ISNUMBER({given_flow}),{given_flow},{bore_mm}*{bore_mm}*({oxygen_pressure_bar}+air_pressure_bar)"
            "*flow_per_mm2_bar)*{own_oxygen}*" + purity_oxygen,
        ),
        SettingColumn("chart_fuel", "Fuel by chart", _FLOW, formats.volume, of(settings.fuel_m3_h)),
        SettingColumn("own_fuel", "Own factor, fuel", "x", formats.factor, of(settings.fuel_factor)),
        SettingColumn(
            "fuel_m3_h", "Fuel", _FLOW, formats.volume, of(settings.fuel_flow_m3_h), "{chart_fuel}*{own_fuel}"
        ),
        SettingColumn(
            "per_fuel", "Oxygen per fuel", "x", formats.factor, of(settings.preheat_per_fuel), formulas=ratio
        ),
        SettingColumn("own_preheat", "Own factor, preheat", "x", formats.factor, of(settings.preheat_factor)),
        SettingColumn(
            "preheat_m3_h",
            "Preheat oxygen",
            _FLOW,
            formats.volume,
            of(settings.preheat_flow_m3_h),
            "{fuel_m3_h}*{per_fuel}*{own_preheat}",
        ),
        SettingColumn("pierce_s", "Pierce by chart", "s", formats.minutes, of(settings.pierce_s)),
        SettingColumn(
            "edge_start_s",
            "Edge start",
            "s",
            formats.minutes,
            of(settings.edge_start_s),
            formulas={n: edge for n, is_flame in enumerate(flame) if not is_flame},
        ),
        SettingColumn("own_start", "Own factor, starts", "x", formats.factor, _own_start(estimate, used)),
        SettingColumn(
            "start_factor", "Start time", "x", formats.factor, of(settings.start_factor), "{own_start}" + start
        ),
        SettingColumn("kerf_mm", "Kerf", "mm", formats.factor, of(settings.kerf_mm)),
        SettingColumn(
            "cleaning_min_per_m",
            "Slag off",
            "min/m",
            formats.factor,
            of(settings.cleaning_min_per_m),
            formulas=beyond,
        ),
        SettingColumn(
            "price", "Price of a tip", estimate.shop.shop.currency, formats.money, _tip_prices(estimate, used)
        ),
    ]


def _in_shop_unit(column: SettingColumn, cell: CellUnit) -> tuple[SettingColumn, SettingColumn | None]:
    """Return a column as the shop is shown it, and the one that formulas take where it is another.

    A typed figure is typed in the shop's unit and turned for the formulas; a worked one is turned to be shown.
    """
    if not cell.is_turned:
        return column, None
    shown_name = f"{column.name}_shown"
    given, taken = f"{{{shown_name}}}", f"{{{column.name}}}"
    shown = SettingColumn(
        shown_name,
        column.heading,
        cell.unit,
        cell.number(column.number),
        [cell.shown(value) if isinstance(value, float) else value for value in column.values],
        formulas={n: cell.in_shown(taken) for n in range(len(column.values)) if column.formula_of(n)},
        typed=column.typed,
        shows=column.name,
        cell=cell,
    )
    turned = cell.in_house(given)
    taken_from = f'IF(ISNUMBER({given}),{turned},"")' if column.may_be_blank else turned
    by_row = {n: column.formula_of(n) or taken_from for n in range(len(column.values))}
    blank = "" if column.may_be_blank else 0.0
    values = [blank if value is None else value for value in column.values]
    return shown, replace(column, formulas=by_row, values=values, is_behind=True)


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
