"""The rack plan as JSON: house names with units, quantities as numbers at 15 °C and 101.325 kPa. Versioned."""

from __future__ import annotations

from math import isfinite
from typing import Any

from estimator import __version__
from estimator.pricing.rack.draws import TipDraw
from estimator.pricing.rack.gas_plan import CylinderOutcome, GasPlan
from estimator.pricing.rack.order import Order
from estimator.pricing.rack.report import RackReport
from estimator.write.rack.words import headline

__all__ = ["SCHEMA", "rack_json"]

SCHEMA = "kerfledger/1"


def rack_json(report: RackReport) -> dict[str, Any]:
    """Return the plan as plain data.

    Parameters
    ----------
    report : RackReport
        The finished plan.

    Returns
    -------
    dict
        Keys are house names; an amount that does not apply is null.
    """
    shop = report.estimates[0].shop
    return {
        "schema": SCHEMA,
        "task": "rack",
        "engine": __version__,
        "inputs": [
            *({"file": one.cuts.file, "sha256": one.cuts.sha256} for one in report.estimates),
            *([{"file": shop.file, "sha256": shop.sha256}] if shop.file else []),
        ],
        "reference_state": "15 °C, 101.325 kPa",
        "example_prices": shop.is_example,
        "incomplete": report.incomplete,
        "stop": report.stop,
        "finishes": report.finishes,
        "headline": headline(report),
        "fuel": report.fuel,
        "torches": report.steps.torches,
        "by_tip": report.steps.by_tip,
        "steps": [_step(report, i) for i in range(len(report.steps))],
        "gases": [_gas(report, gas, order) for gas, order in zip(report.gases, report.orders, strict=True)],
        "draws": [_draw(one) for one in report.draws],
        "propane_draws": [
            {
                "tip": one.tip,
                "cylinder": one.cylinder_id,
                "draw_kg_h": one.draw_kg_h,
                "evaporates_low_kg_h": one.low_kg_h,
                "evaporates_likely_kg_h": one.likely_kg_h,
                "evaporates_high_kg_h": one.high_kg_h,
                "air_c": one.air_c,
                "fill_share": one.fill_share,
            }
            for one in report.propane
        ],
        "outfit": [problem.as_json() for problem in report.outfit],
        "cautions": [{"caution": c.text, "source": c.source, "stage": c.stage} for c in report.cautions],
        "problems": [problem.as_json() for problem in report.problems],
    }


def _step(report: RackReport, place: int) -> dict[str, Any]:
    step = report.steps.each[place]
    return {
        "file": step.file,
        "date": str(step.date) if step.date else None,
        "row": step.row or None,
        "mark": step.mark,
        "work": step.what,
        "tip": step.tip or None,
        "heating_tip": step.is_heating,
        "continuous": step.is_continuous,
        "oxygen_m3": step.oxygen_m3,
        "fuel_m3": step.fuel_m3,
        "fuel_draw_m3_h": step.draw_m3_h,
        "paid_time_min": step.paid_min,
    }


def _gas(report: RackReport, gas: GasPlan, order: Order) -> dict[str, Any]:
    plan = gas.plan
    return {
        "gas": gas.gas,
        "piped": gas.piped,
        "used_m3": gas.used_m3,
        "used_range_m3": {"low": gas.use_range.low, "likely": gas.use_range.likely, "high": gas.use_range.high},
        "usable_m3": None if gas.piped else gas.usable_m3,
        "covers_times_likely": _finite(gas.covers),
        "chance_enough": gas.chance,
        "short_m3": gas.short_m3,
        "first_short": _pointed(report, gas.first_short_step),
        "changes": plan.changes,
        "cylinders": [_cylinder(report, one) for one in gas.cylinders],
        "left_after_step_m3": [] if gas.piped else plan.left_after_line_m3.tolist(),
        "drawn_from": [list(names) for names in gas.step_sets],
        "order": {
            "size": order.size,
            "supplier": order.supplier,
            "cylinders": order.cylinders,
            "cylinders_9_in_10": order.cylinders_sure,
            "helps": order.helps,
            "work_before_short_min": _finite(order.work_before_min),
            "needed_on": str(order.needed_on) if order.needed_on else None,
            "order_by": str(order.order_by) if order.order_by else None,
            "lead_time_days": order.lead_days,
            "send_back": list(order.empties),
        },
    }


def _cylinder(report: RackReport, one: CylinderOutcome) -> dict[str, Any]:
    c = one.content
    return {
        "cylinder": c.cylinder_id,
        "size": c.size,
        "set": one.set_name,
        "rated_m3": c.rated_m3,
        "start_m3": c.now_m3,
        "plus_minus_m3": c.plus_minus_m3,
        "read_by": str(c.how),
        "read_as": c.read_as,
        "heel_m3": c.heel_m3,
        "used_m3": one.used_m3,
        "left_m3": one.left_m3,
        "runs_down_at": _pointed(report, one.dry_step),
    }


def _draw(one: TipDraw) -> dict[str, Any]:
    verdict = one.verdict
    return {
        "tip": one.tip,
        "heating_tip": one.is_heating,
        "continuous": one.is_continuous,
        "draw_m3_h": one.draw_m3_h,
        "draw_ft3_h": one.draw_ft3_h,
        "set": one.set_name or None,
        "size": one.size,
        "cylinders": one.cylinders,
        "rated_each_m3": one.rated_m3,
        "level": str(verdict.level),
        "limit_m3_h": verdict.limit_m3_h,
        "rule": one.rule,
        "full_cylinders_needed": dict(one.counts),
        "cylinders_as_they_are": verdict.cylinders_as_they_are,
    }


def _pointed(report: RackReport, place: int | None) -> dict[str, Any] | None:
    if place is None:
        return None
    step = report.steps.each[place]
    return {"step": place, "file": step.file, "row": step.row or None, "mark": step.mark, "tip": step.tip or None}


def _finite(value: float) -> float | None:
    return value if isfinite(value) else None
