"""What the shop uses in a month and how it counts, for comparing suppliers, where no log or cut list says it."""

from __future__ import annotations

from estimator.sheets.choices import GAS_STATES, GAS_UNIT_WORDS, GASES
from estimator.sheets.statement import Column, Kind, Layout, Sheet

__all__ = ["COMPARISON", "DEMAND"]

DEMAND = Sheet(
    name="Monthly use",
    purpose="One row for each gas: what you use in a month, how far it varies, and how hard you draw.",
    required=False,
    columns=(
        Column(
            "gas", "Gas", Kind.CHOICE, "oxygen or a fuel", "offers are matched by gas", "oxygen", True, choices=GASES
        ),
        Column(
            "amount",
            "Used in a month",
            Kind.NUMBER,
            "an amount above zero",
            "every cost follows from it",
            "40",
            required=True,
            low=0.001,
        ),
        Column(
            "unit",
            "Unit",
            Kind.CHOICE,
            ", ".join(GAS_UNIT_WORDS),
            "the same number in another unit is other gas",
            "m3",
            choices=GAS_UNIT_WORDS,
        ),
        Column(
            "state",
            "At",
            Kind.CHOICE,
            "temperature and pressure of the volume; blank for kg and lb",
            "the same volume in another state is 0.4 to 7 % of other gas",
            "15 °C, 1 bar",
            choices=GAS_STATES,
        ),
        Column(
            "low_amount", "Slow month", Kind.NUMBER, "an amount that one month in ten stays under", "range", "25", low=0
        ),
        Column(
            "high_amount",
            "Busy month",
            Kind.NUMBER,
            "an amount that one month in ten goes over",
            "what is kept on the rack must last through it",
            "60",
            low=0,
        ),
        Column(
            "highest_draw",
            "Hardest draw",
            Kind.NUMBER,
            "what all torches on one set draw at once in an hour, in the same unit",
            "how many cylinders must stand on a manifold",
            "",
            low=0,
        ),
        Column(
            "long_burns",
            "Burns over 10 minutes",
            Kind.FLAG,
            "yes when a torch is lit more than 10 minutes without a break of 5",
            "the stricter draw limit of acetylene holds",
            "no",
            default=False,
        ),
        Column(
            "sets",
            "Sets",
            Kind.WHOLE,
            "carts or benches that each hold a set",
            "each needs its own cylinders",
            "1",
            default=1.0,
            low=1,
            high=100,
        ),
        Column(
            "most_held",
            "Room for",
            Kind.WHOLE,
            "most cylinders that there is room for, or that your fire code allows; blank when it does not matter",
            "choices that need more are left out",
            "",
            low=1,
            high=10_000,
            unit="cylinders",
        ),
    ),
)

COMPARISON = Sheet(
    name="Comparison",
    purpose="How the suppliers are compared. Blanks take the value that the note names.",
    layout=Layout.FORM,
    required=False,
    columns=(
        Column("on_date", "Prices in force on", Kind.DATE, "a date", "which prices and fees hold", "2026-03-01"),
        Column("currency", "Currency", Kind.TEXT, "a three-letter ISO 4217 code", "every amount", "XTS"),
        Column(
            "interest",
            "Interest on deposits",
            Kind.SHARE,
            "yearly interest, as 8 %",
            "what tied-up money costs",
            "8 %",
            default=0.08,
            low=0,
            high=1,
            status="judgement",
        ),
        Column(
            "change_cost",
            "Changing to another fuel costs",
            Kind.MONEY,
            "tips, hoses, regulators and training for it; blank to leave it out",
            "a fuel that is not in use has this to earn back",
            "",
            low=0,
        ),
        Column(
            "change_months",
            "spread over",
            Kind.WHOLE,
            "months",
            "the change is compared by the month",
            "24",
            default=24.0,
            low=1,
            high=240,
            unit="months",
            status="judgement",
        ),
        Column(
            "list_unit",
            "Lists without a unit mean",
            Kind.CHOICE,
            ", ".join(GAS_UNIT_WORDS) + "; blank to be asked",
            "used, and shown, where a list states no unit",
            "",
            choices=GAS_UNIT_WORDS,
        ),
        Column(
            "list_state",
            "Lists without a state mean",
            Kind.CHOICE,
            "temperature and pressure; blank to be asked",
            "used, and shown, where a list states no reference state (0.4 to 7 %)",
            "",
            choices=GAS_STATES,
        ),
    ),
)
