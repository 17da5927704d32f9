"""The promise of ``estimate --json``: its JSON schema, published in the docs and held by a test."""

from __future__ import annotations

from typing import Any

from estimator.pricing.sense import Verdict
from estimator.write.estimate_json import PART_KEYS, SCHEMA

__all__ = ["ESTIMATE_SCHEMA"]

_MONEY = {"type": "string", "pattern": r"^-?\d+(\.\d+)?$"}
_NUMBER = {"type": "number"}
_MAYBE = {"type": ["number", "null"]}
_TEXT = {"type": "string"}


def _object(properties: dict[str, Any], *, required: bool = True) -> dict[str, Any]:
    shape: dict[str, Any] = {"type": "object", "properties": properties}
    return shape | {"required": list(properties)} if required else shape


def _range(of: dict[str, Any]) -> dict[str, Any]:
    return _object({"low": of, "likely": of, "high": of})


_COSTS = dict.fromkeys((*PART_KEYS.values(), "cost"), _MONEY)
_TIMES = dict.fromkeys(("cut_time_min", "flame_time_min", "jet_time_min", "paid_time_min"), _NUMBER)
_GAS = dict.fromkeys(
    ("cutting_oxygen_m3", "preheat_oxygen_m3", "lost_oxygen_m3", "fuel_m3", "lost_fuel_m3", "fuel_kg"), _NUMBER
)

_LINE = {"sheet": _TEXT, "row": {"type": "integer", "minimum": 0}, "mark": _TEXT}
_SECOND_LOOK = _object(
    {
        "sense": {
            "type": "array",
            "items": _object(
                {
                    "name": _TEXT,
                    **dict.fromkeys(("found", "usual_low", "usual_high"), _MAYBE),
                    "verdict": {"enum": [str(verdict) for verdict in Verdict]},
                    "words": _TEXT,
                }
            ),
        },
        "plates": {
            "type": "array",
            "items": _object(
                {
                    **dict.fromkeys(("thickness_mm", "plate_length_mm", "plate_width_mm"), _NUMBER),
                    "plates": {"type": "integer", "minimum": 1},
                    **dict.fromkeys(("used_share", "left_over_kg"), _NUMBER),
                    **dict.fromkeys(("price", "scrap_credit"), _MONEY),
                    "lines": {"type": "array", "items": _object(_LINE)},
                }
            ),
        },
        "no_plate_for": {"type": "array", "items": _object(_LINE)},
        "cheaper_not_burnt": {
            "type": "array",
            "items": _object(
                {
                    **_LINE,
                    "way": _TEXT,
                    "units": _NUMBER,
                    **dict.fromkeys(("torch_cost_each", "way_cost_each", "saving"), _MONEY),
                }
            ),
        },
    }
)

ESTIMATE_SCHEMA: dict[str, Any] = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "$comment": "Money is a decimal string in the currency's major unit; quantities are numbers, unit in the key.",
    **_object(
        {
            "schema": {"const": SCHEMA},
            "engine": _TEXT,
            "inputs": {"type": "array", "items": _object({"file": _TEXT, "sha256": _TEXT})},
            "currency": _TEXT,
            "example_prices": {"type": "boolean"},
            "incomplete": {"type": "boolean"},
            "job": _object(dict.fromkeys(("customer", "title", "date", "quote_number", "revision", "fuel"), _TEXT)),
            "lines": {
                "type": "array",
                "items": _object(
                    {
                        "sheet": _TEXT,
                        "row": {"type": "integer", "minimum": 0},
                        "mark": _TEXT,
                        "tip": _TEXT,
                        "quantity": _NUMBER,
                        "thickness_mm": _MAYBE,
                        "cut_length_mm": _NUMBER,
                        "pierces": _NUMBER,
                        "edge_starts": _NUMBER,
                        "travel_speed_mm_min": _MAYBE,
                        **_TIMES,
                        **_GAS,
                        **_COSTS,
                        "price_each": _MONEY,
                        "price": _MONEY,
                    }
                ),
            },
            "job_rows": {
                "type": "array",
                "items": _object({"key": _TEXT, "what": _TEXT, "count": _NUMBER, **_COSTS, "price": _MONEY}),
            },
            "totals": _object({"quantity": _NUMBER, **_TIMES, **_GAS, **_COSTS, "price": _MONEY}),
            "price_steps": _object(
                dict.fromkeys(
                    (
                        "lines",
                        "job_rows",
                        "quantity_break",
                        "rush",
                        "discount",
                        "minimum_top_up",
                        "delivery",
                        "taxable",
                    ),
                    _MONEY,
                )
            ),
            "cost": _MONEY,
            "tax": _MONEY,
            "total": _MONEY,
            "price_range": _range(_MONEY),
            "paid_time_range_min": _range(_NUMBER),
            "oxygen_range_m3": _range(_NUMBER),
            "fuel_range_m3": _range(_NUMBER),
            "second_look": _SECOND_LOOK,
            "reading": _object({"rows": {"type": "array"}, "read_as": {"type": "array"}}),
            "problems": {
                "type": "array",
                "items": _object(
                    dict.fromkeys(
                        ("code", "level", "file", "sheet", "cell", "fact", "found", "needs", "why", "do"), _TEXT
                    )
                ),
            },
        }
    ),
}
