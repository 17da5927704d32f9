"""The same month's work on one fuel or another: gas, labour and change-over, in all and by the metre.

How much gas and time the work takes on each fuel is worked out in ``quantities``; it comes in as arguments.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from estimator.pricing.landed import Money
from estimator.pricing.money import share_out, to_minor
from estimator.pricing.offers import GasUse, Supplier
from estimator.pricing.suppliers import Mix, cheapest_mixes

__all__ = ["FuelCost", "FuelTurn", "FuelWork", "MetreWork", "compare_fuels", "fuel_turns"]


@dataclass(frozen=True, slots=True)
class MetreWork:
    """What the cuts of one thickness take in a month on one fuel."""

    thickness_mm: float
    cut_length_m: float
    oxygen_m3: float
    fuel_m3: float
    paid_time_min: float


@dataclass(frozen=True, slots=True)
class FuelWork:
    """A month's work on one fuel."""

    fuel: str
    uses: tuple[GasUse, ...]
    """Oxygen and the fuel, cutting and heating together."""
    paid_time_min: float
    by_thickness: tuple[MetreWork, ...] = ()
    change_cost: float = 0.0
    """Tips, hoses, regulators and training that the change to this fuel asks for [money]; 0 for the fuel in use."""
    change_months: int = 12
    """Months over which that is spread."""

    def use_of(self, gas: str) -> GasUse:
        """Return the use of one gas; KeyError names it when there is none."""
        for use in self.uses:
            if use.gas == gas:
                return use
        raise KeyError(f"the work on {self.fuel} uses no {gas}")


@dataclass(frozen=True, slots=True)
class FuelCost:
    """What a month's work costs on one fuel [minor units]."""

    work: FuelWork
    mix: Mix
    """The cheapest way to buy its gases."""
    oxygen_minor: int
    fuel_minor: int
    labour_minor: int
    change_minor: int
    per_metre_minor: tuple[tuple[float, int], ...]
    """Thickness [mm] and cost of a metre of cut [minor units]: gas at its landed cost, and paid time."""

    @property
    def fuel(self) -> str:
        """The fuel."""
        return self.work.fuel

    @property
    def total_minor(self) -> int:
        """All parts together [minor units]."""
        return self.oxygen_minor + self.fuel_minor + self.labour_minor + self.change_minor


@dataclass(frozen=True, slots=True)
class FuelTurn:
    """The price of one fuel against another at which the choice turns."""

    cheaper: str
    other: str
    cheaper_per_m3: float
    """Landed cost of the cheaper fuel now [money per m³]."""
    other_per_m3: float
    """Landed cost of the other fuel now [money per m³]."""
    other_turns_at_per_m3: float
    """Landed cost at which the other fuel would be as cheap [money per m³]; below zero when no price would do."""

    @property
    def ratio_now(self) -> float:
        """Other fuel's cost over the cheaper one's, by volume."""
        return self.other_per_m3 / self.cheaper_per_m3

    @property
    def ratio_at_turn(self) -> float:
        """The ratio at which the choice turns, by volume."""
        return self.other_turns_at_per_m3 / self.cheaper_per_m3


def compare_fuels(
    works: Sequence[FuelWork], suppliers: Sequence[Supplier], money: Money, *, labour_per_hour: float
) -> list[FuelCost]:
    """Cost of the same month's work on each fuel, the cheapest first.

    Parameters
    ----------
    works : sequence of FuelWork
        The same work, fuel by fuel.
    suppliers : sequence of Supplier
        Who sells the gases.
    money : Money
        Decimals and interest.
    labour_per_hour : float
        Cost of a paid hour [money].

    Returns
    -------
    list of FuelCost
        Fuels whose gases nobody offers are left out.

    Raises
    ------
    ValueError
        When the labour rate is below zero.

    Notes
    -----
    Gases are bought in the cheapest way for each fuel; deliveries and other shared fees are split over its gases by
    their own cost. Source: definition.
    """
    if labour_per_hour < 0:
        raise ValueError(f"labour_per_hour must be zero or above, got {labour_per_hour}")
    costs = []
    for work in works:
        mixes = cheapest_mixes(suppliers, work.uses, money)
        if mixes:
            costs.append(_cost(work, mixes[0], money, labour_per_hour))
    return sorted(costs, key=lambda cost: (cost.total_minor, cost.fuel))


def fuel_turns(costs: Sequence[FuelCost], decimals: int = 2) -> list[FuelTurn]:
    """For each dearer fuel, the price at which it would be as cheap as the cheapest.

    Parameters
    ----------
    costs : sequence of FuelCost
        The cheapest first.
    decimals : int
        Decimals of the minor unit.

    Returns
    -------
    list of FuelTurn
        One for each fuel after the first.

    Notes
    -----
    ``(cheapest total - all of the other but its fuel) / its fuel volume``. Oxygen, labour and change-over are held: a
    fuel that needs more of them must be so much cheaper. Source: definition.
    """
    major = 10.0**decimals
    turns = []
    for other in costs[1:]:
        first = costs[0]
        fuel_m3 = other.work.use_of(other.fuel).month_m3
        rest = other.total_minor - other.fuel_minor
        turns.append(
            FuelTurn(
                first.fuel,
                other.fuel,
                first.fuel_minor / major / first.work.use_of(first.fuel).month_m3,
                other.fuel_minor / major / fuel_m3,
                (first.total_minor - rest) / major / fuel_m3,
            )
        )
    return turns


def _cost(work: FuelWork, mix: Mix, money: Money, labour_per_hour: float) -> FuelCost:
    by_gas = landed_by_gas_minor(mix)
    oxygen, fuel = by_gas.get("oxygen", 0), by_gas.get(work.fuel, 0)
    major = 10.0**money.decimals
    oxygen_per_m3 = oxygen / major / work.use_of("oxygen").month_m3
    fuel_per_m3 = fuel / major / work.use_of(work.fuel).month_m3
    metres = tuple(
        (
            row.thickness_mm,
            int(
                to_minor(
                    (
                        row.oxygen_m3 * oxygen_per_m3
                        + row.fuel_m3 * fuel_per_m3
                        + row.paid_time_min / 60 * labour_per_hour
                    )
                    / row.cut_length_m,
                    money.decimals,
                )
            ),
        )
        for row in work.by_thickness
    )
    labour = int(to_minor(work.paid_time_min / 60 * labour_per_hour, money.decimals))
    change = int(to_minor(work.change_cost / work.change_months, money.decimals))
    return FuelCost(work, mix, oxygen, fuel, labour, change, metres)


def landed_by_gas_minor(mix: Mix) -> dict[str, int]:
    """Landed cost of each gas [minor units]: its own components and its share of the supplier's."""
    costs: dict[str, int] = {}
    for plan in mix.plans:
        own = {gas: sum(lines.values()) for gas, lines in plan.by_gas_minor.items()}
        shared = share_out(sum(plan.shared_minor.values()), [max(cost, 1) for cost in own.values()])
        costs |= {gas: cost + part for (gas, cost), part in zip(own.items(), shared, strict=True)}
    return costs
