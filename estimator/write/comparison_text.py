"""A comparison of suppliers in the words of the terminal: who is cheapest, why that is hard to see, what to order.

The same sentences stand on the first sheet of the workbook.
"""

from __future__ import annotations

from estimator.plain_words import list_words
from estimator.pricing.comparison import Comparison
from estimator.pricing.landed import Choice, Component, Plan
from estimator.pricing.money import format_minor
from estimator.pricing.suppliers import Mix
from estimator.write.comparison_fuels import fuel_lines
from estimator.write.comparison_prices import state_words

__all__ = ["explanation", "order_lines", "summary_text", "turning_lines"]

_SHOWN = 4
"""Mixes that the terminal shows; suppliers alone are always shown."""
_OWN_GAS = {Component.GAS}
_DAYS_PER_MONTH = 365 / 12


def summary_text(comparison: Comparison) -> str:
    """Return what the terminal prints.

    Parameters
    ----------
    comparison : Comparison
        The finished comparison.

    Returns
    -------
    str
        Two sentences that explain, the ranking, what to order, where it turns, and how much is to be asked.

    Notes
    -----
    Source: definition.
    """
    parts = [explanation(comparison), comparison.use_from]
    parts += ["\n".join(_ranking_lines(comparison)), "\n".join(order_lines(comparison))]
    parts += ["\n".join(turning_lines(comparison)), "\n".join(fuel_lines(comparison))]
    asked = len(comparison.questions)
    if asked:
        parts.append(f"{asked} questions to ask the suppliers before signing stand in the workbook.")
    return "\n\n".join(part for part in parts if part) + "\n"


def explanation(comparison: Comparison) -> str:
    """Return two sentences: who is cheapest by how much, and why the printed prices do not show it."""
    return f"{_verdict(comparison)} {_why(comparison)}"


def _verdict(comparison: Comparison) -> str:
    best = comparison.best
    others = [m for m in comparison.mixes[1:] if len(m.plans) == 1 or m is comparison.mixes[1]]
    said = [f"{_money(comparison, m.total_minor - best.total_minor)} less than {m.name}" for m in others]
    cost = _money(comparison, best.total_minor, currency=True)
    start = f"{best.name} {_is(best)} cheapest for this shop: {cost} a month before tax"
    return f"{start}, {list_words(said)}." if said else f"{start}; nothing else was offered for all of its gas."


def _is(mix: Mix) -> str:
    return "is" if len(mix.plans) == 1 else "together are"


def _why(comparison: Comparison) -> str:
    sights = comparison.at_sight
    if len(sights) < 2:
        return f"{'Only one' if sights else 'No one'} supplier sells every gas, so there is no order at sight."
    order = list_words([f"{s.supplier} ({_money(comparison, s.month_minor)})" for s in sights])
    by_name = {mix.plans[0].supplier: mix.plans[0] for mix in comparison.singles}
    first = by_name.get(sights[0].supplier)
    best = comparison.best
    if first is None or first.supplier in (plan.supplier for plan in best.plans):
        return f"By printed gas price the order is {order}, and the whole bill agrees on the first."
    added = _added(comparison, [first])
    against = _added(comparison, best.plans)
    end = f"where {best.name} adds {against}" if against else f"where {best.name} adds nothing"
    return f"By printed gas price the order is {order}; it turns because {first.supplier} adds {added} {end}."


def _added(comparison: Comparison, plans: tuple[Plan, ...] | list[Plan]) -> str:
    """The components besides the gas used, largest first, that make up most of what is added."""
    sums = {c: sum(plan.component_minor(c) for plan in plans) for c in Component if c not in _OWN_GAS}
    largest = sorted((c for c in sums if sums[c] > 0), key=lambda c: -sums[c])[:3]
    return list_words([f"{_money(comparison, sums[c])} for {c}" for c in largest])


def _ranking_lines(comparison: Comparison) -> list[str]:
    shown = [(n, mix) for n, mix in enumerate(comparison.mixes, 1) if n <= _SHOWN or len(mix.plans) == 1]
    width = max(len(mix.name) for _, mix in shown)
    return [f"{place:>3}  {mix.name:<{width}}  {_money(comparison, mix.total_minor):>10}" for place, mix in shown]


def order_lines(comparison: Comparison) -> list[str]:
    """Return what to hold and to swap with the cheapest choice, and what must be said of manifolds."""
    lines = []
    for plan in comparison.best.plans:
        lines += [_order_line(plan, choice) for choice in plan.choices]
        if plan.deliveries_per_month:
            days = _DAYS_PER_MONTH / plan.deliveries_per_month
            lines.append(f"{plan.supplier}: a van about every {days:.0f} days.")
    for plan in comparison.best.plans:
        lines += [_manifold_line(choice) for choice in plan.choices if choice.in_set > choice.use.places]
    return lines


def _order_line(plan: Plan, choice: Choice) -> str:
    what = f"{choice.use.gas} {choice.offer.cylinder} from {plan.supplier}"
    if choice.offer.piped:
        return f"{what}, by pipe."
    fills = f"{choice.fills_per_month:.1f} full cylinders a month"
    return f"{what}: hold {choice.held} ({choice.kept_back} kept back, {choice.swapped} swapped at a time), {fills}."


def _manifold_line(choice: Choice) -> str:
    each = choice.in_set // choice.use.places
    return (
        f"{each} {choice.use.gas} cylinders must feed a torch together at the hardest draw: only on a manifold made "
        "for the gas and approved by the supplier. A smaller tip or a larger cylinder comes first; the supplier's "
        "limit and local codes decide."
    )


def turning_lines(comparison: Comparison) -> list[str]:
    """Return at which demand, price and rent another choice becomes cheapest."""
    gas, units = comparison.uses[0], comparison.units
    unit = units.gas_unit(gas.gas)
    lines = []
    if len(comparison.spans) > 1:
        for span in comparison.spans:
            low, high = (units.gas(gas.month_m3 * factor, gas.gas) for factor in (span.from_factor, span.to_factor))
            lines.append(f"From {low:.0f} to {high:.0f} {unit} of {gas.gas} a month {span.mix} is cheapest.")
        lines.append(f"Volumes at {state_words(units)}; every gas grows in proportion.")
    rises = {"gas": comparison.price_rise, "rent": comparison.rent_rise}
    lost = [f"its {what} rises {factor - 1:.0%}" for what, factor in rises.items() if factor is not None]
    if lost:
        lines.append(f"{comparison.best.name} loses the lead if {' or '.join(lost)} and nothing else changes.")
    return lines


def _money(comparison: Comparison, minor: int, *, currency: bool = False) -> str:
    shown = format_minor(minor, comparison.money.decimals)
    return f"{shown} {comparison.currency}".strip() if currency else shown
