"""The estimate as JSON: house names with units, money as decimal strings, quantities as numbers. Versioned."""

from __future__ import annotations

from typing import Any

import numpy as np

from estimator import __version__
from estimator.learning.ranges import Range
from estimator.pricing.build_up import COST_PARTS
from estimator.pricing.doubt import EstimateRanges
from estimator.pricing.job import Estimate
from estimator.pricing.money import format_minor
from estimator.write.second_look_json import second_look_json

__all__ = ["SCHEMA", "estimate_json"]

SCHEMA = "kerfledger/1"

PART_KEYS = {
    "gas": "gas_cost",
    "labour": "labour_cost",
    "consumables": "consumables_cost",
    "rent": "rent_cost",
    "steel": "material_cost",
    "add_on": "add_on_cost",
    "overhead": "overhead_cost",
}
"""JSON key of each part of the cost."""

_SUMMED = (
    "quantity",
    "cut_m",
    "cut_time_min",
    "flame_time_min",
    "jet_time_min",
    "paid_time_min",
    "cutting_oxygen_m3",
    "preheat_oxygen_m3",
    "lost_oxygen_m3",
    "fuel_m3",
    "lost_fuel_m3",
    "fuel_kg",
    "mass_kg",
)


def estimate_json(estimate: Estimate, ranges: EstimateRanges) -> dict[str, Any]:
    """Return the estimate as plain data.

    Parameters
    ----------
    estimate : Estimate
        A priced job.
    ranges : EstimateRanges
        Its ranges.

    Returns
    -------
    dict
        Keys as ``docs/json.md`` and its schema promise. An unknown number is null.
    """
    form, totals, cuts = estimate.shop.shop, estimate.totals, estimate.cuts

    def money(minor: int) -> str:
        return format_minor(int(minor), form.decimals)

    lines = _lines(estimate)
    summed: dict[str, Any] = {key: _number(sum(line[key] or 0.0 for line in lines)) for key in _SUMMED}
    printed = estimate.lines
    summed |= {PART_KEYS[part]: money(printed.parts[part].sum()) for part in COST_PARTS}
    summed |= {"cost": money(printed.cost.sum()), "price": money(printed.price.sum())}
    return {
        "schema": SCHEMA,
        "engine": __version__,
        "inputs": [{"file": cuts.file, "sha256": cuts.sha256}, *_shop_input(estimate)],
        "currency": form.currency,
        "example_prices": estimate.shop.is_example,
        "incomplete": estimate.incomplete,
        "job": {
            "customer": cuts.title.customer,
            "title": cuts.title.job,
            "date": str(estimate.date or ""),
            "quote_number": estimate.order.quote_number or cuts.title.quote_number,
            "revision": estimate.order.revision or cuts.title.revision,
            "fuel": estimate.kit.fuel,
        },
        "lines": lines,
        "job_rows": _job_rows(estimate),
        "totals": summed,
        "price_steps": {
            "lines": money(totals.lines),
            "job_rows": money(totals.job_rows),
            "quantity_break": money(-totals.quantity_break),
            "rush": money(totals.rush),
            "discount": money(-totals.discount),
            "minimum_top_up": money(totals.minimum_top_up),
            "delivery": money(totals.delivery),
            "taxable": money(totals.taxable),
        },
        "cost": money(totals.cost),
        "tax": money(totals.tax),
        "total": money(totals.total),
        "price_range": _range(ranges.price, form.decimals),
        "paid_time_range_min": _range(ranges.paid_time_min),
        "oxygen_range_m3": _range(ranges.oxygen_m3),
        "fuel_range_m3": _range(ranges.fuel_m3),
        "second_look": second_look_json(estimate),
        "reading": {
            "rows": [{"sheet": c.sheet, "rows": c.rows, "by_kind": c.by_kind} for c in cuts.counts],
            "read_as": [
                {"line": r.line, "column": r.column, "cell": r.cell, "original": r.original, "read_as": r.read_as}
                for r in cuts.read_as
            ],
        },
        "problems": [p.as_json() for p in estimate.problems],
    }


