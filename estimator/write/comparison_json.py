"""A comparison of suppliers as JSON: money as decimal strings, quantities as numbers at 15 °C and 101.325 kPa."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from estimator import __version__
from estimator.pricing.comparison import Comparison
from estimator.pricing.landed import Choice, Component, Plan
from estimator.pricing.money import format_minor
from estimator.pricing.suppliers import Mix
from estimator.write.comparison_fuels import fuels_json
from estimator.write.comparison_text import explanation

__all__ = ["comparison_json"]

SCHEMA = "kerfledger/1"


def comparison_json(comparison: Comparison) -> dict[str, Any]:
    """Return a comparison in its JSON form.

    Parameters
    ----------
    comparison : Comparison
        The finished comparison.

    Returns
    -------
    dict
        Keys are house names; the same comparison gives the same dict.

    Notes
    -----
    The components of a plan add to its total. Source: definition.
    """

    def money(minor: int | None) -> str | None:
        return None if minor is None else format_minor(minor, comparison.money.decimals)

    return {
        "schema": SCHEMA,
        "task": "compare",
        "engine_version": __version__,
        "inputs": [{"name": name, "sha256": sha256} for name, sha256 in comparison.inputs],
        "date": comparison.on.isoformat(),
        "currency": comparison.currency,
        "explanation": explanation(comparison),
        "use_from": comparison.use_from,
        "use": [
            {
                "gas": use.gas,
                "month_m3": use.month_m3,
                "low_month_m3": use.low_month_m3,
                "high_month_m3": use.high_month_m3,
                "highest_draw_m3_h": use.highest_draw_m3_h,
            }
            for use in comparison.uses
        ],
        "ranking": [_mix(mix, comparison) for mix in comparison.mixes],
        "at_sight": [{"supplier": s.supplier, "month_gas_cost": money(s.month_minor)} for s in comparison.at_sight],
        "cheapest_by_demand": [
            {"mix": span.mix, "from_factor": span.from_factor, "to_factor": span.to_factor} for span in comparison.spans
        ],
        "cost_by_demand": {
            "factor": list(comparison.curve.factors),
            "month_cost": {name: [money(m) for m in row] for name, row in comparison.curve.by_mix_minor.items()},
        },
        "changes": [
            {
                "change": change.what,
                "cheapest": change.leader,
                "month_cost": money(change.leader_minor),
                "same": change.same_leader,
                "cheapest_before_now_costs": money(change.first_was_minor),
            }
            for change in comparison.changes
        ],
        "price_rise_that_turns": comparison.price_rise,
        "rent_rise_that_turns": comparison.rent_rise,
        "reference_states": [
            {
                "supplier": row.supplier,
                "gas": row.gas,
                "cylinder": row.cylinder,
                "stated": row.stated,
                "naive_m3": row.naive_m3,
                "content_m3": row.content_m3,
                "month_difference": money(row.difference_minor),
            }
            for row in comparison.restated
        ],
        "fuels": fuels_json(comparison),
        "questions": [{"supplier": q.supplier, "ask": q.ask, "why": q.why} for q in comparison.questions],
        "assumed": [
            {"supplier": a.supplier, "what": a.what, "taken": a.taken, "status": a.status}
            for a in comparison.market.assumed
        ],
        "problems": [problem.as_json() for problem in comparison.problems],
    }


def _mix(mix: Mix, comparison: Comparison) -> dict[str, Any]:
    decimals = comparison.money.decimals
    return {
        "mix": mix.name,
        "supplier_of": mix.supplier_of,
        "month_cost": format_minor(mix.total_minor, decimals),
        "plans": [_plan(plan, decimals) for plan in mix.plans],
    }


def _plan(plan: Plan, decimals: int) -> dict[str, Any]:
    return {
        "supplier": plan.supplier,
        "deliveries_per_month": plan.deliveries_per_month,
        "month_cost": format_minor(plan.total_minor, decimals),
        "gases": [_choice(choice, plan, decimals) for choice in plan.choices],
        "shared": _amounts(plan.shared_minor, decimals),
    }


def _choice(choice: Choice, plan: Plan, decimals: int) -> dict[str, Any]:
    return {
        "gas": choice.use.gas,
        "cylinder": choice.offer.cylinder,
        "fills_per_month": choice.fills_per_month,
        "in_set": choice.in_set,
        "kept_back": choice.kept_back,
        "swapped": choice.swapped,
        "held": choice.held,
        "components": _amounts(plan.by_gas_minor[choice.use.gas], decimals),
    }


def _amounts(lines: Mapping[Component, int], decimals: int) -> dict[str, str]:
    return {component.name.lower(): format_minor(minor, decimals) for component, minor in lines.items()}
