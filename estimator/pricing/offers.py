"""What a supplier offers and what a shop uses, ready to be priced: house volumes, money before tax, rules resolved.

Reading price lists and converting reference states are done before these are made.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray

from estimator.pricing.gas_price import gas_cost_per_m3
from estimator.pricing.rent import RentCount, RentRule
from estimator.quantities.draw import cylinders_to_manifold

__all__ = ["DAYS_PER_MONTH", "GasUse", "Offer", "Supplier", "Terms", "cylinders_in_set", "kept_back", "month_rent"]

DAYS_PER_MONTH = 365 / 12
_HAIR = 1e-9
"""A count this close above a whole number is that whole number."""


@dataclass(frozen=True, slots=True)
class Offer:
    """One cylinder size of one gas at one supplier, or a gas by pipe."""

    gas: str
    cylinder: str
    """The supplier's name of the size."""
    content_m3: float
    price: float
    """Price of one full cylinder, or of ``content_m3`` of piped gas [money]."""
    rent: RentRule = field(default_factory=lambda: RentRule(RentCount.NONE))
    uncredited_m3: float = 0.0
    """Gas that goes back in the cylinder and is not paid for by the supplier."""
    cylinder_fees: float = 0.0
    """Fees charged with each full cylinder [money]."""
    surcharge_share: float = 0.0
    """Surcharges as a share of the gas price; fees, not taxes."""
    deposit: float = 0.0
    deposit_kept_share: float = 0.0
    """Share of the deposit that the supplier keeps in the end."""
    bought_for: float = 0.0
    """Price of the empty cylinder when the shop must own it [money]."""
    spread_years: float = 0.0
    """Years over which a bought cylinder or a kept deposit is spread."""
    draw_share_per_h: float | None = None
    """Share of the content an hour that the supplier allows in writing; stands before the shop's rule."""
    piped: bool = False

    def __post_init__(self) -> None:
        if (self.bought_for or self.deposit * self.deposit_kept_share) and self.spread_years <= 0:
            raise ValueError(
                f"spread_years must be above zero where a cylinder is bought or a deposit kept, got {self}"
            )
        gas_cost_per_m3(self.price, self.cylinder_fees, self.content_m3, self.uncredited_m3)  # refuses what cannot be

    @property
    def usable_m3(self) -> float:
        """Gas that is paid for once and reaches the torch, of one cylinder."""
        return self.content_m3 - self.uncredited_m3

    @property
    def cost_per_m3(self) -> float:
        """Gas, fees with each cylinder and surcharges, of one m³ that reaches the torch [money per m³]."""
        fees = self.cylinder_fees + self.surcharge_share * self.price
        return float(gas_cost_per_m3(self.price, fees, self.content_m3, self.uncredited_m3))


@dataclass(frozen=True, slots=True)
class Terms:
    """What a supplier charges and asks besides its cylinders."""

    supplier: str
    delivery_fee: float = 0.0
    """All fees of one delivery [money]."""
    invoice_fee: float = 0.0
    month_fee: float = 0.0
    minimum_order: float = 0.0
    """Least gas value of one delivery [money]; what lacks is charged."""
    invoice_each_delivery: bool = False
    """An invoice comes with each delivery; else once a month."""
    most_deliveries_per_month: float = 4.0
    lead_time_days: float = 0.0
    all_gases_or_none: bool = False
    """Whether the supplier sells only when every gas it lists is bought from it."""


@dataclass(frozen=True, slots=True)
class Supplier:
    """One supplier: its terms and the offers in force."""

    terms: Terms
    offers: tuple[Offer, ...]

    @property
    def name(self) -> str:
        """The supplier's name."""
        return self.terms.supplier

    def offers_of(self, gas: str) -> list[Offer]:
        """Offers of one gas, in the order of the list."""
        return [offer for offer in self.offers if offer.gas == gas]


@dataclass(frozen=True, slots=True)
class GasUse:
    """What a shop uses of one gas in a month, and how hard it draws."""

    gas: str
    month_m3: float
    low_month_m3: float = 0.0
    high_month_m3: float = 0.0
    """A month that is exceeded one time in ten; the reserve covers it. 0 means as likely."""
    highest_draw_m3_h: float = 0.0
    draw_share_per_h: float = 0.0
    """Share of a full cylinder's content that may be drawn in an hour; 0 means no such limit for this gas."""
    places: int = 1
    """Carts or benches that each hold a set at the same time."""
    most_held: int | None = None
    """Cylinders there is room for; None when that does not matter."""
    spare: int = 0
    """Cylinders held beyond what the draw, the lead time and the van ask for."""

    def __post_init__(self) -> None:
        if not self.month_m3 > 0 or self.places < 1:
            raise ValueError(f"a gas use needs a monthly volume above zero and one place or more, got {self}")

    @property
    def reserve_month_m3(self) -> float:
        """The monthly use that the reserve is sized for."""
        return max(self.high_month_m3, self.month_m3)