def _lines(estimate: Estimate) -> list[dict[str, Any]]:
    cuts, lines, metres, printed = estimate.cuts, estimate.job.lines, estimate.job.lines.metres, estimate.lines
    decimals = estimate.shop.shop.decimals
    paid = estimate.paid_time_min
    density = estimate.rates.fuel.density_kg_m3
    length = (metres.long_m_each + metres.short_m_each + metres.circle_m_each) * 1000.0
    out = []
    for i in range(len(cuts)):
        setting = int(lines.setting[i])
        numbers = {
            "quantity": cuts.quantity[i],
            "thickness_mm": cuts.thickness_mm[i],
            "cut_length_mm": length[i],
            "pierces": metres.pierces_each[i],
            "edge_starts": metres.edge_starts_each[i],
            "restarts": metres.restarts_each[i],
            "drilled_holes": metres.drilled_holes_each[i],
            "cut_m": lines.cut_m[i],
            "travel_speed_mm_min": lines.travel_speed_mm_min[i],
            "cut_time_min": lines.cut_time_min[i],
            "start_time_min": lines.start_time_min[i],
            "move_time_min": lines.move_time_min[i],
            "flame_time_min": lines.flame_time_min[i],
            "jet_time_min": lines.jet_time_min[i],
            "other_work_min": lines.other_work_min[i],
            "paid_time_min": paid[i],
            "cutting_oxygen_m3": lines.cutting_oxygen_m3[i],
            "preheat_oxygen_m3": lines.preheat_oxygen_m3[i],
            "lost_oxygen_m3": lines.lost_oxygen_m3[i],
            "fuel_m3": lines.fuel_m3[i],
            "lost_fuel_m3": lines.lost_fuel_m3[i],
            "fuel_kg": lines.fuel_m3[i] * density,
            "mass_kg": lines.mass_each_kg[i] * cuts.quantity[i],
        }
        money = {PART_KEYS[p]: format_minor(int(printed.parts[p][i]), decimals) for p in COST_PARTS}
        money |= {
            "cost": format_minor(int(printed.cost[i]), decimals),
            "price_each": format_minor(int(printed.price_each[i]), decimals),
            "minimum_top_up": format_minor(int(printed.top_up[i]), decimals),
            "price": format_minor(int(printed.price[i]), decimals),
        }
        out.append(
            {
                "sheet": cuts.sheet[i],
                "row": int(cuts.row[i]),
                "mark": cuts.mark[i],
                "description": cuts.description[i],
                "tip": estimate.job.settings.tip[setting] if setting >= 0 else "",
                "labour_rate": estimate.labour_rate[i],
            }
            | {key: _number(value) for key, value in numbers.items()}
            | money
        )
    return out


def _job_rows(estimate: Estimate) -> list[dict[str, Any]]:
    decimals, printed = estimate.shop.shop.decimals, estimate.rows
    return [
        {
            "key": row.key,
            "what": row.what,
            "count": _number(row.count),
            "minutes_each": _number(row.minutes_each),
            "paid_time_min": _number(row.paid_time_min),
            "flame_time_min": _number(row.flame_time_min),
            "preheat_oxygen_m3": _number(row.preheat_oxygen_m3),
            "lost_oxygen_m3": _number(row.lost_oxygen_m3),
            "fuel_m3": _number(row.fuel_m3),
            "lost_fuel_m3": _number(row.lost_fuel_m3),
        }
        | {PART_KEYS[p]: format_minor(int(printed.parts[p][i]), decimals) for p in COST_PARTS}
        | {
            "cost": format_minor(int(printed.cost[i]), decimals),
            "price": format_minor(int(printed.price[i]), decimals),
        }
        for i, row in enumerate(printed.rows)
    ]


def _shop_input(estimate: Estimate) -> list[dict[str, str]]:
    shop = estimate.shop
    return [{"file": shop.file or "built-in example shop (invented)", "sha256": shop.sha256}]


def _range(found: Range, decimals: int | None = None) -> dict[str, Any]:
    if decimals is None:
        return {"low": _number(found.low), "likely": _number(found.likely), "high": _number(found.high)}
    return {key: f"{getattr(found, key):.{decimals}f}" for key in ("low", "likely", "high")}


def _number(value: Any) -> float | int | None:
    """Return a plain number without binary dust, or null for one that is not known."""
    number = float(value)
    if not np.isfinite(number):
        return None
    rounded = round(number, 9)
    return int(rounded) if rounded.is_integer() and abs(rounded) < 1e15 else rounded
