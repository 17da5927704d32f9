"""The promise of ``--json`` of quote, variation, decide, register and job-card: schemas, published and tested."""

from __future__ import annotations

from typing import Any

from estimator.pricing.quote_changes import Change
from estimator.sheets.register import STATES
from estimator.sheets.work_log import OPERATIONS

__all__ = ["DECIDE_SCHEMA", "JOB_CARD_SCHEMA", "QUOTE_SCHEMA", "REGISTER_SCHEMA"]

_MONEY = {"type": "string", "pattern": r"^-?\d+(\.\d+)?$"}
_MONEY_OR_NULL = {"type": ["string", "null"], "pattern": r"^-?\d+(\.\d+)?$"}
_NUMBER = {"type": "number"}
_MAYBE = {"type": ["number", "null"]}
_COUNT = {"type": "integer", "minimum": 0}
_COUNT_OR_NULL = {"type": ["integer", "null"], "minimum": 1}
_TEXT = {"type": "string"}
_TEXT_OR_NULL = {"type": ["string", "null"]}
_FLAG = {"type": "boolean"}


def _object(properties: dict[str, Any]) -> dict[str, Any]:
    return {"type": "object", "properties": properties, "required": list(properties), "additionalProperties": False}


def _list(of: dict[str, Any]) -> dict[str, Any]:
    return {"type": "array", "items": of}


def _answer(title: str, properties: dict[str, Any]) -> dict[str, Any]:
    whole = _object({"schema": {"const": "kerfledger/1"}, **properties, "problems": _list(_PROBLEM)})
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": title, **whole}


_PROBLEM = _object(
    dict.fromkeys(("code", "level", "file", "sheet", "cell", "fact", "found", "needs", "why", "do"), _TEXT)
)
_QUOTE = _object(
    {
        **dict.fromkeys(("number", "revision"), _TEXT),
        "variation": _COUNT_OR_NULL,
        "date": {"type": "string", "format": "date"},
        **dict.fromkeys(("customer", "title"), _TEXT),
        "price": _MONEY,
        "total": _MONEY_OR_NULL,
        **dict.fromkeys(("hours", "oxygen_m3"), _MAYBE),
        "fuel": _TEXT,
        "fuel_m3": _MAYBE,
        "gas_cost": _MONEY_OR_NULL,
        "state": {"enum": list(STATES)},
        "decided_on": _TEXT_OR_NULL,
        **dict.fromkeys(("why", "job_number"), _TEXT),
        "work_from": _TEXT_OR_NULL,
        **dict.fromkeys(("file", "estimate"), _TEXT),
    }
)
_CHANGED_LINE = _object(
    {"change": {"enum": [str(one) for one in Change]}, "mark": _TEXT, "what": _TEXT}
    | dict.fromkeys(("was", "now", "difference"), _MONEY)
)
_CHANGES = _object({"since": _TEXT, "lines": _list(_CHANGED_LINE)} | dict.fromkeys(("rest", "was", "now"), _MONEY))

QUOTE_SCHEMA = _answer(
    "quote and variation",
    {
        "currency": _TEXT,
        "incomplete": _FLAG,
        "quote": _QUOTE,
        "changes": {"anyOf": [{"type": "null"}, _CHANGES]},
        "files": _list(_TEXT),
    },
)
DECIDE_SCHEMA = _answer("decide", {"quote": _QUOTE})
REGISTER_SCHEMA = _answer(
    "register",
    {
        "register": _TEXT,
        "sha256": {"type": "string", "pattern": "^[0-9a-f]{64}$"},
        "quotes": _list(_QUOTE),
        "hit_rates": _list(
            _object(
                {"customer": _TEXT}
                | dict.fromkeys(("won", "lost", "open"), _COUNT)
                | {"won_of_decided": _MAYBE}
                | dict.fromkeys(("won_price", "lost_price", "open_price"), _MONEY)
            )
        ),
        "replaced": _COUNT,
    },
)
_CARD_LINE = _object(
    {
        **dict.fromkeys(("mark", "drawing", "description"), _TEXT),
        "quantity": _COUNT,
        "plate_thickness_mm": _MAYBE,
        "shape": _TEXT,
        **dict.fromkeys(("size_a_mm", "size_b_mm", "cut_length_mm"), _MAYBE),
        "holes": _COUNT,
        "hole_diameter_mm": _MAYBE,
        "drilled": _FLAG,
        "mass_each_kg": _NUMBER,
        "support_before_last_cut": _FLAG,
        "notes": _list(_TEXT),
    }
)
_CARD_GROUP = _object(
    {
        **dict.fromkeys(("tip", "guide"), _TEXT),
        **dict.fromkeys(
            (
                "thickness_along_cut_mm",
                "oxygen_pressure_bar",
                "fuel_pressure_bar",
                "travel_speed_mm_min",
                "kerf_mm",
            ),
            _MAYBE,
        ),
        "lines": _list(_CARD_LINE),
        "keep": _list(_TEXT),
    }
)
_LOG_ROW = _object(
    {
        **dict.fromkeys(("job", "quote_number"), _TEXT),
        "operation": {"enum": list(OPERATIONS)},
        **dict.fromkeys(("method", "tip"), _TEXT_OR_NULL),
        "thickness_mm": _MAYBE,
        "pieces": _COUNT_OR_NULL,
        "cut_length_m": _MAYBE,
        **dict.fromkeys(("pierces", "edge_starts"), _COUNT_OR_NULL),
    }
)
JOB_CARD_SCHEMA = _answer(
    "job-card",
    {
        **dict.fromkeys(("job_number", "quote", "customer", "title"), _TEXT),
        "work_from": _TEXT_OR_NULL,
        "fuel": _TEXT,
        "pieces": _COUNT,
        "groups": _list(_CARD_GROUP),
        "log_rows": _list(_LOG_ROW),
        "cautions": _list(_object({"text": _TEXT, "source": _TEXT})),
    },
)
