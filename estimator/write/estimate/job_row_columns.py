"""Columns of the sheet of job rows: times, gas and money of each row, with the formulas that work them out."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from estimator.pricing.job import Estimate
from estimator.write.estimate.look_of_numbers import NumberFormats
from estimator.write.estimate.setting_rows import SettingRows
from estimator.write.estimate.shop_cells import AS_HOUSE, CellUnit, ShopCells

__all__ = ["RowColumn", "row_columns"]

_PARTS = {"gas": "Gas", "labour": "Labour", "rent": "Rental", "add_on": "Add-ons", "overhead": "Overhead"}
"""Parts of cost that a row of the job can have, and their headings."""


@dataclass(frozen=True, slots=True)
class RowColumn:
    """One column of figures."""

    name: str
    heading: str
    unit: str
    number: str
    values: list[float]
    formula: str
    """With ``{name}`` for cells of its row; empty for a plain value."""
    gas: str = ""
    """``oxygen`` or ``fuel`` for an amount of it."""
    cell: CellUnit = AS_HOUSE
    """The unit in which the column is shown."""

    @property
    def range_name(self) -> str:
        """Name of the whole column in formulas."""
        return f"row_{self.cell.name(self.name)}"


def row_columns(estimate: Estimate, settings: SettingRows, formats: NumberFormats) -> list[RowColumn]:
    """Return every column of figures, left to right.

    Parameters
    ----------
    estimate : Estimate
        The priced job.
    settings : SettingRows
        The settings in use.
    formats : NumberFormats
        The shop's number formats.

    Returns
    -------
    list of RowColumn
    """
    makings = _Makings(estimate, settings, formats)
    columns = [
        *_time_columns(makings),
        *_gas_columns(makings),
        *_exact_columns(makings),
        *_printed_columns(makings),
        *_sum_columns(makings),
    ]
    cells = ShopCells.of_job(estimate)
    units = {column.name: cells.of(column.unit, column.gas) for column in columns}
    return [_as_shown(column, units) for column in columns]


@dataclass(frozen=True, slots=True)
class _Makings:
    """What the columns are made from."""

    estimate: Estimate
    settings: SettingRows
    formats: NumberFormats

    def of(self, name: str) -> list[float]:
        return [float(getattr(row, name)) for row in self.estimate.rows.rows]

    @property
    def currency(self) -> str:
        return self.estimate.shop.shop.currency

    @property
    def minor(self) -> float:
        return 10.0**self.formats.decimals


def _time_columns(m: _Makings) -> list[RowColumn]:
    rows, f = m.estimate.rows.rows, m.formats
    used = m.settings.used
    tips = [float(m.settings.tip_number[used.index(r.setting)]) if r.setting >= 0 else 0.0 for r in rows]
    set_rows = [float(m.settings.row(row.setting)) for row in rows]
    paid = "{count}*{minutes_each}*(1+{rested}*rest_allowance)"
    lit = "IF({setting}=1,0,{count}*{minutes_each}*{lit_share})"
    return [
        RowColumn("count", "Count", "", f.quantity, m.of("count"), ""),
        RowColumn("minutes_each", "Minutes each", "min", f.minutes, m.of("minutes_each"), ""),
        RowColumn("rested", "With rest", "1 = yes", f.whole, [float(row.rested) for row in rows], ""),
        RowColumn("paid_time_min", "Man-minutes", "min", f.minutes, m.of("paid_time_min"), paid),
        RowColumn("setting", "Setting", "row", f.whole, set_rows, ""),
        RowColumn("tip_number", "Tip", "no.", f.whole, tips, ""),
        RowColumn("lit_share", "Lit share", "", f.share, m.of("lit_share"), ""),
        RowColumn("flame_time_min", "Flame lit", "min", f.minutes, m.of("flame_time_min"), lit),
    ]


def _gas_columns(m: _Makings) -> list[RowColumn]:
    def flame(flow: str) -> str:
        return f"{{flame_time_min}}*INDEX({flow},{{setting}})/60"

    columns = (
        ("preheat_oxygen_m3", "Preheat oxygen", flame("tip_preheat_m3_h")),
        ("fuel_m3", "Fuel", flame("tip_fuel_m3_h")),
        ("lost_oxygen_m3", "Oxygen lost", "{preheat_oxygen_m3}*gas_lost_oxygen"),
        ("lost_fuel_m3", "Fuel lost", "{fuel_m3}*gas_lost_fuel"),
    )
    return [
        RowColumn(name, heading, "m³", m.formats.volume, m.of(name), formula, "fuel" if "fuel" in name else "oxygen")
        for name, heading, formula in columns
    ]


def _exact_columns(m: _Makings) -> list[RowColumn]:
    """Return the parts of cost before rounding."""
    formulas = {
        "gas": "oxygen_cost_per_m3*({preheat_oxygen_m3}+{lost_oxygen_m3})+fuel_cost_per_m3*({fuel_m3}+{lost_fuel_m3})",
        "labour": "{paid_time_min}/60*INDEX(labour_per_hour,job_labour_row)",
        "rent": "rent_per_flame_hour*{flame_time_min}/60",
        "add_on": "+".join(f"add_on_{part}*{{{part}_exact}}" for part in ("gas", "labour", "rent")),
        "overhead": "overhead_per_hour*{paid_time_min}/60+overhead_share*({gas_exact}+{labour_exact}+{rent_exact})",
    }
    costs, number = m.estimate.row_costs, m.formats.exact_money
    return [
        RowColumn(
            f"{part}_exact", f"{heading}, exact", m.currency, number, getattr(costs, part).tolist(), formulas[part]
        )
        for part, heading in _PARTS.items()
    ]


def _printed_columns(m: _Makings) -> list[RowColumn]:
    """Return the parts of cost as they are printed."""
    parts = m.estimate.rows.parts
    return [
        RowColumn(
            f"{part}_cost",
            heading,
            m.currency,
            m.formats.money,
            (parts[part] / m.minor).tolist(),
            f"ROUND({{{part}_exact}},decimals)",
        )
        for part, heading in _PARTS.items()
    ]


def _sum_columns(m: _Makings) -> list[RowColumn]:
    priced, money, exact = m.estimate.rows, m.formats.money, m.formats.exact_money
    cost, price = (priced.cost / m.minor).tolist(), (priced.price / m.minor).tolist()
    spread = m.estimate.shop.shop.spread_job_rows
    formulas = {kind: "+".join(f"{{{part}_{kind}}}" for part in _PARTS) for kind in ("cost", "exact")}
    printed = "0" if spread else "ROUND({cost_exact}*price_over_cost,decimals)"
    return [
        RowColumn("cost", "Cost", m.currency, money, cost, formulas["cost"]),
        RowColumn("cost_exact", "Cost, exact", m.currency, exact, priced.exact_cost.tolist(), formulas["exact"]),
        RowColumn("price", "Price", m.currency, money, price, printed),
    ]


def _as_shown(column: RowColumn, units: Mapping[str, CellUnit]) -> RowColumn:
    """Return a column in the shop's unit; its formula takes each cell of its row in the house unit."""

    def taken(match: re.Match[str]) -> str:
        unit = units[match[1]]
        return f"({unit.in_house(match[0])})" if unit.is_turned else match[0]

    cell = units[column.name]
    formula = cell.in_shown(re.sub(r"\{(\w+)\}", taken, column.formula)) if column.formula else ""
    values = [cell.shown(value) for value in column.values]
    return replace(column, unit=cell.unit, number=cell.number(column.number), values=values, formula=formula, cell=cell)
