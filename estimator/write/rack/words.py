"""Sentences about the rack that terminal, workbook and card share, so that they say the same."""

from __future__ import annotations

from collections.abc import Sequence

from estimator.pricing.rack.draws import TipDraw
from estimator.pricing.rack.gas_plan import GasPlan
from estimator.pricing.rack.order import Order
from estimator.pricing.rack.propane import PropaneDraw
from estimator.pricing.rack.report import RackReport
from estimator.quantities.draw_verdict import DrawLevel
from estimator.shown_units import ShownUnits

__all__ = [
    "FIRST_WAYS_OUT",
    "MANIFOLD_WORDS",
    "call_list",
    "chance_words",
    "draw_line",
    "gas_line",
    "headline",
    "list_names",
    "order_line",
    "propane_figures",
    "shown_by",
    "step_list",
    "to_ft3",
]

_FT3_M3 = 0.3048**3

FIRST_WAYS_OUT = "First a smaller tip, propane or another fuel, or a larger cylinder."
MANIFOLD_WORDS = (
    "Otherwise an acetylene manifold approved by the supplier: cylinders of one size and fill, a non-return valve on "
    "each leg, never tees, never plain copper."
)
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_LEVEL_WORDS = {
    DrawLevel.WITHIN: "within its limit",
    DrawLevel.CAUTION: "within the limit of a full cylinder, above that of what is left",
    DrawLevel.WARNING: "ABOVE THE LIMIT FOR SUCH WORK",
    DrawLevel.STOP: "STOP",
}


def headline(report: RackReport) -> str:
    """Return the answer in one or two sentences."""
    if report.stop:
        tips = ", ".join(one.tip for one in report.draws if one.verdict.level is DrawLevel.STOP)
        return f"STOP: do not light tip {tips} on this rack. It would be pulled too hard."
    short = [gas for gas in report.gases if gas.first_short_step is not None]
    if not short:
        least = min(report.gases, key=lambda gas: gas.chance)
        return f"The rack finishes the work: {chance_words(least.chance)} for {least.gas}, the gas that is closest."
    said = [
        f"{gas.gas} runs short at {report.steps.each[gas.first_short_step].name}"
        for gas in short
        if gas.first_short_step is not None
    ]
    return f"The rack does NOT finish the work: {'; '.join(said)}."


def gas_line(gas: GasPlan, units: ShownUnits) -> str:
    """Return what the jobs take of one gas against what the rack gives."""
    need = units.gas_words(gas.used_m3, gas.gas)
    low, high = (units.gas(end, gas.gas) for end in (gas.use_range.low, gas.use_range.high))
    span = f"four times in five {low:.1f} to {high:.1f} {units.gas_unit(gas.gas)}"
    if gas.piped:
        return f"{gas.gas}: {need} by the meter, {span}. Piped: no cylinder to run dry."
    held = f"{units.gas_words(gas.usable_m3, gas.gas)} usable on the rack"
    lasts = "not every line may draw on it" if gas.covers <= 0 < gas.usable_m3 else chance_words(gas.chance)
    return f"{gas.gas}: {need} needed, {span}; {held}; {lasts}."


def chance_words(chance: float) -> str:
    """Return the chance that the rack is enough, as people say it."""
    if chance >= 0.995:
        return "it is enough"
    if chance <= 0.005:
        return "it is not enough"
    return f"enough {max(round(chance * 100), 1)} times in 100"


def draw_line(one: TipDraw, units: ShownUnits) -> str:
    """Return one tip's draw, its limit and what is said of it."""
    kind = "heating tip" if one.is_heating else "tip"
    on = one.set_name or f"one full {one.size}"
    basis = "of what is left" if one.is_heating else "of rated content"
    places = ".0f" if units.inch else ".2f"
    return (
        f"{kind} {one.tip}: {units.words(one.draw_m3_h, 'm³/h', places)} on {on}, limit "
        f"{units.number(one.verdict.limit_m3_h, 'm³/h'):{places}} by {one.rule} {basis} an hour "
        f"({'lit long without a break' if one.is_continuous else 'lit with breaks'}): "
        f"{_LEVEL_WORDS[one.verdict.level]}. Full {one.size} needed: {one.counts_words}."
    )


