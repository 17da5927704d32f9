"""What was agreed with a supplier: prices with the day they hold from, and the terms of its bills."""

from __future__ import annotations

from estimator.sheets.bill_columns import UNITS, gas_column, size_column, supplier_column
from estimator.sheets.price_list import RENT_RULES
from estimator.sheets.statement import Column, Kind, Sheet

__all__ = ["AGREED_KINDS", "AGREED_PRICES", "SUPPLIER_TERMS", "TAX_WAYS"]

AGREED_KINDS = ("gas", "rent", "delivery", "fee", "deposit")
TAX_WAYS = ("on the total", "on each line")

AGREED_PRICES = Sheet(
    name="Agreed prices",
    purpose="One row for each price that was agreed, with the day it holds from.",
    columns=(
        supplier_column(required=False),
        Column(
            "kind",
            "Kind",
            Kind.CHOICE,
            "one of: " + ", ".join(AGREED_KINDS),
            "a bill line is set beside a price of its own kind",
            "gas",
            required=True,
            choices=AGREED_KINDS,
        ),
        Column(
            "description",
            "Description",
            Kind.TEXT,
            "for a fee, its name as printed on the bill",
            "fees are matched by their words",
            "",
            wordings=("item",),
        ),
        gas_column(required=False),
        size_column(required=False),
        Column(
            "content",
            "Content",
            Kind.GAS,
            "for gas, what a full cylinder of this size holds, with unit and reference state",
            "a line billed by volume or weight is set beside the cylinders that came",
            "10.6 m³ (15 °C, 1 bar)",
        ),
        Column(
            "full_pressure_bar",
            "Gauge when full",
            Kind.NUMBER,
            "for gas that is read by a gauge, the pressure of a full cylinder at 15 °C, or blank",
            "a gauge reading is an amount only when the full pressure is known; the shop book's rack may say it",
            "200",
            unit="bar",
            low=1,
            high=350,
        ),
        Column(
            "tare_kg",
            "Empty weight",
            Kind.NUMBER,
            "for gas that is weighed, the stamped weight of the cylinder without its gas, or blank",
            "a weight is an amount only when the empty weight is known; the shop book's rack may say it",
            "",
            unit="kg",
            low=0.5,
            high=2000,
        ),
        Column(
            "price",
            "Price",
            Kind.NUMBER,
            "money for one unit, zero or above",
            "it is what the bill may ask",
            "31.50",
            required=True,
            low=0,
            high=10_000_000,
        ),
        Column(
            "unit",
            "Unit",
            Kind.TEXT,
            "one of: " + UNITS,
            "the same number in another unit or reference state is another price (0.4 to 7 %)",
            "cylinder",
            required=True,
            wordings=("per",),
        ),
        Column(
            "valid_from",
            "From",
            Kind.DATE,
            "first day it holds; blank for always",
            "the price in force on the day of delivery holds",
            "2025-01-01",
            wordings=("valid from",),
        ),
        Column(
            "valid_to",
            "To",
            Kind.DATE,
            "last day it holds; blank until the next one starts",
            "the price in force on the day of delivery holds",
            "",
            wordings=("valid to",),
        ),
        Column(
            "document", "Document", Kind.TEXT, "the offer or letter it stands in", "it is named to the supplier", ""
        ),
    ),
    required=False,
)

SUPPLIER_TERMS = Sheet(
    name="Supplier terms",
    purpose="One row for each supplier: how it rounds, taxes, counts rent, and how long you may object.",
    columns=(
        supplier_column(required=True),
        Column(
            "objection_days",
            "Days to object",
            Kind.WHOLE,
            "days after the bill date within which a bill can be disputed, or blank",
            "each finding says how many days are left",
            "30",
            low=0,
            high=730,
        ),
        Column(
            "tax_rate",
            "Tax rate",
            Kind.SHARE,
            "a rate as 20 % or 0.2; blank when tax is not to be checked",
            "the tax on the bill must follow from it",
            "20 %",
            low=0,
            high=1,
        ),
        Column(
            "tax_way",
            "Tax is worked out",
            Kind.CHOICE,
            " or ".join(TAX_WAYS),
            "rounding line by line or once gives another last coin",
            "on the total",
            choices=TAX_WAYS,
            default="on the total",
        ),
        Column(
            "line_rounding",
            "Lines rounded to",
            Kind.NUMBER,
            "the step this supplier rounds a line to, as 0.01 or 0.05",
            "a line is wrong only when it is off by more than its rounding",
            "0.01",
            default=0.01,
            low=0,
            high=100,
        ),
        Column(
            "rent_rule",
            "Rent rule",
            Kind.CHOICE,
            "one of: " + ", ".join(RENT_RULES) + "; blank when rent is not to be checked",
            "it says how cylinders and days are counted",
            "daily on balance",
            choices=RENT_RULES,
        ),
        Column(
            "rent_period_ends",
            "Rent month ends on day",
            Kind.WHOLE,
            "the day of the month the rent period ends on, as 24 for 25th to 24th; blank for the end of the month",
            "rent and gas periods are lined up before anything is called a difference",
            "",
            low=1,
            high=28,
        ),
        Column(
            "free_days",
            "Free days",
            Kind.WHOLE,
            "days without rent after a cylinder came, or blank",
            "rent starts after them",
            "",
            default=0,
            low=0,
            high=730,
        ),
    ),
    required=False,
)
