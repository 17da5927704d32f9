"""The promise of ``rack --json``: its JSON schema, published in the docs and held by a test."""

from __future__ import annotations

from typing import Any

from estimator.write.rack.json_form import SCHEMA

__all__ = ["RACK_SCHEMA"]

_NUMBER = {"type": "number"}
_MAYBE = {"type": ["number", "null"]}
_COUNT = {"type": "integer", "minimum": 0}
_TEXT = {"type": "string"}
_TEXT_OR_NULL = {"type": ["string", "null"]}
_FLAG = {"type": "boolean"}


def _object(properties: dict[str, Any]) -> dict[str, Any]:
    return {"type": "object", "properties": properties, "required": list(properties), "additionalProperties": False}


def _list(of: dict[str, Any]) -> dict[str, Any]:
    return {"type": "array", "items": of}


_ROW = {"type": ["integer", "null"]}
_POINTED = {
    "anyOf": [
        {"type": "null"},
        _object({"step": _COUNT, "file": _TEXT, "row": _ROW, "mark": _TEXT, "tip": _TEXT_OR_NULL}),
    ]
}
_PROBLEM = _object(
    dict.fromkeys(("code", "level", "file", "sheet", "cell", "fact", "found", "needs", "why", "do"), _TEXT)
)
_STEP = _object(
    {
        "file": _TEXT,
        "date": _TEXT_OR_NULL,
        "row": _ROW,
        "mark": _TEXT,
        "work": _TEXT,
        "tip": _TEXT_OR_NULL,
        "heating_tip": _FLAG,
        "continuous": _FLAG,
        **dict.fromkeys(("oxygen_m3", "fuel_m3", "fuel_draw_m3_h", "paid_time_min"), _NUMBER),
    }
)
_CYLINDER = _object(
    {
        "cylinder": _TEXT,
        "size": _TEXT,
        "set": _TEXT,
        **dict.fromkeys(("rated_m3", "start_m3", "plus_minus_m3"), _NUMBER),
        "read_by": {"enum": ["gauge", "weight", "rough", "not read"]},
        "read_as": _TEXT,
        **dict.fromkeys(("heel_m3", "used_m3", "left_m3"), _NUMBER),
        "runs_down_at": _POINTED,
    }
)
_ORDER = _object(
    {
        "size": _TEXT,
        "supplier": _TEXT,
        "cylinders": _COUNT,
        "cylinders_9_in_10": _COUNT,
        "helps": _FLAG,
        "work_before_short_min": _MAYBE,
        "needed_on": _TEXT_OR_NULL,
        "order_by": _TEXT_OR_NULL,
        "lead_time_days": _COUNT,
        "send_back": _list(_TEXT),
    }
)
_GAS = _object(
    {
        "gas": _TEXT,
        "piped": _FLAG,
        "used_m3": _NUMBER,
        "used_range_m3": _object(dict.fromkeys(("low", "likely", "high"), _NUMBER)),
        "usable_m3": _MAYBE,
        "covers_times_likely": _MAYBE,
        "chance_enough": {"type": "number", "minimum": 0, "maximum": 1},
        "short_m3": _NUMBER,
        "first_short": _POINTED,
        "changes": _COUNT,
        "cylinders": _list(_CYLINDER),
        "left_after_step_m3": _list(_NUMBER),
        "drawn_from": _list(_list(_TEXT)),
        "order": _ORDER,
    }
)
_DRAW = _object(
    {
        "tip": _TEXT,
        "heating_tip": _FLAG,
        "continuous": _FLAG,
        "draw_m3_h": _NUMBER,
        "draw_ft3_h": _NUMBER,
        "set": _TEXT_OR_NULL,
        "size": _TEXT,
        "cylinders": _COUNT,
        "rated_each_m3": _NUMBER,
        "level": {"enum": ["within", "caution", "warning", "stop"]},
        "limit_m3_h": _NUMBER,
        "rule": _TEXT,
        "full_cylinders_needed": {"type": "object", "additionalProperties": _COUNT},
        "cylinders_as_they_are": _ROW,
    }
)
_PROPANE = _object(
    {
        "tip": _TEXT,
        "cylinder": _TEXT,
        **dict.fromkeys(
            (
                "draw_kg_h",
                "evaporates_low_kg_h",
                "evaporates_likely_kg_h",
                "evaporates_high_kg_h",
                "air_c",
                "fill_share",
            ),
            _NUMBER,
        ),
    }
)

RACK_SCHEMA: dict[str, Any] = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "$comment": "Gas at 15 °C and 101.325 kPa; used_m3 + left_m3 + heel_m3 = start_m3 for every cylinder.",
    **_object(
        {
            "schema": {"const": SCHEMA},
            "task": {"const": "rack"},
            "engine": _TEXT,
            "inputs": _list(_object({"file": _TEXT, "sha256": _TEXT})),
            "reference_state": _TEXT,
            "example_prices": _FLAG,
            "incomplete": _FLAG,
            "stop": _FLAG,
            "finishes": _FLAG,
            "headline": _TEXT,
            "fuel": _TEXT,
            "torches": {"type": "integer", "minimum": 1},
            "by_tip": _FLAG,
            "steps": _list(_STEP),
            "gases": _list(_GAS),
            "draws": _list(_DRAW),
            "propane_draws": _list(_PROPANE),
            "outfit": _list(_PROBLEM),
            "cautions": _list(_object({"caution": _TEXT, "source": _TEXT, "stage": _TEXT})),
            "problems": _list(_PROBLEM),
        }
    ),
}