def cylinders_in_set(offer: Offer, use: GasUse) -> int:
    """Cylinders that must feed the torch together, at all places, so that no draw limit is passed.

    Parameters
    ----------
    offer : Offer
        The cylinder size.
    use : GasUse
        Highest draw and the share of the content that may be drawn in an hour.

    Returns
    -------
    int
        One or more a place; 0 for piped gas.

    Raises
    ------
    ValueError
        Never for records that were made.

    Notes
    -----
    ``draw / (share x rated content)``, rounded up, x places; the supplier's written share stands before the shop's
    rule. More than one means a manifold that the supplier approves; a smaller tip, another fuel or a larger cylinder
    come first. For heating tips, whose limit is on what is left in the cylinder, this is the least number.

    Source: definition; the shares stand in ``acetylene_draw_rules.csv`` with their status.

    Examples
    --------
    A draw of 80 from cylinders of 150, one tenth an hour (common practice, no source):

    >>> acetylene = Offer("acetylene", "small", content_m3=150, price=1)
    >>> cylinders_in_set(acetylene, GasUse("acetylene", 100, highest_draw_m3_h=80, draw_share_per_h=1 / 10))
    6
    """
    if offer.piped:
        return 0
    share = offer.draw_share_per_h or use.draw_share_per_h
    each = int(cylinders_to_manifold(use.highest_draw_m3_h, offer.content_m3, share)) if share else 1
    return use.places * each


def kept_back(offer: Offer, use: GasUse, lead_time_days: float) -> int:
    """Cylinders that stay behind when the van is called: the set in use, or more when they must last until it comes.

    Parameters
    ----------
    offer : Offer
        The cylinder size.
    use : GasUse
        Monthly use; its high end counts.
    lead_time_days : float
        Days from the call to the van [day].

    Returns
    -------
    int
        At least the set in use; 0 for piped gas.

    Raises
    ------
    ValueError
        Never for records that were made.

    Notes
    -----
    ``max(set, ceil(high use a day x lead time / usable content)) + spare``. The van is called when all others are
    empty.

    Source: definition.

    Examples
    --------
    >>> kept_back(Offer("oxygen", "50 L", 10, 40), GasUse("oxygen", 60.0), lead_time_days=7)  # 13.8 m³ in 7 days
    2
    """
    if offer.piped:
        return 0
    lasting = use.reserve_month_m3 / DAYS_PER_MONTH * lead_time_days / offer.usable_m3
    return max(cylinders_in_set(offer, use), math.ceil(lasting - _HAIR)) + use.spare


def month_rent(rule: RentRule, held: ArrayLike, fills_per_month: float) -> NDArray[np.float64]:
    """Rent of an average month when the number held is steady and empties are swapped for full ones.

    Parameters
    ----------
    rule : RentRule
        The supplier's rule and rate.
    held : array_like of float, any shape
        Cylinders on site.
    fills_per_month : float
        Full cylinders that come in a month, each for an empty one.

    Returns
    -------
    ndarray of float, same shape
        Rent of a month [money], not rounded.

    Raises
    ------
    ValueError
        When a count is below zero.

    Notes
    -----
    A month is 365 / 12 days. Each swap starts the free days of one cylinder, so they are worth no more than the days it
    stays. Monthly rules agree when the number is steady; yearly ones and leases are spread evenly.

    Source: definition; ``rent_due`` over a year of swaps gives the same.

    Examples
    --------
    >>> float(month_rent(RentRule(RentCount.ANNUAL_ADVANCE, rate=96.0), held=3, fills_per_month=2))
    24.0
    """
    count = np.asarray(held, dtype=np.float64)
    if np.any(count < 0) or fills_per_month < 0:
        raise ValueError(f"held and fills_per_month must be zero or above, got {held!r}, {fills_per_month}")
    if rule.count is RentCount.NONE:
        return np.zeros_like(count)
    if rule.count is RentCount.DAILY:
        days = count * DAYS_PER_MONTH
        return rule.rate * (days - np.minimum(fills_per_month * rule.free_days, days))
    months = {RentCount.ANNUAL_ADVANCE: 12, RentCount.OWNED: 12, RentCount.LEASE: 12 * rule.term_years}
    return rule.rate * count / months.get(rule.count, 1)
