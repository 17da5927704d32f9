"""Suppliers' price lists: one row for each cylinder size on offer. Terms and fees stand in ``price_terms``."""

from __future__ import annotations

from estimator.sheets.choices import GAS_STATES, GAS_UNIT_WORDS, GASES
from estimator.sheets.statement import Column, Kind, Sheet
from estimator.words import RentCount

__all__ = ["OFFERS", "PRICED_PER", "RENT_RULES", "supplier_column", "valid_from_column", "valid_to_column"]

PRICED_PER = ("cylinder", "100 ft3", "1000 ft3", "ft3", "m3", "Nm3", "kg", "lb")
RENT_RULES = tuple(rule.value for rule in RentCount)
_STATE = "temperature and pressure of the volume, as the list states it; blank for kg and lb"


def supplier_column() -> Column:
    """Return the column of the supplier, the same on every sheet of the price lists."""
    return Column(
        "supplier",
        "Supplier",
        Kind.TEXT,
        "the supplier's name, spelt the same on every sheet",
        "offers, terms and fees are joined by it",
        "Supplier A",
        required=True,
        wordings=("vendor", "gas supplier"),
    )


def valid_from_column() -> Column:
    """Return the column of the first day that a price or fee holds."""
    return Column(
        "valid_from",
        "From",
        Kind.DATE,
        "the first day it holds",
        "prices and fees are dated; the one in force is used",
        "2026-01-01",
        required=True,
        wordings=("valid from",),
    )


def valid_to_column() -> Column:
    """Return the column of the last day that a price or fee holds."""
    return Column(
        "valid_to",
        "To",
        Kind.DATE,
        "the last day it holds; blank until the next one starts",
        "prices and fees are dated; the one in force is used",
        "2026-12-31",
        wordings=("valid to", "until"),
    )


OFFERS = Sheet(
    name="Offers",
    purpose="One row for each cylinder size that a supplier offers, as its price list says it.",
    columns=(
        supplier_column(),
        Column("gas", "Gas", Kind.CHOICE, "oxygen or a fuel", "compared gas by gas", "oxygen", True, choices=GASES),
        Column(
            "cylinder",
            "Cylinder",
            Kind.TEXT,
            "the supplier's name of the size; any word for piped gas",
            "names the size on the order",
            "L50",
            required=True,
            wordings=("size", "bottle", "cylinder size"),
        ),
        Column(
            "piped",
            "By pipe",
            Kind.FLAG,
            "yes for gas from a meter",
            "piped gas holds no cylinders",
            "no",
            default=False,
        ),
        Column(
            "content",
            "Content",
            Kind.NUMBER,
            "what a full cylinder holds, above zero; blank for piped gas",
            "a price means nothing without it",
            "10.6",
            low=0.001,
            high=1_000_000,
        ),
        Column(
            "content_unit",
            "Unit",
            Kind.CHOICE,
            ", ".join(GAS_UNIT_WORDS),
            "the same number in another unit is other gas",
            "m3",
            choices=GAS_UNIT_WORDS,
        ),
        Column(
            "content_state",
            "At",
            Kind.CHOICE,
            _STATE,
            "the same volume in another state is 0.4 to 7 % of other gas",
            "15 °C, 1 bar",
            choices=GAS_STATES,
            wordings=("reference state", "stated at"),
        ),
        Column(
            "price",
            "Price",
            Kind.MONEY,
            "the price as printed, before tax unless the terms say otherwise, zero or above",
            "it is what is compared",
            "45.00",
            required=True,
            low=0,
        ),
        Column(
            "priced_per",
            "Per",
            Kind.CHOICE,
            ", ".join(PRICED_PER),
            "a price per 100 ft³ is another price than one per cylinder",
            "cylinder",
            choices=PRICED_PER,
            default="cylinder",
            wordings=("price per", "price basis"),
        ),
        Column(
            "priced_state",
            "Price at",
            Kind.CHOICE,
            "state of the volume that is priced, where it differs from the content's; blank for the same",
            "content and price may be stated in two states",
            "70 °F, 1 atm",
            choices=GAS_STATES,
        ),
        Column(
            "rent_rule",
            "Rent rule",
            Kind.CHOICE,
            "how rent is counted, one of the list",
            "the same rate counted another way is another rent",
            "month-end balance",
            choices=RENT_RULES,
        ),
        Column(
            "rent",
            "Rent",
            Kind.MONEY,
            "rent of one cylinder for a day, month, year or lease, as the rule says",
            "rent runs whether gas is used or not",
            "6.50",
            low=0,
        ),
        Column(
            "month_starts_on",
            "Rent month starts on",
            Kind.WHOLE,
            "the day of the month, 1 to 28",
            "which deliveries fall into a rent month",
            "1",
            default=1.0,
            low=1,
            high=28,
        ),
        Column(
            "free_days",
            "Free days",
            Kind.WHOLE,
            "days from its delivery in which a cylinder is free; daily rent only",
            "they shorten the rent of each fill",
            "0",
            default=0.0,
            low=0,
            high=730,
            unit="days",
        ),
        Column(
            "renewal",
            "Renewed on",
            Kind.DATE,
            "any date with the month and day on which a year's rent falls due; yearly rules only",
            "a cylinder added pays to the renewal",
            "2026-01-01",
        ),
        Column(
            "spread_years",
            "Years",
            Kind.WHOLE,
            "years of a lease, or over which a bought cylinder or a kept deposit is spread",
            "a payment for years is compared by the month",
            "3",
            low=1,
            high=50,
            unit="years",
        ),
        Column(
            "bought_for",
            "Cylinder price",
            Kind.MONEY,
            "price of the empty cylinder, where the shop must own it",
            "its cost is spread over the years",
            "",
            default=0.0,
            low=0,
        ),
        Column(
            "deposit",
            "Deposit",
            Kind.MONEY,
            "deposit on one cylinder; blank when the list is silent",
            "money that is tied up costs interest",
            "",
            low=0,
        ),
        Column(
            "deposit_kept_share",
            "Of that kept",
            Kind.SHARE,
            "a percentage of the deposit that is not paid back, with its sign, as 10 %",
            "what is kept is a cost",
            "",
            default=0.0,
            low=0,
            high=1,
        ),
        Column(
            "heel_share",
            "Left in when swapped",
            Kind.SHARE,
            "a percentage of the content with its sign, as 2 %; blank for the recalled figure of the gas",
            "gas that goes back is paid for",
            "",
            low=0,
            high=0.5,
            wordings=("left in at change-over",),
        ),
        Column(
            "credited_share",
            "Of that paid back",
            Kind.SHARE,
            "a percentage of what is left, paid back by the supplier, as 50 %; blank when the list is silent",
            "a credit makes the gas cheaper",
            "",
            low=0,
            high=1,
            wordings=("of that credited",),
        ),
        Column(
            "supplier_draw_fraction",
            "Written draw limit",
            Kind.NUMBER,
            "fraction of the content an hour that the supplier states in writing, as 0.1",
            "it decides how many must stand on a manifold",
            "",
            low=0.001,
            high=5,
        ),
        valid_from_column(),
        valid_to_column(),
        Column("note", "Note", Kind.TEXT, "anything worth keeping", "shown beside the offer", ""),
    ),
)