def propane_figures(one: PropaneDraw, units: ShownUnits) -> tuple[str, str, str]:
    """Return what a tip draws of propane, what its cylinder evaporates, and the air that it stands in."""
    mass = f"{units.unit('kg')}/h"
    draw, low, high = (units.number(kg_h, "kg") for kg_h in (one.draw_kg_h, one.low_kg_h, one.high_kg_h))
    return f"{draw:.2f} {mass}", f"{low:.1f} to {high:.1f} {mass}", units.words(one.air_c, "°C", "g")


def order_line(order: Order) -> str:
    """Return what to order of one gas and by when."""
    if order.cylinders == 0 and order.cylinders_sure == 0:
        return f"{order.gas}: nothing to order for this work."
    if not order.helps:
        return (
            f"{order.gas}: no single full {order.size} may feed every line, so ordering more of them does not help. "
            + FIRST_WAYS_OUT
        )
    by = f", ordered by {order.order_by} for {order.needed_on}" if order.order_by else ""
    lead = f" ({order.lead_days} working days from order to delivery)" if order.order_by else ""
    if order.cylinders == 0:
        return (
            f"{order.gas}: nothing at the likely use; {order.cylinders_sure} x {order.size} to be sure 9 times in 10."
        )
    sure = f"; {order.cylinders_sure} to be sure 9 times in 10" if order.cylinders_sure > order.cylinders else ""
    whose = f" from {order.supplier}" if order.supplier else ""
    return f"{order.gas}: {order.cylinders} x {order.size}{whose}{by}{lead}{sure}."


def call_list(report: RackReport) -> list[str]:
    """Return the call to each supplier in one breath, then each gas with its dates and what to be sure of."""
    orders = [order for order in report.orders if order.size != "piped"]
    suppliers = dict.fromkeys(order.supplier for order in orders)
    calls = [_call(name, [order for order in orders if order.supplier == name]) for name in suppliers]
    return [*filter(None, calls), *(order_line(order) for order in orders)]


def _call(supplier: str, orders: Sequence[Order]) -> str:
    """Return what is said on the telephone: "oxygen 2, acetylene 1, by Thursday noon; send back 3"."""
    wanted = [f"{order.gas} {order.cylinders} ({order.size})" for order in orders if order.cylinders and order.helps]
    days = [order.order_by for order in orders if order.cylinders and order.helps and order.order_by]
    back = [name for order in orders for name in order.empties]
    if days and wanted:
        wanted.append(f"by {_DAYS[min(days).weekday()]} noon, {min(days)}")
    said = [", ".join(wanted), f"send back {len(back)} when run down: {', '.join(back)}" if back else ""]
    return f"Call {supplier or 'the supplier'}: {'; '.join(filter(None, said))}." if any(said) else ""


def list_names(report: RackReport) -> str:
    """Return the lists with their dates, numbered where there are several."""
    several = len(report.estimates) > 1
    return ", ".join(
        f"{f'{number}: ' if several else ''}{one.cuts.file} ({one.date or 'no date'})"
        for number, one in enumerate(report.estimates, 1)
    )


def step_list(report: RackReport, place: int | None) -> str:
    """Return a step as people point to it, with its list where there are several."""
    if place is None:
        return ""
    step = report.steps.each[place]
    return f"{step.list_number + 1}: {step.name}" if len(report.estimates) > 1 else step.name


def shown_by(report: RackReport) -> ShownUnits:
    """Return the units of the shop whose rack it is."""
    return report.estimates[0].shop.shown


def to_ft3(volume_m3: float) -> float:
    """Return cubic feet at the same state."""
    return volume_m3 / _FT3_M3
