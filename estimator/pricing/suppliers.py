"""Which supplier, or mix of suppliers, is cheapest for a shop's use: every allowed way is tried.

One gas is bought from one supplier in one size: cylinders that feed a torch together must be alike, and a second size
would need a set and a spare of its own. Two uses of one gas (a bench and a cart) are two gas uses.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

from estimator.pricing.landed import Money, Plan, cheapest_plan
from estimator.pricing.offers import GasUse, Supplier

__all__ = ["Mix", "best_plan", "cheapest_mixes", "scale_uses"]


@dataclass(frozen=True, slots=True)
class Mix:
    """One supplier for every gas, each bought in the cheapest way."""

    plans: tuple[Plan, ...]
    """One plan for each supplier of the mix, in the order of the suppliers."""

    @property
    def total_minor(self) -> int:
        """Landed cost of a month [minor units]."""
        return sum(plan.total_minor for plan in self.plans)

    @property
    def supplier_of(self) -> dict[str, str]:
        """Gas to supplier."""
        return {choice.use.gas: plan.supplier for plan in self.plans for choice in plan.choices}

    @property
    def name(self) -> str:
        """The supplier, or who sells which gas where there are several."""
        if len(self.plans) == 1:
            return self.plans[0].supplier
        return " + ".join(f"{' and '.join(c.use.gas for c in p.choices)} from {p.supplier}" for p in self.plans)


def best_plan(supplier: Supplier, uses: Sequence[GasUse], money: Money) -> Plan | None:
    """Cheapest way to buy the given gases from one supplier, over every choice of sizes.

    Parameters
    ----------
    supplier : Supplier
        Terms and offers.
    uses : sequence of GasUse
        The gases bought from this supplier, at least one.
    money : Money
        Decimals and interest.

    Returns
    -------
    Plan or None
        None when the supplier lacks a gas, or no size leaves room for the cylinders needed.

    Raises
    ------
    ValueError
        When no gas is given.

    Notes
    -----
    Every combination of sizes is tried. Ties go to fewer cylinders, then to the earlier offer.

    Source: definition.

    Examples
    --------
    >>> from estimator.pricing.offers import Offer, Terms
    >>> offers = (Offer("oxygen", "small", 5, 30), Offer("oxygen", "large", 10, 45))
    >>> plan = best_plan(Supplier(Terms("Supplier A"), offers), [GasUse("oxygen", 20)], Money())
    >>> plan.choices[0].offer.cylinder, plan.total_minor
    ('large', 9000)
    """
    sizes = [[(offer, use) for offer in supplier.offers_of(use.gas)] for use in uses]
    plans = [cheapest_plan(supplier.terms, sized, money) for sized in itertools.product(*sizes)]
    possible = [plan for plan in plans if plan is not None]
    return min(possible, key=lambda plan: (plan.total_minor, plan.held), default=None)


def cheapest_mixes(suppliers: Sequence[Supplier], uses: Sequence[GasUse], money: Money) -> list[Mix]:
    """Every allowed mix of suppliers at its cheapest, the cheapest first.

    Parameters
    ----------
    suppliers : sequence of Supplier
        Suppliers with different names.
    uses : sequence of GasUse
        What the shop uses in a month, each gas once.
    money : Money
        Decimals and interest.

    Returns
    -------
    list of Mix
        Empty when some gas is sold by nobody, or nowhere is room for the cylinders needed.

    Raises
    ------
    ValueError
        When no gas is given, or two suppliers have one name.

    Notes
    -----
    Each assignment of gases to suppliers is tried. A supplier that sells all its gases or none drops the mixes in which
    it gets only some. Ties go to fewer suppliers, then to fewer cylinders, then to the name: the order of the input
    changes nothing.

    Source: definition.

    Examples
    --------
    >>> from estimator.pricing.offers import Offer, Terms
    >>> near = Supplier(Terms("Near"), (Offer("oxygen", "L", 10, 50),))
    >>> far = Supplier(Terms("Far", delivery_fee=30), (Offer("oxygen", "L", 10, 40),))
    >>> [(mix.name, mix.total_minor) for mix in cheapest_mixes([near, far], [GasUse("oxygen", 20)], Money())]
    [('Far', 8250), ('Near', 10000)]
    """
    if not uses or len({s.name for s in suppliers}) != len(suppliers):
        raise ValueError("a comparison needs a gas, and suppliers of different names")
    known: dict[tuple[str, tuple[int, ...]], Plan | None] = {}
    mixes = []
    sellers = [[s for s in suppliers if s.offers_of(use.gas)] for use in uses]
    for chosen in itertools.product(*sellers):
        plans = []
        for supplier in {s.name: s for s in chosen}.values():
            bought = tuple(i for i, s in enumerate(chosen) if s.name == supplier.name)
            key = (supplier.name, bought)
            if key not in known:
                known[key] = _allowed_plan(supplier, uses, bought, money)
            plans.append(known[key])
        if all(plan is not None for plan in plans):
            mixes.append(Mix(tuple(plan for plan in plans if plan is not None)))
    return sorted(mixes, key=lambda m: (m.total_minor, len(m.plans), sum(p.held for p in m.plans), m.name))


def scale_uses(uses: Sequence[GasUse], factor: float) -> list[GasUse]:
    """The same work, more or less of it: volumes of a month grow, the draw does not.

    Parameters
    ----------
    uses : sequence of GasUse
        What the shop uses in a month.
    factor : float
        Above zero; 2 means twice the work.

    Returns
    -------
    list of GasUse
        The uses at that demand.

    Raises
    ------
    ValueError
        When the factor is not above zero.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> scale_uses([GasUse("oxygen", 20.0, high_month_m3=30.0)], 2)[0].high_month_m3
    60.0
    """
    return [
        replace(
            use,
            month_m3=use.month_m3 * factor,
            low_month_m3=use.low_month_m3 * factor,
            high_month_m3=use.high_month_m3 * factor,
        )
        for use in uses
    ]


def _allowed_plan(supplier: Supplier, uses: Sequence[GasUse], bought: tuple[int, ...], money: Money) -> Plan | None:
    listed = {i for i, use in enumerate(uses) if supplier.offers_of(use.gas)}
    if supplier.terms.all_gases_or_none and set(bought) != listed:
        return None
    return best_plan(supplier, [uses[i] for i in bought], money)
